//! Two versions of a page made one: each case by hand, and what holds for any two versions of any page: nothing that was
//! trained goes in silence.

use crate::support::generator;
use crate::support::journal::Journal;
use loadline::journal::{Memory, merge_lines, open};
use loadline::meaning::{Merged, merge};
use loadline::source::Page;
use proptest::prelude::*;
use std::collections::BTreeMap;

fn by_lines(base: &[u8], ours: &[u8], theirs: &[u8]) -> Option<Merged> {
    merge_lines(base, ours, theirs).map(|(bytes, settled)| Merged { bytes, settled })
}

fn merged(base: &str, ours: &str, theirs: &str) -> (String, bool) {
    let merged = merge(base.as_bytes(), ours.as_bytes(), theirs.as_bytes(), &by_lines);
    (String::from_utf8(merged.bytes).unwrap(), merged.settled)
}

#[track_caller]
fn settles(base: &str, ours: &str, theirs: &str, wanted: &str) {
    assert_eq!(merged(base, ours, theirs), (wanted.to_owned(), true));
}

#[track_caller]
fn leaves(base: &str, ours: &str, theirs: &str, wanted: &str) {
    assert_eq!(merged(base, ours, theirs), (wanted.to_owned(), false));
    let checked = Journal::new().page(wanted).run(&["check"]);
    assert!(checked.contains("error[merge-marker]"), "{checked}");
}

const BASE: &str = "# Block 1\n\n- starts: 2026-03-02\n- weeks: 4\n\n## 2026-03-02 heavier day\n\n- Back squat: 3x5 @ 100 kg\n- Dip: 3x8\n";

fn with(more: &str) -> String {
    format!("{BASE}{more}")
}

const PULL: &str = "\n## 2026-03-05 pull day\n\n- Deadlift: 3x5 @ 140 kg\n";

#[test]
fn days_that_end_with_the_same_lines_both_stay_whole_in_order_of_dates() {
    let extra = "\n## 2026-03-06 extra day\n\n- Dip: 3x8\n- Deadlift: 3x5 @ 140 kg\n";
    settles(BASE, &with(PULL), &with(extra), &with(&format!("{PULL}{extra}")));
    settles(BASE, &with(extra), &with(PULL), &with(&format!("{PULL}{extra}")));
}

#[test]
fn a_session_goes_in_behind_the_one_that_it_followed() {
    let (first, second) = BASE.split_at(BASE.find("\n## ").unwrap());
    let theirs = format!("{first}\n## 2026-03-09\n\n- Dip: 3x8\n{second}");
    settles(BASE, &with(PULL), &theirs, &format!("{theirs}{PULL}"));
}

#[test]
fn newest_first_stays_newest_first() {
    let day = |day: u32| format!("## 2026-03-0{day}\n\n- Dip: 3x{day}\n");
    let page = |days: &[u32]| days.iter().map(|one| day(*one)).collect::<Vec<_>>().join("\n");
    settles(&page(&[3, 2, 1]), &page(&[5, 3, 2, 1]), &page(&[6, 4, 3, 2, 1]), &page(&[6, 5, 4, 3, 2, 1]));
}

#[test]
fn a_block_goes_before_the_sessions_that_came_with_it() {
    let block = "\n# Block 2\n\n- starts: 2026-03-30\n\n## 2026-03-30\n\n- Dip: 3x8\n";
    settles(BASE, &with(block), &with(PULL), &with(&format!("{PULL}{block}")));
    settles(BASE, &with(PULL), &with(block), &with(&format!("{PULL}{block}")));
    let late = "\n## 2026-04-02\n\n- Plank: 30s\n";
    settles(BASE, &with(block), &with(late), &with(&format!("{block}{late}")));
    settles(BASE, &with(late), &with(block), &with(&format!("{block}{late}")));
}

#[test]
fn what_one_changed_is_taken_and_what_one_took_out_goes() {
    let base = with(PULL);
    let ours = base.replace("3x8", "3x9");
    settles(&base, &ours, &base.replace("140", "145"), &ours.replace("140", "145"));
    settles(&base, BASE, &base.replace("3x8", "3x9"), &BASE.replace("3x8", "3x9"));
    settles(&base, &ours, BASE, &BASE.replace("3x8", "3x9"));
    let weeks = base.replace("weeks: 4", "weeks: 5");
    settles(&base, &ours, &weeks, &ours.replace("weeks: 4", "weeks: 5"));
    let moved = format!("{}{BASE}", &PULL[1..]);
    settles(&base, &base.replace("3x8", "3x9"), &moved, &moved.replace("3x8", "3x9"));
}

#[test]
fn lines_far_apart_in_one_session_go_together() {
    let base = with("- Plank: 30s\n");
    let ours = base.replace("100 kg", "102.5 kg").replace("-02 heavier", "-02 18:00 heavier");
    settles(&base, &ours, &base.replace("30s", "40s"), &ours.replace("30s", "40s"));
}

#[test]
fn a_line_that_both_changed_is_left_to_the_lifter() {
    leaves(
        BASE,
        &BASE.replace("100 kg", "100 kg RPE 7"),
        &BASE.replace("100 kg", "100 kg RPE 8"),
        &BASE.replace(
            "- Back squat: 3x5 @ 100 kg\n",
            "<<<<<<< ours\n- Back squat: 3x5 @ 100 kg RPE 7\n=======\n- Back squat: 3x5 @ 100 kg RPE 8\n>>>>>>> theirs\n",
        ),
    );
}

#[test]
fn a_session_that_one_took_out_and_the_other_changed_is_left_to_the_lifter() {
    let base = with(PULL);
    let (pull, theirs) = (&PULL[1..].replace("140", "145"), base.replace("140", "145"));
    leaves(&base, BASE, &theirs, &with(&format!("\n<<<<<<< ours\n=======\n{pull}>>>>>>> theirs\n")));
    leaves(&base, &theirs, BASE, &with(&format!("\n<<<<<<< ours\n{pull}=======\n>>>>>>> theirs\n")));
}

#[test]
fn a_day_that_was_written_twice_stays_once_where_one_holds_the_other() {
    settles(BASE, &with(PULL), &with(PULL), &with(PULL));
    let further = format!("{PULL}- Dip: 3x8\n  - 8\n");
    settles(BASE, &with(PULL), &with(&further), &with(&further));
    settles(BASE, &with(&further), &with(PULL), &with(&further));
    let before = PULL.replace("- Deadlift", "- Dip: 3x8\n- Deadlift");
    settles(BASE, &with(PULL), &with(&before), &with(&before));
    settles(BASE, &with("\n## 2026-03-05 pull day\n"), &with(PULL), &with(PULL));
}

#[test]
fn a_day_that_was_written_twice_in_two_ways_is_left_whole_to_the_lifter() {
    let two = |ours: &str, theirs: &str| {
        let marked = format!("\n<<<<<<< ours\n{}=======\n{}>>>>>>> theirs\n", &ours[1..], &theirs[1..]);
        leaves(BASE, &with(ours), &with(theirs), &with(&marked));
    };
    two(PULL, &PULL.replace("140", "145"));
    two(PULL, &PULL.replace("pull day", "pull day, tired"));
    // The lines of one are all in the other, but the set is another lift's there.
    let heading = "\n## 2026-03-05 pull day\n\n";
    two(&format!("{heading}- Dip: 8\n  - 7\n"), &format!("{heading}- Dip: 8\n- Chin-up: 8\n  - 7\n"));
    two(&format!("{heading}- Dip: 8\n"), &format!("{heading}```\n- Dip: 8\n```\n"));
    // No set line of another lift is taken for a lift of its own.
    two(&format!("{heading}  - Dip: 8\n"), &format!("{heading}- Rows:\n  - Dip: 8\n"));
}

/// The coach moved the day, the lifter filled it in.
#[test]
fn a_day_that_one_moved_and_the_other_filled_in_is_one_session() {
    let base = with("\n## Thu 2026-03-05 pull day\n\n- Deadlift:\n  - plan: 3x5 @ 140 kg\n- Dip:\n  - plan: 3x8\n");
    let moved = base.replace("Thu 2026-03-05", "Fri 2026-03-06");
    let filled = base.replace("- Deadlift:\n", "- Deadlift: 3x5 @ 140 kg RPE 7\n");
    let both = filled.replace("Thu 2026-03-05", "Fri 2026-03-06");
    settles(&base, &moved, &filled, &both);
    settles(&base, &filled, &moved, &both);
    // Without a blank line below the heading too, where lines beside each other cannot be told apart.
    let tight = |page: &str| page.replace("pull day\n\n", "pull day\n");
    settles(&tight(&base), &tight(&moved), &tight(&filled), &tight(&both));
    // A day was added on the other side meanwhile.
    let more = "\n## 2026-03-09 extra day\n\n- Plank: 30s\n";
    settles(&base, &moved, &format!("{filled}{more}"), &format!("{both}{more}"));
    // Two days for one are left to the lifter.
    assert!(!merged(&base, &moved, &base.replace("Thu 2026-03-05", "Sat 2026-03-07")).1);
}

/// Each day of a plan goes to the day of the next one.
#[test]
fn days_that_were_all_moved_by_a_week_stay_the_ones_they_are() {
    let day = |date: &str, reps: u32| format!("\n## {date} pull day\n\n- Deadlift:\n  - plan: {reps}x5 @ 140 kg\n");
    let base = with(&(day("2026-03-05", 3) + &day("2026-03-12", 4) + &day("2026-03-19", 5)));
    let moved = with(&(day("2026-03-12", 3) + &day("2026-03-19", 4) + &day("2026-03-26", 5)));
    let noted = |page: &str| page.replace("4x5 @ 140 kg\n", "4x5 @ 140 kg\n  - cue: hips\n");
    settles(&base, &moved, &noted(&base), &noted(&moved));
    settles(&base, &noted(&base), &moved, &noted(&moved));
}

#[test]
fn two_sessions_of_one_date_are_two_where_their_headings_differ() {
    let evening = "\n## 2026-03-05 18:00 extra day\n\n- Deadlift: 3x5 @ 140 kg\n";
    settles(BASE, &with(PULL), &with(evening), &with(&format!("{PULL}{evening}")));
    let again = format!("{PULL}{PULL}");
    settles(
        &with(PULL),
        &with(&again),
        &with(PULL).replace("140", "145"),
        &with(&format!("{PULL}{PULL}").replacen("140", "145", 1)),
    );
}

#[test]
fn the_head_of_a_page_is_a_section_too() {
    let page = |head: &str, rest: &str| format!("{head}\n{rest}");
    let base = page("---\nkind: log\n---\n", BASE);
    settles(
        &base,
        &page("---\nkind: log\n---\n\nHeavy.\n", BASE),
        &format!("{base}{PULL}"),
        &page("---\nkind: log\n---\n\nHeavy.\n", &with(PULL)),
    );
    let notes = "\n## Notes\n\nEat.\n";
    settles(BASE, &with(notes), &with(PULL), &with(&format!("{PULL}{notes}")));
}

#[test]
fn a_page_may_begin_on_two_machines() {
    let (one, other) = (&PULL[1..], "## 2026-03-06\n\n- Dip: 3x8\n");
    settles("", one, other, &format!("{one}\n{other}"));
    settles("", other, one, &format!("{one}\n{other}"));
}

#[test]
fn line_ends_and_the_mark_are_those_of_ours() {
    let dos = |text: &str| text.replace('\n', "\r\n");
    let extra = "\n## 2026-03-06 extra day\n\n- Dip: 3x8\n";
    let both = with(&format!("{PULL}{extra}"));
    settles(BASE, &dos(&with(PULL)), &with(extra), &dos(&both));
    settles(BASE, &with(PULL), &dos(&with(extra)), &both);
    settles(&dos(BASE), &format!("\u{feff}{}", dos(&with(PULL))), &with(extra), &format!("\u{feff}{}", dos(&both)));
    settles(BASE, &with(PULL), &format!("\u{feff}{}", with(extra)), &both);
    // One line of ours ends in another way, and stays so.
    let odd = |text: &str| text.replace("weeks: 4\n", "weeks: 4\r\n");
    settles(BASE, &odd(&with(PULL)), &with(extra), &odd(&both));
    // A last line without an end gets one where something follows.
    settles(BASE, with(PULL).trim_end(), &with(extra), both.trim_end());
    settles(BASE.trim_end(), with(PULL).trim_end(), with(extra).trim_end(), both.trim_end());
    settles(&with("\n\n"), &with(PULL), &with(&format!("{extra}\n\n")), &both);
}

/// A fence that is opened in one added day would be closed in the next.
#[test]
fn days_that_would_swallow_each_other_are_left_to_the_lifter() {
    let open = "\n## 2026-03-05\n\n- Dip: 3x8\n```\n";
    let closed = "\n## 2026-03-06\n\n- Deadlift: 5\n\n```\n";
    leaves(
        BASE,
        &with(open),
        &with(closed),
        &format!("<<<<<<< ours\n{}=======\n{}>>>>>>> theirs\n", with(open), with(closed)),
    );
}

/// Lines that go together, but one of which would no longer be what it was.
#[test]
fn lines_that_would_be_read_in_another_way_are_left_to_the_lifter() {
    let base = with("- Plank: 30s\n- Chin-up: 3x8\n\nWarm.\n");
    let ours = base.replace("- Dip", "```\n- Dip");
    let theirs = base.replace("Warm.\n", "Warm.\n```\n");
    let session = |text: &str| text[text.find("## ").unwrap()..].to_owned();
    let head = &BASE[..BASE.find("## ").unwrap()];
    let wanted = format!("{head}<<<<<<< ours\n{}=======\n{}>>>>>>> theirs\n", session(&ours), session(&theirs));
    assert_eq!(merged(&base, &ours, &theirs), (wanted, false));
}

#[test]
fn pages_without_sections_are_merged_as_git_would() {
    let (ours, theirs) = (with("<<<<<<< a\n"), BASE.replace("Block 1", "Block 2"));
    settles(BASE, &ours, &theirs, &ours.replace("Block 1", "Block 2"));
    let bytes = merge(b"\xff\na\nb\nc\n", b"\xff\na\nb\nd\n", b"\xfe\na\nb\nc\n", &by_lines);
    assert_eq!(bytes, Merged { bytes: b"\xfe\na\nb\nd\n".to_vec(), settled: true });
    // Not even git merges these, and neither is there always a git.
    let bytes = merge(b"\0", b"\0a", b"\0b\n", &by_lines);
    let both = b"<<<<<<< ours\n\0a\n=======\n\0b\n>>>>>>> theirs\n".to_vec();
    assert_eq!(bytes, Merged { bytes: both.clone(), settled: false });
    assert_eq!(merge(b"\xff", b"\0a", b"\0b\n", &|_, _, _| None).bytes, both);
}

#[test]
fn without_git_a_session_that_both_changed_stays_twice_between_markers() {
    let (ours, theirs) = (BASE.replace("3x8", "3x9"), BASE.replace("100", "105"));
    let merged = merge(BASE.as_bytes(), ours.as_bytes(), theirs.as_bytes(), &|_, _, _| None);
    let session = |text: &str| text[text.find("## ").unwrap()..].to_owned();
    let head = &BASE[..BASE.find("## ").unwrap()];
    let wanted = format!("{head}<<<<<<< ours\n{}=======\n{}>>>>>>> theirs\n", session(&ours), session(&theirs));
    assert_eq!((String::from_utf8(merged.bytes).unwrap(), merged.settled), (wanted, false));
}

/// The program, as git runs it.
#[test]
fn the_merged_page_is_written_into_ours() {
    let journal = Journal::new().file("base", BASE).file("ours", with(PULL)).file("theirs", BASE.replace("3x8", "3x9"));
    let place = |name: &str| journal.root().join(name).to_str().unwrap().to_owned();
    let read = |name: &str| std::fs::read_to_string(place(name)).unwrap();
    let (base, ours, theirs) = (place("base"), place("ours"), place("theirs"));
    let wanted = with(PULL).replace("3x8", "3x9");
    assert_eq!(journal.run(&["merge", "--print", &base, &ours, &theirs]), wanted);
    assert_eq!(read("ours"), with(PULL));
    assert_eq!(journal.run(&["merge", &base, &ours, &theirs]), "");
    assert_eq!((read("ours"), read("base")), (wanted.clone(), BASE.to_owned()));
    // Without a base, the first session differs for no known reason.
    std::fs::write(place("theirs"), BASE).unwrap();
    assert_eq!(journal.run(&["merge", &place("nowhere"), &ours, &theirs]), "--- exit 1\n");
    assert!(read("ours").contains("<<<<<<< ours\n## 2026-03-02"), "{}", read("ours"));
    let out = journal.run(&["merge", &base, &place("nowhere"), &theirs]);
    assert!(out.contains("nowhere cannot be read") && out.ends_with("--- exit 2\n"), "{out}");
}

/// Nobody knows which bytes a page holds: a pipe gets them as they are. A base that is there and cannot be read is no empty
/// one, for all of ours would look new.
#[test]
fn bytes_that_are_no_text_come_through_and_an_unreadable_base_is_refused() {
    let odd = b"## 2026-03-02\n\n- Dip: 8 (\xff\x1b[31m)\n";
    let journal = Journal::new().file("page", odd);
    let page = journal.root().join("page");
    let merge = |base: &std::path::Path| {
        assert_cmd::cargo::cargo_bin_cmd!("loadline")
            .arg("merge")
            .arg("-p")
            .arg(base)
            .args([&page, &page])
            .output()
            .unwrap()
    };
    assert_eq!(merge(&page).stdout, odd);
    let refused = merge(journal.root());
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("cannot be read"));
}

/// A page in pieces, each from a heading on.
fn pieces(page: &str) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for line in page.split_inclusive('\n') {
        let text = line.trim_start();
        if text.starts_with('#') && !text.starts_with("####") {
            pieces.push(String::new());
        }
        pieces.last_mut().unwrap().push_str(line);
    }
    pieces
}

/// What a lifter does to a page; numbers choose where.
#[derive(Clone, Debug)]
enum Deed {
    TakeOut(usize),
    Add(usize, usize),
    AlterLine(usize, usize, usize),
    TakeLine(usize, usize),
    AddLine(usize, usize),
    Move(usize, usize),
}

/// Days that begin and end alike; some share a heading.
const DAYS: [&str; 7] = [
    "## 2031-03-02 pull day\n\n- Deadlift: 3x5 @ 140 kg\n- Dip: 3x8\n\n",
    "## 2031-03-02 pull day\n\n- Deadlift: 3x5 @ 140 kg\n- Dip: 3x8\n- Plank: 30s\n\n",
    "## 2031-03-02 extra day\n\n- Deadlift: 3x5 @ 140 kg\n- Chin-up: 3x8\n- Dip: 3x8\n\n",
    "## 2031-03-02\n\n- Dip: 8\n  - 7\n  - 6\n\n",
    "## 2031-03-02\n\n- Dip: 8\n- Chin-up: 5\n  - 7\n  - 6\n\n",
    "## 2030-03-04\n\n- Deadlift: 3x5 @ 140 kg\n- Chin-up: 3x8\n- Dip: 3x8\n\n",
    "## Notes\n\nDeadlifts feel heavy.\n\n",
];

const LINES: [&str; 4] = ["- Dip: 3x8\n", "  - 5\n", "- Barbell row: 3x8 @ 60 kg\n", "Slept badly.\n"];

fn deeds(of_lines: bool) -> impl Strategy<Value = Vec<Deed>> {
    let whole = prop_oneof![
        any::<usize>().prop_map(Deed::TakeOut),
        (any::<usize>(), 0..DAYS.len()).prop_map(|(at, day)| Deed::Add(at, day)),
        (any::<usize>(), 0..DAYS.len()).prop_map(|(_, day)| Deed::Add(usize::MAX, day)),
        (any::<usize>(), any::<usize>()).prop_map(|(from, to)| Deed::Move(from, to)),
    ];
    let lines = prop_oneof![
        (any::<usize>(), any::<usize>(), 0..LINES.len()).prop_map(|(at, line, by)| Deed::AlterLine(at, line, by)),
        (any::<usize>(), any::<usize>()).prop_map(|(at, line)| Deed::TakeLine(at, line)),
        (any::<usize>(), 0..LINES.len()).prop_map(|(at, line)| Deed::AddLine(at, line)),
    ];
    prop::collection::vec(if of_lines { prop_oneof![whole, lines].boxed() } else { whole.boxed() }, 0..5)
}

/// A page after these deeds. The head stays; a piece keeps its heading.
fn done(page: &str, deeds: &[Deed]) -> String {
    let mut pieces = pieces(page);
    for deed in deeds {
        let count = pieces.len();
        let one = |at: &usize| 1 + at % (count - 1);
        let lines = |at: usize| pieces[at].split_inclusive('\n').map(str::to_owned).collect::<Vec<_>>();
        if count == 1 && !matches!(deed, Deed::Add(..)) {
            continue;
        }
        match deed {
            Deed::TakeOut(at) => drop(pieces.remove(one(at))),
            Deed::Add(at, day) => {
                pieces.insert(if *at == usize::MAX { count } else { 1 + at % count }, DAYS[*day].into())
            }
            Deed::Move(from, to) => {
                let piece = pieces.remove(one(from));
                pieces.insert(one(to), piece);
            }
            Deed::AlterLine(at, line, by) => {
                let mut all = lines(one(at));
                let line = line % all.len();
                if line > 0 {
                    all[line] = LINES[*by].into();
                }
                pieces[one(at)] = all.concat();
            }
            Deed::TakeLine(at, line) => {
                let mut all = lines(one(at));
                let line = line % all.len();
                if line > 0 {
                    all.remove(line);
                }
                pieces[one(at)] = all.concat();
            }
            Deed::AddLine(at, line) => {
                let place = one(at);
                let filled = pieces[place].trim_end().len();
                let (text, blank) = pieces[place].split_at(filled);
                pieces[place] = format!("{text}\n{}{}", LINES[*line], blank.get(1..).unwrap_or(""));
            }
        }
    }
    pieces.concat()
}

/// A page of a seeded journal, the longest one.
fn page_of(seed: u64) -> String {
    let files = generator::journal(seed).files;
    let pages = files.into_iter().filter(|(path, _)| path.ends_with(".md"));
    let longest = pages.map(|(_, text)| text).max_by_key(String::len).unwrap_or_default();
    longest.trim_start_matches('\u{feff}').replace("\r\n", "\n")
}

/// How often each line stands under each heading.
fn counts(page: &str) -> BTreeMap<(String, String), usize> {
    let mut counts = BTreeMap::new();
    for piece in pieces(page) {
        let heading = piece.lines().next().unwrap_or("").trim().to_owned();
        for line in piece.lines().filter(|line| !line.trim().is_empty()) {
            *counts.entry((heading.clone(), line.to_owned())).or_default() += 1;
        }
    }
    counts
}

/// What must still be there of that which each version has so often.
fn at_least(base: usize, ours: usize, theirs: usize) -> usize {
    if ours >= base && theirs >= base { ours.max(theirs) } else { (ours + theirs).saturating_sub(base) }
}

/// Every line of ours and theirs is in the merged page, but for those that one took out.
fn holds_all(
    base: &str,
    ours: &str,
    theirs: &str,
    page: &str,
    counts: impl Fn(&str) -> BTreeMap<(String, String), usize>,
) {
    let (base_counts, our_counts, their_counts, found) = (counts(base), counts(ours), counts(theirs), counts(page));
    let of = |counts: &BTreeMap<(String, String), usize>, key| counts.get(key).copied().unwrap_or(0);
    // Between markers a line may stand below a heading of the other version.
    let marked: Vec<&str> =
        page.split("<<<<<<< ").skip(1).flat_map(|rest| rest.split("\n>>>>>>> ").next().unwrap_or("").lines()).collect();
    let between = |line: &str| marked.iter().filter(|known| **known == line).count();
    for key in our_counts.keys().chain(their_counts.keys()) {
        let wanted = at_least(of(&base_counts, key), of(&our_counts, key), of(&their_counts, key));
        assert!(
            of(&found, key) + between(&key.1) >= wanted,
            "{key:?}: {} of {wanted}\n--- base\n{base}--- ours\n{ours}--- theirs\n{theirs}--- merged\n{page}",
            of(&found, key)
        );
    }
}

/// The sets of flat text, without their numbers and lifts: a lift is spelled as its page spells it first.
fn flat_counts(page: &str) -> BTreeMap<(String, String), usize> {
    let mut counts = BTreeMap::new();
    for line in flat(page) {
        let mut columns: Vec<&str> = line.split("  ").collect();
        if columns.len() > 3 && columns[columns.len() - 2].parse::<u32>().is_ok() {
            columns.drain(columns.len() - 3..columns.len() - 1);
            *counts.entry((columns.join("  "), String::new())).or_default() += 1;
        }
    }
    counts
}

fn flat(page: &str) -> Vec<String> {
    let journal = open(&Memory::default().with("journal.yaml", ""));
    let page = Page::new("page.md", page.as_bytes().to_vec()).unwrap();
    let mut lines: Vec<String> =
        crate::laws::flat_text(&journal.lifters[0], vec![page]).lines().map(str::to_owned).collect();
    lines.sort();
    lines
}

/// A page of a few days, and what both sides do to it, each to lines of its own: the page as it was, each side's, and the
/// page on which all of it is done.
fn known_edits(choices: &[u8]) -> [String; 4] {
    let mut choices = choices.iter().copied().cycle();
    let mut next = |below: u8| choices.next().unwrap_or(0) % below;
    let mut pages = [(); 4].map(|()| "# Block 1\n\n- starts: 2026-03-02\n".to_owned());
    // Neither side, ours, theirs: in which pages the edit is done.
    let in_pages = |side: u8| [false, side == 1, side == 2, side > 0];
    let week_later = next(6);
    let days = 2 + next(4);
    for day in 0..days {
        let mut put = |side: u8, before: String, after: String| {
            for (page, done) in pages.iter_mut().zip(in_pages(side)) {
                page.push_str(if done { &after } else { &before });
            }
        };
        let label = ["pull", "push"][day as usize % 2];
        let date = |days: u8| {
            let first = chrono::NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
            format!("\n## {} {label} day\n", first + chrono::Days::new(u64::from(day / 2 * 7 + day % 2 * 3 + days)))
        };
        let (side, by) = if week_later < 3 { (week_later, 7) } else { (next(6), 1) };
        put(side, date(0), date(by));
        if next(2) == 0 {
            put(0, "\n".into(), String::new());
        }
        for line in 0..2 + next(3) {
            let lift = ["Deadlift", "Dip", "Plank", "Front squat", "Barbell row"][line as usize];
            let plan = format!("  - plan: {}x{} @ {} kg\n", 1 + next(4), 3 + next(6), 40 + next(100));
            put(next(5), format!("- {lift}:\n"), format!("- {lift}: as planned RPE 7\n"));
            put(next(8), plan.clone(), plan.replace(" kg", ".5 kg"));
            if next(4) == 0 {
                put(1 + next(2), String::new(), "  - cue: slow\n".into());
            }
        }
    }
    let more = next(4);
    for (page, done) in pages.iter_mut().zip(in_pages(more)) {
        page.push_str(if done { "\n## 2026-05-01 extra day\n\n- Plank: 30s\n" } else { "" });
    }
    pages
}

proptest! {
    #![proptest_config(crate::laws::cases(100))]

    /// What git merges cleanly and rightly ends no worse with ours: the same page, settled.
    #[test]
    fn nothing_ends_worse_than_with_git_alone(choices in prop::collection::vec(any::<u8>(), 60..120)) {
        let [base, ours, theirs, both] = known_edits(&choices);
        let git = merge_lines(base.as_bytes(), ours.as_bytes(), theirs.as_bytes()).unwrap();
        if git == (both.clone().into_bytes(), true) {
            let said = merged(&base, &ours, &theirs);
            prop_assert_eq!(said, (both, true), "\n--- base\n{}--- ours\n{}--- theirs\n{}", base, ours, theirs);
        }
    }

    #[test]
    fn no_line_goes_in_silence(seed in 0..400u64, ours in deeds(true), theirs in deeds(true)) {
        let base = page_of(seed);
        let (ours, theirs) = (done(&base, &ours), done(&base, &theirs));
        let (page, settled) = merged(&base, &ours, &theirs);
        holds_all(&base, &ours, &theirs, &page, counts);
        prop_assert_eq!(settled, !page.contains("<<<<<<<"));
        let (other, other_settled) = merged(&base, &theirs, &ours);
        prop_assert_eq!(settled, other_settled);
        if settled {
            prop_assert_eq!(flat(&page), flat(&other));
        }
    }

    #[test]
    fn no_set_goes_in_silence(seed in 0..400u64, ours in deeds(false), theirs in deeds(false)) {
        let base = page_of(seed);
        let (ours, theirs) = (done(&base, &ours), done(&base, &theirs));
        let (page, settled) = merged(&base, &ours, &theirs);
        if settled {
            holds_all(&base, &ours, &theirs, &page, flat_counts);
        }
    }

    #[test]
    fn what_one_alone_changed_is_taken_byte_for_byte(seed in 0..400u64, deeds in deeds(true), cut in any::<bool>()) {
        let base = page_of(seed);
        let changed = done(&base, &deeds);
        let changed = if cut { changed.trim_end() } else { &changed };
        settles(&base, changed, &base, changed);
        settles(&base, &base, changed, changed);
        settles(&base, changed, changed, changed);
        if changed != base && !base.is_empty() {
            // Line ends and a mark are no change either.
            let dos = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
            settles(&base, changed, &dos(&base), changed);
            settles(&base, &dos(changed), &base, &dos(changed));
            settles(&dos(&base), changed, &base, changed);
            settles(&base, &dos(&base), changed, &dos(changed));
        }
    }

    #[test]
    fn any_bytes_are_merged_without_a_panic(
        base in prop::collection::vec(crate::laws::word(), 0..20),
        ours in prop::collection::vec(crate::laws::word(), 0..20),
        theirs in prop::collection::vec(any::<u8>(), 0..40),
    ) {
        let (base, ours) = (base.concat(), ours.concat());
        merge(base.as_bytes(), ours.as_bytes(), &theirs, &by_lines);
        merge(&theirs, ours.as_bytes(), base.as_bytes(), &|_, _, _| None);
    }
}
