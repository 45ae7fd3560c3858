//! Remarks that travel with results: what was assumed, what is weak, what can hurt.

/// How much a remark matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// Good to know.
    Remark,
    /// The answer is weaker than it looks.
    Weak,
    /// Somebody may be hurt or something may break.
    Danger,
}

/// A remark with a stable key, for tests and for showing each once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// A stable key: "boiling-fit-edge".
    pub key: &'static str,
    /// How much it matters.
    pub weight: Weight,
    /// The sentence a person reads.
    pub text: String,
}

impl Note {
    /// A remark.
    #[must_use]
    pub fn new(key: &'static str, weight: Weight, text: impl Into<String>) -> Self {
        Self { key, weight, text: text.into() }
    }
}
