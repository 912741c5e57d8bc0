//! Measures of work.

use super::published::{Reader, Row, check};
use crate::support::journal::Journal;
use loadline::science::volume_measures::{
    SetAt, average_relative_intensity, is_at_rpe_6, lifts_at_or_above, relative_volume,
};
use loadline::training::{Effort, Mass, Tonnage};

pub const READERS: &[Reader] = &[
    ("volume.load", |row| row.expect(tonnage(row).rounded_kg())),
    ("volume.nl", |row| row.expect(lifts_at_or_above(&sets(row), 0.0) as f64)),
    ("volume.avg_load", |row| row.expect(tonnage(row).per_rep(lifts_at_or_above(&sets(row), 0.0)))),
    ("volume.ari", |row| row.expect(average_relative_intensity(&sets(row)))),
    ("volume.ari_setmean", mean_over_sets),
    ("volume.relative", |row| row.expect(relative_volume(&sets(row)))),
    ("volume.week", week),
];

#[test]
fn published_figures() {
    check(READERS);
}

/// Reps and kilograms of each set.
fn written(row: &Row) -> Vec<(u32, i64)> {
    let sets = row.text("sets").split(' ').map(|set| set.split_once('x').unwrap());
    sets.map(|(reps, kg)| (reps.parse().unwrap(), kg.parse().unwrap())).collect()
}

fn sets(row: &Row) -> Vec<SetAt> {
    written(row).into_iter().map(|(reps, kg)| SetAt::of(reps, kg as f64, row.number("max")).unwrap()).collect()
}

fn tonnage(row: &Row) -> Tonnage {
    let mut sum = Tonnage::default();
    written(row).into_iter().for_each(|(reps, kg)| sum.add(Mass::kg(kg), reps));
    sum
}

/// The mean over sets is another number than the mean over reps.
fn mean_over_sets(row: &Row) {
    let sets = sets(row);
    let mean = sets.iter().map(|set| set.percent).sum::<f64>() / sets.len() as f64;
    row.expect(mean);
    assert!((average_relative_intensity(&sets).unwrap() - mean).abs() > 1.0);
}

/// Two lifts over two weeks, as the program sums them. Kilograms a rep are shown in hundredths.
fn week(row: &Row) {
    let page = "# Block 1\n- starts: 2026-01-05\n\n## 2026-01-05\n- Squat: 5x5 @ 140 kg\n- Bench: 3x8 @ 90 kg\n\n\
                ## 2026-01-08\n- Squat: 3x3 @ 150 kg\n\n## 2026-01-12\n- Squat: 5x5 @ 142.5 kg\n";
    let answer = Journal::new().page(page).json(&["volume", "--lift", row.text("lift")]);
    let week = row.number("week");
    let found = answer["rows"].as_array().unwrap().iter().find(|found| found["week"].as_f64() == Some(week)).unwrap();
    row.expect_all(&["sets", "reps", "tonnage_kg", "average_kg"].map(|field| found[field].as_f64().unwrap()));
}

#[test]
fn lifts_at_the_percentage_itself_count() {
    // 99 of 110 kg is 90 % but for rounding.
    let sets = [SetAt::of(3, 99.0, 110.0).unwrap(), SetAt::of(2, 95.0, 110.0).unwrap()];
    assert_eq!(lifts_at_or_above(&sets, 90.0), 3);
    assert_eq!(lifts_at_or_above(&sets, 80.0), 5);
    assert_eq!(lifts_at_or_above(&sets, 90.1), 0);
}

#[test]
fn no_reps_have_no_intensity() {
    assert_eq!(average_relative_intensity(&[]), None);
    assert_eq!(average_relative_intensity(&[SetAt { reps: 0, percent: 80.0 }]), None);
    assert_eq!(SetAt::of(5, 100.0, 0.0), None);
    assert_eq!(SetAt::of(5, f64::NAN, 100.0), None);
}

/// At most four in reserve is this project's cut: common practice, no source.
#[test]
fn a_set_at_rpe_6_has_at_most_four_left() {
    for (rpe, counted) in [(10_000, true), (6000, true), (5750, false), (5000, false), (3000, false)] {
        assert_eq!(is_at_rpe_6(Effort::rpe(rpe, rpe)), counted, "{rpe}");
    }
}
