//! docs/problems.md is the test of every kind of problem; what cannot be shown as text is tested here.

use crate::support::journal::Journal;
use crate::support::page_suite::{Section, cases, faults, sections};
use loadline::journal::{Memory, open};
use loadline::meaning::{self, Reading};
use loadline::problems::ProblemKind;
use std::collections::BTreeSet;

/// Kinds whose section has no example, and why.
const UNSHOWN: [(&str, &str); 4] = [
    ("not-a-page", "a file that is no page is not listed among the pages of an example"),
    ("bare-carriage-return", "a block of lines has usual line ends"),
    ("not-utf8", "bytes that are no text cannot stand in a text"),
    ("unreadable-page", "a page that the system refuses has no text"),
];

/// Kinds that no line has any more; their names are for ever.
const RETIRED: [&str; 2] = ["looks-like-work", "load-without-at"];

fn doc() -> Vec<Section> {
    sections(include_str!("../../docs/problems.md"))
}

#[test]
fn every_kind_has_a_section_and_every_section_a_kind() {
    let doc = doc();
    let names: Vec<&str> = doc.iter().map(|section| section.name.as_str()).filter(|name| !name.is_empty()).collect();
    let sections: BTreeSet<&str> = names.iter().copied().collect();
    let kinds: BTreeSet<&str> = ProblemKind::NAMES.iter().chain(&RETIRED).copied().collect();
    assert_eq!(names.len(), sections.len(), "a section stands twice");
    assert_eq!(kinds.difference(&sections).collect::<Vec<_>>(), Vec::<&&str>::new(), "kinds without a section");
    assert_eq!(sections.difference(&kinds).collect::<Vec<_>>(), Vec::<&&str>::new(), "sections without a kind");
}

#[test]
fn every_section_shows_its_kind_and_nothing_else() {
    let mut wrong = Vec::new();
    for section in doc().iter().filter(|section| !section.name.is_empty()) {
        let name = &section.name;
        let marks: Vec<String> = cases(section).into_iter().flat_map(|case| case.marks).map(|mark| mark.kind).collect();
        let unshown = UNSHOWN.iter().find(|(kind, _)| kind == name);
        match unshown {
            Some((_, why)) if !section.blocks.is_empty() => wrong.push(format!("{name} has an example, but {why}")),
            None if !marks.contains(name) && !RETIRED.contains(&name.as_str()) => {
                wrong.push(format!("{name} has no example"))
            }
            _ => {}
        }
        wrong.extend(marks.iter().filter(|kind| *kind != name).map(|kind| format!("{name} shows {kind}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_example_has_the_problems_that_are_marked_and_its_fixes_help() {
    let mut wrong = String::new();
    for case in doc().iter().filter(|section| !section.name.is_empty()).flat_map(cases) {
        for fault in faults(&case) {
            wrong.push_str(&format!("{} (docs/problems.md:{}):\n    {fault}\n", case.section, case.line));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// The page `page.md` of these bytes.
fn read(bytes: &[u8]) -> Reading {
    let files = Memory::default().with("journal.yaml", "").with("page.md", bytes);
    let journal = open(&files);
    meaning::read(&files, &journal.lifters[0], journal.pages_of(&journal.lifters[0]), None)
}

fn names(reading: &Reading) -> Vec<(&'static str, u32, u32)> {
    reading.problems.iter().map(|(_, problem)| (problem.kind.name(), problem.span.start, problem.span.end)).collect()
}

#[test]
fn a_line_that_is_not_utf8_is_lost_and_the_others_are_read() {
    let reading = read(b"## 2026-03-05\n- Deadlift: 3x5 \xff@ 150 kg\n- Back squat: 3x5 @ 90 kg\n");
    // The heading takes 14 bytes with its line end, the broken line 25.
    assert_eq!(names(&reading), [("not-utf8", 14, 39)]);
    assert_eq!(reading.log.left_out, 1);
    let works = &reading.log.sessions[0].works;
    assert_eq!(works.iter().map(|work| reading.log.lift_name(work.lift)).collect::<Vec<_>>(), ["Back squat"]);
}

#[test]
fn lines_that_end_in_a_carriage_return_alone_are_one_error() {
    let reading = read(b"## 2026-03-05\r- Deadlift: 3x5 @ 150 kg\r- Back squat: 3x5 @ 90 kg\r");
    assert_eq!(names(&reading), [("bare-carriage-return", 0, 13)]);
    assert_eq!(reading.log.left_out, 1);
    // One such line in a page with usual ends costs itself.
    let reading = read(b"## 2026-03-05\n- Deadlift: 3x5\r- Dip: 3x5\n- Back squat: 3x5 @ 90 kg\r\n");
    assert_eq!(names(&reading), [("bare-carriage-return", 14, 29)]);
    let works = &reading.log.sessions[0].works;
    assert_eq!(works.iter().map(|work| reading.log.lift_name(work.lift)).collect::<Vec<_>>(), ["Back squat"]);
}

#[test]
fn a_page_that_is_gone_when_it_is_read_is_named() {
    let files = Memory::default().with("journal.yaml", "").with("page.md", "## 2026-03-05\n- Deadlift: 3x5 @ 150 kg\n");
    let journal = open(&files);
    let pages = vec!["gone.md".into(), "page.md".into()];
    let reading = meaning::read(&files, &journal.lifters[0], pages, None);
    assert_eq!(names(&reading), [("unreadable-page", 0, 0)]);
    assert_eq!(reading.log.page_path(reading.problems[0].0), "gone.md");
    assert_eq!(reading.log.sessions.len(), 1);
}

#[test]
fn a_page_with_three_faults_reports_three_each_with_its_place_marked() {
    let page = "## 2026-03-05\n- Deadlift: 3x5 @ 150 kg RPE 11 felt heavy\n- Bench press: 0x5 @ 80 kg\n";
    let expected = "\
page.md:2:26: error[unread-effort]: `RPE 11` is not an RPE; it is a whole or half number from 1 to 10, or a range
  |
2 | - Deadlift: 3x5 @ 150 kg RPE 11 felt heavy
  |                          ^^^^^^

page.md:2:33: error[unread-words]: `felt heavy` means nothing here; a remark stands in parentheses
  |
2 | - Deadlift: 3x5 @ 150 kg RPE 11 felt heavy
  |                                 ^^^^^^^^^^

page.md:3:16: error[no-sets]: no sets at all: leave the line out, or write `skipped`; a failed attempt is 1x0
  |
3 | - Bench press: 0x5 @ 80 kg
  |                ^^^

1 session: 0 work lines; 2 lines look like training and count nowhere   3 errors
--- exit 1
";
    assert_eq!(Journal::new().page(page).run(&["check"]), expected);
}

#[test]
fn the_first_example_of_the_doc_is_what_the_program_prints() {
    let doc = doc();
    let shown = &doc[0].blocks[0].text;
    let printed = Journal::new().page("## 2026-03-05\nIncline bench 60kg x 8 x 3\n").run(&["check"]);
    assert_eq!(
        printed,
        format!(
            "{shown}\n1 session: 0 work lines; 1 line looks like training and counts nowhere   1 error\n--- exit 1\n"
        )
    );
}

/// A meet's attempts are often written as loads alone; what to type is said with the lifter's own load.
#[test]
fn a_load_without_a_count_is_shown_with_one() {
    let said = Journal::new().page("## 2026-03-05 meet Spring\n\n- Deadlift: 405 lb, 1x1 @ 425 lb\n").run(&["check"]);
    let expected = "`405 lb` is a load, and a count comes before it: 3x8 @ 405 lb, or 1x1 @ 405 lb for a single";
    assert!(said.contains(expected), "{said}");
    let said = Journal::new().page("## 2026-03-05\n\n- Deadlift: three of five @ 405 lb\n").run(&["check"]);
    assert!(said.contains("`three of five` is not a count; a count is 3x8"), "{said}");
}
