//! The crankcase: blow-by against speed, pressure against load.

use super::Subject;
use super::ink::{self, Look, Spread, band, limit, limit_within, mark, mark_within};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::si::MassRate;
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{Duty, Moment, defaults};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::weight;
use egui::{Id, Ui};
use egui_plot::{Line, LineStyle, MarkerShape, Points};

/// Blow-by and what the way out can pass, against speed at full throttle.
pub(super) fn blow_by(ui: &mut Ui, subject: Subject<'_>) {
    let points = &subject.curves.blow_by;
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        super::nothing(ui, "the blow-by could not be followed over a span of speeds.");
        return;
    };
    let x = PlotAxis::new("Engine speed", Kind::RotationalSpeed, subject.system);
    let y = PlotAxis::new("Gas flow", Kind::GasVolumeFlow, subject.system);
    let flow = |mass: MassRate| standard_volume_flow(mass);
    let shown = |mass: MassRate| Amount::of(flow(mass)).show(subject.system);
    let over = points.iter().find(|point| point.capacity.is_some_and(|most| point.blow_by.high > most));
    let holds = if points.iter().all(|point| point.capacity.is_none()) {
        "No blow-by within reason brings the crankcase to its limit.".to_owned()
    } else {
        over.map_or_else(
            || "The way out passes more than the high blow-by at every speed shown.".to_owned(),
            |point| {
                let speed = Amount::of(point.rpm).show(subject.system);
                format!("From {speed} the high blow-by is more than the way out passes within the limit.")
            },
        )
    };
    let summary = format!(
        "At full throttle blow-by runs from {} at {} to {} at {}. {holds}",
        shown(first.blow_by.likely),
        Amount::of(first.rpm).show(subject.system),
        shown(last.blow_by.likely),
        Amount::of(last.rpm).show(subject.system),
    );
    let tokens = subject.tokens;
    let mut key =
        vec![("likely".to_owned(), Look::Solid(tokens.gas)), ("low to high".to_owned(), Look::Band(tokens.gas_wash))];
    if points.iter().any(|point| point.capacity.is_some()) {
        key.push(("passes within the limit".to_owned(), Look::Square(tokens.coolant)));
    }
    PlotFrame::new(Id::unique("plot of the blow-by"), "Blow-by at full throttle", x, y)
        .include(last.rpm.base(), 0.0)
        .room_around(0.06)
        .height(220.0)
        .summary(summary)
        .show(ui, move |plot| {
            let at = |mass: MassRate| y.at(flow(mass).base());
            let spread: Vec<Spread> = points
                .iter()
                .map(|point| Spread {
                    x: x.at(point.rpm.base()),
                    low: at(point.blow_by.low),
                    likely: at(point.blow_by.likely),
                    high: at(point.blow_by.high),
                })
                .collect();
            band(plot, &spread, subject.tokens.gas, subject.tokens.gas_wash);
            let most: Vec<[f64; 2]> =
                points.iter().filter_map(|point| Some([x.at(point.rpm.base()), at(point.capacity?)])).collect();
            if !most.is_empty() {
                let name = "passes within the limit";
                let colour = subject.tokens.coolant;
                let line = Line::new(name, most.clone()).color(colour).width(weight::MEDIUM);
                plot.line(line.style(LineStyle::dashed_dense()));
                plot.points(Points::new(name, most).shape(MarkerShape::Square).radius(2.5).color(colour));
            }
        });
    ink::key(ui, &key);
}

/// Crankcase pressure against manifold pressure at the cruise speed, with its limits.
pub(super) fn pressure(ui: &mut Ui, subject: Subject<'_>) {
    let points = &subject.curves.crankcase;
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        super::nothing(ui, "the crankcase pressure could not be followed over a span of loads.");
        return;
    };
    let x = PlotAxis::new("Manifold pressure, absolute", Kind::AbsolutePressure, subject.system);
    let y = PlotAxis::new("Crankcase, gauge", Kind::CrankcasePressure, subject.system);
    let kilopascals = |base: f64| Amount::new(base, Kind::CrankcasePressure).show(subject.system);
    let [load, light] = [Duty::FullThrottle, Duty::Cruise]
        .map(|duty| subject.answers.duties.get(duty.index()).map(|answers| answers.limit.likely.base()));
    let depression = subject.project.ventilation.limits.depression.unwrap_or_else(defaults::limit_depression);
    let turns = points.windows(2).find_map(|pair| {
        let [a, b] = pair else { return None };
        ((a.gauge.likely.base() <= 0.0) != (b.gauge.likely.base() <= 0.0)).then_some(b)
    });
    let mut summary = format!(
        "At cruise speed the crankcase goes from {} at {} in the manifold to {} at {}.",
        kilopascals(first.gauge.likely.base()),
        Amount::of(first.manifold).show(subject.system),
        kilopascals(last.gauge.likely.base()),
        Amount::of(last.manifold).show(subject.system),
    );
    if let Some(point) = turns {
        summary.push_str(&format!(" The gas turns round near {}.", Amount::of(point.manifold).show(subject.system)));
    }
    if let Some(load) = load {
        summary.push_str(&format!(" The limit under load is {}.", kilopascals(load)));
    }
    let tokens = subject.tokens;
    // A limit far below the curve would squeeze it flat.
    let lowest = points.iter().map(|point| point.gauge.low.base()).fold(0.0, f64::min);
    let deep = Some(-depression.likely.base()).filter(|deep| lowest < 0.5 * deep);
    let light = light.filter(|light| Some(*light) != load);
    let driving = match subject.moment {
        Moment::Driving(duty) => subject.answers.duties.get(duty.index()),
        Moment::ColdMorning | Moment::HotStop => None,
    };
    let mut key = vec![
        ("likely".to_owned(), Look::Solid(tokens.gas)),
        ("low to high".to_owned(), Look::Band(tokens.gas_wash)),
        ("limit under load".to_owned(), Look::Dashed(tokens.fault)),
    ];
    if light.is_some() {
        key.push(("limit at light load".to_owned(), Look::Dotted(tokens.hot)));
    }
    if deep.is_some() {
        key.push(("deepest allowed".to_owned(), Look::Dashed(tokens.coolant)));
    }
    if driving.is_some() {
        key.push((format!("{}, at its own speed", ink::now_name(subject.moment.name())), Look::Diamond(tokens.ink)));
    }
    let parts = load_from(&subject).filter(|_| light.is_some());
    let ends = (first.manifold.base(), last.manifold.base());
    let mut frame =
        PlotFrame::new(Id::unique("plot of the crankcase pressure"), "Crankcase pressure against load", x, y);
    if let Some(answers) = driving {
        frame = frame.include(answers.manifold.base(), answers.likely().gauge.base());
    }
    frame
        .include(last.manifold.base(), 0.0)
        .include(first.manifold.base(), load.unwrap_or(0.0) * 1.1)
        // The mark of a duty may lie on the edge.
        .room_around(0.06)
        .height(220.0)
        .summary(summary)
        .show(ui, move |plot| {
            let spread: Vec<Spread> = points
                .iter()
                .map(|point| Spread {
                    x: x.at(point.manifold.base()),
                    low: y.at(point.gauge.low.base()),
                    likely: y.at(point.gauge.likely.base()),
                    high: y.at(point.gauge.high.base()),
                })
                .collect();
            band(plot, &spread, subject.tokens.gas, subject.tokens.gas_wash);
            // Each limit over the loads it applies to.
            let within = |from: f64, to: f64| (x.at(from), x.at(to));
            if let Some(load) = load {
                let (name, colour) = ("limit under load", subject.tokens.fault);
                match parts {
                    Some(from) => limit_within(plot, name, within(from, ends.1.max(from)), y.at(load), colour),
                    None => limit(plot, name, y.at(load), colour),
                }
            }
            if let Some(light) = light {
                let (name, colour) = ("limit at light load", subject.tokens.hot);
                match parts {
                    Some(to) => mark_within(plot, name, within(ends.0.min(to), to), y.at(light), colour),
                    None => mark(plot, name, y.at(light), colour),
                }
            }
            if let Some(deep) = deep {
                limit(plot, "deepest allowed", y.at(deep), subject.tokens.coolant);
            }
            if let Some(answers) = driving {
                let at = [x.at(answers.manifold.base()), y.at(answers.likely().gauge.base())];
                ink::now(plot, subject.moment.name(), at, subject.tokens);
            }
        });
    ink::key(ui, &key);
}

/// Manifold pressure from which the limit under load applies: that of the lightest duty under load, or of the heaviest at
/// light load where that is more. `None` where manifold pressure does not tell the load.
fn load_from(subject: &Subject<'_>) -> Option<f64> {
    if subject.project.engine.is_diesel() {
        return None;
    }
    let of = |loaded: bool| {
        let duties = subject.answers.duties.iter().filter(move |answers| answers.duty.under_load() == loaded);
        duties.map(|answers| answers.manifold.base())
    };
    let lightest = of(true).fold(f64::INFINITY, f64::min);
    let from = of(false).fold(lightest, f64::max);
    from.is_finite().then_some(from)
}
