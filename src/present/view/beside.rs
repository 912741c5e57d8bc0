//! What stands beside the lines of a page in an editor: one sentence of what the commands say at length.

use super::{r#match, session};
use crate::present::wording;
use crate::questions::estimate;
use crate::questions::r#match::Pair;
use crate::questions::room::Allowed;
use crate::questions::session::{Answer, LiftAhead};
use crate::training::{Load, Mass, Unit, shown_in};

/// `ahead: was 3x8 @ 117.5 kg RPE 7`; without a side to stand against only the verdict.
pub fn verdict(pair: &Pair) -> String {
    match &pair.then {
        Some(then) => format!("{}: was {}", pair.verdict.word(), r#match::done(then)),
        None => pair.verdict.word().to_owned(),
    }
}

/// `next set: 120 kg x 8, expect RPE 7 (6.5 to 8)`
pub fn next(lift: &LiftAhead) -> Option<String> {
    let next = lift.next.as_ref()?;
    let effort = session::effort(next).map_or_else(String::new, |effort| format!(", expect {effort}"));
    Some(format!("next set: {}{effort}", session::load_and_count(lift, next)))
}

/// `block 9, week 4 of 4; Tidewater in 23 days`
pub fn day(answer: &Answer) -> String {
    let around = session::around(answer);
    let said = [
        session::stop(answer),
        Some(session::day(answer)),
        session::block(answer),
        (!around.is_empty()).then_some(around),
    ];
    said.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// `estimated maximum 143 kg (135 to 151)`
pub fn maximum(brief: &estimate::Brief) -> Option<String> {
    let estimate = brief.estimate.as_ref()?;
    Some(format!("estimated maximum {}", wording::spread(estimate, brief.unit)))
}

/// `room for 8 reps at RPE 8`
pub fn allowed(allowed: &Allowed) -> String {
    let Allowed { ahead, reps, .. } = allowed;
    format!("room for {} at {}", wording::count(*reps, "rep"), ahead.effort.middle)
}

/// `84 % of the estimated maximum`
pub fn share(load: Mass, brief: &estimate::Brief) -> Option<String> {
    Some(format!("{:.0} % of the estimated maximum", brief.percent(load)?))
}

/// `120 kg: 264.55 lb`
pub fn both_units(load: &Load, kilograms: Option<Mass>) -> Option<String> {
    let unit = match load {
        Load::Plain { unit, .. } => *unit,
        _ => shown_in(),
    };
    let other = if unit == Unit::Kg { Unit::Lb } else { Unit::Kg };
    Some(format!("{}: {}", wording::load(load, kilograms), kilograms?.told_in(other)))
}
