//! Headings that are no date: which dates fit them.

use super::page::PageReading;
use crate::notation::readings::loose_date;
use crate::problems::{Choice, ProblemKind as K};
use crate::source::{Cut, Edit};
use chrono::NaiveDate;

impl<'c, 'a: 'c> PageReading<'c, 'a, '_> {
    /// Offers for headings that are no date the dates that fit between the session before and the one after them.
    pub(super) fn dates_between(&mut self, after: Option<NaiveDate>) {
        let open = std::mem::take(&mut self.open_dates);
        let Some((first, _)) = open.first() else { return };
        // Those that are only counted are shown to nobody.
        for problem in self.log.problems.last_from(*first) {
            let known = open.binary_search_by_key(&problem.span, |(span, _)| *span);
            let Some((_, before)) = known.ok().and_then(|at| open.get(at)) else { continue };
            if !matches!(problem.kind, K::NotADate { .. }) {
                continue;
            }
            let text = problem.span.text(self.page.text());
            let Some(loose) = loose_date(text.trim_matches(|c| matches!(c, '*' | '_'))) else { continue };
            let dates = loose.fitting(*before, after, self.context.habits.dates);
            let heading = self.page.text().get(..problem.span.start as usize).is_some_and(|before| {
                before.rsplit('\n').next().is_some_and(|line| line.trim_start().starts_with('#'))
            });
            let label = text.tail(loose.end).trim_matches(|c: char| !c.is_alphanumeric());
            let written = |date: &NaiveDate| match (heading, label) {
                (true, _) => date.to_string(),
                (false, "") => format!("## {date}"),
                (false, label) => format!("## {date} {label}"),
            };
            match dates.as_slice() {
                // The weekday or the year leaves no other.
                [one] if loose.is_of_calendar() => problem.fix = Some(Edit::new(problem.span, written(one))),
                several => {
                    problem.choices = several
                        .iter()
                        .map(|date| Choice {
                            say: date.format("%A").to_string(),
                            edit: Edit::new(problem.span, written(date)),
                        })
                        .collect();
                }
            }
        }
    }
}
