//! `session`

use super::desk::{self, Desk};
use super::everybody::{called, each_lifter};
use super::options::{self, Format, Options};
use super::outcome::{Failure, Reply};
use super::target::html_file::{Kind, Target};
use crate::history::History;
use crate::journal::Lifter;
use crate::present::html::card;
use crate::present::{sanitize, view};
use crate::questions::session::{Ask, answer};
use chrono::NaiveDate;
use clap::Args;
use std::path::{Path, PathBuf};

/// Say what goes on the bar for the next set
///
/// Takes the first session from today on that has a line to do, and says of each lift what is planned, what is to beat,
/// and the load of the next set with the effort to expect of it, the plates of each side, the warm-up, the last set-up
/// and cue, and what to watch; of the lifts that come later only what goes on the bar, unless --all asks for the rest.
/// After each set that is written down the next one is answered anew: from how hard the sets
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
  loadline session 2026-11-19
  # a card for the telephone
  loadline session --write card.html")]
pub(crate) struct Session {
    /// Only this lift, or the session of this date, or both [default: every lift of the next session]
    #[arg(id = "lift", value_name = "LIFT or DATE", num_args = 0..=2)]
    what: Vec<String>,
    /// The next session of this day's label
    #[arg(long, value_name = "LABEL")]
    day: Option<String>,
    /// Only the next set
    #[arg(long)]
    next: bool,
    /// Every piece of every lift, not only of the one that comes next
    #[arg(long, conflicts_with = "next")]
    all: bool,
    /// Write it as a card for the telephone or for paper: a new file of HTML, or in the place of an earlier card
    #[arg(long, value_name = "FILE", conflicts_with_all = ["next", "watch"])]
    write: Option<PathBuf>,
    /// Write a card of every lifter into the folder that --write names
    #[arg(long, requires = "write", conflicts_with = "lift")]
    all_lifters: bool,
    /// Answer again each time a page or the settings are saved
    #[arg(long)]
    pub(super) watch: bool,
}

impl Session {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let (date, lift) = self.meant()?;
        if let Some(path) = self.write.as_deref().filter(|_| options.format == Format::Json) {
            return Err(Failure(format!("{} is a page to look at and has no JSON; leave out --write", path.display())));
        }
        if let Some(folder) = self.write.as_deref().filter(|_| self.all_lifters) {
            return self.cards(options, folder);
        }
        let book = Desk::open(options)?.book(options)?;
        let history = book.history(options);
        let lift = lift.map(|name| history.find_lift(name)).transpose()?;
        let answer = answer(&history, &Ask { date, day: self.day.clone(), lift, next: self.next })?;
        if let Some(path) = &self.write {
            let card = card::show(&answer, book.reading.log.lifter.as_deref());
            return Ok(Reply::answered(Target::of(path, Kind::Card, false)?.write(&card)?, book.left_out()));
        }
        if self.next && options.format == Format::Text {
            let shown = options.shown_within(&view::session::next(&answer), view::session::NARROW);
            return Ok(Reply::answered(shown, book.left_out()));
        }
        Ok(book.answer(options, &answer, || view::session::show(&answer, self.all)))
    }

    /// A card of every lifter who has a session to come.
    fn cards(&self, options: &Options, folder: &Path) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        if !folder.is_dir() {
            return Err(Failure(format!("there is no folder {}; make it first", folder.display())));
        }
        let ask = Ask { day: self.day.clone(), ..Ask::default() };
        let of = |history: &History<'_>, lifter: &Lifter| {
            let name = called(lifter).to_owned();
            let card = answer(history, &ask).map(|answer| card::show(&answer, Some(&name)));
            (if lifter.folder.is_empty() { name.clone() } else { lifter.folder.clone() }, name, card)
        };
        let (mut out, mut err) = (String::new(), desk::left_out(0, 0, &desk.unread(None)));
        for (file, name, card) in each_lifter(options, &desk, of)? {
            match card {
                Ok(card) => {
                    let file = folder.join(format!("{}.html", file.replace(['/', '\\'], " ")));
                    out.push_str(&Target::of(&file, Kind::Card, false)?.write(&card)?);
                }
                Err(why) => {
                    err.push_str(&sanitize(&format!("loadline: {name}: {}", Failure::from(why).0)));
                    err.push('\n');
                }
            }
        }
        if out.is_empty() {
            return Err(Failure("nobody has a session to come, so no card was written".into()));
        }
        Ok(Reply::answered(out, err))
    }

    /// The date and the lift among the arguments, in any order.
    fn meant(&self) -> Result<(Option<NaiveDate>, Option<&str>), Failure> {
        let is_date = |text: &&String| text.starts_with(|c: char| c.is_ascii_digit()) && text.matches('-').count() == 2;
        let (dates, lifts): (Vec<&String>, Vec<&String>) = self.what.iter().partition(is_date);
        let date = dates
            .first()
            .map(|text| options::date(text).map_err(|why| Failure(format!("`{text}` isn't a date: {why}"))));
        if dates.len() > 1 || lifts.len() > 1 {
            return Err(Failure(
                "one lift and one date can be asked for, such as `loadline session \"Front squat\" 2026-11-28`".into(),
            ));
        }
        if date.is_some() && self.day.is_some() {
            return Err(Failure("a date says the day already; leave out --day".into()));
        }
        Ok((date.transpose()?, lifts.first().map(|name| name.as_str())))
    }
}
