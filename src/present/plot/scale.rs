//! An axis of numbers with round ticks. The numbers are in the unit that is shown; nothing here knows which.

/// What a round step is a power of ten of.
const ROUND: [f64; 4] = [1.0, 2.0, 2.5, 5.0];

/// A range shorter than this share of its numbers is widened: so little is not worth a tick.
const NARROWEST: f64 = 1e-6;

/// An axis from one round tick to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    step: f64,
    decimals: usize,
    first: i64,
    last: i64,
}

impl Scale {
    /// The axis with the finest round steps, at most so many, or two where that is less, that covers both numbers. Steps are 1,
    /// 2, 2.5 or 5 times a power of ten; `whole` ones have no decimals.
    ///
    /// Numbers that are equal, or no numbers, get a range about them.
    #[must_use]
    pub(super) fn covering(one: f64, other: f64, most: usize, whole: bool) -> Self {
        let finite = |number: f64| if number.is_finite() { number.clamp(-1e12, 1e12) } else { 0.0 };
        let (one, other) = (finite(one), finite(other));
        let (mut low, mut high) = (one.min(other), one.max(other));
        let size = low.abs().max(high.abs());
        if high - low <= size * NARROWEST {
            let apart = if size > 0.0 { size * 0.05 } else { 1.0 };
            (low, high) = (low - apart, high + apart);
        }
        let most = i64::try_from(most.max(1)).unwrap_or(i64::MAX);
        let mut power = ((high - low) / most as f64).log10().floor() as i32;
        loop {
            for round in ROUND {
                // A power of ten with a negative exponent is no exact number; dividing by its inverse is.
                let step = if power < 0 { round / 10f64.powi(-power) } else { round * 10f64.powi(power) };
                let decimals = usize::try_from(-power).unwrap_or(0) + usize::from(round == 2.5);
                let decimals = if power > 0 { 0 } else { decimals };
                let (first, last) = ((low / step + 1e-9).floor() as i64, (high / step - 1e-9).ceil() as i64);
                // Across nothing there is no way with one step.
                if last - first <= most.max(2) && (!whole || decimals == 0) {
                    return Scale { step, decimals, first, last: last.max(first + 1) };
                }
            }
            power += 1;
        }
    }

    /// The ticks from the lowest to the highest: the ends are ticks too.
    pub(super) fn ticks(&self) -> impl Iterator<Item = f64> {
        let step = self.step;
        (self.first..=self.last).map(move |tick| tick as f64 * step)
    }

    /// How many steps there are from the lowest tick to the highest.
    #[must_use]
    pub(super) fn steps(&self) -> usize {
        usize::try_from(self.last - self.first).unwrap_or(1)
    }

    /// A tick in digits, with as many decimals as every tick of the axis.
    #[must_use]
    pub(super) fn label(&self, tick: f64) -> String {
        let label = format!("{:.*}", self.decimals, tick);
        if label.trim_start_matches(['-', '0', '.']).is_empty() { label.trim_start_matches('-').into() } else { label }
    }

    /// Where a number lies, from 0 at the lowest tick to 1 at the highest; what lies outside is at the nearer end.
    #[must_use]
    pub(super) fn position(&self, number: f64) -> f64 {
        let (low, high) = (self.first as f64 * self.step, self.last as f64 * self.step);
        let position = (number - low) / (high - low);
        if position.is_nan() { 0.0 } else { position.clamp(0.0, 1.0) }
    }
}

#[cfg(test)]
mod tests {
    use super::Scale;
    use proptest::prelude::*;

    fn labels(low: f64, high: f64, most: usize, whole: bool) -> Vec<String> {
        let scale = Scale::covering(low, high, most, whole);
        scale.ticks().map(|tick| scale.label(tick)).collect()
    }

    #[test]
    fn ticks_are_as_one_would_write_them() {
        assert_eq!(labels(231.0, 299.6, 4, false), ["220", "240", "260", "280", "300"]);
        assert_eq!(labels(0.0, 34.0, 5, true), ["0", "10", "20", "30", "40"]);
        assert_eq!(labels(-12.0, 9.0, 6, false), ["-15", "-10", "-5", "0", "5", "10"]);
        assert_eq!(labels(40.5, 48.9, 4, false), ["40.0", "42.5", "45.0", "47.5", "50.0"]);
        assert_eq!(labels(0.0, 3.0, 6, true), ["0", "1", "2", "3"]);
        assert_eq!(labels(0.02, 0.11, 5, false), ["0.02", "0.04", "0.06", "0.08", "0.10", "0.12"]);
    }

    #[test]
    fn equal_numbers_stand_in_a_range() {
        assert_eq!(labels(100.0, 100.0, 4, false), ["95.0", "97.5", "100.0", "102.5", "105.0"]);
        assert_eq!(labels(0.0, 0.0, 4, true), ["-1", "0", "1"]);
        assert_eq!(labels(f64::NAN, f64::INFINITY, 4, true), ["-1", "0", "1"]);
    }

    proptest! {
        #[test]
        fn ticks_are_round_and_cover_the_range(
            one in -1e4..1e5f64, other in -1e4..1e5f64, most in 2_usize..12, whole in any::<bool>(),
        ) {
            let scale = Scale::covering(one, other, most, whole);
            let ticks: Vec<f64> = scale.ticks().collect();
            prop_assert!(ticks.len() >= 2 && ticks.len() <= most + 1, "{} ticks", ticks.len());
            let slack = 1e-6 * (one.abs() + other.abs() + 1.0);
            prop_assert!(ticks[0] <= one.min(other) + slack);
            prop_assert!(*ticks.last().unwrap() >= one.max(other) - slack);
            for tick in &ticks {
                // The label is the tick, and 1, 2, 2.5 or 5 times a power of ten goes into it.
                let written: f64 = scale.label(*tick).parse().unwrap();
                prop_assert!((written - tick).abs() <= 1e-9 * tick.abs().max(1e-6), "{tick} as {written}");
                prop_assert!(!whole || tick.fract() == 0.0);
                prop_assert!((0.0..=1.0).contains(&scale.position(*tick)));
            }
            let step = format!("{:e}", ticks[1] - ticks[0]);
            let mantissa: f64 = step.split('e').next().unwrap().parse().unwrap();
            prop_assert!([1.0, 2.0, 2.5, 5.0, 10.0].iter().any(|round| (mantissa - round).abs() < 1e-6), "{step}");
            prop_assert!(scale.position(one.min(other)) <= scale.position(one.max(other)));
        }
    }
}
