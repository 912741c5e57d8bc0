//! `match`

use super::desk::Desk;
use super::everybody::sections;
use super::options::{Options, at_least_one};
use super::outcome::{Failure, Reply};
use crate::history::History;
use crate::present::{Doc, view};
use crate::questions::r#match::{Ask, anchor};
use crate::questions::weeks_over::{Answer, answer};
use clap::Args;

/// Compare this week with the same week of the last block
///
/// Answers whether this week beats the same week of the block before, lift by lift. Two loads are the same
/// when they are closer than half the gym's smallest step, so 265 lb and 120 kg are. Where load and reps and
/// sets point different ways the verdict is mixed; where the weeks are not of a kind (loading, deload,
/// peak, with a meet), there is none.
///
/// A lift not done in that week of the block before is held against the nearest earlier block that has it.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # this week, every lift
  loadline match
  # the whole block over the last one, drawn
  loadline match --plot
  # everybody, in short
  loadline match --all-lifters
  # one lift, two weeks you choose
  loadline match \"Back squat\" --block 9 --week 2 --against 8")]
pub(crate) struct Match {
    /// Only this lift [default: every lift]
    lift: Option<String>,
    /// This block, in its last week with work [default: the block worked in last]
    #[arg(long, value_name = "NAME")]
    block: Option<String>,
    /// This week of the block [default: the last one with work]
    #[arg(long, value_name = "N", value_parser = at_least_one)]
    week: Option<u32>,
    /// The other block [default: the one before]
    #[arg(long, value_name = "NAME")]
    against: Option<String>,
    /// Where each lift's line stands in the journal
    #[arg(long)]
    places: bool,
    /// Draw this block's weeks over the last block's: a row a lift, then to now
    #[arg(long)]
    plot: bool,
    /// Answer for every lifter, a section each
    #[arg(long)]
    all_lifters: bool,
    /// Answer again each time a page or the settings are saved
    #[arg(long)]
    pub(super) watch: bool,
}

impl Match {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let ask = |history: &History<'_>| -> Result<Answer, Failure> {
            let ask = Ask {
                lift: self.lift.as_deref().map(|name| history.find_lift(name)).transpose()?,
                block: self.block.as_deref().map(|name| history.find_block(name)).transpose()?,
                week: self.week,
                against: self.against.as_deref().map(|name| history.find_block(name)).transpose()?,
            };
            if let Some(key) = anchor(history, &ask).filter(|_| ask.week.is_some()) {
                history.find_week(key)?;
            }
            Ok(answer(history, &ask, self.plot))
        };
        let text = |answer: &Answer| match self.plot {
            true => view::weeks_over::plot(answer, self.places, options.glyphs()),
            false => view::r#match::show(&answer.week, self.places),
        };
        if options.asks_several(self.all_lifters)? {
            let whole = self.plot || self.places || self.lift.is_some();
            let of_one = |name: &str, answer: &Answer| match whole {
                true => Doc::titled(name, text(answer)),
                false => view::r#match::of_one(name, &answer.week),
            };
            return sections(options, ask, of_one, &view::r#match::once(whole));
        }
        let book = Desk::open(options)?.book(options)?;
        let answer = ask(&book.history(options))?;
        Ok(book.answer(options, &answer, || text(&answer)))
    }
}
