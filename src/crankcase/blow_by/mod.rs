//! Gas that passes the piston rings, by how much is known of the engine.
//!
//! A ring pack is a small fixed hole fed from the cylinder: `ṁ = C_dA_eff · G(operating point)`, with the effective
//! area of the whole engine and `G` from [`super::cylinder::Trace::leakage`]. The levels differ in where the area
//! comes from:
//!
//! - a measured flow (level 0): [`area_from_flow`];
//! - the condition alone (level 1): [`from_condition`], then [`area_from_flow`];
//! - a leak-down test (level 2): [`from_leak_down`];
//! - ring gaps and clearances (level 3): [`from_ring_pack`], two gaps in series, which has no one area.
//!
//! [`through`] gives the flow at an operating point, [`choose`] the figure to work with.

mod choose;
mod condition;
pub mod defaults;
mod leak_down;
mod ring_flow;
mod ring_pack;
mod through;
mod volume;

pub use super::cylinder::BlowByError;
pub use choose::{Candidate, Choice, Level, choose};
pub use condition::{Condition, RulesOfThumb, from_condition};
pub use leak_down::{LeakArea, LeakDownTest, RESTRICTOR, assumed_readings, from_leak_down, restrictor_for};
pub use ring_flow::{InterRing, from_ring_pack};
pub use ring_pack::{Gap, HotGaps, RingPack, RingPackFigures, hot_gaps};
pub use through::{BlowBy, Counted, area_from_flow, measuring_caution, remarks, through};
pub use volume::{mass_flow, standard_volume_flow, volume_flow};
