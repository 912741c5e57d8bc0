//! `flatten`

use super::desk::{Desk, today};
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use crate::journal::{Lifter, Memory, SETTINGS_FILE, open};
use crate::meaning::lone;
use crate::present::envelope::{Envelope, json};
use crate::present::rows::flat;
use crate::present::view;
use crate::questions::flatten::answer;
use crate::source::Page;
use clap::Args;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

/// Print pages one set a line, for git diff
///
/// Prints what pages say in order of dates, one set a line with its day, lift, number, load, effort and faults;
/// plans, facts, cues and blocks have lines of their own. Spelling and the place in the page change nothing. A line that
/// has an error, or counts nowhere, is printed as it is, behind the word `unread`. Prose is left out.
///
/// Each page is read by itself, whatever is wrong with it, and no journal is needed: where this folder is in one,
/// lift names are spelled as in its journal.yaml, or as in the lifter.yaml of --lifter. docs/git.md shows how to
/// make `git diff` use it.
///
/// Exit status: 0 answered, 2 could not answer, or not read every page.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # one page
  loadline flatten \"journal-example/nerys/meet in spring.md\"
  # another one, for programs
  loadline flatten \"journal-example/nerys/5 winter/block.md\" --format json")]
pub(crate) struct Flatten {
    /// The pages; - is standard input
    #[arg(required = true, value_name = "PAGE")]
    pages: Vec<PathBuf>,
}

impl Flatten {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let lifter = lifter(options)?;
        let (mut pages, mut unread, mut err) = (Vec::new(), Vec::new(), String::new());
        for path in &self.pages {
            match page(path) {
                Ok(page) => pages.push(page),
                // A page alone has no answer; of several the others have.
                Err(failure) if self.pages.len() == 1 => return Err(failure),
                Err(failure) => {
                    unread.push(path.to_string_lossy().into_owned());
                    err += &Reply::of_failure(failure).err;
                }
            }
        }
        unread.sort_unstable();
        pages.sort_by(|one, other| one.path().cmp(other.path()));
        let read = lone(&lifter, pages);
        let lines = answer(&read.log, &read.asides);
        let out = match options.format {
            Format::Json => {
                let (lifter, left_out) = (lifter.name.as_deref(), read.log.left_out);
                let answer = flat::answer(&lines);
                json(&Envelope { lifter, today: today(options), left_out, unread_pages: &unread, answer })
            }
            Format::Text => options.shown(&view::flatten::show(&lines)),
        };
        let status = if unread.is_empty() { 0 } else { 2 };
        Ok(Reply { out, err, status, ..Reply::default() })
    }
}

/// Whose settings hold. A page of an older revision comes without its folder, so that only `--lifter` can say whose it
/// is: else the two sides of a difference could be read by two settings.
fn lifter(options: &Options) -> Result<Lifter, Failure> {
    if !options.lifter.is_empty() {
        return Ok(Desk::open(options)?.lifter(options)?.clone());
    }
    let root = Desk::root(options).ok();
    let settings = root.and_then(|root| std::fs::read(root.join(SETTINGS_FILE)).ok()).unwrap_or_default();
    let journal = open(&Memory::default().with(SETTINGS_FILE, settings));
    journal.lifters.into_iter().next().ok_or_else(|| Failure("no settings hold here".into()))
}

fn page(path: &Path) -> Result<Page, Failure> {
    let shown = path.display();
    let bytes = if path == Path::new("-") {
        let mut bytes = Vec::new();
        std::io::stdin().read_to_end(&mut bytes).map(|_| bytes)
    } else {
        std::fs::read(path)
    };
    let bytes = bytes.map_err(|error| {
        Failure(match error.kind() {
            ErrorKind::NotFound => format!("there is no page {shown}"),
            ErrorKind::IsADirectory => format!("{shown} is a folder; name the pages in it"),
            _ => format!("{shown} cannot be read: {error}"),
        })
    })?;
    Page::new(path.to_string_lossy(), bytes).map_err(|_| Failure(format!("{shown} is longer than 4 GiB")))
}
