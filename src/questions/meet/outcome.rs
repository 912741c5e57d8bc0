//! What came of a meet or test day that is done.

use super::lifts::Lifts;
use crate::analysis::strength::evidence::{Estimate, EstimateFields, Ratings};
use crate::history::{Done, History, Mark, Marked, Meet, MeetKind};
use crate::science::Equation;
use crate::science::points::{LEAST_BODYWEIGHT, dots, ipf_gl};
use crate::source::Place;
use crate::training::{
    Bodyweight, CompetitionLift, Effort, Equipment, Event, Figure, Hundredths, LiftId, Mass, Sex, Tolerance, Weighed,
    words,
};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// At a meet a lift has three attempts; a fourth at a record is no part of the total (from memory, high confidence).
const AT_A_MEET: usize = 3;

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Outcome {
    /// The bodyweight in force that day.
    pub bodyweight: Option<Bodyweight>,
    /// The lifts that were attempted, in the order of the day.
    pub lifts: Vec<LiftOutcome>,
    /// What else was done: rep maxima and other lifts.
    pub others: Vec<Other>,
    /// Good attempts.
    pub made: u32,
    /// Attempts.
    pub taken: u32,
    /// Attempts that the page had planned.
    pub planned: u32,
    /// Attempts taken with the load that was planned for them.
    pub as_planned: u32,
    /// The sum of the best attempts.
    #[serde(rename = "total_kg")]
    pub total: Option<Mass>,
    /// Why there is none.
    pub no_total: Option<NoTotal>,
    /// Because of which lift.
    #[serde(skip)]
    pub no_total_for: Option<CompetitionLift>,
    /// By which formula it is scored.
    pub formula: Formula,
    /// The points.
    pub points: Option<Hundredths>,
    /// Of which classes and in what kit they are.
    #[serde(skip)]
    pub scored_as: Option<(Sex, Equipment)>,
    /// Why there are none.
    pub no_points: Option<NoPoints>,
    /// The meet before that it is held against.
    pub before: Option<MeetBefore>,
}

/// What came of a lift.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LiftOutcome {
    /// What it is at the meet.
    pub competed: CompetitionLift,
    /// The lift of the journal.
    pub lift: String,
    /// Its attempts, in order.
    pub attempts: Vec<Taken>,
    /// The attempts that were planned, in order. What is changed on the day is no missed plan.
    pub planned: Vec<Weighed>,
    /// The heaviest good one that counts.
    #[serde(rename = "best_kg")]
    pub best: Option<Mass>,
    /// The heaviest good one of the meet before.
    #[serde(rename = "before_kg")]
    pub before: Option<Mass>,
    /// How much more that is than before; negative for less.
    #[serde(rename = "change_kg")]
    pub change: Option<Mass>,
    /// Whether some of its attempts are more than count: at a meet the first three do.
    #[serde(skip)]
    pub more_than_count: bool,
    /// What had been estimated, the day before, for one attempt that day.
    #[serde(flatten, serialize_with = "Estimate::or_null")]
    #[schemars(with = "EstimateFields")]
    pub estimated: Option<Estimate>,
}

/// An attempt taken.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Taken {
    /// The load.
    pub load: Weighed,
    /// Whether it was lifted without a fault.
    pub good: bool,
    /// Whether its load is the one that was planned for it; null where none was.
    pub as_planned: Option<bool>,
    /// The names of the faults on it.
    pub faults: Vec<String>,
    /// How hard, where known.
    pub effort: Option<Effort>,
    /// Where it stands.
    #[serde(flatten)]
    pub place: Place,
}

/// Something else that was done that day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Other {
    /// The lift.
    pub lift: String,
    /// The sets.
    pub mark: Mark,
}

words! {
    /// What a total is missing for.
    pub enum NoTotal {
        /// Nothing of one rep was attempted.
        NoAttempt = "attempt",
        /// A competition lift was done for reps only.
        RepsOnly = "single",
        /// A lift has no good attempt.
        NoGoodAttempt = "good attempt",
        /// A good attempt whose load is no mass.
        NoMass = "mass",
    }
}

words! {
    /// By which formula a total is scored.
    pub enum Formula {
        /// The IPF's GL points.
        IpfGl = "ipf-gl",
        /// DOTS.
        Dots = "dots",
    }
}

words! {
    /// What points are missing for.
    pub enum NoPoints {
        /// There is no total.
        Total = "total",
        /// No bodyweight is in force.
        Bodyweight = "bodyweight",
        /// Settings do not say the lifter's sex.
        Sex = "sex",
        /// The formula is for full meets and the bench press alone.
        Event = "event",
        /// The bodyweight is below those that the formula is for.
        TooLight = "heavier bodyweight",
    }
}

/// The meet before.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MeetBefore {
    /// How it is called.
    pub title: String,
    /// The day.
    pub date: NaiveDate,
    /// Its total, where it has one of the same lifts.
    #[serde(rename = "total_kg")]
    pub total: Option<Mass>,
    /// How much more the total is now; negative for less.
    #[serde(rename = "total_change_kg")]
    pub change: Option<Mass>,
}

/// Sums up.
pub(super) fn outcome(history: &History<'_>, meet: &Meet<'_>, formula: Formula) -> Outcome {
    let lifts = Lifts::of(history);
    let taken = Day::of(history, &lifts, meet);
    let before = meet_before(history, &lifts, meet, &taken);
    let yesterday = meet.date.pred_opt().map(|date| history.as_of(date));
    let mut ratings = yesterday.as_ref().map(|then| Ratings::new(then, Equation::default()));
    let results: Vec<LiftOutcome> = taken
        .lifts
        .iter()
        .map(|lift| {
            let evidence = ratings.as_mut().map(|ratings| ratings.evidence(lift.id));
            let strength = evidence.and_then(|evidence| Some(evidence.strength_on(meet.date)?.in_one_attempt()));
            let best = lift.best(meet.kind).and_then(|best| best.load.kilograms);
            let before = before.as_ref().and_then(|(_, before)| before.best(lift.competed));
            LiftOutcome {
                competed: lift.competed,
                lift: history.log.lift_name(lift.id).to_owned(),
                attempts: lift.attempts.clone(),
                planned: lift.planned.clone(),
                more_than_count: meet.kind == MeetKind::Meet && lift.attempts.len() > AT_A_MEET,
                best,
                before,
                change: best.zip(before).map(|(now, then)| now - then),
                estimated: strength.and_then(|strength| Estimate::of(strength.maximum(), None)),
            }
        })
        .collect();
    let bodyweight = bodyweight(meet);
    let (total, missing) = match taken.total() {
        Ok(total) => (Some(total), None),
        Err(missing) => (None, Some(missing)),
    };
    let points = points(history, &taken, total, bodyweight, formula);
    let attempts = || taken.lifts.iter().flat_map(|lift| &lift.attempts);
    let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    let same_lifts = |before: &Day| before.competed() == taken.competed();
    Outcome {
        bodyweight,
        made: count(attempts().filter(|attempt| attempt.good).count()),
        taken: count(attempts().count()),
        planned: count(CompetitionLift::ALL.iter().map(|competed| lifts.planned(meet, *competed).len()).sum()),
        as_planned: count(attempts().filter(|attempt| attempt.as_planned == Some(true)).count()),
        total,
        no_total: missing.map(|(why, _)| why),
        no_total_for: missing.and_then(|(_, lift)| lift),
        formula,
        points: points.as_ref().ok().map(|(points, _)| *points),
        scored_as: points.as_ref().ok().map(|(_, class)| *class),
        no_points: points.err(),
        before: before.map(|(meet, day)| {
            let then = day.total().ok().filter(|_| same_lifts(&day));
            let change = total.zip(then).map(|(now, then)| now - then);
            MeetBefore { title: meet.title().to_owned(), date: meet.date, total: then, change }
        }),
        lifts: results,
        others: taken.others,
    }
}

/// The latest earlier meet that had a good attempt at one of the same lifts; for a test day, a test day will do.
fn meet_before<'a>(
    history: &History<'a>,
    lifts: &Lifts<'_, 'a>,
    meet: &Meet<'_>,
    taken: &Day,
) -> Option<(Meet<'a>, Day)> {
    let earlier = history
        .meets()
        .into_iter()
        .rev()
        .filter(|other| other.date < meet.date && (other.kind == MeetKind::Meet || meet.kind == MeetKind::TestDay));
    let days = earlier.map(|other| {
        let day = Day::of(history, lifts, &other);
        (other, day)
    });
    let shares = |day: &Day| taken.lifts.iter().any(|lift| day.best(lift.competed).is_some());
    days.into_iter().find(|(_, day)| shares(day))
}

/// The bodyweight in force: one written that day before one that is older.
fn bodyweight(meet: &Meet<'_>) -> Option<Bodyweight> {
    let known = meet.sessions.iter().filter_map(|session| session.bodyweight);
    known.max_by_key(|own| own.date)
}

fn points(
    history: &History<'_>,
    day: &Day,
    total: Option<Mass>,
    bodyweight: Option<Bodyweight>,
    formula: Formula,
) -> Result<(Hundredths, (Sex, Equipment)), NoPoints> {
    let total = total.ok_or(NoPoints::Total)?.in_kilograms();
    let event = Event::of(&day.competed()).unwrap_or(Event::Other);
    if event == Event::Other && formula == Formula::IpfGl {
        return Err(NoPoints::Event);
    }
    let own = bodyweight.ok_or(NoPoints::Bodyweight)?.mass.in_kilograms();
    let competitor = &history.log.competitor;
    let (sex, equipment) = (competitor.sex.ok_or(NoPoints::Sex)?, competitor.equipment);
    if own < LEAST_BODYWEIGHT && formula == Formula::IpfGl {
        return Err(NoPoints::TooLight);
    }
    let points = match formula {
        Formula::IpfGl => ipf_gl(sex, equipment, event, own, total),
        Formula::Dots => dots(sex, own, total),
    };
    Ok((Figure(points.ok_or(NoPoints::Total)?), (sex, equipment)))
}

/// What was lifted on a meet's day.
struct Day {
    kind: MeetKind,
    /// In the order of the day.
    lifts: Vec<Lifted>,
    /// Competition lifts that were done for reps and never for one, on a test day. At a meet sets of reps are no part of
    /// it.
    reps_only: Vec<CompetitionLift>,
    others: Vec<Other>,
}

/// A competition lift's attempts.
struct Lifted {
    competed: CompetitionLift,
    /// The lift of the journal that was attempted first.
    id: LiftId,
    attempts: Vec<Taken>,
    planned: Vec<Weighed>,
}

impl Day {
    fn of<'a>(history: &History<'a>, lifts: &Lifts<'_, 'a>, meet: &Meet<'a>) -> Day {
        let mut day = Day { kind: meet.kind, lifts: Vec::new(), reps_only: Vec::new(), others: Vec::new() };
        let competed = lifts.works(meet);
        for (competed, done) in &competed {
            let taken = taken(history, *done);
            if taken.is_empty() {
                continue;
            }
            match day.lifts.iter_mut().find(|lift| lift.competed == *competed) {
                Some(lift) => lift.attempts.extend(taken),
                None => {
                    let planned = lifts.planned(meet, *competed);
                    day.lifts.push(Lifted { competed: *competed, id: done.work.lift, attempts: taken, planned });
                }
            }
        }
        let same = Tolerance::of(&history.log.gear);
        for lift in &mut day.lifts {
            for (taken, planned) in lift.attempts.iter_mut().zip(&lift.planned) {
                let loads = taken.load.kilograms.zip(planned.kilograms);
                taken.as_planned =
                    Some(loads.map_or(taken.load.load == planned.load, |(taken, planned)| {
                        same.compare(taken, planned).is_eq()
                    }));
            }
        }
        day.lifts.sort_by_key(|lift| lift.competed);
        for session in &meet.sessions {
            for work in &session.works {
                let done = Done { session, work };
                let of = competed.iter().find(|(_, other)| std::ptr::eq(other.work, work)).map(|(of, _)| *of);
                // The attempts stand above; what is left of a competition lift is what was done for reps.
                let marks = Marked::of(done, |set| set.is_work() && (of.is_none() || set.amount.reps() != Some(1)));
                for mark in marks {
                    let mark = mark.shown(history, |set| set.is_work());
                    day.others.push(Other { lift: history.log.lift_name(work.lift).to_owned(), mark });
                    if meet.kind == MeetKind::TestDay {
                        day.reps_only.extend(of.filter(|of| !day.reps_only.contains(of)));
                    }
                }
            }
        }
        day.reps_only.retain(|lift| !day.lifts.iter().any(|attempted| attempted.competed == *lift));
        day
    }

    fn competed(&self) -> Vec<CompetitionLift> {
        self.lifts.iter().map(|lift| lift.competed).collect()
    }

    fn best(&self, competed: CompetitionLift) -> Option<Mass> {
        self.lifts.iter().find(|lift| lift.competed == competed)?.best(self.kind)?.load.kilograms
    }

    /// The total; else what it is missing for, and because of which lift.
    fn total(&self) -> Result<Mass, (NoTotal, Option<CompetitionLift>)> {
        if let Some(lift) = self.reps_only.first().filter(|_| !self.lifts.is_empty()) {
            return Err((NoTotal::RepsOnly, Some(*lift)));
        }
        if self.lifts.is_empty() {
            return Err((NoTotal::NoAttempt, None));
        }
        self.lifts.iter().try_fold(Mass::ZERO, |sum, lift| {
            let best = lift.best(self.kind).ok_or((NoTotal::NoGoodAttempt, Some(lift.competed)))?;
            Ok(sum + best.load.kilograms.ok_or((NoTotal::NoMass, Some(lift.competed)))?)
        })
    }
}

impl Lifted {
    /// The heaviest good attempt that counts. One whose load is no mass only where there is no other.
    fn best(&self, kind: MeetKind) -> Option<&Taken> {
        let counted = if kind == MeetKind::Meet { AT_A_MEET } else { usize::MAX };
        self.attempts.iter().take(counted).filter(|attempt| attempt.good).max_by_key(|attempt| attempt.load.kilograms)
    }
}

/// The attempts of a work line: its sets of one rep or of none.
fn taken(history: &History<'_>, done: Done<'_>) -> Vec<Taken> {
    let attempts = done.work.groups.iter().flat_map(|group| group.sets()).filter(|set| {
        let reps = set.amount.reps();
        reps == Some(0) || reps == Some(1)
    });
    let taken = attempts.map(|set| {
        let faults: Vec<String> = set.faults().map(str::to_owned).collect();
        Taken {
            load: Weighed {
                load: set.group.load.clone(),
                kilograms: set.group.load.kilograms(done.session.own_mass()),
            },
            good: set.is_work() && faults.is_empty(),
            as_planned: None,
            faults,
            effort: set.effort,
            place: history.log.place(set.group.page, set.group.line),
        }
    });
    taken.collect()
}
