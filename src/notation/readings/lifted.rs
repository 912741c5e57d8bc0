//! The lift that a line is about, and the text of its sets.

use super::names::{self, Named, Names};
use super::words;
use crate::notation::grammar::lexer::{is_dash, is_space, trim, trim_end, trim_start};
use crate::training::fold;

/// The lift of a line and the text of its sets.
pub(super) struct Lifted<'t> {
    /// The lift's name as it is typed.
    pub(super) typed: &'t str,
    pub(super) named: Named,
    pub(super) sets: String,
    /// The name, where words in parentheses behind it make another lift of it that is not known.
    pub(super) variant: Option<String>,
    /// Whether the name stands behind the sets, at the line's end.
    pub(super) behind: bool,
}

/// The lift and what is left of the line: the name stands first, or behind a count (`3x8 bench press @ 60`).
pub(super) fn lift_and_sets<'t>(content: &'t str, names: &dyn Names) -> Option<Lifted<'t>> {
    // `1-arm row` is a name that begins with a number.
    if content.starts_with(char::is_alphabetic) || names::leading(content, names).is_some() {
        let Some((mut named, end)) = names::leading(content, names) else { return qualified(content, names) };
        let mut sets = trim_start(content.get(end..)?);
        let typed = content.get(..end)?;
        let first = fold(typed.split(is_space).next()?);
        named.takes.added = matches!(first.as_str(), "weighted" | "wtd");
        named.takes.helped = first == "assisted";
        if let Some((inside, rest)) = sets.strip_prefix('(').and_then(|sets| sets.split_once(')'))
            && !inside.contains(|c: char| c.is_ascii_digit())
            && !words::is_remark(inside)
        {
            match names::variant(typed, inside, names) {
                Some(variant) => (named, sets) = (variant, trim_start(rest)),
                None => {
                    let variant = Some(format!("{typed} ({inside})"));
                    return Some(Lifted { typed, named, sets: sets.to_owned(), variant, behind: false });
                }
            }
        }
        // `Squat - 3x5`, `Squat: 3x5`; a dash that belongs to a number takes weight off the lifter's own.
        // `Squat -> 100x5`
        sets = trim_start(sets.strip_prefix("->").or(sets.strip_prefix("=>")).unwrap_or(sets));
        while let Some(rest) = sets
            .strip_prefix(|c| is_dash(c) || matches!(c, ':' | ';' | '=' | '.' | ',' | '|' | '\u{2014}' | '\u{2192}'))
        {
            if sets.starts_with(is_dash) && !rest.starts_with(is_space) && named.takes.own {
                break;
            }
            sets = trim_start(rest);
        }
        return Some(Lifted { typed, named, sets: sets.to_owned(), variant: None, behind: false });
    }
    if !content.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let starts = content.char_indices().zip(content.chars().skip(1));
    let mut starts = starts.filter(|((_, blank), c)| is_space(*blank) && c.is_alphabetic());
    let (at, named, end) = starts.find_map(|((at, blank), _)| {
        let at = at + blank.len_utf8();
        let (named, end) = names::leading(content.get(at..)?, names)?;
        Some((at, named, at + end))
    })?;
    let sets = format!("{} {}", trim_end(content.get(..at)?), content.get(end..)?);
    let behind = content.get(end..)?.chars().all(|c| is_space(c) || c == '.');
    Some(Lifted { typed: content.get(at..end)?, named, sets, variant: None, behind })
}

/// `Row (cable) 3x10 65 kg`: a name that is a lift's with the words in parentheses behind it.
fn qualified<'t>(content: &'t str, names: &dyn Names) -> Option<Lifted<'t>> {
    let (name, rest) = content.split_once('(')?;
    let (inside, sets) = rest.split_once(')')?;
    let named = names::variant(trim(name), inside, names)?;
    let sets = sets.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '-'));
    Some(Lifted { typed: trim(name), named, sets: sets.to_owned(), variant: None, behind: false })
}

/// `BP 125/78`: what a cuff measures, in the short form of the bench press.
pub(super) fn is_blood_pressure(typed: &str, sets: &str) -> bool {
    let pair = || {
        let (one, rest) = sets.split_once(['/', 'x'])?;
        let two = rest.split(|c: char| !c.is_ascii_digit()).next()?;
        Some((trim(one).parse::<u32>().ok()?, two.parse::<u32>().ok()?))
    };
    typed.eq_ignore_ascii_case("bp")
        && pair().is_some_and(|(one, two)| (80..=220).contains(&one) && (40..=130).contains(&two))
}
