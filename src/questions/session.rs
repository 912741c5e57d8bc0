//! `session`: what goes on the bar for the next set, lift by lift.
//!
//! - `answer.rs`: what is asked and answered; `which.rs`: which session is meant; `line.rs`: a line of it
//! - `next.rs`: the load of the next set; `foretelling.rs`: how hard it will be; `marks.rs`: what it is held against
//! - `slip.rs`: which sets look mistyped
//! - `hang.rs`: the plates of each side, and the warm-up
//! - `watch.rs`: faults, pain and cautions

mod answer;
mod foretelling;
mod hang;
mod line;
mod marks;
mod next;
mod slip;
mod watch;
mod which;

use super::review;
use crate::analysis::plan::planned_lines::stands_in;
use crate::analysis::rack::Rack;
use crate::analysis::strength::caution::CAUTION;
use crate::analysis::strength::evidence::Ratings;
pub use crate::analysis::strength::rpe_ahead::Rpe;
use crate::history::{History, MeetKind};
use crate::science::Equation;
use crate::training::{Status, Work};
pub use answer::{
    Answer, Ask, Hint, Hurt, LiftAhead, MeetAhead, Next, NoSession, Out, Plates, Rotation, ToBeat, WarmUpSet, Watch,
    WatchKind,
};
use chrono::{Days, NaiveDate};
use foretelling::Teaching;
use line::Scene;
use std::cell::RefCell;

/// Answers.
///
/// # Errors
/// [`NoSession`] where none is written that is meant.
pub fn answer(history: &History<'_>, ask: &Ask) -> Result<Answer, NoSession> {
    answered(history, ask, Extent::Rack)
}

/// The same with no more of each lift than its plan, what it is held against, and its next set: for whoever asks at each
/// letter.
///
/// # Errors
/// [`NoSession`] where none is written that is meant.
pub fn next_sets(history: &History<'_>, ask: &Ask) -> Result<Answer, NoSession> {
    answered(history, ask, Extent::NextSet)
}

/// The same without its lifts.
///
/// # Errors
/// [`NoSession`] where none is written that is meant.
pub fn day(history: &History<'_>, ask: &Ask) -> Result<Answer, NoSession> {
    answered(history, ask, Extent::Day)
}

/// How much is answered.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Extent {
    /// What stands around the lifts.
    Day,
    /// Of each lift its next set.
    NextSet,
    /// All that one wants to know at the rack.
    Rack,
}

fn answered(history: &History<'_>, ask: &Ask, extent: Extent) -> Result<Answer, NoSession> {
    let log = history.log;
    let session = which::session(history, ask)?;
    // Nothing of the session itself and of what came after it counts as known before it.
    let day_before = session.date.checked_sub_days(Days::new(1)).unwrap_or(session.date);
    let eve = history.as_of(history.today.min(day_before));
    let pains = watch::pains(history, session.date);
    let ratings = RefCell::new(Ratings::of_late(&eve, Equation::default()));
    let at_the_rack = extent == Extent::Rack;
    let cautions = if at_the_rack { review::now(&eve, &ratings) } else { Vec::new() };
    let works: &[Work] = if extent == Extent::Day { &[] } else { &session.works };
    let mut teaching = Teaching::new(&eve, &ratings);
    if !works.is_empty() {
        teaching.learn();
    }
    let rack = Rack::new(log.gear_at(session.gym));
    let scene = Scene { history, eve: &eve, session, pains: &pains, cautions: &cautions, at_the_rack };
    let (mut lifts, mut left_out, mut is_any_left) = (Vec::new(), Vec::new(), false);
    for work in works.iter().filter(|work| ask.lift.is_none_or(|lift| lift == work.lift)) {
        let instead = session.works.iter().find(|other| stands_in(other, work)).map(|other| log.lift_name(other.lift));
        if instead.is_some() || work.status == Status::Skipped {
            left_out.push(Out {
                lift: log.lift_name(work.lift).to_owned(),
                instead: instead.map(str::to_owned),
                because: work
                    .details
                    .as_ref()
                    .and_then(|details| details.skipped_because.as_deref())
                    .map(str::to_owned),
            });
            continue;
        }
        is_any_left = true;
        if ask.next && !lifts.is_empty() {
            continue;
        }
        let lift = scene.line(work, &mut teaching, &rack);
        lifts.extend((!ask.next || lift.next.is_some()).then_some(lift));
    }
    let block = session.block.and_then(|id| log.block(id));
    let meets = history.meets();
    let meet = meets.iter().find(|meet| meet.kind == MeetKind::Meet && meet.date >= session.date);
    let days = |date: NaiveDate| (date - session.date).num_days();
    Ok(Answer {
        session: scene.place(),
        weeks: block.and_then(|block| Some(block.week_of(block.ends?))),
        meet: meet.map(|meet| MeetAhead { name: meet.title().to_owned(), days: days(meet.date) }),
        bodyweight: session.own_mass(),
        stop: watch::stop(history, &pains),
        pains: pains
            .iter()
            .filter(|(_, pain)| !review::is_at_once(pain, &log.thresholds))
            .map(|(then, pain)| Hurt { site: pain.site.to_string(), tenths: pain.tenths, days: -days(then.date) })
            .collect(),
        lifts,
        left_out: if is_any_left { Vec::new() } else { left_out },
        caution: CAUTION,
    })
}
