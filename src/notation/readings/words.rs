//! Words that decide whether a line is training, and what of it is a remark. All are in lower case and in order.

/// What changes a set: a remark with such a word says more than a remark.
#[rustfmt::skip]
const CHANGES: [&str; 141] = [
    "amrap", "another", "aquecimento", "assist", "assistance", "assisted", "aufwärmen", "backoff", "band", "banded",
    "bands", "bar", "both", "cable", "cada", "calentamiento", "chain", "chains", "chaque", "cluster", "côté",
    "decline", "deficit", "disque", "disques", "ditto", "double", "doubles", "drop", "drops", "dropset", "dropsets",
    "dumbbell", "dumbbells", "each", "eight", "emom", "f", "fail", "failed", "failing", "failure", "fifteen", "five",
    "four", "half", "halves", "helped", "incline", "inwarmen", "je", "jeweils", "kettlebell", "kettlebells", "kg",
    "kilo", "kilos", "lado", "lb", "lbs", "left", "machine", "max", "miss", "missed", "misses", "neg", "negative",
    "negatives", "negs", "nine", "one", "opwarmen", "partial", "partials", "per", "plate", "plates", "pounds", "pro",
    "quarter", "quarters", "ramp", "rep", "repeticiones", "reps", "reserve", "right", "riscaldamento", "round",
    "rounds", "rozgrzewka", "rép", "répétitions", "same", "satz", "scheibe", "scheiben", "seite", "serie", "series",
    "set", "sets", "seven", "side", "sides", "single", "singles", "six", "smith", "spot", "spotted", "spotter",
    "stange", "superset", "sätze", "série", "séries", "tank", "ten", "three", "total", "totals", "triple", "triples",
    "twelve", "twenty", "twice", "two", "uppvärmning", "vest", "warm", "warming", "warmup", "warmups", "wdh", "wdhs",
    "wiederholung", "wiederholungen", "wu", "échauffement",
];

/// What begins a remark directly behind a number.
#[rustfmt::skip]
const REMARKS: [&str; 77] = [
    "amazing", "ass", "awesome", "awful", "bad", "belt", "belted", "beltless", "best", "better", "brutal", "clean",
    "comp", "controlled", "cruised", "deep", "easier", "easy", "explosive", "fast", "fine", "flew", "form", "fresh",
    "great", "grind", "grinder", "grinding", "grindy", "hard", "harder", "heavy", "horrible", "light", "lightish",
    "meh", "moved", "moving", "nice", "ok", "okay", "pause", "paused", "pb", "perfect", "poor", "pr", "quick", "raw",
    "really", "rough", "shaky", "sleeves", "sloppy", "slow", "slowish", "smooth", "snappy", "solid", "speed",
    "sticky", "straps", "strict", "strong", "struggled", "super", "terrible", "tight", "tired", "touch", "tough",
    "ugly", "weak", "weird", "wobbly", "wraps", "yay",
];

/// The commonest words of four languages, and what people note of a day.
#[rustfmt::skip]
const COMMON: [&str; 352] = [
    "a", "aber", "about", "added", "address", "after", "again", "age", "al", "all", "als", "also", "always", "am", "an",
    "and", "another", "any", "are", "around", "as", "ate", "au", "auch", "auf", "aus", "aussi", "avec", "be", "because",
    "been", "before", "bei", "being", "better", "bien", "bin", "bis", "bodyfat", "bodyweight", "bought", "bucks", "bus",
    "but", "buy", "bw", "by", "call", "calories", "can", "ce", "cette", "chapter", "client", "coach", "coffee", "como",
    "con", "cost", "costs", "could", "dans", "das", "dass", "day", "days", "de", "dem", "den", "der", "des", "did",
    "die", "do", "doch", "does", "dollars", "done", "dormí", "drank", "dropped", "du", "due", "early", "eat", "ein",
    "eine", "einen", "el", "elle", "en", "energy", "er", "era", "es", "est", "esta", "estaba", "et", "euros", "even",
    "every", "fasting", "feel", "feeling", "feels", "felt", "few", "finally", "food", "for", "from", "fully", "für",
    "gained", "gegen", "gekauft", "get", "getting", "gewicht", "go", "goes", "going", "good", "got", "gut", "gym",
    "had", "has", "hat", "have", "he", "headache", "height", "her", "here", "heute", "him", "his", "home", "hours",
    "how", "hoy", "hr", "hrv", "i", "ich", "if", "il", "im", "in", "into", "is", "ist", "it", "its", "ja", "je", "jour",
    "just", "kaufen", "kcal", "kein", "körpergewicht", "la", "las", "last", "late", "later", "le", "les", "less",
    "like", "little", "lo", "los", "lost", "lots", "lunch", "macros", "made", "mais", "mas", "maybe", "me", "meal",
    "mehr", "mein", "mi", "minutes", "mir", "mit", "mon", "mood", "more", "morgen", "morning", "most", "much", "muy",
    "my", "más", "müde", "nach", "ne", "need", "new", "next", "nicht", "no", "noch", "not", "nous", "now", "nur",
    "oder", "of", "old", "only", "or", "ordered", "ou", "our", "out", "own", "page", "paid", "pain", "par", "para",
    "pas", "people", "pero", "peso", "phone", "plan", "plus", "poids", "por", "pour", "protein", "puls", "que", "qui",
    "resting", "room", "same", "sans", "sauna", "schlaf", "schmerz", "schon", "score", "se", "sehr", "semaine",
    "semana", "she", "should", "sich", "sie", "sin", "since", "sind", "skipped", "sleep", "slept", "so", "sold", "some",
    "sommeil", "soreness", "steps", "still", "stress", "stretched", "stretching", "sueño", "sur", "temp", "temperature",
    "than", "that", "the", "then", "there", "these", "they", "this", "though", "ticket", "time", "to", "today",
    "tomorrow", "tonight", "took", "total", "train", "très", "un", "una", "und", "une", "until", "used", "usual",
    "very", "viel", "volume", "vom", "von", "vor", "want", "war", "was", "water", "we", "week", "weeks", "wegen",
    "weigh", "weighed", "weighin", "weight", "wenn", "went", "were", "what", "when", "which", "while", "who", "wie",
    "wieder", "will", "wir", "with", "woche", "work", "worked", "would", "wt", "y", "ya", "yesterday", "you", "your",
    "zu", "zum", "zur", "über",
];

/// What hurts on one side, and says nothing of the side that was worked.
const JOINTS: [&str; 12] =
    ["ankle", "elbow", "glute", "hamstring", "hip", "knee", "lat", "pec", "quad", "shoulder", "trap", "wrist"];

/// Whether a word changes what a set is; `left shoulder clicky` changes none.
pub(super) fn changes_sets(remark: &str) -> bool {
    let lower = remark.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    words.iter().enumerate().any(|(at, word)| {
        let of_joint = matches!(*word, "left" | "right") && words.get(at + 1).is_some_and(|next| JOINTS.contains(next));
        // `same as last week`
        let compared = *word == "same" && words.get(at + 1) == Some(&"as");
        CHANGES.binary_search(word).is_ok() && !of_joint && !compared
    })
}

/// Whether what stands behind a lift's name may be more of a name, `jumps 3x5`: words of sets and remarks, and `x`, are none.
pub(super) fn may_be_of_a_name(text: &str) -> bool {
    let word = text.split(|c: char| !c.is_alphabetic()).next().unwrap_or("").to_lowercase();
    let of_sets = CHANGES.binary_search(&word.as_str()).is_ok() || REMARKS.binary_search(&word.as_str()).is_ok();
    !word.is_empty() && word.len() > 1 && !of_sets && !is_common(&word)
}

/// Whether words in parentheses change what a set is; `(last set hard)` only says which it speaks of.
pub(super) fn changes_sets_inside(remark: &str) -> bool {
    const WHICH: [&str; 9] = ["rep", "reps", "repeticiones", "satz", "serie", "series", "set", "sets", "sätze"];
    any(remark, |word| CHANGES.binary_search(&word).is_ok() && !WHICH.contains(&word))
}

/// Whether a remark speaks of one of the sets: `last set sucked`.
pub(super) fn is_of_one_set(remark: &str) -> bool {
    let first = remark.split(|c: char| !c.is_alphanumeric()).next().unwrap_or("").to_lowercase();
    matches!(first.as_str(), "last" | "first" | "final" | "second" | "third")
}

/// Whether a word behind a number begins a remark: any other may be a unit in another tongue.
pub(super) fn begins_remark(word: &str) -> bool {
    let lower = word.to_lowercase();
    REMARKS.binary_search(&lower.as_str()).is_ok() || is_common(&lower)
}

/// Whether a word, in lower case, is one that lines of training do not begin with.
pub(super) fn is_common(word: &str) -> bool {
    COMMON.binary_search(&word).is_ok()
}

/// Whether each of a name's words is a common one, so that no lift is called so: `Time`, `Water`.
pub fn is_no_lift(name: &str) -> bool {
    !any(name, |word| !is_common(word))
}

/// Common words that stand inside the names of lifts as well: `elevaciones con mancuernas`, `tirage à la poulie`.
#[rustfmt::skip]
const JOINING: [&str; 36] = [
    "a", "al", "am", "an", "au", "auf", "aus", "aux", "avec", "con", "de", "del", "dem", "den", "der", "des", "du",
    "en", "et", "from", "im", "in", "la", "le", "les", "mit", "of", "off", "on", "sur", "the", "vom", "with", "y",
    "zum", "zur",
];

/// Whether a line begins as one that goes on with what was done: `another`, `one more`, `last set`; `last week` does not.
pub(super) fn is_again(text: &str) -> bool {
    const AGAIN: [&str; 11] =
        ["again", "another", "extra", "final", "first", "last", "one more", "plus", "same", "then", "two more"];
    const DAYS: [&str; 7] = ["day", "month", "night", "session", "time", "week", "year"];
    let lower = text.trim_start().to_lowercase();
    let goes_on = AGAIN
        .iter()
        .any(|again| lower.strip_prefix(again).is_some_and(|rest| rest.starts_with(|c: char| !c.is_alphanumeric())));
    goes_on && !any(text, |word| DAYS.contains(&word))
}

/// Whether a text says how often a week: `3x/wk`, `twice a week`.
pub(super) fn is_frequency(text: &str) -> bool {
    const OFTEN: [&str; 7] = ["/wk", "/week", " per week", " a week", " pro woche", " par semaine", " por semana"];
    let lower = text.to_lowercase();
    OFTEN.iter().any(|often| lower.contains(often))
}

/// What numbers are said of that no set is counted in.
#[rustfmt::skip]
const OF_NO_SET: [&str; 23] = [
    "cm", "day", "days", "euro", "euros", "inch", "inches", "jours", "ml", "mm", "monate", "month", "months", "people",
    "semaines", "semanas", "tage", "tagen", "week", "weeks", "wochen", "year", "years",
];

/// Whether a word behind a number, in lower case, says that it is of no set.
pub(super) fn is_of_no_set(word: &str) -> bool {
    OF_NO_SET.binary_search(&word).is_ok()
}

/// How the gym is set up for a lift.
const SET_UP: [&str; 14] = [
    "foot", "grip", "height", "hole", "notch", "pins", "rack", "safeties", "safety", "seat", "setting", "shoes",
    "stance", "width",
];

/// Whether a word, in lower case, says how the gym is set up.
pub(super) fn is_of_set_up(word: &str) -> bool {
    SET_UP.binary_search(&word).is_ok()
}

/// What is said of days to come, and of what nobody lifted.
#[rustfmt::skip]
const NO_DAY: [&str; 22] = [
    "demain", "e1rm", "estimated", "goal", "gonna", "mañana", "maybe", "might", "morgen", "next", "nächste",
    "nächstes", "próxima", "próximo", "should", "someday", "tomorrow", "wants", "wanting", "will", "would", "ziel",
];

/// Whether a word of a text says that it is of no day that was.
pub(super) fn is_no_day(text: &str) -> bool {
    any(text, |word| NO_DAY.contains(&word))
}

/// Whether a common word may stand inside the name of a lift.
pub(super) fn joins_names(word: &str) -> bool {
    JOINING.binary_search(&word).is_ok()
}

/// Whether a text has a word that is said of sets, or a common one.
pub(super) fn is_remark(text: &str) -> bool {
    any(text, |word| is_common(word) || REMARKS.binary_search(&word).is_ok())
}

/// Whether one of a text's words is one of those.
pub(super) fn has_common_word(text: &str) -> bool {
    any(text, is_common)
}

fn any(text: &str, is: impl Fn(&str) -> bool) -> bool {
    let mut words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.any(|word| is(&word.to_lowercase()))
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_lists_are_in_order() {
        for list in
            [&super::CHANGES[..], &super::REMARKS, &super::COMMON, &super::JOINING, &super::OF_NO_SET, &super::SET_UP]
        {
            assert!(list.is_sorted());
        }
    }
}
