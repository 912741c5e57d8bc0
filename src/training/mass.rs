//! Exact masses.

use super::word::words;
use std::cell::Cell;
use std::fmt;
use std::ops::{Add, Neg, Sub};

words! {
/// Kilograms or pounds.
#[derive(Hash, PartialOrd, Ord)]
pub enum Unit {
    /// Kilograms.
    Kg = "kg",
    /// Avoirdupois pounds: exactly 0.45359237 kg (international yard and pound agreement; NIST SP 811).
    Lb = "lb",
}
}

thread_local! {
    static SHOWN_IN: Cell<Unit> = const { Cell::new(Unit::Kg) };
}

/// From now on this thread tells people masses that no page writes (sums, differences, what a bar comes to) in a unit: that
/// of the lifter who is asked about. What programs read is always in kilograms.
pub fn show_in(unit: Unit) {
    SHOWN_IN.set(unit);
}

/// The unit that this thread tells masses in.
pub fn shown_in() -> Unit {
    SHOWN_IN.get()
}

/// A mass, exact for every kilogram and pound with up to three decimals.
///
/// Counted in hundred-billionths of a kilogram, of which a thousandth of a pound is 45,359,237.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mass(i64);

const PER_KG: i64 = 100_000_000_000;
const PER_THOUSANDTH_KG: i64 = PER_KG / 1000;
const PER_THOUSANDTH_LB: i64 = 45_359_237;

impl Mass {
    /// No mass.
    pub const ZERO: Mass = Mass(0);

    /// `thousandths` of a unit.
    pub fn of(thousandths: i64, unit: Unit) -> Self {
        let per = match unit {
            Unit::Kg => PER_THOUSANDTH_KG,
            Unit::Lb => PER_THOUSANDTH_LB,
        };
        Mass(thousandths.saturating_mul(per))
    }

    /// So many hundred-billionths of a kilogram, as [`Mass::exact`] gives them.
    pub fn of_exact(units: i64) -> Self {
        Mass(units)
    }

    /// The mass in hundred-billionths of a kilogram: for keeping, never for showing.
    pub fn exact(self) -> i64 {
        self.0
    }

    /// Whole kilograms.
    pub fn kg(kg: i64) -> Self {
        Mass::of(kg.saturating_mul(1000), Unit::Kg)
    }

    /// The mass this many times.
    #[must_use]
    pub fn times(self, count: u32) -> Self {
        Mass(self.0.saturating_mul(i64::from(count)))
    }

    /// Half of it.
    #[must_use]
    pub fn half(self) -> Self {
        Mass(self.0 / 2)
    }

    /// The part of one of so many.
    #[must_use]
    pub fn shared(self, pieces: u32) -> Self {
        Mass(self.0 / i64::from(pieces.max(1)))
    }

    /// `thousandths` of a percent of it, to the nearest hundred-billionth of a kilogram.
    #[must_use]
    pub fn percent(self, thousandths: i64) -> Self {
        let exact = i128::from(self.0) * i128::from(thousandths);
        let rounded = (exact + exact.signum() * 50_000) / 100_000;
        Mass(i64::try_from(rounded).unwrap_or(i64::MAX))
    }

    /// How far two masses are apart.
    #[must_use]
    pub fn apart(self, other: Mass) -> Self {
        Mass(self.0.saturating_sub(other.0).saturating_abs())
    }

    /// Whether it is more than half again what there was: a unit or a digit may be wrong. Common practice, no source.
    pub fn is_leap_from(self, before: Mass) -> bool {
        before > Mass::ZERO && self.times(2) > before.times(3)
    }

    /// Whether it is less than nothing.
    pub fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// The largest whole multiple of a step that is no more; zero for what is negative and for a step of nothing.
    pub fn down_to(self, step: Mass) -> Self {
        if self.0 <= 0 || step.0 <= 0 { Mass::ZERO } else { Mass(self.0 / step.0 * step.0) }
    }

    /// The nearest whole multiple of a step, half a step up; zero for what is negative and for a step of nothing.
    pub fn nearest(self, step: Mass) -> Mass {
        (self + step.half()).down_to(step)
    }

    /// Kilograms to the nearest hundredth, for showing; never for comparing.
    pub fn rounded_kg(self) -> f64 {
        rounded(i128::from(self.0))
    }

    /// Kilograms as a plain number, unrounded: for the arithmetic of `science`, never for comparing or showing.
    pub fn in_kilograms(self) -> f64 {
        self.0 as f64 / PER_KG as f64
    }

    /// The mass nearest to so many kilograms; `None` for what is no number and for more than 90,000 tonnes.
    pub fn from_kilograms(kilograms: f64) -> Option<Self> {
        (kilograms.abs() <= 90_000_000.0).then(|| Mass((kilograms * PER_KG as f64).round() as i64))
    }

    /// A number of the unit to the nearest hundredth, for showing; never for comparing.
    pub fn rounded_in(self, unit: Unit) -> f64 {
        match unit {
            Unit::Kg => self.rounded_kg(),
            Unit::Lb => rounded(i128::from(self.0) * i128::from(PER_THOUSANDTH_KG) / i128::from(PER_THOUSANDTH_LB)),
        }
    }

    /// The unit it is a whole number of thousandths of; where both would do, or neither, kilograms.
    ///
    /// No mass below 100,000 lb but nothing at all is both.
    pub fn unit(self) -> Unit {
        if self.0 % PER_THOUSANDTH_KG != 0 && self.0 % PER_THOUSANDTH_LB == 0 { Unit::Lb } else { Unit::Kg }
    }

    /// In a unit, to the hundredth: `122.5 kg`.
    pub fn told_in(self, unit: Unit) -> String {
        let thousandths = self.in_thousandths(unit);
        let half = if thousandths < 0 { -5 } else { 5 };
        format!("{} {}", super::decimal::decimal((thousandths + half) / 10 * 10), unit.word())
    }

    /// As one would write it, in its own unit: `1.25 kg`, `45 lb`; a sum of both is in kilograms, rounded.
    pub fn written(self) -> String {
        match self.unit() {
            unit @ Unit::Kg if self.0 % PER_THOUSANDTH_KG != 0 => self.told_in(unit),
            unit => format!("{} {}", super::decimal::decimal(self.in_thousandths(unit)), unit.word()),
        }
    }

    /// How many times another mass fits into it; 0 where the other is nothing or less.
    pub fn holds(self, part: Mass) -> u32 {
        if part.0 <= 0 { 0 } else { u32::try_from(self.0.max(0) / part.0).unwrap_or(u32::MAX) }
    }

    /// Kilograms in full, as a decimal number: `120`, `120.20197805`.
    pub fn exact_kilograms(self) -> String {
        super::decimal::fraction(self.0, PER_KG)
    }

    /// A number of the unit, in thousandths, to the nearest.
    pub fn in_thousandths(self, unit: Unit) -> i64 {
        let per = match unit {
            Unit::Kg => PER_THOUSANDTH_KG,
            Unit::Lb => PER_THOUSANDTH_LB,
        };
        let half = per / 2;
        (self.0 + if self.0 < 0 { -half } else { half }) / per
    }
}

/// Hundredths of a kilogram, half away from zero, as a number.
fn rounded(units: i128) -> f64 {
    let hundredth = i128::from(PER_KG / 100);
    let half = hundredth / 2;
    let hundredths = (units + if units < 0 { -half } else { half }) / hundredth;
    hundredths as f64 / 100.0
}

impl Add for Mass {
    type Output = Mass;
    fn add(self, other: Mass) -> Mass {
        Mass(self.0.saturating_add(other.0))
    }
}

impl Sub for Mass {
    type Output = Mass;
    fn sub(self, other: Mass) -> Mass {
        Mass(self.0.saturating_sub(other.0))
    }
}

impl Neg for Mass {
    type Output = Mass;
    fn neg(self) -> Mass {
        Mass(self.0.saturating_neg())
    }
}

/// Kilograms with as few decimals as show the hundredths: `120`, `180.41`.
impl fmt::Display for Mass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told_in(shown_in()))
    }
}

/// Mass times reps, summed over any number of sets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Tonnage(i128);

impl Tonnage {
    /// Adds a load moved for some reps.
    pub fn add(&mut self, load: Mass, reps: u32) {
        self.0 += i128::from(load.0) * i128::from(reps);
    }

    /// Kilograms to the nearest hundredth.
    pub fn rounded_kg(self) -> f64 {
        rounded(self.0)
    }

    /// A number of the unit times reps, to the nearest hundredth, for showing.
    pub fn rounded_in(self, unit: Unit) -> f64 {
        match unit {
            Unit::Kg => self.rounded_kg(),
            Unit::Lb => rounded(self.0 * i128::from(PER_THOUSANDTH_KG) / i128::from(PER_THOUSANDTH_LB)),
        }
    }

    /// Kilograms a rep, to the nearest hundredth; nothing without reps.
    pub fn per_rep(self, reps: u64) -> Option<f64> {
        (reps > 0).then(|| rounded(self.0 / i128::from(reps)))
    }

    /// The load a rep; nothing without reps.
    pub fn load_a_rep(self, reps: u32) -> Option<Mass> {
        (reps > 0).then(|| Mass(i64::try_from(self.0 / i128::from(reps)).unwrap_or(i64::MAX)))
    }

    /// Kilograms as a plain number, unrounded: for the arithmetic of `science`, never for comparing or showing.
    pub fn in_kilograms(self) -> f64 {
        self.0 as f64 / PER_KG as f64
    }

    /// The mean, nothing being the mean of none.
    pub fn mean(several: impl IntoIterator<Item = Tonnage>) -> Tonnage {
        let (mut sum, mut count) = (0, 0);
        for one in several {
            sum += one.0;
            count += 1;
        }
        Tonnage(if count == 0 { 0 } else { sum / count })
    }

    /// Whether this is within `percent` of `other`, inclusive.
    pub fn within_percent(self, other: Tonnage, percent: i128) -> bool {
        (self.0 - other.0).abs() * 100 <= other.0.abs() * percent
    }
}

#[cfg(test)]
mod tests {
    use super::{Mass, Tonnage, Unit};

    /// NIST SP 811 (2008), appendix B: 1 lb = 0.45359237 kg exactly.
    #[test]
    fn a_pound_is_exact() {
        assert_eq!(Mass::of(1000, Unit::Lb), Mass(45_359_237_000));
        assert_eq!(Mass::of(265_000, Unit::Lb).rounded_kg(), 120.2);
        assert_eq!(Mass::of(100_000_000, Unit::Lb), Mass::of(45_359_237, Unit::Kg));
    }

    /// A 45 lb bar with four 25 kg plates a side: common practice, no source; exact by the definition above.
    #[test]
    fn pound_bar_with_kilo_plates() {
        let total = Mass::of(45_000, Unit::Lb) + Mass::kg(25).times(8);
        assert_eq!(total.rounded_kg(), 220.41);
        assert_eq!(total.in_thousandths(Unit::Lb), 485_925);
    }

    #[test]
    fn sums_carry_no_binary_noise() {
        let tenth = Mass::of(100, Unit::Kg);
        let sum = (0..30).fold(Mass::ZERO, |sum, _| sum + tenth);
        assert_eq!(sum, Mass::kg(3));
        assert_eq!(sum.to_string(), "3 kg");
    }

    #[test]
    fn a_mass_is_written_in_its_own_unit() {
        assert_eq!(Mass::of(1_250, Unit::Kg).written(), "1.25 kg");
        assert_eq!(Mass::of(45_000, Unit::Lb).written(), "45 lb");
        assert_eq!((Mass::of(45_000, Unit::Lb) + Mass::kg(100)).written(), "120.41 kg");
        assert_eq!(Mass::ZERO.written(), "0 kg");
        assert_eq!(Mass::kg(120).rounded_in(Unit::Lb), 264.55);
        assert_eq!(Mass::of(265_000, Unit::Lb).rounded_in(Unit::Lb), 265.0);
    }

    #[test]
    fn kilograms_are_written_in_full() {
        assert_eq!(Mass::of(265_000, Unit::Lb).exact_kilograms(), "120.20197805");
        assert_eq!(Mass::of(1, Unit::Lb).exact_kilograms(), "0.00045359237");
        assert_eq!((Mass::of(-2_500, Unit::Kg)).exact_kilograms(), "-2.5");
        assert_eq!(Mass::kg(120).exact_kilograms(), "120");
    }

    #[test]
    fn a_mass_holds_another_whole_times() {
        assert_eq!(Mass::kg(50).holds(Mass::kg(15)), 3);
        assert_eq!(Mass::kg(45).holds(Mass::kg(15)), 3);
        assert_eq!((Mass::kg(10).holds(Mass::ZERO), Mass::kg(-10).holds(Mass::kg(1))), (0, 0));
    }

    #[test]
    fn percentages_are_exact() {
        assert_eq!(Mass::kg(200).percent(75_000), Mass::kg(150));
        assert_eq!(Mass::of(182_500, Unit::Kg).percent(82_500), Mass::of(150_562, Unit::Kg) + Mass(50_000_000));
    }

    #[test]
    fn two_percent_is_inclusive() {
        let ton = |kg| {
            let mut sum = Tonnage::default();
            sum.add(Mass::kg(kg), 1);
            sum
        };
        assert!(ton(98).within_percent(ton(100), 2));
        assert!(!ton(97).within_percent(ton(100), 2));
    }

    /// 3 x 6 and 2 x 4 reps of 100 kg; their mean and load a rep by hand.
    #[test]
    fn tonnage_has_a_mean_and_a_load_a_rep() {
        let (mut one, mut other) = (Tonnage::default(), Tonnage::default());
        one.add(Mass::kg(100), 18);
        other.add(Mass::kg(100), 8);
        assert_eq!(Tonnage::mean([one, other]).in_kilograms(), 1300.0);
        assert_eq!(Tonnage::mean([]), Tonnage::default());
        assert_eq!(one.load_a_rep(18), Some(Mass::kg(100)));
        assert_eq!(one.load_a_rep(0), None);
    }
}
