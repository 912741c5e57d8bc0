//! Repetitions that people do at a percentage.

use super::published::{Reader, Row, check};
use loadline::science::reps_at_percent::{self, Anchor, Tested};
use loadline::science::{Equation, reps_at_percent::sd_between_people};
use std::path::Path;

pub const READERS: &[Reader] = &[("nuzzo.mean", mean), ("nuzzo.sd", sd), ("nuzzo.bias", bias)];

#[test]
fn published_figures() {
    check(READERS);
}

fn anchor(row: &Row) -> Anchor {
    let lift = match row.text("lift") {
        "bench" => Tested::BenchPress,
        "leg" => Tested::LegPress,
        other => panic!("{other}"),
    };
    reps_at_percent::anchor(lift, row.number("percent")).unwrap()
}

fn mean(row: &Row) {
    let anchor = anchor(row);
    row.expect_all(&[anchor.reps, anchor.interval.0, anchor.interval.1]);
}

fn sd(row: &Row) {
    row.expect(sd_between_people(row.number("percent")));
}

/// What an equation makes of the mean repetitions, over the true maximum.
fn bias(row: &Row) {
    let anchor = anchor(row);
    let equation = Equation::named(row.text("equation")).unwrap();
    row.expect(equation.published_multiple(anchor.reps).map(|multiple| multiple * anchor.percent / 100.0));
}

#[test]
fn nothing_is_filled_in() {
    assert_eq!(reps_at_percent::anchor(Tested::BenchPress, 75.0), None);
    for percent in [59.9, 90.1, f64::NAN] {
        assert_eq!(sd_between_people(percent), None);
    }
}

/// On the lift and the loads for which the means are quoted, the default equation is within 5 % of the truth; on
/// the leg press no equation is (Nuzzo et al. 2024, as in the table).
#[test]
fn the_default_fits_the_bench_press_and_not_the_leg_press() {
    for anchor in reps_at_percent::ANCHORS {
        let made = Equation::default().published_multiple(anchor.reps).unwrap() * anchor.percent / 100.0;
        assert_eq!((made - 1.0).abs() < 0.05, anchor.lift == Tested::BenchPress, "{anchor:?}: {made}");
    }
}

/// docs/science.md tells what each equation makes of the published means, and where each may be used.
#[test]
fn the_docs_tell_the_figures() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/science.md");
    let docs = std::fs::read_to_string(path).unwrap();
    for equation in Equation::ALL {
        let made = reps_at_percent::ANCHORS
            .map(|anchor| format!("{:.1}", equation.published_multiple(anchor.reps).unwrap() * anchor.percent));
        let row = format!("| {equation} | {} |", made.join(" | "));
        assert!(docs.contains(&row), "{row}");
        let range = format!("| 1–{}", equation.valid_reps().end());
        let row = docs.lines().find(|line| line.starts_with(&format!("| {equation} |"))).unwrap();
        assert!(row.contains(&format!("{range} |")) || row.contains(&format!("{range} (")), "{row}");
    }
}
