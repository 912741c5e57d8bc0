//! `draft block`: the first week of a block to come, or of one whose heading stands already; with `--whole` those after it.

use super::gyms::UsualGyms;
use super::outlook::{around, rpe};
use super::pain::Pains;
use super::shape::{at_percent, is_main, only, percent, plain, share_of};
use super::standing::{Said, Standing, standing};
use super::week::line;
use super::weeks::{USUAL_WEEKS, first_week_day, held, next_monday, placed, training_of, worked_block, worked_weeks};
use super::whole::{From, Weeks};
use super::{
    Answer, Change, Drafted, DraftedWork, Kept, Kind, LeftOut, NewBlock, Note, Of, WeekKind, WhyNot, WhyOut, answered,
    days_after, light, lines,
};
use crate::analysis::rack::{HangsOn, Rack};
use crate::analysis::strength::evidence::Evidence;
use crate::analysis::strength::time_away::TimeAway;
use crate::history::{History, WeekKey};
use crate::questions::room::Rpe;
use crate::science::strength::Strength;
use crate::science::{Equation, effort_scale};
use crate::training::{
    Amount, Block, BlockId, Effort, EffortRange, GymId, LiftId, Load, Mass, PlannedGroup, Session, fold,
};
use chrono::NaiveDate;

/// The first week is to leave room for those after it: RPE 6 to 7. Common practice, no source.
pub(super) const FIRST_WEEK: (i64, i64) = (6000, 7000);
/// The middle of it, for which a load is reckoned.
const FIRST_WEEK_MIDDLE: i64 = 6500;
/// What is asked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ask {
    /// Reps a set of squats, hinges and presses, in place of those of the last block.
    pub reps: Option<u32>,
    /// How many weeks, in place of as many as the last block.
    pub weeks: Option<u32>,
    /// The first day, in place of the one after the last block.
    pub starts: Option<NaiveDate>,
    /// The name, in place of the last one counted on.
    pub name: Option<String>,
    /// Every week of it, not only the first.
    pub whole: bool,
}

impl Ask {
    /// What is asked for of the block itself.
    pub(super) fn said(&self) -> Said<'_> {
        Said { name: self.name.as_deref(), starts: self.starts, weeks: self.weeks }
    }
}

/// Answers.
///
/// # Errors
/// [`WhyNot`] says what stands in the way.
pub fn answer(history: &History<'_>, ask: &Ask) -> Result<Answer, WhyNot> {
    let (id, last) = worked_block(history).ok_or(WhyNot::NoBlock)?;
    let standing = standing(history, Some(id), ask.said())?;
    let (new, weeks) = match standing {
        Some(standing) => (None, standing.weeks(history)?),
        None => {
            let new = NewBlock { maxima: maxima(history, last), ..new_block(history, last, ask)? };
            let weeks = vec![(1, new.starts)];
            (Some(new), weeks)
        }
    };
    let without = || WhyNot::NoTraining { block: last.name.clone() };
    let worked = worked_weeks(history, id);
    let trained = || worked.iter().filter(|key| training_of(history, **key).next().is_some());
    let like = *trained().find(|key| !history.week(**key).light).or(trained().next()).ok_or_else(without)?;
    let mut made = Made {
        history,
        reps: ask.reps,
        id,
        standing,
        rack: Rack::new(&history.log.gear),
        gym: None,
        pains: Pains::of(history),
        gyms: UsualGyms::of(history),
        left_out: Vec::new(),
        notes: Vec::new(),
        without_maximum: Vec::new(),
    };
    let mut week = 1;
    let mut sessions = Vec::new();
    // Of a block that has begun it is the first week with days to come.
    for (next, starts) in weeks {
        (week, made.left_out, made.without_maximum) = (next, Vec::new(), Vec::new());
        sessions = made.sessions(last, like, (next, starts))?;
        if !sessions.is_empty() {
            break;
        }
    }
    match standing {
        None if sessions.is_empty() && made.left_out.iter().any(|out| out.why == WhyOut::Past) => {
            return Err(WhyNot::Past(new.map_or(history.today, |new| new.starts)));
        }
        None if sessions.is_empty() => return Err(without()),
        Some(Standing { block, .. }) if sessions.is_empty() => {
            let week = block.ends.map_or(week, |ends| block.week_of(ends));
            return Err(WhyNot::BlockOver { block: block.name.clone(), week, free: next_monday(history.today)? });
        }
        _ => {}
    }
    sessions.sort_by_key(|drafted: &Drafted| drafted.date);
    let (mut left_out, without_maximum) = (made.left_out, made.without_maximum);
    if ask.whole {
        let from = From { history, id, block: last, week: like.week };
        let stands = standing.map(Standing::as_new);
        if let Some(new) = stands.as_ref().or(new.as_ref()) {
            let weeks = Weeks { from, own: history, new, after: week, standing, reps: ask.reps, keeps: true };
            let (later, out) = weeks.later()?;
            sessions.extend(later);
            left_out.extend(out);
        }
    }
    let carried = new.as_ref().is_some_and(|new| !new.maxima.is_empty()).then(|| Note::MaximaOf(last.name.clone()));
    let away = TimeAway::of_all(history).map(Note::Away);
    let notes = away.into_iter().chain(carried).chain(unknown_maxima(history, like)).chain(without_maximum).collect();
    let block = standing.map(|standing| &standing.block.name).or(new.as_ref().map(|new| &new.name));
    let (block, from_block) = (block.cloned().unwrap_or_default(), last.name.clone());
    let of = Of { kind: Kind::Block, block, week, from_block, from_week: like.week, week_kind: WeekKind::Loading };
    answered(history, of, new, (sessions, notes), left_out)
}

/// The lifts of a week that are planned in per cents, of a maximum that is not known.
fn unknown_maxima(history: &History<'_>, week: WeekKey) -> Vec<Note> {
    let mut unknown: Vec<Note> = Vec::new();
    for work in training_of(history, week).flat_map(|session| &session.works) {
        let plan = work.details.as_ref().and_then(|details| details.plan.as_ref());
        if plan.is_some_and(|plan| !plan.is_read() && plan.text.contains('%')) {
            let note = Note::MaximumOf(history.log.lift_name(work.lift).to_owned());
            unknown.extend((!unknown.contains(&note)).then_some(note));
        }
    }
    unknown
}

pub(super) fn new_block(history: &History<'_>, last: &Block, ask: &Ask) -> Result<NewBlock, WhyNot> {
    let last_weeks = last.ends.map(|ends| last.week_of(ends));
    let weeks = ask.weeks.or(last_weeks).unwrap_or(USUAL_WEEKS);
    let starts = match (ask.starts, last.ends.and_then(|ends| ends.succ_opt())) {
        (Some(starts), _) => starts,
        // The day after it, or the first of that weekday that is not past.
        (None, Some(free)) => {
            let weeks = (history.today - free).num_days().max(0).unsigned_abs().div_ceil(7);
            days_after(free, weeks * 7)?
        }
        (None, None) => next_monday(history.today)?,
    };
    let ends = days_after(starts, u64::from(weeks) * 7 - 1)?;
    for block in &history.log.blocks {
        let holds = match block.ends {
            Some(_) => block.holds(starts),
            // A block without an end runs until the next one starts.
            None => block.starts == starts,
        };
        if holds {
            let free = block.ends.unwrap_or(block.starts).succ_opt();
            return Err(WhyNot::Overlaps { block: block.name.clone(), free });
        }
        if (starts..=ends).contains(&block.starts) {
            return Err(WhyNot::ReachesInto { block: block.name.clone(), starts: block.starts });
        }
    }
    if days_after(starts, 6)? < history.today {
        return Err(WhyNot::Past(starts));
    }
    let light = |of_last: &[u32]| match last_weeks {
        // What was the last week stays the last one.
        Some(last) => of_last.iter().map(|week| if *week == last { weeks } else { *week }).collect::<Vec<u32>>(),
        None => of_last.to_vec(),
    };
    let within = |of_last: &[u32]| light(of_last).into_iter().filter(|week| (2..=weeks).contains(week)).collect();
    let is_taken = |name: &str| history.log.blocks.iter().any(|block| fold(&block.name) == fold(name));
    let name = match &ask.name {
        Some(name) if is_taken(name) => return Err(WhyNot::NameTaken(name.clone())),
        Some(name) => name.clone(),
        None => counted_on(&last.name, is_taken),
    };
    Ok(NewBlock { name, starts, weeks, deload: within(&last.deload), peak: within(&last.peak), maxima: Vec::new() })
}

/// What a block of this lifter's names as maxima.
fn maxima(history: &History<'_>, last: &Block) -> Vec<(String, Load)> {
    let mut maxima: Vec<(String, Load)> = Vec::new();
    for (lift, load) in &last.maxima {
        let name = history.log.lift_name(*lift).to_owned();
        // The last one written of a lift holds.
        maxima.retain(|(known, _)| *known != name);
        maxima.push((name, load.clone()));
    }
    maxima
}

/// The next name that is free: `9` is followed by `10`, `summer` by `summer 2`.
fn counted_on(name: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let stem = name.trim_end_matches(|c: char| c.is_ascii_digit());
    let number = name.get(stem.len()..).and_then(|digits| digits.parse::<u32>().ok()).filter(|n| *n < 1_000_000);
    let stem = if number.is_none() { format!("{name} ") } else { stem.to_owned() };
    let mut next = number.unwrap_or(1) + 1;
    // There are fewer blocks than numbers.
    while is_taken(&format!("{stem}{next}")) {
        next += 1;
    }
    format!("{stem}{next}")
}

/// A first week in the making.
struct Made<'h, 'a> {
    history: &'h History<'a>,
    reps: Option<u32>,
    id: BlockId,
    standing: Option<Standing<'a>>,
    rack: Rack<'a>,
    gym: Option<GymId>,
    pains: Pains<'h, 'a>,
    gyms: UsualGyms,
    left_out: Vec<LeftOut>,
    notes: Vec<Note>,
    without_maximum: Vec<Note>,
}

impl<'a> Made<'_, 'a> {
    /// The sessions of a week that starts on a day, made like one of the last block.
    fn sessions(
        &mut self,
        last: &Block,
        like: WeekKey,
        (week, starts): (u32, NaiveDate),
    ) -> Result<Vec<Drafted>, WhyNot> {
        let mut sessions = Vec::new();
        for (of_day, session) in &held(self.history, like) {
            let date = first_week_day(last, *of_day, starts)?;
            if date < self.history.today {
                self.left_out.push(LeftOut { date, lift: None, why: WhyOut::Past });
                continue;
            }
            let gym = self.gyms.of_session(session);
            if gym != self.gym {
                (self.gym, self.rack) = (gym, Rack::new(self.history.log.gear_at(gym)));
            }
            let works = self.works(session, date);
            let notes = std::mem::take(&mut self.notes);
            if !works.is_empty() || !notes.is_empty() {
                sessions.push(Drafted {
                    date,
                    minute: session.minute,
                    day: session.day.as_deref().map(str::to_owned),
                    gym: gym.and_then(|gym| self.history.log.gym(gym)).map(|gym| gym.name.clone()),
                    placed: self
                        .standing
                        .and_then(|Standing { id, block }| placed(self.history, (id, block), week, date)),
                    works,
                    notes,
                });
            }
        }
        Ok(sessions)
    }

    /// Shares of a maximum as shares of the one that the standing block names; where it names none, as loads.
    fn of_its_maxima(&mut self, lift: LiftId, groups: &mut [PlannedGroup]) {
        let Some(Standing { block, .. }) = self.standing else { return };
        let maximum = block.maxima.iter().rev().find(|(of, _)| *of == lift).and_then(|(_, load)| load.kilograms(None));
        let known = self.history.log.lift(lift);
        for group in groups {
            let (Some(share), Some(mass)) = (percent(&group.load), group.load.kilograms(None)) else { continue };
            let plain = plain(mass);
            let on = self.rack.hangs_on(&plain, group.per_side, known);
            let load = match maximum {
                Some(maximum) => share_of(maximum, share),
                None => self.rack.nearest(on, mass).or(Some(plain)),
            };
            let Some(load) = load else { continue };
            group.load = load;
            if maximum.is_none() {
                let lift = self.history.log.lift_name(lift).to_owned();
                let note = Note::NoMaximumIn { lift, block: block.name.clone() };
                self.without_maximum.extend((!self.without_maximum.contains(&note)).then_some(note));
            }
        }
    }

    fn works(&mut self, session: &Session, date: NaiveDate) -> Vec<DraftedWork> {
        let mut works = Vec::new();
        for work in &session.works {
            let lift = self.history.log.lift_name(work.lift).to_owned();
            let mut groups = line(self.history, self.id, session, work);
            if groups.is_empty() {
                self.left_out.push(LeftOut { date, lift: Some(lift), why: WhyOut::NothingWritten });
                continue;
            }
            if let Some(note) = self.pains.keep_out(work.lift) {
                self.left_out.push(LeftOut { date, lift: Some(lift), why: WhyOut::Pain });
                self.notes.push(note.of(groups));
                continue;
            }
            self.of_its_maxima(work.lift, &mut groups);
            let (groups, changes) = self.first_week(work.lift, groups, session.own_mass());
            works.extend(lines(DraftedWork { lift, groups, changes }));
        }
        works
    }

    fn first_week(
        &mut self,
        lift: LiftId,
        mut groups: Vec<PlannedGroup>,
        own: Option<Mass>,
    ) -> (Vec<PlannedGroup>, Vec<Change>) {
        let known = self.history.log.lift(lift);
        // Of a line of several groups the one with the most sets is the work; of equals the first.
        let work = groups.iter().rev().max_by_key(|group| group.fewest).cloned();
        let heaviest = groups.iter().max_by_key(|group| group.load.kilograms(own)).cloned();
        let (Some(work), Some(heaviest)) = (work, heaviest) else { return (groups, Vec::new()) };
        let of_maximum = percent(&heaviest.load).is_some();
        let (Amount::Reps(reps_then), true) = (
            work.amounts.least(),
            of_maximum || !matches!(self.rack.hangs_on(&heaviest.load, heaviest.per_side, known), HangsOn::Implement),
        ) else {
            return (groups, if light::is_loaded(&[work]) { vec![Change::Kept(Kept::Implement)] } else { Vec::new() });
        };
        let reps = self.reps.filter(|_| is_main(known)).unwrap_or(reps_then);
        // After weeks without the lift the maximum is not what it was.
        if of_maximum && reps == reps_then && TimeAway::of(self.history, lift).is_none() {
            return (groups, vec![Change::Kept(Kept::Percent)]);
        }
        let evidence = Evidence::of(self.history, lift, Equation::default());
        let strength = evidence.strength_on(self.history.today);
        if reps == reps_then
            && let Some(effort) = easy_enough(strength.as_ref(), &heaviest, own)
        {
            for group in &mut groups {
                let on = self.rack.hangs_on(&group.load, group.per_side, known);
                let is_top = group.load == heaviest.load && group.amounts == heaviest.amounts;
                if let (HangsOn::Bar { .. }, Some(mass)) = (on, group.load.kilograms(None))
                    && let Some(load) = self.rack.nearest(on, mass)
                {
                    group.load = load;
                }
                if is_top {
                    group.effort = effort.or(group.effort);
                }
            }
            let change = if of_maximum { Change::Kept(Kept::Percent) } else { Change::FirstWeek };
            return (groups, vec![change]);
        }
        let on = self.rack.hangs_on(&heaviest.load, heaviest.per_side, known);
        let own = if let HangsOn::Lifter = on { evidence.own_weight() } else { None };
        let advised = strength
            .and_then(|strength| advised(&strength, reps))
            .map(|everything| everything - own.unwrap_or_default());
        let advised = advised.map(|wanted| match on {
            HangsOn::Lifter => heaviest.load.added().map_or(wanted, |known| self.rack.moved(on, known, wanted - known)),
            _ => wanted,
        });
        let load = match advised {
            // Whole per cents of the maximum, rounded down.
            Some(wanted) if of_maximum => {
                let share = percent(&heaviest.load).zip(heaviest.load.kilograms(None));
                let share = share.map(|(share, mass)| wanted.in_kilograms() / mass.in_kilograms() * share as f64);
                share.and_then(|share| at_percent(&heaviest.load, share as i64 / 1000 * 1000))
            }
            Some(wanted) => self.rack.at_most(on, wanted),
            None => None,
        };
        let change = if load.is_some() { Change::Estimated(rpe(FIRST_WEEK_MIDDLE)) } else { Change::LoadUnknown };
        let group = PlannedGroup {
            amounts: only(Amount::Reps(reps)),
            bouts: None,
            load: load.unwrap_or(Load::None),
            effort: Some(EffortRange { low: rpe(FIRST_WEEK.0), high: rpe(FIRST_WEEK.1) }),
            ..work
        };
        (vec![group], vec![change])
    }
}

/// Whether a load leaves room for the weeks after: the effort that it asks for, nothing inside where that is not known.
/// `None` where it is too hard.
fn easy_enough(strength: Option<&Strength>, group: &PlannedGroup, own: Option<Mass>) -> Option<Option<EffortRange>> {
    let (Some(strength), Some(load), Amount::Reps(reps)) = (strength, group.load.kilograms(own), group.amounts.least())
    else {
        return Some(None);
    };
    match Rpe::ahead(strength, load.in_kilograms(), reps).map_or(Rpe::Light, |[_, middle, _]| middle) {
        Rpe::Light => Some(None),
        Rpe::Of(effort) if effort <= rpe(FIRST_WEEK.1) => Some(around(Rpe::Of(effort), Effort::MAXIMAL)),
        Rpe::Of(_) | Rpe::Missed => None,
    }
}

/// The load, everything lifted, for so many reps in the first week.
fn advised(strength: &Strength, reps: u32) -> Option<Mass> {
    let left = effort_scale::reps_in_reserve(rpe(FIRST_WEEK_MIDDLE))?;
    Mass::from_kilograms(strength.load_for(f64::from(reps), left)?.middle)
}
