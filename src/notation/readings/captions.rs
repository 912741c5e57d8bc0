//! Lines above sets that say whether, when, by whom or how often these were done: `Next week:`, `Plan`, `EMOM 10`.

use super::day_names::{month, weekday};
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

/// Plans, other times, other people.
#[rustfmt::skip]
const NOT_DONE: [&str; 144] = [
    "1rm", "1rms", "alternatively", "alternativen", "amanhã", "ayer", "beispiel", "boyfriend", "brother", "cel",
    "cible", "client", "coach", "copied", "demain", "dernier", "dernière", "didnt", "doel", "domani", "else",
    "example", "examples", "förra", "geplant", "gestern", "girlfriend", "gisteren", "goal", "goals", "gårdagens",
    "he", "her", "hier", "him", "homework", "husband", "idea", "ideas", "ieri", "igår", "imorgon", "jutra", "jutro",
    "last", "letzte", "letzten", "letzter", "letztes", "maxes", "maximums", "mañana", "meta", "metas", "missed",
    "morgen", "mål", "następna", "następnego", "następny", "następnym", "next", "nächste", "nächsten", "nächster",
    "nächstes", "nästa", "obiettivo", "objectif", "objectifs", "objetivo", "objetivos", "ontem", "partner",
    "partners", "pasada", "pasado", "pb", "pbs", "plan", "planned", "planning", "plans", "pr", "prescribed",
    "previous", "previously", "prochain", "prochaine", "program", "programa", "programm", "programma", "programme",
    "programming", "prossima", "prossimo", "prs", "przyszły", "prévu", "próxima", "próximo", "příští", "příště",
    "record", "records", "rekord", "rekorde", "rx", "says", "schedule", "scheduled", "scorsa", "she", "sheet",
    "sister", "skipped", "soll", "someday", "supposed", "target", "targets", "template", "they", "tmrw", "todo",
    "tomorrow", "undone", "upcoming", "volgende", "vorige", "včera", "wanted", "wants", "wczoraj", "wczorajszy",
    "wife", "wrote", "yesterday", "ziel", "ziele", "zítra", "övermorgon", "última",
];

/// The same, which say so only where nothing else is said.
#[rustfmt::skip]
const NOT_DONE_ALONE: [&str; 20] = [
    "ago", "alternative", "alternatives", "before", "best", "bests", "hers", "his", "later", "left", "maybe", "nie",
    "not", "não", "option", "options", "or", "should", "still", "their",
];

/// Sets that are done before the work.
#[rustfmt::skip]
const WARM_UP: [&str; 17] = [
    "aquecimento", "aufwärmen", "aufwärmsätze", "build", "calentamiento", "opwarmen", "ramp", "ramping", "rampup",
    "riscaldamento", "rozgrzewka", "uppvärmning", "warm", "warmup", "warmups", "wu", "échauffement",
];

/// Words that say no more beside one of those.
#[rustfmt::skip]
const BESIDE: [&str; 80] = [
    "a", "all", "an", "and", "at", "be", "block", "but", "current", "cycle", "das", "day", "days", "der", "did",
    "die", "do", "done", "einheit", "ever", "far", "fois", "for", "from", "für", "get", "gym", "gång", "had", "i",
    "in", "keer", "la", "le", "lifts", "list", "mal", "meet", "month", "my", "na", "no", "of", "old", "on", "our",
    "out", "para", "pour", "razem", "s", "same", "season", "semaine", "semana", "session", "sessions", "sets",
    "settimana", "so", "séance", "the", "this", "time", "to", "training", "tydzień", "uke", "up", "ups", "vecka",
    "vez", "week", "weeks", "what", "woche", "workout", "year", "yet", "your",
];

/// What a line about loads says their unit is.
const UNITS: [&str; 9] = ["kg", "kgs", "kilo", "kilos", "lb", "lbs", "livres", "pfund", "pounds"];

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
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let has = |all: &[&str]| words.iter().any(|word| all.contains(word));
    let unit = has(&UNITS) && !has(&OF_WEIGHT) && words.len() <= 8;
    let bar = has(&["bar", "side"]) && words.len() > 1 && words.iter().all(|word| OF_BAR.contains(word));
    unit || bar
}

/// What was done, and the parts of a session.
#[rustfmt::skip]
const DONE: [&str; 91] = [
    "a", "accessories", "accessory", "actual", "actually", "afternoon", "am", "and", "arms", "assistance", "aujourd",
    "b", "back", "backoff", "block", "body", "bonus", "c", "chest", "comment", "comments", "conditioning", "core",
    "d", "day", "did", "done", "evening", "exercise", "exercises", "extra", "fait", "fatto", "finisher", "first",
    "full", "gemacht", "gym", "hauptteil", "heavy", "hecho", "heute", "hoy", "hui", "hypertrophy", "ich", "idag",
    "kommentar", "leg", "legs", "lift", "lifts", "light", "log", "lower", "machines", "main", "me", "moi", "morning",
    "myself", "note", "notes", "notizen", "now", "oggi", "part", "pm", "power", "pull", "push", "remarks", "result",
    "results", "second", "session", "sets", "shoulders", "strength", "superset", "supersets", "then", "today",
    "tonight", "training", "upper", "vandaag", "volume", "work", "workout", "yo",
];

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
    let words: Vec<String> = text
        .replace("n't", "nt")
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    // `Plan: 3x5`, `AMRAP 12 min: 5 pull-ups, 10 push-ups` say themselves what they are of.
    let inner = text.trim_end_matches(':').contains([':', ',']);
    if !inner && is_rounds(&words, colon) {
        return Some(Says::Rounds);
    }
    let is = |word: &String, list: &[&str]| list.contains(&word.as_str());
    let any = |list: &[&str]| words.iter().any(|word| is(word, list));
    let number = |word: &String| word.bytes().all(|byte| byte.is_ascii_digit());
    let beside = |word: &String| is(word, &BESIDE) || weekday(word).is_some() || month(word).is_some() || number(word);
    // `On Tuesday I did` speaks of another day, and `to do` of one to come.
    let of_a_day = words.iter().any(|word| word.len() > 3 && weekday(word).is_some())
        && words.iter().any(|word| matches!(word.as_str(), "did" | "do" | "will" | "from" | "for" | "s"));
    let to_do = words.windows(2).any(|two| two == ["to", "do"]);
    let planned = any(&NOT_DONE) || of_a_day || to_do;
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
    let not_done = |word: &String| is(word, &NOT_DONE) || is(word, &NOT_DONE_ALONE);
    let said = (planned || words.iter().any(not_done)) && words.iter().all(|word| not_done(word) || beside(word));
    let warm_up = any(&WARM_UP)
        && words.iter().all(|word| is(word, &WARM_UP) || matches!(word.as_str(), "set" | "sets" | "up" | "ups"));
    if !inner && (said || warm_up) {
        return Some(Says::NotDone);
    }
    let alone = !inner && !text.contains(|c: char| c.is_ascii_digit());
    if alone && words.iter().all(|word| is(word, &DONE)) {
        return Some(Says::Done);
    }
    // `Bo's sets`
    let whose = matches!(words, [_, s, what] if s == "s" && matches!(what.as_str(), "sets" | "lifts" | "numbers"));
    ((colon && alone && !heading) || whose).then_some(Says::Unclear)
}

/// What a day is called that has not been, or was left out.
#[rustfmt::skip]
const NO_DAY: [&str; 30] = [
    "abgesagt", "annulé", "annulée", "ausgefallen", "cancelado", "canceled", "cancelled", "did", "done", "gepland",
    "geplant", "happen", "inställt", "missed", "nicht", "no", "not", "overgeslagen", "pianificato", "plan", "planeado",
    "planerat", "planned", "prévu", "saltato", "skip", "skipped", "todo", "tomorrow", "yesterday",
];

/// Whether what stands behind a date says that nothing was done on it: `planned`, `(skipped)`.
pub fn is_of_no_day(label: &str) -> bool {
    let words = || label.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let word = |word: &str| NO_DAY.binary_search(&word.to_lowercase().as_str()).is_ok();
    words().all(word) && words().any(|word| !matches!(word.to_lowercase().as_str(), "did" | "done"))
}

/// `EMOM 10`, `AMRAP 12 min`, `Every 2 min for 10 min`, `3 rounds:`, `Circuit x3:`
fn is_rounds(words: &[String], colon: bool) -> bool {
    let [first, rest @ ..] = words else { return false };
    let number = |word: &str| {
        let spelled = matches!(word, "two" | "three" | "four" | "five" | "six" | "drei" | "vier" | "trois" | "tres");
        spelled || word.starts_with(|c: char| c.is_ascii_digit())
    };
    let minutes = |word: &String| {
        let unit = word.trim_start_matches(|c: char| c.is_ascii_digit());
        matches!(unit, "min" | "mins" | "minute" | "minutes" | "minuten" | "minutos" | "sec" | "secs" | "seconds" | "s")
    };
    let rounds = |word: &str| {
        matches!(word, "round" | "rounds" | "rds" | "runden" | "rondas" | "rondes" | "times" | "tours" | "trips")
    };
    let times = rest.iter().any(|word| number(word) || word.strip_prefix('x').is_some_and(number));
    words.len() <= MOST_OF_ROUNDS
        && match first.as_str() {
            "emom" | "e2mom" | "e3mom" | "tabata" | "circuit" | "metcon" | "wod" | "zirkel" | "circuito" | "repeat" => {
                words.len() <= 4
            }
            "amrap" => rest.len() <= 2 && (rest.iter().any(minutes) || (rest.is_empty() && colon)),
            "every" => times && rest.iter().any(minutes),
            "rounds" | "superset" | "supersets" | "giant" => times && (colon || words.len() <= 3),
            word => number(word) && rest.first().is_some_and(|word| rounds(word)),
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
    match key.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase().as_str() {
        "weight" | "load" | "gewicht" | "last" | "peso" | "poids" => Some(true),
        "sets" | "reps" | "set" | "rep" | "repetitions" | "wdh" | "wiederholungen" | "sätze" | "series" | "séries"
        | "repeticiones" | "répétitions" => Some(false),
        _ => None,
    }
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
