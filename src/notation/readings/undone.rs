//! What words beside the sets say of whether they were done: a remark that says they were not, or that they were others
//! than are written, is none.

/// Words that no set stands beside which was done as it is written.
#[rustfmt::skip]
const UNDONE: [&str; 153] = [
    "abandoned", "abgebrochen", "abgesagt", "aborted", "aide", "aidé", "aim", "aiuto", "ajuda", "annullato", "annulé",
    "annulée", "ausgefallen", "ausgelassen", "ayer", "ayuda", "bail", "bailed", "bailing", "brother", "cancelado",
    "canceled", "cancelled", "cut", "demain", "dnf", "domani", "dropped", "echec", "falha", "falhei", "falhou",
    "fallado", "falle", "fallida", "fallido", "fallimento", "fallita", "fallite", "fallito", "fallo", "falls",
    "fallé", "forced", "forcée", "forcées", "gave", "gemist", "gepland", "geplant", "gescheitert", "gestern",
    "gestrichen", "gisteren", "goal", "help", "her", "hers", "hilfe", "him", "his", "hjälp", "hoped", "hoppade",
    "hulp", "husband", "ieri", "if", "igår", "imorgon", "incomplete", "intended", "jutro", "manana", "mañana",
    "misloaded", "mislukt", "missad", "missade", "missat", "missing", "misslungen", "misslyckad", "misslyckades",
    "morgen", "muskelversagen", "myo", "myoreps", "myos", "nieudana", "nieudane", "nope", "obiettivo", "objectif",
    "objetivo", "ontem", "opgegeven", "overgeslagen", "pianificato", "plan", "planeado", "planned", "pominięte",
    "pominięty", "pomocą", "postponed", "previsto", "prévu", "prévue", "prévues", "přerušeno", "quit", "raté",
    "ratée", "ratées", "saltada", "saltado", "saltata", "saltato", "sauté", "sautée", "scheduled", "short", "sister",
    "skip", "skipped", "skipping", "spalone", "stalled", "stopped", "stuck", "target", "todo", "tomorrow",
    "unfinished", "upcoming", "verfehlt", "verladen", "versagen", "vynechal", "vynecháno", "včera", "watched",
    "wczoraj", "wife", "yesterday", "ziel", "zítra", "échec", "échoué", "échouée", "überspringen", "übersprungen",
];

/// Words that deny the ones behind them.
const DENIALS: [&str; 20] = [
    "aint", "couldnt", "didnt", "ikke", "inte", "kein", "nao", "ne", "never", "nicht", "nie", "niet", "no", "non",
    "not", "não", "pas", "wasnt", "without", "wont",
];

/// What was not done, was not finished, or will be another day, behind a denial.
#[rustfmt::skip]
const DENIED: [&str; 55] = [
    "aujourdhui", "complete", "completed", "counted", "do", "done", "fait", "faite", "fatto", "feita", "feito",
    "fertig", "fini", "finish", "finished", "finita", "finito", "fiz", "gedaan", "gehaald", "gelukt", "gemacht",
    "geschafft", "get", "gjorde", "gjort", "got", "happen", "happened", "hecha", "hecho", "heute", "hotovo", "hoy",
    "klart", "lift", "lifted", "lock", "locked", "made", "make", "oggi", "rep", "reps", "réussi", "terminado",
    "terminé", "today", "udělal", "udělala", "vandaag", "yet", "zrobione", "zrobiłam", "zrobiłem",
];

/// Words of times to come, or that deny all there is: alone they say that nothing was done.
#[rustfmt::skip]
const ANOTHER_TIME: [&str; 53] = [
    "ago", "dernière", "earlier", "friday", "förra", "kein", "last", "later", "letzte", "letzten", "letzter",
    "letztes", "maybe", "monday", "moved", "następnym", "nee", "nein", "nej", "never", "next", "nicht", "nie", "no",
    "non", "not", "nächste", "nächstes", "nästa", "pas", "pasada", "pasado", "prochaine", "prossima", "próxima",
    "próximo", "příště", "razem", "saturday", "scorsa", "scorso", "soon", "später", "sunday", "thursday", "tuesday",
    "verschoben", "volgend", "volgende", "vorige", "wednesday", "would", "yet",
];
/// What stands beside them.
#[rustfmt::skip]
const TIMES: [&str; 39] = [
    "a", "année", "aujourdhui", "año", "day", "days", "done", "fois", "from", "gång", "heute", "hoy", "jahr", "keer",
    "la", "mal", "month", "moved", "of", "oggi", "on", "previous", "raz", "razem", "semaine", "semana",
    "session", "settimana", "the", "time", "to", "today", "vecka", "vez", "volta", "week", "weeks", "woche",
    "year",
];

/// Words that were taken together.
const PHRASES: [&str; 19] = [
    " ecc only ",
    " eccentric only ",
    " eccentrics only ",
    " nur exzentrisch ",
    " give up ",
    " rest pause ",
    " extra set ",
    " extra sets ",
    " extra rep ",
    " extra reps ",
    " extra satz ",
    " extra serie ",
    " to do ",
    " al cedimento ",
    " got only ",
    " a hand ",
    " a leg ",
    " an arm ",
    " no good ",
];

/// How often something is done, and not what was: `20 push-ups every hour`.
const RATES: [&str; 12] = [
    "a day",
    "al día",
    "an hour",
    "daily",
    "each day",
    "every day",
    "every hour",
    "jeden tag",
    "par jour",
    "per day",
    "per hour",
    "pro tag",
];

/// Whether words beside the sets say that these were not done, or not as they are written.
pub(super) fn is_undone(text: &str) -> bool {
    let lower = text.to_lowercase().replace(['\'', '\u{2019}'], "");
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let said = words.iter().enumerate().any(|(at, word)| {
        // `as planned` was done; `no help` was none, and a short rest is one.
        let before = at.checked_sub(1).and_then(|before| words.get(before)).copied().unwrap_or("");
        let as_said = ["as", "wie", "comme", "como", "come", "than"].contains(&before);
        let none = ["no", "ohne", "sans", "sin", "senza", "without"].contains(&before);
        let behind = words.get(at + 1).copied().unwrap_or("");
        let of_rest = *word == "short" && (behind == "rest" || behind == "rests" || before == "rest");
        UNDONE.contains(word) && !as_said && !none && !of_rest
    });
    let denied = words.iter().enumerate().any(|(at, word)| {
        DENIALS.contains(word) && words.iter().skip(at + 1).take(2).any(|denied| DENIED.contains(denied))
    });
    let another = !words.is_empty()
        && words.iter().all(|word| ANOTHER_TIME.contains(word) || TIMES.contains(word))
        && words.iter().any(|word| ANOTHER_TIME.contains(word));
    let spaced = format!(" {} ", words.join(" "));
    said || denied || another || RATES.contains(&spaced.trim()) || PHRASES.iter().any(|phrase| spaced.contains(phrase))
}

/// Whether a line right below sets says that these were others than are written: `failed set 5`, `only did 4 sets`,
/// `edit: 102.5`.
pub fn amends(text: &str) -> bool {
    let lower = text.to_lowercase().replace(['\'', '\u{2019}'], "");
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let has = |all: &[&str]| words.iter().any(|word| all.contains(word));
    let number = |word: &&&str| word.bytes().all(|byte| byte.is_ascii_digit());
    let numbered = words.iter().any(|word| number(&word));
    let count = words.iter().any(|word| {
        word.split_once('x').is_some_and(|(sets, reps)| number(&&sets) && number(&&reps) && !sets.is_empty())
    });
    let of_sets = has(&["set", "sets", "satz", "sätze", "serie", "series", "séries", "serier", "serii"]);
    let of_reps = has(&["rep", "reps", "wdh", "wiederholungen", "répétitions", "repeticiones"]);
    // What was left in reserve, or what the next day brings, is only said of them.
    if has(&["reserve", "tank", "left", "rir", "rpe", "next", "could", "felt"]) || words.len() > 10 {
        return false;
    }
    let first = words.first().copied().unwrap_or("");
    let corrected = matches!(
        first,
        "edit"
            | "correction"
            | "korrektur"
            | "korrektion"
            | "corrección"
            | "sorry"
            | "wait"
            | "actually"
            | "eigentlich"
    ) || lower.contains("make that")
        || lower.contains("no wait");
    let nth = has(&["1st", "2nd", "3rd", "4th", "5th", "first", "second", "third", "fourth", "fifth", "last", "final"]);
    let spelled = has(&["one", "two", "three", "four", "five", "six"]);
    let fewer =
        has(&["only", "just", "nur", "solo", "seulement", "did", "got", "managed", "skipped", "dropped", "cut"]);
    let missed = has(&["failed", "fail", "missed", "miss", "lost", "verfehlt", "raté", "fallé", "missade", "skipped"]);
    let box_open = text.contains("[ ]") && (numbered || of_sets);
    let measured = has(&["min", "mins", "minutes", "sec", "kg", "lb", "hours", "cm", "10"]);
    // `last set 3`, `last set was 4 really`
    let last = matches!(first, "last" | "final" | "letzter" | "dernière" | "última")
        && of_sets
        && words.iter().filter(|word| number(word)).count() == 1
        && !measured;
    let more = numbered && has(&["more", "extra"]) && has(&["at", "with", "mit", "à", "con"]);
    // `not done`, `did not do these`, `cancelled`
    let denied = words.iter().all(|word| DENIED_WHOLE.contains(word) || number(&word))
        && has(&["not", "didnt", "skipped", "cancelled", "canceled", "scratch", "nope"]);
    let again =
        words.len() < 3 && words.iter().all(|word| matches!(*word, "same" | "ditto" | "again" | "idem" | "dito"));
    // `third one was a miss`, `last one assisted`, `one set short`
    let of_one =
        nth && has(&["miss", "missed", "skipped", "failed", "short", "assisted", "helped"]) && words.len() <= 6;
    let short = has(&["short", "minus", "no", "maybe"]) && of_sets && (nth || spelled || numbered);
    let slip = numbered && !measured && words.len() <= 5 && has(&["oops", "mean", "say", "actually", "been"]);
    let fewer_by_far = fewer && (numbered || spelled) && words.len() <= 3 && !measured;
    let repeated = has(&["repeat", "repeated", "did", "that"]) && has(&["times", "rounds", "twice"]);
    let warm_up = lower.contains("warm up") || lower.contains("warm-up") || has(&["warming", "warmup", "warmups"]);
    let not_me = words.len() <= 3 && has(&["not"]) && has(&["me"]);
    let another_day =
        words.iter().any(|word| word.len() > 3 && super::day_names::weekday(word).is_some()) && has(&["done"]);
    (corrected && (numbered || count))
        || of_one
        || short
        || slip
        || fewer_by_far
        || repeated
        || not_me
        || another_day
        || (warm_up && words.len() <= 5)
        || super::captions::is_of_no_day(text)
        || super::captions::caption(text, false, false) == Some(super::captions::Says::Units)
        || lower.contains("scratch that")
        || more
        || denied
        || (again && !words.is_empty())
        || (fewer && (numbered || spelled) && (of_sets || of_reps))
        || (fewer && numbered && nth && !measured)
        || (missed && (of_sets || of_reps))
        || (count && has(&["that", "was", "actually", "really", "eigentlich"]))
        || last
        || box_open
}

/// Words that together deny all of what stands above.
#[rustfmt::skip]
const DENIED_WHOLE: [&str; 28] = [
    "all", "any", "canceled", "cancelled", "counted", "did", "didnt", "do", "done", "happen", "i", "it", "last", "me",
    "nope", "not", "of", "rep", "reps", "scratch", "set", "sets", "skipped", "that", "the", "them", "these", "this",
];

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

/// Words of what is measured, compared or set up, whose numbers are none of the sets'.
#[rustfmt::skip]
const BESIDE: [&str; 59] = [
    "ago", "attempt", "bodyweight", "bpm", "bw", "cm", "day", "days", "e1rm", "est", "finger", "fingers", "foot", "grip", "heel",
    "height", "hold", "hole", "holes", "hr", "inch", "inches", "knee", "level", "lw", "min", "mins", "minute", "minutes", "mm",
    "month", "months", "next", "notch", "old", "pain", "pause", "pin", "pins", "prev", "previous", "rack", "rest", "seat", "sec", "seconds",
    "session", "stance", "than", "time", "try", "versus", "vs", "week", "weeks", "wider", "width", "woche", "year",
];

/// What says that a number is what was done all the same: `(got 4 this time)`.
const DONE: [&str; 12] =
    ["did", "got", "just", "last", "lost", "made", "managed", "minus", "nur", "only", "solo", "seulement"];

/// Whether the numbers of words in parentheses are none of the sets': `(lw 97.5)`, `(grip 81 cm)`, but not `(got 4)`.
pub(super) fn is_beside_the_sets(text: &str) -> bool {
    let lower = text.to_lowercase();
    let words = || lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let last_time = ["last week", "last time", "last session", "last month", "last year"].iter();
    let compares = last_time.clone().any(|last| lower.contains(last));
    let done = words().any(|word| DONE.contains(&word) && !(word == "last" && compares));
    !done && words().any(|word| BESIDE.contains(&word))
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
