//! Any project, however odd: an answer of finite numbers, or a fault that names an input.

use crate::random::{Paths, chance};
use coldmark::file::demo;
use coldmark::quantity::Amount;
use coldmark::study::{self, Answers, Problems, Project, Value};
use proptest::prelude::*;

/// Every number of the answers, with the key it stands under.
pub fn numbers(answers: &Answers) -> Vec<(String, f64)> {
    let mut all = Vec::new();
    for section in answers.sections() {
        for row in &section.rows {
            let key = format!("{}.{}", section.key, row.key);
            match &row.value {
                Value::Amount(Amount { base, .. }) => all.push((key, *base)),
                Value::Spread { low, likely, high, .. } => {
                    all.extend(
                        [("low", low), ("likely", likely), ("high", high)].map(|(n, v)| (format!("{key} {n}"), *v)),
                    );
                }
                Value::Words(_) | Value::Flag(_) | Value::Absent(_) => {}
            }
        }
    }
    for chapter in &answers.working {
        for step in &chapter.steps {
            let key = format!("{}: {} {}", chapter.key, step.meaning, step.symbol);
            all.extend(step.numbers.iter().map(|(symbol, number)| (format!("{key} with {symbol}"), number.base)));
            all.push((key, step.result.base));
        }
    }
    all
}

fn finite(answers: &Answers) -> Result<(), TestCaseError> {
    for (key, number) in numbers(answers) {
        prop_assert!(number.is_finite(), "{key} is {number}");
    }
    let mut keys = std::collections::BTreeSet::new();
    for section in answers.sections() {
        for row in &section.rows {
            let key = (section.key.clone(), row.key.clone());
            prop_assert!(keys.insert(key), "{}.{} is answered twice", section.key, row.key);
            if let Value::Spread { low, likely, high, .. } = row.value {
                prop_assert!(low <= likely && likely <= high, "{}.{}: {low} {likely} {high}", section.key, row.key);
            }
            if let Value::Absent(reason) = &row.value {
                prop_assert!(reason.len() > 10, "{}.{} is absent without a reason", section.key, row.key);
            }
        }
    }
    Ok(())
}

/// Each fault names an input or a group of inputs that the project shows, and says something.
fn names_inputs(project: &Project, problems: &Problems) -> Result<(), TestCaseError> {
    prop_assert!(!problems.0.is_empty());
    for problem in &problems.0 {
        prop_assert!(Paths::has(project, &problem.path), "no input is called {:?} ({})", problem.path, problem.message);
        prop_assert!(problem.message.len() > 10, "{}: {:?}", problem.path, problem.message);
        let lower = problem.message.to_lowercase();
        prop_assert!(!lower.contains("nan") || lower.contains("not a number"), "{}: {}", problem.path, problem.message);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, max_shrink_iters: 200, ..ProptestConfig::default() })]

    #[test]
    fn answers_or_names_the_input(chance in chance(), blank in any::<bool>()) {
        let base = if blank { Project::blank() } else { demo() };
        let project = chance.change(&base);
        match study::answer_with_working(&project) {
            Ok(answers) => finite(&answers)?,
            Err(problems) => names_inputs(&project, &problems)?,
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, max_shrink_iters: 60, ..ProptestConfig::default() })]

    /// The curves hold out wherever the answers do.
    #[test]
    fn curves_of_any_project(chance in chance()) {
        let project = chance.change(&demo());
        prop_assume!(study::answer(&project).is_ok());
        match study::curves(&project) {
            Ok(curves) => {
                prop_assert!(!curves.growth.is_empty() && !curves.blow_by.is_empty() && !curves.crankcase.is_empty());
                let growth = curves.growth.iter().flat_map(|at| {
                    [at.temperature.value, at.in_tank.low.value, at.in_tank.likely.value, at.in_tank.high.value]
                });
                let blow_by = curves.blow_by.iter().flat_map(|at| [at.rpm.value, at.blow_by.low.value, at.blow_by.high.value]);
                let gauge = curves.crankcase.iter().map(|at| at.gauge.high.above_ambient().value);
                for number in growth.chain(blow_by).chain(gauge) {
                    prop_assert!(number.is_finite());
                }
            }
            Err(problems) => names_inputs(&project, &problems)?,
        }
    }

    /// A silent scribe and a writing one see the same numbers, to the bit.
    #[test]
    fn the_working_changes_nothing(chance in chance()) {
        let project = chance.change(&demo());
        match (study::answer(&project), study::answer_with_working(&project)) {
            (Ok(silent), Ok(mut writing)) => {
                prop_assert!(silent.working.is_empty() && !writing.working.is_empty());
                writing.working.clear();
                // Equal numbers could still differ in the sign of a zero; the bits cannot.
                for (one, other) in numbers(&silent).into_iter().zip(numbers(&writing)) {
                    prop_assert!(one.1.to_bits() == other.1.to_bits(), "{}: {} and {}", one.0, one.1, other.1);
                }
                prop_assert!(silent == writing);
            }
            (Err(silent), Err(writing)) => prop_assert_eq!(silent, writing),
            (silent, writing) => prop_assert!(false, "silent {}, writing {}", silent.is_ok(), writing.is_ok()),
        }
    }
}

/// The share of projects that get an answer: were it nought, the properties above would prove nothing.
#[test]
fn many_projects_get_an_answer() {
    use proptest::strategy::ValueTree as _;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let mut answered = 0;
    let mut reasons = std::collections::BTreeMap::<String, usize>::new();
    for _ in 0..100 {
        let chance = chance().new_tree(&mut runner).unwrap().current();
        let project = chance.change(&demo());
        match study::answer(&project) {
            Ok(_) => answered += 1,
            Err(problems) => *reasons.entry(problems.0[0].path.clone()).or_default() += 1,
        }
    }
    println!("{answered} of 100 answered; faults of the others: {reasons:?}");
    assert!(answered >= 30, "{answered} of 100");
}
