//! The few widgets every view is built from. Each is named for a screen reader and works from the keyboard.
//!
//! An input never changes a value itself: it answers with what the person committed, and the view turns that into an
//! edit that can be undone.

mod card;
mod choice;
mod clock;
mod edit;
mod mark;
mod plot;
mod quantity;
mod selector;
mod spans;
mod track;
mod verdict;
mod working;

pub use card::{caution_box, heading, part_card, strong};
pub use choice::{choice_field, count_field, switch, text_field};
pub use clock::clock;
pub use edit::FieldResponse;
pub use mark::{Mark, paint_mark};
pub use plot::{PlotAxis, PlotFrame};
pub use quantity::{EstimateField, QuantityField};
pub use selector::segments;
pub use spans::{Span, SpanChart, SpanMark};
pub use track::{Band, Track};
pub use verdict::{Verdict, VerdictChip};
pub use working::working_view;
