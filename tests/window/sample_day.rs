//! A day made by hand, to look at and to try the widgets with: curves of the right shape, no physics behind them.

use coldmark::day::{CapState, Closures, Drive, Event, EventKind, Extreme, ExtremeOf, Sample, Soak, Trifles};
use coldmark::quantity::si::{
    AngularVelocity, Energy, Length, Mass, Power, Ratio, TemperatureInterval, ThermodynamicTemperature, Time, Velocity,
    Volume,
};
use coldmark::quantity::{GaugePressure, Measured, celsius};
use coldmark::study::{Answers, CrankcaseSample, DayAnswers, LegAnswer, Project, TankArrangement};

/// Name, minutes, road speed km/h, engine rpm, power kW, coolant the leg tends to °C.
const LEGS: [(&str, f64, f64, f64, f64, f64); 6] = [
    ("Cold start, idle", 6.0, 0.0, 850.0, 2.0, 60.0),
    ("Town", 24.0, 32.0, 1600.0, 9.0, 93.0),
    ("Motorway at 120 km/h", 45.0, 120.0, 2900.0, 38.0, 96.0),
    ("Climb, 12 % at 60 km/h", 18.0, 60.0, 3400.0, 62.0, 112.0),
    ("Hot stop", 20.0, 0.0, 0.0, 0.0, 70.0),
    ("Home", 30.0, 60.0, 2000.0, 18.0, 94.0),
];

fn metres(value: f64) -> Length {
    Length::from_base(value)
}

/// The day, hotter by `excess` kelvin wherever it is hot.
fn drive(answers: &Answers, excess: f64) -> Drive {
    let (mut samples, mut events) = (Vec::new(), Vec::new());
    let (mut coolant, mut oil, mut begun) = (12.0_f64, 12.0_f64, 0.0);
    let floor = 0.055;
    let (mut cap, mut lost, mut fan_on) = (CapState::Shut, 0.0, false);
    let say = |events: &mut Vec<Event>, time: f64, leg: usize, kind: EventKind| {
        events.push(Event { time: Time::from_base(time), leg, kind });
    };
    for (leg, (_, minutes, speed, rpm, power, target)) in LEGS.into_iter().enumerate() {
        if rpm > 0.0 && (leg == 0 || LEGS[leg - 1].3 == 0.0) {
            say(&mut events, begun, leg, EventKind::EngineStarts);
        }
        if rpm == 0.0 {
            say(&mut events, begun, leg, EventKind::EngineStops);
        }
        let steps = (minutes * 6.0) as u32;
        for step in 0..=steps {
            let time = begun + f64::from(step) * 10.0;
            let since = f64::from(step) * 10.0;
            let soak = if rpm == 0.0 { 9.0 * (-((since - 240.0) / 200.0).powi(2)).exp() } else { 0.0 };
            let hold = if rpm == 0.0 { 4000.0 } else { 240.0 };
            let goal = target + if target > 90.0 { excess } else { 0.0 };
            let before = coolant;
            coolant += (goal - coolant) * 10.0 / hold;
            oil += (goal + 8.0 - oil) * 10.0 / (3.0 * hold);
            let hot = coolant + soak;
            let opening = ((hot - 88.0) / 12.0).clamp(0.0, 1.0);
            if (before < 88.0) && coolant >= 88.0 {
                say(&mut events, time, leg, EventKind::ThermostatOpens);
            }
            let fan = hot > if fan_on { 95.0 } else { 100.0 };
            if fan != fan_on {
                say(&mut events, time, leg, if fan { EventKind::FanOn } else { EventKind::FanOff });
                fan_on = fan;
            }
            let gauge = ((hot - 45.0) * 1.9e3).clamp(-4e3, 103e3);
            let does = if gauge >= 103e3 {
                CapState::LetsOut
            } else if gauge < 101e3 && coolant < before && leg > 3 {
                CapState::LetsIn
            } else {
                CapState::Shut
            };
            if does != cap {
                let until = Time::from_base(time + 180.0);
                let (coolant, air) = (Volume::from_base(0.21e-3), Volume::from_base(0.0));
                let mass = Mass::from_base(0.22);
                match does {
                    CapState::LetsOut => say(&mut events, time, leg, EventKind::CapOpens { until, coolant, mass, air }),
                    CapState::LetsIn => {
                        say(&mut events, time, leg, EventKind::VacuumValveOpens { until, coolant, mass, air })
                    }
                    CapState::Shut => {}
                }
                cap = does;
            }
            let swell = ((hot - 60.0).max(0.0) / 50.0) * 0.045;
            let vapour = if hot > 113.0 { (hot - 113.0) * 1.2e-5 } else { 0.0 };
            lost += if excess > 0.0 && hot > 115.0 { 4e-4 } else { 0.0 };
            let celsius_at = |value: f64| -> ThermodynamicTemperature { celsius(value) };
            samples.push(Sample {
                time: Time::from_base(time),
                leg,
                air: celsius_at(18.0 + 10.0 * (time / 8600.0)),
                road_speed: Velocity::from_base(speed / 3.6),
                engine_speed: AngularVelocity::from_base(rpm * std::f64::consts::TAU / 60.0),
                power: Power::from_base(power * 1e3),
                metal: celsius_at(hot + power * 0.35 + soak),
                block: celsius_at(hot - 4.0),
                coolant: celsius_at(hot),
                radiator_outlet: celsius_at(20.0 + (hot - 20.0) * 0.75 * opening),
                hoses: celsius_at(hot - 3.0),
                oil: celsius_at(oil),
                tank: celsius_at(22.0 + 0.2 * hot),
                opening: Ratio::from_base(opening),
                fan,
                radiator_heat: Power::from_base(opening * (power * 900.0 + 3e3)),
                gauge: GaugePressure::from_base(gauge),
                cap: does,
                tank_gauge: GaugePressure::from_base(0.0),
                in_tank: Volume::from_base(0.6e-3 + swell * 0.014),
                level: Some(metres(floor + swell)),
                air_in_system: Volume::from_base(1e-4),
                vapour: Volume::from_base(vapour),
                out: Mass::from_base(swell * 12.0),
                lost: Mass::from_base(lost),
                margin: TemperatureInterval::from_base(126.0 - hot - power * 0.12),
            });
        }
        begun += minutes * 60.0;
    }
    let index = |pick: &dyn Fn(&Sample) -> f64| {
        let best = samples.iter().enumerate().max_by(|a, b| pick(a.1).total_cmp(&pick(b.1)));
        best.map_or(0, |(index, _)| index)
    };
    let hottest = index(&|sample| sample.coolant.base());
    let stop = samples.iter().position(|sample| sample.engine_speed.base() == 0.0).unwrap_or(0);
    let extremes = vec![
        Extreme { of: ExtremeOf::Coolant, sample: hottest },
        Extreme { of: ExtremeOf::FullTank, sample: index(&|sample| sample.in_tank.base()) },
        Extreme { of: ExtremeOf::Margin, sample: index(&|sample| -sample.margin.base()) },
    ];
    let soaks = vec![Soak {
        stopped: samples[stop].time,
        leg: samples[stop].leg,
        at_stop: samples[stop].coolant,
        peak: samples[hottest].coolant,
        peak_at: samples[hottest].time,
        vapour: Mass::from_base(0.002),
        surge: Volume::from_base(0.12e-3),
        lost: Mass::from_base(0.0),
        came_back: Some(Ratio::from_base(0.9)),
    }];
    let energy = |megajoules: f64| Energy::from_base(megajoules * 1e6);
    let closures = Closures {
        heat_in: energy(310.0),
        by_radiator: energy(262.0),
        by_heater: energy(3.0),
        by_surfaces: energy(30.0),
        by_losses: energy(0.0),
        stored: energy(15.0),
        energy: Ratio::from_base(2e-4),
        coolant_at_start: Mass::from_base(12.4),
        coolant_at_end: Mass::from_base(12.4 - lost),
        lost: Mass::from_base(lost),
        coolant: Ratio::from_base(1e-9),
        steps: 4200,
        rejected: 31,
    };
    let _ = answers;
    Drive { samples, events, trifles: Trifles::default(), closures, extremes, soaks, cut_short: None }
}

/// The whole of it.
pub fn sample_day(project: &Project, answers: &Answers) -> DayAnswers {
    let drive_likely = drive(answers, 0.0);
    let unfavourable = drive(answers, 6.0);
    let mut begun = 0.0;
    let legs = LEGS
        .into_iter()
        .map(|(name, minutes, speed, ..)| {
            let begins = begun;
            begun += minutes * 60.0;
            LegAnswer {
                name: coldmark::say![name],
                begins: Time::from_base(begins),
                ends: Time::from_base(begun),
                distance: metres(speed / 3.6 * minutes * 60.0),
            }
        })
        .collect();
    let crankcase = drive_likely
        .samples
        .iter()
        .map(|sample| CrankcaseSample {
            gauge: (sample.engine_speed.base() > 0.0)
                .then(|| GaugePressure::from_base(sample.power.base() * 0.012 - 180.0)),
            oil_out: Mass::from_base(sample.time.base() * 4e-7),
            oil_caught: Mass::from_base(sample.time.base() * 3e-7),
        })
        .collect();
    DayAnswers {
        legs,
        drive: drive_likely,
        unfavourable,
        crankcase,
        arrangement: TankArrangement::RecoveryTank,
        capacity: answers.tank.capacity,
        growth_doubt: Ratio::from_base(1.1),
        verdicts: answers.verdicts.iter().filter(|verdict| verdict.key == "tank_volume").cloned().collect(),
        notes: Vec::new(),
        working: Vec::new(),
    }
    .of(project)
}

trait Of {
    fn of(self, project: &Project) -> Self;
}

impl Of for DayAnswers {
    fn of(self, project: &Project) -> Self {
        Self { arrangement: project.tank.arrangement, ..self }
    }
}
