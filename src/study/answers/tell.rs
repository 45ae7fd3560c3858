//! Answers as sections of rows: what the command line, JSON and the inspectors read.

mod blow_by;
mod coolant;
mod crankcase;
pub(in crate::study) mod day;
mod heat;
mod joint;
mod json;
mod lines;
mod moisture;
mod oil;
mod radiator;
mod valve;

pub use day::{COLUMNS, Column, clock};
pub use json::{chapter_json, taken_json, verdict_json};

use super::{Answers, DutyAnswers, SetPointAnswers};
use crate::study::{Failure, Part, Section};
use blow_by::narrow_section;
use coolant::{heat_section, set_point_section};
use crankcase::crankcase_section;
use joint::joint_section;

impl Answers {
    /// Every answer, in sections.
    #[must_use]
    pub fn sections(&self) -> Vec<Section> {
        let mut sections =
            vec![self.surroundings(), self.coolant_section(), self.growth_section(), self.tank_section()];
        sections.extend(self.vent_section());
        sections.push(self.rest_section());
        sections.push(radiator::section(self));
        sections.extend(self.duties.iter().map(|duty| self.duty_section(duty)));
        sections.push(heat::oil_section(self));
        sections.push(narrow_section(&self.narrow));
        sections.extend(lines::section(self));
        sections.push(moisture::short_trips(self));
        sections.extend(oil::cans(self));
        sections.extend(valve::sections(self));
        sections.extend(self.cover_joint.as_ref().map(joint_section));
        for row in &self.set_points {
            let mut section = set_point_section(row);
            // The one fitted may lie within a degree of one commonly sold: two answers must not share a key.
            let degree = |row: &SetPointAnswers| (row.set_point.value - 273.15).round();
            if row.fitted && self.set_points.iter().any(|other| !other.fitted && degree(other) == degree(row)) {
                section.key.push_str("_fitted");
            }
            sections.push(section);
        }
        if !self.set_points.is_empty() {
            sections.push(self.set_point_comparison());
        }
        sections
    }

    /// The sections that belong to a part of the drawing.
    #[must_use]
    pub fn sections_of(&self, part: Part) -> Vec<Section> {
        match part {
            Part::Surroundings => vec![self.surroundings()],
            Part::Coolant | Part::Cap => vec![self.coolant_section()],
            Part::Engine => vec![self.growth_section(), heat::oil_section(self)],
            Part::Tank => {
                let mut sections = vec![self.tank_section(), self.growth_section()];
                sections.extend(self.vent_section());
                sections
            }
            Part::Thermostat => self.duties.iter().map(heat_section).collect(),
            Part::Radiator => {
                std::iter::once(radiator::section(self)).chain(self.duties.iter().map(heat_section)).collect()
            }
            Part::Crankcase | Part::Breather | Part::Valve | Part::CatchCan => {
                let mut sections = match part {
                    Part::Valve => valve::sections(self),
                    Part::Breather => valve::failures(self, |failure| failure == Failure::BreatherBlocked),
                    _ => Vec::new(),
                };
                if part == Part::CatchCan {
                    sections.extend(self.duties.iter().map(|duty| self.oil(duty)));
                } else {
                    sections.extend(self.duties.iter().map(crankcase_section));
                }
                if part == Part::Crankcase {
                    sections.extend(self.duties.iter().map(|duty| self.water(duty)));
                    sections.extend(self.duties.iter().map(|duty| self.oil(duty)));
                    sections.push(narrow_section(&self.narrow));
                }
                let wanted = |section: &Section| match part {
                    Part::Crankcase => section.key == "short_trips",
                    Part::CatchCan => section.key.starts_with("can_"),
                    _ => false,
                };
                sections.extend(lines::section(self).filter(|_| matches!(part, Part::Breather | Part::CatchCan)));
                let wet = std::iter::once(moisture::short_trips(self)).chain(oil::cans(self));
                sections.extend(wet.filter(wanted));
                sections
            }
            Part::CoverJoint => self.cover_joint.iter().map(joint_section).collect(),
        }
    }

    fn duty_section(&self, duty: &DutyAnswers) -> Section {
        let mut section = heat_section(duty);
        section.key = duty.duty.word().to_owned();
        section.title = duty.duty.name().to_owned();
        section.rows.extend(crankcase_section(duty).rows);
        moisture::of_duty(self, duty.duty, &mut section);
        oil::of_duty(self, duty.duty, &mut section);
        section
    }

    fn water(&self, duty: &DutyAnswers) -> Section {
        let title = format!("{}: water and fuel in the gas", duty.duty.name());
        let mut section = Section::new(format!("water_{}", duty.duty.word()), title).aside();
        moisture::of_duty(self, duty.duty, &mut section);
        section
    }

    fn oil(&self, duty: &DutyAnswers) -> Section {
        let title = format!("{}: oil, its way back and out", duty.duty.name());
        let mut section = Section::new(format!("oil_{}", duty.duty.word()), title).aside();
        oil::of_duty(self, duty.duty, &mut section);
        section
    }
}
