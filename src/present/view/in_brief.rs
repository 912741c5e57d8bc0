//! Cautions in a few words each, as `roster` and the top of a report say them.

use crate::questions::review::Caution;

/// All of them, each told once: `hinge sets +80 %; Deadlift 1.5 RPE over plan`.
pub(in crate::present) fn in_brief(cautions: &[Caution]) -> String {
    let mut told: Vec<(&str, Option<&str>)> = Vec::new();
    let mut words = Vec::new();
    // The latest is the one that still holds.
    for caution in cautions.iter().rev() {
        let about = (caution.name, caution.about.as_deref());
        if !told.contains(&about) {
            told.push(about);
            words.push(caution.in_brief());
        }
    }
    words.reverse();
    words.join("; ")
}
