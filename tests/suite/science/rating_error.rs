//! How far ratings miss.

use super::published::{Reader, Row, check};
use loadline::science::rating_error::{UNDER_PREDICTION, rating_sd};

pub const READERS: &[Reader] = &[("rating.bias", bias), ("rating.sd", sd), ("rating.mean_error", mean_error)];

#[test]
fn published_figures() {
    check(READERS);
}

fn bias(row: &Row) {
    match row.input.as_str() {
        "mean" => row.expect(UNDER_PREDICTION.mean),
        "interval" => row.expect_all(&[UNDER_PREDICTION.low, UNDER_PREDICTION.high]),
        other => panic!("{other}"),
    }
}

fn sd(row: &Row) {
    row.expect(rating_sd(row.number("left")));
}

/// The mean absolute error over whole repetitions from failure; of a normal error it is √(2/π) of its SD.
fn mean_error(row: &Row) {
    let range = row.number("from") as u32..=row.number("to") as u32;
    let count = f64::from(range.end() - range.start() + 1);
    let mean = range.map(|left| rating_sd(f64::from(left))).sum::<f64>() / count * std::f64::consts::FRAC_2_PI.sqrt();
    match row.expected.rsplit_once(' ').unwrap() {
        ("about", figure) => {
            let apart = (mean - figure.parse::<f64>().unwrap()).abs();
            assert!(apart <= row.tolerance.parse().unwrap(), "{}: {mean}", row.input);
        }
        ("more than", figure) => assert!(mean > figure.parse().unwrap(), "{}: {mean}", row.input),
        (other, _) => panic!("{other}"),
    }
}

#[test]
fn nonsense_is_read_as_the_nearest_sense() {
    assert_eq!(rating_sd(-3.0), rating_sd(0.0));
    assert_eq!(rating_sd(30.0), rating_sd(10.0));
    assert_eq!(rating_sd(f64::NAN), rating_sd(10.0));
}
