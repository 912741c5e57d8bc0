//! How large a journal is, and how wildly it is spelled.

use super::model::Model;
use super::page::Journal;
use chrono::NaiveDate;
use std::ops::RangeInclusive;

/// How large a journal is, and how wildly it is spelled.
pub struct Shape {
    pub(super) blocks: RangeInclusive<u32>,
    pub(super) weeks: RangeInclusive<u32>,
    pub(super) sessions: RangeInclusive<u32>,
    pub(super) lifts: RangeInclusive<u32>,
    /// Percent of the places for a detail or a line of prose that are used.
    pub(super) talk: u32,
    /// Whether every legal spelling is used, or the tidy one.
    pub(super) wild: bool,
    /// Whether sessions of one date always have times.
    pub(super) timed: bool,
    pub(super) first: NaiveDate,
    /// A wild journal begins up to so many days later.
    pub(super) later: u32,
    /// Whether there is much for a coach to see: faults, pains, a lift that is left out, meets and test days.
    pub(super) coached: bool,
    /// Whether efforts are left out, and sets, reps and loads are mostly the same.
    pub(super) plain: bool,
}

/// A small journal in wild spelling.
pub fn journal(seed: u64) -> Journal {
    Model::new(Shape { timed: false, ..small() }, seed).written()
}

/// A small journal whose sessions of one date all have times, so that any page may hold any of them.
pub fn timed_journal(seed: u64) -> Journal {
    Model::new(small(), seed).written()
}

fn small() -> Shape {
    Shape {
        blocks: 1..=3,
        weeks: 3..=6,
        sessions: 1..=3,
        lifts: 2..=4,
        talk: 25,
        wild: true,
        timed: true,
        first: day(2019, 1, 7),
        later: 2500,
        coached: false,
        plain: false,
    }
}

/// A lifter of a [`team`](super::team::team).
pub(super) fn coached() -> Shape {
    Shape {
        blocks: 2..=4,
        weeks: 3..=5,
        sessions: 2..=3,
        lifts: 3..=5,
        timed: false,
        later: 40,
        coached: true,
        ..small()
    }
}

/// The journal of so many years: four sessions a week with plans, cues and remarks, tidily spelled, a page
/// a block. Thirty years are about 10 MB.
#[allow(dead_code, reason = "the benches use it")]
pub fn lifetime(years: u32, seed: u64) -> Journal {
    let blocks = years * 52 / 4;
    let shape = Shape {
        blocks: blocks..=blocks,
        weeks: 4..=4,
        sessions: 4..=4,
        lifts: 5..=5,
        talk: 92,
        wild: false,
        timed: true,
        first: day(1996, 1, 1),
        later: 0,
        coached: false,
        plain: false,
    };
    Model::new(shape, seed).written()
}

fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("a real date")
}
