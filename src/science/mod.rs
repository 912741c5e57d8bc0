//! Published knowledge about lifting, as pure functions: each cites author, year, place and where it holds. Nothing
//! here knows a journal, a history or the clock. Quantities are `f64` inside, in
//! kilograms, repetitions or percent as said. A rule of thumb says `common practice, no source`.
//!
//! - `equation.rs`: the most for one repetition, from several; and back
//! - `effort_scale.rs`: an effort as repetitions in reserve; how far an estimate can be trusted
//! - `reps_at_percent.rs`: what people really do at a percentage
//! - `rating_error.rs`: how far people miss when they rate what they had left
//! - `volume_measures.rs`: work against a maximum
//! - `attempts.rs`: the three attempts of a lift at a meet
//! - `points/`: a total against the bodyweight
//! - `strength/`: strength from rated sets, and the lifter's own curve
//! - `taper.rs`: how a week is cut before a test
//! - `statistics/`: general statistics

pub mod attempts;
pub mod effort_scale;
mod equation;
pub mod points;
pub mod rating_error;
pub mod reps_at_percent;
pub mod statistics;
pub mod strength;
pub mod taper;
pub mod volume_measures;

pub use effort_scale::Trust;
pub use equation::Equation;
