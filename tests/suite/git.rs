//! A journal in git: docs/git.md is done line by line in a repository, and what a range of commits changed is told right.

use crate::support::journal::Journal;
use crate::support::page_suite::{Block, sections};
use crate::support::repository::Repository;
use crate::support::snapshot;
use std::fs;
use std::path::Path;

const WEEKS: [&str; 3] = [
    "# Block 1\n\n- starts: 2026-03-02\n- weeks: 4\n\n## 2026-03-02 heavier day\n\n- Back squat: 3x5 @ 100 kg RPE 7\n  - plan: 3x5 @ 100 kg \
     RPE 6-7\n- Bench press: 3x5 @ 70 kg RPE 7\n",
    "\n## 2026-03-09 heavier day\n\n- Back squat: 3x5 @ 102.5 kg RPE 7.5\n  - plan: 3x5 @ 102.5 kg RPE 7\n- Bench press: 3x5 @ 72.5 kg RPE 8\n",
    "\n## 2026-03-16 heavier day\n\n- Back squat: 3x5 @ 105 kg RPE 8\n  - plan: 3x5 @ 105 kg RPE 7-8\n- Bench press: 3x5 @ 72.5 kg RPE 7.5\n",
];

const PAGE: &str = "march.md";

/// Three weeks on one page, a commit each.
fn three_weeks() -> Repository {
    let repository = Repository::new();
    for weeks in 1..=WEEKS.len() {
        repository.write(PAGE, &WEEKS[..weeks].concat());
        repository.commit(&format!("Week {weeks}"));
    }
    repository
}

fn page(repository: &Repository) -> String {
    fs::read_to_string(repository.root().join(PAGE)).unwrap()
}

/// Adds lines at the page's end.
fn add(repository: &Repository, lines: &str) {
    repository.write(PAGE, &(page(repository) + lines));
}

/// Puts one text in the place of another.
fn put(repository: &Repository, text: &str, other: &str) {
    assert!(page(repository).contains(text), "{text}");
    repository.write(PAGE, &page(repository).replace(text, other));
}

/// Another branch whose page has these lines more, or this branch's if it has the same name.
fn branch(repository: &Repository, name: &str, lines: &str) {
    repository.sh(&format!("git checkout --quiet -b {name}"));
    add(repository, lines);
    repository.commit(name);
    repository.sh("git checkout --quiet main");
}

fn doc() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/git.md")).unwrap()
}

fn blocks(section: &str) -> Vec<Block> {
    let found = sections(&doc()).into_iter().find(|one| one.name == section);
    found.unwrap_or_else(|| panic!("docs/git.md has no section {section}")).blocks
}

/// Does what the section shows, and holds each screen to what the shell says.
fn follow(repository: &Repository, section: &str) {
    let mut wrong = String::new();
    for block in blocks(section) {
        match block.info.as_str() {
            "gitattributes" => repository.write(".gitattributes", &block.text),
            "sh" if block.text.starts_with("#!") => {
                repository.write(".git/hooks/pre-commit", &block.text);
                repository.sh("chmod +x .git/hooks/pre-commit");
            }
            "sh" => drop(repository.sh(&block.text)),
            "console" => {
                for part in block.text[2..].split("\n$ ") {
                    let (command, known) = part.split_once('\n').unwrap_or((part, ""));
                    // Between two commands the line's end was split off.
                    let known =
                        if known.is_empty() || known.ends_with('\n') { known.into() } else { format!("{known}\n") };
                    let (out, status) = repository.try_sh(command);
                    if command.starts_with("git merge ") {
                        // Git's own words differ from version to version.
                        let stops = i32::from(known.contains("CONFLICT"));
                        assert!(status == stops && (stops == 1 || known.is_empty()), "{command}\n{out}");
                        continue;
                    }
                    if known != out {
                        wrong += &format!(
                            "{command}
{}",
                            snapshot::difference(&known, &out)
                        );
                    }
                }
            }
            other => panic!("docs/git.md: a block of {other}"),
        }
    }
    assert!(wrong.is_empty(), "docs/git.md: {section}\n{wrong}");
}

/// Three weeks in a repository that is set up as docs/git.md says, but for the hook.
fn set_up() -> Repository {
    let repository = three_weeks();
    follow(&repository, "Once in a journal");
    repository.commit("Set up");
    repository
}

const SECONDARY: &str = "\n## 2026-03-19 technique day\n\n- Front squat: 3x8 @ 80 kg RPE 6\n";

#[test]
fn differences_read_as_training() {
    let repository = set_up();
    put(&repository, "105 kg RPE 8\n", "105 kg RPE 8,8.5,9 !depth(3)\n");
    add(&repository, SECONDARY);
    follow(&repository, "Differences that read as training");
    repository.commit("Week 3 mended");
    let log = repository.sh("git log -p -1 --format=%s");
    let diff = "\
-2026-03-16  heavier day  Back squat  2  5 @ 105 kg RPE 8
-2026-03-16  heavier day  Back squat  3  5 @ 105 kg RPE 8
+2026-03-16  heavier day  Back squat  2  5 @ 105 kg RPE 8.5
+2026-03-16  heavier day  Back squat  3  5 @ 105 kg RPE 9 !depth
+2026-03-19  technique day  session
+2026-03-19  technique day  Front squat  1  8 @ 80 kg RPE 6
+2026-03-19  technique day  Front squat  2  8 @ 80 kg RPE 6
+2026-03-19  technique day  Front squat  3  8 @ 80 kg RPE 6
";
    let changed: String = log
        .lines()
        .filter(|line| line.starts_with(['+', '-']) && !line.starts_with("+++") && !line.starts_with("---"))
        .map(|line| format!("{line}\n"))
        .collect();
    assert_eq!(changed, diff, "{log}");
}

#[test]
fn another_spelling_and_prose_are_no_difference_and_an_error_is() {
    let repository = set_up();
    put(&repository, "- Back squat: 3x5 @ 105 kg RPE 8", "Warm today.\n\n* back-squats : 5,5,5@105kg rpe 8");
    let out = repository.sh("git diff");
    assert!(out.is_empty() || !out.contains("@@"), "{out}");
    put(&repository, "5,5,5@105kg", "0x5@105kg");
    let out = repository.sh("git diff");
    assert!(out.contains("\n+2026-03-16  heavier day  unread  * back-squats : 0x5@105kg rpe 8\n"), "{out}");
}

/// The page of docs/git.md on three other machines, and changed here.
fn four_machines() -> Repository {
    let repository = set_up();
    branch(&repository, "phone", "\n## 2026-03-20 pull day\n\n- Deadlift: 3x5 @ 140 kg RPE 7\n");
    branch(&repository, "tablet", "\n## 2026-03-21 extra day\n\n- Dip: 3x8 RPE 7\n- Deadlift: 3x5 @ 140 kg RPE 7\n");
    repository.sh("git checkout --quiet -b laptop");
    put(&repository, "105 kg RPE 8\n", "105 kg RPE 9\n");
    repository.commit("laptop");
    repository.sh("git checkout --quiet main");
    put(&repository, "105 kg RPE 8\n", "105 kg RPE 8.5\n");
    add(&repository, SECONDARY);
    repository.commit("Technique day");
    repository
}

#[test]
fn branches_may_add_to_one_page_and_a_merge_by_union_loses_lines() {
    let repository = four_machines();
    follow(&repository, "Two machines, one page");
    let merged = page(&repository);
    for day in ["## 2026-03-19 technique day\n", "## 2026-03-20 pull day\n", "## 2026-03-21 extra day\n"] {
        assert_eq!(merged.matches(day).count(), 1, "{merged}");
    }
    assert_eq!(merged.matches("- Deadlift").count(), 1, "by union: {merged}");
    let checked = repository.run(&["check"]);
    assert!(checked.contains("every line is understood"), "{checked}");
}

#[test]
fn branches_merge_to_the_same_training_in_any_order() {
    let orders = [["phone", "tablet"], ["tablet", "phone"]].map(|order| {
        let repository = four_machines();
        for branch in order {
            repository.sh(&format!("git merge --quiet {branch}"));
        }
        assert_eq!(page(&repository).matches("- Deadlift").count(), 2, "{}", page(&repository));
        repository.run(&["flatten", PAGE])
    });
    assert_eq!(orders[0], orders[1]);
}

#[test]
fn a_rebase_merges_by_session_too() {
    let repository = four_machines();
    repository.sh("git checkout --quiet tablet && git rebase --quiet phone");
    assert_eq!(page(&repository).matches("- Deadlift").count(), 2, "{}", page(&repository));
    assert_eq!(repository.sh("git status --porcelain"), "");
}

/// As docs/git.md says of union.
#[test]
fn a_line_that_both_changed_stays_twice_and_a_key_is_found_twice() {
    let repository = set_up();
    repository.write(".git/info/attributes", "*.md merge=union\n");
    repository.sh("git checkout --quiet -b phone");
    put(&repository, "- weeks: 4", "- weeks: 5");
    put(&repository, "105 kg RPE 8", "105 kg RPE 8.5");
    repository.commit("phone");
    repository.sh("git checkout --quiet main");
    put(&repository, "- weeks: 4", "- weeks: 6");
    put(&repository, "105 kg RPE 8", "105 kg RPE 9");
    repository.commit("here");
    repository.sh("git merge --quiet phone");
    assert_eq!(page(&repository).matches("- Back squat: 3x5 @ 105 kg").count(), 2, "{}", page(&repository));
    let checked = repository.run(&["check"]);
    assert!(checked.contains("error[repeated-block-key]"), "{checked}");
    let changed = repository.run(&["changes", "HEAD^1..HEAD"]);
    assert!(changed.contains("altered 2026-03-16 heavier day"), "{changed}");
}

#[test]
fn the_hook_refuses_a_page_with_an_error_and_one_that_is_not_tidy() {
    let repository = set_up();
    add(&repository, "\n## 2026-03-20 pull day\n\n- Deadlift: 0x5 @ 140 kg\n");
    follow(&repository, "No commit with an error");
    put(&repository, "0x5 @ 140 kg", "3 x 5@140 kg");
    let (out, status) = repository.try_sh("git commit --all --message Pulls");
    assert!(status == 1 && out.contains("march.md\n1 of 1 page would change\n"), "{status} {out}");
    put(&repository, "3 x 5@140 kg", "3x5 @ 140 kg");
    repository.sh("git add --all");
    // What is not part of the commit does not matter.
    put(&repository, "3x5 @ 140 kg", "0x5 @ 140 kg");
    repository.sh("git commit --quiet --message Pulls");
    assert_eq!(repository.sh("git log -1 --format=%s"), "Pulls\n");
}

/// What `changes` says without its first two lines, which differ by the commits' names.
fn told(repository: &Repository, range: &str) -> String {
    let out = repository.run(&["changes", range]);
    out.split_once("\n\n").map_or(out.clone(), |(_, told)| told.to_owned())
}

#[test]
fn a_range_of_commits_is_told_in_sessions_and_records() {
    let repository = three_weeks();
    assert_eq!(
        told(&repository, "HEAD~1..HEAD"),
        "\
added 2026-03-16 heavier day  march.md:18
  + Back squat: 3x5 @ 105 kg RPE 8
  + Bench press: 3x5 @ 72.5 kg RPE 7.5
record set: Back squat, 5 reps: 105 kg on 2026-03-16, before 102.5 kg on
    2026-03-09
"
    );
    let out = repository.run(&["changes", "HEAD~2.."]);
    assert!(out.starts_with("2 sessions added; 2 records set\nfrom HEAD~2 ("), "{out}");
    // The other way round.
    assert_eq!(
        told(&repository, "HEAD..HEAD~1"),
        "\
removed 2026-03-16 heavier day  march.md:18
  - Back squat: 3x5 @ 105 kg RPE 8
  - Bench press: 3x5 @ 72.5 kg RPE 7.5
record taken back: Back squat, 5 reps: 105 kg on 2026-03-16, now 102.5 kg on
    2026-03-09
"
    );
}

#[test]
fn what_was_and_what_is_stand_below_each_other() {
    let repository = three_weeks();
    put(&repository, "3x5 @ 105 kg RPE 8\n", "5,5 @ 105 kg RPE 8, 4 @ 105 kg RPE 9.5 miss 1 !depth\n");
    put(&repository, "plan: 3x5 @ 105 kg RPE 7-8", "plan: 3x5 @ 107.5 kg RPE 8");
    put(
        &repository,
        "## 2026-03-09 heavier day",
        "## 2026-03-09 18:00 heavier day, deload\nbodyweight: 83 kg\npain: left knee 3/10",
    );
    put(&repository, "- Bench press: 3x5 @ 70 kg RPE 7", "- Bench press: skipped (shoulder)\n- Dip: 3x8 RPE 6");
    put(&repository, "- weeks: 4", "- weeks: 4\n- deload: week 4\n- max: Bench press 90 kg");
    assert_eq!(
        told(&repository, "HEAD"),
        "\
altered block 1
  - 2026-03-02 to 2026-03-29
  + 2026-03-02 to 2026-03-29, deload week 4, max Bench press 90 kg
altered 2026-03-02 heavier day  march.md:8
  - Bench press: 3x5 @ 70 kg RPE 7
  + Bench press: skipped (shoulder)
  + Dip: 3x8 @ bw RPE 6
altered 2026-03-09 heavier day  march.md:15
  - 2026-03-09 heavier day
  + 2026-03-09 heavier day, 18:00, deload, bodyweight 83 kg, pain left knee 3/10
altered 2026-03-16 heavier day  march.md:23
  - Back squat: 3x5 @ 105 kg RPE 8
  + Back squat: 2x5 @ 105 kg RPE 8, 1x4 @ 105 kg RPE 9.5 !depth miss 1
  - Back squat plan: 3x5 @ 105 kg RPE 7-8
  + Back squat plan: 3x5 @ 107.5 kg RPE 8
record set: Dip, 8 reps: bw on 2026-03-02, the first
"
    );
}

#[test]
fn a_rename_is_told_once_and_a_note_and_a_reason_for_skipping_are_told() {
    let repository = Repository::new();
    let before = "## 2026-03-02 heavy day\n- Shed press: 3x5 @ 80 kg\n- Back squat: 3x5 @ 100 kg\n\n\
                  ## 2026-03-05\n- Shed press: 3x5 @ 82.5 kg\n";
    repository.write(PAGE, before);
    repository.commit("Two days");
    repository.write(PAGE, &before.replace("Shed", "Net"));
    assert_eq!(told(&repository, "HEAD"), "Net press was Shed press: 2 sessions\n");
    assert_eq!(repository.run(&["changes", "HEAD", "--summary"]), "1 lift renamed\n");
    put(&repository, "Back squat: 3x5 @ 100 kg", "Back squat: skipped (knee)\n  - note: ask about it");
    put(&repository, "## 2026-03-05\n", "## 2026-03-05\n- note: tired\n");
    assert_eq!(
        told(&repository, "HEAD"),
        "\
Net press was Shed press: 2 sessions
altered 2026-03-02 heavy day  march.md:1
  - Back squat: 3x5 @ 100 kg
  + Back squat: skipped (knee)
  + Back squat note: ask about it
altered 2026-03-05  march.md:6
  - 2026-03-05
  + 2026-03-05, note: tired
record taken back: Back squat, 5 reps: 100 kg on 2026-03-02, now none
"
    );
}

#[test]
fn a_record_with_a_fault_is_taken_back() {
    let repository = three_weeks();
    put(&repository, "3x5 @ 105 kg RPE 8", "3x5 @ 105 kg RPE 8 !depth");
    let told = told(&repository, "HEAD");
    assert!(
        told.ends_with(
            "record taken back: Back squat, 5 reps: 105 kg on 2026-03-16, now 102.5 kg on\n    2026-03-09\n"
        ),
        "{told}"
    );
}

/// A percentage says the same letters of another maximum.
#[test]
fn planned_sets_change_with_the_maximum_that_they_are_a_share_of() {
    let repository = three_weeks();
    put(&repository, "- weeks: 4\n", "- weeks: 4\n- max: Deadlift 200 kg\n");
    add(&repository, "\n## 2026-03-23 pull day\n\n- Deadlift:\n  - plan: 3x5 @ 75%\n");
    repository.commit("A plan");
    put(&repository, "Deadlift 200 kg", "Deadlift 210 kg");
    let told = told(&repository, "HEAD");
    let wanted = "  - Deadlift: planned 3x5 @ 75% (150 kg)\n  + Deadlift: planned 3x5 @ 75% (157.5 kg)\n";
    assert!(told.ends_with(wanted), "{told}");
}

#[test]
fn where_and_how_it_is_written_changes_nothing() {
    let repository = three_weeks();
    repository.sh("mkdir 2026 && git mv march.md 2026/march.md");
    let page = fs::read_to_string(repository.root().join("2026/march.md")).unwrap();
    let (first, rest) = page.split_at(page.find("\n## 2026-03-09").unwrap());
    repository
        .write("2026/march.md", &rest.replace("3x5 @ 102.5 kg RPE 7.5", "5,5 @ 102.5 RPE 7.5, 5 @ 102.5 kg RIR 2.5"));
    repository.write("2026/block.md", &(first.to_owned() + "  - cue: chest up\n\nCold.\n"));
    repository.write("notes.txt", "3x5");
    let out = repository.run(&["changes"]);
    assert!(out.starts_with("no change in training\nfrom HEAD ("), "{out}");
    repository.commit("Moved");
    let out = repository.run(&["changes", "HEAD~1..HEAD"]);
    assert!(out.starts_with("no change in training\n"), "{out}");
}

#[test]
fn a_session_of_another_date_is_altered_and_no_other() {
    let repository = three_weeks();
    put(&repository, "## 2026-03-16", "## 2026-03-17");
    let told = told(&repository, "HEAD");
    let wanted =
        "altered 2026-03-17 heavier day  march.md:18\n  - 2026-03-16 heavier day\n  + 2026-03-17 heavier day\n";
    assert_eq!(told, wanted);
}

#[test]
fn lifters_are_told_apart_and_one_may_come_or_go() {
    let repository = Repository::new();
    repository.write("ilse/lifter.yaml", "name: Ilse\n");
    repository.write("ilse/a.md", "## 2026-03-02\n\n- Dip: 3x8\n");
    repository.commit("Ilse");
    repository.sh("git mv ilse elsewhere");
    repository.write("tarek/lifter.yaml", "name: Tarek\n");
    repository.write("tarek/a.md", "## 2026-03-02\n\n- Plank: 30s\n");
    repository.write(".gitignore", "ignored.md\n");
    repository.write("tarek/ignored.md", "## 2026-03-04\n\n- Plank: 30s\n");
    let wanted = "Tarek\nadded 2026-03-02  tarek/a.md:1\n  + Plank: 1x30s @ bw\n";
    assert_eq!(told(&repository, "HEAD"), wanted);
    let out = repository.run(&["changes", "--lifter", "ilse"]);
    assert!(out.starts_with("no change in training\n"), "{out}");
    let out = repository.run(&["changes", "--lifter", "nobody"]);
    assert_eq!(out, "--- stderr\nloadline: no lifter is called `nobody`, neither before nor after\n--- exit 2\n");
}

#[test]
fn three_dots_begin_at_the_common_ancestor() {
    let repository = three_weeks();
    branch(&repository, "phone", "\n## 2026-03-20 pull day\n\n- Deadlift: 3x5 @ 140 kg\n");
    add(&repository, SECONDARY);
    repository.commit("Technique day");
    let out = repository.run(&["changes", "main...phone"]);
    assert!(out.starts_with("1 session added; 1 record set\n") && out.contains("added 2026-03-20"), "{out}");
    let out = repository.run(&["changes", "main..phone"]);
    assert!(out.starts_with("1 session added, 1 removed; 1 record set, 1 taken back\n"), "{out}");
}

/// A journal that is a folder of a larger repository, asked from inside a lifter's folder.
#[test]
fn a_journal_may_be_a_folder_of_the_repository() {
    let repository = Repository::of_the_example();
    let journal = repository.journal();
    let out = crate::support::run::run(&journal, 80, &["changes", "HEAD~1"]);
    let wanted = "added 2026-11-28 pull day  nerys/5 winter/week 4.md:";
    assert!(out.starts_with("1 session added\n") && out.contains(wanted), "{out}");
    let before = crate::support::run::run(&journal, 80, &["changes", "4b825dc642cb6eb9a060e54bf8d69288fbee4904"]);
    assert!(before.contains("git knows no commit"), "a tree is no commit: {before}");
}

#[test]
fn a_commit_from_before_the_journal_has_none_of_its_training() {
    let repository = Repository::new();
    fs::remove_file(repository.root().join("journal.yaml")).unwrap();
    repository.write("readme.txt", "");
    repository.commit("Begin");
    repository.write("journal.yaml", "");
    repository.write("a.md", "## 2026-03-02\n\n- Dip: 3x8\n- Dip: 245x10\n");
    let out = repository.run(&["changes"]);
    assert!(out.starts_with("1 session added; 1 record set\n"), "{out}");
    assert!(out.contains("there is no journal in this folder in HEAD ("), "{out}");
    assert!(out.ends_with("--- stderr\nloadline: 1 line of the work tree has an error and counts nowhere\n"), "{out}");
}

#[test]
fn what_git_cannot_answer_is_said_with_what_to_do() {
    let alone = Journal::new();
    let out = alone.run(&["changes"]);
    assert!(
        out.starts_with("--- stderr\nloadline: <journal> is in no git repository; `git init` there begins one\n"),
        "{out}"
    );

    let empty = Repository::new();
    let nothing =
        "--- stderr\nloadline: there is no commit yet; `git add .` and `git commit` make the first\n--- exit 2\n";
    assert_eq!(empty.run(&["changes"]), nothing);

    let repository = three_weeks();
    for (range, words) in [
        ("nope", "git knows no commit `nope`; `git log --oneline` and `git tag` list those there are"),
        ("HEAD..nope", "git knows no commit `nope`; `git log --oneline` and `git tag` list those there are"),
        ("HEAD..--output=x", "`--output=x` is no revision: none begins with a dash"),
        ("", "git knows no commit ``; `git log --oneline` and `git tag` list those there are"),
    ] {
        assert_eq!(repository.run(&["changes", range]), format!("--- stderr\nloadline: {words}\n--- exit 2\n"));
    }
    let dash = "loadline: `-x` is no revision: none begins with a dash\n".to_owned();
    assert_eq!(repository.try_sh("loadline changes -- -x"), (dash, 2));
    repository.sh("git checkout --quiet --orphan other && git commit --quiet --message Other");
    let out = repository.run(&["changes", "main...other"]);
    assert!(out.contains("have no commit in common; write two dots"), "{out}");

    let elsewhere = tempfile::tempdir().unwrap();
    let bare = elsewhere.path().join("bare.git");
    let bare = bare.to_str().unwrap();
    repository.sh(&format!("git clone --quiet --bare . {bare}"));
    let out = repository.run(&["changes", "--journal", bare]);
    let wanted = "bare.git is a bare repository, without pages to read; clone it and ask there\n--- exit 2\n";
    assert!(out.ends_with(wanted), "{out}");
    let out = repository.run(&["changes", "--journal", "nowhere"]);
    assert!(out.contains("there is no folder nowhere"), "{out}");
    let outside = alone.root().to_str().unwrap();
    let out = repository.run(&["changes", "--journal", outside]);
    assert!(out.contains(" is in no git repository; "), "{out}");

    repository.write(".gitignore", "*\n");
    repository.sh("git rm --quiet --cached -r . && git commit --quiet --message Nothing");
    let out = repository.run(&["changes"]);
    assert!(out.contains("there is no journal here in either state"), "{out}");
}

/// Names of lifts, pages and branches come from anybody.
#[test]
fn hostile_names_are_spelled_out() {
    let repository = three_weeks();
    repository.write("a\u{1b}[31m.md", "## 2026-03-20\n\n- Squat\u{1b}[2J: 3x8 @ 60 kg\n");
    let out = repository.run(&["changes"]);
    assert!(!out.contains('\u{1b}') && out.contains("Squat\\u{1b}[2J") && out.contains("a\\u{1b}[31m.md:1"), "{out}");
    let out = repository.run(&["changes", "x\u{1b}[31m"]);
    assert!(!out.contains('\u{1b}'), "{out}");
}

/// Git may be told to run programs while it reads; none of them runs.
#[test]
fn reading_runs_nothing_and_writes_nothing() {
    let repository = three_weeks();
    add(&repository, SECONDARY);
    repository.write("spy.sh", "#!/bin/sh\ntouch \"$(dirname \"$0\")/was-here\"\ncat\n");
    repository.sh("chmod +x spy.sh && git config core.fsmonitor \"$PWD/spy.sh\" && git config diff.loadline.textconv \"$PWD/spy.sh\"");
    repository
        .sh("git config core.pager \"$PWD/spy.sh\" && echo '*.md diff=loadline' > .gitattributes && rm -f was-here");
    let index = fs::read(repository.root().join(".git/index")).unwrap();
    repository.run(&["changes"]);
    repository.run(&["changes", "HEAD~1..HEAD"]);
    assert!(!repository.root().join("was-here").exists());
    assert_eq!(fs::read(repository.root().join(".git/index")).unwrap(), index);
}
