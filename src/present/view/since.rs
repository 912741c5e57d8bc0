//! `since` as text.

use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::since::Answer;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, verdict(answer), 2);
    if let Some(days) = answer.days_idle {
        out.wrapped(Role::Caution, format!("last work {}", wording::ago(days)), 2);
    }
    out.wrapped(
        Role::Plain,
        format!(
            "high-rep: at least half of a block's weeks have at least half of their sets at {} reps or more",
            answer.reps
        ),
        2,
    );
    if let Some(weeks) = answer.weeks_without.filter(|_| answer.blocks_since != Some(0)) {
        out.append(too_many(answer, weeks));
    }
    match (&answer.last_set, answer.weeks_since_set) {
        (Some(mark), Some(weeks)) => {
            let work = wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort);
            let ago = if weeks == 0 {
                "this week".to_owned()
            } else {
                format!("{} ago", wording::count(weeks.unsigned_abs(), "week"))
            };
            let lift = answer.last_set_lift.as_deref().unwrap_or("");
            out.wrapped(Role::Plain, format!("last such set: {lift} {work} on {}, {ago}", wording::day(mark.date)), 2);
            out.line(Role::Place, mark.place.to_string());
        }
        _ => out.line(Role::Plain, format!("no such set of {} reps or more yet", answer.reps)),
    }
    if answer.sets_left_out > 0 {
        let others = wording::count(answer.sets_left_out, "other set");
        let words =
            format!("counted are squats, hinges and presses of known kilograms; of {others} --lift or --family tells");
        out.wrapped(Role::Place, &words, 2);
    }
    if answer.blocks.is_empty() {
        return out;
    }
    out.gap();
    let mut table = Table::new(vec![
        Column::left("block"),
        Column::left("starts"),
        Column::left("weeks"),
        Column::left("sets"),
        Column::left(""),
    ]);
    for row in answer.blocks.iter().rev() {
        table.row(vec![
            (Role::Answer, row.name.clone()),
            (Role::Plain, row.starts.to_string()),
            (Role::Plain, format!("{} of {} high-rep", row.high_rep_weeks, row.weeks_with_work)),
            (Role::Plain, format!("{} of {}", row.high_rep_sets, row.sets)),
            (Role::Ahead, if row.high_rep { "high-rep".into() } else { String::new() }),
        ]);
    }
    out.table(table);
    out.wrapped(Role::Place, "deload and peak weeks are not counted", 0);
    out
}

/// Whether so many weeks without are too many, and who says so.
fn too_many(answer: &Answer, weeks: i64) -> Doc {
    let usual = answer.usual_weeks.0;
    let so_far = wording::count(weeks.unsigned_abs(), "week");
    let (role, verdict) = match answer.too_long {
        true => (Role::Caution, format!("{so_far} without it: more than {usual}, time to bring it back")),
        false => (Role::Plain, format!("{so_far} without it: not too many, up to {usual} are usual")),
    };
    let mut out = Doc::new();
    out.wrapped(role, format!("{verdict} (common practice, no source)"), 2);
    out
}

/// `3 blocks since the last high-rep one, block 6`
pub(in crate::present) fn verdict(answer: &Answer) -> String {
    let of = match (&answer.lift, answer.family) {
        (Some(lift), _) => format!("{lift}: "),
        (None, Some(family)) => format!("{family}: "),
        (None, None) => String::new(),
    };
    match (answer.blocks_since, &answer.last_high_rep_block) {
        (Some(0), Some(block)) => format!("{of}this block is high-rep (block {block})"),
        (Some(blocks), Some(block)) => {
            format!("{of}{} since the last high-rep one, block {block}", wording::count(blocks, "block"))
        }
        _ => format!("{of}no block was high-rep yet"),
    }
}
