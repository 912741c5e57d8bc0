//! The thresholds of cautions that rest on a published figure.

use super::published::{Reader, Row, check, numbers};
use loadline::science::taper::{HEAVY_SQUAT_OR_DEADLIFT_DAYS, change};
use loadline::training::Thresholds;

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
    assert_eq!(f64::from(Thresholds::default().load_jump), most, "{}", row.source);
}

/// The smallest step is over the threshold there, which is why it never counts.
fn small_step(row: &Row) {
    let (load, step) = (row.number("load"), row.number("step"));
    let percent = change(load, load + step);
    row.expect(percent);
    assert!(percent > Some(f64::from(Thresholds::default().load_jump)), "{}", row.source);
}

/// One standard deviation over the mean, in whole weeks.
fn deload_spacing(row: &Row) {
    let late = row.expected.parse::<f64>().unwrap() + row.number("spread");
    assert_eq!(f64::from(Thresholds::default().deload_overdue), late.round(), "{}", row.source);
}

/// The last heavy deadlift that powerlifters report is the nearest that is not cautioned about.
#[test]
fn a_heavy_deadlift_is_late_where_it_is_nearer_than_is_reported() {
    let days = Thresholds::default().heavy_deadlift_near_meet;
    assert_eq!(f64::from(days), HEAVY_SQUAT_OR_DEADLIFT_DAYS.low);
}
