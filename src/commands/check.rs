//! `check`

use super::desk::{Desk, machine_date, put_away, today};
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use crate::journal::{Files, Lifter};
use crate::meaning;
use crate::present::envelope::{Envelope, json};
use crate::present::problem::{Answer, More, Placed, Told, Unfamiliar};
use crate::present::view;
use crate::problems::{Count, Problem, SHOWN};
use crate::source::{Lines, Page};
use crate::training::{LiftBook, Log, Status, Work, show_in};
use clap::Args;
use std::collections::HashMap;
use std::io::{self, IsTerminal};
use std::sync::Arc;

/// Find the lines that are not understood
///
/// Reads every page of every lifter, or of --lifter, and lists what is wrong: the place, the line with the
/// fault marked, and what to write instead. An error means that something was left out of the answers; a
/// warning, that it was read, but look. Days to come are read too, whatever --on says. Each kind is explained
/// in docs/problems.md.
///
/// Exit status: 0 no error, 1 an error was found, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # every page
  loadline check
  # one lifter's pages, for an editor to read
  loadline check --lifter nerys --format json")]
pub(crate) struct Check {
    /// Answer again each time a page or the settings are saved
    #[arg(long)]
    pub(super) watch: bool,
}

impl Check {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        let one = options.one_lifter()?.map(|_| desk.lifter(options)).transpose()?;
        let lifters: Vec<&Lifter> = one.map_or_else(|| desk.journal.lifters.iter().collect(), |one| vec![one]);
        let (mut found, mut more): (Vec<Placed>, Vec<More>) = (Vec::new(), Vec::new());
        let mut add = |path: &str, problems: &mut dyn Iterator<Item = &Problem>, count: Count| {
            let shown = placed(&desk.files, path, &mut problems.take(SHOWN));
            more.extend(More::than(path, &shown, count));
            found.extend(shown);
        };
        let (mut pages, mut sessions, mut left_out) = (0, 0, 0);
        let mut tally = meaning::Tally::default();
        let mut unfamiliar = HashMap::new();
        let book = lifters.first().map(|lifter| &*lifter.book);
        for of_file in desk.journal.problems.chunk_by(|(one, _), (other, _)| one == other) {
            let Some((path, _)) = of_file.first() else { continue };
            if one.is_none_or(|lifter| lifter.holds(path) || !path.contains('/')) {
                let problems = || of_file.iter().map(|(_, problem)| problem);
                add(path, &mut problems(), Count::of(problems()));
            }
        }
        for lifter in lifters {
            show_in(lifter.units);
            let reading = desk.read(lifter, Some(machine_date()));
            pages += reading.log.pages.len() as u32;
            sessions += reading.sessions;
            left_out += reading.log.left_out;
            tally += reading.tally;
            add_unfamiliar(&mut unfamiliar, &reading.log);
            for of_page in reading.problems.chunk_by(|one, other| one.0 == other.0) {
                let Some((page, _)) = of_page.first() else { continue };
                let count = reading.counts.get(page.0 as usize).copied().unwrap_or_default();
                add(reading.log.page_path(*page), &mut of_page.iter().map(|(_, problem)| problem), count);
            }
            // Of many lifters each makes room for the next.
            if desk.journal.lifters.len() == 1
                && let Some(reading) = Arc::into_inner(reading)
            {
                put_away(reading, options.goes_on);
            }
        }
        pages += if one.is_none() {
            desk.journal.pages.iter().filter(|(_, lifter)| lifter.is_none()).count() as u32
        } else {
            0
        };
        found.sort_by(|one, other| {
            (&one.page, one.start, one.end_column).cmp(&(&other.page, other.start, other.end_column))
        });
        let mut answer =
            Answer::new(pages, sessions, (tally.work, tally.planned, tally.prose, left_out), (found, more));
        answer.lifts_without_family = named(unfamiliar, book);
        let status = u8::from(answer.errors > 0);
        let out = match options.format {
            Format::Json => {
                let lifter = one.and_then(|lifter| lifter.name.as_deref());
                json(&Envelope { lifter, today: today(options), left_out, unread_pages: &desk.unread(None), answer })
            }
            Format::Text => {
                let told = if io::stdout().is_terminal() { Told::Broken } else { Told::OneLine };
                options.shown(&view::check::show(&answer, told))
            }
        };
        Ok(Reply { out, status, ..Reply::default() })
    }
}

/// The work lines of each of a lifter's lifts that no book knows. What counts nowhere may be no lift at all.
fn add_unfamiliar(known: &mut HashMap<String, u32>, log: &Log) {
    let counts = |work: &&Work| work.status != Status::Done || !work.groups.is_empty();
    for work in log.sessions.iter().flat_map(|session| &session.works).filter(counts) {
        if let Some(lift) = log.lift(work.lift).filter(|lift| !lift.known) {
            *known.entry(lift.name.clone()).or_default() += 1;
        }
    }
}

/// How many lifts without a family are named: those with the most lines.
const NAMED: usize = 20;

fn named(unfamiliar: HashMap<String, u32>, book: Option<&LiftBook>) -> Vec<Unfamiliar> {
    let mut all: Vec<(String, u32)> = unfamiliar.into_iter().collect();
    all.sort_by(|(one, lines), (other, more)| (more, one).cmp(&(lines, other)));
    let near = |lift: &str| book.map_or_else(Vec::new, |book| book.near(lift).into_iter().map(str::to_owned).collect());
    all.into_iter().take(NAMED).map(|(lift, lines)| Unfamiliar { near: near(&lift), lift, lines }).collect()
}

/// The problems of a file with their places counted out.
fn placed(files: &dyn Files, path: &str, problems: &mut dyn Iterator<Item = &Problem>) -> Vec<Placed> {
    let page = files.read(path).ok().and_then(|bytes| Page::new(path, bytes).ok());
    let text = page.as_ref().map_or("", Page::text);
    let lines = Lines::of(text);
    problems.map(|problem| Placed::new(path, &lines, problem)).collect()
}
