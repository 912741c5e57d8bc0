//! The sums done by hand, with Epley's equation, which is the easiest: the maximum is the load times 1 + r/30, and for
//! one rep more it rises by a share of 1/(30 + r).

use super::set;
use loadline::science::Equation;
use loadline::science::strength::{
    Endurance, Observation, Outlook, Series, Strength, Trend, published_mean, published_spread,
};

const EPLEY: Equation = Equation::Epley;

#[track_caller]
fn near(actual: f64, expected: f64, apart: f64) {
    assert!((actual - expected).abs() <= apart, "{actual} is not {expected}");
}

/// At 80 % of the maximum people do 8.8 reps on the bench press, with a standard deviation of 2.51 between them (Nuzzo
/// et al. 2024, Sports Med 54(2):303–321, doi 10.1007/s40279-023-01937-7, as quoted by others). At a given load the
/// logarithm of 1/0.8 is e times that of the multiple f, so that e moves by the share that ln f does, the other way.
#[test]
fn the_spread_between_people() {
    // Epley: f = 1 + 8.8/30 = 1.293333, ln f = 0.257223, and f moves by 1/38.8 = 0.025773 of itself for one rep.
    // 2.51 × 0.025773 / 0.257223 = 0.251497. The mean: ln 1.25 / 0.257223 = 0.223144 / 0.257223 = 0.867511.
    near(published_spread(EPLEY), 0.251_497, 1e-6);
    near(published_mean(EPLEY), 0.867_511, 1e-6);
    // Wathan: e^(−0.66) = 0.516851, 53.8 × that = 27.80660, 48.8 + that = 76.60660, f = 1.305371, ln f = 0.266487.
    // The share for one rep: 0.075 × 27.80660 / 76.60660 = 0.0272234.
    // 2.51 × 0.0272234 / 0.266487 = 0.256413. The mean: 0.223144 / 0.266487 = 0.837353.
    near(published_spread(Equation::Wathan), 0.256_413, 1e-6);
    near(published_mean(Equation::Wathan), 0.837_353, 1e-6);
}

/// A normal distribution that is cut off at 3.5 spreads keeps √(1 − 7 φ(3.5) / 0.999535) = 0.997 of its spread.
#[test]
fn the_prior_is_the_published_curve_with_the_published_spread() {
    for equation in [EPLEY, Equation::Wathan, Equation::Mayhew, Equation::Lombardi, Equation::OConner] {
        let prior = Endurance::published(equation);
        near(prior.mean(), 1.0, 1e-12);
        near(prior.spread() / published_spread(equation), 0.997, 0.001);
        assert!(!prior.is_learned() && prior.sets() == 0);
    }
    // Brzycki and Lander are cut off earlier, at 0.1, where the load would hardly fall with reps.
    for equation in [Equation::Brzycki, Equation::Lander] {
        near(Endurance::published(equation).spread() / published_spread(equation), 0.96, 0.01);
    }
}

/// 100 kg for five at RPE 8: seven to failure, give or take one.
#[test]
fn one_set_and_its_interval() {
    // The middle: 100 × (1 + 7/30) = 123.333.
    // The rating: 1/37 = 0.027027 for one rep. The curve: ln 1.233333 = 0.209720, times 0.250831, what is left of
    // Epley's 0.251497 when it is cut off, is 0.052604. Together √(0.000730 + 0.002767) = 0.059141.
    // 80 % of a normal distribution lie within 1.281552 of that: a factor of e^0.075793 = 1.078739.
    let interval = set(0, 100.0, 7.0, 1.0).maximum(EPLEY, &Endurance::published(EPLEY)).unwrap();
    near(interval.middle, 123.333, 1e-3);
    near(interval.low, 114.331, 1e-3);
    near(interval.high, 133.044, 1e-3);
    // Wathan: e^(−0.525) = 0.591555, 53.8 × that = 31.82568, 48.8 + that = 80.62568, f = 1.240300, ln f = 0.215353.
    // The rating: 0.075 × 31.82568 / 80.62568 = 0.029605. The curve: 0.215353 × 0.255735 = 0.055073. Together 0.062526,
    // times 1.281552 is 0.080130: a factor of 1.083428, the 8 % of docs/science.md.
    let wathan = Equation::Wathan;
    let interval = set(0, 100.0, 7.0, 1.0).maximum(wathan, &Endurance::published(wathan)).unwrap();
    near(interval.middle, 124.030, 1e-3);
    near(interval.high / interval.middle, 1.083_428, 1e-5);
}

#[test]
fn two_sets_and_the_chance() {
    let published = Endurance::published(EPLEY);
    // 105 kg against 100 kg, both for five at RPE 8: ln 1.05 = 0.048790. The curve cancels out. Each set has 0.027027
    // from its rating and 0.02 from the day: √(2 × 0.000730 + 2 × 0.0004) = 0.047549.
    // 0.048790 / 0.047549 = 1.026100, below which 84.7578 % of a normal distribution lie.
    let (now, then) = (set(28, 105.0, 7.0, 1.0), set(0, 100.0, 7.0, 1.0));
    near(now.chance_above(&then, EPLEY, &published).unwrap(), 0.847_578, 1e-6);
    // 160 kg for five at RPE 10 against 150 kg for eight, give or take a half and one. ln (160/150) = 0.064539; the
    // multiples 1.166667 and 1.266667 are apart by −0.082238; the rise is −0.017700.
    // Ratings 0.5/35 = 0.014286 and 1/38 = 0.026316, the curve 0.082238 × 0.250831 = 0.020628, the days 0.02 twice:
    // √(0.000204 + 0.000693 + 0.000426 + 0.0008) = 0.046066. −0.017700 / 0.046066 = −0.384219, so 35.0408 %.
    let (now, then) = (set(28, 160.0, 5.0, 0.5), set(0, 150.0, 8.0, 1.0));
    near(now.chance_above(&then, EPLEY, &published).unwrap(), 0.350_408, 1e-6);
}

/// Tested singles, for which every curve gives the same, so that one Kalman filter is all there is. (A step with a
/// rating in it is worked beside the filter itself.)
#[test]
fn a_step_of_the_filter() {
    let tests = [set(0, 200.0, 1.0, 0.0), set(7, 206.0, 1.0, 0.0)];
    let on = |day: i64| Strength::on(EPLEY, &Endurance::published(EPLEY), Series::of(&tests, &[]), day).unwrap();
    // The first test: ln 200, variance 0.02² = 0.0004. A week's drift adds 0.01² = 0.0001: 0.0005.
    // The second has 0.0004 of its own. The gain: 0.0005 / 0.0009 = 5/9.
    // ln 1.03 = 0.029559, of which 5/9 are 0.016422: 200 × e^0.016422 = 203.3114. The variance: 4/9 of 0.0005 =
    // 0.000222, its root 0.014907, times 1.281552 is 0.019104: a factor of 1.019288.
    let maximum = on(7).maximum();
    near(maximum.middle, 203.3114, 1e-4);
    near(maximum.low, 199.4642, 1e-4);
    near(maximum.high, 207.2329, 1e-4);
    // 206 lies (ln 206 − ln 203.3114) / 0.014907 = 0.881271 above, over which are 18.9085 %.
    near(on(7).chance_of(206.0), 0.189_085, 1e-6);
    // Two weeks on: 0.000222 + 0.0002 = 0.000422, its root 0.020548: a factor of 1.026683 round the same middle.
    let later = on(21).maximum();
    near(later.middle, 203.3114, 1e-4);
    near(later.low, 198.0274, 1e-4);
    near(later.high, 208.7364, 1e-4);
    // Before the second test only the first is known.
    near(on(6).maximum().middle, 200.0, 1e-9);
    assert_eq!(Strength::on(EPLEY, &Endurance::published(EPLEY), Series::of(&tests, &[]), -1), None);
}

/// From 100 kg with seven to failure, give or take one, to 105 kg in four weeks, with strength rising by 0.25 % a week,
/// give or take 0.1 %.
#[test]
fn an_outlook() {
    let published = Endurance::published(EPLEY);
    let outlook = Outlook::of(EPLEY, &published, set(0, 100.0, 7.0, 1.0)).unwrap();
    let trend = Trend { weekly: 0.0025, error: 0.001 };
    let expected = outlook.reps_with(105.0, 4.0, trend).unwrap();
    // The load rises by ln 1.05 = 0.048790, strength by 0.01: 0.038790 are lost. ln 1.233333 − 0.038790 = 0.170930,
    // which is the multiple 1.186408 or 5.592244 reps.
    near(expected.middle, 5.592_244, 1e-6);
    // The rating 0.027027, two days √2 × 0.02 = 0.028284, drift 0.01 × √4 = 0.02, the trend 4 × 0.001 = 0.004, the curve
    // 0.038790 × 0.250831 = 0.009730: together 0.045179, times 1.281552 is 0.057899.
    // e^0.113031 = 1.119667 is 3.590011 reps, e^0.228829 = 1.257128 is 7.713826.
    near(expected.low, 3.590_011, 1e-6);
    near(expected.high, 7.713_826, 1e-6);
}

/// Nothing is made of a set that says nothing.
#[test]
fn sets_that_say_nothing() {
    let published = Endurance::published(EPLEY);
    let good = set(0, 100.0, 5.0, 1.0);
    let bad = [
        set(0, 0.0, 5.0, 1.0),
        set(0, -100.0, 5.0, 1.0),
        set(0, f64::NAN, 5.0, 1.0),
        set(0, f64::INFINITY, 5.0, 1.0),
        set(0, 100.0, 0.5, 1.0),
        set(0, 100.0, 10.5, 1.0),
        set(0, 100.0, f64::NAN, 1.0),
        set(0, 100.0, 5.0, f64::NAN),
        Observation { load_error: f64::INFINITY, ..good },
    ];
    for set in bad {
        assert_eq!(set.maximum(EPLEY, &published), None, "{set:?}");
        assert_eq!(set.chance_above(&good, EPLEY, &published), None, "{set:?}");
        assert_eq!(good.chance_above(&set, EPLEY, &published), None, "{set:?}");
        assert_eq!(Outlook::of(EPLEY, &published, set), None, "{set:?}");
        assert_eq!(Strength::on(EPLEY, &published, Series::of(&[set], &[]), 0), None, "{set:?}");
        assert_eq!(
            Strength::on(EPLEY, &published, Series::of(&[good, set], &[]), 0),
            Strength::on(EPLEY, &published, Series::of(&[good], &[]), 0)
        );
    }
    let outlook = Outlook::of(EPLEY, &published, good).unwrap();
    for load in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(outlook.reps_with(load, 1.0, Trend::UNCHANGED), None, "{load}");
    }
    let strength = Strength::on(EPLEY, &published, Series::of(&[good], &[]), 0).unwrap();
    assert_eq!((strength.chance_of(0.0), strength.chance_of(-5.0)), (1.0, 1.0));
    assert_eq!((strength.reps_at(0.0), strength.reps_at(-5.0), strength.reps_at(f64::NAN)), (None, None, None));
}
