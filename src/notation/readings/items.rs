//! What stands between the blanks of a line typed in haste: numbers, masses, signs, and words that belong to sets.
//! Nothing is decided here but what has one meaning wherever it stands.

use super::habits::{Habits, Meaning};
use super::names::Takes;
use super::numbers::{Number, clock, decimal_pair, digits, is_load, letters, list, of_clock, percent, primes, settled};
use super::vocabulary::Role;
use super::words::is_of_no_set;
use crate::notation::grammar::lexer::{is_dash, is_quote, is_space, trim_start};
use crate::notation::grammar::tokens::lexed;
use crate::notation::grammar::{attribute, load, signs};
use crate::notation::nodes::{Attribute, Keyword, Load, TermKind};
use crate::source::Cut;

/// One thing of a line.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Item {
    Number(Number),
    /// `5,5,4` and `5/5/4`
    List(Vec<Number>),
    /// `5/100`, `3/5`, `8/10`: two numbers of which a stroke alone does not tell what they are.
    Over(Number, Number),
    /// A load by its unit or sign, as the notation writes it; what kind it is.
    Load(String, LoadKind),
    /// `40s`, `1:30`, `500m`
    Amount(String),
    By,
    At,
    Of,
    For,
    Sets,
    Reps,
    Side,
    Comma,
    /// `;`, `then`: the next sets begin.
    Then,
    /// A colon, `=` or a dash between blanks.
    Weak,
    /// `RPE 8`, `rest 90s`, `!depth`, as the notation writes it.
    Attribute(String),
    /// `RPE` and `RIR` with the numbers that follow it or stand before it.
    WarmUp,
    /// A word of the lifter's own.
    Word,
    /// What can belong to no set.
    Stray,
}

/// What sort of load a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LoadKind {
    /// A mass with its unit.
    Mass,
    /// `25s`: bells of that mass, where they could be nothing else.
    Bells,
    /// `3x10 25s`: bells, or the rest between the sets.
    PerhapsBells,
    /// The lifter's own weight, with more or less.
    Own,
    /// `+20`: on top of something.
    Added,
    /// A percentage, a pin, plates, text in quotes.
    Other,
}

/// An item with its place in the line.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub(super) item: Item,
    pub(super) start: usize,
    pub(super) end: usize,
}

/// How a line is taken apart where that alone can be in doubt.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way<'h> {
    pub(super) habits: &'h Habits,
    /// Whether a comma between two digits is a decimal one where nothing else tells.
    pub(super) decimal_comma: bool,
    /// What the lift takes, and the unit of bare loads.
    pub(super) takes: Takes,
}

/// Whether a comma of a text could be a decimal one or the next of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Doubt {
    None,
    /// In an effort: `RPE 8,5`.
    Effort,
    /// In another number.
    Number,
}

/// The items of a text, and whether a comma in it could be either.
pub(super) fn items(text: &str, way: Way<'_>) -> (Vec<Placed>, Doubt) {
    // Mostly there are as many as words and signs: a few.
    let mut lexer = Lexer { text, at: 0, way, out: Vec::with_capacity(16), comma_in_doubt: Doubt::None };
    while lexer.next() {}
    (lexer.out, lexer.comma_in_doubt)
}

/// Takes a text apart, item by item.
pub(super) struct Lexer<'t, 'h> {
    text: &'t str,
    pub(super) at: usize,
    pub(super) way: Way<'h>,
    pub(super) out: Vec<Placed>,
    pub(super) comma_in_doubt: Doubt,
}

impl<'t> Lexer<'t, '_> {
    pub(super) fn rest(&self) -> &'t str {
        self.text.tail(self.at)
    }

    pub(super) fn push(&mut self, item: Item, length: usize) {
        let start = self.at;
        self.at += length;
        self.out.push(Placed { item, start, end: self.at });
    }

    pub(super) fn last(&self) -> Option<&Item> {
        self.out.last().map(|placed| &placed.item)
    }

    /// The last two items.
    pub(super) fn last_two(&self) -> [&Item; 2] {
        match self.out.as_slice() {
            [.., one, two] => [&one.item, &two.item],
            _ => [&Item::Stray; 2],
        }
    }

    /// Goes on behind what says nothing.
    pub(super) fn skip(&mut self, length: usize) {
        self.at += length;
    }

    /// Whether the last item ends where the next begins.
    pub(super) fn glued(&self) -> bool {
        self.out.last().is_some_and(|placed| placed.end == self.at)
    }

    fn next(&mut self) -> bool {
        let rest = self.rest();
        let blanks = rest.len() - trim_start(rest).len();
        self.at += blanks;
        let Some(first) = self.rest().chars().next() else { return false };
        let fresh = blanks > 0 || self.at == 0;
        match first {
            '0'..='9' => self.number(),
            '(' | '!' => self.attribute_or(first.len_utf8()),
            '@' => self.push(Item::At, 1),
            ',' if self.then_follows() => self.at += 1,
            ',' => self.push(Item::Comma, 1),
            ';' => self.push(Item::Then, 1),
            // `3x5=15` is what it comes to, and `:D` a face.
            '=' if self.counted_before() => self.push(Item::Stray, 1),
            ':' if fresh && letters(self.rest().tail(1)).len() == 1 => self.push(Item::Stray, 1),
            ':' | '=' | '|' => self.push(Item::Weak, 1),
            '\u{d7}' | '\u{2715}' | '\u{2716}' | '*' | '\u{b7}' => self.push(Item::By, first.len_utf8()),
            '~' | '+' => self.signed(first),
            '/' => self.slash(fresh),
            '.' if self.rest().len() == 1 => self.at += 1,
            '.' if self.rest().get(1..).is_some_and(|after| after.starts_with(is_space)) => self.push(Item::Weak, 1),
            '&' if fresh => self.push(Item::Then, 1),
            c if is_quote(c) => self.quoted(),
            c if is_dash(c) || c == '\u{2014}' => self.dash(c, fresh),
            c if c.is_alphabetic() => self.word(fresh),
            c if c.is_ascii() => self.push(Item::Stray, 1),
            c if c.is_numeric() || (!fresh && matches!(c, '\u{fe0f}' | '\u{20e3}')) => {
                self.push(Item::Stray, c.len_utf8());
            }
            c => self.push(Item::Word, c.len_utf8()),
        }
        true
    }

    /// Whether the last that stands before is a count, `3x5`, and a number follows.
    fn counted_before(&self) -> bool {
        let next = trim_start(self.rest().tail(1));
        next.starts_with(|c: char| c.is_ascii_digit()) && matches!(self.last_two(), [Item::By, Item::Number(_)])
    }

    /// `, then`: one sign.
    fn then_follows(&self) -> bool {
        let word = letters(trim_start(self.rest().tail(1))).to_lowercase();
        self.meaning(&word) == Some(Meaning::Then) && !self.out.is_empty()
    }

    fn dash(&mut self, c: char, fresh: bool) {
        let after = self.rest().tail(c.len_utf8());
        if fresh && after.starts_with(is_space) {
            return self.push(Item::Weak, c.len_utf8());
        }
        if let Some((length, mass)) = self.mass_behind(c.len_utf8(), fresh) {
            return self.push(Item::Load(format!("bw - {mass}"), LoadKind::Own), length);
        }
        self.push(Item::Stray, c.len_utf8());
    }

    /// `+20 kg`, `-15`: a mass directly behind a sign that stands by itself.
    fn mass_behind(&self, sign: usize, fresh: bool) -> Option<(usize, String)> {
        let after = self.rest().get(sign..)?;
        let blank = after.len() - trim_start(after).len();
        let number = after.get(blank..)?;
        let decimal = list(number, ',').and_then(|(end, _)| Some((end, decimal_pair(number, end)?)));
        // `bw+7,5`
        let decimal = decimal.filter(|(end, read)| {
            let word = letters(trim_start(number.tail(*end)));
            settled(*read) || self.unit(word).is_some()
        });
        let (digits, number) = decimal.or_else(|| digits(number))?;
        let behind = after.get(blank + digits..)?;
        let glue = behind.len() - trim_start(behind).len();
        let word = letters(behind.get(glue..)?);
        let (unit, length) = match self.unit(word) {
            Some((unit, length)) => (unit, glue + length),
            None if behind.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '%' | '+' | ',' | '/' | '.')) => {
                return None;
            }
            None => (self.way.takes.unit, 0),
        };
        fresh.then(|| (sign + blank + digits + length, format!("{} {unit}", number.text())))
    }

    fn signed(&mut self, sign: char) {
        if sign == '~' {
            let read =
                load(self.rest()).map(|(after, load)| (self.rest().len() - after.len(), load.text.trim().to_owned()));
            return match read {
                // `~40 kg`, and no name: `stair~s`.
                Some((length, text))
                    if text.ends_with(char::is_alphabetic) && text.contains(|c: char| c.is_ascii_digit()) =>
                {
                    self.push(Item::Load(text, LoadKind::Mass), length);
                }
                _ => self.push(Item::Stray, 1),
            };
        }
        let own = matches!(self.last(), Some(Item::Load(text, LoadKind::Own)) if text == "bw");
        match self.mass_behind(1, true) {
            Some((length, mass)) if own => {
                let start = self.out.pop().map_or(self.at, |placed| placed.start);
                self.push(Item::Load(format!("bw + {mass}"), LoadKind::Own), length);
                if let Some(last) = self.out.last_mut() {
                    last.start = start;
                }
            }
            Some((length, mass)) if !self.glued() => self.push(Item::Load(mass, LoadKind::Added), length),
            _ => self.push(Item::Stray, 1),
        }
    }

    fn slash(&mut self, fresh: bool) {
        let behind = self.rest().tail(1);
        let after = trim_start(behind);
        // `3x5 @ 110 / RPE 7`
        if fresh && after.len() < behind.len() && starts_attribute(after) {
            return self.push(Item::Comma, 1);
        }
        // `3x12 / 180 kg`
        let mass =
            digits(after).is_some_and(|(length, _)| self.unit(letters(trim_start(after.tail(length)))).is_some());
        if fresh && after.len() < behind.len() && mass {
            return self.push(Item::Weak, 1);
        }
        let word = letters(after).to_lowercase();
        let side = ["side", "leg", "arm", "hand", "seite", "bein", "arm", "jambe", "bras", "lado", "pierna", "brazo"];
        if side.contains(&word.as_str()) {
            let length = self.rest().len() - after.len() + word.len();
            return if word == "hand" { self.in_hand(length) } else { self.push(Item::Side, length) };
        }
        self.push(Item::Stray, 1);
    }

    /// What a hand says: of a load it is what each of two holds, which is no count of a side.
    pub(super) fn in_hand(&mut self, length: usize) {
        let mass = match self.last_two() {
            [_, Item::Load(text, LoadKind::Mass)] if !text.contains('x') => Some(text.clone()),
            // `3x8 20/hand`: neither the reps of a count nor the first number of all.
            [Item::Number(_) | Item::List(_) | Item::At | Item::Reps, Item::Number(number)] => {
                Some(format!("{} {}", number.text(), self.way.takes.unit))
            }
            [_, Item::Load(..)] => return self.push(Item::Stray, length),
            _ => None,
        };
        let Some(mass) = mass else {
            return self.push(if self.way.takes.one_side { Item::Side } else { Item::Stray }, length);
        };
        let start = self.out.pop().map_or(self.at, |placed| placed.start);
        self.push(Item::Load(format!("2x{mass}"), LoadKind::PerhapsBells), length);
        if let Some(last) = self.out.last_mut() {
            last.start = start;
        }
    }

    fn quoted(&mut self) {
        // `"blue band" - felt easy`: words behind a dash are no part of the load.
        let words = |load: &Load<'_>| load.more.iter().any(|(_, term)| matches!(term.kind, TermKind::Named(None, _)));
        let read = load(self.rest()).map(|(after, load)| match words(&load) {
            true => (load.first.text.len(), load.first.text.to_owned()),
            false => (self.rest().len() - after.len(), load.text.trim().to_owned()),
        });
        match read {
            Some((length, text)) => self.push(Item::Load(text, LoadKind::Other), length),
            None => self.push(Item::Stray, self.rest().chars().next().map_or(1, char::len_utf8)),
        }
    }

    /// A number with what belongs to it: `82,5 kg`, `40s`, `8 reps`, `75%`, `8 RPE`, `5,5,4`.
    fn number(&mut self) {
        let glued = self.glued() && matches!(self.last(), Some(Item::Word | Item::Stray | Item::Number(_)));
        let Some((mut length, mut number)) = digits(self.rest()) else {
            let run = self.rest().len() - self.rest().trim_start_matches(|c: char| c.is_ascii_digit()).len();
            return self.push(Item::Stray, run.max(1));
        };
        if glued {
            return self.push(Item::Stray, length);
        }
        let after = self.rest().tail(length);
        if let Some(clock) = clock(self.rest()) {
            let text = self.rest().head(clock).to_owned();
            return self.push(Item::Amount(text), clock);
        }
        // `90"`, `1'30` of a lift that is held, `2' rest`.
        if let Some((signs, time)) = primes(number, after) {
            if let Some(length) = self.rests(length + signs) {
                return self.push(Item::Attribute(format!("rest {}", of_clock(&time))), length);
            }
            if self.way.takes.held || self.way.takes.machine {
                return self.push(Item::Amount(time), length + signs);
            }
        }
        let sign = after.chars().next().filter(|c| matches!(c, ',' | '/'));
        if let Some(sign) = sign
            && let Some((end, list)) = list(self.rest(), sign)
        {
            // `5/5`: each side of a lift that is worked one side at a time, or two sets?
            if sign == '/' && list.len() == 2 && self.way.takes.one_side {
                return self.push(Item::Stray, end);
            }
            let pair = sign == ',' && list.len() == 2;
            let thousands = pair
                && self.rest().get(..end).is_some_and(|text| {
                    text.len() >= 5 && text.get(text.len() - 4..).is_some_and(|tail| tail.starts_with(','))
                });
            if thousands {
                return self.push(Item::Stray, end);
            }
            let decimal = pair.then(|| decimal_pair(self.rest(), end)).flatten();
            let unit = self.unit_at(end).is_some();
            match decimal {
                Some(read) if unit || settled(read) => (length, number) = (end, read),
                Some(read) => {
                    self.comma_in_doubt = Doubt::Number;
                    if !self.way.decimal_comma {
                        return self.push(Item::List(list), end);
                    }
                    (length, number) = (end, read);
                }
                None => return self.list(list, end),
            }
        }
        let after = self.rest().tail(length);
        // `5-5-5`: reps of sets one by one, where they fall and are no beats of a tempo.
        if let Some(dash) = after.chars().next().filter(|c| is_dash(*c))
            && let Some((end, list)) = list(self.rest(), dash)
            && list.len() > 2
            && list.windows(2).all(|pair| matches!(pair, [one, two] if one.thousandths >= two.thousandths))
            && list.iter().all(|number| number.thousandths >= 3000)
        {
            return self.list(list, end);
        }
        if let Some(percent) = percent(after) {
            return self.push(Item::Load(format!("{}%", number.text()), LoadKind::Other), length + percent);
        }
        if after.starts_with('+') && after.get(1..).is_some_and(|more| more.starts_with(|c: char| c.is_ascii_digit())) {
            return self.sum_or_stray(length);
        }
        let dash = after.chars().next().filter(|c| is_dash(*c) || *c == '\u{2014}').map_or(0, char::len_utf8);
        let range = dash > 0 && after.tail(dash).starts_with(|c: char| c.is_ascii_digit());
        // `3x8 80 kg @7-8`
        if range
            && matches!(self.last(), Some(Item::At))
            && self.tells_a_load()
            && let Some((end, pair)) =
                list(self.rest(), after.chars().next().unwrap_or('-')).filter(|(_, all)| all.len() == 2)
            && pair.iter().all(|number| number.is_effort())
            && !self.rest().tail(end).starts_with(|c: char| c.is_alphanumeric() || c == '%')
        {
            self.out.pop();
            let texts: Vec<String> = pair.iter().map(|number| number.text()).collect();
            return self.push(Item::Attribute(format!("RPE {}", texts.join("-"))), end);
        }
        if after.starts_with('+') || range {
            return self.push(Item::Stray, length + dash.max(1));
        }
        if let Some((unit, end)) = self.unit_at(length) {
            let behind = trim_start(self.rest().tail(end));
            if behind.starts_with('+') || behind.starts_with("/side") || behind.starts_with("per side") {
                return self.sum_or_stray(end);
            }
            return self.push(Item::Load(format!("{} {unit}", number.text()), LoadKind::Mass), end);
        }
        let behind = trim_start(after);
        let word = letters(behind);
        let blank = after.len() - behind.len();
        let lower = word.to_lowercase();
        let end = length + blank + word.len();
        let amount = Role::first(lower.trim_end_matches('x'), &AMOUNTS);
        let ends = lower.len() - lower.trim_end_matches('x').len();
        if is_of_no_set(&lower) {
            return self.push(Item::Stray, end);
        }
        match (amount, lower.as_str()) {
            // `35s 3x10`, `3x10 @ 35s`: bells of that mass; nothing held is counted in `s` there.
            (Some("s"), "s") if blank == 0 && self.may_be_of_bells() => {
                let mass = format!("{} {}", number.text(), self.way.takes.unit);
                let first = matches!(self.last(), None | Some(Item::At));
                self.push(Item::Load(mass, if first { LoadKind::Bells } else { LoadKind::PerhapsBells }), end);
            }
            // `12.5's`: no seconds are written so.
            (None, "'s" | "\u{2019}s") if blank == 0 && self.may_be_of_bells() => {
                let mass = format!("{} {}", number.text(), self.way.takes.unit);
                self.push(Item::Load(mass, LoadKind::Mass), end);
            }
            // `2 min rest`
            (Some(unit @ ("s" | "min")), _) if self.rests(end).is_some() => {
                let length = self.rests(end).unwrap_or(end);
                self.push(Item::Attribute(format!("rest {}{unit}", number.text())), length);
            }
            (Some(unit), _) => self.push(Item::Amount(format!("{}{unit}", number.text())), end - ends),
            (None, "rpe" | "rir") if !self.value_follows(end) => {
                self.push(Item::Attribute(format!("{} {}", word.to_uppercase(), number.text())), end);
            }
            (None, "in" | "left") if self.in_the_tank(length + blank).is_some() => {
                let end = self.in_the_tank(length + blank).unwrap_or(end);
                self.push(Item::Attribute(format!("RIR {}", number.text())), end);
            }
            // `5th`, `2k`, `3D`: a number that counts nothing here.
            _ if blank == 0
                && !word.is_empty()
                && !lower.starts_with('x')
                && self.meaning(&lower).is_none()
                && !starts_attribute(behind) =>
            {
                self.push(Item::Stray, end);
            }
            _ => self.push(Item::Number(number), length),
        }
    }

    /// Whether a load stands before, by its unit or beside a count.
    pub(super) fn tells_a_load(&self) -> bool {
        let numbers = self.out.iter().filter(|placed| matches!(placed.item, Item::Number(_)));
        self.out.iter().any(|placed| matches!(placed.item, Item::Load(..))) || numbers.count() > 2
    }

    /// Where `rest` ends that follows a time, where it does.
    fn rests(&self, end: usize) -> Option<usize> {
        let behind = self.rest().tail(end);
        let word = trim_start(behind);
        let rest = word.strip_prefix("rest").or(word.strip_prefix("Pause"))?;
        let ends = !rest.starts_with(|c: char| c.is_alphanumeric()) && !self.out.is_empty();
        ends.then(|| self.rest().len() - rest.len())
    }

    pub(super) fn value_follows(&self, end: usize) -> bool {
        let behind = trim_start(self.rest().tail(end));
        behind.starts_with(|c: char| c.is_ascii_digit() || matches!(c, ':' | '=' | '@'))
    }

    /// `20 kg + 2x25 kg/side`: a sum the notation knows, or nothing.
    fn sum_or_stray(&mut self, length: usize) {
        let read = load(self.rest()).filter(|(_, load)| !load.more.is_empty());
        match read.map(|(after, load)| (self.rest().len() - after.len(), load.text.trim().to_owned())) {
            // `1+1 x 3` is no mass.
            Some((length, text)) if ["kg", "lb", "side"].iter().any(|unit| text.ends_with(unit)) => {
                self.push(Item::Load(text, LoadKind::Mass), length);
            }
            _ => self.push(Item::Stray, length),
        }
    }

    /// Whether a number with an `s` may be a mass: of a lift that counts in reps, first or behind `@` or a count.
    fn may_be_of_bells(&self) -> bool {
        let Takes { held, carried, anything, own, .. } = self.way.takes;
        let behind_count = || matches!(self.last_two(), [Item::By, Item::Number(_)]);
        !(held || carried || anything || own) && (matches!(self.last(), None | Some(Item::At)) || behind_count())
    }

    fn list(&mut self, list: Vec<Number>, end: usize) {
        let after = self.rest().tail(end);
        let word = letters(after);
        // `60/45/45s`
        if matches!(word.to_lowercase().as_str(), "s" | "sec" | "secs") {
            let texts: Vec<String> = list.iter().map(|number| number.text()).collect();
            let length = end + word.len();
            return self.push(Item::Amount(format!("{}s", texts.join(","))), length);
        }
        let unit = self.unit_at(end).is_some();
        let stray = self.rest().get(end..).is_some_and(|after| after.starts_with(char::is_alphabetic)) && !unit;
        let by = self.rest().get(end..).is_some_and(|after| after.starts_with(['x', 'X']));
        if stray && !by {
            return self.push(Item::Stray, end);
        }
        let stroke = self.rest().head(end).contains('/');
        match list.as_slice() {
            [one, two] if stroke && !(is_load(*one) && is_load(*two)) => self.push(Item::Over(*one, *two), end),
            _ => self.push(Item::List(list), end),
        }
    }

    /// The unit of mass behind a number, and where it ends.
    fn unit_at(&self, length: usize) -> Option<(&'static str, usize)> {
        let after = self.rest().get(length..)?;
        let behind = trim_start(after);
        let blank = after.len() - behind.len();
        // `#8` behind a blank is the eighth hole or pin.
        if behind.starts_with('#') && (blank == 0 || !behind.tail(1).starts_with(|c: char| c.is_ascii_digit())) {
            return Some(("lb", length + blank + 1));
        }
        let word = letters(behind);
        let (unit, letters) = self.unit(word)?;
        // `18kg's`
        let letters = if word.get(letters..).is_some_and(|rest| matches!(rest, "'s" | "\u{2019}s")) {
            word.len()
        } else {
            letters
        };
        let end = length + blank + letters;
        // `kg.` and `kgs`
        let dotted = self.rest().get(end..).is_some_and(|rest| rest.starts_with(". ") || rest == ".");
        Some((unit, if dotted { end + 1 } else { end }))
    }

    /// The unit a word is, and how much of it; `kgx5` goes on with a sign.
    fn unit(&self, word: &str) -> Option<(&'static str, usize)> {
        let lower = word.to_lowercase();
        let lower = lower.strip_suffix("'s").or(lower.strip_suffix("\u{2019}s")).unwrap_or(&lower);
        let lower = lower.strip_suffix('x').unwrap_or(lower);
        match self.meaning(lower)? {
            Meaning::Kilograms => Some(("kg", lower.len())),
            Meaning::Pounds => Some(("lb", lower.len())),
            _ => None,
        }
    }

    pub(super) fn meaning(&self, lower: &str) -> Option<Meaning> {
        self.way.habits.words.get(lower).copied().or_else(|| Meaning::of(lower))
    }
}

/// What is counted in, as the notation writes it.
const AMOUNTS: [(Role, &str); 6] = [
    (Role::Seconds, "s"),
    (Role::Minutes, "min"),
    (Role::Metres, "m"),
    (Role::Kilometres, "km"),
    (Role::Yards, "yd"),
    (Role::Miles, "mi"),
];

/// The load that a text begins with, and what stands behind it.
pub(super) fn load(text: &str) -> Option<(&str, Load<'_>)> {
    lexed(text, |i| load::load(i).ok().map(|(rest, load)| (i.behind(rest), load)))
}

/// The attribute that a text begins with, and what stands behind it.
pub(super) fn attribute(text: &str) -> Option<(&str, Attribute<'_>)> {
    lexed(text, |i| attribute::attribute(i).ok().map(|(rest, attribute)| (i.behind(rest), attribute)))
}

pub(super) fn starts_attribute(text: &str) -> bool {
    // Most words and every number are told by their first sign.
    if text.bytes().next().is_some_and(|first| first.is_ascii_alphanumeric() && !Keyword::may_begin_with(first)) {
        return false;
    }
    lexed(text.split(is_space).next().unwrap_or(text), signs::starts_attribute)
}
