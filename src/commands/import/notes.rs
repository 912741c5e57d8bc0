//! `import notes`

use super::pages::{Plan, create_pages, goes_on};
use super::reading::{Read, Scene, spaced};
use super::table::refused;
use crate::commands::desk::{Book, Desk, left_out, today};
use crate::commands::options::{Format, Options};
use crate::commands::outcome::{Failure, Reply};
use crate::commands::progress::progress;
use crate::import::notes::{Draft, Findings, Notes, UnknownName, proposals, survey, with_findings};
use crate::journal::{
    Files, Lifter, Memory, NoRoot, SETTINGS_FILE, Settings, create, find_root, lifter_settings, open, save,
};
use crate::notation::readings::CountOrder;
use crate::present::envelope::{Envelope, json};
use crate::present::import::{Page, Writing};
use crate::present::notes::{Name, NotRead, Open, Outcome, Proposed};
use crate::present::{Doc, Role, view};
use crate::source::PageId;
use crate::training::fold;
use chrono::NaiveDate;
use clap::{Args, ValueEnum};
use std::collections::BTreeSet;
use std::fs;
use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Turn years of notes into pages
///
/// Reads notes as people type them, in text files of any name, and prints pages in the notation. A line that has one
/// reading is read; what has several, or none, is told line by line on standard error, and stays in the page as
/// `> not read: …`. Nothing is dropped, and the notes are not changed. All that is printed passes `check`.
///
/// It looks at all lines together for the habits of who wrote them. With --habits FILE, which is written as
/// `lifter.yaml` is, it reads by the habits in there, and adds what it found out as comments; what stands there stays.
/// A habit counts once it is written, or with --accept proposed. With --write FOLDER each month becomes a page, all of
/// them or none; no page is ever overwritten. A journal need not be there. docs/import.md shows it step by step.
///
/// Exit status: 0 looked, or written, whatever was read; 2 could not answer, or could not write.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # look, and write nothing
  loadline import notes docs/import/notes.txt
  # with what is accepted only to look at
  loadline import notes docs/import/notes.txt --accept proposed --format json")]
pub(super) struct OfNotes {
    /// The notes: text files of any kind
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// The habits of who wrote them, a file like lifter.yaml; what is found out is added as comments, unless --write is
    /// there
    #[arg(long, value_name = "FILE")]
    habits: Option<PathBuf>,
    /// Read by the habits that are only proposed, too
    #[arg(long, value_name = "WHAT")]
    accept: Option<Accept>,
    /// Write new pages, one a month, in this folder
    #[arg(long, value_name = "FOLDER")]
    write: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Accept {
    Proposed,
}

/// How many steps the work is shown as.
const STEPS: usize = 6;
/// Shorter notes are read before anybody looks.
const LONG: usize = 200_000;

impl OfNotes {
    pub(super) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        if let Some(reply) = goes_on(self.write.as_deref())? {
            return Ok(reply);
        }
        let notes = self.notes()?;
        let desk = self.desk(options)?;
        let own = match &self.habits {
            Some(path) => habits(path, self.write.is_none())?,
            None => (String::new(), Settings::default(), Vec::new()),
        };
        if let (Some(path), (text, _, problems @ [_, ..])) = (&self.habits, (&own.0, &own.1, &own.2[..])) {
            return Ok(refused(options, path, text, problems));
        }
        let memory = Memory::default().with(SETTINGS_FILE, "");
        let (files, lifter, there): (&dyn Files, Lifter, Vec<String>) = match &desk {
            Some(desk) => {
                let lifter = desk.lifter(options)?;
                (&desk.files, lifter.clone(), desk.journal.pages_of(lifter))
            }
            None => (&memory, open(&memory).lifter(None, None)?.clone(), Vec::new()),
        };
        let lifter = with(lifter, &own.1);
        let long = notes.iter().map(|notes| notes.text.len()).sum::<usize>() > LONG;
        let bar = progress(if long { STEPS } else { 0 }, "steps");
        let scene = Scene { files, lifter: &lifter, there: &there };
        let read = scene.read(&notes);
        bar.inc(1);
        let by = (&*lifter.book as _, &lifter.habits, scene.unit());
        let findings = survey(&notes, &read.sections, by, today(options), &mut || bar.inc(1));
        let accepted = self.accept.is_some() && !findings.proposed.is_empty();
        let mut with_proposed = lifter.clone();
        with_proposed.habits.clone_from(&findings.habits);
        let scene = Scene { lifter: if accepted { &with_proposed } else { &lifter }, ..scene };
        let (before, mut read) = if accepted { (Some(read), scene.read(&notes)) } else { (None, read) };
        if !accepted && lifter.habits.count.is_none() && findings.habits.count == Some(CountOrder::RepsSets) {
            let mut other = lifter.clone();
            other.habits.count = findings.habits.count;
            let other = Scene { lifter: &other, ..scene }.read(&notes);
            scene.doubt(&mut read, &other);
        }
        bar.finish_and_clear();
        let mut findings = findings;
        let known: BTreeSet<String> = read.reading.log.lifts.iter().map(|lift| fold(&lift.name)).collect();
        findings.names.retain(|unknown| !known.contains(&fold(&unknown.name)));
        let habits_written = match (&self.habits, &self.write) {
            (Some(path), None) => write_findings(path, &own.0, &findings)?,
            _ => None,
        };
        let mut outcome = outcome(&notes, &scene, &read, &findings);
        outcome.accepted = accepted;
        outcome.rest_on_proposed = before.map_or(0, |before| unread(&before).difference(&unread(&read)).count());
        outcome.habits_written = habits_written;
        outcome.writing.already = already(&scene, &read);
        outcome.writing.was_to_be_written = self.write.is_some();
        if let Some(folder) = &self.write {
            if let Some(first) = outcome.writing.already.first() {
                return Err(Failure(format!(
                    "{first}; nothing was written, for what is imported takes the place of nothing"
                )));
            }
            let names: Vec<String> = read.pages.iter().map(file_name).collect();
            write(folder, desk.as_ref(), options, &names, &mut outcome.writing.pages)?;
            outcome.writing.is_written = true;
        }
        Ok(shown(options, desk.as_ref(), &lifter, &outcome))
    }

    fn notes(&self) -> Result<Vec<Notes>, Failure> {
        let one = |path: &PathBuf| {
            let shown = path.display();
            if path.metadata().is_ok_and(|found| found.is_dir()) {
                return Err(Failure(format!("{shown} is a folder; name the files in it, such as {shown}/*.txt")));
            }
            let bytes = fs::read(path).map_err(|error| Failure(format!("{shown} cannot be read: {error}")))?;
            let text = String::from_utf8(bytes)
                .map_err(|_| Failure(format!("{shown} is no UTF-8 text; save it as UTF-8, and none of it is lost")))?;
            Ok(Notes { name: shown.to_string(), text })
        };
        self.files.iter().map(one).collect()
    }

    /// The journal, where there is one, or one was named.
    fn desk(&self, options: &Options) -> Result<Option<Desk>, Failure> {
        let current = std::env::current_dir();
        match current.map(|current| find_root(None, &current)) {
            Ok(Err(NoRoot::NotBelow(_))) if options.journal.is_none() => Ok(None),
            _ => Desk::open(options).map(Some),
        }
    }
}

type OwnHabits = (String, Settings, Vec<crate::problems::Problem>);

/// The file of habits. One that is not there yet is empty, where it may be written; a folder for it is not made.
fn habits(path: &Path, may_begin: bool) -> Result<OwnHabits, Failure> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let bytes = match fs::read(path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound && may_begin => match folder {
            Some(folder) if !folder.is_dir() => {
                return Err(Failure(format!(
                    "there is no folder {}, so habits cannot be written to {}; make the folder, or name another file",
                    folder.display(),
                    path.display()
                )));
            }
            _ => Vec::new(),
        },
        read => read.map_err(|error| Failure(format!("{} cannot be read: {error}", path.display())))?,
    };
    let (settings, problems) = lifter_settings(&bytes);
    Ok((String::from_utf8_lossy(&bytes).into_owned(), settings, problems))
}

/// A lifter with what a file of habits says over what the journal says.
fn with(mut lifter: Lifter, own: &Settings) -> Lifter {
    lifter.units = own.units.unwrap_or(lifter.units);
    for lift in &own.lifts {
        Arc::make_mut(&mut lifter.book).add(lift.clone());
    }
    lifter.habits = own.habits.over(&lifter.habits);
    lifter
}

/// Adds what was found out to the file of habits; its name where that changes it.
fn write_findings(path: &Path, before: &str, findings: &Findings) -> Result<Option<String>, Failure> {
    let nothing = findings.names.is_empty() && findings.proposed.is_empty() && findings.open.is_empty();
    if nothing && findings.words.is_empty() && path.exists() {
        return Ok(None);
    }
    let after = with_findings(before, findings);
    if after == before {
        return Ok(None);
    }
    let shown = path.display().to_string();
    let written = match path.exists() {
        true => save(path, before.as_bytes(), after.as_bytes()),
        false => create(path, after.as_bytes()),
    };
    written.map_err(|why| Failure::of_page(&shown, why))?;
    Ok(Some(shown))
}

/// The lines that are not read, by file and number.
fn unread(read: &Read<'_>) -> BTreeSet<(usize, u32)> {
    let lines = read.pages.iter().flat_map(|page| &page.lines).filter(|line| line.refused.is_some());
    lines.filter_map(|line| line.from.map(|from| (from.file, from.number))).collect()
}

fn outcome<'a>(notes: &'a [Notes], scene: &Scene<'_>, read: &Read<'a>, findings: &Findings) -> Outcome<'a> {
    let mut not_read: Vec<((usize, u32), NotRead<'a>)> = Vec::new();
    for line in read.pages.iter().flat_map(|page| &page.lines) {
        let (Some(why), Some(from)) = (&line.refused, line.from) else { continue };
        let file = notes.get(from.file).map_or("", |notes| &notes.name);
        let says = why.say.clone();
        not_read.push((
            (from.file, from.number),
            NotRead { file, line: from.number, text: line.source, problem: why.kind, says },
        ));
    }
    not_read.sort_by_key(|(at, _)| *at);
    let log = &read.reading.log;
    let pages = read.pages.iter().map(|page| {
        let path = scene.path(page);
        let id = log.pages.iter().position(|known| **known == *path).map(|at| PageId(at as u32));
        let sessions: Vec<_> = log.sessions.iter().filter(|session| Some(session.page) == id).collect();
        let sets = sessions.iter().flat_map(|session| &session.works).flat_map(|work| &work.groups);
        let sets = sets.map(|group| group.count() as u32).sum();
        Page { path: None, text: spaced(page), sessions: sessions.len(), sets }
    });
    let filled = |notes: &Notes| {
        notes.text.lines().filter(|line| !line.trim_start_matches('\u{feff}').trim().is_empty()).count()
    };
    Outcome {
        files: notes.iter().map(|notes| notes.name.clone()).collect(),
        lines: notes.iter().map(filled).sum(),
        work: scene.work(&read.pages),
        not_read: not_read.into_iter().map(|(_, line)| line).collect(),
        names: findings.names.iter().map(name).collect(),
        proposed: proposals(findings)
            .into_iter()
            .map(|(habit, borne_out_by)| Proposed { habit, borne_out_by })
            .collect(),
        open: open_habits(findings),
        accepted: false,
        rest_on_proposed: 0,
        habits_written: None,
        writing: Writing { pages: pages.collect(), ..Writing::default() },
    }
}

fn name(unknown: &UnknownName) -> Name {
    Name { name: unknown.name.clone(), lines: unknown.lines, near: unknown.near.clone() }
}

fn open_habits(findings: &Findings) -> Vec<Open> {
    let habits =
        findings.open.iter().map(|(key, values, lines)| Open { habit: format!("{key}: {values}"), lines: *lines });
    let words =
        findings.words.iter().map(|word| Open { habit: format!("words: {{ {}: … }}", word.word), lines: word.lines });
    habits.chain(words).collect()
}

/// Days of the notes that have a session in the journal.
fn already(scene: &Scene<'_>, read: &Read<'_>) -> Vec<String> {
    let log = &read.reading.log;
    let own: BTreeSet<String> = read.pages.iter().map(|page| scene.path(page)).collect();
    let days = &read.reading.days;
    let (new, there): (Vec<&(NaiveDate, PageId, u32)>, Vec<_>) =
        days.iter().partition(|(_, page, _)| log.pages.get(page.0 as usize).is_some_and(|path| own.contains(&**path)));
    let dates: BTreeSet<_> = new.iter().map(|(date, ..)| date).collect();
    let there = there.into_iter().filter(|(date, ..)| dates.contains(date));
    there.map(|(date, page, line)| format!("{date} has a session already, {}", log.place(*page, *line))).collect()
}

/// What the page of a month is called.
fn file_name(page: &Draft<'_>) -> String {
    format!("{}.md", page.month.as_deref().unwrap_or("undated"))
}

/// Writes a page a month by these names, all or none: pages of the journal, where the folder lies in it.
fn write(
    folder: &Path,
    desk: Option<&Desk>,
    options: &Options,
    names: &[String],
    pages: &mut [Page],
) -> Result<(), Failure> {
    let inside = desk.filter(|desk| match (desk.root.canonicalize(), folder.canonicalize()) {
        (Ok(root), Ok(folder)) => folder.starts_with(root),
        _ => false,
    });
    if let Some(desk) = inside {
        let book: Book = desk.book(options)?;
        let plan = Plan::Months(folder.to_owned());
        for (page, name) in pages.iter_mut().zip(names) {
            page.path = Some(crate::commands::target::Target::of(desk, &folder.join(name))?.below);
        }
        return plan.write(desk, &book, pages);
    }
    let places: Vec<PathBuf> = names.iter().map(|name| folder.join(name)).collect();
    if let Some(there) = places.iter().find(|place| place.symlink_metadata().is_ok()) {
        return Err(Failure(format!(
            "{} is there already, and nothing was written; name another folder",
            there.display()
        )));
    }
    for (page, place) in pages.iter_mut().zip(&places) {
        page.path = Some(place.display().to_string());
    }
    create_pages(folder, pages)
}

fn shown(options: &Options, desk: Option<&Desk>, lifter: &Lifter, outcome: &Outcome<'_>) -> Reply {
    let unread_pages = desk.map_or(Vec::new(), |desk| desk.unread(Some(lifter)));
    if options.format == Format::Json {
        let around = Envelope {
            lifter: lifter.name.as_deref(),
            today: today(options),
            left_out: 0,
            unread_pages: &unread_pages,
            answer: outcome,
        };
        return Reply::answered(json(&around), String::new());
    }
    let whole = || outcome.writing.pages.iter().map(|page| page.text.as_str()).collect::<Vec<&str>>().join("\n");
    let out = if outcome.writing.was_to_be_written {
        options.shown(&view::import::written(&outcome.writing))
    } else if io::stdout().is_terminal() {
        let mut out = Doc::new();
        whole().lines().for_each(|line| out.line(Role::Plain, line));
        options.shown(&out)
    } else {
        // Pages go to a file as they are.
        whole()
    };
    Reply::answered(out, options.plainly(&view::notes::report(outcome)) + &left_out(0, 0, &unread_pages))
}
