//! The words of lines typed in haste, by what they say: the lists stand in `vocabulary.txt`, and all that asks by these
//! roles knows a word that is put there.

use crate::training::{Words, words};
use std::sync::LazyLock;

words! {
    /// What a word says: a list of `vocabulary.txt`, where it is told what stands in it.
    pub(super) enum Role {
        Sets = "sets",
        Reps = "reps",
        WarmUp = "warm up",
        WarmingUp = "warming up",
        Numbers = "numbers",
        Rounds = "rounds",
        Of = "of",
        For = "for",
        At = "at",
        By = "by",
        EachSide = "each side",
        Then = "then",
        Changes = "changes",
        Kilograms = "kilograms",
        Pounds = "pounds",
        NamedUnit = "named unit",
        Bodyweight = "bodyweight",
        LoadKey = "load key",
        Seconds = "seconds",
        Minutes = "minutes",
        Hours = "hours",
        Metres = "metres",
        Kilometres = "kilometres",
        Yards = "yards",
        Miles = "miles",
        NoSet = "no set",
        SetUp = "set up",
        Measured = "measured",
        Plan = "plan",
        ToCome = "to come",
        DayBefore = "day before",
        Next = "next",
        Last = "last",
        OtherTime = "other time",
        Perhaps = "perhaps",
        Person = "person",
        Listed = "listed",
        Alone = "alone",
        LeftOut = "left out",
        Failed = "failed",
        Helped = "helped",
        Denial = "denial",
        Finished = "finished",
        Only = "only",
        Today = "today",
        Calendar = "calendar",
        Occasion = "occasion",
        Little = "little",
        Beside = "beside",
        DateKey = "date key",
        Week = "week",
        TrainingDay = "training day",
        Title = "title",
        Done = "done",
        NoLift = "no lift",
        Remark = "remark",
        Common = "common",
        Joins = "joins",
    }
}

/// Numbers in words.
#[rustfmt::skip]
const NUMBERS: [(u32, &str); 20] = [
    (2, "two zwei deux dos"), (3, "three drei trois tres"), (4, "four vier quatre cuatro"), (5, "five fünf cinq cinco"),
    (6, "six sechs seis"), (7, "seven sieben siete"), (8, "eight acht ocho"), (9, "nine neun"), (10, "ten zehn dix"),
    (12, "twelve"), (15, "fifteen quinze"), (20, "twenty"), (30, "thirty"), (40, "forty"), (50, "fifty"), (60, "sixty"),
    (70, "seventy"), (80, "eighty"), (90, "ninety"), (100, "hundred hundert"),
];

/// Roles, any of which a word may have.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Roles(u64);

impl Roles {
    /// Those.
    pub(super) const fn of(all: &[Role]) -> Self {
        let (mut roles, mut rest) = (0, all);
        while let [first, others @ ..] = rest {
            roles |= 1 << *first as u64;
            rest = others;
        }
        Roles(roles)
    }

    /// Those and others.
    pub(super) const fn and(self, others: Self) -> Self {
        Roles(self.0 | others.0)
    }

    /// Whether a word, in lower case, has one of them.
    pub(super) fn has(self, word: &str) -> bool {
        KNOWN.get(word).is_some_and(|known| known & self.0 != 0)
    }
}

impl Role {
    /// Whether a word, in lower case, has it.
    pub(super) fn has(self, word: &str) -> bool {
        Roles::of(&[self]).has(word)
    }

    /// The first role of some that a word, in lower case, has.
    pub(super) fn first<T: Copy>(word: &str, of: &[(Role, T)]) -> Option<T> {
        let known = KNOWN.get(word)?;
        of.iter().find(|(role, _)| known & Roles::of(&[*role]).0 != 0).map(|(_, means)| *means)
    }
}

/// The number that a word in lower case says.
pub(super) fn number(word: &str) -> Option<u32> {
    let says = |(_, words): &&(u32, &str)| words.split(' ').any(|one| one == word);
    if Role::Numbers.has(word) { NUMBERS.iter().find(says).map(|(number, _)| *number) } else { None }
}

/// The words of a text: letters and digits.
pub(super) fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

const LISTS: &str = include_str!("vocabulary.txt");

/// The lists, line by line. A line without a role's name goes on with the list above.
fn lists() -> impl Iterator<Item = (Role, &'static str)> {
    let mut role = None;
    LISTS.lines().filter(|line| !line.starts_with('#')).filter_map(move |line| {
        let (name, words) = line.split_once(':').unwrap_or(("", line));
        role = Role::of_word(name).or(role);
        Some((role?, words))
    })
}

/// The roles of each word.
static KNOWN: LazyLock<foldhash::HashMap<&str, u64>> = LazyLock::new(|| {
    let mut known = foldhash::HashMap::default();
    known.reserve(2048);
    let numbers = NUMBERS.iter().map(|(_, words)| (Role::Numbers, *words));
    for (role, words) in lists().chain(numbers) {
        for word in words.split_whitespace() {
            *known.entry(word).or_insert(0) |= Roles::of(&[role]).0;
        }
    }
    known
});

#[cfg(test)]
mod tests {
    use super::{LISTS, NUMBERS, Role, lists};
    use std::collections::HashSet;

    #[test]
    fn each_role_has_its_list_and_each_list_its_words_once() {
        let names = LISTS.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once(':'));
        let names: Vec<&str> = names.map(|(name, _)| name).collect();
        assert_eq!(names, Role::ALL.map(Role::word));
        for role in Role::ALL {
            let words = lists().filter(|(of, _)| *of == role).flat_map(|(_, words)| words.split_whitespace());
            let words: Vec<&str> = words.collect();
            assert!(words.is_sorted_by(|one, two| one < two), "{role} is in order, and has no word twice");
            assert!(words.iter().all(|word| word.to_lowercase() == **word), "{role} is in small letters");
        }
        let mut numbers = HashSet::new();
        assert!(NUMBERS.iter().flat_map(|(_, words)| words.split(' ')).all(|word| numbers.insert(word)));
    }
}
