//! What of a refused line stands in the way: the least that has to go for the rest to be read.

use super::habits::Habits;
use super::items::{Item, Way, items};
use super::names::Takes;
use crate::source::Cut;
use std::ops::Range;

/// What a line would be read without.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOver {
    /// As it is typed.
    pub text: String,
    /// What the rest of the line is in the notation, where that is one thing and what is left over changes no set.
    pub rest: Option<String>,
    /// How the notation writes what it seems to mean.
    pub written: Option<&'static str>,
}

const AMRAP: &str = "as many as possible is `1x8 @ 60 AMRAP`";

/// How the notation writes what people say in words.
const WRITTEN: [(&[&str], &str); 12] = [
    (&["skip", "not done", "cancel"], "what was left out is `- Squat: skipped`"),
    (&["plan", "next week", "tomorrow"], "what is to come is `- plan: 3x5 @ 60`, indented below its lift"),
    (&["failure"], AMRAP),
    (&["miss", "fail", "nolift", "nope"], "a failed attempt is `1x0`, with its load"),
    (&["plate"], "plates are what hangs on the bar: `bar + 2x20/side`"),
    (&["assist", "helped"], "help takes weight off: `bw - 20`"),
    (&["band"], "a band stands in quotes: `@ \"green band\"`"),
    (&["tank", "reserve"], "reps left over are `RIR 1`"),
    (&["hand", " leg", " arm"], "a load for each hand is `2x30`, reps of each side are `3x8/side`"),
    (&["each", "left", "right", "side", "links", "rechts"], "reps of each side are `3x8/side`"),
    (&["amrap", "max"], AMRAP),
    (&["warm", "warmup"], "a warm-up is `- warm-up: 5 @ 60`, indented below the lift"),
];

/// Of a load and nothing else.
pub(super) const NO_REPS: &str = "a load alone is no set: reps stand before it, `5 @ 60`";

/// Whether a text is a load and nothing else.
pub(super) fn is_load(text: &str, takes: Takes, habits: &Habits) -> bool {
    let (items, _) = items(text, Way { habits, decimal_comma: true, takes });
    matches!(items.as_slice(), [one] if matches!(one.item, Item::Load(..)))
}

/// How the notation writes what a text seems to mean.
pub(super) fn written(text: &str) -> Option<&'static str> {
    let text = text.to_lowercase();
    // `planned` says a plan, and `plank` none.
    let ends = ["", "s", "es", "ed", "ped", "led", "ned", "able"];
    let is = |word: &str, sign: &str| word.strip_prefix(sign).is_some_and(|end| ends.contains(&end));
    let words = || text.split(|c: char| !c.is_alphanumeric());
    let said = |signs: &[&str]| {
        let one =
            |sign: &&str| if sign.contains(' ') { text.contains(sign) } else { words().any(|word| is(word, sign)) };
        signs.iter().any(one)
    };
    // `100x5+`
    let open = text.match_indices('+').any(|(at, _)| {
        let digit = |c: char| c.is_ascii_digit();
        text.head(at).ends_with(digit) && !text.tail(at + 1).trim_start().starts_with(digit)
    });
    WRITTEN.iter().find(|(signs, _)| said(signs)).map(|(_, written)| *written).or(open.then_some(AMRAP))
}

/// More pieces are not tried: a line with more wrong in it wants to be written anew.
const MOST_TRIES: usize = 60;
/// So many things side by side are one fault.
const WIDEST: usize = 4;

/// Pieces of a text that may be what is wrong with it, the likeliest first: strange words and signs together, then
/// whatever stands side by side.
pub(super) fn pieces(text: &str, takes: Takes, habits: &Habits) -> Vec<Range<usize>> {
    let (items, _) = items(text, Way { habits, decimal_comma: true, takes });
    let strange = |item: &Item| matches!(item, Item::Word | Item::Stray | Item::WarmUp);
    let sign = |item: &Item| matches!(item, Item::By | Item::At | Item::Of | Item::For | Item::Comma | Item::Then);
    let mut out: Vec<Range<usize>> = items
        .chunk_by(|one, two| strange(&one.item) == strange(&two.item))
        .filter(|run| run.iter().all(|placed| strange(&placed.item)))
        .filter_map(|run| Some(run.first()?.start..run.last()?.end))
        .collect();
    for wide in 1..=WIDEST {
        for window in items.windows(wide) {
            if let ([first, ..], [.., last]) = (window, window)
                && !window.iter().all(|placed| sign(&placed.item))
            {
                out.push(first.start..last.end);
            }
        }
    }
    out.truncate(MOST_TRIES);
    out
}
