//! Sessions and blocks of a lifter's pages on other days: dates, weekdays, weeks and the keys of blocks in their headings
//! are written anew, and not a byte else.

use crate::journal::Files;
use crate::notation::nodes::{BlockKey, LineKind, SessionHeading};
use crate::notation::read;
use crate::problems::ProblemKind as K;
use crate::source::{Edit, Page, Revision, Span};
use chrono::NaiveDate;

/// What becomes of a session's heading: its new day, and how many weeks are put to the week that it says.
pub type OfSession<'m> = dyn Fn(&SessionHeading<'_>) -> Option<(NaiveDate, i64)> + 'm;

/// What becomes of a block's keys, by its name as written.
pub type OfBlock<'m> = dyn Fn(&str) -> Option<Keys> + 'm;

/// What a block's keys say after a move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Keys {
    /// The first day.
    pub starts: NaiveDate,
    /// How many weeks, where that is written.
    pub weeks: Option<u32>,
    /// From this week on deload and peak weeks move.
    pub from_week: u32,
    /// By so many weeks.
    pub by_weeks: i64,
}

/// The pages that change. Pages that cannot be read stay.
pub fn shift(files: &dyn Files, paths: &[String], session: &OfSession<'_>, block: &OfBlock<'_>) -> Vec<Revision> {
    let pages = paths.iter().filter_map(|path| Page::new(path.as_str(), files.read(path).ok()?).ok());
    pages.filter_map(|before| Some(Revision { after: shifted(&before, session, block)?, before })).collect()
}

/// A page after the move; nothing where it stays.
fn shifted(page: &Page, of_session: &OfSession<'_>, of_block: &OfBlock<'_>) -> Option<Page> {
    let mut edits: Vec<Edit> = Vec::new();
    let mut moved: Vec<usize> = Vec::new();
    let mut keys = None;
    let put = |piece: &str, text: String| Edit::new(Span::of(page.text(), piece), text);
    for (at, line) in read(page).iter().enumerate() {
        match &line.kind {
            LineKind::Session(heading) => {
                keys = None;
                let Some((to, weeks)) = of_session(heading) else { continue };
                edits.push(put(heading.date.text, to.to_string()));
                moved.push(at);
                if let Some(week) = heading.week.filter(|_| weeks != 0) {
                    edits.extend(number_later(&put, week.text, week.value, weeks));
                }
            }
            LineKind::Block(heading) => keys = of_block(heading.name).filter(|_| heading.has_keys),
            LineKind::BlockKey(_, Some(written)) => {
                let Some(keys) = keys else { continue };
                match &written.value {
                    BlockKey::Starts(starts) if *starts != keys.starts => {
                        edits.push(put(written.text, keys.starts.to_string()));
                    }
                    BlockKey::Weeks(weeks) => {
                        let after = keys.weeks.filter(|after| after != weeks);
                        edits.extend(after.and_then(|after| number(&put, written.text, *weeks, after)));
                    }
                    BlockKey::Deload(weeks) | BlockKey::Peak(weeks) if keys.by_weeks != 0 => {
                        for week in weeks.iter().filter(|week| week.value >= keys.from_week) {
                            edits.extend(number_later(&put, week.text, week.value, keys.by_weeks));
                        }
                    }
                    _ => {}
                }
            }
            _ => {}
        }
    }
    let after = page.edited(&edits).filter(|_| !edits.is_empty())?;
    // A weekday beside a date that moved is the old one's.
    let lines = read(&after);
    let lines = moved.iter().filter_map(|at| lines.get(*at)).flat_map(|line| &line.problems);
    let wrong = lines.filter(|problem| matches!(problem.kind, K::WrongWeekday { .. }));
    let weekdays: Vec<Edit> = wrong.filter_map(|problem| problem.fix.clone()).collect();
    Some(after.edited(&weekdays).unwrap_or(after))
}

fn number_later(put: &dyn Fn(&str, String) -> Edit, piece: &str, from: u32, by: i64) -> Option<Edit> {
    let after = u32::try_from(i64::from(from) + by).ok().filter(|after| *after > 0)?;
    number(put, piece, from, after)
}

/// The last digits of a piece made another number.
fn number(put: &dyn Fn(&str, String) -> Edit, piece: &str, from: u32, to: u32) -> Option<Edit> {
    let digits = from.to_string();
    let start = piece.rfind(&digits)?;
    Some(put(piece.get(start..start + digits.len())?, to.to_string()))
}
