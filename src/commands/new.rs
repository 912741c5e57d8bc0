//! `new`

use super::desk::today;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::journal::{LIFTER_FILE, NotSaved, SETTINGS_FILE, STAGING, create_all, finish};
use crate::present::{Doc, Role, sanitize, wording};
use chrono::{Datelike, Days, NaiveDate};
use clap::Args;
use std::ffi::OsStr;
use std::fs;
use std::path::PathBuf;
use walkdir::WalkDir;

/// Start a journal
///
/// Writes a small journal to begin with: settings, and a first page with a block that starts on this week's
/// Monday. Every line of it is understood by `check`. In a folder that holds something already, it only says what it
/// would add; `--here` adds that: `journal.yaml`, and `lifter.yaml` where no folder in it has one. Your notes are not
/// touched.
///
/// Exit status: 0 done, 2 could not.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # a journal in a new folder
  loadline new my-journal
  # then, in it
  loadline --journal my-journal check
  # in a folder of notes that you have
  loadline new . --here")]
pub(crate) struct New {
    /// The folder to make, an empty one, or one with your notes in it
    dir: PathBuf,

    /// Make a journal of a folder that holds notes already: add the settings, and touch nothing else
    #[arg(long)]
    here: bool,
}

const SETTINGS: &str = include_str!("new/journal.yaml");
const LIFTER: &str = include_str!("new/lifter.yaml");
const PAGE: &str = include_str!("new/page.md");

impl New {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let dir = &self.dir;
        let cannot = |error: std::io::Error| Failure(format!("{} could not be written: {error}", dir.display()));
        // A start that was killed is finished, and then is a journal.
        finish(dir).map_err(cannot)?;
        match fs::read_dir(dir) {
            Ok(mut entries) => {
                if entries.any(|entry| entry.is_ok_and(|entry| entry.file_name() != STAGING)) {
                    return self.around_notes(options);
                }
            }
            Err(error) if error.kind() == std::io::ErrorKind::NotFound && !self.here => {}
            Err(error) => return Err(cannot(error)),
        }
        let today = today(options);
        let page = format!("{} block 1.md", today.format("%Y-%m"));
        self.write(&[(&page, &first_page(today)), (SETTINGS_FILE, SETTINGS)])?;
        let folder = dir.to_string_lossy();
        let mut out = Doc::new();
        out.wrapped(Role::Plain, format!("Started a journal in {folder}: journal.yaml and \"{page}\"."), 2);
        out.line(Role::Plain, "Next:");
        let first = format!("  1. open \"{page}\" and put your own session in the place of the invented one");
        out.wrapped(Role::Plain, first, 5);
        out.line(Role::Plain, format!("  2. cd \"{folder}\""));
        out.line(Role::Plain, "  3. loadline check      is every line understood?");
        out.line(Role::Plain, "  4. loadline session    what goes on the bar next");
        Ok(Reply::answered(options.plainly(&out), String::new()))
    }

    /// Writes all of these files or none.
    fn write(&self, files: &[(&str, &str)]) -> Result<(), Failure> {
        let files: Vec<(&OsStr, &[u8])> =
            files.iter().map(|(name, text)| (OsStr::new(*name), text.as_bytes())).collect();
        create_all(&self.dir, &files).map_err(|(path, why)| {
            Failure(match why {
                NotSaved::System(error) => {
                    format!("{} could not be written: {error}; nothing was written", path.display())
                }
                _ => format!("{} is there by now; nothing was written", path.display()),
            })
        })
    }

    /// Makes a journal of a folder with notes in it, or says what that would add.
    fn around_notes(&self, options: &Options) -> Result<Reply, Failure> {
        let dir = &self.dir;
        let folder = sanitize(&dir.to_string_lossy()).into_owned();
        if dir.join(SETTINGS_FILE).exists() {
            return Err(Failure(format!(
                "{folder} is a journal already; `loadline --journal \"{folder}\" check` reads it"
            )));
        }
        let files = || WalkDir::new(dir).min_depth(1).into_iter().filter_map(Result::ok);
        let mut adds = vec![(SETTINGS_FILE, SETTINGS)];
        if !files().any(|entry| entry.file_name() == LIFTER_FILE) {
            adds.push((LIFTER_FILE, LIFTER));
        }
        let names: Vec<String> = adds.iter().map(|(name, _)| (*name).to_owned()).collect();
        let names = wording::all_of(&names);
        let pages = files().filter(|entry| entry.path().extension().is_some_and(|end| end == "md")).count();
        let pages = wording::count(pages as u64, "page");
        if !self.here {
            return Err(Failure(format!(
                "{folder} is not empty: it holds {pages} (`.md`). `loadline new \"{folder}\" --here` would add {names} and touch \
                 nothing else; or name a new folder"
            )));
        }
        // The settings last: with them it is a journal.
        adds.reverse();
        self.write(&adds)?;
        let mut out = Doc::new();
        let done = format!("Added {names} to {folder}, and touched nothing else. It holds {pages}.");
        out.wrapped(Role::Plain, done, 2);
        out.line(Role::Plain, "Now see how they are read:");
        out.line(Role::Plain, format!("  loadline --journal \"{folder}\" check"));
        Ok(Reply::answered(options.plainly(&out), String::new()))
    }
}

/// The first page, with the block on this week's Monday and a session today.
fn first_page(today: NaiveDate) -> String {
    let monday = today.checked_sub_days(Days::new(u64::from(today.weekday().num_days_from_monday()))).unwrap_or(today);
    PAGE.replace("{starts}", &monday.to_string()).replace("{today}", &today.to_string())
}
