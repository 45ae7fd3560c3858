//! The field, its lines and the duty points.

use super::ink::{self, Look};
use super::legend::{self, Scale};
use super::limit::{self, Piece};
use super::{Layer, place};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, UnitSystem, si::AngularVelocity};
use crate::study::{Map, MapCaseKind, MapGrid, MapLine, MapState, Moment};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::{Tokens, weight};
use egui::{Align2, Color32, ColorImage, Id, TextureHandle, TextureOptions, Ui, pos2};
use egui_plot::{LineStyle, PlotImage, PlotPoint};
use std::borrow::Cow;

/// What is drawn.
pub(super) struct Field<'a> {
    pub present: &'a Map,
    pub other: Option<&'a Map>,
    pub layer: Layer,
    pub kind: MapCaseKind,
    pub moment: Moment,
    pub system: UnitSystem,
    /// Changes with the maps, so that the picture of them is made once.
    pub come: u64,
}

/// What the picture of the field was made from.
#[derive(Clone, Copy, PartialEq)]
struct Made {
    come: u64,
    layer: Layer,
    kind: MapCaseKind,
    dark: bool,
}

/// A line as it is drawn: its points, its kind, and whether it is of the other ventilation.
struct Stroke {
    points: Vec<[f64; 2]>,
    colour: Color32,
    width: f32,
    style: LineStyle,
}

/// A kind of line of a map, and how it is drawn and told.
struct Kept<'m> {
    lines: Cow<'m, [MapLine]>,
    name: &'static str,
    look: Look,
    width: f32,
}

impl<'m> Kept<'m> {
    const fn new(lines: Cow<'m, [MapLine]>, name: &'static str, look: Look, width: f32) -> Self {
        Self { lines, name, look, width }
    }
}

/// A name on the field.
struct Name {
    at: [f64; 2],
    words: String,
    anchor: Align2,
    strong: bool,
}

const TURNS: &str = "breather turns round";
const DEEPEST: &str = "deepest allowed";

impl Field<'_> {
    /// The field's values, row by row, Pa.
    fn values(&self) -> Vec<Option<f64>> {
        let gauge = |map: &Map, i: usize| {
            map.cells.get(i).and_then(|cell| cell.state()).map(|state| state.case(self.kind).gauge.base())
        };
        let all = 0..self.present.cells.len();
        match (self.layer, self.other) {
            (Layer::Other, Some(other)) => all.map(|i| gauge(other, i)).collect(),
            (Layer::Difference, Some(other)) => all.map(|i| Some(gauge(other, i)? - gauge(self.present, i)?)).collect(),
            _ => all.map(|i| gauge(self.present, i)).collect(),
        }
    }

    /// The picture of the field, kept until something else is to be shown.
    fn picture(&self, ui: &Ui, values: &[Option<f64>], scale: Scale, tokens: &'static Tokens) -> TextureHandle {
        let id = Id::unique("picture of the map");
        let made = Made { come: self.come, layer: self.layer, kind: self.kind, dark: tokens.dark };
        let kept = ui.data(|data| data.get_temp::<(Made, TextureHandle)>(id));
        if let Some((_, texture)) = kept.filter(|(of, _)| *of == made) {
            return texture;
        }
        let columns = self.present.grid.rpm.points;
        // The picture's first row is its top one, the map's the lowest pressure.
        let pixels: Vec<Color32> = values
            .chunks(columns)
            .rev()
            .flatten()
            .map(|value| value.map_or(tokens.unknown, |value| scale.colour(value, tokens)))
            .collect();
        let rows = pixels.len() / columns.max(1);
        let texture =
            ui.ctx().load_texture("operating map", ColorImage::new([columns, rows], pixels), TextureOptions::LINEAR);
        ui.data_mut(|data| data.insert_temp(id, (made, texture.clone())));
        texture
    }

    /// The map shown, its lines, its limit's name and the other's dashed.
    pub fn show(&self, ui: &mut Ui, words: &str) {
        let tokens = Tokens::here(ui);
        let grid = self.present.grid;
        let x = PlotAxis::new("Engine speed", Kind::RotationalSpeed, self.system);
        let y = PlotAxis::new("Manifold pressure, absolute", Kind::AbsolutePressure, self.system);
        let values = self.values();
        let scale = Scale::of(values.iter().copied().flatten());
        let texture = self.picture(ui, &values, scale, tokens).id();
        let (strokes, names, marks) = (self.strokes(x, y, tokens), self.names(x, y), self.marks(x, y));
        let corner = |rpm: AngularVelocity, manifold: AbsolutePressure| [x.at(rpm.base()), y.at(manifold.base())];
        let (low, high) = (corner(grid.rpm.from, grid.manifold.from), corner(grid.rpm.to, grid.manifold.to));
        let told = self.told(x, y);
        PlotFrame::new(Id::unique("operating map plot"), "Operating map of the crankcase", x, y)
            .include(grid.rpm.from.base(), grid.manifold.from.base())
            .include(grid.rpm.to.base(), grid.manifold.to.base())
            .height(280.0)
            .room_around(0.05)
            .summary(words)
            .tells(told)
            .show(ui, move |plot| {
                let middle = PlotPoint::new(0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]));
                let extent = [(high[0] - low[0]) as f32, (high[1] - low[1]) as f32];
                // Nodes lie on the edges: half a pixel is cut off all round.
                let (across, up) = (0.5 / grid.rpm.points as f32, 0.5 / grid.manifold.points as f32);
                let inner = egui::Rect::from_min_max(pos2(across, up), pos2(1.0 - across, 1.0 - up));
                plot.image(PlotImage::new("", texture, middle, extent).uv(inner).allow_hover(false));
                for stroke in strokes {
                    let Stroke { points, colour, width, style } = stroke;
                    ink::cased(plot, points, (colour, width), style, tokens);
                }
                for name in names {
                    ink::name(plot, name.at, &name.words, (name.anchor, name.strong), tokens);
                }
                for (at, now) in marks {
                    ink::spot(plot, at, now, tokens);
                }
            });
        let what = match self.layer {
            Layer::Difference => "Crankcase pressure, the other less as it is",
            Layer::Present | Layer::Other => "Crankcase pressure, gauge",
        };
        legend::show(ui, scale, what, self.system);
        ink::key(ui, &self.key(&values, tokens));
    }

    /// The lines of both maps, the present one's first.
    fn lines(&self) -> [(bool, Option<&Map>); 2] {
        [(false, Some(self.present)), (true, self.other)]
    }

    /// Every kind of line a map has, each with its name.
    fn kinds<'m>(&self, map: &'m Map, tokens: &Tokens) -> Vec<Kept<'m>> {
        let mut kinds = vec![Kept::new(map.turns(self.kind).into(), TURNS, Look::Solid(tokens.ink), weight::MEDIUM)];
        for piece in Piece::ALL {
            let (look, width) = match piece {
                Piece::Light => (Look::Dashed(tokens.fault), weight::THICK),
                Piece::Change => (Look::Dotted(tokens.fault), weight::MEDIUM),
                Piece::Load => (Look::Solid(tokens.fault), weight::THICK),
            };
            kinds.push(Kept::new(limit::lines(map, self.kind, piece).into(), piece.name(), look, width));
        }
        kinds.push(Kept::new(map.depths.as_slice().into(), DEEPEST, Look::Dotted(tokens.cold), weight::MEDIUM));
        kinds
    }

    fn strokes(&self, x: PlotAxis<'_>, y: PlotAxis<'_>, tokens: &Tokens) -> Vec<Stroke> {
        let mut strokes = Vec::new();
        for (other, map) in self.lines() {
            let Some(map) = map else { continue };
            for Kept { lines, look, width, .. } in self.kinds(map, tokens) {
                let (colour, style) = match look {
                    Look::Dotted(colour) => (colour, LineStyle::dotted_dense()),
                    Look::Dashed(colour) => (colour, LineStyle::dashed_dense()),
                    Look::Solid(colour) => (colour, LineStyle::Solid),
                    _ => continue,
                };
                for MapLine(points) in lines.iter() {
                    let points = points.iter().map(|(rpm, p)| [x.at(rpm.base()), y.at(p.base())]).collect();
                    let style = if other { LineStyle::dashed_loose() } else { style };
                    strokes.push(Stroke { points, colour, width, style });
                }
            }
        }
        strokes
    }

    /// The names of the lines, where they leave room for the duty points' own.
    fn names(&self, x: PlotAxis<'_>, y: PlotAxis<'_>) -> Vec<Name> {
        let MapGrid { rpm, manifold } = self.present.grid;
        let mut names = Vec::new();
        let marks: Vec<[f64; 2]> = self.present.marks.iter().map(|mark| self.shares(mark.rpm, mark.manifold)).collect();
        let mut add = |lines: &[MapLine], along: f64, words: &str| {
            let spot = place::clear_of(lines, &self.present.grid, along, &marks);
            let Some(place::Spot { at: [right, up], above }) = spot else { return };
            let value = |span: (f64, f64), share: f64| span.0 + share * (span.1 - span.0);
            let at = [
                x.at(value((rpm.from.base(), rpm.to.base()), right.clamp(0.02, 0.98))),
                y.at(value((manifold.from.base(), manifold.to.base()), up)),
            ];
            let (across, beside) = (place::across(right), if above { egui::Align::Max } else { egui::Align::Min });
            names.push(Name { at, words: words.to_owned(), anchor: Align2([across, beside]), strong: false });
        };
        add(self.present.turns(self.kind), 0.45, TURNS);
        for piece in [Piece::Light, Piece::Load] {
            add(&limit::lines(self.present, self.kind, piece), 0.3, piece.name());
        }
        add(&self.present.depths, 0.7, DEEPEST);
        for mark in &self.present.marks {
            let gauge = mark
                .cell
                .state()
                .map(|state| Amount::of_kind(state.case(self.kind).gauge, Kind::CrankcasePressure).show(self.system));
            let words = match gauge {
                Some(gauge) if mark.on_map => format!("{} {gauge}", mark.duty.name()),
                Some(gauge) => format!("{} {gauge} (its own burning)", mark.duty.name()),
                None => format!("{}: no answer", mark.duty.name()),
            };
            let [right, up] = self.shares(mark.rpm, mark.manifold);
            let across = if right > 0.6 { egui::Align::Max } else { egui::Align::Min };
            let beside = if up > 0.5 { egui::Align::Min } else { egui::Align::Max };
            let strong = self.moment == Moment::Driving(mark.duty);
            let at = [x.at(mark.rpm.base()), y.at(mark.manifold.base())];
            // Room for the mark, which lies on the label's corner.
            let words = if across == egui::Align::Min { format!("   {words} ") } else { format!(" {words}   ") };
            names.push(Name { at, words, anchor: Align2([across, beside]), strong });
        }
        names
    }

    /// A place as shares of the map's width and height.
    fn shares(&self, speed: AngularVelocity, pressure: AbsolutePressure) -> [f64; 2] {
        let MapGrid { rpm, manifold } = self.present.grid;
        [rpm.place(speed) / (rpm.points - 1) as f64, manifold.place(pressure) / (manifold.points - 1) as f64]
    }

    /// Every duty point, and whether it is the moment shown.
    fn marks(&self, x: PlotAxis<'_>, y: PlotAxis<'_>) -> Vec<([f64; 2], bool)> {
        let marks = self.present.marks.iter();
        marks
            .map(|mark| {
                let at = [x.at(mark.rpm.base()), y.at(mark.manifold.base())];
                (at, self.moment == Moment::Driving(mark.duty))
            })
            .collect()
    }

    /// What the readout says of a place.
    fn told<'t>(&self, x: PlotAxis<'t>, y: PlotAxis<'t>) -> impl Fn(f64, f64) -> Option<String> + 't {
        let (system, kind, grid) = (self.system, self.kind, self.present.grid);
        let (present, other) = (self.present.clone(), self.other.cloned());
        let other = other.filter(|_| self.layer != Layer::Present);
        move |right, up| {
            let rpm = AngularVelocity::from_base(x.kind.unit(system).to_base(right));
            let manifold = AbsolutePressure::from_base(y.kind.unit(system).to_base(up));
            let inside = |place: f64, points: usize| (-0.5..points as f64 - 0.5).contains(&place);
            let on = inside(grid.rpm.place(rpm), grid.rpm.points)
                && inside(grid.manifold.place(manifold), grid.manifold.points);
            if !on {
                return None;
            }
            let of = |map: &Map| -> Option<String> {
                let cell = map.nearest(rpm, manifold)?;
                let lines = |state: &MapState| {
                    state.lines(kind, map.stop).iter().map(|line| line.show(system)).collect::<Vec<_>>().join("\n")
                };
                Some(match (cell.state(), cell.unsolved()) {
                    (Some(state), _) => lines(state),
                    (None, why) => format!("no answer: {}", why.map_or("", |why| why.reason())),
                })
            };
            match &other {
                Some(other) => Some(format!("as it is: {}\nthe other: {}", of(&present)?, of(other)?)),
                None => of(&present),
            }
        }
    }

    fn key(&self, values: &[Option<f64>], tokens: &Tokens) -> Vec<(String, Look)> {
        let mut key = Vec::new();
        for (other, map) in self.lines() {
            let Some(map) = map else { continue };
            for Kept { lines, name, look, .. } in self.kinds(map, tokens) {
                if lines.is_empty() {
                    continue;
                }
                key.push(match (other, look) {
                    (true, Look::Solid(colour) | Look::Dashed(colour) | Look::Dotted(colour)) => {
                        (format!("{name}, the other"), Look::Dashed(colour))
                    }
                    _ => (name.to_owned(), look),
                });
            }
        }
        key.push(("duty point".to_owned(), Look::Circle(tokens.ink)));
        if let Moment::Driving(duty) = self.moment {
            key.push((ink::now_name(duty.name()), Look::Diamond(tokens.ink)));
        }
        if values.iter().any(Option::is_none) {
            key.push(("no answer".to_owned(), Look::Band(tokens.unknown)));
        }
        key
    }
}
