//! One ventilation at many boundaries, one after the other.

use super::boundary::Boundary;
use super::build::{Crankcase, Lines, build};
use super::error::VentilationError;
use super::parts::{Line, Ventilation};
use crate::crankcase::network::Network;
use crate::quantity::si::MassRate;
use crate::quantity::{AbsolutePressure, GaugePressure, Measured};
use crate::scribe::Silent;

/// What a map shows of one state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bare {
    /// Pressure of the crankcase above the ambient air.
    pub gauge: GaugePressure,
    /// Through every breather or the fresh-air line on balance, out of the crankcase positive; none without one.
    pub breather: Option<MassRate>,
    /// Through the PCV valve; none without one.
    pub valve: Option<MassRate>,
}

/// Solves one ventilation at many boundaries.
///
/// Every answer is that of [`super::solve_one`], within what the solver stops at. Where the ventilation does not feel the
/// change, its network is the same and so is its answer, which is then not sought again: engine speed moves the air cleaner
/// alone, which only some arrangements breathe through. Else the search starts from the pressures found last, unless there
/// may be several answers: then which one is found must not hang on what was asked before.
#[derive(Debug)]
pub struct Follower<'v> {
    ventilation: &'v Ventilation,
    last: Option<Last>,
}

#[derive(Debug)]
struct Last {
    network: Network,
    found: Result<Bare, VentilationError>,
    /// By node; empty when nothing was found.
    pressures: Vec<AbsolutePressure>,
}

impl<'v> Follower<'v> {
    /// Nothing solved yet.
    #[must_use]
    pub const fn new(ventilation: &'v Ventilation) -> Self {
        Self { ventilation, last: None }
    }

    /// The state at a boundary.
    ///
    /// # Errors
    /// As [`super::solve`].
    pub fn at(&mut self, boundary: &Boundary) -> Result<Bare, VentilationError> {
        let built = build(self.ventilation, boundary, Crankcase::Free(boundary.blow_by), Lines::All)?;
        if let Some(last) = &self.last
            && last.network == built.network
        {
            return last.found.clone();
        }
        let far = boundary.far_end(self.ventilation.arrangement);
        let near = self.last.as_ref().map(|last| &last.pressures);
        let started = near.filter(|near| !near.is_empty() && built.surely_one(far));
        let solved = started.and_then(|near| built.network.solve_from(near, &mut Silent).ok());
        let solved = solved.map_or_else(|| built.network.solve(&mut Silent), Ok);
        let pressures = solved.as_ref().map_or_else(|_| Vec::new(), |solution| solution.pressures.clone());
        let found = solved.map_err(VentilationError::from).map(|solution| {
            let flow = |line: Line| built.mouth(line).and_then(|edge| solution.flow(edge));
            let breathers = [Line::Breather, Line::SecondBreather, Line::FreshAir].map(flow);
            let breathes = breathers.iter().any(Option::is_some);
            let balance: f64 = breathers.into_iter().flatten().map(Measured::base).sum();
            Bare {
                gauge: solution.gauge(built.crankcase).unwrap_or(GaugePressure::from_base(0.0)),
                breather: breathes.then(|| MassRate::from_base(balance)),
                valve: built.valve.and_then(|edge| solution.flow(edge)),
            }
        });
        self.last = Some(Last { network: built.network, found: found.clone(), pressures });
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crankcase::arrangement::{BreatherLine, Valve, solve_one};
    use crate::crankcase::element::{BreatherElement, GenericPlunger, PlungerValve};
    use crate::quantity::pascals;
    use crate::quantity::si::{Length, Pressure};

    #[test]
    fn every_answer_is_that_of_one_state_alone() {
        let line = BreatherLine::of_hose(Length::from_base(0.012), Length::from_base(0.5), 2);
        let valve = || Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium));
        let element = line.with_element(BreatherElement::default());
        let all = [
            Ventilation::breather_only(element),
            Ventilation::breather_with_valve(element, valve()),
            Ventilation::closed(line, valve()),
            Ventilation::two_breathers(element, line),
            Ventilation { breather: None, ..Ventilation::breather_with_valve(element, valve()) },
            Ventilation { breather: None, ..Ventilation::breather_only(element) },
        ];
        for ventilation in &all {
            let mut follower = Follower::new(ventilation);
            for manifold in [25e3, 60e3, 96e3] {
                for filter in [0.0, 0.0, 300.0, 2e3] {
                    for blow_by in [0.2e-3, 0.2e-3, 1.5e-3] {
                        let at = Boundary {
                            air_cleaner_depression: Pressure::from_base(filter),
                            ..Boundary::at(
                                MassRate::from_base(blow_by),
                                crate::quantity::AbsolutePressure::new(pascals(manifold)),
                            )
                        };
                        match (follower.at(&at), solve_one(ventilation, &at, &mut Silent)) {
                            (Ok(bare), Ok(alone)) => {
                                let near = |a: f64, b: f64, by: f64| assert!((a - b).abs() <= by, "{a} {b} {at:?}");
                                near(bare.gauge.base(), alone.crankcase_gauge.base(), 0.01);
                                let valve = |flow: Option<MassRate>| flow.map_or(0.0, Measured::base);
                                near(valve(bare.valve), valve(alone.flows.valve), 2e-9);
                                let flows = alone.flows;
                                let ways = [flows.breather, flows.second_breather, flows.fresh_air];
                                let sum: f64 = ways.into_iter().flatten().map(Measured::base).sum();
                                near(bare.breather.map_or(0.0, Measured::base), sum, 2e-9);
                            }
                            (bare, alone) => assert_eq!(bare.unwrap_err(), alone.unwrap_err()),
                        }
                    }
                }
            }
        }
    }
}
