//! `export`

#[cfg(feature = "parquet")]
mod folder;

use super::desk::{Desk, left_out, today};
use super::options::{Format, Options, date};
use super::outcome::{Failure, Reply};
use super::since::family;
use crate::history::History;
use crate::journal::{Lifter, replace};
use crate::meaning;
use crate::present::envelope::{Envelope, json};
use crate::present::rows::columns::Scene;
use crate::present::rows::export::{self, Answer};
#[cfg(feature = "parquet")]
use crate::present::rows::parquet::{self, Year};
use crate::present::wording::all_of;
use crate::present::{sanitize, view};
use crate::questions::export::{Ask, Line, answer};
#[cfg(feature = "parquet")]
use crate::training::fold;
use crate::training::{Family, on_every_core};
use chrono::{Datelike, NaiveDate};
use clap::{Args, ValueEnum};
#[cfg(feature = "parquet")]
use folder::Folder;
use std::fs::File;
use std::io::{self, IsTerminal, Read, Write};
use std::path::{Path, PathBuf};
use std::thread;

/// Export every set as a row, for other programs
///
/// Prints a table with a row for each set: work sets, failed attempts, warm-ups, and planned sets, told apart by the
/// column `kind`; and one for what a session says beside its sets, such as pain, sleep and notes. Loads stand as they are written and in kilograms, exactly; what is not known is empty, or null. The
/// columns are told one by one in docs/export.md, and stay.
///
/// As CSV, words that a spreadsheet would take for a formula get an apostrophe before them. As Parquet, for engines that
/// ask very many rows at once, they are a folder of files: lifter=NAME/year=YEAR/sets.parquet. With --all the rows of
/// every lifter follow each other, read lifter by lifter, so that many need no more memory than a few.
///
/// Exit status: 0 answered, 2 could not answer, or could not write.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # one block, for a spreadsheet
  loadline export --block 9
  # every lifter, one JSON object a line
  loadline export --all --as jsonl")]
pub(crate) struct Export {
    /// What the rows are written as: csv (RFC 4180); jsonl, a JSON object a line; or parquet, a folder of files, which is
    /// in builds with `cargo install --locked --path . --features parquet`
    #[arg(long = "as", value_name = "SHAPE", default_value = "csv")]
    shape: Shape,
    /// Every lifter of the journal
    #[arg(long)]
    all: bool,
    /// Only this lift
    #[arg(long, value_name = "LIFT")]
    lift: Option<String>,
    /// Only this family, such as "vertical pull"
    #[arg(long, value_name = "FAMILY")]
    family: Option<String>,
    /// Only this block
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// Only from this day on
    #[arg(long, value_name = "DATE", value_parser = date)]
    since: Option<NaiveDate>,
    /// Only up to this day
    #[arg(long, value_name = "DATE", value_parser = date)]
    until: Option<NaiveDate>,
    /// Write it to this file, or as Parquet to this folder; each file whole or not at all; an older export there is
    /// replaced
    #[arg(long, value_name = "FILE")]
    write: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Shape {
    Csv,
    Jsonl,
    Parquet,
}

/// So many sessions are shown together: enough that taking the next ones costs nothing beside it.
const SESSIONS_AT_ONCE: usize = 256;

/// What came of all lifters.
#[derive(Default)]
struct Sum {
    count: usize,
    left_out: u32,
    /// What stands in a folder of Parquet of lifters who were not asked.
    others: Vec<String>,
}

/// The rows of one lifter.
struct Part<T> {
    rows: Vec<T>,
    count: usize,
    left_out: u32,
}

impl Export {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        let family = self.family.as_deref().map(family).transpose()?;
        if self.all && !options.lifter.is_empty() {
            return Err(Failure("--all is every lifter: leave out --lifter, or --all".into()));
        }
        let one = if self.all { None } else { Some(desk.lifter(options)?.folder.clone()) };
        let wanted = |folder: &str| one.as_deref().is_none_or(|one| one == folder);
        let lifters: Vec<_> =
            desk.journal.by_lifter().into_iter().filter(|(lifter, _)| wanted(&lifter.folder)).collect();
        let asked = Asked { export: self, family, desk: &desk, options, lifters: &lifters };
        let problems = desk.journal.problems.len();
        let as_json = |answer, left_out| {
            let lifter = lifters.first().filter(|_| !self.all).and_then(|(lifter, _)| lifter.name.as_deref());
            let unread_pages = &desk.unread(None);
            let envelope = Envelope { lifter, today: today(options), left_out, unread_pages, answer };
            Reply::answered(json(&envelope), String::new())
        };
        match (&self.write, options.format) {
            (None, _) if self.shape == Shape::Parquet && cfg!(feature = "parquet") => {
                Err(Failure("Parquet is a folder of files: name it with --write FOLDER".into()))
            }
            (None, _) if self.shape == Shape::Parquet => Err(no_parquet()),
            (None, Format::Text) => {
                let sum = asked.written(&mut io::stdout().lock(), io::stdout().is_terminal())?;
                Ok(Reply::answered(String::new(), left_out(sum.left_out, problems, &desk.unread(None))))
            }
            (None, Format::Json) => {
                let mut all = Vec::new();
                let keep = |rows: Vec<_>| {
                    all.extend(rows);
                    Ok(())
                };
                let sum = asked.each(|scene, lines| export::rows(scene, lines), keep)?;
                Ok(as_json(Answer::of(lifters.len(), all), sum.left_out))
            }
            (Some(path), format) => {
                let sum = match self.shape {
                    Shape::Csv | Shape::Jsonl => self.to_file(path, &asked)?,
                    Shape::Parquet => self.to_folder(path, &asked)?,
                };
                let shown = path.display().to_string();
                Ok(match format {
                    Format::Json => as_json(Answer::written(lifters.len(), sum.count, &shown), sum.left_out),
                    Format::Text => {
                        let said = view::export::written(lifters.len(), sum.count, &sanitize(&shown));
                        let left_out = left_out(sum.left_out, problems, &desk.unread(None));
                        Reply::answered(said, left_out + &view::export::others(&sum.others))
                    }
                })
            }
        }
    }

    /// Writes the rows to a file. Whatever stands there must be an older export.
    fn to_file(&self, path: &Path, asked: &Asked<'_>) -> Result<Sum, Failure> {
        let shown = path.display();
        let mut first = Vec::new();
        // A pipe or a terminal would be waited for, for ever.
        if path.metadata().is_ok_and(|found| !found.is_file()) {
            return Err(Failure(format!("{shown} is no file; name one, or leave out --write to print the rows")));
        }
        match File::open(path).and_then(|file| file.take(64).read_to_end(&mut first)) {
            Ok(_) if first.is_empty() || view::export::is_one(&first) => {}
            Ok(_) => return Err(Failure(format!("{shown} is no export, so it stays; name another file"))),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(error) => return Err(Failure(format!("{shown} cannot be read: {error}"))),
        }
        // An empty page or an empty journal.yaml is no older export.
        if path.extension().is_some_and(|end| end == "md" || end == "yaml") {
            return Err(Failure(format!(
                "{shown} would be a page or settings of a journal; name a .csv or .jsonl file"
            )));
        }
        let mut asked_for = None;
        let saved = replace(path, |file| {
            let sum = asked_for.insert(asked.written(file, false));
            // Of a fault of the question, nothing is to be kept; its words are told below.
            if sum.is_ok() { Ok(()) } else { Err(io::ErrorKind::Other.into()) }
        });
        match (asked_for, saved) {
            (Some(Err(failure)), _) => Err(failure),
            (Some(Ok(sum)), Ok(())) => Ok(sum),
            (_, Err(why)) => Err(Failure::of_page(&shown.to_string(), why)),
            (None, Ok(())) => Ok(Sum::default()),
        }
    }

    #[cfg(not(feature = "parquet"))]
    fn to_folder(&self, _: &Path, _: &Asked<'_>) -> Result<Sum, Failure> {
        Err(no_parquet())
    }

    /// Writes the rows to files in a folder, one a lifter and year, and takes away what older exports left of these lifters.
    #[cfg(feature = "parquet")]
    fn to_folder(&self, path: &Path, asked: &Asked<'_>) -> Result<Sum, Failure> {
        let of = |lifter: &Lifter| parquet::lifter_folder(lifter.name.as_deref());
        let mut known: std::collections::HashMap<String, &Lifter> = std::collections::HashMap::new();
        for (lifter, _) in asked.lifters {
            // Some file systems do not tell capitals apart.
            if let Some(other) = known.insert(fold(&of(lifter)), lifter) {
                return Err(Failure(format!(
                    "the lifters in {} and {} have the same name, and would have the same files: give one another `name:` in lifter.yaml",
                    other.folder, lifter.folder
                )));
            }
        }
        let mut folder = Folder::of(path, asked.lifters.iter().map(|(lifter, _)| of(lifter)))?;
        let mut failed = None;
        let put = |(lifter, year): (String, Result<Option<Year>, Failure>)| {
            let done = year.and_then(|year| year.map_or(Ok(()), |year| folder.put(&lifter, &year)));
            // Its words are told below.
            done.map_err(|failure| {
                failed = Some(failure);
                io::ErrorKind::Other.into()
            })
        };
        let sum = asked.each(
            |scene, lines| {
                let year = parquet::year(scene, lines).map_err(|error| Failure(error.to_string()));
                (parquet::lifter_folder(scene.lifter), year)
            },
            put,
        );
        if let Some(failure) = failed {
            return Err(failure);
        }
        let sum = sum?;
        folder.clear()?;
        let others = if self.all { folder.others() } else { Vec::new() };
        Ok(Sum { others, ..sum })
    }
}

fn no_parquet() -> Failure {
    let how = "`cargo install --locked --path . --features parquet` builds one that does";
    Failure(format!("this loadline writes no Parquet; {how}, and csv and jsonl are in every one"))
}

/// What is asked, and of whom.
struct Asked<'a> {
    export: &'a Export,
    family: Option<Family>,
    desk: &'a Desk,
    options: &'a Options,
    lifters: &'a [(&'a Lifter, Vec<String>)],
}

impl Asked<'_> {
    /// Writes the rows of every lifter, one lifter after the other.
    fn written(&self, out: &mut dyn Write, is_terminal: bool) -> Result<Sum, Failure> {
        let mut header = match self.export.shape {
            Shape::Csv => view::export::header(),
            Shape::Jsonl | Shape::Parquet => String::new(),
        };
        let shape = self.export.shape;
        let mut write = |rows: String| {
            // The header waits for the first lifter, so that a question that cannot be answered prints none.
            for rows in [std::mem::take(&mut header), rows] {
                if is_terminal {
                    rows.lines().try_for_each(|line| writeln!(out, "{}", sanitize(line)))?;
                } else {
                    out.write_all(rows.as_bytes())?;
                }
            }
            Ok(())
        };
        let sum = match shape {
            Shape::Csv => self.each(|scene, lines| view::export::show(scene, lines), &mut write)?,
            Shape::Jsonl | Shape::Parquet => self.each(|scene, lines| export::lines(scene, lines), &mut write)?,
        };
        let ended = write(String::new()).and_then(|()| out.flush());
        match ended {
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(cannot_write(&error)),
            _ => Ok(sum),
        }
    }

    /// Gives the rows of each lifter to `take`, in order. A few lifters are read at once, one a core, and then let go.
    fn each<T: Send>(
        &self,
        make: impl for<'r> Fn(&Scene<'r>, Counted<'r>) -> T + Sync,
        mut take: impl FnMut(T) -> io::Result<()>,
    ) -> Result<Sum, Failure> {
        let at_once = thread::available_parallelism().map_or(1, usize::from).max(1);
        let mut sum = Sum::default();
        let mut unknown = None;
        let mut asked_of_any = self.lifters.is_empty();
        for few in self.lifters.chunks(at_once) {
            let parts = on_every_core(few.len(), |at| few.get(at).map(|(lifter, pages)| self.of(lifter, pages, &make)));
            for part in parts.into_iter().flatten() {
                match part {
                    Ok(part) => {
                        asked_of_any = true;
                        sum.count += part.count;
                        sum.left_out += part.left_out;
                        match part.rows.into_iter().try_for_each(&mut take) {
                            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => return Ok(sum),
                            taken => taken.map_err(|error| cannot_write(&error))?,
                        }
                    }
                    // Of many lifters, one may well not know the lift or the block.
                    Err(failure) => unknown = unknown.or(Some(failure)),
                }
            }
        }
        match unknown.filter(|_| !asked_of_any) {
            Some(failure) => Err(self.of_nobody().unwrap_or(failure)),
            None => Ok(sum),
        }
    }

    /// Why nobody could be asked, where that is about several.
    fn of_nobody(&self) -> Option<Failure> {
        let asked = [("lift", &self.export.lift), ("block", &self.export.block)];
        let named = asked.map(|(what, name)| name.as_ref().map(|name| format!("a {what} `{name}`")));
        let named: Vec<String> = named.into_iter().flatten().collect();
        (self.lifters.len() > 1).then(|| Failure(format!("no lifter has {}", all_of(&named))))
    }

    fn of<T: Send>(
        &self,
        lifter: &Lifter,
        pages: &[String],
        make: &(impl for<'r> Fn(&Scene<'r>, Counted<'r>) -> T + Sync),
    ) -> Result<Part<T>, Failure> {
        let reading = meaning::read(&self.desk.files, lifter, pages.to_vec(), None);
        let history = History::new(&reading.log, &lifter.book, today(self.options));
        let ask = Ask {
            lift: self.export.lift.as_deref().map(|name| history.find_lift(name)).transpose()?,
            family: self.family,
            block: self.export.block.as_deref().map(|name| history.find_block(name)).transpose()?,
            since: self.export.since,
            until: self.export.until,
        };
        let scene = Scene { log: &reading.log, lifter: reading.log.lifter.as_deref(), units: lifter.units };
        // Of one lifter, the sessions are shown on every core.
        let sessions = &reading.log.sessions;
        let at_once = if self.lifters.len() > 1 { sessions.len() } else { SESSIONS_AT_ONCE }.max(1);
        let parts: Vec<_> = match self.export.shape {
            Shape::Csv | Shape::Jsonl => sessions.chunks(at_once).collect(),
            // Sessions stand in order of time.
            Shape::Parquet => sessions.chunk_by(|one, next| one.date.year() == next.date.year()).collect(),
        };
        let made = on_every_core(parts.len().max(1), |at| {
            let count = std::cell::Cell::new(0);
            let lines = answer(&history, &ask, parts.get(at).copied().unwrap_or(&[]));
            (make(&scene, Counted { lines: Box::new(lines), count: &count }), count.get())
        });
        let count = made.iter().map(|(_, count)| count).sum();
        let rows = made.into_iter().map(|(rows, _)| rows).collect();
        Ok(Part { rows, count, left_out: reading.log.left_out })
    }
}

/// Lines, counted as they go by.
struct Counted<'r> {
    lines: Box<dyn Iterator<Item = Line<'r>> + 'r>,
    count: &'r std::cell::Cell<usize>,
}

impl<'r> Iterator for Counted<'r> {
    type Item = Line<'r>;

    fn next(&mut self) -> Option<Line<'r>> {
        let line = self.lines.next()?;
        self.count.set(self.count.get() + 1);
        Some(line)
    }
}

fn cannot_write(error: &io::Error) -> Failure {
    Failure(format!("the rows could not be written: {error}"))
}
