//! `draft`

mod write;

use super::desk::{Book, Desk};
use super::options::{self, Format, Options};
use super::outcome::{Failure, Reply};
use super::room::cap;
use super::target::Target;
use crate::history::History;
use crate::present::drafted::Spelled;
use crate::present::envelope::json;
use crate::present::{Doc, Role, pages, view};
use crate::questions::draft::{Answer, WhyNot, block, week};
use crate::training::Effort;
use chrono::NaiveDate;
use clap::{Args, Subcommand};
use std::path::PathBuf;
use write::write;

/// Draft the next week or block as a page to edit
///
/// Prints plans in the notation, made from what was done: nothing is overwritten, and every line is yours to change.
/// On standard error stands how each plan came about. A plan leaves no choice open, so `as planned` is enough to say
/// that it was done.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(
    disable_help_subcommand = true,
    after_help = "Examples:
  # the week after this one
  loadline draft week --on 2026-11-18
  # a block of eights, from a day you choose
  loadline draft block --reps 8 --weeks 4 --starts 2026-11-30"
)]
pub(crate) struct Draft {
    #[command(subcommand)]
    what: What,
}

#[derive(Subcommand, Debug)]
enum What {
    Week(Week),
    Block(Block),
}

/// Draft the week after this one
///
/// Makes it from the last loading week with work in the block: the same days and lifts, and the same plans with the
/// loads moved by the step that `room` finds under the cap, where the lift has an effort to reckon from. Of a range
/// the low end is planned. Loads on a bar are those that the gym's plates make; dumbbells, pins and bands stay as they
/// are.
///
/// A peak week that the block names takes a set and two reps off the competition lifts with effort kept, a set off the
/// others, and leaves deadlifts out; a deload week halves the sets and takes two reps and a tenth of the load off.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the week after this one, as it was known on a day
  loadline draft week --on 2026-11-18
  # easier, and for a calendar
  loadline draft week --cap 8 --ics --on 2026-11-18")]
struct Week {
    /// The effort that the block's last loading week shall not go over, RPE 5 to 10
    #[arg(long, value_name = "RPE", default_value = "9", value_parser = cap)]
    cap: Effort,
    /// The week of the block [default: the one after the last with work]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=104))]
    week: Option<u32>,
    #[command(flatten)]
    whither: Whither,
}

/// Draft a new block: its heading and its first week
///
/// Makes it from the first loading week of the last block: the same days and lifts. Squats, hinges and presses take
/// the reps of --reps. A load stays where that leaves room for the weeks after, at RPE 7 or under; else it is the one
/// that the estimate gives for RPE 6.5. Where no estimate reaches, the plan has no load.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the next block, as the last one
  loadline draft block
  # eights for four weeks
  loadline draft block --reps 8 --weeks 4 --starts 2026-11-30")]
struct Block {
    /// Reps a set of squats, hinges and presses [default: those of the last block]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=30))]
    reps: Option<u32>,
    /// How many weeks [default: as many as the last block]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=52))]
    weeks: Option<u32>,
    /// The first day [default: the day after the last block]
    #[arg(long, value_name = "DATE", value_parser = options::date)]
    starts: Option<NaiveDate>,
    /// The block's name [default: the last one counted on]
    #[arg(long, value_name = "NAME", value_parser = name)]
    name: Option<String>,
    #[command(flatten)]
    whither: Whither,
}

#[derive(Args, Debug)]
struct Whither {
    /// Write it to this page: a new one, or after what the page holds
    #[arg(long, value_name = "PAGE")]
    write: Option<PathBuf>,
    /// Print it as a calendar (iCalendar), with the meets to come
    #[arg(long, conflicts_with = "write")]
    ics: bool,
}

/// A block's name of the command line.
fn name(text: &str) -> Result<String, String> {
    let text = text.trim();
    let is_name = text.chars().next().is_some_and(char::is_alphanumeric) && !text.chars().any(char::is_control);
    if is_name { Ok(text.to_owned()) } else { Err("write a name that begins with a letter or a number".into()) }
}

impl Draft {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        match &self.what {
            What::Week(asked) => asked
                .whither
                .reply(options, |history| week::answer(history, week::Ask { cap: asked.cap, week: asked.week })),
            What::Block(asked) => asked.whither.reply(options, |history| {
                let (reps, weeks, starts, name) = (asked.reps, asked.weeks, asked.starts, asked.name.clone());
                block::answer(history, &block::Ask { reps, weeks, starts, name })
            }),
        }
    }
}

impl Whither {
    fn reply(
        &self,
        options: &Options,
        ask: impl FnOnce(&History<'_>) -> Result<Answer, WhyNot>,
    ) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        // Read before the journal is, so that a change from then on is seen.
        let target = self.write.as_deref().map(|path| Target::of(&desk, path)).transpose()?;
        let book = desk.book(options)?;
        let answer = ask(&book.history(options))?;
        let page = pages::draft::page(&answer);
        let change = target.as_ref().map(|target| write(&desk, &book, &answer, target, &page)).transpose()?;
        Ok(self.shown(options, &book, &answer, target.as_ref().zip(change), &page))
    }

    fn shown(
        &self,
        options: &Options,
        book: &Book,
        answer: &Answer,
        written: Option<(&Target, Doc)>,
        page: &str,
    ) -> Reply {
        let units = book.lifter.units;
        if options.format == Format::Json && !self.ics {
            let written = written.as_ref().map(|(target, _)| target.below.as_str());
            let answer = Spelled::new(answer, page, units, written);
            return Reply::answered(json(&book.around(options, answer)), String::new());
        }
        let out = if self.ics {
            pages::ics::calendar(answer, book.lifter.name.as_deref())
        } else {
            let lines = || {
                let mut out = Doc::new();
                page.lines().for_each(|line| out.line(Role::Plain, line));
                out
            };
            options.shown(&written.map_or_else(lines, |(_, change)| change))
        };
        let remarks = view::draft::show(answer, units);
        Reply::answered(out, options.plainly(&remarks) + &book.left_out())
    }
}
