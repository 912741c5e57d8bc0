//! A problem with its line shown and the fault marked.

use super::breaks::width;
use super::markup::{Markup, Role};
use super::sanitize::sanitize;
use crate::problems::{Problem, Severity};
use crate::source::{Edit, Lines, Position};

/// A problem with its place counted out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Placed {
    /// The page's path below the root.
    pub page: String,
    /// The first character at fault.
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
    /// What could be meant, where only the lifter can tell: in words, and what to put where.
    pub choices: Vec<(String, PlacedFix)>,
    /// The line as it stands; of a long one, the part about the fault.
    pub text: String,
    /// The column that `text` begins with, from 1.
    pub first_column: u32,
}

/// A fix with its place counted out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlacedFix {
    /// Where it begins.
    pub start: Position,
    /// The column after what it replaces.
    pub end_column: u32,
    /// What it puts there.
    pub text: String,
    /// The line as it would stand then; only the replacement, where the line is long.
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
                .map(|choice| (choice.say.clone(), placed_fix(lines, &choice.edit)))
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
    let (before, after) = (line.get(..split(start.column)).unwrap_or(""), line.get(split(end_column)..).unwrap_or(""));
    PlacedFix { start, end_column, text: edit.text.clone(), line: format!("{before}{}{after}", edit.text) }
}

/// Shows a problem: where, what, the line with the fault marked, and the line to write instead.
pub fn show(problem: &Placed, out: &mut Markup) {
    let (role, word) = match problem.severity {
        Severity::Error => (Role::Error, "error"),
        Severity::Warning => (Role::Caution, "warning"),
    };
    out.pieces(vec![
        (Role::Answer, format!("{}:{}:{}: ", problem.page, problem.start.line, problem.start.column)),
        (role, format!("{word}[{}]", problem.kind)),
        (Role::Plain, format!(": {}", problem.message)),
    ]);
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
    for (at, (say, fix)) in problem.choices.iter().enumerate() {
        out.pieces(vec![
            (Role::Place, format!("{margin} = ")),
            (Role::Plain, if at == 0 { "either: " } else { "or:     " }.into()),
            (Role::Answer, fix.line.trim().to_owned()),
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
