//! Answers told to people and programs: sentences and rows whose numbers keep their kind until somebody reads them.

use crate::quantity::{Amount, Estimate, Kind, Measured, UnitSystem};
use crate::scribe::Chapter;

/// A sentence with quantities in it, written out in the reader's units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sentence(Vec<Piece>);

#[derive(Clone, Debug, PartialEq)]
enum Piece {
    Text(String),
    Amount(Amount),
    /// Told as it is, counted below zero.
    Lacking(Amount),
    Spread {
        low: f64,
        likely: f64,
        high: f64,
        kind: Kind,
    },
}

/// Something that may stand in a sentence.
pub trait Say {
    /// Adds itself.
    fn say(self, sentence: &mut Sentence);
}

impl Say for &str {
    fn say(self, sentence: &mut Sentence) {
        sentence.0.push(Piece::Text(self.to_owned()));
    }
}

impl Say for String {
    fn say(self, sentence: &mut Sentence) {
        sentence.0.push(Piece::Text(self));
    }
}

impl Say for Amount {
    fn say(self, sentence: &mut Sentence) {
        sentence.0.push(Piece::Amount(self));
    }
}

/// An amount by which something falls short: a person reads it without a sign ("14 L/min short"), a program below zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lacking(pub Amount);

impl Say for Lacking {
    fn say(self, sentence: &mut Sentence) {
        sentence.0.push(Piece::Lacking(self.0));
    }
}

impl Say for Sentence {
    fn say(self, sentence: &mut Sentence) {
        sentence.0.extend(self.0);
    }
}

impl<Q: Measured> Say for (Estimate<Q>, Kind) {
    fn say(self, sentence: &mut Sentence) {
        let (Estimate { low, likely, high }, kind) = self;
        sentence.0.push(Piece::Spread { low: low.base(), likely: likely.base(), high: high.base(), kind });
    }
}

/// Builds a [`Sentence`] from texts, amounts and estimates: `say!["hot mark ", level, " above the floor"]`.
#[macro_export]
macro_rules! say {
    ($($piece:expr),* $(,)?) => {{
        #[allow(unused_mut)]
        let mut sentence = $crate::study::Sentence::default();
        $($crate::study::Say::say($piece, &mut sentence);)*
        sentence
    }};
}

impl Sentence {
    /// The sentence in the reader's units.
    #[must_use]
    pub fn show(&self, system: UnitSystem) -> String {
        let mut text = String::new();
        for piece in &self.0 {
            match piece {
                Piece::Text(words) => text.push_str(words),
                Piece::Amount(amount) | Piece::Lacking(amount) => text.push_str(&amount.show(system)),
                Piece::Spread { low, likely, high, kind } => {
                    text.push_str(&show_spread(*low, *likely, *high, *kind, system))
                }
            }
        }
        text
    }

    /// The first quantity of the sentence, likely; below zero if it is lacking. `None` when there is none.
    #[must_use]
    pub fn amount(&self) -> Option<Amount> {
        self.0.iter().find_map(|piece| match piece {
            Piece::Text(_) => None,
            Piece::Amount(amount) => Some(*amount),
            Piece::Lacking(amount) => Some(Amount::new(-amount.base, amount.kind)),
            Piece::Spread { likely, kind, .. } => Some(Amount::new(*likely, *kind)),
        })
    }

    /// The same with a capital at its beginning, if it begins with words.
    #[must_use]
    pub fn capitalised(mut self) -> Self {
        let begins = |piece: &&mut Piece| !matches!(piece, Piece::Text(words) if words.is_empty());
        if let Some(Piece::Text(words)) = self.0.iter_mut().find(begins) {
            let mut letters = words.chars();
            *words = letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
        }
        self
    }

    /// Whether nothing is said.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

fn show_spread(low: f64, likely: f64, high: f64, kind: Kind, system: UnitSystem) -> String {
    let amount = |base| Amount::new(base, kind);
    if low == high {
        return amount(likely).show(system);
    }
    let (low, high) = (amount(low).show_number(system), amount(high).show_number(system));
    format!("{} ({low} to {high})", amount(likely).show(system))
}

/// The value of a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A number with its kind.
    Amount(Amount),
    /// Low, likely and high.
    Spread {
        /// Low, coherent SI unit.
        low: f64,
        /// Likely.
        likely: f64,
        /// High.
        high: f64,
        /// Kind.
        kind: Kind,
    },
    /// A word or a sentence.
    Words(Sentence),
    /// Yes or no.
    Flag(bool),
    /// There is none, and why.
    Absent(String),
}

/// One answer: its key, its words and its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Key in JSON.
    pub key: String,
    /// Words on screen.
    pub label: String,
    /// The value.
    pub value: Value,
    /// The chapter of the working that explains it.
    pub working: Option<String>,
}

/// Answers that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Key in JSON.
    pub key: String,
    /// Heading on screen.
    pub title: String,
    /// Its rows.
    pub rows: Vec<Row>,
    /// Whether it is shown only when it is asked for, where room is short.
    pub aside: bool,
}

impl Section {
    /// An empty section.
    #[must_use]
    pub fn new(key: impl Into<String>, title: impl Into<String>) -> Self {
        Self { key: key.into(), title: title.into(), rows: Vec::new(), aside: false }
    }

    /// The same, shown only when it is asked for where room is short.
    #[must_use]
    pub const fn aside(mut self) -> Self {
        self.aside = true;
        self
    }

    fn push(&mut self, key: &str, label: &str, value: Value) {
        self.rows.push(Row { key: key.to_owned(), label: label.to_owned(), value, working: None });
    }

    /// Adds a quantity.
    pub fn amount(&mut self, key: &str, label: &str, amount: Amount) -> &mut Self {
        self.push(key, label, Value::Amount(amount));
        self
    }

    /// Adds a quantity of its type's usual kind.
    pub fn quantity<Q: Measured>(&mut self, key: &str, label: &str, value: Q) -> &mut Self {
        self.amount(key, label, Amount::of(value))
    }

    /// Adds low, likely and high.
    pub fn estimate<Q: Measured>(&mut self, key: &str, label: &str, value: Estimate<Q>, kind: Kind) -> &mut Self {
        let Estimate { low, likely, high } = value;
        self.push(key, label, Value::Spread { low: low.base(), likely: likely.base(), high: high.base(), kind });
        self
    }

    /// Adds words.
    pub fn words(&mut self, key: &str, label: &str, words: Sentence) -> &mut Self {
        self.push(key, label, Value::Words(words));
        self
    }

    /// Adds yes or no.
    pub fn flag(&mut self, key: &str, label: &str, flag: bool) -> &mut Self {
        self.push(key, label, Value::Flag(flag));
        self
    }

    /// Adds a value that may not exist, with the reason.
    pub fn result<Q: Measured, E: std::fmt::Display>(
        &mut self,
        key: &str,
        label: &str,
        value: &Result<Q, E>,
        kind: Kind,
    ) -> &mut Self {
        match value {
            Ok(value) => self.push(key, label, Value::Amount(Amount::of_kind(*value, kind))),
            Err(error) => self.push(key, label, Value::Absent(error.to_string())),
        }
        self
    }

    /// Adds a value that does not exist, and why.
    pub fn absent(&mut self, key: &str, label: &str, reason: impl Into<String>) -> &mut Self {
        self.push(key, label, Value::Absent(reason.into()));
        self
    }

    /// Names the chapter that explains the row added last.
    pub fn explained_by(&mut self, chapter: impl Into<String>) -> &mut Self {
        if let Some(row) = self.rows.last_mut() {
            row.working = Some(chapter.into());
        }
        self
    }
}

impl Value {
    /// For reading.
    #[must_use]
    pub fn show(&self, system: UnitSystem) -> String {
        match self {
            Self::Amount(amount) => amount.show(system),
            Self::Spread { low, likely, high, kind } => show_spread(*low, *likely, *high, *kind, system),
            Self::Words(words) => words.show(system),
            Self::Flag(flag) => if *flag { "yes" } else { "no" }.to_owned(),
            Self::Absent(reason) => format!("not given: {reason}"),
        }
    }

    /// For programs: value and unit as two fields, no number that JSON cannot hold.
    #[must_use]
    pub fn to_json(&self, system: UnitSystem) -> serde_json::Value {
        use serde_json::json;
        // A value that is not finite becomes null with a reason rather than broken JSON.
        let finite = |value: f64| serde_json::Number::from_f64(value).map_or(serde_json::Value::Null, Into::into);
        match self {
            Self::Amount(amount) => {
                let unit = amount.kind.unit(system);
                json!({ "value": finite(unit.from_base(amount.base)), "unit": unit.symbol })
            }
            Self::Spread { low, likely, high, kind } => {
                let unit = kind.unit(system);
                let part = |base: f64| finite(unit.from_base(base));
                json!({ "low": part(*low), "likely": part(*likely), "high": part(*high), "unit": unit.symbol })
            }
            Self::Words(words) => json!(words.show(system)),
            Self::Flag(flag) => json!(flag),
            Self::Absent(reason) => json!({ "value": null, "reason": reason }),
        }
    }
}

/// Sections as one JSON object. A row whose chapter is among `working` names it under that word.
#[must_use]
pub fn to_json(
    sections: &[Section],
    system: UnitSystem,
    working: &[Chapter],
) -> serde_json::Map<String, serde_json::Value> {
    let mut whole = serde_json::Map::new();
    for section in sections {
        let mut rows = serde_json::Map::new();
        for row in &section.rows {
            let mut value = row.value.to_json(system);
            let chapter = row.working.as_ref().filter(|key| working.iter().any(|chapter| &chapter.key == *key));
            if let (Some(fields), Some(chapter)) = (value.as_object_mut(), chapter) {
                fields.insert("working".to_owned(), chapter.as_str().into());
            }
            rows.insert(row.key.clone(), value);
        }
        whole.insert(section.key.clone(), rows.into());
    }
    whole
}
