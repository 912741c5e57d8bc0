//! The seven equations: as printed, and with their ranges and a single worth its own load.

use super::published::{Reader, Row, check};
use loadline::science::{Equation, effort_scale};
use loadline::training::Effort;

pub const READERS: &[Reader] = &[
    ("e1rm.", from_reps),
    ("load_for_reps.", load_for_reps),
    ("reps_for_load.", reps_for_load),
    ("e1rm_rpe.", from_effort),
    ("load_for_rpe.", load_for_effort),
    ("share_per_rep.", share_per_rep),
    ("equation.crossing", crossing),
    ("equation.brzycki_decimals", brzycki_decimals),
    ("equation.brzycki_undefined", brzycki_undefined),
    ("equation.no_solution", no_solution),
];

#[test]
fn published_figures() {
    check(READERS);
}

fn equation(name: &str) -> Equation {
    Equation::named(name).unwrap()
}

fn maximum(equation: Equation, load: f64, reps: f64) -> Option<f64> {
    Some(load * equation.multiple(reps)?)
}

fn load_for(equation: Equation, maximum: f64, reps: f64) -> Option<f64> {
    Some(maximum / equation.multiple(reps)?)
}

/// Where the printed form holds unchanged; elsewhere the figure is held against the printed form alone.
fn as_printed(equation: Equation, reps: f64) -> bool {
    reps >= 2.0 && equation.valid_reps().contains(&reps)
}

fn from_reps(row: &Row) {
    let (equation, load, reps) = (equation(row.last()), row.number("w"), row.number("r"));
    row.expect(equation.published_multiple(reps).map(|multiple| load * multiple));
    if as_printed(equation, reps) {
        row.expect(maximum(equation, load, reps));
    } else if reps == 1.0 {
        assert_eq!(maximum(equation, load, reps), Some(load));
    } else {
        assert_eq!(maximum(equation, load, reps), None, "{equation} at {reps}");
    }
}

fn load_for_reps(row: &Row) {
    row.expect(load_for(equation(row.last()), row.number("max"), row.number("r")));
}

fn reps_for_load(row: &Row) {
    let (equation, maximum, load) = (equation(row.last()), row.number("max"), row.number("w"));
    let reps = equation.published_reps(maximum / load);
    row.expect(reps);
    if as_printed(equation, reps.unwrap()) {
        row.expect(equation.reps_at(maximum, load));
    } else {
        assert_eq!(equation.reps_at(maximum, load), None);
    }
}

/// Reps to failure of whole reps at a written effort.
fn to_failure(row: &Row) -> f64 {
    let rpe = (row.number("rpe") * 1000.0) as i64;
    effort_scale::reps_to_failure(row.number("r") as u32, Effort::rpe(rpe, rpe)).unwrap()
}

fn from_effort(row: &Row) {
    let (equation, load, reps) = (equation(row.last()), row.number("w"), to_failure(row));
    row.expect(equation.published_multiple(reps).map(|multiple| load * multiple));
    let inside = as_printed(equation, reps);
    assert_eq!(maximum(equation, load, reps).is_some(), inside, "{equation} at {reps}");
    if inside {
        row.expect(maximum(equation, load, reps));
    }
}

fn load_for_effort(row: &Row) {
    let (equation, maximum, reps) = (equation(row.last()), row.number("max"), to_failure(row));
    row.expect(equation.published_multiple(reps).map(|multiple| maximum / multiple));
    let inside = as_printed(equation, reps);
    assert_eq!(load_for(equation, maximum, reps).is_some(), inside, "{equation} at {reps}");
    if inside {
        row.expect(load_for(equation, maximum, reps));
    }
}

/// In percent. Beyond the range the printed form's own slope must still be the figure.
fn share_per_rep(row: &Row) {
    let (equation, reps) = (equation(row.last()), row.number("r"));
    let step = 1e-4;
    let log = |reps: f64| equation.published_multiple(reps).unwrap().ln();
    row.expect(100.0 * (log(reps + step) - log(reps - step)) / (2.0 * step));
    let share = equation.share_per_rep(reps);
    assert_eq!(share.is_some(), as_printed(equation, reps), "{equation} at {reps}");
    if let Some(share) = share {
        row.expect(100.0 * share);
    }
}

fn crossing(row: &Row) {
    for equation in [Equation::Epley, Equation::Brzycki] {
        row.expect(maximum(equation, row.number("w"), row.number("r")));
    }
    let at = |equation: Equation, reps: f64| equation.published_multiple(reps).unwrap();
    assert!(at(Equation::Epley, 9.0) > at(Equation::Brzycki, 9.0));
    assert!(at(Equation::Epley, 11.0) < at(Equation::Brzycki, 11.0));
}

/// The decimals are rounded to four places, which is 0.01 % of the result here.
fn brzycki_decimals(row: &Row) {
    let (load, reps) = (row.number("w"), row.number("r"));
    row.expect(load / (1.0278 - 0.0278 * reps));
    let ours = maximum(Equation::Brzycki, load, reps).unwrap();
    assert!((ours / row.expected.parse::<f64>().unwrap() - 1.0).abs() < 2e-4);
}

fn brzycki_undefined(row: &Row) {
    for reps in [row.number("r"), row.number("r") + 1.0] {
        assert_eq!(Equation::Brzycki.published_multiple(reps), None);
        assert_eq!(maximum(Equation::Brzycki, 100.0, reps), None);
    }
}

/// Just outside the shares of the maximum there is no solution, just inside there is.
fn no_solution(row: &Row) {
    let equation = equation(row.text("equation"));
    for (share, solved) in [
        (row.number("low") - 1e-3, false),
        (row.number("low") + 1e-3, true),
        (row.number("high") - 1e-3, true),
        (row.number("high") + 1e-3, false),
    ] {
        assert_eq!(equation.published_reps(1.0 / share).is_some(), solved, "{equation} at {share}");
    }
}

#[test]
fn nothing_is_estimated_from_nothing() {
    for equation in Equation::ALL {
        for load in [0.0, -100.0, f64::NAN, f64::INFINITY] {
            assert_eq!(equation.reps_at(load, 100.0), None);
            assert_eq!(equation.reps_at(100.0, load), None);
        }
        for reps in [0.0, -1.0, 0.99, 15.01, f64::NAN, f64::INFINITY] {
            assert_eq!(equation.multiple(reps), None, "{equation} at {reps}");
            assert_eq!(equation.share_per_rep(reps), None);
        }
        assert_eq!(equation.reps_at(100.0, 100.001), None, "heavier than the maximum");
        assert_eq!(equation.reps_at(100.0, 20.0), None, "too light to be in range");
    }
}

#[test]
fn ranges_start_at_a_single_and_end_by_fifteen() {
    for equation in Equation::ALL {
        assert_eq!(*equation.valid_reps().start(), 1.0);
        assert!((10.0..=15.0).contains(equation.valid_reps().end()), "{equation}");
    }
    assert_eq!(*Equation::default().valid_reps().end(), 15.0, "the default serves weak estimates too");
}

#[test]
fn names_are_read_back() {
    for equation in Equation::ALL {
        assert_eq!(Equation::named(equation.name()), Some(equation));
        assert_eq!(Equation::named(&equation.to_string()), Some(equation));
        assert_eq!(Equation::named(&equation.name().to_uppercase()), Some(equation));
        assert!(equation.name().chars().all(|letter| letter.is_ascii_lowercase()));
    }
    assert_eq!(Equation::named("Wathen"), Some(Equation::Wathan));
    assert_eq!(Equation::OConner.to_string(), "O'Conner");
    assert_eq!(Equation::named("eply"), None);
}
