//! Verdicts, defaults and chapters for programs.

use crate::quantity::{Amount, UnitSystem};
use crate::scribe::Chapter;
use crate::study::{Taken, Verdict};
use serde_json::{Value as Json, json};

/// A verdict for programs. It names its chapter if that is among `working`.
#[must_use]
pub fn verdict_json(verdict: &Verdict, system: UnitSystem, working: &[Chapter]) -> Json {
    let mut fields = serde_json::Map::new();
    let mut add = |key: &str, value: String| fields.insert(key.to_owned(), value.into());
    add("title", verdict.title.to_owned());
    add("state", verdict.state.key().to_owned());
    add("margin", verdict.margin.show(system));
    if let Some(amount) = verdict.margin.amount() {
        let unit = amount.kind.unit(system);
        let value = serde_json::Number::from_f64(unit.from_base(amount.base)).map_or(Json::Null, Json::Number);
        fields.insert("margin_value".to_owned(), json!({ "value": value, "unit": unit.symbol }));
    }
    let mut add = |key: &str, value: String| fields.insert(key.to_owned(), value.into());
    add("limit", verdict.limit.show(system));
    add("reason", verdict.reason.show(system));
    if let Some(mend) = &verdict.mend {
        add("mend", mend.show(system));
    }
    if working.iter().any(|chapter| chapter.key == verdict.working) {
        add("working", verdict.working.to_owned());
    }
    fields.into()
}

/// A default in use, for programs.
#[must_use]
pub fn taken_json(taken: &Taken, system: UnitSystem) -> Json {
    let unit = taken.kind.unit(system);
    let [low, likely, high] = taken.spread.map(|base| unit.from_base(base));
    json!({ "label": taken.label, "low": low, "likely": likely, "high": high, "unit": unit.symbol })
}

/// A chapter of the working, for programs.
#[must_use]
pub fn chapter_json(chapter: &Chapter, system: UnitSystem) -> Json {
    let amount = |amount: &Amount| {
        let unit = amount.kind.unit(system);
        let value = serde_json::Number::from_f64(unit.from_base(amount.base)).map_or(Json::Null, Json::Number);
        json!({ "value": value, "unit": unit.symbol })
    };
    let steps: Vec<Json> = chapter
        .steps
        .iter()
        .map(|step| {
            let numbers: Vec<Json> =
                step.numbers.iter().map(|(symbol, number)| json!({ "symbol": symbol, "is": amount(number) })).collect();
            json!({
                "meaning": step.meaning,
                "symbol": step.symbol,
                "equation": step.equation,
                "numbers": numbers,
                "result": amount(&step.result),
                "source": step.source.title,
                "standing": step.source.standing.words(),
            })
        })
        .collect();
    json!({ "title": chapter.title, "steps": steps })
}
