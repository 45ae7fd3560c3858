//! Inputs for a quantity and for an estimate, typed in any unit and shown in the person's own.

use super::edit::{FieldResponse, Spec, edit_box};
use crate::quantity::{Amount, Estimate, Kind, Measured, OutOfRange, Range, UnitSystem, parse_amount, parse_estimate};
use crate::window::tokens::size;
use egui::{FontId, Id, Ui};

/// "60 to 200 mm".
fn range_words(range: &Range, system: UnitSystem) -> String {
    let low = Amount::new(range.low, range.kind).show_number(system);
    format!("{low} to {}", Amount::new(range.high, range.kind).show(system))
}

/// An input for one quantity: "1.5 qt", "160 °F", or a bare number in the unit shown.
///
/// Enter or leaving the box commits; a text that is no quantity, or one out of range, stays with the reason below it
/// and changes nothing; Escape brings the value back.
pub struct QuantityField<'a> {
    id: Id,
    label: &'a str,
    kind: Kind,
    system: UnitSystem,
    amount: Option<Amount>,
    range: Option<&'a Range>,
    unknown: Option<String>,
    hint: &'a str,
}

impl<'a> QuantityField<'a> {
    /// An empty input. The id is unique in the window and does not change while the field exists.
    #[must_use]
    pub fn new(id: Id, label: &'a str, kind: Kind, system: UnitSystem) -> Self {
        Self { id, label, kind, system, amount: None, range: None, unknown: None, hint: "" }
    }

    /// The value to show, given in the coherent SI unit.
    #[must_use]
    pub fn value(mut self, base: Option<f64>) -> Self {
        self.amount = base.map(|base| Amount::new(base, self.kind));
        self
    }

    /// The values allowed; shown beside the box.
    #[must_use]
    pub fn range(mut self, range: &'a Range) -> Self {
        self.range = Some(range);
        self
    }

    /// Lets the value be unknown, and says what the program then takes: "estimate 3 mm".
    #[must_use]
    pub fn may_be_unknown(mut self, words: impl Into<String>) -> Self {
        self.unknown = Some(words.into());
        self
    }

    /// A sentence of help, for whoever hovers or has the screen read.
    #[must_use]
    pub fn hint(mut self, hint: &'a str) -> Self {
        self.hint = hint;
        self
    }

    /// Shows the input. What is committed is in the coherent SI unit.
    pub fn show(self, ui: &mut Ui) -> FieldResponse<f64> {
        let spec = Spec {
            id: self.id,
            label: self.label,
            shown: self.amount.map(|amount| amount.show_input(self.system)).unwrap_or_default(),
            when_unknown: self.unknown,
            beside: self.range.map(|range| range_words(range, self.system)),
            hint: self.hint,
            width: size::FIELD,
        };
        let (kind, system, range) = (self.kind, self.system, self.range);
        edit_box(ui, &spec, |text| {
            let base = parse_amount(text, kind, Some(kind.unit(system))).map_err(|fault| fault.to_string())?;
            range.map_or(Ok(base), |range| range.check_base(base)).map_err(|fault| fault.say(system))
        })
    }
}

/// An input for a value with what is known of its spread: "0.1 L (0 L to 0.5 L)", or "0.1 L" when it is known well.
/// Empty means unknown: the program's own estimate is then said greyed in the box.
pub struct EstimateField<'a, Q> {
    id: Id,
    label: &'a str,
    kind: Kind,
    system: UnitSystem,
    estimate: Option<Estimate<Q>>,
    default: Estimate<Q>,
    range: Option<&'a Range>,
    hint: &'a str,
}

impl<'a, Q: Measured> EstimateField<'a, Q> {
    /// An input whose value the program would estimate as `default`.
    #[must_use]
    pub fn new(id: Id, label: &'a str, kind: Kind, system: UnitSystem, default: Estimate<Q>) -> Self {
        Self { id, label, kind, system, estimate: None, default, range: None, hint: "" }
    }

    /// What the person knows; `None` for unknown.
    #[must_use]
    pub fn value(mut self, estimate: Option<Estimate<Q>>) -> Self {
        self.estimate = estimate;
        self
    }

    /// The values allowed for each of low, likely and high.
    #[must_use]
    pub fn range(mut self, range: &'a Range) -> Self {
        self.range = Some(range);
        self
    }

    /// A sentence of help, for whoever hovers or has the screen read.
    #[must_use]
    pub fn hint(mut self, hint: &'a str) -> Self {
        self.hint = hint;
        self
    }

    fn text(&self, estimate: &Estimate<Q>) -> String {
        let amount = |value: Q| Amount::of_kind(value, self.kind).show_input(self.system);
        if estimate.is_exact() {
            return amount(estimate.likely);
        }
        // The unit once more at the end of the range is enough; a number alone is read in the same unit.
        let [low, high] = [estimate.low, estimate.high].map(amount);
        let alone = low.strip_suffix(self.kind.unit(self.system).symbol).unwrap_or(&low).trim_end();
        format!("{} ({alone} to {high})", amount(estimate.likely))
    }

    /// Shows the input. `cleared` in the answer means: back to unknown.
    pub fn show(self, ui: &mut Ui) -> FieldResponse<Estimate<Q>> {
        let unknown = format!("estimate {}", self.default.show(self.kind, self.system));
        let font = FontId::proportional(size::BODY);
        let shown = self.estimate.as_ref().map(|estimate| self.text(estimate)).unwrap_or_default();
        let wide = |words: &str| {
            ui.painter().layout_no_wrap(words.to_owned(), font.clone(), egui::Color32::PLACEHOLDER).size().x
        };
        let words = wide(&unknown).max(wide(&shown));
        let spec = Spec {
            id: self.id,
            label: self.label,
            shown,
            when_unknown: Some(unknown),
            beside: self.range.map(|range| range_words(range, self.system)),
            hint: self.hint,
            // Wide enough for a whole range, in whichever units.
            width: (words + 24.0).max(size::FIELD + 92.0),
        };
        let (kind, system, range) = (self.kind, self.system, self.range);
        edit_box(ui, &spec, |text| {
            let estimate =
                parse_estimate::<Q>(text, kind, Some(kind.unit(system))).map_err(|fault| fault.to_string())?;
            if let Some(range) = range {
                let check = |value: Q| range.check(value).map_err(|fault: OutOfRange| fault.say(system));
                for value in [estimate.low, estimate.likely, estimate.high] {
                    check(value)?;
                }
            }
            Ok(estimate)
        })
    }
}
