//! `report`: a whole page, what becomes of hostile text, where links lead, and which files are written over.

use crate::report::{HOSTILE, hostile};
use crate::support::journal::{Journal, example};
use crate::support::{run, snapshot};
use std::fs;

/// Two blocks of a week each, planned and done, with a meet between them and a meet to come.
const PAGE: &str = "\
# Block 1

- starts: 2026-11-02
- weeks: 2
- peak: week 2

## 2026-11-03 heavier day

- Back squat: 3x5 @ 140 kg RPE 7
- Bench press: 3x8 @ 80 kg RPE 7

## 2026-11-14 meet Tidewater

- Back squat: 1 @ 165 kg RPE 9

# Block 2

- starts: 2026-11-16
- weeks: 2
- goal: five kilograms more than in block 1

## 2026-11-17 heavier day

- Back squat: 3x5 @ 145 kg RPE 8.5
  - plan: 3x5 @ 145 kg RPE 7
- Bench press: 3x8 @ 80 kg RPE 6.5
  - plan: 3x8 @ 80 kg RPE 6-7
- Pull-up: skipped (shoulder)
  - plan: 3x5 @ bw

## 2026-12-19 meet Harbour Open
";

fn journal() -> Journal {
    Journal::new().file("lifter.yaml", "name: Berit\nsex: female\n").file("2026 autumn.md", PAGE)
}

/// Writes a report beside the journal's pages, and reads it.
fn written(journal: &Journal, arguments: &[&str]) -> String {
    let path = journal.root().join("report.html");
    let out = journal.run(&[&["report", "--write", path.to_str().unwrap()], arguments].concat());
    assert!(out.starts_with("<journal>/report.html written"), "{out}");
    fs::read_to_string(path).unwrap()
}

#[test]
fn a_whole_report_stays_as_it_is() {
    snapshot::check_file("tests/snapshots/report.html", &written(&journal(), &[]));
}

#[test]
fn the_roster_s_report_stays_as_it_is() {
    let journal = Journal::new()
        .file("berit/lifter.yaml", "name: Berit\n")
        .file("berit/a.md", PAGE)
        .file("runa/lifter.yaml", "name: Runa\n");
    snapshot::check_file("tests/snapshots/report-roster.html", &written(&journal, &["--roster"]));
}

#[test]
fn everyone_has_a_page_that_the_roster_links_to() {
    let journal = Journal::new()
        .file("berit/lifter.yaml", "name: Berit\n")
        .file("berit/a.md", PAGE)
        .file("team/runa o/lifter.yaml", "name: Runa <Ö>\n");
    let folder = journal.root().join("pages");
    let everyone = || journal.run(&["report", "--everyone", folder.to_str().unwrap()]);
    let out = everyone();
    let said: Vec<&str> = out.lines().filter_map(|line| line.split(" written, ").next()).collect();
    assert_eq!(
        said,
        ["<journal>/pages/berit.html", "<journal>/pages/team runa o.html", "<journal>/pages/index.html"],
        "{out}"
    );
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let index = read("index.html");
    assert!(index.contains("<a href=\"berit.html\">Berit</a>"), "{index}");
    assert!(index.contains("<a href=\"team%20runa%20o.html\">Runa &lt;Ö&gt;</a>"), "{index}");
    // Each page is the one that `report` makes of that lifter there.
    let path = folder.join("one.html");
    journal.run(&["report", "--lifter", "berit", "--write", path.to_str().unwrap()]);
    assert_eq!(read("berit.html"), read("one.html"));
    // A file of somebody else's in the way: nothing is written, and the others stay as they are.
    fs::write(folder.join("team runa o.html"), "mine").unwrap();
    fs::write(folder.join("berit.html"), index.replace("Berit", "older")).unwrap();
    let out = everyone();
    assert!(
        out.contains("is no report of this program, so nothing was written") && out.ends_with("--- exit 2\n"),
        "{out}"
    );
    assert_eq!((read("team runa o.html").as_str(), read("berit.html").contains("older")), ("mine", true));
}

/// No command line stands on a page, for who reads it has none; and no date is broken at the end of a line.
#[test]
fn a_page_has_no_hints_for_a_command_line_and_no_broken_dates() {
    for lifter in ["anselm", "nerys"] {
        let report = run::run(&example(), 80, &["report", "--lifter", lifter]);
        let (_, body) = report.split_once("<body>").unwrap();
        assert!(!body.contains("loadline ") && !body.contains(" --"), "{lifter}");
        assert!(body.contains("<span class=\"date\">2026-"), "{lifter}");
    }
}

/// Only a page that is written anew while it is looked at loads itself again.
#[test]
fn a_report_is_not_loaded_again_unless_it_is_watched() {
    assert!(!written(&journal(), &[]).contains("http-equiv=\"refresh\""));
    let out = journal().run(&["report", "--watch"]);
    assert!(out.contains("type --write report.html --watch, or --everyone DIR --watch"), "{out}");
}

#[test]
fn the_same_journal_on_the_same_day_makes_the_same_bytes() {
    for arguments in [&["report"][..], &["report", "--roster"], &["report", "--lifter", "nerys"]] {
        let first = run::run(&example(), 80, arguments);
        assert_eq!(first, run::run(&example(), 48, arguments), "whatever the terminal");
        assert!(first.len() > 10_000);
    }
}

#[test]
fn a_block_is_shown_as_it_stood_on_its_last_day() {
    let journal = journal();
    let of_block = written(&journal, &["--block", "1"]);
    let on_its_last_day = written(&journal, &["--on", "2026-11-15"]);
    assert_eq!(of_block, on_its_last_day);
    assert!(of_block.contains("As of Sun 15 Nov 2026") && !of_block.contains("145 kg"));
}

#[test]
fn text_of_a_journal_is_shown_as_text() {
    let report = written(&hostile(), &[]);
    assert!(
        !report.contains("<script") && !report.contains("<img") && !report.contains("<b>") && !report.contains("<u>")
    );
    let escaped = HOSTILE.replace('<', "&lt;").replace('>', "&gt;");
    // In the name of the block, its goal, a plan, a reason, and the lines that are quoted.
    assert!(report.matches(&escaped).count() >= 5, "{}", report.matches(&escaped).count());
    assert!(report.contains("href=\"javascript%3Aalert%288%29.md\""), "no address but one of a file");
    assert!(!report.contains("href=\"javascript:"));
}

#[test]
fn links_lead_from_where_the_report_is_to_the_pages() {
    let journal = journal();
    let beside = written(&journal, &[]);
    assert!(beside.contains("<a href=\"2026%20autumn.md\">2026 autumn.md</a>"));
    assert!(beside.contains(">2026 autumn.md:24</a>"));
    assert!(beside.contains("<code>- Back squat: 3x5 @ 145 kg RPE 8.5</code>"));
    fs::create_dir_all(journal.root().join("out/web")).unwrap();
    let path = journal.root().join("out/web/report.html");
    journal.run(&["report", "--write", path.to_str().unwrap()]);
    assert!(fs::read_to_string(path).unwrap().contains("<a href=\"../../2026%20autumn.md\">"));
    let here = run::run_in(journal.root(), 80, &["report"]);
    assert!(here.contains("<a href=\"2026%20autumn.md\">"));
}

#[test]
fn a_report_takes_the_place_of_a_report_and_of_nothing_else_unless_asked() {
    let journal = journal();
    let path = journal.root().join("mine.html");
    let write = |more: &[&str]| journal.run(&[&["report", "--write", path.to_str().unwrap()], more].concat());
    let mine = "<!DOCTYPE html><title>my own page</title>";
    fs::write(&path, mine).unwrap();
    let refused = write(&[]);
    assert!(refused.contains("is no report of this program, so nothing was written; with --replace"), "{refused}");
    assert!(refused.ends_with("--- exit 2\n"), "{refused}");
    assert_eq!(fs::read_to_string(&path).unwrap(), mine);
    assert!(write(&["--replace"]).contains("written anew"));
    let first = fs::read_to_string(&path).unwrap();
    assert!(write(&["--on", "2026-11-18"]).contains("written anew"));
    assert_ne!(fs::read_to_string(&path).unwrap(), first);
    let names = fs::read_dir(journal.root()).unwrap().count();
    assert_eq!(names, 4, "nothing is left beside it");
}

#[test]
fn a_page_of_the_journal_is_never_written_over() {
    let journal = journal();
    let page = journal.root().join("2026 autumn.md");
    let out = journal.run(&["report", "--replace", "--write", page.to_str().unwrap()]);
    assert!(out.contains("it must end in .html") && out.ends_with("--- exit 2\n"), "{out}");
    assert_eq!(fs::read_to_string(page).unwrap(), PAGE);
}

#[test]
fn what_cannot_be_made_is_said_in_one_line() {
    let journal = journal();
    for (arguments, said) in [
        (&["report", "--format", "json"][..], "a report is a page to look at and has no JSON"),
        (&["report", "--block", "7"], "no block is called `7`"),
        (&["report", "--write", "/nowhere/at all/report.html"], "there is no folder /nowhere/at all"),
    ] {
        let out = journal.run(arguments);
        assert!(out.contains(said) && out.ends_with("--- exit 2\n"), "{out}");
        assert_eq!(out.lines().count(), 3, "{out}");
    }
}

#[test]
fn what_counts_nowhere_is_said_on_standard_error() {
    let journal = Journal::new().page("## 2026-03-05\n\n- Front squat: 245x10 @\n- Dip: 5\n");
    let out = journal.run(&["report"]);
    assert!(out.contains("--- stderr\nloadline: 1 line has an error and counts nowhere"), "{out}");
}
