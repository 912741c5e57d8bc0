//! `lifts`

use super::desk::Desk;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::present::view;
use crate::questions::lifts::answer;
use clap::Args;

/// List the lifts of the journal
///
/// Every lift with a work set, in order of the first one, with its family, when it was first and last done,
/// and how often.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # what is in the journal
  loadline lifts --lifter nerys
  # the same for another program to read
  loadline lifts --lifter nerys --format json")]
pub(crate) struct Lifts {}

impl Lifts {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let answer = answer(&book.history(options));
        Ok(book.answer(options, &answer, || view::lifts::show(&answer)))
    }
}
