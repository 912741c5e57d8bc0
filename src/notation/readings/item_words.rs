//! The words of a line typed in haste that belong to its sets.

use super::habits::Meaning;
use super::items::{Doubt, Item, Lexer, LoadKind, attribute, load, starts_attribute};
use super::numbers::{Number, decimal_pair, digits, efforts_listed, has_half, letters, list, of_clock, primes};
use super::vocabulary;
use crate::notation::grammar::lexer::{is_space, trim_start};
use crate::source::Cut;

/// Ways to say that the count is of each side.
#[rustfmt::skip]
const SIDES: [&str; 37] = [
    "on each side", "on each leg", "on each arm", "for each side", "each side", "per side", "each leg", "per leg",
    "each arm", "per arm", "each hand", "per hand", "a side", "pro seite", "je seite", "pro bein", "je bein",
    "pro arm", "je arm", "par côté", "par cote", "par jambe", "par bras", "chaque côté", "chaque jambe",
    "chaque bras", "de chaque côté", "por lado", "por pierna", "por brazo", "cada lado", "cada pierna", "cada brazo",
    "each way", "both sides", "ea side", "ea leg",
];

impl Lexer<'_, '_> {
    /// Where `in the tank` and the like end.
    pub(super) fn in_the_tank(&self, from: usize) -> Option<usize> {
        let rest = self.rest().get(from..)?;
        let lower = rest.to_ascii_lowercase();
        ["left in the tank", "in the tank", "in reserve", "left in tank", "in tank"]
            .iter()
            .find(|words| lower.starts_with(**words))
            .map(|words| from + words.len())
    }

    pub(super) fn word(&mut self, fresh: bool) {
        if starts_attribute(self.rest()) {
            return self.effort_or_attribute();
        }
        let (rest, word) = (self.rest(), letters(self.rest()));
        let lower = word.to_lowercase();
        // `3xbw`, `x5`: a sign glued to what follows it.
        let after_number = self.glued()
            && matches!(self.last(), Some(Item::Number(_) | Item::List(_) | Item::Load(..) | Item::Amount(_)));
        if lower == "x" || (lower.starts_with('x') && after_number) {
            return self.push(Item::By, 1);
        }
        let number_next = rest.get(word.len()..).is_some_and(|rest| {
            let next = trim_start(rest);
            next.len() < rest.len() && next.starts_with(|c: char| c.is_ascii_digit())
        });
        for side in SIDES {
            if behind(rest, side).is_some_and(|more| !more.starts_with(char::is_alphabetic)) {
                let length = side.len();
                return if side.ends_with("hand") { self.in_hand(length) } else { self.push(Item::Side, length) };
            }
        }
        // `5, 5 and 4`, `5 5 and 4`: the last of a list.
        let joins = matches!(lower.as_str(), "and" | "und" | "et" | "y");
        if joins && number_next && matches!(self.last_two(), [Item::Number(_) | Item::Comma, Item::Number(_)]) {
            self.skip(word.len());
            return;
        }
        // `3x8 each` of a lift that is worked one side at a time.
        let counted = matches!(self.last(), Some(Item::Number(_) | Item::List(_) | Item::Reps | Item::Amount(_)));
        if lower == "each" && counted && self.way.takes.one_side {
            return self.push(Item::Side, word.len());
        }
        // `8r` are reps, `R` is as often the right side.
        if lower == "r" && (word == "R" || self.way.takes.one_side || !self.glued()) {
            return self.push(Item::Stray, 1);
        }
        // `3 Sätze à 8`, `3x8 à 60 kg`, `3x8 a 60 kg`
        if matches!(lower.as_str(), "à" | "a") && number_next && !self.way.habits.words.contains_key(&lower) {
            let of = matches!(self.last(), Some(Item::Sets));
            return self.push(if of { Item::Of } else { Item::At }, word.len());
        }
        // `de` and `von` are many other things where no number of sets stands before them.
        if matches!(lower.as_str(), "de" | "von") && !(number_next && matches!(self.last(), Some(Item::Sets))) {
            return self.push(Item::Word, word.len());
        }
        for sign in ["w/u", "e/s", "w/"] {
            if behind(rest, sign).is_some()
                && let Some(meaning) = Meaning::of(sign)
            {
                return self.push(of_meaning(meaning), sign.len());
            }
        }
        for warm in ["warm-up", "warm up", "warmup"] {
            if let Some(more) = behind(rest, warm) {
                return self.push(Item::WarmUp, warm.len() + usize::from(more.starts_with(['s', 'S'])));
            }
        }
        if lower == "pin" || (lower == "bar" && self.rest().contains('/')) {
            let read = load(self.rest());
            if let Some((length, text)) =
                read.map(|(after, load)| (self.rest().len() - after.len(), load.text.trim().to_owned()))
                && (lower == "pin" || text.contains('+'))
            {
                return self.push(Item::Load(text, LoadKind::Other), length);
            }
        }
        for bar in ["empty bar", "just the bar", "only the bar", "bar only", "the bar"] {
            if behind(self.rest(), bar).is_some_and(|more| !more.starts_with(|c: char| c.is_alphanumeric() || c == '+'))
            {
                return self.push(Item::Load("bar".into(), LoadKind::Other), bar.len());
            }
        }
        if let Some(said) = self.said_of_sets(&lower) {
            return self.push(Item::Attribute(format!("({})", said.to_lowercase())), said.len());
        }
        // `24 kg KB`, `10kg plate`: one thing of that mass. Two bells may be that together or each.
        if matches!(self.last(), Some(Item::Load(_, LoadKind::Mass | LoadKind::Added)))
            && matches!(lower.as_str(), "db" | "dumbbell" | "kb" | "kettlebell" | "plate" | "vest")
        {
            return self.push(Item::Attribute(format!("({word})")), word.len());
        }
        // `five sets of five`
        if let Some(number) = vocabulary::number(&lower).filter(|number| *number <= 10) {
            let behind = letters(trim_start(self.rest().tail(word.len()))).to_lowercase();
            let of_sets = matches!(self.meaning(&behind), Some(Meaning::Sets | Meaning::Reps));
            if of_sets || matches!(self.last(), Some(Item::Of)) {
                return self.push(Item::Number(Number { thousandths: i64::from(number) * 1000 }), word.len());
            }
        }
        // `top single 115`, `115 kg single`
        let one = ["single", "double", "triple"].iter().zip(1..).find(|(each, _)| **each == lower);
        let of_load = match self.last() {
            Some(Item::Load(..)) => true,
            Some(Item::Number(number)) => number.thousandths > 20_000,
            last => number_next || self.load_follows(word.len()) && matches!(last, None | Some(Item::Attribute(_))),
        };
        if let Some((_, reps)) = one.filter(|_| of_load) {
            self.push(Item::Number(Number { thousandths: reps * 1000 }), 0);
            return self.push(Item::Reps, word.len());
        }
        // `3 singles`
        let each = ["singles", "doubles", "triples"].iter().zip(1..).find(|(each, _)| **each == lower);
        if let (Some((_, each)), Some(Item::Number(_))) = (each, self.last()) {
            self.push(Item::Sets, 0);
            self.push(Item::Of, 0);
            return self.push(Item::Number(Number { thousandths: each * 1000 }), word.len());
        }
        match self.meaning(&lower) {
            Some(Meaning::Bodyweight) => self.push(Item::Load("bw".into(), LoadKind::Own), word.len()),
            Some(Meaning::Kilograms | Meaning::Pounds) => self.push(Item::Stray, word.len()),
            Some(meaning) if fresh || after_number || matches!(self.last(), Some(Item::By)) => {
                let dotted = self.rest().get(word.len()..).is_some_and(|rest| rest.starts_with('.'));
                let length = word.len() + usize::from(dotted);
                self.push(of_meaning(meaning), length);
            }
            _ if lower == "bar" => self.push(Item::Load("bar".into(), LoadKind::Other), word.len()),
            _ => self.push(Item::Word, word.len().max(1)),
        }
    }

    /// `top set`, `back-off sets` before the numbers: which sets these are, and nothing that changes them.
    fn said_of_sets(&self, lower: &str) -> Option<String> {
        if !matches!(self.last(), None | Some(Item::Comma | Item::Then))
            || !matches!(lower, "top" | "heavy" | "backoff" | "backoffs" | "back")
        {
            return None;
        }
        let rest = self.rest();
        #[rustfmt::skip]
        const SAID: [&str; 16] = [
            "top sets", "top set", "top", "heavy sets", "heavy set", "heavy", "backoff sets", "backoff set",
            "back-off sets", "back-off set", "back-offs", "back off sets", "back off set", "back off", "back-off",
            "backoff",
        ];
        let said =
            SAID.iter().find(|said| behind(rest, said).is_some_and(|more| !more.starts_with(char::is_alphabetic)))?;
        rest.get(..said.len()).map(str::to_owned)
    }

    /// Whether a load follows behind a sign: `single @ 115`.
    fn load_follows(&self, from: usize) -> bool {
        let behind = self.rest().tail(from).trim_start_matches(|c| is_space(c) || matches!(c, '@' | ':'));
        let behind = behind.strip_prefix("at ").unwrap_or(behind);
        behind.starts_with(|c: char| c.is_ascii_digit())
    }

    /// `RPE 8`, `rpe: 8,5`, `rest 2 min`.
    pub(super) fn effort_or_attribute(&mut self) {
        let word = letters(self.rest()).to_owned();
        if let Some((length, text)) = self.efforts(&word) {
            return self.push(Item::Attribute(text), length);
        }
        if let Some((after, read)) = attribute(self.rest()) {
            let mut text = read.text.trim().to_owned();
            let length = self.rest().len() - after.len();
            let effort = word.eq_ignore_ascii_case("rpe") || word.eq_ignore_ascii_case("rir");
            // `RPE 8,5` is eight and a half, or two efforts.
            if let Some((whole, "5")) = text.split_once(',').filter(|_| effort) {
                self.comma_in_doubt = self.comma_in_doubt.max(Doubt::Effort);
                if self.way.decimal_comma {
                    text = format!("{whole}.5");
                }
            }
            if effort {
                text = format!("{} {}", word.to_uppercase(), text.tail(word.len()).trim());
            }
            return self.push(Item::Attribute(text), length);
        }
        if let Some((length, text)) = self.tempo_or_rest(&word) {
            return self.push(Item::Attribute(text), length);
        }
        let keyword = word.to_uppercase();
        if !matches!(keyword.as_str(), "RPE" | "RIR") {
            return self.push(Item::Word, word.len().max(1));
        }
        let after = self.rest().tail(word.len());
        let value = after.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '=' | '@' | '.'));
        let Some((mut length, mut number)) = digits(value) else { return self.push(Item::Stray, word.len()) };
        if let Some((end, read)) = list(value, ',').and_then(|(end, _)| Some((end, decimal_pair(value, end)?))) {
            (length, number) = (end, read);
        }
        let out_of = value.get(length..).filter(|rest| rest.starts_with("/10")).map_or(0, |_| 3);
        let end = self.rest().len() - value.len() + length + out_of;
        let stray = self.rest().get(end..).is_some_and(|rest| rest.starts_with(|c: char| c.is_alphanumeric()));
        if stray {
            return self.push(Item::Stray, end);
        }
        self.push(Item::Attribute(format!("{keyword} {}", number.text())), end);
    }

    /// `tempo 3110`, `tempo 31X0`, `rest 2'`, `rest: 90"`, `rest 2'30`: as people shorten them.
    fn tempo_or_rest(&self, word: &str) -> Option<(usize, String)> {
        let value = self.rest().get(word.len()..)?.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '='));
        let end = |length: usize| self.rest().len() - value.len() + length;
        let ends = |length: usize| !value.tail(length).starts_with(|c: char| c.is_alphanumeric());
        match word.to_lowercase().as_str() {
            "tempo" => {
                let beats: Vec<char> = value.chars().take_while(char::is_ascii_alphanumeric).collect();
                let beat = |c: &char| c.is_ascii_digit() || matches!(c, 'x' | 'X');
                let joined: Vec<String> = beats.iter().map(char::to_string).collect();
                let told = (3..=4).contains(&beats.len()) && beats.iter().all(beat) && ends(beats.len());
                told.then(|| (end(beats.len()), format!("tempo {}", joined.join("-").to_uppercase())))
            }
            "rest" => {
                let (length, number) = digits(value)?;
                let (signs, time) = primes(number, value.get(length..)?)?;
                Some((end(length + signs), format!("rest {}", of_clock(&time))))
            }
            _ => None,
        }
    }

    /// `RPE 7/7.5/8`, `RPE 7 7.5 8`: an effort for each set. Two could be one out of ten, or a range.
    fn efforts(&self, word: &str) -> Option<(usize, String)> {
        if !matches!(word.to_uppercase().as_str(), "RPE" | "RIR") {
            return None;
        }
        let value = self.rest().get(word.len()..)?.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '='));
        let listed = ['/', ' '].iter().find_map(|sign| list(value, *sign).filter(|(_, all)| all.len() > 2));
        // `3x5 100 RPE 7, 8, 8`: one for each of the sets.
        let sets = self.out.iter().zip(self.out.iter().skip(1)).find_map(|pair| match (&pair.0.item, &pair.1.item) {
            (Item::Number(sets), Item::By) => sets.whole(),
            _ => None,
        });
        let each = |all: &[Number]| all.len() > 2 && self.tells_a_load() && sets == Some(all.len() as u32);
        let commas = || efforts_listed(value).filter(|(_, all)| has_half(all) || each(all));
        let (end, all) = listed.or_else(commas)?;
        let ends = !value.get(end..)?.starts_with(|c: char| c.is_alphanumeric() || c == '/');
        let texts: Vec<String> = all.iter().map(|number| number.text()).collect();
        ends.then(|| (self.rest().len() - value.len() + end, format!("{} {}", word.to_uppercase(), texts.join(","))))
    }
}

/// What stands behind a phrase that a text begins with, whatever the case of its letters.
fn behind<'t>(text: &'t str, phrase: &str) -> Option<&'t str> {
    let (head, more) = text.split_at_checked(phrase.len())?;
    head.eq_ignore_ascii_case(phrase).then_some(more)
}

fn of_meaning(meaning: Meaning) -> Item {
    match meaning {
        Meaning::Sets => Item::Sets,
        Meaning::Reps => Item::Reps,
        Meaning::Of => Item::Of,
        Meaning::For => Item::For,
        Meaning::At => Item::At,
        Meaning::By => Item::By,
        Meaning::Side => Item::Side,
        Meaning::WarmUp => Item::WarmUp,
        Meaning::Then => Item::Then,
        Meaning::Kilograms | Meaning::Pounds => Item::Stray,
        Meaning::Bodyweight => Item::Load("bw".into(), LoadKind::Own),
    }
}
