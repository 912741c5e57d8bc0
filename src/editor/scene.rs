//! What an ability sees.

use super::laid::Laid;
use crate::history::{History, Index};
use crate::journal::{Journal, Lifter};
use crate::meaning::Reading;
use crate::problems::Problem;
use crate::source::{Cut, Page, PageId, Span};
use crate::training::{Log, Session, Work};
use chrono::NaiveDate;
use std::cell::OnceCell;
use std::sync::Arc;

/// A page with all that is known beside it.
pub(crate) struct Scene<'a> {
    /// The journal's files, open ones as they stand in the editor.
    pub(crate) files: Laid<'a>,
    /// The journal.
    pub(crate) journal: &'a Journal,
    /// Whose page it is.
    pub(crate) lifter: &'a Lifter,
    /// All of the lifter's pages.
    pub(crate) reading: &'a Reading,
    /// The index of their log.
    pub(crate) index: &'a Arc<Index>,
    /// The page.
    pub(crate) page: Page,
    /// Its number in the log.
    pub(crate) id: PageId,
    /// The day to answer for.
    pub(crate) today: NaiveDate,
    /// The sessions that stand on the page, in order of lines, found when somebody asks.
    pub(super) of_page: OnceCell<Vec<&'a Session>>,
}

impl<'a> Scene<'a> {
    /// Everything the lifter's pages say.
    pub(crate) fn log(&self) -> &'a Log {
        &self.reading.log
    }

    /// The history as of today.
    pub(crate) fn history(&self) -> History<'a> {
        History::indexed(&self.reading.log, &self.lifter.book, self.today, Arc::clone(self.index))
    }

    /// What is wrong on the page, in order of place.
    pub(crate) fn problems(&self) -> impl Iterator<Item = &'a Problem> {
        let (all, id) = (&self.reading.problems, self.id);
        let first = all.partition_point(|(page, _)| *page < id);
        all.iter().skip(first).take_while(move |(page, _)| *page == id).map(|(_, problem)| problem)
    }

    /// The session that a line of the page, from 1, stands in.
    pub(crate) fn session_at(&self, line: u32) -> Option<&'a Session> {
        let of_page = self.of_page.get_or_init(|| {
            let mut of_page: Vec<&Session> =
                self.reading.log.sessions.iter().filter(|session| session.page == self.id).collect();
            of_page.sort_by_key(|session| session.line);
            of_page
        });
        of_page.get(of_page.partition_point(|session| session.line <= line).checked_sub(1)?).copied()
    }

    /// The work line that begins on a line of the page, from 1, with its session.
    pub(crate) fn work_at(&self, line: u32) -> Option<(&'a Session, &'a Work)> {
        let session = self.session_at(line)?;
        let work = session.works.iter().find(|work| work.page == self.id && work.line == line)?;
        Some((session, work))
    }

    /// The number of the line, from 1, that a byte stands in.
    pub(crate) fn line_of(&self, offset: usize) -> u32 {
        let before = self.page.text().as_bytes().get(..offset).unwrap_or(self.page.text().as_bytes());
        memchr::memchr_iter(b'\n', before).count() as u32 + 1
    }

    /// The place of the line, from 1, without its end.
    pub(crate) fn span_of(&self, line: u32) -> Span {
        let text = self.page.text();
        let ends = memchr::memchr_iter(b'\n', text.as_bytes());
        let start = match line {
            0 | 1 => 0,
            line => ends.clone().nth(line as usize - 2).map_or(text.len(), |end| end + 1),
        };
        let end =
            memchr::memchr(b'\n', text.as_bytes().get(start..).unwrap_or(&[])).map_or(text.len(), |at| start + at);
        let line = text.cut(start..end);
        Span::new(start, start + line.trim_end_matches('\r').len())
    }
}
