//! The training load chart of the NSCA: how many repetitions a percentage of the maximum allows.

/// A line of the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartLine {
    /// Repetitions to failure.
    pub reps: u32,
    /// The load in percent of the maximum.
    pub percent: f64,
    /// Whether the prints of the chart agree on it.
    pub in_every_print: bool,
}

/// The chart, from a single down.
///
/// NSCA, *Essentials of Strength Training and Conditioning*, training load chart. 1 to 10 and 12 repetitions stand
/// in every print seen; 73 % for 11 in some only; 65 % for 15 is from memory, high confidence. It is a rounded rule
/// for teaching, the same for every lift and lifter: an estimate from it is an outside opinion, nothing more.
pub const CHART: [ChartLine; 13] = [
    line(1, 100.0),
    line(2, 95.0),
    line(3, 93.0),
    line(4, 90.0),
    line(5, 87.0),
    line(6, 85.0),
    line(7, 83.0),
    line(8, 80.0),
    line(9, 77.0),
    line(10, 75.0),
    ChartLine { reps: 11, percent: 73.0, in_every_print: false },
    line(12, 70.0),
    ChartLine { reps: 15, percent: 65.0, in_every_print: false },
];

const fn line(reps: u32, percent: f64) -> ChartLine {
    ChartLine { reps, percent, in_every_print: true }
}

/// The line for so many repetitions; `None` for those that the chart does not have. Nothing is read between lines.
#[must_use]
pub fn charted(reps: u32) -> Option<ChartLine> {
    CHART.into_iter().find(|line| line.reps == reps)
}

/// The maximum that the chart gives for a load lifted to failure, in the unit of the load.
///
/// `None` for repetitions that the chart does not have, and for a load that is not a positive number.
#[must_use]
pub fn maximum(load: f64, reps: u32) -> Option<f64> {
    if !(load.is_finite() && load > 0.0) {
        return None;
    }
    Some(load * 100.0 / charted(reps)?.percent)
}
