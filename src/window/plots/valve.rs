//! The valve by itself: flow against depression, the bench's points and the duties on it.

use super::ink::{self, Look, lower};
use super::{Subject, beside};
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{Bench, Duty, Moment, ValveKind, ValvePoint};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::weight;
use egui::{Id, RichText, Ui};
use egui_plot::{Line, MarkerShape, PlotPoint, Points, Text};

/// Flow against depression.
pub(super) fn flow(ui: &mut Ui, subject: Subject<'_>) {
    let curve = &subject.curves.valve;
    let (Some(valve), Some(last)) = (&subject.answers.valve, curve.last()) else {
        super::nothing(ui, "this arrangement has no valve.");
        return;
    };
    let x = PlotAxis::new("Depression across the valve", Kind::PressureDifference, subject.system);
    let y = PlotAxis::new("Flow by itself", Kind::GasVolumeFlow, subject.system);
    let duties: Vec<(Duty, [f64; 2])> = Duty::ALL
        .into_iter()
        .zip(&valve.passes)
        .filter_map(|(duty, passes)| {
            let manifold = subject.answers.duties.get(duty.index())?.manifold;
            let depression = subject.answers.ambient.base() - manifold.base();
            // Boost pushes back: that lies on no curve of depression.
            (depression >= 0.0).then_some((duty, [depression, passes.as_ref().ok()?.base()]))
        })
        .collect();
    let bench = bench(&subject);
    let summary = sentence(&subject, curve, &duties, bench.len());
    let tokens = subject.tokens;
    let mut key = vec![("the valve by itself".to_owned(), Look::Solid(tokens.gas))];
    if !bench.is_empty() {
        let words = if thin_air(&subject) { "your bench, at sea level" } else { "your bench" };
        key.push((words.to_owned(), Look::Box(tokens.coolant)));
    }
    key.push(("duties".to_owned(), Look::Circle(tokens.ink)));
    let chosen = subject.moment;
    if duties.iter().any(|(duty, _)| chosen == Moment::Driving(*duty)) {
        key.push((ink::now_name(chosen.name()), Look::Diamond(tokens.hot)));
    }
    let highest = duties.iter().map(|(_, at)| at[1]).chain(bench.iter().map(|at| at[1])).fold(0.0, f64::max);
    let widest = x.at(last.depression.base());
    PlotFrame::new(Id::unique("plot of the valve"), "What the valve passes", x, y)
        .include(0.0, 0.0)
        .include(last.depression.base() * 1.08, highest * 1.12)
        .height(220.0)
        .summary(summary.as_str())
        .show(ui, move |plot| {
            let points: Vec<[f64; 2]> =
                curve.iter().map(|point| [x.at(point.depression.base()), y.at(point.flow.base())]).collect();
            let names: Vec<(String, [f64; 2])> =
                duties.iter().map(|(duty, at)| (lower(duty.name()), [x.at(at[0]), y.at(at[1])])).collect();
            let most = points.iter().map(|at| at[1]).fold(1.12 * y.at(highest), f64::max);
            let spots = beside::spots(&names, &points, [1.08 * widest, most]);
            plot.line(Line::new("the valve by itself", points).color(tokens.gas).width(weight::MEDIUM));
            let place = |at: &[f64; 2]| [x.at(at[0]), y.at(at[1])];
            if !bench.is_empty() {
                let points: Vec<[f64; 2]> = bench.iter().map(place).collect();
                let squares = Points::new("your bench", points).shape(MarkerShape::Square);
                plot.points(squares.radius(3.5).color(tokens.coolant));
            }
            for (((duty, _), (name, at)), spot) in duties.iter().zip(&names).zip(&spots) {
                let (at, now) = (*at, chosen == Moment::Driving(*duty));
                let points = Points::new(name.clone(), vec![at]);
                plot.points(if now {
                    points.shape(MarkerShape::Diamond).radius(6.0).color(tokens.hot)
                } else {
                    points.shape(MarkerShape::Circle).radius(4.0).color(tokens.ink)
                });
                let words = RichText::new(name).small().color(tokens.ink);
                let text = Text::new("", PlotPoint::new(spot.at[0], spot.at[1]), words).anchor(spot.anchor);
                plot.text(text.allow_hover(false));
            }
        });
    ink::key(ui, &key);
    ui.add(egui::Label::new(summary).wrap().selectable(true));
}

/// Whether the air is so thin that points of a bench at sea level lie beside the curve.
fn thin_air(subject: &Subject<'_>) -> bool {
    subject.answers.ambient.base() < 99e3
}

/// What the builder measured: depression in Pa, flow in m³/s.
fn bench(subject: &Subject<'_>) -> Vec<[f64; 2]> {
    let inputs = &subject.project.ventilation.valve;
    match (inputs.kind, inputs.bench.read) {
        (ValveKind::Table, Bench::Flow) => {
            inputs.bench.table.iter().map(|(depression, flow)| [depression.base(), flow.base()]).collect()
        }
        (ValveKind::Table, Bench::Orifice) => {
            let rows = subject.answers.valve.iter().flat_map(|valve| &valve.bench);
            rows.map(|row| [row.depression.base(), row.flow.base()]).collect()
        }
        _ => Vec::new(),
    }
}

fn sentence(subject: &Subject<'_>, curve: &[ValvePoint], duties: &[(Duty, [f64; 2])], bench: usize) -> String {
    let deep = |base: f64| Amount::new(base, Kind::PressureDifference).show(subject.system);
    let flow = |base: f64| Amount::new(base, Kind::GasVolumeFlow).show(subject.system);
    let most = curve.iter().max_by(|a, b| a.flow.base().total_cmp(&b.flow.base()));
    let mut words = most.map_or_else(String::new, |most| {
        let (at, flow) = (deep(most.depression.base()), flow(most.flow.base()));
        format!("With nothing ahead of it the valve passes most, {flow}, at {at}.")
    });
    let told: Vec<String> =
        duties.iter().map(|(duty, at)| format!("{} {} at {}", lower(duty.name()), flow(at[1]), deep(at[0]))).collect();
    if !told.is_empty() {
        words.push_str(&format!(" By duty: {}.", told.join(", ")));
    }
    if bench > 0 {
        words.push_str(&format!(" {bench} points of your bench are marked"));
        words.push_str(if thin_air(subject) {
            ", as read at sea level; in the thinner air up here the valve passes less."
        } else {
            "."
        });
    }
    words
}
