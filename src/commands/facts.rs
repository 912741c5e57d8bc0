//! `facts`

use super::desk::Desk;
use super::everybody::sections;
use super::filters::Stretch;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::history::History;
use crate::present::{Doc, view};
use crate::questions::facts::{Answer, Ask, answer};
use crate::training::shown_in;
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
  # everybody, in short
  loadline facts --all-lifters
  # since September, drawn
  loadline facts --since 2026-09-01 --plot")]
pub(crate) struct Facts {
    #[command(flatten)]
    stretch: Stretch,
    /// Every session and every day of pain, not only the latest
    #[arg(long)]
    all: bool,
    /// Answer for every lifter, a section each
    #[arg(long)]
    all_lifters: bool,
    /// Draw them over dates
    #[arg(long, conflicts_with = "all")]
    plot: bool,
}

impl Facts {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let ask = |history: &History<'_>| -> Result<Answer, Failure> {
            let Stretch { since, until, .. } = self.stretch;
            Ok(answer(history, &Ask { block: self.stretch.block(history)?, since, until }))
        };
        let text = |answer: &Answer| match self.plot {
            true => view::facts::plot(answer, shown_in(), options.glyphs()),
            false => view::facts::show(answer, shown_in(), self.all),
        };
        if options.asks_several(self.all_lifters)? {
            let whole = self.plot || self.all;
            let of_one = |name: &str, answer: &Answer| match whole {
                true => Doc::titled(name, text(answer)),
                false => view::facts::of_one(name, answer, shown_in()),
            };
            return sections(options, ask, of_one, &view::facts::once(whole));
        }
        let book = Desk::open(options)?.book(options)?;
        let answer = ask(&book.history(options))?;
        Ok(book.answer(options, &answer, || text(&answer)))
    }
}
