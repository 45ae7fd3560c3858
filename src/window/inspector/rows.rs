//! The answers of a part as rows.

use crate::quantity::si::Length;
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{
    Answers, CrankcaseCase, DutyAnswers, FlowPath, Held, Moment, Part, Project, Section, Sentence, TankArrangement,
    Thermal,
};

/// The answers of a part at a moment.
pub(super) fn of(answers: &Answers, project: &Project, part: Option<Part>, moment: Moment) -> Vec<Section> {
    let duty = match moment {
        Moment::Driving(duty) => answers.duties.get(duty.index()),
        Moment::ColdMorning | Moment::HotStop => None,
    };
    let now = |title: &str| Section::new("now", format!("{title}: {}", moment.name().to_lowercase()));
    match part {
        None => vec![],
        Some(Part::Tank) => vec![held(answers, moment, now("Now")), tank(answers, project), vent(answers, project)],
        Some(Part::Cap) => vec![held(answers, moment, now("Now")), cap(answers)],
        Some(Part::Thermostat) => duty.map(|duty| thermostat(duty, now("Now"))).into_iter().collect(),
        Some(Part::Radiator) => duty.map(|duty| radiator(duty, now("Now"))).into_iter().collect(),
        Some(Part::Engine) => vec![engine(answers, duty, moment, now("Now")), volume(answers), doubts(answers)],
        Some(Part::Coolant) => vec![coolant(answers)],
        Some(Part::Surroundings) => vec![surroundings(answers)],
        Some(Part::Crankcase) => duty.map(|duty| crankcase(duty, now("Now"))).into_iter().collect(),
        Some(Part::Breather) => {
            duty.map(|duty| flows(duty, now("Now"), &[FlowPath::Breather, FlowPath::SecondBreather])).into_iter().collect()
        }
        Some(Part::Valve) => duty.map(|duty| flows(duty, now("Now"), &[FlowPath::Valve])).into_iter().collect(),
        Some(Part::CatchCan) => duty
            .map(|duty| flows(duty, now("Now"), &[FlowPath::Breather, FlowPath::Valve]))
            .into_iter()
            .collect(),
    }
}

/// A level, or that it would stand above the lid.
fn level(section: &mut Section, key: &str, label: &str, level: Option<Length>) {
    match level {
        Some(level) => section.quantity(key, label, level),
        None => section.words(key, label, say!["above the lid: it spills"]),
    };
}

fn held(answers: &Answers, moment: Moment, mut section: Section) -> Section {
    let (temperature, held): (_, &Held) = answers.held(moment);
    section
        .quantity("temperature", "Coolant at the engine outlet", temperature)
        .quantity("gauge", "Pressure in the system", held.gauge)
        .words("cap", "Cap", if held.cap_open { say!["open"] } else { say!["shut"] })
        .quantity("in_tank", "Coolant in the tank", held.in_tank);
    level(&mut section, "level", "Level above the floor", held.level);
    section
        .quantity("tank_gauge", "Gas pressure in the tank", held.tank_gauge)
        .estimate("margin", "Margin to boiling", held.margin, Kind::TemperatureDifference);
    section
}

fn tank(answers: &Answers, project: &Project) -> Section {
    let tank = &answers.tank;
    let mut section = Section::new("tank", "Tank");
    section
        .quantity("capacity", "Volume to the lid", tank.capacity)
        .estimate("wanted", "Volume wanted", tank.wanted, Kind::Volume)
        .estimate("growth", "Coolant that swells into it", answers.growth.in_tank, Kind::Volume)
        .quantity("second_set", "The same by a second set of densities", answers.growth.second_set)
        .estimate("headroom", "Room left when hot", tank.headroom, Kind::Volume);
    if project.tank.arrangement == TankArrangement::HeaderTank {
        return section;
    }
    let marks = [
        ("cold_mark", "Cold mark above the floor", tank.cold_mark),
        ("hot_mark", "Hot mark", tank.hot_mark),
        ("full_mark", "Not to be passed", tank.full_mark),
        ("least_cold_mark", "Least cold mark that keeps the tube covered", tank.least_cold_mark),
        ("cover_at_rest", "Cover of the dip tube at rest", tank.cover_at_rest),
        ("cover_cornering", "Cover cornering", tank.cover_cornering),
        ("cover_braking", "Cover braking", tank.cover_braking),
    ];
    for (key, label, value) in marks {
        if let Some(value) = value {
            section.quantity(key, label, value);
        }
    }
    if let Some(reason) = &tank.cover_unknown {
        section.absent("cover", "Cover of the dip tube", reason.clone());
    }
    section
        .estimate("suction", "Suction that brings the coolant back", tank.suction, Kind::PressureDifference)
        .flag("comes_back", "Coolant comes back", tank.comes_back);
    if !tank.comes_back {
        section
            .quantity("air_after", "Air in the system after cooling", tank.air_after)
            .quantity("next_expelled", "Coolant lost at the next warm-up", tank.next_expelled);
    }
    section
}

fn vent(answers: &Answers, project: &Project) -> Section {
    let vent = &answers.tank.vent;
    let mut section = Section::new("vent", "Tank vent");
    if project.tank.arrangement == TankArrangement::HeaderTank {
        return section;
    }
    section
        .quantity("warm_up", "Tank pressure warming up", vent.warm_up)
        .quantity("cap_lift", "When the cap lets liquid go", vent.cap_lift)
        .quantity("steam", "When steam comes over", vent.steam)
        .estimate("allowed", "The tank may see", vent.allowed, Kind::PressureDifference)
        .quantity("least_warm_up", "Least hole for warming up", vent.least_hole_warm_up)
        .quantity("least_cap_lift", "Least hole for liquid from the cap", vent.least_hole_cap_lift)
        .quantity("least_steam", "Least hole for steam", vent.least_hole_steam);
    if let Some(gauge) = vent.if_sealed {
        section.quantity("if_sealed", "With a sealed lid it would reach", gauge);
    }
    if let Some(gain) = vent.sealed_margin_gain {
        section.quantity("sealed_gain", "Boiling margin that sealing would add", gain);
    }
    section
}

fn cap(answers: &Answers) -> Section {
    let coolant = &answers.coolant;
    let mut section = Section::new("cap", "Cap");
    section
        .estimate("opening", "Opens at", coolant.cap_opening, Kind::GaugePressure)
        .quantity("boiling_open", "Boiling point with the cap off", coolant.boiling_open)
        .estimate("boiling_at_cap", "Boiling point behind the cap", coolant.boiling_at_cap, Kind::Temperature)
        .quantity("cooling", "Lowest pressure while cooling", answers.tank.cooling_gauge);
    section
}

fn thermostat(duty: &DutyAnswers, mut section: Section) -> Section {
    section.quantity("outlet", "Coolant at the engine outlet", duty.outlet);
    match &duty.thermal {
        Thermal::Steady { opening, fully_open_at, radiator_rules, holds_to, .. } => {
            section
                .amount("opening", "Opening", Amount::of_kind(*opening, Kind::Share))
                .words("ruler", "The temperature is set by", ruler(*radiator_rules))
                .quantity("fully_open_at", "It would settle wide open at", *fully_open_at);
            if let Some(air) = holds_to {
                section.quantity("holds_to", "The thermostat rules up to air of", *air);
            }
        }
        Thermal::StaysShut => {
            section.words("opening", "Opening", say!["stays shut: the engine runs cold"]);
        }
        Thermal::NoSteadyState { excess } => {
            section.quantity("excess", "It boils first; heat with no way out", *excess);
        }
    }
    section
}

fn ruler(radiator: bool) -> Sentence {
    if radiator { say!["the radiator, thermostat wide open"] } else { say!["the thermostat"] }
}

fn radiator(duty: &DutyAnswers, mut section: Section) -> Section {
    section.estimate("heat", "Heat into the coolant", duty.heat, Kind::Power);
    match &duty.thermal {
        Thermal::Steady { spare, radiator_outlet, radiator_rules, .. } => {
            section
                .quantity("spare", "Heat it could carry beyond that", *spare)
                .quantity("radiator_outlet", "Coolant leaving the radiator", *radiator_outlet)
                .words("ruler", "The temperature is set by", ruler(*radiator_rules));
        }
        Thermal::StaysShut => {
            section.words("shut", "Thermostat", say!["shut: nothing flows through the radiator"]);
        }
        Thermal::NoSteadyState { excess } => {
            section.quantity("excess", "It boils first; heat with no way out", *excess);
        }
    }
    section
}

fn engine(answers: &Answers, duty: Option<&DutyAnswers>, moment: Moment, mut section: Section) -> Section {
    section.quantity("temperature", "Coolant at the engine outlet", answers.held(moment).0);
    if let Some(duty) = duty {
        let how = if duty.manifold_estimated { "Manifold pressure, estimated" } else { "Manifold pressure" };
        section
            .estimate("heat", "Heat into the coolant", duty.heat, Kind::Power)
            .quantity("manifold", how, duty.manifold)
            .quantity("air", "Air it breathes", duty.air);
    }
    section
}

fn volume(answers: &Answers) -> Section {
    let mut section = Section::new("volume", "Cooling system");
    section.quantity("volume", "Volume without the tank", answers.coolant.volume);
    for region in &answers.coolant.regions {
        section.quantity(&region.name, &region.name, region.volume);
    }
    section
}

fn doubts(answers: &Answers) -> Section {
    let mut section = Section::new("doubts", "What the spread of the swelling is made of");
    for doubt in &answers.growth.doubts {
        section.amount(&doubt.name, &doubt.name, Amount::of_kind(doubt.share, Kind::Share));
    }
    section
}

fn coolant(answers: &Answers) -> Section {
    let coolant = &answers.coolant;
    let mut section = Section::new("coolant", "Coolant");
    section
        .words("mix", "Mix", say![coolant.mix.clone()])
        .result("freezing", "Begins to freeze at", &coolant.freezing, Kind::Temperature)
        .result("freezing_count", "Count on", &coolant.freezing_to_count_on, Kind::Temperature)
        .quantity("boiling_open", "Boils open to the air at", coolant.boiling_open)
        .estimate("boiling_at_cap", "Boils behind the cap at", coolant.boiling_at_cap, Kind::Temperature);
    section
}

fn surroundings(answers: &Answers) -> Section {
    let mut section = Section::new("air", "Air");
    section.quantity("ambient", "Pressure of the air", answers.ambient);
    section
}

fn crankcase(duty: &DutyAnswers, mut section: Section) -> Section {
    let [low, likely, high] = &duty.crankcase;
    let range = crate::quantity::Estimate::sorted(low.gauge, likely.gauge, high.gauge);
    section
        .estimate("gauge", "Crankcase pressure", range, Kind::CrankcasePressure)
        .estimate("limit", "Limit here", duty.limit, Kind::CrankcasePressure)
        .estimate("blow_by", "Blow-by", duty.blow_by.standard, Kind::GasVolumeFlow)
        .words("knowledge", "Known", say![duty.blow_by.knowledge.name()])
        .amount("share", "Share of the air it breathes", Amount::of_kind(duty.blow_by.share_of_air, Kind::Share));
    if let Some(limit) = duty.limit_at {
        section.quantity("limit_at", "Blow-by that reaches the limit", limit);
    }
    if let Some(turns) = duty.turns_at {
        section.quantity("turns_at", "Blow-by at which the breather turns round", turns);
    }
    section
}

fn flows(duty: &DutyAnswers, mut section: Section, paths: &[FlowPath]) -> Section {
    let [_, likely, high]: &[CrankcaseCase; 3] = &duty.crankcase;
    for (case, words, key) in [(likely, "likely blow-by", "likely"), (high, "high blow-by", "high")] {
        for path in paths {
            let Some(flow) = case.flow(*path) else { continue };
            let way = if flow.out.base() < 0.0 { "draws in" } else { "blows out" };
            let amount = Amount::of_kind(flow.standard, Kind::GasVolumeFlow);
            let shown = Amount::new(amount.base.abs(), amount.kind);
            let label = format!("Through the {}, {words}", path.name());
            section.words(&format!("{key} {}", path.name()), &label, say![way, " ", shown]);
            if let Some((name, drop)) = &flow.tightest {
                let drop = Amount::of_kind(*drop, Kind::CrankcasePressure);
                let label = format!("Tightest on that way, {words}");
                section.words(&format!("{key} {} tightest", path.name()), &label, say![name.clone(), ", ", drop]);
            }
        }
        section.amount(
            &format!("{key} crankcase"),
            &format!("Crankcase pressure, {words}"),
            Amount::of_kind(case.gauge, Kind::CrankcasePressure),
        );
    }
    section
}
