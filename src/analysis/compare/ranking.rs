//! Which of two loads is the heavier one. Loads are ranked within four classes and never across: masses;
//! else pins; else quotes; else no load or bodyweight not known. A load in another class never changes how masses are
//! ranked among themselves.

use crate::training::{Load, LoadClass, Mass, Tolerance};
use std::cmp::Ordering;

/// How two loads compare, each with its kilograms where they are known; nothing where they are unlike kinds. Loads that
/// both contain `bw` go by what is added; masses close enough are the same; a quoted load equals itself only.
pub(crate) fn compare(
    (one, one_mass): (&Load, Option<Mass>),
    (other, other_mass): (&Load, Option<Mass>),
    tolerance: Tolerance,
) -> Option<Ordering> {
    if let (Some(one), Some(other)) = (one.added(), other.added()) {
        return Some(tolerance.compare(one, other));
    }
    match (one_mass, other_mass) {
        (Some(one), Some(other)) => return Some(tolerance.compare(one, other)),
        (None, None) => {}
        _ => return None,
    }
    match (one.pin(), other.pin()) {
        (Some(one), Some(other)) => Some(one.cmp(&other)),
        (None, None) if one.is_quoted() && one.text() == other.text() => Some(Ordering::Equal),
        (None, None) if *one == Load::None && *other == Load::None => Some(Ordering::Equal),
        _ => None,
    }
}

/// A load's rank in its class: a heavier load is a greater rank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Rank {
    /// Nothing to rank by: equal to every other.
    Level,
    /// A pin's number in thousandths, then what is added.
    Pin(i64, Mass),
    /// A mass.
    Mass(Mass),
}

/// How loads are ranked where all of them are in question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Scale {
    /// By kilograms.
    Kilograms,
    /// Every mass among them contains the lifter's own weight: by what is added, bodyweight known or not.
    Added,
}

impl Scale {
    /// The scale for these loads. Pins, quotes and sets without a load have none to say in it.
    pub(crate) fn of<'a>(loads: impl IntoIterator<Item = &'a Load>) -> Self {
        let mut own = false;
        for load in loads {
            match load.added() {
                Some(_) => own = true,
                None if load.kilograms(None).is_some() => return Scale::Kilograms,
                None => {}
            }
        }
        if own { Scale::Added } else { Scale::Kilograms }
    }

    /// The class and rank of a load.
    pub(crate) fn rank(self, load: &Load, bodyweight: Option<Mass>) -> (LoadClass, Rank) {
        if let (Scale::Added, Some(added)) = (self, load.added()) {
            return (LoadClass::Mass, Rank::Mass(added));
        }
        match (load.class(bodyweight), load.kilograms(bodyweight), load.pin()) {
            (class, Some(mass), _) => (class, Rank::Mass(mass)),
            (class, _, Some((number, added))) => (class, Rank::Pin(number, added)),
            (class, ..) => (class, Rank::Level),
        }
    }
}
