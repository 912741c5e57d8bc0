//! `room`

use super::desk::Desk;
use super::options::{self, Options};
use super::outcome::{Failure, Reply};
use crate::present::view;
use crate::questions::room::{Ask, answer};
use crate::training::Effort;
use chrono::NaiveDate;
use clap::Args;

/// Show the weekly steps that still fit under an effort
///
/// Starts from this block's latest set with an effort and goes in equal steps through the loading weeks that are
/// left: the load of each, how hard it will be, and the largest step at which the last week stays at or under the
/// cap; first with strength as it is, then with the trend of the lifter's own estimates. Also what reaching the last
/// block's same week and last week would take. Starting light on purpose leaves room, and room is what is shown.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the steps under RPE 9
  loadline room \"Back squat\"
  # a lower cap, from a session you choose
  loadline room \"Front squat\" --cap 8 --from 2026-11-19")]
pub(crate) struct Room {
    /// The lift, by any of its names
    lift: String,
    /// The effort that the last week shall not go over, RPE 5 to 10
    #[arg(long, value_name = "RPE", default_value = "9", value_parser = cap)]
    cap: Effort,
    /// The day to start from [default: the latest of the block]
    #[arg(long, value_name = "DATE", value_parser = options::date)]
    from: Option<NaiveDate>,
}

/// An effort of the command line: whole and half points.
pub(super) fn cap(text: &str) -> Result<Effort, String> {
    let known = text.parse::<f64>().ok().filter(|rpe| (5.0..=10.0).contains(rpe) && (rpe * 2.0).fract() == 0.0);
    let thousandths = known.map(|rpe| (rpe * 1000.0) as i64);
    thousandths.map(|rpe| Effort::rpe(rpe, rpe)).ok_or_else(|| "write an RPE from 5 to 10, such as 8 or 8.5".into())
}

impl Room {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let lift = history.find_lift(&self.lift)?;
        let from = self.from.map(|from| history.find_day(lift, from)).transpose()?;
        let ask = Ask { lift, from, cap: self.cap };
        let answer = answer(&history, &ask);
        Ok(book.answer(options, &answer, || view::room::show(&answer)))
    }
}
