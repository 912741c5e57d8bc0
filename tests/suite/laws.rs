//! Laws that hold for every page, whatever is in it.
//!
//! Pages are bytes of any kind, lines put together from the words of the notation, and generated journals
//! with a few characters changed. The seeds are fixed: a red law stays red until it is mended. To look
//! further, change `SEED`.

use crate::support::generator::{self, Journal, Random};
use chrono::NaiveDate;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning::{self, Reading};
use loadline::notation;
use loadline::problems::{Cost, Problem};
use loadline::questions::{best, history, lifts, r#match, since, volume};
use loadline::source::{Edit, Page, PageId, Span, apply};
use loadline::training::LiftId;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestCaseError};

const SEED: u64 = 20_261_125;

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, failure_persistence: None, rng_seed: RngSeed::Fixed(SEED), ..ProptestConfig::default() }
}

/// Pieces that pages are put together from: what the notation knows, what is close to it, and what phones and
/// people type.
const PIECES: [&str; 127] = [
    "3x8",
    "8",
    "8,8,7",
    "12+4+4",
    "3x20s",
    "2x1:30",
    "1x20min",
    "4x40m",
    "1x2km",
    "3x10/side",
    "1x0",
    "3x8-10",
    "1xAMRAP",
    "1x5+",
    "0x8",
    "245x10",
    "3 x 8",
    "3×8",
    "120",
    "120 kg",
    "265lb",
    "122,5 kg",
    "7.5",
    "60 kg x 5",
    "5x60kg",
    "3x5x60",
    "3x5x60 kg",
    "1000000000",
    "0",
    "2.5555",
    "@",
    " @ ",
    "@ 8",
    "@ 120 kg",
    "~",
    "+",
    "-",
    " + ",
    " - ",
    "–",
    "−",
    "x",
    "×",
    ",",
    ", ",
    ".",
    ":",
    ": ",
    ";",
    "/",
    "/side",
    "%",
    "75%",
    "(",
    ")",
    "(slow)",
    "((",
    "\"",
    "“blue band”",
    "\"blue band\"",
    "bw",
    "bw + 20 kg",
    "bw - 15 kg",
    "pin 7",
    "pin",
    "bar",
    "trap bar + 4 red/side",
    "2 mauve/side",
    "45 lb + 160 kg",
    "20 kg + 3x25 kg/side",
    "RPE",
    "RPE 6",
    "RPE 6.5",
    "RPE 5-6",
    "RPE 6,6.5,7",
    "RPE 6, 7, 7",
    "RPE 6,5",
    "RPE 11",
    "RIR 2",
    "RIR 2-1",
    "AMRAP",
    "miss 1",
    "miss",
    "!depth",
    "!depth(3)",
    "!",
    "!depth(",
    "rest 3:00",
    "rest",
    "tempo 3-1-X-0",
    "tempo 3",
    "as planned",
    "skipped",
    "skipped (knee)",
    "Front squat",
    "front squats",
    "Frnt squat",
    "RDL",
    "**Dip:**",
    "[x] Pull-up",
    "_",
    "*",
    "`",
    "plan: ",
    "warm-up: ",
    "cue: ",
    "setup",
    "wram-up: ",
    "instead of: ",
    "bodyweight: ",
    "bodywieght: ",
    "pain: left knee 3/10",
    "sleep: 7 h",
    "note: ",
    " ",
    "  ",
    "\t",
    "\u{a0}",
    "💪",
    "é",
    "\u{feff}",
    "\u{0}",
    "\u{2028}",
    "<!--",
    "-->",
    "kg",
    "sets of",
];
const LINES: [&str; 44] = [
    "- ",
    "  - ",
    "    - ",
    "\t- ",
    "* ",
    "+ ",
    "-",
    "- Front squat: ",
    "- Front squat: ",
    "- Front squat: ",
    "- Dip: ",
    "- Bulgarian split squat: ",
    "  - plan: ",
    "  - warm-up: ",
    "  - 8",
    "  - 3x8 @ ",
    "",
    "",
    "# ",
    "## ",
    "### ",
    "#",
    "# Block 6",
    "# Block 6\n- starts: 2026-03-02",
    "# Block 7\n- starts: 2026-03-05\n- weeks: 4",
    "- deload: week ",
    "- max: Front squat ",
    "- weeks: ",
    "- starts: ",
    "## 2026-03-05",
    "## 2026-03-05 ",
    "## Thu 2026-03-05 18:30, secondary day",
    "## 5.3.2026",
    "## 2026-02-30",
    "## 2026-03-05 Mon block 9, week ",
    "```",
    "~~~",
    "---",
    "<<<<<<< ",
    "=======",
    ">>>>>>> ",
    "> ",
    "<!--",
    "bodyweight: ",
];

/// Pages put together from pieces. Most have a session's heading above, so that what follows is work.
fn notation_like() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        12 => prop::sample::select(&PIECES[..]).prop_map(str::to_owned),
        1 => any::<char>().prop_map(String::from),
        1 => (0u32..2000).prop_map(|number| number.to_string()),
    ];
    let glue = prop::sample::select(&["", " ", " ", " "][..]);
    let line = (prop::sample::select(&LINES[..]), prop::collection::vec((piece, glue), 0..7));
    let line = line.prop_map(|(start, pieces)| {
        let pieces: String = pieces.into_iter().map(|(piece, glue)| piece + glue).collect();
        format!("{start}{pieces}")
    });
    let heading = prop::sample::select(
        &["", "## 2026-03-05\n", "# Block 6\n- starts: 2026-03-02\n\n## 2026-03-05 pull day\n"][..],
    );
    let end = prop::sample::select(&["\n", "\n", "\r\n"][..]);
    (heading, prop::collection::vec(line, 1..10), end)
        .prop_map(|(heading, lines, end)| heading.to_owned() + &lines.join(end))
}

/// A page of a generated journal with a few characters taken out, doubled, or put elsewhere.
fn mutated() -> impl Strategy<Value = String> {
    (0u64..10_000, any::<u64>()).prop_map(|(journal, seed)| {
        let journal = generator::journal(journal);
        let mut random = Random::new(seed);
        let pages: Vec<&String> =
            journal.files.iter().filter(|(path, _)| path.ends_with(".md")).map(|(_, text)| text).collect();
        let mut signs: Vec<char> = random.pick(&pages).chars().take(3000).collect();
        for _ in 0..random.within(1..=12) {
            let (at, other) = (random.below(signs.len()), random.below(signs.len()));
            match random.below(5) {
                _ if signs.is_empty() => {}
                0 => drop(signs.remove(at)),
                1 => signs.insert(at, signs[other]),
                2 => signs.swap(at, other),
                3 => signs.insert(at, random.pick(&[',', ' ', '@', 'x', '(', '"', ':', '-', '\n', '9', '.', '/'])),
                _ => signs[at] = random.pick(&['x', ' ', '5', ',', '\u{a0}', '–', '!', '#']),
            }
        }
        signs.into_iter().collect()
    })
}

/// Reads one page as a whole journal, every warning on.
fn reading(bytes: &[u8]) -> Reading {
    let files = Memory::default().with("journal.yaml", SETTINGS).with("page.md", bytes);
    let opened = open(&files);
    let lifter = opened.lifter(None, None).unwrap();
    meaning::read(&files, lifter, opened.pages_of(lifter), NaiveDate::from_ymd_opt(2026, 11, 25))
}

const SETTINGS: &str =
    "gear:\n  bars: { bar: 20 kg, trap bar: 45 lb }\n  plates: [{ mass: 25 kg, colour: red, pairs: 1 }]\n";

fn lies_in(span: Span, text: &str) -> bool {
    text.get(span.start as usize..span.end as usize).is_some()
}

/// Whatever the bytes: nothing is lost, and every problem and fix lies in the page, between characters.
fn lossless(bytes: &[u8]) -> Result<Reading, TestCaseError> {
    let page = Page::new("page.md", bytes.to_vec()).expect("a short page");
    prop_assert_eq!(page.bytes(), bytes);
    prop_assert_eq!(page.text().len(), bytes.len());
    let lines = notation::read(&page);
    let joined: String = lines.iter().map(|line| line.text).collect();
    prop_assert_eq!(&joined, page.text());
    let reading = reading(bytes);
    let of_lines = lines.iter().flat_map(|line| &line.problems);
    for problem in of_lines.chain(reading.problems.iter().map(|(_, problem)| problem)) {
        prop_assert!(lies_in(problem.span, page.text()), "{:?}", problem);
        prop_assert!(problem.fix.as_ref().is_none_or(|fix| lies_in(fix.span, page.text())), "{:?}", problem);
        prop_assert!(!problem.kind.message().is_empty());
    }
    let costly = reading.problems.iter().filter(|(_, problem)| problem.kind.cost() == Cost::Line).count();
    prop_assert!(costly == 0 || reading.log.left_out > 0, "an error that costs a line leaves one out");
    Ok(reading)
}

/// Every fix, applied by itself, removes its problem.
fn fixes_hold(text: &str, reading: &Reading) -> Result<(), TestCaseError> {
    for (page, problem) in &reading.problems {
        let Some(fix) = &problem.fix else { continue };
        prop_assert_eq!(*page, PageId(0));
        let Ok(fixed) = apply(text, std::slice::from_ref(fix)) else {
            return Err(TestCaseError::fail(format!("{problem:?} does not apply")));
        };
        let again = self::reading(fixed.as_bytes());
        let same = |other: &Problem| other.kind.name() == problem.kind.name() && other.span.start == problem.span.start;
        let left = again.problems.iter().find(|(_, other)| same(other));
        prop_assert!(left.is_none(), "{}\n{}\nbefore {:?}\nafter {:?}", text, fixed, problem, left);
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn any_bytes_are_read_and_none_is_lost(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        lossless(&bytes)?;
    }

    #[test]
    fn any_text_is_read_and_none_is_lost(text in any::<String>()) {
        fixes_hold(&text, &lossless(text.as_bytes())?)?;
    }
}

proptest! {
    #![proptest_config(cases(2500))]

    #[test]
    fn what_looks_like_notation_is_read_and_its_fixes_hold(text in notation_like()) {
        fixes_hold(&text, &lossless(text.as_bytes())?)?;
    }
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn slips_of_the_finger_are_read_and_their_fixes_hold(text in mutated()) {
        fixes_hold(&text, &lossless(text.as_bytes())?)?;
    }
}

/// Everything that is answered about a journal, but for pages and lines.
fn answers(files: &[(String, String)], today: NaiveDate) -> Vec<(String, String)> {
    let files = files.iter().fold(Memory::default(), |files, (path, text)| files.with(path, text.as_bytes()));
    let opened = open(&files);
    let lifter = opened.lifter(None, None).unwrap();
    let reading = meaning::read(&files, lifter, opened.pages_of(lifter), None);
    let history = History::new(&reading.log, &lifter.book, today);
    let mut all = vec![
        ("left out".to_owned(), reading.log.left_out.to_string()),
        ("lifts".into(), format!("{:#?}", lifts::answer(&history))),
        ("match".into(), placeless(&format!("{:#?}", r#match::answer(&history, &r#match::Ask::default())))),
        (
            "since".into(),
            placeless(&format!("{:#?}", since::answer(&history, &since::Ask { of: since::Of::Main, reps: None }))),
        ),
    ];
    for (at, lift) in reading.log.lifts.iter().enumerate() {
        let id = LiftId(at as u32);
        for sets in [1, 3] {
            let (bound, exactly, with_faults) = ((sets > 1).then_some(best::Bound::Reps(5)), false, sets > 1);
            let ask = best::Ask { lift: id, bound, exactly, sets, with_faults, since: None, until: None, block: None };
            all.push((
                format!("best {} {sets}", lift.name),
                placeless(&format!("{:#?}", best::answer(&history, &ask))),
            ));
        }
        all.push((format!("history {}", lift.name), placeless(&format!("{:#?}", history::answer(&history, id)))));
    }
    for by in [volume::By::Week, volume::By::Lift, volume::By::Day] {
        let ask = volume::Ask { by, lift: None, family: None, block: None, since: None, until: None };
        all.push((format!("volume {by:?}"), format!("{:#?}", volume::answer(&history, &ask))));
    }
    all.sort();
    all
}

/// An answer printed without the lines that say where things stand.
fn placeless(answer: &str) -> String {
    let of_place = |line: &&str| !["page: ", "line: "].iter().any(|key| line.trim_start().starts_with(key));
    answer.lines().filter(of_place).map(|line| format!("{line}\n")).collect()
}

/// Which page a session stands in never matters, where two of one date say their times.
#[test]
fn no_answer_depends_on_how_the_pages_are_cut() {
    for seed in 0..40 {
        let journal: Journal = generator::timed_journal(seed);
        let known = answers(&journal.files, journal.today);
        for shuffle in 0..2 {
            let other = answers(&journal.scattered(seed * 2 + shuffle), journal.today);
            for ((question, known), (_, other)) in known.iter().zip(&other) {
                let differ = crate::support::snapshot::difference(known, other);
                assert!(known == other, "seed {seed}, {question}:\n{differ}");
            }
            assert_eq!(known.len(), other.len());
        }
    }
}

/// Edits that a fix makes never reach beyond the page.
#[test]
fn a_fix_beyond_the_page_is_refused() {
    assert!(apply("- Dip: 8", &[Edit::new(Span::new(4, 99), "x")]).is_err());
}
