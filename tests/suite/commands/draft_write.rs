//! `draft --write`: a new page, a page that goes on, and pages that are left alone.

use crate::support::journal::Journal;
use std::fs;

const PAGE: &str =
    "# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n\n## 2026-11-02\n\n- Back squat: 3x5 @ 200 kg RPE 7\n";
const DRAFT: &str = "## 2026-11-09\n\n- Back squat:\n  - plan: 3x5 @ 202.5 kg RPE 7-8\n";

fn read(journal: &Journal, path: &str) -> String {
    fs::read_to_string(journal.root().join(path)).unwrap()
}

fn write(journal: &Journal, page: &str) -> String {
    journal.run(&["draft", "week", "--on", "2026-11-03", "--write", page])
}

/// Every file of a journal, hidden ones too.
fn names(journal: &Journal) -> Vec<String> {
    let entries = fs::read_dir(journal.root()).unwrap();
    let mut names: Vec<String> = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn a_new_page_is_made() {
    let journal = Journal::new().page(PAGE);
    let out = write(&journal, "week 2.md");
    assert!(
        out.starts_with(
            "new page week 2.md\n+ ## 2026-11-09\n+\n+ - Back squat:\n+   - plan: 3x5 @ 202.5 kg RPE 7-8\n--- stderr\n"
        ),
        "{out}"
    );
    assert_eq!(read(&journal, "week 2.md"), DRAFT);
    assert_eq!(names(&journal), ["journal.yaml", "page.md", "week 2.md"]);
    assert!(journal.run(&["check", "--on", "2026-11-03"]).contains("every line is understood"));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = |path| fs::metadata(journal.root().join(path)).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode("week 2.md"), mode("page.md"));
    }
}

#[test]
fn a_page_goes_on_in_its_own_line_ends() {
    for (end, last) in [("\n", "\n"), ("\n", ""), ("\n", "\n\n"), ("\r\n", "\r\n"), ("\r\n", ""), ("\r\n", "\r\n\r\n")]
    {
        let text = PAGE.trim_end().replace('\n', end) + last;
        let journal = Journal::new().page(&text);
        let out = write(&journal, "page.md");
        assert!(out.starts_with("at the end of page.md\n+"), "{out}");
        let expected = format!("{PAGE}\n{DRAFT}").replace('\n', end);
        assert_eq!(read(&journal, "page.md"), expected, "{text:?}");
        let json = journal.json(&["draft", "week", "--on", "2026-11-03"]);
        assert_eq!(json["already"][0]["page"], "page.md");
    }
}

#[test]
fn what_was_written_is_said_in_json() {
    let journal = Journal::new().page(PAGE);
    let json = journal.json(&["draft", "week", "--on", "2026-11-03", "--write", "week 2.md"]);
    assert_eq!((&json["written"], &json["page"]), (&"week 2.md".into(), &DRAFT.into()));
}

#[test]
fn days_that_have_a_session_are_left_alone() {
    let journal = Journal::new().page(PAGE);
    write(&journal, "page.md");
    let once = read(&journal, "page.md");
    let out = write(&journal, "page.md");
    assert!(out.contains("2026-11-09 has a session already, page.md:10; nothing was written"), "{out}");
    assert!(out.ends_with("--- exit 2\n"), "{out}");
    assert_eq!(read(&journal, "page.md"), once);
}

#[test]
fn what_is_no_page_of_the_lifters_is_refused() {
    let outside = tempfile::tempdir().unwrap();
    let far = outside.path().join("week.md");
    let journal = Journal::new()
        .file("journal.yaml", "exclude: [ drafts/ ]\n")
        .file("ilse/lifter.yaml", "name: Ilse\n")
        .file("tarek/lifter.yaml", "name: Tarek\n")
        .file("drafts/note.md", "")
        .file("ilse/page.md", PAGE);
    #[cfg(unix)]
    std::os::unix::fs::symlink(outside.path(), journal.root().join("ilse/link")).unwrap();
    let mut cases = vec![
        ("../week.md", "lies outside the journal"),
        (far.to_str().unwrap(), "lies outside the journal"),
        ("ilse/week.txt", "the name of a page ends in .md"),
        ("ilse/.md", "isn't a page of Ilse"),
        ("ilse/README.md", "isn't a page of Ilse"),
        ("ilse/.hidden.md", "isn't a page of Ilse"),
        ("tarek/week.md", "isn't a page of Ilse"),
        ("week.md", "isn't a page of Ilse"),
        ("drafts/week.md", "isn't a page of Ilse"),
        ("ilse/none/week.md", "there is no folder"),
    ];
    if cfg!(unix) {
        cases.push(("ilse/link/week.md", "lies outside the journal"));
    }
    for (path, words) in cases {
        let out = journal.run(&["draft", "week", "--lifter", "ilse", "--on", "2026-11-03", "--write", path]);
        assert!(out.contains(words) && out.ends_with("--- exit 2\n"), "{path}\n{out}");
        assert!(!journal.root().join(path).exists() && !far.exists(), "{path}");
    }
}

#[cfg(unix)]
#[test]
fn a_page_that_may_not_be_written_stays() {
    use std::os::unix::fs::PermissionsExt;
    let journal = Journal::new().page(PAGE);
    fs::set_permissions(journal.root().join("page.md"), fs::Permissions::from_mode(0o444)).unwrap();
    let out = write(&journal, "page.md");
    assert!(out.contains("page.md was not written: it is read-only; nothing was written"), "{out}");
    assert_eq!(read(&journal, "page.md"), PAGE);
    assert_eq!(names(&journal), ["journal.yaml", "page.md"]);
}

/// Nothing says a load for the pin, so there is nothing to fill and nothing to write.
#[test]
fn a_week_that_is_planned_is_not_written_a_second_time() {
    let planned = "## 2026-11-10 day A\n\n- Lat pulldown:\n  - plan: 3x10 RPE 8\n";
    let text = format!(
        "# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n\n## 2026-11-03 day A\n\n- Lat pulldown: 3x10 @ pin 7 RPE 7\n\n{planned}"
    );
    let journal = Journal::new().page(&text);
    for page in [vec![], vec!["week 2.md"]] {
        let out = journal.run(&[vec!["draft", "week", "--on", "2026-11-09", "--write"], page].concat());
        assert_eq!(
            out,
            "--- stderr\nloadline: 2026-11-10 has a session already, page.md:10; nothing was written, for a draft takes the \
             place of nothing\n--- exit 2\n"
        );
    }
    assert_eq!(names(&journal), ["journal.yaml", "page.md"]);
    let json = journal.json(&["draft", "week", "--on", "2026-11-09"]);
    assert_eq!(json["already"][0]["line"], 10);
}

/// Who has moved day A to another day of the week has it already.
#[test]
fn a_session_of_that_label_on_another_day_of_the_week_is_the_same_one() {
    let day = |date: &str, label: &str, plan: &str| format!("\n## {date} {label}\n\n- Back squat:{plan}\n");
    let done = " 3x5 @ 200 kg RPE 7";
    let head = "# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n";
    let first = day("2026-11-03", "day A", done) + &day("2026-11-05", "day B", done);
    let write = |moved: String| {
        let journal = Journal::new().page(&format!("{head}{first}{moved}"));
        journal.run(&["draft", "week", "--week", "2", "--on", "2026-11-09", "--write"])
    };
    let plan = "\n  - plan: 3x5 @ 200 kg";
    let out = write(day("2026-11-11", "Day a", plan));
    assert!(out.contains("2026-11-11 has a session already, page.md:14; nothing was written"), "{out}");
    let another = write(day("2026-11-11", "day C", plan));
    assert!(another.starts_with("new page block 2 week 2.md\n+ ## 2026-11-10 day A\n"), "{another}");
    let later = write(day("2026-11-18", "day A", plan));
    assert!(later.starts_with("new page block 2 week 2.md\n"), "another week's: {later}");
}
