//! What a made-up lifter writes: pages as anyone may write them.

use super::lifter::{Day, Set, WEEKS};
use chrono::{Days, NaiveDate};
use std::fmt::Write;

/// The first day of every journal, a Monday.
pub fn first() -> NaiveDate {
    NaiveDate::from_ymd_opt(2023, 1, 2).unwrap()
}

pub fn date(day: u32) -> NaiveDate {
    first() + Days::new(u64::from(day))
}

/// The whole journal on one page.
pub fn page(days: &[Day]) -> String {
    let mut page = String::new();
    for block in days.chunk_by(|one, other| one.week / WEEKS == other.week / WEEKS) {
        let number = block[0].week / WEEKS;
        let (starts, ends) = (date(number * WEEKS * 7), date((number + 1) * WEEKS * 7 - 1));
        writeln!(page, "# Block {}\n\n- starts: {starts}\n- ends: {ends}\n", number + 1).unwrap();
        for day in block {
            let sets: Vec<String> = day.sets.iter().map(written).collect();
            writeln!(page, "## {}\n\n- Back squat: {}\n", date(day.day), sets.join(", ")).unwrap();
        }
    }
    page
}

/// A set as it is written.
pub fn written(set: &Set) -> String {
    let effort = set.left.map_or(String::new(), |left| format!(" RPE {}", 10.0 - left));
    format!("1x{} @ {} kg{effort}", set.reps, set.load)
}
