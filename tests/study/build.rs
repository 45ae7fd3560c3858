//! Projects made for a purpose.

use coldmark::fluid::Mix;
use coldmark::quantity::si::{Length, Volume, VolumeRate};
use coldmark::quantity::{Estimate, Measured, celsius};
use coldmark::scribe::Silent;
use coldmark::study::{Answers, Duty, HoseRunInputs, Project, Thermal, VolumeKnowledge, answer};

pub fn known<Q: Measured>(base: f64) -> Option<Estimate<Q>> {
    Some(Estimate::exact(Q::from_base(base)))
}

pub fn litres(value: f64) -> Volume {
    Volume::from_base(value * 1e-3)
}

pub fn millimetres(value: f64) -> Length {
    Length::from_base(value * 1e-3)
}

pub fn answered(project: &Project) -> Answers {
    answer(project).unwrap_or_else(|problems| panic!("{problems}"))
}

/// The volume of a system added up from its parts in litres, hoses of one bore.
pub fn built_up(project: &mut Project, [block, heads, radiator, heater, hoses]: [f64; 5]) {
    let circuit = &mut project.circuit;
    circuit.knowledge = VolumeKnowledge::BuiltUp;
    circuit.block = litres(block);
    circuit.heads = litres(heads);
    circuit.radiator = litres(radiator);
    circuit.heater = litres(heater);
    let area = std::f64::consts::FRAC_PI_4 * 0.04 * 0.04;
    circuit.hoses = vec![HoseRunInputs { bore: millimetres(40.0), length: Length::from_base(hoses * 1e-3 / area) }];
}

/// The input between two ends at which a rising function of the project is nought.
fn tuned(
    project: &Project,
    (low, high): (f64, f64),
    set: impl Fn(&mut Project, f64),
    off: impl Fn(&Answers) -> f64,
) -> Project {
    let (mut low, mut high) = (low, high);
    let mut tried = project.clone();
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        set(&mut tried, middle);
        // What no engine of this size can do lies above what is sought.
        if answer(&tried).is_ok_and(|answers| off(&answers) < 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    tried
}

/// Thermostat wide open, pump and radiator chosen so that at full throttle the coolant leaves the engine at this
/// temperature, °C, and comes back cooler by the drop, K.
pub fn with_hottest(project: &Project, outlet: f64, drop: f64) -> Project {
    let full = Duty::FullThrottle;
    let mut project = project.clone();
    project.thermostat.set_point = celsius(outlet - 25.0);
    let coolant = &project.coolant;
    let mix = Mix::new(coolant.base, coolant.glycol_share, coolant.basis).unwrap();
    let carried = mix.density(celsius(outlet), &mut Silent).unwrap().value
        * mix.specific_heat(celsius(outlet), &mut Silent).unwrap().value;
    let flow = answered(&project).duties[full.index()].heat.likely.value / (carried * drop);
    let per_thousand = flow * 1000.0 / (project.duty.of(full).rpm.value * 30.0 / std::f64::consts::PI);
    project.engine.pump_flow = known(per_thousand);
    // A smaller radiator is a hotter engine.
    let set = |project: &mut Project, log: f64| project.radiator.conductance = known((-log).exp());
    let off = |answers: &Answers| answers.growth.hottest.value - 273.15 - outlet;
    let project = tuned(&project, (-(9000.0_f64.ln()), -(60.0_f64.ln())), set, off);
    let answers = answered(&project);
    assert!(off(&answers).abs() < 0.01, "{}", off(&answers));
    let Thermal::Steady { radiator_outlet, .. } = answers.duties[full.index()].thermal else { panic!("not steady") };
    assert!((outlet - drop - (radiator_outlet.value - 273.15)).abs() < 0.5);
    project
}

/// The power chosen so that a duty puts this much heat into the coolant, W.
pub fn with_heat(project: &Project, duty: Duty, heat: f64) -> Project {
    let set = |project: &mut Project, power: f64| {
        project.duty.points[duty.index()].power = Measured::from_base(power);
    };
    let off = |answers: &Answers| answers.duties[duty.index()].heat.likely.value - heat;
    // No engine without a blower makes more than 14 bar of brake mean effective pressure in air of 101.325 kPa.
    let mean_pressure = 13.9e5 * answered(project).ambient.above_vacuum().value / 101_325.0;
    let engine = &project.engine;
    let bore = engine.bore.value;
    let swept = std::f64::consts::FRAC_PI_4 * bore * bore * engine.stroke.value * f64::from(engine.cylinders);
    let most = mean_pressure * swept * project.duty.of(duty).rpm.value / (4.0 * std::f64::consts::PI);
    let project = tuned(project, (1e3, most), set, off);
    assert!((off(&answered(&project)) / heat).abs() < 1e-3);
    project
}

/// What a flow meter read at full throttle, L/min.
pub fn metered(project: &mut Project, litres_a_minute: f64) {
    let speed = project.duty.of(Duty::FullThrottle).rpm;
    let metered = &mut project.blow_by.metered;
    (metered.known, metered.rpm, metered.manifold) = (true, speed, None);
    metered.flow = VolumeRate::from_base(litres_a_minute * 1e-3 / 60.0);
}

/// The blow-by of a duty, g/s, brought about by what a flow meter would have read at full throttle.
pub fn with_blow_by(project: &Project, duty: Duty, grams: f64) -> Project {
    let set = |project: &mut Project, log: f64| metered(project, log.exp() * 60e3);
    let off = |answers: &Answers| answers.duties[duty.index()].likely().blow_by.value * 1e3 - grams;
    let project = tuned(project, ((0.1e-3 / 60.0_f64).ln(), (900e-3 / 60.0_f64).ln()), set, off);
    assert!((off(&answered(&project)) / grams).abs() < 1e-3, "{}", off(&answered(&project)));
    project
}
