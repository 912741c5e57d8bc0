//! `history`

use super::desk::Desk;
use super::options::{Options, date};
use super::outcome::{Failure, Reply};
use crate::analysis::strength::heaviest;
use crate::present::view;
use crate::questions::history::answer;
use chrono::NaiveDate;
use clap::Args;

/// List every mark of one lift
///
/// One line for the sets of each written group that have the same reps, oldest first, with what was planned.
/// Sets with faults and failed attempts are listed too.
///
/// --plot draws the heaviest clean set of each day instead: its reps as a figure at the height of its load. How strong
/// those sets say you are is another matter: `estimate --plot` draws that.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # everything done on one lift
  loadline history \"Front squat\"
  # the same, up to a day
  loadline history \"Front squat\" --on 2026-09-30
  # this autumn only
  loadline history \"Front squat\" --since 2026-09-01
  # the heaviest set of each day, drawn
  loadline history \"Front squat\" --plot")]
pub(crate) struct History {
    /// The lift, by any of its names
    lift: String,
    /// Draw the heaviest clean set of each day
    #[arg(long)]
    plot: bool,
    /// From this day on
    #[arg(long, value_name = "DATE", value_parser = date)]
    since: Option<NaiveDate>,
    /// Up to this day
    #[arg(long, value_name = "DATE", value_parser = date)]
    until: Option<NaiveDate>,
}

impl History {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let lift = history.find_lift(&self.lift)?;
        let ask = heaviest::Ask { lift, since: self.since, until: self.until };
        let answer = answer(&history, &ask);
        let text = || {
            if self.plot {
                view::history::plot(heaviest::answer(&history, &ask), options.glyphs())
            } else {
                view::history::show(&answer)
            }
        };
        Ok(book.answer(options, &answer, text))
    }
}
