//! `course`: how the estimated maximum of a lift went over dates.
//!
//! Every date is judged by the curve of reps against load that is known today, as the blocks of `estimate` are: the
//! line rises where strength did, and not where the curve became better known. So an earlier date may say something
//! else than `estimate` said when it was asked on that day.

pub use super::evidence::{Curve, Estimate};
use super::evidence::{Evidence, Rated, own_weight};
use crate::history::{History, Mark, Marked, Meet, MeetKind, WeekKey};
use crate::science::Equation;
use crate::science::strength::Strength;
use crate::training::{Block, BlockId, LiftId, Mass, Unit};
use chrono::{Days, NaiveDate};

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The lift.
    pub lift: LiftId,
    /// The equation to start from.
    pub equation: Equation,
    /// No date before this; the estimates rest on earlier sets all the same.
    pub since: Option<NaiveDate>,
    /// No date after this.
    pub until: Option<NaiveDate>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The lift.
    pub lift: String,
    /// The equation.
    pub equation: Equation,
    /// What shaped the curve of reps against load.
    pub curve: Curve,
    /// The unit that the lifter writes this lift's loads in.
    pub unit: Unit,
    /// Whether the estimates are of what is added to the lifter's own weight.
    pub added: bool,
    /// The dates with evidence, in order of time.
    pub points: Vec<Point>,
    /// The blocks that reach into the range, in order of time; see [`Answer::range`].
    pub blocks: Vec<Span>,
    /// The test days and meets in the range, in order of time.
    pub meets: Vec<MeetDay>,
}

/// The estimate of a date.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// The date.
    pub date: NaiveDate,
    /// The block that the date's sets stand in.
    pub block: Option<String>,
    /// From every date up to it, with its 80 % interval.
    pub estimate: Estimate,
    /// What the date's surest set says by itself.
    pub alone: Option<Estimate>,
}

/// A block on the axis of dates.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// Its name.
    pub name: String,
    /// Its first day.
    pub starts: NaiveDate,
    /// Its last day; nothing where it has no end.
    pub ends: Option<NaiveDate>,
    /// Its deload and peak weeks that have begun, in order of time.
    pub light: Vec<LightWeek>,
}

/// A deload or peak week.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LightWeek {
    /// Which of the two.
    pub kind: LightKind,
    /// Its number in the block, from 1.
    pub week: u32,
    /// Its first day.
    pub starts: NaiveDate,
    /// Its last day.
    pub ends: NaiveDate,
}

/// What a week with less in it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LightKind {
    /// To recover.
    Deload,
    /// To be at one's best after it.
    Peak,
}

/// A test day or meet.
#[derive(Clone, Debug, PartialEq)]
pub struct MeetDay {
    /// Which of the two.
    pub kind: MeetKind,
    /// How it is called: by its name, else by its kind.
    pub title: String,
    /// The day.
    pub date: NaiveDate,
    /// The heaviest clean set of the lift that day; nothing where there is none.
    pub lifted: Option<Lifted>,
}

/// What was lifted.
#[derive(Clone, Debug, PartialEq)]
pub struct Lifted {
    /// The set.
    pub mark: Mark,
    /// The load, without the lifter's own weight where it is in it.
    pub load: Mass,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    let evidence = Evidence::of(history, ask.lift, ask.equation);
    let asked =
        |date: &NaiveDate| ask.since.is_none_or(|since| since <= *date) && ask.until.is_none_or(|until| *date <= until);
    let days = evidence.day_by_day();
    let days = days.iter().filter(|(rated, _)| asked(&rated.mark.done.session.date));
    let points: Vec<Point> = days.filter_map(|(rated, strength)| point(history, &evidence, rated, strength)).collect();
    let mut answer = Answer {
        lift: history.log.lift_name(ask.lift).to_owned(),
        equation: ask.equation,
        curve: evidence.curve,
        unit: evidence.unit(),
        added: evidence.own_weight().is_some(),
        points,
        blocks: Vec::new(),
        meets: Vec::new(),
    };
    if let Some((first, last)) = answer.range(ask, history.today) {
        answer.blocks = spans(history, first, last);
        let meets = history.meets();
        let inside = meets.iter().filter(|meet| (first..=last).contains(&meet.date) && !meet.is_to_come(history.today));
        answer.meets = inside.map(|meet| meet_day(history, ask.lift, meet)).collect();
    }
    answer
}

impl Answer {
    /// The days that are shown: those that were asked for, else from the first date with evidence to today. `None`
    /// where nothing says where to begin, or where the end comes before.
    pub fn range(&self, ask: &Ask, today: NaiveDate) -> Option<(NaiveDate, NaiveDate)> {
        let first = ask.since.or(self.points.first().map(|point| point.date))?;
        let last = ask.until.map_or(today, |until| until.min(today));
        (first <= last).then_some((first, last))
    }
}

fn point(history: &History<'_>, evidence: &Evidence<'_>, rated: &Rated<'_>, strength: &Strength) -> Option<Point> {
    let session = rated.mark.done.session;
    Some(Point {
        date: session.date,
        block: session.block.and_then(|id| history.log.block(id)).map(|block| block.name.clone()),
        estimate: Estimate::of(strength.maximum(), own_weight(&rated.mark))?,
        alone: evidence.estimate(rated),
    })
}

/// The blocks that have a day in the range.
fn spans(history: &History<'_>, first: NaiveDate, last: NaiveDate) -> Vec<Span> {
    let light: Vec<WeekKey> = history.weeks().into_iter().filter(|week| week.light).map(|week| week.key).collect();
    let blocks = &history.log.blocks;
    // A block without an end goes on until the next one begins.
    let next = blocks.iter().skip(1).map(|next| next.starts.pred_opt()).chain([None]);
    let ended = (0..).map(BlockId).zip(blocks).zip(next).map(|((id, block), eve)| (id, block, block.ends.or(eve)));
    ended
        .filter(|(_, block, ends)| block.starts <= last && ends.is_none_or(|ends| first <= ends))
        .map(|(id, block, ends)| Span {
            name: block.name.clone(),
            starts: block.starts,
            ends,
            light: light_weeks(history, id, block, &light, last),
        })
        .collect()
}

/// The weeks of a block that itself or all their sessions say are a deload or a peak.
fn light_weeks(
    history: &History<'_>,
    id: BlockId,
    block: &Block,
    by_sessions: &[WeekKey],
    last: NaiveDate,
) -> Vec<LightWeek> {
    let marked = by_sessions.iter().filter(|key| key.block == id).map(|key| key.week);
    let mut weeks: Vec<u32> = block.deload.iter().chain(&block.peak).copied().chain(marked).collect();
    weeks.sort_unstable();
    weeks.dedup();
    let light = |week: u32| {
        let starts = block.starts.checked_add_days(Days::new(u64::from(week.checked_sub(1)?) * 7))?;
        let in_sessions = || {
            let sessions = history.week(WeekKey { block: id, week }).sessions;
            sessions.iter().any(|session| session.peak)
        };
        let peak = block.peak.contains(&week) || (!block.deload.contains(&week) && in_sessions());
        let kind = if peak { LightKind::Peak } else { LightKind::Deload };
        let inside = starts <= last && block.ends.is_none_or(|ends| starts <= ends);
        inside.then_some(LightWeek { kind, week, starts, ends: block.week_ends(week) })
    };
    weeks.into_iter().filter_map(light).collect()
}

fn meet_day(history: &History<'_>, lift: LiftId, meet: &Meet<'_>) -> MeetDay {
    let done = history.works_of(lift).filter(|done| done.session.date == meet.date);
    let of_meet = done.filter(|done| meet.sessions.iter().any(|session| std::ptr::eq(*session, done.session)));
    let marks = of_meet.flat_map(|done| Marked::of(done, |set| set.is_work() && set.is_clean()));
    let mut heaviest: Option<(Mass, Marked<'_>)> = None;
    for mark in marks.filter(|mark| mark.amount.reps().is_some()) {
        let Some(load) = mark.group.load.added().or(mark.kilograms()) else { continue };
        if heaviest.as_ref().is_none_or(|(most, _)| load > *most) {
            heaviest = Some((load, mark));
        }
    }
    MeetDay {
        kind: meet.kind,
        title: meet.title().to_owned(),
        date: meet.date,
        lifted: heaviest
            .map(|(load, mark)| Lifted { mark: mark.shown(history, |set| set.is_work() && set.is_clean()), load }),
    }
}
