//! Lifts and their families.

use super::word::words;
use std::borrow::Cow;

/// Which lift of a log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LiftId(pub u32);

words! {
    /// What kind of movement a lift is.
    #[derive(PartialOrd, Ord, Hash)]
    pub enum Family {
        /// Squats.
        Squat = "squat",
        /// Hinges: deadlifts, good mornings, hip thrusts.
        Hinge = "hinge",
        /// Horizontal presses.
        HorizontalPress = "horizontal press",
        /// Vertical presses.
        VerticalPress = "vertical press",
        /// Horizontal pulls.
        HorizontalPull = "horizontal pull",
        /// Vertical pulls.
        VerticalPull = "vertical pull",
        /// Single-leg work.
        SingleLeg = "single leg",
        /// Arms.
        Arms = "arms",
        /// The trunk.
        Trunk = "trunk",
        /// Carries, drags and pushes.
        Carry = "carry",
        /// Everything else.
        Other = "other",
    }
}

impl Family {
    /// The family of that name, folded as lift names are.
    pub fn named(name: &str) -> Option<Family> {
        let name = fold(name);
        Family::ALL.into_iter().find(|family| fold(family.word()) == name)
    }
}

/// A lift.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lift {
    /// As settings or the lift book spell it, else as first written.
    pub name: String,
    /// What kind of movement.
    pub family: Family,
    /// Whether its default load is the lifter's own weight.
    pub bodyweight: bool,
    /// Whether it is worked one side at a time.
    pub one_side: bool,
    /// Whether settings or the lift book know it.
    pub known: bool,
}

/// A name as it is compared: letter case, blanks, `-`, `_` and a final plural `s` are folded away.
///
/// A final `ss` is no plural: `press` stays whole.
pub fn fold(name: &str) -> String {
    let mut folded = String::with_capacity(name.len());
    fold_on(name, &mut folded);
    let length = match singular(&folded) {
        Cow::Borrowed(singular) => singular.len(),
        Cow::Owned(singular) => return singular,
    };
    folded.truncate(length);
    folded
}

/// Puts a piece of a name behind what is folded of it already, but for the plural.
pub fn fold_on(name: &str, folded: &mut String) {
    for c in name.chars() {
        match c {
            'a'..='z' => folded.push(c),
            ' ' | '\t' | '-' | '_' | '\u{a0}' | '\u{202f}' | '\u{2009}' | '\u{2010}' | '\u{2011}' | '\u{2013}'
            | '\u{2212}' => {}
            '’' | '‘' => folded.push('\''),
            c if c.is_ascii() => folded.push(c.to_ascii_lowercase()),
            c => folded.extend(c.to_lowercase()),
        }
    }
}

/// A folded name without its plural: `crunches`, `carries`, `squats`.
pub fn singular(folded: &str) -> Cow<'_, str> {
    if !folded.ends_with('s') {
        return Cow::Borrowed(folded);
    }
    let sibilant = ["ches", "shes", "xes", "sses"].iter().any(|end| folded.ends_with(end));
    let without = |end: &str| folded.strip_suffix(end).map(Cow::Borrowed);
    let singular = match folded.strip_suffix("ies") {
        _ if sibilant && folded.len() > 4 => without("es"),
        Some(stem) if folded.len() > 5 => Some(Cow::Owned(format!("{stem}y"))),
        _ if folded.len() > 1 && !folded.ends_with("ss") => without("s"),
        _ => None,
    };
    singular.unwrap_or(Cow::Borrowed(folded))
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn spelling_is_folded_away() {
        for name in ["Front squat", "front squats", "FRONT-SQUAT", "front_squat", "Front\u{a0}squat"] {
            assert_eq!(fold(name), "frontsquat");
        }
    }

    #[test]
    fn nothing_else_is() {
        assert_ne!(fold("Pause front squat"), fold("Front squat"));
        assert_eq!(fold("Bench press"), "benchpress");
        assert_eq!(fold("S"), "s");
    }
}
