//! `import table`

use super::pages::{Kept, Plan, checked, goes_on};
use crate::commands::desk::{Book, Desk};
use crate::commands::options::{Format, Options};
use crate::commands::outcome::{Failure, Reply};
use crate::history::History;
use crate::import::{NoTable, Rows, Table, read_rows, read_table};
use crate::journal::{Mapping, mapping};
use crate::present::envelope::json;
use crate::present::import::{Outcome, Page, Writing};
use crate::present::problem::{self, Placed, Told};
use crate::present::{Doc, sanitize, view};
use crate::problems::Problem;
use crate::source::Lines;
use clap::Args;
use std::collections::BTreeSet;
use std::fs;
use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};

/// Turn a table of sets into pages
///
/// Reads a table (CSV) by a mapping: a file in YAML that says which column is the date, the lift, the reps, the load and
/// so on, and what holds for all rows. Prints a page; with --write PAGE it becomes a new page of the journal, with
/// --write FOLDER a new page for each month. docs/import.md tells the keys of a mapping.
///
/// Nothing is guessed: a row that is not understood is named on standard error with its column and what is wanted, and
/// is in no page. No page is written then, and none where a day has a session already; no page is ever overwritten. All
/// that is printed passes `check` and is tidy.
///
/// Exit status: 0 every row was understood, 1 one was not, 2 could not answer, or could not write.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the page that it would be
  loadline import table docs/csv/sets.csv --columns docs/csv/sets.yaml
  # for programs
  loadline import docs/csv/sets.csv --columns docs/csv/sets.yaml --format json")]
pub(super) struct OfTable {
    /// The table
    file: PathBuf,
    /// The mapping
    #[arg(long, value_name = "MAP")]
    columns: PathBuf,
    /// Write new pages: this one, or one a month in this folder
    #[arg(long, value_name = "PAGE")]
    write: Option<PathBuf>,
}

impl OfTable {
    pub(super) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        if let Some(reply) = goes_on(self.write.as_deref())? {
            return Ok(reply);
        }
        let desk = Desk::open(options)?;
        let (mapping_text, mapping) = match read_mapping(&self.columns)? {
            Ok(read) => read,
            Err((text, problems)) => return Ok(refused(options, &self.columns, &text, &problems)),
        };
        let table = self.table(&mapping)?;
        let misnamed = table.faults_of(&mapping);
        if !misnamed.is_empty() {
            let mut reply = refused(options, &self.columns, &mapping_text, &misnamed);
            reply.err += &sanitize(&view::import::columns_of(&self.file, &table.header));
            reply.err.push('\n');
            return Ok(reply);
        }
        let book = desk.book(options)?;
        let Rows { entries, faults, unwanted, blank } = read_rows(&table, &mapping);
        let plan = Plan::of(&desk, &book, self.write.as_deref())?;
        let Kept { entries, mut pages, mut faults } = checked(&desk, &book, &plan, entries, faults)?;
        faults.sort_by(|one, other| (one.row, &one.column).cmp(&(other.row, &other.column)));
        let already = already(&book, &entries);
        let is_written = match &self.write {
            Some(_) if faults.is_empty() && !pages.is_empty() => {
                if let Some(first) = already.first() {
                    return Err(Failure(format!(
                        "{first}; nothing was written, for what is imported takes the place of nothing"
                    )));
                }
                plan.write(&desk, &book, &pages)?;
                true
            }
            _ => false,
        };
        if self.write.is_none() {
            pages.iter_mut().for_each(|page| page.path = None);
        }
        let outcome = Outcome {
            rows: table.rows.len(),
            taken: entries.len(),
            unwanted: unwanted.len(),
            blank,
            faults,
            left_out_columns: table.left_out(&mapping),
            new_lifts: new_lifts(&book, options, &entries),
            writing: Writing { already, pages, is_written, was_to_be_written: self.write.is_some() },
        };
        Ok(shown(options, &book, &outcome))
    }

    fn table(&self, mapping: &Mapping) -> Result<Table, Failure> {
        let shown = self.file.display();
        let bytes = fs::read(&self.file).map_err(|error| Failure(format!("{shown} cannot be read: {error}")))?;
        read_table(&bytes, mapping.delimiter).map_err(|why| {
            Failure(match why {
                NoTable::Empty => format!("{shown} is empty; its first row names the columns"),
                NoTable::HeaderNotUtf8 => {
                    format!("the first row of {shown}, which names the columns, is no UTF-8 text; save it as UTF-8")
                }
                NoTable::HeaderOpen => {
                    format!("a quote in the first row of {shown} never closes, or closes within a cell")
                }
            })
        })
    }
}

type ReadMapping = Result<(String, Mapping), (String, Vec<Problem>)>;

fn read_mapping(path: &Path) -> Result<ReadMapping, Failure> {
    let bytes = fs::read(path).map_err(|error| Failure(format!("{} cannot be read: {error}", path.display())))?;
    let text = String::from_utf8_lossy(&bytes).into_owned();
    Ok(match mapping(&bytes) {
        Ok(mapping) => Ok((text, mapping)),
        Err(problems) => Err((text, problems)),
    })
}

/// What is wrong with a mapping or with settings, each in its place.
pub(super) fn refused(options: &Options, path: &Path, text: &str, problems: &[Problem]) -> Reply {
    let lines = Lines::of(text);
    let mut out = Doc::new();
    for problem in problems {
        problem::show(&Placed::new(&path.display().to_string(), &lines, problem), Told::OneLine, &mut out);
    }
    Reply { err: options.plainly(&out), status: 2, ..Reply::default() }
}

/// Lifts that neither the lift book and the settings nor the journal know, in the order of the rows.
fn new_lifts(book: &Book, options: &Options, entries: &[crate::import::Entry]) -> Vec<String> {
    let history: History<'_> = book.history(options);
    let mut seen = BTreeSet::new();
    let mut new = Vec::new();
    for entry in entries {
        let is_first = seen.insert(crate::training::fold(&entry.lift));
        if is_first && book.lifter.book.find(&entry.lift).is_none() && history.find_lift(&entry.lift).is_err() {
            new.push(entry.lift.clone());
        }
    }
    new
}

/// Days of the rows that have a session in the journal.
fn already(book: &Book, entries: &[crate::import::Entry]) -> Vec<String> {
    let dates: BTreeSet<_> = entries.iter().map(|entry| entry.date).collect();
    let log = &book.reading.log;
    let there = log.sessions.iter().filter(|session| dates.contains(&session.date));
    let place = |session: &crate::training::Session| log.place(session.page, session.line).to_string();
    there.map(|session| format!("{} has a session already, {}", session.date, place(session))).collect()
}

fn shown(options: &Options, book: &Book, outcome: &Outcome) -> Reply {
    let status = u8::from(!outcome.faults.is_empty());
    if options.format == Format::Json {
        return Reply { out: json(&book.around(options, outcome)), status, ..Reply::default() };
    }
    let out = match (&outcome.writing.pages[..], outcome.writing.was_to_be_written) {
        // A page goes to a file as it is.
        ([Page { text, .. }], false) if !io::stdout().is_terminal() => text.clone(),
        (pages, false) => {
            let mut out = Doc::new();
            pages
                .iter()
                .flat_map(|page| page.text.lines())
                .for_each(|line| out.line(crate::present::Role::Plain, line));
            options.shown(&out)
        }
        (_, true) => options.shown(&view::import::written(&outcome.writing)),
    };
    Reply { out, err: options.plainly(&view::import::report(outcome)), status, ..Reply::default() }
}
