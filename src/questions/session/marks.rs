//! Marks that a line is held against.

use super::foretelling::{carried, everything};
use super::next::Target;
use crate::analysis::compare::ranking::Scale;
use crate::history::{Done, History, Mark, Marked};
use crate::science::effort_scale;
use crate::science::strength::ExpectedCurve;
use crate::training::{Mass, Set};

/// The heaviest clean mark of a session's lines, all sets of its load and count together.
pub(super) fn top<'a>(history: &History<'_>, lines: &[Done<'a>]) -> Option<(Marked<'a>, Mark)> {
    let qualifies = |set: &Set<'a>| set.is_clean_work();
    let marks: Vec<Marked<'a>> = lines.iter().flat_map(|done| Marked::of(*done, qualifies)).collect();
    let scale = Scale::of(marks.iter().map(|mark| &mark.group.load));
    let rank = |mark: &Marked<'_>| scale.rank(&mark.group.load, mark.done.session.own_mass());
    let class = marks.iter().map(|mark| rank(mark).0).min()?;
    // Backwards, so that of equals the one written first is shown.
    let of_class = marks.iter().rev().filter(|mark| rank(mark).0 == class);
    let top = of_class.max_by_key(|mark| (rank(mark).1, mark.amount))?;
    let alike = || marks.iter().filter(|mark| rank(mark) == rank(top) && mark.amount == top.amount);
    let mut shown = top.shown(history, qualifies);
    shown.sets = alike().map(|mark| mark.sets).sum();
    shown.effort = alike().filter_map(|mark| mark.effort).max();
    Some((*top, shown))
}

/// What equals a mark at the count that is planned.
pub(super) fn equal(
    mark: &Marked<'_>,
    first: Option<&Target>,
    curve: &ExpectedCurve,
    own: Option<Mass>,
) -> Option<Mass> {
    let first = first?;
    let (then, now) = (mark.amount.reps()?, first.amount.reps()?);
    if then == now {
        return None;
    }
    let planned = first.effort.and_then(|range| effort_scale::reps_in_reserve(range.low));
    let left = mark.effort.and_then(effort_scale::reps_in_reserve).or(planned)?;
    let (load, own_then) = everything(mark)?;
    let equal = carried(curve, load, f64::from(then) + left, f64::from(now) + left);
    // Where the lifter's own weight is in it, it may be another one by now.
    let own_now = if own_then > Mass::ZERO { own.unwrap_or(own_then) } else { Mass::ZERO };
    Some(Mass::from_kilograms(equal)? - own_now)
}
