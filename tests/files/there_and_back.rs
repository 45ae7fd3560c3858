//! Whatever lies in range is written and read back the same, and no text makes the reader fall over.

use crate::recorder::record;
use coldmark::file::{Preset, read_project, write_project};
use coldmark::quantity::{Estimate, Measured, Range, UnitSystem};
use coldmark::study::{Choice, Count, Field, Label, Project, Visitor};
use proptest::prelude::*;

const DEMO: &str = include_str!("../../presets/demo.toml");

/// Gives every input some value in its range, both ends included.
struct Dice(u64);

impl Dice {
    /// SplitMix64 (Steele, Lea and Flood 2014), seeded by proptest.
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, most: usize) -> usize {
        (self.next() % most as u64) as usize
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        let share = (self.next() >> 11) as f64 / (1_u64 << 53) as f64;
        (low + share * (high - low)).clamp(low, high)
    }

    fn base(&mut self, range: &Range) -> f64 {
        match self.below(12) {
            0 => range.low,
            1 => range.high,
            // A round figure as people type them.
            2..=5 => {
                let value = self.between(range.low, range.high);
                format!("{value:.2e}").parse::<f64>().unwrap().clamp(range.low, range.high)
            }
            _ => self.between(range.low, range.high),
        }
    }

    fn of<Q: Measured>(&mut self, field: &Field) -> Q {
        Q::from_base(self.base(&field.range))
    }
}

impl Visitor for Dice {
    fn group(&mut self, _: &'static Label, body: impl FnOnce(&mut Self)) {
        body(self);
    }
    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        *value = self.of(field);
    }
    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _: &'static str) {
        *value = if self.below(2) == 0 { None } else { Some(self.of(field)) };
    }
    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _: Estimate<Q>) {
        *value = match self.below(3) {
            0 => None,
            1 => Some(Estimate::exact(self.of(field))),
            _ => {
                let mut three = [self.base(&field.range), self.base(&field.range), self.base(&field.range)];
                three.sort_by(f64::total_cmp);
                let [low, likely, high] = three.map(Q::from_base);
                Estimate::new(low, likely, high)
            }
        };
    }
    fn choice<C: Choice>(&mut self, _: &'static Label, value: &mut C) {
        *value = C::ALL[self.below(C::ALL.len())];
    }
    fn text(&mut self, _: &'static Label, value: &mut String) {
        const ODD: [char; 16] =
            ['a', ' ', '"', '\\', '\n', '\r', '\t', '\'', '#', '=', '[', '°', '\u{0}', '\u{1f}', '\u{7f}', '🜄'];
        let length = self.below(30);
        *value = (0..length).map(|_| ODD[self.below(ODD.len())]).collect();
    }
    fn count(&mut self, count: &'static Count, value: &mut u32) {
        *value = count.low + self.below((count.high - count.low + 1) as usize) as u32;
    }
    fn switch(&mut self, _: &'static Label, value: &mut bool) {
        *value = self.below(2) == 0;
    }
    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        *value = (0..self.below(9)).map(|_| self.of(field)).collect();
    }
    fn pairs<A: Measured, B: Measured>(
        &mut self,
        _: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        let rows = 4 + self.below(5);
        let mut column = |field: &Field| {
            let mut column: Vec<_> = (0..rows).map(|_| self.base(&field.range)).collect();
            column.sort_by(f64::total_cmp);
            column
        };
        let (a, b) = (column(columns.0), column(columns.1));
        *value = a.into_iter().zip(b).map(|(a, b)| (A::from_base(a), B::from_base(b))).collect();
    }
    fn list<T: Default>(&mut self, _: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        *value = (0..self.below(5)).map(|_| T::default()).collect();
        for one in value {
            item(one, self);
        }
    }
}

/// A project of random values, each in its range.
fn any_project() -> impl Strategy<Value = Project> {
    any::<u64>().prop_map(|seed| {
        let mut project = Project::blank();
        project.visit(&mut Dice(seed));
        project
    })
}

/// Makes the values of one project agree, so that only the text is on trial.
fn agreed(project: &mut Project) {
    use coldmark::study::{CanPlace, CoverJointInputs, Surroundings};
    let blank = Project::blank();
    project.engine = blank.engine;
    project.surroundings = Surroundings { altitude: project.surroundings.altitude, ..blank.surroundings };
    project.circuit.engine_share = None;
    project.circuit.radiator_share = None;
    project.tank.cold_level = None;
    project.tank.tube_end = Measured::from_base(0.005);
    project.tank.tube_ahead = Measured::from_base(0.0);
    project.tank.tube_right = Measured::from_base(0.0);
    project.ventilation.can.place = CanPlace::None;
    project.ventilation.breather.barb = None;
    project.ventilation.second.barb = None;
    project.ventilation.valve_line.barb = None;
    project.ventilation.breather.inline = blank.ventilation.breather.inline;
    // Rows that are no element are told elsewhere.
    project.ventilation.element.points = blank.ventilation.element.points;
    project.ventilation.valve.open_area = blank.ventilation.valve.open_area;
    project.ventilation.valve.idle_area = blank.ventilation.valve.idle_area;
    project.ventilation.valve.begins = blank.ventilation.valve.begins;
    project.ventilation.valve.ends = blank.ventilation.valve.ends;
    project.ventilation.valve.open_area = blank.ventilation.valve.open_area;
    project.ventilation.valve.idle_area = blank.ventilation.valve.idle_area;
    project.blow_by.leak_down.clear();
    let (cool, hot) = (project.oil.at_40(), project.oil.at_100());
    if [(cool.low, hot.low), (cool.likely, hot.likely), (cool.high, hot.high)].iter().any(|(c, h)| *c < 1.5 * *h) {
        project.oil.viscosity_40 = None;
    }
    project.car.gears = blank.car.gears;
    project.car.highest_speed = None;
    project.car.lugging_speed = None;
    let (core, usual) = (&mut project.radiator.core, blank.radiator.core);
    core.tube_width = usual.tube_width;
    core.tube_thickness = usual.tube_thickness;
    core.tube_pitch = usual.tube_pitch;
    core.tube_wall = usual.tube_wall;
    core.depth = Measured::from_base(0.15);
    core.fin_pitch = usual.fin_pitch;
    core.fin_thickness = usual.fin_thickness;
    project.radiator.fan.curve = blank.radiator.fan.curve;
    project.radiator.fan.switch_off = None;
    let joint = blank.cover_joint;
    project.cover_joint = CoverJointInputs {
        known: project.cover_joint.known,
        thread: project.cover_joint.thread,
        torque: project.cover_joint.torque,
        wire_insert: project.cover_joint.wire_insert,
        layers: project.cover_joint.layers,
        trial: project.cover_joint.trial,
        screw_length: Measured::from_base(0.035),
        hole_depth: Measured::from_base(0.03),
        ..joint
    };
    let rising = |column: &mut dyn FnMut(usize) -> f64, rows: usize| (1..rows).all(|row| column(row) > column(row - 1));
    let dips = &project.tank.dips;
    if !rising(&mut |row| dips[row].0.base(), dips.len()) || !rising(&mut |row| dips[row].1.base(), dips.len()) {
        project.tank.dips = blank.tank.dips;
    }
    let (valve, usual) = (&mut project.ventilation.valve, blank.ventilation.valve);
    let table = &valve.bench.table;
    if !rising(&mut |row| table[row].0.base(), table.len()) {
        valve.bench.table = usual.bench.table;
    }
    let drops = &valve.bench.drops;
    if !rising(&mut |row| drops[row].0.base(), drops.len()) {
        valve.bench.drops = usual.bench.drops;
    }
    let spring = &usual.spring;
    valve.spring.seat_bore = spring.seat_bore;
    valve.spring.thick = spring.thick;
    valve.spring.thin = spring.thin;
    valve.spring.discharge = None;
    valve.backfire_area = None;
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Bit for bit, in either unit system, and a second writing gives the same text.
    #[test]
    fn a_project_reads_back_the_same(mut project in any_project()) {
        agreed(&mut project);
        prop_assert!(project.check().is_ok(), "{:?}", project.check());
        for units in [UnitSystem::Si, UnitSystem::Us] {
            let text = write_project(&project, units);
            let read = read_project(&text);
            prop_assert!(read.is_ok(), "{text}\n{:#?}", read.err());
            let read = read.unwrap();
            prop_assert_eq!(record(&read), record(&project));
            prop_assert_eq!(write_project(&read, units), text);
        }
    }

    /// Values that lie in range but do not agree are told with a place, and what was read is never half.
    #[test]
    fn a_project_whose_values_do_not_agree_is_told(project in any_project()) {
        let read = read_project(&write_project(&project, UnitSystem::Si));
        match (project.check(), read) {
            (Ok(()), read) => prop_assert_eq!(read.map(|read| record(&read)), Ok(record(&project))),
            (Err(problems), Err(faults)) => {
                prop_assert_eq!(problems.0.len(), faults.len());
                for fault in faults {
                    prop_assert!(!fault.message.is_empty() && !fault.path.is_empty());
                    prop_assert!(fault.line.is_some(), "{fault}");
                }
            }
            (Err(problems), Ok(_)) => prop_assert!(false, "read in spite of {problems}"),
        }
    }

    /// Bytes of the example changed, struck out or doubled at random.
    #[test]
    fn no_change_of_bytes_makes_the_reader_fall_over(
        changes in prop::collection::vec((0..DEMO.len(), any::<u8>(), 0..4_u8), 1..40),
        line_first in any::<bool>(),
    ) {
        let mut bytes = DEMO.as_bytes().to_vec();
        for (at, byte, how) in changes {
            let at = at % bytes.len().max(1);
            match how {
                0 => bytes[at] = byte,
                1 => drop(bytes.remove(at)),
                2 => bytes.insert(at, byte),
                // A piece from elsewhere, so that whole lines stand twice or in the wrong part.
                _ => {
                    let piece = bytes[at..(at + usize::from(byte)).min(bytes.len())].to_vec();
                    let to = if line_first { 0 } else { bytes.len() / 2 };
                    bytes.splice(to..to, piece);
                }
            }
        }
        let text = String::from_utf8_lossy(&bytes);
        told_or_sound(&text)?;
    }

    /// Lines of the example with a random value in the place of the right one.
    #[test]
    fn no_value_makes_the_reader_fall_over(line in 0..DEMO.lines().count(), value in "\\PC{0,12}|[\\[\\]{}\"'0-9a-z.,_ -]{0,20}") {
        let text = with_value(line, &value);
        told_or_sound(&text)?;
        told_or_sound(&with_value(line, &format!("\"{value}\"")))?;
    }
}

fn with_value(line: usize, value: &str) -> String {
    let lines = DEMO.lines().enumerate().map(|(number, text)| match text.split_once(" = ") {
        Some((key, _)) if number == line => format!("{key} = {value}"),
        _ => text.to_owned(),
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// A text is either a sound project, or its faults each have words and a line that exists.
fn told_or_sound(text: &str) -> Result<(), TestCaseError> {
    let lines = text.lines().count().max(1);
    match read_project(text) {
        Ok(project) => prop_assert!(project.check().is_ok()),
        Err(faults) => {
            prop_assert!(!faults.is_empty());
            for fault in faults {
                prop_assert!(!fault.message.is_empty());
                prop_assert!(fault.line.is_none_or(|line| (1..=lines + 1).contains(&line)), "{fault}");
            }
        }
    }
    // A preset is read by the same reader.
    prop_assert!(Preset::read("any", text).is_err());
    Ok(())
}

/// Deep and long texts end in a fault, not in a full stack or a long wait.
#[test]
fn deep_and_long_texts_are_told() {
    let start = std::time::Instant::now();
    for odd in ["[".repeat(200_000), "a.".repeat(100_000), "x = {a=".repeat(50_000), "x = \"".to_owned()] {
        let faults = read_project(&format!("coldmark_format = 1\n{odd}")).unwrap_err();
        assert!(!faults.is_empty());
    }
    let many: String = (0..20_000).map(|number| format!("k{number} = 1\n")).collect();
    let faults = read_project(&format!("coldmark_format = 1\n{many}")).unwrap_err();
    assert!(faults.len() > 20_000);
    let long = "y".repeat(500_000);
    let faults = read_project(&format!("coldmark_format = 1\n{long} = 1\n[tank]\nshape = \"{long}\"\n")).unwrap_err();
    assert!(faults.iter().all(|fault| fault.to_string().len() < 1000));
    assert!(start.elapsed().as_secs() < 60, "{:?}", start.elapsed());
}
