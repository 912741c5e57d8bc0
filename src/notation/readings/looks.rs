//! Whether a line that is not read looks like training: then it is said, and never taken for prose in silence.

use super::habits::Habits;
use super::items::{Item, LoadKind, Placed, Way, items};
use super::names::{Names, Takes, leading};
use super::numbers::{letters, load_over_reps};
use super::vocabulary::Role;
use super::words::{changes_sets, is_again, is_common, is_frequency, is_no_day};
use crate::notation::grammar::tokens::lexed;
use crate::notation::grammar::work::begins_with_count;
use crate::source::Cut;
use crate::training::fold;

/// With a lift's name a number within so many words is training.
const NEAR: usize = 2;
/// Without one: so many words before the first number at most, and behind the last.
const WORDS_BEFORE: usize = 4;
const WORDS_BEHIND: usize = 2;

/// Whether a text looks like training.
pub(super) fn like_training(content: &str, names: &dyn Names, habits: &Habits, below_lift: bool) -> bool {
    let text = outside_asides(content);
    if is_frequency(&text) {
        return false;
    }
    // `100-5` below a lift, `hit 140 for a double`, `deadlifted 140 for 5`
    let joined = || text.trim().split_once('-').is_some_and(|(load, reps)| is_number(load) && is_number(reps));
    if (below_lift && joined()) || is_for_a_few(&text) || is_done_with_a_number(&text, names) {
        return true;
    }
    let mut items = items_of(&text, habits);
    // `then 85 kg x 3`
    items.drain(..usize::from(items.first().is_some_and(|placed| placed.item == Item::Then)));
    // `Row 4x10 60kg same as last week`
    let counted_with_a_load = || {
        let first = items.iter().position(|placed| matches!(placed.item, Item::Number(_)));
        let by = items.windows(3).any(is_count);
        let load = items.iter().any(|placed| matches!(placed.item, Item::Load(_, LoadKind::Mass)));
        by && load && first.is_some_and(|first| (1..=3).contains(&first))
    };
    if counted_with_a_load() {
        return true;
    }
    let round = |placed: &Placed| {
        let word = text.cut(placed.start..placed.end);
        placed.item == Item::Word && ["round", "rounds"].iter().any(|round| word.eq_ignore_ascii_case(round))
    };
    let rounds = |pair: &[Placed]| matches!(pair, [Placed { item: Item::Number(_), .. }, word] if round(word));
    let counted = tells_of_sets(&items) || items.windows(2).any(rounds);
    if let Some((start, end, takes)) = lift_in(&text, names, counted) {
        // `could not finish the leg press (3x12 at 180)`
        let aside = if text.len() < content.len() { items_of(content, habits) } else { Vec::new() };
        if start < text.len() && aside.windows(3).any(is_count) {
            return true;
        }
        // `Bench: up to 100 for a triple`
        let headed = start == 0 && text.get(end..).is_some_and(|rest| rest.trim_start().starts_with(':'));
        let number = |placed: &Placed| matches!(placed.item, Item::Number(_) | Item::Load(..));
        // `might try 95 on the squat`, `e1RM squat 205`
        if !counted && start > 0 && text.get(..start).is_some_and(is_no_day) {
            return false;
        }
        let told = start == 0 && items.iter().any(|placed| matches!(placed.item, Item::Sets | Item::Reps));
        if told && items.iter().any(number) {
            return true;
        }
        return counted
            || near_number(
                &text,
                &items,
                start,
                end,
                if takes.carried {
                    1
                } else if start == 0 {
                    NEAR + 1
                } else {
                    NEAR
                },
                takes.held,
            )
            || (headed && items.iter().any(number));
    }
    // `12+4+4 …`, `2x1:30 …`
    if below_lift && lexed(&text, begins_with_count) {
        return true;
    }
    let number = |placed: &Placed| {
        matches!(placed.item, Item::Number(_) | Item::List(_) | Item::Over(..) | Item::Load(..) | Item::Amount(_))
    };
    let (Some(first), Some(last)) = (items.iter().position(number), items.iter().rposition(number)) else {
        return false;
    };
    // `one more set of 5`, `same again x3`: of the lift above, whatever words stand in it.
    let again = is_again(&text);
    let counts = tells_of_counts(&items) || again;
    let words = |items: &[Placed]| -> Option<usize> {
        let mut count = 0;
        for placed in
            items.iter().filter(|placed| matches!(placed.item, Item::Word | Item::Then | Item::At | Item::For))
        {
            let word = text.get(placed.start..placed.end)?.to_lowercase();
            let joins = again || (counts && Role::Joins.has(&word));
            if word.starts_with(char::is_alphabetic) && is_common(&word) && !joins {
                return None;
            }
            count += usize::from(placed.item == Item::Word || placed.item == Item::Then);
        }
        Some(count)
    };
    let before = words(items.get(..first).unwrap_or(&[]));
    let behind = items.get(last + 1..).unwrap_or(&[]);
    let behind =
        if counts { Some(behind.iter().filter(|placed| placed.item == Item::Word).count()) } else { words(behind) };
    let few =
        before.is_some_and(|before| before <= WORDS_BEFORE) && behind.is_some_and(|behind| behind <= WORDS_BEHIND);
    // `105`, `8 neg`, `L 10`, `last set 9` below a lift are of its sets, and `last week: 97.5x5x5` may be.
    let of_lift = || {
        let said = items.iter().filter(|placed| matches!(placed.item, Item::Word | Item::For | Item::Of));
        let mut said = said.map(|placed| text.cut(placed.start..placed.end).to_lowercase());
        let begins = items.iter().take(first).all(|placed| !matches!(placed.item, Item::Word | Item::Weak));
        let side = ["l", "r", "left", "right"].contains(&letters(&text).to_lowercase().as_str()) && first == 1;
        let score = matches!(items.get(first).map(|placed| &placed.item), Some(Item::Over(..)));
        // `45 min total` is how long it took.
        let took =
            matches!(items.get(first).map(|placed| &placed.item), Some(Item::Amount(_))) && said.clone().count() > 0;
        let plain = said.clone().count() <= WORDS_BEHIND
            && !said.any(|word| (is_common(&word) && !changes_sets(&word)) || Role::SetUp.has(&word));
        (plain && !score && !took && (begins || side))
            || (again && !score)
            || (counted && counts && first <= WORDS_BEFORE && last + 1 == items.len())
    };
    (counted && (few || (below_lift && first == 0))) || (below_lift && of_lift())
}

fn items_of(text: &str, habits: &Habits) -> Vec<Placed> {
    let takes = Takes { anything: true, unit: "kg", ..Takes::default() };
    items(text, Way { habits, decimal_comma: true, takes }).0
}

/// `60, 100, 140`: more than one number, and words that are no time.
pub(super) fn tells_of_loads(text: &str) -> bool {
    let items = items_of(text, &Habits::default());
    let numbers = items.iter().filter(|placed| matches!(placed.item, Item::Number(_) | Item::Load(..)));
    let list = |placed: &Placed| matches!(placed.item, Item::List(_) | Item::Over(..));
    tells_of_sets(&items) || numbers.count() > 1 || items.iter().any(list)
}

/// `3x12`
fn is_count(three: &[Placed]) -> bool {
    let number = |placed: Option<&Placed>| matches!(placed.map(|placed| &placed.item), Some(Item::Number(_)));
    number(three.first()) && three.get(1).is_some_and(|sign| sign.item == Item::By) && number(three.get(2))
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
    let counts = |item: &Item| {
        matches!(item, Item::Number(_) | Item::List(_) | Item::Over(..) | Item::Load(..) | Item::Amount(_))
    };
    items.windows(2).any(|pair| match pair {
        [one, two] => {
            counts(&one.item) && matches!(two.item, Item::Sets | Item::Reps)
                || matches!(one.item, Item::Of) && counts(&two.item)
                // `8rpe8`
                || counts(&one.item) && one.end == two.start && matches!(two.item, Item::Attribute(_))
                || matches!(&one.item, Item::By | Item::At)
                    && counts(&two.item)
                    && !matches!(&two.item, Item::Amount(text) if text.contains(':'))
                    && (one.item == Item::By || one.end - one.start == 1)
        }
        _ => false,
    }) || items.windows(3).any(|three| three.iter().all(|placed| matches!(placed.item, Item::Number(_))))
        || items.iter().any(|placed| match &placed.item {
            Item::List(list) => list.len() > 2 || load_over_reps(list).is_some(),
            Item::Over(one, two) => load_over_reps(&[*one, *two]).is_some(),
            Item::Load(text, _) => text != "bar" && text != "bw",
            Item::Amount(text) => text.contains(','),
            _ => false,
        })
}

/// `3x8`, `3 sets`, a list: more than a mass or an effort, which many lines have that are no training.
fn tells_of_counts(items: &[Placed]) -> bool {
    items.iter().any(|placed| match &placed.item {
        Item::By | Item::Sets | Item::Reps => true,
        Item::List(list) => list.len() > 2,
        _ => false,
    })
}

/// Whether a line has the Cyrillic letters that stand for `x` and `kg`.
pub(super) fn is_cyrillic(line: &str) -> bool {
    let mut before = ' ';
    line.chars().any(|c| {
        let sign = before.is_ascii_digit() && matches!(c, '\u{445}' | '\u{425}');
        let spaced = before == ' ' && matches!(c, '\u{445}' | '\u{425}');
        before = c;
        sign || spaced
    }) && line.contains(|c: char| c.is_ascii_digit())
        || line.contains("\u{43a}\u{433}")
        || line.contains(|c| FULL_WIDTH.contains(&c))
}

/// Digits and letters as wide as a Chinese character (Unicode, Halfwidth and Fullwidth Forms).
const FULL_WIDTH: std::ops::RangeInclusive<char> = '\u{ff01}'..='\u{ff5e}';

/// The line with `x`, `kg` and wide digits in Latin letters.
pub(super) fn in_latin(line: &str) -> String {
    let narrow = |c: char| match c {
        '\u{445}' | '\u{425}' => 'x',
        c if FULL_WIDTH.contains(&c) => char::from_u32(c as u32 - 0xfee0).unwrap_or(c),
        c => c,
    };
    line.chars().map(narrow).collect::<String>().replace("\u{43a}\u{433}", "kg")
}

/// Whether a line without a digit says sets of a lift in words: `squat a hundred for five, five and four`.
pub(super) fn is_spoken(line: &str, names: &dyn Names) -> bool {
    let lower = line.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphabetic());
    let numbers = words.filter(|word| Role::Numbers.has(word)).count();
    numbers > 1 && lift_in(line, names, true).is_some()
}

/// Whether a text names a lift.
pub(super) fn names_a_lift(text: &str, names: &dyn Names) -> bool {
    lift_in(text, names, false).is_some()
}

/// Where a lift's name stands, and what it takes: words for distances are in many lines that are no training.
fn lift_in(text: &str, names: &dyn Names, counted: bool) -> Option<(usize, usize, Takes)> {
    let mut before = ' ';
    let mut most = 64;
    for (at, c) in text.char_indices() {
        if c.is_alphabetic() && !before.is_alphanumeric() {
            most -= 1;
            let rest = text.get(at..)?;
            if let Some((named, length)) = leading(rest, names) {
                return Some((at, at + length, named.takes));
            }
            let word = letters(rest);
            if counted && done(word).iter().any(|lift| names.lift(&fold(lift)).is_some()) {
                return Some((at, at + word.len(), Takes::default()));
            }
            if most == 0 {
                return None;
            }
        }
        before = c;
    }
    None
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.len() < 6 && text.chars().all(|c| c.is_ascii_digit() || c == '.')
}

/// `140 for a double`
fn is_for_a_few(text: &str) -> bool {
    let few =
        |few: &str| text.find(few).is_some_and(|at| text.head(at).trim_end().ends_with(|c: char| c.is_ascii_digit()));
    ["for a single", "for a double", "for a triple"].into_iter().any(few)
}

/// `deadlifted 140 for 5`, `front squatted 80`: what was done with a lift, and a number right behind it.
fn is_done_with_a_number(text: &str, names: &dyn Names) -> bool {
    let words: Vec<&str> = text.split(' ').filter(|word| !word.is_empty()).take(4).collect();
    let digit = |word: Option<&&str>| word.is_some_and(|word| word.starts_with(|c: char| c.is_ascii_digit()));
    let is_lift = |word: &str, before: &str| {
        // `walked 5 km with the dog`
        let worked =
            |lift: &String| names.lift(&fold(&format!("{before}{lift}"))).is_some_and(|lift| !lift.takes.carried);
        done(letters(word)).iter().any(worked)
    };
    match words.as_slice() {
        [one, two, ..] if digit(Some(two)) => is_lift(one, ""),
        [one, two, three, ..] if digit(Some(three)) => is_lift(two, &format!("{one} ")) || is_lift(two, ""),
        _ => false,
    }
}

/// What `squatted`, `benching` were done with: the word without its ending.
fn done(word: &str) -> Vec<String> {
    let lower = word.to_lowercase();
    let Some(stem) = lower.strip_suffix("ed").or(lower.strip_suffix("ing")).filter(|stem| stem.len() > 3) else {
        return Vec::new();
    };
    let mut letters = stem.chars().rev();
    let doubled = letters.next() == letters.next();
    let single = stem.get(..stem.len() - 1).filter(|_| doubled);
    [Some(stem), single].into_iter().flatten().map(str::to_owned).collect()
}

/// Whether a number that is no score, date or time of day stands within two words of a lift's name.
fn near_number(text: &str, items: &[Placed], start: usize, end: usize, near: usize, held: bool) -> bool {
    let tells = |placed: &Placed, common: bool| match &placed.item {
        // `129€`
        Item::Number(_) => !text.tail(placed.end).trim_start().starts_with(['€', '$', '£']),
        Item::Load(..) => true,
        // `5k`, `1-2-3`, `1h15`, `10+5+3`
        Item::Stray => text
            .get(placed.start..placed.end)
            .map(|number| number.strip_suffix(['k', '-', 'h']).unwrap_or(number))
            .filter(|number| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
            .is_some_and(|number| {
                let behind = text.tail(placed.end);
                number.len() < placed.end - placed.start
                    || behind.strip_prefix('+').is_some_and(|more| more.starts_with(|c: char| c.is_ascii_digit()))
            }),
        // `100/5`, but not `120/80`
        Item::List(list) => list.len() > 2 || load_over_reps(list).is_some(),
        Item::Over(one, two) => two.thousandths != 10_000 || one.thousandths > 10_000,
        Item::Amount(text) => held || (!text.contains(':') && !common),
        _ => false,
    };
    let within = |near: usize, mut items: Box<dyn Iterator<Item = &Placed> + '_>| {
        let (mut words, mut of_feeling, mut common) = (0, false, false);
        items.any(|placed| {
            if matches!(placed.item, Item::Word | Item::For | Item::At | Item::Of) {
                let word = text.cut(placed.start..placed.end).to_lowercase();
                of_feeling |= matches!(word.as_str(), "felt" | "feel" | "feels" | "feeling") || Role::SetUp.has(&word);
                let joins = matches!(word.as_str(), "on" | "the" | "a" | "an" | "my");
                common |= placed.item == Item::Word && is_common(&word) && !joins;
                words += usize::from(!joins);
            }
            words <= near && !of_feeling && tells(placed, common)
        })
    };
    // Before the name: `12 slow dips`, but not `2 guys doing curls`.
    within(near, Box::new(items.iter().filter(move |placed| placed.start >= end)))
        || within(1, Box::new(items.iter().rev().filter(move |placed| placed.end <= start)))
}
/// Whether a line has a count beside a load, whatever words stand round them: `finally 1 x 90 kg`, `plus 2 at 90`,
/// `90 for 1`. What is compared or measured says none: `last week 3x5 at 95`.
pub fn has_a_set(text: &str) -> bool {
    let number = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    // `bw 8`
    let lower = text.trim_start().to_ascii_lowercase();
    if lower.strip_prefix("bw").is_some_and(|rest| number(rest.trim_start())) {
        return true;
    }
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        rest = rest.tail(at).trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','));
        let behind = rest.trim_start();
        let unit = ["kg", "lbs", "lb"].into_iter().find_map(|unit| behind.strip_prefix(unit)).unwrap_or(behind);
        let by = ["x", "X", "\u{d7}", "*", "@", "for ", "at "].into_iter();
        if by.filter_map(|by| unit.trim_start().strip_prefix(by)).any(|rest| number(rest.trim_start())) {
            return !super::undone::is_beside_the_sets(text);
        }
    }
    false
}
