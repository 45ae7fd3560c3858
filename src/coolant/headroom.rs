//! The room a tank must have, and the marks on it.

use super::{CoolantError, Tank, defaults};
use crate::note::{Note, Weight};
use crate::quantity::si::{Length, Ratio, Volume};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::{HEADROOM_MARGIN, LEAKAGE_RESERVE, SURGE_SHARE};

const FILL: Range =
    Range::new("fill of the cooling system", Kind::Volume, 0.5e-3, 0.2, "a whole car holds 4 to 30 L of coolant");
const EXPANSION: Range = Range::new("coolant pushed into the tank", Kind::Volume, 0.0, 0.05, "about 4 % of the fill");
pub(super) const RESERVE: Range =
    Range::new("reserve in the tank", Kind::Volume, 0.0, 0.1, "write the least liquid to be kept");
const SURGE: Range = Range::new("room for boiled-over coolant", Kind::Volume, 0.0, 0.1, "2 to 10 % of the fill");
pub(super) const SHARE: Range =
    Range::new("share of the fill", Kind::Share, 0.0, 1.0, "write a share between 0 % and 100 %");
pub(super) const MARGIN: Range = Range::new("margin on the tank's volume", Kind::Share, 0.0, 2.0, "10 % is usual");

/// Room kept for coolant pushed out by boiling after shutdown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Surge {
    /// As a share of the fill.
    Share(Estimate<Ratio>),
    /// Worked out elsewhere.
    Known(Estimate<Volume>),
}

/// What the tank must hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadroomNeed {
    /// The cooling system's fill.
    pub fill: Volume,
    /// Coolant pushed into the tank from the coldest fill to the hottest state.
    pub expansion: Estimate<Volume>,
    /// Liquid that keeps the tube covered under tilt, if known.
    pub tilt: Option<Volume>,
    /// Reserve against leakage as a share of the fill.
    pub leakage_share: Ratio,
    /// Least reserve against leakage.
    pub leakage_least: Volume,
    /// Room for boiled-over coolant.
    pub surge: Surge,
    /// Margin on the whole.
    pub margin: Ratio,
}

impl HeadroomNeed {
    /// The usual reserve, surge and margin.
    #[must_use]
    pub fn usual(fill: Volume, expansion: Estimate<Volume>, tilt: Option<Volume>) -> Self {
        Self {
            fill,
            expansion,
            tilt,
            leakage_share: defaults::leakage_share().likely(),
            leakage_least: defaults::leakage_least().likely(),
            surge: Surge::Share(defaults::surge_share().estimate),
            margin: defaults::headroom_margin().likely(),
        }
    }
}

/// What sets the least liquid kept in the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReserveFrom {
    /// The tube must stay covered.
    Tilt,
    /// A leak must be survived.
    Leakage,
}

/// A tank against what it must hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Headroom {
    /// Least liquid kept, V_low.
    pub low: Volume,
    /// What sets it.
    pub low_from: ReserveFrom,
    /// Coolant pushed in, V_expand.
    pub expansion: Estimate<Volume>,
    /// Room for boiled-over coolant, V_surge.
    pub surge: Estimate<Volume>,
    /// (V_low + V_expand + V_surge)(1 + margin).
    pub required: Estimate<Volume>,
    /// All the tank holds.
    pub capacity: Volume,
    /// Capacity less what is required; negative when the tank is too small.
    pub left: Estimate<Volume>,
    /// COLD mark, the height of V_low.
    pub cold_mark: Option<Length>,
    /// HOT mark, the height of V_low + V_expand.
    pub hot_mark: Option<Length>,
    /// FULL LIMIT, the height of the capacity less V_surge.
    pub full_limit: Option<Length>,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

/// The room a tank must have, the room left, and its marks.
///
/// V_total ≥ (V_low + V_expand + V_surge)(1 + margin), V_low the greater of the tilt volume and the leakage reserve.
/// Low and high combine the ranges of expansion and surge as the root of squares. A mark that falls outside the tank
/// is `None`, and a note says why.
///
/// # Errors
/// A figure out of range.
pub fn headroom(tank: &Tank, need: &HeadroomNeed, scribe: &mut impl Scribe) -> Result<Headroom, CoolantError> {
    let fill = FILL.check(need.fill)?.base();
    for volume in [need.expansion.low, need.expansion.likely, need.expansion.high] {
        EXPANSION.check(volume)?;
    }
    let (low, low_from) = reserve(need, fill, scribe)?;
    let surge = surge(need, fill, scribe)?;
    let margin = 1.0 + MARGIN.check(need.margin)?.base();
    let sum = low.base() + need.expansion.likely.base() + surge.likely.base();
    let side = |pick: fn(&Estimate<Volume>) -> Volume| {
        let off = |estimate: &Estimate<Volume>| pick(estimate).base() - estimate.likely.base();
        off(&need.expansion).hypot(off(&surge))
    };
    let required = Estimate {
        low: Volume::from_base((sum - side(|e| e.low)) * margin),
        likely: Volume::from_base(sum * margin),
        high: Volume::from_base((sum + side(|e| e.high)) * margin),
    };
    scribe.step(|| {
        let equation = "V_total = (V_low + V_expand + V_surge)(1 + margin)";
        Step::new("volume the tank must have", "V_total", equation, &HEADROOM_MARGIN)
            .with("V_low", low)
            .with("V_expand", need.expansion.likely)
            .with("V_surge", surge.likely)
            .with_amount("margin", Amount::of_kind(need.margin, Kind::Share))
            .gives(required.likely)
    });
    let capacity = tank.capacity();
    let room = capacity.base();
    let left = required.map(|volume| Volume::from_base(room - volume.base()));
    let mut notes = Vec::new();
    let mut mark = |name: &str, volume: f64, scribe: &mut _| height(tank, name, volume, &mut notes, scribe);
    let cold_mark = mark("COLD mark", low.base(), &mut *scribe);
    let hot_mark = mark("HOT mark", low.base() + need.expansion.likely.base(), &mut *scribe);
    let full_limit = mark("FULL LIMIT", room - surge.likely.base(), &mut *scribe);
    note_room(&left, &mut notes);
    Ok(Headroom {
        low,
        low_from,
        expansion: need.expansion,
        surge,
        required,
        capacity,
        left,
        cold_mark,
        hot_mark,
        full_limit,
        notes,
    })
}

fn reserve(need: &HeadroomNeed, fill: f64, scribe: &mut impl Scribe) -> Result<(Volume, ReserveFrom), CoolantError> {
    let share = SHARE.check(need.leakage_share)?.base();
    let leakage = (share * fill).max(RESERVE.check(need.leakage_least)?.base());
    let tilt = need.tilt.map(|volume| RESERVE.check(volume)).transpose()?.map_or(0.0, Measured::base);
    let from = if tilt > leakage { ReserveFrom::Tilt } else { ReserveFrom::Leakage };
    let low = Volume::from_base(tilt.max(leakage));
    scribe.step(|| {
        let equation = "V_low = max(V_tilt, share · V_fill, least)";
        Step::new("least liquid kept in the tank", "V_low", equation, &LEAKAGE_RESERVE)
            .with_amount("V_tilt", Amount::new(tilt, Kind::Volume))
            .with_amount("share", Amount::of_kind(need.leakage_share, Kind::Share))
            .with("V_fill", need.fill)
            .with("least", need.leakage_least)
            .gives(low)
    });
    Ok((low, from))
}

fn surge(need: &HeadroomNeed, fill: f64, scribe: &mut impl Scribe) -> Result<Estimate<Volume>, CoolantError> {
    let surge = match need.surge {
        Surge::Share(share) => {
            for value in [share.low, share.likely, share.high] {
                SHARE.check(value)?;
            }
            share.map(|share| Volume::from_base(share.base() * fill))
        }
        Surge::Known(volume) => volume,
    };
    for value in [surge.low, surge.likely, surge.high] {
        SURGE.check(value)?;
    }
    scribe.step(|| {
        Step::new("room for boiled-over coolant", "V_surge", "V_surge = share · V_fill, or as given", &SURGE_SHARE)
            .with("V_fill", need.fill)
            .gives(surge.likely)
    });
    Ok(surge)
}

fn height(tank: &Tank, name: &str, volume: f64, notes: &mut Vec<Note>, scribe: &mut impl Scribe) -> Option<Length> {
    // Tried silently first, so that a mark that does not exist leaves nothing in the working.
    match tank.height_at(Volume::from_base(volume), &mut Silent) {
        Ok(_) => tank.height_at(Volume::from_base(volume), scribe).ok(),
        Err(error) => {
            notes.push(Note::new("mark-outside", Weight::Weak, format!("there is no {name}: {error}")));
            None
        }
    }
}

fn note_room(left: &Estimate<Volume>, notes: &mut Vec<Note>) {
    let show = |volume: f64| Amount::new(volume, Kind::Volume).show(UnitSystem::Si);
    if left.likely.base() < 0.0 {
        let short = show(-left.likely.base());
        notes.push(Note::new(
            "tank-too-small",
            Weight::Danger,
            format!("the tank is {short} too small: hot coolant will leave it; point its vent down, away from paint, exhaust and hands"),
        ));
    } else if left.low.base() < 0.0 {
        let short = show(-left.low.base());
        notes.push(Note::new(
            "tank-thin",
            Weight::Weak,
            format!("the tank is large enough for the likely figures but {short} short at their high end"),
        ));
    }
}
