//! `session`

use super::desk::Desk;
use super::options::{self, Format, Options};
use super::outcome::{Failure, Reply};
use crate::present::view;
use crate::questions::session::{Ask, answer};
use chrono::NaiveDate;
use clap::Args;

/// Say what goes on the bar for the next set
///
/// Takes the first session from today on that has a line to do, and says of each lift what is planned, what is to beat,
/// and the load of the next set with the effort to expect of it, the plates of each side, the warm-up, the last set-up
/// and cue, and what to watch. After each set that is written down the next one is answered anew: from how hard the sets
/// of today were, how surely that is known, and how much harder sets become one after the other.
///
/// A load of the plan is kept unless sets of today speak against it, and then both are said.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the session of today, else the next one written
  loadline session
  # only the next set of a lift, on a small screen
  loadline session \"Front squat\" --next
  # another day of the plan
  loadline session --day \"day 4\"
  # a session of the past, as it stood
  loadline session 2026-11-19")]
pub(crate) struct Session {
    /// Only this lift, or the session of this date, or both [default: every lift of the next session]
    #[arg(value_name = "LIFT or DATE", num_args = 0..=2)]
    what: Vec<String>,
    /// The next session of this day's label
    #[arg(long, value_name = "LABEL")]
    day: Option<String>,
    /// Only the next set
    #[arg(long)]
    next: bool,
    /// Answer again each time a page or the settings are saved
    #[arg(long)]
    pub(super) watch: bool,
}

/// `--next` is for a telephone, or a window beside the editor.
const NARROW: usize = 42;

impl Session {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let (date, lift) = self.meant()?;
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let lift = lift.map(|name| history.find_lift(name)).transpose()?;
        let answer = answer(&history, &Ask { date, day: self.day.clone(), lift, next: self.next })?;
        if self.next && options.format == Format::Text {
            let shown = options.shown_within(&view::session::next(&answer), NARROW);
            return Ok(Reply::answered(shown, book.left_out()));
        }
        Ok(book.answer(options, &answer, || view::session::show(&answer)))
    }

    /// The date and the lift among the arguments, in any order.
    fn meant(&self) -> Result<(Option<NaiveDate>, Option<&str>), Failure> {
        let is_date = |text: &&String| text.starts_with(|c: char| c.is_ascii_digit()) && text.matches('-').count() == 2;
        let (dates, lifts): (Vec<&String>, Vec<&String>) = self.what.iter().partition(is_date);
        let date = dates.first().map(|text| options::date(text).map_err(|why| Failure(format!("`{text}` is no date: {why}"))));
        if dates.len() > 1 || lifts.len() > 1 {
            return Err(Failure("one lift and one date can be asked for, such as `loadline session \"Front squat\" 2026-11-28`".into()));
        }
        if date.is_some() && self.day.is_some() {
            return Err(Failure("a date says the day already; leave out --day".into()));
        }
        Ok((date.transpose()?, lifts.first().map(|name| name.as_str())))
    }
}
