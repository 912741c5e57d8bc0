//! How far a tested maximum moves without the lifter having changed.

use super::statistics::normal;

/// The coefficient of variation of a tested maximum, in percent: the median over studies.
///
/// Grgic et al. 2020, Sports Med Open 6:31, doi 10.1186/s40798-020-00260-z: 32 studies, 1595 people, test and
/// retest in gyms and laboratories. From novices to the trained; for an experienced lifter 1 to 3 % is plausible
/// (from memory, medium confidence), so say which one was used. An estimated maximum has its equation's and its
/// rating's error on top.
pub const USUAL_VARIATION: f64 = 4.2;

/// The least and the greatest coefficient of variation among the studies of Grgic et al. 2020, in percent.
pub const VARIATION_RANGE: (f64, f64) = (0.5, 12.1);

/// The least change between two single tests that is not chance at the 95 % level, in the unit of the variation.
///
/// 1.96 √2 times the coefficient of variation (in percent) or the typical error (in kilograms): the minimal
/// detectable change, Weir 2005, J Strength Cond Res 19(1):231–240 (place from memory, high confidence).
#[must_use]
pub fn least_real_change(variation: f64) -> f64 {
    1.96 * likely_change(variation)
}

/// The change within which about 68 % of second tests of an unchanged lifter stay: √2 times the variation (Weir
/// 2005, as above).
#[must_use]
pub fn likely_change(variation: f64) -> f64 {
    std::f64::consts::SQRT_2 * variation
}

/// How far the best of so many equally true results lies above the truth by luck alone, in standard deviations of
/// one result.
///
/// The expected greatest of n independent normal values: 0.56 for 2, 1.16 for 5, 1.63 for 12 (tabled by Teichroew
/// 1956, Ann Math Stat 27(2):410–426, place from memory, high confidence). Integrated by Simpson's rule, to 1e-8.
/// 0 for one result, and for none.
///
/// It is why blocks are not to be compared by their bests when one has more sets than the other.
#[must_use]
pub fn luck_of_the_best(results: u32) -> f64 {
    if results < 2 {
        return 0.0;
    }
    // E(max) = ∫₀^∞ (1 − Φⁿ(x) − Φⁿ(−x)) dx; beyond 12 nothing is left for any count that fits.
    let count = f64::from(results);
    let height = |x: f64| {
        let above = -((-normal::below(-x)).ln_1p() * count).exp_m1();
        above - normal::below(-x).powf(count)
    };
    let (width, strips) = (12.0, 1200_u32);
    let step = width / f64::from(strips);
    let inner: f64 = (1..strips).map(|at| height(f64::from(at) * step) * if at % 2 == 1 { 4.0 } else { 2.0 }).sum();
    (height(0.0) + inner + height(width)) * step / 3.0
}
