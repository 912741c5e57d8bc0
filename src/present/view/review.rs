//! `review` as text.

use crate::present::{Doc, Role, wording};
use crate::questions::review::{Answer, Caution, RULES, Rule};
/// So many lines of a caution are named; of more, how many.
const SHOWN: usize = 6;

/// Shows the answer: all cautions in whole, or those that are new, the others counted.
pub fn show(answer: &Answer, all: bool) -> Doc {
    let mut out = Doc::new();
    let still = if all { 0 } else { answer.still };
    out.wrapped(Role::Answer, verdict(answer, still), 2);
    if still > 0 {
        let words = (Role::Plain, format!("still: {still}"));
        let them = if still == 1 { "it" } else { "them" };
        out.broken(vec![words, (Role::Hint, format!("; `review --all` tells {them} in whole"))], 0);
    }
    out.append(list(answer.cautions.iter().filter(|caution| all || caution.is_new)));
    if answer.cautions.len() > still {
        out.gap();
        let hint = "; `review --explain NAME` gives its reason and source";
        out.broken(vec![(Role::Place, ADVICE.into()), (Role::Hint, hint.into())], 0);
    }
    out
}

/// Whose word it is.
const ADVICE: &str = "a caution is advice, and the coach decides";
/// The section of one lifter among several; what all have in common stands once, below.
pub fn of_one(name: &str, answer: &Answer, all: bool) -> Doc {
    let still = if all { 0 } else { answer.still };
    let mut out = Doc::section(name, verdict(answer, still));
    if still > 0 {
        out.line(Role::Plain, format!("still: {still}"));
    }
    out.append(list(answer.cautions.iter().filter(|caution| all || caution.is_new)));
    out
}

/// What is said once below the sections of several lifters.
pub fn once(all: bool) -> Doc {
    let mut out = Doc::new();
    let mut pieces = vec![(Role::Place, ADVICE.to_owned())];
    pieces.push((Role::Hint, "; `review --explain NAME` gives its reason and source".into()));
    if !all {
        pieces.push((Role::Hint, ", --all tells in whole what is still so".into()));
    }
    out.broken(pieces, 0);
    out
}

/// The same, and for a page the reason of each kind that was found.
pub(in crate::present) fn with_reasons(answer: &Answer) -> Doc {
    let mut out = if answer.cautions.is_empty() { show(answer, true) } else { list(answer.cautions.iter()) };
    let mut why = Doc::new();
    for rule in RULES {
        if let Some(caution) = answer.cautions.iter().find(|caution| caution.name == rule.name()) {
            why.line(Role::Title, rule.name());
            why.append(reason(rule, Some(caution.threshold.0)));
        }
    }
    if !why.is_empty() {
        why.wrapped(Role::Place, ADVICE, 0);
        out.folded("Why these cautions", why);
    }
    out
}

/// The cautions of each lifter.
pub(in crate::present) fn of_each<'a>(lifters: impl Iterator<Item = (&'a str, &'a Answer)>) -> Doc {
    let mut out = Doc::new();
    out.line(Role::Plain, "A caution is advice, and the coach decides.");
    let before = out.parts.len();
    for (name, answer) in lifters.filter(|(_, answer)| !answer.cautions.is_empty()) {
        out.line(Role::Title, name);
        out.append(list(answer.cautions.iter()));
    }
    if out.parts.len() == before {
        out.line(Role::Plain, "nothing to caution about");
    }
    out
}

/// Cautions one after the other.
fn list<'c>(cautions: impl Iterator<Item = &'c Caution>) -> Doc {
    let item = |caution: &Caution| {
        let mut item = Doc::new();
        item.gap();
        item.pieces(vec![
            (Role::Place, format!("{}  ", wording::date(caution.date))),
            (Role::Caution, caution.name.to_owned()),
        ]);
        item.wrapped(Role::Plain, format!("  {}", caution.message), 2);
        item.places("  ", &caution.places, 4, SHOWN);
        item
    };
    let mut out = Doc::new();
    let items: Vec<Doc> = cautions.map(item).collect();
    if !items.is_empty() {
        out.list(items);
    }
    out
}

/// `block 9 as of Wed 25 Nov 2026: 2 cautions`
fn verdict(answer: &Answer, still: usize) -> String {
    let Some(block) = &answer.block else { return "no block has begun, so there is nothing to look at".into() };
    if !answer.begun {
        return format!("block {block} has not begun, so there is nothing to look at");
    }
    let many = match answer.cautions.len().saturating_sub(still) {
        0 if still > 0 => "nothing new to caution about".to_owned(),
        0 => "nothing to caution about".to_owned(),
        many => wording::count(u64::try_from(many).unwrap_or(u64::MAX), "caution"),
    };
    format!("block {block} as of {}: {many}", wording::day(answer.on))
}

/// Shows what a caution means, with the threshold in force where a journal is known.
pub fn explain(rule: &Rule, in_force: Option<f64>) -> Doc {
    let mut out = Doc::new();
    out.line(Role::Title, rule.name());
    out.append(reason(rule, in_force));
    out
}

fn reason(rule: &Rule, in_force: Option<f64>) -> Doc {
    let mut out = Doc::new();
    let item = |part: &str| {
        let mut item = Doc::new();
        item.broken(vec![(Role::Hint, "-".into()), (Role::Plain, format!(" {part}"))], 2);
        item
    };
    let parts = rule.explanation();
    for part in parts.chunk_by(|one, other| one.starts_with("- ") && other.starts_with("- ")) {
        let items: Vec<Doc> = part.iter().filter_map(|part| part.strip_prefix("- ")).map(item).collect();
        match part {
            [text] if items.is_empty() => {
                out.gap();
                out.wrapped(Role::Plain, text.as_str(), 0);
            }
            _ => out.list(items),
        }
    }
    if let Some(value) = in_force {
        out.gap();
        out.wrapped(Role::Plain, format!("your setting: {value} {}", rule.threshold.unit), 2);
    }
    out
}
