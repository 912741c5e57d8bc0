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
use crate::notation::readings::{begins_like_a_date, loose_date};
use crate::problems::ProblemKind as K;
use crate::source::Cut;

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
            Dated::Session(heading) => LineKind::Session(Box::new(heading)),
            Dated::Bad => LineKind::BadSession,
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

    /// `## Mon 14 Sep`: a date that leaves something open.
    pub(super) fn loose_heading(&mut self, text: &'a str) -> bool {
        let Some(loose) = loose_date(text) else { return false };
        let label = text.tail(loose.end);
        // `## Saturday market` names a day, and is no date by that alone.
        let told = loose.is_of_calendar() || !label.trim_start().starts_with(char::is_alphabetic);
        if told {
            let piece = text.get(..loose.end).unwrap_or(text);
            self.troubles.push(Trouble::new(K::NotADate { read: piece.into() }, piece));
        }
        told
    }

    /// A date on a line of its own: `2026-03-05`, in bold perhaps, is a session's heading without its sign; one that
    /// leaves something open begins a session that counts nowhere.
    pub(super) fn date_line(&mut self, line: &'a str) -> Option<LineKind<'a>> {
        let level = match self.section {
            Section::Session { level } => level,
            _ => 2,
        };
        let in_session = matches!(self.section, Section::Session { .. });
        let whole = trim(line);
        let text = whole.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | ':'));
        // Nearly every line is told here to be none.
        if !begins_like_a_date(text)
            || text.len() > 40
            || !text.bytes().any(|byte| byte.is_ascii_digit()) && text.contains(' ')
        {
            return None;
        }
        let mut troubles = Vec::new();
        let is_date = |i: Tokens<'_, '_>| matches!(iso_date(i), Ok((rest, Some(_))) if rest.is_empty());
        let words = || text.split(is_space).map(|word| word.trim_end_matches(','));
        let iso = text.contains('-')
            && words().any(|word| word.starts_with(|c: char| c.is_ascii_digit()) && lexed(word, is_date));
        if iso && let Dated::Session(heading) = lexed(text, |i| session(i, &mut troubles)) {
            // A title behind the date may be anything.
            let plain = words().all(|word| {
                lexed(word, |i| {
                    let weekday = weekday(i).is_ok_and(|(rest, _)| rest.is_empty());
                    is_date(i) || weekday || time_of_day(i).is_ok_and(|(rest, _)| rest.is_empty())
                })
            });
            if plain || heading.day.is_some() {
                let read = format!("## {text}");
                self.troubles.append(&mut troubles);
                self.troubles.push(Trouble::new(K::LooseSpelling { read: read.clone() }, whole).fixed(read));
                self.section = Section::Session { level };
                self.owner = Owner::None;
                return Some(LineKind::Session(Box::new(heading)));
            }
        }
        let loose = loose_date(text).filter(|_| in_session)?;
        let label = text.tail(loose.end);
        let alone = label.trim_matches(|c: char| !c.is_alphanumeric()).is_empty();
        let labelled = !label.contains(|c: char| c.is_ascii_digit()) && label.split_whitespace().count() <= 3;
        let counted = text.get(..3).is_some_and(|word| word.eq_ignore_ascii_case("day"));
        let told = match (loose.is_of_calendar(), loose.has_weekday()) {
            (true, true) => labelled,
            (true, false) => alone && self.after_gap,
            (false, true) => alone && self.after_gap,
            (false, false) => counted && labelled && self.after_gap,
        };
        if !told {
            return None;
        }
        self.troubles.push(Trouble::new(K::NotADate { read: text.into() }, whole));
        self.section = Section::Session { level };
        self.owner = Owner::None;
        Some(LineKind::BadSession)
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
            at_key.is_some_and(|(name, value)| keys::block(name).is_some_and(|key| wanted(key, value)))
        })
    }

    /// Whether any key of a block follows, with a bullet or without, or one that is nearly a key.
    pub(super) fn any_key_follows(&self) -> bool {
        self.lines_to_heading().any(|line| {
            let content = bullet(line).map_or(trim_start(line), |bullet| bullet.content);
            at_colon(content).is_some_and(|(name, _)| keys::block(name).is_some() || keys::near_block(name).is_some())
        })
    }

    /// The lines from here to the next one that is, or would be, a heading.
    pub(super) fn lines_to_heading(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let rest = self.text.tail(self.at);
        rest.split('\n').take_while(|line| !line.trim_start_matches(' ').starts_with('#'))
    }
}
