//! A PCV valve by its own measures: a tapered plunger in a seat, held by a spring, drawn by the depression.

use super::defaults::{annulus_discharge, back_opening};
use super::orifice::{DISCHARGE, Orifice, through};
use super::plunger::{AREA, BACK};
use super::{Ends, FlowError, Psi, Response};
use crate::quantity::si::{Area, Force, Length, Pressure, Ratio};
use crate::quantity::{Amount, Kind, Measured, Range, Stiffness};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::{ANNULUS, SPRING_BALANCE};

const DIAMETER: Range = Range::new(
    "diameter of the valve's seat or plunger",
    Kind::SmallLength,
    0.0,
    0.05,
    "measure with a calliper: seats of 5 to 12 mm are usual",
);
const TRAVEL: Range =
    Range::new("travel of the valve's plunger", Kind::SmallLength, 1.0e-4, 0.05, "3 to 10 mm are usual");
const PRELOAD: Range = Range::new(
    "preload of the valve's spring",
    Kind::Force,
    0.0,
    50.0,
    "0.1 to 1 N are usual: weigh what just begins to move the plunger",
);
const RATE: Range = Range::new(
    "rate of the valve's spring",
    Kind::Stiffness,
    1.0,
    1.0e5,
    "0.05 to 1 N/mm are usual: the spring must move for the plunger to come home",
);

/// A spring-and-plunger valve.
///
/// The depression `d` across the valve draws on the section of the plunger's thick end, the spring holds against it:
/// `d π D²/4 = F₀ + k x`, so that the plunger comes in by `x = (d π D²/4 − F₀)/k`, held between 0 and its travel `h`.
/// Its cone in the seat then has the diameter `d_x = D_t + (D − D_t) x/h`, and what is left open is the ring
/// `C_d A = C_d π/4 (D_s² − d_x²)`: wide at rest, at the end of the travel only the clearance of the thick end.
/// The pull of the moving gas, friction and the plunger's weight are left out: a dry, clean valve lying level.
///
/// At rest the plunger stands off the seat it shuts on backfire; gas that pushes back carries it there, and
/// `backfire_area` alone is open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringPlunger {
    /// Bore of the seat D_s.
    pub seat_bore: Length,
    /// Diameter of the plunger's thick end D, which is in the seat at the end of the travel.
    pub thick: Length,
    /// Diameter of its thin end D_t, which is in the seat at rest; zero when it stands clear of the seat.
    pub thin: Length,
    /// Travel h from rest to drawn home.
    pub travel: Length,
    /// Force F₀ of the spring at rest.
    pub preload: Force,
    /// Rate k of the spring.
    pub rate: Stiffness,
    /// Discharge coefficient of the ring.
    pub discharge: Ratio,
    /// Effective area when the manifold is above the crankcase; zero when the plunger seats tight.
    pub backfire_area: Area,
}

impl Default for SpringPlunger {
    /// Moves at the depressions of the generic valves, and is as wide as the one for 5.0 L.
    fn default() -> Self {
        Self {
            seat_bore: Length::from_base(8e-3),
            thick: Length::from_base(7.53e-3),
            thin: Length::from_base(6.5e-3),
            travel: Length::from_base(8e-3),
            preload: Force::from_base(0.36),
            rate: Stiffness::from_base(230.0),
            discharge: annulus_discharge().likely(),
            backfire_area: back_opening().likely(),
        }
    }
}

impl SpringPlunger {
    /// Whether every figure lies in its range, and the plunger fits its seat.
    ///
    /// # Errors
    /// When one does not, the thick end is not narrower than the seat, or the thin end is wider than the thick one.
    pub fn check(&self) -> Result<(), FlowError> {
        let seat = DIAMETER.check(self.seat_bore)?;
        let thick = DIAMETER.check(self.thick)?;
        let thin = DIAMETER.check(self.thin)?;
        TRAVEL.check(self.travel)?;
        PRELOAD.check(self.preload)?;
        RATE.check(self.rate)?;
        DISCHARGE.check(self.discharge)?;
        BACK.check(self.backfire_area)?;
        if thick >= seat || thin > thick || thick.base() <= 0.0 {
            return Err(FlowError::PlungerFit { seat, thick, thin });
        }
        AREA.check(self.idle_area())?;
        AREA.check(self.open_area())?;
        Ok(())
    }

    /// Section the depression draws on, m².
    fn section(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * self.thick.base() * self.thick.base()
    }

    /// How far the plunger has come in, m, at a depression in Pa.
    fn come_in(&self, depression: f64) -> f64 {
        ((depression * self.section() - self.preload.base()) / self.rate.base()).clamp(0.0, self.travel.base())
    }

    /// How far the depression across the valve draws the plunger in: from 0 to the travel.
    #[must_use]
    pub fn lift(&self, depression: Pressure) -> Length {
        Length::from_base(self.come_in(depression.base()))
    }

    /// Depression at which the plunger begins to move: `F₀/(π D²/4)`.
    #[must_use]
    pub fn begins(&self) -> Pressure {
        Pressure::from_base(self.preload.base() / self.section())
    }

    /// Depression at which it has come home: `(F₀ + k h)/(π D²/4)`; above the air's pressure it never does.
    #[must_use]
    pub fn ends(&self) -> Pressure {
        Pressure::from_base((self.preload.base() + self.rate.base() * self.travel.base()) / self.section())
    }

    /// Effective area at rest.
    #[must_use]
    pub fn open_area(&self) -> Area {
        Area::from_base(self.ring(0.0))
    }

    /// Effective area when drawn home.
    #[must_use]
    pub fn idle_area(&self) -> Area {
        Area::from_base(self.ring(self.travel.base()))
    }

    /// The ring left open, m² with its discharge coefficient, with the plunger in by so many metres.
    fn ring(&self, lift: f64) -> f64 {
        let (seat, thin) = (self.seat_bore.base(), self.thin.base());
        let here = thin + (self.thick.base() - thin) * lift / self.travel.base();
        self.discharge.base() * std::f64::consts::FRAC_PI_4 * (seat - here) * (seat + here)
    }

    /// The effective area in m² with the flow, at a depression in Pa.
    pub(super) fn area(&self, depression: f64) -> f64 {
        self.ring(self.come_in(depression))
    }

    /// Writes where the plunger begins to move and where it has come home.
    pub fn explain(&self, scribe: &mut impl Scribe) {
        let section = Area::from_base(self.section());
        scribe.step(|| {
            Step::new("depression at which the plunger begins to move", "d₁", "F₀/(π D²/4)", &SPRING_BALANCE)
                .with("F₀", self.preload)
                .with_amount("π D²/4", Amount::of_kind(section, Kind::SmallArea))
                .gives_amount(Amount::of_kind(self.begins(), Kind::PressureDifference))
        });
        scribe.step(|| {
            Step::new("depression at which the plunger has come home", "d₂", "(F₀ + k h)/(π D²/4)", &SPRING_BALANCE)
                .with("F₀", self.preload)
                .with("k", self.rate)
                .with_amount("h", Amount::of_kind(self.travel, Kind::SmallLength))
                .with_amount("π D²/4", Amount::of_kind(section, Kind::SmallArea))
                .gives_amount(Amount::of_kind(self.ends(), Kind::PressureDifference))
        });
        for (meaning, end, area) in [
            ("opening at rest", self.thin, self.open_area()),
            ("opening with the plunger drawn home", self.thick, self.idle_area()),
        ] {
            scribe.step(|| {
                Step::new(meaning, "C_d A", "C_d π/4 (D_s² − d_x²)", &ANNULUS)
                    .with("C_d", self.discharge)
                    .with_amount("D_s", Amount::of_kind(self.seat_bore, Kind::SmallLength))
                    .with_amount("d_x", Amount::of_kind(end, Kind::SmallLength))
                    .gives_amount(Amount::of_kind(area, Kind::SmallArea))
            });
        }
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, psi: &Psi, opening: f64, scribe: &mut impl Scribe) -> Response {
        let Ends { first, second, warmth } = ends;
        if first < second {
            return Orifice { effective_area: self.backfire_area }.response(ends, psi, scribe);
        }
        scribe.step(|| {
            Step::new("how far the plunger has come in", "x", "(d π D²/4 − F₀)/k within 0 to h", &SPRING_BALANCE)
                .with_amount("d", Amount::new(first - second, Kind::PressureDifference))
                .with_amount("π D²/4", Amount::new(self.section(), Kind::SmallArea))
                .with("F₀", self.preload)
                .with("k", self.rate)
                .with_amount("h", Amount::of_kind(self.travel, Kind::SmallLength))
                .gives_amount(Amount::new(self.come_in(first - second), Kind::SmallLength))
        });
        scribe.step(|| {
            Step::new(
                "opening of the spring-and-plunger valve",
                "C_d A",
                "C_d π/4 (D_s² − (D_t + (D − D_t) x/h)²)",
                &ANNULUS,
            )
            .with("C_d", self.discharge)
            .with_amount("D_s", Amount::of_kind(self.seat_bore, Kind::SmallLength))
            .with_amount("D", Amount::of_kind(self.thick, Kind::SmallLength))
            .with_amount("D_t", Amount::of_kind(self.thin, Kind::SmallLength))
            .gives(Area::from_base(opening))
        });
        through(opening, first, second, &warmth[0], psi, scribe)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_one_is_sound_and_moves_where_the_generic_ones_do() {
        let valve = SpringPlunger::default();
        valve.check().unwrap();
        assert!((valve.begins().base() / 8e3 - 1.0).abs() < 0.02, "{:?}", valve.begins());
        assert!((valve.ends().base() / 50e3 - 1.0).abs() < 0.02, "{:?}", valve.ends());
        assert!((valve.open_area().base() / 12e-6 - 1.0).abs() < 0.02, "{:?}", valve.open_area());
        assert!((valve.idle_area().base() / 4e-6 - 1.0).abs() < 0.02, "{:?}", valve.idle_area());
    }
}
