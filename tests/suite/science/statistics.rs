//! General statistics against scipy and numpy; the commands stand beside the figures.

use super::published::{Reader, Row, check};
use loadline::science::statistics::{mean, theil_sen};

pub const READERS: &[Reader] = &[
    ("statistics.mean", |row| row.expect(mean(&row.numbers("y")))),
    ("statistics.median_slope", |row| row.expect(theil_sen(&row.points()).map(|line| line.slope))),
    ("statistics.median_slope_interval", interval),
];

#[test]
fn published_figures() {
    check(READERS);
}

fn interval(row: &Row) {
    let (low, high) = theil_sen(&row.points()).unwrap().interval.unwrap();
    row.expect_all(&[low, high]);
}

#[test]
fn what_is_not_defined_is_not_given() {
    assert_eq!(mean(&[]), None);
    for nonsense in [f64::NAN, f64::INFINITY] {
        assert_eq!(mean(&[1.0, nonsense]), None);
        assert_eq!(theil_sen(&[(0.0, 1.0), (1.0, nonsense), (2.0, 3.0)]), None);
    }
    for points in [vec![], vec![(1.0, 2.0)], vec![(1.0, 2.0), (1.0, 3.0)]] {
        assert_eq!(theil_sen(&points), None);
    }
    assert_eq!(theil_sen(&[(0.0, 5.0), (1.0, 5.0), (2.0, 5.0)]).unwrap().slope, 0.0);
}
