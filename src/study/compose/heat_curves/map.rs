//! Who rules over road speed and air.

use super::super::context::Context;
use super::super::course::car;
use super::super::day::of_engine;
use super::super::oil_heat::with_beside_at;
use super::super::{Fail, problem, thermal};
use super::road::Road;
use super::stretches::stretches;
use super::{ends, point};
use crate::heat::{Balance, FanSwitch, Radiator};
use crate::quantity::Measured;
use crate::quantity::si::{ThermodynamicTemperature, Velocity};
use crate::scribe::Silent;
use crate::study::{HeatColumn, HeatDriven, HeatMap, HeatMark, HeatRoad, HeatRule, Problems, Span};

/// Columns and rows.
const STEPS: (usize, usize) = (41, 31);

/// What the maps of both roads are made with.
#[derive(Clone, Copy)]
pub(super) struct With<'a> {
    pub context: &'a Context<'a>,
    pub radiator: &'a Radiator,
    pub ceiling: ThermodynamicTemperature,
    pub switch: Option<&'a FanSwitch>,
    /// Of the duty points, which are marked beside.
    pub balances: &'a [Balance],
}

/// Steady driving on a road.
pub(super) struct Drive<'a> {
    with: With<'a>,
    road: Road,
}

impl Drive<'_> {
    /// What the engine does at a road speed, and the balance of the coolant; `None` where the engine cannot hold it.
    fn at(&self, speed: f64) -> Result<Option<(HeatDriven, Balance)>, Problems> {
        let (context, radiator) = (self.with.context, self.with.radiator);
        let Some(turning) = self.road.held(speed)? else { return Ok(None) };
        let road_speed = Velocity::from_base(speed);
        let (heat, _) = of_engine(context, &turning).fail("duty")?;
        let set_point = context.project.thermostat.set_point;
        let (speeds, ceiling) = ((road_speed, turning.speed), self.with.ceiling);
        let bare = thermal::bare_at(context, radiator, set_point, speeds, heat.coolant.likely, ceiling, &mut Silent)?;
        let driven = HeatDriven { power: turning.power, rpm: turning.speed, gear: turning.gear };
        Ok(Some((driven, with_beside_at(context, &heat, road_speed, bare)?)))
    }

    /// Who rules at a road speed in some air; `None` where the engine cannot hold it.
    pub fn rule(&self, speed: f64, ambient: f64) -> Result<Option<HeatRule>, Problems> {
        let Some((_, balance)) = self.at(speed)? else { return Ok(None) };
        Ok(Some(point(&balance, self.with.switch, ambient).fail("duty")?.rule))
    }
}

/// The map of a road.
///
/// # Errors
/// A car that cannot be driven, or that holds no speed on this road.
pub(super) fn map(with: &With<'_>, road: HeatRoad) -> Result<HeatMap, Problems> {
    let (context, switch) = (with.context, with.switch);
    let hottest = context.project.surroundings.hottest;
    let drive = Drive { with: *with, road: Road::new(context, car(context)?, road)? };
    let duties = road.duties().iter();
    let fastest = duties.map(|duty| context.project.duty.of(*duty).road_speed.base()).fold(0.0, f64::max);
    let held = drive.road.fastest_held()?;
    if held <= 0.0 {
        let message =
            "the engine holds no road speed on this road; check its power, and mass, gears and drag area of the car";
        return Err(problem("car", message));
    }
    let (low, high) = ends(context);
    let air = ThermodynamicTemperature::from_base;
    let speed = Span {
        from: Velocity::from_base(0.0),
        // The duty points are on the map even where the engine could not hold them.
        to: Velocity::from_base(fastest.max(held)),
        points: STEPS.0,
    };
    let ambient = Span { from: air(low), to: air(high), points: STEPS.1 };
    let along = (0..STEPS.0).map(|i| drive.at(speed.at(i as f64).base())).collect::<Result<Vec<_>, _>>()?;
    let mut columns = Vec::with_capacity(STEPS.0);
    for (i, here) in along.iter().enumerate() {
        let Some((driven, balance)) = here else {
            columns.push(None);
            continue;
        };
        let reserve = balance.reserve(switch).fail("duty")?;
        columns.push(Some(HeatColumn {
            speed: speed.at(i as f64),
            driven: *driven,
            heat: balance.heat,
            opens_at: reserve.opens_at,
            holds_to: reserve.holds_to,
            boils_above: reserve.settles_to,
        }));
    }
    let mut cells = Vec::with_capacity(STEPS.0 * STEPS.1);
    for row in 0..STEPS.1 {
        let ambient = ambient.at(row as f64).base();
        for here in &along {
            let cell = here.as_ref().map(|(_, balance)| point(balance, switch, ambient)).transpose();
            cells.push(cell.fail("duty")?);
        }
    }
    let mut marks = Vec::with_capacity(3);
    for duty in road.duties() {
        let Some(balance) = with.balances.get(duty.index()) else { continue };
        let inputs = context.project.duty.of(*duty);
        marks.push(HeatMark {
            duty: *duty,
            speed: inputs.road_speed,
            entered: HeatDriven { power: inputs.power, rpm: inputs.rpm, gear: None },
            driven: drive.at(inputs.road_speed.base())?.map(|(driven, _)| driven),
            point: point(balance, switch, hottest.base()).fail(format!("duty.{}", duty.word()))?,
        });
    }
    let mut map = HeatMap {
        road,
        grade: drive.road.grade(),
        grade_of_hill: drive.road.is_of_hill(),
        gear_reserve: drive.road.gear_reserve(),
        speed,
        ambient,
        columns,
        cells,
        levels: Vec::new(),
        marks,
        hottest,
        stretches: stretches(&drive, &speed, hottest.base())?,
    };
    map.draw_levels();
    Ok(map)
}
