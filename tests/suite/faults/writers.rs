//! Two that write one page: this program, and an editor that knows nothing of it.

use crate::support::run;
use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

/// So often the editor saves.
const SAVES: usize = 60;

/// A page as the editor has it in memory after so many saves: untidy, so that there is always something to write.
fn text(saves: usize) -> String {
    let days =
        (0..=saves).map(|nth| format!("## 2026-03-{:02} set {nth}\n\n-  Dip:  {}x8\n\n", nth % 28 + 1, nth % 9 + 1));
    days.collect()
}

/// Saves as editors do that write a new file beside the page and give it its name.
fn save(page: &Path, text: &str) {
    let beside = page.with_extension("saving");
    fs::write(&beside, text).unwrap();
    fs::rename(&beside, page).unwrap();
}

/// An editor overwrites what `tidy` made of its last save; it must never be the other way about: whatever is saved last, in
/// the editor's spelling or in the tidy one, has every line of the editor's.
#[test]
fn what_an_editor_saves_while_the_pages_are_tidied_is_never_lost() {
    let folder = tempfile::tempdir().unwrap();
    let page = folder.path().join("page.md");
    fs::write(folder.path().join("journal.yaml"), "").unwrap();
    save(&page, &text(0));
    let done = AtomicBool::new(false);
    let (mut written, mut refused) = (0, 0);
    thread::scope(|scope| {
        let tidying = scope.spawn(|| {
            let mut said = Vec::new();
            while !done.load(Ordering::Relaxed) {
                said.push(run::run(folder.path(), 80, &["tidy", "--write"]));
            }
            said
        });
        for nth in 1..=SAVES {
            save(&page, &text(nth));
            // Until the next save whoever else writes must keep it.
            for _ in 0..3 {
                let is_there = || fs::read_to_string(&page).unwrap().contains(&format!(" set {nth}\n"));
                thread::sleep(Duration::from_millis(3));
                // While two files change over and back, one of them is seen for a moment.
                assert!(is_there() || (thread::sleep(Duration::from_millis(20)), is_there()).1, "save {nth} is lost");
            }
        }
        done.store(true, Ordering::Relaxed);
        for said in tidying.join().unwrap() {
            written += usize::from(said.contains("1 of 1 page written"));
            refused += usize::from(said.contains("changed on disk meanwhile"));
        }
    });
    let out = run::run(folder.path(), 80, &["tidy", "--write"]);
    assert!(!out.contains("--- exit"), "{out}");
    assert_eq!(fs::read_to_string(&page).unwrap(), text(SAVES).replace("-  Dip:  ", "- Dip: "));
    assert!(written + refused > 0, "{written} written, {refused} refused");
    eprintln!("{written} times written, {refused} times left alone for the editor");
}
