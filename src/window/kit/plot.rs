//! A frame for plots: axes named with their units, the theme's colours, a readout under the pointer.

use super::card::strong;
use crate::quantity::{Amount, Kind, UnitSystem};
use crate::window::tokens::{Tokens, size};
use egui::{FontId, Id, Response, TextStyle, Ui};
use egui_plot::{AxisHints, Corner, HoverPosition, Legend, Plot, PlotUi};

/// One axis: what it shows and in which unit.
#[derive(Clone, Copy, Debug)]
pub struct PlotAxis<'a> {
    /// What is plotted, in words.
    pub name: &'a str,
    /// What kind of quantity it is.
    pub kind: Kind,
    /// The units the person reads in.
    pub system: UnitSystem,
}

impl<'a> PlotAxis<'a> {
    /// An axis.
    #[must_use]
    pub const fn new(name: &'a str, kind: Kind, system: UnitSystem) -> Self {
        Self { name, kind, system }
    }

    /// Where a number in the coherent SI unit lies on this axis.
    #[must_use]
    pub fn at(&self, base: f64) -> f64 {
        self.kind.unit(self.system).from_base(base)
    }

    /// "Coolant temperature, °C".
    #[must_use]
    pub fn title(&self) -> String {
        match self.kind.unit(self.system).symbol {
            "" => self.name.to_owned(),
            symbol => format!("{}, {symbol}", self.name),
        }
    }

    /// "Coolant temperature 92.3 °C", for a place on the axis.
    #[must_use]
    pub fn read(&self, place: f64) -> String {
        let base = self.kind.unit(self.system).to_base(place);
        format!("{} {}", self.name, Amount::new(base, self.kind).show(self.system))
    }
}

/// A plot with a title. The wheel scrolls the page and never the plot; nothing can be dragged out of sight.
pub struct PlotFrame<'a> {
    id: Id,
    title: &'a str,
    x: PlotAxis<'a>,
    y: PlotAxis<'a>,
    height: f32,
    legend: Option<Corner>,
    summary: String,
    include: Vec<(f64, f64)>,
}

impl<'a> PlotFrame<'a> {
    /// A plot of `y` against `x`.
    #[must_use]
    pub fn new(id: Id, title: &'a str, x: PlotAxis<'a>, y: PlotAxis<'a>) -> Self {
        Self { id, title, x, y, height: 220.0, legend: None, summary: String::new(), include: Vec::new() }
    }

    /// Another height, in points.
    #[must_use]
    pub fn height(mut self, height: f32) -> Self {
        self.height = height;
        self
    }

    /// A legend in a corner, for more than one curve.
    #[must_use]
    pub fn legend(mut self, corner: Corner) -> Self {
        self.legend = Some(corner);
        self
    }

    /// What the curve says, in a sentence, for whoever cannot see it.
    #[must_use]
    pub fn summary(mut self, sentence: impl Into<String>) -> Self {
        self.summary = sentence.into();
        self
    }

    /// A point, in the coherent SI units, that is always in sight.
    #[must_use]
    pub fn include(mut self, x: f64, y: f64) -> Self {
        self.include.push((self.x.at(x), self.y.at(y)));
        self
    }

    /// Shows the plot; `add` puts the curves in, in the units of the axes (see [`PlotAxis::at`]).
    pub fn show(self, ui: &mut Ui, add: impl FnOnce(&mut PlotUi<'a>) + 'a) -> Response {
        let tokens = Tokens::here(ui);
        if !self.title.is_empty() {
            ui.label(strong(self.title, size::BODY));
        }
        let (x, y) = (self.x, self.y);
        let small = FontId::proportional(size::SMALL);
        let axis = |hints: AxisHints<'a>, title: String| {
            let title = egui::RichText::new(title).size(size::SMALL).color(tokens.quiet);
            hints.label(title).tick_label_color(tokens.quiet).tick_label_font(small.clone())
        };
        let mut plot = Plot::new(self.id)
            .id(self.id)
            .height(self.height)
            .allow_scroll(false)
            .allow_zoom(false)
            .allow_drag(false)
            .allow_boxed_zoom(false)
            .allow_axis_zoom_drag(false)
            .allow_double_click_reset(false)
            .set_margin_fraction(egui::vec2(0.0, 0.06))
            .clamp_grid(true)
            .grid_spacing(16.0..=320.0)
            .grid_color(tokens.line)
            .cursor_color(tokens.quiet)
            .custom_x_axes(vec![axis(AxisHints::new_x(), x.title())])
            .custom_y_axes(vec![axis(AxisHints::new_y(), y.title())])
            .label_formatter(move |position| {
                Some(match position {
                    HoverPosition::NearDataPoint { plot_name: "", position, .. }
                    | HoverPosition::Elsewhere { position } => {
                        format!("{}\n{}", x.read(position.x), y.read(position.y))
                    }
                    HoverPosition::NearDataPoint { plot_name, position, .. } => {
                        format!("{plot_name}\n{}\n{}", x.read(position.x), y.read(position.y))
                    }
                })
            });
        for (x, y) in self.include {
            plot = plot.include_x(x).include_y(y);
        }
        if let Some(corner) = self.legend {
            plot = plot.legend(
                Legend::default()
                    .position(corner)
                    .text_style(TextStyle::Small)
                    .background_alpha(0.85)
                    .follow_insertion_order(true),
            );
        }
        let response = plot.show(ui, add).response;
        let name = format!("{}: {} against {}", self.title, y.title(), x.title());
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_role(egui::accesskit::Role::Image);
            node.set_label(name);
            if !self.summary.is_empty() {
                node.set_description(self.summary);
            }
        });
        response
    }
}
