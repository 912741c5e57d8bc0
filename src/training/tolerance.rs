//! When two loads are the same.

use super::{Gear, Mass};
use std::cmp::Ordering;

/// How far two loads may be apart and still be the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance(Mass);

impl Tolerance {
    /// None: only equal loads are the same.
    pub const EXACT: Tolerance = Tolerance(Mass::ZERO);

    /// Half a step of the gym's plates, and never below 1 kg.
    pub fn of(gear: &Gear) -> Self {
        Tolerance(gear.step.half().max(Mass::kg(1)))
    }

    /// How two masses compare when those closer than this are the same.
    pub fn compare(self, one: Mass, other: Mass) -> Ordering {
        if one.apart(other) < self.0 { Ordering::Equal } else { one.cmp(&other) }
    }
}

#[cfg(test)]
mod tests {
    use super::{Gear, Mass, Tolerance};
    use crate::training::{Load, Unit};
    use std::cmp::Ordering;

    #[test]
    fn a_pound_load_and_a_kilo_load_may_be_the_same() {
        let tolerance = Tolerance::of(&Gear::usual(Unit::Kg));
        let kg = |load: &Load| load.kilograms(None).unwrap_or_default();
        let plain = |thousandths, unit| Load::Plain { thousandths, unit, unit_written: true, approximate: false };
        let (pounds, kilos) = (plain(265_000, Unit::Lb), plain(120_000, Unit::Kg));
        assert_eq!(tolerance.compare(kg(&pounds), kg(&kilos)), Ordering::Equal);
        assert_eq!(tolerance.compare(Mass::of(121_250, Unit::Kg), Mass::kg(120)), Ordering::Greater);
    }
}
