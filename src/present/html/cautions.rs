//! Cautions, each with the lines that gave rise to it and its reason.

use super::places::Cited;
use crate::present::{cautions, view, wording};
use crate::questions::review::{Answer, Caution, Name};
use maud::{Markup, html};

/// The cautions in order of time; the reason of each kind once, below.
pub(super) fn section(answer: &Answer, cited: &Cited) -> Markup {
    html! {
        p.lead { (view::review::verdict(answer)) }
        @if !answer.cautions.is_empty() {
            p { "A caution is advice, and the coach decides." }
            (list(&answer.cautions, cited))
            @for name in names(&answer.cautions) {
                details.why {
                    summary { "Why " (name.word()) }
                    (reason(name))
                    p.soft { "in force here: " (name.threshold(&answer.thresholds)) " " (name.unit()) }
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
                    p { strong.warn { (caution.found.name().word()) } " " span.soft { (wording::day(caution.date)) } }
                    p { (cautions::message(&caution.found)) }
                    p.below { (cited.places(&caution.places)) }
                }
            }
        }
    }
}

/// The kinds of caution that were found, by the alphabet.
fn names(found: &[Caution]) -> impl Iterator<Item = Name> + '_ {
    Name::ALL.into_iter().filter(|name| found.iter().any(|caution| caution.found.name() == *name))
}

/// The reason, the threshold and the source, as docs/cautions.md has them.
fn reason(name: Name) -> Markup {
    html! { @for part in cautions::explanation(name) { p { (part.strip_prefix("- ").unwrap_or(&part)) } } }
}
