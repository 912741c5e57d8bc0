//! What stands on an axis of dates: blocks with their light weeks, test days and meets.

use crate::history::{History, Mark, Marked, Meet, MeetKind, WeekKey};
use crate::training::{Block, BlockId, LiftId, Mass, words};
use chrono::{Days, NaiveDate};
use schemars::JsonSchema;
use serde::Serialize;

/// A block on the axis of dates.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Span {
    /// Its name.
    #[serde(rename = "block")]
    pub name: String,
    /// Its first day.
    pub starts: NaiveDate,
    /// Its last day; nothing where it has no end.
    pub ends: Option<NaiveDate>,
    /// Its deload and peak weeks that have begun, in order of time.
    pub light: Vec<LightWeek>,
}

/// A deload or peak week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
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

words! {
    /// What a week with less in it is for.
    pub enum LightKind {
        /// To recover.
        Deload = "deload",
        /// To be at one's best after it.
        Peak = "peak",
    }
}

/// A test day or meet.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
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
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Lifted {
    /// The set.
    #[serde(flatten)]
    pub mark: Mark,
    /// The load, without the lifter's own weight where it is in it.
    #[serde(skip)]
    pub load: Mass,
}

/// The blocks that have a day in the range.
pub(crate) fn spans(history: &History<'_>, first: NaiveDate, last: NaiveDate) -> Vec<Span> {
    let light: Vec<WeekKey> = history.weeks().filter(|week| week.light).map(|week| week.key).collect();
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

/// The test days and meets of the range that are done.
pub(crate) fn meet_days(history: &History<'_>, lift: LiftId, first: NaiveDate, last: NaiveDate) -> Vec<MeetDay> {
    let meets = history.meets();
    let inside = meets.iter().filter(|meet| (first..=last).contains(&meet.date) && !meet.is_to_come(history.today));
    inside.map(|meet| meet_day(history, lift, meet)).collect()
}

fn meet_day(history: &History<'_>, lift: LiftId, meet: &Meet<'_>) -> MeetDay {
    let done = history.works_of(lift).filter(|done| done.session.date == meet.date);
    let of_meet = done.filter(|done| meet.sessions.iter().any(|session| std::ptr::eq(*session, done.session)));
    let marks = of_meet.flat_map(|done| Marked::of(done, |set| set.is_clean_work()));
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
        lifted: heaviest.map(|(load, mark)| Lifted { mark: mark.shown(history, |set| set.is_clean_work()), load }),
    }
}
