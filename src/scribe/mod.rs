//! Working shown: the physics tells a scribe what it computes, in the same lines that compute it.
//!
//! Functions of the physics take `scribe: &mut impl Scribe`. [`Silent`] compiles to nothing and serves sampling and
//! solving; [`Writing`] keeps every step. A solver iterates with [`Silent`] and repeats its last evaluation with the
//! caller's scribe, so what is explained is what was computed.

use crate::quantity::{Amount, Measured};
use crate::source::Source;

/// Somebody who may write down a step of the working.
pub trait Scribe {
    /// Whether anything is kept; lets a caller skip work done only for the working.
    const WRITES: bool;
    /// Begins a chapter; the steps that follow belong to it.
    fn chapter(&mut self, key: &str, title: &str);
    /// Keeps one step. The closure is not called by a silent scribe.
    fn step(&mut self, write: impl FnOnce() -> Step);
}

/// Keeps nothing and costs nothing.
#[derive(Clone, Copy, Debug, Default)]
pub struct Silent;

impl Scribe for Silent {
    const WRITES: bool = false;
    #[inline(always)]
    fn chapter(&mut self, _key: &str, _title: &str) {}
    #[inline(always)]
    fn step(&mut self, _write: impl FnOnce() -> Step) {}
}

/// Keeps every step, in chapters.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Writing {
    /// The chapters in the order they were begun.
    pub chapters: Vec<Chapter>,
}

/// The working of one answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Chapter {
    /// What an answer refers to: "expansion", "crankcase/idle".
    pub key: String,
    /// What a person reads above it.
    pub title: String,
    /// The steps, in the order computed.
    pub steps: Vec<Step>,
}

impl Scribe for Writing {
    const WRITES: bool = true;
    fn chapter(&mut self, key: &str, title: &str) {
        self.chapters.push(Chapter { key: key.to_owned(), title: title.to_owned(), steps: Vec::new() });
    }
    fn step(&mut self, write: impl FnOnce() -> Step) {
        if self.chapters.is_empty() {
            self.chapter("", "");
        }
        if let Some(chapter) = self.chapters.last_mut() {
            chapter.steps.push(write());
        }
    }
}

/// One step: what was asked, the equation, the numbers put in, the result, the source.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is computed, in words.
    pub meaning: &'static str,
    /// Its symbol, after ISO 80000 or the cited source.
    pub symbol: &'static str,
    /// The equation in those symbols.
    pub equation: &'static str,
    /// The numbers put in: symbol and amount.
    pub numbers: Vec<(&'static str, Amount)>,
    /// The result.
    pub result: Amount,
    /// Where the equation or the value comes from.
    pub source: &'static Source,
}

impl Step {
    /// Begins a step; add numbers with [`Step::with`] and end it with [`Step::gives`].
    #[must_use]
    pub fn new(meaning: &'static str, symbol: &'static str, equation: &'static str, source: &'static Source) -> Self {
        Self { meaning, symbol, equation, numbers: Vec::new(), result: Amount::number(0.0), source }
    }

    /// Puts in a typed quantity.
    #[must_use]
    pub fn with<Q: Measured>(self, symbol: &'static str, value: Q) -> Self {
        self.with_amount(symbol, Amount::of(value))
    }

    /// Puts in an amount, for a kind other than the type's usual one.
    #[must_use]
    pub fn with_amount(mut self, symbol: &'static str, amount: Amount) -> Self {
        self.numbers.push((symbol, amount));
        self
    }

    /// Puts in a plain number.
    #[must_use]
    pub fn with_number(self, symbol: &'static str, value: f64) -> Self {
        self.with_amount(symbol, Amount::number(value))
    }

    /// Ends the step with its result.
    #[must_use]
    pub fn gives<Q: Measured>(self, value: Q) -> Self {
        self.gives_amount(Amount::of(value))
    }

    /// Ends the step with an amount.
    #[must_use]
    pub fn gives_amount(mut self, amount: Amount) -> Self {
        self.result = amount;
        self
    }
}
