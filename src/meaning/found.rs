//! What is wrong with pages, as it is found: of each page the first thousand problems, and how many there are.
//!
//! A page may have millions of problems, and nobody reads more than the first. So where they are only shown, no more of
//! them are kept than that; `tidy` keeps what it mends.

use crate::problems::{Count, Problem, ProblemKind as K, SHOWN, Severity};
use crate::source::Span;

/// Which problems of a page are kept. All are counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Keep {
    /// The first by place, which are all that is shown.
    #[default]
    First,
    /// Those that `tidy` may mend, and of every error the place.
    Mends,
    /// All.
    All,
}

/// The problems of a page.
#[derive(Clone, Debug, Default)]
pub(crate) struct Found {
    keep: Keep,
    kept: Vec<Problem>,
    /// So many of them come first in order of place.
    in_order: usize,
    /// No problem from here on is among the first.
    full_from: Option<Span>,
    count: Count,
    /// Where errors begin, for `tidy`.
    faults: Vec<u32>,
    /// Where lines begin that are the lifter's own words, whatever they look like; for `tidy`.
    words: Vec<u32>,
}

impl Found {
    /// Nothing yet.
    pub(crate) fn new(keep: Keep) -> Self {
        Found { keep, ..Found::default() }
    }

    /// Takes a problem in.
    pub(crate) fn push(&mut self, problem: Problem) {
        self.pass(&problem.kind, problem.span);
        let kept = match self.keep {
            Keep::First => !self.is_full(problem.span),
            Keep::Mends => is_mended(&problem),
            Keep::All => true,
        };
        if kept {
            self.kept.push(problem);
            if self.keep == Keep::First && self.kept.len() >= 2 * SHOWN {
                self.cut();
            }
        }
    }

    /// Counts a problem that need not be kept.
    pub(crate) fn pass(&mut self, kind: &K, span: Span) {
        self.count.add(kind.severity());
        if self.keep == Keep::Mends && kind.severity() == Severity::Error {
            self.faults.push(span.start);
        }
    }

    /// Notes a line that is the lifter's own words.
    pub(crate) fn keep_words(&mut self, line: Span) {
        if self.keep == Keep::Mends {
            self.words.push(line.start);
        }
    }

    /// Whether a problem of that place would only be counted, so that nothing need be made ready for showing it.
    pub(crate) fn is_full(&self, span: Span) -> bool {
        self.full_from.is_some_and(|full| full <= span)
    }

    /// Drops what is not among the first.
    fn cut(&mut self) {
        self.settle();
        self.kept.truncate(SHOWN);
        self.in_order = self.kept.len();
        self.full_from = self.kept.last().map(|last| last.span);
    }

    /// Puts the problems in order of place; those of one place stay in the order in which they were found.
    pub(crate) fn settle(&mut self) {
        if self.in_order < self.kept.len() {
            self.kept.sort_by_key(|problem| problem.span);
            self.in_order = self.kept.len();
        }
        self.faults.sort_unstable();
        self.words.sort_unstable();
    }

    /// Takes in what was found otherwise.
    pub(crate) fn append(&mut self, other: Found) {
        self.count += other.count;
        self.faults.extend(other.faults);
        self.words.extend(other.words);
        self.full_from = self.full_from.into_iter().chain(other.full_from).min();
        if self.kept.is_empty() {
            (self.kept, self.in_order) = (other.kept, other.in_order);
        } else {
            self.kept.extend(other.kept);
        }
    }

    /// Puts every place where it stood before, by a way back that also tells whether its line was written anew.
    pub(crate) fn moved(&mut self, put: impl Fn(&mut Span) -> bool) {
        for problem in &mut self.kept {
            put(&mut problem.span);
            // What a fix would put into a line that is written anew stands nowhere yet.
            problem.fix.take_if(|fix| put(&mut fix.span));
            problem.choices.retain_mut(|choice| !put(&mut choice.edit.span));
        }
        self.full_from.iter_mut().for_each(|span| {
            put(span);
        });
        for place in self.faults.iter_mut().chain(&mut self.words) {
            let mut span = Span { start: *place, end: *place };
            put(&mut span);
            *place = span.start;
        }
    }

    /// The problem of a kind at a place, of those that were there when all were put in order last.
    pub(crate) fn at(&mut self, span: Span, kind: &'static str) -> Option<&mut Problem> {
        let ordered = self.kept.get_mut(..self.in_order)?;
        let first = ordered.partition_point(|problem| problem.span < span);
        let there = ordered.get_mut(first..)?.iter_mut().take_while(|problem| problem.span == span);
        there.into_iter().find(|problem| problem.kind.name() == kind)
    }

    /// The problems that were found last, from a place on, the last first.
    pub(crate) fn last_from(&mut self, span: Span) -> impl Iterator<Item = &mut Problem> {
        self.kept.iter_mut().rev().take_while(move |problem| problem.span >= span)
    }

    /// Those that are kept.
    pub(crate) fn iter(&self) -> std::slice::Iter<'_, Problem> {
        self.kept.iter()
    }

    /// Where the errors begin, in order once all is, where [`Keep::Mends`] was asked for.
    pub(crate) fn faults(&self) -> &[u32] {
        &self.faults
    }

    /// Where the lines begin that `tidy` leaves as they are, in order: those with an error, and the lifter's own words.
    pub(crate) fn left_alone(&self) -> Vec<u32> {
        let mut places = [&self.faults[..], &self.words[..]].concat();
        places.sort_unstable();
        places
    }

    /// Those that are kept in order of place, and how many there are.
    pub(crate) fn told(mut self) -> (Vec<Problem>, Count) {
        match self.keep {
            Keep::First => self.cut(),
            Keep::Mends | Keep::All => self.settle(),
        }
        (self.kept, self.count)
    }
}

/// Whether `tidy` may mend it: an error, or a line that is typed loosely; a heading that is no date may yet get its fix.
fn is_mended(problem: &Problem) -> bool {
    let by_fix = problem.kind.leaves_out() || matches!(problem.kind, K::LooseSpelling { .. });
    (by_fix && problem.fix.is_some()) || matches!(problem.kind, K::NotADate { .. })
}

#[cfg(test)]
mod tests {
    use super::{Found, Keep};
    use crate::problems::{Count, Problem, ProblemKind as K, SHOWN};
    use crate::source::Span;

    fn problem(at: usize) -> Problem {
        Problem::new(K::UnreadCount { read: at.to_string() }, Span::new(at, at + 1))
    }

    /// In no order that helps: each place below `most` once.
    fn places(most: usize) -> impl Iterator<Item = usize> {
        (0..most).map(move |nth| nth * 7919 % most)
    }

    #[test]
    fn the_first_by_place_are_kept_in_whatever_order_they_are_found() {
        let most = 10 * SHOWN;
        let (mut found, mut held) = (Found::new(Keep::First), 0);
        for at in places(most) {
            found.push(problem(at));
            held = held.max(found.kept.capacity());
        }
        // However many there are, so many have room at once.
        assert!(held <= 4 * SHOWN, "{held}");
        let (kept, count) = found.told();
        assert_eq!(count, Count { errors: most as u32, warnings: 0 });
        assert_eq!(kept, (0..SHOWN).map(problem).collect::<Vec<_>>());
    }

    #[test]
    fn two_findings_are_one_as_if_found_together() {
        let (mut one, mut other) = (Found::new(Keep::First), Found::new(Keep::First));
        for at in places(6 * SHOWN) {
            if at % 3 == 0 { &mut one } else { &mut other }.push(problem(at));
        }
        one.append(other);
        one.push(problem(6 * SHOWN));
        let (kept, count) = one.told();
        assert_eq!(count.errors as usize, 6 * SHOWN + 1);
        assert_eq!(kept, (0..SHOWN).map(problem).collect::<Vec<_>>());
    }

    #[test]
    fn problems_of_one_place_stay_in_the_order_in_which_they_were_found() {
        let mut found = Found::new(Keep::First);
        for nth in 0..5 * SHOWN {
            found.push(Problem::new(K::UnreadCount { read: nth.to_string() }, Span::new(7, 8)));
        }
        let first = (0..SHOWN).map(|nth| Problem::new(K::UnreadCount { read: nth.to_string() }, Span::new(7, 8)));
        assert_eq!(found.told().0, first.collect::<Vec<_>>());
    }

    #[test]
    fn tidy_keeps_what_it_mends_and_the_place_of_every_error() {
        let mut found = Found::new(Keep::Mends);
        for at in 0..3 * SHOWN {
            found.push(problem(at));
            found.push(problem(at).with_fix(Span::new(at, at), "x"));
        }
        found.settle();
        assert_eq!(found.faults().len(), 6 * SHOWN);
        assert_eq!(found.told().0.len(), 3 * SHOWN);
    }
}
