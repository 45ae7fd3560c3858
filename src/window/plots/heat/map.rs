//! Who rules over road speed and air, with lines of the same coolant temperature.

use super::ink::{self, Look};
use super::{Heat, field};
use crate::quantity::si::{ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{HeatLine, HeatMap, HeatRule, Moment};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::{Tokens, size, weight};
use egui::{Align, Align2, Id, Role, Sense, TextureHandle, TextureOptions, Ui, WidgetInfo, vec2};
use egui_plot::{HLine, LineStyle, PlotImage, PlotPoint};

/// The picture of the field, kept until another is to be shown.
fn picture(ui: &Ui, heat: Heat<'_>, map: &HeatMap) -> TextureHandle {
    let id = Id::unique("picture of the heat map");
    let made = (heat.come, map.road, heat.tokens.dark);
    let kept = ui.data(|data| data.get_temp::<((u64, crate::study::HeatRoad, bool), TextureHandle)>(id));
    if let Some((_, texture)) = kept.filter(|(of, _)| *of == made) {
        return texture;
    }
    let texture = ui.ctx().load_texture("heat map", field::picture(map, heat.tokens), TextureOptions::LINEAR);
    ui.data_mut(|data| data.insert_temp(id, (made, texture.clone())));
    texture
}

/// Said where there is no steady driving.
const NOT_HELD: &str = "engine cannot hold the speed";

/// What a plot measures, a letter's width and a line's height, about, in points.
const PLOT: [f64; 2] = [340.0, 265.0];
const LETTER: f64 = 6.3;
const LINE: f64 = 15.0;

/// A name on the map: where, as shares of its width and height, and how it lies there.
struct Name {
    at: [f64; 2],
    words: String,
    anchor: Align2,
    strong: bool,
}

impl Name {
    /// Left, low, right and high end of what it covers, as shares.
    fn covers(&self) -> [f64; 4] {
        let (wide, tall) = (self.words.chars().count() as f64 * LETTER / PLOT[0], LINE / PLOT[1]);
        let [across, up] = [self.anchor.x(), self.anchor.y()];
        let left = match across {
            Align::Min => self.at[0],
            Align::Center => self.at[0] - 0.5 * wide,
            Align::Max => self.at[0] - wide,
        };
        // Up is up: a name anchored at its top hangs below.
        let low = match up {
            Align::Min => self.at[1] - tall,
            Align::Center => self.at[1] - 0.5 * tall,
            Align::Max => self.at[1],
        };
        [left, low, left + wide, low + tall]
    }

    fn meets(&self, other: &Self) -> bool {
        let ([l, b, r, t], [ol, ob, or, ot]) = (self.covers(), other.covers());
        l < or && ol < r && b < ot && ob < t
    }

    fn inside(&self) -> bool {
        let [left, low, right, high] = self.covers();
        left >= -0.01 && low >= -0.01 && right <= 1.01 && high <= 1.01
    }
}

/// Adds the first of several that lies on the map and meets none before it.
fn add(names: &mut Vec<Name>, mut tries: impl Iterator<Item = Name>) {
    let free = tries.find(|one| one.inside() && names.iter().all(|other| !one.meets(other)));
    names.extend(free);
}

/// The names: the duty points first, then the rules, then the lines where they leave room.
fn names(map: &HeatMap, heat: Heat<'_>) -> Vec<Name> {
    let mut names: Vec<Name> = Vec::new();
    let last = (map.speed.points.saturating_sub(1) as f64, map.ambient.points.saturating_sub(1) as f64);
    let share = |speed: Velocity, air: ThermodynamicTemperature| {
        [map.speed.place(speed) / last.0, map.ambient.place(air) / last.1]
    };
    for mark in &map.marks {
        let at = share(mark.speed, mark.point.ambient);
        let told = mark.point.outlet.map_or_else(|| "boils".to_owned(), |outlet| Amount::of(outlet).show(heat.system));
        let (duty, strong) = (mark.duty.name(), heat.moment == Moment::Driving(mark.duty));
        let tries = [1.0, -1.0].into_iter().flat_map(|side| [Align::Min, Align::Max].map(|across| (side, across)));
        // Clear of the dotted line of the hottest day, and of the mark.
        let tries = tries.map(|(side, across)| Name {
            at: [at[0], at[1] - side * 9.0 / PLOT[1]],
            words: format!(" {duty} {told} "),
            anchor: Align2([across, if side > 0.0 { Align::Min } else { Align::Max }]),
            strong,
        });
        add(&mut names, tries);
    }
    for rule in HeatRule::ALL.into_iter().map(Some).chain([None]) {
        let words = rule.map_or(NOT_HELD, HeatRule::name);
        let name = |at| Name { at, words: words.to_owned(), anchor: Align2::CENTER_CENTER, strong: true };
        add(&mut names, field::middles(map, rule).into_iter().map(name));
    }
    for level in &map.levels {
        let Some(longest) = level.lines.iter().max_by_key(|line| line.0.len()) else { continue };
        let words = Amount::of(level.outlet).show(heat.system);
        let along = [0.5, 0.65, 0.35, 0.8, 0.2, 0.92, 0.08].into_iter();
        let tries = along.filter_map(|along| {
            let (speed, air) = longest.0.get((along * longest.0.len() as f64) as usize)?;
            let at = share(*speed, *air);
            Some(Name { at, words: words.clone(), anchor: Align2::CENTER_CENTER, strong: false })
        });
        add(&mut names, tries);
    }
    names
}

pub(super) fn show(ui: &mut Ui, heat: Heat<'_>, map: &HeatMap) {
    let tokens = heat.tokens;
    let x = PlotAxis::new("Road speed", Kind::RoadSpeed, heat.system);
    let y = PlotAxis::new("Air temperature", Kind::Temperature, heat.system);
    let texture = picture(ui, heat, map).id();
    let place = move |speed: Velocity, air: ThermodynamicTemperature| [x.at(speed.base()), y.at(air.base())];
    let (low, high) = (place(map.speed.from, map.ambient.from), place(map.speed.to, map.ambient.to));
    let onto = move |share: [f64; 2]| [0, 1].map(|i| low[i] + share[i] * (high[i] - low[i]));
    let points = |line: &HeatLine| line.0.iter().map(|(speed, air)| place(*speed, *air)).collect::<Vec<_>>();
    let levels: Vec<Vec<[f64; 2]>> = map.levels.iter().flat_map(|level| &level.lines).map(points).collect();
    let borders: Vec<(HeatRule, Vec<[f64; 2]>)> = HeatRule::ALL
        .into_iter()
        .flat_map(|rule| map.border(rule).iter().map(|line| (rule, points(line))).collect::<Vec<_>>())
        .collect();
    let names = names(map, heat);
    let marks = map.marks.iter();
    let spots: Vec<_> =
        marks.map(|mark| (place(mark.speed, mark.point.ambient), heat.moment == Moment::Driving(mark.duty))).collect();
    let hottest = y.at(map.hottest.base());
    let (system, whole) = (heat.system, map.clone());
    let told = move |right: f64, up: f64| {
        let speed = Velocity::from_base(x.kind.unit(system).to_base(right));
        let air = ThermodynamicTemperature::from_base(y.kind.unit(system).to_base(up));
        Some(whole.line_at(speed, air)?.show(system))
    };
    PlotFrame::new(Id::unique("heat map plot"), "Who sets the coolant temperature", x, y)
        .include(map.speed.from.base(), map.ambient.from.base())
        .include(map.speed.to.base(), map.ambient.to.base())
        .height(300.0)
        .room_around(0.03)
        .summary(map.says().show(heat.system))
        .tells(told)
        .show(ui, move |plot| {
            let middle = PlotPoint::new(0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]));
            let extent = [(high[0] - low[0]) as f32, (high[1] - low[1]) as f32];
            plot.image(PlotImage::new("", texture, middle, extent).allow_hover(false));
            let day = HLine::new("hottest day", hottest).color(tokens.ink).width(weight::MEDIUM);
            plot.hline(day.style(LineStyle::dotted_dense()).allow_hover(false));
            for line in levels {
                ink::cased(plot, line, (tokens.quiet, weight::MEDIUM), LineStyle::Solid, tokens);
            }
            for (rule, line) in borders {
                let (colour, style) = border(rule, tokens);
                ink::cased(plot, line, (colour, weight::THICK), style, tokens);
            }
            for Name { at, words, anchor, strong } in names {
                ink::name(plot, onto(at), &words, (anchor, strong), tokens);
            }
            for (at, now) in spots {
                ink::spot(plot, at, now, tokens);
            }
        });
    grounds(ui, map, tokens);
    ink::key(ui, &key(heat, map, tokens));
}

/// The border at which a rule ends in warmer air.
const fn border(after: HeatRule, tokens: &Tokens) -> (egui::Color32, LineStyle) {
    match after {
        HeatRule::Losses => (tokens.cold, LineStyle::Dotted { spacing: 5.0 }),
        HeatRule::Thermostat => (tokens.ink, LineStyle::Dashed { length: 8.0 }),
        HeatRule::Radiator | HeatRule::Boils => (tokens.fault, LineStyle::Solid),
    }
}

fn key(heat: Heat<'_>, map: &HeatMap, tokens: &Tokens) -> Vec<(String, Look)> {
    let mut key = Vec::new();
    for (rule, name, look) in [
        (HeatRule::Losses, "thermostat begins to open", Look::Dotted(tokens.cold)),
        (HeatRule::Thermostat, "thermostat fully open", Look::Dashed(tokens.ink)),
        (HeatRule::Radiator, "boiling begins", Look::Solid(tokens.fault)),
    ] {
        if !map.border(rule).is_empty() {
            key.push((name.to_owned(), look));
        }
    }
    key.push(("coolant temperature".to_owned(), Look::Solid(tokens.quiet)));
    key.push(("hottest day".to_owned(), Look::Dotted(tokens.ink)));
    key.push(("duty point".to_owned(), Look::Circle(tokens.ink)));
    if let Moment::Driving(duty) = heat.moment
        && map.marks.iter().any(|mark| mark.duty == duty)
    {
        key.push((ink::now_name(duty.name()), Look::Diamond(tokens.ink)));
    }
    key
}

/// The key of the grounds: each with its colour and pattern, and its name.
fn grounds(ui: &mut Ui, map: &HeatMap, tokens: &Tokens) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(12.0, 3.0);
        let rules = HeatRule::ALL.into_iter().map(Some).chain([None]);
        for rule in rules.filter(|rule| map.cells.iter().any(|cell| cell.map(|cell| cell.rule) == *rule)) {
            let name = rule.map_or(NOT_HELD, HeatRule::name);
            let font = egui::FontId::proportional(size::SMALL);
            let words = ui.painter().layout_no_wrap(name.to_owned(), font, tokens.ink);
            let (place, response) =
                ui.allocate_exact_size(vec2(30.0 + words.size().x, words.size().y.max(16.0)), Sense::hover());
            let sample = egui::Rect::from_min_size(place.min + vec2(0.0, 2.0), vec2(24.0, 12.0));
            let line = egui::Stroke::new(1.0, tokens.quiet);
            let ground = rule.map_or(field::blank(tokens), |rule| field::colour(rule, tokens));
            ui.painter().rect_filled(sample, 0.0, ground);
            for row in 0..12_usize {
                for column in
                    (0..24_usize).filter(|column| rule.is_some_and(|rule| field::patterned(rule, *column, row)))
                {
                    let at = sample.min + vec2(column as f32, row as f32);
                    ui.painter().rect_filled(egui::Rect::from_min_size(at, vec2(1.0, 1.0)), 0.0, line.color);
                }
            }
            ui.painter().rect_stroke(sample, 0.0, tokens.hairline(), egui::StrokeKind::Outside);
            ui.painter().galley(place.min + vec2(30.0, 1.0), words, tokens.ink);
            response.widget_info(|| WidgetInfo::labeled(Role::Label, true, name));
        }
    });
}
