//! Who rules over road speed and air.

use super::super::context::Context;
use super::super::{Fail, fan};
use super::{ends, point};
use crate::heat::{Balance, FanSwitch};
use crate::quantity::Measured;
use crate::quantity::si::{AngularVelocity, Power, ThermalConductance, ThermodynamicTemperature, Velocity};
use crate::scribe::Silent;
use crate::study::{Duty, HeatColumn, HeatMap, HeatMark, HeatRoad, HeatRule, HeatStretch, Problems, Span};

/// Columns and rows.
const STEPS: (usize, usize) = (41, 31);
/// How near a road speed at which the ruler changes is found, m/s.
const NEAR: f64 = 0.01;

/// Steady driving from the slowest duty point of a road to the fastest.
struct Drive<'a> {
    context: &'a Context<'a>,
    /// Road speed and balance of each duty point, slowest first.
    through: Vec<(Duty, f64, &'a Balance)>,
    switch: Option<&'a FanSwitch>,
}

impl<'a> Drive<'a> {
    /// Those of a road's duty points that go one faster than the other.
    fn new(context: &'a Context<'a>, road: HeatRoad, balances: &'a [Balance], switch: Option<&'a FanSwitch>) -> Self {
        let mut through: Vec<(Duty, f64, &Balance)> = Vec::with_capacity(3);
        for duty in road.duties() {
            let speed = context.project.duty.of(duty).road_speed.base();
            let faster = through.last().is_none_or(|(_, before, _)| speed > *before);
            if let (true, Some(balance)) = (faster, balances.get(duty.index())) {
                through.push((duty, speed, balance));
            }
        }
        Self { context, through, switch }
    }

    /// The balance at a road speed between the ends. Heat and engine speed go straight from one duty point to the next;
    /// drag grows faster than that, so between the points the heat errs to the high side.
    fn at(&self, speed: f64) -> Result<Option<Balance>, Problems> {
        let pair = self.through.windows(2).find(|pair| pair.last().is_some_and(|(_, to, _)| speed <= *to));
        let Some([(_, from, slow), (_, to, fast)]) = pair else { return Ok(None) };
        let share = (speed - from) / (to - from);
        let between = |a: f64, b: f64| a + share * (b - a);
        let base = if share < 1.0 { slow } else { fast };
        let engine_speed = AngularVelocity::from_base(between(slow.engine_speed.base(), fast.engine_speed.base()));
        let speeds = (Velocity::from_base(speed), engine_speed);
        let hottest = self.context.project.surroundings.hottest;
        Ok(Some(Balance {
            engine_speed,
            heat: Power::from_base(between(slow.heat.base(), fast.heat.base())),
            engine_loss: ThermalConductance::from_base(between(slow.engine_loss.base(), fast.engine_loss.base())),
            airflow: fan::airflow(self.context, base.radiator.frontal_area, speeds, hottest, &mut Silent)?,
            ..**base
        }))
    }

    fn rule(&self, speed: f64, ambient: f64) -> Result<HeatRule, Problems> {
        // Outside the ends nobody asks.
        let Some(balance) = self.at(speed)? else { return Ok(HeatRule::Boils) };
        Ok(point(&balance, self.switch, ambient).fail("duty")?.rule)
    }
}

/// The map of a road; the inner fault is that of a road without two duty points that differ in speed.
pub(super) fn map(
    context: &Context<'_>,
    road: HeatRoad,
    balances: &[Balance],
    switch: Option<&FanSwitch>,
) -> Result<Result<HeatMap, String>, Problems> {
    let drive = Drive::new(context, road, balances, switch);
    let (Some((_, slowest, _)), Some((_, fastest, _))) = (drive.through.first(), drive.through.last()) else {
        return Ok(Err("there is no duty point".to_owned()));
    };
    if slowest >= fastest {
        let message = "no duty point of this road is driven faster than idle, so there is no road speed to go along; \
                       give their road speeds";
        return Ok(Err(message.to_owned()));
    }
    let (low, high) = ends(context);
    let air = ThermodynamicTemperature::from_base;
    let speed = Span { from: Velocity::from_base(*slowest), to: Velocity::from_base(*fastest), points: STEPS.0 };
    let ambient = Span { from: air(low), to: air(high), points: STEPS.1 };
    let mut columns = Vec::with_capacity(STEPS.0);
    let mut along = Vec::with_capacity(STEPS.0);
    for i in 0..STEPS.0 {
        let here = speed.at(i as f64);
        let Some(balance) = drive.at(here.base())? else { continue };
        let reserve = balance.reserve(switch).fail("duty")?;
        columns.push(HeatColumn {
            speed: here,
            rpm: balance.engine_speed,
            heat: balance.heat,
            opens_at: reserve.opens_at,
            holds_to: reserve.holds_to,
            boils_above: reserve.settles_to,
        });
        along.push(balance);
    }
    let mut cells = Vec::with_capacity(STEPS.0 * STEPS.1);
    for row in 0..STEPS.1 {
        for balance in &along {
            cells.push(point(balance, switch, ambient.at(row as f64).base()).fail("duty")?);
        }
    }
    let hottest = context.project.surroundings.hottest;
    let mut marks = Vec::with_capacity(3);
    for (duty, at, balance) in &drive.through {
        let point = point(balance, switch, hottest.base()).fail(format!("duty.{}", duty.word()))?;
        marks.push(HeatMark { duty: *duty, speed: Velocity::from_base(*at), point });
    }
    let mut map = HeatMap {
        road,
        through: drive.through.iter().map(|(duty, at, _)| (*duty, Velocity::from_base(*at))).collect(),
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
    Ok(Ok(map))
}

/// Who rules from one road speed to the next in some air, the changes found by halving between the columns.
fn stretches(drive: &Drive<'_>, speed: &Span<Velocity>, ambient: f64) -> Result<Vec<HeatStretch>, Problems> {
    let start = speed.from;
    let rule = drive.rule(start.base(), ambient)?;
    let mut all = vec![HeatStretch { rule, from: start, to: start }];
    let mut before = rule;
    for i in 1..speed.points {
        let (from, to) = (speed.at((i - 1) as f64).base(), speed.at(i as f64).base());
        let now = drive.rule(to, ambient)?;
        let (least, most) = (before.min(now), before.max(now));
        // Two may change within one step: each border between them is looked for by itself, in the order it is met.
        let mut passed: Vec<HeatRule> =
            HeatRule::ALL.into_iter().filter(|rule| *rule > least && *rule <= most).collect();
        if now < before {
            passed.reverse();
        }
        for border in passed {
            let (mut low, mut high) = (from, to);
            let beyond = now >= border;
            while high - low > NEAR {
                let middle = 0.5 * (low + high);
                if (drive.rule(middle, ambient)? >= border) == beyond {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            let rule = if now >= border { border } else { below(border) };
            if let Some(last) = all.last_mut() {
                last.to = Velocity::from_base(high);
            }
            all.push(HeatStretch { rule, from: Velocity::from_base(high), to: Velocity::from_base(high) });
        }
        if let Some(last) = all.last_mut() {
            last.to = Velocity::from_base(to);
        }
        before = now;
    }
    Ok(all)
}

/// The rule on the cold side of a border.
fn below(border: HeatRule) -> HeatRule {
    HeatRule::ALL.into_iter().rev().find(|rule| *rule < border).unwrap_or(border)
}
