//! What must hold for any load, reps and effort.

use loadline::science::{Equation, effort_scale, rating_error, statistics};
use loadline::training::Effort;
use proptest::prelude::*;

fn equation() -> impl Strategy<Value = Equation> {
    prop::sample::select(Equation::ALL.to_vec())
}

/// An equation and two repetitions to failure in its range, in order and apart.
fn with_reps() -> impl Strategy<Value = (Equation, f64, f64)> {
    (equation(), 0.0..=1.0, 0.0..=1.0)
        .prop_map(|(equation, a, b): (Equation, f64, f64)| {
            let most = equation.valid_reps().end() - 1.0;
            (equation, 1.0 + a.min(b) * most, 1.0 + a.max(b) * most)
        })
        .prop_filter("apart", |(_, fewer, more)| more - fewer > 1e-6)
}

fn quarters(count: i64) -> Effort {
    Effort::rpe(count * 250, count * 250)
}

/// Two efforts in quarter points, from RPE 5 up, the easier one first.
fn two_rated() -> impl Strategy<Value = (Effort, Effort)> {
    (20_i64..40).prop_flat_map(|easier| (Just(quarters(easier)), (easier + 1..=40).prop_map(quarters)))
}

proptest! {
    #[test]
    fn the_estimate_rises_with_reps((equation, fewer, more) in with_reps()) {
        prop_assert!(equation.multiple(more).unwrap() > equation.multiple(fewer).unwrap());
    }

    /// Fewer reps in reserve for the same work means a lesser maximum.
    #[test]
    fn the_estimate_falls_as_the_effort_rises(
        equation in equation(), good in 1_u32..=5, (easier, harder) in two_rated(),
    ) {
        let at = |effort| equation.multiple(effort_scale::reps_to_failure(good, effort).unwrap()).unwrap();
        prop_assert!(at(easier) > at(harder));
    }

    #[test]
    fn a_load_comes_back((equation, reps, _) in with_reps(), load in 1.0..500.0) {
        let maximum = load * equation.multiple(reps).unwrap();
        prop_assert!((equation.reps_at(maximum, load).unwrap() - reps).abs() < 1e-8);
    }

    #[test]
    fn the_printed_form_comes_back(equation in equation(), reps in 0.1..20.0) {
        let multiple = equation.published_multiple(reps).unwrap();
        prop_assert!((equation.published_reps(multiple).unwrap() - reps).abs() < 1e-8);
    }

    /// A single is worth its own load, more reps are worth more, and never more than the printed form says.
    #[test]
    fn no_equation_exceeds_a_real_single((equation, reps, _) in with_reps(), load in 1.0..500.0) {
        prop_assert_eq!(equation.multiple(1.0), Some(1.0));
        prop_assert_eq!(equation.reps_at(load, load), Some(1.0));
        let multiple = equation.multiple(reps).unwrap();
        prop_assert!(multiple > 1.0 || reps == 1.0);
        prop_assert!(multiple <= equation.published_multiple(reps).unwrap() + 1e-12);
    }

    /// No jump anywhere, at two repetitions least of all, and the slope is the one that is told.
    #[test]
    fn the_estimate_never_jumps((equation, reps, _) in with_reps()) {
        let step = 1e-5;
        prop_assume!(equation.valid_reps().contains(&(reps + step)) && !(2.0 - step..=2.0).contains(&reps));
        let (here, there) = (equation.multiple(reps).unwrap(), equation.multiple(reps + step).unwrap());
        let share = (there - here) / step / here;
        prop_assert!((share - equation.share_per_rep(reps).unwrap()).abs() < 1e-5);
        prop_assert!((0.0..0.12).contains(&share));
    }

    #[test]
    fn ratings_grow_less_sure_away_from_failure(near in 0.0..9.0, farther in 1e-6..1.0) {
        prop_assert!(rating_error::rating_sd(near) < rating_error::rating_sd(near + farther));
    }

    #[test]
    fn a_share_of_the_normal_distribution_comes_back(x in -6.0..6.0) {
        let back = statistics::normal::quantile(statistics::normal::below(x)).unwrap();
        // Above the middle a share near 1 has few digits left of what is missing to 1.
        let near = 1e-11_f64.max(1e-15 / statistics::normal::density(x));
        prop_assert!((back - x).abs() < near, "{} came back as {}", x, back);
    }

    /// The middle line of points on a line is that line, whatever one of them says.
    #[test]
    fn the_median_slope_forgives_one_slip(slope in -5.0..5.0, start in -100.0..100.0, at in 0_usize..12, wrong in -1e6..1e6) {
        let mut points: Vec<(f64, f64)> = (0..12).map(|x| (f64::from(x), start + slope * f64::from(x))).collect();
        points[at].1 = wrong;
        let line = statistics::theil_sen(&points).unwrap();
        prop_assert!(f64::abs(line.slope - slope) < 1e-9);
        let (low, high) = line.interval.unwrap();
        prop_assert!(low <= line.slope && line.slope <= high);
    }
}

/// At two repetitions the line from a single meets the printed form.
#[test]
fn the_estimate_does_not_jump_at_two() {
    for equation in Equation::ALL {
        let below = equation.multiple(2.0 - 1e-12).unwrap();
        assert!((below - equation.published_multiple(2.0).unwrap()).abs() < 1e-11, "{equation}");
        assert_eq!(equation.multiple(2.0), equation.published_multiple(2.0));
    }
}
