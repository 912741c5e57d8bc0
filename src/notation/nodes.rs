//! The syntax tree's nodes. Every node borrows the piece of the page it was read from, so its place is
//! known (`Span::of`) and nothing is copied.

use super::expected::{ExpectedSet, expected_of};
use crate::problems::{Cost, Problem};
use crate::source::Page;
use crate::training::{Unit, words};

/// A value and the piece of the page that says it. Two of them are the same where the values are, however they are
/// spelled.
#[derive(Clone, Copy, Debug)]
pub struct Written<'a, T> {
    /// As written.
    pub text: &'a str,
    /// What it says.
    pub value: T,
}

impl<T: PartialEq> PartialEq for Written<'_, T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

impl<T: Eq> Eq for Written<'_, T> {}

impl<T: std::hash::Hash> std::hash::Hash for Written<'_, T> {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.value.hash(state);
    }
}

impl<T> std::ops::Deref for Written<'_, T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

/// A piece of a line that should mean something and cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unread<'a> {
    /// As written.
    pub text: &'a str,
    /// What would have been read there.
    pub expected: ExpectedSet,
}

/// One line of a page and what it was read as.
#[derive(Debug)]
pub struct Line<'a> {
    /// The line with its line end, as it stands in the page.
    pub text: &'a str,
    /// What it is.
    pub kind: LineKind<'a>,
    /// What is wrong with it.
    pub problems: Vec<Problem>,
    /// Whether it stands in a session, outside what is prose on purpose: prose there may be training, loosely typed.
    pub typed: bool,
    /// Whether it stands in no session, outside what is prose on purpose.
    pub outside: bool,
    /// Whether it is white space and nothing else.
    pub blank: bool,
}

impl<'a> Line<'a> {
    /// The pieces of it that are left out for a fault, in order.
    pub fn unread(&self, page: &'a Page) -> impl Iterator<Item = Unread<'a>> {
        let left_out = self.problems.iter().filter(|problem| problem.kind.cost() != Cost::Nothing);
        left_out.map(|problem| Unread { text: problem.span.text(page.text()), expected: expected_of(&problem.kind) })
    }
}

/// What a line is.
#[derive(Debug)]
pub enum LineKind<'a> {
    /// Anything else: kept, never an error.
    Prose,
    /// A line that is not read: it is not UTF-8, or several lines with old line ends.
    Opaque,
    /// A line that a version-control merge left.
    MergeMarker,
    /// `# Block 6`
    Block(BlockHeading<'a>),
    /// `- starts: 2026-03-02` under a block's heading; `None` where the value cannot be read.
    BlockKey(BlockKeyName, Option<Box<Written<'a, BlockKey<'a>>>>),
    /// `## 2026-03-05 technique day`
    Session(Box<SessionHeading<'a>>),
    /// A heading that begins with something like a date; what stands below it counts nowhere.
    BadSession,
    /// Another heading; `ends` where it ended the session or block above it.
    Heading {
        /// Whether it ended what stood above it.
        ends: bool,
    },
    /// `bodyweight: 83.1 kg`; `None` where the value cannot be read.
    Fact(Option<Written<'a, Fact<'a>>>),
    /// `- note: text` on the session.
    SessionNote(&'a str),
    /// `- Front squat: 3x8 @ 120 kg`
    Work(Work<'a>),
    /// `  - 8 @ 120 kg`: more sets of the work line above.
    SetLine(Vec<Group<'a>>),
    /// `  - plan: 3x8 RPE 5-6`
    Detail(Detail<'a>),
}

/// A block's heading.
#[derive(Clone, Copy, Debug)]
pub struct BlockHeading<'a> {
    /// What follows the word `Block`.
    pub name: &'a str,
    /// Whether a list of block keys follows it.
    pub has_keys: bool,
}

words! {
    /// The keys of a block.
    pub enum BlockKeyName {
        /// `starts:`
        Starts = "starts",
        /// `weeks:`
        Weeks = "weeks",
        /// `phase:`
        Phase = "phase",
        /// `deload:`
        Deload = "deload",
        /// `peak:`
        Peak = "peak",
        /// `max:`
        Max = "max",
        /// `goal:`
        Goal = "goal",
    }
}

/// A block's key with its value.
#[derive(Debug)]
pub enum BlockKey<'a> {
    /// First day.
    Starts(Date),
    /// How many weeks.
    Weeks(u32),
    /// Free text for people.
    Phase(&'a str),
    /// Deload weeks, from 1.
    Deload(Vec<Written<'a, u32>>),
    /// Peak weeks, from 1.
    Peak(Vec<Written<'a, u32>>),
    /// What percentages refer to.
    Max {
        /// The lift as written.
        lift: &'a str,
        /// Its maximum.
        load: Load<'a>,
    },
    /// Free text for people.
    Goal(&'a str),
}

/// A real date as written, YYYY-MM-DD.
pub type Date = chrono::NaiveDate;

/// A session's heading.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct SessionHeading<'a> {
    /// The date.
    pub date: Written<'a, Date>,
    /// Minutes after midnight, where a time is written.
    pub minute: Option<Written<'a, u16>>,
    /// Day label without the word `day`; the first one written.
    pub day: Option<&'a str>,
    /// `week 3`
    pub week: Option<Written<'a, u32>>,
    /// `block 6`
    pub block: Option<&'a str>,
    /// `deload`
    pub deload: bool,
    /// `peak`
    pub peak: bool,
    /// `test day`
    pub test_day: bool,
    /// `meet Harbour Open`: the name, which may be empty.
    pub meet: Option<&'a str>,
}

/// Facts of a session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fact<'a> {
    /// The lifter's own weight.
    Bodyweight(Number, Option<Unit>),
    /// Minutes slept.
    Sleep(u32),
    /// Minutes trained.
    Duration(u32),
    /// 0 to 10.
    SessionRpe(Number),
    /// Where, and how much out of 10.
    Pain(&'a str, Number),
    /// Where the session was, by the gym's name.
    Gym(&'a str),
}

/// A work line.
#[derive(Debug)]
pub struct Work<'a> {
    /// The lift as written, without emphasis.
    pub name: &'a str,
    /// What was done.
    pub body: Body<'a>,
    /// Whether an error costs the line.
    pub lost: bool,
}

/// What a work line says.
#[derive(Debug)]
pub enum Body<'a> {
    /// Nothing after the colon.
    Nothing,
    /// `skipped (knee)`
    Skipped(Option<&'a str>),
    /// `as planned RPE 7`
    AsPlanned(Vec<Attribute<'a>>, &'a str),
    /// Groups of sets.
    Groups(Vec<Group<'a>>),
}

/// A detail of a work line.
#[derive(Debug)]
pub struct Detail<'a> {
    /// Its key.
    pub key: DetailKey,
    /// The value as written.
    pub text: &'a str,
    /// The groups of a plan or warm-up; empty for other keys.
    pub groups: Vec<Group<'a>>,
    /// Whether an error costs the line.
    pub lost: bool,
}

words! {
    /// The keys of details.
    pub enum DetailKey {
        /// `plan:`
        Plan = "plan",
        /// `warm-up:`
        WarmUp = "warm-up",
        /// `setup:`
        Setup = "setup",
        /// `cue:`
        Cue = "cue",
        /// `why:`
        Why = "why",
        /// `note:`
        Note = "note",
        /// `instead of:`
        InsteadOf = "instead of",
    }
}

/// Sets of one kind.
#[derive(Debug)]
pub struct Group<'a> {
    /// The whole group as written.
    pub text: &'a str,
    /// How often.
    pub count: Count<'a>,
    /// How heavy, where it is written.
    pub load: Option<Load<'a>>,
    /// The rest.
    pub attributes: Vec<Attribute<'a>>,
}

/// How many sets of how much.
#[derive(Debug)]
pub struct Count<'a> {
    /// As written.
    pub text: &'a str,
    /// Sets and amounts.
    pub sets: Sets,
    /// `/side`
    pub per_side: bool,
}

/// The sets of a count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sets {
    /// `3x8`, and `8` as one set; a plan may leave the number open.
    Times {
        /// The fewest sets.
        low: u32,
        /// The most sets.
        high: u32,
        /// What each of them is.
        each: Amount,
    },
    /// `8,8,7`
    List(Vec<Amount>),
}

/// What one set is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Amount {
    /// Reps; equal bounds where the number is known.
    Reps {
        /// The fewest.
        low: u32,
        /// The most.
        high: u32,
    },
    /// `5+`
    AtLeast(u32),
    /// `AMRAP`
    AsManyAsPossible,
    /// `12+4+4`
    Bouts(Vec<u32>),
    /// Seconds.
    Seconds {
        /// The fewest.
        low: u32,
        /// The most.
        high: u32,
    },
    /// A distance.
    Distance {
        /// The shortest.
        low: Number,
        /// The longest.
        high: Number,
        /// In which unit.
        unit: DistanceUnit,
    },
}

/// A number as written, in thousandths.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number {
    /// A thousand times the number.
    pub thousandths: i64,
}

impl Number {
    /// A whole number.
    pub fn whole(number: u32) -> Self {
        Number { thousandths: i64::from(number) * 1000 }
    }

    /// The number where it is whole and fits.
    pub fn as_whole(self) -> Option<u32> {
        if self.thousandths % 1000 == 0 { u32::try_from(self.thousandths / 1000).ok() } else { None }
    }
}

/// Units of distance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DistanceUnit {
    /// Metres.
    Metre,
    /// Kilometres.
    Kilometre,
    /// Yards.
    Yard,
    /// Miles.
    Mile,
}

/// A load as written.
#[derive(Debug)]
pub struct Load<'a> {
    /// As written, without the `@`.
    pub text: &'a str,
    /// `~`
    pub approximate: bool,
    /// The first term.
    pub first: Term<'a>,
    /// The others, with their signs.
    pub more: Vec<(Sign, Term<'a>)>,
}

/// How a term joins the ones before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// ` + `
    Plus,
    /// ` - `
    Minus,
}

/// One term of a load.
#[derive(Debug, Clone, Copy)]
pub struct Term<'a> {
    /// As written.
    pub text: &'a str,
    /// What it is.
    pub kind: TermKind<'a>,
    /// `/side`
    pub per_side: bool,
}

/// What a term is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TermKind<'a> {
    /// `3x25 kg`; 1 where no number of plates is written.
    Mass(u32, Number, Option<Unit>),
    /// A bar, or plates by colour: `4 red`.
    Named(Option<u32>, &'a str),
    /// `bw`
    Bodyweight,
    /// Text in quotes, without them.
    Quoted(&'a str),
    /// `pin 7`
    Pin(Number),
    /// `75%`
    Percent(Number),
}

/// An attribute of a group.
#[derive(Debug)]
pub struct Attribute<'a> {
    /// As written.
    pub text: &'a str,
    /// What it is.
    pub kind: AttributeKind<'a>,
}

/// What an attribute is. What is new here has its keyword in [`Keyword`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AttributeKind<'a> {
    /// `RPE 5-6`: one for the whole group.
    Effort(Scale, Number, Number),
    /// `RPE 6,6.5,7`: one for each set.
    Efforts(Scale, Vec<Number>),
    /// `AMRAP`
    Amrap,
    /// `miss 1`
    Miss(u32),
    /// `!depth(2,3)`; on the whole group where no set is named.
    Fault(&'a str, Vec<u32>),
    /// Seconds.
    Rest(u32),
    /// `3-1-X-0`
    Tempo(&'a str),
    /// Text in parentheses, without them.
    Remark(&'a str),
}

words! {
    /// The keywords of attributes, as messages spell them. Digits may follow one at once: `RPE6`.
    pub enum Keyword {
        /// An effort, or one for each set.
        Rpe = "RPE",
        /// The same as reps in reserve.
        Rir = "RIR",
        /// As many reps as possible.
        Amrap = "AMRAP",
        /// Reps that were tried and failed.
        Miss = "miss",
        /// A rest between sets.
        Rest = "rest",
        /// A tempo.
        Tempo = "tempo",
    }
}

impl Keyword {
    /// The keyword that a word is, in any letter case.
    pub fn named(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|keyword| keyword.word().eq_ignore_ascii_case(word))
    }

    /// The first letters of all of them, a bit for each letter.
    const FIRST_LETTERS: u32 = {
        let (mut letters, mut rest) = (0, Self::ALL.as_slice());
        while let [keyword, others @ ..] = rest {
            if let [first, ..] = keyword.word().as_bytes() {
                letters |= 1 << (first.to_ascii_lowercase() - b'a');
            }
            rest = others;
        }
        letters
    };

    /// Whether a word with this first letter may be one; it is asked at every sign of every line.
    pub fn may_begin_with(first: u8) -> bool {
        let first = first.to_ascii_lowercase();
        first.is_ascii_lowercase() && Self::FIRST_LETTERS >> (first - b'a') & 1 == 1
    }

    /// Whether an effort follows it.
    pub fn is_effort(self) -> bool {
        matches!(self, Keyword::Rpe | Keyword::Rir)
    }

    /// Whether a value follows it.
    pub fn has_value(self) -> bool {
        self != Keyword::Amrap
    }
}

impl AttributeKind<'_> {
    /// The keyword it begins with; faults and remarks have none.
    pub fn keyword(&self) -> Option<Keyword> {
        Some(match self {
            AttributeKind::Effort(Scale::Rpe, ..) | AttributeKind::Efforts(Scale::Rpe, _) => Keyword::Rpe,
            AttributeKind::Effort(Scale::Rir, ..) | AttributeKind::Efforts(Scale::Rir, _) => Keyword::Rir,
            AttributeKind::Amrap => Keyword::Amrap,
            AttributeKind::Miss(_) => Keyword::Miss,
            AttributeKind::Rest(_) => Keyword::Rest,
            AttributeKind::Tempo(_) => Keyword::Tempo,
            AttributeKind::Fault(..) | AttributeKind::Remark(_) => return None,
        })
    }

    /// Whether it is an effort.
    pub fn is_effort(&self) -> bool {
        matches!(self, AttributeKind::Effort(..) | AttributeKind::Efforts(..))
    }
}

/// Which scale an effort is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Rate of perceived exertion.
    Rpe,
    /// Reps in reserve.
    Rir,
}
