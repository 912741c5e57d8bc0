//! `volume`

use super::desk::Desk;
use super::filters::Filters;
use super::options::{Options, word};
use super::outcome::{Failure, Reply};
use super::since::family;
use crate::present::view::volume::{self, Of};
use crate::questions::volume::{Ask, By, answer};
use clap::Args;

/// Sum up sets, reps, tonnage and effort
///
/// Counts every work set, faulted ones too, warm-ups not. Tonnage is kilograms times reps of loads without
/// the lifter's own weight; loads with it stand in a column of their own. Reps of one side count twice.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # week by week
  loadline volume
  # one block by family
  loadline volume --by family --block 9
  # a column a week, drawn
  loadline volume --plot
  # the tonnage of one lift
  loadline volume --plot tonnage --lift \"Back squat\"")]
pub(crate) struct Volume {
    /// What the rows are
    #[arg(long, value_name = "WHAT", default_value = "week", value_parser = word::<By>())]
    by: By,
    /// Only this family, such as "vertical pull"
    #[arg(long, value_name = "FAMILY")]
    family: Option<String>,
    #[command(flatten)]
    filters: Filters,
    /// Draw sets [default], or tonnage: a column a week, a bar a row for other rows
    #[arg(long, value_name = "WHAT", num_args = 0..=1, default_missing_value = "sets", value_parser = word::<Of>())]
    plot: Option<Of>,
}

impl Volume {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let stretch = &self.filters.stretch;
        let ask = Ask {
            by: self.by,
            lift: self.filters.lift(&history)?,
            family: self.family.as_deref().map(family).transpose()?,
            block: stretch.block(&history)?,
            since: stretch.since,
            until: stretch.until,
        };
        let answer = answer(&history, &ask);
        let text = || match self.plot {
            Some(of) => volume::plot(&answer, of, options.glyphs()),
            None => volume::show(&answer),
        };
        Ok(book.answer(options, &answer, text))
    }
}
