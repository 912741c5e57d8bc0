//! `draft week`: the week after this one.

use super::fill;
use super::gyms::UsualGyms;
use super::light::{self, Light};
use super::missed::{Base, Then, base};
use super::outlook::{Day, around, under};
use super::pain::Pains;
use super::pattern::{LinesByPlace, Rise};
use super::shape::{at_percent, held, percent, shape};
use super::weeks::{
    held as held_in, kind, loading_or_last, next_monday, placed, training_of, worked_block, worked_weeks,
};
use super::{
    Answer, Change, Drafted, DraftedWork, Kept, Kind, LeftOut, Meet, Note, Of, WeekKind, WhyNot, WhyOut, answered,
    days_after, is_training, lines,
};
use crate::analysis::plan::week_kind::MOST_AT_ONCE;
use crate::analysis::rack::{HangsOn, Rack};
use crate::history::{History, WeekKey};
use crate::questions::review::NEAR_MEET;
use crate::questions::room::{self, Rpe};
use crate::training::{
    Block, BlockId, CompetitionLift, Effort, Efforts, GymId, LiftId, Mass, PlannedGroup, Session, Work,
};
use chrono::{Days, NaiveDate};
use std::collections::{HashMap, HashSet};
use std::rc::Rc;

/// A peak week is held against so many loading weeks.
const LOADING_WEEKS: usize = 3;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The effort that the block's last loading week shall not go over.
    pub cap: Effort,
    /// The week, in place of the next one.
    pub week: Option<u32>,
    /// The first day of the week, in place of the next one's.
    pub starts: Option<NaiveDate>,
}

/// Answers.
///
/// # Errors
/// [`WhyNot`] says what stands in the way.
pub fn answer(history: &History<'_>, ask: Ask) -> Result<Answer, WhyNot> {
    let (id, block) = worked_block(history).ok_or(WhyNot::NoBlock)?;
    let after = (id.0 + 1..).map(BlockId).map_while(|id| Some((id, history.log.block(id)?)));
    let later = after.into_iter().find(|(_, block)| block.ends.is_none_or(|ends| ends >= history.today));
    let has_begun = later.is_some_and(|(_, block)| block.starts <= history.today);
    let of_worked = if has_begun { None } else { Some(of_worked(history, ask, (id, block))) };
    match (of_worked, later) {
        (None, Some(later)) => of_later(history, ask, id, later),
        (Some(Err(WhyNot::BlockOver { .. })), Some(later)) if ask.week.is_none() => of_later(history, ask, id, later),
        (Some(drafted), _) => drafted,
        (None, None) => Err(WhyNot::NoBlock),
    }
}

/// The draft of a week of the block that was worked in last.
fn of_worked(history: &History<'_>, ask: Ask, (id, block): (BlockId, &Block)) -> Result<Answer, WhyNot> {
    let worked = worked_weeks(history, id);
    let last_worked = worked.last().ok_or(WhyNot::NoBlock)?.week;
    let this_week = if block.holds(history.today) { block.week_of(history.today) } else { 0 };
    let asked = asked(block, ask)?;
    let next = asked.unwrap_or(last_worked.saturating_add(1).max(this_week));
    // Where all days of a week are past, it is the one after it that is planned.
    let drafted = drafted(history, ask, (id, block), &worked, next);
    match (drafted, asked) {
        (Err(WhyNot::WeekPast { week, .. }), None) => self::drafted(history, ask, (id, block), &worked, week + 1),
        (drafted, _) => drafted,
    }
}

/// The loads of a week of a block after that one, of which nothing is done: where it is planned they come from what was done
/// before, else it has a first week to be drafted.
fn of_later(
    history: &History<'_>,
    ask: Ask,
    worked: BlockId,
    (id, block): (BlockId, &Block),
) -> Result<Answer, WhyNot> {
    let this_week = block.week_of(history.today);
    let (first, last) = asked(block, ask)?.map_or((this_week, this_week + 1), |week| (week, week));
    let planned = (first..=last).find_map(|week| {
        let planned = fill::planned(history, WeekKey { block: id, week });
        (!planned.is_empty()).then_some((week, planned))
    });
    let (week, planned) = planned.ok_or_else(|| WhyNot::NotBegun { block: block.name.clone() })?;
    let done = worked_weeks(history, worked).last().ok_or(WhyNot::NoBlock)?.week;
    let from_block = history.log.block(worked).map_or_else(String::new, |block| block.name.clone());
    let kind = WeekKind::of(history, block, week);
    let of = Of { kind: Kind::Week, block: block.name.clone(), week, from_block, from_week: done, week_kind: kind };
    fill::From { history, lines_by_place: LinesByPlace::new(history, id, block), done: 0, kind, cap: ask.cap }
        .answer(&planned, of)
}

/// The week that is asked for.
fn asked(block: &Block, ask: Ask) -> Result<Option<u32>, WhyNot> {
    match ask.starts {
        Some(starts) => starting_on(block, starts).map(Some),
        None => Ok(ask.week),
    }
}

/// The week of a block that starts on a day.
fn starting_on(block: &Block, asked: NaiveDate) -> Result<u32, WhyNot> {
    let days = (asked - block.starts).num_days();
    let (block_name, week) = (block.name.clone(), block.week_of(asked));
    if block.holds(asked) && days % 7 == 0 {
        return Ok(week);
    }
    if block.ends.is_some_and(|ends| asked > ends) {
        return Err(WhyNot::BlockOver { block: block_name, week, free: asked });
    }
    let starts = days_after(block.starts, u64::from(week.saturating_sub(1)) * 7)?;
    let week = block.holds(asked).then_some((week, starts));
    Err(WhyNot::NoWeekStarts { block: block_name, asked, week })
}

/// The draft of a week of the block.
fn drafted(
    history: &History<'_>,
    ask: Ask,
    (id, block): (BlockId, &Block),
    worked: &[WeekKey],
    week: u32,
) -> Result<Answer, WhyNot> {
    if let Some(ends) = block.ends
        && (week > block.week_of(ends) || history.today > ends)
    {
        let free = if ends < history.today { next_monday(history.today)? } else { days_after(ends, 1)? };
        return Err(WhyNot::BlockOver { block: block.name.clone(), week: block.week_of(ends), free });
    }
    let earlier: Vec<WeekKey> = worked.iter().filter(|key| key.week < week).copied().collect();
    let done = loading_or_last(history, &earlier)
        .or_else(|| loading_or_last(history, worked))
        .ok_or(WhyNot::NoTraining { block: block.name.clone() })?;
    let Base { week: like, then, note } = base(history, (id, block), done, week);
    let (load, meet) = kind(history, block, week);
    let planned = fill::planned(history, WeekKey { block: id, week });
    if planned.iter().any(|session| fill::has_open(session)) {
        let [name, from_block] = [block.name.clone(), block.name.clone()];
        let of = Of { kind: Kind::Week, block: name, week, from_block, from_week: done, week_kind: load };
        let lines_by_place = LinesByPlace::new(history, id, block);
        return fill::From { history, lines_by_place, done, kind: load, cap: ask.cap }.answer(&planned, of);
    }
    let mut made = Made {
        history,
        ask,
        id,
        block,
        load,
        then,
        pains: Pains::of(history),
        lines_by_place: LinesByPlace::new(history, id, block),
        gyms: UsualGyms::of(history),
        rack: Rack::new(&history.log.gear),
        gym: None,
        left_out: Vec::new(),
        notes: Vec::new(),
        rooms: HashMap::new(),
        days: HashMap::new(),
    };
    let mut sessions = Vec::new();
    for (of_day, session) in &held_in(history, WeekKey { block: id, week: like }) {
        let date = moved(*of_day, i64::from(week) - i64::from(like))?;
        if date < history.today {
            made.left_out.push(LeftOut { date, lift: None, why: WhyOut::Past });
            continue;
        }
        if load == WeekKind::Meet && meet.as_ref().is_some_and(|meet| date > meet.date) {
            made.left_out.push(LeftOut { date, lift: None, why: WhyOut::AfterMeet });
            continue;
        }
        let gym = made.go_to(session);
        let works = made.works(session, date);
        let notes = std::mem::take(&mut made.notes);
        if works.is_empty() && notes.is_empty() {
            continue;
        }
        sessions.push(Drafted {
            date,
            minute: session.minute,
            day: session.day.as_deref().map(str::to_owned),
            gym,
            placed: placed(history, (id, block), week, date),
            works,
            notes,
        });
    }
    made.still_out((like, week), meet.as_ref(), &mut sessions)?;
    if sessions.is_empty() && made.left_out.iter().any(|out| out.why == WhyOut::Past) {
        return Err(WhyNot::WeekPast { block: block.name.clone(), week });
    }
    if sessions.is_empty() && load == WeekKind::Meet {
        return Err(WhyNot::OnlyMeets);
    }
    if sessions.is_empty() {
        return Err(WhyNot::NoTraining { block: block.name.clone() });
    }
    let left_out = made.left_out;
    let meet = meet.filter(|_| load == WeekKind::Meet).map(Note::MeetWeek);
    let notes = note.into_iter().chain(meet).collect();
    let [block, from_block] = [block.name.clone(), block.name.clone()];
    let of = Of { kind: Kind::Week, block, week, from_block, from_week: like, week_kind: load };
    answered(history, of, None, (sessions, notes), left_out)
}

fn moved(date: NaiveDate, weeks: i64) -> Result<NaiveDate, WhyNot> {
    match u64::try_from(weeks) {
        Ok(weeks) => days_after(date, weeks * 7),
        Err(_) => Ok(date.checked_sub_days(Days::new(weeks.unsigned_abs() * 7)).unwrap_or(date)),
    }
}

/// What a line was to be; of one that was left out, what it was the time before in the block.
pub(super) fn line(history: &History<'_>, id: BlockId, session: &Session, work: &Work) -> Vec<PlannedGroup> {
    let to_come = session.date > history.today;
    let lift = history.log.lift(work.lift);
    let groups = shape(work, lift, session.own_mass(), to_come);
    if !groups.is_empty() {
        return groups;
    }
    let mut before = history.works_of(work.lift).rev();
    let last = before.find(|done| done.session.block == Some(id) && done.work.has_work());
    last.map_or_else(Vec::new, |done| shape(done.work, lift, done.session.own_mass(), false))
}

/// Why there is no deadlift on a day of a week of that kind.
pub(super) fn no_deadlift(history: &History<'_>, kind: WeekKind, date: NaiveDate) -> Option<WhyOut> {
    let near = NEAR_MEET.in_force(&history.log.thresholds);
    let is_near = |session: &Session| {
        let days = (session.date - date).num_days();
        session.meet.is_some() && days > 0 && (days as f64) < near
    };
    match kind {
        WeekKind::Peak => Some(WhyOut::DeadliftFirst),
        _ => history.log.sessions.iter().any(is_near).then_some(WhyOut::MeetNear),
    }
}

/// A week in the making.
struct Made<'h, 'a> {
    history: &'h History<'a>,
    ask: Ask,
    id: BlockId,
    block: &'h Block,
    load: WeekKind,
    then: Then,
    pains: Pains<'h, 'a>,
    lines_by_place: LinesByPlace<'h, 'a>,
    gyms: UsualGyms,
    rack: Rack<'a>,
    gym: Option<GymId>,
    left_out: Vec<LeftOut>,
    notes: Vec<Note>,
    /// What was asked already: the lines of a lift share it.
    rooms: HashMap<(LiftId, Option<NaiveDate>), Rc<room::Answer>>,
    days: HashMap<(LiftId, NaiveDate), LiftDay<'a>>,
}

/// The evidence of a lift's day, and the usual top of the lift.
type LiftDay<'a> = (Option<Rc<Day<'a>>>, Option<f64>);

impl<'a> Made<'_, 'a> {
    /// Hangs loads in the gym of a session from now on, and names it where it is not the usual one.
    fn go_to(&mut self, session: &Session) -> Option<String> {
        let gym = self.gyms.of_session(session);
        if gym != self.gym {
            (self.gym, self.rack) = (gym, Rack::new(self.history.log.gear_at(gym)));
        }
        Some(self.history.log.gym(gym?)?.name.clone())
    }

    fn works(&mut self, session: &Session, date: NaiveDate) -> Vec<DraftedWork> {
        let mut works = Vec::new();
        let mut seen = HashSet::new();
        for work in &session.works {
            let is_first = seen.insert(work.lift);
            let lift = self.history.log.lift_name(work.lift).to_owned();
            let mut groups = line(self.history, self.id, session, work);
            let mut out = |why| self.left_out.push(LeftOut { date, lift: Some(lift.clone()), why });
            if groups.is_empty() {
                out(WhyOut::NothingWritten);
                continue;
            }
            if let Some(note) = self.pains.keep_out(work.lift) {
                out(WhyOut::Pain);
                self.notes.push(note.of(groups));
                continue;
            }
            let discipline = self.history.discipline(work.lift);
            if discipline == Some(CompetitionLift::Deadlift)
                && let Some(why) = no_deadlift(self.history, self.load, date)
            {
                self.left_out.push(LeftOut { date, lift: Some(lift), why });
                continue;
            }
            let changes = match self.load {
                WeekKind::Loading => self.stepped(session, work, &mut groups),
                WeekKind::Deload | WeekKind::Meet => light::deload(&mut groups, self.light(session, work)),
                WeekKind::Peak if discipline.is_some() => {
                    light::peak_contested(&mut groups, is_first, self.light(session, work))
                }
                WeekKind::Peak => light::peak_other(&mut groups, is_first, self.light(session, work)),
            };
            works.extend(lines(DraftedWork { lift, groups, changes }));
        }
        works
    }

    /// Lifts that a pain kept out of the week that this one is made from as well: they are told again, on their day of the
    /// last week that had them, so that nobody loses sight of them.
    fn still_out(
        &mut self,
        (like, week): (u32, u32),
        meet: Option<&Meet>,
        sessions: &mut Vec<Drafted>,
    ) -> Result<(), WhyNot> {
        let of_week = |week: u32| training_of(self.history, WeekKey { block: self.id, week });
        let mut seen: HashSet<LiftId> =
            of_week(like).flat_map(|session| &session.works).map(|work| work.lift).collect();
        let earlier: Vec<(u32, &Session)> =
            (1..like).rev().flat_map(|earlier| of_week(earlier).map(move |session| (earlier, session))).collect();
        for (earlier, session) in earlier {
            let date = moved(session.date, i64::from(week) - i64::from(earlier))?;
            let is_past = date < self.history.today || meet.is_some_and(|meet| date > meet.date);
            for work in &session.works {
                let groups = line(self.history, self.id, session, work);
                if is_past || groups.is_empty() || !seen.insert(work.lift) {
                    continue;
                }
                let Some(note) = self.pains.keep_out(work.lift) else { continue };
                let lift = Some(self.history.log.lift_name(work.lift).to_owned());
                self.left_out.push(LeftOut { date, lift, why: WhyOut::Pain });
                let (note, day) = (note.of(groups), session.day.as_deref().map(str::to_owned));
                match sessions.iter_mut().find(|drafted| (drafted.date, &drafted.day) == (date, &day)) {
                    Some(drafted) => drafted.notes.push(note),
                    None => sessions.push(Drafted {
                        date,
                        minute: session.minute,
                        day,
                        gym: None,
                        placed: placed(self.history, (self.id, self.block), week, date),
                        works: Vec::new(),
                        notes: vec![note],
                    }),
                }
            }
        }
        sessions.sort_by_key(|drafted| drafted.date);
        Ok(())
    }

    fn light<'r>(&'r mut self, session: &Session, work: &Work) -> Light<'r, 'a> {
        let (day, usual_top) = self.day(work.lift, session.date);
        Light {
            day,
            rack: &mut self.rack,
            lift: self.history.log.lift(work.lift),
            usual_top,
            set: self.history.log.taper,
            is_rated: work.groups.iter().any(|group| group.efforts != Efforts::None),
            own: session.own_mass(),
        }
    }

    /// What a lift's sets of a day tell, and its usual top load: reckoned once, however many lines of it the day has.
    fn day(&mut self, lift: LiftId, date: NaiveDate) -> (Option<Rc<Day<'a>>>, Option<f64>) {
        if let Some(known) = self.days.get(&(lift, date)) {
            return known.clone();
        }
        let told = (Day::of(self.history, lift, date).map(Rc::new), self.usual_top(lift));
        self.days.insert((lift, date), told.clone());
        told
    }

    /// The mean of a lift's heaviest loads in the last loading weeks, up to three: what `taper` holds a week against.
    fn usual_top(&self, lift: LiftId) -> Option<f64> {
        let weeks = worked_weeks(self.history, self.id).into_iter().rev();
        let loading = weeks.map(|key| self.history.week(key)).filter(|week| !week.light).take(LOADING_WEEKS);
        let tops: Vec<f64> = loading
            .filter_map(|week| {
                let own = |session: &Session| session.own_mass();
                let training = week.works().filter(|done| done.work.lift == lift && is_training(done.session));
                let loads = training.flat_map(|done| {
                    done.work_sets().filter_map(move |set| set.group.load.kilograms(own(done.session)))
                });
                loads.max().map(Mass::in_kilograms)
            })
            .collect();
        (!tops.is_empty()).then(|| tops.iter().sum::<f64>() / tops.len() as f64)
    }

    /// Moves the loads of a line by the step that there is room for. All of a line move alike.
    fn stepped(&mut self, session: &Session, work: &Work, groups: &mut [PlannedGroup]) -> Vec<Change> {
        let cap = self.ask.cap;
        let rise = match self.then {
            Then::Step => Rise::of(&self.lines_by_place, session, work),
            Then::Again | Then::Back => Rise::default(),
        };
        let mut planned_after = None;
        for group in groups.iter_mut() {
            if let Some(after) = group.effort.and_then(|effort| rise.effort_after(effort, cap)) {
                group.effort = Some(after);
                planned_after = planned_after.max(Some(after.high));
            }
        }
        if !light::is_loaded(groups) {
            return Vec::new();
        }
        let mut changes = shares(groups, rise, self.then);
        let to_come = session.date > self.history.today;
        let from = (!to_come).then_some(session.date);
        let known = self.rooms.entry((work.lift, from));
        let room =
            known.or_insert_with(|| room::answer(self.history, &room::Ask { lift: work.lift, from, cap }).into());
        let room = Rc::clone(room);
        let own = session.own_mass();
        let top = groups.iter().filter_map(|group| group.load.kilograms(own)).max();
        let way = match self.then {
            Then::Step => Way::of(&room, to_come),
            Then::Again => Way::Kept(Kept::Again, None),
            Then::Back => Way::Kept(Kept::SteppedBack, None),
        };
        let day = if to_come { None } else { self.day(work.lift, session.date).0 };
        let way = match planned_after.zip(day).zip(groups.iter().rev().find(|group| group.load.kilograms(own) == top)) {
            Some(((_, day), group)) => way.led_by(group, &day, top),
            None => way,
        };
        let lift = self.history.log.lift(work.lift);
        let mut change = Change::Kept(Kept::Implement);
        for group in groups.iter_mut() {
            let on = self.rack.hangs_on(&group.load, group.per_side, lift);
            let before = group.load.kilograms(own);
            let (Some(load), false) = (held(&group.load, on), matches!(on, HangsOn::Implement)) else { continue };
            let moved = match way {
                Way::By { step, .. } => self.rack.at_most(on, self.rack.moved(on, load, step)),
                Way::Kept(Kept::NoRoom, _) => self.rack.at_most(on, load),
                Way::Kept(..) => self.rack.nearest(on, load),
            };
            let Some(moved) = moved else { continue };
            let by = held(&moved, on).unwrap_or(load) - load;
            group.load = moved;
            if before != top {
                continue;
            }
            change = match way {
                Way::Kept(why, _) => Change::Kept(why),
                Way::By { .. } if by > Mass::ZERO => Change::Up(by),
                Way::By { by_plan: true, .. } if by.is_negative() => Change::DownToPlan(-by),
                Way::By { by_plan: true, .. } => Change::Kept(Kept::Pattern),
                Way::By { .. } if by.is_negative() => Change::Down(-by),
                Way::By { .. } => Change::Kept(Kept::NoRoom),
            };
            // What is expected is said of the set that is started from, and of no other.
            let is_started_from = !to_come
                && planned_after.is_none()
                && room
                    .from
                    .as_ref()
                    .is_some_and(|mark| mark.amount == group.amounts.least() && mark.load.kilograms == top);
            let expected = match way {
                Way::By { step, .. } if step.is_negative() => Some(under(cap)),
                Way::By { expected, .. } | Way::Kept(_, expected) => expected.and_then(|rpe| around(rpe, cap)),
            };
            if is_started_from && expected.is_some() {
                group.effort = expected;
            }
        }
        if changes.is_empty() || change != Change::Kept(Kept::Implement) {
            changes.push(change);
        }
        changes
    }
}

/// Moves shares of the block's maximum as its plans rise.
fn shares(groups: &mut [PlannedGroup], rise: Rise, then: Then) -> Vec<Change> {
    let by = rise.percent.unwrap_or(0);
    let mut change = None;
    for group in groups.iter_mut() {
        let Some(share) = percent(&group.load) else { continue };
        // More than the whole maximum is an attempt, and nothing to draft.
        let load = (share + by <= 100_000 && by > 0).then(|| at_percent(&group.load, share + by)).flatten();
        change = Some(match (load, then) {
            (Some(load), _) => {
                group.load = load;
                Change::PercentUp(by)
            }
            (None, Then::Again) => Change::Kept(Kept::Again),
            (None, Then::Back) => Change::Kept(Kept::SteppedBack),
            (None, Then::Step) => Change::Kept(Kept::Percent),
        });
    }
    change.into_iter().collect()
}

/// Which way the loads of a line go.
#[derive(Clone, Copy)]
enum Way {
    By {
        step: Mass,
        expected: Option<Rpe>,
        /// Whether it is the block's plans that hold it.
        by_plan: bool,
    },
    Kept(Kept, Option<Rpe>),
}

impl Way {
    fn of(room: &room::Answer, to_come: bool) -> Way {
        let (Some(largest_step), Some(exact_step)) = (room.largest_step, room.exact_step) else {
            return Way::Kept(
                match room.why_not {
                    Some(room::WhyNot::NoEnd) => Kept::NoEnd,
                    Some(room::WhyNot::NoMark) => Kept::NotDone,
                    _ => Kept::NoEffort,
                },
                None,
            );
        };
        let expected = room.weeks.first().map(|week| week.effort.middle);
        if largest_step > Mass::ZERO && room.step_every_weeks == Some(1) {
            return Way::By { step: largest_step, expected, by_plan: false };
        }
        if exact_step.is_negative() && !to_come {
            // At once to the load that holds the cap: on the way there every week would be over it.
            let rises = u32::try_from(room.weeks.len()).unwrap_or(1);
            return Way::By { step: exact_step.times(rises), expected, by_plan: false };
        }
        Way::Kept(Kept::NoRoom, expected)
    }

    /// The step to the load that the sets of a day lead to at the effort of a plan that rises as the block's do, where that
    /// is known.
    fn led_by(self, plan: &PlannedGroup, day: &Day<'_>, top: Option<Mass>) -> Way {
        let effort = plan.effort.map(|range| {
            let thousandths = |effort: Effort| i64::from(effort.quarters()) * 250;
            Effort::rpe(thousandths(range.low), thousandths(range.high))
        });
        let wanted = effort.zip(plan.amounts.least().reps()).and_then(|(effort, reps)| day.load_for(reps, effort));
        match wanted.and_then(Mass::from_kilograms).zip(top) {
            Some((wanted, top)) => {
                let step = (wanted - top).min(top.percent(MOST_AT_ONCE));
                Way::By { step, expected: None, by_plan: true }
            }
            None => self,
        }
    }
}
