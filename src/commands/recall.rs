//! `recall`

use super::desk::Desk;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::present::view;
use crate::questions::recall::answer;
use clap::Args;

/// Recall the last sets, set-up, cues, faults and remarks
///
/// Shows the sets of the last two sessions, and what was written under the lift before: how the equipment stood, what to think of, why the lift is in
/// the plan, which faults were seen and how often, and what was remarked, the latest first.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # before the first set
  loadline recall \"Front squat\"
  # what was known on a day
  loadline recall \"Back squat\" --on 2026-09-30 --lifter nerys")]
pub(crate) struct Recall {
    /// The lift, by any of its names
    lift: String,
}

impl Recall {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let answer = answer(&history, history.find_lift(&self.lift)?);
        Ok(book.answer(options, &answer, || view::recall::show(&answer)))
    }
}
