//! Lines as people really type them: laid out in every way that the trade's habits allow, and given back in the
//! notation. A line with one reading is read; one with several is refused and offers them; one that looks like training
//! and has none is refused; all else is prose.
//!
//! - `habits.rs`: what a person is known to mean
//! - `names.rs`, `lifted.rs`: the lift a line is about, and where it stands
//! - `marks.rs`: bullets, boxes and signs before its words
//! - `items.rs`, `item_words.rs`, `asides.rs`, `numbers.rs`: numbers, masses, signs and words of a line; `vocabulary.rs`:
//!   which words say what, in all tongues; `words.rs`: which lines and remarks they make of it
//! - `undone.rs`, `amends.rs`: words beside sets, and lines below them, that say that these were not done as written
//! - `core.rs`: the numbers of a group; `shapes.rs`, `strokes.rs`: which number is the sets, the reps, the load
//! - `side_by_side.rs`: what belongs together, and what is parted, by a blank alone
//! - `line.rs`: a whole line, as one person would mean it; `sets.rs`: what that says
//! - `done.rs`: sets as they were done behind what was meant
//! - `as_written.rs`: sets in the notation behind a name without its colon
//! - `left_over.rs`: what stands in the way of a reading
//! - `looks.rs`: whether a line that is not read looks like training
//! - `beside.rs`: lines right below sets that go on with them, or are only said of them
//! - `captions.rs`: lines above sets that say whether, when, by whom or how often these were done
//! - `facts.rs`: facts of a day without their colon
//! - `dates.rs`, `date_words.rs`, `day_names.rs`: dates that leave the year or the order open
//! - `table.rs`: rows of a table whose head names the columns
//!
//! Everything here is pure: the same text, names and habits give the same readings.

mod amends;
mod as_written;
mod asides;
mod beside;
mod captions;
mod core;
mod date_words;
mod dates;
mod day_names;
mod done;
mod facts;
mod habits;
mod item_words;
mod items;
mod left_over;
mod lifted;
mod line;
mod looks;
mod marks;
mod names;
mod numbers;
mod sets;
mod shapes;
mod side_by_side;
mod strokes;
mod table;
mod undone;
mod vocabulary;
mod words;

pub use amends::amends;
pub use beside::{goes_on, is_load_alone, is_mere_remark};
pub use captions::{Says, caption, is_of_no_day, of_card};
pub use dates::{
    Label, LooseDate, another_day, before_date, begins_like_a_date, behind_its_title, date_in, hints_at_sets,
    loose_date,
};
pub use habits::{AtSign, BeforeX, CommaSign, CountOrder, DateHabit, Habits, Meaning, ThreeNumbers};
pub use left_over::LeftOver;
pub use looks::has_a_set;
pub use names::{Named, Names, Takes, is_unit};
pub use numbers::more_a_decimal;
pub use sets::many_without_load;
pub use shapes::Labels;
pub use table::Columns;
pub use undone::{denies, is_list, is_number};
pub use words::is_no_lift;

use super::grammar::lexer::{is_dash, is_space, trim, trim_end, trim_start};
use super::grammar::tokens::lexed;
use super::grammar::work::in_full;
use crate::source::Cut;
use crate::training::fold;
use beside::without_then;
use lifted::{Lifted, lift_and_sets};
use marks::{Marked, marked, without_set_number};
use sets::Sets;
use shapes::Sure;

/// Longer lines are typed by nobody.
const LONGEST: usize = 400;
/// In longer ones it is not looked for what stands in the way: each piece is a line to be read.
const LONGEST_WITH_ONE_FAULT: usize = 120;
/// More ways are no help.
const MOST_CHOICES: usize = 5;

/// Words that a line of warm-ups begins with.
const WARM_UP: [&str; 8] = ["warm-ups", "warm-up", "warm ups", "warm up", "warmups", "warmup", "w/u", "wu"];

/// One way to read a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What it says, in words: `3 sets of 8 at 60 kg`.
    pub say: String,
    /// The line's content in the notation, without a bullet: `Bench press: 3x8 @ 60 kg`.
    pub text: String,
    /// Whether it belongs to the lift above: sets, or a warm-up.
    pub below: bool,
    /// What it takes for granted, by which it differs from other ways.
    pub taken: Labels,
}

impl Choice {
    /// Whether it is a fact of the day, and no training.
    pub fn is_fact(&self) -> bool {
        !self.below
            && ["bodyweight: ", "sleep: ", "pain: ", "session RPE: "].iter().any(|key| self.text.starts_with(key))
    }

    /// Whether it is a plan or a warm-up of the lift above.
    pub fn is_detail(&self) -> bool {
        self.below && self.text.starts_with(char::is_alphabetic) && self.text.contains(": ")
    }
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
    let line = trim(line);
    if looks::is_cyrillic(line) {
        return readings(&looks::in_latin(line), place, names, habits, unit);
    }
    let digit = line.bytes().any(|byte| byte.is_ascii_digit());
    if !digit && line.len() < LONGEST && looks::is_spoken(line, &Known { names, habits }) {
        return Fate::Unread;
    }
    let mark = line.starts_with(['>', '|']) || (line.starts_with('#') && !marks::is_numbered(line));
    if !digit || line.len() > LONGEST || mark {
        return if digit && line.len() > LONGEST { Fate::Unread } else { Fate::Prose };
    }
    // A comment that closes says nothing of the sets, and stays behind them.
    if let Some((before, (comment, after))) =
        line.split_once("<!--").and_then(|(before, rest)| Some((before, rest.split_once("-->")?)))
    {
        let mut fate = readings(&format!("{before} {after}"), place, names, habits, unit);
        let choices = match &mut fate {
            Fate::Read(choice) => std::slice::from_mut(choice),
            Fate::Several(choices) | Fate::UnknownLift(_, choices) => choices.as_mut_slice(),
            Fate::Unread | Fate::Prose => return fate,
        };
        choices.iter_mut().for_each(|choice| choice.text.push_str(&format!(" <!--{comment}-->")));
        return fate;
    }
    let names = &Known { names, habits };
    let (content, ticked) = content(line, names);
    let content = trim(&content);
    let below_lift = place.lift.is_some() || place.unknown.is_some();
    let looks = || looks::like_training(content, names, habits, below_lift);
    let unread = || if looks() { Fate::Unread } else { Fate::Prose };
    if ticked == Some(false) || content.contains("<!--") || content.contains("~~") {
        return unread();
    }
    if let Some(text) = facts::fact(content, unit) {
        return Fate::Read(Choice { say: text.clone(), text, below: false, taken: Labels::default() });
    }
    let box_of = if ticked.is_some() { "[x] " } else { "" };
    let line = Line { names, habits, unit };
    if let Some(Lifted { named, sets, variant, typed, behind }) = lift_and_sets(content, line.names) {
        let no_name = behind && words::changes_sets(typed);
        if no_name || names::of_another_bar(&named.name, &sets) || marks::is_row(content) {
            return Fate::Unread;
        }
        // `BP 125/78` is no bench press.
        if lifted::is_blood_pressure(typed, &sets) {
            return Fate::Prose;
        }
        // `100x5 clean` below the bench press: another lift, or how it went.
        if let Some(lift) = place.lift.filter(|lift| behind && lift.name != named.name && !typed.contains(is_space))
            && let Chosen::One(read) = line.choose(&sets, lift.takes, place.follows)
        {
            let said = Sets::as_written(format!("{} ({typed})", read.text));
            return Fate::Several(vec![line.work(box_of, &named.name, &read), line.set_line("", &said)]);
        }
        if let Some(variant) = variant {
            return match line.choose(&sets, named.takes, false) {
                Chosen::One(sets) => Fate::UnknownLift(variant, vec![line.work(box_of, &named.name, &sets)]),
                _ if looks() => Fate::UnknownLift(variant, Vec::new()),
                _ => Fate::Prose,
            };
        }
        return match line.choose(&sets, named.takes, false) {
            // `Squat jumps 3x5`: another lift than the one it begins with.
            Chosen::None if words::may_be_of_a_name(&sets) && looks() => {
                line.unknown(content, box_of).unwrap_or(Fate::Unread)
            }
            Chosen::None => unread(),
            Chosen::One(sets) => match line.of_another_lift(typed, &named, &sets, box_of) {
                Some(other) => Fate::Several(vec![other, line.work(box_of, &named.name, &sets)]),
                None => Fate::Read(line.work(box_of, &named.name, &sets)),
            },
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
        && without_then(content).starts_with(|c: char| c.is_ascii_digit())
        && looks()
    {
        return Fate::UnknownLift(unknown.to_owned(), Vec::new());
    }
    if !looks() {
        return Fate::Prose;
    }
    line.unknown(content, box_of).unwrap_or(Fate::Unread)
}

/// A line without its marks and the signs of bold text, and whether a task box is ticked.
fn content(line: &str, names: &Known<'_>) -> (String, Option<bool>) {
    let Marked { content, ticked, aside } = marked(line);
    // Sets in code are prose on purpose.
    let coded = content.split('`').skip(1).step_by(2).any(|code| code.contains(|c: char| c.is_ascii_digit()));
    let mut content = if !coded && content.contains(['*', '_', '`']) {
        content.replace("**", "").replace("__", "").replace('`', "").replace("*:", ":")
    } else {
        content.to_owned()
    };
    if !aside.is_empty() {
        content.push_str(&format!(" ({aside})"));
    }
    // `Squat: [ ] 3x5`
    let ticked = if content.contains("[ ]") { Some(false) } else { ticked };
    // `3x12 [160kg]`, and no link
    if !content.contains("](") {
        content = content.replace('[', "(").replace(']', ")");
    }
    let mut ticked = ticked;
    if ticked.is_none()
        && let Some(rest) = marks::without_tick(&content)
    {
        (content, ticked) = (rest, Some(true));
    }
    if let Some((label, rest)) = marks::label(&content)
        && names::leading(rest, names).is_some()
    {
        let says_nothing = ["did", "done", "finally", "then"].iter().any(|word| word.eq_ignore_ascii_case(label));
        content = if says_nothing { rest.to_owned() } else { format!("{rest} ({label})") };
    }
    (content, ticked)
}

/// What a line that is not read would be read without; nothing where more than one thing is wrong with it.
pub fn left_over(
    line: &str,
    place: Place<'_>,
    names: &dyn Names,
    habits: &Habits,
    unit: &'static str,
) -> Option<LeftOver> {
    let names = &Known { names, habits };
    let (content, ticked) = content(trim(line), names);
    let content = trim(&content);
    if content.len() > LONGEST_WITH_ONE_FAULT || ticked == Some(false) {
        return None;
    }
    let line = Line { names, habits, unit };
    let (named, sets, below) = match lift_and_sets(content, line.names) {
        Some(Lifted { variant: Some(_), .. }) => return None,
        Some(Lifted { named, sets, .. }) => (named, sets, false),
        None => (place.lift?.clone(), without_set_number(content).to_owned(), true),
    };
    if left_over::is_load(&sets, Takes { unit, ..named.takes }, habits) {
        return Some(LeftOver { text: sets, rest: None, written: Some(left_over::NO_REPS) });
    }
    left_over::pieces(&sets, Takes { unit, ..named.takes }, habits).into_iter().find_map(|piece| {
        let text = sets.get(piece.clone())?.to_owned();
        let rest = format!("{} {}", trim_end(sets.head(piece.start)), sets.tail(piece.end));
        let rest = rest.trim_matches(|c| is_space(c) || is_dash(c) || matches!(c, ',' | ';' | ':' | '/' | '='));
        let rest = match line.choose(rest, named.takes, below && place.follows) {
            Chosen::None => return None,
            Chosen::One(sets) if below => Some(line.set_line("", &sets).text),
            Chosen::One(sets) => Some(line.work("", &named.name, &sets).text),
            Chosen::Several(_) => None,
        };
        // With another number, or a word that changes a set, the rest says what nobody did.
        // `24"`: a sign glued to a number is part of it.
        let glued = sets.head(piece.start).ends_with(|c: char| c.is_ascii_digit());
        // And before other numbers it may say whose they are: `80x8 row 60x10`.
        let digit = |c: char| c.is_ascii_digit();
        let changes = words::changes_sets(&text) || undone::is_undone(&text) || looks::names_a_lift(&text, names);
        let side = text.chars().count() == 1 && text.starts_with(char::is_alphabetic);
        let plain = !glued && !changes && !side && !text.contains(digit) && !sets.tail(piece.end).contains(digit);
        Some(LeftOver { rest: rest.filter(|_| plain), written: left_over::written(&text), text })
    })
}

/// Whether a line has a number, or could be a name and nothing else. The others are prose, and most lines of words are.
pub fn may_say_something(line: &str) -> bool {
    let bytes = trim_start(line).as_bytes();
    let short = || line.len() <= 60 && memchr::memchr2(b',', b';', bytes).is_none();
    let few = || bytes.iter().filter(|byte| **byte == b' ').count() <= 7;
    // Every byte is looked at, which goes many at a time, where stopping at the first does not.
    let digit = bytes.iter().fold(0, |found, byte| found | u8::from(byte.wrapping_sub(b'0') < 10));
    digit > 0 || (short() && few())
}

/// The lift that a line names and nothing else: `Squat`, `**Bench press:**`, `1. RDL`.
pub fn lone_lift(line: &str, names: &dyn Names, habits: &Habits) -> Option<Named> {
    let Marked { content, ticked, .. } = marked(trim(line));
    if ticked == Some(false) || content.len() > 60 {
        return None;
    }
    let name = content.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | '`' | ':' | '.' | '='));
    let names = &Known { names, habits };
    names::known(name, &fold(name), names).or_else(|| {
        let (name, inside) = name.strip_suffix(')')?.split_once('(')?;
        // `squat (belt)` is done with one, as behind the sets.
        if words::is_remark(inside) { None } else { names::variant(trim_end(name), inside, names) }
    })
}

/// A line of a few words that could be a lift's name, and is none that is known: `Zottman curls`, `OHP (standing)`.
/// Words that one says of sets, `felt easy`, are none.
pub fn like_a_name(line: &str) -> Option<&str> {
    let content = marked(trim(line)).content;
    let name = content.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | '`' | ':'));
    let words = name.split(is_space).count() <= 4 && !name.is_empty();
    let sign = |c: char| matches!(c, '-' | '\'' | '\u{2019}' | '(' | ')' | '/' | '&' | '.');
    let plain = name.chars().all(|c| c.is_alphabetic() || is_space(c) || sign(c));
    let outside = name.split('(').next().unwrap_or(name);
    (words && plain && name.starts_with(char::is_alphabetic) && !words::is_remark(outside)).then_some(name)
}

/// Whether a line is a load and nothing else: `80 kg`.
pub fn is_load(line: &str, unit: &'static str, habits: &Habits) -> bool {
    left_over::is_load(marked(trim(line)).content, Takes { unit, anything: true, ..Takes::default() }, habits)
}

/// The lift that a line begins with.
pub fn lift_of(line: &str, names: &dyn Names, habits: &Habits) -> Option<Named> {
    let content = marked(trim(line)).content;
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
            // A lift that only the habits name is one all the same.
            Some((_, lift)) => self.names.lift(&fold(lift)).or_else(|| {
                let takes = Takes { anything: true, ..Takes::default() };
                Some(Named { name: lift.clone(), takes })
            }),
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
    /// The lift that a remark makes of the one a line is about, `squat 3x5 130 (box)`, and its sets without that.
    fn of_another_lift(&self, typed: &str, named: &Named, sets: &Sets, box_of: &str) -> Option<Choice> {
        let mut rest = sets.text.as_str();
        while let Some((before, (remark, after))) =
            rest.split_once('(').and_then(|(before, rest)| Some((before, rest.split_once(')')?)))
        {
            let (start, end) = (sets.text.len() - rest.len() + before.len(), sets.text.len() - after.len());
            rest = after;
            // `Back squat` and `(front)` are the front squat.
            let last = named.name.rsplit(' ').next().unwrap_or(typed);
            // `deadlift 3x3 150, sumo stance`
            let first = remark.split(is_space).next().unwrap_or(remark);
            let ways = [(typed, remark), (last, remark), (typed, first), (last, first)];
            let other = ways.into_iter().find_map(|(name, remark)| names::variant(name, remark, self.names));
            if let Some(other) = other.filter(|other| other.name != named.name && !words::is_remark(first)) {
                let text = format!("{}{}", trim_end(sets.text.head(start)), sets.text.tail(end));
                return Some(self.work(box_of, &other.name, &Sets::as_written(text)));
            }
        }
        None
    }

    /// The sets below a lift's own line.
    fn below(&self, content: &str, lift: &Named, follows: bool) -> Option<Fate> {
        let content = without_set_number(content);
        let content = without_then(content);
        if names::of_another_bar(&lift.name, content) {
            return Some(Fate::Unread);
        }
        let lower = content.chars().take(13).collect::<String>().to_lowercase();
        if let Some(word) = WARM_UP.iter().find(|word| lower.starts_with(**word)) {
            let sets = content.get(word.len()..)?.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '-' | '='));
            let unread = || looks::tells_of_loads(sets).then_some(Fate::Unread);
            return self.chosen("warm-up: ", sets, lift, false).or_else(unread);
        }
        if let Some(word) =
            ["planned", "plan", "target", "geplant", "soll"].iter().find(|word| lower.starts_with(**word))
        {
            let sets = content.get(word.len()..)?.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '-' | '='));
            return self.chosen("plan: ", sets, lift, false);
        }
        // `work 180x5`, `top set 180x1`, `back-off: 160 3x5`
        for word in ["work sets", "working sets", "work set", "working set", "work", "working"] {
            let rest = lower.strip_prefix(word).and_then(|_| content.get(word.len()..));
            let parted = rest.filter(|rest| rest.starts_with(|c| is_space(c) || c == ':'));
            if let Some(sets) = parted {
                let sets = sets.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '-' | '='));
                return self.chosen("", sets, lift, follows);
            }
        }
        if ["top", "back", "heavy"].iter().any(|word| lower.starts_with(word))
            && let Some(fate) = self.chosen("", content, lift, follows)
        {
            return Some(fate);
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
        self.chosen("", content, lift, follows)
    }

    fn chosen(&self, key: &str, sets: &str, lift: &Named, follows: bool) -> Option<Fate> {
        match self.choose(sets, lift.takes, follows) {
            Chosen::One(sets) => Some(match self.of_another_lift(&lift.name, lift, &sets, "") {
                Some(other) if key.is_empty() => Fate::Several(vec![other, self.set_line(key, &sets)]),
                _ => Fate::Read(self.set_line(key, &sets)),
            }),
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
        // `warm-up: 60x5`, `Set 1: 100x5` with no lift above: what these words begin with is no name.
        let of_sets =
            WARM_UP.iter().any(|word| typed.to_lowercase().starts_with(word)) || without_set_number(content) != content;
        // `right: 30x10`, `face pull red band 3x15`: no lift is called so.
        let no_lift = words::changes_sets(typed) || items::starts_attribute(typed) || typed.chars().count() == 1;
        if of_sets || !name || no_lift || words::has_common_word(typed) {
            return None;
        }
        let mut choices = Vec::new();
        // Two letters are near to many names, and to none of them for certain; and `watched Lena squat` is nobody's here.
        let told = || typed.split(is_space).all(|word| day_names::weekday(word).is_none()) && !undone::is_undone(typed);
        let near = if typed.chars().count() > 2 && !typed.contains(':') && told() {
            self.names.near(typed)
        } else {
            Vec::new()
        };
        for near in near {
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

    /// Every way to read a text that is only sets.
    fn ways(&self, sets: &str, takes: Takes, follows: bool) -> Vec<Sets> {
        let all = line::readings(sets, takes, self.habits, follows).into_iter();
        all.filter(|sets| lexed(&sets.text, |text| in_full(text).is_some())).collect()
    }

    /// The reading of a text that is only sets, where there is one.
    fn choose(&self, sets: &str, takes: Takes, follows: bool) -> Chosen {
        let takes = Takes { unit: self.unit, ..takes };
        match done::each_behind_their_number(sets) {
            Some(done::Each::All(list)) => return self.choose(list, takes, follows),
            Some(done::Each::Unlike) => return Chosen::None,
            None => {}
        }
        if let Some(loads) = done::loads_behind_their_count(sets) {
            return self.choose(&loads, takes, follows);
        }
        if let Some(done) = done::behind_its_count(sets) {
            return match self.choose(done, takes, follows) {
                Chosen::One(list) if takes.own || list.text.contains('@') => Chosen::Several(vec![list]),
                Chosen::One(list) => {
                    Chosen::Several(self.ways(sets, takes, follows).into_iter().chain([list]).collect())
                }
                other => other,
            };
        }
        let all = self.ways(sets, takes, follows);
        let plausible: Vec<Sets> = all.iter().filter(|sets| sets.plausible).cloned().collect();
        let strong: Vec<&Sets> = plausible.iter().filter(|sets| sets.sure > Sure::Offered).collect();
        if all.is_empty() {
            let bouts = || as_written::bouts(sets, takes).into_iter().map(Sets::as_written).collect::<Vec<_>>();
            return match as_written::as_written(sets, takes) {
                Some(text) => Chosen::One(Sets::as_written(text)),
                None => Some(bouts()).filter(|ways| !ways.is_empty()).map_or(Chosen::None, Chosen::Several),
            };
        }
        let mut fit = strong.iter().filter(|sets| strong.len() < 2 || sets.labels.fit(self.habits));
        match (fit.next(), fit.next()) {
            (Some(one), None) if one.sure == Sure::Read && !one.lacks_a_load(takes) => Chosen::One((*one).clone()),
            _ if plausible.is_empty() => Chosen::Several(all),
            _ => Chosen::Several(plausible),
        }
    }

    /// A work line.
    fn work(&self, box_of: &str, name: &str, sets: &Sets) -> Choice {
        Choice {
            say: sets.say.clone(),
            text: format!("{box_of}{name}: {}", sets.text),
            below: false,
            taken: sets.labels,
        }
    }

    /// Sets below a lift, or a detail of them.
    fn set_line(&self, key: &str, sets: &Sets) -> Choice {
        Choice { say: sets.say.clone(), text: format!("{key}{}", sets.text), below: true, taken: sets.labels }
    }
}
