//! The scene: what the drawing shows, as plain data in drawing units. No colour, no pixel, no window.
//!
//! One drawing unit is one point when the drawing is shown at its natural size, [`WIDTH`] by [`HEIGHT`].

use crate::quantity::si::VolumeRate;
use crate::study::{FlowPath, Part, State};
use egui::{Pos2, Rect};

/// Width of the drawing.
pub const WIDTH: f32 = 880.0;
/// Height of the drawing.
pub const HEIGHT: f32 = 520.0;

/// What a line or an area stands for; the theme gives it a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Outlines and words.
    Ink,
    /// Lesser words.
    Quiet,
    /// Hairlines.
    Line,
    /// The ground.
    Paper,
    /// A lighter ground: what is empty inside a part.
    Card,
    /// Coolant.
    Coolant,
    /// An area of coolant.
    CoolantWash,
    /// A coolant that has just come out: between wash and line.
    CoolantDeep,
    /// Crankcase gas.
    Gas,
    /// An area of gas.
    GasWash,
    /// Hot.
    Hot,
    /// Words about what is wrong.
    Fault,
    /// The colour of a verdict.
    State(State),
}

/// A line's tone and weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Tone.
    pub tone: Tone,
    /// Weight in drawing units.
    pub width: f32,
}

/// One figure; painted in the order they stand.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// A convex area.
    Area {
        /// Corners, in order.
        points: Vec<Pos2>,
        /// What fills it.
        fill: Option<Tone>,
        /// Its edge.
        edge: Option<Pen>,
    },
    /// An area given row by row: height, left end, right end.
    Rows {
        /// The rows, in order.
        rows: Vec<[f32; 3]>,
        /// What fills it.
        fill: Tone,
    },
    /// A line through points.
    Line {
        /// The points.
        points: Vec<Pos2>,
        /// How it is drawn.
        pen: Pen,
        /// Whether it is dashed.
        dashed: bool,
    },
    /// A circle.
    Round {
        /// Its middle.
        centre: Pos2,
        /// Its radius.
        radius: f32,
        /// What fills it.
        fill: Option<Tone>,
        /// Its edge.
        edge: Option<Pen>,
    },
    /// A hose cut lengthwise: walls in ink, filled.
    Hose {
        /// Its axis.
        points: Vec<Pos2>,
        /// Its inside width.
        bore: f32,
        /// What it holds.
        fill: Tone,
    },
    /// A full head of an arrow, pointing from `from` to `tip`.
    Head {
        /// Where it comes from.
        from: Pos2,
        /// Where it points.
        tip: Pos2,
        /// Its width.
        width: f32,
        /// Its tone.
        tone: Tone,
    },
    /// The mark of a verdict.
    Mark {
        /// Its middle.
        centre: Pos2,
        /// Its height.
        height: f32,
        /// Which.
        state: State,
    },
}

/// What a gas arrow shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stream {
    /// Past the rings into the crankcase.
    BlowBy,
    /// Along one of the ways out.
    Way(FlowPath),
    /// Up into a cover, where a cross-over makes that another flow than the one of its line.
    Rising,
    /// From the second cover to the first.
    Crossover,
}

/// A gas flow: its width is the flow, its direction the sign.
#[derive(Clone, Debug, PartialEq)]
pub struct FlowArrow {
    /// What flows.
    pub stream: Stream,
    /// Along this line, from tail to head.
    pub points: Vec<Pos2>,
    /// Width of its shaft.
    pub width: f32,
    /// Volume at 20 °C and 101.325 kPa; positive out of the crankcase, into it past the rings, or
    /// from the second cover to the first.
    pub standard: VolumeRate,
}

/// One line of a label.
#[derive(Clone, Debug, PartialEq)]
pub struct TextLine {
    /// The words, in the reader's units.
    pub text: String,
    /// Letter size in drawing units.
    pub size: f32,
    /// Whether in the semibold face.
    pub strong: bool,
    /// Tone.
    pub tone: Tone,
}

/// Which way the lines of a label are lined up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// At the left.
    Left,
    /// At the middle.
    Middle,
    /// At the right.
    Right,
}

/// A label in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The lines.
    pub lines: Vec<TextLine>,
    /// Where it stands.
    pub place: Rect,
    /// How its lines are lined up.
    pub side: Side,
    /// From the thing meant to the label.
    pub leader: Option<[Pos2; 2]>,
}

/// A part that can be chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct PartArea {
    /// Which.
    pub part: Part,
    /// What a screen reader says: the part, its key values, its verdict.
    pub name: String,
    /// Where it can be hit; the first is its body.
    pub hits: Vec<Rect>,
}

/// The tank as drawn, for whoever wants to check it against its measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TankDrawn {
    /// Drawing units for a metre.
    pub scale: f32,
    /// Height of the floor in the drawing.
    pub floor: f32,
    /// Height of the live surface in the drawing.
    pub surface: f32,
    /// Height of the end of the dip tube.
    pub tube_end: Option<f32>,
    /// Height of the seat of the cap in the drawing.
    pub neck: f32,
    /// Whether the height of the neck is drawn to the tank's scale, without a break.
    pub neck_to_scale: bool,
}

/// The whole drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// Figures under the arrows.
    pub figures: Vec<Figure>,
    /// Gas flows.
    pub arrows: Vec<FlowArrow>,
    /// Labels, none over another.
    pub labels: Vec<Label>,
    /// Parts, in the order the keyboard visits them; later ones lie above earlier ones.
    pub parts: Vec<PartArea>,
    /// The tank.
    pub tank: TankDrawn,
}
