//! What a missed attempt says: against a sum over a grid, by hand, and by what must hold for any miss.

use super::set;
use loadline::science::Equation;
use loadline::science::statistics::normal;
use loadline::science::strength::{
    Endurance, Miss, ONE_DAY, Observation, Series, Strength, WEEKLY_DRIFT, WITHIN_STRENGTH,
};
use proptest::prelude::*;

const EPLEY: Equation = Equation::Epley;
/// 80 % of a normal distribution lie within so many standard deviations.
const REACH: f64 = 1.281_551_565_5;

fn miss(day: i64, load: f64) -> Miss {
    Miss { day, load, made: None, load_error: 0.0 }
}

/// A tested single, for which every curve says the same: its load is the maximum of the day, give or take an error.
fn single(day: i64, load: f64, load_error: f64) -> Observation {
    Observation { load_error, ..set(day, load, 1.0, 0.0) }
}

fn strength(sets: &[Observation], misses: &[Miss], day: i64) -> Strength {
    Strength::on(EPLEY, &Endurance::published(EPLEY), Series::of(sets, misses), day).unwrap()
}

/// Mean and standard deviation of the logarithm of the maximum.
fn believed(strength: &Strength) -> (f64, f64) {
    let maximum = strength.maximum();
    (maximum.middle.ln(), (maximum.high / maximum.middle).ln() / REACH)
}

/// The last day's sum: strength of a known mean and spread (`None` where nothing is known), the single of that day if
/// there is one, and the miss.
struct Grid {
    before: Option<(f64, f64)>,
    single: Option<(f64, f64)>,
    /// The logarithm of the load and its error.
    miss: (f64, f64),
    /// The logarithm of what was made.
    made: f64,
}

impl Grid {
    const STEP: f64 = 0.0002;

    /// Mean and standard deviation of strength, by adding up the chances of every strength and every maximum of the day.
    /// An error of the loads is of both alike.
    fn strength(&self) -> (f64, f64) {
        let (load, load_error) = self.miss;
        let bell = |x: f64, mean: f64, spread: f64| normal::density((x - mean) / spread) / spread;
        let (mut sum, mut first, mut second) = (0.0, 0.0, 0.0);
        for cell in -2000..2000 {
            let maximum = load + (f64::from(cell) + 0.5) * Self::STEP;
            // How much of the cell lies below a load.
            let below = |bound: f64| match load_error > 0.0 {
                true => normal::below((bound - maximum) / load_error),
                false => ((bound - maximum) / Self::STEP + 0.5).clamp(0.0, 1.0),
            };
            let between = below(load) - below(self.made);
            let lifted = self.single.map_or(1.0, |(lifted, error)| bell(lifted, maximum, error));
            let of_the_day = lifted * (between + WITHIN_STRENGTH * (1.0 - below(load)));
            if of_the_day < 1e-12 {
                continue;
            }
            for form in -500..500 {
                let form = (f64::from(form) + 0.5) * Self::STEP;
                let strength = maximum - form;
                let known = self.before.map_or(1.0, |(mean, spread)| bell(strength, mean, spread));
                let chance = of_the_day * known * bell(form, 0.0, ONE_DAY);
                sum += chance;
                first += chance * (strength - load);
                second += chance * (strength - load).powi(2);
            }
        }
        let mean = first / sum;
        (load + mean, (second / sum - mean * mean).sqrt())
    }
}

/// Mean and spread of strength after a miss are those of the sum over a grid, to 1 in 100 000 of the load.
#[test]
fn a_miss_against_a_sum_over_a_grid() {
    // A single of 200 kg, give or take 3 %, and some days later a single or none and a miss.
    for (days, second, made, missed, error) in [
        (7, None, None, 190.0, 0.0),
        (7, None, None, 200.0, 0.0),
        (7, None, None, 210.0, 0.0),
        (60, None, None, 180.0, 0.0),
        (60, None, None, 200.0, 0.02),
        (7, Some((198.0, 0.01)), None, 202.5, 0.0),
        (7, Some((205.0, 0.02)), None, 200.0, 0.0),
        (28, Some((195.0, 0.03)), None, 190.0, 0.01),
        (28, Some((200.0, 0.005)), None, 202.5, 0.0),
        (7, None, Some(193.0), 200.0, 0.0),
        (7, None, Some(207.0), 212.5, 0.0),
        (60, None, Some(170.0), 180.0, 0.0),
        (60, None, Some(220.0), 222.5, 0.01),
        (28, Some((198.0, 0.02)), Some(195.0), 200.0, 0.0),
    ] {
        let first = single(0, 200.0, 0.03);
        let sets: Vec<_> = [first].into_iter().chain(second.map(|(load, error)| single(days, load, error))).collect();
        let tried = Miss { made, load_error: error, ..miss(days, missed) };
        let actual = believed(&strength(&sets, &[tried], days));
        let drift = WEEKLY_DRIFT * (days as f64 / 7.0).sqrt();
        let grid = Grid {
            before: Some((200_f64.ln(), 0.03_f64.hypot(ONE_DAY).hypot(drift))),
            single: second.map(|(load, error): (f64, f64)| (load.ln(), error)),
            miss: (f64::ln(missed), error),
            made: made.map_or(f64::NEG_INFINITY, f64::ln),
        };
        let expected = grid.strength();
        let case = format!("{days} days, {second:?}, {tried:?}: {actual:?} is not {expected:?}");
        assert!((actual.0 - expected.0).abs() < 1e-5 && (actual.1 - expected.1).abs() < 1e-5, "{case}");
    }
    // On the first day of all nothing is known of strength but what that day's single says.
    for (error, missed) in [(0.02, 195.0), (0.02, 202.5), (0.01, 205.0)] {
        let actual = believed(&strength(&[single(0, 200.0, error)], &[miss(0, missed)], 0));
        let grid = Grid {
            before: None,
            single: Some((200_f64.ln(), error)),
            miss: (f64::ln(missed), 0.0),
            made: f64::NEG_INFINITY,
        };
        let expected = grid.strength();
        let case = format!("{error}, {missed} kg: {actual:?} is not {expected:?}");
        assert!((actual.0 - expected.0).abs() < 1e-5 && (actual.1 - expected.1).abs() < 1e-5, "{case}");
    }
}

/// 200 kg tested, a week later 200 kg missed.
#[test]
fn a_miss_by_hand() {
    // Strength before: variance 0.0004 of the first day and 0.0001 of a week's drift. The maximum of the day: 0.0009,
    // its root 0.03. The load lies in the middle: Φ(0) = 0.5, φ(0) = 0.398942. With one failure in ten within strength
    // k = 0.9 × 0.398942 / (0.1 + 0.9 × 0.5) = 0.359048 / 0.55 = 0.652815.
    // Strength is 0.0005 / 0.03 = 0.0166667 of that: it falls by 0.0108802. 200 × e^−0.0108802 = 197.835749.
    // The variance: 0.0005 − 0.0166667² × 0.652815² = 0.0005 − 0.000118379 = 0.000381621, its root 0.0195351.
    let (mean, spread) = believed(&strength(&[single(0, 200.0, 0.0)], &[miss(7, 200.0)], 7));
    assert!((mean.exp() - 197.835_749).abs() < 1e-4, "{}", mean.exp());
    assert!((spread - 0.019_535_1).abs() < 1e-6, "{spread}");
}

#[test]
fn misses_that_say_nothing() {
    let tested = single(0, 200.0, 0.0);
    let alone = strength(&[tested], &[], 7);
    for nothing in [
        miss(-1, 150.0),
        miss(8, 150.0),
        // The same day's single at RPE 10 was that day's maximum.
        miss(0, 205.0),
        miss(0, 195.0),
        miss(3, 0.0),
        miss(3, -10.0),
        miss(3, f64::NAN),
        miss(3, f64::INFINITY),
        Miss { load_error: f64::NAN, ..miss(3, 150.0) },
        Miss { made: Some(150.0), ..miss(3, 150.0) },
        Miss { made: Some(160.0), ..miss(3, 150.0) },
    ] {
        assert_eq!(strength(&[tested], &[nothing], 7), alone, "{nothing:?}");
    }
    assert_eq!(Strength::on(EPLEY, &Endurance::published(EPLEY), Series::of(&[], &[miss(0, 200.0)]), 0), None);
}

/// Days of a lifter of about 180 kg with a set each, by Epley's equation, and misses on some of them or between.
fn days() -> impl Strategy<Value = (Vec<Observation>, Vec<Miss>)> {
    let day = (1_i64..15, 1.0..10.0, -0.1..0.1, 0.3..2.5, 0_u8..4, 0.85..1.15);
    prop::collection::vec(day, 1..12).prop_map(|drawn| {
        let (mut today, mut sets, mut misses) = (0, Vec::new(), Vec::new());
        for (days, reps, off, error, missed, share) in drawn {
            today += days;
            if missed != 1 {
                sets.push(set(today, 180.0 / EPLEY.multiple(reps).unwrap() * (1.0 + off), reps, error));
            }
            if missed <= 1 {
                let made = (reps > 5.0).then_some(180.0 * share * 0.95);
                misses.push(Miss { made, ..miss(today, 180.0 * share) });
            }
        }
        (sets, misses)
    })
}

proptest! {
    /// One pass says of each day what the days up to it say, to the last bit, and has a day for every set and every miss
    /// since the first set.
    #[test]
    fn strength_day_by_day_with_misses_is_strength_on_each_day((sets, misses) in days()) {
        let published = Endurance::published(EPLEY);
        let course = Strength::day_by_day(EPLEY, &published, Series::of(&sets, &misses));
        let first = sets.first().map_or(i64::MAX, |set| set.day);
        let late = misses.iter().map(|miss| miss.day).filter(|day| *day >= first);
        let expected: std::collections::BTreeSet<i64> = sets.iter().map(|set| set.day).chain(late).collect();
        prop_assert_eq!(course.iter().map(|(day, _)| *day).collect::<Vec<_>>(), expected.into_iter().collect::<Vec<_>>());
        for (day, strength) in course {
            prop_assert_eq!(Some(strength), Strength::on(EPLEY, &published, Series::of(&sets, &misses), day));
        }
    }

    /// On its day a miss lowers the estimate, never raises it: by itself, and against a miss of far more on top of what was
    /// made that day, which says nothing but that it was made.
    #[test]
    fn a_miss_never_raises_the_estimate((sets, misses) in days(), load in 20.0..400.0_f64, share in 0.5..0.99) {
        prop_assume!(!sets.is_empty());
        let day = sets.last().unwrap().day.max(misses.last().map_or(0, |miss| miss.day));
        let earlier: Vec<Miss> = misses.into_iter().filter(|miss| miss.day < day).collect();
        let with = |tried: Miss| believed(&strength(&sets, &[&earlier[..], &[tried]].concat(), day));
        let without = believed(&strength(&sets, &earlier, day));
        let missed = with(miss(day, load));
        prop_assert!(missed.0 <= without.0, "{} to {}", without.0, missed.0);
        prop_assert!(missed.1.is_finite() && missed.1 > 0.0);
        let made = Some(load * share);
        let (missed, far) = (with(Miss { made, ..miss(day, load) }), with(Miss { made, ..miss(day, load * 100.0) }));
        prop_assert!(missed.0 <= far.0 + 1e-9, "{} to {}", far.0, missed.0);
        prop_assert!(missed.1.is_finite() && missed.1 > 0.0);
    }

    /// Half as much again as the estimate is no news, whether it was lifted or not.
    #[test]
    fn a_miss_far_above_changes_almost_nothing((sets, misses) in days(), share in 1.5..3.0) {
        prop_assume!(!sets.is_empty());
        let day = sets.last().unwrap().day + 1;
        let earlier: Vec<Miss> = misses.into_iter().filter(|miss| miss.day < day).collect();
        let without = strength(&sets, &earlier, day);
        let missed = miss(day, without.maximum().high * share);
        let with = strength(&sets, &[&earlier[..], &[missed]].concat(), day);
        let ((mean, spread), (then, wide)) = (believed(&with), believed(&without));
        prop_assert!((mean - then).abs() < 0.001 && (spread / wide - 1.0).abs() < 0.02, "{mean} {then} {spread} {wide}");
    }

    /// What is lighter than a single of the same day was missed for something else.
    #[test]
    fn a_miss_below_a_single_of_the_day_changes_little((sets, _) in days(), load in 150.0..210.0_f64, share in 0.5..1.0) {
        prop_assume!(!sets.is_empty());
        let day = sets.last().unwrap().day + 7;
        let lifted = [&sets[..], &[single(day, load, 0.0)]].concat();
        let missed = miss(day, load * share);
        prop_assert_eq!(strength(&lifted, &[missed], day), strength(&lifted, &[], day));
        // Nor is one that is no heavier than something that was made at any effort.
        let (easy, within) = ([&sets[..], &[set(day, load, 6.0, 1.0)]].concat(), Miss { made: Some(load), ..missed });
        prop_assert_eq!(strength(&easy, &[within], day), strength(&easy, &[], day));
        // At RPE 9 a single was not the maximum, but near it.
        let lifted = [set(day, load, 2.0, 0.75)];
        let missed = miss(day, load * share * 0.95);
        let (with, without) = (believed(&strength(&lifted, &[missed], day)), believed(&strength(&lifted, &[], day)));
        prop_assert!((with.0 - without.0).abs() < 0.005, "{} to {}", without.0, with.0);
    }

    /// Of two misses that could have been the day's, the lighter says more.
    #[test]
    fn within_reach_a_lighter_miss_says_more(load in 150.0..250.0_f64, near in 1.0..1.1, nearer in 0.001..0.02) {
        let tested = single(0, load, 0.0);
        let at = |share: f64| believed(&strength(&[tested], &[miss(7, load * share)], 7)).0;
        prop_assert!(at(near - nearer) < at(near));
    }
}
