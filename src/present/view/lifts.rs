//! `lifts` as text.

use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::lifts::Answer;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let lifts = u32::try_from(answer.lifts.len()).unwrap_or(u32::MAX);
    out.line(Role::Answer, wording::count(lifts, "lift"));
    let mut table = Table::new(vec![
        Column::left("lift"),
        Column::left("family").spare(2),
        Column::left("first").spare(3),
        Column::left("last"),
        Column::right("sessions").spare(1),
        Column::right("sets"),
    ]);
    for row in &answer.lifts {
        table.row(vec![
            (Role::Answer, row.lift.clone()),
            (Role::Place, row.family.to_string()),
            (Role::Plain, wording::date(row.first)),
            (Role::Plain, wording::date(row.last)),
            (Role::Plain, row.sessions.to_string()),
            (Role::Plain, row.sets.to_string()),
        ]);
    }
    out.table(table);
    out
}
