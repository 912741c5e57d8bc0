//! The thresholds of cautions that rest on a published figure.

use super::published::{Reader, Row, check, numbers};
use loadline::questions::review::rule;
use loadline::science::taper::{HEAVY_SQUAT_OR_DEADLIFT_DAYS, change};

fn threshold(name: &str) -> f64 {
    rule(name).unwrap().threshold.default
}

pub const READERS: &[Reader] = &[
    ("cautions.load_step", load_step),
    ("cautions.small_step", small_step),
    ("cautions.deload_spacing", deload_spacing),
];

#[test]
fn published_figures() {
    check(READERS);
}

fn load_step(row: &Row) {
    let most = numbers(&row.expected).pop().unwrap();
    assert_eq!(threshold("load-jump"), most, "{}", row.source);
}

/// The smallest step is over the threshold there, which is why it never counts.
fn small_step(row: &Row) {
    let (load, step) = (row.number("load"), row.number("step"));
    let percent = change(load, load + step);
    row.expect(percent);
    assert!(percent > Some(threshold("load-jump")), "{}", row.source);
}

/// One standard deviation over the mean, in whole weeks.
fn deload_spacing(row: &Row) {
    let late = row.expected.parse::<f64>().unwrap() + row.number("spread");
    assert_eq!(threshold("deload-overdue"), late.round(), "{}", row.source);
}

/// The last heavy deadlift that powerlifters report is the nearest that is not cautioned about.
#[test]
fn a_heavy_deadlift_is_late_where_it_is_nearer_than_is_reported() {
    assert_eq!(threshold("heavy-deadlift-near-meet"), HEAVY_SQUAT_OR_DEADLIFT_DAYS.low);
}
