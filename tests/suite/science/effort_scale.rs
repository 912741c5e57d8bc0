//! Efforts as reps in reserve.

use super::published::{Reader, Row, check, numbers};
use loadline::science::{Trust, effort_scale};
use loadline::training::Effort;

pub const READERS: &[Reader] = &[("rpe.rir", scale)];

#[test]
fn published_figures() {
    check(READERS);
}

fn effort(rpe: f64) -> Effort {
    let thousandths = (rpe * 1000.0) as i64;
    Effort::rpe(thousandths, thousandths)
}

/// One effort with a range counts as its middle; a range of efforts stays within what is published for it.
fn scale(row: &Row) {
    let (low, high) = (row.number("low"), row.number("high"));
    let left = [low, high].map(|rpe| effort_scale::reps_in_reserve(effort(rpe)));
    if row.expected == "none" {
        assert_eq!(left, [None, None], "{}", row.input);
        return;
    }
    let published = numbers(&row.expected);
    let (least, most) = (published[0], *published.last().unwrap());
    for left in left.map(Option::unwrap) {
        if low == 9.5 {
            // No whole repetition, as published, and a little more load is half a one: this project's reading.
            assert_eq!((left.floor(), left), (least, 0.5));
        } else if low == high {
            assert_eq!(left, (least + most) / 2.0, "{}", row.input);
        } else {
            assert!((least..=most).contains(&left), "{}", row.input);
        }
    }
}

#[test]
fn reps_to_failure_are_those_done_and_those_left() {
    assert_eq!(effort_scale::reps_to_failure(5, effort(8.0)), Some(7.0));
    assert_eq!(effort_scale::reps_to_failure(1, Effort::MAXIMAL), Some(1.0));
    assert_eq!(effort_scale::reps_to_failure(8, Effort::rpe(6000, 7000)), Some(11.5));
    assert_eq!(effort_scale::reps_to_failure(8, effort(4.75)), None);
    assert_eq!(effort_scale::reps_to_failure(0, Effort::MAXIMAL), None);
}

/// Reynolds et al. 2006: no more than 10; 15 is common practice, no source.
#[test]
fn trust_falls_with_reps_to_failure() {
    for (reps, trust) in [
        (1.0, Some(Trust::Sound)),
        (10.0, Some(Trust::Sound)),
        (10.5, Some(Trust::Weak)),
        (15.0, Some(Trust::Weak)),
        (15.25, None),
        (0.5, None),
        (f64::NAN, None),
    ] {
        assert_eq!(Trust::of(reps), trust, "{reps}");
    }
    assert!(Trust::Weak < Trust::Sound);
}
