//! The ledger of sources: where every equation and every default comes from.
//!
//! One file for each part of the physics. A test fails on two entries with one key, and on an entry nothing cites.

/// Declares the entries of a part, `NAME = "key", Standing, "title";`, and the list of them all.
macro_rules! sources {
    ($($name:ident = $key:literal, $standing:ident, $title:literal;)*) => {
        $(
            #[doc = $title]
            pub static $name: $crate::source::Source =
                $crate::source::Source::new($key, $title, $crate::source::Standing::$standing);
        )*

        /// Every entry of this part.
        pub static ALL: &[&$crate::source::Source] = &[$(&$name),*];
    };
}

mod assumed;
pub mod bodies;
pub mod coolant;
pub mod crankcase;
pub mod day;
pub mod engine_oil;
pub mod fluid;
pub mod heat;

pub use assumed::Assumed;
pub(crate) use assumed::assumed;

/// How much a source can carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// A standard, handbook or paper whose text or data was read.
    Published,
    /// A published work quoted from memory; check it before relying on the digit.
    FromMemory,
    /// Common practice of the trade, no published source.
    CommonPractice,
    /// An assumption of this program: an editable default with a range.
    Assumption,
    /// A definition or conservation law that needs no source.
    Definition,
}

impl Standing {
    /// What a person reads beside a source.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::FromMemory => "published, quoted from memory",
            Self::CommonPractice => "common practice, no source",
            Self::Assumption => "assumption of this program, edit it if you know better",
            Self::Definition => "definition or balance",
        }
    }
}

/// One entry of the ledger.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// A short key, unique in the ledger.
    pub key: &'static str,
    /// Author, work, year, place in it.
    pub title: &'static str,
    /// How much it can carry.
    pub standing: Standing,
}

impl Source {
    /// An entry.
    #[must_use]
    pub const fn new(key: &'static str, title: &'static str, standing: Standing) -> Self {
        Self { key, title, standing }
    }
}

/// A balance or a definition: nothing to cite.
pub static DEFINITION: Source = Source::new("definition", "Definition or balance", Standing::Definition);

/// Every entry of the ledger.
pub fn all() -> impl Iterator<Item = &'static Source> {
    static OWN: &[&Source] = &[&DEFINITION];
    [
        OWN,
        fluid::ALL,
        heat::ALL,
        engine_oil::ALL,
        coolant::ALL,
        bodies::ALL,
        crankcase::blow_by::ALL,
        crankcase::ventilation::ALL,
        crankcase::joint::ALL,
        crankcase::moisture::ALL,
        day::ALL,
    ]
    .into_iter()
    .flatten()
    .copied()
}

#[cfg(test)]
mod tests {
    #[test]
    fn no_key_stands_for_two_entries() {
        let mut keys = std::collections::BTreeMap::new();
        for source in super::all() {
            assert_eq!(keys.insert(source.key, source.title), None, "{} is used twice", source.key);
        }
    }
}
