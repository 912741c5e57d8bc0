//! `taper`

use super::desk::Desk;
use super::options::{Options, at_least_one};
use super::outcome::{Failure, Reply};
use crate::history::WeekKey;
use crate::present::view;
use crate::questions::taper::{Ask, answer};
use clap::Args;

/// Show what a peak or deload week cuts
///
/// Answers whether the week before a test cuts the right amount: sets, reps, tonnage, loads and effort against the mean
/// of the last three loading weeks of the block, for each lift and family and in all; which lifts are taken out; and
/// how many days before the test the last heavy squat, bench press and deadlift were. Each is held against what is
/// usual, with its source, or against what the settings say under `taper:`. --all shows the sums by family and by lift. What is planned and not done yet counts as
/// planned, and is marked so; what days to come may still change is left open. Meets and test days themselves are not
/// counted. For a deload no figures are published: its volume alone is held against a band of this project's own.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the peak week of another block than this one
  loadline taper --block 6
  # this week of this block, marked or not
  loadline taper --week 4
  # by family and by lift as well
  loadline taper --all")]
pub(crate) struct Taper {
    /// This block [default: that of the last work]
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// This week of it [default: its last peak or deload week]
    #[arg(long, value_name = "N", value_parser = at_least_one)]
    week: Option<u32>,
    /// Every family and lift with what is cut of it, and what is taken out
    #[arg(long)]
    all: bool,
}

impl Taper {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let block = self.block.as_deref().map(|name| history.find_block(name)).transpose()?;
        if let (Some(block), Some(week)) = (block.or_else(|| history.block_of_last_work()), self.week) {
            history.find_week(WeekKey { block, week })?;
        }
        let answer = answer(&history, &Ask { block, week: self.week });
        Ok(book.answer(options, &answer, || view::taper::show(&answer, self.all)))
    }
}
