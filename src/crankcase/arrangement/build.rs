//! From the parts to the network.

use super::boundary::Boundary;
use super::error::VentilationError;
use super::lay::{Builder, Warm};
use super::parts::{Arrangement, CanPlace, GasSource, Line, Piece, Place, Ventilation};
use crate::crankcase::element::Orifice;
use crate::crankcase::network::{EdgeId, Network, NodeId, Solution, surely_one};
use crate::quantity::si::MassRate;
use crate::quantity::{AbsolutePressure, Kind, Measured, Range};

const LOSS: Range = Range::new("loss at the catch can", Kind::Number, 0.0, 100.0, "1 at the inlet, 0.5 at the outlet");

/// The crankcase's node: sought with its blow-by, or held at a pressure.
#[derive(Clone, Copy)]
pub(super) enum Crankcase {
    Free(MassRate),
    Held(AbsolutePressure),
}

/// A network that knows what each of its parts stands for.
pub(super) struct Built {
    pub(super) network: Network,
    pub(super) pieces: Vec<(Line, Piece, EdgeId)>,
    pub(super) places: Vec<(Place, NodeId)>,
    pub(super) crankcase: NodeId,
    pub(super) valve: Option<EdgeId>,
}

impl Built {
    /// The first element of a line behind its baffle, which everything that goes by the line passes: a cross-over hose may
    /// bring to the cover, or take from it, what the baffle did not pass.
    pub(super) fn mouth(&self, line: Line) -> Option<EdgeId> {
        let of_line = || self.pieces.iter().filter(|(of, _, _)| *of == line);
        let behind = of_line().find(|(_, piece, _)| *piece != Piece::Baffle);
        behind.or_else(|| of_line().next()).map(|(_, _, edge)| *edge)
    }

    /// Everything that leaves the crankcase.
    pub(super) fn leaves(&self, solution: &Solution) -> MassRate {
        let out = solution.flows.iter().filter(|flow| flow.from == self.crankcase).map(|flow| flow.flow.base());
        MassRate::from_base(out.sum())
    }

    /// The elements of some lines, the valve left out.
    pub(super) fn elements(&self, of: &'static [Line]) -> impl Iterator<Item = EdgeId> + Clone {
        let wanted = self.pieces.iter().filter(|(line, _, edge)| of.contains(line) && Some(*edge) != self.valve);
        wanted.map(|(_, _, edge)| *edge)
    }

    /// Whether the PCV valve surely has one equilibrium.
    pub(super) fn surely_one(&self, far: AbsolutePressure) -> bool {
        let Some(valve) = self.valve else { return true };
        let fresh = self.elements(&[Line::Breather, Line::FreshAir, Line::SecondBreather]);
        surely_one(&self.network, valve, far, fresh, self.elements(&[Line::Valve]))
    }
}

/// Which lines of the ventilation to build.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Lines {
    All,
    ValveOnly,
}

pub(super) fn build(
    ventilation: &Ventilation,
    at: &Boundary,
    crankcase: Crankcase,
    lines: Lines,
) -> Result<Built, VentilationError> {
    check_parts(ventilation)?;
    at.check()?;
    let mut network = Network::new(at.ambient, ventilation.gas)?;
    let node = match crankcase {
        Crankcase::Free(blow_by) => network.free("the crankcase", at.crankcase_temperature, blow_by)?,
        Crankcase::Held(pressure) => network.fixed("the crankcase", pressure, at.crankcase_temperature)?,
    };
    let mut builder = Builder {
        built: Built {
            network,
            pieces: Vec::with_capacity(12),
            places: Vec::with_capacity(14),
            crankcase: node,
            valve: None,
        },
        first_cover: None,
        second_cover: None,
    };
    builder.built.places.push((Place::Crankcase, node));
    let air = Warm { out: at.crankcase_temperature, back: at.ambient_temperature };
    let second_baffle = ventilation.second_baffle_area.unwrap_or(ventilation.baffle_area);
    let can = |place| ventilation.catch_can.as_ref().filter(move |can| can.place == place);

    if let (Some(line), Lines::All) = (&ventilation.breather, lines) {
        let baffle = Orifice { effective_area: ventilation.baffle_area };
        let closed = ventilation.arrangement.leads_to_air_cleaner();
        let name = if closed { Line::FreshAir } else { Line::Breather };
        let from_cover = ventilation.source == GasSource::Cover;
        let source = if from_cover { Place::BreatherCover } else { Place::TakenFrom(ventilation.source) };
        let mut cover = builder.piece(name, Piece::Baffle, node, source, ventilation.source.place(), baffle, air)?;
        builder.first_cover = from_cover.then_some(cover);
        if let Some(mesh) = ventilation.mesh {
            let behind = Place::Behind(name, Piece::Mesh);
            cover = builder.piece(name, Piece::Mesh, cover, behind, "behind the mesh", mesh, air)?;
        }
        let (place, label, pressure) = if closed {
            (Place::AirCleaner, "the air cleaner", at.air_cleaner())
        } else {
            (Place::Atmosphere, "the air", at.ambient)
        };
        let end = builder.built.network.fixed(label, pressure, at.ambient_temperature)?;
        builder.built.places.push((place, end));
        builder.outward(name, cover, line, can(CanPlace::BreatherLine), end, at, air)?;
    }
    if let (Arrangement::TwoBreathers, Some(line), Lines::All) =
        (ventilation.arrangement, &ventilation.second_breather, lines)
    {
        let baffle = Orifice { effective_area: second_baffle };
        let name = Line::SecondBreather;
        let cover = builder.piece(name, Piece::Baffle, node, Place::SecondCover, "the second cover", baffle, air)?;
        builder.second_cover = Some(cover);
        let end = builder.atmosphere(at)?;
        builder.outward(name, cover, line, ventilation.second_can.as_ref(), end, at, air)?;
    }
    if let (true, Some(valve)) = (ventilation.arrangement.has_valve(), &ventilation.valve) {
        let warm = Warm { out: at.crankcase_temperature, back: at.manifold_temperature };
        let baffle = Orifice { effective_area: second_baffle };
        let mut here =
            builder.piece(Line::Valve, Piece::Baffle, node, Place::SecondCover, "the valve's cover", baffle, warm)?;
        builder.second_cover = Some(here);
        here = builder.ahead_of_valve(here, ventilation, can(CanPlace::ValveLine), at, warm)?;
        let manifold = builder.built.network.fixed("the manifold", at.manifold, at.manifold_temperature)?;
        builder.built.places.push((Place::Manifold, manifold));
        let element = match ventilation.valve_stuck {
            Some(stuck) => valve.stuck_element(stuck),
            None => valve.element(),
        };
        let edge = match ventilation.port_bore {
            Some(bore) => {
                let port = Orifice::of_bore(bore, crate::crankcase::element::barb_discharge().likely())?;
                let behind = builder.free("behind the valve", warm.out)?;
                builder.built.places.push((Place::Behind(Line::Valve, Piece::Valve), behind));
                let edge = builder.join(Line::Valve, Piece::Valve, here, behind, element, warm)?;
                builder.join(Line::Valve, Piece::Port, behind, manifold, port, warm)?;
                edge
            }
            None => builder.join(Line::Valve, Piece::Valve, here, manifold, element, warm)?,
        };
        builder.built.valve = Some(edge);
    }
    if let Some(hose) = ventilation.crossover {
        // A cover without a line of its own has a baffle too.
        let baffle = Orifice { effective_area: second_baffle };
        builder.cross_over(node, hose, baffle, air)?;
    }
    Ok(builder.built)
}

fn check_parts(ventilation: &Ventilation) -> Result<(), VentilationError> {
    let arrangement = ventilation.arrangement.name();
    let has_valve = ventilation.arrangement.has_valve();
    if has_valve && ventilation.valve.is_none() {
        return Err(VentilationError::Missing { arrangement, part: "a PCV valve" });
    }
    for can in ventilation.catch_can.iter().chain(&ventilation.second_can) {
        LOSS.check(can.inlet_loss)?;
        LOSS.check(can.outlet_loss)?;
    }
    let Some(can) = &ventilation.catch_can else { return Ok(()) };
    match can.place {
        CanPlace::ValveLine if !has_valve => {
            Err(VentilationError::NoPlace { arrangement, part: "a catch can in the valve's line" })
        }
        CanPlace::ValveLine if ventilation.valve_line.is_none() => {
            Err(VentilationError::Missing { arrangement, part: "a hose from the cover to the can in the valve's line" })
        }
        _ => Ok(()),
    }
}
