//! What is weak about the properties of a coolant at one state.

use super::liquid::{HOT, STRONG, WEAK};
use super::{Base, Mix};
use crate::note::{Note, Weight};
use crate::quantity::si::ThermodynamicTemperature;
use crate::quantity::{AbsolutePressure, Measured, in_celsius};

/// Where the boiling points were fitted, Pa.
const FITTED: std::ops::RangeInclusive<f64> = 60e3..=250e3;
/// Where the curves of the pure glycols were fitted, °C.
const PURE_FITTED_FROM: f64 = -10.0;

impl Mix {
    /// Remarks on the properties at a temperature and an absolute pressure; none where the sources carry them fully.
    #[must_use]
    pub fn notes(&self, temperature: ThermodynamicTemperature, pressure: AbsolutePressure) -> Vec<Note> {
        let (t, w) = (in_celsius(temperature), self.mass_share().base());
        let mut notes = Vec::new();
        if self.base() == Base::Water || w == 0.0 {
            return notes;
        }
        let mut say = |key, text: &str| notes.push(Note::new(key, Weight::Weak, text));
        if !FITTED.contains(&pressure.base()) {
            say(
                "boiling-fit-edge",
                "The boiling point was fitted between 60 and 250 kPa absolute; outside it there is less evidence for it.",
            );
        }
        if t > HOT {
            say(
                "coolant-above-100",
                match self.base() {
                    Base::PropyleneGlycol => {
                        "Above 100 °C nothing was found to compare with: the growth of propylene glycol there may be \
                         15 % more or less, its specific heat 3 %, conductivity 5 %, viscosity 20 %."
                    }
                    _ => {
                        "Above 100 °C only the density was compared with published figures; specific heat may be off \
                         by 3 %, conductivity by 5 %, viscosity by 20 %."
                    }
                },
            );
        }
        if w > STRONG {
            say(
                "coolant-above-60",
                "Above 60 % glycol by mass the properties lie on a line to pure glycol and were not compared with \
                 measurements; no freezing point is given.",
            );
            if t < PURE_FITTED_FROM {
                say(
                    "coolant-strong-and-cold",
                    "So strong a mix below −10 °C leans on curves of pure glycol beyond their fit; its viscosity may be off \
                     by a further tenth.",
                );
            }
        }
        if w < WEAK {
            say("coolant-below-5", "Below 5 % glycol by mass the properties lie on a line between water and 5 %.");
        }
        notes
    }
}
