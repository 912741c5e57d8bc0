//! Strength from rated sets: on lifters whose truth is known, by hand, and by what must hold for any set.
//!
//! - `lifter.rs`: lifters made up from the published spreads, and what they write down
//! - `simulation.rs`: how near the estimates come to the truth; the figures of docs/science.md
//! - `by_hand.rs`: the sums of the prior, of a set's interval and of a step of the filter
//! - `learning.rs`: what teaches a lifter's curve and what does not
//! - `laws.rs`: what holds for any set
//! - `misses.rs`: missed attempts, against a sum over a grid and by what holds for any of them

mod by_hand;
mod laws;
mod learning;
mod lifter;
mod misses;
mod simulation;

use loadline::science::strength::Observation;

/// A set whose load was weighed.
fn set(day: i64, load: f64, reps_to_failure: f64, reps_error: f64) -> Observation {
    Observation { day, load, reps_to_failure, reps_error, load_error: 0.0 }
}
