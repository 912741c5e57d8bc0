//! `new`

use super::desk::today;
use super::options::Options;
use super::outcome::{Failure, Reply};
use chrono::{Datelike, Days, NaiveDate};
use clap::Args;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Start a journal
///
/// Writes a small journal to begin with: settings, and a first page with a block that starts on this week's
/// Monday. Every line of it is understood by `check`. A folder that is not empty is left alone.
///
/// Exit status: 0 done, 2 could not.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # a journal in a new folder
  loadline new my-journal
  # then, in it
  loadline --journal my-journal check")]
pub(crate) struct New {
    /// The folder to make, or an empty one
    dir: PathBuf,
}

const SETTINGS: &str = include_str!("new/journal.yaml");
const PAGE: &str = include_str!("new/page.md");

impl New {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let dir = &self.dir;
        let cannot = |error: std::io::Error| Failure(format!("{} could not be written: {error}", dir.display()));
        match fs::read_dir(dir) {
            Ok(mut entries) => {
                if entries.next().is_some() {
                    return Err(Failure(format!("{} is not empty; name a new folder", dir.display())));
                }
            }
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => fs::create_dir_all(dir).map_err(cannot)?,
            Err(error) => return Err(cannot(error)),
        }
        let today = today(options);
        let page = format!("{} block 1.md", today.format("%Y-%m"));
        write(&dir.join("journal.yaml"), SETTINGS).map_err(cannot)?;
        write(&dir.join(&page), &first_page(today)).map_err(cannot)?;
        let folder = dir.display();
        Ok(Reply::answered(
            format!(
                "Started a journal in {folder}: journal.yaml and \"{page}\".\nWrite your sessions into that page, then:\n  loadline --journal \"{folder}\" check\n  loadline --journal \"{folder}\" match\n"
            ),
            String::new(),
        ))
    }
}

/// The first page, with the block on this week's Monday and a session today.
fn first_page(today: NaiveDate) -> String {
    let monday = today.checked_sub_days(Days::new(u64::from(today.weekday().num_days_from_monday()))).unwrap_or(today);
    PAGE.replace("{starts}", &monday.to_string()).replace("{today}", &today.to_string())
}

/// Writes a file that must not be there yet.
fn write(path: &Path, text: &str) -> std::io::Result<()> {
    let mut file = fs::File::options().write(true).create_new(true).open(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}
