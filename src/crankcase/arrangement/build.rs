//! From the parts to the network.

use super::boundary::Boundary;
use super::error::VentilationError;
use super::parts::{Arrangement, BreatherLine, CanPlace, CatchCan, Line, Piece, Place, Ventilation, Venting};
use crate::crankcase::element::{Element, Fittings, FlowError, Hose, Orifice};
use crate::crankcase::network::{EdgeId, Network, NodeId, surely_one};
use crate::quantity::si::{MassRate, Ratio, ThermodynamicTemperature};
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
    /// The first element of a line, which everything from the crankcase into the line passes.
    pub(super) fn mouth(&self, line: Line) -> Option<EdgeId> {
        self.pieces.iter().find(|(of, _, _)| *of == line).map(|(_, _, edge)| *edge)
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

/// The temperatures in a line: of gas going out, and of gas coming in.
#[derive(Clone, Copy)]
struct Warm {
    out: ThermodynamicTemperature,
    back: ThermodynamicTemperature,
}

struct Builder {
    built: Built,
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
    };
    builder.built.places.push((Place::Crankcase, node));
    let air = Warm { out: at.crankcase_temperature, back: at.ambient_temperature };
    let second_baffle = ventilation.second_baffle_area.unwrap_or(ventilation.baffle_area);
    let can = |place| ventilation.catch_can.as_ref().filter(move |can| can.place == place);

    if let (Some(line), Lines::All) = (&ventilation.breather, lines) {
        let baffle = Orifice { effective_area: ventilation.baffle_area };
        let closed = ventilation.arrangement == Arrangement::ClosedWithFreshAirLine;
        let name = if closed { Line::FreshAir } else { Line::Breather };
        let cover = builder.piece(name, Piece::Baffle, node, Place::BreatherCover, "the cover", baffle, air)?;
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
        let end = builder.atmosphere(at)?;
        builder.outward(name, cover, line, None, end, at, air)?;
    }
    if let (true, Some(valve)) = (ventilation.arrangement.has_valve(), &ventilation.valve) {
        let warm = Warm { out: at.crankcase_temperature, back: at.manifold_temperature };
        let baffle = Orifice { effective_area: second_baffle };
        let mut here =
            builder.piece(Line::Valve, Piece::Baffle, node, Place::SecondCover, "the valve's cover", baffle, warm)?;
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
    Ok(builder.built)
}

impl Builder {
    fn free(&mut self, name: &'static str, temperature: ThermodynamicTemperature) -> Result<NodeId, VentilationError> {
        Ok(self.built.network.free(name, temperature, MassRate::from_base(0.0))?)
    }

    fn atmosphere(&mut self, at: &Boundary) -> Result<NodeId, VentilationError> {
        if let Some((_, node)) = self.built.places.iter().find(|(place, _)| *place == Place::Atmosphere) {
            return Ok(*node);
        }
        let node = self.built.network.fixed("the air", at.ambient, at.ambient_temperature)?;
        self.built.places.push((Place::Atmosphere, node));
        Ok(node)
    }

    fn join(
        &mut self,
        line: Line,
        piece: Piece,
        from: NodeId,
        to: NodeId,
        element: impl Into<Element>,
        warm: Warm,
    ) -> Result<EdgeId, VentilationError> {
        let edge = self.built.network.join_carrying(from, to, warm.out, warm.back, element)?;
        self.built.pieces.push((line, piece, edge));
        Ok(edge)
    }

    /// A piece with a new node behind it.
    #[allow(clippy::too_many_arguments)] // One row of a list of parts.
    fn piece(
        &mut self,
        line: Line,
        piece: Piece,
        from: NodeId,
        place: Place,
        name: &'static str,
        element: impl Into<Element>,
        warm: Warm,
    ) -> Result<NodeId, VentilationError> {
        let node = self.free(name, warm.out)?;
        self.built.places.push((place, node));
        self.join(line, piece, from, node, element, warm)?;
        Ok(node)
    }

    fn barb(&mut self, name: Line, here: NodeId, line: &BreatherLine, warm: Warm) -> Result<NodeId, VentilationError> {
        let Some(bore) = line.barb_bore else { return Ok(here) };
        let barb = Orifice::of_bore(bore, line.barb_discharge)?;
        self.piece(name, Piece::Barb, here, Place::Behind(name, Piece::Barb), "behind the barb", barb, warm)
    }

    /// A line from a cover to a given pressure.
    #[allow(clippy::too_many_arguments)] // A line is what it leads through and between what.
    fn outward(
        &mut self,
        name: Line,
        cover: NodeId,
        line: &BreatherLine,
        can: Option<&CatchCan>,
        end: NodeId,
        at: &Boundary,
        warm: Warm,
    ) -> Result<(), VentilationError> {
        let here = self.barb(name, cover, line, warm)?;
        let Some(can) = can else {
            return match line.element {
                None => self.join(name, Piece::Hose, here, end, line.hose, warm).map(|_| ()),
                Some(element) => {
                    let behind = Place::Behind(name, Piece::Hose);
                    let behind = self.piece(name, Piece::Hose, here, behind, "end of the hose", line.hose, warm)?;
                    self.join(name, Piece::Element, behind, end, element, warm).map(|_| ())
                }
            };
        };
        let hose = with_loss(line.hose, can.inlet_loss);
        let node = self.piece(name, Piece::Hose, here, Place::Can, "the catch can", hose, warm)?;
        match can.venting {
            Venting::Sealed { outlet } => {
                let outlet = match outlet {
                    Some(hose) => Some(with_loss(hose, can.outlet_loss)),
                    // The next part sits on the can; without one the opening is as wide as the hose.
                    None if line.element.is_none() => Some(opening(line.hose, can.outlet_loss)),
                    None => None,
                };
                self.leave(name, node, outlet, Piece::CanOutlet, line, end, warm)
            }
            Venting::Vented { opening_bore, .. } => {
                let air = self.atmosphere(at)?;
                let outlet = match opening_bore {
                    Some(bore) => Some(opening(Hose { bore, ..line.hose }, can.outlet_loss)),
                    None if line.element.is_none() => Some(opening(line.hose, can.outlet_loss)),
                    None => None,
                };
                self.leave(name, node, outlet, Piece::CanOpening, line, air, warm)
            }
        }
    }

    /// From the can to the end of the line.
    #[allow(clippy::too_many_arguments)] // As above.
    fn leave(
        &mut self,
        name: Line,
        can: NodeId,
        outlet: Option<Hose>,
        piece: Piece,
        line: &BreatherLine,
        end: NodeId,
        warm: Warm,
    ) -> Result<(), VentilationError> {
        match (outlet, line.element) {
            (Some(outlet), Some(element)) => {
                let behind = Place::Behind(name, piece);
                let behind = self.piece(name, piece, can, behind, "behind the can's outlet", outlet, warm)?;
                self.join(name, Piece::Element, behind, end, element, warm)?;
            }
            (Some(outlet), None) => {
                self.join(name, piece, can, end, outlet, warm)?;
            }
            (None, Some(element)) => {
                self.join(name, Piece::Element, can, end, element, warm)?;
            }
            (None, None) => return Err(FlowError::NoResistance { what: "the catch can's outlet" }.into()),
        }
        Ok(())
    }

    /// From the valve's cover to the valve, with the can if it stands there.
    fn ahead_of_valve(
        &mut self,
        cover: NodeId,
        ventilation: &Ventilation,
        can: Option<&CatchCan>,
        at: &Boundary,
        warm: Warm,
    ) -> Result<NodeId, VentilationError> {
        let name = Line::Valve;
        let Some(line) = &ventilation.valve_line else { return Ok(cover) };
        let mut here = self.barb(name, cover, line, warm)?;
        let Some(can) = can else {
            let behind = Place::Behind(name, Piece::Hose);
            here = self.piece(name, Piece::Hose, here, behind, "ahead of the valve", line.hose, warm)?;
            return self.filter(here, line, warm);
        };
        let hose = with_loss(line.hose, can.inlet_loss);
        let node = self.piece(name, Piece::Hose, here, Place::Can, "the catch can", hose, warm)?;
        let outlet = match can.venting {
            Venting::Sealed { outlet } => outlet,
            Venting::Vented { opening_bore, element, outlet } => {
                let air = self.atmosphere(at)?;
                let warm = Warm { out: warm.out, back: at.ambient_temperature };
                let hole = opening_bore.map(|bore| opening(Hose { bore, ..line.hose }, can.outlet_loss));
                let hole = match (hole, element) {
                    (None, None) => Some(opening(line.hose, can.outlet_loss)),
                    (hole, _) => hole,
                };
                let vent = BreatherLine { element, ..*line };
                self.leave(Line::CanVent, node, hole, Piece::CanOpening, &vent, air, warm)?;
                outlet
            }
        };
        let Some(outlet) = outlet else { return self.filter(node, line, warm) };
        let outlet = with_loss(outlet, can.outlet_loss);
        let behind = Place::Behind(name, Piece::CanOutlet);
        let here = self.piece(name, Piece::CanOutlet, node, behind, "ahead of the valve", outlet, warm)?;
        self.filter(here, line, warm)
    }

    fn filter(&mut self, here: NodeId, line: &BreatherLine, warm: Warm) -> Result<NodeId, VentilationError> {
        let Some(element) = line.element else { return Ok(here) };
        let behind = Place::Behind(Line::Valve, Piece::Element);
        self.piece(Line::Valve, Piece::Element, here, behind, "behind the valve line's filter", element, warm)
    }
}

fn with_loss(hose: Hose, loss: Ratio) -> Hose {
    Hose { fittings: Fittings { other: hose.fittings.other + loss, ..hose.fittings }, ..hose }
}

/// An opening of a hose's bore: no length, a loss and the exit into the open.
fn opening(hose: Hose, loss: Ratio) -> Hose {
    let fittings = Fittings::of_sum(loss + crate::crankcase::element::exit_loss().likely());
    Hose { length: Measured::from_base(0.0), fittings, ..hose }
}

fn check_parts(ventilation: &Ventilation) -> Result<(), VentilationError> {
    let arrangement = ventilation.arrangement.name();
    let has_valve = ventilation.arrangement.has_valve();
    if has_valve && ventilation.valve.is_none() {
        return Err(VentilationError::Missing { arrangement, part: "a PCV valve" });
    }
    let Some(can) = &ventilation.catch_can else { return Ok(()) };
    LOSS.check(can.inlet_loss)?;
    LOSS.check(can.outlet_loss)?;
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
