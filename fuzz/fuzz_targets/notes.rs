//! Any text as notes: each line that is not blank is on a page, and the habits that it bears out are settings.

#![no_main]

use chrono::NaiveDate;
use libfuzzer_sys::fuzz_target;
use loadline::import::notes::{Notes, drafts, sections, survey, with_findings};
use loadline::journal::lifter_settings;
use loadline::notation::readings::{DateHabit, Habits};
use loadline::training::LiftBook;
use std::collections::BTreeSet;
use std::sync::LazyLock;

static BOOK: LazyLock<LiftBook> = LazyLock::new(LiftBook::built_in);

fuzz_target!(|text: &str| {
    let notes = [Notes { name: "old.txt".into(), text: text.to_owned() }];
    let dates = Some(DateHabit { day_first: true, year: Some(2025) });
    let habits = Habits { dates, ..Habits::default() };
    for habits in [Habits::default(), habits] {
        let sections = sections(&notes, habits.dates, &BTreeSet::new());
        let pages = drafts(&sections, &*BOOK, &habits, "kg");
        let there: BTreeSet<u32> =
            pages.iter().flat_map(|page| &page.lines).filter_map(|line| Some(line.from?.number)).collect();
        let filled = (1u32..).zip(text.strip_prefix('\u{feff}').unwrap_or(text).split('\n'));
        assert!(filled.filter(|(_, line)| !line.trim().is_empty()).all(|(number, _)| there.contains(&number)));
        let today = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a date");
        let findings = survey(&notes, &sections, (&*BOOK, &habits, "kg"), today, &mut || ());
        let (_, problems) = lifter_settings(with_findings("", &findings).as_bytes());
        assert!(problems.is_empty());
    }
});
