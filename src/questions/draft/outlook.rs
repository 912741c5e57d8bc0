//! How hard a load will be, from what was done on one day.

use crate::analysis::strength::evidence::{Evidence, Rated};
use crate::history::History;
use crate::questions::room::Rpe;
use crate::science::strength::{Outlook, Trend};
use crate::science::{Equation, effort_scale};
use crate::training::{Effort, EffortRange, LiftId};
use chrono::NaiveDate;

/// The surest set of a lift on a day, with the curve that belongs to it.
pub(super) struct Day<'a> {
    evidence: Evidence<'a>,
    at: usize,
}

impl<'a> Day<'a> {
    /// Nothing where no clean set of that day has reps, a load and an effort.
    pub(super) fn of(history: &History<'a>, lift: LiftId, date: NaiveDate) -> Option<Self> {
        let evidence = Evidence::of(history, lift, Equation::default());
        let at = evidence.days.iter().position(|rated| rated.mark.done.session.date == date)?;
        Some(Day { evidence, at })
    }

    fn start(&self) -> Option<(&Rated<'a>, Outlook<'_>)> {
        let rated = self.evidence.days.get(self.at)?;
        Some((rated, Outlook::of(self.evidence.equation, &self.evidence.endurance, rated.set)?))
    }

    /// By what share the load rises for the same effort with so many reps fewer.
    pub(super) fn rise_with_fewer(&self, reps_off: u32) -> Option<f64> {
        let (rated, outlook) = self.start()?;
        let reps = rated.mark.amount.reps()?.checked_sub(reps_off).filter(|reps| *reps > 0)?;
        let reserve = effort_scale::reps_in_reserve(rated.mark.effort?)?;
        Some(outlook.load_for(f64::from(reps) + reserve, 0.0, Trend::UNCHANGED)? / rated.set.load - 1.0)
    }

    /// How hard so many reps will be with a load, everything lifted, in kilograms.
    pub(super) fn effort(&self, load: f64, reps: u32) -> Option<Rpe> {
        let (_, outlook) = self.start()?;
        let expected = outlook.reps_with(load, 0.0, Trend::UNCHANGED)?;
        Some(Rpe::of(10.0 - (expected.middle - f64::from(reps))))
    }
}

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
        Rpe::Of(effort) => (effort.value() * 2.0).round() as i64 * 500,
    };
    let (low, high) = (rpe(middle - 500).min(cap), rpe(middle + 500).min(cap));
    Some(EffortRange { low, high })
}

/// The last point under a cap.
pub(super) fn under(cap: Effort) -> EffortRange {
    let low = i64::from(cap.quarters()) * 250 - 1000;
    EffortRange { low: rpe(low), high: cap }
}
