//! Published knowledge about lifting, as pure functions: each cites author, year, place and where it holds. Nothing
//! here knows a journal, a history or the clock, and nothing is fitted to a lifter. Quantities are `f64` inside, in
//! kilograms, repetitions or percent as said. A rule of thumb says `common practice, no source`.
//!
//! - `equation.rs`: the most for one repetition, from several; and back
//! - `effort_scale.rs`: an effort as repetitions in reserve; how far an estimate can be trusted
//! - `statistics/`: general statistics

pub mod effort_scale;
mod equation;
pub mod statistics;

pub use effort_scale::Trust;
pub use equation::Equation;
