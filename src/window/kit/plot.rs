//! A frame for plots: axes named with their units, the theme's colours, a readout under the pointer.

use super::card::strong;
use super::clock::{clock, clock_marks};
use crate::quantity::{Amount, Kind, UnitSystem};
use crate::window::tokens::{Tokens, size};
use egui::{FontId, Id, Response, TextStyle, Ui};
use egui_plot::{AxisHints, Corner, GridMark, HoverPosition, Legend, Plot, PlotResponse, PlotUi};

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

/// The smallest grid step egui_plot is asked to think of, in points; our own steps are multiples of it.
const SMALLEST_STEP: f32 = 8.0;

/// Grid marks in steps of 1, 2 or 5 times a power of ten, at least `smallest` apart.
pub(super) fn marks((low, high): (f64, f64), smallest: f64) -> Vec<GridMark> {
    let step_size = round_step(smallest);
    let count = (high - low) / step_size;
    if !(count.is_finite() && (0.0..=200.0).contains(&count)) {
        return Vec::new();
    }
    let first = (low / step_size).ceil();
    let places = (0..=200_u32).map(|index| (first + f64::from(index)) * step_size);
    places.take_while(|value| *value <= high).map(|value| GridMark { value, step_size }).collect()
}

/// The next of …, 0.5, 1, 2, 5, 10, … that is not smaller.
fn round_step(smallest: f64) -> f64 {
    let power = 10_f64.powf(smallest.abs().log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|multiple| multiple * power).find(|step| *step >= smallest).unwrap_or(10.0 * power)
}

/// A number at a mark, with as many decimals as the step has.
pub(super) fn tick(value: f64, step: f64) -> String {
    let decimals = (-step.log10().floor()).clamp(0.0, 9.0) as usize;
    let text = format!("{value:.decimals$}");
    if text.trim_start_matches(['-', '0', '.']).is_empty() { "0".to_owned() } else { text }
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
    include_x: Vec<f64>,
    include_y: Vec<f64>,
    margin: egui::Vec2,
    told: Option<Told<'a>>,
    clock: bool,
    beside: f32,
}

/// What a plot has to tell at a place, in the units of the axes.
type Told<'a> = Box<dyn Fn(f64, f64) -> Option<String> + 'a>;

impl<'a> PlotFrame<'a> {
    /// A plot of `y` against `x`.
    #[must_use]
    pub fn new(id: Id, title: &'a str, x: PlotAxis<'a>, y: PlotAxis<'a>) -> Self {
        Self {
            id,
            title,
            x,
            y,
            height: 220.0,
            legend: None,
            summary: String::new(),
            include_x: Vec::new(),
            include_y: Vec::new(),
            margin: egui::vec2(0.0, 0.06),
            told: None,
            clock: false,
            beside: 0.0,
        }
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
    pub fn include(self, x: f64, y: f64) -> Self {
        let (x, y) = (self.x.at(x), self.y.at(y));
        self.include_place(x, Some(y))
    }

    /// A place in the units of the axes that is always in sight; without `y` only along the x axis.
    #[must_use]
    pub fn include_place(mut self, x: f64, y: Option<f64>) -> Self {
        self.include_x.push(x);
        self.include_y.extend(y);
        self
    }

    /// As much room on every side, a share of the span: for marks that lie on the edge.
    #[must_use]
    pub fn room_around(mut self, share: f32) -> Self {
        self.margin = egui::Vec2::splat(share);
        self
    }

    /// What the readout says under the two coordinates, told for a place in the units of the axes.
    #[must_use]
    pub fn tells(mut self, told: impl Fn(f64, f64) -> Option<String> + 'a) -> Self {
        self.told = Some(Box::new(told));
        self
    }

    /// The x axis is a time of the day, read as hours and minutes.
    #[must_use]
    pub fn clock(mut self) -> Self {
        self.clock = true;
        self
    }

    /// Room for the numbers beside the plot, in points, so that plots below one another line up.
    #[must_use]
    pub fn numbers_take(mut self, points: f32) -> Self {
        self.beside = points;
        self
    }

    /// Shows the plot; `add` puts the curves in, in the units of the axes (see [`PlotAxis::at`]).
    pub fn show(self, ui: &mut Ui, add: impl FnOnce(&mut PlotUi<'a>) + 'a) -> Response {
        self.show_whole(ui, add).response
    }

    /// The same, with the way from places on the screen to places on the axes.
    pub fn show_whole(self, ui: &mut Ui, add: impl FnOnce(&mut PlotUi<'a>) + 'a) -> PlotResponse<()> {
        let tokens = Tokens::here(ui);
        if !self.title.is_empty() {
            ui.label(strong(self.title, size::BODY));
        }
        let (x, y, told, hours) = (self.x, self.y, self.told, self.clock);
        let read_x = move |place: f64| if hours { clock(place) } else { x.read(place) };
        let small = FontId::proportional(size::SMALL);
        let axis = |hints: AxisHints<'a>, title: String| {
            let title = egui::RichText::new(title).size(size::SMALL).color(tokens.quiet);
            let hints = if title.is_empty() { hints } else { hints.label(title) };
            hints.label_spacing(1.0..=2.0).tick_label_color(tokens.quiet).tick_label_font(small.clone())
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
            .set_margin_fraction(self.margin)
            .grid_spacing(SMALLEST_STEP..=60.0)
            .grid_fade(0.0)
            .grid_color(tokens.line.gamma_multiply(0.6))
            // Seventy points leave room for a number under a mark, thirty for one beside it.
            .x_grid_spacer(move |grid| {
                let smallest = grid.base_step_size * 70.0 / f64::from(SMALLEST_STEP);
                if hours { clock_marks(grid.bounds, smallest) } else { marks(grid.bounds, smallest) }
            })
            .y_grid_spacer(|grid| marks(grid.bounds, grid.base_step_size * 30.0 / f64::from(SMALLEST_STEP)))
            .cursor_color(tokens.quiet)
            .custom_x_axes(vec![
                axis(AxisHints::new_x(), if hours { String::new() } else { x.title() })
                    .formatter(move |mark, _| if hours { clock(mark.value) } else { tick(mark.value, mark.step_size) }),
            ])
            .custom_y_axes(vec![
                axis(AxisHints::new_y(), y.title())
                    .min_thickness(self.beside.max(14.0))
                    .formatter(|mark, _| tick(mark.value, mark.step_size)),
            ])
            .label_formatter(move |position| {
                Some(match position {
                    HoverPosition::NearDataPoint { plot_name: "", position, .. }
                    | HoverPosition::Elsewhere { position } => {
                        let more = told.as_ref().and_then(|told| told(position.x, position.y));
                        let more = more.map_or_else(String::new, |more| format!("\n{more}"));
                        format!("{}\n{}{more}", read_x(position.x), y.read(position.y))
                    }
                    HoverPosition::NearDataPoint { plot_name, position, .. } => {
                        format!("{plot_name}\n{}\n{}", read_x(position.x), y.read(position.y))
                    }
                })
            });
        for x in self.include_x {
            plot = plot.include_x(x);
        }
        for y in self.include_y {
            plot = plot.include_y(y);
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
        // The title of the axis beside it reaches a little out of the plot's own place.
        let beside = egui::Frame::new().inner_margin(egui::Margin { left: 5, ..Default::default() });
        let whole = beside.show(ui, |ui| plot.show(ui, add)).inner;
        let response = &whole.response;
        let against = if hours { x.name.to_owned() } else { x.title() };
        let name = format!("{}: {} against {against}", self.title, y.title());
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_role(egui::accesskit::Role::Image);
            node.set_label(name);
            if !self.summary.is_empty() {
                node.set_description(self.summary);
            }
        });
        whole
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round() {
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-12 * b, "{a} is not {b}");
        near(round_step(0.3), 0.5);
        near(round_step(1.0), 1.0);
        near(round_step(5.1), 10.0);
        near(round_step(0.0021), 0.005);
        near(round_step(13.0), 20.0);
    }

    #[test]
    fn marks_lie_inside_and_read_well() {
        let read: Vec<String> = marks((-0.6, 1.1), 0.3).iter().map(|mark| tick(mark.value, mark.step_size)).collect();
        assert_eq!(read, ["-0.5", "0", "0.5", "1.0"]);
        let read: Vec<String> =
            marks((20.0, 120.0), 13.0).iter().map(|mark| tick(mark.value, mark.step_size)).collect();
        assert_eq!(read, ["20", "40", "60", "80", "100", "120"]);
        assert!(marks((f64::NAN, 1.0), 0.1).is_empty());
        assert!(marks((0.0, 1.0), 0.0).is_empty());
        assert!(marks((0.0, 1e300), 1e-300).is_empty());
    }

    #[test]
    fn an_axis_names_its_unit() {
        let axis = PlotAxis::new("Coolant temperature", Kind::Temperature, UnitSystem::Us);
        assert_eq!(axis.title(), "Coolant temperature, °F");
        assert_eq!(axis.read(axis.at(366.15)), "Coolant temperature 199.4 °F");
        assert_eq!(PlotAxis::new("Share of time", Kind::Number, UnitSystem::Si).title(), "Share of time");
    }
}
