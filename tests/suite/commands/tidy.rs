//! `tidy`: what it shows, what it writes and what it will not, and its exit status.

use crate::support::journal::Journal;
use crate::support::run;
use std::fs;
use std::path::Path;
use std::time::SystemTime;

const UNTIDY: &str =
    "## 2026-03-05\n\n* Front squat: 3 x 8@120kg rpe6\u{a0}\n- Bench press: 3x8 @ 60 kg\n- Deadlift: 3x5 @ heavy\n";
const TIDY: &str =
    "## 2026-03-05\n\n- Front squat: 3x8 @ 120 kg RPE 6\n- Bench press: 3x8 @ 60 kg\n- Deadlift: 3x5 @ heavy\n";

const DIFFERENCE: &str = "\
--- page.md
+++ page.md
@@ -1,5 +1,5 @@
 ## 2026-03-05

-* Front squat: 3 x 8@120kg rpe6\\u{a0}
+- Front squat: 3x8 @ 120 kg RPE 6
 - Bench press: 3x8 @ 60 kg
 - Deadlift: 3x5 @ heavy

";

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap()
}

fn written_at(path: &Path) -> SystemTime {
    fs::metadata(path).unwrap().modified().unwrap()
}

/// Puts a file's time of writing back, so that a second writing shows.
fn age(path: &Path) -> SystemTime {
    let then = SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(1_000_000_000);
    fs::File::options().write(true).open(path).unwrap().set_modified(then).unwrap();
    then
}

#[test]
fn it_shows_the_difference_and_writes_nothing() {
    let journal = Journal::new().page(UNTIDY).file("b.md", TIDY.replace("-03-05", "-03-06"));
    let page = journal.root().join("page.md");
    let then = age(&page);
    assert_eq!(
        journal.run(&["tidy"]),
        format!(
            "{DIFFERENCE}1 of 2 pages would change; --write writes it\n2 lines have errors and stay as they are; see `loadline check`\n"
        )
    );
    assert_eq!((read(&page).as_str(), written_at(&page)), (UNTIDY, then));
}

#[test]
fn colour_repeats_what_the_signs_say() {
    let journal = Journal::new().page("## 2026-03-05\n- Dip: 8.\n");
    assert_eq!(
        journal.run(&["tidy", "--color", "always"]),
        "\u{1b}[1m--- page.md\u{1b}[0m\n\u{1b}[1m+++ page.md\u{1b}[0m\n\u{1b}[2m@@ -1,2 +1,2 @@\u{1b}[0m\n ## 2026-03-05\n\u{1b}[35m-- Dip: 8.\u{1b}[0m\n\u{1b}[1m\u{1b}[32m+- Dip: 8\u{1b}[0m\n\n\u{1b}[33m1 of 1 page would change; --write writes it\u{1b}[0m\n"
    );
}

#[test]
fn it_writes_only_pages_that_change() {
    let journal = Journal::new().page(UNTIDY).file("b.md", TIDY.replace("-03-05", "-03-06"));
    let (page, other) = (journal.root().join("page.md"), journal.root().join("b.md"));
    let then = age(&other);
    let summary = "1 of 2 pages written\n2 lines have errors and stay as they are; see `loadline check`\n";
    assert_eq!(journal.run(&["tidy", "--write"]), format!("{DIFFERENCE}{summary}"));
    assert_eq!((read(&page).as_str(), written_at(&other)), (TIDY, then));
    let then = age(&page);
    let summary = "nothing to tidy: 2 pages read\n2 lines have errors and stay as they are; see `loadline check`\n";
    assert_eq!(journal.run(&["tidy", "--write"]), summary);
    assert_eq!(written_at(&page), then);
    // Nothing is left beside the pages.
    assert_eq!(fs::read_dir(journal.root()).unwrap().count(), 3);
}

#[test]
fn a_hook_learns_which_pages_are_not_tidy() {
    let journal = Journal::new().page(UNTIDY).file("a/b.md", UNTIDY).file("c.md", TIDY);
    assert_eq!(journal.run(&["tidy", "--check"]), "a/b.md\npage.md\n2 of 3 pages would change\n--- exit 1\n");
    assert_eq!(journal.run(&["tidy", "--check", "c.md"]), "nothing to tidy: 1 page read\n");
    assert_eq!(read(&journal.root().join("page.md")), UNTIDY);
    let both = journal.run(&["tidy", "--check", "--write"]);
    assert!(both.contains("--check and --write do not go together") && both.ends_with("--- exit 2\n"), "{both}");
}

#[test]
fn fixes_come_first_on_demand() {
    let journal = Journal::new().page("## 2026-03-05\n\n- Front squat: 3x8 @ 80 kg RPE 9-8\n");
    assert_eq!(
        journal.run(&["tidy"]),
        "nothing to tidy: 1 page read\n1 line has an error and stays as it is; see `loadline check`\n"
    );
    assert_eq!(journal.run(&["tidy", "--fix", "--check"]), "page.md\n1 of 1 page would change\n--- exit 1\n");
    assert_eq!(
        journal.run(&["tidy", "--fix", "--write"]),
        "\
--- page.md
+++ page.md
@@ -1,3 +1,3 @@
 ## 2026-03-05

-- Front squat: 3x8 @ 80 kg RPE 9-8
+- Front squat: 3x8 @ 80 kg RPE 8-9

1 of 1 page written
"
    );
    assert_eq!(journal.run(&["check"]), "1 session: 1 work line   every line is understood\n");
}

#[test]
fn pages_may_be_named() {
    let journal = Journal::new().page(UNTIDY).file("a/b.md", UNTIDY).file("a/c.md", UNTIDY).file("README.md", "");
    let named = |paths: &[&str]| journal.run(&[&["tidy", "--check"], paths].concat());
    assert_eq!(named(&["a/c.md"]), "a/c.md\n1 of 1 page would change\n--- exit 1\n");
    assert_eq!(named(&["a", "a/b.md"]), "a/b.md\na/c.md\n2 of 2 pages would change\n--- exit 1\n");
    let whole = journal.root().join("page.md");
    assert_eq!(named(&[whole.to_str().unwrap()]), "page.md\n1 of 1 page would change\n--- exit 1\n");
    // As the shell names it, from inside the journal.
    let inside = run::run_in(&journal.root().join("a"), 80, &["tidy", "--check", "b.md"]);
    assert_eq!(inside, "a/b.md\n1 of 1 page would change\n--- exit 1\n");
    assert_eq!(
        named(&["README.md"]),
        "--- stderr\nloadline: README.md isn't a page of this journal, and holds none\n--- exit 2\n"
    );
    assert_eq!(named(&["winter.md"]), "--- stderr\nloadline: there is no page winter.md\n--- exit 2\n");
}

/// A page's name is often typed without its folder, or with a slip of the finger.
#[test]
fn a_page_that_is_none_gets_the_nearest() {
    let journal = Journal::new().file("nerys/5 winter/week 1.md", UNTIDY).file("block 6.md", UNTIDY);
    let journal = journal.file("nerys/4 fives/week 1.md", UNTIDY);
    let said = |path: &str| journal.run(&["tidy", path]);
    let meant = |path: &str, near: &str| {
        format!("--- stderr\nloadline: there is no page {path}; did you mean {near}?\n--- exit 2\n")
    };
    assert_eq!(said("blok 6.md"), meant("blok 6.md", "block 6.md"));
    assert_eq!(
        said("nerys/5 wintr/week 1.md"),
        meant("nerys/5 wintr/week 1.md", "nerys/5 winter/week 1.md or nerys/4 fives/week 1.md")
    );
    assert_eq!(said("week 1.md"), meant("week 1.md", "nerys/4 fives/week 1.md or nerys/5 winter/week 1.md"));
    assert_eq!(said("neris/"), meant("neris/", "nerys"));
    assert_eq!(said("zzzz.md"), "--- stderr\nloadline: there is no page zzzz.md\n--- exit 2\n");
}

#[test]
fn pages_of_one_lifter_or_of_all() {
    let journal = Journal::new()
        .file("ilse/lifter.yaml", "lifts:\n  - { name: Rope Drag, family: carry }\n")
        .file("ilse/a.md", "## 2026-03-05\n- rope drag: 1x40m\n")
        .file("tarek/lifter.yaml", "")
        .file("tarek/a.md", "## 2026-03-05\n- rope drag: 1x40m.\n");
    assert_eq!(journal.run(&["tidy", "--check"]), "ilse/a.md\ntarek/a.md\n2 of 2 pages would change\n--- exit 1\n");
    let one = journal.run(&["tidy", "--check", "--lifter", "tarek"]);
    assert_eq!(one, "tarek/a.md\n1 of 1 page would change\n--- exit 1\n");
    let other = journal.run(&["tidy", "--lifter", "tarek", "ilse/a.md"]);
    assert_eq!(
        other,
        "--- stderr\nloadline: ilse/a.md was not read: it is another lifter's or nobody's, or cannot be opened; `loadline check` says which\n--- exit 2\n"
    );
    journal.run(&["tidy", "--write"]);
    // Each lifter's own settings spell the lift.
    assert_eq!(read(&journal.root().join("ilse/a.md")), "## 2026-03-05\n- Rope Drag: 1x40m\n");
    assert_eq!(read(&journal.root().join("tarek/a.md")), "## 2026-03-05\n- rope drag: 1x40m\n");
}

#[test]
fn as_json_the_edits_are_places_in_the_page_as_it_was() {
    let journal = Journal::new().page("\u{feff}## 2026-03-05,\n\n* Dip: 8 (é 💪) @5kg\n").file("b.md", TIDY);
    let answer = journal.json(&["tidy"]);
    let edits = serde_json::json!([
        { "line": 1, "column": 14, "end_column": 15, "text": "" },
        { "line": 3, "column": 1, "end_column": 20, "text": "- Dip: 8 @ 5 kg (é 💪)" },
    ]);
    let pages = serde_json::json!([
        { "page": "b.md", "changed": false, "edits": [] },
        { "page": "page.md", "changed": true, "edits": edits },
    ]);
    assert_eq!((&answer["pages"], &answer["written"]), (&pages, &serde_json::json!(false)));
    assert_eq!(journal.json(&["tidy", "--write"])["written"], true);
    assert_eq!(read(&journal.root().join("page.md")), "\u{feff}## 2026-03-05\n\n- Dip: 8 @ 5 kg (é 💪)\n");
}

#[cfg(unix)]
mod on_disk {
    use super::*;
    use assert_cmd::cargo::cargo_bin;
    use loadline::journal::{NotSaved, save};
    use std::io::ErrorKind;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown, symlink};
    use std::os::unix::process::CommandExt;
    use std::process::Command;
    use std::thread;
    use std::time::Duration;

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o7777
    }

    fn set_mode(path: &Path, mode: u32) {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    }

    #[test]
    fn permissions_and_owner_stay() {
        for kept in [0o640, 0o600, 0o664] {
            let journal = Journal::new().page(UNTIDY);
            let page = journal.root().join("page.md");
            // Only the administrator may give a page away; everybody else keeps it.
            let _ = chown(&page, Some(65534), Some(65534));
            set_mode(&page, kept);
            let owner = || fs::metadata(&page).map(|known| (known.uid(), known.gid())).unwrap();
            let before = owner();
            journal.run(&["tidy", "--write"]);
            assert_eq!((read(&page).as_str(), mode(&page), owner()), (TIDY, kept, before));
        }
    }

    #[test]
    fn a_link_stays_and_what_it_leads_to_is_written() {
        let elsewhere = tempfile::tempdir().unwrap();
        let real = elsewhere.path().join("real.md");
        fs::write(&real, UNTIDY).unwrap();
        let journal = Journal::new();
        let page = journal.root().join("page.md");
        symlink(&real, &page).unwrap();
        assert!(journal.run(&["tidy", "--write", "page.md"]).contains("1 of 1 page written"));
        assert!(fs::symlink_metadata(&page).unwrap().is_symlink());
        assert_eq!(read(&real), TIDY);
    }

    #[test]
    fn a_page_that_changed_meanwhile_is_not_written() {
        let folder = tempfile::tempdir().unwrap();
        let page = folder.path().join("page.md");
        fs::write(&page, "typed meanwhile\n").unwrap();
        let refused = save(&page, UNTIDY.as_bytes(), TIDY.as_bytes());
        assert!(matches!(refused, Err(NotSaved::Changed)), "{refused:?}");
        assert_eq!(read(&page), "typed meanwhile\n");
        fs::remove_file(&page).unwrap();
        let refused = save(&page, UNTIDY.as_bytes(), TIDY.as_bytes());
        assert!(matches!(refused, Err(NotSaved::System(_))), "{refused:?}");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn a_read_only_page_is_not_written_and_the_others_are() {
        let journal = Journal::new().page(&UNTIDY.replace("-03-05", "-03-06")).file("b.md", UNTIDY);
        let (page, other) = (journal.root().join("page.md"), journal.root().join("b.md"));
        set_mode(&page, 0o444);
        assert_eq!(
            journal.run(&["tidy", "--write"]),
            format!(
                "{}1 of 2 pages written\n2 lines have errors and stay as they are; see `loadline check`\n--- stderr\nloadline: page.md was not written: it is read-only\n--- exit 2\n",
                DIFFERENCE.replace("page.md", "b.md")
            )
        );
        let untouched = UNTIDY.replace("-03-05", "-03-06");
        assert_eq!((read(&page).as_str(), read(&other).as_str()), (untouched.as_str(), TIDY));
        let answer = journal.json(&["tidy", "--write"]);
        assert_eq!((&answer["written"], &answer["pages"][1]["changed"]), (&false.into(), &true.into()));
    }

    /// Whoever may write everywhere sees no read-only folder, so the program runs as somebody who may not.
    #[test]
    fn a_read_only_folder_leaves_the_page_whole() {
        let journal = Journal::new().page(UNTIDY);
        let programs = tempfile::tempdir().unwrap();
        let program = programs.path().join("loadline");
        // Not by this process: what another test starts meanwhile would hold the copy open, and no open file can be run.
        assert!(Command::new("cp").arg(cargo_bin("loadline")).arg(&program).status().unwrap().success());
        set_mode(programs.path(), 0o755);
        set_mode(journal.root(), 0o555);
        let mut command = Command::new(&program);
        command.current_dir("/").env_clear().arg("--journal").arg(journal.root()).args(["tidy", "--write"]);
        if fs::metadata(journal.root()).unwrap().uid() == 0 {
            command.uid(65534);
        }
        // A process that another test starts at this moment holds the copy open for writing until it is on its way.
        let output = loop {
            match command.output() {
                Err(error) if error.kind() == ErrorKind::ExecutableFileBusy => thread::sleep(Duration::from_millis(10)),
                output => break output.unwrap(),
            }
        };
        set_mode(journal.root(), 0o755);
        let told = String::from_utf8(output.stderr).unwrap();
        assert!(told.starts_with("loadline: page.md was not written: Permission denied"), "{told}");
        assert_eq!(told.lines().count(), 1);
        assert_eq!((output.status.code(), output.stdout.as_slice()), (Some(2), b"".as_slice()));
        assert_eq!(read(&journal.root().join("page.md")), UNTIDY);
        assert_eq!(fs::read_dir(journal.root()).unwrap().count(), 2);
    }
}

/// A page that cannot be read is told on standard error, is never tidy, and is not written to.
#[cfg(unix)]
#[test]
fn pages_that_cannot_be_read_are_neither_tidy_nor_written() {
    use std::os::unix::fs::symlink;
    let page = "## 2026-03-05\n\n* Front squat : 3x8@80kg\n";
    let journal = Journal::new().page(page);
    symlink(journal.root().join("nowhere"), journal.root().join("gone.md")).unwrap();
    let told = "loadline: gone.md could not be read, so it was not tidied";
    let checked = journal.run(&["tidy", "--check"]);
    assert!(checked.contains(&format!("{told}\n")) && checked.contains("exit 1"), "{checked}");
    let named = journal.run(&["tidy", "--write", "gone.md"]);
    assert!(named.contains("gone.md cannot be read, and nothing was written"), "{named}");
    assert!(named.contains("exit 2"), "{named}");
    assert_eq!(fs::read_to_string(journal.root().join("page.md")).unwrap(), page);
    let written = journal.run(&["tidy", "--write"]);
    assert!(written.contains(&format!("{told}; nothing was written to it\n")), "{written}");
    assert!(written.contains("exit 2"), "{written}");
    assert!(fs::symlink_metadata(journal.root().join("gone.md")).unwrap().is_symlink());
    assert!(fs::read_to_string(journal.root().join("page.md")).unwrap().contains("- Front squat: 3x8 @ 80 kg"));
    // A draft is not written there either, and all that is answered says what it lacks.
    let draft = journal.run(&["--on", "2026-03-06", "draft", "week", "--write", "gone.md"]);
    assert!(draft.contains("gone.md cannot be read") && draft.contains("exit 2"), "{draft}");
    assert!(journal.run(&["check"]).contains("unreadable-page"));
    assert!(journal.run(&["best", "Front squat"]).contains("1 page could not be read (gone.md)"));
}
