//! A problem with its line shown and the fault marked.

use super::doc::width;
use super::doc::{Doc, Role};
use super::sanitize::sanitize;
use crate::problems::{Count, Problem, Severity};
use crate::source::{Cut, Edit, Lines, Position};
use schemars::JsonSchema;
use serde::Serialize;

/// What `check` answers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Answer {
    /// Pages read.
    pub pages: u32,
    /// Sessions with a date in them.
    pub sessions: u32,
    /// Lines with sets that count.
    pub work_lines: u32,
    /// Plans.
    pub planned: u32,
    /// Lines that hold no training.
    pub prose_lines: u32,
    /// Lines that an error costs.
    #[serde(skip)]
    pub nowhere: u32,
    /// Problems that leave something out of the answers.
    pub errors: u32,
    /// Problems of lines that were read, and want a look.
    pub warnings: u32,
    /// The problems, by page and line; of each page the first thousand.
    pub problems: Vec<Placed>,
    /// How many more a page has.
    pub more_problems: Vec<More>,
    /// Lifts that neither the lift book nor the settings know: they are of no family. Twenty at most, those with the most lines.
    pub lifts_without_family: Vec<Unfamiliar>,
}

/// Problems of a page that are counted and not shown.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct More {
    /// The page's path below the root.
    pub page: String,
    /// How many of them are errors.
    pub errors: u32,
    /// How many are warnings.
    pub warnings: u32,
}

impl More {
    /// What a page has more than is shown of it; nothing where it has no more.
    pub fn than(page: &str, shown: &[Placed], all: Count) -> Option<More> {
        let number = |severity| shown.iter().filter(|problem| problem.severity == severity).count() as u32;
        let errors = all.errors.saturating_sub(number(Severity::Error));
        let warnings = all.warnings.saturating_sub(number(Severity::Warning));
        (errors + warnings > 0).then(|| More { page: page.to_owned(), errors, warnings })
    }
}

/// A lift that neither the lift book nor the settings know.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Unfamiliar {
    /// Its name.
    pub lift: String,
    /// How many work lines it has.
    pub lines: u32,
    /// Lifts of the book with names like it.
    pub near: Vec<String>,
}

impl Answer {
    /// Counts the problems. Lines are those of work, of plans, of prose, and those that count nowhere.
    pub fn new(
        pages: u32,
        sessions: u32,
        lines: (u32, u32, u32, u32),
        (problems, more_problems): (Vec<Placed>, Vec<More>),
    ) -> Self {
        let (work_lines, planned, prose_lines, nowhere) = lines;
        let number = |severity| problems.iter().filter(|problem| problem.severity == severity).count() as u32;
        let errors = number(Severity::Error) + more_problems.iter().map(|more| more.errors).sum::<u32>();
        let warnings = number(Severity::Warning) + more_problems.iter().map(|more| more.warnings).sum::<u32>();
        Answer {
            pages,
            sessions,
            work_lines,
            planned,
            prose_lines,
            nowhere,
            errors,
            warnings,
            problems,
            more_problems,
            lifts_without_family: Vec::new(),
        }
    }
}

/// A problem with its place counted out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Placed {
    /// The page's path below the root.
    pub page: String,
    /// The first character at fault.
    #[serde(flatten)]
    pub start: Position,
    /// The column after the last one, in the line of `start`.
    pub end_column: u32,
    /// The severity.
    pub severity: Severity,
    /// The stable name.
    pub kind: &'static str,
    /// What is wrong.
    pub message: String,
    /// What to put where.
    pub fix: Option<PlacedFix>,
    /// What could be meant, where only the lifter can tell.
    pub choices: Vec<PlacedChoice>,
    /// The line as it stands; of a long one, the part about the fault.
    #[serde(skip)]
    pub text: String,
    /// The column that `text` begins with, from 1.
    #[serde(skip)]
    pub first_column: u32,
}

/// One thing that could be meant.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PlacedChoice {
    /// It in words.
    pub say: String,
    /// What to put where.
    pub edit: PlacedFix,
}

/// A fix with its place counted out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PlacedFix {
    /// Where it begins.
    #[serde(flatten)]
    pub start: Position,
    /// The column after what it replaces.
    pub end_column: u32,
    /// What it puts there.
    pub text: String,
    /// The line as it would stand then; only the replacement, where the line is long.
    #[serde(skip)]
    pub line: String,
}

impl Placed {
    /// Counts out a problem's place in its page's text.
    pub fn new(page: &str, lines: &Lines<'_>, problem: &Problem) -> Self {
        let start = lines.position(problem.span.start);
        let (end_column, _) = end(lines, start, problem.span.end);
        let fix = problem.fix.as_ref().map(|edit| placed_fix(lines, edit));
        Placed {
            page: page.to_owned(),
            start,
            end_column,
            severity: problem.kind.severity(),
            kind: problem.kind.name(),
            message: problem.kind.message(),
            fix,
            choices: problem
                .choices
                .iter()
                .map(|choice| PlacedChoice { say: choice.say.clone(), edit: placed_fix(lines, &choice.edit) })
                .collect(),
            text: shown_part(lines.line(start.line), start.column),
            first_column: first_shown(lines.line(start.line), start.column),
        }
    }
}

/// The column after a span that begins at `start`, cut at the line's end.
fn end(lines: &Lines<'_>, start: Position, offset: u32) -> (u32, Position) {
    let end = lines.position(offset);
    let last = lines.line(start.line).chars().count() as u32 + 1;
    let column = if end.line == start.line { end.column } else { last };
    (column.max(start.column), end)
}

fn placed_fix(lines: &Lines<'_>, edit: &Edit) -> PlacedFix {
    let start = lines.position(edit.span.start);
    let (end_column, _) = end(lines, start, edit.span.end);
    let line = lines.line(start.line);
    if line.len() > LONGEST {
        return PlacedFix { start, end_column, text: edit.text.clone(), line: edit.text.clone() };
    }
    let split = |column: u32| line.char_indices().nth(column as usize - 1).map_or(line.len(), |(at, _)| at);
    let (before, after) = (line.head(split(start.column)), line.tail(split(end_column)));
    PlacedFix { start, end_column, text: edit.text.clone(), line: format!("{before}{}{after}", edit.text) }
}

/// How what is wrong is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// On one line each, however long: what is not read on a terminal is read by a program.
    OneLine,
    /// Broken between words where the screen is too narrow, behind a place that is whole.
    Broken,
}

/// Shows a problem: where, what, the line with the fault marked, and the line to write instead.
pub fn show(problem: &Placed, told: Told, out: &mut Doc) {
    let (role, word) = match problem.severity {
        Severity::Error => (Role::Error, "error"),
        Severity::Warning => (Role::Caution, "warning"),
    };
    let place = (Role::Answer, format!("{}:{}:{}:", problem.page, problem.start.line, problem.start.column));
    let kind = (role, format!(" {word}[{}]", problem.kind));
    let message = (Role::Plain, format!(": {}", problem.message));
    match told {
        Told::Broken => out.behind(place, vec![kind, message], 2),
        Told::OneLine => out.pieces(vec![place, kind, message]),
    }
    if problem.text.is_empty() {
        return;
    }
    let number = problem.start.line.to_string();
    let margin = " ".repeat(number.len());
    let from_start = (problem.start.column - problem.first_column) as usize;
    let before: String = problem.text.chars().take(from_start).collect();
    let length = (problem.end_column - problem.start.column) as usize;
    let marked: String = problem.text.chars().skip(from_start).take(length).collect();
    let dots = if problem.first_column > 1 { "…" } else { "" };
    let text = format!("{dots}{}", sanitize(problem.text.trim_end()));
    let (pad, carets) = (width(dots) + width(&before), width(&marked));
    // What was read is in the message: the line as it stands is all that is left to show.
    let said = |fix: &PlacedFix| problem.message.contains(&format!("`{}`", fix.text.trim_start_matches([' ', '-'])));
    if problem.fix.as_ref().is_some_and(said) {
        out.pieces(vec![(Role::Place, format!("{number} | ")), (Role::Plain, text)]);
        return;
    }
    out.line(Role::Place, format!("{margin} |"));
    out.pieces(vec![(Role::Place, format!("{number} | ")), (Role::Plain, text)]);
    out.pieces(vec![
        (Role::Place, format!("{margin} | ")),
        (Role::Plain, " ".repeat(pad)),
        (role, "^".repeat(carets.max(1))),
    ]);
    if let Some(fix) = &problem.fix {
        // White space at the line's start is shown only where it is what the fix is about.
        let indent = |line: &str| line.len() - line.trim_start().len();
        let same = problem.first_column > 1 || indent(&fix.line) == indent(&problem.text);
        let shown = if same { fix.line.trim() } else { fix.line.trim_end() };
        out.pieces(vec![
            (Role::Place, format!("{margin} = ")),
            (Role::Plain, "write: ".into()),
            (Role::Answer, shown.to_owned()),
        ]);
    }
    for (at, PlacedChoice { say, edit }) in problem.choices.iter().enumerate() {
        out.pieces(vec![
            (Role::Place, format!("{margin} = ")),
            (Role::Plain, if at == 0 { "either: " } else { "or:     " }.into()),
            (Role::Answer, edit.line.trim().to_owned()),
            (Role::Plain, format!("   ({say})")),
        ]);
    }
}

/// Lines longer than this are shown from shortly before the fault.
const LONGEST: usize = 160;
/// How much is shown before it then.
const BEFORE: u32 = 20;

/// The first column that is shown of a line, from 1.
fn first_shown(line: &str, column: u32) -> u32 {
    if line.len() <= LONGEST { 1 } else { column.saturating_sub(BEFORE).max(1) }
}

/// What is shown of a line: all of it, or the part about a column.
fn shown_part(line: &str, column: u32) -> String {
    let skipped = first_shown(line, column) as usize - 1;
    line.chars().skip(skipped).take(LONGEST).collect()
}
