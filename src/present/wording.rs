//! Loads, sets, efforts, dates and counts in words, as the lifter writes them.

use crate::history::Mark;
use crate::questions::changes::State;
use crate::questions::estimate::Estimate;
use crate::training::spelling::Spelled;
pub use crate::training::spelling::{amount, set_by_set, sets};
pub use crate::training::words::{all_of, brief, brief_mass, count, day, load, mass, short_day};
use crate::training::{Amount, Effort, Load, Mass, Unit, Weighed, decimal, shown_in};
use chrono::NaiveDate;

/// `3x8 @ 120 kg RPE 6`
pub fn work(number: u32, what: Amount, per_side: bool, load: &Load, effort: Option<Effort>) -> String {
    work_of(sets(number, what, per_side), load, effort)
}

/// What was done at one load: `3x8 @ 120 kg RPE 6`.
pub fn mark(mark: &Mark) -> String {
    work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort)
}

/// The same of sets that are counted already: `8,8,7 @ 120 kg RPE 6`.
pub fn work_of(count: String, load: &Load, effort: Option<Effort>) -> String {
    Spelled::of(count).load(crate::training::words::told(load)).effort(effort).text()
}

/// So many days back: `3 weeks ago` from two weeks on, else `9 days ago`.
pub fn ago(days: i64) -> String {
    let days = u64::try_from(days).unwrap_or(0);
    format!("{} ago", if days < 14 { count(days, "day") } else { count(days / 7, "week") })
}

/// A load with what it came to on its day.
pub fn weighed(load: &Weighed) -> String {
    self::load(load, load.kilograms)
}

/// A title for the unit that masses are told in.
pub(crate) fn in_unit(kilograms: &'static str, pounds: &'static str) -> &'static str {
    match shown_in() {
        Unit::Kg => kilograms,
        Unit::Lb => pounds,
    }
}

/// A load of several dumbbells as what each of them has: `2x25 kg`.
pub fn in_pieces(load: Mass, pieces: Option<u32>, unit: Unit) -> String {
    match pieces.filter(|pieces| *pieces > 1) {
        Some(pieces) => format!("{pieces}x{}", mass(load.shared(pieces), unit)),
        None => mass(load, unit),
    }
}

/// An estimated mass, no finer than it is known: to the whole kilogram or pound, below 50 to the half.
pub fn estimated(mass: Mass, unit: Unit) -> String {
    let thousandths = mass.in_thousandths(unit);
    let to = if thousandths.abs() < 50_000 { 500 } else { 1000 };
    let half = if thousandths < 0 { -to / 2 } else { to / 2 };
    format!("{} {}", decimal((thousandths + half) / to * to), unit.word())
}

/// A mass that is added to the lifter's own weight, or taken off it, where a load of its kind has that: `bw + 22.5 kg`.
pub fn with_own(mass: String, load: &Load) -> String {
    match (load.added(), mass.strip_prefix('-')) {
        (None, _) => mass,
        (Some(_), None) => format!("bw + {mass}"),
        (Some(_), Some(less)) => format!("bw - {less}"),
    }
}

/// An estimated mass without its unit.
pub fn bare(mass: Mass, unit: Unit) -> String {
    estimated(mass, unit).trim_end_matches(|c: char| !c.is_ascii_digit()).to_owned()
}

/// `263 kg (250 to 276)`
pub(crate) fn spread(estimate: &Estimate, unit: Unit) -> String {
    format!("{} ({} to {})", estimated(estimate.maximum, unit), bare(estimate.low, unit), bare(estimate.high, unit))
}

/// `2026-03-05`
pub fn date(date: NaiveDate) -> String {
    date.to_string()
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

/// `4`, `2-3`, `5+`
pub(crate) fn span<T: PartialEq + std::fmt::Display>(least: T, most: Option<T>) -> String {
    match most {
        Some(most) if most == least => least.to_string(),
        Some(most) => format!("{least}-{most}"),
        None => format!("{least}+"),
    }
}

/// `a, b or c`
pub fn any_of(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

/// What there is, where something else was asked for: `there is a`, `there are a, b and c`
pub fn there_are(names: &[String]) -> String {
    format!("there {} {}", if names.len() == 1 { "is" } else { "are" }, all_of(names))
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
    use super::{any_of, there_are, thousands};

    #[test]
    fn thousands_are_parted() {
        assert_eq!(thousands(1234567.4), "1 234 567");
        assert_eq!(thousands(999.0), "999");
    }

    #[test]
    fn names_are_joined_properly() {
        assert_eq!(any_of(&["a".into(), "b".into(), "c".into()]), "a, b or c");
        assert_eq!(there_are(&["a".into(), "b".into(), "c".into()]), "there are a, b and c");
        assert_eq!(there_are(&["a".into()]), "there is a");
    }
}
