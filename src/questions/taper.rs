//! `taper`: what a peak or deload week cuts, against the weeks before it and against what is advised.

use super::evidence::{Evidence, Ratings};
use crate::history::{Done, History, Mark, Marked, WeekKey};
pub use crate::science::taper::Fit;
use crate::science::taper::{self, Advice};
use crate::science::{Equation, statistics};
use crate::training::{BlockId, Family, LiftId, Mass, Session};
use chrono::NaiveDate;

/// A week is held against the mean of so many loading weeks before it.
const WEEKS_BEFORE: usize = 3;

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// The block, in place of the one that holds the last work.
    pub block: Option<BlockId>,
    /// The week of it, in place of its peak or deload week.
    pub week: Option<u32>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The block; nothing where there is none.
    pub block: Option<String>,
    /// The week.
    pub week: Option<u32>,
    /// What kind of week it is.
    pub kind: Kind,
    /// The loading weeks it is held against.
    pub against: Vec<u32>,
    /// All lifts together; nothing where one of the two sides has no work.
    pub all: Option<Row>,
    /// By family, in the order of the lift book.
    pub families: Vec<Row>,
    /// By lift, in order of their first work.
    pub lifts: Vec<Row>,
    /// Lifts of at least half of the weeks before that are not in this one.
    pub taken_out: Vec<String>,
    /// The test or meet that the week leads to.
    pub test: Option<Test>,
    /// The last heavy set of each competition lift before the test.
    pub heavy: Vec<Heavy>,
    /// What is advised, and how the week lies to it.
    pub checks: Vec<Check>,
    /// Why there is nothing to compare.
    pub why_not: Option<WhyNot>,
}

/// What kind of week.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A peak week.
    Peak,
    /// A deload week.
    Deload,
    /// Neither is said.
    Unmarked,
}

/// Why there is nothing to compare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// No work inside a block.
    NoBlock,
    /// The block has no peak or deload week.
    NoWeek,
    /// No work in that week yet.
    NoWork,
    /// No loading week before it.
    NothingBefore,
}

/// Sums of one week, or the mean of several.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measure {
    /// Work sets.
    pub sets: f64,
    /// Reps, of both sides.
    pub reps: f64,
    /// Kilograms times reps, of loads that are a mass.
    pub tonnage: f64,
    /// Tonnage over the reps in it.
    pub average_load: Option<f64>,
    /// The heaviest load.
    pub top: Option<Mass>,
    /// The mean effort of the sets that have one.
    pub effort: Option<f64>,
}

/// A lift, a family, or all.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub key: String,
    /// The mean of the weeks before.
    pub before: Measure,
    /// The week itself.
    pub now: Measure,
}

/// A day to be at one's best.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Test {
    /// The day.
    pub date: NaiveDate,
    /// The meet's name; nothing for a test day.
    pub meet: Option<String>,
}

/// The last heavy set of a competition lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Heavy {
    /// The lift.
    pub lift: String,
    /// The set, at more than 85 % of the maximum estimated for its day; nothing where there is none.
    pub mark: Option<Mark>,
    /// Percent of that maximum.
    pub percent: Option<f64>,
    /// Days from it to the test.
    pub days: Option<i64>,
}

/// One piece of advice.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What it is about.
    pub about: About,
    /// What was found.
    pub found: Option<f64>,
    /// The range that is advised.
    pub advised: (f64, f64),
    /// Where the advice is from.
    pub source: &'static str,
    /// How the week lies to it; nothing where it cannot be told.
    pub fit: Option<Fit>,
}

/// What advice is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// The change of tonnage, in percent.
    Volume,
    /// The change of the heaviest load of the competition lifts, in percent: the mean over those that stay in.
    Intensity,
    /// The change of sets a lift, in sets.
    Sets,
    /// The change of reps a set, in reps.
    Reps,
    /// The change of deadlift sets, in percent, against the lesser cut of squat and bench press: deadlifts come out
    /// first.
    DeadliftFirst,
    /// The change of sets of the other lifts that stay, in sets.
    Accessories,
    /// Days from the last heavy set of a lift to the test.
    HeavyDays(String),
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let mut answer = Answer {
        block: None,
        week: None,
        kind: Kind::Unmarked,
        against: Vec::new(),
        all: None,
        families: Vec::new(),
        lifts: Vec::new(),
        taken_out: Vec::new(),
        test: None,
        heavy: Vec::new(),
        checks: Vec::new(),
        why_not: None,
    };
    answer.why_not = fill(history, ask, &mut answer).err();
    answer
}

fn fill(history: &History<'_>, ask: &Ask, answer: &mut Answer) -> Result<(), WhyNot> {
    let last = history.sessions().iter().rev().find(|session| session.block.is_some() && has_work(session));
    let id = ask.block.or(last.and_then(|session| session.block)).ok_or(WhyNot::NoBlock)?;
    let block = history.log.block(id).ok_or(WhyNot::NoBlock)?;
    answer.block = Some(block.name.clone());
    let weeks: Vec<u32> =
        history.weeks().iter().filter(|week| week.key.block == id).map(|week| week.key.week).collect();
    let is_light = |week: u32| history.week(WeekKey { block: id, week }).light;
    let marked = block.peak.iter().chain(&block.deload).chain(&weeks).copied().filter(|week| is_light(*week)).max();
    let week = ask.week.or(marked).ok_or(WhyNot::NoWeek)?;
    answer.week = Some(week);
    answer.kind = kind(history, id, week);
    answer.test = if answer.kind == Kind::Deload { None } else { test(history, id, week) };
    let before: Vec<u32> = weeks.iter().copied().filter(|other| *other < week && !is_light(*other)).collect();
    let before = before.get(before.len().saturating_sub(WEEKS_BEFORE)..).unwrap_or(&[]);
    answer.against = before.to_vec();
    let now: Vec<Done<'_>> = work(history, id, week);
    if now.is_empty() {
        return Err(WhyNot::NoWork);
    }
    let then: Vec<Vec<Done<'_>>> =
        before.iter().map(|week| work(history, id, *week)).filter(|week| !week.is_empty()).collect();
    if then.is_empty() {
        return Err(WhyNot::NothingBefore);
    }
    let row = |key: &str, wanted: &dyn Fn(&Done<'_>) -> bool| {
        let of = |done: &[Done<'_>]| Measure::of(done.iter().copied().filter(|done| wanted(done)));
        Row {
            key: key.to_owned(),
            before: Measure::mean(&then.iter().map(|week| of(week)).collect::<Vec<_>>()),
            now: of(&now),
        }
    };
    let family_of = |done: &Done<'_>| history.log.lift(done.work.lift).map(|lift| lift.family);
    answer.all = Some(row("all", &|_| true));
    for family in Family::ALL {
        let row = row(family.word(), &|done| family_of(done) == Some(family));
        if row.before.sets > 0.0 || row.now.sets > 0.0 {
            answer.families.push(row);
        }
    }
    let mut lifts: Vec<LiftId> = Vec::new();
    for done in then.iter().flatten().chain(&now) {
        if !lifts.contains(&done.work.lift) {
            lifts.push(done.work.lift);
        }
    }
    for lift in &lifts {
        let row = row(history.log.lift_name(*lift), &|done| done.work.lift == *lift);
        let weeks = then.iter().filter(|week| week.iter().any(|done| done.work.lift == *lift)).count();
        if row.now.sets == 0.0 && 2 * weeks >= then.len() {
            answer.taken_out.push(row.key.clone());
        }
        answer.lifts.push(row);
    }
    let mut ratings = Ratings::new(history, Equation::default());
    let competition = competition(history);
    let evidence: Vec<(LiftId, Evidence<'_>)> =
        competition.iter().map(|lift| (*lift, ratings.evidence(*lift))).collect();
    answer.heavy =
        evidence.iter().map(|(lift, evidence)| heavy(history, *lift, evidence, answer.test.as_ref())).collect();
    let checks = checks(history, answer, &evidence, &competition);
    answer.checks = checks;
    Ok(())
}

fn has_work(session: &Session) -> bool {
    session.works.iter().any(|work| work.has_work())
}

/// The work of a week, without meets and test days: they are what the week is for.
fn work<'a>(history: &History<'a>, block: BlockId, week: u32) -> Vec<Done<'a>> {
    let week = history.week(WeekKey { block, week });
    let training = |done: &Done<'_>| done.session.meet.is_none() && !done.session.test_day && done.work.has_work();
    week.works().filter(training).collect()
}

fn kind(history: &History<'_>, id: BlockId, week: u32) -> Kind {
    let said = |weeks: &[u32]| weeks.contains(&week);
    let key = WeekKey { block: id, week };
    let (peak, deload) = history.log.block(id).map_or((false, false), |block| (said(&block.peak), said(&block.deload)));
    let sessions = history.week(key);
    let all = |marked: fn(&Session) -> bool| {
        sessions.light && sessions.sessions.iter().copied().filter(|session| has_work(session)).all(marked)
    };
    if peak || (!deload && all(|session| session.peak)) {
        Kind::Peak
    } else if deload || all(|session| session.deload) {
        Kind::Deload
    } else {
        Kind::Unmarked
    }
}

/// The first meet or test day on or after the first day of the week, up to two weeks after its last.
fn test(history: &History<'_>, id: BlockId, week: u32) -> Option<Test> {
    let block = history.log.block(id)?;
    let first = block.starts.checked_add_days(chrono::Days::new(u64::from(week.saturating_sub(1)) * 7))?;
    let last = first.checked_add_days(chrono::Days::new(6 + 14))?;
    let session = history
        .log
        .sessions
        .iter()
        .find(|session| (first..=last).contains(&session.date) && (session.meet.is_some() || session.test_day))?;
    Some(Test { date: session.date, meet: session.meet.as_deref().map(str::to_owned) })
}

/// Squat, bench press and deadlift: of each the lift of that name in the lift book, in the order of a meet.
fn competition(history: &History<'_>) -> Vec<LiftId> {
    ["Back squat", "Bench press", "Deadlift"].iter().filter_map(|name| history.find_lift(name).ok()).collect()
}

/// The last set before the test at more than 85 % of its day's estimated maximum.
fn heavy(history: &History<'_>, lift: LiftId, evidence: &Evidence<'_>, test: Option<&Test>) -> Heavy {
    let until = test.map_or(history.today, |test| test.date);
    let mut last: Option<(Marked<'_>, f64)> = None;
    for done in history.works_of(lift).filter(|done| done.session.date < until) {
        let Some(strength) = evidence.strength_on(done.session.date) else { continue };
        let maximum = strength.maximum().middle;
        let marks = Marked::of(done, |set| set.is_work());
        let heaviest = marks
            .into_iter()
            .filter(|mark| mark.amount.reps().is_some())
            .filter_map(|mark| Some((mark, mark.kilograms()?.in_kilograms() / maximum * 100.0)))
            .filter(|(_, percent)| *percent > taper::HEAVY_PERCENT)
            .max_by(|(_, one), (_, other)| one.total_cmp(other));
        last = heaviest.or(last);
    }
    Heavy {
        lift: history.log.lift_name(lift).to_owned(),
        days: last.as_ref().and_then(|(mark, _)| Some((test?.date - mark.done.session.date).num_days())),
        percent: last.as_ref().map(|(_, percent)| *percent),
        mark: last.map(|(mark, _)| mark.shown(history, |set| set.is_work())),
    }
}

fn checks(
    history: &History<'_>,
    answer: &Answer,
    evidence: &[(LiftId, Evidence<'_>)],
    competition: &[LiftId],
) -> Vec<Check> {
    let mut checks = Vec::new();
    let Some(all) = &answer.all else { return checks };
    let of = |about: About, found: Option<f64>, advice: Advice| Check {
        about,
        found,
        advised: (advice.low, advice.high),
        source: advice.source,
        fit: found.map(|found| advice.fit(found)),
    };
    if answer.kind != Kind::Deload {
        let volume = taper::change(all.before.tonnage, all.now.tonnage);
        checks.push(of(About::Volume, volume, taper::volume_for(strongest(history, evidence))));
    }
    let main: Vec<&Row> = answer
        .lifts
        .iter()
        .filter(|row| competition.iter().any(|lift| history.log.lift_name(*lift) == row.key))
        .collect();
    let kept: Vec<f64> = main
        .iter()
        .filter_map(|row| taper::change(row.before.top?.in_kilograms(), row.now.top?.in_kilograms()))
        .collect();
    if answer.kind != Kind::Deload {
        checks.push(of(About::Intensity, statistics::mean(&kept), taper::INTENSITY));
        let usual = "common practice, no source";
        let stay: Vec<&&Row> = main.iter().filter(|row| row.now.sets > 0.0).collect();
        let mean = |pick: fn(&Measure) -> f64| {
            statistics::mean(&stay.iter().map(|row| pick(&row.now) - pick(&row.before)).collect::<Vec<f64>>())
        };
        let around = |off: f64, each: f64| Advice { low: -off - each, high: -off + each, source: usual };
        checks.push(of(About::Sets, mean(|of| of.sets), around(taper::SETS_OFF, 0.5)));
        checks.push(of(About::Reps, mean(|of| of.reps / of.sets.max(1.0)), around(taper::REPS_OFF, 0.5)));
        let cut = |name: &str| {
            main.iter().find(|row| row.key == name).and_then(|row| taper::change(row.before.sets, row.now.sets))
        };
        let others = [cut("Back squat"), cut("Bench press")].into_iter().flatten().min_by(f64::total_cmp);
        if let (Some(deadlift), Some(others)) = (cut("Deadlift"), others) {
            let advice = Advice { low: -100.0, high: others.max(-100.0), source: usual };
            checks.push(of(About::DeadliftFirst, Some(deadlift), advice));
        }
        let accessories: Vec<f64> = answer
            .lifts
            .iter()
            .filter(|row| row.now.sets > 0.0 && row.before.sets > 0.0 && !main.iter().any(|main| main.key == row.key))
            .map(|row| row.now.sets - row.before.sets)
            .collect();
        checks.push(of(About::Accessories, statistics::mean(&accessories), around(taper::ACCESSORY_SETS_OFF, 0.5)));
    }
    for heavy in &answer.heavy {
        let bench = heavy.lift == "Bench press";
        let (low, high) = if bench { taper::HEAVY_BENCH_DAYS } else { taper::HEAVY_SQUAT_DEADLIFT_DAYS };
        let Some(days) = heavy.days else { continue };
        let fit = match days {
            days if days < low => Fit::Below,
            days if days > high => Fit::Above,
            _ => Fit::Within,
        };
        checks.push(Check {
            about: About::HeavyDays(heavy.lift.clone()),
            found: Some(days as f64),
            advised: (low as f64, high as f64),
            source: "Travis et al. 2021, what 364 powerlifters report",
            fit: Some(fit),
        });
    }
    checks
}

/// The greatest estimated maximum of the competition lifts over bodyweight.
fn strongest(history: &History<'_>, evidence: &[(LiftId, Evidence<'_>)]) -> Option<f64> {
    let own = history.sessions().iter().rev().find_map(Session::own_mass)?.in_kilograms();
    let maxima = evidence.iter().filter_map(|(_, evidence)| evidence.strength_on(history.today));
    maxima.map(|strength| strength.maximum().middle / own).max_by(f64::total_cmp)
}

impl Measure {
    fn of<'a>(works: impl Iterator<Item = Done<'a>>) -> Measure {
        let mut measure = Measure::default();
        let (mut loaded_reps, mut efforts) = (0.0, Vec::new());
        for done in works {
            let own = done.session.own_mass();
            for set in done.work_sets() {
                measure.sets += 1.0;
                let reps = f64::from(set.amount.reps().unwrap_or(0) * set.sides());
                measure.reps += reps;
                efforts.extend(set.effort.map(|effort| effort.value()));
                if let Some(load) = set.group.load.kilograms(own) {
                    measure.top = measure.top.max(Some(load));
                    if set.group.load.added().is_none() {
                        measure.tonnage += load.in_kilograms() * reps;
                        loaded_reps += reps;
                    }
                }
            }
        }
        measure.average_load = (loaded_reps > 0.0).then(|| measure.tonnage / loaded_reps);
        measure.effort = statistics::mean(&efforts);
        measure
    }

    /// The mean of several weeks; of loads and efforts over the weeks that have one.
    fn mean(weeks: &[Measure]) -> Measure {
        let mean =
            |pick: fn(&Measure) -> f64| statistics::mean(&weeks.iter().map(pick).collect::<Vec<f64>>()).unwrap_or(0.0);
        let known =
            |pick: fn(&Measure) -> Option<f64>| statistics::mean(&weeks.iter().filter_map(pick).collect::<Vec<f64>>());
        Measure {
            sets: mean(|week| week.sets),
            reps: mean(|week| week.reps),
            tonnage: mean(|week| week.tonnage),
            average_load: known(|week| week.average_load),
            top: known(|week| week.top.map(Mass::in_kilograms)).and_then(Mass::from_kilograms),
            effort: known(|week| week.effort),
        }
    }
}
