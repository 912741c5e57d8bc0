//! What days and months are called in fourteen languages, and the day's number.

use chrono::Weekday;

/// `14`, `14.`, `14th`
pub(super) fn day(word: &str) -> Option<u32> {
    let digits = word.bytes().take_while(u8::is_ascii_digit).count();
    let ends = matches!(word.get(digits..)?.to_ascii_lowercase().as_str(), "" | "." | "st" | "nd" | "rd" | "th");
    word.get(..digits)?.parse().ok().filter(|day| ends && (1..=31).contains(day))
}

/// The names of the months.
#[rustfmt::skip]
pub(super) const MONTHS: [&[&str]; 12] = [
    &["jan", "january", "januar", "janvier", "enero", "januari", "gennaio", "gen", "stycznia", "styczeń", "janeiro", "ledna", "leden"],
    &["feb", "february", "februar", "février", "fevrier", "febrero", "februari", "febbraio", "lutego", "luty", "fevereiro", "února", "únor"],
    &["mar", "march", "märz", "mars", "marzo", "maart", "mrt", "marca", "marzec", "março", "března", "březen"],
    &["apr", "april", "avril", "abril", "aprile", "kwietnia", "kwiecień", "dubna", "duben"],
    &["may", "mai", "mayo", "mei", "maj", "maja", "maggio", "mag", "maio", "května", "květen"],
    &["jun", "june", "juni", "juin", "junio", "giugno", "giu", "czerwca", "czerwiec", "junho", "června", "červen"],
    &["jul", "july", "juli", "juillet", "julio", "luglio", "lug", "lipca", "lipiec", "julho", "července", "červenec"],
    &["aug", "august", "août", "aout", "agosto", "augustus", "augusti", "sierpnia", "sierpień", "srpna", "srpen"],
    &["sep", "sept", "september", "septembre", "septiembre", "settembre", "września", "wrzesień", "setembro", "září"],
    &["oct", "okt", "october", "oktober", "octobre", "octubre", "ottobre", "ott", "października", "październik", "outubro", "října", "říjen"],
    &["nov", "november", "novembre", "noviembre", "listopada", "listopad", "novembro", "listopadu"],
    &["dec", "dez", "december", "dezember", "décembre", "decembre", "diciembre", "dicembre", "dic", "grudnia", "grudzień", "dezembro", "prosince", "prosinec"],
];

/// The names that stand alone as well come first.
#[rustfmt::skip]
pub(super) const DAYS: [(&[&str], &[&str]); 7] = [
    (&["mon", "monday", "mo", "montag", "lundi", "lunes", "lunedì", "lunedi", "maandag", "måndag", "poniedziałek", "segunda-feira", "pondělí", "mandag", "maanantai"],
        &["lun", "ma", "mån", "pon", "pn"]),
    (&["tue", "tues", "tuesday", "di", "dienstag", "mardi", "martes", "martedì", "martedi", "dinsdag", "tisdag", "wtorek", "terça-feira", "úterý", "tirsdag", "tiistai"],
        &["mar", "tis", "wt"]),
    (&["wed", "weds", "wednesday", "mi", "mittwoch", "mercredi", "miércoles", "miercoles", "mercoledì", "mercoledi",
        "woensdag", "onsdag", "środa", "sroda", "quarta-feira", "středa", "keskiviikko"],
        &["mer", "mié", "wo", "ons", "śr", "sr"]),
    (&["thu", "thur", "thurs", "thursday", "do", "donnerstag", "jeudi", "jueves", "giovedì", "giovedi", "donderdag",
        "torsdag", "czwartek", "quinta-feira", "čtvrtek", "torstai"],
        &["jeu", "jue", "gio", "tor", "tors", "czw"]),
    (&["fri", "friday", "fr", "freitag", "vendredi", "viernes", "venerdì", "venerdi", "vrijdag", "fredag", "piątek",
        "piatek", "sexta-feira", "pátek", "perjantai"],
        &["ven", "vie", "vr", "fre", "pt"]),
    (&["sat", "saturday", "sa", "samstag", "samedi", "sábado", "sabado", "sabato", "zaterdag", "lördag", "sobota", "lørdag", "lauantai"],
        &["sam", "sáb", "sab", "za", "lör", "sob"]),
    (&["sun", "sunday", "so", "sonntag", "dimanche", "domingo", "domenica", "zondag", "söndag", "niedziela", "neděle", "søndag", "sunnuntai"],
        &["dim", "dom", "zo", "sön", "nd", "niedz"]),
];

/// The month of a name.
pub(super) fn month(word: &str) -> Option<u32> {
    let lower = word.trim_end_matches('.').to_lowercase();
    MONTHS.iter().position(|names| names.contains(&lower.as_str())).map(|at| at as u32 + 1)
}

/// The weekday of a name.
pub(super) fn weekday(word: &str) -> Option<Weekday> {
    const OF: [Weekday; 7] =
        [Weekday::Mon, Weekday::Tue, Weekday::Wed, Weekday::Thu, Weekday::Fri, Weekday::Sat, Weekday::Sun];
    let lower = word.trim_end_matches('.').to_lowercase();
    let is = |names: &[&str]| names.contains(&lower.as_str());
    DAYS.iter().position(|(names, short)| is(names) || is(short)).and_then(|at| OF.get(at).copied())
}

/// Whether a weekday's short form is a name, or a word, where it stands alone.
pub(super) fn is_too_short(word: &str) -> bool {
    let lower = word.trim_end_matches('.').to_lowercase();
    DAYS.iter().any(|(_, short)| short.contains(&lower.as_str()))
}
