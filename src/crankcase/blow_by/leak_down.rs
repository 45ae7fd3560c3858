//! Level 2: a leak-down test, read in each cylinder.

use super::defaults::{restrictor_discharge, ring_share, running_to_standing};
use super::through::in_order;
use super::{BlowByError, Condition, defaults};
use crate::crankcase::cylinder::Geometry;
use crate::crankcase::cylinder::defaults::AMBIENT;
use crate::crankcase::flow_function::FlowFunction;
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, Length, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::blow_by as source;
use std::f64::consts::PI;

/// Ratio of specific heats of the cold air of the test.
const COLD_AIR: f64 = 1.4;
/// Readings up to this are at the limit of the gauges, and the band put on them then.
const GAUGE_LIMIT: f64 = 0.02;
const GAUGE_BAND: f64 = 0.01;
/// From the limit the band fades to nothing at this reading, so that no reading jumps.
const GAUGE_SURE: f64 = 0.03;

/// The band of a reading, either way.
fn gauge_band(loss: f64) -> f64 {
    GAUGE_BAND * ((GAUGE_SURE - loss) / (GAUGE_SURE - GAUGE_LIMIT)).clamp(0.0, 1.0)
}

/// Bores of the tester's restrictor.
pub static RESTRICTOR: Range = Range::new(
    "restrictor bore of the tester",
    Kind::SmallLength,
    0.3e-3,
    5e-3,
    "ask the maker of the tester; 1.016 mm (0.040 in) is usual for bores below 127 mm",
);
/// Supply pressures of the test.
pub static SUPPLY: Range =
    Range::new("supply pressure of the test", Kind::GaugePressure, 50e3, 1.2e6, "80 psi (552 kPa) is usual");
/// Losses that can be read.
pub static READING: Range = Range::new(
    "loss",
    Kind::Share,
    0.0,
    0.95,
    "above 95 % the cylinder holds nothing: a valve stands open or the piston is away from dead centre",
);

/// How the test was made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakDownTest {
    /// Bore of the restrictor between the two gauges.
    pub restrictor: Length,
    /// Its discharge coefficient; default [`restrictor_discharge`].
    pub discharge: Estimate<Ratio>,
    /// Pressure before the restrictor.
    pub supply: GaugePressure,
    /// Pressure of the air outside.
    pub ambient: AbsolutePressure,
    /// Share of the leak that goes to the crankcase, not past valves or gasket; default [`ring_share`].
    pub ring_share: Estimate<Ratio>,
    /// Leak of the running over that of the standing engine; default [`running_to_standing`].
    pub running_to_standing: Estimate<Ratio>,
}

impl LeakDownTest {
    /// The usual test on an engine of this bore, at this ambient pressure.
    #[must_use]
    pub fn usual(bore: Length, ambient: AbsolutePressure) -> Self {
        Self {
            restrictor: restrictor_for(bore),
            discharge: restrictor_discharge().estimate,
            supply: defaults::supply().likely(),
            ambient,
            ring_share: ring_share().estimate,
            running_to_standing: running_to_standing().estimate,
        }
    }

    fn check(&self) -> Result<(), BlowByError> {
        RESTRICTOR.check(self.restrictor)?;
        SUPPLY.check(self.supply)?;
        AMBIENT.check(self.ambient)?;
        in_order(&self.discharge, &restrictor_discharge().range)?;
        in_order(&self.ring_share, &ring_share().range)?;
        in_order(&self.running_to_standing, &running_to_standing().range)
    }

    /// `C_dA = C_o A_o (P_s/p_c) Ψ(p_c/P_s)/Ψ(p_atm/p_c)` for one loss, per discharge coefficient of one; m².
    fn area_for(&self, loss: f64, flow: &FlowFunction) -> f64 {
        let ambient = self.ambient.base();
        let gauge = self.supply.base();
        let supply = gauge + ambient;
        let cylinder = gauge * (1.0 - loss) + ambient;
        let bore = self.restrictor.base();
        PI / 4.0 * bore * bore * supply / cylinder * flow.at(cylinder / supply) / flow.at(ambient / cylinder)
    }
}

/// The restrictor of the usual tester: 1.016 mm (0.040 in) for bores below 127 mm (5.00 in), 1.524 mm (0.060 in) from
/// there (FAA AC 43.13-1B, ch. 8). Workshop testers vary; 1.5 times the bore means 2.25 times the leak.
#[must_use]
pub fn restrictor_for(bore: Length) -> Length {
    Length::from_base(if bore.base() < 0.127 { 1.016e-3 } else { 1.524e-3 })
}

/// The losses to expect of a condition when no test was made, one for each cylinder. They know no more of the engine
/// than its condition does: give what comes of them to [`super::choose`] as [`super::Level::AssumedLoss`].
///
/// # Errors
/// No cylinders, or more than 16.
pub fn assumed_readings(condition: Condition, geometry: &Geometry) -> Result<Vec<Ratio>, BlowByError> {
    geometry.check()?;
    let loss = defaults::assumed_loss(condition).likely();
    Ok((0..geometry.cylinders).map(|_| loss).collect())
}

/// What a leak-down test says of the leak.
#[derive(Clone, Debug, PartialEq)]
pub struct LeakArea {
    /// Effective area of each standing cylinder, all ways out, in the order of the readings. The spread is that of the
    /// discharge coefficient, and of the gauges below 3 %.
    pub standing: Vec<Estimate<Area>>,
    /// Effective area past the rings of the whole running engine, for [`super::through`].
    pub running: Estimate<Area>,
    /// "leak-down-gauge" when a reading is at the limit of the gauges, and the caution of the test.
    pub notes: Vec<Note>,
}

/// The effective leak area behind leak-down readings.
///
/// The restrictor passes what the cylinder loses, both with air of one temperature (γ = 1.4). The running area is the sum
/// over the cylinders, times the share past the rings, times running over standing; its low and high take the ends of
/// these two together. The discharge coefficient's spread (a tenth, against a factor of three) stays with `standing`:
/// all three ends together would overstate the envelope. A reading up to 2 % counts as the reading ±1 % loss,
/// a band that fades to none at 3 %.
///
/// # Errors
/// A number of readings other than the cylinders', a reading outside 0 to 95 % (its cylinder is named), or a value of
/// the test outside its range.
pub fn from_leak_down(
    readings: &[Ratio],
    geometry: &Geometry,
    test: &LeakDownTest,
    scribe: &mut impl Scribe,
) -> Result<LeakArea, BlowByError> {
    geometry.check()?;
    test.check()?;
    if u32::try_from(readings.len()) != Ok(geometry.cylinders) {
        return Err(BlowByError::ReadingCount { readings: readings.len(), cylinders: geometry.cylinders });
    }
    let flow = FlowFunction::new(COLD_AIR);
    let discharge = test.discharge;
    let mut standing = Vec::with_capacity(readings.len());
    let mut sum = [0.0; 3];
    let mut limited = Vec::new();
    for (cylinder, &reading) in (1..).zip(readings) {
        let loss = READING.check(reading).map_err(|cause| BlowByError::Reading { cylinder, cause })?.base();
        let band = gauge_band(loss);
        if loss <= GAUGE_LIMIT {
            limited.push(cylinder.to_string());
        }
        let holes = [(loss - band).max(0.0), loss, loss + band].map(|loss| test.area_for(loss, &flow));
        let [low, likely, high] = holes;
        let area = Estimate {
            low: Area::from_base(discharge.low.base() * low),
            likely: Area::from_base(discharge.likely.base() * likely),
            high: Area::from_base(discharge.high.base() * high),
        };
        for (total, hole) in sum.iter_mut().zip(holes) {
            *total += discharge.likely.base() * hole;
        }
        scribe.step(|| {
            Step::new(
                "effective leak area of a standing cylinder",
                "C_dA_leak",
                "C_dA_leak = C_o (π d²/4) (P_s/p_c) Ψ(p_c/P_s)/Ψ(p_atm/p_c)",
                &source::LEAK_DOWN_TEST,
            )
            .with_number("cylinder", cylinder as f64)
            .with_amount("loss", Amount::of_kind(reading, Kind::Share))
            .with("C_o", discharge.likely)
            .with_amount("d", Amount::of_kind(test.restrictor, Kind::SmallLength))
            .with("supply", test.supply)
            .with("p_atm", test.ambient)
            .gives(area.likely)
        });
        standing.push(area);
    }
    let (share, running) = (test.ring_share, test.running_to_standing);
    let [low, likely, high] = sum;
    let total = |standing: f64, share: Ratio, running: Ratio| Area::from_base(standing * share.base() * running.base());
    let running_area = Estimate {
        low: total(low, share.low, running.low),
        likely: total(likely, share.likely, running.likely),
        high: total(high, share.high, running.high),
    };
    scribe.step(|| {
        Step::new(
            "effective area past the rings of the running engine",
            "C_dA_eff",
            "C_dA_eff = f_ring k_dyn Σ C_dA_leak",
            &source::LEAK_DOWN_FIGURES,
        )
        .with_amount("f_ring", Amount::of_kind(share.likely, Kind::Share))
        .with("k_dyn", running.likely)
        .with("Σ C_dA_leak", Area::from_base(likely))
        .gives(running_area.likely)
    });
    let mut notes = notes(&limited);
    notes.extend(outlier(&standing, readings));
    Ok(LeakArea { standing, running: running_area, notes })
}

/// Times the leak of the middle cylinder from which one stands out, and the loss it must show.
const STANDS_OUT: f64 = 2.5;
const MUCH: f64 = 0.2;

/// One cylinder that leaks far more than the others: a fault, not wear. Common practice, no source.
fn outlier(standing: &[Estimate<Area>], readings: &[Ratio]) -> Option<Note> {
    let mut areas: Vec<f64> = standing.iter().map(|area| area.likely.base()).collect();
    let all: f64 = areas.iter().sum();
    areas.sort_by(f64::total_cmp);
    let middle = *areas.get((areas.len() - 1) / 2)?;
    let worst = (1..)
        .zip(standing.iter().zip(readings))
        .max_by(|(_, (a, _)), (_, (b, _))| a.likely.base().total_cmp(&b.likely.base()));
    let (cylinder, (area, reading)): (usize, _) = worst?;
    if standing.len() < 2 || reading.base() < MUCH || area.likely.base() < STANDS_OUT * middle {
        return None;
    }
    let text = format!(
        "Cylinder {cylinder} alone makes {:.0} % of the leak. That is a fault, not wear: a valve, the head gasket, a broken ring or \
         land, a hole in the piston. Hear where it goes (filler, exhaust, intake, the coolant) before a line or a can is sized on \
         it: one share past the rings is reckoned for all cylinders, and what goes by a valve never reaches the crankcase. Do not \
         load the engine until it is found.",
        100.0 * area.likely.base() / all
    );
    Some(Note::new("leak-down-one-cylinder", Weight::Weak, text))
}

fn notes(limited: &[String]) -> Vec<Note> {
    let mut notes = vec![Note::new(
        "leak-down-caution",
        Weight::Danger,
        "Compressed air in a cylinder can spin the crank: lock it, take the tool off the crank bolt and keep hands clear. \
         Never put shop air on a sealed crankcase; a few kilopascals move seals.",
    )];
    if !limited.is_empty() {
        let text = format!(
            "A loss up to 2 % is at the limit of the gauges (cylinder {}); it is reckoned with ±1 % loss.",
            limited.join(", ")
        );
        notes.push(Note::new("leak-down-gauge", Weight::Weak, text));
    }
    notes
}
