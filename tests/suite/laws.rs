//! What holds for any text: no panic, printed back byte for byte, every problem in its place, every fix helps;
//! and for any journal: which page a session stands in changes no answer.

use crate::support::generator;
use chrono::NaiveDate;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning::{self, Reading};
use loadline::notation::{pieces, read};
use loadline::questions::{best, lifts, r#match, since, volume};
use loadline::source::Page;
use loadline::training::LiftId;
use proptest::prelude::*;

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).unwrap()
}

fn lossless(bytes: &[u8]) {
    let page = Page::new("page.md", bytes.to_vec()).unwrap();
    assert_eq!(page.bytes(), bytes);
    let lines = read(&page);
    assert_eq!(lines.iter().map(|line| line.text).collect::<String>(), page.text());
    for line in &lines {
        assert_eq!(pieces(line).iter().map(|piece| piece.text).collect::<String>(), line.text);
        for problem in &line.problems {
            let inside = |start: u32, end: u32| page.text().get(start as usize..end as usize).is_some();
            assert!(inside(problem.span.start, problem.span.end), "{problem:?}");
            assert!(problem.fix.iter().all(|fix| inside(fix.span.start, fix.span.end)), "{problem:?}");
        }
    }
    let journal = Memory::default().with("journal.yaml", "").with("page.md", bytes);
    let opened = open(&journal);
    let lifter = &opened.lifters[0];
    meaning::read(&journal, lifter, opened.pages_of(lifter), Some(today()));
}

/// A word of the notation, or of nothing.
fn word() -> impl Strategy<Value = String> {
    let words = [
        "3x8",
        "8",
        "x",
        "@",
        "kg",
        "lb",
        "RPE",
        "RIR 2",
        "6.5",
        "7,7,8",
        ",",
        ", ",
        "(",
        ")",
        "(slow)",
        "\"",
        "bw",
        "+",
        "-",
        "- ",
        "  - ",
        "plan:",
        "warm-up:",
        "AMRAP",
        "miss 1",
        "!depth",
        "!depth(2)",
        "rest 3:00",
        "tempo 3-1-0",
        "/side",
        "20s",
        "1:30",
        "40m",
        "pin 7",
        "75%",
        "~",
        "120",
        "122,5",
        "Front squat:",
        "Pull-up:",
        "as planned",
        "skipped",
        "\n",
        "\n- ",
        "\n  - ",
        "\n## 2026-03-05 ",
        "\n# Block 1\n- starts: 2026-03-02\n",
        " ",
        ":",
        ".",
        "×",
        "–",
        "\u{a0}",
        "“",
        "é",
        "💪",
        "```\n",
        "<!--",
        "-->",
        ">",
        "[x]",
        "**",
        "12+4+4",
        "245x10",
        "0x8",
        "bar",
        "red/side",
        "\t",
    ];
    prop::sample::select(words.to_vec()).prop_map(str::to_owned)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_are_printed_back(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        lossless(&bytes);
    }

    #[test]
    fn anything_like_the_notation_is_printed_back(words in prop::collection::vec(word(), 0..40)) {
        lossless(format!("## 2026-03-05\n- Front squat: {}", words.join(" ")).as_bytes());
        lossless(format!("## 2026-03-05\n- Front squat: {}", words.concat()).as_bytes());
    }
}

/// Lines that once made reading stand still.
#[test]
fn reading_always_goes_on() {
    for end in [
        "!depth:",
        "!depth?",
        "!depth;",
        "!depth/lockout",
        "!depth)",
        "!depth@100",
        "! !",
        "!a:!b:",
        "RPE RPE",
        "@@",
        "((",
        "))",
    ] {
        lossless(format!("## 2026-03-05\n- : 3x8 @ 100 kg {end}\n").as_bytes());
        lossless(format!("## 2026-03-05\n- Front squat: as planned {end}\n").as_bytes());
    }
}

fn read_all(files: &[(String, String)]) -> (Reading, loadline::journal::Lifter) {
    let journal = files.iter().fold(Memory::default(), |journal, (path, text)| journal.with(path, text.as_str()));
    let opened = open(&journal);
    let lifter = opened.lifters[0].clone();
    (meaning::read(&journal, &lifter, opened.pages_of(&lifter), None), lifter)
}

/// Every answer as one text, without pages and lines.
fn answers(files: &[(String, String)]) -> String {
    let (reading, lifter) = read_all(files);
    let last = reading.log.sessions.last().map_or(today(), |session| session.date);
    let history = History::new(&reading.log, &lifter.book, last);
    let mut out = format!("{:?}\n{:?}\n", lifts::answer(&history), r#match::answer(&history, &r#match::Ask::default()));
    out += &format!("{:?}\n", since::answer(&history, &since::Ask { of: since::Of::Main, reps: None }));
    let all = volume::Ask { by: volume::By::Week, lift: None, family: None, block: None, since: None, until: None };
    out += &format!("{:?}\n", volume::answer(&history, &all));
    for lift in 0..reading.log.lifts.len() {
        let ask = best::Ask {
            lift: LiftId(lift as u32),
            bound: None,
            exactly: false,
            sets: 1,
            with_faults: false,
            since: None,
            until: None,
            block: None,
        };
        out += &format!("{:?}\n", best::answer(&history, &ask));
    }
    // Places are the one thing that may differ.
    let mut shown = String::new();
    let mut rest = out.as_str();
    while let Some(at) = rest.find("page: \"") {
        shown.push_str(&rest[..at]);
        let after = &rest[at + 7..];
        let end = after.find("line: ").map_or(after.len(), |end| end + 6);
        rest = after[end..].trim_start_matches(|c: char| c.is_ascii_digit());
    }
    shown + rest
}

#[test]
fn which_page_a_session_stands_in_never_matters() {
    for seed in 0..25 {
        let journal = generator::timed_journal(seed);
        assert_eq!(answers(&journal.files), answers(&journal.scattered(seed + 1)), "seed {seed}");
    }
}
