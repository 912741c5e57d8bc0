//! General statistics against scipy and numpy; the commands stand beside the figures.

use super::published::{Reader, Row, check};
use loadline::science::statistics::{
    kendall_tau_b, least_squares, mean, median, quantile, spearman, standard_deviation, theil_sen,
};

pub const READERS: &[Reader] = &[
    ("statistics.mean", |row| row.expect(mean(&row.numbers("y")))),
    ("statistics.sd", |row| row.expect(standard_deviation(&row.numbers("y")))),
    ("statistics.median", |row| row.expect(median(&row.numbers("y")))),
    ("statistics.median_distance", median_distance),
    ("statistics.quantile", |row| row.expect(quantile(&row.numbers("y"), row.number("percent") / 100.0))),
    ("statistics.line_slope", |row| row.expect(least_squares(&row.points()).map(|line| line.slope))),
    ("statistics.line_intercept", |row| row.expect(least_squares(&row.points()).map(|line| line.intercept))),
    ("statistics.line_r", |row| row.expect(least_squares(&row.points()).and_then(|line| line.r))),
    ("statistics.line_slope_error", |row| row.expect(least_squares(&row.points()).and_then(|line| line.slope_error))),
    ("statistics.median_slope", |row| row.expect(theil_sen(&row.points()).map(|line| line.slope))),
    ("statistics.median_slope_intercept", |row| row.expect(theil_sen(&row.points()).map(|line| line.intercept))),
    ("statistics.median_slope_interval", interval),
    ("statistics.kendall", |row| row.expect(kendall_tau_b(&row.points()))),
    ("statistics.spearman", |row| row.expect(spearman(&row.points()))),
];

#[test]
fn published_figures() {
    check(READERS);
}

/// The median distance from the median.
fn median_distance(row: &Row) {
    let values = row.numbers("y");
    let middle = median(&values).unwrap();
    row.expect(median(&values.iter().map(|value| (value - middle).abs()).collect::<Vec<_>>()));
}

fn interval(row: &Row) {
    let (low, high) = theil_sen(&row.points()).unwrap().interval.unwrap();
    row.expect_all(&[low, high]);
}

#[test]
fn what_is_not_defined_is_not_given() {
    assert_eq!(mean(&[]), None);
    assert_eq!(standard_deviation(&[1.0]), None);
    assert_eq!(median(&[]), None);
    assert_eq!(quantile(&[1.0, 2.0], 1.01), None);
    for nonsense in [f64::NAN, f64::INFINITY] {
        assert_eq!(mean(&[1.0, nonsense]), None);
        assert_eq!(quantile(&[1.0, nonsense], 0.5), None);
        let points = [(0.0, 1.0), (1.0, nonsense), (2.0, 3.0)];
        assert_eq!(least_squares(&points), None);
        assert_eq!(theil_sen(&points), None);
        assert_eq!(kendall_tau_b(&points), None);
        assert_eq!(spearman(&points), None);
    }
    for points in [vec![], vec![(1.0, 2.0)], vec![(1.0, 2.0), (1.0, 3.0)]] {
        assert_eq!(least_squares(&points), None);
        assert_eq!(theil_sen(&points), None);
        assert_eq!(kendall_tau_b(&points), None);
        assert_eq!(spearman(&points), None);
    }
}

#[test]
fn a_flat_line_has_a_slope_and_no_correlation() {
    let flat = [(0.0, 5.0), (1.0, 5.0), (2.0, 5.0)];
    let line = least_squares(&flat).unwrap();
    assert_eq!((line.slope, line.intercept, line.r, line.slope_error), (0.0, 5.0, None, Some(0.0)));
    assert_eq!(kendall_tau_b(&flat), None);
    assert_eq!(spearman(&flat), None);
    assert_eq!(theil_sen(&flat).unwrap().slope, 0.0);
}

#[test]
fn two_points_make_a_line_without_an_error() {
    let line = least_squares(&[(0.0, 1.0), (2.0, 5.0)]).unwrap();
    assert_eq!((line.slope, line.intercept, line.r, line.slope_error), (2.0, 1.0, Some(1.0), None));
    assert_eq!(quantile(&[7.0], 0.9), Some(7.0));
}
