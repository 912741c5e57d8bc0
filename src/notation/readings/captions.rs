//! Lines above sets that say whether, when, by whom or how often these were done: `Next week:`, `Plan`, `EMOM 10`.

use super::day_names::{month, weekday};
use super::words::is_no_day;

/// What a caption says of the sets below it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Says {
    /// That they were done: `Today:`, `Main work:`.
    Done,
    /// That they are of another time, a plan, or another person's.
    NotDone,
    /// How often all of them were done: `3 rounds:`.
    Rounds,
    /// Nobody knows what: `Anna:`.
    Unclear,
}

/// Longer lines are no captions.
const LONGEST: usize = 60;
const MOST_WORDS: usize = 4;
const MOST_OF_ROUNDS: usize = 7;

/// Plans, other times, other people.
#[rustfmt::skip]
const NOT_DONE: [&str; 107] = [
    "ayer", "boyfriend", "brother", "cel", "cible", "client", "coach", "demain", "dernier", "dernière", "doel", "domani",
    "förra", "geplant", "gestern", "gisteren", "girlfriend", "goal", "goals", "he", "her", "hier", "him", "homework",
    "husband", "idea", "ideas", "ieri", "igår", "imorgon", "jutro", "last", "letzte", "letzten", "letzter", "letztes",
    "mañana", "meta", "metas", "missed", "morgen", "mål", "next", "następny", "nächste", "nächsten", "nächster",
    "nächstes", "nästa", "objectif", "objectifs", "objetivo", "objetivos", "obiettivo", "partner", "pasada", "pasado",
    "pb", "pbs", "plan", "planned", "planning", "plans", "pr", "prescribed", "previous", "previously", "prochain",
    "prochaine", "program", "programa", "programm", "programma", "programme", "programming", "prossima", "prossimo",
    "prs", "prévu", "próxima", "próximo", "record", "records", "rekord", "rekorde", "schedule", "scheduled", "scorsa",
    "she", "sister", "skipped", "soll", "target", "targets", "template", "they", "todo", "tomorrow", "upcoming",
    "volgende", "vorige", "wczoraj", "wife", "yesterday", "ziel", "ziele", "última",
];

/// Words that say no more beside one of those.
#[rustfmt::skip]
const BESIDE: [&str; 46] = [
    "a", "all", "and", "at", "block", "cycle", "das", "day", "days", "der", "die", "do", "einheit", "fois", "for",
    "für", "gym", "in", "la", "le", "list", "mal", "meet", "month", "my", "of", "on", "para", "pour", "season",
    "semaine", "semana", "session", "sessions", "séance", "the", "this", "time", "to", "training", "vez", "week",
    "weeks", "woche", "workout", "year",
];

/// What was done, and the parts of a session.
#[rustfmt::skip]
const DONE: [&str; 84] = [
    "a", "accessories", "accessory", "actual", "actually", "afternoon", "am", "and", "arms", "assistance", "aujourd",
    "b", "back", "backoff", "block", "body", "bonus", "c", "chest", "conditioning", "core", "d", "day", "did", "done",
    "evening", "exercise", "exercises", "extra", "fait", "fatto", "finisher", "first", "full", "gemacht", "gym",
    "hauptteil", "heavy", "hecho", "heute", "hoy", "hui", "hypertrophy", "ich", "idag", "leg", "legs", "lift", "lifts",
    "light", "log", "lower", "machines", "main", "me", "moi", "morning", "myself", "now", "oggi", "part", "pm", "power",
    "pull", "push", "result", "results", "second", "session", "sets", "shoulders", "strength", "superset", "supersets",
    "then", "today", "tonight", "training", "upper", "vandaag", "volume", "work", "workout", "yo",
];

/// What a line, or a heading, says of the sets below it. `of_plans`: whether one word of a plan in it is enough.
pub fn caption(text: &str, heading: bool, of_plans: bool) -> Option<Says> {
    // Most lines are words, and too many of them, or a sentence.
    let sign = |byte: u8| matches!(byte, b'.' | b'!' | b'?' | b';' | b'@');
    if text.len() > LONGEST || text.bytes().filter(|byte| *byte == b' ').count() > MOST_OF_ROUNDS {
        return None;
    }
    if !heading && text.bytes().any(sign) {
        return None;
    }
    let text = text.trim_matches(|c: char| c.is_whitespace() || matches!(c, '*' | '_' | '`' | '#'));
    let colon = text.ends_with(':');
    let words: Vec<String> =
        text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    // `Plan: 3x5`, `AMRAP 12 min: 5 pull-ups, 10 push-ups` say themselves what they are of.
    let inner = text.trim_end_matches(':').contains([':', ',']);
    if !inner && is_rounds(&words, colon) {
        return Some(Says::Rounds);
    }
    let is = |word: &String, list: &[&str]| list.contains(&word.as_str());
    let any = |list: &[&str]| words.iter().any(|word| is(word, list));
    let number = |word: &String| word.bytes().all(|byte| byte.is_ascii_digit());
    let beside = |word: &String| is(word, &BESIDE) || weekday(word).is_some() || month(word).is_some() || number(word);
    let not_done = any(&NOT_DONE);
    if of_plans && (not_done || is_no_day(text)) {
        return Some(Says::NotDone);
    }
    if words.is_empty() || words.len() > MOST_WORDS {
        return None;
    }
    if not_done && !inner && words.iter().all(|word| is(word, &NOT_DONE) || beside(word)) {
        return Some(Says::NotDone);
    }
    let alone = !inner && !text.contains(|c: char| c.is_ascii_digit());
    if alone && words.iter().all(|word| is(word, &DONE)) {
        return Some(Says::Done);
    }
    (colon && alone && !heading).then_some(Says::Unclear)
}

/// `EMOM 10`, `AMRAP 12 min`, `Every 2 min for 10 min`, `3 rounds:`, `Circuit x3:`
fn is_rounds(words: &[String], colon: bool) -> bool {
    let [first, rest @ ..] = words else { return false };
    let number = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    let minutes = |word: &String| {
        let unit = word.trim_start_matches(|c: char| c.is_ascii_digit());
        matches!(unit, "min" | "mins" | "minute" | "minutes" | "minuten" | "minutos" | "sec" | "secs" | "seconds" | "s")
    };
    let rounds = |word: &str| matches!(word, "round" | "rounds" | "rds" | "runden" | "rondas" | "rondes" | "tours");
    let times = rest.iter().any(|word| number(word) || word.strip_prefix('x').is_some_and(number));
    words.len() <= MOST_OF_ROUNDS
        && match first.as_str() {
            "emom" | "e2mom" | "e3mom" | "tabata" | "circuit" | "metcon" | "wod" | "zirkel" | "circuito" => {
                words.len() <= 4
            }
            "amrap" => rest.len() <= 2 && (rest.iter().any(minutes) || (rest.is_empty() && colon)),
            "every" => times && rest.iter().any(minutes),
            "rounds" | "superset" | "supersets" | "giant" => times && (colon || words.len() <= 3),
            word => number(word) && rest.first().is_some_and(|word| rounds(word)) && (colon || words.len() <= 4),
        }
}

/// A line of a card: `Weight: 100`, `Sets: 3`. Whether it says the load.
pub fn of_card(line: &str) -> Option<bool> {
    let (key, value) = line.trim().trim_start_matches(['-', '*', '+', ' ']).split_once(':')?;
    if key.len() > 16 || !value.trim_start().starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    match key.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase().as_str() {
        "weight" | "load" | "gewicht" | "last" | "peso" | "poids" => Some(true),
        "sets" | "reps" | "set" | "rep" | "repetitions" | "wdh" | "wiederholungen" | "sätze" | "series" | "séries"
        | "repeticiones" | "répétitions" => Some(false),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::Says::{Done, NotDone, Rounds, Unclear};
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
