//! What came of notes, for text and JSON.

use super::import::Writing;
use schemars::JsonSchema;
use serde::Serialize;

/// What came of notes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "NotesOutcome")]
pub struct Outcome<'a> {
    /// The files, as they were named.
    pub files: Vec<String>,
    /// Their lines that are not blank.
    pub lines: usize,
    /// Lines of work in the pages.
    pub work: usize,
    /// Lines that are not read, in order.
    pub not_read: Vec<NotRead<'a>>,
    /// Names that no lift has, the most frequent first.
    pub names: Vec<Name>,
    /// Habits that the lines bear out.
    pub proposed: Vec<Proposed>,
    /// Habits that lines ask for, and that nothing decides.
    pub open: Vec<Open>,
    /// Whether what is proposed counts already.
    pub accepted: bool,
    /// How many lines are read only because of it.
    pub rest_on_proposed: usize,
    /// The file of habits that was written.
    pub habits_written: Option<String>,
    /// Its pages.
    #[serde(flatten)]
    pub writing: Writing,
}

/// A line that is not read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct NotRead<'a> {
    /// The file.
    pub file: &'a str,
    /// The line's number, from 1.
    pub line: u32,
    /// What stands there.
    pub text: &'a str,
    /// The problem's name, as `check` has it.
    pub problem: &'static str,
    /// What is said of it.
    pub says: String,
}

/// A name that no lift has.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "UnknownName")]
pub struct Name {
    /// As it is typed.
    pub name: String,
    /// How many lines are about it.
    pub lines: usize,
    /// Lifts with a name like it.
    pub near: Vec<String>,
}

/// A habit that the lines bear out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Proposed {
    /// As it stands in the settings: `before x: load`.
    pub habit: String,
    /// Of how many lines: `41 of 47 lines`.
    pub borne_out_by: String,
}

/// A habit that lines ask for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "OpenHabit")]
pub struct Open {
    /// The key, and what it takes.
    pub habit: String,
    /// How many lines ask for it.
    pub lines: usize,
}

impl Outcome<'_> {
    /// The problems of the lines that are not read, each with how many lines have it; the most frequent first.
    pub fn by_kind(&self) -> Vec<(&'static str, usize)> {
        let mut kinds: Vec<(&'static str, usize)> = Vec::new();
        for line in &self.not_read {
            match kinds.iter_mut().find(|(kind, _)| *kind == line.problem) {
                Some((_, count)) => *count += 1,
                None => kinds.push((line.problem, 1)),
            }
        }
        kinds.sort_by_key(|(kind, count)| (std::cmp::Reverse(*count), *kind));
        kinds
    }
}
