//! What words beside the sets say of whether they were done: a remark that says they were not, or that they were others
//! than are written, is none.

use super::day_names::weekday;
use super::vocabulary::{Role as R, Roles, words};

/// Words that no set stands beside which was done as it is written.
const UNDONE: Roles = Roles::of(&[R::Plan, R::ToCome, R::DayBefore, R::LeftOut, R::Person, R::Failed, R::Helped]);
/// What was not done, was not finished, or will be another day, behind a denial.
const DENIED: Roles = Roles::of(&[R::Finished, R::Today, R::Reps]);
/// Words of times to come, or that deny all there is: alone they say that nothing was done.
const ANOTHER_TIME: Roles = Roles::of(&[R::Next, R::Last, R::Denial, R::OtherTime]);
/// What stands beside them.
const TIMES: Roles = Roles::of(&[R::Calendar, R::Occasion, R::Little, R::Today]);
/// What is measured, compared or set up, whose numbers are none of the sets'.
const BESIDE: Roles = Roles::of(&[R::Measured, R::SetUp, R::NoSet, R::Calendar, R::Next]);

/// Words that were taken together.
#[rustfmt::skip]
const PHRASES: [&str; 41] = [
    " out of time ", " no time ", " keine zeit ", " geen tijd ", " pas le temps ", " sem tempo ", " faltó tiempo ",
    " red light ", " red lights ", " no count ", " no lockout ", " no press command ", " lost it ", " dumped it ",
    " tapped out ", " no go ", " not happening ", " next day ", " morning after ", " instead ", " swapped for ",
    " replaced with ", " ecc only ", " eccentric only ", " eccentrics only ", " nur exzentrisch ", " give up ",
    " rest pause ", " extra set ", " extra sets ", " extra rep ", " extra reps ", " extra satz ", " extra serie ",
    " to do ", " al cedimento ", " got only ", " a hand ", " a leg ", " an arm ", " no good ",
];

/// How often something is done, and not what was: `20 push-ups every hour`.
#[rustfmt::skip]
const RATES: [&str; 12] = [
    "a day", "al día", "an hour", "daily", "each day", "every day", "every hour", "jeden tag", "par jour", "per day",
    "per hour", "pro tag",
];

/// Whether words beside the sets say that these were not done, or not as they are written.
pub(super) fn is_undone(text: &str) -> bool {
    let lower = text.to_lowercase().replace(['\'', '\u{2019}'], "");
    let words: Vec<&str> = words(&lower).collect();
    let said = words.iter().enumerate().any(|(at, word)| {
        // `as planned` was done; `no help` was none, and a short rest is one.
        let before = at.checked_sub(1).and_then(|before| words.get(before)).copied().unwrap_or("");
        let as_said = ["as", "wie", "comme", "como", "come", "than"].contains(&before);
        let none = ["no", "ohne", "sans", "sin", "senza", "without"].contains(&before);
        let behind = words.get(at + 1).copied().unwrap_or("");
        let of_rest = *word == "short" && (behind == "rest" || behind == "rests" || before == "rest");
        UNDONE.has(word) && !as_said && !none && !of_rest
    });
    let denied = words
        .iter()
        .enumerate()
        .any(|(at, word)| R::Denial.has(word) && words.iter().skip(at + 1).take(2).any(|denied| DENIED.has(denied)));
    let another_time = |word: &&str| ANOTHER_TIME.has(word) || (word.len() > 3 && weekday(word).is_some());
    let another = words.iter().any(another_time) && words.iter().all(|word| another_time(word) || TIMES.has(word));
    // `done Sat morning`
    let of_a_day = words.iter().any(|word| word.len() > 2 && weekday(word).is_some())
        && words.iter().any(|word| matches!(*word, "did" | "done" | "made" | "moved"));
    let spaced = format!(" {} ", words.join(" "));
    of_a_day
        || said
        || denied
        || another
        || RATES.contains(&spaced.trim())
        || PHRASES.iter().any(|phrase| spaced.contains(phrase))
}

/// What a day is called that has not been, or was left out.
const NOT_DONE: Roles = Roles::of(&[R::LeftOut, R::Plan, R::Denial, R::ToCome, R::DayBefore]);

/// Whether a text says that something was not done, and no more: `not done`, `skipped`, `did not happen`.
pub(super) fn is_not_done(text: &str) -> bool {
    not_done(text, |_| false, |_| false)
}

/// The same, where some words more may stand beside those that say so, and some more say so.
pub(super) fn not_done(text: &str, beside: impl Fn(&str) -> bool, says: impl Fn(&str) -> bool) -> bool {
    let lower = text.to_lowercase().replace(['\'', '\u{2019}'], "");
    let beside = |word: &str| matches!(word, "did" | "done" | "happen") || beside(word);
    let says = |word: &str| NOT_DONE.has(word) || says(word);
    words(&lower).eq(["to", "do"]) || (words(&lower).all(|word| beside(word) || says(word)) && words(&lower).any(says))
}

/// What in parentheses behind sets in the notation makes others of them: nothing else may stand beside it but a reason behind
/// a comma.
const DENIES: Roles = Roles::of(&[R::LeftOut, R::Plan, R::ToCome, R::Kilograms, R::Pounds, R::WarmUp]);

/// Whether a remark in parentheses says that sets in the notation are others than are written: `(failed)`,
/// `(not done, elbow)`, `(lb)`; `(felt heavy)` and `(left knee clicky)` do not.
pub fn denies(remark: &str) -> bool {
    #[rustfmt::skip]
    const WHOLE: [&str; 14] = [
        "each side", "fail", "failed", "miss", "missed", "no lift", "nolift", "not counted", "per hand", "per side",
        "plus bar", "plus the bar", "spotter took it", "x",
    ];
    let lower = remark.to_lowercase();
    let part = lower.split([',', ';', ':', '-']).next().unwrap_or("").trim();
    let all = words(part).count() > 0 && words(part).all(|word| DENIES.has(word));
    all || WHOLE.contains(&part) || is_not_done(part)
}

/// Whether a line is a list of numbers and nothing else: `5,5,4`.
pub fn is_list(text: &str) -> bool {
    let digit = |c: char| c.is_ascii_digit();
    let numbers = text.split(|c: char| !digit(c)).filter(|number| !number.is_empty()).count();
    numbers > 1 && text.trim().chars().all(|c| digit(c) || matches!(c, ' ' | ',' | '/' | '-' | '.'))
}

/// Whether a line is a number and nothing else, behind a bullet: `- 8`.
pub fn is_number(text: &str) -> bool {
    let number = text.trim().strip_prefix(['-', '*', '+']).map_or("", str::trim);
    !number.is_empty() && number.len() <= 3 && number.bytes().all(|byte| byte.is_ascii_digit())
}

/// Whether the numbers of words in parentheses are none of the sets': `(lw 97.5)`, `(grip 81 cm)`, but not `(got 4)`.
pub(super) fn is_beside_the_sets(text: &str) -> bool {
    let lower = text.to_lowercase();
    let compares =
        ["last week", "last time", "last session", "last month", "last year"].iter().any(|last| lower.contains(last));
    // `(got 4 this time)`: what was done all the same.
    let done = words(&lower)
        .any(|word| R::Only.has(word) || matches!(word, "lost" | "made" | "minus") || (word == "last" && !compares));
    !done && words(&lower).any(|word| BESIDE.has(word))
}

#[cfg(test)]
mod tests {
    use super::{is_beside_the_sets, is_undone};

    #[test]
    fn what_was_not_done_as_it_is_written_is_told_from_what_is_said_of_it() {
        for undone in [
            "skipped",
            "not done",
            "not today",
            "next week",
            "planned",
            "no",
            "didn't finish",
            "couldn\u{2019}t lock it",
            "gave up",
            "cut short",
            "extra set",
            "rest-pause",
            "pas fait",
            "nicht geschafft",
            "(no hecho)",
            "no lift",
        ] {
            assert!(is_undone(undone), "{undone}");
        }
        for remark in [
            "as planned",
            "wie geplant",
            "not bad",
            "no belt",
            "no help",
            "next time heavier",
            "short rest",
            "extra easy",
            "today",
            "didn't feel good",
            "nicht schlecht",
            "sans aide",
        ] {
            assert!(!is_undone(remark), "{remark}");
        }
    }

    #[test]
    fn a_number_beside_the_sets_is_of_something_that_is_measured_or_compared() {
        for beside in ["lw 97.5", "vs 97.5", "last week 97.5", "grip 81 cm", "next time 102.5"] {
            assert!(is_beside_the_sets(beside), "{beside}");
        }
        for of_sets in ["got 4", "only 4", "4 last", "1 short", "minus 1", "4 on the last", "got 4 this time"] {
            assert!(!is_beside_the_sets(of_sets), "{of_sets}");
        }
    }
}
