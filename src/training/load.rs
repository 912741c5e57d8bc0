//! Loads: what hung on the bar, in which words, and when two of them are the same.

use super::{Gear, Mass, Unit};
use std::cmp::Ordering;

/// A load: its spelling and what it comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Load {
    /// No load is given.
    None,
    /// One number, with or without a unit: nearly every load there is.
    Plain {
        /// The number in thousandths.
        thousandths: i64,
        /// The unit it is in.
        unit: Unit,
        /// Whether the unit is written.
        unit_written: bool,
        /// `~`
        approximate: bool,
    },
    /// Any other: boxed, so that a group of sets stays small.
    Other(Box<OtherLoad>),
    /// A percentage of the block's maximum, until it is known. No answer ever meets one.
    Percent(i64),
}

/// A load that is more than one number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherLoad {
    /// What it comes to.
    pub substance: Substance,
    /// The tidied spelling, without the `~`.
    pub text: Box<str>,
    /// `~`
    pub approximate: bool,
}

/// What a load comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Substance {
    /// A mass.
    Mass(Mass),
    /// The lifter's own weight with this added.
    Bodyweight(Mass),
    /// A stack's setting in thousandths, with this added.
    Pin(i64, Mass),
    /// Something in quotes: equal to itself only.
    Quoted,
}

/// The classes in which loads are ranked, the first one first; never across.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoadClass {
    /// Masses.
    Mass,
    /// Pins.
    Pin,
    /// Quotes.
    Quoted,
    /// No load, or bodyweight unknown.
    Unknown,
}

impl Load {
    /// A load that is more than one number.
    pub fn other(substance: Substance, text: impl Into<Box<str>>, approximate: bool) -> Self {
        Load::Other(Box::new(OtherLoad { substance, text: text.into(), approximate }))
    }

    /// The tidied spelling; nothing for no load.
    pub fn text(&self) -> Option<String> {
        match self {
            Load::None => None,
            Load::Plain { thousandths, unit, unit_written, approximate } => {
                let about = if *approximate { "~" } else { "" };
                let unit = if *unit_written { format!(" {}", unit.word()) } else { String::new() };
                Some(format!("{about}{}{unit}", decimal(*thousandths)))
            }
            Load::Other(other) if other.approximate => Some(format!("~{}", other.text)),
            Load::Other(other) => Some(other.text.to_string()),
            Load::Percent(thousandths) => Some(format!("{}%", decimal(*thousandths))),
        }
    }

    /// The spelling with its unit, for reading at the rack.
    pub fn text_with_unit(&self) -> Option<String> {
        match self {
            Load::Plain { unit, unit_written: false, .. } => self.text().map(|text| format!("{text} {}", unit.word())),
            _ => self.text(),
        }
    }

    /// Whether the load is approximate.
    pub fn is_approximate(&self) -> bool {
        match self {
            Load::Plain { approximate, .. } => *approximate,
            Load::Other(other) => other.approximate,
            _ => false,
        }
    }

    /// The mass with a bodyweight in force; nothing for pins, quotes, no load, and bodyweight not known.
    pub fn kilograms(&self, bodyweight: Option<Mass>) -> Option<Mass> {
        match self {
            Load::Plain { thousandths, unit, .. } => Some(Mass::of(*thousandths, *unit)),
            Load::Other(other) => match &other.substance {
                Substance::Mass(mass) => Some(*mass),
                Substance::Bodyweight(added) => bodyweight.map(|own| own + *added),
                _ => None,
            },
            _ => None,
        }
    }

    /// What is added to the lifter's own weight, for loads that contain it.
    pub fn added(&self) -> Option<Mass> {
        match self {
            Load::Other(other) => match other.substance {
                Substance::Bodyweight(added) => Some(added),
                _ => None,
            },
            _ => None,
        }
    }

    /// A pin's number and what is added to it.
    pub fn pin(&self) -> Option<(i64, Mass)> {
        match self {
            Load::Other(other) => match other.substance {
                Substance::Pin(number, added) => Some((number, added)),
                _ => None,
            },
            _ => None,
        }
    }

    /// How many equal weights it is, such as two for `2x16 kg`; nothing for a sum, and for plates on a bar.
    pub fn pieces(&self) -> Option<u32> {
        let Load::Other(other) = self else { return None };
        let (count, each) = other.text.split_once('x')?;
        let is_one_mass = matches!(other.substance, Substance::Mass(_)) && !each.contains(['+', '/']);
        count.trim().parse().ok().filter(|count| is_one_mass && *count > 0)
    }

    /// Whether it is a quoted load.
    pub fn is_quoted(&self) -> bool {
        matches!(self, Load::Other(other) if other.substance == Substance::Quoted)
    }

    /// The class it is ranked in.
    pub fn class(&self, bodyweight: Option<Mass>) -> LoadClass {
        if self.kilograms(bodyweight).is_some() {
            LoadClass::Mass
        } else if self.pin().is_some() {
            LoadClass::Pin
        } else if self.is_quoted() {
            LoadClass::Quoted
        } else {
            LoadClass::Unknown
        }
    }
}

/// How far two loads may be apart and still be the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance(Mass);

impl Tolerance {
    /// None: only equal loads are the same.
    pub const EXACT: Tolerance = Tolerance(Mass::ZERO);

    /// Half a step of the gym's plates, and never below 1 kg.
    pub fn of(gear: &Gear) -> Self {
        Tolerance(gear.step.half().max(Mass::kg(1)))
    }

    /// How two masses compare when those closer than this are the same.
    pub fn compare(self, one: Mass, other: Mass) -> Ordering {
        if one.apart(other) < self.0 { Ordering::Equal } else { one.cmp(&other) }
    }
}

/// Thousandths as a number with as few decimals as it needs.
pub(crate) fn decimal(thousandths: i64) -> String {
    fraction(thousandths, 1000)
}

/// Parts of a whole, of which there are a power of ten, as a number with as few decimals as it needs.
pub(super) fn fraction(parts: i64, per_whole: i64) -> String {
    let sign = if parts < 0 { "-" } else { "" };
    let (parts, per_whole) = (parts.unsigned_abs(), per_whole.unsigned_abs().max(1));
    let (whole, rest) = (parts / per_whole, parts % per_whole);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let digits = per_whole.ilog10() as usize;
    let decimals = format!("{rest:0digits$}");
    format!("{sign}{whole}.{}", decimals.trim_end_matches('0'))
}

#[cfg(test)]
mod tests {
    use super::{Gear, Load, Mass, Substance, Tolerance, Unit};
    use std::cmp::Ordering;

    fn plain(thousandths: i64, unit: Unit) -> Load {
        Load::Plain { thousandths, unit, unit_written: true, approximate: false }
    }

    #[test]
    fn a_pound_load_and_a_kilo_load_may_be_the_same() {
        let tolerance = Tolerance::of(&Gear::usual(Unit::Kg));
        let kg = |load: &Load| load.kilograms(None).unwrap_or_default();
        let (pounds, kilos) = (plain(265_000, Unit::Lb), plain(120_000, Unit::Kg));
        assert_eq!(tolerance.compare(kg(&pounds), kg(&kilos)), Ordering::Equal);
        assert_eq!(tolerance.compare(Mass::of(121_250, Unit::Kg), Mass::kg(120)), Ordering::Greater);
    }

    #[test]
    fn equal_weights_are_counted() {
        let of = |text: &str| Load::other(Substance::Mass(Mass::kg(32)), text, false).pieces();
        for (text, pieces) in [
            ("2x16 kg", Some(2)),
            ("1x32 kg", Some(1)),
            ("20 kg + 2x6 kg", None),
            ("2x16 kg + 1 kg", None),
            ("2x16 kg/side", None),
            ("box", None),
        ] {
            assert_eq!(of(text), pieces, "{text}");
        }
        assert_eq!(plain(32_000, Unit::Kg).pieces(), None);
        assert_eq!(Load::other(Substance::Quoted, "2x band", false).pieces(), None);
    }

    #[test]
    fn loads_are_spelled_tidily() {
        assert_eq!(plain(122_500, Unit::Kg).text().as_deref(), Some("122.5 kg"));
        assert_eq!(plain(265_000, Unit::Lb).text().as_deref(), Some("265 lb"));
        assert_eq!(Load::None.text(), None);
    }
}
