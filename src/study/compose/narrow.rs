//! What to measure to know the blow-by better: the band now, and after each thing that could be measured.

use super::Fail;
use super::blow_by::{geometry, leak_down_test};
use super::context::Context;
use super::metered::metered;
use crate::crankcase::blow_by::{LeakDownTest, assumed_readings, defaults as figures, from_leak_down};
use crate::quantity::si::{Area, MassRate, Ratio};
use crate::quantity::{Estimate, Measured};
use crate::scribe::Silent;
use crate::study::{Band, BlowByAnswers, Duty, Knowledge, LeakDownFigure, Means, Narrow, Problems, defaults};

/// High over low; none where the low end is nothing.
fn factor<Q: Measured>(estimate: &Estimate<Q>) -> Option<Ratio> {
    (estimate.low.base() > 0.0).then(|| Ratio::from_base(estimate.high.base() / estimate.low.base()))
}

/// The order of bands; one without a low end is the widest.
fn width<T>(band: &Band<T>) -> f64 {
    band.factor.map_or(f64::INFINITY, Measured::base)
}

/// High over low of what turbocharger and rings pass together, by the turbocharger's share alone.
fn factor_of_shares(shares: &Estimate<Ratio>) -> Ratio {
    Ratio::from_base((1.0 + shares.high.base()) / (1.0 + shares.low.base()))
}

/// What full throttle adds to the doubt of a reading made elsewhere, low and high end; logarithms.
struct Elsewhere([f64; 2]);

impl Elsewhere {
    fn of(full: &Estimate<MassRate>, read: &Estimate<MassRate>) -> Self {
        let ([low, high], [of_low, of_high]) = (ends(full), ends(read));
        let more = |all: f64, of: f64| (all * all - of * of).max(0.0).sqrt();
        Self([more(low, of_low), more(high, of_high)])
    }

    fn counts(&self) -> bool {
        self.0.iter().any(|more| *more > 0.01)
    }

    /// High over low at full throttle of a reading known as well as this one.
    fn factor(&self, read: &Estimate<MassRate>) -> Option<Ratio> {
        let ([low, high], [more_low, more_high]) = (ends(read), self.0);
        let all = low.hypot(more_low) + high.hypot(more_high);
        all.is_finite().then(|| Ratio::from_base(all.exp()))
    }
}

/// How far both ends of a flow lie from the likely one; logarithms.
fn ends(flow: &Estimate<MassRate>) -> [f64; 2] {
    [(flow.likely / flow.low).base().ln(), (flow.high / flow.likely).base().ln()]
}

/// What to measure, by the blow-by at full throttle.
pub(super) fn narrow(context: &Context<'_>, full: &BlowByAnswers) -> Result<Narrow, Problems> {
    let inputs = &context.project.blow_by;
    let gas = inputs.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    let meter = figures::meter_error().estimate;
    let read = |gas, error| {
        metered(inputs.metered.flow, gas, error, context.ambient, &mut Silent).fail("blow_by.metered.flow")
    };
    // What a turbocharger passes comes on top of what the rings do, within its own band.
    let full_boost = context.turbo_leak(context.manifold[Duty::FullThrottle.index()].0);
    let with_turbo = |rings: Option<Ratio>| rings.map(|rings| rings * factor_of_shares(&full_boost));
    let mut ways = Vec::with_capacity(3);
    let mut swung = Vec::new();
    if full.knowledge == Knowledge::Measured {
        let usual = read(gas, meter.likely)?;
        let elsewhere = Elsewhere::of(&full.forward, &usual);
        ways.push(Band { by: Means::CalibratedMeter, factor: elsewhere.factor(&read(gas, meter.low)?) });
        let thermometer = read(Estimate::exact(gas.likely), meter.likely)?;
        ways.push(Band { by: Means::GasTemperature, factor: elsewhere.factor(&thermometer) });
        if elsewhere.counts() {
            ways.push(Band { by: Means::FullLoad, factor: factor(&usual) });
        }
    } else {
        ways.push(Band { by: Means::Meter, factor: factor(&read(gas, meter.likely)?) });
        if full.knowledge == Knowledge::LeakDown {
            swung = swing(context)?;
            if full_boost.high > full_boost.low {
                let by = LeakDownFigure::Turbocharger;
                swung.push(Band { by, factor: Some(factor_of_shares(&full_boost)) });
            }
            swung.sort_by(|a, b| width(b).total_cmp(&width(a)));
        } else {
            let geometry = geometry(context);
            let readings = assumed_readings(inputs.condition.physics(), &geometry).fail("blow_by.leak_down")?;
            let test = leak_down_test(context);
            let area = from_leak_down(&readings, &geometry, &test, &mut Silent).fail("blow_by.leak_down")?;
            ways.push(Band { by: Means::LeakDown, factor: with_turbo(factor(&area.running)) });
        }
    }
    ways.sort_by(|a, b| width(a).total_cmp(&width(b)));
    Ok(Narrow { now: factor(&full.forward), knowledge: full.knowledge, ways, figures: swung })
}

/// The leak-down test with each figure alone between its ends, all others likely.
fn swing(context: &Context<'_>) -> Result<Vec<Band<LeakDownFigure>>, Problems> {
    let geometry = geometry(context);
    let test = leak_down_test(context);
    let likely = LeakDownTest {
        ring_share: Estimate::exact(test.ring_share.likely),
        running_to_standing: Estimate::exact(test.running_to_standing.likely),
        discharge: Estimate::exact(test.discharge.likely),
        ..test
    };
    let area = |test: &LeakDownTest| {
        let readings = &context.project.blow_by.leak_down;
        from_leak_down(readings, &geometry, test, &mut Silent).fail("blow_by.leak_down").map(|area| area.running)
    };
    let doubt = figures::restrictor_gauged().likely();
    let restrictor = |bore, discharge| {
        let range = crate::crankcase::blow_by::RESTRICTOR;
        // A bore at the end of its range is swung as far as the range goes.
        let bore = Measured::from_base(f64::clamp(Measured::base(bore), range.low, range.high));
        area(&LeakDownTest { restrictor: bore, discharge: Estimate::exact(discharge), ..likely })
    };
    let ends: [(LeakDownFigure, Estimate<Area>); 4] = [
        (
            LeakDownFigure::RunningShare,
            only(area(&LeakDownTest { running_to_standing: test.running_to_standing, ..likely })?, &area(&likely)?),
        ),
        (
            LeakDownFigure::RingShare,
            only(area(&LeakDownTest { ring_share: test.ring_share, ..likely })?, &area(&likely)?),
        ),
        (
            LeakDownFigure::Restrictor,
            Estimate {
                low: restrictor(test.restrictor - doubt, test.discharge.low)?.likely,
                likely: area(&likely)?.likely,
                high: restrictor(test.restrictor + doubt, test.discharge.high)?.likely,
            },
        ),
        (LeakDownFigure::Gauges, area(&likely)?),
    ];
    Ok(ends.into_iter().map(|(by, area)| Band { by, factor: factor(&area) }).collect())
}

/// The spread of one figure without that of the gauges, which is in every area.
fn only(both: Estimate<Area>, gauges: &Estimate<Area>) -> Estimate<Area> {
    let without = |end: Area, gauge: Area| {
        if gauge.base() > 0.0 { end * (gauges.likely.base() / gauge.base()) } else { end }
    };
    Estimate { low: without(both.low, gauges.low), likely: both.likely, high: without(both.high, gauges.high) }
}
