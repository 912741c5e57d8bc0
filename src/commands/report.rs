//! `report`

mod make;

use super::desk::{Book, Desk};
use super::options::{Format, Options};
use super::outcome::{Failure, Reply};
use super::target::html_file::{Kind, Target, folders};
use crate::journal::Files;
use crate::present::html::Pages;
use clap::Args;
use make::{of_everyone, of_lifter, of_roster};
use std::io::IsTerminal;
use std::path::PathBuf;

/// Make one page to look at: a lifter, a block, the roster
///
/// A page of HTML with the answers of the week side by side: this week against the last block's, cautions, estimated
/// maxima over time, best sets and which are new, weekly volume, efforts planned and done, the taper. It works offline
/// and runs no script, prints well, and quotes every line of the journal that it rests on, so it can be sent on.
///
/// Without --write it goes to standard output where that is no terminal, and its links hold for a file in the current
/// folder.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the current block, to open in a browser
  loadline report --write report.html
  # another block, as it stood on its last day
  loadline report --block 8 --write \"block 8.html\"
  # everybody on one page
  loadline report --roster --write roster.html
  # a page a lifter, and the roster that links to them
  loadline report --everyone pages")]
pub(crate) struct Report {
    /// This block, as it stood on its last day [default: the current one]
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// Every lifter of the journal, a line each, with their cautions
    #[arg(long, conflicts_with = "block")]
    roster: bool,
    /// Everybody: a page a lifter into this folder, and index.html, the roster that links to them
    #[arg(long, value_name = "DIR", conflicts_with_all = ["block", "roster", "write"])]
    everyone: Option<PathBuf>,
    /// Write it to this file: a new one, or in the place of an earlier report
    #[arg(long, value_name = "FILE")]
    write: Option<PathBuf>,
    /// Write it in the place of a file that is no report, too
    #[arg(long)]
    replace: bool,
    /// Write it anew each time a page or the settings are saved; the page in the browser loads itself again
    #[arg(long)]
    pub(super) watch: bool,
}

impl Report {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        if options.format == Format::Json {
            return Err(Failure(
                "a report is a page to look at and has no JSON; `match`, `review`, `best` and the others have each"
                    .into(),
            ));
        }
        if let Some(folder) = &self.everyone {
            return of_everyone(options, folder, self.replace, self.watch);
        }
        if self.watch && self.write.is_none() {
            return Err(Failure(
                "--watch writes a file anew: type --write report.html --watch, or --everyone DIR --watch".into(),
            ));
        }
        if self.write.is_none() && std::io::stdout().is_terminal() {
            return Err(Failure(
                "a report is a page for a browser; write it to a file with --write report.html".into(),
            ));
        }
        let desk = Desk::open(options)?;
        let target = self.write.as_deref().map(|path| Target::of(path, Kind::Report, self.replace)).transpose()?;
        let book = if self.roster { None } else { Some(desk.book(options)?) };
        let read = |page: &str| String::from_utf8(desk.files.read(page).ok()?).ok();
        let (folder, root) = folders(target.as_ref(), &desk)?;
        let pages = Pages::between(&folder, &root, &read);
        let page = match &book {
            Some(book) => of_lifter(options, book, (self.block.as_deref(), self.watch), &pages)?,
            None => of_roster(options, &desk, &pages, self.watch)?,
        };
        let err = book.as_ref().map_or(String::new(), Book::left_out);
        match target {
            Some(target) => Ok(Reply::answered(target.write(&page)?, err)),
            None => Ok(Reply::answered(page, err)),
        }
    }
}
