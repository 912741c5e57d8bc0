//! Lines above sets that say whether, when, by whom or how often these were done: `Next week:`, `Plan`, `EMOM 10`.

use super::day_names::{month, weekday};
use super::undone::{is_undone, not_done};
use super::vocabulary::{Role as R, Roles, words};
use super::words::is_no_day;
use crate::source::Cut;

/// What a caption says of the sets below it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Says {
    /// That they were done: `Today:`, `Main work:`.
    Done,
    /// That they are of another time, a plan, or another person's.
    NotDone,
    /// How often all of them were done: `3 rounds:`.
    Rounds,
    /// What all numbers are of: `all weights in lbs`.
    Units,
    /// Nobody knows what: `Anna:`.
    Unclear,
}

/// Longer lines are no captions.
const LONGEST: usize = 60;
const MOST_WORDS: usize = 6;
const MOST_OF_ROUNDS: usize = 7;

/// Plans, other times, other people, and what was left out.
const NOT_DONE: Roles =
    Roles::of(&[R::Plan, R::Listed, R::ToCome, R::DayBefore, R::Next, R::Last, R::Person, R::LeftOut]);
/// The same, and what says so only where nothing else is said.
const NOT_DONE_ALONE: Roles = NOT_DONE.and(Roles::of(&[R::Alone]));
/// Sets that are done before the work.
const WARM_UP: Roles = Roles::of(&[R::WarmUp, R::WarmingUp]);
/// Words that say no more beside one of those.
const BESIDE: Roles = Roles::of(&[R::Calendar, R::Occasion, R::Little, R::Beside]);
/// What a line about loads says their unit is.
const UNITS: Roles = Roles::of(&[R::Kilograms, R::Pounds, R::NamedUnit]);
/// What was done, and the parts of a session.
const DONE: Roles = Roles::of(&[R::Done, R::Title, R::Today]);

/// Words of what a lifter weighs, or how it felt, and not of what hung on the bar.
const OF_WEIGHT: [&str; 12] =
    ["body", "bodyweight", "down", "eat", "gained", "heavier", "lighter", "lose", "losing", "lost", "scale", "weigh"];

/// Words that say whether the bar counts, or one side.
#[rustfmt::skip]
const OF_BAR: [&str; 22] = [
    "added", "all", "are", "bar", "counted", "counting", "each", "excluding", "extra", "included", "including", "is",
    "loads", "not", "per", "plus", "side", "that", "the", "weights", "with", "without",
];

/// `all weights in lbs`, `hotel gym, so pounds`, `without the bar`: what numbers are of, and no number.
fn is_of_units(text: &str) -> bool {
    let bytes = text.as_bytes();
    // Few lines have any of it.
    let signs = |sign: &str| memchr::memmem::find(bytes, sign.as_bytes()).is_some();
    if !(signs("b") && (signs("lb") || signs("bar")) || signs("ounds") || signs("kilo") || signs("kg") || signs("side"))
        && !(signs("livres") || signs("fund"))
        || bytes.iter().any(u8::is_ascii_digit)
    {
        return false;
    }
    let lower = text.to_lowercase();
    let words: Vec<&str> = words(&lower).collect();
    let has = |all: &[&str]| words.iter().any(|word| all.contains(word));
    let unit = words.iter().any(|word| UNITS.has(word)) && !has(&OF_WEIGHT) && words.len() <= 8;
    let bar = has(&["bar", "side"]) && words.len() > 1 && words.iter().all(|word| OF_BAR.contains(word));
    unit || bar
}

/// What a line, or a heading, says of the sets below it. `of_plans`: whether one word of a plan in it is enough.
pub fn caption(text: &str, heading: bool, of_plans: bool) -> Option<Says> {
    if !heading && text.len() <= LONGEST && is_of_units(text) {
        return Some(Says::Units);
    }
    // Most lines are words, and too many of them, or a sentence.
    let sign = |byte: u8| matches!(byte, b'.' | b'!' | b'?' | b';' | b'@');
    if text.len() > LONGEST || (!heading && text.bytes().rev().any(sign)) {
        return None;
    }
    if text.bytes().filter(|byte| *byte == b' ').count() > MOST_OF_ROUNDS {
        return None;
    }
    let text = text.trim_matches(|c: char| c.is_whitespace() || matches!(c, '*' | '_' | '`' | '#'));
    let colon = text.ends_with(':');
    let words: Vec<String> = words(&text.replace("n't", "nt")).map(str::to_lowercase).collect();
    // `Plan: 3x5`, `AMRAP 12 min: 5 pull-ups, 10 push-ups` say themselves what they are of.
    let inner = text.trim_end_matches(':').contains([':', ',']);
    if !inner && is_rounds(&words, colon) {
        return Some(Says::Rounds);
    }
    let any = |roles: Roles| words.iter().any(|word| roles.has(word));
    let number = |word: &String| word.bytes().all(|byte| byte.is_ascii_digit());
    let beside = |word: &String| BESIDE.has(word) || weekday(word).is_some() || month(word).is_some() || number(word);
    // `On Tuesday I did` speaks of another day, and `to do` of one to come.
    let of_a_day = words.iter().any(|word| word.len() > 3 && weekday(word).is_some())
        && words.iter().any(|word| matches!(word.as_str(), "did" | "do" | "will" | "from" | "for" | "s"));
    let to_do = words.windows(2).any(|two| two == ["to", "do"]);
    let planned = any(NOT_DONE) || of_a_day || to_do;
    if of_plans && (planned || is_no_day(text)) {
        return Some(Says::NotDone);
    }
    if words.is_empty() || words.len() > MOST_WORDS {
        return None;
    }
    let words = words.strip_prefix(&["today".to_owned(), "s".to_owned()][..]).unwrap_or(&words);
    // `Best day in 3 weeks`, `Last week of the block` say how it was.
    let of_day = |word: &String| matches!(word.as_str(), "day" | "session" | "workout" | "training");
    let of_feeling = words.iter().any(|word| matches!(word.as_str(), "best" | "bests")) && words.iter().any(of_day);
    let told = |word: &String| matches!(word.as_str(), "1rm" | "1rms") || number(word);
    if !colon && (of_feeling || (words.len() > 2 && words.iter().any(number) && !words.iter().all(told))) {
        return None;
    }
    let said = (planned || words.iter().any(|word| NOT_DONE_ALONE.has(word)))
        && words.iter().all(|word| NOT_DONE_ALONE.has(word) || beside(word));
    // `Ran out of time for:`
    let undone = colon && is_undone(text);
    let warm_up = any(WARM_UP)
        && words.iter().all(|word| WARM_UP.has(word) || matches!(word.as_str(), "set" | "sets" | "up" | "ups"));
    if !inner && (said || undone || warm_up) {
        return Some(Says::NotDone);
    }
    let alone = !inner && !text.contains(|c: char| c.is_ascii_digit());
    if alone && words.iter().all(|word| DONE.has(word)) {
        return Some(Says::Done);
    }
    // `Bo's sets`
    let whose = matches!(words, [_, s, what] if s == "s" && matches!(what.as_str(), "sets" | "lifts" | "numbers"));
    ((colon && alone && !heading) || whose).then_some(Says::Unclear)
}

/// Whether what stands behind a date says that nothing was done on it: `planned`, `(skipped)`, `off sick`,
/// `moved to Saturday`.
pub fn is_of_no_day(label: &str) -> bool {
    let beside = |word: &str| {
        let day = word.len() > 2 && weekday(word).is_some();
        day || matches!(word, "day" | "off" | "to" | "the")
    };
    not_done(label, beside, |word| matches!(word, "ill" | "moved" | "rest" | "sick"))
}

/// `EMOM 10`, `AMRAP 12 min`, `Every 2 min for 10 min`, `3 rounds:`, `Circuit x3:`
fn is_rounds(words: &[String], colon: bool) -> bool {
    let [first, rest @ ..] = words else { return false };
    const TIME: Roles = Roles::of(&[R::Minutes, R::Seconds]);
    let number = |word: &str| R::Numbers.has(word) || word.starts_with(|c: char| c.is_ascii_digit());
    let minutes = |word: &String| TIME.has(word.trim_start_matches(|c: char| c.is_ascii_digit()));
    let times = rest.iter().any(|word| number(word) || word.strip_prefix('x').is_some_and(number));
    words.len() <= MOST_OF_ROUNDS
        && match first.as_str() {
            "emom" | "e2mom" | "e3mom" | "tabata" | "circuit" | "metcon" | "wod" | "zirkel" | "circuito" | "repeat" => {
                words.len() <= 4
            }
            "amrap" => rest.len() <= 2 && (rest.iter().any(minutes) || (rest.is_empty() && colon)),
            "every" => times && rest.iter().any(minutes),
            "rounds" | "superset" | "supersets" | "giant" => times && (colon || words.len() <= 3),
            word => number(word) && rest.first().is_some_and(|word| R::Rounds.has(word)),
        }
}

/// Longer words are no keys of a card.
const LONGEST_KEY: usize = 16;

/// A line of a card: `Weight: 100`, `Sets: 3`. Whether it says the load.
pub fn of_card(line: &str) -> Option<bool> {
    let line = line.trim_start_matches(|c: char| c.is_whitespace() || matches!(c, '-' | '*' | '+'));
    // Most lines are words, with no colon near their start.
    let colon = memchr::memchr(b':', line.as_bytes().get(..=LONGEST_KEY).unwrap_or(line.as_bytes()))?;
    let (key, value) = (line.head(colon), line.tail(colon + 1));
    if !value.trim_start().starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let key = key.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    // `Last` is a load in German, and a time elsewhere.
    if key == "last" {
        return Some(true);
    }
    R::first(&key, &[(R::LoadKey, true), (R::Sets, false), (R::Reps, false)])
}

#[cfg(test)]
mod tests {
    use super::Says::{Done, NotDone, Rounds, Unclear, Units};
    use super::caption;

    #[test]
    fn captions_say_when_and_by_whom() {
        for (line, says) in [
            ("Next week:", Some(NotDone)),
            ("**Plan**", Some(NotDone)),
            ("Plan for Thursday:", Some(NotDone)),
            ("nächste Woche", Some(NotDone)),
            ("PRs:", Some(NotDone)),
            ("Today:", Some(Done)),
            ("Main work:", Some(Done)),
            ("Anna:", Some(Unclear)),
            ("EMOM 10", Some(Rounds)),
            ("AMRAP 12 min", Some(Rounds)),
            ("Every 2 min for 10 min", Some(Rounds)),
            ("3 rounds:", Some(Rounds)),
            ("Circuit x3:", Some(Rounds)),
            ("5 times through", Some(Rounds)),
            ("Today's plan", Some(NotDone)),
            ("What I did last Thursday", Some(NotDone)),
            ("On Tuesday I did", Some(NotDone)),
            ("Same day last year", Some(NotDone)),
            ("Not done", Some(NotDone)),
            ("To do on Saturday:", Some(NotDone)),
            ("Następnym razem", Some(NotDone)),
            ("Warm-up sets", Some(NotDone)),
            ("No warm-up today", None),
            ("Best set today", None),
            ("Best day in 3 weeks", None),
            ("Last session of 3", None),
            ("Notes:", Some(Done)),
            ("all weights in lbs", Some(Units)),
            ("Weights per side, bar not counted", Some(Units)),
            ("without the bar", Some(Units)),
            ("Hotel gym today so lb not kg", Some(Units)),
            ("lost a few pounds", None),
            ("bar felt heavy", None),
            ("4 rounds with 1 min rest", Some(Rounds)),
            ("three times through", Some(Rounds)),
            ("Bo's sets", Some(Unclear)),
            ("From Monday", Some(NotDone)),
            ("Still to do", Some(NotDone)),
            ("Coach wants", Some(NotDone)),
            ("Ramp up", Some(NotDone)),
            ("AMRAP 80x9", None),
            ("felt easy", None),
            ("Next time keep the elbows up", None),
            ("Last set hard", None),
            ("Plan: 3x5 100", None),
        ] {
            assert_eq!(caption(line, false, false), says, "{line}");
        }
    }
}
