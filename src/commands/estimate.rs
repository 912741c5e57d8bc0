//! `estimate`

use super::desk::Desk;
use super::options::{Options, date};
use super::outcome::{Failure, Reply};
use crate::analysis::strength::course;
use crate::journal::Lifter;
use crate::meaning::typed_load;
use crate::present::view;
use crate::questions::estimate::{About, Ask, answer};
use crate::science::Equation;
use crate::training::{Effort, Mass};
use chrono::NaiveDate;
use clap::Args;

/// Estimate a maximum, with its spread, and loads to match
///
/// Answers what could be lifted once, how surely that is known, and which load fits so many reps at an effort.
/// It rests on clean sets with an effort: of each day the one that says most. Where the lift, or its family, has
/// enough of them at different rep counts, the curve of reps against load is the lifter's own; else it is the
/// published one. The truth lies in 80 % of such ranges. Sets below RPE 5 or with more than 15 reps to failure are
/// not used; from 11 reps on an estimate is weak. docs/science.md has the sources.
///
/// --plot draws the estimate of every date with evidence, from the sets up to it. All are judged by today's curve, so that
/// the line rises where strength did; with --format json they are the field `course`.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the maximum now, and what it rests on
  loadline estimate \"Back squat\"
  # the table of loads
  loadline estimate \"Back squat\" --table
  # how hard five reps with a load would be today
  loadline estimate \"Back squat\" --load \"230 kg\" --reps 5
  # how many reps it allows at RPE 8
  loadline estimate \"Back squat\" --load \"230 kg\" --rpe 8
  # what to load for four reps at RPE 8, and on which plates
  loadline estimate \"Back squat\" --reps 4 --rpe 8
  # by another equation
  loadline estimate \"Bench press\" --equation brzycki
  # how it went over the blocks, drawn
  loadline estimate \"Back squat\" --plot")]
pub(crate) struct Estimate {
    /// The lift, by any of its names
    lift: String,
    /// The equation: epley, brzycki, lombardi, mayhew, oconner, wathan or lander
    #[arg(long, value_name = "NAME", default_value = Equation::default().name(), value_parser = equation)]
    equation: Equation,
    /// What to expect of this load today; what is added, for lifts with the lifter's own weight
    #[arg(long, value_name = "LOAD")]
    load: Option<String>,
    /// The effort of so many reps with it; without a load, the loads for so many reps
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100))]
    reps: Option<u32>,
    /// The reps with it at this effort, RPE 5 to 10; without a load, the load for --reps at it, and its plates
    #[arg(long, value_name = "RPE", value_parser = super::room::cap)]
    rpe: Option<Effort>,
    /// The table of loads: efforts down, reps across
    #[arg(long, conflicts_with_all = ["load", "reps", "rpe", "plot"])]
    table: bool,
    /// Draw how the estimate went over dates, with its interval and the blocks
    #[arg(long, conflicts_with_all = ["load", "reps", "rpe"])]
    plot: bool,
    /// Draw it from this day on
    #[arg(long, value_name = "DATE", requires = "plot", value_parser = date)]
    since: Option<NaiveDate>,
    /// Draw it up to this day
    #[arg(long, value_name = "DATE", requires = "plot", value_parser = date)]
    until: Option<NaiveDate>,
}

/// An equation of the command line.
fn equation(text: &str) -> Result<Equation, String> {
    let names = Equation::ALL.map(Equation::name).map(str::to_owned);
    Equation::named(text).ok_or_else(|| crate::present::wording::there_are(&names))
}

/// A load of the command line as a mass.
fn mass(text: &str, lifter: &Lifter) -> Result<Mass, Failure> {
    let load = typed_load(text, lifter)?.load;
    let mass = load.added().or(load.kilograms(None));
    mass.ok_or_else(|| Failure(format!("`{text}` isn't a weight; write one such as \"120 kg\"")))
}

impl Estimate {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let load = self.load.as_deref().map(|load| mass(load, &book.lifter)).transpose()?;
        let about = match (load, self.reps, self.rpe) {
            (Some(_), Some(_), Some(_)) => {
                return Err(Failure("of --load, --reps and --rpe give two; the third is the answer".into()));
            }
            (None, None, Some(_)) => {
                return Err(Failure("--rpe needs a load or reps with it, such as --reps 5 --rpe 8".into()));
            }
            (None, None, None) => None,
            (load, reps, effort) => Some(About { load, reps, effort }),
        };
        let lift = history.find_lift(&self.lift)?;
        let over = course::Ask { lift, equation: self.equation, since: self.since, until: self.until };
        let ask = Ask { lift, equation: self.equation, about, over: self.plot.then_some(over) };
        let answer = answer(&history, &ask);
        let text = || match &answer.course {
            Some(course) => view::estimate::plot(&answer, course.clone(), options.glyphs()),
            None => view::estimate::show(&answer, self.table),
        };
        Ok(book.answer(options, &answer, text))
    }
}
