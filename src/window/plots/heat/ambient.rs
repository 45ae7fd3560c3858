//! The coolant against the air, a curve for each thermostat.

use super::Heat;
use super::ink::{self, Curve, Look, lower};
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{DutyHeatCurves, SetPointCurve};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::{Tokens, size, weight};
use egui::{Align2, Id, RichText, Ui};
use egui_plot::{LineStyle, MarkerShape, PlotPoint, Text, VLine};

/// How the curves beside the fitted one differ: dash and mark.
const OTHERS: [(LineStyle, MarkerShape); 6] = [
    (LineStyle::Dotted { spacing: 4.0 }, MarkerShape::Down),
    (LineStyle::Dashed { length: 5.0 }, MarkerShape::Square),
    (LineStyle::Dotted { spacing: 8.0 }, MarkerShape::Left),
    (LineStyle::Dashed { length: 12.0 }, MarkerShape::Up),
    (LineStyle::Dashed { length: 8.0 }, MarkerShape::Diamond),
    (LineStyle::Dotted { spacing: 6.0 }, MarkerShape::Right),
];

/// How each curve is drawn: the fitted one strong, cooler ones in the colour of cold, warmer ones in that of hot.
fn looks(duty: &DutyHeatCurves, tokens: &Tokens) -> Vec<Curve> {
    let fitted = duty.fitted().map_or(f64::INFINITY, |curve| curve.set_point.base());
    let mut others = OTHERS.iter().cycle();
    let mut look = |curve: &SetPointCurve| {
        if curve.fitted {
            return Curve {
                colour: tokens.ink,
                width: weight::THICK,
                style: LineStyle::Solid,
                mark: MarkerShape::Circle,
            };
        }
        let (style, mark) = others.next().copied().unwrap_or((LineStyle::Solid, MarkerShape::Circle));
        let colour = if curve.set_point.base() < fitted { tokens.cold } else { tokens.hot };
        Curve { colour, width: weight::MEDIUM, style, mark }
    };
    duty.set_points.iter().map(&mut look).collect()
}

/// How far in the names of the curves stand, of the length of the axis.
const INDENT: f64 = 0.03;

/// "82.0 °C (fitted)".
fn named(curve: &SetPointCurve, heat: Heat<'_>) -> String {
    let name = Amount::of(curve.set_point).show(heat.system);
    if curve.fitted { format!("{name} (fitted)") } else { name }
}

pub(super) fn show(ui: &mut Ui, heat: Heat<'_>) {
    let Some(duty) = heat.curves.of(heat.duty()) else { return };
    let tokens = heat.tokens;
    let x = PlotAxis::new("Air temperature", Kind::Temperature, heat.system);
    let y = PlotAxis::new("Coolant at the engine outlet", Kind::Temperature, heat.system);
    let looks = looks(duty, tokens);
    let (limit, hottest) = (heat.curves.limit.base(), heat.curves.hottest.base());
    let all = duty.set_points.iter().flat_map(|curve| &curve.points);
    let (first, last) =
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| (a.min(p.ambient.base()), b.max(p.ambient.base())));
    let lowest = duty.set_points.iter().flat_map(|curve| &curve.points).filter_map(|point| point.outlet);
    let lowest = lowest.map(|outlet| outlet.base()).fold(limit, f64::min);
    let title = format!("Coolant against the air, {}", lower(duty.duty.name()));
    let words = duty.says().show(heat.system);
    let mut key: Vec<(String, Look)> = duty
        .set_points
        .iter()
        .zip(&looks)
        .map(|(curve, look)| (format!("thermostat {}", named(curve, heat)), Look::Curve(*look)))
        .collect();
    key.push(("boiling limit".to_owned(), Look::Dashed(tokens.fault)));
    key.push(("hottest day".to_owned(), Look::Dotted(tokens.quiet)));
    // Names stand at the left ends; where two would meet only the fitted one's does.
    let mut named_at: Vec<([f64; 2], String, bool)> = Vec::new();
    let apart = 0.07 * (limit - lowest).max(1.0);
    let fitted_first = duty.set_points.iter().filter(|c| c.fitted).chain(duty.set_points.iter().filter(|c| !c.fitted));
    for curve in fitted_first {
        let Some((air, outlet)) = curve.points.first().and_then(|point| Some((point.ambient, point.outlet?))) else {
            continue;
        };
        let free = named_at.iter().all(|([_, other], ..)| (outlet.base() - other).abs() > apart);
        if free {
            named_at.push(([air.base(), outlet.base()], named(curve, heat), curve.fitted));
        }
    }
    let boils = duty.fitted().and_then(|curve| curve.boils_above).filter(|air| (first..last).contains(&air.base()));
    let response = PlotFrame::new(Id::unique("plot of the coolant against the air"), &title, x, y)
        .include(first, lowest - 2.0)
        .include(last, limit + 2.0)
        .height(260.0)
        .summary(words.as_str())
        .tells(move |air, _| told(duty, heat, x.kind.unit(heat.system).to_base(air)));
    response.show(ui, move |plot| {
        ink::limit(plot, "boiling limit", y.at(limit), tokens.fault);
        let day = VLine::new("hottest day", x.at(hottest)).color(tokens.quiet).width(weight::MEDIUM);
        plot.vline(day.style(LineStyle::dotted_dense()));
        let place = |air: f64, outlet: f64| [x.at(air), y.at(outlet)];
        // The fitted one is drawn last, over the others.
        let mut curves: Vec<_> = duty.set_points.iter().zip(&looks).collect();
        curves.sort_by_key(|(curve, _)| curve.fitted);
        for (curve, look) in curves {
            let settled = curve.points.iter().filter_map(|point| Some((point.ambient, point.outlet?)));
            let points: Vec<[f64; 2]> = settled.map(|(air, outlet)| place(air.base(), outlet.base())).collect();
            let kinks = [curve.opens_at, curve.holds_to];
            let kink = |air: Option<crate::quantity::si::ThermodynamicTemperature>| {
                let point = curve.points.iter().find(|point| air == Some(point.ambient))?;
                Some(place(point.ambient.base(), point.outlet?.base()))
            };
            let marks = kinks.into_iter().filter_map(kink).chain(points.first().copied()).collect();
            look.draw(plot, &format!("thermostat {}", named(curve, heat)), points, marks);
        }
        for (at, name, fitted) in named_at {
            // Beside the mark at the end of the curve, on a ground that the curves do not run through.
            let [right, up] = place(at[0] + INDENT * (last - first), at[1]);
            ink::name(plot, [right, up], &name, (Align2::LEFT_CENTER, fitted), tokens);
        }
        if let Some(air) = boils {
            let words = RichText::new("boils").size(size::SMALL).color(tokens.fault);
            let at = PlotPoint::new(x.at(air.base()), y.at(limit));
            plot.text(Text::new("", at, words).anchor(Align2::LEFT_BOTTOM).allow_hover(false));
        }
    });
    ink::key(ui, &key);
    super::said(ui, &words);
}

/// What the fitted thermostat has in some air.
fn told(duty: &DutyHeatCurves, heat: Heat<'_>, air: f64) -> Option<String> {
    let curve = duty.fitted()?;
    let near = curve.points.iter().min_by(|a, b| {
        let off = |point: &&crate::study::HeatPoint| (point.ambient.base() - air).abs();
        off(a).total_cmp(&off(b))
    })?;
    Some(format!("fitted, near {}: {}", Amount::of(near.ambient).show(heat.system), near.line().show(heat.system)))
}
