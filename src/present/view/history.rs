//! `history` as text.

use crate::analysis::strength::heaviest::Answer as Heaviest;
use crate::present::doc::{Column, Table};
use crate::present::plot::{Glyphs, Marks};
use crate::present::{Doc, Role, wording};
use crate::questions::history::{Answer, Planned};

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let marks = u32::try_from(answer.marks.len()).unwrap_or(u32::MAX);
    let words = format!("{}: {}, oldest first", answer.lift, wording::count(marks, "mark"));
    out.wrapped(Role::Answer, &words, 2);
    let mut table = Table::new(vec![
        Column::left("date"),
        Column::left("block"),
        Column::left("week"),
        Column::left("done"),
        Column::left("plan").spare(2),
        Column::left("day").spare(1),
        Column::left("where").spare(3),
    ]);
    for Planned { mark, plan } in &answer.marks {
        let mut done = wording::mark(mark);
        if !mark.faults.is_empty() {
            done.push_str(&format!(" {}", wording::faults(&mark.faults)));
        }
        let role = if mark.faults.is_empty() { Role::Plain } else { Role::Caution };
        table.row(vec![
            (Role::Plain, wording::date(mark.date)),
            (Role::Place, mark.block.clone().unwrap_or_default()),
            (Role::Place, mark.week.map_or(String::new(), |week| week.to_string())),
            (role, done),
            (Role::Place, plan.clone().unwrap_or_default()),
            (Role::Place, mark.day.clone().unwrap_or_default()),
            (Role::Place, mark.place.to_string()),
        ]);
    }
    out.table(table);
    out
}

/// The heaviest set of each day, drawn.
pub fn plot(answer: Heaviest, glyphs: Glyphs) -> Doc {
    let mut out = Doc::new();
    let lift = glyphs.safe(&answer.lift);
    if answer.days.is_empty() {
        let words = format!("{lift}: no clean set of reps with a load that is a mass in that range");
        out.wrapped(Role::Answer, &words, 2);
        return out;
    }
    let days = wording::count(answer.days.len() as u64, "day");
    let added = if answer.added { ", added to bodyweight" } else { "" };
    out.wrapped(Role::Answer, format!("{lift}: the heaviest clean set of {days}{added}"), 2);
    out.picture(Marks { answer, glyphs });
    out
}
