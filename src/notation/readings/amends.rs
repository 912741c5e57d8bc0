//! Lines right below sets that say that these were others than are written: `failed set 5`, `only did 4 sets`,
//! `edit: 102.5`.

use self::Sign::{Count, First, Is, Number, Of, OneNumber, Unmeasured, Weekday};
use super::captions::{Says, caption};
use super::day_names::weekday;
use super::undone::is_not_done;
use super::vocabulary::{Role, Roles, words};
use crate::source::Cut;

/// What a line may have that amends the sets above it.
enum Sign {
    /// One of these words; one of them at its start.
    Is(&'static [&'static str]),
    First(&'static [&'static str]),
    /// A word of one of these roles.
    Of(Roles),
    /// A number; one and no more; `3x5`.
    Number,
    OneNumber,
    Count,
    /// Nothing that its numbers are measured in.
    Unmeasured,
    /// A weekday that is written out.
    Weekday,
}

const CORRECTION: Sign = First(&[
    "actually",
    "correction",
    "corrección",
    "edit",
    "eigentlich",
    "korrektion",
    "korrektur",
    "sorry",
    "typo",
    "wait",
]);
const NTH: Sign = Is(&[
    "1st",
    "2nd",
    "3rd",
    "4th",
    "5th",
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "last",
    "final",
    "letzten",
    "letzter",
    "dernière",
    "última",
]);
const SPELLED: Sign = Of(Roles::of(&[Role::Numbers]));
const ONE: Sign = Is(&["one"]);
const SETS: Sign = Of(Roles::of(&[Role::Sets]));
const REPS: Sign = Of(Roles::of(&[Role::Reps]));
const FEWER: Sign = Of(Roles::of(&[Role::Only]));
const LEFT_OUT: Sign = Is(&["skipped", "dropped", "cut"]);

/// What amends the sets above: so many words at most, and of each of the lists one sign.
const WAYS: [(usize, &[&[Sign]]); 26] = [
    (MOST, &[&[CORRECTION, Is(&["make that", "no wait"])], &[Number, Count]]),
    // `third one was a miss`, `last one assisted`
    (6, &[&[NTH], &[Is(&["miss", "missed", "skipped", "failed", "short", "assisted", "helped"])]]),
    // `one set short`
    (MOST, &[&[Is(&["short", "minus", "no", "maybe"])], &[SETS], &[NTH, SPELLED, ONE, Number]]),
    // `oops, 4`, `I mean 5`
    (5, &[&[Is(&["meant", "oops", "mean", "say", "actually", "been"])], &[Number], &[Unmeasured]]),
    // `only 4`, `got 4 on the last`, `only did 4 sets`
    (3, &[&[FEWER, LEFT_OUT], &[Number, SPELLED, ONE], &[Unmeasured]]),
    (MOST, &[&[FEWER, LEFT_OUT], &[Number], &[NTH], &[Unmeasured]]),
    (MOST, &[&[FEWER, LEFT_OUT], &[Number, SPELLED, ONE], &[SETS, REPS]]),
    // `failed set 5`
    (
        MOST,
        &[
            &[Is(&["failed", "fail", "missed", "miss", "lost", "verfehlt", "raté", "fallé", "missade", "skipped"])],
            &[SETS, REPS],
        ],
    ),
    // `did that twice`
    (MOST, &[&[Is(&["repeat", "repeated", "did", "that"])], &[Is(&["times", "rounds", "twice"])]]),
    // `5 more at 90`
    (MOST, &[&[Is(&["more", "extra"])], &[Is(&["at", "with", "mit", "à", "con"])], &[Number]]),
    // `that was 3x5`
    (MOST, &[&[Is(&["that", "was", "actually", "really", "eigentlich"])], &[Count]]),
    (3, &[&[Is(&["not"])], &[Is(&["me"])]]),
    // `third set: 4`, `3rd: 4`, `4 on set 3`, `+5 on the last set`
    (4, &[&[NTH], &[SETS], &[OneNumber], &[Unmeasured]]),
    (2, &[&[NTH], &[OneNumber], &[Unmeasured]]),
    (7, &[&[Is(&["on set", "on the last", "on last"])], &[Number]]),
    (3, &[&[First(&["last", "final"])], &[Is(&["at"])], &[Number]]),
    // `last one didn't go`, `short by one`
    (
        7,
        &[
            &[NTH],
            &[Is(&["didnt go", "didnt get", "didnt make", "couldnt get", "couldnt make", "wouldnt go", "ging nicht"])],
        ],
    ),
    (5, &[&[Is(&["short by"])]]),
    // `weight was 95 not 100`
    (6, &[&[Is(&["weight was", "load was", "bar was", "it was"])], &[Number]]),
    (MOST, &[&[Weekday], &[Is(&["done", "did", "moved"])]]),
    (6, &[&[Is(&["was yesterday", "will do tomorrow", "do tomorrow", "plan only", "done it yet", "not yet"])]]),
    // `+ bar`, `each hand`, `repeat`
    (1, &[&[Is(&["bar", "repeat", "repeated"])]]),
    (
        2,
        &[&[Is(&[
            "plus bar",
            "each hand",
            "per hand",
            "each side",
            "per side",
            "each arm",
            "once more",
            "two rounds",
        ])]],
    ),
    (5, &[&[Is(&["warm up", "warm ups", "warming", "warmup", "warmups"])]]),
    (MOST, &[&[Is(&["scratch that"])]]),
    // `last set was 4 really`
    (MOST, &[&[First(&["last", "final", "letzter", "dernière", "última"])], &[SETS], &[OneNumber], &[Unmeasured]]),
];
/// Longer lines amend nothing.
const MOST: usize = 10;

/// What is left in reserve, or what the next day brings, is only said of the sets.
const ONLY_SAID: Sign = Is(&["reserve", "tank", "left", "rir", "rpe", "next", "could", "felt"]);

/// The words that together deny all of what stands above, `did not do these`, and those of which there must be one.
#[rustfmt::skip]
const DENIED_WHOLE: [&str; 28] = [
    "all", "any", "canceled", "cancelled", "counted", "did", "didnt", "do", "done", "happen", "i", "it", "last", "me",
    "nope", "not", "of", "rep", "reps", "scratch", "set", "sets", "skipped", "that", "the", "them", "these", "this",
];
const DENIED: Sign = Is(&["not", "didnt", "skipped", "cancelled", "canceled", "scratch", "nope"]);

/// The words of a line, in lower case, with one blank between them.
struct Words(String);

impl Words {
    fn all(&self) -> impl Iterator<Item = &str> {
        words(&self.0)
    }

    fn has(&self, sign: &Sign) -> bool {
        match sign {
            Is(phrases) => phrases.iter().any(|phrase| {
                let mut places = self.0.match_indices(phrase);
                places.any(|(at, _)| self.0.head(at).ends_with(' ') && self.0.tail(at + phrase.len()).starts_with(' '))
            }),
            First(begins) => self.all().next().is_some_and(|first| begins.contains(&first)),
            Of(roles) => self.all().any(|word| roles.has(word)),
            Number => self.all().any(is_number),
            OneNumber => self.all().filter(|word| is_number(word)).count() == 1,
            Count => self.all().any(|word| {
                word.split_once('x').is_some_and(|(sets, reps)| is_number(sets) && (reps.is_empty() || is_number(reps)))
            }),
            Unmeasured => !self.has(&Is(&["min", "mins", "minutes", "sec", "kg", "lb", "hours", "cm", "10"])),
            Weekday => self.all().any(|word| word.len() > 3 && weekday(word).is_some()),
        }
    }
}

fn is_number(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit())
}

/// Whether a line right below sets says that these were others than are written.
pub fn amends(text: &str) -> bool {
    let lower = text.to_lowercase().replace(['\'', '\u{2019}'], "");
    let said = Words(format!(" {} ", words(&lower).collect::<Vec<_>>().join(" ")));
    let count = said.all().count();
    if count > MOST || said.has(&ONLY_SAID) {
        return false;
    }
    let denied = said.has(&DENIED) && said.all().all(|word| DENIED_WHOLE.contains(&word) || is_number(word));
    let same =
        (1..3).contains(&count) && said.all().all(|word| matches!(word, "same" | "ditto" | "again" | "idem" | "dito"));
    let box_open = text.contains("[ ]") && (said.has(&Number) || said.has(&SETS));
    let amended = |(most, signs): &(usize, &[&[Sign]])| {
        count <= *most && signs.iter().all(|either| either.iter().any(|sign| said.has(sign)))
    };
    denied
        || same
        || box_open
        || WAYS.iter().any(amended)
        // `skipped, knee`
        || is_not_done(text.split([',', ':', ';']).next().unwrap_or(text))
        || caption(text, false, false) == Some(Says::Units)
}
