//! `shift`

use super::desk::{Book, Desk};
use super::options::{self, Format, Options};
use super::outcome::{self, Failure, Reply};
use crate::history::History;
use crate::journal::{Lifter, Overlay, save_all};
use crate::meaning::{self, Keys, Reading};
use crate::notation::nodes::SessionHeading;
use crate::present::envelope::json;
use crate::present::view::tidy::Done;
use crate::present::{tidied, view};
use crate::questions::shift::{Answer, Ask, Moved, What, answer};
use crate::source::Revision;
use crate::training::fold;
use chrono::NaiveDate;
use clap::{ArgGroup, Args};

/// Move what is planned to other days; show the change first
///
/// Moves the plans from a day on by days or weeks, or a block to another first day: the dates and weekdays of their
/// headings, the first days of the blocks that begin later, and in the block that has begun its weeks, deload and peak
/// weeks. Shows the change as a unified diff, and writes nothing without --write.
///
/// A session of which anything is written stays where it is, and so does a meet.
///
/// All pages are written, or none. Exit status: 0 shown, or written; 2 could not answer, or could not write.
#[derive(Args, Debug)]
#[command(
    group(ArgGroup::new("what").args(["from", "block"]).required(true)),
    group(ArgGroup::new("to").args(["by", "starts"])),
    after_help = "Examples:
  # a week without training
  loadline shift --from 2026-11-26 --by 1w --on 2026-11-25
  # Saturday's session on Monday
  loadline shift --from 2026-11-28 --by 2d --on 2026-11-25"
)]
pub(crate) struct Shift {
    /// What is planned for this day and later
    #[arg(long, value_name = "DATE", value_parser = options::date, requires = "by")]
    from: Option<NaiveDate>,
    /// By how much: 1w, 3d, or earlier: -2d
    #[arg(long, value_name = "TIME", value_parser = by, allow_hyphen_values = true, conflicts_with = "starts")]
    by: Option<i64>,
    /// This block and all that is planned in it
    #[arg(long, value_name = "NAME", requires = "to")]
    block: Option<String>,
    /// The block's new first day
    #[arg(long, value_name = "DATE", value_parser = options::date, conflicts_with = "from")]
    starts: Option<NaiveDate>,
    /// Write the pages that change
    #[arg(long)]
    write: bool,
}

/// Days of `1w` or `3d`.
fn by(text: &str) -> Result<i64, String> {
    let wrong = || "write weeks or days, such as 1w or 3d".to_owned();
    let (number, days) = match text.trim().char_indices().last() {
        Some((at, 'w')) => (text.trim().get(..at), 7),
        Some((at, 'd')) => (text.trim().get(..at), 1),
        _ => return Err(wrong()),
    };
    let number: i64 = number.and_then(|number| number.trim().parse().ok()).ok_or_else(wrong)?;
    match number {
        0 => Err("0 moves nothing; write weeks or days, such as 1w or 3d".into()),
        -520..=520 => Ok(number * days),
        _ => Err("that is more than ten years; write weeks or days, such as 1w or 3d".into()),
    }
}

impl Shift {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let desk = Desk::open(options)?;
        let book = desk.book(options)?;
        let history = book.history(options);
        let answer = answer(&history, self.ask(&history)?)?;
        let revisions = revisions(&desk, &book.lifter, &answer);
        sound(&desk, &book, &revisions, &answer)?;
        if self.write {
            let places: Vec<_> = revisions.iter().map(|one| desk.files.place(one.before.path())).collect();
            let pages = places.iter().zip(&revisions);
            let pages: Vec<_> =
                pages.map(|(path, one)| (path.as_path(), Some(one.before.bytes()), one.after.bytes())).collect();
            save_all(&desk.root, &pages).map_err(|failed| {
                let named = places.iter().zip(&revisions).find(|(place, _)| *place == failed.path);
                let Failure(failure) = Failure::of_page(named.map_or("", |(_, one)| one.before.path()), failed.why);
                Failure(format!("{failure}; {}", outcome::of_the_others(failed.some_were)))
            })?;
        }
        let paths = desk.journal.pages_of(&book.lifter);
        if options.format == Format::Json {
            let answer = tidied::answer(&paths, &revisions, self.write);
            return Ok(Reply::answered(json(&book.around(options, answer)), String::new()));
        }
        let done = if self.write { Done::Written } else { Done::Shown };
        let pages = u32::try_from(paths.len()).unwrap_or(u32::MAX);
        let mut out = view::tidy::show(pages, &revisions, 0, done);
        out.append(view::shift::show(&answer));
        Ok(Reply::answered(options.shown(&out), book.left_out()))
    }

    fn ask(&self, history: &History<'_>) -> Result<Ask, Failure> {
        if let (Some(from), Some(days)) = (self.from, self.by) {
            return Ok(Ask { what: What::From(from), days });
        }
        let id = history.find_block(self.block.as_deref().unwrap_or_default())?;
        let starts = history.log.block(id).map(|block| block.starts).zip(self.starts);
        let days = self.by.or(starts.map(|(from, to)| (to - from).num_days()));
        Ok(Ask { what: What::Block(id), days: days.unwrap_or(0) })
    }
}

/// The pages as they would be.
fn revisions(desk: &Desk, lifter: &Lifter, answer: &Answer) -> Vec<Revision> {
    let session = |heading: &SessionHeading<'_>| {
        let key = (heading.date.value, heading.minute.map(|minute| minute.value), heading.day.map(fold));
        let is = |moved: &&Moved| heading.meet.is_none() && (moved.date, moved.minute, moved.day.clone()) == key;
        answer.sessions.iter().find(is).map(|moved| (moved.to, moved.weeks))
    };
    let block = |name: &str| {
        let moved = answer.blocks.iter().find(|block| block.name == fold(name))?;
        let (starts, weeks) = (moved.starts, moved.weeks);
        Some(Keys { starts, weeks, from_week: moved.from_week, by_weeks: moved.by_weeks })
    };
    meaning::shift(&desk.files, &desk.journal.pages_of(lifter), &session, &block)
}

/// The pages are read again before anything is shown: what was done is as it was, in the same weeks, nothing is joined or
/// lost, and no error has come.
fn sound(desk: &Desk, book: &Book, revisions: &[Revision], answer: &Answer) -> Result<(), Failure> {
    let mut after = Overlay::new(&desk.files);
    revisions.iter().for_each(|one| after.put(one.after.path(), one.after.bytes().to_vec()));
    let read = meaning::read(&after, &book.lifter, desk.journal.pages_of(&book.lifter), None);
    let done = |reading: &Reading| {
        let sessions = reading.log.sessions.iter().filter(|session| session.has_work());
        sessions.map(|session| (session.date, session.day.clone(), session.block, session.week)).collect::<Vec<_>>()
    };
    let before = &book.reading;
    if read.count().errors > before.count().errors
        || read.log.sessions.len() != before.log.sessions.len()
        || done(&read) != done(before)
    {
        let sessions = answer.sessions.len();
        return Err(Failure(format!(
            "moving {sessions} of the planned sessions would change what was done or not read as it should; \
             nothing was written: move fewer days, or a later --from"
        )));
    }
    Ok(())
}
