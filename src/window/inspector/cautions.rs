//! Cautions in plain words, at the parts where each matters; the first of a part stands above its inputs.

use crate::study::Part;

const SCALD: &str = "Leave every cap shut until the engine is cold to the hand. Hot coolant under pressure sprays and turns \
                     to steam when a cap is loosened; a gauge that reads zero is no proof.";
const STEAM: &str = "Steam from a vent or a can burns and cannot be seen close to the outlet. Point outlets down, away from \
                     the exhaust, hands and paint.";
const SEALED: &str = "Never seal a can that is meant to be open.";
const STRONGER: &str = "Never fit a stronger cap to hide boiling: the weakest hose, core or tank sets the limit. Prove \
                        pressure parts with water, cold, or have a licensed workshop do it.";
const POISON: &str = "Ethylene glycol tastes sweet, and a small amount can kill a child or a pet. Wipe up spills at once, \
                      label every container, and call poison help without waiting for symptoms. Propylene glycol is less \
                      poisonous, but used coolant of either kind carries metals.";
const DRAIN: &str = "Do not drain coolant to the ground or a sewer; take it where local rules say.";
const BURNING_MIST: &str = "A mist of hot glycol can burn on an exhaust. Keep hoses, vents and overflow clear of it.";
const COLD_WATER: &str = "Never pour cold water into an overheated engine.";
const HOT_WORK: &str = "A running engine has moving, hot and high-voltage parts. Measure with the car held fast, sleeves clear \
                        and outdoors: exhaust and crankcase gas are poisonous.";
const COLD_SUMP: &str = "A cool thermostat with a cold sump brings sludge, fuel in the oil and wear. A high margin on paper \
                         behind a worn cap is none in practice.";
const FAN: &str = "An electric fan may start by itself with the engine off. Disconnect it before reaching in.";
const HOT_OIL: &str = "Oil on a hot exhaust burns. Lead vents and drains away from exhaust, ignition and belts, and stop at \
                       any smell of hot oil.";
const COVER_COLD: &str = "Work on a cover with the engine cold and standing. Tighten in small steps from the middle outwards; \
                          never above the most torque. A screw that turns without getting tighter has already pulled its \
                          thread: take it out and mend the hole.";
const PLUGGED: &str =
    "Never plug every outlet, and never put shop air into a sealed crankcase: a few kilopascals move seals.";
const LEAK_DOWN: &str = "A leak-down test can spin the crank. Lock it and keep hands clear.";
const LAW: &str = "Venting crankcase gas to the air, or removing or changing a PCV valve, may be unlawful on the road. Local \
                   law and licensed practice decide, not this program.";
const ESTIMATE: &str = "Blow-by is an estimate within a factor of two at best. A manometer on the dipstick tube beats it: fit \
                        one before cutting metal.";
const DESIGN_AID: &str =
    "The answers are estimates for design. Local codes, the makers' limits and event rules come first.";
const WRONG_MODEL: &str = "The numbers do not fit this car if the tank rises each trip (gas or boiling), falls (a leak), if \
                           hoses suck flat on cooling (the return is blocked) or brown foam shows (oil).";

/// The cautions of a part, or of the whole car.
pub(super) const fn of(part: Option<Part>) -> &'static [&'static str] {
    match part {
        None => &[DESIGN_AID, SCALD, HOT_WORK],
        Some(Part::Tank) => &[SCALD, SEALED, STEAM, WRONG_MODEL],
        Some(Part::Cap) => &[SCALD, STRONGER],
        Some(Part::Thermostat) => &[SCALD, COLD_SUMP],
        Some(Part::Radiator) => &[SCALD, FAN, BURNING_MIST],
        Some(Part::Engine) => &[HOT_WORK, COLD_WATER, SCALD],
        Some(Part::Coolant) => &[POISON, DRAIN, BURNING_MIST],
        Some(Part::Surroundings) => &[],
        Some(Part::Crankcase) => &[PLUGGED, HOT_WORK, LEAK_DOWN, ESTIMATE],
        Some(Part::Breather) => &[LAW, HOT_OIL, PLUGGED],
        Some(Part::Valve) => &[LAW, HOT_WORK],
        Some(Part::CatchCan) => &[HOT_OIL, PLUGGED, LAW],
        Some(Part::CoverJoint) => &[HOT_OIL, COVER_COLD, PLUGGED],
    }
}
