//! Pages read without the rest of their journal: the blocks, maxima and bodyweights of other pages are not known,
//! and nothing is held against them. Such pages come from version control, one at a time.

use super::context::Context;
use super::found::Keep;
use super::join::{Mode, joined};
use super::names::spelling;
use super::page;
use crate::journal::Lifter;
use crate::notation::nodes::{Fact, Line, LineKind, SessionHeading};
use crate::notation::{Reader, tidy};
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{Lines, Page, PageId};
use crate::training::spelling::{clock, length};
use crate::training::{Aside, AsideKind, Log, decimal};

/// What lone pages say. Percentages stay percentages.
#[derive(Debug)]
pub struct Lone {
    /// Blocks, sessions and their work.
    pub log: Log,
    /// All the rest, in order of page and line: headings, facts, notes, and the lines that count nowhere.
    pub asides: Vec<Aside>,
}

/// Reads pages, each in its tidy spelling, whatever is wrong with them.
pub fn lone(lifter: &Lifter, pages: Vec<Page>) -> Lone {
    let context = Context { keep: Keep::All, ..Context::of(lifter, false) };
    let pages: Vec<Page> = pages.into_iter().map(|page| tidied(lifter, page)).collect();
    let logs = pages.iter().map(|page| {
        let mut log = page::read(&context, page);
        log.percents.clear();
        log
    });
    let logs = logs.collect();
    let paths = pages.iter().map(|page| page.path().to_owned()).collect();
    let joined = joined(lifter, paths, logs, None, Mode::Apart);
    let mut asides = Vec::new();
    for (at, page) in pages.iter().enumerate() {
        let id = PageId(at as u32);
        let problems = joined.problems.iter().filter(|(of, _)| *of == id).map(|(_, problem)| problem);
        asides.extend(of_page(id, page, problems));
    }
    Lone { log: joined.log, asides }
}

/// The page in its tidy spelling, but for lines that have an error.
pub fn tidied(lifter: &Lifter, page: Page) -> Page {
    let context = &Context { keep: Keep::Mends, ..Context::of(lifter, false) };
    let page = page::in_the_notation(context, &page).unwrap_or(page);
    let mut log = page::read(context, &page);
    log.problems.settle();
    let edits = tidy(&page, log.problems.faults(), &|name| spelling(context.book, name));
    page.edited(&edits).unwrap_or(page)
}

/// Whether what stands there counts nowhere. A block that is not on these pages may well be on another.
fn counts_nowhere(problem: &Problem) -> bool {
    let taken_for_prose =
        matches!(problem.kind, K::WorkOutsideSession { .. } | K::LooksLikeBlock { .. } | K::DetailOutsideLift { .. });
    let elsewhere = matches!(problem.kind, K::UnknownBlock { .. } | K::BlockOverlap { .. });
    (problem.kind.leaves_out() || taken_for_prose) && !elsewhere
}

/// What a page says beside its sets and blocks.
fn of_page<'p>(id: PageId, page: &Page, problems: impl Iterator<Item = &'p Problem>) -> Vec<Aside> {
    let lines = Lines::of(page.text());
    let unread = problems.filter(|problem| counts_nowhere(problem));
    let mut unread: Vec<u32> = unread.map(|problem| lines.position(problem.span.start).line).collect();
    unread.sort_unstable();
    let mut asides = Vec::new();
    let (mut session, mut lost) = (None, false);
    for (line, number) in Reader::new(page).zip(1..) {
        match &line.kind {
            LineKind::Session(_) => (session, lost) = (Some(number), false),
            LineKind::BadSession => (session, lost) = (None, true),
            LineKind::Block(_) | LineKind::Heading { ends: true } => (session, lost) = (None, false),
            _ => {}
        }
        let below_a_lost_heading = lost && counts(&line);
        let (kind, text) = if below_a_lost_heading || unread.binary_search(&number).is_ok() {
            (AsideKind::Unread, lines.line(number).trim().to_owned())
        } else {
            match &line.kind {
                LineKind::Session(heading) => (AsideKind::Session, heading_in_words(heading)),
                LineKind::Fact(Some(fact)) => fact_in_words(fact),
                LineKind::SessionNote(note) => (AsideKind::Note, (*note).to_owned()),
                _ => continue,
            }
        };
        if text.is_empty() && kind != AsideKind::Session {
            continue;
        }
        asides.push(Aside { kind, text, page: id, session, line: number });
    }
    asides
}

/// Whether a line would count, were its session's date known.
fn counts(line: &Line<'_>) -> bool {
    use LineKind as L;
    matches!(line.kind, L::Work(_) | L::SetLine(_) | L::Detail(_) | L::Fact(_) | L::SessionNote(_))
}

/// What a heading says after its date and label: `18:30, week 3, block 6, deload`.
fn heading_in_words(heading: &SessionHeading<'_>) -> String {
    let mut words = Vec::new();
    words.extend(heading.minute.map(|minute| clock(minute.value)));
    words.extend(heading.week.map(|week| format!("week {}", week.value)));
    words.extend(heading.block.map(|block| format!("block {block}")));
    let marks = [(heading.deload, "deload"), (heading.peak, "peak"), (heading.test_day, "test day")];
    words.extend(marks.iter().filter(|(is, _)| *is).map(|(_, word)| (*word).to_owned()));
    words.extend(heading.meet.map(|meet| format!("meet {meet}").trim_end().to_owned()));
    words.join(", ")
}

fn fact_in_words(fact: &Fact<'_>) -> (AsideKind, String) {
    match fact {
        Fact::Bodyweight(number, unit) => {
            let unit = unit.map_or(String::new(), |unit| format!(" {}", unit.word()));
            (AsideKind::Bodyweight, decimal(number.thousandths) + &unit)
        }
        Fact::Sleep(minutes) => (AsideKind::Sleep, length(*minutes)),
        Fact::Duration(minutes) => (AsideKind::Duration, length(*minutes)),
        Fact::SessionRpe(number) => (AsideKind::SessionRpe, decimal(number.thousandths)),
        Fact::Gym(name) => (AsideKind::Gym, (*name).to_owned()),
        Fact::Pain(site, number) => (AsideKind::Pain, format!("{site} {}/10", decimal(number.thousandths))),
    }
}
