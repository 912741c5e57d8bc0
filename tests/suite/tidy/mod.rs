//! One spelling: what is spelled how, what stays, and what holds for any page.
//!
//! - `spelling.rs`: a table of spellings, one row each; whole pages in and out
//! - `fixes.rs`: the fixes that are applied first on demand
//! - `laws.rs`: the tidied page says the same, and is tidy

mod fixes;
mod laws;
mod spelling;

use loadline::journal::{Memory, open};
use loadline::meaning::{self, Reading, Tidying};
use loadline::source::Page;

/// A journal of files in memory, the settings among them.
pub(super) fn journal(files: &[(String, String)]) -> Memory {
    files.iter().fold(Memory::default(), |journal, (path, text)| journal.with(path, text.as_bytes()))
}

/// One page as a journal.
pub(super) fn of_page(page: impl Into<Vec<u8>>) -> Memory {
    Memory::default().with("journal.yaml", "").with("page.md", page)
}

/// All pages of the journal's only lifter, tidied; with fixes where asked.
pub(super) fn tidying(journal: &Memory, fix: bool) -> Tidying {
    let opened = open(journal);
    let lifter = &opened.lifters[0];
    meaning::tidy(journal, lifter, &opened.pages_of(lifter), &|_| true, fix, None)
}

/// A journal with its revised pages in the place of the old ones.
pub(super) fn revised(journal: &Memory, tidying: &Tidying) -> Memory {
    tidying
        .revisions
        .iter()
        .fold(journal.clone(), |journal, revision| journal.with(revision.after.path(), revision.after.bytes()))
}

/// All pages read, with every problem that `check` finds.
pub(super) fn checked(journal: &Memory) -> Reading {
    let opened = open(journal);
    let lifter = &opened.lifters[0];
    meaning::read(journal, lifter, opened.pages_of(lifter), Some(crate::support::run::TODAY.parse().unwrap()))
}

/// A page tidied.
pub(super) fn tidied(page: &str) -> String {
    let journal = of_page(page);
    let tidying = tidying(&journal, false);
    tidying.revisions.first().map_or_else(|| page.to_owned(), |revision| text_of(&revision.after))
}

fn text_of(page: &Page) -> String {
    String::from_utf8(page.bytes().to_vec()).unwrap()
}
