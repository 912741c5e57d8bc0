//! Which of two loads is the heavier one. Loads are ranked within four classes and never across: masses;
//! else pins; else quotes; else no load or bodyweight not known.

use crate::training::{Load, LoadClass, Mass};

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
    /// Every one contains the lifter's own weight: by what is added, bodyweight known or not.
    Added,
}

impl Scale {
    /// The scale for these loads.
    pub(crate) fn of<'a>(loads: impl IntoIterator<Item = &'a Load>) -> Self {
        let mut any = false;
        for load in loads {
            if load.added().is_none() {
                return Scale::Kilograms;
            }
            any = true;
        }
        if any { Scale::Added } else { Scale::Kilograms }
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
