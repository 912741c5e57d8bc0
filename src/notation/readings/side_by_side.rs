//! Things of a line that belong together though only a blank stands between, and sets that nothing else parts.

use super::items::{Item, LoadKind, Placed};
use super::names::Takes;
use crate::source::Cut;

/// `10m 10m 8m`, `1:00 0:45`: a list of what each set came to.
pub(super) fn listed(items: &mut Vec<Placed>) {
    let clock = |text: &str| text.contains(':');
    let number = |text: &str| text.trim_end_matches(char::is_alphabetic).len();
    let mut at = 0;
    while at + 1 < items.len() {
        let joined = match items.get(at..at + 2) {
            Some([one, two]) => match (&one.item, &two.item) {
                (Item::Amount(first), Item::Amount(next))
                    if clock(first) == clock(next) && first.tail(number(first)) == next.tail(number(next)) =>
                {
                    let item = Item::Amount(format!("{},{next}", first.head(number(first))));
                    Some(Placed { item, start: one.start, end: two.end })
                }
                _ => None,
            },
            _ => None,
        };
        match joined {
            Some(joined) => drop(items.splice(at..at + 2, [joined])),
            None => at += 1,
        }
    }
}

/// `2x20 kg` at a place: a pair of bells, which is one load.
fn pair_at(items: &[Placed], at: usize) -> Option<Placed> {
    let [one, by, load] = items.get(at..at + 3)? else { return None };
    match (&one.item, &by.item, &load.item) {
        (Item::Number(two), Item::By, Item::Load(text, LoadKind::Mass)) if two.whole() == Some(2) => {
            Some(Placed { item: Item::Load(format!("2x{text}"), LoadKind::Mass), start: one.start, end: load.end })
        }
        _ => None,
    }
}

/// A line that begins with a pair, `2x30 kg 3x10`, with that as its load; or two reps, were no count behind it.
pub(super) fn led_by_pair(items: &[Placed]) -> Option<Vec<Placed>> {
    let pair = pair_at(items, 0)?;
    let counted = matches!(items.get(3)?.item, Item::Number(_) | Item::List(_) | Item::Amount(_));
    counted.then(|| std::iter::once(pair).chain(items.iter().skip(3).cloned()).collect())
}

/// What a line may be where a number of sets or bells is told by no unit, and another way of it is as likely.
pub(super) fn otherwise(items: &[Placed], takes: Takes) -> Vec<Vec<Placed>> {
    let whole = |at: usize| match items.get(at).map(|placed| &placed.item) {
        Some(Item::Number(number)) => number.whole(),
        _ => None,
    };
    let is = |at: usize, item: &Item| items.get(at).is_some_and(|placed| placed.item == *item);
    let replaced = |range: std::ops::Range<usize>, new: Item| {
        let mut items = items.to_vec();
        if let (Some(first), Some(last)) = (items.get(range.start), items.get(range.end - 1)) {
            let placed = Placed { item: new, start: first.start, end: last.end };
            items.splice(range, [placed]);
        }
        items
    };
    let mut out = Vec::new();
    // `100 5 x3`, `100kg 5 (x3)`: three sets of five as well.
    if let [.., Placed { item: Item::Number(_) | Item::Load(..), .. }, reps, by, sets] = items
        && let (Item::Number(_), Item::By, Item::Number(_)) = (&reps.item, &by.item, &sets.item)
        && by.start > reps.end
        && by.end == sets.start
    {
        out.push(items.iter().cloned().chain([Placed { item: Item::Sets, start: sets.end, end: sets.end }]).collect());
    }
    if takes.own || takes.held || takes.carried {
        return out;
    }
    let count = |at: usize| {
        let alone = !is(at + 3, &Item::By) && !at.checked_sub(1).is_some_and(|before| is(before, &Item::By));
        (is(at + 1, &Item::By) && alone).then(|| Some((whole(at)?, whole(at + 2)?))).flatten()
    };
    let counts: Vec<(usize, (u32, u32))> = (0..items.len()).filter_map(|at| Some((at, count(at)?))).collect();
    let loads = items.iter().filter(|placed| matches!(placed.item, Item::Load(..))).count();
    // `3x10 2x24`: a pair of bells, or two sets.
    if let ([(first, one), (second, other)], 0) = (counts.as_slice(), loads) {
        let pair = |(bells, mass): (u32, u32), (_, reps): (u32, u32)| match bells {
            2 => mass > 5,
            1 => mass > 20 && mass > reps,
            _ => false,
        };
        for (at, bells, others) in [(*second, *other, *one), (*first, *one, *other)] {
            if pair(bells, others) {
                let (count, mass) = bells;
                let text = format!("{mass} {}", takes.unit);
                let text = if count == 1 { text } else { format!("{count}x{text}") };
                out.push(replaced(at..at + 3, Item::Load(text, LoadKind::Mass)));
                break;
            }
        }
    }
    // `24kg x2 3x10`: the same with its unit.
    if let ([_], 1) = (counts.as_slice(), loads)
        && let Some((at, mass)) = items.iter().enumerate().find_map(|(at, placed)| match &placed.item {
            Item::Load(text, LoadKind::Mass) if is(at + 1, &Item::By) && whole(at + 2) == Some(2) => Some((at, text)),
            _ => None,
        })
    {
        out.push(replaced(at..at + 3, Item::Load(format!("2x{mass}"), LoadKind::Mass)));
    }
    out
}

/// Sets that only a blank parts: `100x5 110x5`; and a pair of bells, `2x20 kg`, which is one load.
pub(super) fn side_by_side(items: &mut Vec<Placed>) {
    let counts = |item: &Item| {
        matches!(item, Item::Number(_) | Item::List(_) | Item::Over(..) | Item::Load(..) | Item::Amount(_))
    };
    let mut at = 0;
    while at + 2 < items.len() {
        let behind = at.checked_sub(1).and_then(|before| items.get(before)).map(|placed| &placed.item);
        if let Some(bells) = pair_at(items, at)
            && behind.is_some_and(|item| counts(item) || matches!(item, Item::At | Item::Side | Item::Reps))
        {
            items.splice(at..at + 3, [bells]);
        }
        at += 1;
    }
    let mut at = 0;
    while at + 3 < items.len() {
        let parted = match items.get(at..at + 4) {
            Some([sign, one, two, next]) => {
                counts(&one.item)
                    && counts(&two.item)
                    && matches!((&sign.item, &next.item), (Item::By | Item::At, Item::By) | (Item::At, Item::At))
                    // `2x20 kg 3x10`: a pair of bells, or two reps?
                    && !(matches!(one.item, Item::Load(..))
                        && at.checked_sub(1).and_then(|before| items.get(before)).is_some_and(
                            |first| matches!(&first.item, Item::Number(two) if two.whole() == Some(2)),
                        ))
            }
            _ => false,
        };
        // `100x5 RPE 8 105x5 RPE 8.5`
        let rated = at > 1
            && match items.get(at..at + 3) {
                Some([said, one, by]) => {
                    matches!(&said.item, Item::Attribute(said) if said.starts_with('R'))
                        && counts(&one.item)
                        && by.item == Item::By
                }
                _ => false,
            };
        if rated && let Some(place) = items.get(at + 1).map(|placed| placed.start) {
            items.insert(at + 1, Placed { item: Item::Then, start: place, end: place });
            at += 1;
        }
        if parted && let Some(place) = items.get(at + 2).map(|placed| placed.start) {
            items.insert(at + 2, Placed { item: Item::Then, start: place, end: place });
        }
        at += 1;
    }
}
