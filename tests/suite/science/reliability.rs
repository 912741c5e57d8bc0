//! Chance in a tested maximum.

use super::published::{Reader, Row, check};
use loadline::science::reliability::{
    USUAL_VARIATION, VARIATION_RANGE, least_real_change, likely_change, luck_of_the_best,
};

pub const READERS: &[Reader] = &[
    ("reliability.variation", variation),
    ("reliability.least_change", least_change),
    ("reliability.likely_change", likely),
    ("reliability.best_of", best_of),
];

#[test]
fn published_figures() {
    check(READERS);
}

fn variation(row: &Row) {
    row.expect_all(&[VARIATION_RANGE.0, VARIATION_RANGE.1, USUAL_VARIATION]);
}

/// In percent, or in kilograms of a maximum.
fn least_change(row: &Row) {
    let variation = row.number("variation");
    let maximum = row.given("maximum").map(|maximum| maximum.parse::<f64>().unwrap());
    row.expect(least_real_change(maximum.map_or(variation, |maximum| maximum * variation / 100.0)));
}

fn likely(row: &Row) {
    row.expect(likely_change(row.number("variation")));
}

fn best_of(row: &Row) {
    row.expect(luck_of_the_best(row.number("n") as u32));
}

/// One result is as likely above the truth as below; for two and three there are closed forms, 1/√π and 3/(2√π)
/// (Teichroew 1956, from memory, high confidence).
#[test]
fn luck_needs_more_than_one_try() {
    assert_eq!([0, 1].map(luck_of_the_best), [0.0, 0.0]);
    let root = std::f64::consts::PI.sqrt();
    assert!((luck_of_the_best(2) - 1.0 / root).abs() < 1e-8);
    assert!((luck_of_the_best(3) - 1.5 / root).abs() < 1e-8);
    assert!(luck_of_the_best(u32::MAX).is_finite());
}
