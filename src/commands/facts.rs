//! `facts`

use super::desk::Desk;
use super::filters::Stretch;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::present::view;
use crate::questions::facts::{Ask, answer};
use clap::Args;

/// Show bodyweight, sleep, session length and pain over time
///
/// Lists what sessions say of the lifter, the latest first, then each place that hurt with what was lifted that day.
/// Pain that comes back is for a professional to look at; nothing here says where it comes from.
///
/// --plot draws each of them over the same dates.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # how the lifter has been
  loadline facts
  # since September, drawn
  loadline facts --since 2026-09-01 --plot")]
pub(crate) struct Facts {
    #[command(flatten)]
    stretch: Stretch,
    /// Every session and every day of pain, not only the latest
    #[arg(long)]
    all: bool,
    /// Draw them over dates
    #[arg(long, conflicts_with = "all")]
    plot: bool,
}

impl Facts {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let ask = Ask { block: self.stretch.block(&history)?, since: self.stretch.since, until: self.stretch.until };
        let answer = answer(&history, &ask);
        let unit = book.lifter.units;
        let text = || match self.plot {
            true => view::facts::plot(&answer, unit, options.glyphs()),
            false => view::facts::show(&answer, unit, self.all),
        };
        Ok(book.answer(options, &answer, text))
    }
}
