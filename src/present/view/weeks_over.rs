//! This block's weeks over those of the block before, drawn: a row a lift, from then to now.

use super::r#match::{changes_in_load, lifts, title, verdicts};
use crate::present::doc::{Column, Table, When};
use crate::present::plot::{Arrow, Arrows, Glyphs};
use crate::present::{Doc, Role};
use crate::questions::weeks_over::{Answer, Row};

/// Draws the answer; below it each lift of the week with its place, where `places` says so.
pub fn plot(answer: &Answer, places: bool, glyphs: Glyphs) -> Doc {
    let rows = answer.weeks_over.as_deref().unwrap_or_default();
    let mut out = Doc::new();
    let (block, week) = (answer.week.block.as_deref().unwrap_or("?"), answer.week.week.unwrap_or(0));
    if rows.is_empty() {
        return super::r#match::show(&answer.week, places);
    }
    out.wrapped(Role::Answer, verdicts(&answer.week), 2);
    out.wrapped(Role::Plain, title(&answer.week, block, week), 2);
    out.gap();
    out.append(drawn(rows, week, glyphs));
    if places {
        out.append(lifts(&answer.week, places));
    }
    out
}

/// The rows by themselves.
pub(in crate::present) fn drawn(rows: &[Row], week: u32, glyphs: Glyphs) -> Doc {
    let mut out = Doc::new();
    let arrows: Vec<Arrow> = rows.iter().filter_map(|row| arrow(row, week)).collect();
    if arrows.is_empty() {
        return out;
    }
    let earlier = arrows.iter().any(|arrow| !arrow.before.is_empty());
    out.picture(Arrows { title: "Then and now, lift by lift".into(), arrows, glyphs });
    let digits = if earlier { "; a digit is that week" } else { "" };
    let words = format!("o is the last block, the arrow ends at this one, in the latest week both have{digits}");
    let mut screen = Doc::new();
    screen.wrapped(Role::Place, words, 2);
    out.only(When::OnScreen, screen);
    let mut page = Doc::new();
    page.wrapped(
        Role::Place,
        "Ring: the last block. Arrow's end: this block, in the latest week both have. Dots: the weeks before.",
        0,
    );
    out.only(When::OnPage, page);
    out
}

/// The numbers of the picture: each lift in each week.
pub(in crate::present) fn table(rows: &[Row]) -> Doc {
    let mut table = Table::new(vec![
        Column::left("lift").heading(),
        Column::right("week"),
        Column::left("then and now"),
        Column::right("%"),
    ])
    .captioned("This block's weeks over the last block's");
    for (row, step) in rows.iter().flat_map(|row| row.weeks.iter().map(move |step| (row, step))) {
        table.row(vec![
            (Role::Answer, row.lift.clone()),
            (Role::Plain, step.week.to_string()),
            (Role::Plain, changes_in_load(&step.pair)),
            (Role::Plain, format!("{:+.1}", step.change.0)),
        ]);
    }
    Doc::of(table)
}

fn arrow(row: &Row, week: u32) -> Option<Arrow> {
    let (last, before) = row.weeks.split_last()?;
    let sign = |week: u32| char::from_digit(week, 10).unwrap_or('*');
    let when = if last.week == week { String::new() } else { format!(", wk {}", last.week) };
    Some(Arrow {
        name: row.lift.clone(),
        change: last.change.0,
        before: before.iter().map(|step| (sign(step.week), step.change.0)).collect(),
        words: format!("{}{when}", changes_in_load(&last.pair)),
    })
}
