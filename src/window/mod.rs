//! The window: the drawing, inspectors, plots and dialogs. No physics in here.
//!
//! [`tokens`] holds every colour, size and line weight, [`fonts`] the bundled letters, and [`kit`] the few widgets all
//! views are built from.

pub mod drawing;
pub mod fonts;
pub mod kit;
pub mod plots;
pub mod tokens;
