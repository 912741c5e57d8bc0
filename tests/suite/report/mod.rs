//! The report as a page: what it is made of, how it reads, how it looks in a browser.
//!
//! - `structure.rs`: headings, tables, plots, links, as a parser of HTML sees them
//! - `contrast.rs`: the colours of both schemes
//! - `numbers.rs`: every number of the answers stands in a table
//! - `browser.rs`: the page in a browser, on a phone and on a wide screen
//! - `picture.rs`: the picture in the README

mod browser;
mod contrast;
mod numbers;
mod picture;
mod structure;

use crate::support::journal::{Journal, example};
use crate::support::{generator, run};

/// Reports of the example journal, of an empty one and of hostile text, by what they are of.
pub(crate) fn reports() -> Vec<(&'static str, String)> {
    let of = |arguments: &[&str]| run::run(&example(), 80, &[&["report"], arguments].concat());
    vec![
        ("Anselm", of(&[])),
        ("Nerys", of(&["--lifter", "nerys"])),
        ("a peak", of(&["--block", "6"])),
        ("a block by name", of(&["--lifter", "nerys", "--block", "harbour"])),
        ("the roster", of(&["--roster"])),
        ("nothing", Journal::new().run(&["report"])),
        ("one set", Journal::new().page("## 2026-03-05\n\n- Front squat: 8\n").run(&["report"])),
        ("hostile text", hostile().run(&["report"])),
        ("a block without an end", long().run(&["report"])),
        ("a seeded journal", seeded(1000)),
        ("another", seeded(1002)),
    ]
}

/// Forty weeks of one block, with three planned efforts of a lift in each.
fn long() -> Journal {
    let mut page = "# Block of a year, and not over yet\n\n- starts: 2026-02-02\n".to_owned();
    let first = chrono::NaiveDate::from_ymd_opt(2026, 2, 2).unwrap();
    for week in 0..40 {
        let date = first + chrono::Days::new(week * 7);
        page += &format!(
            "\n## {date}\n\n- Back squat: 3x5 @ {} lb RPE 8, 2x5 @ 250 lb RPE 6, 5 @ 200 lb RPE 5\n  - plan: 3x5 RPE 7, 2x5 RPE 6-7, 5 RPE 5\n",
            300 + week
        );
    }
    Journal::new().page(&page)
}

fn seeded(seed: u64) -> String {
    let journal = generator::journal(seed);
    let mut disk = Journal::new();
    for (path, text) in &journal.files {
        disk = disk.file(path, text);
    }
    disk.run(&["report", "--on", &journal.today.to_string()])
}

/// Text of a journal that would be markup, script, style or another address, if it were let.
pub(crate) const HOSTILE: &str = "<script>alert(1)</script><img src=x onerror=alert(2)>";

/// A journal with such text wherever a report shows text of a journal: in the names of pages, blocks, lifts, days and
/// meets, in goals, plans, reasons, loads, and in the lines that are quoted.
pub(crate) fn hostile() -> Journal {
    let page = format!(
        "# Block \"><b>{HOSTILE}\n- starts: 2026-11-02\n- weeks: 4\n- goal: {HOSTILE}\n- phase: </title><i>\n\n\
         ## 2026-11-09 '\"><svg onload=alert(3)> day\n\npain: <b>knee</b> 3/10\n\n\
         - Squat <script>alert(4)</script>: 3x5 @ 100 kg RPE 7\n  - plan: 3x5 @ 100 kg RPE 6 {HOSTILE}\n\
         - Back squat: 3x5 @ 140 kg RPE 9.5 !<u>\n  - plan: 3x5 @ 140 kg RPE 7\n\
         - Bench press: 3x5 @ \"<b>&amp;</b>\"\n- Deadlift: skipped ({HOSTILE})\n  - plan: 3x5 @ 180 kg\n\n\
         ## 2026-11-14 meet </h1><script>alert(5)</script>\n\n- Back squat: 1 @ 180 kg\n\n\
         ## 2026-12-19 meet </dd><script>alert(6)</script>\n"
    );
    Journal::new()
        .file("lifter.yaml", "name: \"</title><script>alert(7)</script>\"\n")
        .file("javascript:alert(8).md", page)
}
