//! `roster` as text: one line a lifter.

use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::roster::Answer;

/// Shows the lines.
pub fn show(Answer { lifters: lines }: &Answer) -> Doc {
    let mut out = Doc::new();
    if lines.is_empty() {
        out.line(Role::Answer, "no lifter here yet");
        return out;
    }
    let mut table = Table::new(vec![
        Column::left("lifter").wraps(2, 8),
        Column::left("at").under(0),
        Column::right("days"),
        Column::right("done"),
        Column::right("ahead"),
        Column::right("level"),
        Column::right("behind"),
        Column::right("overshoots").spare(2),
        Column::right("cautions"),
        Column::left("meet in"),
        Column::left("").spare(1).under(9),
        Column::left("").on_pages().under(9),
    ])
    .with_head(2)
    .captioned("How each lifter stands");
    for line in lines {
        let count = |number: u32| if number == 0 { String::new() } else { number.to_string() };
        let done = line.percent.map_or(String::new(), |percent| format!("{percent} %"));
        let cautions = u32::try_from(line.cautions.len()).unwrap_or(u32::MAX);
        let behind = if line.behind > 0 { Role::Behind } else { Role::Plain };
        table.row(vec![
            (Role::Answer, line.name.clone()),
            (Role::Plain, wording::block_week(line.block.as_deref(), line.week)),
            (Role::Plain, line.days_since.map_or("-".into(), |days| days.to_string())),
            (Role::Plain, done),
            (Role::Plain, count(line.ahead)),
            (Role::Plain, count(line.level)),
            (behind, count(line.behind)),
            (Role::Caution, count(line.overshoots)),
            (Role::Caution, count(cautions)),
            (Role::Plain, line.next_meet.as_ref().map_or(String::new(), |next| weeks(next.weeks))),
            (Role::Place, line.next_meet.as_ref().map_or(String::new(), |next| next.title.clone())),
            (Role::Place, line.next_meet.as_ref().map_or(String::new(), |next| wording::day(next.date))),
        ]);
    }
    out.table(table);
    let words = "days: since the last session; done: of this week's planned sets; ahead, level, behind: lifts against the same week of the last block; \
                 overshoots: efforts 1 point or more over their plan, or what the settings say";
    out.wrapped(Role::Place, words, 2);
    let unread: u32 = lines.iter().filter(|line| line.left_out > 0).count() as u32;
    if unread > 0 {
        let verb = if unread == 1 { "has" } else { "have" };
        let words = format!("{} {verb} lines that count nowhere", wording::count(unread, "lifter"));
        out.broken(vec![(Role::Caution, words), (Role::Hint, "; see `loadline check`".into())], 2);
    }
    out
}

/// How long it is to a meet.
pub(in crate::present) fn weeks(weeks: i64) -> String {
    if weeks == 0 { "this week".into() } else { wording::count(weeks.unsigned_abs(), "week") }
}
