//! `volume`

use super::desk::Desk;
use super::filters::Filters;
use super::options::Options;
use super::outcome::{Failure, Reply};
use super::since::family;
use crate::present::{json, view};
use crate::questions::volume::{self, Ask, answer};
use clap::{Args, ValueEnum};

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
    #[arg(long, value_name = "WHAT", default_value = "week")]
    by: By,
    /// Only this family, such as "vertical pull"
    #[arg(long, value_name = "FAMILY")]
    family: Option<String>,
    #[command(flatten)]
    filters: Filters,
    /// Draw sets [default], or tonnage: a column a week, a bar a row for other rows
    #[arg(long, value_name = "WHAT", num_args = 0..=1, default_missing_value = "sets")]
    plot: Option<Of>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Of {
    Sets,
    Tonnage,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum By {
    Week,
    Block,
    Lift,
    Family,
    Day,
    Month,
}

impl Volume {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let stretch = &self.filters.stretch;
        let ask = Ask {
            by: match self.by {
                By::Week => volume::By::Week,
                By::Block => volume::By::Block,
                By::Lift => volume::By::Lift,
                By::Family => volume::By::Family,
                By::Day => volume::By::Day,
                By::Month => volume::By::Month,
            },
            lift: self.filters.lift(&history)?,
            family: self.family.as_deref().map(family).transpose()?,
            block: stretch.block(&history)?,
            since: stretch.since,
            until: stretch.until,
        };
        let answer = answer(&history, &ask);
        let text = || match self.plot {
            Some(Of::Sets) => view::volume::plot(&answer, view::volume::Of::Sets, options.glyphs()),
            Some(Of::Tonnage) => view::volume::plot(&answer, view::volume::Of::Tonnage, options.glyphs()),
            None => view::volume::show(&answer),
        };
        Ok(book.reply(options, || json::volume::json(&answer), text))
    }
}
