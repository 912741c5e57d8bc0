//! Whether a line that is not read looks like training: then it is said, and never taken for prose in silence.

use super::habits::Habits;
use super::items::{Item, Placed, Way, items};
use super::names::{Names, leading};
use super::words::is_common;

/// With a lift's name a number within so many words is training.
const NEAR: usize = 2;
/// Without one: so many words before the first number at most, and behind the last.
const WORDS_BEFORE: usize = 4;
const WORDS_BEHIND: usize = 2;

/// Whether a text looks like training.
pub(super) fn like_training(content: &str, names: &dyn Names, habits: &Habits, below_lift: bool) -> bool {
    let text = outside_asides(content);
    let (items, _) = items(&text, Way { habits, decimal_comma: true, unit: "kg" });
    let counted = tells_of_sets(&items);
    if let Some((start, end)) = lift_in(&text, names) {
        // `Bench: up to 100 for a triple`
        let headed = start == 0 && text.get(end..).is_some_and(|rest| rest.trim_start().starts_with(':'));
        let number = |placed: &Placed| matches!(placed.item, Item::Number(_) | Item::Load(..));
        let told = start == 0 && items.iter().any(|placed| matches!(placed.item, Item::Sets | Item::Reps));
        if told && items.iter().any(number) {
            return true;
        }
        return counted
            || near_number(&items, start, end, if start == 0 { NEAR + 1 } else { NEAR })
            || (headed && items.iter().any(number));
    }
    let number =
        |placed: &Placed| matches!(placed.item, Item::Number(_) | Item::List(_) | Item::Load(..) | Item::Amount(_));
    let (Some(first), Some(last)) = (items.iter().position(number), items.iter().rposition(number)) else {
        return false;
    };
    let words = |items: &[Placed]| -> Option<usize> {
        let mut count = 0;
        for placed in items.iter().filter(|placed| matches!(placed.item, Item::Word | Item::Then)) {
            let word = text.get(placed.start..placed.end)?.to_lowercase();
            if word.starts_with(char::is_alphabetic) && is_common(&word) {
                return None;
            }
            count += 1;
        }
        Some(count)
    };
    let before = words(items.get(..first).unwrap_or(&[]));
    let behind = items.get(last + 1..).unwrap_or(&[]).iter().filter(|placed| placed.item == Item::Word).count();
    let few = before.is_some_and(|before| before <= WORDS_BEFORE) && behind <= WORDS_BEHIND;
    counted && (few || (below_lift && first <= WORDS_BEFORE))
}

/// Without what stands in quotes, parentheses and code.
fn outside_asides(content: &str) -> String {
    let mut out = String::with_capacity(content.len());
    let mut close: Option<char> = None;
    for c in content.chars() {
        match close {
            Some(end) if c == end || (end == '"' && c == '\u{201d}') => close = None,
            Some(_) => {}
            None => match c {
                '(' => close = Some(')'),
                '`' => close = Some('`'),
                '"' | '\u{201c}' | '\u{201e}' => close = Some('"'),
                c => out.push(c),
            },
        }
    }
    // What never closes hides nothing.
    if close.is_some() { content.to_owned() } else { out }
}

/// `3x8`, `100 kg`, `3 sets`, `8 reps`, `5/5/4`, `8 @ 100`.
fn tells_of_sets(items: &[Placed]) -> bool {
    let counts = |item: &Item| matches!(item, Item::Number(_) | Item::List(_) | Item::Load(..) | Item::Amount(_));
    items.windows(2).any(|pair| match pair {
        [one, two] => {
            counts(&one.item) && matches!(two.item, Item::Sets | Item::Reps)
                || matches!(&one.item, Item::By | Item::At)
                    && counts(&two.item)
                    && !matches!(&two.item, Item::Amount(text) if text.contains(':'))
                    && (one.item == Item::By || one.end - one.start == 1)
        }
        _ => false,
    }) || items.windows(3).any(|three| three.iter().all(|placed| matches!(placed.item, Item::Number(_))))
        || items.iter().any(|placed| match &placed.item {
            Item::List(list) => list.len() > 2,
            Item::Load(text, _) => text != "bar" && text != "bw",
            _ => false,
        })
}

fn lift_in(text: &str, names: &dyn Names) -> Option<(usize, usize)> {
    let mut before = ' ';
    let mut most = 64;
    for (at, c) in text.char_indices() {
        if c.is_alphabetic() && !before.is_alphanumeric() {
            most -= 1;
            if let Some((_, length)) = leading(text.get(at..)?, names) {
                return Some((at, at + length));
            }
            if most == 0 {
                return None;
            }
        }
        before = c;
    }
    None
}

/// Whether a number that is no score, date or time of day stands within two words of a lift's name.
fn near_number(items: &[Placed], start: usize, end: usize, near: usize) -> bool {
    let tells = |item: &Item| match item {
        Item::Number(_) | Item::Load(..) => true,
        Item::List(list) => list.len() > 2,
        Item::Amount(text) => !text.contains(':'),
        _ => false,
    };
    let within = |mut items: Box<dyn Iterator<Item = &Placed> + '_>| {
        let mut words = 0;
        items.any(|placed| {
            words += usize::from(matches!(placed.item, Item::Word | Item::For | Item::At | Item::Of));
            words <= near && tells(&placed.item)
        })
    };
    within(Box::new(items.iter().filter(move |placed| placed.start >= end)))
        || within(Box::new(items.iter().rev().filter(move |placed| placed.end <= start)))
}
