//! `meet`

use super::desk::Desk;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::notation;
use crate::present::view;
use crate::questions::meet::{Ask, Formula, Wanted, answer};
use crate::science::attempts::usual_step;
use crate::training::{Mass, Unit};
use clap::{Args, ValueEnum};

/// Plan a meet's attempts, or sum up those taken
///
/// For a meet or test day to come: how far off it is, and for each lift three attempts, from the estimate for that
/// day. The opener is sure (made 95 times in 100 or more) and no more than about 91 % of the third, the second near the
/// third by 1.03 and near the best done, the third the heaviest with the chosen chance; what to take after a missed
/// opener; and the total to be expected. The lifts are those of the settings or of the last meet.
///
/// For one that is done: the attempts in order, the best of each lift, the total and its points, held against the meet
/// before and against what had been estimated the day before. Rules of meets are from memory: check the rule book.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the next meet
  loadline meet --chance 60
  # one that is over, by name or date, with the other points
  loadline meet \"Harbour Open\" --lifter nerys --points dots")]
pub(crate) struct Meet {
    /// The meet's name, `test day`, or the date [default: the next to come, else the last]
    #[arg(value_name = "NAME|DATE")]
    meet: Option<String>,
    /// The chance in percent that the third attempts shall have
    #[arg(long, value_name = "PERCENT", default_value = "50", value_parser = clap::value_parser!(u8).range(1..=99))]
    chance: u8,
    /// Attempts are whole multiples of this mass [default: 2.5 kg]
    #[arg(long, value_name = "MASS")]
    step: Option<String>,
    /// How far above the best done an attempt may be, unless a rated set of three or fewer in six weeks bears more
    #[arg(long, value_name = "PERCENT", default_value = "5", value_parser = clap::value_parser!(u8).range(0..=50))]
    over_best: u8,
    /// By which formula a total is scored
    #[arg(long, value_name = "FORMULA", default_value = "gl")]
    points: Score,
}

/// A formula of the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Score {
    /// IPF GL points
    Gl,
    /// DOTS
    Dots,
}

/// No federation has steps beyond this.
const MOST: i64 = 20;

impl Meet {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let ask = Ask {
            meet: match &self.meet {
                Some(asked) => Some(history.find_meet(asked)?),
                None => history.next_meet(),
            },
            wanted: Wanted {
                chance: f64::from(self.chance) / 100.0,
                step: self.step.as_deref().map_or(Ok(usual_step()), |step| mass(step, book.lifter.units))?,
                over_best: self.over_best,
            },
            points: match self.points {
                Score::Gl => Formula::IpfGl,
                Score::Dots => Formula::Dots,
            },
        };
        let answer = answer(&history, &ask);
        Ok(book.answer(options, &answer, || view::meet::show(&answer)))
    }
}

/// A step of the command line.
fn mass(text: &str, units: Unit) -> Result<Mass, Failure> {
    let step = notation::mass(text.trim()).map(|(number, unit)| Mass::of(number, unit.unwrap_or(units)));
    step.filter(|step| *step > Mass::ZERO && *step <= Mass::kg(MOST)).ok_or_else(|| {
        Failure(format!("`{text}` is no step between attempts; write one up to {MOST} kg, such as --step 2.5"))
    })
}
