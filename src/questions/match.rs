//! `match`: this week against the same week of the block before.

use crate::analysis::compare::pairing::{Visit, nearest_before, pair};
use crate::analysis::compare::ranking;
pub use crate::analysis::compare::sides::{BackOff, Side};
use crate::analysis::strength::evidence::{Evidence, Ratings};
use crate::history::{ByLift, History, Week, WeekKey};
use crate::science::Equation;
use crate::training::{Amount, BlockId, Figure, Hundredths, LiftId, Session, Thousandths, Tolerance, fold, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::cmp::Ordering;
use std::collections::HashSet;

/// Strength is called ahead from this chance on, and behind from its counterpart down: 80 %.
const SURELY: f64 = 0.8;

/// What is asked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// Only this lift.
    pub lift: Option<LiftId>,
    /// The block, in place of the one of the last work.
    pub block: Option<BlockId>,
    /// The week of that block.
    pub week: Option<u32>,
    /// The other block, in place of the one before.
    pub against: Option<BlockId>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The block; nothing where no work was done in one.
    pub block: Option<String>,
    /// The week of it.
    pub week: Option<u32>,
    /// The other block; nothing where there is none before.
    pub against: Option<String>,
    /// The last day of that week, up to today, on which work was done.
    pub last_work: Option<NaiveDate>,
    /// Days from it to today, where the week is over and was not asked for by name.
    #[serde(skip)]
    pub days_idle: Option<i64>,
    /// Why there is no week to lay beside another; nothing where there is one.
    #[serde(skip)]
    pub no_week: Option<NoWeek>,
    /// What kind of week this one is.
    #[serde(skip)]
    pub kind: WeekKind,
    /// What kind the other one is.
    #[serde(skip)]
    pub against_kind: WeekKind,
    /// Each lift's sessions, side by side.
    pub pairs: Vec<Pair>,
}

/// What a week is for; two weeks that are not for the same are laid side by side without a verdict.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WeekKind {
    /// To train.
    #[default]
    Loading,
    /// To rest.
    Deload,
    /// To get ready.
    Peak,
    /// It has a meet in it.
    Meet,
}

/// Why there is no week to lay beside another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoWeek {
    /// No block is written.
    NoBlock,
    /// No session with work lies within the block, the last one begun where none was asked for.
    NoSession {
        /// Its name.
        block: String,
        /// Its first day.
        starts: NaiveDate,
        /// Its last day, where it has one.
        ends: Option<NaiveDate>,
        /// The last day with work in no block.
        outside: Option<NaiveDate>,
    },
}

/// A lift's sessions, side by side.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Pair {
    /// The lift.
    pub lift: String,
    /// The day's label, of now, else of then.
    pub day: Option<String>,
    /// This week's.
    pub now: Option<Side>,
    /// The other week's.
    pub then: Option<Side>,
    /// How each thing compares; nothing where a side is missing.
    pub comparison: Option<Comparison>,
    /// The verdict.
    pub verdict: Verdict,
    /// Whether the lift was done before the day of now, in whatever week.
    #[serde(skip)]
    pub is_known: bool,
    /// Which line of the rules gave it.
    pub basis: Option<u8>,
    /// The chance that strength is greater now than then, where both sides have a set of known effort.
    #[serde(rename = "p_ahead")]
    pub chance_ahead: Option<Thousandths>,
    /// What went up.
    pub up: Vec<&'static str>,
    /// What went down.
    pub down: Vec<&'static str>,
    /// How much more tonnage than then, in percent; nothing where one is not known.
    pub work_change: Option<Hundredths>,
    /// The earlier block that `then` is of, where it is not the one named in the answer.
    pub earlier: Option<String>,
}

words! {
    /// How one thing compares.
    pub enum Compared {
        /// More than then.
        Ahead = "ahead",
        /// The same.
        Level = "level",
        /// Less.
        Behind = "behind",
        /// It cannot be told.
        Unknown = "unknown",
    }
}

/// How everything compares.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Comparison {
    /// The load.
    pub load: Compared,
    /// Reps, or seconds or metres where there are none, of as many of the fullest sets as both sides have.
    pub reps: Compared,
    /// Sets.
    pub sets: Compared,
    /// Tonnage, within two percent.
    pub work: Compared,
    /// The estimated maximum, where the difference is sure enough; unknown without effort on both sides.
    pub strength: Compared,
}

words! {
    /// The verdict on a pair.
    pub enum Verdict {
        /// This week beats the other.
        Ahead = "ahead",
        /// They are the same.
        Level = "level",
        /// The other one was better.
        Behind = "behind",
        /// Some things went up, others down.
        Mixed = "mixed",
        /// It cannot be told.
        Unknown = "unknown",
        /// The lift had no partner then.
        New = "new",
        /// The lift was done then and was not now.
        Missing = "missing",
        /// The same, with days of the week left.
        ToCome = "to come",
    }
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    answer_with(history, ask, &mut Ratings::of_the_curve(history, Equation::default()))
}

/// Answers of several weeks, each lift's curve learned once.
pub fn answers(history: &History<'_>, asks: impl Iterator<Item = Ask>) -> Vec<Answer> {
    let mut ratings = Ratings::of_the_curve(history, Equation::default());
    asks.map(|ask| answer_with(history, &ask, &mut ratings)).collect()
}

/// Answers with curves that other questions ask for too.
pub(crate) fn answer_with(history: &History<'_>, ask: &Ask, ratings: &mut Ratings<'_, '_>) -> Answer {
    let none = || Answer {
        no_week: Some(no_week(history, ask)),
        block: None,
        week: None,
        against: None,
        last_work: None,
        days_idle: None,
        kind: WeekKind::default(),
        against_kind: WeekKind::default(),
        pairs: Vec::new(),
    };
    let Some(key) = anchor(history, ask) else { return none() };
    let now = history.week(key);
    let before = ask.against.or_else(|| key.block.before());
    let then = before.map(|block| history.week(WeekKey { block, week: key.week }));
    let weeks = Weeks::of(history, now, then);
    let mut pairs = Vec::new();
    for lift in weeks.lifts().into_iter().filter(|lift| ask.lift.is_none_or(|only| only == *lift)) {
        let evidence = ratings.evidence(lift);
        pairs.extend(weeks.pairs(lift, &evidence, ask.against.is_none()));
    }
    let Weeks { now, now_kind, then_kind, .. } = weeks;
    let last_work = now.works().filter(|done| done.work.has_work()).map(|done| done.session.date).max();
    let is_over = history.log.block(key.block).is_some_and(|block| block.week_ends(key.week) < history.today);
    let by_default = ask.block.is_none() && ask.week.is_none();
    let days_idle = last_work.filter(|_| by_default && is_over).map(|last| (history.today - last).num_days());
    Answer {
        block: history.log.block_name(key.block),
        week: Some(key.week),
        against: history.log.block_name(before),
        last_work,
        days_idle,
        no_week: None,
        kind: now_kind,
        against_kind: then_kind,
        pairs,
    }
}

/// The week that is held against another: the one of the last work done inside a block, unless asked.
pub(crate) fn anchor(history: &History<'_>, ask: &Ask) -> Option<WeekKey> {
    if let (Some(week), Some(block)) = (ask.week, ask.block) {
        return Some(WeekKey { block, week });
    }
    let with_work = |session: &Session| WeekKey::of(session).filter(|_| session.has_work());
    let last = match ask.block {
        Some(block) => history.of_block(block).into_iter().rev().find_map(with_work),
        None => history.sessions().iter().rev().find_map(with_work),
    }?;
    Some(WeekKey { week: ask.week.unwrap_or(last.week), ..last })
}

/// Why no week has work.
fn no_week(history: &History<'_>, ask: &Ask) -> NoWeek {
    let blocks = &history.log.blocks;
    let begun = || blocks.iter().rev().find(|block| block.starts <= history.today).or(blocks.first());
    let Some(block) = ask.block.and_then(|id| history.log.block(id)).or_else(begun) else { return NoWeek::NoBlock };
    let outside = history.sessions().iter().rev().find(|session| session.block.is_none() && session.has_work());
    NoWeek::NoSession {
        block: block.name.clone(),
        starts: block.starts,
        ends: block.ends,
        outside: outside.map(|session| session.date),
    }
}

/// Whether the week still has days after today.
fn week_is_open(history: &History<'_>, key: WeekKey) -> bool {
    history.log.block(key.block).is_some_and(|block| block.week_ends(key.week) > history.today)
}

/// Two weeks that are laid side by side.
struct Weeks<'h, 'a> {
    history: &'h History<'a>,
    now: Week<'a>,
    then: Option<Week<'a>>,
    now_kind: WeekKind,
    then_kind: WeekKind,
    works_now: ByLift<'a>,
    works_then: ByLift<'a>,
    /// The days of now that have work, by their folded labels.
    days_done: HashSet<String>,
}

impl<'h, 'a> Weeks<'h, 'a> {
    fn of(history: &'h History<'a>, now: Week<'a>, then: Option<Week<'a>>) -> Self {
        let done = |week: &Week<'a>| ByLift::of(week.works().filter(|done| done.work.has_work()));
        let days = now.sessions.iter().filter(|session| session.has_work());
        Weeks {
            history,
            now_kind: WeekKind::of(history, &now),
            then_kind: then.as_ref().map(|then| WeekKind::of(history, then)).unwrap_or_default(),
            works_now: done(&now),
            works_then: then.as_ref().map(done).unwrap_or_default(),
            days_done: days.filter_map(|session| session.day.as_deref()).map(fold).collect(),
            now,
            then,
        }
    }

    /// The lifts of both weeks, in order of their first work now, then of then.
    fn lifts(&self) -> Vec<LiftId> {
        let now = self.works_now.lifts().iter();
        let only_then = self.works_then.lifts().iter().filter(|lift| self.works_now.lines(**lift).is_empty());
        now.chain(only_then).copied().collect()
    }

    fn pairs(&self, lift: LiftId, evidence: &Evidence<'_>, look_further: bool) -> Vec<Pair> {
        let Weeks { history, now, then, .. } = self;
        let visits_now = Visit::of(self.works_now.lines(lift).iter().copied());
        let mut visits_then = Visit::of(self.works_then.lines(lift).iter().copied());
        let mut then_kind = self.then_kind;
        let mut earlier = None;
        let first = then.as_ref().map_or(now.key.block, |then| then.key.block);
        if visits_then.is_empty()
            && look_further
            && let Some((week, visits)) = nearest_before(history, first, now.key.week, lift)
        {
            visits_then = visits;
            then_kind = WeekKind::of(history, &week);
            earlier = history.log.block_name(week.key.block);
        }
        // A session that is behind the lifter this week brings back none of the lifts that were left out of it.
        let is_behind = |then: &Option<Side>, day: Option<&str>| {
            !week_is_open(history, now.key)
                || then.is_some() && day.is_some_and(|day| self.days_done.contains(&fold(day)))
        };
        let mut pairs = Vec::new();
        for (visit_now, visit_then) in pair(visits_now, visits_then) {
            let day = [&visit_now, &visit_then]
                .into_iter()
                .flatten()
                .find_map(|visit| visit.lines.first()?.session.day.as_deref());
            let day = day.map(str::to_owned);
            let (now_side, rated_now) = side(history, visit_now, evidence);
            let (then_side, rated_then) = side(history, visit_then, evidence);
            let chance_ahead = rated_now.zip(rated_then).and_then(|(now, then)| evidence.chance_ahead(now, then));
            let (comparison, verdict, basis) = match (&now_side, &then_side) {
                (Some(now_side), Some(then_side)) => {
                    let comparison = comparison(history, now_side, then_side, chance_ahead);
                    let (verdict, basis) = verdict(&comparison, now_side, then_side, self.now_kind == then_kind);
                    (Some(comparison), verdict, Some(basis))
                }
                (Some(_), None) => (None, Verdict::New, None),
                // A lift is missing against the block before only, not against earlier ones.
                _ if earlier.is_some() => continue,
                _ if is_behind(&then_side, day.as_deref()) => (None, Verdict::Missing, None),
                _ => (None, Verdict::ToCome, None),
            };
            let earlier = then_side.as_ref().and(earlier.clone());
            let tonnage = |side: &Option<Side>| side.as_ref().and_then(|side| side.tonnage);
            let work_change = tonnage(&now_side)
                .zip(tonnage(&then_side).filter(|then| then.in_kilograms() > 0.0))
                .map(|(now, then)| Figure((now.in_kilograms() / then.in_kilograms() - 1.0) * 100.0));
            let date = now_side.as_ref().map(|side| side.date);
            let mut pair = Pair {
                is_known: history.works_of(lift).next().map(|done| done.session.date) < date,
                lift: history.log.lift_name(lift).to_owned(),
                day,
                now: now_side,
                then: then_side,
                comparison,
                verdict,
                basis,
                chance_ahead: chance_ahead.map(Figure),
                work_change,
                up: Vec::new(),
                down: Vec::new(),
                earlier,
            };
            (pair.up, pair.down) = (pair.that_is(Compared::Ahead), pair.that_is(Compared::Behind));
            pairs.push(pair);
        }
        pairs
    }
}

/// One side of a pair, and its date where a set of known effort stands in it.
fn side(history: &History<'_>, visit: Option<Visit<'_>>, evidence: &Evidence<'_>) -> (Option<Side>, Option<NaiveDate>) {
    let Some(visit) = visit else { return (None, None) };
    let rated = evidence.best_of(visit.lines.iter().copied());
    let date = rated.as_ref().map(|rated| rated.mark.done.session.date);
    let side = Side::of(history, &visit)
        .map(|side| Side { estimate: rated.and_then(|rated| evidence.estimate(&rated)), ..side });
    (side, date)
}

fn comparison(history: &History<'_>, now: &Side, then: &Side, chance_ahead: Option<f64>) -> Comparison {
    let work = match (now.tonnage, then.tonnage) {
        (Some(now), Some(then)) if now.within_percent(then, 2) => Compared::Level,
        (Some(now), Some(then)) => Compared::of(now.cmp(&then)),
        _ => Compared::Unknown,
    };
    let reps = fullest(now, then).map_or(Compared::Unknown, |(now, then)| Compared::of(now.cmp(&then)));
    let sets = match (now.sets, then.sets) {
        (Some(now), Some(then)) => Compared::of(now.cmp(&then)),
        _ => Compared::Unknown,
    };
    let strength = match chance_ahead {
        Some(chance) if chance >= SURELY => Compared::Ahead,
        Some(chance) if chance <= 1.0 - SURELY => Compared::Behind,
        Some(_) => Compared::Level,
        None => Compared::Unknown,
    };
    Comparison { load: compare_loads(now, then, Tolerance::of(&history.log.gear)), reps, sets, work, strength }
}

/// The reps, seconds or metres of as many of the fullest sets as both sides have, of now and of then; nothing where the
/// two count different things.
pub fn fullest(now: &Side, then: &Side) -> Option<(Amount, Amount)> {
    let sets = now.each.len().min(then.each.len());
    let of = |side: &Side| {
        let mut each = side.each.clone();
        each.sort_unstable_by(|one, other| other.cmp(one));
        each.into_iter().take(sets).reduce(Amount::plus)
    };
    let (now, then) = (of(now)?, of(then)?);
    (std::mem::discriminant(&now) == std::mem::discriminant(&then)).then_some((now, then))
}

fn compare_loads(now: &Side, then: &Side, tolerance: Tolerance) -> Compared {
    let (Some(now_load), Some(then_load)) = (&now.load, &then.load) else { return Compared::Unknown };
    let compared = ranking::compare((now_load, now_load.kilograms), (then_load, then_load.kilograms), tolerance);
    compared.map_or(Compared::Unknown, Compared::of)
}

/// The verdict, by the first line of the rules that holds.
fn verdict(comparison: &Comparison, now: &Side, then: &Side, of_a_kind: bool) -> (Verdict, u8) {
    let Comparison { load, reps, sets, strength, .. } = *comparison;
    let known: Vec<Compared> =
        [load, reps, sets].into_iter().filter(|compared| *compared != Compared::Unknown).collect();
    if !of_a_kind || known.is_empty() {
        return (Verdict::Unknown, 0);
    }
    let efforts_agree = match (now.effort, then.effort) {
        (Some(now), Some(then)) => now == then,
        _ => true,
    };
    if load != Compared::Unknown && reps == Compared::Level && sets == Compared::Level && efforts_agree {
        return (load.verdict(), 1);
    }
    if strength != Compared::Unknown {
        return (strength.verdict(), 2);
    }
    let any = |compared| known.contains(&compared);
    match (any(Compared::Ahead), any(Compared::Behind)) {
        (true, false) => (Verdict::Ahead, 3),
        (false, true) => (Verdict::Behind, 3),
        (false, false) => (Verdict::Level, 3),
        (true, true) => (Verdict::Mixed, 4),
    }
}

impl Compared {
    fn of(ordering: Ordering) -> Compared {
        match ordering {
            Ordering::Greater => Compared::Ahead,
            Ordering::Equal => Compared::Level,
            Ordering::Less => Compared::Behind,
        }
    }

    fn verdict(self) -> Verdict {
        match self {
            Compared::Ahead => Verdict::Ahead,
            Compared::Level => Verdict::Level,
            Compared::Behind => Verdict::Behind,
            Compared::Unknown => Verdict::Unknown,
        }
    }
}

impl Pair {
    /// The words for reps, seconds, or metres, as this pair has them.
    fn amount_word(&self) -> &'static str {
        match self.now.as_ref().and_then(|side| side.amount) {
            Some(Amount::Seconds(_)) => "seconds",
            Some(Amount::Metres(_)) => "metres",
            _ => "reps",
        }
    }

    /// What went one way.
    fn that_is(&self, compared: Compared) -> Vec<&'static str> {
        let Some(comparison) = &self.comparison else { return Vec::new() };
        let named = [
            ("load", comparison.load),
            (self.amount_word(), comparison.reps),
            ("sets", comparison.sets),
            ("work", comparison.work),
        ];
        let mut words: Vec<&str> =
            named.iter().filter(|(_, known)| *known == compared).map(|(word, _)| *word).collect();
        let efforts =
            self.now.as_ref().and_then(|side| side.effort).zip(self.then.as_ref().and_then(|side| side.effort));
        let effort = efforts.map(|(now, then)| Compared::of(now.cmp(&then)));
        if effort == Some(compared) && compared != Compared::Level {
            words.push("effort");
        }
        if self.basis == Some(2) && comparison.strength == compared {
            words.push("strength");
        }
        words
    }
}

impl WeekKind {
    fn of(history: &History<'_>, week: &Week<'_>) -> WeekKind {
        let block = history.log.block(week.key.block);
        let is_deload = || block.is_some_and(|block| block.deload.contains(&week.key.week));
        let is_peak = || block.is_some_and(|block| block.peak.contains(&week.key.week));
        let any_peaks = || week.sessions.iter().any(|session| session.peak);
        match () {
            () if history.has_meet(week.key) => WeekKind::Meet,
            () if !week.light => WeekKind::Loading,
            () if is_peak() || !is_deload() && any_peaks() => WeekKind::Peak,
            () => WeekKind::Deload,
        }
    }
}
