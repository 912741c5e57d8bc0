//! `best` as text.

use crate::history::Mark;
use crate::present::doc::{Column, Table, When};
use crate::present::{Doc, Role, wording};
use crate::questions::best::{Answer, Best, Bound, Estimate, Found};
use crate::training::{Load, shown_in};

/// Where the estimates stand among the columns.
const ESTIMATE: usize = 4;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    match &answer.found {
        Found::One { bound, best, .. } => one(answer, *bound, best.as_deref()),
        Found::Table { rows, others } => {
            let mut out = Doc::new();
            let sets = if answer.sets > 1 {
                format!(", {} in one session", wording::count(answer.sets, "set"))
            } else {
                String::new()
            };
            if rows.is_empty() {
                let words = format!("{}: no clean set with reps{sets}", answer.lift);
                out.wrapped(Role::Answer, &words, 2);
            } else {
                let words = format!("{}: best at each rep count{sets}", answer.lift);
                out.wrapped(Role::Answer, &words, 2);
                let mut table = Table::new(vec![
                    Column::right("reps"),
                    Column::left(""),
                    Column::left("load"),
                    Column::left("done"),
                    Column::right("est. max").spare(1),
                    Column::left("date"),
                    Column::left("block").spare(2),
                    Column::left("where").spare(3),
                ]);
                // Counts that share a mark share a line: the fewest reps to the most it is the best at.
                for rows in rows.chunk_by(|one, other| one.best.mark == other.best.mark) {
                    let (Some(first), Some(row)) = (rows.first(), rows.last()) else { continue };
                    let mark = &row.best.mark;
                    let role = if row.standing { Role::Plain } else { Role::Place };
                    let reps = wording::span(first.reps, Some(row.reps));
                    table.row(vec![
                        (role, reps),
                        (Role::Ahead, if row.standing { "*".into() } else { String::new() }),
                        (role, wording::weighed(&mark.load)),
                        (role, done(mark)),
                        (Role::Place, row.best.estimate.as_ref().map_or(String::new(), |estimate| max(mark, estimate))),
                        (role, wording::date(mark.date)),
                        (role, wording::block_week(mark.block.as_deref(), mark.week)),
                        (Role::Place, mark.place.to_string()),
                    ]);
                }
                out.table(table);
                out.wrapped(Role::Place, "* no higher rep count has as much on the bar", 2);
            }
            if *others > 0 {
                let left = wording::count(*others, "set");
                out.wrapped(Role::Place, format!("{left} of seconds or metres: ask with --seconds N or --metres N"), 2);
            }
            let mut advice = Doc::new();
            caution(&mut advice, answer);
            out.only(When::Shown(ESTIMATE), advice);
            out
        }
    }
}

fn done(mark: &Mark) -> String {
    let mut out = wording::sets(mark.sets, mark.amount, mark.per_side);
    if let Some(effort) = mark.effort {
        out.push_str(&format!(" {effort}"));
    }
    if !mark.faults.is_empty() {
        out.push_str(&format!(" {}", wording::faults(&mark.faults)));
    }
    out
}

/// The estimated maximum, in the unit of the load; with the lifter's own weight as the load has it.
pub(super) fn max(mark: &Mark, estimate: &Estimate) -> String {
    let unit = match mark.load.load {
        Load::Plain { unit, .. } => unit,
        _ => shown_in(),
    };
    wording::with_own(wording::estimated(estimate.maximum, unit), &mark.load)
}

fn one(answer: &Answer, bound: Bound, best: Option<&Best>) -> Doc {
    let mut out = Doc::new();
    let asked = match bound {
        Bound::Reps(reps) => wording::count(reps, "rep"),
        Bound::Seconds(seconds) => wording::count(seconds, "second"),
        Bound::Metres(distance) => format!("{} metres", distance.rounded_metres()),
    };
    let sets = if answer.sets > 1 { format!("{} of ", wording::count(answer.sets, "set")) } else { String::new() };
    let Some(Best { mark, estimate }) = best else {
        out.line(Role::Answer, format!("{}: nothing yet at {sets}{asked} or more", answer.lift));
        return out;
    };
    let load = wording::weighed(&mark.load);
    out.pieces(vec![(Role::Answer, format!("{}: {load}, {}", answer.lift, done(mark)))]);
    let block = wording::block_week(mark.block.as_deref(), mark.week);
    let when = if block.is_empty() { wording::day(mark.date) } else { format!("{}, {block}", wording::day(mark.date)) };
    let about = if mark.load.is_approximate() { "; the load is approximate" } else { "" };
    out.wrapped(Role::Plain, format!("best at {sets}{asked} or more, done {when}{about}"), 2);
    out.line(Role::Place, mark.place.to_string());
    if let Some(estimate) = estimate {
        let words =
            format!("worth an estimated maximum of {}; `loadline estimate` says how surely", max(mark, estimate));
        out.wrapped(Role::Plain, &words, 2);
    }
    caution(&mut out, answer);
    out
}

fn caution(out: &mut Doc, answer: &Answer) {
    if let Some(caution) = answer.caution {
        out.gap();
        out.wrapped(Role::Caution, caution, 0);
    }
}
