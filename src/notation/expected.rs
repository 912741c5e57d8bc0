//! What may stand at a place of a line.

use self::Expected as E;
use crate::problems::{Cost, ProblemKind as K};
use std::fmt;

macro_rules! expected {
    ($( $(#[doc = $doc:literal])* $name:ident, )*) => {
        /// A thing that may stand at a place.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Expected { $( $(#[doc = $doc])* $name, )* }

        impl Expected {
            const ALL: &[Expected] = &[$(Expected::$name),*];
        }
    };
}

expected! {
    /// A bullet: a dash and a blank.
    Bullet,
    /// A heading: `#` and a blank.
    Heading,
    /// A lift's name.
    Lift,
    /// A fact's key, such as `sleep`.
    FactKey,
    /// A detail's key, such as `plan`.
    DetailKey,
    /// A block's key, such as `starts`.
    BlockKey,
    /// The colon after a lift or a key.
    Colon,
    /// A date.
    Date,
    /// A weekday.
    Weekday,
    /// A time of day.
    Time,
    /// The label of a day, such as `technique day`, or another descriptor of a session.
    Label,
    /// A block: the word and its name.
    Block,
    /// `week` and its number.
    Week,
    /// A number.
    Number,
    /// A count, such as `3x8`.
    Count,
    /// The reps, seconds or metres of a count.
    Amount,
    /// `skipped` or `as planned`.
    Planned,
    /// `@` and a load.
    At,
    /// A load.
    Load,
    /// `+` or `-` and one more term of a load.
    Sign,
    /// `kg` or `lb`.
    Unit,
    /// A unit of time or distance.
    Measure,
    /// `/side`
    Side,
    /// `RPE` or `RIR`.
    Effort,
    /// The number of an effort.
    Rating,
    /// `AMRAP`, `miss`, `rest` or `tempo`.
    Attribute,
    /// A length of time.
    Duration,
    /// `!` and a fault.
    Fault,
    /// A fault's word.
    FaultWord,
    /// A remark in parentheses.
    Remark,
    /// A comma and the next group of sets.
    Group,
    /// Where it hurts, and how much out of ten.
    Pain,
    /// Words of one's own.
    Text,
}

/// The things that may stand at a place.
#[derive(Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct ExpectedSet(u64);

impl ExpectedSet {
    /// Nothing at all.
    pub const NOTHING: Self = ExpectedSet(0);

    /// The set with one thing more.
    #[must_use]
    pub const fn with(self, one: Expected) -> Self {
        ExpectedSet(self.0 | 1 << one as u64)
    }

    /// The things of both sets.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        ExpectedSet(self.0 | other.0)
    }

    /// Whether a thing is one of them.
    pub fn contains(self, one: Expected) -> bool {
        self.0 & 1 << one as u64 != 0
    }

    /// The things, in the order of the kinds.
    pub fn iter(self) -> impl Iterator<Item = Expected> {
        Expected::ALL.iter().copied().filter(move |one| self.contains(*one))
    }

    /// Whether there are none.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }
}

impl From<Expected> for ExpectedSet {
    fn from(one: Expected) -> Self {
        Self::NOTHING.with(one)
    }
}

impl fmt::Debug for ExpectedSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}

/// What was expected where a fault is.
pub(crate) fn expected_of(kind: &K) -> ExpectedSet {
    let of = |all: &[E]| all.iter().fold(ExpectedSet::NOTHING, |set, one| set.with(*one));
    match kind {
        K::UnreadCount { .. } | K::LoadBeforeCount { .. } | K::NoSets | K::DecimalCount { .. } => of(&[E::Count]),
        K::UnreadLoad { .. } | K::DecimalComma { .. } | K::LoadRange { .. } => of(&[E::Load]),
        K::UnreadEffort { .. } | K::EffortListSpaced | K::EffortDecimalComma { .. } => of(&[E::Effort]),
        K::UnreadAttribute { .. } => of(&[E::Attribute]),
        K::UnreadFault => of(&[E::FaultWord]),
        K::NotADate { .. } => of(&[E::Date]),
        K::WrongWeekday { .. } => of(&[E::Weekday]),
        K::NoLiftName => of(&[E::Lift]),
        K::GroupsRunTogether => of(&[E::Group]),
        K::UnreadWords { .. } => of(&[E::At, E::Effort, E::Attribute, E::Fault, E::Remark, E::Group]),
        kind if kind.cost() == Cost::Line => of(&[E::Count, E::Load]),
        _ => ExpectedSet::NOTHING,
    }
}
