//! What teaches a lifter's curve, and what does not.

use super::set;
use loadline::science::Equation;
use loadline::science::strength::{Endurance, Observation};

const WATHAN: Equation = Equation::Wathan;

/// Well rated sets of a lifter of unchanging strength: one a week, of ever other reps.
fn true_sets(maximum: f64, endurance: f64, count: usize) -> Vec<Observation> {
    let reps = [12.0, 9.0, 5.0, 8.0, 3.0, 10.0];
    let one = |(week, reps): (usize, &f64)| {
        let load = maximum / WATHAN.multiple(*reps).unwrap().powf(endurance);
        set(week as i64 * 7, load, *reps, 0.3)
    };
    reps.iter().cycle().take(count).enumerate().map(one).collect()
}

fn learned(series: &[&[Observation]]) -> Endurance {
    Endurance::learned(WATHAN, series)
}

#[test]
fn a_lifter_who_differs_from_the_equation_is_found_out() {
    for endurance in [0.7, 1.3] {
        let few = learned(&[&true_sets(180.0, endurance, 12)]);
        let many = learned(&[&true_sets(180.0, endurance, 96)]);
        assert!(few.is_learned() && few.sets() == 12, "{few:?}");
        // Sets without the errors that are reckoned with seem a little steeper than they are.
        assert!((-0.05..0.1).contains(&(many.mean() - endurance)), "{}", many.mean());
        assert!((few.mean() - 1.0).signum() == (endurance - 1.0).signum(), "{}", few.mean());
        assert!(many.spread() < few.spread() && few.spread() < Endurance::published(WATHAN).spread());
    }
}

/// Two lifts of one lifter teach one curve, though one is far heavier.
#[test]
fn lifts_teach_together() {
    let (squat, bench) = (true_sets(220.0, 0.8, 12), true_sets(140.0, 0.8, 12));
    let (both, one) = (learned(&[&squat, &bench]), learned(&[&squat]));
    assert_eq!(both.sets(), 24);
    assert!(both.spread() < one.spread());
    assert!((both.mean() - 0.8).abs() < (one.mean() - 0.8).abs());
}

#[test]
fn what_teaches_nothing() {
    let published = Endurance::published(WATHAN);
    // Fewer than six.
    assert_eq!(learned(&[&true_sets(180.0, 0.7, 5)]), published);
    assert_eq!(learned(&[]), published);
    // Many lifts once each: nothing to hold one set against.
    let once: Vec<Vec<Observation>> = (1..40).map(|lift| true_sets(f64::from(lift) * 10.0, 0.7, 1)).collect();
    let once: Vec<&[Observation]> = once.iter().map(Vec::as_slice).collect();
    assert_eq!(learned(&once), published);
    // Tested maxima, however many: the curve is not in them.
    let tests: Vec<Observation> = (0..60).map(|week| set(week * 7, 200.0, 1.0, 0.0)).collect();
    assert_eq!(learned(&[&tests]), published);
    // The same reps throughout.
    let fives: Vec<Observation> = (0..60).map(|week| set(week * 7, 150.0, 7.0, 1.0)).collect();
    assert_eq!(learned(&[&fives]), published);
    // Reps that differ by as much as ratings err: by chance alone.
    let unsure: Vec<Observation> = (0..60).map(|week| set(week * 7, 150.0, 6.0 + (week % 3) as f64, 1.0)).collect();
    assert_eq!(learned(&[&unsure]), published);
}

/// Tested maxima among other sets say where strength is, and do not pull at the curve by their number.
#[test]
fn tested_maxima_do_not_bend_the_curve() {
    let with = |tests: i64| {
        let day = |each: &Observation| {
            let maxima = (1..=tests).map(|day| set(each.day + day, 180.0, 1.0, 0.0));
            [*each].into_iter().chain(maxima).collect::<Vec<Observation>>()
        };
        learned(&[&true_sets(180.0, 0.7, 24).iter().flat_map(day).collect::<Vec<Observation>>()]).mean()
    };
    assert!((with(6) - with(1)).abs() < 0.01, "{} {}", with(6), with(1));
}

#[test]
fn sets_beyond_the_range_are_left_out() {
    let mut sets = true_sets(180.0, 0.8, 24);
    let before = learned(&[&sets]);
    sets.insert(7, set(sets[6].day, 60.0, 20.0, 1.0));
    sets.insert(3, set(sets[2].day, -60.0, 5.0, 1.0));
    assert_eq!(learned(&[&sets]), before);
}
