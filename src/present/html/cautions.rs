//! Cautions, each with the lines that gave rise to it and its reason.

use super::places::Cited;
use crate::present::{view, wording};
use crate::questions::review::{Answer, Caution, RULES};
use maud::{Markup, html};

/// The cautions in order of time; the reason of each kind once, below.
pub(super) fn section(answer: &Answer, cited: &Cited) -> Markup {
    html! {
        p.lead { (view::review::verdict(answer)) }
        @if !answer.cautions.is_empty() {
            p { "A caution is advice, and the coach decides." }
            (list(&answer.cautions, cited))
            @for rule in &RULES {
                @if let Some(caution) = answer.cautions.iter().find(|caution| caution.name == rule.name()) {
                    details.why {
                        summary { "Why " (caution.name) }
                        // The reason, the threshold and the source, as docs/cautions.md has them.
                        @for part in rule.explanation() { p { (part.strip_prefix("- ").unwrap_or(&part)) } }
                        p.soft { "in force here: " (caution.threshold) " " (caution.unit) }
                    }
                }
            }
        }
    }
}

/// A list of cautions.
pub(super) fn list(found: &[Caution], cited: &Cited) -> Markup {
    html! {
        ul.cautions {
            @for caution in found {
                li {
                    p { strong.warn { (caution.name) } " " span.soft { (wording::day(caution.date)) } }
                    p { (caution.message) }
                    p.below { (cited.places(&caution.places)) }
                }
            }
        }
    }
}
