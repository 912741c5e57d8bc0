//! Loads, sets, efforts, dates and counts in words, as the lifter writes them.

use crate::questions::changes::State;
use crate::training::{Amount, Effort, Load, Mass, Unit, Weighed, decimal};
use chrono::{Datelike, NaiveDate};

/// `1 set`, `2 sets`.
pub fn count(number: impl Into<u64>, what: &str) -> String {
    let number = number.into();
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}

/// `8`, `20s`, `40m`, with `/side` where it is of each.
pub fn amount(amount: Amount, per_side: bool) -> String {
    let side = if per_side { "/side" } else { "" };
    match amount {
        Amount::Reps(reps) => format!("{reps}{side}"),
        Amount::Seconds(seconds) => format!("{seconds}s{side}"),
        Amount::Metres(distance) => format!("{}m{side}", distance.rounded_metres()),
    }
}

/// `3x8`, or `8` for one set.
pub fn sets(sets: u32, what: Amount, per_side: bool) -> String {
    format!("{sets}x{}", amount(what, per_side))
}

/// `3x8 @ 120 kg RPE 6`
pub fn work(number: u32, what: Amount, per_side: bool, load: &Load, effort: Option<Effort>) -> String {
    let mut out = sets(number, what, per_side);
    if let Some(load) = load.text_with_unit() {
        out.push_str(" @ ");
        out.push_str(&load);
    }
    if let Some(effort) = effort {
        out.push(' ');
        out.push_str(&effort.to_string());
    }
    out
}

/// A load with its kilograms beside it where it does not say them itself.
pub fn load(load: &Load, kilograms: Option<Mass>) -> String {
    let Some(text) = load.text_with_unit() else { return "no load".into() };
    match (load, kilograms) {
        (Load::Plain { unit: Unit::Kg, .. }, _) | (_, None) => text,
        (_, Some(mass)) => format!("{text} ({mass})"),
    }
}

/// A load with what it came to on its day.
pub fn weighed(load: &Weighed) -> String {
    self::load(load, load.kilograms)
}

/// An estimated mass, no finer than it is known: to the whole kilogram or pound, below 50 to the half.
pub fn estimated(mass: Mass, unit: Unit) -> String {
    let thousandths = mass.in_thousandths(unit);
    let to = if thousandths.abs() < 50_000 { 500 } else { 1000 };
    let half = if thousandths < 0 { -to / 2 } else { to / 2 };
    format!("{} {}", decimal((thousandths + half) / to * to), unit.word())
}

/// The same without its unit.
pub fn bare(mass: Mass, unit: Unit) -> String {
    estimated(mass, unit).trim_end_matches(|c: char| !c.is_ascii_digit()).to_owned()
}

/// A mass in a unit, to the hundredth: `122.5 kg`.
pub fn mass(mass: Mass, unit: Unit) -> String {
    let thousandths = mass.in_thousandths(unit);
    let half = if thousandths < 0 { -5 } else { 5 };
    format!("{} {}", decimal((thousandths + half) / 10 * 10), unit.word())
}

/// `2026-03-05`
pub fn date(date: NaiveDate) -> String {
    date.to_string()
}

/// `Thu 5 Mar 2026`
pub fn day(date: NaiveDate) -> String {
    let months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    let month = months.get(date.month0() as usize).copied().unwrap_or("");
    format!("{} {} {month} {}", date.weekday(), date.day(), date.year())
}

/// `block 6 week 1`, or nothing outside every block.
pub fn block_week(block: Option<&str>, week: Option<u32>) -> String {
    match (block, week) {
        (Some(block), Some(week)) => format!("block {block} week {week}"),
        (Some(block), None) => format!("block {block}"),
        _ => String::new(),
    }
}

/// `!depth, !lockout`
pub fn faults(faults: &[String]) -> String {
    faults.iter().map(|fault| format!("!{fault}")).collect::<Vec<_>>().join(" ")
}

/// `a, b or c`
pub fn any_of(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

/// `a, b and c`
pub fn all_of(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// `HEAD~1 (3f2a91c)`, or the work tree.
pub fn state(state: &State) -> String {
    let commit = state.commit.as_deref().map(|name| name.get(..7).unwrap_or(name));
    match (&state.revision, commit) {
        (Some(revision), Some(commit)) if !revision.starts_with(commit) => format!("{revision} ({commit})"),
        (_, Some(commit)) => commit.to_owned(),
        _ => "the work tree".into(),
    }
}

/// A number with its thousands parted by a blank.
pub fn thousands(number: f64) -> String {
    let whole = format!("{:.0}", number);
    let (sign, digits) = whole.strip_prefix('-').map_or(("", whole.as_str()), |digits| ("-", digits));
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(' ');
        }
        out.push(digit);
    }
    format!("{sign}{out}")
}

#[cfg(test)]
mod tests {
    use super::{any_of, count, thousands};

    #[test]
    fn counts_agree_with_their_words() {
        assert_eq!(count(0u32, "set"), "0 sets");
        assert_eq!(count(1u32, "set"), "1 set");
        assert_eq!(count(2u32, "set"), "2 sets");
    }

    #[test]
    fn thousands_are_parted() {
        assert_eq!(thousands(1234567.4), "1 234 567");
        assert_eq!(thousands(999.0), "999");
    }

    #[test]
    fn names_are_joined_properly() {
        assert_eq!(any_of(&["a".into(), "b".into(), "c".into()]), "a, b or c");
    }
}
