//! A person's habits of writing: what they mean by a line that could be read in several ways.

use super::vocabulary::{Role, Roles};
use crate::notation::nodes::Keyword;
use crate::training::{Words, words};
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

impl Habits {
    /// What is known here, and beneath it what holds otherwise.
    #[must_use]
    pub fn over(&self, beneath: &Habits) -> Habits {
        Habits {
            count: self.count.or(beneath.count),
            before_x: self.before_x.or(beneath.before_x),
            three_numbers: self.three_numbers.or(beneath.three_numbers),
            at_sign: self.at_sign.or(beneath.at_sign),
            comma: self.comma.or(beneath.comma),
            dates: self.dates.or(beneath.dates),
            names: beneath.names.clone().into_iter().chain(self.names.clone()).collect(),
            words: beneath.words.clone().into_iter().chain(self.words.clone()).collect(),
        }
    }
}

words! {
    /// What a count beside a load begins with.
    pub enum CountOrder {
        /// Three sets of eight are `3x8`.
        SetsReps = "sets x reps",
        /// Three sets of eight are `8x3`.
        RepsSets = "reps x sets",
    }
}

words! {
    /// What the number before a lone `x` is.
    pub enum BeforeX {
        /// The load.
        Load = "load",
        /// The number of sets.
        Sets = "sets",
        /// The reps of one set; the load stands behind.
        Reps = "reps",
    }
}

words! {
    /// The order of three numbers.
    pub enum ThreeNumbers {
        /// `60x8x3`: three sets of eight.
        LoadRepsSets = "load x reps x sets",
        /// `60x3x8`
        LoadSetsReps = "load x sets x reps",
        /// `3x8x60`
        SetsRepsLoad = "sets x reps x load",
    }
}

words! {
    /// What stands behind `@`.
    pub enum AtSign {
        /// An effort.
        Effort = "effort",
        /// A load.
        Load = "load",
    }
}

words! {
    /// What a comma between two digits is.
    pub enum CommaSign {
        /// A decimal point.
        Decimal = "decimal",
        /// The next of a list.
        List = "list",
    }
}

/// How dates are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DateHabit {
    /// Whether the day stands before the month.
    pub day_first: bool,
    /// The year of dates that have none.
    pub year: Option<i32>,
}

words! {
    /// What a word says between the numbers of a line.
    pub enum Meaning {
        /// `3 sets`
        Sets = "sets",
        /// `8 reps`
        Reps = "reps",
        /// `3 sets of 8`
        Of = "of",
        /// `100 for 5`
        For = "for",
        /// `3x8 at 100`, `with 100`
        At = "at",
        /// `3 times 8`
        By = "x",
        /// `8 each side`
        Side = "each side",
        /// `warm-up 60x5`
        WarmUp = "warm-up",
        /// `100x5 then 110x3`
        Then = "then",
        /// Kilograms.
        Kilograms = "kg",
        /// Pounds.
        Pounds = "lb",
        /// The lifter's own weight.
        Bodyweight = "bw",
    }
}

impl Meaning {
    /// What a word of the settings stands for: `words: { Sätze: sets }`.
    pub fn named(word: &str) -> Option<Self> {
        match word {
            "with" => Some(Meaning::At),
            "per side" => Some(Meaning::Side),
            "and" => Some(Meaning::Then),
            _ => <Self as Words>::of_word(word),
        }
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
