//! The attempts of a meet or test day to come.

use super::lifts::Lifts;
use crate::analysis::compare::ranking::Scale;
use crate::analysis::strength::evidence::{Estimate, EstimateFields, Evidence, Ratings};
use crate::analysis::strength::time_away::TimeAway;
use crate::history::{History, Mark, Marked, Meet};
use crate::questions::best::order;
use crate::science::Equation;
use crate::science::attempts::{Attempts, SURE, expected_best};
use crate::science::strength::Strength;
use crate::training::{CompetitionLift, Figure, LiftId, Mass, Thousandths, Weighed, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// An estimate that rests on nothing of so many weeks is stale.
const STALE_WEEKS: i64 = 4;

/// A rated set of no more than so many reps, of so many weeks, bears an attempt that is further above the best done; this
/// project's own choice.
const BEARS: (u32, i64) = (3, 6);

/// What was done for three is looked for in so many weeks: about three blocks.
const TRIPLE_WEEKS: i64 = 12;

/// What is wanted of attempts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// The chance that the third attempts shall have, above 0 and below 1.
    pub chance: f64,
    /// Attempts are whole multiples of it, and at least so far apart.
    pub step: Mass,
    /// No attempt is more than so many percent above the best done, unless a heavy set of late bears it.
    pub over_best: u8,
}

/// Attempts for each lift.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Plan {
    /// Attempts are whole multiples of it.
    #[serde(rename = "step_kg")]
    pub step: Mass,
    /// The chance that the third attempts shall have.
    pub chance: Thousandths,
    /// The lifts, in the order of the day.
    pub lifts: Vec<LiftPlan>,
    /// The sum of the best attempts to be expected; nothing where a lift has none.
    #[serde(rename = "expected_total_kg")]
    pub expected_total: Option<Mass>,
}

/// Attempts for a lift.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LiftPlan {
    /// What it is at the meet.
    pub competed: CompetitionLift,
    /// The lift of the journal.
    pub lift: String,
    /// What could be lifted in one attempt that day.
    #[serde(flatten, serialize_with = "Estimate::or_null")]
    #[schemars(with = "EstimateFields")]
    pub estimate: Option<Estimate>,
    /// The last day that the estimate rests on.
    pub last_rated: Option<NaiveDate>,
    /// Whether that day is more than four weeks before today.
    pub stale: bool,
    /// The heaviest that was done, for one rep or more.
    pub best: Option<Mark>,
    /// The heaviest that was done for three reps or more, of the last twelve weeks.
    pub triple: Option<Mark>,
    /// Opener, second, third; none where something is missing.
    pub attempts: Vec<Attempt>,
    /// The attempts that the page plans itself.
    pub planned: Vec<PlannedAttempt>,
    /// Second and third after a missed opener.
    #[serde(rename = "after_missed_opener_kg")]
    pub after_missed_opener: Option<[Mass; 2]>,
    /// The best of the attempts to be expected.
    #[serde(rename = "expected_best_kg")]
    pub expected: Option<Mass>,
    /// The most that an attempt may be, by the best done and the sets that bear more, where the estimate goes further.
    #[serde(rename = "held_to_kg")]
    pub held_to: Option<Mass>,
    /// How long ago the lift was trained, where that is three weeks or more.
    pub away: Option<TimeAway>,
    /// Whether the opener was done for three reps or more in the last twelve weeks.
    pub opener_done_for_three: Option<bool>,
    /// Why there are no attempts.
    pub missing: Option<Missing>,
}

/// An attempt to take.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Attempt {
    /// The load.
    #[serde(rename = "kg")]
    pub load: Mass,
    /// The chance that the lifter is strong enough for it that day.
    pub chance: Thousandths,
    /// The same were strength at the lower end of the half of its values that are most likely: one chance in four is less.
    pub chance_low: Thousandths,
    /// And at the upper end: one chance in four is more.
    pub chance_high: Thousandths,
}

/// An attempt that the page plans itself.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PlannedAttempt {
    /// The load.
    pub load: Weighed,
    /// The chance that the lifter is strong enough for it that day; null where nothing says.
    pub chance: Option<Thousandths>,
}

words! {
    /// Why a lift has no attempts.
    pub enum Missing {
        /// The journal has no work on it.
        Work = "work",
        /// No clean set of it bears an estimate.
        Effort = "effort",
        /// It was not trained for eight weeks or more, and an estimate is a guess.
        Training = "training",
        /// Three attempts would begin below the empty bar.
        Load = "load",
    }
}

/// Plans.
pub(super) fn plan(history: &History<'_>, meet: &Meet<'_>, wanted: Wanted) -> Plan {
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
        let strength = evidence.as_ref().and_then(|evidence| evidence.strength_on(meet.date));
        let borne = evidence.as_ref().zip(id).and_then(|(evidence, id)| borne(history, evidence, id));
        let shown = |mark: Marked<'_>| mark.shown(history, |set| set.is_clean_work());
        let last_rated = evidence.and_then(|evidence| Some(evidence.days.last()?.mark.done.session.date));
        let mut plan = LiftPlan {
            competed,
            lift,
            estimate: strength.as_ref().and_then(|one| Estimate::of(one.in_one_attempt().maximum(), None)),
            last_rated,
            stale: last_rated.is_some_and(|date| (history.today - date).num_days() > STALE_WEEKS * 7),
            best: work.as_ref().and_then(|work| work.best).map(shown),
            triple: work.as_ref().and_then(|work| work.triple).map(shown),
            attempts: Vec::new(),
            planned: Vec::new(),
            after_missed_opener: None,
            expected: None,
            held_to: None,
            away: id.and_then(|id| TimeAway::of(history, id)),
            opener_done_for_three: None,
            missing: None,
        };
        let that_day = strength.as_ref().map(Strength::in_one_attempt);
        let chance = |load: &Weighed| Some(Figure(that_day.as_ref()?.chance_of(load.kilograms?.in_kilograms())));
        let planned = lifts.planned(meet, competed).into_iter();
        plan.planned = planned.map(|load| PlannedAttempt { chance: chance(&load), load }).collect();
        plan.missing = match &strength {
            Some(_) if plan.away.is_some_and(|away| away.guess) => Some(Missing::Training),
            Some(strength) => plan.propose(strength, borne, wanted).is_none().then_some(Missing::Load),
            None if work.is_some_and(|work| work.any) => Some(Missing::Effort),
            None => Some(Missing::Work),
        };
        plans.push(plan);
    }
    let total = plans.iter().try_fold(Mass::ZERO, |sum, plan| Some(sum + plan.expected?));
    let Wanted { step, chance, .. } = wanted;
    Plan { step, chance: Figure(chance), expected_total: total.filter(|_| !plans.is_empty()), lifts: plans }
}

/// The maximum that the lifter's heavy sets of late bear, whatever the best done.
fn borne(history: &History<'_>, evidence: &Evidence<'_>, lift: LiftId) -> Option<Mass> {
    let (reps, weeks) = BEARS;
    let late = history.works_of(lift).filter(|done| (history.today - done.session.date).num_days() <= weeks * 7);
    Mass::from_kilograms(evidence.shown_by(reps, late)?)
}

/// What was done on a lift.
struct Work<'a> {
    any: bool,
    best: Option<Marked<'a>>,
    triple: Option<Marked<'a>>,
}

impl<'a> Work<'a> {
    fn of(history: &History<'a>, lift: LiftId) -> Self {
        let clean = |done| Marked::of(done, |set| set.is_clean_work());
        let marks: Vec<Marked<'a>> = history.works_of(lift).flat_map(clean).collect();
        let heaviest = |least: u32, weeks: Option<i64>| {
            let recent = |mark: &&Marked<'_>| {
                weeks.is_none_or(|weeks| (history.today - mark.done.session.date).num_days() < weeks * 7)
            };
            let enough = |mark: &&Marked<'_>| mark.amount.reps().is_some_and(|reps| reps >= least);
            let known = marks.iter().filter(recent).filter(enough).filter(|mark| mark.kilograms().is_some());
            known.copied().max_by_key(|mark| order(mark, Scale::Kilograms))
        };
        Work { any: !marks.is_empty(), best: heaviest(1, None), triple: heaviest(3, Some(TRIPLE_WEEKS)) }
    }
}

impl LiftPlan {
    /// Puts in the attempts; `None` where they would begin below the empty bar.
    fn propose(&mut self, strength: &Strength, borne: Option<Mass>, wanted: Wanted) -> Option<()> {
        let (step, that_day) = (wanted.step, strength.in_one_attempt());
        let done = |mark: &Option<Mark>| mark.as_ref().and_then(|mark| mark.load.kilograms);
        let (best, triple) = (done(&self.best), done(&self.triple));
        let at = |chance: f64| Some(Mass::from_kilograms(that_day.maximum_at(chance)?)?.down_to(step));
        let (sure, wished) = (at(SURE)?, at(wanted.chance)?);
        // However much the estimate promises: so far above the best done, and what a heavy set bears.
        let most = best.map(|best| best + best.percent(i64::from(wanted.over_best) * 1000)).max(borne);
        self.held_to = most.map(|most| most.down_to(step)).filter(|most| *most < wished);
        let usual = Attempts::up_to(self.held_to.unwrap_or(wished), step)?;
        // No further above the best done than is sure, however much the estimate promises.
        let second = best.map_or(usual.second, |best| best.nearest(step).max(sure).min(usual.second));
        let plan = if second < usual.second { usual.with_second(second, step)? } else { usual };
        let plan = plan.with_opener_up_to(sure, step)?;
        let chances = plan.in_order().map(|load| (load, that_day.chance_of(load.in_kilograms())));
        let expected = expected_best(&chances.map(|(load, chance)| (load.in_kilograms(), chance)));
        self.expected = Some(Mass::from_kilograms(expected)?);
        let attempt = |(load, chance): (Mass, f64)| {
            let [chance_low, chance_high] = strength.chances_of(load.in_kilograms()).map(Figure);
            Attempt { load, chance: Figure(chance), chance_low, chance_high }
        };
        self.attempts = chances.map(attempt).into();
        let (second, third) = plan.after_a_missed_opener(step);
        self.after_missed_opener = Some([second, third]);
        self.opener_done_for_three = Some(triple.is_some_and(|triple| triple >= plan.opener));
        Some(())
    }
}
