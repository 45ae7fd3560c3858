//! One line laid into the network, piece after piece.

use super::boundary::Boundary;
use super::build::Built;
use super::error::VentilationError;
use super::parts::{BreatherLine, CatchCan, Inline, Line, Piece, Place, Ventilation, Venting};
use crate::crankcase::element::{BreatherElement, Element, Fittings, FlowError, Hose, Orifice, Sag};
use crate::crankcase::network::{EdgeId, NodeId};
use crate::quantity::Measured;
use crate::quantity::si::{MassRate, Ratio, ThermodynamicTemperature};

/// The temperatures in a line: of gas going out, and of gas coming in.
#[derive(Clone, Copy)]
pub(super) struct Warm {
    pub(super) out: ThermodynamicTemperature,
    pub(super) back: ThermodynamicTemperature,
}

pub(super) struct Builder {
    pub(super) built: Built,
    /// The covers that have a line, for a hose between them.
    pub(super) first_cover: Option<NodeId>,
    pub(super) second_cover: Option<NodeId>,
}

impl Builder {
    pub(super) fn free(
        &mut self,
        name: &'static str,
        temperature: ThermodynamicTemperature,
    ) -> Result<NodeId, VentilationError> {
        Ok(self.built.network.free(name, temperature, MassRate::from_base(0.0))?)
    }

    pub(super) fn atmosphere(&mut self, at: &Boundary) -> Result<NodeId, VentilationError> {
        if let Some((_, node)) = self.built.places.iter().find(|(place, _)| *place == Place::Atmosphere) {
            return Ok(*node);
        }
        let node = self.built.network.fixed("the air", at.ambient, at.ambient_temperature)?;
        self.built.places.push((Place::Atmosphere, node));
        Ok(node)
    }

    pub(super) fn join(
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
    pub(super) fn piece(
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

    /// What stands in a line besides its hose: barbs, liquid in a sag, a component or a check valve.
    fn beside_hose(
        &mut self,
        name: Line,
        here: NodeId,
        line: &BreatherLine,
        warm: Warm,
    ) -> Result<NodeId, VentilationError> {
        let mut here = here;
        if let Some(bore) = line.barb_bore {
            let barb = Orifice::of_bore(bore, line.barb_discharge)?;
            here =
                self.piece(name, Piece::Barb, here, Place::Behind(name, Piece::Barb), "behind the barb", barb, warm)?;
        }
        if let Some(head) = line.sag {
            let sag = Sag::in_hose(head, line.hose.bore);
            here = self.piece(name, Piece::Sag, here, Place::Behind(name, Piece::Sag), "behind the sag", sag, warm)?;
        }
        let (piece, label, element) = match line.inline {
            None => return Ok(here),
            Some(Inline::Component(port)) => (Piece::Component, "behind the component", Element::from(port)),
            Some(Inline::CheckOutwards(valve)) => (Piece::Check, "behind the check valve", Element::Check(valve)),
            Some(Inline::CheckInwards(valve)) => (Piece::Check, "behind the check valve", Element::CheckInwards(valve)),
        };
        self.piece(name, piece, here, Place::Behind(name, piece), label, element, warm)
    }

    /// The hose that joins the covers; a cover not yet there is given its baffle.
    pub(super) fn cross_over(
        &mut self,
        crankcase: NodeId,
        hose: Hose,
        baffle: Orifice,
        warm: Warm,
    ) -> Result<(), VentilationError> {
        let name = Line::CrossOver;
        let first = match self.first_cover {
            Some(cover) => cover,
            None => self.piece(name, Piece::Baffle, crankcase, Place::BreatherCover, "the cover", baffle, warm)?,
        };
        let second = match self.second_cover {
            Some(cover) => cover,
            None => self.piece(name, Piece::Baffle, crankcase, Place::SecondCover, "the second cover", baffle, warm)?,
        };
        // The same gas stands at both ends.
        let warm = Warm { out: warm.out, back: warm.out };
        self.join(name, Piece::Hose, second, first, hose, warm).map(|_| ())
    }

    /// The mesh in a can, if there is one.
    fn can_mesh(
        &mut self,
        name: Line,
        can: NodeId,
        mesh: Option<BreatherElement>,
        warm: Warm,
    ) -> Result<NodeId, VentilationError> {
        let Some(mesh) = mesh else { return Ok(can) };
        let behind = Place::Behind(name, Piece::CanMesh);
        self.piece(name, Piece::CanMesh, can, behind, "behind the can's mesh", mesh, warm)
    }

    /// A line from a cover to a given pressure.
    #[allow(clippy::too_many_arguments)] // A line is what it leads through and between what.
    pub(super) fn outward(
        &mut self,
        name: Line,
        cover: NodeId,
        line: &BreatherLine,
        can: Option<&CatchCan>,
        end: NodeId,
        at: &Boundary,
        warm: Warm,
    ) -> Result<(), VentilationError> {
        let here = self.beside_hose(name, cover, line, warm)?;
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
        let place = if name == Line::SecondBreather { Place::SecondCan } else { Place::Can };
        let node = self.piece(name, Piece::Hose, here, place, "the catch can", hose, warm)?;
        let node = self.can_mesh(name, node, can.mesh, warm)?;
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
    pub(super) fn ahead_of_valve(
        &mut self,
        cover: NodeId,
        ventilation: &Ventilation,
        can: Option<&CatchCan>,
        at: &Boundary,
        warm: Warm,
    ) -> Result<NodeId, VentilationError> {
        let name = Line::Valve;
        let Some(line) = &ventilation.valve_line else { return Ok(cover) };
        let mut here = self.beside_hose(name, cover, line, warm)?;
        let Some(can) = can else {
            let behind = Place::Behind(name, Piece::Hose);
            here = self.piece(name, Piece::Hose, here, behind, "ahead of the valve", line.hose, warm)?;
            return self.filter(here, line, warm);
        };
        let hose = with_loss(line.hose, can.inlet_loss);
        let node = self.piece(name, Piece::Hose, here, Place::Can, "the catch can", hose, warm)?;
        let node = self.can_mesh(name, node, can.mesh, warm)?;
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
