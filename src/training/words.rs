//! Counts, loads and days in words, for every sentence that has them; and the words that enums are typed and shown by.

use super::{Load, Mass, Substance, Unit, decimal, shown_in};
use chrono::{Datelike, NaiveDate};

/// `1 set`, `2 sets`.
pub fn count(number: impl Into<u64>, what: &str) -> String {
    let number = number.into();
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}

/// A load with its mass beside it, in the unit that masses are told in, where it does not say that itself.
pub fn load(load: &Load, kilograms: Option<Mass>) -> String {
    let Some(text) = load.text_with_unit() else { return "no load".into() };
    match (load, kilograms) {
        (Load::Other(_), Some(_)) if text.ends_with('%') => told(load).unwrap_or(text),
        (_, None) => text,
        (Load::Plain { unit, .. }, _) if *unit == shown_in() => text,
        (_, Some(mass)) => format!("{text} ({mass})"),
    }
}

/// A load as it is written; a percentage with what it comes to: `80 % (140 kg)`. `None` where there is no load.
pub fn told(load: &Load) -> Option<String> {
    let text = load.text_with_unit()?;
    let (Load::Other(other), Some(share)) = (load, text.strip_suffix('%')) else { return Some(text) };
    match &other.substance {
        Substance::Mass(mass) => Some(format!("{share} % ({mass})")),
        _ => Some(text),
    }
}

/// A load in few words: what names a bar or plates is told as the mass it comes to, in a unit.
pub fn brief(load: &Load, unit: Unit) -> String {
    match load {
        Load::Other(other) if load.pieces().is_none() => match &other.substance {
            Substance::Mass(mass) => brief_mass(*mass, unit),
            _ => other.text.to_string(),
        },
        _ => load.text_with_unit().unwrap_or_else(|| "no load".into()),
    }
}

/// A mass to the hundredth where it is a round one in the unit, else to the tenth.
pub fn brief_mass(mass: Mass, unit: Unit) -> String {
    let thousandths = mass.in_thousandths(unit);
    if Mass::of(thousandths, unit) == mass {
        return self::mass(mass, unit);
    }
    let half = if thousandths < 0 { -50 } else { 50 };
    format!("{} {}", decimal((thousandths + half) / 100 * 100), unit.word())
}

/// A mass in a unit, to the hundredth: `122.5 kg`.
pub fn mass(mass: Mass, unit: Unit) -> String {
    mass.told_in(unit)
}

/// A pain of so many tenths: `6/10`.
pub fn of_ten(tenths: u32) -> String {
    format!("{}/10", decimal(i64::from(tenths) * 100))
}

/// `Thu 5 Mar 2026`
pub fn day(date: NaiveDate) -> String {
    format!("{} {} {}", date.weekday(), short_day(date), date.year())
}

/// `5 Mar`
pub fn short_day(date: NaiveDate) -> String {
    date.format("%-d %b").to_string()
}

/// `a, b and c`
pub fn all_of(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::count;

    #[test]
    fn counts_agree_with_their_words() {
        assert_eq!(count(0u32, "set"), "0 sets");
        assert_eq!(count(1u32, "set"), "1 set");
        assert_eq!(count(2u32, "set"), "2 sets");
    }
}
