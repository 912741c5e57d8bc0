//! `volume` as text.

use crate::present::doc::{Column, Table, When};
use crate::present::plot::{self, Bars, Columns, Glyphs, Told};
use crate::present::{Doc, Role, wording};
use crate::questions::volume::{Answer, By, Row};
use crate::training::{Figure, Hundredths, Mass, Tonnage, shown_in, words};

/// Where the share of the estimated maximum stands among the columns.
const AVERAGE_PERCENT: usize = 12;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    if answer.rows.is_empty() {
        out.line(Role::Answer, "No work set in that range");
        return out;
    }
    let mut table = Table::new(vec![
        Column::left(answer.by.word()),
        Column::right("sessions").spare(4),
        Column::right("sets"),
        Column::right("reps"),
        Column::right(wording::in_unit("tonnage kg", "tonnage lb")),
        Column::right(wording::in_unit("with bw kg", "with bw lb")).spare(2),
        Column::right(wording::in_unit("avg kg", "avg lb")).spare(3),
        Column::right("seconds").spare(6),
        Column::right("metres").spare(7),
        Column::right("high-rep").spare(5),
        Column::right("RPE 6+"),
        Column::right("avg RPE").spare(1),
        Column::right("avg %").spare(4),
        Column::right("80 %+").spare(5),
        Column::right("90 %+").spare(5),
        Column::right("no RPE").spare(8),
    ]);
    for row in &answer.rows {
        table.row(cells(answer.by, row));
    }
    out.table(table);
    let words = "RPE 6+: sets that left 4 reps or fewer";
    out.wrapped(Role::Place, words, 2);
    let mut about = Doc::new();
    let words = "avg %, 80 %+, 90 %+: of the day's estimated maximum, reps of sets on days that have one";
    about.wrapped(Role::Place, words, 2);
    out.only(When::Shown(AVERAGE_PERCENT), about);
    let missing: u32 = answer.rows.iter().map(|row| row.without_bodyweight).sum();
    if missing > 0 {
        let words = format!(
            "{} with bw are in no tonnage: no bodyweight is written within 60 days before",
            wording::count(missing, "set")
        );
        out.wrapped(Role::Caution, &words, 2);
    }
    out
}

/// So many kilograms as a number of the unit that masses are told in.
fn told(kilograms: f64) -> f64 {
    Mass::from_kilograms(kilograms).unwrap_or_default().rounded_in(shown_in())
}

fn cells(by: By, row: &Row) -> Vec<(Role, String)> {
    let name = name(by, row);
    let number = |number: u64| if number == 0 { String::new() } else { number.to_string() };
    let mass = |mass: f64| if mass == 0.0 { String::new() } else { wording::thousands(mass) };
    let figure =
        |figure: Option<Hundredths>, decimals| figure.map_or(String::new(), |Figure(it)| format!("{it:.decimals$}"));
    vec![
        (Role::Answer, name),
        (Role::Plain, row.sessions.to_string()),
        (Role::Plain, row.sets.to_string()),
        (Role::Plain, number(row.reps)),
        (Role::Plain, mass(row.tonnage.rounded_in(shown_in()))),
        (Role::Plain, row.bodyweight_tonnage.map_or("?".into(), |sum| mass(sum.rounded_in(shown_in())))),
        (Role::Plain, row.average_load.map_or(String::new(), |Figure(kilograms)| format!("{:.1}", told(kilograms)))),
        (Role::Plain, number(row.seconds)),
        (Role::Plain, mass(row.metres.rounded_metres())),
        (Role::Plain, number(u64::from(row.high_rep_sets))),
        (Role::Plain, number(u64::from(row.sets_at_rpe_6))),
        (Role::Plain, figure(row.average_effort, 1)),
        (Role::Plain, figure(row.average_relative_intensity, 0)),
        (Role::Plain, row.lifts_at_80.map_or(String::new(), number)),
        (Role::Plain, row.lifts_at_90.map_or(String::new(), number)),
        (Role::Place, number(u64::from(row.sets_without_effort))),
    ]
}

fn name(by: By, row: &Row) -> String {
    match by {
        By::Week => match (&row.block, row.week) {
            (Some(block), Some(week)) => format!("block {block} week {week}"),
            _ => "in no block".into(),
        },
        By::Block => row.key.as_ref().map_or("in no block".into(), |key| format!("block {key}")),
        By::Day => row.key.clone().unwrap_or("no label".into()),
        _ => row.key.clone().unwrap_or_default(),
    }
}

words! {
    /// What a plot is of.
    pub enum Of {
        /// Work sets.
        Sets = "sets",
        /// Kilograms times reps, without loads that contain the lifter's own weight.
        Tonnage = "tonnage",
    }
}

/// The rows drawn: weeks as columns, other rows as bars.
pub fn plot(answer: &Answer, of: Of, glyphs: Glyphs) -> Doc {
    if answer.rows.is_empty() {
        return show(answer);
    }
    let mut out = Doc::new();
    let per = answer.by.word();
    let (heading, unit) = match of {
        Of::Sets => (format!("Work sets by {per}"), "sets"),
        Of::Tonnage => (format!("Tonnage by {per}, in {unit} times reps", unit = shown_in().word()), shown_in().word()),
    };
    out.line(Role::Answer, heading.clone());
    let numbers = |row: &Row| match of {
        Of::Sets => (f64::from(row.sets), f64::from(row.high_rep_sets)),
        Of::Tonnage => (row.tonnage.rounded_in(shown_in()), row.high_rep_tonnage.rounded_in(shown_in())),
    };
    if answer.by == By::Week {
        let column = |row: &Row| {
            let (whole, part) = numbers(row);
            Some(plot::Column { group: row.block.clone()?, label: row.week?.to_string(), whole, part, so_far: false })
        };
        let columns: Vec<plot::Column> = answer.rows.iter().filter_map(column).collect();
        out.picture(Columns {
            title: heading,
            columns,
            unit,
            top: 0.0,
            told: Told::HighReps(answer.high_reps),
            glyphs,
        });
    } else {
        let bar = |row: &Row| {
            let (whole, part) = numbers(row);
            plot::Bar { name: name(answer.by, row), whole, part, words: wording::thousands(whole) }
        };
        let bars: Vec<plot::Bar> = answer.rows.iter().map(bar).collect();
        out.picture(Bars { bars, glyphs });
    }
    let mut legend = Vec::new();
    if answer.rows.iter().any(|row| numbers(row).1 > 0.0) {
        let (full, part) = glyphs.fills();
        legend.push(format!("{part} sets of {} reps or more; {full} others", answer.high_reps));
    }
    if of == Of::Tonnage && answer.rows.iter().any(|row| row.bodyweight_tonnage != Some(Tonnage::default())) {
        legend.push("loads with bw are not in it".into());
    }
    // Work in no block is one row, and no week.
    let outside: u32 = answer.rows.iter().filter(|row| row.block.is_none()).map(|row| row.sets).sum();
    if answer.by == By::Week && outside > 0 {
        legend.push(format!("{} in no block are not drawn", wording::count(outside, "set")));
    }
    if !legend.is_empty() {
        out.wrapped(Role::Place, legend.join("; "), 2);
    }
    out
}
