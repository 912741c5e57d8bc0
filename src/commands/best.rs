//! `best`

use super::desk::Desk;
use super::filters::Stretch;
use super::options::{Options, at_least_one};
use super::outcome::{Failure, Reply};
use crate::present::view;
use crate::questions::best::{Ask, Bound, answer};
use crate::training::Distance;
use clap::Args;

/// Find the best set, or sets, at a rep count
///
/// Finds the heaviest sets of at least so many reps. Loads are compared whatever they are written in:
/// 45 lb + 160 kg is 180.41 kg. Sets with a fault are left out, for they would not have passed. Of equal
/// loads the one of more reps is the better, then of more sets, then of lower effort, then the earlier.
///
/// Without --reps, --seconds or --metres, a table: for each rep count the best with at least that many.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the heaviest set of eight or more
  loadline best \"Front squat\" --reps 8
  # the best three sets of eight in one session
  loadline best \"Front squat\" --reps 8 --sets 3")]
pub(crate) struct Best {
    /// The lift, by any of its names
    lift: String,
    /// At least so many reps a set
    #[arg(long, value_name = "N", value_parser = at_least_one)]
    reps: Option<u32>,
    /// At least so many seconds a set
    #[arg(long, value_name = "N", value_parser = at_least_one, conflicts_with = "reps")]
    seconds: Option<u32>,
    /// At least so many metres a set
    #[arg(long, value_name = "N", value_parser = metres, conflicts_with_all = ["reps", "seconds"])]
    metres: Option<Distance>,
    /// Exactly so many reps, seconds or metres, no more
    #[arg(long)]
    exactly: bool,
    /// At least so many such sets in one session
    #[arg(long, value_name = "N", default_value = "1", value_parser = at_least_one)]
    sets: u32,
    /// Count sets with faults too
    #[arg(long)]
    with_faults: bool,
    #[command(flatten)]
    stretch: Stretch,
}

fn metres(text: &str) -> Result<Distance, String> {
    let metres: f64 = text.parse().map_err(|_| "write a number of metres, such as 40".to_owned())?;
    if (0.001..1e6).contains(&metres) {
        Ok(Distance::metres((metres * 1000.0).round() as i64))
    } else {
        Err("write a number of metres, such as 40".into())
    }
}

impl Best {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let bound = self.reps.map(Bound::Reps).or(self.seconds.map(Bound::Seconds)).or(self.metres.map(Bound::Metres));
        if self.exactly && bound.is_none() {
            return Err(Failure("--exactly needs --reps, --seconds or --metres".into()));
        }
        let ask = Ask {
            lift: history.find_lift(&self.lift)?,
            bound,
            exactly: self.exactly,
            sets: self.sets,
            with_faults: self.with_faults,
            since: self.stretch.since,
            until: self.stretch.until,
            block: self.stretch.block(&history)?,
        };
        let answer = answer(&history, &ask);
        Ok(book.answer(options, &answer, || view::best::show(&answer)))
    }
}
