//! DOTS.

use crate::training::Sex;

/// DOTS of a total in kilograms, whatever it is made of.
///
/// 500 t / (a + b w + c w² + d w³ + e w⁴), with the bodyweight w kept within 40 to 210 kg for men and 40 to 150 kg for
/// women, beyond which the polynomial turns. From the German federation, BVDK (origin from memory, high confidence);
/// the coefficients as quoted in six texts that agree. It is no formula of the IPF's. `None` for what is no
/// bodyweight or no total.
#[must_use]
pub fn dots(sex: Sex, bodyweight: f64, total: f64) -> Option<f64> {
    if !(bodyweight.is_finite() && bodyweight > 0.0 && total.is_finite() && total > 0.0) {
        return None;
    }
    let (most, coefficients) = match sex {
        Sex::Male => (210.0, [-307.75076, 24.0900756, -0.1918759221, 0.0007391293, -0.0000010930]),
        Sex::Female => (150.0, [-57.96288, 13.6175032, -0.1126655495, 0.0005158568, -0.0000010706]),
    };
    let weight = bodyweight.clamp(40.0, most);
    let sum = coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * weight + coefficient);
    Some(500.0 * total / sum)
}
