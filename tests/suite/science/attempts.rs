//! The three attempts of a lift at a meet.

use super::published::{Reader, Row, check};
use loadline::science::Equation;
use loadline::science::attempts::{
    Attempts, OPENER_PERCENT, TO_THE_SECOND, TO_THE_THIRD, expected_best, least_next, lightest, usual_step,
};
use loadline::science::strength::{Day, End, Set, Strength, Taught};
use loadline::training::{Mass, Unit};
use proptest::prelude::*;

pub const READERS: &[Reader] = &[("attempts.shares", shares), ("attempts.product", product), ("attempts.plan", plan)];

#[test]
fn published_figures() {
    check(READERS);
}

fn shares(row: &Row) {
    row.expect_all(&[OPENER_PERCENT, TO_THE_SECOND, TO_THE_THIRD]);
}

fn product(row: &Row) {
    row.expect(OPENER_PERCENT / 100.0 * TO_THE_SECOND * TO_THE_THIRD);
}

fn kilograms(kilograms: f64) -> Mass {
    Mass::of((kilograms * 1000.0).round() as i64, Unit::Kg)
}

fn plan(row: &Row) {
    let attempts = Attempts::up_to(kilograms(row.number("third")), kilograms(row.number("step"))).unwrap();
    row.expect_all(&attempts.in_order().map(Mass::rounded_kg));
}

#[test]
fn the_bar_never_goes_down() {
    let step = usual_step();
    assert_eq!(least_next(Mass::kg(200), false, step), Mass::kg(200));
    assert_eq!(least_next(Mass::kg(200), true, step), kilograms(202.5));
}

/// 182.5, 195 and 200: half of the way from 182.5 to 195 is 188.75, and 187.5 in whole steps.
#[test]
fn a_missed_opener_is_repeated_and_what_follows_is_lower() {
    let step = usual_step();
    let attempts = Attempts::up_to(Mass::kg(200), step).unwrap();
    assert_eq!(attempts.after_a_missed_opener(step), (kilograms(182.5), kilograms(187.5)));
    // A step at least, even where that is the second as planned.
    let close = Attempts::up_to(Mass::kg(30), step).unwrap();
    assert_eq!(close.in_order(), [25.0, 27.5, 30.0].map(kilograms));
    assert_eq!(close.after_a_missed_opener(step), (kilograms(25.0), kilograms(27.5)));
}

/// With 100, 105 and 110 kg at chances of 1, 3/4 and 1/4, the best is 100 in one of four, 105 in two, 110 in one.
#[test]
fn the_expected_best_weighs_each_load_with_its_chance() {
    let by_hand = 100.0 * 0.25 + 105.0 * 0.5 + 110.0 * 0.25;
    assert!((expected_best(&[(100.0, 1.0), (105.0, 0.75), (110.0, 0.25)]) - by_hand).abs() < 1e-12);
    assert_eq!(expected_best(&[(100.0, 0.5)]), 50.0);
    assert_eq!(expected_best(&[]), 0.0);
}

#[test]
fn no_attempt_is_lighter_than_the_bar_and_its_collars() {
    assert_eq!(Attempts::up_to(kilograms(29.9), usual_step()), None);
    assert_eq!(Attempts::up_to(Mass::kg(200), Mass::ZERO), None);
    let attempts = Attempts::up_to(Mass::kg(200), usual_step()).unwrap();
    assert_eq!(attempts.with_opener_up_to(kilograms(24.9), usual_step()), None);
    assert_eq!(attempts.with_second(Mass::kg(198), usual_step()).map(|plan| plan.second), Some(kilograms(197.5)));
    assert_eq!(attempts.with_second(Mass::kg(200), usual_step()), None);
}

fn step() -> impl Strategy<Value = Mass> {
    prop::sample::select(vec![
        Mass::of(500, Unit::Kg),
        Mass::kg(1),
        usual_step(),
        Mass::kg(5),
        Mass::of(5_000, Unit::Lb),
    ])
}

/// Some days after a day of one set.
fn after(load: f64, reps: u32, left: f64, days: i64) -> Strength {
    let set = Set { load, load_error: 0.0, reps, end: End::Left(left) };
    let day = Day { day: 0, through: 0.0, sets: vec![set] };
    Strength::on(Equation::default(), &Taught::default(), &[day], days).unwrap()
}

fn strength() -> impl Strategy<Value = Strength> {
    (40.0..300.0, 1_u32..8, 0.0..4.0, 1_i64..200)
        .prop_map(|(load, reps, left, days)| after(load, reps, left, days).in_one_attempt())
}

proptest! {
    #[test]
    fn attempts_are_whole_steps_apart_and_never_fall(
        third in 20_000_i64..400_000, most in 20_000_i64..400_000, second in 20_000_i64..400_000, step in step(),
    ) {
        let [third, most, second] = [third, most, second].map(|thousandths| Mass::of(thousandths, Unit::Kg));
        let Some(usual) = Attempts::up_to(third, step) else {
            // Rounding and the room between attempts take less than two steps from the opener's share.
            prop_assert!(third.down_to(step).percent(91_000) < lightest() + step.times(2));
            return Ok(());
        };
        let capped = usual.with_opener_up_to(most, step);
        let bent = usual.with_second(second, step);
        prop_assert!(capped.is_none_or(|plan| plan.opener <= most && plan.third == usual.third));
        for plan in [Some(usual), capped, bent].into_iter().flatten() {
            let [opener, middle, last] = plan.in_order();
            prop_assert!(opener >= lightest() && opener + step <= middle && middle + step <= last && last <= third);
            for load in plan.in_order() {
                prop_assert_eq!(load.down_to(step), load);
            }
            let (again, after) = plan.after_a_missed_opener(step);
            prop_assert!(again == opener && again + step <= after && after <= middle);
            prop_assert_eq!(after.down_to(step), after);
        }
    }

    #[test]
    fn the_chance_falls_as_the_load_rises(strength in strength(), load in 40.0..300.0, more in 0.5..50.0) {
        let (near, far) = (strength.chance_of(load), strength.chance_of(load + more));
        // Near 0 and 1 the two are the same number.
        prop_assert!(far <= near && (far < near || !(1e-9..1.0 - 1e-9).contains(&near)));
    }

    #[test]
    fn a_chance_comes_back_as_its_load(strength in strength(), chance in 0.01..0.99) {
        let load = strength.maximum_at(chance).unwrap();
        prop_assert!((strength.chance_of(load) - chance).abs() < 1e-6);
        prop_assert!((strength.maximum_at(0.5).unwrap() / strength.maximum().middle - 1.0).abs() < 1e-9);
        prop_assert_eq!(strength.maximum_at(0.0), None);
    }

    /// It lies between nothing and the third, and above what the opener alone would give.
    #[test]
    fn the_expected_best_lies_below_the_third(
        strength in strength(), opener in 40.0..200.0, second in 0.5..20.0, third in 0.5..20.0,
    ) {
        let loads = [opener, opener + second, opener + second + third];
        let best = expected_best(&loads.map(|load| (load, strength.chance_of(load))));
        prop_assert!(best >= opener * strength.chance_of(opener) && best <= loads[2]);
    }
}

/// Nobody is surer of one attempt than of the strength behind it.
#[test]
fn one_attempt_is_less_sure_than_the_strength_behind_it() {
    let strength = after(200.0, 1, 0.0, 1);
    let (behind, attempt) = (strength.maximum(), strength.in_one_attempt().maximum());
    assert!(attempt.low < behind.low && attempt.high > behind.high);
}
