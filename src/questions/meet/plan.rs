//! The attempts of a meet or test day to come.

use super::lifts::Lifts;
use crate::analysis::strength::evidence::{Estimate, Evidence, Ratings};
use crate::history::{History, Mark, Marked, Meet};
use crate::science::Equation;
use crate::science::attempts::{Attempts, SURE, expected_best};
use crate::science::strength::Strength;
use crate::training::{CompetitionLift, LiftId, Mass};
use chrono::NaiveDate;

/// An estimate that rests on nothing of so many weeks is stale.
const STALE_WEEKS: i64 = 4;

/// A third further above the best done than so many thousandths of a percent of it rests on the estimate alone: 5 %,
/// this project's own choice.
const FAR_ABOVE: i64 = 5_000;

/// What was done for three is looked for in so many weeks: about three blocks.
const TRIPLE_WEEKS: i64 = 12;

/// Attempts for each lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Attempts are whole multiples of it.
    pub step: Mass,
    /// The chance that the third attempts shall have.
    pub chance: f64,
    /// The lifts, in the order of the day.
    pub lifts: Vec<LiftPlan>,
    /// The sum of the best attempts to be expected; nothing where a lift has none.
    pub expected_total: Option<Mass>,
}

/// Attempts for a lift.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftPlan {
    /// What it is at the meet.
    pub competed: CompetitionLift,
    /// The lift of the journal.
    pub lift: String,
    /// What could be lifted in one attempt that day.
    pub estimate: Option<Estimate>,
    /// The last day that the estimate rests on.
    pub last_rated: Option<NaiveDate>,
    /// Whether that day is more than four weeks before today.
    pub stale: bool,
    /// The heaviest that was done, for one rep or more.
    pub best: Option<Mark>,
    /// The heaviest that was done for three reps or more, of the last twelve weeks.
    pub triple: Option<Mark>,
    /// The attempts, or why there are none.
    pub attempts: Result<Planned, Missing>,
}

/// Three attempts and what follows a missed one.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// Opener, second, third.
    pub attempts: [Attempt; 3],
    /// Second and third after a missed opener.
    pub after_missed_opener: [Mass; 2],
    /// The best of them to be expected.
    pub expected: Mass,
    /// How far the third lies above the best done, where that is more than 5 % of it.
    pub far_above_best: Option<Mass>,
    /// Whether the opener was done for three reps or more in the last twelve weeks.
    pub opener_done_for_three: bool,
}

/// An attempt to take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attempt {
    /// The load.
    pub load: Mass,
    /// The chance that the lifter is strong enough for it that day.
    pub chance: f64,
}

/// Why a lift has no attempts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// The journal has no work on it.
    Work,
    /// No clean set of it bears an estimate.
    Effort,
    /// Three attempts would begin below the empty bar.
    Load,
}

/// Plans.
pub(super) fn plan(history: &History<'_>, meet: &Meet<'_>, chance: f64, step: Mass) -> Plan {
    let lifts = Lifts::of(history);
    let mut ratings = Ratings::new(history, Equation::default());
    // A page that lists some of the lifts, as planned, says that it is those that are lifted.
    let mut listed: Vec<(CompetitionLift, LiftId)> = Vec::new();
    for (competed, done) in lifts.works(meet) {
        if !listed.iter().any(|(known, _)| *known == competed) {
            listed.push((competed, done.work.lift));
        }
    }
    let mut plans = Vec::new();
    for competed in CompetitionLift::ALL {
        let (lift, id) = match listed.iter().find(|(known, _)| *known == competed) {
            Some((_, id)) => (history.log.lift_name(*id).to_owned(), Some(*id)),
            None if listed.is_empty() => lifts.meant(competed),
            None => continue,
        };
        let evidence = id.map(|id| ratings.evidence(id));
        let work = id.map(|id| Work::of(history, id));
        let strength = evidence.as_ref().and_then(|evidence| strength(evidence, meet.date));
        let best = work.as_ref().and_then(|work| work.best);
        let triple = work.as_ref().and_then(|work| work.triple);
        let attempts = match &strength {
            Some(strength) => {
                planned(strength, chance, step, best.and_then(mass), triple.and_then(mass)).ok_or(Missing::Load)
            }
            None if work.is_some_and(|work| work.any) => Err(Missing::Effort),
            None => Err(Missing::Work),
        };
        let shown = |mark: Marked<'_>| mark.shown(history, |set| set.is_work() && set.is_clean());
        let last_rated = evidence.and_then(|evidence| Some(evidence.days.last()?.mark.done.session.date));
        plans.push(LiftPlan {
            competed,
            lift,
            estimate: strength.as_ref().and_then(|strength| Estimate::of(strength.maximum(), None)),
            last_rated,
            stale: last_rated.is_some_and(|date| (history.today - date).num_days() > STALE_WEEKS * 7),
            best: best.map(shown),
            triple: triple.map(shown),
            attempts,
        });
    }
    let expected = |plan: &LiftPlan| plan.attempts.as_ref().ok().map(|planned| planned.expected);
    let total = plans.iter().map(expected).try_fold(Mass::ZERO, |sum, best| Some(sum + best?));
    Plan { step, chance, expected_total: total.filter(|_| !plans.is_empty()), lifts: plans }
}

/// What can be lifted in one attempt on a day.
pub(super) fn strength(evidence: &Evidence<'_>, date: NaiveDate) -> Option<Strength> {
    evidence.strength_on(date).map(|strength| strength.in_one_attempt())
}

fn mass(mark: Marked<'_>) -> Option<Mass> {
    mark.kilograms()
}

/// What was done on a lift.
struct Work<'a> {
    any: bool,
    best: Option<Marked<'a>>,
    triple: Option<Marked<'a>>,
}

impl<'a> Work<'a> {
    fn of(history: &History<'a>, lift: LiftId) -> Self {
        let clean = |done| Marked::of(done, |set| set.is_work() && set.is_clean());
        let marks: Vec<Marked<'a>> = history.works_of(lift).flat_map(clean).collect();
        let heaviest = |least: u32, weeks: Option<i64>| {
            let recent = |mark: &&Marked<'_>| {
                weeks.is_none_or(|weeks| (history.today - mark.done.session.date).num_days() < weeks * 7)
            };
            let enough = |mark: &&Marked<'_>| mark.amount.reps().is_some_and(|reps| reps >= least);
            let known = marks.iter().filter(recent).filter(enough).filter(|mark| mark.kilograms().is_some());
            known.copied().max_by_key(Marked::kilograms)
        };
        Work { any: !marks.is_empty(), best: heaviest(1, None), triple: heaviest(3, Some(TRIPLE_WEEKS)) }
    }
}

/// The attempts of a lift; `None` where they would begin below the empty bar.
fn planned(strength: &Strength, chance: f64, step: Mass, best: Option<Mass>, triple: Option<Mass>) -> Option<Planned> {
    let at = |chance: f64| Some(Mass::from_kilograms(strength.maximum_at(chance)?)?.down_to(step));
    let sure = at(SURE)?;
    let usual = Attempts::up_to(at(chance)?, step)?;
    // No further above the best done than is sure, however much the estimate promises.
    let second = best.map_or(usual.second, |best| best.nearest(step).max(sure).min(usual.second));
    let plan = if second < usual.second { usual.with_second(second, step)? } else { usual };
    let plan = plan.with_opener_up_to(sure, step)?;
    let attempts = plan.in_order().map(|load| Attempt { load, chance: strength.chance_of(load.in_kilograms()) });
    let chances = attempts.map(|attempt| (attempt.load.in_kilograms(), attempt.chance));
    let (second, third) = plan.after_a_missed_opener(step);
    Some(Planned {
        attempts,
        after_missed_opener: [second, third],
        expected: Mass::from_kilograms(expected_best(&chances))?,
        far_above_best: best.filter(|best| plan.third > *best + best.percent(FAR_ABOVE)).map(|best| plan.third - best),
        opener_done_for_three: triple.is_some_and(|triple| triple >= plan.opener),
    })
}
