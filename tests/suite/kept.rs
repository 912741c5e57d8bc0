//! Pages that are kept say after any change what they say when all are read anew.

use loadline::journal::{Memory, open};
use loadline::meaning::{Kept, read};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// Lines that rest on those of other pages, or change what others say.
const LINES: [&str; 33] = [
    "# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n",
    "# Block 2\n\n- starts: 2026-11-02\n- max: Front squat 150 kg\n- max: Harbour walk 60 kg\n",
    "# Block 2\n\n- starts: 2026-11-09\n",
    "# Block 1\n",
    "- weeks: 3\n",
    "- max: Back squat 160 kg\n",
    "## 2026-10-06 heavier day\n",
    "## 2026-10-06 heavier day\n",
    "## 2026-10-06\n",
    "## 2026-11-03 18:30 lighter day, week 2, block 2\n",
    "## 2026-11-03 Tue lighter day\n",
    "## 2026-11-04, block 3\n",
    "## 2026-11-24, deload\n",
    "## 2026-12-09 lighter day\n",
    "## 2026-11-10, meet Harbour Open\n",
    "- Front squat: 3x8 @ 100 kg\n",
    "- Front squat: 3x8 @ 80%\n",
    "- front squats: 3x8 @ 240 lb\n",
    "- Front squat: as planned\n  - plan: 3x8 @ 80%\n",
    "- Front squat:\n  - plan: 3x8 @ 100 kg\n",
    "- Harbour walk: 3x40 m @ 20 kg/side\n",
    "- harbour  Walk: 2x8 @ 30\n",
    "- Harbour wolk: 2x8 @ 50%\n",
    "harbour walk 3x8 30kg\n",
    "harbuor walk 3x8 30kg\n",
    "- Fornt squat: 2x5 @ 60\n",
    "- Split squat: 2x8 @ 60\n",
    "- Split squat: 2x8/side @ 20\n  - instead of: Front squat\n",
    "- bodyweight: 83 kg\n",
    "- bodyweight: 84\n- pain: left knee 6/10\n",
    "- Pull-up: 3x5 @ bw+10 kg\n",
    "Went well.\n",
    "```\n",
];

const PAGES: [&str; 4] = ["a.md", "b.md", "c/a.md", "d.md"];

#[derive(Clone, Debug)]
enum Change {
    Insert(usize, usize, usize),
    Delete(usize, usize),
    Cut(usize, usize),
    Remove(usize),
    Rename(usize, usize),
}

fn change() -> impl Strategy<Value = Change> {
    let page = || 0..PAGES.len();
    prop_oneof![
        12 => (page(), 0..12usize, 0..LINES.len()).prop_map(|(page, at, line)| Change::Insert(page, at, line)),
        3 => (page(), 0..12usize).prop_map(|(page, at)| Change::Delete(page, at)),
        2 => (page(), 0..80usize).prop_map(|(page, at)| Change::Cut(page, at)),
        1 => page().prop_map(Change::Remove),
        1 => (page(), page()).prop_map(|(from, to)| Change::Rename(from, to)),
    ]
}

/// Does it, and says which pages are others now.
fn done(pages: &mut BTreeMap<&'static str, String>, change: &Change) -> Vec<&'static str> {
    match *change {
        Change::Insert(page, at, line) => {
            let text = pages.entry(PAGES[page]).or_default();
            let place = text.split_inclusive('\n').take(at).map(str::len).sum();
            text.insert_str(place, LINES[line]);
            vec![PAGES[page]]
        }
        Change::Delete(page, at) => {
            let text = pages.entry(PAGES[page]).or_default();
            *text =
                text.split_inclusive('\n').enumerate().filter(|(line, _)| *line != at).map(|(_, line)| line).collect();
            vec![PAGES[page]]
        }
        Change::Cut(page, at) => {
            let text = pages.entry(PAGES[page]).or_default();
            if !text.is_empty() {
                text.remove(at % text.len());
            }
            vec![PAGES[page]]
        }
        Change::Remove(page) => {
            pages.remove(PAGES[page]);
            vec![PAGES[page]]
        }
        Change::Rename(from, to) => {
            if let Some(text) = pages.remove(PAGES[from]) {
                pages.insert(PAGES[to], text);
            }
            vec![PAGES[from], PAGES[to]]
        }
    }
}

proptest! {
    #![proptest_config(crate::laws::cases(192))]
    #[test]
    fn kept_pages_say_what_all_say_read_anew(
        first in proptest::collection::vec(change(), 20),
        then in proptest::collection::vec(proptest::collection::vec(change(), 1..3), 1..24),
        checks in any::<bool>(),
    ) {
        let settings = "lifts:\n  - { name: Split squat, family: squat, one side: true }\n";
        let check_on = checks.then(|| "2026-11-25".parse().unwrap());
        let (mut pages, mut kept) = (BTreeMap::new(), Kept::default());
        for changes in std::iter::once(&first).chain(&then) {
            for page in changes.iter().flat_map(|change| done(&mut pages, change)) {
                kept.forget(page);
            }
            let of_settings = Memory::default().with("journal.yaml", settings);
            let files = pages.iter().fold(of_settings, |files, (path, text)| files.with(path, text.as_str()));
            let journal = open(&files);
            let lifter = &journal.lifters[0];
            let anew = read(&files, lifter, journal.pages_of(lifter), check_on);
            let as_kept = kept.read(&files, lifter, journal.pages_of(lifter), check_on);
            prop_assert_eq!(&*as_kept, &anew, "{:?}", pages);
        }
    }
}
