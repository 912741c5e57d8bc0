//! Markdown files of cases.
//!
//! A section is a `## name` heading and what follows it. Fenced blocks are files: `journal` is the page
//! `page.md`, any other block has the file's name after its language (`yaml journal.yaml`, `journal
//! nerys/page.md`). A case is the blocks up to and with the page, or up to a file of a name that it has already.
//! Under a line, carets mark a fault: `^^^ error kind`, and `, fix` with the text that is put there, in backticks.
//! A block `journal fixed` after a case shows lines of the page once every fix is applied.

use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::present::problem::Placed;
use loadline::problems::{Problem, Severity};
use loadline::source::{Edit, Lines, Page, apply};
use std::collections::BTreeMap;
use std::fmt;

/// A `## ` heading with its fenced blocks. Blocks above the first heading have the empty name.
pub struct Section {
    pub name: String,
    pub blocks: Vec<Block>,
}

/// A fenced block.
pub struct Block {
    /// The words after the opening fence.
    pub info: String,
    /// The line of the Markdown file that the block's text starts at.
    pub line: usize,
    pub text: String,
}

/// The sections of a Markdown file.
pub fn sections(markdown: &str) -> Vec<Section> {
    let mut sections = vec![Section { name: String::new(), blocks: Vec::new() }];
    let mut fence: Option<&str> = None;
    for (at, line) in markdown.lines().enumerate() {
        let ticks = &line[..line.len() - line.trim_start_matches('`').len()];
        let section = sections.last_mut().expect("one at least");
        match fence {
            Some(open) if line == open => fence = None,
            Some(_) => {
                let block = section.blocks.last_mut().expect("an open block");
                block.text.push_str(line);
                block.text.push('\n');
            }
            None if ticks.len() >= 3 => {
                let info = line[ticks.len()..].trim().to_owned();
                section.blocks.push(Block { info, line: at + 2, text: String::new() });
                fence = Some(ticks);
            }
            None => {
                if let Some(name) = line.strip_prefix("## ") {
                    sections.push(Section { name: name.to_owned(), blocks: Vec::new() });
                }
            }
        }
    }
    assert!(fence.is_none(), "a block never closes");
    sections
}

/// A problem as it is marked, or as it was found.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark {
    pub file: String,
    pub line: u32,
    pub start: u32,
    /// The column after the last caret. A place where nothing stands takes one caret, as on the screen.
    pub end: u32,
    pub severity: String,
    pub kind: String,
    pub fix: Option<String>,
}

impl fmt::Display for Mark {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Mark { file, line, start, end, severity, kind, fix } = self;
        write!(out, "{file}:{line}:{start}-{end} {severity} {kind}")?;
        fix.iter().try_for_each(|fix| write!(out, ", fix `{fix}`"))
    }
}

/// Files, and the problems that they are said to have.
#[derive(Default)]
pub struct Case {
    pub section: String,
    /// The line of the Markdown file that it starts at.
    pub line: usize,
    pub files: BTreeMap<String, String>,
    pub marks: Vec<Mark>,
    /// Lines that must stand in the page once every fix is applied.
    pub fixed: Option<String>,
}

const PAGE: &str = "page.md";

/// The cases of a section.
pub fn cases(section: &Section) -> Vec<Case> {
    let mut cases: Vec<Case> = Vec::new();
    let mut ended = true;
    for block in &section.blocks {
        if block.info == "journal fixed" {
            let case = cases.last_mut().expect("`journal fixed` follows a case");
            case.fixed = Some(block.text.clone());
            continue;
        }
        let file = block.info.split_once(' ').map_or(PAGE, |(_, file)| file);
        assert!(file != PAGE || block.info == "journal", "{}: a block without a file name", section.name);
        if ended || cases.last().is_none_or(|case| case.files.contains_key(file)) {
            cases.push(Case { section: section.name.clone(), line: block.line, ..Case::default() });
        }
        let case = cases.last_mut().expect("a case");
        let (text, marks) = unmarked(file, block);
        case.files.insert(file.to_owned(), text);
        case.marks.extend(marks);
        ended = file == PAGE;
    }
    for case in &mut cases {
        case.files.entry("journal.yaml".into()).or_default();
        case.marks.sort();
    }
    cases
}

/// A block's text without the lines of carets, and what they mark.
fn unmarked(file: &str, block: &Block) -> (String, Vec<Mark>) {
    let (mut text, mut marks, mut number) = (String::new(), Vec::new(), 0);
    for (at, line) in block.text.lines().enumerate() {
        let carets = line.trim_start();
        if !carets.starts_with('^') {
            number += 1;
            text.push_str(line);
            text.push('\n');
            continue;
        }
        let words = carets.trim_start_matches('^');
        let start = (line.len() - carets.len()) as u32 + 1;
        let end = start + (carets.len() - words.len()) as u32;
        let (words, fix) = match words.split_once(", fix `") {
            Some((words, fix)) => (words, Some(fix.strip_suffix('`').expect("a closing backtick").to_owned())),
            None => (words, None),
        };
        let (severity, kind) =
            words.trim().split_once(' ').unwrap_or_else(|| panic!("line {}: no `error kind`", block.line + at));
        let (severity, kind) = (severity.to_owned(), kind.to_owned());
        marks.push(Mark { file: file.to_owned(), line: number, start, end, severity, kind, fix });
    }
    (text, marks)
}

/// The problems of a journal, put together as `check` does, on the day that tests answer for.
pub fn problems(files: &BTreeMap<String, String>) -> Vec<(Mark, Problem)> {
    let memory = files.iter().fold(Memory::default(), |memory, (path, text)| memory.with(path, text.as_bytes()));
    let journal = open(&memory);
    let mut found: Vec<(String, Problem)> = journal.problems.clone();
    found.extend(loadline::commands::wrong_cautions(&memory, &journal));
    for lifter in &journal.lifters {
        let today = super::run::TODAY.parse().expect("a date");
        let reading = meaning::read(&memory, lifter, journal.pages_of(lifter), Some(today));
        found.extend(
            reading.problems.iter().map(|(page, problem)| (reading.log.page_path(*page).to_owned(), problem.clone())),
        );
    }
    let mut marked: Vec<(Mark, Problem)> =
        found.into_iter().map(|(path, problem)| mark(files, path, problem)).collect();
    marked.sort_by(|(one, _), (other, _)| one.cmp(other));
    marked
}

fn mark(files: &BTreeMap<String, String>, file: String, problem: Problem) -> (Mark, Problem) {
    let bytes = files.get(&file).map(|text| text.as_bytes().to_vec()).unwrap_or_default();
    let page = Page::new(&file, bytes).expect("a short page");
    let placed = Placed::new(&file, &Lines::of(page.text()), &problem);
    let severity = match placed.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    let mark = Mark {
        line: placed.start.line,
        start: placed.start.column,
        end: placed.end_column.max(placed.start.column + 1),
        severity: severity.into(),
        kind: placed.kind.into(),
        fix: placed.fix.map(|fix| fix.text),
        file,
    };
    (mark, problem)
}

/// What is wrong with a case: other problems than are marked, a fix that does not help, a page that is not as
/// shown once fixed.
pub fn faults(case: &Case) -> Vec<String> {
    let mut faults = Vec::new();
    let found = problems(&case.files);
    let got: Vec<Mark> = found.iter().map(|(mark, _)| mark.clone()).collect();
    if got != case.marks {
        faults.push(format!("expected:\n{}    got:\n{}", list(&case.marks), list(&got)));
    }
    for (mark, problem) in &found {
        let Some(edit) = &problem.fix else { continue };
        // A lift alone on its line and its sets are written in the notation together.
        if mark.kind == "loose-spelling" {
            continue;
        }
        let mut wanted = kinds(got.iter().filter(|other| *other != mark));
        let after = problems(&with_edits(&case.files, &mark.file, std::slice::from_ref(edit)));
        for kind in kinds(after.iter().map(|(mark, _)| mark)) {
            match wanted.iter().position(|known| *known == kind) {
                Some(at) => drop(wanted.remove(at)),
                None => faults.push(format!("the fix of {mark} leaves or makes {kind}")),
            }
        }
    }
    if let Some(fixed) = &case.fixed {
        let edits: Vec<Edit> =
            found.iter().filter(|(mark, _)| mark.file == PAGE).filter_map(|(_, problem)| problem.fix.clone()).collect();
        let page = &with_edits(&case.files, PAGE, &edits)[PAGE];
        if !format!("\n{page}").contains(&format!("\n{fixed}")) {
            faults.push(format!("expected once fixed:\n{fixed}    got:\n{page}"));
        }
    }
    faults
}

fn with_edits(files: &BTreeMap<String, String>, file: &str, edits: &[Edit]) -> BTreeMap<String, String> {
    let mut files = files.clone();
    let text = files.get_mut(file).expect("the problem's file");
    *text = apply(text, edits).expect("a fix that fits its page");
    files
}

fn kinds<'a>(marks: impl Iterator<Item = &'a Mark>) -> Vec<String> {
    marks.map(|mark| mark.kind.clone()).collect()
}

fn list(marks: &[Mark]) -> String {
    if marks.is_empty() {
        "      nothing\n".into()
    } else {
        marks.iter().map(|mark| format!("      {mark}\n")).collect()
    }
}
