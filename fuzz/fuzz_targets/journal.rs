//! Any bytes as a page of a journal: every question answers without a panic, in text and in JSON, and every problem
//! and fix lies in the page. How many bytes there are says which day and which screen are answered for.
//!
//! `cargo fuzz run -s none journal fuzz/corpus/journal journal-example -- -dict=fuzz/notation.dict` seeds it with
//! the example journal.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::history::History;
use loadline::journal::{Lifter, Memory, open};
use loadline::meaning;
use loadline::present::envelope::json;
use loadline::present::plot::Glyphs;
use loadline::present::problem::Placed;
use loadline::present::{Doc, doc, html, pages, paint, view};
use loadline::analysis::strength::{course, heaviest};
use loadline::questions::{adherence, best, draft, estimate, facts, history, lifts, r#match, meet, recall};
use loadline::questions::{report, review, room, session, since, taper, volume};
use loadline::science::Equation;
use loadline::source::{Lines, Page, apply};
use loadline::training::{BlockId, Distance, Effort, Family, LiftId, Mass, Unit};
use serde::Serialize;
use std::path::Path;
use std::sync::LazyLock;

const SETTINGS: &str = "\
gear:
  bars: { bar: 20 kg, trap bar: 45 lb }
  plates:
    - { mass: 25 kg, colour: red, pairs: 2 }
    - { mass: 35 lb, colour: violet }
    - { mass: 1.25 kg }
  collars: 2.5 kg
lifts:
  - { name: Ring row, family: horizontal pull, also: [strap row], bodyweight: true, one side: true }
high reps: 8
";

/// Of a page with many lifts only so many are asked about, to look at many pages.
const MOST_LIFTS: u32 = 6;

/// Nobody's settings are read twice.
static LIFTER: LazyLock<Lifter> = LazyLock::new(|| {
    let journal = open(&Memory::default().with("journal.yaml", SETTINGS));
    assert!(journal.problems.is_empty());
    journal.lifters.into_iter().next().expect("a journal without lifters has one")
});

fn shown(answer: &impl Serialize, doc: &Doc, screen: usize) {
    assert!(json(answer).starts_with('{'));
    paint(&doc::text(doc, screen), true);
    doc::markdown(doc);
}

fn ask(history: &History<'_>, screen: usize, lifts: u32, blocks: u32) {
    let answer = lifts::answer(history);
    shown(&answer, &view::lifts::show(&answer), screen);
    let one = r#match::Ask { week: Some(1), block: Some(BlockId(0)), ..Default::default() };
    let other = r#match::Ask { against: Some(BlockId(0)), ..Default::default() };
    let asks = if blocks > 0 { vec![r#match::Ask::default(), one, other] } else { vec![r#match::Ask::default()] };
    for ask in asks {
        let answer = r#match::answer(history, &ask);
        shown(&answer, &view::r#match::show(&answer, true), screen);
    }
    for (of, reps) in [(since::Of::Main, None), (since::Of::Family(Family::Squat), Some(1))] {
        let answer = since::answer(history, &since::Ask { of, reps });
        shown(&answer, &view::since::show(&answer), screen);
    }
    for next in [false, true] {
        if let Ok(answer) = session::answer(history, &session::Ask { next, ..Default::default() }) {
            shown(&answer, &view::session::show(&answer, true), screen);
            html::card::show(&answer, None);
        }
    }
    let here = html::Pages::between(Path::new("/reports"), Path::new("/journal"), &|_| None);
    for block in (0..blocks).map(BlockId).map(Some).chain([None]) {
        let answer = review::answer(history, &review::Ask { block });
        shown(&answer, &view::review::show(&answer, true), screen);
        let answer = facts::answer(history, &facts::Ask { block, ..Default::default() });
        shown(&answer, &view::facts::show(&answer, Unit::Lb, true), screen);
        let page = html::report::show(&report::answer(history, &report::Ask { block }), &here, false);
        assert!(html::is_report(page.as_bytes()) && !page.contains("<script"));
    }
    use volume::By;
    for by in [By::Week, By::Block, By::Lift, By::Family, By::Day, By::Month] {
        let ask = volume::Ask { by, lift: None, family: None, block: None, since: None, until: None };
        let answer = volume::answer(history, &ask);
        shown(&answer, &view::volume::show(&answer), screen);
        shown(&answer, &view::volume::plot(&answer, view::volume::Of::Tonnage, Glyphs::Blocks), screen);
    }
    for by in [adherence::By::Week, adherence::By::Lift] {
        let ask = adherence::Ask { by, block: None, week: None, lift: None, since: None, until: None };
        let answer = adherence::answer(history, &ask);
        shown(&answer, &view::adherence::show(&answer, true), screen);
    }
    let week = draft::week::answer(history, draft::week::Ask { cap: Effort::MAXIMAL, week: None, starts: None });
    let block = draft::block::Ask { reps: Some(8), ..Default::default() };
    let whole = draft::block::answer(history, &draft::block::Ask { whole: true, ..block.clone() });
    for answer in [week, draft::block::answer(history, &block), whole].into_iter().flatten() {
        shown(&answer, &view::draft::show(&answer, Unit::Lb), screen);
        assert!(pages::ics::calendar(&answer, None).split("\r\n").all(|line| line.len() <= 75));
    }
    for (block, week) in (0..blocks).flat_map(|block| [(block, 1), (block, 4)]) {
        let answer = taper::answer(history, &taper::Ask { block: Some(BlockId(block)), week: Some(week) });
        shown(&answer, &view::taper::show(&answer, true), screen);
    }
    let wanted = meet::Wanted { chance: 0.5, step: Mass::of(2500, Unit::Kg), over_best: 1 };
    for meet in history.meets().into_iter().map(Some).chain([None]) {
        let answer = meet::answer(history, &meet::Ask { meet, wanted, points: meet::Formula::Dots });
        shown(&answer, &view::meet::show(&answer), screen);
    }
    for lift in (0..lifts.min(MOST_LIFTS)).map(LiftId) {
        let (equation, since, until) = (Equation::default(), None, None);
        let over = course::Ask { lift, equation, since, until };
        let answer = estimate::answer(history, &estimate::Ask { lift, equation, about: None, over: Some(over) });
        shown(&answer, &view::estimate::show(&answer, true), screen);
        for glyphs in [Glyphs::Blocks, Glyphs::Ascii] {
            shown(&answer, &view::estimate::plot(&answer, course::answer(history, &over), glyphs), screen);
            let heaviest = heaviest::answer(history, &heaviest::Ask { lift, since, until });
            shown(&answer, &view::history::plot(heaviest, glyphs), screen);
        }
        let answer = history::answer(history, &history::Ask { lift, since, until });
        shown(&answer, &view::history::show(&answer), screen);
        let answer = recall::answer(history, lift);
        shown(&answer, &view::recall::show(&answer), screen);
        let answer = room::answer(history, &room::Ask { lift, from: None, cap: Effort::MAXIMAL });
        shown(&answer, &view::room::show(&answer), screen);
        use best::Bound;
        let bounds = [Bound::Reps(1), Bound::Reps(8), Bound::Seconds(1), Bound::Metres(Distance::metres(1))];
        for bound in bounds.into_iter().map(Some).chain([None]) {
            for sets in [1, 3] {
                let (since, until, block) = (None, None, None);
                let ask = best::Ask { lift, bound, exactly: false, sets, with_faults: sets > 1, since, until, block };
                let answer = best::answer(history, &ask);
                shown(&answer, &view::best::show(&answer), screen);
            }
        }
    }
}

fuzz_target!(|bytes: &[u8]| {
    let files = Memory::default().with("page.md", bytes);
    let Ok(page) = Page::new("page.md", bytes.to_vec()) else { return };
    let day = |day: &str| day.parse().expect("a date");
    let reading = meaning::read(&files, &LIFTER, vec!["page.md".into()], Some(day("2026-11-25")));
    let lines = Lines::of(page.text());
    for (_, problem) in &reading.problems {
        assert!(page.text().get(problem.span.start as usize..problem.span.end as usize).is_some());
        assert!(problem.fix.iter().all(|fix| apply(page.text(), std::slice::from_ref(fix)).is_ok()));
        Placed::new("page.md", &lines, problem);
    }
    let today = day(["2026-03-05", "2026-11-25", "9999-12-31", "0001-01-01"][bytes.len() % 4]);
    let screen = [80, 24, 160][bytes.len() / 4 % 3];
    let history = History::new(&reading.log, &LIFTER.book, today);
    ask(&history, screen, reading.log.lifts.len() as u32, reading.log.blocks.len() as u32);
});
