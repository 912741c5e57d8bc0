//! Units of time and distance: how each is spelled, and the one spelling of it.

use super::tokens::Tokens;
use crate::training::words;

words! {
    /// A unit of time or distance.
    pub(crate) enum Measure {
        Second = "s",
        Minute = "min",
        Hour = "h",
        Metre = "m",
        Kilometre = "km",
        Yard = "yd",
        Mile = "mi",
    }
}

/// How people spell them.
const SPELLINGS: [(Measure, &[&str]); 7] = [
    (Measure::Second, &["s", "sec", "secs", "second", "seconds"]),
    (Measure::Minute, &["min", "mins", "minute", "minutes"]),
    (Measure::Hour, &["h", "hr", "hrs", "hour", "hours"]),
    (Measure::Metre, &["m", "metre", "metres", "meter", "meters"]),
    (Measure::Kilometre, &["km"]),
    (Measure::Yard, &["yd", "yds"]),
    (Measure::Mile, &["mi", "mile", "miles"]),
];

impl Measure {
    /// The unit that a word in lower case is.
    pub(crate) fn named(word: &str) -> Option<Self> {
        SPELLINGS.iter().find(|(_, words)| words.contains(&word)).map(|(measure, _)| *measure)
    }
}

/// The unit that the next token is.
pub(crate) fn measure(i: Tokens<'_, '_>) -> Option<Measure> {
    // Behind nearly every number stands a sign.
    if !i.first().first.is_ascii_alphabetic() {
        return None;
    }
    SPELLINGS.iter().find(|(_, words)| words.iter().any(|word| i.is_word(word))).map(|(measure, _)| *measure)
}
