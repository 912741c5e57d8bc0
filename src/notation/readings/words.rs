//! Words that decide whether a line is training, and what of it is a remark.

use super::vocabulary::{Role as R, Roles, words};

/// What changes a set: a remark with such a word says more than a remark.
const CHANGES: Roles =
    Roles::of(&[R::Changes, R::Sets, R::Reps, R::WarmUp, R::WarmingUp, R::Numbers, R::Kilograms, R::Pounds]);
const OF_SETS_OR_REMARKS: Roles = CHANGES.and(Roles::of(&[R::Remark]));
const REMARKS: Roles = Roles::of(&[R::Remark, R::Common]);
/// What numbers are said of that no set is counted in.
const OF_NO_SET: Roles = Roles::of(&[R::NoSet, R::Calendar]);
/// What is said of days to come, and of what nobody lifted.
const NO_DAY: Roles = Roles::of(&[R::ToCome, R::Next, R::Perhaps]);

/// What hurts on one side, and says nothing of the side that was worked.
const JOINTS: [&str; 12] =
    ["ankle", "elbow", "glute", "hamstring", "hip", "knee", "lat", "pec", "quad", "shoulder", "trap", "wrist"];

/// Whether a word changes what a set is; `left shoulder clicky` changes none.
pub(super) fn changes_sets(remark: &str) -> bool {
    let lower = remark.to_lowercase();
    let words: Vec<&str> = words(&lower).collect();
    words.iter().enumerate().any(|(at, word)| {
        let of_joint = matches!(*word, "left" | "right") && words.get(at + 1).is_some_and(|next| JOINTS.contains(next));
        // `same as last week`
        let compared = *word == "same" && words.get(at + 1) == Some(&"as");
        CHANGES.has(word) && !of_joint && !compared
    })
}

/// Whether what stands behind a lift's name may be more of a name, `jumps 3x5`: words of sets and remarks, and `x`, are none.
pub(super) fn may_be_of_a_name(text: &str) -> bool {
    let word = text.split(|c: char| !c.is_alphabetic()).next().unwrap_or("").to_lowercase();
    word.len() > 1 && !OF_SETS_OR_REMARKS.has(&word) && !is_common(&word)
}

/// Whether words in parentheses change what a set is; `(last set hard)` only says which it speaks of.
pub(super) fn changes_sets_inside(remark: &str) -> bool {
    const WHICH: Roles = Roles::of(&[R::Sets, R::Reps]);
    any(remark, |word| CHANGES.has(word) && !WHICH.has(word))
}

/// Whether a remark speaks of one of the sets: `last set sucked`.
pub(super) fn is_of_one_set(remark: &str) -> bool {
    let first = remark.split(|c: char| !c.is_alphanumeric()).next().unwrap_or("").to_lowercase();
    matches!(first.as_str(), "last" | "first" | "final" | "second" | "third")
}

/// Whether a word behind a number begins a remark: any other may be a unit in another tongue.
pub(super) fn begins_remark(word: &str) -> bool {
    REMARKS.has(&word.to_lowercase())
}

/// Whether a word, in lower case, is one that lines of training do not begin with.
pub(super) fn is_common(word: &str) -> bool {
    R::Common.has(word)
}

/// What sets and days are called, and no lift.
const NO_LIFT: Roles =
    Roles::of(&[R::NoLift, R::Sets, R::Reps, R::WarmUp, R::WarmingUp, R::Plan, R::LeftOut, R::ToCome, R::DayBefore]);

/// Whether no lift is called so, for each of its words is a common one, or says of sets what they are: `Time`, `Water`,
/// `Working sets`, `Saturday`.
pub fn is_no_lift(name: &str) -> bool {
    let of_day = |word: &str| word.len() > 2 && super::day_names::weekday(word).is_some();
    !any(name, |word| !is_common(word) && !NO_LIFT.has(word) && !of_day(word))
}

/// Whether a line begins as one that goes on with what was done: `another`, `one more`, `last set`; `last week` does not.
pub(super) fn is_again(text: &str) -> bool {
    const AGAIN: [&str; 11] =
        ["again", "another", "extra", "final", "first", "last", "one more", "plus", "same", "then", "two more"];
    const DAYS: Roles = Roles::of(&[R::Calendar, R::Occasion]);
    let lower = text.trim_start().to_lowercase();
    let goes_on = AGAIN
        .iter()
        .any(|again| lower.strip_prefix(again).is_some_and(|rest| rest.starts_with(|c: char| !c.is_alphanumeric())));
    goes_on && !any(text, |word| DAYS.has(word))
}

/// Whether a text says how often a week: `3x/wk`, `twice a week`.
pub(super) fn is_frequency(text: &str) -> bool {
    const OFTEN: [&str; 7] = ["/wk", "/week", " per week", " a week", " pro woche", " par semaine", " por semana"];
    let lower = text.to_lowercase();
    OFTEN.iter().any(|often| lower.contains(often))
}

/// Whether a word behind a number, in lower case, says that it is of no set.
pub(super) fn is_of_no_set(word: &str) -> bool {
    OF_NO_SET.has(word)
}

/// Whether a word of a text says that it is of no day that was.
pub(super) fn is_no_day(text: &str) -> bool {
    any(text, |word| NO_DAY.has(word))
}

/// Whether a text has a word that is said of sets, or a common one.
pub(super) fn is_remark(text: &str) -> bool {
    any(text, |word| REMARKS.has(word))
}

/// Whether one of a text's words is a common one.
pub(super) fn has_common_word(text: &str) -> bool {
    any(text, is_common)
}

fn any(text: &str, is: impl Fn(&str) -> bool) -> bool {
    words(text).any(|word| is(&word.to_lowercase()))
}
