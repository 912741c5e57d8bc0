//! `since`

use super::desk::Desk;
use super::options::{Options, at_least_one};
use super::outcome::{Failure, Reply};
use crate::present::{view, wording};
use crate::questions::since::{Ask, Of, answer};
use crate::training::Family;
use clap::Args;

/// Count the blocks since the last high-rep phase
///
/// A week is high-rep when at least half of its counted sets are of so many reps or more, and a block when
/// at least half of its weeks are. Counted are squats, hinges and presses of known kilograms, or one lift or
/// family. Deload and peak weeks are left out.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # blocks since high-rep work was in
  loadline since
  # the same for one lift, at ten reps or more
  loadline since --lift \"Back squat\" --reps 10")]
pub(crate) struct Since {
    /// Count the sets of this lift [default: squats, hinges and presses]
    #[arg(long, value_name = "LIFT", conflicts_with = "family")]
    lift: Option<String>,
    /// Count the sets of this family, such as "vertical pull"
    #[arg(long, value_name = "FAMILY")]
    family: Option<String>,
    /// A high-rep set has this many reps or more [default: the settings' `high reps`, else 8]
    #[arg(long, value_name = "N", value_parser = at_least_one)]
    reps: Option<u32>,
}

/// The family of a name.
pub(crate) fn family(name: &str) -> Result<Family, Failure> {
    Family::named(name).ok_or_else(|| {
        let all: Vec<String> = Family::ALL.iter().map(|family| family.word().to_owned()).collect();
        Failure(format!("no family is called `{name}`; {}", wording::there_are(&all)))
    })
}

impl Since {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let of = match (&self.lift, &self.family) {
            (Some(name), _) => Of::Lift(history.find_lift(name)?),
            (None, Some(name)) => Of::Family(family(name)?),
            (None, None) => Of::Main,
        };
        let answer = answer(&history, &Ask { of, reps: self.reps });
        Ok(book.answer(options, &answer, || view::since::show(&answer)))
    }
}
