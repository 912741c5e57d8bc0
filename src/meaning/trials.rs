//! Fixes tried out: one is offered only where the line reads better with it.
//!
//! A fix is found where its fault is, and cannot know what else is wrong: `3x8 @ 7,5` with its decimal point is
//! still no load. So the line is read again with the fix in it, under the lines that say how it is read, and a
//! fix that leaves its problem or makes another is dropped. Only `check` shows fixes, so only `check` tries them.

use super::context::Context;
use super::page;
use crate::notation::nodes::LineKind;
use crate::problems::Problem;
use crate::source::{Edit, Page, Span, apply};

/// Longer lines are typed by nobody, and one full of faults would take long to try.
const LONGEST: usize = 1000;
/// More keys than a block has.
const MOST_ABOVE: usize = 16;

/// The lines above that say how the next one is read: the heading, then a block's keys, or the last top-level
/// bullet and the last set line under it.
#[derive(Debug, Default)]
pub(crate) struct Around<'a> {
    above: Vec<&'a str>,
}

/// What a line is to those below it.
#[derive(Clone, Copy)]
pub(crate) enum Passage {
    /// A heading that starts a session or block, or ends one.
    Start,
    /// A heading inside a session.
    Inside,
    /// A top-level bullet.
    Owner,
    /// A block's key.
    Key,
    /// Sets under a work line.
    Sets,
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
            LineKind::Work(_) => Passage::Owner,
            LineKind::Fact(_) | LineKind::SessionNote(_) | LineKind::Prose if line.starts_with(['-', '*', '+']) => {
                Passage::Owner
            }
            _ => Passage::None,
        }
    }
}

impl<'a> Around<'a> {
    /// Takes in a line that was read.
    pub(crate) fn pass(&mut self, line: &'a str, passage: Passage) {
        let kept = match passage {
            Passage::Start => 0,
            Passage::Inside => return self.above.truncate(1),
            Passage::Owner => 1,
            Passage::Sets => 2,
            Passage::Key => MOST_ABOVE,
            Passage::None => return,
        };
        self.above.truncate(kept);
        self.above.push(line);
    }

    /// Takes away the fixes of a line's problems that do not help.
    pub(crate) fn keep_what_helps(&self, context: &Context<'_>, page: &Page, line: &str, problems: &mut [Problem]) {
        if problems.iter().all(|problem| problem.fix.is_none()) {
            return;
        }
        if line.len() > LONGEST {
            problems.iter_mut().for_each(|problem| problem.fix = None);
            return;
        }
        let start = Span::of(page.text(), line).start;
        let before = self.kinds(context, line);
        for problem in problems {
            let Some(fix) = &problem.fix else { continue };
            let (Some(from), Some(to)) = (fix.span.start.checked_sub(start), fix.span.end.checked_sub(start)) else {
                continue;
            };
            let edit = Edit::new(Span { start: from, end: to }, fix.text.as_str());
            let helps = apply(line, &[edit]).is_ok_and(|fixed| {
                let mut left = before.clone();
                let known = left.iter().position(|kind| *kind == problem.kind.name()).map(|at| left.swap_remove(at));
                known.is_some() && fewer(self.kinds(context, &fixed), left)
            });
            if !helps {
                problem.fix = None;
            }
        }
    }

    /// The names of what is wrong with a line, and with the lines above that it touches.
    fn kinds(&self, context: &Context<'_>, line: &str) -> Vec<&'static str> {
        let mut text: String = self.above.concat();
        text.push_str(line);
        let context = Context { careful: false, ..*context };
        let Ok(page) = Page::new("", text.into_bytes()) else { return Vec::new() };
        page::read(&context, &page).problems.iter().map(|problem| problem.kind.name()).collect()
    }
}

/// Whether all of `kinds` were there before.
fn fewer(kinds: Vec<&'static str>, mut before: Vec<&'static str>) -> bool {
    kinds.iter().all(|kind| match before.iter().position(|known| known == kind) {
        Some(at) => {
            before.swap_remove(at);
            true
        }
        None => false,
    })
}
