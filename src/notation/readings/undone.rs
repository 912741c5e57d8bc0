//! What words beside the sets say of whether they were done: a remark that says they were not, or that they were others
//! than are written, is none.

/// Words that no set stands beside which was done as it is written.
#[rustfmt::skip]
const UNDONE: [&str; 111] = [
    "abandoned", "abgebrochen", "aborted", "aide", "aidé", "aim", "aiuto", "annullato", "annulé", "annulée",
    "ausgefallen", "ausgelassen", "ayuda", "bail", "bailed", "bailing", "canceled", "cancelado", "cancelled", "cut",
    "demain", "dnf", "domani", "dropped", "echec", "fallado", "fallida", "fallido", "fallimento", "fallita",
    "fallite", "fallito", "fallo", "fallé", "falle", "forced", "forcée", "forcées", "gave", "gemist", "geplant",
    "gepland", "gescheitert", "gestrichen", "goal", "help", "hilfe", "hjälp", "hulp", "incomplete", "intended",
    "manana", "mañana", "missad", "missade", "missat", "missing", "misslungen", "mislukt", "morgen", "myo", "myoreps",
    "myos", "nope", "objectif", "objetivo", "obiettivo", "overgeslagen", "pianificato", "planeado", "planned",
    "postponed", "previsto", "prévu", "prévue", "prévues", "quit", "raté", "ratée", "ratées", "saltada", "saltado",
    "saltata", "saltato", "sauté", "sautée", "scheduled", "short", "skip", "skipped", "skipping", "stalled",
    "stopped", "stuck", "target", "todo", "tomorrow", "unfinished", "upcoming", "verfehlt", "versagen",
    "muskelversagen", "ziel", "échec", "échoué", "échouée", "übersprungen", "überspringen", "if", "hoped", "falls",
];

/// Words that deny the ones behind them.
const DENIALS: [&str; 14] = [
    "aint", "couldnt", "didnt", "kein", "never", "nicht", "niet", "no", "non", "not", "pas", "wasnt", "without", "wont",
];

/// What was not done, was not finished, or will be another day, behind a denial.
#[rustfmt::skip]
const DENIED: [&str; 40] = [
    "aujourdhui", "complete", "completed", "do", "done", "fait", "faite", "fatto", "fertig", "fini", "finish",
    "finished", "finita", "finito", "gedaan", "gemacht", "geschafft", "get", "got", "happen", "happened", "hecha",
    "hecho", "heute", "hoy", "lift", "lifted", "lock", "locked", "made", "make", "oggi", "rep", "reps", "réussi",
    "terminado", "terminé", "today", "vandaag", "yet",
];

/// Words of times to come, or that deny all there is: alone they say that nothing was done.
#[rustfmt::skip]
const ANOTHER_TIME: [&str; 33] = [
    "kein", "later", "maybe", "nee", "nein", "nej", "never", "next", "nicht", "nie", "no", "non", "not", "nästa",
    "nächste", "nächstes", "prochaine", "prossima", "próxima", "próximo", "später", "soon", "volgende", "would",
    "yet", "pas", "friday", "monday", "saturday", "sunday", "thursday", "tuesday", "wednesday",
];
/// What stands beside them.
#[rustfmt::skip]
const TIMES: [&str; 23] = [
    "day", "done", "fois", "hoy", "la", "mal", "month", "semaine", "semana", "session", "settimana", "the", "time",
    "today", "vecka", "vez", "volta", "week", "woche", "heute", "aujourdhui", "oggi", "on",
];

/// Words that were taken together.
const PHRASES: [&str; 15] = [
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
    said || denied || another || PHRASES.iter().any(|phrase| spaced.contains(phrase))
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
