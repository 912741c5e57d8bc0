//! How far the last bodyweight is from the weight class, in words.

use crate::analysis::weight_class::ToClass;
use crate::present::{Doc, Role, wording};
use crate::training::Mass;

/// Stands wherever a distance is shown.
const CAUTION: &str = "whether and how to change weight for a class is for coach and physician to decide";

/// `1.3 kg over the 74 kg class`; nothing where no bodyweight is written.
pub(in crate::present) fn distance(to: &ToClass) -> Option<String> {
    let over = to.over?;
    // In the unit of the class: who competes in pounds thinks of it in pounds.
    let mass = |mass: Mass| wording::mass(mass, to.limit.unit());
    Some(match (to.open, over.is_negative()) {
        _ if over == Mass::ZERO => format!("on the limit of the {} class", to.class),
        (true, false) => format!("in the {} class", to.class),
        (_, true) => format!("{} under the {} class", mass(-over), to.class),
        (false, false) => format!("{} over the {} class", mass(over), to.class),
    })
}

/// A line with the day it was weighed, and the caution.
pub(super) fn line(to: &ToClass) -> Doc {
    let mut out = Doc::new();
    match (distance(to), to.bodyweight) {
        (Some(words), Some(own)) => {
            out.wrapped(Role::Plain, format!("{words} on {}", wording::short_day(own.date)), 2);
            out.append(caution());
        }
        _ => {
            let words = format!("{} class: `bodyweight: 82 kg` under a session's heading says how far it is", to.class);
            out.wrapped(Role::Plain, words, 2);
        }
    }
    out
}

/// The caution by itself, for several.
pub(super) fn caution() -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Caution, CAUTION, 2);
    out
}
