//! Which session is meant.

use super::answer::{Ask, NoSession, Rotation};
use super::marks::top;
use crate::analysis::plan::planned_lines::stands_in;
use crate::history::{Done, History};
use crate::training::spelling::{Spelled, sets};
use crate::training::{Session, Status, Work, fold};
use chrono::NaiveDate;

/// The session that is asked for: of a date, else the first dated today or later with a line that is not yet done, else
/// today's.
pub(super) fn session<'a>(history: &History<'a>, ask: &Ask) -> Result<&'a Session, NoSession> {
    let wants = |work: &Work| ask.lift.is_none_or(|lift| work.lift == lift);
    let wanted = |session: &&Session| {
        let is_day =
            ask.day.as_deref().is_none_or(|day| session.day.as_deref().is_some_and(|own| label(own) == label(day)));
        is_day && session.works.iter().any(wants)
    };
    let is_open = |session: &&Session| session.works.iter().any(|work| wants(work) && is_to_do(session, work));
    if let Some(date) = ask.date {
        let mut of_date = history.all_on(date).iter().filter(wanted);
        let (first, open) = (of_date.clone().next(), of_date.find(is_open));
        return open.or(first).ok_or_else(|| not_on(history, ask, date));
    }
    let ahead = || history.all_since(history.today).iter().filter(wanted);
    let found = ahead().find(is_open).or_else(|| ahead().rfind(|session| session.date == history.today));
    found.ok_or_else(|| none_ahead(history, ask))
}

/// Whether some of a line is still to be done.
pub(super) fn is_to_do(session: &Session, work: &Work) -> bool {
    let done: usize = work.groups.iter().map(|group| group.count()).sum();
    let planned = work.plan().map(|plan| plan.groups.iter().map(|group| group.fewest as usize).sum::<usize>());
    let is_open = match work.status {
        Status::Nothing => true,
        Status::Done => planned.is_some_and(|planned| done < planned),
        Status::AsPlanned | Status::Skipped => false,
    };
    is_open && !session.works.iter().any(|other| stands_in(other, work))
}

/// A day's label as it is compared, with or without the word.
fn label(day: &str) -> String {
    let folded = fold(day);
    let bare = folded.strip_prefix("day").or(folded.strip_suffix("day")).unwrap_or(&folded);
    if bare.is_empty() { folded.clone() } else { bare.to_owned() }
}

fn not_on(history: &History<'_>, ask: &Ask, date: NaiveDate) -> NoSession {
    let with_work = || history.log.sessions.iter().filter(|session| !session.works.is_empty());
    let near = [with_work().rfind(|session| session.date < date), with_work().find(|session| session.date > date)];
    let lift = ask.lift.map(|lift| history.log.lift_name(lift).to_owned());
    let is_there = with_work().any(|session| session.date == date);
    let lift = lift.filter(|_| is_there);
    let meet = meet_on(history, date);
    NoSession::OnDate { date, lift, meet, near: near.into_iter().flatten().map(|session| session.date).collect() }
}

fn none_ahead(history: &History<'_>, ask: &Ask) -> NoSession {
    let labels = || history.log.sessions.iter().filter_map(|session| session.day.as_deref());
    if let Some(day) = &ask.day
        && !labels().any(|own| label(own) == label(day))
    {
        let mut near: Vec<String> = Vec::new();
        for own in labels().collect::<Vec<_>>().into_iter().rev() {
            if !near.iter().any(|known| fold(known) == fold(own)) {
                near.push(own.to_owned());
            }
        }
        near.truncate(8);
        return NoSession::NoDay { day: day.clone(), near };
    }
    NoSession::Ahead {
        day: ask.day.clone(),
        lift: ask.lift.map(|lift| history.log.lift_name(lift).to_owned()),
        meet: meet_on(history, history.today),
        begins: begins(history),
        next: rotation(history).map(Box::new),
    }
}

fn meet_on(history: &History<'_>, date: NaiveDate) -> Option<String> {
    history.all_on(date).iter().find_map(|session| session.meet.as_deref()).map(str::to_owned)
}

/// Where no work stands in a block: the day of the first work, else today.
fn begins(history: &History<'_>) -> Option<NaiveDate> {
    let mut worked = history.sessions().iter().filter(|session| session.has_work()).peekable();
    let first = worked.peek().map_or(history.today, |session| session.date);
    worked.all(|session| session.block.is_none()).then_some(first)
}

/// The day that comes next in the rotation: the one that followed when the last day was done the time before; after the
/// first round, the day that it began with.
fn rotation(history: &History<'_>) -> Option<Rotation> {
    let trained: Vec<&Session> = history
        .sessions()
        .iter()
        .filter(|session| session.meet.is_none() && !session.test_day)
        .filter(|session| session.day.is_some() && session.has_work())
        .collect();
    let same = |one: &Session, other: &Session| one.day.as_deref().map(label) == other.day.as_deref().map(label);
    let (last, before) = trained.split_last()?;
    let again = before.iter().rposition(|session| same(session, last));
    let next = match again {
        Some(at) => trained.get(at + 1)?,
        None => before.iter().find(|session| session.block == last.block).unwrap_or(last),
    };
    let then = trained.iter().rev().find(|session| same(session, next))?;
    let held = then.works.iter().filter_map(|work| {
        let (_, mark) = top(history, &[Done { session: then, work }])?;
        let count = sets(mark.sets, mark.amount, mark.per_side);
        let spelled = Spelled::of(count).load(mark.load.text_with_unit()).effort(mark.effort).text();
        Some(format!("{} {spelled}", history.log.lift_name(work.lift)))
    });
    Some(Rotation { day: next.day.as_deref()?.to_owned(), date: then.date, held: held.collect() })
}
