//! Headings: of blocks, of sessions, loosely written ones, and those that only look like one.

use super::{Owner, Reader, Section, is_start};
use crate::notation::bullet::bullet;
use crate::notation::expected::Expected;
use crate::notation::grammar::date::{iso_date, time_of_day, weekday};
use crate::notation::grammar::heading::{Dated, Glued, block_name, block_slip, glued, heading, session};
use crate::notation::grammar::keys::{self, at_colon};
use crate::notation::grammar::lexer::{is_space, trim, trim_start};
use crate::notation::grammar::tokens::{Tokens, lexed};
use crate::notation::grammar::trouble::Trouble;
use crate::notation::nodes::{BlockHeading, BlockKeyName, LineKind};
use crate::notation::readings::{
    Label, LooseDate, another_day, before_date, begins_like_a_date, behind_its_title, date_in, hints_at_sets,
};
use crate::problems::ProblemKind as K;
use crate::source::{Cut, Span};

/// What may stand behind a date's word.
const AFTER_WORDS: [char; 2] = [',', ':'];
/// Further down it is not looked for sets below a date.
const MOST_BELOW: usize = 24;

impl<'a> Reader<'a> {
    pub(super) fn heading(&mut self, line: &'a str) -> LineKind<'a> {
        let Some((level, text)) = heading(line) else { return self.glued_heading(line) };
        let deeper = match self.section {
            Section::Session { level: above } | Section::Block { level: above, .. } => level > above,
            Section::Outside { .. } => false,
        };
        self.expect(if text.is_empty() { &[Expected::Block] } else { &[] });
        if let Some(name) = self.lexed(text, |i, _| block_name(i)) {
            let has_keys = self.keys_follow(|_, _| true);
            if has_keys || !deeper {
                self.section = Section::Block { level, has_keys };
                self.owner = Owner::None;
                return LineKind::Block(BlockHeading { name, has_keys });
            }
        }
        if let Some(name) = block_slip(text).filter(|_| lexed(text, block_name).is_none() && self.any_key_follows()) {
            let missing = "a blank alone parts `Block` and its name";
            let trouble = Trouble::new(K::LooksLikeBlock { missing }, text);
            let fixed = format!("{} {name}", text.get(..5).unwrap_or(text));
            return self.nearly_block(if self.keys_follow(is_start) { trouble.fixed(fixed) } else { trouble });
        }
        let kind = match self.lexed(text, session) {
            // `## 2026-03-18 & 2026-03-19`: whose work is it?
            Dated::Session(heading) if two_days(text.tail(Span::of(text, heading.date.text).end as usize)) => {
                self.troubles.push(Trouble::new(K::NotADate { read: text.into() }, text));
                LineKind::BadSession
            }
            Dated::Session(heading) => LineKind::Session(Box::new(heading)),
            Dated::Bad => {
                self.checked_weekday(text);
                LineKind::BadSession
            }
            Dated::Other if self.loose_heading(text) => LineKind::BadSession,
            Dated::Other => {
                let ends = !deeper && !matches!(self.section, Section::Outside { .. });
                if !deeper {
                    self.section = Section::Outside { keys_said: false };
                }
                self.owner = Owner::None;
                return LineKind::Heading { ends };
            }
        };
        self.section = Section::Session { level };
        self.owner = Owner::None;
        kind
    }

    /// `## Mon 14 Sep`: a date that leaves something open, or is written in another way.
    pub(super) fn loose_heading(&mut self, text: &'a str) -> bool {
        let Some(loose) = date_in(text) else {
            let titled = behind_its_title(text).is_some() && !self.heading_follows();
            if titled {
                self.troubles.push(Trouble::new(K::NotADate { read: text.into() }, text));
            }
            return titled;
        };
        let label = loose.label(text);
        let told = match (loose.is_of_calendar(), loose.is_week()) {
            (true, _) => !loose.is_weak() || label != Label::Other,
            (false, true) => false,
            // `## Saturday market` names a day, and is no date by that alone; nor is a title of the headings below it.
            (false, false) => {
                let signs = !text.tail(loose.end).trim_start().starts_with(char::is_alphabetic);
                (signs || label == Label::Title) && !self.heading_follows()
            }
        };
        if told {
            let piece = text.get(..loose.end).unwrap_or(text);
            self.troubles.push(Trouble::new(K::NotADate { read: piece.into() }, piece));
        }
        told
    }

    /// `## 14.9.26 Di`: what is offered for a date must be of the weekday beside it.
    fn checked_weekday(&mut self, text: &'a str) {
        let loose = date_in(text).filter(|loose| loose.has_weekday());
        if let (Some(loose), Some(trouble)) = (loose, self.troubles.last_mut()) {
            let piece = text.get(..loose.end).unwrap_or(text);
            *trouble = Trouble::new(K::NotADate { read: piece.into() }, piece);
        }
    }

    /// A date on a line of its own: `2026-03-05`, in bold perhaps, is a session's heading without its sign; one that
    /// leaves something open, or is written in another way, begins a session that counts nowhere.
    ///
    /// `whole` has its bullet, where it has one, and `line` is what stands behind that.
    pub(super) fn date_line(&mut self, whole: &'a str, line: &'a str) -> Option<LineKind<'a>> {
        let whole = trim(whole);
        let text = trim(line).trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | ':'));
        let (in_session, level) = match self.section {
            Section::Session { level } => (true, level),
            _ => (false, 2),
        };
        // Nearly every line is told here to be none.
        let begins = begins_like_a_date(text);
        let loose = if begins { another_day(text).or_else(|| date_in(text)) } else { None };
        let told = match loose {
            Some(loose) => {
                let label = loose.label(text);
                if let Some(kind) = self.iso_line(whole, text, label) {
                    self.section = Section::Session { level };
                    self.owner = Owner::None;
                    return Some(kind);
                }
                // In no session a weekday above sets without a load may be a plan.
                self.is_told(loose, text, label)
                    && (in_session || self.sets_follow(if loose.is_of_calendar() { 1 } else { 3 }))
            }
            None => behind_its_title(text).is_some() && self.sets_follow(1),
        };
        if !told {
            return None;
        }
        self.troubles.push(Trouble::new(K::NotADate { read: text.into() }, whole));
        self.section = Section::Session { level };
        self.owner = Owner::None;
        Some(LineKind::BadSession)
    }

    /// A line that begins with a date in the notation, or with its weekday: a session's heading.
    fn iso_line(&mut self, whole: &'a str, text: &'a str, label: Label) -> Option<LineKind<'a>> {
        let text = text.tail(before_date(text));
        let closed = |text: &'a str, open: char, close: char| {
            if text.contains(open) { text } else { text.trim_end_matches(close) }
        };
        let text = closed(closed(text, '[', ']'), '(', ')');
        let is_date = |i: Tokens<'_, '_>| matches!(iso_date(i), Ok((rest, Some(_))) if rest.is_empty());
        let words = || text.split(is_space).map(|word| word.trim_end_matches(AFTER_WORDS));
        let iso = text.contains('-')
            && words().take(2).any(|word| word.starts_with(|c: char| c.is_ascii_digit()) && lexed(word, is_date));
        let mut troubles = Vec::new();
        let Dated::Session(heading) = (if iso { lexed(text, |i| session(i, &mut troubles)) } else { Dated::Other })
        else {
            return None;
        };
        let plain = words().all(|word| {
            lexed(word, |i| {
                let weekday = weekday(i).is_ok_and(|(rest, _)| rest.is_empty());
                is_date(i) || weekday || time_of_day(i).is_ok_and(|(rest, _)| rest.is_empty())
            })
        });
        let titled = match label {
            Label::Nothing => true,
            Label::Title | Label::Words => self.sets_follow(1),
            Label::Sets => true,
            Label::Other => false,
        };
        if !plain && heading.day.is_none() && !titled {
            return None;
        }
        // Sets beside the date are told where all headings are: they cannot be written there.
        if label != Label::Sets {
            let read = format!("## {text}");
            self.troubles.append(&mut troubles);
            self.troubles.push(Trouble::new(K::LooseSpelling { read: read.clone() }, whole).fixed(read));
        }
        Some(LineKind::Session(Box::new(heading)))
    }

    /// Whether a line that begins with a date is one, for what stands behind it, and round it.
    fn is_told(&self, loose: LooseDate, text: &str, label: Label) -> bool {
        let (sure, gap, weak) = (loose.is_sure(), self.after_gap, loose.is_weak() || loose.is_week());
        let weekday = loose.has_weekday();
        match label {
            Label::Other => false,
            // `Week 3 day 1` right below a date is what that day is called.
            _ if self.below_heading && !loose.is_of_calendar() => false,
            Label::Sets => sure,
            Label::Nothing if sure => true,
            // `7/10` may be a score, `14.9` a load.
            Label::Nothing => gap && (!(weak || loose.is_score()) || self.sets_follow(1)),
            // `10/10 session` says how it was.
            Label::Title | Label::Words if loose.is_score() => false,
            Label::Title | Label::Words if sure && weekday && loose.is_of_calendar() => true,
            Label::Title | Label::Words if sure => gap || self.sets_follow(1),
            Label::Title if weekday || weak => gap && self.sets_follow(1),
            Label::Words if loose.is_week() || (weekday && !text.contains(|c: char| c.is_ascii_digit())) => false,
            Label::Title | Label::Words => gap && (!weak || self.sets_follow(1)),
        }
    }

    /// Whether anything that looks like sets, of so many numbers at least, stands between here and the next heading.
    fn sets_follow(&self, numbers: usize) -> bool {
        let count = |line: &str| line.split(|c: char| !c.is_ascii_digit()).filter(|part| !part.is_empty()).count();
        self.lines_to_heading().take(MOST_BELOW).map(trim).any(|line| {
            let told = hints_at_sets(line) && count(line) >= numbers;
            told && date_in(line).is_none_or(|date| date.label(line) == Label::Sets)
        })
    }

    /// Whether the next line that is not blank is a heading.
    fn heading_follows(&self) -> bool {
        let mut below = self.text.tail(self.at).split('\n').map(str::trim_start).filter(|line| !line.is_empty());
        below.next().is_some_and(|line| line.starts_with('#'))
    }

    /// `##2026-03-05`: a heading but for its blank. What stands below it must not count for the session above.
    pub(super) fn glued_heading(&mut self, line: &'a str) -> LineKind<'a> {
        match glued(line, &mut self.troubles) {
            Some(Glued::Date(level)) => {
                self.section = Section::Session { level };
                self.owner = Owner::None;
                return LineKind::BadSession;
            }
            Some(Glued::Block(signs)) if self.any_key_follows() => {
                let missing = "the blank after `#` is missing";
                let trouble = Trouble::new(K::LooksLikeBlock { missing }, trim(line));
                let blank = signs.tail(signs.len());
                return self.nearly_block(if self.keys_follow(is_start) {
                    trouble.fixed_at(blank, " ")
                } else {
                    trouble
                });
            }
            _ => {}
        }
        LineKind::Prose
    }

    /// A heading that would be a block's but for a sign. The list under it is no work of the session above.
    pub(super) fn nearly_block(&mut self, trouble: Trouble<'a>) -> LineKind<'a> {
        self.troubles.push(trouble);
        self.section = Section::Outside { keys_said: true };
        self.owner = Owner::None;
        LineKind::Heading { ends: true }
    }

    /// Whether a bullet with a block's key that is wanted stands between here and the next heading.
    pub(super) fn keys_follow(&self, wanted: impl Fn(BlockKeyName, &'a str) -> bool) -> bool {
        self.lines_to_heading().any(|line| {
            let at_key = bullet(line).and_then(|bullet| at_colon(bullet.content));
            at_key.is_some_and(|(name, value)| keys::BLOCKS.find(name).is_some_and(|key| wanted(key, value)))
        })
    }

    /// Whether any key of a block follows, with a bullet or without, or one that is nearly a key.
    pub(super) fn any_key_follows(&self) -> bool {
        self.lines_to_heading().any(|line| {
            let content = bullet(line).map_or(trim_start(line), |bullet| bullet.content);
            at_colon(content)
                .is_some_and(|(name, _)| keys::BLOCKS.find(name).is_some() || keys::BLOCKS.near(name).is_some())
        })
    }

    /// The lines from here to the next one that is, or would be, a heading.
    pub(super) fn lines_to_heading(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let rest = self.text.tail(self.at);
        rest.split('\n').take_while(|line| !line.trim_start_matches(' ').starts_with('#'))
    }
}

/// Whether what stands behind a date goes on with another one.
fn two_days(behind: &str) -> bool {
    let rest = behind.trim_start_matches(' ');
    let word = ["and", "to", "und", "bis", "et", "y", "e", "en", "&", "+", "/", ",", "-", "\u{2013}"];
    let rest = word.iter().find_map(|word| rest.strip_prefix(word)).map(str::trim_start);
    rest.is_some_and(|rest| {
        let date = rest.get(..10).unwrap_or("");
        date.starts_with("20")
            && lexed(date, |i| iso_date(i).is_ok_and(|(rest, date)| date.is_some() && rest.is_empty()))
    })
}
