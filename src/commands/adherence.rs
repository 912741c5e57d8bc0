//! `adherence`

use super::desk::Desk;
use super::everybody::sections;
use super::filters::Filters;
use super::options::{Options, at_least_one, word};
use super::outcome::{Failure, Reply};
use crate::history::{History, WeekKey};
use crate::present::view;
use crate::questions::adherence::{Answer, Ask, By, answer};
use clap::Args;

/// Compare done with planned
///
/// Counts the planned sets that were done as planned or better: with at least the planned reps, at the planned load or a
/// heavier one where a load is planned. Then it lists what was off plan, each line with the difference. An effort that
/// isn't written is unknown, and counts against nobody; nor does one under the plan where all the work was done.
///
/// --all shows every line, week by week, with its place, and what was skipped, swapped or added.
///
/// A plan is the first `plan:` under a work line. One whose day is still to come is counted apart.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(mut_arg("block", |block| block.help("Only this block [default: the current one, unless days are named]")))]
#[command(after_help = "Examples:
  # the current block, week by week
  loadline adherence
  # everybody, in short
  loadline adherence --all-lifters
  # one lift since September
  loadline adherence --by lift --lift \"Back squat\" --since 2026-09-01")]
pub(crate) struct Adherence {
    /// What the rows are: the lifts of each week, or each lift
    #[arg(long, value_name = "WHAT", default_value = "week", value_parser = word::<By>())]
    by: By,
    /// Every planned line, and where each stands
    #[arg(long)]
    all: bool,
    /// Answer for every lifter, a section each
    #[arg(long)]
    all_lifters: bool,
    #[command(flatten)]
    filters: Filters,
    /// Only this week of the block
    #[arg(long, value_name = "N", value_parser = at_least_one)]
    week: Option<u32>,
}

impl Adherence {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let stretch = &self.filters.stretch;
        let ask = |history: &History<'_>| -> Result<Answer, Failure> {
            let ask = Ask {
                by: self.by,
                block: stretch.block(history)?,
                week: self.week,
                lift: self.filters.lift(history)?,
                since: stretch.since,
                until: stretch.until,
            };
            if let (Some(block), Some(week)) = (ask.block.or_else(|| history.current_block()), ask.week) {
                history.find_week(WeekKey { block, week })?;
            }
            Ok(answer(history, &ask))
        };
        if options.asks_several(self.all_lifters)? {
            let of_one = |name: &str, answer: &Answer| view::adherence::of_one(name, answer, self.all);
            return sections(options, ask, of_one, &view::adherence::once(self.all));
        }
        let book = Desk::open(options)?.book(options)?;
        let answer = ask(&book.history(options))?;
        Ok(book.answer(options, &answer, || view::adherence::show(&answer, self.all)))
    }
}
