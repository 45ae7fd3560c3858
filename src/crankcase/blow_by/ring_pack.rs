//! Level 3, the holes: end gaps and land clearances, from cold to hot.

use super::through::in_order;
use super::{BlowByError, Condition, defaults};
use crate::crankcase::cylinder::Geometry;
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, Length, Ratio, TemperatureCoefficient, ThermodynamicTemperature as Temperature};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::Assumed;
use crate::source::crankcase::blow_by as source;
use std::f64::consts::PI;

/// Temperature at which gaps and clearances are measured, K.
const COLD: f64 = 293.15;

/// End gaps that can be measured.
pub static GAP: Range =
    Range::new("ring end gap", Kind::SmallLength, 0.0, 5e-3, "measured cold with the ring square in its bore");
/// Clearances that can be measured.
pub static CLEARANCE: Range = Range::new(
    "radial land clearance",
    Kind::SmallLength,
    0.0,
    3e-3,
    "half of bore less land diameter, cold; the land below the ring concerned",
);

/// Two rings and their lands, one value each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingPack {
    /// End gap of the top ring in its bore, cold (20 °C).
    pub top_gap: Length,
    /// End gap of the second ring, cold.
    pub second_gap: Length,
    /// Radial clearance of the land below the top ring, cold.
    pub top_clearance: Length,
    /// Radial clearance of the land below the second ring, cold.
    pub second_clearance: Length,
    /// Slit around the whole ring that stands for face and side leakage.
    pub side_slit: Length,
    /// Discharge coefficient of a gap.
    pub discharge: Ratio,
    /// Temperature of the top ring.
    pub top_ring: Temperature,
    /// Temperature of the second ring.
    pub second_ring: Temperature,
    /// Temperature of the land below the top ring.
    pub top_land: Temperature,
    /// Temperature of the land below the second ring.
    pub second_land: Temperature,
    /// Temperature of the bore.
    pub bore_wall: Temperature,
    /// Expansion of rings and bore.
    pub iron: TemperatureCoefficient,
    /// Expansion of the piston.
    pub piston: TemperatureCoefficient,
}

/// Two rings and their lands with their spread.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)] // As in `RingPack`.
pub struct RingPackFigures {
    pub top_gap: Estimate<Length>,
    pub second_gap: Estimate<Length>,
    pub top_clearance: Estimate<Length>,
    pub second_clearance: Estimate<Length>,
    pub side_slit: Estimate<Length>,
    pub discharge: Estimate<Ratio>,
    pub top_ring: Estimate<Temperature>,
    pub second_ring: Estimate<Temperature>,
    pub top_land: Estimate<Temperature>,
    pub second_land: Estimate<Temperature>,
    pub bore_wall: Estimate<Temperature>,
    pub iron: Estimate<TemperatureCoefficient>,
    pub piston: Estimate<TemperatureCoefficient>,
}

fn scaled(ratio: &Assumed<Ratio>, bore: Length, more: Estimate<Length>) -> Estimate<Length> {
    let shares = ratio.estimate;
    Estimate {
        low: bore * shares.low + more.low,
        likely: bore * shares.likely + more.likely,
        high: bore * shares.high + more.high,
    }
}

impl RingPackFigures {
    /// What is assumed of an engine of this bore and condition.
    #[must_use]
    pub fn of(condition: Condition, bore: Length) -> Self {
        let none = Estimate::exact(Length::from_base(0.0));
        let wear = if condition == Condition::Worn { defaults::worn_gap().estimate } else { none };
        let clearance = scaled(&defaults::clearance_over_bore(), bore, none);
        Self {
            top_gap: scaled(&defaults::top_gap_over_bore(), bore, wear),
            second_gap: scaled(&defaults::second_gap_over_bore(), bore, wear),
            top_clearance: clearance,
            second_clearance: clearance,
            side_slit: defaults::side_slit(condition).estimate,
            discharge: defaults::gap_discharge().estimate,
            top_ring: defaults::top_ring().estimate,
            second_ring: defaults::second_ring().estimate,
            top_land: defaults::top_land().estimate,
            second_land: defaults::second_land().estimate,
            bore_wall: defaults::bore_wall().estimate,
            iron: defaults::iron_expansion().estimate,
            piston: defaults::piston_expansion().estimate,
        }
    }

    /// The pack to expect.
    #[must_use]
    pub const fn likely(&self) -> RingPack {
        RingPack {
            top_gap: self.top_gap.likely,
            second_gap: self.second_gap.likely,
            top_clearance: self.top_clearance.likely,
            second_clearance: self.second_clearance.likely,
            side_slit: self.side_slit.likely,
            discharge: self.discharge.likely,
            top_ring: self.top_ring.likely,
            second_ring: self.second_ring.likely,
            top_land: self.top_land.likely,
            second_land: self.second_land.likely,
            bore_wall: self.bore_wall.likely,
            iron: self.iron.likely,
            piston: self.piston.likely,
        }
    }

    /// The tight and the loose pack: gaps, clearances, slit and discharge at their ends together. Temperatures and
    /// expansions stay at their likely values: all thirteen ends at once would close every gap or open all of them.
    #[must_use]
    pub const fn ends(&self) -> (RingPack, RingPack) {
        let low = RingPack {
            top_gap: self.top_gap.low,
            second_gap: self.second_gap.low,
            top_clearance: self.top_clearance.low,
            second_clearance: self.second_clearance.low,
            side_slit: self.side_slit.low,
            discharge: self.discharge.low,
            ..self.likely()
        };
        let high = RingPack {
            top_gap: self.top_gap.high,
            second_gap: self.second_gap.high,
            top_clearance: self.top_clearance.high,
            second_clearance: self.second_clearance.high,
            side_slit: self.side_slit.high,
            discharge: self.discharge.high,
            ..self.likely()
        };
        (low, high)
    }

    /// Whether every value lies in its range, and low, likely and high in order.
    ///
    /// # Errors
    /// The first that does not.
    pub fn check(&self) -> Result<(), BlowByError> {
        in_order(&self.top_gap, &GAP)?;
        in_order(&self.second_gap, &GAP)?;
        in_order(&self.top_clearance, &CLEARANCE)?;
        in_order(&self.second_clearance, &CLEARANCE)?;
        in_order(&self.side_slit, &defaults::side_slit(Condition::Worn).range)?;
        in_order(&self.discharge, &defaults::gap_discharge().range)?;
        in_order(&self.top_ring, &defaults::top_ring().range)?;
        in_order(&self.second_ring, &defaults::second_ring().range)?;
        in_order(&self.top_land, &defaults::top_land().range)?;
        in_order(&self.second_land, &defaults::second_land().range)?;
        in_order(&self.bore_wall, &defaults::bore_wall().range)?;
        in_order(&self.iron, &defaults::iron_expansion().range)?;
        in_order(&self.piston, &defaults::piston_expansion().range)
    }
}

/// One hot gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// End gap of the ring; zero when its ends touch.
    pub gap: Length,
    /// Radial clearance of the land below it; zero when the land touches.
    pub clearance: Length,
    /// Effective area, discharge included.
    pub area: Area,
}

/// Both hot gaps.
#[derive(Clone, Debug, PartialEq)]
pub struct HotGaps {
    /// Top ring.
    pub top: Gap,
    /// Second ring.
    pub second: Gap,
    /// "ring-ends-touch" and "land-touches": reckoned as no gap, but the engine would seize.
    pub notes: Vec<Note>,
}

/// Gaps and clearances of the warm engine:
/// `g = g₀ − πB[α_r(T_r − 20 °C) − α_b(T_b − 20 °C)]`, `c = c₀ − (B/2)[α_p(T_l − 20 °C) − α_b(T_b − 20 °C)]`,
/// `C_dA = C_d (g c + πB δ)`. A gap or clearance that would be negative counts as none, with a note of danger.
///
/// # Errors
/// A value outside its range.
pub fn hot_gaps(pack: &RingPack, geometry: &Geometry, scribe: &mut impl Scribe) -> Result<HotGaps, BlowByError> {
    geometry.check()?;
    check(pack)?;
    let bore = geometry.bore.base();
    let mut notes = Vec::new();
    let wall = pack.iron.base() * (pack.bore_wall.base() - COLD);
    let mut hot = |name: &'static str, gap: Length, ring: Temperature, clearance: Length, land: Temperature| {
        let around = PI * bore;
        let open = gap.base() - around * (pack.iron.base() * (ring.base() - COLD) - wall);
        let below = clearance.base() - bore / 2.0 * (pack.piston.base() * (land.base() - COLD) - wall);
        if open <= 0.0 {
            let text = format!(
                "The ends of the {name} ring touch when hot ({:.2} mm too little): a ring that butts breaks and scores the \
                 bore. Check the gap before the engine runs.",
                -1e3 * open
            );
            notes.push(Note::new("ring-ends-touch", Weight::Danger, text));
        }
        if below <= 0.0 {
            let text = format!(
                "The land below the {name} ring touches the bore when hot: the piston would seize. Check the clearance."
            );
            notes.push(Note::new("land-touches", Weight::Danger, text));
        }
        let (open, below) = (open.max(0.0), below.max(0.0));
        let area = pack.discharge.base() * (open * below + around * pack.side_slit.base());
        let found =
            Gap { gap: Length::from_base(open), clearance: Length::from_base(below), area: Area::from_base(area) };
        let small = |length: Length| Amount::of_kind(length, Kind::SmallLength);
        scribe.step(|| {
            Step::new(
                "end gap when hot",
                "g",
                "g = g₀ − πB[α_r(T_r − 20 °C) − α_b(T_b − 20 °C)]",
                &source::RING_EXPANSION,
            )
            .with_amount("g₀", small(gap))
            .with("B", geometry.bore)
            .with("α_r = α_b", pack.iron)
            .with("T_r", ring)
            .with("T_b", pack.bore_wall)
            .gives_amount(small(found.gap))
        });
        scribe.step(|| {
            Step::new(
                "radial land clearance when hot",
                "c",
                "c = c₀ − (B/2)[α_p(T_l − 20 °C) − α_b(T_b − 20 °C)]",
                &source::RING_EXPANSION,
            )
            .with_amount("c₀", small(clearance))
            .with("α_p", pack.piston)
            .with("T_l", land)
            .gives_amount(small(found.clearance))
        });
        scribe.step(|| {
            Step::new("effective area of the gap", "C_dA", "C_dA = C_d (g c + πB δ)", &source::RING_FIGURES)
                .with("C_d", pack.discharge)
                .with_amount("δ", Amount::new(pack.side_slit.base(), Kind::SmallLength))
                .gives(found.area)
        });
        found
    };
    let top = hot("top", pack.top_gap, pack.top_ring, pack.top_clearance, pack.top_land);
    let second = hot("second", pack.second_gap, pack.second_ring, pack.second_clearance, pack.second_land);
    Ok(HotGaps { top, second, notes })
}

fn check(pack: &RingPack) -> Result<(), BlowByError> {
    let exact = RingPackFigures {
        top_gap: Estimate::exact(pack.top_gap),
        second_gap: Estimate::exact(pack.second_gap),
        top_clearance: Estimate::exact(pack.top_clearance),
        second_clearance: Estimate::exact(pack.second_clearance),
        side_slit: Estimate::exact(pack.side_slit),
        discharge: Estimate::exact(pack.discharge),
        top_ring: Estimate::exact(pack.top_ring),
        second_ring: Estimate::exact(pack.second_ring),
        top_land: Estimate::exact(pack.top_land),
        second_land: Estimate::exact(pack.second_land),
        bore_wall: Estimate::exact(pack.bore_wall),
        iron: Estimate::exact(pack.iron),
        piston: Estimate::exact(pack.piston),
    };
    exact.check()
}
