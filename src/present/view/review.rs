//! `review` as text.

use crate::present::places::by_page;
use crate::present::{Doc, Role, wording};
use crate::questions::review::{Answer, Rule};
use crate::source::Place;

/// So many lines of a caution are named; of more, how many.
const SHOWN: usize = 6;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, &verdict(answer), 2);
    for caution in &answer.cautions {
        out.gap();
        out.pieces(vec![
            (Role::Place, format!("{}  ", wording::date(caution.date))),
            (Role::Caution, caution.name.to_owned()),
        ]);
        out.wrapped(Role::Plain, &format!("  {}", caution.message), 2);
        out.wrapped(Role::Place, &format!("  {}", places(&caution.places)), 4);
    }
    if !answer.cautions.is_empty() {
        out.gap();
        out.wrapped(
            Role::Place,
            "a caution is advice, and the coach decides; `review --explain NAME` gives its reason and source",
            0,
        );
    }
    out
}

/// `block 9 as of Wed 25 Nov 2026: 2 cautions`
pub(in crate::present) fn verdict(answer: &Answer) -> String {
    let Some(block) = &answer.block else { return "no block has begun, so there is nothing to look at".into() };
    if !answer.begun {
        return format!("block {block} has not begun, so there is nothing to look at");
    }
    let many = match answer.cautions.len() {
        0 => "nothing to caution about".to_owned(),
        many => wording::count(u64::try_from(many).unwrap_or(u64::MAX), "caution"),
    };
    format!("block {block} as of {}: {many}", wording::day(answer.on))
}

/// `page.md:14, 20 and other.md:3`.
fn places(places: &[Place]) -> String {
    let mut named = by_page(places.iter().take(SHOWN));
    let more = places.len().saturating_sub(SHOWN);
    if more > 0 {
        named.push(wording::count(u64::try_from(more).unwrap_or(u64::MAX), "more line"));
    }
    wording::all_of(&named)
}

/// Shows what a caution means, with the threshold in force where a journal is known.
pub fn explain(rule: &Rule, in_force: Option<f64>) -> Doc {
    let mut out = Doc::new();
    out.line(Role::Title, rule.name());
    for part in rule.explanation() {
        if !part.starts_with("- ") {
            out.gap();
        }
        out.wrapped(Role::Plain, &part, if part.starts_with("- ") { 2 } else { 0 });
    }
    if let Some(value) = in_force {
        out.gap();
        out.wrapped(Role::Answer, &format!("in force here: {value} {}", rule.threshold.unit), 2);
    }
    out
}
