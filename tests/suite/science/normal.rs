//! The normal distribution against mpmath and scipy; the commands stand beside the figures.

use super::published::{Reader, check};
use loadline::science::statistics::normal;

pub const READERS: &[Reader] = &[
    ("statistics.normal_below", |row| row.expect(normal::below(row.number("x")))),
    ("statistics.normal_quantile", |row| row.expect(normal::quantile(row.number("share")))),
];

#[test]
fn published_figures() {
    check(READERS);
}

#[test]
fn the_ends_of_the_distribution() {
    assert_eq!([f64::NEG_INFINITY, f64::INFINITY].map(normal::below), [0.0, 1.0]);
    assert!(normal::below(f64::NAN).is_nan());
    for share in [0.0, 1.0, -0.1, 1.1, f64::NAN] {
        assert_eq!(normal::quantile(share), None, "{share}");
    }
}

/// The two ways to work it out meet: no step at three from the middle.
#[test]
fn the_distribution_has_no_step() {
    for x in [-3.0_f64, 3.0] {
        let (before, after) = (normal::below(x.next_down()), normal::below(x.next_up()));
        assert!((after / before - 1.0).abs() < 1e-12, "{before} {after}");
    }
}
