//! What the return needs: the vacuum that must lift the coolant back.

use crate::coolant::{CoolantError, FilledSystem, defaults};
use crate::note::{Note, Weight};
use crate::quantity::si::{Length, Pressure, Volume};
use crate::quantity::{Amount, Estimate, GRAVITY, Kind, Measured, Range, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::{HYDROSTATICS, LOW_TANK, RETURN_SUCTION};

const LIFT: Range = Range::new(
    "lift from the tube's end to the filler neck",
    Kind::Length,
    -2.0,
    2.0,
    "measure upwards; negative when the tank stands above the neck",
);
pub(in crate::coolant) const LOSS: Range =
    Range::new("loss in the return line", Kind::PressureDifference, 0.0, 60e3, "below 1 kPa for a clear line");
const SHORT: Range = Range::new("coolant out of the tube's reach", Kind::Volume, 0.0, 0.1, "write it in mL or L");

/// How the tube reaches the coolant while the engine cools.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TubeReach {
    /// Its end stays under the liquid.
    Covered,
    /// This much of what was pushed out stays below its end; after that it draws air.
    Short(Volume),
    /// Its end is in the air.
    Uncovered,
}

/// The line back from the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReturnLine {
    /// Height from the tube's end up to the filler neck.
    pub lift: Length,
    /// Loss in the line.
    pub loss: Estimate<Pressure>,
    /// How the tube reaches the coolant.
    pub reach: TubeReach,
}

impl ReturnLine {
    /// A covered tube with the usual loss in the line.
    #[must_use]
    pub fn covered(lift: Length) -> Self {
        Self { lift, loss: defaults::line_loss().estimate, reach: TubeReach::Covered }
    }

    pub(super) fn check(&self) -> Result<(), CoolantError> {
        LIFT.check(self.lift)?;
        for loss in [self.loss.low, self.loss.likely, self.loss.high] {
            LOSS.check(loss)?;
        }
        if let TubeReach::Short(volume) = self.reach {
            SHORT.check(volume)?;
        }
        Ok(())
    }
}

/// The suction that brings coolant back, and its parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suction {
    /// All together.
    pub required: Estimate<Pressure>,
    /// The vacuum valve's share.
    pub valve: Estimate<Pressure>,
    /// The lift's share, ρ g h.
    pub lift: Pressure,
    /// The line's share.
    pub line: Estimate<Pressure>,
}

/// Required suction = vacuum valve + ρ g lift + line loss.
pub(super) fn required(
    system: &FilledSystem,
    valve: Estimate<Pressure>,
    line: &ReturnLine,
    notes: &mut Vec<Note>,
    scribe: &mut impl Scribe,
) -> Result<Suction, CoolantError> {
    line.check()?;
    let density = system.mix.density(system.fill_temperature, &mut Silent)?;
    let lift = Pressure::from_base(density.base() * GRAVITY * line.lift.base());
    // A tank standing above the neck helps; less than nothing is not required.
    let sum =
        |valve: Pressure, loss: Pressure| Pressure::from_base((valve.base() + lift.base() + loss.base()).max(0.0));
    let required = Estimate {
        low: sum(valve.low, line.loss.low),
        likely: sum(valve.likely, line.loss.likely),
        high: sum(valve.high, line.loss.high),
    };
    scribe.step(|| {
        Step::new("suction that lifts the return", "p_lift", "p_lift = ρ g h", &HYDROSTATICS)
            .with("ρ", density)
            .with("h", line.lift)
            .gives(lift)
    });
    scribe.step(|| {
        Step::new("suction the return needs", "p_suction", "p_suction = p_valve + p_lift + p_line", &LOW_TANK)
            .with("p_valve", valve.likely)
            .with("p_lift", lift)
            .with("p_line", line.loss.likely)
            .gives(required.likely)
    });
    judge(&required, notes, scribe);
    Ok(Suction { required, valve, lift, line: line.loss })
}

fn judge(required: &Estimate<Pressure>, notes: &mut Vec<Note>, scribe: &mut impl Scribe) {
    let (warn, fail) = (defaults::suction_warning().likely(), defaults::suction_failure().likely());
    scribe.step(|| {
        let equation = "p_suction against what soft hoses bear";
        Step::new("suction left before hoses draw in", "Δp", equation, &RETURN_SUCTION)
            .with("p_suction", required.likely)
            .with("drawn in above", warn)
            .with("collapsed above", fail)
            .gives(Pressure::from_base(warn.base() - required.likely.base()))
    });
    let show = Amount::new(required.likely.base(), Kind::PressureDifference).show(UnitSystem::Si);
    if required.likely.base() > fail.base() {
        notes.push(Note::new(
            "return-fails",
            Weight::Danger,
            format!("the return needs {show} of suction: hoses collapse before the coolant comes back; raise the tank"),
        ));
    } else if required.likely.base() > warn.base() {
        notes.push(Note::new(
            "return-strained",
            Weight::Weak,
            format!("the return needs {show} of suction: soft hoses may draw in; raise the tank or fit a cap with an easier vacuum valve"),
        ));
    } else if required.high.base() > warn.base() {
        notes.push(Note::new(
            "return-strained-at-worst",
            Weight::Remark,
            "with a stiff vacuum valve or a narrow line soft hoses may draw in while the engine cools",
        ));
    }
}
