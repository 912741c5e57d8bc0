//! What was planned against what was done.
//!
//! - `planned_lines.rs`: what became of each planned line
//! - `against_plan.rs`: one line held against its plan set by set
//! - `planned_sums.rs`: sums of lines
//! - `week_kind.rs`: what kind of week one of a block is, and how much is hung in it

pub(crate) mod against_plan;
pub(crate) mod planned_lines;
pub(crate) mod planned_sums;
pub(crate) mod week_kind;
