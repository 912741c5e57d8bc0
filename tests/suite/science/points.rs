//! A total against the bodyweight.

use super::published::{Reader, Row, check};
use loadline::science::points::{LEAST_BODYWEIGHT, dots, ipf_gl};
use loadline::training::{Equipment, Event, Sex, Words};
use proptest::prelude::*;

pub const READERS: &[Reader] = &[("points.gl", gl), ("points.dots", by_dots)];

#[test]
fn published_figures() {
    check(READERS);
}

fn sex(row: &Row) -> Sex {
    Sex::of_word(row.text("sex")).unwrap()
}

fn gl(row: &Row) {
    let event = match row.text("event") {
        "full" => Event::FullMeet,
        "bench" => Event::BenchOnly,
        other => panic!("{other}"),
    };
    let equipment = Equipment::of_word(row.text("equipment")).unwrap();
    let points = ipf_gl(sex(row), equipment, event, row.number("bodyweight"), row.number("total"));
    if row.expected == "none" { assert_eq!(points, None, "line {}", row.line) } else { row.expect(points) }
}

fn by_dots(row: &Row) {
    row.expect(dots(sex(row), row.number("bodyweight"), row.number("total")));
}

const EVENTS: [Event; 2] = [Event::FullMeet, Event::BenchOnly];
const EQUIPMENT: [Equipment; 2] = [Equipment::Classic, Equipment::Equipped];
const SEXES: [Sex; 2] = [Sex::Female, Sex::Male];

#[test]
fn what_has_no_formula_has_no_points() {
    for sex in SEXES {
        assert_eq!(ipf_gl(sex, Equipment::Classic, Event::Other, 80.0, 400.0), None);
        for total in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(ipf_gl(sex, Equipment::Classic, Event::FullMeet, 80.0, total), None, "{total}");
            assert_eq!(dots(sex, 80.0, total), None, "{total}");
        }
        for bodyweight in [f64::NAN, f64::INFINITY, -80.0, 0.0] {
            assert_eq!(ipf_gl(sex, Equipment::Classic, Event::FullMeet, bodyweight, 400.0), None, "{bodyweight}");
            assert_eq!(dots(sex, bodyweight, 400.0), None, "{bodyweight}");
        }
    }
}

proptest! {
    /// Any body has points, twice the total has twice as many, and a heavier lifter fewer for the same total.
    #[test]
    fn points_follow_the_total_and_fall_with_bodyweight(
        sex in prop::sample::select(SEXES.to_vec()), equipment in prop::sample::select(EQUIPMENT.to_vec()),
        event in prop::sample::select(EVENTS.to_vec()), bodyweight in LEAST_BODYWEIGHT..250.0, total in 20.0..1200.0,
    ) {
        let gl = |bodyweight, total| ipf_gl(sex, equipment, event, bodyweight, total).unwrap();
        prop_assert!(gl(bodyweight, total) > 0.0);
        prop_assert!((gl(bodyweight, 2.0 * total) / gl(bodyweight, total) - 2.0).abs() < 1e-12);
        prop_assert!(gl(bodyweight + 1.0, total) < gl(bodyweight, total));
        let by_dots = |bodyweight, total| dots(sex, bodyweight, total).unwrap();
        prop_assert!(by_dots(bodyweight, total) > 0.0);
        prop_assert!((by_dots(bodyweight, 2.0 * total) / by_dots(bodyweight, total) - 2.0).abs() < 1e-12);
        prop_assert!(by_dots(bodyweight + 1.0, total) <= by_dots(bodyweight, total));
    }
}
