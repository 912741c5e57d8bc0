//! Loads: what hung on the bar, in which words.

use super::decimal::decimal;
use super::{Mass, Unit};

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

    /// Whether it is a share of a maximum.
    pub fn is_percent(&self) -> bool {
        match self {
            Load::Other(other) => other.text.ends_with('%'),
            other => matches!(other, Load::Percent(_)),
        }
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

#[cfg(test)]
mod tests {
    use super::{Load, Mass, Substance, Unit};

    fn plain(thousandths: i64, unit: Unit) -> Load {
        Load::Plain { thousandths, unit, unit_written: true, approximate: false }
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
