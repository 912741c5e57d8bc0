//! `draft`

mod write;

use super::desk::{Book, Desk};
use super::everybody::called;
use super::options::{self, Format, Options};
use super::outcome::{Failure, Reply};
use super::room::cap;
use super::target::Target;
use crate::history::History;
use crate::present::drafted::Spelled;
use crate::present::envelope::{json, list};
use crate::present::{Doc, Role, pages, view};
use crate::questions::draft::{Answer, block, like, week};
use crate::training::Effort;
use chrono::NaiveDate;
use clap::{Args, Subcommand};
use std::path::{Path, PathBuf};
use write::{Staged, fill, shown, stage, write};

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
/// Where the block's own plans say how efforts rise from week to week, these go on so. A week that was missed is
/// planned again, and after several the loads step back. A lift that was skipped for pain, or whose site hurts at 5/10
/// or more, stands in a quoted line: decide with a professional. A week with a meet in it is light.
///
/// A peak week that the block names takes a set and two reps off the competition lifts with effort kept, a set off the
/// others, and leaves deadlifts out; a deload week halves the sets and takes two reps and a tenth of the load off.
///
/// Where the week is planned already, with efforts and no loads as `draft block --whole` writes it, the loads are put
/// into those plans: each the one that the last sets lead to at that effort, at most 5 % more. It shows the change, and
/// --write without a page writes it.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the week after this one, as it was known on a day
  loadline draft week --on 2026-11-18
  # easier, and for a calendar
  loadline draft week --cap 8 --ics --on 2026-11-18
  # the week that starts on a Monday, of everybody
  loadline draft week --starts 2026-11-23 --all-lifters --on 2026-11-18")]
struct Week {
    /// The effort that the block's last loading week shall not go over, RPE 5 to 10
    #[arg(long, value_name = "RPE", default_value = "9", value_parser = cap)]
    cap: Effort,
    /// The week of the block [default: the one after the last with work]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=104))]
    week: Option<u32>,
    /// The first day of the week, in place of its number
    #[arg(long, value_name = "DATE", value_parser = options::date, conflicts_with = "week")]
    starts: Option<NaiveDate>,
    #[command(flatten)]
    whither: Whither,
}

/// Draft a new block: its heading and its first week, or all of them
///
/// Makes it from the first loading week of the last block: the same days and lifts. Squats, hinges and presses take
/// the reps of --reps. A load stays where that leaves room for the weeks after, at RPE 7 or under; else it is the one
/// that the estimate gives for RPE 6.5. Where no estimate reaches, the plan has no load.
///
/// With --whole it has every week: the first with loads, those after it with efforts only, which rise as they were
/// planned in the last block, else from RPE 6.5 to 8.5. `loadline draft week --write` then hangs the loads of each
/// week from what was done in the one before.
///
/// With --like it is made from another lifter's last block, for one who has none yet: the same days, lifts, sets and
/// efforts, and no loads.
///
/// Exit status: 0 answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # the next block, as the last one
  loadline draft block
  # eights for four weeks
  loadline draft block --reps 8 --weeks 4 --starts 2026-11-30
  # every week of it: loads for the first, efforts for the rest
  loadline draft block --whole")]
struct Block {
    /// Reps a set of squats, hinges and presses [default: those of the last block]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=30))]
    reps: Option<u32>,
    /// How many weeks [default: as many as the last block]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=52))]
    weeks: Option<u32>,
    /// The first day [default: the day after the last block, or that weekday from today on]
    #[arg(long, value_name = "DATE", value_parser = options::date)]
    starts: Option<NaiveDate>,
    /// The block's name [default: the last one counted on]
    #[arg(long, value_name = "NAME", value_parser = name)]
    name: Option<String>,
    /// Every week of the block: loads for the first, efforts for those after it
    #[arg(long)]
    whole: bool,
    /// Make it from the last block of this lifter, by name or folder
    #[arg(long, value_name = "NAME", conflicts_with = "reps")]
    like: Option<String>,
    #[command(flatten)]
    whither: Whither,
}

#[derive(Args, Debug)]
struct Whither {
    /// Write it to this page: a new one, or after what the page holds [default: `block 9 week 4.md` in the lifter's
    /// folder]
    #[arg(long, value_name = "PAGE", num_args = 0..=1, default_missing_value = OWN_PAGE)]
    write: Option<PathBuf>,
    /// Print it as a calendar (iCalendar), with the meets to come
    #[arg(long, conflicts_with = "write")]
    ics: bool,
    /// Draft for every lifter; with --write into each one's folder, all or none
    #[arg(long, conflicts_with = "ics")]
    all_lifters: bool,
}

/// Stands for a page that is called after what is drafted.
const OWN_PAGE: &str = ".";

/// A block's name of the command line.
fn name(text: &str) -> Result<String, String> {
    let text = text.trim();
    let is_name = text.chars().next().is_some_and(char::is_alphanumeric) && !text.chars().any(char::is_control);
    if is_name { Ok(text.to_owned()) } else { Err("write a name that begins with a letter or a number".into()) }
}

impl Draft {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        match &self.what {
            What::Week(asked) => {
                let ask = week::Ask { cap: asked.cap, week: asked.week, starts: asked.starts };
                let whither = &asked.whither;
                if options.asks_several(whither.all_lifters)? {
                    return whither.of_all(options, |history| Ok(week::answer(history, ask)?));
                }
                whither.reply(options, |_, history| Ok(week::answer(history, ask)?))
            }
            What::Block(asked) => {
                let (reps, weeks, starts, name) = (asked.reps, asked.weeks, asked.starts, asked.name.clone());
                let ask = block::Ask { reps, weeks, starts, name, whole: asked.whole };
                let whither = &asked.whither;
                if options.asks_several(whither.all_lifters)? {
                    if asked.like.is_some() {
                        return Err(Failure("--like is for one who begins; name one with --lifter".into()));
                    }
                    return whither.of_all(options, |history| Ok(block::answer(history, &ask)?));
                }
                whither.reply(options, |desk, history| {
                    let Some(name) = &asked.like else { return Ok(block::answer(history, &ask)?) };
                    let other = desk.book_of(desk.journal.lifter(Some(name), None)?, options)?;
                    Ok(like::answer(history, &other.history(options), &ask)?)
                })
            }
        }
    }
}

impl Whither {
    fn reply(
        &self,
        options: &Options,
        ask: impl FnOnce(&Desk, &History<'_>) -> Result<Answer, Failure>,
    ) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        // Read before the journal is, so that a change from then on is seen.
        let named = self.write.as_deref().filter(|path| *path != Path::new(OWN_PAGE));
        let target = named.map(|path| Target::of(&desk, path)).transpose()?;
        let book = desk.book(options)?;
        let answer = ask(&desk, &book.history(options)).map_err(|why| options.in_full(why))?;
        let page = pages::draft::page(&answer);
        let staged = self.staged(&desk, &book, &answer, target, &page)?;
        let is_written = self.write.is_some();
        let change = if is_written { write(&desk.root, &staged)? } else { shown(&staged) };
        let written = staged.first().filter(|_| is_written).map(|one| one.below.as_str());
        Ok(self.shown(options, (&book, &answer), (written, (!staged.is_empty()).then_some(change)), &page))
    }

    /// The pages that a draft is, or would be, written to. One that is only shown is none, but for a week that is planned
    /// already: what becomes of its pages is all there is to show.
    fn staged(
        &self,
        desk: &Desk,
        book: &Book,
        answer: &Answer,
        target: Option<Target>,
        page: &str,
    ) -> Result<Vec<Staged>, Failure> {
        if let Some(first) = answer.fills.first() {
            return match target {
                None => fill(desk, book, answer),
                Some(_) => Err(Failure(format!(
                    "week {} is planned already, in {}; leave out the page after --write, and its loads are put there",
                    answer.of.week, first.place.page
                ))),
            };
        }
        let target = match (target, &self.write) {
            (None, Some(_)) => in_folder(desk, book, Path::new(&own_page(answer)))?,
            (Some(target), _) => target,
            (None, None) => return Ok(Vec::new()),
        };
        Ok(vec![stage(desk, book, answer, target, page)?])
    }

    /// The draft of every lifter. Who has none to draft is named and left out; what is written is written for all others,
    /// or for nobody.
    fn of_all(
        &self,
        options: &Options,
        ask: impl Fn(&History<'_>) -> Result<Answer, Failure>,
    ) -> Result<Reply, Failure> {
        if self.ics {
            return Err(Failure("a calendar is of one lifter; leave out --ics, or name one with --lifter".into()));
        }
        let desk = Desk::open(options)?;
        let (mut out, mut err) = (Doc::new(), Doc::new());
        let (mut staged, mut any): (Vec<Staged>, bool) = (Vec::new(), false);
        let (mut left_out, mut answers) = (String::new(), Vec::new());
        for (lifter, _) in desk.lifters(options)? {
            let book = desk.book_of(lifter, options)?;
            let name = called(lifter);
            left_out.push_str(&book.left_out());
            let answer = match ask(&book.history(options)) {
                Ok(answer) => answer,
                Err(why) => {
                    err.wrapped(Role::Caution, format!("{name}: {}", why.0), 2);
                    continue;
                }
            };
            let page = pages::draft::page(&answer);
            let of_lifter = |why: Failure| Failure(format!("{name}: {}", why.0));
            let named = self.write.as_deref().filter(|path| *path != Path::new(OWN_PAGE));
            let target = named.map(|path| in_folder(&desk, &book, path)).transpose().map_err(of_lifter)?;
            let own = self.staged(&desk, &book, &answer, target, &page).map_err(of_lifter)?;
            let written = own.first().filter(|_| self.write.is_some()).map(|one| one.below.clone());
            match &self.write {
                Some(_) => staged.extend(own),
                None => {
                    out.line(Role::Title, name);
                    if own.is_empty() {
                        as_lines(&page, &mut out)
                    } else {
                        out.append(shown(&own))
                    }
                    out.gap();
                }
            }
            any = true;
            if options.format == Format::Json {
                let spelled = Spelled::new(&answer, &page, book.lifter.units, written.as_deref());
                answers.push(json(&book.around(options, spelled)));
            } else {
                err.line(Role::Title, name);
                err.append(view::draft::show(&answer, book.lifter.units));
            }
        }
        if !staged.is_empty() {
            out = write(&desk.root, &staged)?;
        }
        if !any {
            return Err(Failure(format!("nobody has anything to draft from\n{}", options.plainly(&err).trim_end())));
        }
        let err = options.plainly(&err);
        Ok(match options.format {
            Format::Json => Reply::answered(list(&answers), err),
            Format::Text => Reply::answered(options.shown(&out), err + &left_out),
        })
    }

    fn shown(
        &self,
        options: &Options,
        (book, answer): (&Book, &Answer),
        (written, change): (Option<&str>, Option<Doc>),
        page: &str,
    ) -> Reply {
        let units = book.lifter.units;
        if options.format == Format::Json && !self.ics {
            let answer = Spelled::new(answer, page, units, written);
            return Reply::answered(json(&book.around(options, answer)), String::new());
        }
        let lines = || {
            let mut out = Doc::new();
            as_lines(page, &mut out);
            out
        };
        let out = match self.ics {
            true => pages::ics::calendar(answer, book.lifter.name.as_deref()),
            false => options.shown(&change.unwrap_or_else(lines)),
        };
        let mut remarks = view::draft::show(answer, units);
        if !answer.fills.is_empty() && written.is_none() && !self.ics {
            remarks.wrapped(Role::Hint, "--write puts these loads into the plans.", 0);
        }
        Reply::answered(out, options.plainly(&remarks) + &book.left_out())
    }
}

/// A page as it is.
fn as_lines(page: &str, out: &mut Doc) {
    page.lines().for_each(|line| out.line(Role::Plain, line));
}

/// What a page is called where no name is given: `block 9 week 4.md`, and `block 10.md` where it is a whole block.
fn own_page(answer: &Answer) -> String {
    let block = answer.of.block.replace(['/', '\\', ':'], " ");
    if answer.is_whole() {
        return format!("block {block}.md");
    }
    format!("block {block} week {}.md", answer.of.week)
}

/// A page in the lifter's folder.
fn in_folder(desk: &Desk, book: &Book, page: &Path) -> Result<Target, Failure> {
    let root = desk.root.canonicalize().map_err(|error| Failure(format!("the journal cannot be read: {error}")))?;
    Target::of(desk, &root.join(&book.lifter.folder).join(page))
}
