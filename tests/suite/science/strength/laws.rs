//! What must hold for any sets.

use super::set;
use loadline::science::strength::{Endurance, Observation, Outlook, Series, Strength, Trend};
use loadline::science::{Equation, effort_scale, rating_error};
use loadline::training::Effort;
use proptest::prelude::*;
use std::ops::RangeInclusive;

fn equation() -> impl Strategy<Value = Equation> {
    prop::sample::select(Equation::ALL.to_vec())
}

/// Any set that an equation reaches.
fn any_set(equation: Equation, days: RangeInclusive<i64>) -> impl Strategy<Value = Observation> {
    (days, 40.0..300.0, equation.valid_reps(), 0.2..3.0)
        .prop_map(|(day, load, reps, error)| set(day, load, reps, error))
}

/// An equation and sets in order of time, such as a lifter of about 180 kg may do, or may not.
fn sets(count: RangeInclusive<usize>) -> impl Strategy<Value = (Equation, Vec<Observation>)> {
    (equation(), prop::collection::vec((1_i64..15, 0.0..=1.0, -0.1..0.1, 0.3..2.5), count)).prop_map(
        |(equation, drawn)| {
            let most = equation.valid_reps().end() - 1.0;
            let mut today = 0;
            let one = |(days, share, off, error): (i64, f64, f64, f64)| {
                today += days;
                let reps = 1.0 + share * most;
                set(today, 180.0 / equation.multiple(reps).unwrap() * (1.0 + off), reps, error)
            };
            (equation, drawn.into_iter().map(one).collect())
        },
    )
}

fn strength(equation: Equation, sets: &[Observation]) -> (Endurance, Strength) {
    let endurance = Endurance::learned(equation, &[sets]);
    let strength = Strength::on(equation, &endurance, Series::of(sets, &[]), sets.last().unwrap().day + 7).unwrap();
    (endurance, strength)
}

fn quarters(count: i64) -> Effort {
    Effort::rpe(count * 250, count * 250)
}

proptest! {
    /// One pass over the days says of each what the days up to it say, to the last bit.
    #[test]
    fn strength_day_by_day_is_strength_on_each_day((equation, sets) in sets(0..=90)) {
        let endurance = Endurance::learned(equation, &[&sets]);
        let course = Strength::day_by_day(equation, &endurance, Series::of(&sets, &[]));
        prop_assert_eq!(course.len(), sets.len());
        for (day, strength) in course {
            prop_assert_eq!(Some(strength), Strength::on(equation, &endurance, Series::of(&sets, &[]), day));
        }
    }

    #[test]
    fn the_estimate_rises_with_load_and_reps(
        (equation, sets) in sets(0..=12), load in 40.0..300.0, fewer in 0.0..0.9, more in 0.01..0.1, heavier in 0.1..20.0,
    ) {
        let endurance = Endurance::learned(equation, &[&sets]);
        let most = equation.valid_reps().end() - 1.0;
        let at = |load, share: f64| set(0, load, 1.0 + share * most, 1.0).maximum(equation, &endurance).unwrap().middle;
        prop_assert!(at(load + heavier, fewer) > at(load, fewer));
        prop_assert!(at(load, fewer + more) > at(load, fewer));
    }

    /// The same work with a higher effort is worth less, in one set and in strength.
    #[test]
    fn the_estimate_falls_as_the_effort_rises(equation in equation(), load in 40.0..300.0, good in 1_u32..=5, easier in 20_i64..40) {
        let published = Endurance::published(equation);
        let at = |effort| {
            let left = effort_scale::reps_in_reserve(effort).unwrap();
            let reps = effort_scale::reps_to_failure(good, effort).unwrap();
            let done = set(0, load, reps, rating_error::rating_sd(left));
            let strength = Strength::on(equation, &published, Series::of(&[done], &[]), 0).unwrap();
            (done.maximum(equation, &published).unwrap().middle, strength.maximum().middle)
        };
        let (easy, hard) = (at(quarters(easier)), at(quarters(easier + 1)));
        prop_assert!(easy.0 > hard.0 && easy.1 > hard.1);
    }

    /// An interval is about its point, and wider for a worse rating.
    #[test]
    fn the_interval_holds_the_point((equation, sets) in sets(1..=12), worse in 0.1..2.0) {
        let (endurance, strength) = strength(equation, &sets);
        let last = *sets.last().unwrap();
        let one = last.maximum(equation, &endurance).unwrap();
        let unsure = Observation { reps_error: last.reps_error + worse, ..last }.maximum(equation, &endurance).unwrap();
        prop_assert_eq!(unsure.middle, one.middle);
        prop_assert!(unsure.high > one.high || last.reps_to_failure == 1.0);
        for interval in [one, strength.maximum(), strength.load_for(3.0).unwrap()] {
            prop_assert!(interval.low < interval.middle && interval.middle < interval.high);
            prop_assert!((interval.low / interval.middle * interval.high / interval.middle - 1.0).abs() < 1e-12);
        }
        let outlook = Outlook::of(equation, &endurance, last).unwrap();
        let reps = outlook.reps_with(last.load, 3.0, Trend::UNCHANGED).unwrap();
        prop_assert!(reps.low < reps.middle && reps.middle < reps.high);
        prop_assert!((reps.middle - last.reps_to_failure).abs() < 1e-6);
    }

    /// One chance in ten lies above the interval, one below.
    #[test]
    fn the_interval_is_the_chance((equation, sets) in sets(1..=12)) {
        let (_, strength) = strength(equation, &sets);
        let maximum = strength.maximum();
        prop_assert!((strength.chance_of(maximum.low) - 0.9).abs() < 1e-9);
        prop_assert!((strength.chance_of(maximum.middle) - 0.5).abs() < 1e-9);
        prop_assert!((strength.chance_of(maximum.high) - 0.1).abs() < 1e-9);
    }

    #[test]
    fn a_single_at_rpe_10_is_the_maximum((equation, sets) in sets(0..=12), load in 40.0..300.0, error in 0.0..2.0) {
        let endurance = Endurance::learned(equation, &[&sets]);
        let single = set(0, load, effort_scale::reps_to_failure(1, quarters(40)).unwrap(), error);
        let maximum = single.maximum(equation, &endurance).unwrap();
        prop_assert_eq!((maximum.low, maximum.middle, maximum.high), (load, load, load));
        // Nothing exceeds it: no load for reps, and no reps with more.
        let strength = Strength::on(equation, &endurance, Series::of(&[single], &[]), 0).unwrap();
        prop_assert!((strength.maximum().middle / load - 1.0).abs() < 1e-12);
        let outlook = Outlook::of(equation, &endurance, single).unwrap();
        for reps in [1.0, 1.5, 2.0, 5.0, 10.0] {
            prop_assert!(strength.load_for(reps).unwrap().middle <= load * (1.0 + 1e-12));
            prop_assert!(outlook.load_for(reps, 0.0, Trend::UNCHANGED).unwrap() <= load * (1.0 + 1e-12));
        }
        prop_assert_eq!(strength.reps_at(load * 1.001), None);
        prop_assert!(outlook.reps_with(load * 1.001, 0.0, Trend::UNCHANGED).unwrap().middle < 1.0);
    }

    #[test]
    fn reps_come_back_from_their_load(
        (equation, sets) in sets(1..=12), share in 0.0..=1.0, weeks in 0.0..12.0, weekly in -0.01..0.01,
    ) {
        let (endurance, strength) = strength(equation, &sets);
        let reps = 1.0 + share * (equation.valid_reps().end() - 1.0);
        let load = strength.load_for(reps).unwrap().middle;
        prop_assert!((strength.reps_at(load).unwrap() - reps).abs() < 1e-6);
        let trend = Trend { weekly, error: 0.001 };
        let outlook = Outlook::of(equation, &endurance, *sets.last().unwrap()).unwrap();
        let load = outlook.load_for(reps, weeks, trend).unwrap();
        prop_assert!((outlook.reps_with(load, weeks, trend).unwrap().middle - reps).abs() < 1e-6);
    }

    /// A heavier load leaves fewer reps, more strength leaves more, and a later week is less sure.
    #[test]
    fn the_outlook_bends_the_right_way((equation, sets) in sets(1..=12), weeks in 0.0..12.0, step in 0.1..10.0) {
        let (endurance, _) = strength(equation, &sets);
        let last = *sets.last().unwrap();
        let outlook = Outlook::of(equation, &endurance, last).unwrap();
        let at = |load, weeks, weekly| outlook.reps_with(load, weeks, Trend { weekly, error: 0.0 });
        let same = at(last.load, weeks, 0.0).unwrap();
        prop_assert!(at(last.load + step, weeks, 0.0).unwrap().middle < same.middle);
        prop_assert!(at(last.load, weeks + 1.0, -0.001).unwrap().middle < same.middle);
        let later = at(last.load, weeks + 1.0, 0.0).unwrap();
        prop_assert!(later.low < same.low && later.high > same.high);
    }

    #[test]
    fn chances_of_two_sets_add_up(
        (equation, now, then) in equation().prop_flat_map(|it| (Just(it), any_set(it, 0..=9), any_set(it, 0..=9))),
        more in 0.1..20.0,
    ) {
        let published = Endurance::published(equation);
        let chance = |one: &Observation, other: &Observation| one.chance_above(other, equation, &published).unwrap();
        prop_assert!((chance(&now, &then) + chance(&then, &now) - 1.0).abs() < 1e-12);
        prop_assert_eq!(chance(&now, &now), 0.5);
        let heavier = Observation { load: now.load + more, ..now };
        prop_assert!(chance(&heavier, &now) > 0.5 && chance(&heavier, &then) >= chance(&now, &then));
    }

    /// Whatever the sets say, less is never known of the curve than is published.
    #[test]
    fn no_evidence_widens_the_published_curve((equation, sets) in sets(0..=40)) {
        let published = Endurance::published(equation);
        for count in [0, sets.len() / 2, sets.len()] {
            let learned = Endurance::learned(equation, &[&sets[..count]]);
            prop_assert!(learned.spread() <= published.spread());
            prop_assert_eq!(learned.is_learned(), learned != published);
        }
    }

    /// Time alone widens the interval and moves nothing; one more set that agrees narrows it.
    #[test]
    fn time_widens_and_sets_narrow((equation, sets) in sets(2..=12), days in 1_i64..400) {
        let published = Endurance::published(equation);
        let last = sets.last().unwrap();
        let on = |sets: &[Observation], day| Strength::on(equation, &published, Series::of(sets, &[]), day).unwrap().maximum();
        let (then, later) = (on(&sets, last.day), on(&sets, last.day + days));
        prop_assert!((later.middle / then.middle - 1.0).abs() < 1e-12);
        prop_assert!(later.high > then.high && later.low < then.low);
        // With tested singles of one load there is only the filter, so that one more must narrow it.
        let single = |set: &Observation| Observation { reps_to_failure: 1.0, load: last.load, ..*set };
        let singles: Vec<Observation> = sets.iter().map(single).collect();
        let (fewer, all) = (on(&singles[..singles.len() - 1], last.day), on(&singles, last.day));
        prop_assert!(all.high / all.low < fewer.high / fewer.low);
    }

    /// Days that scatter more than the errors reckoned with are not taken for certainty.
    #[test]
    fn scatter_widens(load in 50.0..300.0_f64, step in 1_i64..8) {
        let day = |at: i64, factor: f64| Observation {
            day: at * step,
            load: load * factor,
            reps_to_failure: 5.0,
            reps_error: 1.0,
            load_error: 0.0,
        };
        let calm: Vec<Observation> = (0..24).map(|at| day(at, 1.0)).collect();
        let wild: Vec<Observation> = (0..24).map(|at| day(at, if at % 2 == 0 { 0.75 } else { 1.25 })).collect();
        let published = Endurance::published(Equation::default());
        let width = |sets: &[Observation]| {
            let maximum = Strength::on(Equation::default(), &published, Series::of(sets, &[]), 24 * step).unwrap().maximum();
            maximum.high / maximum.low
        };
        prop_assert!(width(&wild) > 1.1 * width(&calm));
    }

    /// A lifter who turns to pounds has the same curve, and the same maximum in pounds.
    #[test]
    fn the_unit_does_not_matter((equation, sets) in sets(1..=30)) {
        // NIST SP 811: 0.45359237 kg exactly.
        let pounds: Vec<Observation> =
            sets.iter().map(|set| Observation { load: set.load / 0.453_592_37, ..*set }).collect();
        let ((endurance, strength), (in_pounds, strength_in_pounds)) =
            (self::strength(equation, &sets), self::strength(equation, &pounds));
        prop_assert!((endurance.mean() - in_pounds.mean()).abs() < 1e-9);
        prop_assert!((endurance.spread() - in_pounds.spread()).abs() < 1e-9);
        let (kilograms, pounds) = (strength.maximum(), strength_in_pounds.maximum());
        for (kilograms, pounds) in [(kilograms.low, pounds.low), (kilograms.middle, pounds.middle), (kilograms.high, pounds.high)] {
            prop_assert!((pounds * 0.453_592_37 / kilograms - 1.0).abs() < 1e-9);
        }
    }
}
