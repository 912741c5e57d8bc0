//! What answers say, in one shape: the same for a row of SQLite, a value of the library, and JSON.

use crate::support::generator::{KG, METRE};
use loadline::history::Mark;
use loadline::questions::{lifts, since, taper, volume};
use loadline::training::{Amount, Effort, Tonnage};
use rusqlite::Row;
use serde_json::Value;

/// What a mark says, as one line: the same for a row of SQLite, a value of the library, and JSON.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Shown {
    pub(super) date: String,
    pub(super) block: Option<String>,
    pub(super) week: Option<u32>,
    pub(super) day: Option<String>,
    pub(super) sets: u32,
    pub(super) reps: Option<u32>,
    pub(super) seconds: Option<u32>,
    pub(super) metres: Option<f64>,
    pub(super) per_side: bool,
    pub(super) load: Option<String>,
    pub(super) kilograms: Option<f64>,
    pub(super) approximate: bool,
    pub(super) effort: Option<f64>,
    pub(super) page: String,
    pub(super) line: u32,
}

/// A block's name and start, weeks with work, high-rep weeks, sets, and high-rep sets.
pub(super) type BlockShown = (String, String, u32, u32, u32, u32);

/// What `since` says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct SinceShown {
    pub(super) reps: u32,
    pub(super) block: Option<String>,
    pub(super) blocks_since: Option<u32>,
    pub(super) last_high: Option<String>,
    pub(super) last_set: Option<Shown>,
    pub(super) weeks: Option<i64>,
    pub(super) rows: Vec<BlockShown>,
    pub(super) high: Vec<bool>,
}

/// What `taper` says of a lift or of all: changes in percent, and whether it was taken out.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct TaperRow {
    pub(super) name: String,
    pub(super) sets: Option<f64>,
    pub(super) reps: Option<f64>,
    pub(super) tonnage: Option<f64>,
    pub(super) taken_out: bool,
}

/// The columns that [`Shown::of_row`] reads, of a subquery with `n` sets and effort `most`.
pub(super) const MARK: &str =
    "date, (SELECT name FROM blocks WHERE blocks.id = block), week, day, n, reps, seconds, metres, sides,
    load, mass, approximate, most, page, line";

impl Shown {
    pub(super) fn of_row(row: &Row<'_>) -> rusqlite::Result<Self> {
        Ok(Shown {
            date: row.get(0)?,
            block: row.get(1)?,
            week: row.get(2)?,
            day: row.get(3)?,
            sets: row.get(4)?,
            reps: row.get(5)?,
            seconds: row.get(6)?,
            metres: row.get::<_, Option<i64>>(7)?.map(|metres| hundredths(metres, METRE)),
            per_side: row.get::<_, u32>(8)? == 2,
            load: row.get(9)?,
            kilograms: row.get::<_, Option<i64>>(10)?.map(|mass| hundredths(mass, KG)),
            approximate: row.get(11)?,
            effort: row.get::<_, Option<f64>>(12)?.map(|quarters| quarters / 4.0),
            page: row.get(13)?,
            line: row.get(14)?,
        })
    }

    pub(super) fn of_mark(mark: &Mark) -> Self {
        let mut shown = Shown {
            date: mark.date.to_string(),
            block: mark.block.clone(),
            week: mark.week,
            day: mark.day.clone(),
            sets: mark.sets,
            per_side: mark.per_side,
            load: mark.load.text(),
            kilograms: mark.load.kilograms.map(|mass| mass.rounded_kg()),
            approximate: mark.load.is_approximate(),
            effort: mark.effort.map(Effort::value),
            page: mark.place.page.to_string(),
            line: mark.place.line,
            ..Shown::default()
        };
        match mark.amount {
            Amount::Reps(reps) => shown.reps = Some(reps),
            Amount::Seconds(seconds) => shown.seconds = Some(seconds),
            Amount::Metres(metres) => shown.metres = Some(metres.rounded_metres()),
        }
        shown
    }

    pub(super) fn of_json(mark: &Value) -> Self {
        let text = |value: &Value| value.as_str().map(str::to_owned);
        let number = |key: &str| mark[key].as_u64().map(|number| number as u32);
        Shown {
            date: text(&mark["date"]).unwrap(),
            block: text(&mark["block"]),
            week: number("week"),
            day: text(&mark["day"]),
            sets: number("sets").unwrap(),
            reps: number("reps"),
            seconds: number("seconds"),
            metres: mark["metres"].as_f64(),
            per_side: mark["per_side"].as_bool().unwrap(),
            load: text(&mark["load"]["text"]),
            kilograms: mark["load"]["kg"].as_f64(),
            approximate: mark["load"]["approximate"].as_bool().unwrap_or(false),
            effort: mark["effort"].as_f64(),
            page: text(&mark["page"]).unwrap(),
            line: number("line").unwrap(),
        }
    }
}

/// A number of the rows' unit to the nearest hundredth, half away from zero.
pub(super) fn hundredths(number: i64, unit: i64) -> f64 {
    ((number + unit / 200) / (unit / 100)) as f64 / 100.0
}

type Names = (Option<String>, Option<String>, Option<u32>);

#[allow(clippy::too_many_arguments)]
pub(super) fn volume_row(
    names: Names,
    sessions_sets_reps: (u32, u32, i64),
    tonnage: f64,
    bodyweight_tonnage: Option<f64>,
    average: Option<f64>,
    seconds_metres_high: (i64, f64, u32),
    effort: Option<f64>,
    without_effort: u32,
) -> String {
    // Efforts are compared to the hundredth, as JSON has them.
    let effort = effort.map(|effort| (effort * 100.0).round() / 100.0);
    format!(
        "{names:?} {sessions_sets_reps:?} {tonnage} {bodyweight_tonnage:?} {average:?} {seconds_metres_high:?} {effort:?} {without_effort}"
    )
}

pub(super) fn volume_of(answer: &volume::Answer) -> Vec<String> {
    let row = |row: &volume::Row| {
        volume_row(
            (row.key.clone(), row.block.clone(), row.week),
            (row.sessions, row.sets, row.reps as i64),
            row.tonnage.rounded_kg(),
            row.bodyweight_tonnage.map(Tonnage::rounded_kg),
            row.average_load.map(|load| load.0),
            (row.seconds as i64, row.metres.rounded_metres(), row.high_rep_sets),
            row.average_effort.map(|effort| effort.0),
            row.sets_without_effort,
        )
    };
    answer.rows.iter().map(row).collect()
}

pub(super) fn volume_of_json(answer: &Value) -> Vec<String> {
    let text = |value: &Value| value.as_str().map(str::to_owned);
    let row = |row: &Value| {
        let number = |key: &str| row[key].as_i64().unwrap();
        volume_row(
            (text(&row["key"]), text(&row["block"]), row["week"].as_u64().map(|week| week as u32)),
            (number("sessions") as u32, number("sets") as u32, number("reps")),
            row["tonnage_kg"].as_f64().unwrap(),
            row["bodyweight_tonnage_kg"].as_f64(),
            row["average_kg"].as_f64(),
            (number("seconds"), row["metres"].as_f64().unwrap(), number("high_rep_sets") as u32),
            row["average_effort"].as_f64(),
            number("sets_without_effort") as u32,
        )
    };
    answer["rows"].as_array().unwrap().iter().map(row).collect()
}

pub(super) fn since_of(answer: &since::Answer) -> SinceShown {
    let row = |row: &since::Row| {
        let (name, starts) = (row.name.clone(), row.starts.to_string());
        (name, starts, row.weeks_with_work, row.high_rep_weeks, row.sets, row.high_rep_sets)
    };
    SinceShown {
        reps: answer.reps,
        block: answer.block.clone(),
        blocks_since: answer.blocks_since,
        last_high: answer.last_high_rep_block.clone(),
        last_set: answer.last_set.as_ref().map(Shown::of_mark),
        weeks: answer.weeks_since_set,
        rows: answer.blocks.iter().map(row).collect(),
        high: answer.blocks.iter().map(|row| row.high_rep).collect(),
    }
}

/// To the nearest millionth: the two sides divide in another order.
pub(super) fn millionths(value: f64) -> f64 {
    // Nothing has no sign.
    (value * 1e6).round() / 1e6 + 0.0
}

pub(super) fn taper_of(answer: &taper::Answer) -> Vec<TaperRow> {
    let Ok(comparison) = &answer.comparison else { return Vec::new() };
    let rows = std::iter::once(&comparison.all).chain(&comparison.lifts);
    rows.map(|row| TaperRow {
        name: row.name.clone(),
        sets: row.change.sets.map(|sets| millionths(sets.0)),
        reps: row.change.reps.map(|reps| millionths(reps.0)),
        tonnage: row.change.tonnage.map(|tonnage| millionths(tonnage.0)),
        taken_out: comparison.taken_out.contains(&row.name),
    })
    .collect()
}

pub(super) fn lifts_of(answer: &lifts::Answer) -> Vec<String> {
    let row = |row: &lifts::Row| {
        format!("{} {} {} {} {} {}", row.lift, row.family, row.first, row.last, row.sessions, row.sets)
    };
    answer.lifts.iter().map(row).collect()
}

pub(super) fn sorted(mut lines: Vec<String>) -> Vec<String> {
    lines.sort_unstable();
    lines
}
