//! Lines as people really type them: laid out in every way that the trade's habits allow, and given back in the
//! notation. A line with one reading is read; one with several is refused and offers them; one that looks like training
//! and has none is refused; all else is prose.
//!
//! - `habits.rs`: what a person is known to mean
//! - `names.rs`: the lift a line is about
//! - `items.rs`, `numbers.rs`: numbers, masses, signs and words of a line; `words.rs`: which words say what
//! - `shapes.rs`: which number is the sets, the reps, the load
//! - `line.rs`: a whole line, as one person would mean it
//! - `looks.rs`: whether a line that is not read looks like training
//! - `dates.rs`: dates that leave the year or the order open
//! - `table.rs`: rows of a table whose head names the columns
//!
//! Everything here is pure: the same text, names and habits give the same readings.

mod dates;
mod habits;
mod items;
mod line;
mod looks;
mod names;
mod numbers;
mod shapes;
mod table;
mod words;

pub use dates::{LooseDate, loose_date};
pub use habits::{AtSign, BeforeX, CommaSign, CountOrder, DateHabit, Habits, Meaning, ThreeNumbers};
pub use names::{Named, Names, Takes};
pub use table::Columns;

use super::grammar::lexer::{is_dash, is_space};
use super::grammar::tokens::lexed;
use super::grammar::work::reads_in_full;
use crate::training::fold;
use line::Sets;
use shapes::Sure;

/// Longer lines are typed by nobody.
const LONGEST: usize = 400;
/// More ways are no help.
const MOST_CHOICES: usize = 5;

/// One way to read a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What it says, in words: `3 sets of 8 at 60 kg`.
    pub say: String,
    /// The line's content in the notation, without a bullet: `Bench press: 3x8 @ 60 kg`.
    pub text: String,
    /// Whether it belongs to the lift above: sets, or a warm-up.
    pub below: bool,
}

/// What comes of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It has one reading.
    Read(Choice),
    /// It has several, or only ones that nobody would do.
    Several(Vec<Choice>),
    /// It would have readings, were its lift known: the name as typed, and the line with names like it.
    UnknownLift(String, Vec<Choice>),
    /// It looks like training and has no reading.
    Unread,
    /// It is none.
    Prose,
}

/// Where a line stands.
#[derive(Clone, Copy, Debug, Default)]
pub struct Place<'p> {
    /// The lift above, whose sets stand below it.
    pub lift: Option<&'p Named>,
    /// A name above that is no lift's: its sets are refused.
    pub unknown: Option<&'p str>,
    /// Whether sets with a load stand above on the same lift.
    pub follows: bool,
}

/// Reads a line that is none of the notation. `unit` is the one of bare loads.
pub fn readings(line: &str, place: Place<'_>, names: &dyn Names, habits: &Habits, unit: &'static str) -> Fate {
    let line = line.trim_matches(is_space);
    let digit = line.bytes().any(|byte| byte.is_ascii_digit());
    if !digit || line.len() > LONGEST || line.starts_with(['>', '|', '#']) {
        return if digit && line.len() > LONGEST { Fate::Unread } else { Fate::Prose };
    }
    let names = &Known { names, habits };
    let (content, ticked) = without_mark(line);
    let content = content.replace("**", "").replace("__", "").replace('`', "");
    let content = content.trim_matches(is_space);
    let below_lift = place.lift.is_some() || place.unknown.is_some();
    let looks = || looks::like_training(content, names, habits, below_lift);
    let unread = || if looks() { Fate::Unread } else { Fate::Prose };
    if ticked == Some(false) || content.contains("<!--") || content.contains("~~") {
        return unread();
    }
    let box_of = if ticked.is_some() { "[x] " } else { "" };
    let line = Line { names, habits, unit };
    if let Some((named, sets)) = line.lift_and_sets(content) {
        return match line.choose(&sets, named.takes, false) {
            // `Squat jumps 3x5`: another lift than the one it begins with.
            Chosen::None if sets.starts_with(char::is_alphabetic) && looks() => {
                line.unknown(content, box_of).unwrap_or(Fate::Unread)
            }
            Chosen::None => unread(),
            Chosen::One(sets) => Fate::Read(line.work(box_of, &named.name, &sets)),
            Chosen::Several(several) => {
                let choices = several.iter().map(|sets| line.work(box_of, &named.name, sets));
                Fate::Several(choices.take(MOST_CHOICES).collect())
            }
        };
    }
    if let Some(lift) = place.lift {
        if let Some(fate) = line.below(content, lift, place.follows) {
            return fate;
        }
    } else if let Some(unknown) = place.unknown
        && content.starts_with(|c: char| c.is_ascii_digit())
        && looks()
    {
        return Fate::UnknownLift(unknown.to_owned(), Vec::new());
    }
    if !looks() {
        return Fate::Prose;
    }
    line.unknown(content, box_of).unwrap_or(Fate::Unread)
}

/// The lift that a line names and nothing else: `Squat`, `**Bench press:**`, `1. RDL`.
pub fn lone_lift(line: &str, names: &dyn Names, habits: &Habits) -> Option<Named> {
    let (content, ticked) = without_mark(line.trim_matches(is_space));
    if ticked == Some(false) || content.len() > 60 {
        return None;
    }
    let name = content.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | '`' | ':' | '.' | '='));
    names::known(name, &fold(name), &Known { names, habits })
}

/// A line of a word or three that could be a lift's name, and is none that is known.
pub fn like_a_name(line: &str) -> Option<&str> {
    let (content, _) = without_mark(line.trim_matches(is_space));
    let name = content.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | '`' | ':'));
    let words = name.split(is_space).count() <= 3 && !name.is_empty();
    let plain = name.chars().all(|c| c.is_alphabetic() || is_space(c) || matches!(c, '-' | '\'' | '\u{2019}'));
    (words && plain && !words::has_common_word(name)).then_some(name)
}

/// The lift that a line begins with.
pub fn lift_of(line: &str, names: &dyn Names, habits: &Habits) -> Option<Named> {
    let (content, _) = without_mark(line.trim_matches(is_space));
    let content = content.trim_start_matches(['*', '_', '`']);
    names::leading(content, &Known { names, habits }).map(|(named, _)| named)
}

/// The names together with the short forms of the habits.
struct Known<'n> {
    names: &'n dyn Names,
    habits: &'n Habits,
}

impl Names for Known<'_> {
    fn lift(&self, folded: &str) -> Option<Named> {
        let habit = self.habits.names.iter().find(|(typed, _)| fold(typed) == folded);
        match habit {
            Some((_, lift)) => self.names.lift(&fold(lift)),
            None => self.names.lift(folded),
        }
    }

    fn near(&self, typed: &str) -> Vec<String> {
        self.names.near(typed)
    }
}

struct Line<'n> {
    names: &'n Known<'n>,
    habits: &'n Habits,
    unit: &'static str,
}

enum Chosen {
    None,
    One(Sets),
    Several(Vec<Sets>),
}

impl Line<'_> {
    /// The lift and what is left of the line: the name stands first, or behind a count (`3x8 bench press @ 60`).
    fn lift_and_sets(&self, content: &str) -> Option<(Named, String)> {
        if content.starts_with(char::is_alphabetic) {
            let (named, end) = names::leading(content, self.names)?;
            let mut sets = content.get(end..)?.trim_start_matches(is_space);
            // `Squat - 3x5`, `Squat: 3x5`; a dash that belongs to a number takes weight off the lifter's own.
            while let Some(rest) =
                sets.strip_prefix(|c| is_dash(c) || matches!(c, ':' | '=' | '.' | ',' | '|' | '\u{2014}'))
            {
                if sets.starts_with(is_dash) && !rest.starts_with(is_space) && named.takes.own {
                    break;
                }
                sets = rest.trim_start_matches(is_space);
            }
            return Some((named, sets.to_owned()));
        }
        if !content.starts_with(|c: char| c.is_ascii_digit()) {
            return None;
        }
        let starts = content.char_indices().zip(content.chars().skip(1));
        let mut starts = starts.filter(|((_, blank), c)| is_space(*blank) && c.is_alphabetic());
        let (at, named, end) = starts.find_map(|((at, blank), _)| {
            let at = at + blank.len_utf8();
            let (named, end) = names::leading(content.get(at..)?, self.names)?;
            Some((at, named, at + end))
        })?;
        Some((named, format!("{} {}", content.get(..at)?.trim_end_matches(is_space), content.get(end..)?)))
    }

    /// The sets below a lift's own line.
    fn below(&self, content: &str, lift: &Named, follows: bool) -> Option<Fate> {
        let content = without_set_number(content);
        let content = content.strip_prefix("then ").unwrap_or(content);
        let lower = content.get(..content.len().min(9)).unwrap_or("").to_lowercase();
        let warm = ["warm-ups", "warm-up", "warm ups", "warm up", "warmups", "warmup", "w/u", "wu"];
        if let Some(word) = warm.iter().find(|word| lower.starts_with(**word)) {
            let sets = content.get(word.len()..)?.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '-' | '='));
            return self.chosen("warm-up: ", sets, lift.takes, false);
        }
        // `bw 83`: what the lifter weighs, and no set.
        let own = lower.strip_prefix("bw").map(str::trim_start).filter(|rest| !rest.is_empty());
        if own.is_some_and(|rest| rest.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','))) {
            return Some(Fate::Prose);
        }
        if !content.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '+' | '~'))
            && !lower.starts_with("bw")
            && !lower.starts_with("bar")
        {
            return None;
        }
        self.chosen("", content, lift.takes, follows)
    }

    fn chosen(&self, key: &str, sets: &str, takes: Takes, follows: bool) -> Option<Fate> {
        match self.choose(sets, takes, follows) {
            Chosen::One(sets) => Some(Fate::Read(self.set_line(key, &sets))),
            Chosen::Several(several) => {
                let choices = several.iter().map(|sets| self.set_line(key, sets));
                Some(Fate::Several(choices.take(MOST_CHOICES).collect()))
            }
            Chosen::None => None,
        }
    }

    /// A line that would be work, were its first words a lift: with the names that are like them.
    fn unknown(&self, content: &str, box_of: &str) -> Option<Fate> {
        let at = content.find(|c: char| c.is_ascii_digit())?;
        let typed = content.get(..at)?.trim_matches(|c| is_space(c) || is_dash(c) || matches!(c, ':' | '=' | '@'));
        let name = typed.starts_with(char::is_alphabetic) && typed.split(is_space).count() <= 5;
        if !name || words::has_common_word(typed) {
            return None;
        }
        let mut choices = Vec::new();
        for near in self.names.near(typed) {
            let Some(named) = self.names.lift(&fold(&near)) else { continue };
            if let Chosen::One(sets) = self.choose(content.get(at..)?, named.takes, false) {
                let mut choice = self.work(box_of, &named.name, &sets);
                choice.say = format!("{}: {}", named.name, choice.say);
                if !choices.contains(&choice) {
                    choices.push(choice);
                }
            }
        }
        Some(Fate::UnknownLift(typed.to_owned(), choices))
    }

    /// The reading of a text that is only sets, where there is one.
    fn choose(&self, sets: &str, takes: Takes, follows: bool) -> Chosen {
        let takes = Takes { unit: self.unit, ..takes };
        let all = line::readings(sets, takes, self.habits, follows);
        let all: Vec<Sets> = all.into_iter().filter(|sets| lexed(&sets.text, reads_in_full)).collect();
        let plausible: Vec<Sets> = all.iter().filter(|sets| sets.plausible).cloned().collect();
        let strong: Vec<&Sets> = plausible.iter().filter(|sets| sets.sure > Sure::Offered).collect();
        if all.is_empty() {
            return Chosen::None;
        }
        let mut fit = strong.iter().filter(|sets| strong.len() < 2 || sets.labels.fit(self.habits));
        match (fit.next(), fit.next()) {
            (Some(one), None) if one.sure == Sure::Read => Chosen::One((*one).clone()),
            _ if plausible.is_empty() => Chosen::Several(all),
            _ => Chosen::Several(plausible),
        }
    }

    /// A work line.
    fn work(&self, box_of: &str, name: &str, sets: &Sets) -> Choice {
        Choice { say: sets.say.clone(), text: format!("{box_of}{name}: {}", sets.text), below: false }
    }

    /// Sets below a lift, or a detail of them.
    fn set_line(&self, key: &str, sets: &Sets) -> Choice {
        Choice { say: sets.say.clone(), text: format!("{key}{}", sets.text), below: true }
    }
}

/// A line without what stands for its bullet, and whether a task box is ticked.
fn without_mark(line: &str) -> (&str, Option<bool>) {
    let mut content = line;
    let marked =
        content.strip_prefix(|c| is_dash(c) || matches!(c, '*' | '+' | '•' | '·' | '◦' | '▪' | '‣' | '\u{2014}'));
    if let Some(rest) = marked.filter(|rest| rest.starts_with(is_space) || rest.starts_with(char::is_alphabetic)) {
        content = rest.trim_start_matches(is_space);
    } else {
        let digits = content.trim_start_matches(|c: char| c.is_ascii_digit());
        let numbered = digits.len() < content.len() && content.len() - digits.len() <= 2;
        if let Some(rest) = digits.strip_prefix(['.', ')']).filter(|rest| numbered && rest.starts_with(is_space)) {
            content = rest.trim_start_matches(is_space);
        }
    }
    // `A1 Bench`, `B) Row`: sets that are done by turns.
    let label = content.trim_start_matches(|c: char| c.is_ascii_uppercase());
    let after = label.trim_start_matches(|c: char| c.is_ascii_digit());
    let parted = after.strip_prefix(['.', ')', ':']).unwrap_or(after);
    let one = content.len() - label.len() == 1 && label.len() - after.len() <= 1;
    if one && (after.len() < label.len() || parted.len() < after.len()) && parted.starts_with(is_space) {
        content = parted.trim_start_matches(is_space);
    }
    for (mark, ticked) in [("[ ]", false), ("[x]", true), ("[X]", true)] {
        if let Some(rest) = content.strip_prefix(mark) {
            return (rest.trim_start_matches(is_space), Some(ticked));
        }
    }
    (content, None)
}

/// `Set 1: 100x5` without the number of the set.
fn without_set_number(content: &str) -> &str {
    let Some(rest) = content.get(..3).filter(|word| word.eq_ignore_ascii_case("set")).and_then(|_| content.get(3..))
    else {
        return content;
    };
    let number = rest.trim_start_matches(is_space);
    let after = number.trim_start_matches(|c: char| c.is_ascii_digit());
    match after.trim_start_matches(is_space).strip_prefix([':', '.', ')', '-']) {
        Some(sets) if after.len() < number.len() => sets.trim_start_matches(is_space),
        _ => content,
    }
}
