//! `estimate`

use super::desk::Desk;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::present::{json, text};
use crate::questions::estimate::{Ask, answer};
use crate::science::Equation;
use clap::Args;

/// Estimate a maximum, with its spread, and loads to match
///
/// Answers what could be lifted once, how surely that is known, and which load fits so many reps at an effort.
/// It rests on clean sets with an effort: of each day the one that says most. Where the lift, or its family, has
/// enough of them at different rep counts, the curve of reps against load is the lifter's own; else it is the
/// published one. Four in five of such intervals hold the truth. RPE below 5 and more than 15 reps to failure bear
/// no estimate; from 11 reps on it is weak. docs/science.md has the sources.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the maximum now, and the table of loads
  loadline estimate \"Back squat\"
  # by another equation
  loadline estimate \"Bench press\" --equation brzycki")]
pub(crate) struct Estimate {
    /// The lift, by any of its names
    lift: String,
    /// The equation: epley, brzycki, lombardi, mayhew, oconner, wathan or lander
    #[arg(long, value_name = "NAME", default_value = Equation::default().name(), value_parser = equation)]
    equation: Equation,
}

/// An equation of the command line.
fn equation(text: &str) -> Result<Equation, String> {
    let names = Equation::ALL.map(Equation::name).map(str::to_owned);
    Equation::named(text).ok_or_else(|| format!("there is {}", crate::present::wording::any_of(&names)))
}

impl Estimate {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let answer = answer(&history, &Ask { lift: history.find_lift(&self.lift)?, equation: self.equation });
        Ok(book.reply(options, || json::estimate::json(&answer), |screen| text::estimate::show(&answer, screen)))
    }
}
