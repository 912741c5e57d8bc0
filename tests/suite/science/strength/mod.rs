//!
//! - `by_hand.rs`: the sums of the prior, of a set's interval and of a step of the filter
//! - `laws.rs`: what holds for any set

mod by_hand;
mod laws;
mod learning;

use loadline::science::strength::Observation;

/// A set whose load was weighed.
fn set(day: i64, load: f64, reps_to_failure: f64, reps_error: f64) -> Observation {
    Observation { day, load, reps_to_failure, reps_error, load_error: 0.0 }
}
