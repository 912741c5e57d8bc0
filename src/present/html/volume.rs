//! Weekly volume by family, with the share of high reps.

use super::pieces::{Column, cell, number, numbers, table, words};
use super::plots::bars::{Bar, Words, bars};
use crate::present::wording;
use crate::questions::report::Week;
use crate::questions::volume::Row;
use crate::training::Family;
use maud::{Markup, html};

/// A plot a family, then all weeks in a table.
pub(super) fn section(weeks: &[Week], high_reps: u32) -> Markup {
    if weeks.is_empty() {
        return html! { p { "No work inside a block yet." } };
    }
    let families: Vec<Family> =
        Family::ALL.into_iter().filter(|family| weeks.iter().any(|week| of(week, *family).is_some())).collect();
    let top = weeks.iter().flat_map(|week| week.families.iter().map(|(_, row)| row.sets)).max().unwrap_or(0);
    let by_family: Vec<Column> =
        std::iter::once(words("week")).chain(families.iter().map(|family| number(family.word()))).collect();
    let sets: Vec<Vec<Markup>> = weeks.iter().map(|week| row(week, &families)).collect();
    let all: Vec<Vec<Markup>> = weeks.iter().map(sums).collect();
    html! {
        p.soft {
            "Work sets a week. " span.key { span.swatch.part {} "filled" } ": of " (high_reps) " reps or more. "
            span.key { span.swatch.whole {} "outlined" } ": the others. * a deload or peak week."
        }
        div.plots { @for (nth, family) in families.iter().enumerate() { (plot(nth, *family, weeks, top)) } }
        (numbers("Sets by family as a table", table("Work sets a week by family, and how many of them were high-rep", &by_family, &sets)))
        (numbers("Weekly sums as a table", table("Weekly sums, all lifts", &SUMS, &all)))
    }
}

fn of(week: &Week, family: Family) -> Option<&Row> {
    week.families.iter().find(|(known, _)| *known == family).map(|(_, row)| row)
}

/// `block 9 week 4`, with a star where it is light.
fn name(week: &Week) -> String {
    let star = if week.light { " *" } else { "" };
    format!("{}{star}", wording::block_week(week.all.block.as_deref(), week.all.week))
}

fn plot(nth: usize, family: Family, weeks: &[Week], top: u32) -> Markup {
    let each: Vec<Bar> = weeks
        .iter()
        .map(|week| Bar {
            label: format!("{}{}", week.all.week.unwrap_or(0), if week.light { "*" } else { "" }),
            group: format!("block {}", week.all.block.as_deref().unwrap_or("")),
            whole: of(week, family).map_or(0, |row| row.sets),
            part: of(week, family).map_or(0, |row| row.high_rep_sets),
        })
        .collect();
    let last = each.last().map_or(String::new(), |bar| {
        format!(" In the last of them {}, {} of them high-rep.", wording::count(bar.whole, "set"), bar.part)
    });
    let description = format!("Work sets a week over {}.{last}", wording::count(each.len() as u64, "week"));
    let words = Words { id: format!("volume-{}", nth + 1), title: family.word().to_owned(), description };
    bars(&words, &each, top)
}

/// Of each family the sets, and in brackets the high-rep ones.
fn row(week: &Week, families: &[Family]) -> Vec<Markup> {
    let sets = |family: &Family| match of(week, *family) {
        Some(row) if row.high_rep_sets > 0 => format!("{} ({})", row.sets, row.high_rep_sets),
        Some(row) => row.sets.to_string(),
        None => "0".into(),
    };
    std::iter::once(cell(name(week))).chain(families.iter().map(|family| cell(sets(family)))).collect()
}

const SUMS: [Column; 8] = [
    words("week"),
    number("sessions"),
    number("sets"),
    number("high-rep"),
    number("hard"),
    number("reps"),
    number("tonnage kg"),
    number("avg RPE"),
];

fn sums(week: &Week) -> Vec<Markup> {
    let row = &week.all;
    vec![
        cell(name(week)),
        cell(row.sessions),
        cell(row.sets),
        cell(share(row.high_rep_sets, row.sets)),
        cell(row.hard_sets),
        cell(row.reps),
        cell(kilos(Some(row))),
        cell(row.average_effort.map_or(String::new(), |effort| format!("{:.1}", effort.0))),
    ]
}

/// `6 (38 %)`
fn share(part: u32, whole: u32) -> String {
    match whole {
        0 => part.to_string(),
        _ => format!("{part} ({:.0} %)", f64::from(part) / f64::from(whole) * 100.0),
    }
}

fn kilos(row: Option<&Row>) -> String {
    wording::thousands(row.map_or(0.0, |row| row.tonnage.rounded_kg()))
}
