//! The crankcase through a day, looked up on a grid of engine speed and torque.
//!
//! The duties tell blow-by, air and manifold pressure at their own places. Between two duties by torque these go over in
//! proportion to torque: a throttled engine's charge, and with it all that passes the rings, rises in a straight line with
//! mean effective pressure. Above the heaviest duty the throttle is no wider open, below the lightest it is as there; on
//! overrun it is as at the overrun duty. Blow-by and charge of a cycle do not depend on engine speed, the air drawn goes in
//! proportion to it. The network is solved at every place of the grid; between the places pressure and oil go over in
//! proportion to speed and torque. At the place of a duty this is what the duty's own answer says.

use super::super::context::Context;
use super::super::ventilation::Parts;
use super::super::{crankcase, oil};
use crate::crankcase::arrangement::AIR_CLEANER;
use crate::day::{Sample, Stretch, Turning};
use crate::note::{Note, Weight};
use crate::quantity::si::{Mass, MassRate};
use crate::quantity::{AbsolutePressure, GaugePressure, Measured};
use crate::study::{Answers, CrankcaseSample, Duty, PortPlace};

/// Manifold pressure from one place of the grid to the next, at most; Pa.
const STEP: f64 = 9e3;
/// Places between two duties, at most.
const MOST: usize = 8;
/// Torques nearer than this share of the greatest are one.
const SAME: f64 = 5e-3;

/// What a place of the grid shares with every engine speed.
#[derive(Clone, Copy)]
struct Row {
    /// N·m.
    torque: f64,
    /// Pa.
    manifold: f64,
    /// kg/s.
    blow_by: f64,
    /// Air drawn for each unit of engine speed, kg.
    air: f64,
}

/// One place: crankcase pressure in Pa; oil that leaves, and that the can keeps, in kg/s.
#[derive(Clone)]
struct Cell {
    gauge: Result<[f64; 1], String>,
    oil: Result<[f64; 2], String>,
}

/// The grid.
pub(super) struct Grid {
    torques: Vec<f64>,
    /// One alone where the ventilation does not feel engine speed.
    speeds: Vec<f64>,
    /// By torque, then by speed.
    cells: Vec<Vec<Cell>>,
    overrun: Vec<Cell>,
}

impl Row {
    fn of(answers: &Answers, duty: Duty, context: &Context<'_>) -> Self {
        let inputs = context.project.duty.of(duty);
        let at = &answers.duties[duty.index()];
        let speed = inputs.rpm.base();
        Self {
            torque: inputs.power.base() / speed,
            manifold: at.manifold.base(),
            blow_by: at.blow_by.forward.likely.base(),
            air: at.air.base() / speed,
        }
    }

    fn between(a: &Self, b: &Self, share: f64) -> Self {
        let mix = |a: f64, b: f64| a + share * (b - a);
        Self {
            torque: mix(a.torque, b.torque),
            manifold: mix(a.manifold, b.manifold),
            blow_by: mix(a.blow_by, b.blow_by),
            air: mix(a.air, b.air),
        }
    }
}

impl Grid {
    /// Solves the network at every place that the stretches may ask for.
    pub fn of(context: &Context<'_>, answers: &Answers, parts: &Parts, stretches: &[Stretch]) -> Self {
        let rows = rows(context, answers);
        let speeds = if feels_speed(context) { speeds(context, stretches) } else { speeds(context, &[])[..1].to_vec() };
        let full_air = answers.duties[Duty::FullThrottle.index()].air;
        let solve = |row: &Row| -> Vec<Cell> {
            speeds.iter().map(|speed| cell(context, parts, row, *speed, full_air)).collect()
        };
        Self {
            torques: rows.iter().map(|row| row.torque).collect(),
            cells: rows.iter().map(solve).collect(),
            overrun: solve(&Row::of(answers, Duty::Overrun, context)),
            speeds,
        }
    }

    /// Figures of the places around, weighed; an unsolved one among them leaves none.
    fn at<const N: usize>(
        &self,
        speed: f64,
        torque: Option<f64>,
        pick: impl Fn(&Cell) -> &Result<[f64; N], String>,
    ) -> Result<[f64; N], String> {
        let along = place(&self.speeds, speed);
        let rows = match torque {
            None => [(Some(&self.overrun), 1.0), (None, 0.0)],
            Some(torque) => place(&self.torques, torque).map(|(i, part)| (self.cells.get(i), part)),
        };
        let mut sum = [0.0; N];
        for (row, part) in rows {
            for (i, share) in along {
                let weight = part * share;
                if let Some(cell) = row.and_then(|row| row.get(i)).filter(|_| weight > 0.0) {
                    let figures = pick(cell).as_ref().map_err(Clone::clone)?;
                    sum.iter_mut().zip(figures).for_each(|(sum, one)| *sum += weight * one);
                }
            }
        }
        Ok(sum)
    }

    /// Figures of a turning engine or of one at rest, which has no gas to pass.
    fn of_engine<const N: usize>(
        &self,
        engine: Option<&Turning>,
        pick: impl Fn(&Cell) -> &Result<[f64; N], String>,
    ) -> Result<[f64; N], String> {
        let Some(engine) = engine else { return Ok([0.0; N]) };
        let speed = engine.speed.base();
        self.at(speed, (!engine.overrun).then(|| engine.power.base() / speed), pick)
    }

    /// The crankcase at every sample of a day, the oil added up stretch by stretch.
    pub fn along(&self, samples: &[Sample], stretches: &[Stretch]) -> (Vec<CrankcaseSample>, Vec<Note>) {
        let (mut no_gauge, mut no_oil) = (None, None);
        let mut pieces = Vec::with_capacity(stretches.len());
        let (mut begins, mut oil) = (0.0, [0.0; 2]);
        for stretch in stretches {
            let engine = stretch.engine.as_ref();
            let gauge = kept(self.of_engine(engine, |cell| &cell.gauge), &mut no_gauge);
            let rate = kept(self.of_engine(engine, |cell| &cell.oil), &mut no_oil).unwrap_or([0.0; 2]);
            let lasts = stretch.lasts.base();
            let turns = engine.map_or(0.0, |engine| engine.speed.base());
            pieces.push(Piece { begins, ends: begins + lasts, turns, gauge, before: oil, rate });
            begins += lasts;
            oil = add(oil, rate, lasts);
        }
        let found = samples.iter().map(|sample| at_sample(&pieces, sample)).collect();
        let gap = |key, what: &str, why: Option<String>| {
            why.map(|why| Note::new(key, Weight::Weak, format!("In a part of the day {what}: {why}.")))
        };
        let notes = [
            gap("day-crankcase-unsolved", "the crankcase pressure is not known", no_gauge),
            gap("day-oil-unsolved", "the oil that leaves with the gas is not known and not counted", no_oil),
        ];
        (found, notes.into_iter().flatten().collect())
    }
}

/// A stretch as the crankcase sees it: s, rad/s, Pa, kg, kg/s.
struct Piece {
    begins: f64,
    ends: f64,
    turns: f64,
    gauge: Option<[f64; 1]>,
    /// Oil out and caught before it.
    before: [f64; 2],
    rate: [f64; 2],
}

fn add([out, caught]: [f64; 2], [more_out, more_caught]: [f64; 2], lasts: f64) -> [f64; 2] {
    [out + more_out * lasts, caught + more_caught * lasts]
}

/// A sample where two stretches meet belongs to the one whose engine speed it shows.
fn at_sample(pieces: &[Piece], sample: &Sample) -> CrankcaseSample {
    let time = sample.time.base();
    let first = pieces.partition_point(|piece| piece.ends < time);
    let near = pieces.iter().skip(first).take(2);
    let own = near.clone().find(|piece| piece.turns == sample.engine_speed.base() && piece.begins <= time);
    let Some(piece) = own.or(near.clone().next()).or(pieces.last()) else {
        let nothing = Mass::from_base(0.0);
        return CrankcaseSample { gauge: None, oil_out: nothing, oil_caught: nothing };
    };
    let [oil_out, oil_caught] = add(piece.before, piece.rate, (time - piece.begins).max(0.0)).map(Mass::from_base);
    CrankcaseSample { gauge: piece.gauge.map(|[gauge]| GaugePressure::from_base(gauge)), oil_out, oil_caught }
}

/// A figure, or nothing with the first reason remembered.
fn kept<T>(found: Result<T, String>, first: &mut Option<String>) -> Option<T> {
    found.map_err(|why| first.get_or_insert(why).clone()).ok()
}

/// Whether engine speed makes a difference: only by the depression of the air cleaner.
fn feels_speed(context: &Context<'_>) -> bool {
    let inputs = &context.project.ventilation;
    inputs.leads_to_air_cleaner() || inputs.has_valve() && inputs.valve.port.place == PortPlace::BeforeThrottle
}

/// The duties by torque, of those with the same the heaviest by engine speed, and places between them.
fn rows(context: &Context<'_>, answers: &Answers) -> Vec<Row> {
    let burning = [Duty::FullThrottle, Duty::Hill, Duty::Cruise, Duty::Idle];
    let all = burning.map(|duty| Row::of(answers, duty, context));
    let most = all.iter().map(|row| row.torque).fold(0.0, f64::max);
    let mut knots: Vec<Row> = Vec::with_capacity(4);
    for row in all {
        if knots.iter().all(|other| (other.torque - row.torque).abs() > SAME * most) {
            knots.push(row);
        }
    }
    knots.sort_by(|a, b| a.torque.total_cmp(&b.torque));
    let mut rows = Vec::with_capacity(knots.len() * 4);
    for (a, b) in knots.iter().zip(knots.iter().skip(1)) {
        let steps = (((b.manifold - a.manifold).abs() / STEP).ceil() as usize).clamp(1, MOST);
        rows.extend((0..steps).map(|step| Row::between(a, b, step as f64 / steps as f64)));
    }
    rows.extend(knots.last().copied());
    rows
}

/// The speeds of the duties and the ends of the day's, with one halfway between where they lie far apart; rising.
fn speeds(context: &Context<'_>, stretches: &[Stretch]) -> Vec<f64> {
    let turning = stretches.iter().filter_map(|stretch| stretch.engine).map(|engine| engine.speed.base());
    let (least, most) = turning.fold((f64::INFINITY, 0.0_f64), |(a, b), speed| (a.min(speed), b.max(speed)));
    let mut all: Vec<f64> = Duty::ALL.map(|duty| context.project.duty.of(duty).rpm.base()).to_vec();
    all.extend([least, most].into_iter().filter(|speed| speed.is_finite() && *speed > 0.0));
    all.sort_by(f64::total_cmp);
    all.dedup_by(|b, a| *b <= *a * (1.0 + 1e-9));
    let halves: Vec<f64> =
        all.iter().zip(all.iter().skip(1)).filter(|(a, b)| **b > 1.3 * **a).map(|(a, b)| 0.5 * (a + b)).collect();
    all.extend(halves);
    all.sort_by(f64::total_cmp);
    all
}

/// The network at one place.
fn cell(context: &Context<'_>, parts: &Parts, row: &Row, speed: f64, full_air: MassRate) -> Cell {
    let air = MassRate::from_base(row.air * speed);
    let filter = context.filter_depression(air, full_air).likely;
    let solved = AIR_CLEANER.check(filter).map_err(|outside| outside.to_string()).and_then(|filter| {
        let (blow_by, manifold) = (MassRate::from_base(row.blow_by), AbsolutePressure::from_base(row.manifold));
        let at = crankcase::boundary(context, blow_by, manifold, filter);
        crankcase::quick_case(&parts.likely, &at, "on the way").map_err(|problems| problems.to_string())
    });
    let oil = solved.as_ref().map_err(Clone::clone).and_then(|case| oil::of_case(context, case));
    Cell { gauge: solved.map(|case| [case.gauge.base()]), oil: oil.map(|oil| oil.map(Measured::base)) }
}

/// The places a value lies between with their shares; the end's own beyond an end.
fn place(axis: &[f64], value: f64) -> [(usize, f64); 2] {
    let above = axis.partition_point(|knot| *knot <= value);
    let below = above.saturating_sub(1);
    match (axis.get(below), axis.get(above)) {
        (Some(low), Some(high)) if above > 0 => {
            let share = (value - low) / (high - low);
            [(below, 1.0 - share), (above, share)]
        }
        _ => [(below, 1.0), (below, 0.0)],
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::ventilation;
    use super::*;
    use crate::day::CapState;
    use crate::quantity::celsius;
    use crate::quantity::si::{AngularVelocity, Power, Time};
    use crate::scribe::Silent;
    use crate::study::{Choice as _, Map, MapGrid, Project, Span, Variant, VentilationArrangement, answer, map};

    fn sample(time: f64, speed: f64) -> Sample {
        let warm = celsius(90.0);
        Sample {
            time: Time::from_base(time),
            leg: 0,
            air: celsius(20.0),
            road_speed: Measured::from_base(0.0),
            engine_speed: AngularVelocity::from_base(speed),
            power: Power::from_base(0.0),
            metal: warm,
            block: warm,
            coolant: warm,
            radiator_outlet: warm,
            hoses: warm,
            oil: warm,
            tank: warm,
            opening: Measured::from_base(1.0),
            fan: true,
            radiator_heat: Power::from_base(0.0),
            gauge: GaugePressure::from_base(0.0),
            cap: CapState::Shut,
            tank_gauge: GaugePressure::from_base(0.0),
            in_tank: Measured::from_base(0.0),
            level: None,
            air_in_system: Measured::from_base(0.0),
            vapour: Measured::from_base(0.0),
            out: Mass::from_base(0.0),
            lost: Mass::from_base(0.0),
            margin: Measured::from_base(10.0),
        }
    }

    /// An hour at a speed, a power.
    fn hour(speed: f64, power: f64, overrun: bool) -> Stretch {
        let air = celsius(20.0);
        let engine = Turning {
            speed: AngularVelocity::from_base(speed),
            power: Power::from_base(power),
            overrun,
            gear: None,
            missing: Power::from_base(0.0),
        };
        Stretch {
            leg: 0,
            lasts: Time::from_base(3600.0),
            air,
            air_at_end: air,
            road_speed: Measured::from_base(0.0),
            engine: Some(engine),
        }
    }

    /// The state at the end of every hour, with the project's answers.
    fn looked_up(project: &Project, hours: &[Stretch]) -> (Answers, Vec<CrankcaseSample>, Vec<Note>) {
        let answers = answer(project).unwrap();
        let context = Context::new(project, &mut Silent).unwrap();
        let parts = ventilation::parts(&project.ventilation, &mut Silent).unwrap();
        let grid = Grid::of(&context, &answers, &parts, hours);
        let speed = |hour: &Stretch| hour.engine.map_or(0.0, |engine| engine.speed.base());
        let samples = hours.iter().enumerate().map(|(i, hour)| sample(3600.0 * (i as f64 + 1.0), speed(hour)));
        let (found, notes) = grid.along(&samples.collect::<Vec<_>>(), hours);
        (answers, found, notes)
    }

    fn arranged() -> impl Iterator<Item = Project> {
        VentilationArrangement::ALL.iter().map(|arrangement| {
            let mut project = Project::blank();
            project.ventilation.arrangement = *arrangement;
            project
        })
    }

    #[test]
    fn at_the_duties_it_is_their_own_answer() {
        let mut checked = 0;
        for mut project in arranged() {
            for diesel in [false, true] {
                if diesel {
                    project.engine.fuel = crate::study::EngineFuel::Diesel;
                    project.engine.compression_ratio = Measured::from_base(18.0);
                    project.duty.points[Duty::FullThrottle.index()].power = Power::from_base(90e3);
                }
                if answer(&project).is_err() {
                    continue;
                }
                let mut hours: Vec<_> = Duty::ALL
                    .into_iter()
                    .map(|duty| {
                        let inputs = project.duty.of(duty);
                        hour(inputs.rpm.base(), inputs.power.base(), duty == Duty::Overrun)
                    })
                    .collect();
                hours.push(Stretch { engine: None, ..hours[0] });
                let (answers, found, notes) = looked_up(&project, &hours);
                assert!(notes.is_empty(), "{notes:?}");
                let mut out = 0.0;
                for (duty, at) in Duty::ALL.into_iter().zip(&found) {
                    let own = answers.duties[duty.index()].likely().gauge.base();
                    let gauge = at.gauge.unwrap().base();
                    assert!((gauge - own).abs() < 0.02 + 1e-5 * own.abs(), "{duty:?}: {gauge} {own}");
                    let oil = answers.oil.out[duty.index()].iter().map(|out| out.carried.as_ref().unwrap().oil.likely);
                    out += 3600.0 * oil.map(Measured::base).sum::<f64>();
                    let found = at.oil_out.base();
                    assert!((found - out).abs() <= 1e-4 * out + 1e-9, "{duty:?}: {found} {out}");
                    checked += 1;
                }
                let stopped = found.last().unwrap();
                assert_eq!(stopped.gauge.unwrap().base(), 0.0);
                assert!((stopped.oil_out.base() - out).abs() <= 1e-4 * out + 1e-9);
            }
        }
        assert!(checked >= 40, "{checked}");
    }

    /// Between the duties it stays near the map, which solves every place.
    #[test]
    fn between_the_duties_it_follows_the_map() {
        let mut checked = 0;
        for project in arranged() {
            let (hill, full) = (project.duty.of(Duty::Hill).clone(), project.duty.of(Duty::FullThrottle).clone());
            for share in [0.2, 0.5, 0.8] {
                let rpm = hill.rpm.base() + share * (full.rpm.base() - hill.rpm.base());
                let (low, high) = (hill.power.base() / hill.rpm.base(), full.power.base() / full.rpm.base());
                let torque = low + share * (high - low);
                let (answers, found, _) = looked_up(&project, &[hour(rpm, torque * rpm, false)]);
                let manifold = |duty: Duty| answers.duties[duty.index()].manifold.base();
                let at = manifold(Duty::Hill) + share * (manifold(Duty::FullThrottle) - manifold(Duty::Hill));
                let grid = MapGrid {
                    rpm: Span {
                        from: AngularVelocity::from_base(rpm),
                        to: AngularVelocity::from_base(rpm + 1.0),
                        points: 2,
                    },
                    manifold: Span {
                        from: AbsolutePressure::from_base(at),
                        to: AbsolutePressure::from_base(at + 1.0),
                        points: 2,
                    },
                };
                let map: Map = map(&project, &grid, &Variant::Present).unwrap();
                let Some(state) = map.cells.first().and_then(|cell| cell.state()) else { continue };
                let (own, gauge) = (state.likely.gauge.base(), found[0].gauge.unwrap().base());
                assert!(
                    (own - gauge).abs() < 12.0 + 0.12 * own.abs(),
                    "{:?} {share}: {gauge}, the map has {own}",
                    project.ventilation.arrangement
                );
                checked += 1;
            }
        }
        assert!(checked > 12, "{checked}");
    }
}
