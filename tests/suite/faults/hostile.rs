//! A clone that somebody made to do harm, and files that are none.

use crate::support::journal::Journal;
use crate::support::repository::Repository;
use crate::support::run::run_in;
use std::fs;

const PAGE: &str = "## 2026-11-18\n\n- Back squat: 3x5 @ 100 kg\n";

#[cfg(unix)]
#[test]
fn a_page_whose_name_is_no_text_is_told_and_in_neither_state() {
    use std::os::unix::ffi::OsStrExt;
    let repository = Repository::new();
    repository.write("good.md", PAGE);
    fs::write(repository.root().join(std::ffi::OsStr::from_bytes(b"b\xffd.md")), PAGE.replace("18", "19")).unwrap();
    repository.commit("Both");
    assert!(repository.run(&["check"]).contains("its name is no UTF-8 text"), "{}", repository.run(&["check"]));
    let changes = repository.run(&["changes"]);
    assert!(!changes.contains("removed") && changes.contains("1 page could not be read"), "{changes}");
    let json = repository.run(&["changes", "--format", "json"]);
    assert!(json.contains("\"unread_pages\": [\n    \"b\u{fffd}d.md\"\n  ]"), "{json}");
}

#[test]
fn a_page_in_a_repository_of_its_own_is_told() {
    let repository = Repository::new();
    repository.write("good.md", PAGE);
    repository.write("inner/page.md", &PAGE.replace("18", "19"));
    repository.sh("git init --quiet inner && cd inner && git add --all && git commit --quiet -m Inner");
    repository.commit("Outer");
    for asked in ["HEAD", "HEAD..HEAD"] {
        let changes = repository.run(&["changes", asked]);
        assert!(changes.contains("1 page could not be read (inner)"), "{changes}");
        assert!(!changes.contains("added"), "{changes}");
    }
}

#[test]
fn a_forged_index_leads_to_no_file_outside() {
    let repository = Repository::new();
    repository.write("journal/journal.yaml", "");
    repository.write("journal/zz/page.md", PAGE);
    repository.write("page.md", &PAGE.replace("18", "19"));
    repository.sh("rm journal.yaml && cd journal && git init --quiet && git add --all && git commit --quiet -m Base && git rm --quiet -r \
                   --cached zz && git add zz");
    let index = repository.root().join("journal/.git/index");
    let bytes = fs::read(&index).unwrap();
    let at = bytes.windows(10).position(|name| name == b"zz/page.md").unwrap();
    fs::write(&index, [&bytes[..at], b"../page.md", &bytes[at + 10..]].concat()).unwrap();
    let changes = run_in(&repository.root().join("journal"), 80, &["changes"]);
    assert!(!changes.contains("2026-11-19"), "{changes}");
}

#[test]
fn a_revision_that_is_all_that_is_not_there_is_answered_in_our_words() {
    let repository = Repository::new();
    repository.commit("One");
    let said = repository.run(&["changes", "^HEAD"]);
    assert!(said.contains("git knows no commit `^HEAD`; `git log --oneline`"), "{said}");
}

#[cfg(unix)]
#[test]
fn a_link_in_the_place_of_the_staging_folder_is_not_followed() {
    let journal = Journal::new().page(&PAGE.replace("- Back", "-  Back"));
    let outside = tempfile::tempdir().unwrap();
    fs::create_dir(outside.path().join("unready")).unwrap();
    fs::write(outside.path().join("unready/kept"), "kept").unwrap();
    std::os::unix::fs::symlink(outside.path(), journal.root().join(".loadline")).unwrap();
    let said = journal.run(&["tidy", "--write"]);
    assert!(said.contains(".loadline stands in the way; move it elsewhere"), "{said}");
    assert_eq!(super::tree(outside.path()).into_keys().collect::<Vec<_>>(), ["unready/kept"]);
}

#[cfg(unix)]
#[test]
fn links_to_devices_and_pipes_are_no_pages_and_nothing_waits_for_them() {
    let journal = Journal::new().page(&format!("# Block 1\n- starts: 2026-11-16\n\n{PAGE}"));
    std::os::unix::fs::symlink("/dev/zero", journal.root().join("endless.md")).unwrap();
    std::process::Command::new("mkfifo").arg(journal.root().join("pipe.md")).status().unwrap();
    let said = journal.run(&["check"]);
    assert!(said.contains("endless.md:1:1: error[unreadable-page]") && said.contains("pipe.md:1:1: error"), "{said}");
    assert_eq!(journal.json(&["lifts"])["unread_pages"], serde_json::json!(["endless.md", "pipe.md"]));
    let said = journal.run(&["draft", "week", "--write", "pipe.md"]);
    assert!(said.contains("is no file with text in it"), "{said}");
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_finds_no_room_is_told() {
    let journal = Journal::new().page(PAGE);
    let said = std::process::Command::new(assert_cmd::cargo::cargo_bin!("loadline"))
        .arg("--journal")
        .arg(journal.root())
        .arg("check")
        .stdout(fs::File::options().write(true).open("/dev/full").unwrap())
        .output()
        .unwrap();
    assert_eq!(said.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&said.stderr).contains("could not be written out"), "{said:?}");
}

#[test]
fn a_folder_that_is_gone_does_not_matter_where_the_journal_is_named_wholly() {
    let journal = Journal::new().page(PAGE);
    let program = assert_cmd::cargo::cargo_bin!("loadline");
    let line = format!("mkdir gone && cd gone && rmdir ../gone && '{}' --journal \"$1\" check", program.display());
    let said = std::process::Command::new("sh")
        .args(["-c", &line, "sh"])
        .arg(journal.root())
        .current_dir(journal.root())
        .output()
        .unwrap();
    assert!(String::from_utf8_lossy(&said.stdout).contains("1 session"), "{said:?}");
}

#[test]
fn of_several_pages_one_that_cannot_be_read_is_told() {
    let journal = Journal::new().page(PAGE);
    let pages = [journal.root().join("page.md"), journal.root().join("gone.md")].map(|page| page.display().to_string());
    let answer = journal.json(&["flatten", &pages[0], &pages[1]]);
    assert_eq!(answer["unread_pages"], serde_json::json!([pages[1]]));
    assert!(journal.run(&["flatten", &pages[0], &pages[1]]).contains("100 kg"));
}

#[test]
fn of_a_page_a_thousand_problems_are_shown_and_the_others_counted() {
    let journal =
        Journal::new().page(&format!("## 2026-11-18\n\n{}", "- Back squat: 3x5 @ 100 kg RPE 12\n".repeat(1_500)));
    let answer = journal.json(&["check"]);
    assert_eq!((answer["errors"].clone(), answer["problems"].as_array().map(Vec::len)), (1_500.into(), Some(1_000)));
    assert_eq!(answer["more_problems"], serde_json::json!([{ "page": "page.md", "errors": 500, "warnings": 0 }]));
    assert!(journal.run(&["check"]).contains("page.md: 500 problems more"));
}

#[cfg(target_os = "linux")]
#[test]
fn attributes_of_a_page_stay_where_the_system_keeps_any() {
    let journal = Journal::new().page(&PAGE.replace("- Back", "-  Back"));
    let page = journal.root().join("page.md");
    if xattr::set(&page, "user.comment", b"heavy").is_err() {
        eprintln!("no attributes on this file system: that they stay is not looked at");
        return;
    }
    assert!(journal.run(&["tidy", "--write"]).contains("page.md"));
    assert_eq!(xattr::get(&page, "user.comment").unwrap().as_deref(), Some(&b"heavy"[..]));
}
