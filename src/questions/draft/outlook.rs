//! How hard a load will be, from what was done on one day.

use crate::analysis::strength::evidence::{Evidence, Rated};
use crate::history::History;
use crate::questions::room::Rpe;
use crate::science::strength::Strength;
use crate::science::{Equation, effort_scale};
use crate::training::{Effort, EffortRange, LiftId};
use chrono::NaiveDate;

/// The surest set of a lift on a day, with the curve that belongs to it.
pub(super) struct Day<'a> {
    evidence: Evidence<'a>,
    at: usize,
    strength: Option<Strength>,
    /// Whether it is taken for what it was, and not for what weeks away have left of it.
    fresh: bool,
}

impl<'a> Day<'a> {
    /// Nothing where no clean set of that day has reps, a load and an effort.
    pub(super) fn of(history: &History<'a>, lift: LiftId, date: NaiveDate) -> Option<Self> {
        Day::as_of(history, lift, date, date)
    }

    /// The same with strength as it is on a later day.
    pub(super) fn as_of(history: &History<'a>, lift: LiftId, date: NaiveDate, later: NaiveDate) -> Option<Self> {
        let evidence = Evidence::of(history, lift, Equation::default());
        let at = evidence.days.iter().position(|rated| rated.mark.done.session.date == date)?;
        let strength = evidence.strength_on(later);
        Some(Day { evidence, at, strength, fresh: date == later })
    }

    fn start(&self) -> Option<(&Rated<'a>, &Strength)> {
        Some((self.evidence.days.get(self.at)?, self.strength.as_ref()?))
    }

    /// By what share the load rises for the same effort with so many reps fewer.
    pub(super) fn rise_with_fewer(&self, reps_off: u32) -> Option<f64> {
        let (rated, strength) = self.start()?;
        let reps = rated.mark.amount.reps()?.checked_sub(reps_off).filter(|reps| *reps > 0)?;
        let load = |reps: u32| Some(strength.load_for(f64::from(reps), rated.set.left)?.middle);
        Some(load(reps)? / load(reps + reps_off)? - 1.0)
    }

    /// The load, everything lifted, in kilograms, for so many reps at an effort. What was done that day for as many reps and
    /// no harder is not too much for it, whatever the strength of all days says.
    pub(super) fn load_for(&self, reps: u32, effort: Effort) -> Option<f64> {
        let (rated, strength) = self.start()?;
        let (reps, left) = (f64::from(reps), effort_scale::reps_in_reserve(effort)?);
        let foretold = strength.load_for(reps, left)?.middle;
        let was_done = self.fresh && reps <= f64::from(rated.set.reps) && left <= rated.set.left;
        Some(if was_done { foretold.max(rated.set.load) } else { foretold })
    }

    /// How hard so many reps will be with a load, everything lifted, in kilograms.
    pub(super) fn effort(&self, load: f64, reps: u32) -> Option<Rpe> {
        Rpe::ahead(self.strength.as_ref()?, load, reps).map(|[_, middle, _]| middle)
    }
}

/// The lowest effort of the scale, in thousandths.
const LOWEST: i64 = (effort_scale::LOWEST_RATED * 1000.0) as i64;

/// An effort of whole and half points, in thousandths.
pub(super) fn rpe(thousandths: i64) -> Effort {
    Effort::rpe(thousandths, thousandths)
}

/// The half point to either side of an effort to be expected, and no more than a cap; nothing below the scale.
pub(super) fn around(expected: Rpe, cap: Effort) -> Option<EffortRange> {
    let middle = match expected {
        Rpe::Light => return None,
        // The last point under the cap: harder is not asked for.
        Rpe::Missed => return Some(under(cap)),
        Rpe::Of(effort) => i64::from(effort.quarters()) * 250,
    };
    let (low, high) = (rpe((middle - 500).max(LOWEST)).min(cap), rpe(middle + 500).min(cap));
    Some(EffortRange { low, high })
}

/// The last point under a cap.
pub(super) fn under(cap: Effort) -> EffortRange {
    let low = i64::from(cap.quarters()) * 250 - 1000;
    EffortRange { low: rpe(low), high: cap }
}
