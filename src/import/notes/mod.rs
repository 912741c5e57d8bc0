//! Notes as people keep them for years: days, lifts and sets in a hand of their own, as pages in the notation. What a
//! line says is for the readings of the notation to tell; here is what only all lines together show.
//!
//! - `days.rs`: lines that say a day; `dates.rs`: which date each is
//! - `sections.rs`: the notes in parts of a day each
//! - `draft.rs`: parts as pages of a month, each line with the one it comes from
//! - `survey.rs`: which habits the lines bear out
//! - `answers.rs`: what was found out, in the file of habits

mod answers;
mod dates;
mod days;
mod draft;
mod sections;
mod survey;

pub use answers::{proposals, with_findings};
pub use draft::{BELOW_NO_DAY, Draft, DraftLine, Refused, drafts};
pub use sections::{Section, sections};
pub use survey::{Finding, Findings, UnknownName, UnknownWord, survey};

/// A file of notes.
#[derive(Clone, Debug)]
pub struct Notes {
    /// Its name, as it is shown.
    pub name: String,
    /// What it says.
    pub text: String,
}

/// A line of notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line<'n> {
    /// Which of the files it is of.
    pub file: usize,
    /// Its number, from 1.
    pub number: u32,
    /// What stands there.
    pub text: &'n str,
}

/// The lines of a file.
fn lines(file: usize, notes: &Notes) -> Vec<Line<'_>> {
    let text = notes.text.strip_prefix('\u{feff}').unwrap_or(&notes.text);
    let numbered = (1u32..).zip(text.split(['\n']));
    numbered.map(|(number, text)| Line { file, number, text: text.trim_end_matches('\r') }).collect()
}
