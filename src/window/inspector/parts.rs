//! Which inputs belong to which part of the drawing.

use crate::study::Part;

/// The inputs of a part, as beginnings of their paths.
pub(super) const fn inputs(part: Option<Part>) -> &'static [&'static str] {
    match part {
        None => &["title", "remark"],
        Some(Part::Tank) => &["tank"],
        Some(Part::Cap) => &["cap"],
        Some(Part::Thermostat) => &["thermostat"],
        Some(Part::Radiator) => &["radiator", "heater"],
        Some(Part::Engine) => &["engine", "oil", "circuit", "duty", "car"],
        Some(Part::Coolant) => &["coolant"],
        Some(Part::Surroundings) => &["surroundings"],
        Some(Part::Crankcase) => &[
            "blow_by",
            "ventilation.arrangement",
            "ventilation.source",
            "ventilation.baffle_area",
            "ventilation.second_baffle_area",
            "ventilation.mesh",
            "ventilation.crossover",
            "ventilation.wall_share",
            "ventilation.hose_share",
            "ventilation.drain_height",
            "ventilation.limits",
        ],
        Some(Part::Breather) => {
            &["ventilation.arrangement", "ventilation.breather", "ventilation.element", "ventilation.second_breather"]
        }
        Some(Part::Valve) => &["ventilation.arrangement", "ventilation.valve"],
        Some(Part::CatchCan) => &["ventilation.catch_can", "ventilation.valve_line"],
        Some(Part::CoverJoint) => &["cover_joint"],
    }
}

/// What the car does on its day, and what only that needs of it.
pub(super) const DAY: &[&str] = &["car", "day"];

/// Whether an input belongs to the day.
pub(crate) fn is_of_day(path: &str) -> bool {
    belongs_to(path, DAY)
}

/// Whether an input lies at a path or below it: "tank" holds "tank.height" but not "tanker".
fn below(path: &str, beginning: &str) -> bool {
    path.strip_prefix(beginning).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

/// Whether an input belongs to a part.
pub(super) fn belongs(path: &str, part: Option<Part>) -> bool {
    belongs_to(path, inputs(part))
}

/// Whether an input lies below one of these paths.
pub(super) fn belongs_to(path: &str, beginnings: &[&str]) -> bool {
    beginnings.iter().any(|beginning| below(path, beginning))
}

/// Where an input is found: the part that has it, the more special one first.
pub(crate) fn part_of(path: &str) -> Option<Part> {
    let order = [
        Part::Tank,
        Part::Cap,
        Part::Thermostat,
        Part::Radiator,
        Part::Engine,
        Part::Coolant,
        Part::Surroundings,
        Part::Valve,
        Part::CatchCan,
        Part::Breather,
        Part::Crankcase,
        Part::CoverJoint,
    ];
    let shared = below(path, "ventilation.arrangement");
    order.into_iter().find(|part| belongs(path, Some(*part)) && (!shared || *part == Part::Breather))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Estimate, Measured};
    use crate::study::{
        CanPlace, Choice, Count, Field, Label, Project, TankArrangement, ValveKind, VentKind, VentilationArrangement,
        Visitor, VolumeKnowledge,
    };

    /// Collects the paths of all inputs.
    #[derive(Default)]
    struct Paths {
        groups: Vec<&'static str>,
        found: Vec<String>,
    }

    impl Paths {
        fn add(&mut self, key: &'static str) {
            self.found.push(self.groups.iter().copied().chain([key]).collect::<Vec<_>>().join("."));
        }
    }

    impl Visitor for Paths {
        fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
            self.groups.push(label.key);
            body(self);
            self.groups.pop();
        }
        fn quantity<Q: Measured>(&mut self, field: &'static Field, _: &mut Q) {
            self.add(field.key);
        }
        fn optional<Q: Measured>(&mut self, field: &'static Field, _: &mut Option<Q>, _: &'static str) {
            self.add(field.key);
        }
        fn estimate<Q: Measured>(&mut self, field: &'static Field, _: &mut Option<Estimate<Q>>, _: Estimate<Q>) {
            self.add(field.key);
        }
        fn choice<C: Choice>(&mut self, label: &'static Label, _: &mut C) {
            self.add(label.key);
        }
        fn text(&mut self, label: &'static Label, _: &mut String) {
            self.add(label.key);
        }
        fn count(&mut self, count: &'static Count, _: &mut u32) {
            self.add(count.label.key);
        }
        fn switch(&mut self, label: &'static Label, _: &mut bool) {
            self.add(label.key);
        }
        fn readings<Q: Measured>(&mut self, field: &'static Field, _: &mut Vec<Q>) {
            self.add(field.key);
        }
        fn pairs<A: Measured, B: Measured>(
            &mut self,
            label: &'static Label,
            _: (&'static Field, &'static Field),
            _: &mut Vec<(A, B)>,
        ) {
            self.add(label.key);
        }
        fn list<T: Default>(&mut self, label: &'static Label, _: &mut Vec<T>, _: impl Fn(&mut T, &mut Self)) {
            self.add(label.key);
        }
    }

    #[test]
    fn every_input_can_be_reached() {
        let mut paths = Paths::default();
        let mut project = Project::blank();
        for arrangement in VentilationArrangement::ALL {
            for valve in ValveKind::ALL {
                project.ventilation.arrangement = *arrangement;
                project.ventilation.valve.kind = *valve;
                project.ventilation.can.place = CanPlace::BreatherLine;
                project.ventilation.can.volume = Some(Measured::from_base(1e-3));
                project.visit(&mut paths);
            }
        }
        for arrangement in TankArrangement::ALL {
            for vent in VentKind::ALL {
                project.tank.arrangement = *arrangement;
                project.tank.vent = *vent;
                project.visit(&mut paths);
            }
        }
        project.cover_joint.known = true;
        project.circuit.knowledge = VolumeKnowledge::BuiltUp;
        project.visit(&mut paths);
        assert!(paths.found.len() > 500);
        for path in paths.found {
            let reached = Part::ALL.iter().any(|part| belongs(&path, Some(*part))) || belongs(&path, None);
            assert!(reached || is_of_day(&path), "{path} belongs to no part");
            let found = belongs(&path, part_of(&path)) || (part_of(&path).is_none() && is_of_day(&path));
            assert!(found, "{path} is not found where it is said to be");
        }
    }

    #[test]
    fn paths_of_problems_lead_to_parts() {
        assert_eq!(part_of("tank.cold_level"), Some(Part::Tank));
        assert_eq!(part_of("ventilation.catch_can.place"), Some(Part::CatchCan));
        assert_eq!(part_of("circuit.hoses[2].bore"), Some(Part::Engine));
        assert_eq!(part_of("ventilation.arrangement"), Some(Part::Breather));
        assert_eq!(part_of("cover_joint.trial.after"), Some(Part::CoverJoint));
        assert_eq!(part_of(""), None);
        assert!(part_of("day.leg[2].speed").is_none() && is_of_day("day.leg[2].speed") && !is_of_day("daylight"));
    }
}
