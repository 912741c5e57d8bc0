//! Numbers as they are typed.

use crate::notation::grammar::lexer::trim_start;
use crate::source::Cut;
/// A number as written, with its thousandths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Number {
    pub(super) thousandths: i64,
}

impl Number {
    /// The number, where it is whole.
    pub(super) fn whole(self) -> Option<u32> {
        (self.thousandths % 1000 == 0).then(|| u32::try_from(self.thousandths / 1000).ok()).flatten()
    }

    /// Whether it can be an effort: 5 to 10 in halves.
    pub(super) fn is_effort(self) -> bool {
        (5_000..=10_000).contains(&self.thousandths) && self.thousandths % 500 == 0
    }

    /// As the notation writes it.
    pub(super) fn text(self) -> String {
        crate::training::decimal(self.thousandths)
    }
}

/// Whether a number is rather a load than sets or reps.
pub(super) fn is_load(number: Number) -> bool {
    number.thousandths > 20_000
}

/// The time that signs behind a number make of it, `90"`, `2'`, `1'30`, and how long they are.
pub(super) fn primes(number: Number, behind: &str) -> Option<(usize, String)> {
    let whole = number.whole()?;
    let ends = |length: usize| {
        let next = behind.tail(length).chars().next();
        next.is_none_or(|c| !c.is_alphanumeric() || matches!(c, 'x' | 'X'))
    };
    let seconds = ["''", "\"", "\u{2033}"].into_iter().find(|sign| behind.starts_with(sign));
    if let Some(sign) = seconds {
        return ends(sign.len()).then(|| (sign.len(), format!("{whole}s")));
    }
    let sign = ['\'', '\u{2019}', '\u{2032}'].into_iter().find(|sign| behind.starts_with(*sign))?;
    let seconds: String = behind.chars().skip(1).take_while(char::is_ascii_digit).collect();
    let mut length = sign.len_utf8() + seconds.len();
    // `1'30"`
    if seconds.len() == 2 {
        let behind = behind.tail(length);
        let sign = ["''", "\"", "\u{2033}", "\u{201d}"].into_iter().find(|sign| behind.starts_with(sign));
        length += sign.map_or(0, str::len);
    }
    let time = match seconds.len() {
        0 => format!("{whole}min"),
        2 => format!("{whole}:{seconds}"),
        _ => return None,
    };
    ends(length).then_some((length, time))
}

/// `2min` as a clock has it.
pub(super) fn of_clock(time: &str) -> String {
    time.strip_suffix("min").map_or_else(|| time.to_owned(), |minutes| format!("{minutes}:00"))
}

/// Nobody lifts more, in thousandths: 500 kg, or 1100 lb.
pub(super) fn heaviest(in_pounds: bool) -> i64 {
    if in_pounds { 1_100_000 } else { 500_000 }
}

/// The letters a text begins with.
pub(super) fn letters(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_alphabetic() && c != '\'' && c != '\u{2019}').unwrap_or(text.len());
    text.head(end)
}

/// The length of a per cent sign with what it is of: `%`, ` % of max`, `% 1RM`.
pub(super) fn percent(text: &str) -> Option<usize> {
    let behind = trim_start(text).strip_prefix('%')?;
    let of = trim_start(behind);
    let maximum = [("of ", &["my 1rm", "1rm", "e1rm", "my max", "max"][..]), ("", &["1rm", "e1rm"])]
        .into_iter()
        .find_map(|(of_word, words)| {
            let rest = of
                .get(..of_word.len())
                .filter(|text| text.eq_ignore_ascii_case(of_word))
                .map(|text| of.tail(text.len()))?;
            let word =
                words.iter().find(|word| rest.get(..word.len()).is_some_and(|text| text.eq_ignore_ascii_case(word)))?;
            let after = rest.tail(word.len());
            (!after.starts_with(char::is_alphanumeric)).then_some(after)
        });
    Some(text.len() - maximum.unwrap_or(behind).len())
}

/// Whether a count is a mass with a decimal comma rather than two sets: nobody does 61 reps and then three.
pub fn more_a_decimal(count: &str) -> bool {
    let pair = count.split_once(',').and_then(|(one, two)| Some((one.parse().ok()?, two.parse().ok()?)));
    pair.is_some_and(|(one, two): (u32, u32)| one > two.saturating_mul(2).saturating_add(10))
}

/// The number a text begins with, with a decimal point perhaps, and its length.
pub(super) fn digits(text: &str) -> Option<(usize, Number)> {
    let whole = text.bytes().take_while(u8::is_ascii_digit).count();
    let tail = text.get(whole..)?.strip_prefix('.').unwrap_or("");
    let part = tail.bytes().take_while(u8::is_ascii_digit).count();
    let value: i64 = text.get(..whole)?.parse().ok().filter(|_| whole <= 5)?;
    if part == 0 {
        return Some((whole, Number { thousandths: value * 1000 }));
    }
    // `1.250` may be thousands.
    let decimals: i64 = tail.get(..part)?.parse().ok().filter(|_| part <= 2)?;
    let places = [0, 100, 10].get(part)?;
    Some((whole + 1 + part, Number { thousandths: value * 1000 + decimals * places }))
}

/// The length of `1:30`, where a text begins with it.
pub(super) fn clock(text: &str) -> Option<usize> {
    let minutes = text.bytes().take_while(u8::is_ascii_digit).count();
    let seconds = text.get(minutes..)?.strip_prefix(':')?.bytes().take_while(u8::is_ascii_digit).count();
    (minutes <= 2 && seconds == 2).then_some(minutes + 3)
}

/// Whether there is a half among efforts: then they are no reps of further sets.
pub(super) fn has_half(all: &[Number]) -> bool {
    all.iter().any(|number| number.whole().is_none())
}

/// `7, 7.5, 8`: what may be an effort for each set.
pub(super) fn efforts_listed(text: &str) -> Option<(usize, Vec<Number>)> {
    let (mut at, mut all) = (0, Vec::new());
    loop {
        let (length, number) = digits(text.get(at..)?)?;
        all.push(number);
        at += length;
        let behind = text.tail(at);
        let next = behind.strip_prefix(',').map(trim_start);
        match next.filter(|next| next.starts_with(|c: char| c.is_ascii_digit())) {
            Some(next) => at = text.len() - next.len(),
            None => break,
        }
    }
    (all.len() > 1 && all.iter().all(|number| number.is_effort())).then_some((at, all))
}

/// Two or more numbers joined by a sign without blanks, and where they end.
pub(super) fn list(text: &str, sign: char) -> Option<(usize, Vec<Number>)> {
    let mut list = Vec::new();
    let mut at = 0;
    loop {
        let (length, number) = digits(text.get(at..)?)?;
        list.push(number);
        at += length;
        let next = text.get(at..)?.strip_prefix(sign).filter(|next| next.starts_with(|c: char| c.is_ascii_digit()));
        if next.is_none() || list.len() > 20 {
            break;
        }
        at += 1;
    }
    (list.len() > 1).then_some((at, list))
}

/// The number that `82,5` is with a decimal comma.
pub(super) fn decimal_pair(text: &str, end: usize) -> Option<Number> {
    let pair = text.get(..end)?;
    if pair.matches(',').count() != 1 || pair.contains('.') {
        return None;
    }
    let pointed = pair.replace(',', ".");
    digits(&pointed).filter(|(length, _)| *length == end).map(|(_, number)| number)
}

/// `100/5`: what can be no two sets, a load and its reps.
pub(super) fn load_over_reps(pair: &[Number]) -> Option<(Number, Number)> {
    match pair {
        [load, reps] if load.thousandths > 31_000 && reps.thousandths <= 20_000 => Some((*load, *reps)),
        _ => None,
    }
}

/// Whether `82,5` can be nothing but a decimal: a step of small plates over a whole number that is none.
pub(super) fn settled(number: Number) -> bool {
    let whole = number.thousandths / 1000;
    number.thousandths % 1250 == 0 && (whole * 1000) % 2500 != 0
}
