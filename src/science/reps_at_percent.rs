//! How many repetitions people really do at a percentage of their maximum.
//!
//! Nuzzo, Pinto, Nosaka and Steele 2024, Sports Med 54(2):303–321, doi 10.1007/s40279-023-01937-7: 952 tests of
//! 7289 people in 269 studies. The mean falls along a curve as the load rises and differs between lifts; sex, age
//! and training made no clear difference. Only figures that are quoted from the paper stand here: its full tables
//! were not at hand, and nothing is filled in between.

/// A published mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchor {
    /// The load in percent of the maximum.
    pub percent: f64,
    /// The mean repetitions to failure.
    pub reps: f64,
}

/// The published mean that an equation can be held against best: the bench press, of 42 % of the tests, within ten
/// reps.
pub const BENCH_PRESS_AT_80: Anchor = Anchor { percent: 80.0, reps: 8.8 };

/// The standard deviation between people of the repetitions to failure at 80 % of the maximum. It says how unlike
/// strangers are; a lifter's own history is narrower.
pub const SD_AT_80: f64 = 2.51;
