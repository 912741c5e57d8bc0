//! The competition lifts: which ones they are, their last heavy set, and how strong they make the lifter.

use super::gather::Weeks;
use crate::history::{Done, History, Mark, Marked};
use crate::questions::evidence::{Evidence, Ratings};
use crate::science::{Equation, taper};
use crate::training::{CompetitionLift, LiftId, Mass, Session};
use chrono::NaiveDate;

/// How far back a heavy set is looked for.
const LOOKED_BACK: chrono::Days = chrono::Days::new(26 * 7);

/// The last heavy set of a competition lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Heavy {
    /// The lift.
    pub lift: String,
    /// What it is at a meet.
    pub discipline: CompetitionLift,
    /// The set, at more than 85 % of the maximum estimated for its day; nothing where there is none.
    pub mark: Option<Mark>,
    /// Percent of that maximum.
    pub percent: Option<f64>,
    /// Days from it to the test; nothing where no test is known.
    pub days: Option<i64>,
}

/// How strong a lifter is for their weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// The competition lift with the greatest estimated maximum.
    pub lift: String,
    /// That maximum over the bodyweight.
    pub times_bodyweight: f64,
    /// One chance in ten lies below.
    pub low: f64,
    /// One chance in ten lies above.
    pub high: f64,
    /// The bodyweight in force.
    pub bodyweight: Mass,
}

/// A competition lift with the evidence of its strength.
pub(super) struct Contested<'a> {
    pub(super) lift: LiftId,
    pub(super) discipline: CompetitionLift,
    evidence: Evidence<'a>,
}

/// The competition lifts among the work. Where several lifts would do, the one that was lifted at a meet; else the
/// one with the most sets.
pub(super) fn contested<'a>(history: &History<'a>, weeks: &Weeks<'_>) -> Vec<Contested<'a>> {
    let mut ratings = Ratings::new(history, Equation::default());
    let sets = |lift: LiftId| weeks.work().filter(|worked| worked.lift == lift).map(|worked| worked.sets.len()).sum();
    let at_meets = |lift: LiftId| history.works_of(lift).any(|done| done.session.meet.is_some());
    let lift_of = |discipline: CompetitionLift| {
        let done = history
            .trained_as(discipline)
            .into_iter()
            .map(|lift| (lift, sets(lift)))
            .filter(|(_, sets): &(LiftId, usize)| *sets > 0);
        // Of equals the first in the list.
        done.rev().max_by_key(|(lift, sets)| (at_meets(*lift), *sets)).map(|(lift, _)| lift)
    };
    let lifts = CompetitionLift::ALL.into_iter().filter_map(|discipline| Some((discipline, lift_of(discipline)?)));
    lifts.map(|(discipline, lift)| Contested { lift, discipline, evidence: ratings.evidence(lift) }).collect()
}

impl Contested<'_> {
    /// The last day before this one that has a set of more than 85 % of its day's estimated maximum: the heaviest of
    /// that day, with its percentage.
    pub(super) fn last_heavy(&self, history: &History<'_>, before: NaiveDate, test: Option<NaiveDate>) -> Heavy {
        let from = before.checked_sub_days(LOOKED_BACK).unwrap_or(NaiveDate::MIN);
        let works: Vec<Done<'_>> =
            history.works_of(self.lift).filter(|done| (from..before).contains(&done.session.date)).collect();
        let found = works
            .chunk_by(|one, other| one.session.date == other.session.date)
            .rev()
            .find_map(|day| self.heaviest(day).filter(|(_, percent)| *percent > taper::HEAVY_PERCENT));
        Heavy {
            lift: history.log.lift_name(self.lift).to_owned(),
            discipline: self.discipline,
            days: found.as_ref().and_then(|(mark, _)| Some((test? - mark.done.session.date).num_days())),
            percent: found.as_ref().map(|(_, percent)| *percent),
            mark: found.map(|(mark, _)| mark.shown(history, |set| set.is_work())),
        }
    }

    /// The heaviest set of a day, in percent of the maximum estimated for it.
    fn heaviest<'a>(&self, day: &[Done<'a>]) -> Option<(Marked<'a>, f64)> {
        let maximum = self.evidence.strength_on(day.first()?.session.date)?.maximum().middle;
        let marks = day.iter().flat_map(|done| Marked::of(*done, |set| set.is_work()));
        let loads =
            marks.filter(|mark| mark.amount.reps().is_some()).filter_map(|mark| Some((mark, mark.kilograms()?)));
        // Of equals the first one written.
        let heaviest = loads.reduce(|most, other| if other.1 > most.1 { other } else { most });
        heaviest.map(|(mark, load)| (mark, load.in_kilograms() / maximum * 100.0))
    }
}

/// The strongest competition lift as of a session, over the bodyweight then in force; nothing where one is not known.
pub(super) fn build(history: &History<'_>, contested: &[Contested<'_>], session: &Session) -> Option<Build> {
    let bodyweight = session.own_mass()?;
    let maxima = contested.iter().filter_map(|lift| {
        let maximum = lift.evidence.strength_on(session.date)?.maximum();
        Some((lift.lift, maximum))
    });
    let (lift, maximum) = maxima.max_by(|(_, one), (_, other)| one.middle.total_cmp(&other.middle))?;
    let times = |kilograms: f64| kilograms / bodyweight.in_kilograms();
    Some(Build {
        lift: history.log.lift_name(lift).to_owned(),
        times_bodyweight: times(maximum.middle),
        low: times(maximum.low),
        high: times(maximum.high),
        bodyweight,
    })
}
