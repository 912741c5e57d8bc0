//! What must hold for any sets.

use loadline::science::Equation;
use loadline::science::strength::{Course, Day, End, Known, Set, Strength, Taught};
use proptest::prelude::*;

fn end() -> impl Strategy<Value = End> {
    prop_oneof![
        2 => Just(End::Unrated),
        6 => (0_u8..=10).prop_map(|halves| End::Left(f64::from(halves) / 2.0)),
        1 => Just(End::Missed),
    ]
}

fn set() -> impl Strategy<Value = Set> {
    (20.0..300.0, 0_u32..=20, end(), prop_oneof![Just(0.0), Just(0.02)]).prop_map(|(load, reps, end, load_error)| Set {
        load,
        load_error,
        reps,
        end: if reps == 0 { End::Missed } else { end },
    })
}

/// Days in order of time, of any sets: sense or not.
fn days() -> impl Strategy<Value = Vec<Day>> {
    let day = (1_i64..40, 0.0..=1.0, prop::collection::vec(set(), 1..5));
    prop::collection::vec(day, 1..7).prop_map(|days| {
        let mut today = 0;
        let one = |(apart, through, sets)| {
            today += apart;
            Day { day: today, through, sets }
        };
        days.into_iter().map(one).collect()
    })
}

/// Every day under every curve is much to reckon: fewer cases than usual, with as many days in each.
fn some() -> ProptestConfig {
    ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(some())]

    /// No estimate of a day, nor its upper end, stands under what was lifted that day, and all are numbers.
    #[test]
    fn what_was_made_binds(days in days(), equation in prop::sample::select(Equation::ALL.to_vec())) {
        let course = Course::over(equation, &Taught::default(), &days);
        for Known { day: date, strength, .. } in course.into_iter().flat_map(|course| course.days) {
            let maximum = strength.maximum();
            let day = days.iter().find(|day| day.day == date).unwrap();
            let made = day.sets.iter().filter(|set| set.reps > 0).map(|set| set.load).fold(0.0, f64::max);
            prop_assert!(maximum.middle >= made && maximum.high >= made, "{maximum:?}, made {made}");
            prop_assert!(maximum.low > 0.0 && maximum.low <= maximum.middle && maximum.middle <= maximum.high);
            prop_assert!(maximum.high.is_finite(), "{maximum:?}");
        }
    }

    /// One pass over the days says of each what the days up to it say, to the last bit.
    #[test]
    fn strength_day_by_day_is_strength_on_each_day(days in days()) {
        let (equation, taught) = (Equation::default(), Taught::default());
        let course = Course::over(equation, &taught, &days);
        for Known { day: date, strength, .. } in course.into_iter().flat_map(|course| course.days) {
            prop_assert_eq!(Some(strength), Strength::on(equation, &taught, &days, date));
        }
    }

    /// The interval is the chance, and an attempt is less sure than the strength behind it.
    #[test]
    fn the_interval_is_the_chance(days in days(), later in 1_i64..100) {
        let Some(last) = days.last() else { return Ok(()) };
        let strength = Strength::on(Equation::default(), &Taught::default(), &days, last.day + later);
        let Some(strength) = strength else { return Ok(()) };
        let (maximum, attempt) = (strength.maximum(), strength.in_one_attempt().maximum());
        for (load, chance) in [(maximum.low, 0.9), (maximum.middle, 0.5), (maximum.high, 0.1)] {
            prop_assert!((strength.chance_of(load) - chance).abs() < 1e-6);
        }
        // Of one bell the interval grows with its spread. Of two that lie apart, of days that contradict each other, a little
        // more spread may take an end inwards where it lies between them.
        prop_assert!(attempt.high / attempt.low > 0.9 * maximum.high / maximum.low);
    }

    #[test]
    fn a_chance_is_a_chance(days in days()) {
        let (Some(first), Some(last)) = (days.first(), days.last()) else { return Ok(()) };
        let chance = Strength::chance_above(Equation::default(), &Taught::default(), &days, last.day, first.day);
        prop_assert!(chance.is_none_or(|chance| (0.0..=1.0).contains(&chance)), "{chance:?}");
    }
}
