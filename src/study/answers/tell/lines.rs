//! The rows of what stands in the lines, and of the can's drain.

use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::study::{Answers, Section};

/// The lines as a whole; none where there is nothing to tell.
pub(super) fn section(answers: &Answers) -> Option<Section> {
    let lines = &answers.lines;
    let mut section = Section::new("lines", "Breather element and lines");
    if let Some(element) = &lines.element {
        section
            .quantity("element_linear", "Breather element in use, linear part", element.linear)
            .explained_by("element");
        section.quantity("element_quadratic", "Breather element in use, quadratic part", element.quadratic);
        let pressure = Estimate::sorted(element.pressure, element.pressure, element.unfavourable);
        let label =
            format!("Breather element takes, at {}", Amount::of(element.flow).show(crate::quantity::UnitSystem::Si));
        section.estimate("element_pressure", &label, pressure, Kind::SmallPressureDifference);
    }
    for sag in &lines.sags {
        let key = format!("sag_{}", sag.line.replace([' ', '-'], "_"));
        let label = format!("Oil in the sag shuts the {} until", sag.line);
        section
            .amount(&key, &label, Amount::of_kind(sag.opens_at, Kind::SmallPressureDifference))
            .explained_by("lines");
    }
    for drain in &lines.can_drain {
        let word = drain.duty.word();
        let key = format!("can_drain_{word}");
        let label = format!("{}: head left to drain the can, high blow-by", drain.duty.name());
        match &drain.drains {
            Ok((likely, least)) => {
                let (worst, best) = (likely.margin.value.min(least.margin.value), likely.margin);
                let margin = Estimate::sorted(Measured::from_base(worst), best, best);
                section
                    .estimate(&key, &label, margin, Kind::SmallPressureDifference)
                    .explained_by(format!("can-drain/{word}"));
                let key = format!("can_drain_stands_{word}");
                let label = format!("{}: oil stands in the can's drain", drain.duty.name());
                section.amount(&key, &label, Amount::of_kind(likely.stands, Kind::Length));
            }
            Err(why) => {
                section.absent(&key, &label, why.as_str());
            }
        }
    }
    for duty in &answers.duties {
        if let Some(crossover) = duty.likely().crossover {
            let key = format!("crossover_{}", duty.duty.word());
            let label = format!("{}: flow by the cross-over hose, likely blow-by", duty.duty.name());
            let standard = crate::crankcase::blow_by::standard_volume_flow(crossover);
            section.amount(&key, &label, Amount::of(standard));
        }
    }
    (!section.rows.is_empty()).then_some(section)
}
