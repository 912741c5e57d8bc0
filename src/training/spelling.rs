//! How the notation writes what a log holds: amounts, sets, times. [`super::Load`] and [`super::Effort`] spell
//! themselves; whatever is printed for a lifter to read, to keep or to read in again goes through here.

use super::{Amount, Pace, decimal};
use std::fmt::{self, Display, Write};

/// `8`, `20s`, `1:30` from more than a minute on, `40m`.
impl Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Amount::Reps(reps) => write!(f, "{reps}"),
            Amount::Seconds(seconds) if *seconds > 60 => f.write_str(&length(*seconds)),
            Amount::Seconds(seconds) => write!(f, "{seconds}s"),
            Amount::Metres(distance) => f.write_str(&distance.written()),
        }
    }
}

/// An amount, with `/side` where it is of each.
pub fn amount(amount: Amount, per_side: bool) -> String {
    format!("{amount}{}", if per_side { "/side" } else { "" })
}

/// `3x8`, `1x1:30/side`
pub fn sets(sets: u32, each: Amount, per_side: bool) -> String {
    format!("{sets}x{}", amount(each, per_side))
}

/// `3x5` where the sets are alike, else `5,4,2`.
pub fn set_by_set(each: &[Amount], per_side: bool) -> String {
    match each {
        [first, rest @ ..] if rest.iter().all(|set| set == first) => {
            sets(u32::try_from(each.len()).unwrap_or(u32::MAX), *first, per_side)
        }
        _ => each.iter().map(|set| amount(*set, per_side)).collect::<Vec<_>>().join(","),
    }
}

/// Minutes after midnight: `18:30`.
pub fn clock(minute: u16) -> String {
    format!("{:02}:{:02}", minute / 60, minute % 60)
}

/// Seconds as minutes, or minutes as hours: `3:00`.
pub fn length(parts: u32) -> String {
    format!("{}:{:02}", parts / 60, parts % 60)
}

/// From so many thousandths to so many: `6.5`, `6-7`.
pub fn range(low: i64, high: i64) -> String {
    if low == high { decimal(low) } else { format!("{}-{}", decimal(low), decimal(high)) }
}

/// Weeks of a block: `week 4, week 8`.
pub fn weeks(weeks: &[u32]) -> String {
    weeks.iter().map(|week| format!("week {week}")).collect::<Vec<_>>().join(", ")
}

/// `technique day`, `day 2`: a day's label as a heading has it.
pub fn day(label: &str) -> String {
    if label.chars().count() <= 2 { format!("day {label}") } else { format!("{label} day") }
}

/// A group of sets, part by part in the order in which the notation has them: `3x8 @ 120 kg RPE 6 !depth miss 1`.
#[derive(Clone, Debug)]
pub struct Spelled(String);

impl Spelled {
    /// Begins with what is counted: [`sets`], or one set's [`amount`].
    pub fn of(count: impl Into<String>) -> Self {
        Spelled(count.into())
    }

    fn word(mut self, word: impl Display) -> Self {
        // Nothing fails when it is written to a string.
        let _ = write!(self.0, " {word}");
        self
    }

    /// The load, where there is one.
    #[must_use]
    pub fn load(self, load: Option<impl Display>) -> Self {
        load.into_iter().fold(self, |out, load| out.word(format_args!("@ {load}")))
    }

    /// The effort, where it is known.
    #[must_use]
    pub fn effort(self, effort: Option<impl Display>) -> Self {
        effort.into_iter().fold(self, Spelled::word)
    }

    /// The names of the faults, and the reps that were tried and failed.
    #[must_use]
    pub fn faults(self, names: impl IntoIterator<Item = impl Display>, missed: u32) -> Self {
        let with = names.into_iter().fold(self, |out, name| out.word(format_args!("!{name}")));
        if missed > 0 { with.word(format_args!("miss {missed}")) } else { with }
    }

    /// The rest, and the tempo.
    #[must_use]
    pub fn pace(self, pace: &Pace) -> Self {
        let rest = pace.rest.map(|rest| format!("rest {}", length(rest)));
        let tempo = pace.tempo.as_ref().map(|tempo| format!("tempo {tempo}"));
        [rest, tempo].into_iter().flatten().fold(self, Spelled::word)
    }

    /// Remarks, in parentheses.
    #[must_use]
    pub fn remarks(self, remarks: impl IntoIterator<Item = impl Display>) -> Self {
        remarks.into_iter().fold(self, |out, remark| out.word(format_args!("({remark})")))
    }

    /// The text.
    pub fn text(self) -> String {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::training::{Distance, Pace};

    #[test]
    fn amounts_are_spelled_as_the_notation_has_them() {
        let all = [
            Amount::Reps(8),
            Amount::Seconds(20),
            Amount::Seconds(60),
            Amount::Seconds(75),
            Amount::Seconds(1200),
            Amount::Metres(Distance::yards(40_000)),
        ];
        assert_eq!(all.map(|one| amount(one, false)), ["8", "20s", "60s", "1:15", "20:00", "40yd"]);
        assert_eq!(sets(2, Amount::Seconds(75), true), "2x1:15/side");
    }

    #[test]
    fn a_group_is_spelled_part_by_part() {
        let whole = Spelled::of("3x8").load(Some("120 kg")).effort(Some("RPE 6")).faults(["depth"], 1);
        let whole = whole.pace(&Pace { rest: Some(90), tempo: Some("3-1-0".into()) }).remarks(["slow"]).text();
        assert_eq!(whole, "3x8 @ 120 kg RPE 6 !depth miss 1 rest 1:30 tempo 3-1-0 (slow)");
        assert_eq!(Spelled::of("5").load(None::<&str>).faults([""; 0], 0).pace(&Pace::PLAIN).text(), "5");
    }
}
