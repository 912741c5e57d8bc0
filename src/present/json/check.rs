//! `check` as JSON.

use crate::present::problem::{Placed, PlacedFix};
use crate::present::text::check::Read;
use crate::problems::Severity;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Check {
    pages: u32,
    sessions: u32,
    work_lines: u32,
    planned: u32,
    prose_lines: u32,
    errors: u32,
    warnings: u32,
    problems: Vec<ProblemJson>,
}

#[derive(Clone, Debug, Serialize)]
struct ProblemJson {
    page: String,
    line: u32,
    column: u32,
    end_column: u32,
    severity: &'static str,
    kind: &'static str,
    message: String,
    fix: Option<FixJson>,
    choices: Vec<ChoiceJson>,
}

#[derive(Clone, Debug, Serialize)]
struct ChoiceJson {
    say: String,
    edit: FixJson,
}

#[derive(Clone, Debug, Serialize)]
struct FixJson {
    line: u32,
    column: u32,
    end_column: u32,
    text: String,
}

/// The answer as JSON.
pub fn json(pages: u32, read: &Read, problems: &[Placed]) -> Check {
    let number = |severity| problems.iter().filter(|problem| problem.severity == severity).count() as u32;
    let shown = problems.iter().map(|problem| ProblemJson {
        page: problem.page.clone(),
        line: problem.start.line,
        column: problem.start.column,
        end_column: problem.end_column,
        severity: match problem.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
        },
        kind: problem.kind,
        message: problem.message.clone(),
        fix: problem.fix.as_ref().map(fix_json),
        choices: problem
            .choices
            .iter()
            .map(|(say, fix)| ChoiceJson { say: say.clone(), edit: fix_json(fix) })
            .collect(),
    });
    Check {
        pages,
        sessions: read.sessions,
        work_lines: read.work,
        planned: read.planned,
        prose_lines: read.prose,
        errors: number(Severity::Error),
        warnings: number(Severity::Warning),
        problems: shown.collect(),
    }
}

fn fix_json(fix: &PlacedFix) -> FixJson {
    FixJson { line: fix.start.line, column: fix.start.column, end_column: fix.end_column, text: fix.text.clone() }
}
