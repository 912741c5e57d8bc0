//! The competition lifts: which ones they are, their last heavy set, and how strong they make the lifter.

use super::gather::{self, Weeks};
use crate::analysis::strength::evidence::{Evidence, Ratings};
use crate::history::{Done, History, Mark, Marked};
use crate::science::{Equation, taper};
use crate::source::PageId;
use crate::training::{CompetitionLift, Effort, Figure, Hundredths, LiftId, Mass, PlannedGroup, Session, Weighed};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// How far back a heavy set is looked for.
const LOOKED_BACK: chrono::Days = chrono::Days::new(26 * 7);

/// The last heavy set of a competition lift.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Heavy {
    /// The lift.
    pub lift: String,
    /// What it is at a meet.
    #[serde(skip)]
    pub discipline: CompetitionLift,
    /// The set, at more than 85 % of the maximum estimated for its day; nothing where there is none.
    pub mark: Option<Mark>,
    /// Percent of that maximum.
    pub percent: Option<Hundredths>,
    /// Days from it to the test; nothing where no test is known.
    pub days: Option<i64>,
    /// Whether it is planned and not done yet.
    #[serde(rename = "planned")]
    pub is_planned: bool,
}

/// How strong a lifter is for their weight.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Strongest")]
pub struct Build {
    /// The competition lift with the greatest estimated maximum.
    pub lift: String,
    /// That maximum over the bodyweight.
    pub times_bodyweight: Hundredths,
    /// One chance in ten lies below.
    pub low: Hundredths,
    /// One chance in ten lies above.
    pub high: Hundredths,
    /// The bodyweight in force.
    #[serde(rename = "bodyweight_kg")]
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
    /// The last day before this one that has a set of more than 85 % of its day's estimated maximum, done or planned
    /// and to come: the heaviest of that day, with its percentage.
    pub(super) fn last_heavy(&self, history: &History<'_>, before: NaiveDate, test: Option<NaiveDate>) -> Heavy {
        let found = self.last_planned(history, before).or_else(|| self.last_done(history, before));
        Heavy {
            lift: history.log.lift_name(self.lift).to_owned(),
            discipline: self.discipline,
            days: found.as_ref().and_then(|found| Some((test? - found.mark.date).num_days())),
            percent: found.as_ref().map(|found| Figure(found.percent)),
            is_planned: found.as_ref().is_some_and(|found| found.is_planned),
            mark: found.map(|found| found.mark),
        }
    }

    fn last_done(&self, history: &History<'_>, before: NaiveDate) -> Option<Found> {
        let from = before.checked_sub_days(LOOKED_BACK).unwrap_or(NaiveDate::MIN);
        let works: Vec<Done<'_>> =
            history.works_of(self.lift).filter(|done| (from..before).contains(&done.session.date)).collect();
        let (mark, percent) = works
            .chunk_by(|one, other| one.session.date == other.session.date)
            .rev()
            .find_map(|day| self.heaviest(day).filter(|(_, percent)| *percent > taper::HEAVY_PERCENT))?;
        Some(Found { mark: mark.shown(history, |set| set.is_work()), percent, is_planned: false })
    }

    /// Of what is planned and not done yet. No range of days is kept: a plan is not older than today.
    fn last_planned(&self, history: &History<'_>, before: NaiveDate) -> Option<Found> {
        let sessions = history.log.sessions.iter().rev().filter(|session| session.date < before);
        let to_come = sessions.take_while(|session| session.date >= history.today);
        to_come.filter(|session| gather::is_training(session)).find_map(|session| {
            let maximum = self.evidence.strength_on(session.date)?.maximum().middle;
            let works = session.works.iter().filter(|work| work.lift == self.lift);
            let groups = works.filter_map(|work| Some((work, gather::planned(history, session, work)?)));
            let loads = groups.flat_map(|(work, groups)| groups.iter().map(move |group| (work, group)));
            let own = session.own_mass();
            let loads = loads.filter(|(_, group)| group.amounts.least().reps().is_some());
            let known = loads.filter_map(|(work, group)| Some((work, group, group.load.kilograms(own)?)));
            // Of equals the first one written.
            let (work, group, load) = known.reduce(|most, other| if other.2 > most.2 { other } else { most })?;
            let percent = load.in_kilograms() / maximum * 100.0;
            let line = work.plan().map_or(work.line, |plan| plan.line);
            (percent > taper::HEAVY_PERCENT).then(|| Found {
                mark: planned_mark(history, session, group, (work.page, line)),
                percent,
                is_planned: true,
            })
        })
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

/// A heavy set.
struct Found {
    mark: Mark,
    percent: f64,
    is_planned: bool,
}

/// Planned sets as a mark: of ranges the least, of an effort the middle.
fn planned_mark(history: &History<'_>, session: &Session, group: &PlannedGroup, (page, line): (PageId, u32)) -> Mark {
    let thousandths = |effort: Effort| i64::from(effort.quarters()) * 250;
    let block = session.block.and_then(|id| history.log.block(id));
    Mark {
        date: session.date,
        block: block.map(|block| block.name.clone()),
        week: session.week,
        day: session.day.as_deref().map(str::to_owned),
        sets: group.fewest,
        amount: group.amounts.least(),
        per_side: group.per_side,
        load: Weighed { load: group.load.clone(), kilograms: group.load.kilograms(session.own_mass()) },
        effort: group.effort.map(|range| Effort::rpe(thousandths(range.low), thousandths(range.high))),
        faults: Vec::new(),
        place: history.log.place(page, line),
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
    let times = |kilograms: f64| Figure(kilograms / bodyweight.in_kilograms());
    Some(Build {
        lift: history.log.lift_name(lift).to_owned(),
        times_bodyweight: times(maximum.middle),
        low: times(maximum.low),
        high: times(maximum.high),
        bodyweight,
    })
}
