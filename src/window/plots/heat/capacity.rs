//! The heat of each duty against what the radiator carries, on the hottest day.

use super::Heat;
use crate::quantity::{Amount, Kind, Measured};
use crate::study::DutyHeatCurves;
use crate::window::kit::{PlotAxis, Span, SpanChart};
use egui::{Id, Ui};

/// Two bars for a duty: the heat, and under it hollow the radiator from just fully open to the boiling limit.
fn bars(duty: &DutyHeatCurves, heat: Heat<'_>) -> [Span; 2] {
    let told = |base: f64| Amount::new(base, Kind::Power).show(heat.system);
    let counts = duty.duty == heat.duty();
    let (low, likely, high) = (duty.heat.low.base(), duty.heat.likely.base(), duty.heat.high.base());
    let limit = duty.at_limit.likely.base();
    let open = duty.at_full_open.map(|carried| carried.likely.base());
    let name = duty.duty.name();
    let radiator = match open {
        Some(open) => format!("{name}: radiator, {} just fully open to {} at the limit", told(open), told(limit)),
        None => format!("{name}: radiator, {} at the limit", told(limit)),
    };
    [
        Span {
            name: format!("{name}: heat, likely {}", told(likely)),
            low,
            likely: Some(likely),
            high,
            counts,
            hollow: false,
        },
        Span { name: radiator, low: open.unwrap_or(limit), likely: None, high: limit, counts: false, hollow: true },
    ]
}

pub(super) fn show(ui: &mut Ui, heat: Heat<'_>) {
    let spans: Vec<Span> = heat.curves.duties.iter().flat_map(|duty| bars(duty, heat)).collect();
    let words = heat.curves.says_capacity().show(heat.system);
    let each: Vec<String> = heat.curves.duties.iter().map(|duty| duty.says_capacity().show(heat.system)).collect();
    let axis = PlotAxis::new("Power", Kind::Power, heat.system);
    let colours = (heat.tokens.hot, heat.tokens.hot.gamma_multiply(0.25));
    SpanChart::new(
        Id::unique("radiator against heat"),
        "Heat and radiator on the hottest day",
        axis,
        "duty",
        &spans,
        colours,
    )
    .summary(format!("{words} {}", each.join(" ")))
    .show(ui);
    super::said(ui, &words);
    let how = "Full bars: the heat; hollow ones: what the radiator carries. The likely heat left of the hollow bar: the thermostat rules. Over it: the radiator \
               rules, the coolant hotter than fully open. Right of it: it boils.";
    super::said(ui, how);
}
