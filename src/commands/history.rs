//! `history`

use super::desk::Desk;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::present::{json, text};
use crate::questions::history::answer;
use clap::Args;

/// List every mark of one lift
///
/// One line for the sets of each written group that have the same reps, oldest first, with what was planned.
/// Sets with faults and failed attempts are listed too.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # everything done on one lift
  loadline history \"Front squat\"
  # the same, up to a day
  loadline history \"Front squat\" --on 2026-09-30")]
pub(crate) struct History {
    /// The lift, by any of its names
    lift: String,
}

impl History {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let answer = answer(&history, history.find_lift(&self.lift)?);
        Ok(book.reply(options, || json::history::json(&answer), |screen| text::history::show(&answer, screen)))
    }
}
