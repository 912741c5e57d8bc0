//! The lift book: the lifts the trade has names for, and those that the settings add.

use super::{Family, fold};
use serde::Deserialize;

/// One lift of the book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BookEntry {
    /// Its name, as it is shown.
    pub name: String,
    /// What kind of movement.
    pub family: Family,
    /// Other names for the same lift.
    pub also: Vec<String>,
    /// Whether its default load is the lifter's own weight.
    pub bodyweight: bool,
    /// Whether it is worked one side at a time.
    pub one_side: bool,
    /// Whether a lift of the lifter's own weight is done with a bar or bells as well.
    pub bar: bool,
    /// Whether it is held for a time.
    pub held: bool,
    /// Whether it is carried, dragged or run over a distance or for a time.
    pub carried: bool,
}

/// Lifts by name.
#[derive(Clone, Debug, Default)]
pub struct LiftBook {
    entries: Vec<BookEntry>,
    /// So many entries are the built-in ones.
    built_in: usize,
    by_name: foldhash::HashMap<String, usize>,
}

/// An entry as the data file writes it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: String,
    family: String,
    #[serde(default)]
    also: Vec<String>,
    #[serde(default)]
    bodyweight: bool,
    #[serde(default, rename = "one side")]
    one_side: bool,
    #[serde(default)]
    bar: bool,
    #[serde(default)]
    held: bool,
    #[serde(default)]
    carried: bool,
}

/// The data file; a test reads all of it.
const BOOK: &str = include_str!("lifts.yaml");

impl LiftBook {
    /// The built-in book.
    pub fn built_in() -> Self {
        // The file is part of the program and a test proves that it reads; a broken one is an empty book.
        let written: Vec<Written> = serde_yaml::from_str(BOOK).unwrap_or_default();
        let mut book = LiftBook::default();
        for entry in written {
            let family = Family::named(&entry.family).unwrap_or(Family::Other);
            book.add(BookEntry {
                name: entry.name,
                family,
                also: entry.also,
                bodyweight: entry.bodyweight,
                one_side: entry.one_side,
                bar: entry.bar,
                held: entry.held,
                carried: entry.carried,
            });
        }
        book.built_in = book.entries.len();
        book
    }

    /// Adds a lift, or overrides those of its names.
    pub fn add(&mut self, entry: BookEntry) {
        let at = self.entries.len();
        for name in entry.also.iter().chain([&entry.name]) {
            let folded = fold(name);
            // Phones and haste leave accents out: `Bankdruecken`, `souleve de terre`.
            if !folded.is_ascii() {
                self.by_name.entry(plain(&folded)).or_insert(at);
            }
            self.by_name.insert(folded, at);
        }
        self.entries.push(entry);
    }

    /// The lift of a name or an `also:` name.
    pub fn find(&self, name: &str) -> Option<&BookEntry> {
        self.find_folded(&fold(name))
    }

    /// The lift of a folded name.
    pub fn find_folded(&self, folded: &str) -> Option<&BookEntry> {
        self.by_name.get(folded).and_then(|at| self.entries.get(*at))
    }

    /// Whether the lift of a folded name is as the built-in book has it.
    pub fn is_built_in(&self, folded: &str) -> bool {
        self.by_name.get(folded).is_some_and(|at| *at < self.built_in)
    }

    /// Up to three lifts whose names are close to one that is not known, the nearest first.
    pub fn near(&self, typed: &str) -> Vec<&str> {
        let wanted = fold(typed);
        let most = (wanted.chars().count() / 4).max(1);
        let letters = letters_of(&wanted);
        let mut close: Vec<(usize, usize, &str)> = Vec::new();
        for (folded, at) in self.by_name.iter().filter(|_| wanted.len() > 1) {
            // Which letters two names have rules out nearly all: a slip changes at most two of them.
            let theirs = letters_of(folded);
            let (short, long) = if folded.len() < wanted.len() { (folded, &wanted) } else { (&wanted, folded) };
            let inside = short.len() >= 3 && letters & theirs == letters_of(short) && long.contains(short.as_str());
            let alike = long.len() - short.len() <= most * 2 && (letters ^ theirs).count_ones() as usize <= most * 2;
            let apart = if alike { strsim::osa_distance(folded, &wanted) } else { usize::MAX };
            if let Some(entry) = self.entries.get(*at).filter(|_| inside || apart <= most) {
                close.push((if inside { apart.min(most + 1) } else { apart }, *at, &entry.name));
            }
        }
        // The book has what is done most first, among lifts that share a word.
        close.sort_unstable();
        let mut names: Vec<&str> = Vec::new();
        for (.., name) in close {
            if names.len() < 3 && !names.contains(&name) {
                names.push(name);
            }
        }
        names
    }

    /// Every name and other name, in the order of the book.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.entries.iter().flat_map(|entry| entry.also.iter().chain([&entry.name])).map(String::as_str)
    }
}

/// Which letters a folded name has, one bit each; all other signs share one.
fn letters_of(folded: &str) -> u32 {
    folded.bytes().fold(0, |letters, byte| letters | 1 << if byte.is_ascii_lowercase() { byte - b'a' } else { 26 })
}

/// A folded name without accents.
fn plain(folded: &str) -> String {
    let mut plain = String::with_capacity(folded.len());
    for c in folded.chars() {
        match c {
            'à' | 'á' | 'â' => plain.push('a'),
            'è' | 'é' | 'ê' | 'ë' => plain.push('e'),
            'ì' | 'í' | 'î' | 'ï' => plain.push('i'),
            'ò' | 'ó' | 'ô' => plain.push('o'),
            'ù' | 'ú' | 'û' => plain.push('u'),
            'ç' => plain.push('c'),
            'ñ' => plain.push('n'),
            'ä' => plain.push_str("ae"),
            'ö' => plain.push_str("oe"),
            'ü' => plain.push_str("ue"),
            'ß' => plain.push_str("ss"),
            c => plain.push(c),
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::{BOOK, LiftBook, Written};
    use crate::training::{Family, fold};
    use std::collections::HashSet;

    #[test]
    fn the_book_reads_whole() {
        let written: Vec<Written> = serde_yaml::from_str(BOOK).expect("lifts.yaml reads");
        assert!(written.len() >= 150, "{} lifts", written.len());
        let mut names = HashSet::new();
        for entry in &written {
            assert!(Family::named(&entry.family).is_some(), "{}: family {}", entry.name, entry.family);
            for name in entry.also.iter().chain([&entry.name]) {
                assert!(names.insert(fold(name)), "{name} stands twice");
                assert!(!name.contains(':'), "{name} could not be written as a lift");
            }
        }
        for family in Family::ALL {
            assert!(written.iter().any(|entry| entry.family == family.word()), "no lift of {family}");
        }
        assert_eq!(LiftBook::built_in().entries.len(), written.len());
    }

    #[test]
    fn other_names_stand_for_the_lift() {
        let book = LiftBook::built_in();
        assert_eq!(book.find("RDLs").map(|lift| lift.name.as_str()), Some("Romanian deadlift"));
        assert_eq!(book.find("pull ups").map(|lift| lift.bodyweight), Some(true));
        assert_eq!(book.find("Bankdruecken").map(|lift| lift.name.as_str()), Some("Bench press"));
        assert_eq!(book.find("souleve de terre").map(|lift| lift.name.as_str()), Some("Deadlift"));
        assert!(book.find("Nonsense raise").is_none());
    }
}
