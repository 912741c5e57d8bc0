//! A person's habits of writing: what they mean by a line that could be read in several ways.

use super::vocabulary::{Role, Roles};
use crate::notation::nodes::Keyword;
use std::collections::BTreeMap;

/// What a lifter is known to mean. A habit chooses among two readings or more and never overrules the only one;
/// one that is not known is `None`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Habits {
    /// `8x3` beside a load.
    pub count: Option<CountOrder>,
    /// `40x12` with no load near.
    pub before_x: Option<BeforeX>,
    /// `60x8x3`.
    pub three_numbers: Option<ThreeNumbers>,
    /// `@8`.
    pub at_sign: Option<AtSign>,
    /// `80,5`.
    pub comma: Option<CommaSign>,
    /// `3/5`: month and day, and the year that is left out.
    pub dates: Option<DateHabit>,
    /// Short forms of lifts, as typed, with the lift they stand for.
    pub names: BTreeMap<String, String>,
    /// Words of other tongues and of one's own, in lower case, with what they mean.
    pub words: BTreeMap<String, Meaning>,
}

/// What a count beside a load begins with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountOrder {
    /// Three sets of eight are `3x8`.
    SetsReps,
    /// Three sets of eight are `8x3`.
    RepsSets,
}

/// What the number before a lone `x` is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeforeX {
    /// The load.
    Load,
    /// The number of sets.
    Sets,
    /// The reps of one set; the load stands behind.
    Reps,
}

/// The order of three numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThreeNumbers {
    /// `60x8x3`: three sets of eight.
    LoadRepsSets,
    /// `60x3x8`
    LoadSetsReps,
    /// `3x8x60`
    SetsRepsLoad,
}

/// What stands behind `@`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AtSign {
    /// A load.
    Load,
    /// An effort.
    Effort,
}

/// What a comma between two digits is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CommaSign {
    /// A decimal point.
    Decimal,
    /// The next of a list.
    List,
}

/// How dates are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DateHabit {
    /// Whether the day stands before the month.
    pub day_first: bool,
    /// The year of dates that have none.
    pub year: Option<i32>,
}

/// What a word says between the numbers of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// `3 sets`
    Sets,
    /// `8 reps`
    Reps,
    /// `3 sets of 8`
    Of,
    /// `100 for 5`
    For,
    /// `3x8 at 100`, `with 100`
    At,
    /// `3 times 8`
    By,
    /// `8 each side`
    Side,
    /// `warm-up 60x5`
    WarmUp,
    /// `100x5 then 110x3`
    Then,
    /// Kilograms.
    Kilograms,
    /// Pounds.
    Pounds,
    /// The lifter's own weight.
    Bodyweight,
}

impl Meaning {
    /// What a word of the settings stands for: `words: { Sätze: sets }`.
    pub fn named(word: &str) -> Option<Self> {
        Some(match word {
            "sets" => Meaning::Sets,
            "reps" => Meaning::Reps,
            "of" => Meaning::Of,
            "for" => Meaning::For,
            "at" | "with" => Meaning::At,
            "x" => Meaning::By,
            "each side" | "per side" => Meaning::Side,
            "warm-up" => Meaning::WarmUp,
            "then" | "and" => Meaning::Then,
            "kg" => Meaning::Kilograms,
            "lb" => Meaning::Pounds,
            "bw" => Meaning::Bodyweight,
            _ => return None,
        })
    }

    /// Whether a word, in lower case, means the same to everybody: one of these, a time, an attribute.
    pub fn is_known(word: &str) -> bool {
        const TIME: Roles = Roles::of(&[Role::Seconds, Role::Minutes]);
        Self::of(word).is_some() || TIME.has(word) || Keyword::named(word).is_some()
    }

    /// What a word means to everybody, in lower case; the commonest words of other tongues have one meaning as well.
    pub(super) fn of(word: &str) -> Option<Self> {
        const ROLES: [(Role, Meaning); 12] = [
            (Role::Sets, Meaning::Sets),
            (Role::Reps, Meaning::Reps),
            (Role::Of, Meaning::Of),
            (Role::For, Meaning::For),
            (Role::At, Meaning::At),
            (Role::By, Meaning::By),
            (Role::EachSide, Meaning::Side),
            (Role::Then, Meaning::Then),
            (Role::Kilograms, Meaning::Kilograms),
            (Role::Pounds, Meaning::Pounds),
            (Role::Bodyweight, Meaning::Bodyweight),
            (Role::WarmUp, Meaning::WarmUp),
        ];
        // In a remark `r` is as often the right side.
        if word == "r" { Some(Meaning::Reps) } else { Role::first(word, &ROLES) }
    }
}
