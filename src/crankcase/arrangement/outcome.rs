//! The answer at one duty, in the builder's words.

use super::boundary::Boundary;
use super::build::{Built, Crankcase, Lines, build};
use super::error::VentilationError;
use super::parts::{Line, Piece, Place, Valve, Ventilation};
use crate::crankcase::network::{Equilibrium, NetworkError, Solution, Stability};
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Pressure};
use crate::quantity::{AbsolutePressure, GaugePressure, Measured};
use crate::scribe::{Scribe, Silent};

/// Every flow by name. Out of the crankcase is positive, and out of a can into the air.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flows {
    /// Through the breather; negative when fresh air comes in by it.
    pub breather: Option<MassRate>,
    /// Through the second breather.
    pub second_breather: Option<MassRate>,
    /// Through the PCV valve.
    pub valve: Option<MassRate>,
    /// Through the fresh-air line; negative when fresh air comes in, positive when gas goes to the air cleaner.
    pub fresh_air: Option<MassRate>,
    /// Through the opening of a vented can in the valve's line.
    pub can_vent: Option<MassRate>,
    /// Through the cross-over hose, from the second cover to the first.
    pub crossover: Option<MassRate>,
}

/// The pressure drop of one piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loss {
    /// Its line.
    pub line: Line,
    /// The piece.
    pub piece: Piece,
    /// Pressure on its crankcase side less that on the other.
    pub drop: Pressure,
    /// Flow through it, out of the crankcase positive.
    pub flow: MassRate,
}

/// The pressure at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacePressure {
    /// Where.
    pub place: Place,
    /// Above vacuum.
    pub absolute: AbsolutePressure,
    /// Above the ambient air.
    pub gauge: GaugePressure,
}

/// The answer at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Pressure of the crankcase above the ambient air.
    pub crankcase_gauge: GaugePressure,
    /// Every flow by name.
    pub flows: Flows,
    /// Pressures for the drawing.
    pub pressures: Vec<PlacePressure>,
    /// Pressure drops, along each line from the crankcase outwards.
    pub losses: Vec<Loss>,
    /// Remarks.
    pub notes: Vec<Note>,
    /// Every equilibrium with the crankcase's pressure in it, when there may be several; else empty.
    pub all: Vec<(GaugePressure, Stability)>,
    /// The PCV valve is the only way out.
    pub sealed: bool,
    /// The network's own answer: iterations, residual, conservation.
    pub solution: Solution,
}

impl Outcome {
    /// The piece of a line that takes the most pressure.
    #[must_use]
    pub fn tightest(&self, line: Line) -> Option<&Loss> {
        self.losses
            .iter()
            .filter(|loss| loss.line == line)
            .max_by(|a, b| a.drop.base().abs().total_cmp(&b.drop.base().abs()))
    }

    /// The pressure at a place.
    #[must_use]
    pub fn pressure_at(&self, place: Place) -> Option<&PlacePressure> {
        self.pressures.iter().find(|pressure| pressure.place == place)
    }
}

/// Solves a ventilation at one duty.
///
/// # Errors
/// [`VentilationError`] for a part that is missing or not valid, and when the network has no answer.
pub fn solve(ventilation: &Ventilation, at: &Boundary, scribe: &mut impl Scribe) -> Result<Outcome, VentilationError> {
    let built = build(ventilation, at, Crankcase::Free(at.blow_by), Lines::All)?;
    let solution = built.network.solve(scribe)?;
    let several = solution.sealed || !built.surely_one(at.far_end(ventilation.arrangement));
    let (all, unknown) = if several { equilibria(&built, &solution) } else { (Vec::new(), None) };
    let mut outcome = outcome(ventilation, at, &built, solution, all);
    outcome.notes.extend(unknown);
    Ok(outcome)
}

/// As [`solve`], without a look for other equilibria, which takes longer than all the rest: for a search that tries
/// many ventilations. The pressure is the same.
///
/// # Errors
/// As [`solve`].
pub fn solve_one(
    ventilation: &Ventilation,
    at: &Boundary,
    scribe: &mut impl Scribe,
) -> Result<Outcome, VentilationError> {
    let built = build(ventilation, at, Crankcase::Free(at.blow_by), Lines::All)?;
    let solution = built.network.solve(scribe)?;
    Ok(outcome(ventilation, at, &built, solution, Vec::new()))
}

/// A flow of gas that no seat worth the name lets through, kg/s: some 0.1 L/min.
const SEAT: f64 = 2e-6;

/// Every equilibrium if there are several or the crankcase is sealed; a remark when they could not be listed.
fn equilibria(built: &Built, solution: &Solution) -> (Vec<(GaugePressure, Stability)>, Option<Note>) {
    match built.network.all_solutions(&mut Silent) {
        Ok(found) if found.len() < 2 && !solution.sealed => (Vec::new(), None),
        Ok(found) => {
            let gauge = |one: &Equilibrium| Some((one.solution.gauge(built.crankcase)?, one.stability));
            (found.iter().filter_map(gauge).collect(), None)
        }
        // Without a valve whose opening falls with the depression there is one equilibrium.
        Err(NetworkError::NotOneValve { count: 0 }) => (Vec::new(), None),
        Err(error) => {
            let text = format!("Whether the PCV valve has another equilibrium here is not known: {error}.");
            (Vec::new(), Some(Note::new("equilibria-unknown", Weight::Weak, text)))
        }
    }
}

fn outcome(
    ventilation: &Ventilation,
    at: &Boundary,
    built: &Built,
    solution: Solution,
    all: Vec<(GaugePressure, Stability)>,
) -> Outcome {
    let flow = |line: Line| built.mouth(line).and_then(|edge| solution.flow(edge));
    let flows = Flows {
        breather: flow(Line::Breather),
        second_breather: flow(Line::SecondBreather),
        valve: built.valve.and_then(|edge| solution.flow(edge)),
        fresh_air: flow(Line::FreshAir),
        can_vent: flow(Line::CanVent),
        crossover: flow(Line::CrossOver),
    };
    let pressures: Vec<_> = built
        .places
        .iter()
        .filter_map(|(place, node)| {
            let absolute = solution.pressure(*node)?;
            Some(PlacePressure { place: *place, absolute, gauge: absolute.to_gauge(at.ambient) })
        })
        .collect();
    let losses: Vec<Loss> = built
        .pieces
        .iter()
        .filter_map(|(line, piece, edge)| {
            let through = solution.flows.get(edge.index())?;
            Some(Loss { line: *line, piece: *piece, drop: through.drop, flow: through.flow })
        })
        .collect();
    let crankcase_gauge = solution.gauge(built.crankcase).unwrap_or(GaugePressure::from_base(0.0));
    let mut notes = solution.notes.clone();
    notes.extend(remarks(ventilation, at, &flows, &losses, &all));
    Outcome { crankcase_gauge, flows, pressures, losses, notes, all, sealed: solution.sealed, solution }
}

fn remarks(
    ventilation: &Ventilation,
    at: &Boundary,
    flows: &Flows,
    losses: &[Loss],
    all: &[(GaugePressure, Stability)],
) -> Vec<Note> {
    let mut notes = super::shut::remarks(ventilation, losses);
    let mut add = |key, weight, text: &str| notes.push(Note::new(key, weight, text));
    if all.len() > 1 {
        add(
            "several-equilibria",
            Weight::Danger,
            if ventilation.lets_air_in() {
                "The PCV valve has several equilibria here: what stands in its line lets its opening come to rest at more than one \
                 place. Its flow may jump and the valve may flutter; a wider port and line steady it."
            } else {
                "The PCV valve has several equilibria here: its flow falls while the depression grows, and nothing beside it \
                 holds the crankcase steady. The pressure may jump and the valve may flutter."
            },
        );
    }
    if ventilation.breather.is_none() && ventilation.second_breather.is_none() {
        add(
            "no-breather",
            Weight::Danger,
            "There is no breather, or it is blocked. Never run an engine with every way out shut: a few kPa move seals.",
        );
    }
    if ventilation.arrangement.has_valve() && at.manifold > at.ambient {
        // All are reckoned shut; a plunger and an unknown valve only seat, the others have a check of their own.
        // More than a closed seat leaks.
        let back = flows.valve.is_some_and(|flow| flow.base() < -SEAT);
        match &ventilation.valve {
            Some(valve) if back && !matches!(valve, Valve::Sonic(_)) => add(
                "boosted-manifold",
                Weight::Danger,
                "The manifold is above the ambient air, and what the valve leaves open lets boost and fuel vapour into the \
                 crankcase: seals let go and oil is thrown. Put a tight check valve between it and the port.",
            ),
            Some(Valve::FixedOrifice(_) | Valve::Check(_)) => add(
                "boosted-manifold",
                Weight::Weak,
                "The manifold is above the ambient air: the valve is shut and carries nothing, all gas goes by the breather. Its \
                 check must be tight, or boost blows into the crankcase.",
            ),
            Some(Valve::Sonic(_)) => add(
                "boosted-manifold",
                Weight::Danger,
                "The manifold is above the ambient air, and a component known by C and b is reckoned open both ways: boost blows \
                 into the crankcase. Put a tight check valve in the line.",
            ),
            _ => add(
                "boosted-manifold",
                Weight::Danger,
                "The manifold is above the ambient air: the valve is reckoned shut and carries nothing, all gas goes by the \
                 breather. A plunger that merely seats is no check valve: worn or dirty it lets boost and fuel vapour into the \
                 crankcase, seals let go and oil is thrown. Put a tight check valve between it and the port.",
            ),
        }
    }
    let lost = |piece: Piece| losses.iter().find(|loss| loss.piece == piece).map(|loss| loss.drop.base());
    if let (Some(port), Some(valve)) = (lost(Piece::Port), lost(Piece::Valve))
        && port > valve
    {
        add(
            "port-narrower",
            Weight::Weak,
            "The manifold port takes more pressure than the PCV valve: it is too narrow for the valve to do its work.",
        );
    }
    let breathes_out = flows.fresh_air.is_some_and(|flow| flow.base() > 0.0);
    if breathes_out {
        add(
            "fresh-air-line-reversed",
            Weight::Weak,
            "The line to the air cleaner carries crankcase gas there: expect oil there, and a baffle or a separator \
             is wanted.",
        );
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crankcase::arrangement::BreatherLine;
    use crate::crankcase::element::{BreatherElement, GenericPlunger, PlungerValve};
    use crate::quantity::pascals;
    use crate::quantity::si::Length;

    /// Where the bound rules out a second equilibrium, the scan finds none; and it rules one out for usual sizes.
    #[test]
    fn the_bound_is_on_the_safe_side() {
        let (mut ruled_out, mut several) = (0, 0);
        for bore in [1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 16.0] {
            for size in [GenericPlunger::Small, GenericPlunger::Medium, GenericPlunger::Large] {
                for manifold in [20e3, 35e3, 50e3, 65e3, 80e3, 95e3] {
                    for blow_by in [0.0, 0.1e-3, 0.3e-3, 0.6e-3, 0.9e-3, 1.5e-3] {
                        let line = BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.4), 2)
                            .with_element(BreatherElement::default())
                            .with_barb(Length::from_base(bore * 1e-3));
                        let valve = Valve::Plunger(PlungerValve::generic(size));
                        let ventilation = Ventilation::breather_with_valve(line, valve);
                        let at = Boundary::at(MassRate::from_base(blow_by), AbsolutePressure::new(pascals(manifold)));
                        let built = build(&ventilation, &at, Crankcase::Free(at.blow_by), Lines::All).unwrap();
                        let found = built.network.all_solutions(&mut Silent).unwrap();
                        assert!(found.len() % 2 == 1, "{bore} {size:?} {manifold} {blow_by}: {}", found.len());
                        several += usize::from(found.len() > 1);
                        let far = at.far_end(ventilation.arrangement);
                        if built.surely_one(far) {
                            ruled_out += 1;
                            assert_eq!(found.len(), 1, "{bore} {size:?} {manifold} {blow_by}");
                        } else {
                            assert!(bore < 16.0, "{size:?} {manifold} {blow_by}: a usual breather needs no scan");
                        }
                    }
                }
            }
        }
        assert!(ruled_out > 200 && several > 0, "{ruled_out} {several}");
    }
}
