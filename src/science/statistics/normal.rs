//! The standard normal distribution: mean 0, standard deviation 1.

use std::f64::consts::PI;

/// From here on the continued fraction is used; nearer to 0 the series is quicker.
const FAR: f64 = 3.0;

/// Steps of the continued fraction; at [`FAR`], where it is slowest, it has settled after 50.
const STEPS: u32 = 100;

/// The height of the bell curve at `x`.
#[must_use]
pub fn density(x: f64) -> f64 {
    (-x * x / 2.0).exp() / (2.0 * PI).sqrt()
}

/// The share of the distribution that lies below `x`, 0 to 1.
///
/// Series 26.2.11 and, beyond 3 from the middle, continued fraction 26.2.14 of Abramowitz and Stegun 1964,
/// *Handbook of Mathematical Functions*. Accurate to 1e-14, and far below the middle to 12 digits of the value. Not
/// a number only for what is not a number.
#[must_use]
pub fn below(x: f64) -> f64 {
    if x.is_nan() {
        return x;
    }
    if x.abs() >= FAR {
        let tail = tail(x.abs());
        return if x < 0.0 { tail } else { 1.0 - tail };
    }
    let (mut sum, mut term, mut odd) = (0.0, x, 1.0);
    while sum + term != sum {
        sum += term;
        odd += 2.0;
        term *= x * x / odd;
    }
    0.5 + density(x) * sum
}

/// The value below which a share of the distribution lies: 0.975 gives 1.96. `None` for a share that is not
/// between 0 and 1.
///
/// Starts from approximation 26.2.23 of Abramowitz and Stegun 1964 (4.5e-4 at worst) and sharpens it by Halley's
/// method on [`below`]; accurate to 1e-12.
#[must_use]
pub fn quantile(share: f64) -> Option<f64> {
    if !(share > 0.0 && share < 1.0) {
        return None;
    }
    // The lower half only: there small shares keep their digits.
    if share > 0.5 {
        return quantile(1.0 - share).map(|x| -x);
    }
    let t = (-2.0 * share.ln()).sqrt();
    let over = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let under = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut x = over / under - t;
    for _ in 0..3 {
        let step = (below(x) - share) / density(x);
        x -= step / (1.0 + x * step / 2.0);
    }
    Some(x)
}

/// The share above `x`, for `x` of 3 or more.
fn tail(x: f64) -> f64 {
    let fraction = (1..=STEPS).rev().fold(x, |below, step| x + f64::from(step) / below);
    density(x) / fraction
}
