//! Every kind of problem: its data, its stable name, its severity and what it costs.
//!
//! A name says the fault, never the cure, and is for ever: a retired one stays in `docs/problems.md`.

use schemars::JsonSchema;
use serde::Serialize;

/// How bad a problem is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(inline)]
pub enum Severity {
    /// Something was left out of the answers.
    Error,
    /// It was read, but look.
    Warning,
}

/// What an error takes out of the answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cost {
    /// The whole line.
    Line,
    /// The part that it underlines; the rest of the line counts.
    Part,
    /// Nothing.
    Nothing,
}

/// What a caption leaves open of the sets below it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Open {
    /// Whether, when or by whom they were done.
    Done,
    /// How often each of them was done.
    Rounds,
    /// What their numbers are of.
    Units,
}

/// Why a line that looks like training is not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// One piece stands in the way.
    Piece {
        /// As it is typed.
        text: String,
        /// What the rest of the line is in the notation, where that is one thing.
        rest: Option<String>,
        /// How the notation writes what the piece seems to mean.
        written: Option<&'static str>,
    },
    /// It belongs to a line that counts nowhere.
    Below,
    /// Something stands between it and the lift that it is perhaps of.
    Apart {
        /// The lift, as it is typed.
        lift: String,
    },
    /// What stands where its lift would be called is none.
    NoLift {
        /// As it is typed.
        name: String,
    },
    /// It stands below a caption that leaves open whether, when or by whom it was done.
    Caption {
        /// As it is typed.
        text: String,
        /// What it leaves open.
        open: Open,
    },
    /// Its load stands on a line that is not read.
    Load,
    /// It stands in a heading.
    Heading,
    /// It says that the sets above it were others.
    Amends,
    /// More than one thing.
    Whole {
        /// The unit of loads written without one: `kg`.
        unit: &'static str,
    },
}

macro_rules! problem_kinds {
    ($( $(#[doc = $doc:literal])* $variant:ident $({ $($(#[doc = $fdoc:literal])* $field:ident : $type:ty),* $(,)? })? = $name:literal, $severity:ident, $cost:ident; )*) => {
        /// What is wrong, with what the words need.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub enum ProblemKind {
            $( $(#[doc = $doc])* $variant $({ $($(#[doc = $fdoc])* $field: $type),* })?, )*
        }

        impl ProblemKind {
            /// Every name there is, in the order of the code.
            pub const NAMES: &'static [&'static str] = &[$($name),*];

            /// The stable name, in kebab case.
            pub fn name(&self) -> &'static str {
                match self { $( Self::$variant { .. } => $name, )* }
            }

            /// Whether something was left out, or was read and wants a look.
            pub fn severity(&self) -> Severity {
                match self { $( Self::$variant { .. } => Severity::$severity, )* }
            }

            /// What the problem takes out of the answers.
            pub fn cost(&self) -> Cost {
                match self { $( Self::$variant { .. } => Cost::$cost, )* }
            }
        }
    };
}

impl ProblemKind {
    /// Whether something that stands there does not count: with an error, or on a line that was taken for prose. Any
    /// other warning asks about what does count.
    pub fn leaves_out(&self) -> bool {
        self.severity() == Severity::Error || matches!(self, Self::NearKey { .. })
    }
}

problem_kinds! {
    // The page.
    /// Bytes that are not UTF-8.
    NotUtf8 = "not-utf8", Error, Line;
    /// Lines that end in a carriage return alone.
    BareCarriageReturn = "bare-carriage-return", Error, Line;
    /// A line that a version-control merge left.
    MergeMarker = "merge-marker", Error, Nothing;
    /// A code fence that never closes.
    UnclosedFence = "unclosed-fence", Warning, Nothing;
    /// A comment that never closes.
    UnclosedComment = "unclosed-comment", Warning, Nothing;
    /// A page outside every lifter's folder, in a journal that has such folders.
    PageWithoutLifter = "page-without-lifter", Error, Part;
    /// A page that the system would not give.
    UnreadablePage {
        /// The system's words.
        why: String,
    } = "unreadable-page", Error, Part;

    // Headings.
    /// A heading begins with something like a date that is none.
    NotADate {
        /// What stands there.
        read: String,
    } = "not-a-date", Error, Line;
    /// The weekday in a heading is not the date's.
    WrongWeekday {
        /// What stands there.
        read: String,
        /// The date's own.
        right: &'static str,
    } = "wrong-weekday", Warning, Nothing;
    /// Two descriptors of a heading without a comma between them.
    DescriptorsRunTogether {
        /// What stands there.
        read: String,
    } = "descriptors-run-together", Warning, Nothing;
    /// A session names a block that no heading defines.
    UnknownBlock {
        /// The name in the heading.
        name: String,
        /// Blocks with a name like it.
        near: Vec<String>,
    } = "unknown-block", Error, Part;
    /// A session names a gym that the settings do not have.
    UnknownGym {
        /// What stands there.
        name: String,
        /// Names like it, or all there are.
        near: Vec<String>,
    } = "unknown-gym", Error, Part;

    // Blocks.
    /// A block with keys but no `starts:`.
    BlockWithoutStart {
        /// The block's name.
        name: String,
    } = "block-without-start", Error, Line;
    /// Two blocks share days.
    BlockOverlap {
        /// The later block.
        name: String,
        /// The earlier one.
        other: String,
        /// The first day they share.
        from: String,
    } = "block-overlap", Error, Nothing;
    /// A second block of one name.
    BlockTwice {
        /// The name.
        name: String,
        /// Where the first is.
        first: String,
    } = "block-twice", Error, Line;
    /// The value of a block's key cannot be read.
    UnreadBlockValue {
        /// The key.
        key: &'static str,
        /// What it takes.
        wanted: &'static str,
    } = "unread-block-value", Error, Line;
    /// A key that a block has already.
    RepeatedBlockKey {
        /// The key.
        key: &'static str,
    } = "repeated-block-key", Error, Line;

    // Lines that look like something they are not.
    /// Lines that would be work if they stood in a session.
    WorkOutsideSession {
        /// How many, from the first on.
        lines: u32,
    } = "work-outside-session", Error, Line;
    /// A heading or a key that would be a block's but for a missing sign.
    LooksLikeBlock {
        /// What is missing.
        missing: &'static str,
    } = "looks-like-block", Warning, Nothing;
    /// A detail's key at the top level.
    DetailOutsideLift {
        /// The key.
        key: &'static str,
    } = "detail-outside-lift", Warning, Nothing;
    /// A key one or two letters off a known one.
    NearKey {
        /// What stands there.
        read: String,
        /// The known key.
        known: &'static str,
    } = "near-key", Warning, Nothing;

    // Lines as people type them.
    /// A line that is read, in other words or signs than the notation's.
    LooseSpelling {
        /// What it was read as.
        read: String,
    } = "loose-spelling", Warning, Nothing;
    /// A line that can be read in more than one way, or only in ways that nobody would do.
    SeveralReadings {
        /// How many.
        ways: usize,
    } = "several-readings", Error, Line;
    /// A line that looks like training and cannot be read.
    UnreadWork {
        /// Why not.
        why: Unread,
    } = "unread-work", Error, Line;
    /// Sets of a lift that is not known.
    UnknownLift {
        /// The name as it stands there.
        name: String,
        /// Names like it.
        near: Vec<String>,
    } = "unknown-lift", Error, Line;
    /// A session of the past with text and no work.
    SessionWithoutWork {
        /// The date.
        date: String,
    } = "session-without-work", Warning, Nothing;
    /// A session of a date, label and time that was written before, with work lines that stand there too.
    SessionTwice {
        /// Where it was written first.
        first: String,
        /// How many of its work lines stand there too.
        lines: u32,
    } = "session-twice", Error, Line;
    /// A session below a block's heading, or on its page, that lies outside the block's days.
    SessionOutsideBlock {
        /// The block's name.
        name: String,
        /// Its first day.
        starts: String,
        /// Its last day, where it has one.
        ends: Option<String>,
    } = "session-outside-block", Warning, Nothing;
    /// A page whose name says that it is a copy of another one.
    CopiedPage {
        /// The page that it is a copy of.
        of: String,
    } = "copied-page", Warning, Nothing;
    /// A file of notes that is no page.
    NotAPage {
        /// How many there are.
        files: usize,
    } = "not-a-page", Warning, Nothing;

    // Work: the count.
    /// A work line without a lift.
    NoLiftName = "no-lift-name", Error, Line;
    /// No count where one must stand.
    UnreadCount {
        /// What stands there.
        read: String,
    } = "unread-count", Error, Line;
    /// No sets at all.
    NoSets = "no-sets", Error, Line;
    /// A count with a decimal point.
    DecimalCount {
        /// What stands there.
        read: String,
    } = "decimal-count", Error, Line;
    /// More sets than anybody does.
    TooManySets {
        /// How many.
        sets: u32,
        /// The most that is read.
        most: u32,
    } = "too-many-sets", Error, Line;
    /// More reps in a set than usual.
    ManyReps {
        /// How many.
        reps: u32,
    } = "many-reps", Warning, Nothing;
    /// A range, at least, or as many as possible, as done work.
    PlanOnlyCount {
        /// What stands there.
        read: String,
    } = "plan-only-count", Error, Line;
    /// Sets by number and by list in one count.
    MixedCount {
        /// What stands there.
        read: String,
    } = "mixed-count", Error, Line;
    /// A range whose second number is not larger than its first.
    ReversedRange {
        /// What stands there.
        read: String,
    } = "reversed-range", Error, Line;
    /// A number with more digits than are read.
    NumberTooLong {
        /// What stands there.
        read: String,
    } = "number-too-long", Error, Line;
    /// A list of reps and seconds, or of other unlike things.
    MixedUnits {
        /// What stands there.
        read: String,
    } = "mixed-units", Error, Line;
    /// Three numbers joined by `x`: which is the load?
    ThreeNumbers {
        /// What stands there.
        read: String,
        /// What could be meant by it.
        orders: Vec<String>,
    } = "three-numbers", Error, Line;
    /// A range with blanks round its dash, or a word for it.
    SpacedRange {
        /// What stands there.
        read: String,
    } = "spaced-range", Error, Part;
    /// Two groups, and no comma with a blank between them.
    GroupsRunTogether = "groups-run-together", Error, Line;
    /// The load stands before its count.
    LoadBeforeCount {
        /// What stands there.
        read: String,
    } = "load-before-count", Error, Line;

    // Work: the load.
    /// What stands after `@` is no load.
    UnreadLoad {
        /// What stands there.
        read: String,
    } = "unread-load", Error, Line;
    /// A second load in one group.
    TwoLoads = "two-loads", Error, Line;
    /// A range of loads.
    LoadRange {
        /// What stands there.
        read: String,
    } = "load-range", Error, Line;
    /// A comma where a number takes a point.
    DecimalComma {
        /// What stands there.
        read: String,
    } = "decimal-comma", Error, Line;
    /// A lone number from 5 to 10 after `@`: a load, or an effort?
    LoadOrEffort {
        /// The number.
        read: String,
        /// The unit it would be in; empty where it is not known.
        unit: &'static str,
    } = "load-or-effort", Error, Line;
    /// A load after groups that have none.
    LoadAfterSets = "load-after-sets", Error, Line;
    /// A bar or a colour that the gym has not.
    UnknownGear {
        /// What stands there.
        read: String,
        /// Names like it, or all there are.
        near: Vec<String>,
    } = "unknown-gear", Error, Line;
    /// Less than nothing.
    NegativeLoad {
        /// What stands there.
        read: String,
    } = "negative-load", Error, Line;
    /// A percentage, and no maximum to take it of.
    NoMaximum {
        /// The lift.
        lift: String,
        /// The block, where there is one.
        block: Option<String>,
    } = "no-maximum", Error, Line;
    /// A percentage of a maximum that is no mass.
    MaximumNotAMass {
        /// The lift.
        lift: String,
        /// The maximum as written.
        maximum: String,
    } = "maximum-not-a-mass", Error, Line;
    /// More plates than the gym owns.
    PlatesNotOwned {
        /// Which plate.
        plate: String,
        /// How many are written, on both sides.
        written: u32,
        /// How many there are.
        owned: u32,
    } = "plates-not-owned", Warning, Nothing;
    /// Far more than the lift has seen.
    LoadLeap {
        /// The load.
        load: String,
        /// The heaviest before.
        heaviest: String,
        /// When.
        date: String,
    } = "load-leap", Warning, Nothing;
    /// From a day on the loads without a unit are about 2.2 times what they were, or the other way round.
    UnitsJump {
        /// The day.
        date: String,
        /// How many times as heavy: `2.2 times as heavy`, `2.2 times as light`.
        by: String,
        /// How many lifts jump.
        lifts: u32,
        /// Of how many.
        of: u32,
    } = "units-jump", Warning, Nothing;

    /// A bodyweight that hardly anybody has.
    UnlikelyBodyweight {
        /// The mass as it was read.
        read: String,
        /// The same number in the other unit.
        other: String,
    } = "unlikely-bodyweight", Warning, Nothing;

    // Work: attributes. They cost only themselves.
    /// Words that mean nothing here.
    UnreadWords {
        /// The words.
        read: String,
    } = "unread-words", Error, Line;
    /// An effort that cannot be read.
    UnreadEffort {
        /// `RPE` or `RIR`.
        scale: &'static str,
        /// What stands there.
        read: String,
    } = "unread-effort", Error, Part;
    /// A list of efforts of another length than the sets.
    EffortCount {
        /// How many efforts.
        efforts: u32,
        /// How many sets.
        sets: u32,
    } = "effort-count", Error, Part;
    /// Efforts listed with spaces, which reads as more sets.
    EffortListSpaced = "effort-list-spaced", Error, Part;
    /// One set, two numbers: a decimal comma.
    EffortDecimalComma {
        /// What stands there.
        read: String,
    } = "effort-decimal-comma", Error, Part;
    /// Two sets, `6,5`: a list, or a decimal comma?
    EffortCommaDoubt {
        /// What stands there.
        read: String,
    } = "effort-comma-doubt", Warning, Nothing;
    /// An effort range the wrong way round.
    ReversedEffort {
        /// What stands there.
        read: String,
    } = "reversed-effort", Error, Part;
    /// A rest, tempo or miss that cannot be read.
    UnreadAttribute {
        /// The keyword.
        keyword: &'static str,
        /// What it takes.
        wanted: &'static str,
    } = "unread-attribute", Error, Part;
    /// The same attribute a second time.
    AttributeTwice {
        /// The attribute.
        keyword: String,
    } = "attribute-twice", Error, Part;
    /// A fault on a set that was not done.
    FaultWithoutSet {
        /// The set's number.
        set: u32,
        /// How many sets there are.
        sets: u32,
    } = "fault-without-set", Error, Part;
    /// A fault sign without a readable word.
    UnreadFault = "unread-fault", Error, Part;
    /// A parenthesis that never closes.
    UnclosedRemark = "unclosed-remark", Error, Part;
    /// An attribute parted from its group by a comma.
    AttributeAfterComma {
        /// What stands there.
        read: String,
    } = "attribute-after-comma", Error, Part;

    // Work: the whole line.
    /// `as planned` without a plan.
    NoPlan = "no-plan", Error, Line;
    /// `as planned` on a plan that leaves a choice.
    OpenPlan {
        /// The plan as written.
        plan: String,
    } = "open-plan", Error, Line;
    /// Left out and done at once.
    SkippedButDone = "skipped-but-done", Error, Part;
    /// Done work on a day still to come.
    DoneInFuture {
        /// The session's date.
        date: String,
    } = "done-in-future", Warning, Nothing;
    /// A lift that is in no book, but close to one that is.
    NearLift {
        /// What stands there.
        read: String,
        /// The known name.
        known: String,
    } = "near-lift", Warning, Nothing;
    /// A lift worked one side at a time, without `/side`.
    SideNotSaid {
        /// The lift.
        lift: String,
    } = "side-not-said", Warning, Nothing;

    // Facts.
    /// A fact whose value cannot be read.
    UnreadFact {
        /// The key.
        key: &'static str,
        /// What it takes.
        wanted: &'static str,
    } = "unread-fact", Error, Line;

    // Settings.
    /// Settings that are no YAML.
    UnreadSettings {
        /// The reader's words.
        why: String,
    } = "unread-settings", Error, Part;
    /// A key that no setting has.
    UnknownSetting {
        /// The key.
        key: String,
        /// The nearest that there is.
        near: Vec<String>,
    } = "unknown-setting", Error, Part;
    /// A value of the wrong kind.
    WrongSetting {
        /// The key.
        key: String,
        /// What it takes.
        wanted: String,
    } = "wrong-setting", Error, Part;
    /// Two lifters of one name.
    LifterTwice {
        /// The name.
        name: String,
        /// The folder that has it already.
        first: String,
    } = "lifter-twice", Error, Nothing;
}

#[cfg(test)]
mod tests {
    use super::ProblemKind;

    #[test]
    fn names_are_kebab_case_and_stand_once() {
        let mut names = ProblemKind::NAMES.to_vec();
        assert!(names.iter().all(|n| n.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')));
        names.sort_unstable();
        let count = names.len();
        names.dedup();
        assert_eq!(names.len(), count);
    }
}
