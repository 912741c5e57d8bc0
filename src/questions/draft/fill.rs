//! `draft week` where the week is planned already, with efforts and no loads: the loads that what was done leads to.

use super::outlook::{Day, rpe};
use super::pain::Pains;
use super::pattern::LinesByPlace;
use super::shape::{held, plain, shape};
use super::weeks::training_of;
use super::{
    Answer, Change, Drafted, DraftedWork, Fill, Kept, LeftOut, Note, Of, Open, WeekKind, WhyNot, WhyOut, answered,
};
use crate::analysis::rack::{HangsOn, Rack, down, of_its_size};
use crate::analysis::strength::time_away::TimeAway;
use crate::history::{History, WeekKey};
use crate::science::effort_scale;
use crate::training::{Effort, Load, Mass, Plan, PlannedGroup, Session, Work};
use chrono::NaiveDate;

/// The sessions of a week that are still to come and planned.
pub(super) fn planned<'a>(history: &History<'a>, key: WeekKey) -> Vec<&'a Session> {
    let is_to_come = |session: &&Session| session.date >= history.today && !session.has_work();
    training_of(history, key).filter(is_to_come).collect()
}

/// Whether a line is planned by its effort, and has no load yet.
fn is_open(plan: &Plan) -> bool {
    let is = |group: &PlannedGroup| {
        group.load == Load::None && group.effort.is_some() && group.amounts.least().reps().is_some()
    };
    plan.is_read() && plan.groups.iter().all(is)
}

/// Whether a session has such a line.
pub(super) fn has_open(session: &Session) -> bool {
    session.works.iter().filter_map(Work::plan).any(is_open)
}

/// What a week is filled from.
pub(super) struct From<'h, 'a> {
    pub(super) history: &'h History<'a>,
    /// The lines of the block's weeks.
    pub(super) lines_by_place: LinesByPlace<'h, 'a>,
    /// The last loading week that was done.
    pub(super) done: u32,
    /// What kind of week is filled.
    pub(super) kind: WeekKind,
    /// No load is for a harder set.
    pub(super) cap: Effort,
}

impl<'a> From<'_, 'a> {
    /// The planned sessions, with loads.
    pub(super) fn answer(&self, sessions: &[&'a Session], of: Of) -> Result<Answer, WhyNot> {
        let log = self.history.log;
        let pains = Pains::of(self.history);
        let (mut drafted, mut fills, mut left_out) = (Vec::new(), Vec::new(), Vec::new());
        for session in sessions {
            let mut rack = Rack::new(log.gear_at(session.gym));
            let mut works = Vec::new();
            for work in &session.works {
                let Some(plan) = work.plan().filter(|plan| plan.is_read()) else { continue };
                let lift = log.lift_name(work.lift).to_owned();
                let mut groups = shape(work, log.lift(work.lift), session.own_mass(), true);
                let mut changes = Vec::new();
                if is_open(plan) {
                    if pains.keep_out(work.lift).is_some() {
                        left_out.push(LeftOut { date: session.date, lift: Some(lift.clone()), why: WhyOut::Pain });
                    } else {
                        match self.loads(session, work, plan, &mut rack) {
                            Ok((loads, change)) => {
                                for (group, load) in groups.iter_mut().zip(&loads) {
                                    group.load = load.clone();
                                }
                                let place = log.place(session.page, plan.line);
                                let texts = loads.iter().filter_map(Load::text_with_unit).collect();
                                fills.push(Fill { place, loads: texts });
                                changes.push(change);
                            }
                            Err(why) => changes.push(Change::StaysOpen(why)),
                        }
                    }
                }
                works.push(DraftedWork { lift, groups, changes });
            }
            let day = session.day.as_deref().map(str::to_owned);
            let (date, minute) = (session.date, session.minute);
            let gym = session.gym.and_then(|gym| log.gym(gym)).map(|gym| gym.name.clone());
            drafted.push(Drafted { date, minute, day, gym, placed: None, works, notes: Vec::new() });
        }
        let away = TimeAway::of_all(self.history).map(Note::Away).into_iter().collect();
        let mut answer = answered(self.history, of, None, (drafted, away), left_out)?;
        // They are those sessions; where no plan gets a load, nothing is to be written.
        if !fills.is_empty() {
            answer.already = Vec::new();
        }
        answer.fills = fills;
        Ok(answer)
    }

    /// The loads of a line's groups, and what they are beside the last ones.
    fn loads(
        &self,
        session: &Session,
        work: &Work,
        plan: &Plan,
        rack: &mut Rack<'a>,
    ) -> Result<(Vec<Load>, Change), Open> {
        let (date, last, own) = self.last_time(session, work).ok_or(Open::NotDone)?;
        let lift = self.history.log.lift(work.lift);
        // A share of a maximum that is known is a load.
        let like = match last.load.kilograms(None).filter(|_| last.load.is_percent()) {
            Some(mass) => plain(mass),
            None => last.load,
        };
        let on = match like.added() {
            Some(_) => HangsOn::Lifter,
            None => rack.hangs_on(&like, last.per_side, lift),
        };
        let has_sizes = matches!(like, Load::Plain { .. }) || like.pieces().is_some();
        let then = held(&like, on).filter(|_| has_sizes || !matches!(on, HangsOn::Implement)).ok_or(Open::NoMass)?;
        let everything = like.kilograms(own).ok_or(Open::NoBodyweight)?;
        // After weeks without the lift it is strength as it is now that counts.
        let now = TimeAway::of(self.history, work.lift).map_or(date, |_| self.history.today);
        let day = Day::as_of(self.history, work.lift, date, now).ok_or(Open::NoEffort)?;
        let most = self.kind.most(everything);
        let mut loads = Vec::new();
        let mut heaviest = None;
        for group in &plan.groups {
            let (Some(reps), Some(effort)) = (group.amounts.least().reps(), group.effort) else {
                return Err(Open::NoEffort);
            };
            let middle = i64::from(effort.low.quarters() + effort.high.quarters()) * 125;
            let effort = rpe(middle).min(self.cap);
            effort_scale::reps_in_reserve(effort).ok_or(Open::UnderScale)?;
            let wanted = day.load_for(reps, effort).and_then(Mass::from_kilograms).ok_or(Open::ManyReps)?;
            let step = wanted.min(most) - everything;
            let load = match on {
                HangsOn::Implement => {
                    let size = rack.step(on, &like, lift);
                    // Steps in kilograms lead to no size in pounds.
                    let by = if size.unit() == then.unit() { down(step, size) } else { Mass::ZERO };
                    let moved = then + by;
                    (moved > Mass::ZERO)
                        .then(|| if by == Mass::ZERO { like.clone() } else { of_its_size(&like, moved) })
                }
                _ => rack.at_most(on, rack.moved(on, then, step)),
            };
            let load = load.ok_or(Open::NoMass)?;
            heaviest = heaviest.max(held(&load, on));
            loads.push(load);
        }
        let by = heaviest.unwrap_or(then) - then;
        let change = match by {
            by if by > Mass::ZERO => Change::Up(by),
            by if by.is_negative() => Change::DownToPlan(-by),
            _ => Change::Kept(Kept::Pattern),
        };
        Ok((loads, change))
    }

    /// The heaviest set of the line in the last week that was done, else of the lift, with the day and the lifter's own
    /// weight on it. A rated day counts before one that is not.
    fn last_time(&self, session: &Session, work: &Work) -> Option<(NaiveDate, PlannedGroup, Option<Mass>)> {
        let heaviest = |session: &Session, work: &Work| {
            let own = session.own_mass();
            let groups = shape(work, None, own, false);
            let top = groups.into_iter().max_by_key(|group| group.load.kilograms(own))?;
            Some((session.date, top, own))
        };
        let line = self.lines_by_place.of(session, work)(self.done);
        let line = line.filter(|(session, work)| work.has_work() && session.date <= self.history.today);
        let is_rated = |session: &Session| Day::of(self.history, work.lift, session.date).is_some();
        if let Some((session, work)) = line.filter(|(session, _)| is_rated(session)) {
            return heaviest(session, work);
        }
        let done: Vec<_> = self.history.works_of(work.lift).filter(|done| done.work.has_work()).collect();
        let rated = done.iter().rev().find(|done| is_rated(done.session));
        rated.or(done.last()).and_then(|done| heaviest(done.session, done.work))
    }
}
