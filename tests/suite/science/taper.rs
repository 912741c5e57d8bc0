//! How much a week is cut.

use super::published::{Reader, Row, check, numbers};
use loadline::science::taper::{
    ACCESSORY_SETS, Advice, Basis, DELOAD_PERCENT_OFF, DELOAD_REPS_NEEDED, DELOAD_REPS_OFF, DELOAD_VOLUME, EFFORT, Fit,
    HEAVY_BENCH_PRESS_DAYS, HEAVY_PERCENT, HEAVY_SQUAT_OR_DEADLIFT_DAYS, INTENSITY, LAST_SESSION_DAYS, REPS, SETS,
    VOLUME, change, deadlift_sets, deload_sets, volume_for,
};
use loadline::training::{Mass, TaperBands};

pub const READERS: &[Reader] = &[
    ("taper.cut", cut),
    ("taper.usual_week", usual_week),
    ("taper.volume", |row| row.expect_all(&[-VOLUME.high, -VOLUME.low])),
    ("taper.volume_reported", volume_reported),
    ("taper.heavy_days", heavy_days),
    ("taper.heavy_percent", |row| row.expect(HEAVY_PERCENT)),
    ("taper.last_session", last_session),
];

#[test]
fn published_figures() {
    check(READERS);
}

/// What is cut depends on what it is held against. The program takes the mean.
fn cut(row: &Row) {
    let weeks = row.numbers("weeks");
    let reference = match row.text("reference") {
        "mean" => weeks.iter().sum::<f64>() / weeks.len() as f64,
        _ => weeks.iter().copied().fold(0.0, f64::max),
    };
    row.expect(change(reference, row.number("taper")).map(|change| -change));
}

/// The cut in sets and in reps; a set and two reps off are inside what is asked for.
fn usual_week(row: &Row) {
    let (sets, reps) = (row.number("sets"), row.number("reps"));
    let (now_sets, now_reps) = (row.number("now_sets"), row.number("now_reps"));
    row.expect_all(&[-change(sets, now_sets).unwrap(), -change(sets * reps, now_sets * now_reps).unwrap()]);
    assert_eq!((SETS.fit(now_sets - sets), REPS.fit(now_reps - reps)), (Fit::Within, Fit::Within));
}

/// Means, or ranges, that people report lie inside the range that is called usual.
fn volume_reported(row: &Row) {
    for cut in numbers(&row.expected) {
        assert_eq!(VOLUME.fit(-cut), Fit::Within, "{}", row.input);
    }
}

fn heavy_days(row: &Row) {
    let days = match row.text("lift") {
        "bench press" => HEAVY_BENCH_PRESS_DAYS,
        _ => HEAVY_SQUAT_OR_DEADLIFT_DAYS,
    };
    row.expect_all(&[days.low, days.high]);
}

/// The days inside one standard deviation, in whole days, are those that are called usual by one source or the other.
fn last_session(row: &Row) {
    let (mean, spread) = (row.expected.parse::<f64>().unwrap(), row.number("spread"));
    for days in [(mean - spread).round(), (mean + spread).round()] {
        assert_eq!(LAST_SESSION_DAYS.fit(days), Fit::Within, "{days}: {}", row.source);
    }
}

#[test]
fn the_ends_of_a_range_are_inside() {
    for (found, fit) in [
        (-60.1, Fit::Below),
        (-60.0, Fit::Within),
        (-50.0, Fit::Within),
        (-41.0, Fit::Within),
        (-40.9, Fit::Above),
        (12.0, Fit::Above),
    ] {
        assert_eq!(VOLUME.fit(found), fit, "{found}");
    }
}

#[test]
fn there_is_no_change_from_nothing() {
    for (before, now, percent) in [(4.0, 2.0, Some(-50.0)), (4.0, 0.0, Some(-100.0)), (4.0, 5.0, Some(25.0))] {
        assert_eq!(change(before, now), percent);
    }
    for (before, now) in [(0.0, 3.0), (0.0, 0.0), (-1.0, 3.0), (f64::NAN, 3.0), (3.0, f64::NAN)] {
        assert_eq!(change(before, now), None);
    }
}

/// Common practice, no source: the smaller and less strong cut less, who lifts three to four times bodyweight more. The
/// bands are this project's own.
#[test]
fn the_cut_goes_by_strength_and_size() {
    let band = |bodyweight, times| {
        let bodyweight = Mass::from_kilograms(bodyweight).unwrap();
        let Advice { low, high, basis, source } = volume_for(&TaperBands::default(), bodyweight, times);
        assert!(low < high && high < 0.0 && !source.is_empty());
        assert_eq!(source.contains("own band"), (low, high) != (VOLUME.low, VOLUME.high));
        assert_eq!(basis == Basis::Own, source.contains("own band"));
        (low, high)
    };
    let (less, published, more) = ((-50.0, -30.0), (-60.0, -41.0), (-70.0, -50.0));
    for (bodyweight, times, expected) in [
        (90.0, 1.99, less),
        (90.0, 2.0, published),
        (90.0, 2.99, published),
        (90.0, 3.0, more),
        (90.0, 4.0, more),
        (59.9, 2.5, less),
        (60.0, 2.5, published),
        // Small and strong: the one speaks for less, the other for more.
        (52.0, 3.5, published),
    ] {
        assert_eq!(band(bodyweight, times), expected, "{bodyweight} {times}");
    }
}

/// Common practice, no source.
#[test]
fn deadlifts_are_cut_by_as_much_as_the_others_or_more() {
    for (others, high) in [(-33.0, -33.0), (-100.0, -100.0), (0.0, 0.0), (20.0, 0.0)] {
        let advice = deadlift_sets(others);
        assert_eq!((advice.low, advice.high), (-100.0, high), "{others}");
    }
}

#[test]
fn what_is_kept_is_nothing_either_way_and_what_comes_off_is_less() {
    for kept in [INTENSITY, EFFORT] {
        assert_eq!((kept.fit(0.0), kept.low), (Fit::Within, -kept.high));
    }
    for off in [SETS, REPS, ACCESSORY_SETS, VOLUME] {
        assert_eq!(off.fit(0.0), Fit::Above);
    }
}

/// What is drafted as a deload, half the sets, two reps of four and more and a tenth of the load less, lies in the band
/// that deloads are held to.
#[test]
fn a_drafted_deload_lies_in_its_band() {
    for sets in 2..=6u32 {
        for reps in 3..=12u32 {
            let left = if reps < DELOAD_REPS_NEEDED { reps } else { reps - DELOAD_REPS_OFF };
            let load = 1.0 - f64::from(DELOAD_PERCENT_OFF) / 100.0;
            let kept = f64::from(deload_sets(sets) * left) * load;
            let found = change(f64::from(sets * reps), kept).unwrap();
            // Two of three sets is the least that a half of them comes to.
            assert_eq!(DELOAD_VOLUME.fit(found.round()), Fit::Within, "{sets}x{reps}: {found}");
        }
    }
}
