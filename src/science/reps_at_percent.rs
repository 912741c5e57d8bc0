//! How many repetitions people really do at a percentage of their maximum.
//!
//! Nuzzo, Pinto, Nosaka and Steele 2024, Sports Med 54(2):303–321, doi 10.1007/s40279-023-01937-7: 952 tests of
//! 7289 people in 269 studies. The mean falls along a curve as the load rises and differs between lifts; sex, age
//! and training made no clear difference. Only figures that are quoted from the paper stand here: its full tables
//! were not at hand, and nothing is filled in between.

/// The lifts for which the paper has tables of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tested {
    /// The bench press: 42 % of the tests.
    BenchPress,
    /// The leg press: 14 % of the tests.
    LegPress,
}

/// A published mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchor {
    /// The lift.
    pub lift: Tested,
    /// The load in percent of the maximum.
    pub percent: f64,
    /// The mean repetitions to failure.
    pub reps: f64,
    /// Its 95 % confidence interval: of the mean, not of people.
    pub interval: (f64, f64),
}

/// The published mean that an equation can be held against best: the lift most tested, within ten reps.
pub const BENCH_PRESS_AT_80: Anchor =
    Anchor { lift: Tested::BenchPress, percent: 80.0, reps: 8.8, interval: (7.7, 10.1) };

/// The published means (Nuzzo et al. 2024, as quoted by others).
pub const ANCHORS: [Anchor; 4] = [
    BENCH_PRESS_AT_80,
    Anchor { lift: Tested::BenchPress, percent: 70.0, reps: 14.1, interval: (12.4, 16.1) },
    Anchor { lift: Tested::LegPress, percent: 80.0, reps: 13.1, interval: (9.8, 17.5) },
    Anchor { lift: Tested::LegPress, percent: 70.0, reps: 19.0, interval: (14.2, 25.5) },
];

/// The published mean for a lift at exactly this percentage, if there is one.
#[must_use]
pub fn anchor(lift: Tested, percent: f64) -> Option<Anchor> {
    ANCHORS.into_iter().find(|anchor| anchor.lift == lift && anchor.percent == percent)
}

/// The standard deviation between people of the repetitions to failure at 80 % of the maximum.
pub const SD_AT_80: f64 = 2.51;

/// The standard deviation between people of the repetitions to failure at a percentage of the maximum.
///
/// 2.51 + 0.0925 (80 − p). Nuzzo et al. 2024 model it as a straight line; this is the line through the two
/// points that are quoted, 4.36 at 60 % and 2.51 at 80 %. `None` outside 60 to 90 %, the loads for which
/// anything of the paper is quoted.
///
/// It says how unlike strangers are. A lifter's own history is narrower.
#[must_use]
pub fn sd_between_people(percent: f64) -> Option<f64> {
    (60.0..=90.0).contains(&percent).then_some(SD_AT_80 + 0.0925 * (80.0 - percent))
}
