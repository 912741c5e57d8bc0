//! Rows of a table: each is a line of work, by what the head of its column says.

use super::loose::{Looser, Verdict};
use crate::notation::readings::{Columns, Fate, Names, Place};
use crate::problems::{ProblemKind as K, Unread};
use crate::training::fold;

impl Looser<'_, '_> {
    /// Whether a line is a row of the table above, or the head of one.
    pub(super) fn is_row(&self, text: &str) -> bool {
        let row = self.here.table.as_ref().is_some_and(|columns| columns.has_row(text));
        row || text.trim_start().starts_with('|') || Columns::named(text).is_some()
    }

    /// What a row is read as by the table's head; none where the row is a head itself, or belongs to no table that is known.
    pub(super) fn row_fate(&mut self, text: &str) -> Option<Fate> {
        self.apart();
        // The head of another table may follow without a blank line between.
        let another = Columns::named(text);
        match self.here.table.as_ref().filter(|columns| another.is_none() && columns.has_row(text)) {
            Some(_) if Columns::is_rule(text) => Some(Fate::Prose),
            Some(columns) => Some(columns.row(text, &self.names, self.context.habits, self.unit)),
            None => {
                self.here.table = another;
                None
            }
        }
    }

    /// A row of a table.
    pub(super) fn row(&mut self, text: &str) -> Option<Verdict> {
        let (lift, far, _) = self.place(text, 0);
        let Some(fate) = self.row_fate(text) else {
            // A row of a table whose head is not known may hold sets all the same; below a lift's name numbers are its sets.
            let cells = text.replace('|', " ");
            let far = far.filter(|name| self.context.lift(&fold(crate::notation::bare_name(name))).is_some());
            let numbers =
                cells.split_whitespace().filter(|cell| cell.starts_with(|c: char| c.is_ascii_digit())).count();
            let below = (lift.is_some() || far.is_some()) && numbers > 1;
            let training = self.here.table.is_none() && (below || self.fate(&cells, Place::default()) != Fate::Prose);
            let kind = match far {
                Some(lift) => K::UnreadWork { why: Unread::Apart { lift } },
                None => self.unread_work(None),
            };
            return training.then(|| self.refused(text, kind, &[], &[], lift));
        };
        if let Some(kind) = self.not_done(text, &fate) {
            return Some(self.refused(text, kind, &[], &[], None));
        }
        match fate {
            Fate::Read(choice) => Some(self.read(text, 0, choice)),
            Fate::Unread => Some(self.refused(text, self.unread_work(None), &[], &[], None)),
            fate => self.in_question(text, fate, &[], None),
        }
    }
}
