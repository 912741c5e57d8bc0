//! Parts of notes as pages of a month: one line of a page for each line of the notes.

use super::{Line, Section};
use crate::notation::readings::{Fate, Habits, Names, Place, lone_lift, readings};
use chrono::NaiveDate;

/// Words that say more than a title where they stand behind a date.
const SAY_MORE: [&str; 7] = ["block", "week", "meet", "deload", "peak", "test", "taper"];
/// What is said of lines below a day that nobody can tell.
pub const BELOW_NO_DAY: &str = "its day has no date";
/// What is said of training beside a fence or a comment.
const HIDDEN: &str = "it stands beside a sign that would hide other lines";
/// A title has no more words.
const MOST_WORDS: usize = 4;

/// A page of a month.
#[derive(Clone, Debug)]
pub struct Draft<'n> {
    /// The month, `2025-09`; nothing where no day of the notes has a date.
    pub month: Option<String>,
    /// Its lines.
    pub lines: Vec<DraftLine<'n>>,
}

/// A line of a page.
#[derive(Clone, Debug)]
pub struct DraftLine<'n> {
    /// What stands there.
    pub text: String,
    /// The line of the notes that it comes from; nothing where it only gives the page its form.
    pub from: Option<Line<'n>>,
    /// What of that line this one stands for.
    pub source: &'n str,
    /// Why it is not read.
    pub refused: Option<Refused>,
}

/// Why a line is not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// The problem's name, as `check` has it.
    pub kind: &'static str,
    /// What is said of it.
    pub say: String,
}

impl Refused {
    /// A line below a day that nobody can tell; or the line that says the day.
    fn undated(head: bool) -> Self {
        let say = if head {
            "which date is this? Its year or order is not known, or its weekday does not fit"
        } else {
            BELOW_NO_DAY
        };
        Refused { kind: "not-a-date", say: say.into() }
    }
}

impl DraftLine<'_> {
    /// Keeps the line as one that is not read.
    pub fn refuse(&mut self, why: Refused) {
        self.text = format!("> not read: {}", self.source.trim());
        self.refused = Some(why);
    }
}

/// What a page is made by: the names and habits that its lines are read with.
struct Maker<'m> {
    names: &'m dyn Names,
    habits: &'m Habits,
    unit: &'static str,
}

/// Pages of the parts, by month and day. `unit` is the one of bare loads.
pub fn drafts<'n>(sections: &[Section<'n>], names: &dyn Names, habits: &Habits, unit: &'static str) -> Vec<Draft<'n>> {
    let maker = Maker { names, habits, unit };
    let mut days: Vec<(Option<NaiveDate>, Vec<DraftLine<'n>>)> = Vec::new();
    let mut waiting: Vec<DraftLine<'n>> = Vec::new();
    let mut file = None;
    for section in sections {
        let of = section.head.or(section.lines.first().copied()).map(|line| line.file);
        let is_first = of != file;
        file = of;
        let lines = maker.lines(section);
        match (section.date, days.last_mut()) {
            (Some(date), _) => {
                let mut all = std::mem::take(&mut waiting);
                all.extend(lines);
                days.push((Some(date), all));
            }
            // What has no date stays where it stood: behind the day before it, or before the first.
            (None, Some((_, day))) if !is_first && waiting.is_empty() => day.extend(lines),
            (None, _) => waiting.extend(lines),
        }
    }
    if !waiting.is_empty() {
        match days.last_mut() {
            Some((_, day)) => day.append(&mut waiting),
            None => days.push((None, waiting)),
        }
    }
    days.sort_by_key(|(date, _)| *date);
    let mut out: Vec<Draft<'n>> = Vec::new();
    for (date, lines) in days {
        let month = date.map(|date| date.format("%Y-%m").to_string());
        match out.last_mut() {
            Some(draft) if draft.month == month => draft.lines.extend(lines),
            _ => out.push(Draft { month, lines }),
        }
    }
    for draft in &mut out {
        draft.lines.dedup_by(|line, before| line.text.is_empty() && before.text.is_empty());
        while draft.lines.last().is_some_and(|line| line.text.is_empty()) {
            draft.lines.pop();
        }
        if draft.lines.first().is_some_and(|line| line.text.is_empty()) {
            draft.lines.remove(0);
        }
    }
    out
}

impl Maker<'_> {
    fn lines<'n>(&self, section: &Section<'n>) -> Vec<DraftLine<'n>> {
        let mut out = Vec::new();
        let mut outside = section.head.is_none();
        match (section.head, section.date) {
            (Some(head), Some(date)) => {
                let title = self.is_title(section.rest);
                let time = section.time.map_or(String::new(), |time| time.format(" %H:%M").to_string());
                let words =
                    if title && !section.rest.is_empty() { format!(" {}", section.rest) } else { String::new() };
                out.push(line(format!("## {date}{time}{words}"), Some(head), head.text));
                out.push(blank());
                if !title {
                    out.push(line(section.rest.to_owned(), Some(head), section.rest));
                }
            }
            (Some(head), None) => {
                out.push(line("## Not dated".into(), None, ""));
                out.push(blank());
                out.push(refused(head, Refused::undated(true)));
            }
            (None, _) => {}
        }
        let (mut hidden, mut may_close) = (0, true);
        for (at, below) in section.lines.iter().enumerate() {
            if hidden == 0 && may_close && below.text.contains("<!--") && !is_closed(below.text) {
                // A comment that closes is hidden on purpose; one that does not hides nothing.
                let rest = section.lines.get(at..).unwrap_or(&[]);
                hidden = rest.iter().position(|line| line.text.contains("-->")).map_or(0, |end| end + 1);
                may_close = hidden > 0;
            }
            if hidden > 0 {
                hidden -= 1;
                let mut quoted =
                    line(format!("> {}", below.text.trim()).trim_end().to_owned(), Some(*below), below.text);
                if below.text.contains("<!--") && self.hides_training(below.text) {
                    quoted.refuse(Refused { kind: "unread-work", say: HIDDEN.into() });
                }
                out.push(quoted);
                continue;
            }
            if below.text.trim().is_empty() {
                out.push(blank());
            } else if section.head.is_some() && section.date.is_none() {
                out.push(refused(*below, Refused::undated(false)));
            } else {
                let (text, ends) = self.line_of(below.text, section);
                outside |= ends;
                let mut line = line(text, Some(*below), below.text);
                if outside && !ends && !matches!(self.fate(below.text), Fate::Prose) {
                    let say = "this stands under no day";
                    line.refuse(Refused { kind: "work-outside-session", say: say.into() });
                }
                let quoted = line.text.starts_with("> ") && !below.text.trim_start().starts_with('>');
                if quoted && line.refused.is_none() && self.hides_training(below.text) {
                    line.refuse(Refused { kind: "unread-work", say: HIDDEN.into() });
                }
                out.push(line);
            }
        }
        out.push(blank());
        out
    }

    fn fate(&self, text: &str) -> Fate {
        readings(text, Place::default(), self.names, self.habits, self.unit)
    }

    /// Whether what stands behind a date is its title; else it is a line of its own.
    fn is_title(&self, rest: &str) -> bool {
        let words = rest.split_whitespace();
        let plain = rest.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-' | '/' | '&'));
        let more = words.clone().any(|word| SAY_MORE.contains(&word.to_lowercase().as_str()));
        plain && !more && words.count() <= MOST_WORDS && lone_lift(rest, self.names, self.habits).is_none()
    }

    /// A line below a day as it stands on a page, and whether it ends the day's session.
    fn line_of(&self, text: &str, section: &Section<'_>) -> (String, bool) {
        let whole = text.trim();
        let plain = whole.trim_start_matches('#');
        let outline = whole.trim_start_matches('*');
        let (depth, title) = match (whole.len() - plain.len(), whole.len() - outline.len()) {
            (signs @ 1.., _) => (signs, plain),
            (_, stars @ 2..) if outline.starts_with(' ') => (stars, outline),
            _ => (0, whole),
        };
        let (glued, title) = (!title.starts_with([' ', '\t']), title.trim());
        if depth > 0 && !title.is_empty() {
            // `### Bench press`, `## Squat 3x5 100 kg`: lines of training, and no titles.
            if lone_lift(title, self.names, self.habits).is_some() || !matches!(self.fate(title), Fate::Prose) {
                return (title.to_owned(), false);
            }
            if !glued {
                let ends = section.level.is_some_and(|level| depth <= level);
                let signs = if ends || section.head.is_none() { "##" } else { "###" };
                return (format!("{signs} {title}"), ends);
            }
        }
        // The rule of a table, as an outline draws it.
        if whole.starts_with('|') && !whole.contains(char::is_alphanumeric) {
            return (whole.replace('+', "|"), false);
        }
        let hides = SIGNS.iter().any(|sign| whole.contains(sign)) && !is_closed(whole);
        if (hides || !whole.contains(char::is_alphanumeric)) && !whole.starts_with('>') {
            return (format!("> {whole}"), false);
        }
        (text.trim_end().to_owned(), false)
    }

    /// Whether a line that is to be quoted holds training beside the sign that would hide other lines.
    fn hides_training(&self, text: &str) -> bool {
        let text = text.split("<!--").next().unwrap_or("");
        let text = SIGNS.iter().fold(text.to_owned(), |text, sign| text.replace(sign, " "));
        !matches!(self.fate(&text), Fate::Prose)
    }
}

/// What would hide the lines below it from the reader.
const SIGNS: [&str; 6] = ["```", "~~~", "<!--", "-->", "<<<<<<<", ">>>>>>>"];

/// Whether a comment begins behind other words on a line, and ends there.
fn is_closed(text: &str) -> bool {
    let comment = text.split_once("<!--").and_then(|(before, rest)| Some((before, rest.split_once("-->")?.1)));
    comment.is_some_and(|(before, behind)| {
        let others = ["```", "~~~", "<!--", "-->"];
        !before.trim().is_empty() && !others.iter().any(|sign| before.contains(sign) || behind.contains(sign))
    })
}

fn line<'n>(text: String, from: Option<Line<'n>>, source: &'n str) -> DraftLine<'n> {
    DraftLine { text, from, source, refused: None }
}

fn blank<'n>() -> DraftLine<'n> {
    line(String::new(), None, "")
}

fn refused(from: Line<'_>, why: Refused) -> DraftLine<'_> {
    let mut line = line(String::new(), Some(from), from.text);
    line.refuse(why);
    line
}
