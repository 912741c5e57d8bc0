//! Headings that are no date: which dates fit them.

use super::page::PageReading;
use crate::notation::readings::{Label, behind_its_title, date_in};
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
            let text = text.strip_prefix("- ").unwrap_or(text);
            let text = text.trim_matches(|c: char| matches!(c, '*' | '_' | ':') || c.is_whitespace());
            let (title, text) = match behind_its_title(text).filter(|_| date_in(text).is_none()) {
                Some(at) => (text.head(at), text.tail(at)),
                None => ("", text),
            };
            // Sets beside a date cannot be written in a heading.
            let Some(loose) = date_in(text).filter(|loose| loose.label(text) != Label::Sets) else { continue };
            let (dates, sure) = loose.offered(*before, after, self.context.habits.dates, self.context.today);
            let heading = self.page.text().get(..problem.span.start as usize).is_some_and(|before| {
                before.rsplit('\n').next().is_some_and(|line| line.trim_start().starts_with('#'))
            });
            let label = if title.is_empty() { text.tail(loose.end) } else { title };
            let label = label.trim_matches(|c: char| !c.is_alphanumeric());
            let written = |date: &NaiveDate| match (heading, label) {
                (true, _) if title.is_empty() => date.to_string(),
                (true, label) => format!("{date} {label}"),
                (false, "") => format!("## {date}"),
                (false, label) => format!("## {date} {label}"),
            };
            match dates.as_slice() {
                // The weekday, the year, or the sessions round it leave no other.
                [one] if sure => problem.fix = Some(Edit::new(problem.span, written(one))),
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
