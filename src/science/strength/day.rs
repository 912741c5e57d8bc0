//! What a lift's days say of strength.

/// A set as it was done: everything that was lifted, in any unit of mass that stays the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Set {
    /// The load.
    pub load: f64,
    /// The standard error of the load, as a share of it; 0 for a load that was weighed.
    pub load_error: f64,
    /// Good reps; of a set in bouts those of the first. None of a missed attempt.
    pub reps: u32,
    /// How it ended.
    pub end: End,
}

/// How a set ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// Nothing is written of it.
    Unrated,
    /// So many reps were said to be left.
    Left(f64),
    /// A rep failed, with no fault told of it.
    Missed,
}

/// A lift's clean sets of one day, in the order done.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    /// Counted from any day.
    pub day: i64,
    /// How far through its block, 0 to 1; 0 where there is none, and in a week of rest.
    pub through: f64,
    /// The sets; none where the day only tells that the lifter trained.
    pub sets: Vec<Set>,
}

impl Set {
    /// The logarithm of the load, where it is one.
    pub(super) fn log_load(&self) -> Option<f64> {
        let log = self.load.ln();
        (log.is_finite() && self.load_error.is_finite()).then_some(log)
    }
}

/// An estimate and the 80 % interval round it, in the unit of what was lifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// One chance in ten lies below.
    pub low: f64,
    /// As likely too high as too low.
    pub middle: f64,
    /// One chance in ten lies above.
    pub high: f64,
}

/// How many standard deviations an 80 % interval reaches to each side: 0.9 of a normal distribution lie below.
pub(super) const REACH: f64 = 1.281_551_565_544_600_4;
