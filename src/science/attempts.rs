//! The three attempts of a lift at a meet: how far apart they stand, what may follow a miss, what is to be expected
//! of them.
//!
//! The shares are those of lifters who made nine good lifts of nine (66 men and 43 women, IPF Classic Worlds 2012 to
//! 2019): Travis, Zourdos & Bazyler 2021, Percept Mot Skills 128(1):507–521. They show what a good day looked like,
//! not what makes one. Meet rules decide, and those that stand here are from memory: check the rule book.

use crate::training::{Mass, Unit};

/// The opener as a share of the third attempt, in percent: about 91 (Travis et al. 2021).
pub const OPENER_PERCENT: f64 = 91.0;

/// The second attempt is about so much heavier than the opener: 5 % (Travis et al. 2021).
pub const TO_THE_SECOND: f64 = 1.05;

/// The third attempt is about so much heavier than the second: 3 % (Travis et al. 2021).
///
/// The three medians do not multiply to 1, so attempts are counted from the third down.
pub const TO_THE_THIRD: f64 = 1.03;

/// An opener shall be sure: made 95 times in a hundred or more. This project's own choice; the other saying is common
/// practice, no source: open with what was done for three.
pub const SURE: f64 = 0.95;

/// The least attempt there is: a bar of 20 kg and collars of 5 kg (IPF Technical Rules, from memory, high confidence).
#[must_use]
pub fn lightest() -> Mass {
    Mass::kg(25)
}

/// Attempts are whole multiples of 2.5 kg, records aside (IPF Technical Rules, from memory, high confidence).
#[must_use]
pub fn usual_step() -> Mass {
    Mass::of(2_500, Unit::Kg)
}

/// Three attempts, each at least a step above the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Attempts {
    /// The first.
    pub opener: Mass,
    /// The second.
    pub second: Mass,
    /// The third.
    pub third: Mass,
}

impl Attempts {
    /// The attempts that lead up to a third, each the nearest whole step, half a step up: the second the third by
    /// [`TO_THE_THIRD`], the opener [`OPENER_PERCENT`] of the third.
    ///
    /// The third is rounded down to a whole step first. `None` for a step of nothing, and where the opener would be
    /// below [`lightest`].
    #[must_use]
    pub fn up_to(third: Mass, step: Mass) -> Option<Self> {
        let third = third.down_to(step);
        let second = Mass::from_kilograms(third.in_kilograms() / TO_THE_THIRD)?.nearest(step);
        let opener = third.percent((OPENER_PERCENT * 1000.0) as i64).nearest(step);
        Attempts { opener, second, third }.spaced(step)
    }

    /// The same with another second attempt, and the opener no nearer to it than by [`TO_THE_SECOND`]. `None` as above,
    /// and where it is not a step below the third.
    #[must_use]
    pub fn with_second(self, second: Mass, step: Mass) -> Option<Self> {
        let second = second.down_to(step);
        let opener = Mass::from_kilograms(second.in_kilograms() / TO_THE_SECOND)?.nearest(step).min(self.opener);
        (second + step <= self.third).then_some(Attempts { opener, second, ..self }.spaced(step)).flatten()
    }

    /// The same with an opener of no more than this. `None` as above.
    #[must_use]
    pub fn with_opener_up_to(self, most: Mass, step: Mass) -> Option<Self> {
        Attempts { opener: self.opener.min(most.down_to(step)), ..self }.spaced(step)
    }

    /// At least a step apart, from the third down.
    fn spaced(self, step: Mass) -> Option<Self> {
        let second = self.second.min(self.third - step);
        let opener = self.opener.min(second - step);
        (step > Mass::ZERO && opener >= lightest()).then_some(Attempts { opener, second, third: self.third })
    }

    /// What to take after a missed opener, second and third: the opener once more, then no more than half of the way
    /// to the second as planned, but a step at least. Common practice, no source.
    #[must_use]
    pub fn after_a_missed_opener(self, step: Mass) -> (Mass, Mass) {
        let again = least_next(self.opener, false, step);
        let half_way = (again + (self.second - again).half()).down_to(step);
        (again, half_way.max(least_next(again, true, step)))
    }

    /// The three in order.
    #[must_use]
    pub fn in_order(self) -> [Mass; 3] {
        [self.opener, self.second, self.third]
    }
}

/// The least that may be asked for next: after a good lift a step more, after a miss the same again. The bar never
/// goes down (IPF Technical Rules, from memory, high confidence).
#[must_use]
pub fn least_next(last: Mass, made: bool, step: Mass) -> Mass {
    if made { last + step } else { last }
}

/// The best of several attempts to be expected, from each load and the chance that the lifter is as strong, in order
/// of load.
///
/// A strength that is enough for a load is enough for all lighter ones, so each load adds what it lies above the one
/// before, times its chance. A day without a good lift counts as nothing lifted.
#[must_use]
pub fn expected_best(attempts: &[(f64, f64)]) -> f64 {
    let mut last = 0.0;
    let mut sum = 0.0;
    for (load, chance) in attempts {
        sum += (load - last) * chance;
        last = *load;
    }
    sum
}
