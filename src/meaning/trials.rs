//! Fixes tried out: one is offered only where the line reads better with it.
//!
//! A fix is found where its fault is, and cannot know what else is wrong: `3x8 @ 7,5` with its decimal point is
//! still no load. So the line is read again with the fix in it, between the lines that say how it is read and those
//! that it says so of, and a fix that leaves its problem or makes another is dropped. Only `check` shows fixes, so only `check` tries them.

use super::context::Context;
use super::found::Keep;
use super::page_log::PageLog;
use crate::notation::nodes::LineKind;
use crate::problems::{Problem, ProblemKind};
use crate::source::{Cut, Edit, Page, Span, apply};

/// Longer lines are typed by nobody, and one full of faults would take long to try.
const LONGEST: usize = 1000;
/// More keys than a block has.
const MOST_ABOVE: usize = 16;
/// As many lines below are read with a fix; a session's line seldom has more.
const MOST_BELOW: usize = 12;

/// The lines above that say how the next one is read: the heading, then a block's keys, or the last top-level
/// bullet and the last set line under it.
pub(crate) struct Around<'a> {
    above: Vec<&'a str>,
    /// How a page is read, here one of a few lines.
    read: ReadPage,
}

/// What reads a page by itself.
pub(crate) type ReadPage = fn(&Context<'_>, &Page) -> PageLog;

/// What a line is to those below it.
#[derive(Clone, Copy)]
pub(crate) enum Passage {
    /// A heading that starts a session or block, or ends one.
    Start,
    /// A heading inside a session.
    Inside,
    /// A work line.
    Owner,
    /// Another top-level bullet.
    Other,
    /// A block's key.
    Key,
    /// Sets under a work line.
    Sets,
    /// Something else that belongs to a work line.
    Detail,
    /// Nothing.
    None,
}

impl Passage {
    /// What a line is to those below it.
    pub(crate) fn of(line: &str, kind: &LineKind<'_>) -> Self {
        match kind {
            LineKind::Block(_) | LineKind::Session(_) | LineKind::BadSession => Passage::Start,
            LineKind::Heading { ends } => {
                if *ends {
                    Passage::Start
                } else {
                    Passage::Inside
                }
            }
            LineKind::BlockKey(..) => Passage::Key,
            LineKind::SetLine(groups) if !groups.is_empty() => Passage::Sets,
            LineKind::SetLine(_) | LineKind::Detail(_) => Passage::Detail,
            LineKind::Work(_) => Passage::Owner,
            LineKind::Fact(_) | LineKind::SessionNote(_) | LineKind::Prose if is_bullet(line) => Passage::Other,
            _ => Passage::None,
        }
    }
}

impl<'a> Around<'a> {
    /// Nothing above yet.
    pub(crate) fn new(read: ReadPage) -> Self {
        Around { above: Vec::new(), read }
    }

    /// Takes in a line that was read.
    pub(crate) fn pass(&mut self, line: &'a str, passage: Passage) {
        let kept = match passage {
            Passage::Start => 0,
            Passage::Inside => return self.above.truncate(1),
            // A block's list goes on behind what is none of its keys.
            Passage::Other if self.above.first().is_some_and(|first| is_block(first)) => return,
            Passage::Owner | Passage::Other => 1,
            Passage::Sets => 2,
            Passage::Key => MOST_ABOVE,
            Passage::Detail | Passage::None => return,
        };
        self.above.truncate(kept);
        self.above.push(line);
    }

    /// Takes away the fixes of a line's problems that do not help. Gives the places of those that make a percentage
    /// of a load.
    pub(crate) fn keep_what_helps(
        &self,
        context: &Context<'_>,
        page: &Page,
        line: &str,
        problems: &mut [Problem],
    ) -> Vec<usize> {
        let mut percentages = Vec::new();
        if problems.iter().all(|problem| problem.fix.is_none()) {
            return percentages;
        }
        if line.len() > LONGEST {
            problems.iter_mut().for_each(|problem| problem.fix = None);
            return percentages;
        }
        let start = Span::of(page.text(), line).start;
        let below = self.below(page.text(), line);
        let before = self.outcome(context, line, below);
        for (at, problem) in problems.iter_mut().enumerate() {
            let Some(fix) = &problem.fix else { continue };
            // How a line was read may rest on lines that are not tried with it.
            if matches!(problem.kind, ProblemKind::LooseSpelling { .. }) {
                continue;
            }
            let (Some(from), Some(to)) = (fix.span.start.checked_sub(start), fix.span.end.checked_sub(start)) else {
                continue;
            };
            let edit = Edit::new(Span { start: from, end: to }, fix.text.as_str());
            let after = apply(line, &[edit]).ok().map(|fixed| self.outcome(context, &fixed, below));
            match after.filter(|after| after.is_better(&before, problem.kind.name())) {
                Some(after) if after.percentages > before.percentages => percentages.push(at),
                Some(_) => {}
                None => problem.fix = None,
            }
        }
        percentages
    }

    /// The lines below that a line has a say in: the list of a block, or the bullets indented under it.
    fn below<'p>(&self, page: &'p str, line: &str) -> &'p str {
        let first = if line.trim_start().starts_with('#') { line } else { self.above.first().copied().unwrap_or("") };
        let of_block = is_block(first);
        let rest = page.tail(Span::of(page, line).end as usize);
        let mut end = 0;
        for below in rest.split_inclusive('\n').take(MOST_BELOW) {
            let signs = below.trim_start();
            let blank = signs.trim_start_matches('#').starts_with(char::is_whitespace);
            let heading = signs.starts_with('#') && blank;
            let ends = heading || (!of_block && is_bullet(below));
            if ends || below.len() > LONGEST {
                break;
            }
            end += below.len();
        }
        rest.head(end)
    }

    /// What comes of a line between the lines above and below it.
    fn outcome(&self, context: &Context<'_>, line: &str, below: &str) -> Outcome {
        let mut text: String = self.above.concat();
        text.push_str(line);
        text.push_str(below);
        let context = Context { careful: false, keep: Keep::All, ..*context };
        let log = Page::new("", text.into_bytes()).map(|page| (self.read)(&context, &page)).unwrap_or_default();
        Outcome {
            kinds: log.problems.iter().map(|problem| problem.kind.name()).collect(),
            percentages: log.percents.len(),
        }
    }
}

/// Whether a line is a bullet at the top level.
fn is_bullet(line: &str) -> bool {
    line.strip_prefix(['-', '*', '+']).is_some_and(|content| content.starts_with(char::is_whitespace))
}

/// Whether a heading is a block's, or nearly one.
fn is_block(heading: &str) -> bool {
    let name = heading.trim_start().trim_start_matches('#').trim_start();
    name.get(..5).is_some_and(|word| word.eq_ignore_ascii_case("block"))
}

/// What comes of a line.
struct Outcome {
    /// The names of what is wrong with it, and with the lines above that it touches.
    kinds: Vec<&'static str>,
    /// Loads that wait for a maximum.
    percentages: usize,
}

impl Outcome {
    /// Whether a problem is gone, and nothing is wrong that was not before.
    fn is_better(&self, before: &Outcome, problem: &'static str) -> bool {
        let mut known = before.kinds.clone();
        let mut take = |kind: &'static str| {
            known.iter().position(|known| *known == kind).map(|at| known.swap_remove(at)).is_some()
        };
        take(problem) && self.kinds.iter().all(|kind| take(kind))
    }
}
