//! Which kind each line is. A page is read line by line; what a line is depends on the heading above it
//! and on the last top-level bullet, and on nothing else.

use super::grammar::chars::{before, is_dash, is_space, skip_gap, through};
use super::grammar::fact::{block_key, detail, fact};
use super::grammar::heading::{
    Dated, Glued, block_name, block_slip, glued, heading, iso_date, session, time_of_day, weekday,
};
use super::grammar::keys::{self, FactKey};
use super::grammar::trouble::Trouble;
use super::grammar::work::{at_colon, bare_name, count_before_at, is_set_line, set_line, work, would_be_work};
use super::nodes::{BlockHeading, BlockKeyName, Body, Group, Line, LineKind};
use super::prose::{Fence, Fences, front_matter};
use super::readings::loose_date;
use crate::problems::{Problem, ProblemKind as K};
use crate::source::Page;

/// Reads a whole page into its lines.
pub fn read(page: &Page) -> Vec<Line<'_>> {
    Reader::new(page).collect()
}

/// Reads a page, one line at a time, in order. Nothing is kept of the lines before, so that a page of any
/// length takes little memory.
pub struct Reader<'a> {
    page: &'a Page,
    text: &'a str,
    at: usize,
    /// Up to here everything is prose: front matter, a fence, a comment.
    prose_until: usize,
    fences: Fences,
    comments_end: bool,
    in_merge: bool,
    section: Section,
    owner: Owner,
    /// The white space before the last top-level bullet; more of it makes a bullet belong to that one.
    top_indent: usize,
    troubles: Vec<Trouble<'a>>,
    /// Whether the page has a carriage return anywhere.
    has_returns: bool,
    /// Whether a blank line or a heading stands above.
    after_gap: bool,
}

/// What a line is read by, apart from the line itself.
#[derive(Clone, Copy)]
pub(super) struct Standing {
    section: Section,
    owner: Owner,
    top_indent: usize,
    in_merge: bool,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Section {
    /// Under no heading of ours.
    Outside {
        /// Whether the heading above is said to be nearly a block's already.
        keys_said: bool,
    },
    Session {
        level: usize,
    },
    Block {
        level: usize,
        has_keys: bool,
    },
}

/// What indented bullets belong to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Owner {
    None,
    Prose,
    /// A work line; whether a load stands there for the next set line to take over.
    Work {
        carried: bool,
    },
}

impl<'a> Reader<'a> {
    /// Starts at the head of a page.
    pub fn new(page: &'a Page) -> Self {
        let text = page.text();
        let mark = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let prose_until = front_matter(text.get(mark..).unwrap_or("")).map_or(0, |length| mark + length);
        Reader {
            page,
            text,
            at: 0,
            prose_until,
            fences: Fences::default(),
            comments_end: true,
            in_merge: false,
            section: Section::Outside { keys_said: false },
            owner: Owner::None,
            top_indent: 0,
            troubles: Vec::new(),
            after_gap: true,
            has_returns: memchr::memchr(b'\r', text.as_bytes()).is_some(),
        }
    }

    /// What the next line is read by.
    pub(super) fn standing(&self) -> Standing {
        Standing { section: self.section, owner: self.owner, top_indent: self.top_indent, in_merge: self.in_merge }
    }

    /// Reads a page as if it stood further down in another one.
    pub(super) fn resumed(page: &'a Page, standing: Standing) -> Self {
        let Standing { section, owner, top_indent, in_merge } = standing;
        Reader { prose_until: 0, section, owner, top_indent, in_merge, ..Reader::new(page) }
    }

    fn kind(&mut self, start: usize, end: usize, line: &'a str) -> LineKind<'a> {
        if self.page.is_opaque(start as u32) {
            self.troubles.push(Trouble::new(K::NotUtf8, line));
            return LineKind::Opaque;
        }
        if start < self.prose_until {
            return LineKind::Prose;
        }
        // Lines that end in a carriage return alone come as one, which nobody could make sense of.
        if self.has_returns
            && let Some((first, _)) = line.trim_end_matches('\r').split_once('\r')
        {
            self.troubles.push(Trouble::new(K::BareCarriageReturn, first));
            return LineKind::Opaque;
        }
        let Some(first) = line.trim_start_matches(is_space).chars().next() else { return LineKind::Prose };
        if (first.is_alphanumeric() || matches!(first, '*' | '_'))
            && line.len() <= 48
            && let Some(kind) = self.date_line(line)
        {
            return kind;
        }
        match first {
            '#' => self.heading(line),
            '-' | '*' | '+' | '\u{2013}' | '\u{2212}' => self.bullet(line),
            '<' | '>' | '|' | '=' if self.merge_marker(line) => LineKind::MergeMarker,
            '`' | '~' => {
                match self.fences.open(self.text, start, end) {
                    Fence::None => {}
                    Fence::Until(after) => self.prose_until = after,
                    Fence::Unclosed => self.troubles.push(Trouble::new(K::UnclosedFence, line.trim_matches(is_space))),
                }
                LineKind::Prose
            }
            '<' => {
                self.comment(start, line);
                LineKind::Prose
            }
            c if c.is_alphabetic() => self.plain(line),
            '_' => self.emphasised_fact(line),
            _ => LineKind::Prose,
        }
    }

    /// Seven of a sign at the line's start, as a merge leaves them.
    fn merge_marker(&mut self, line: &'a str) -> bool {
        let sign = line.as_bytes().first().copied().unwrap_or(0);
        let run = line.bytes().take_while(|b| *b == sign).count();
        let ended = line.as_bytes().get(7).is_none_or(|b| *b == b' ');
        if run != 7 || (sign == b'=' && !(ended && self.in_merge)) || !matches!(sign, b'<' | b'>' | b'|' | b'=') {
            return false;
        }
        match sign {
            b'<' => self.in_merge = true,
            b'>' => self.in_merge = false,
            _ => {}
        }
        self.troubles.push(Trouble::new(K::MergeMarker, line.trim_end_matches(is_space)));
        true
    }

    fn comment(&mut self, start: usize, line: &'a str) {
        let indent = line.len() - line.trim_start_matches(is_space).len();
        if !line.get(indent..).is_some_and(|inner| inner.starts_with("<!--")) {
            return;
        }
        let inside = start + indent + 4;
        let close = if self.comments_end { self.text.get(inside..).and_then(|rest| rest.find("-->")) } else { None };
        match close {
            Some(at) => {
                let end = inside + at + 3;
                let line_end = memchr::memchr(b'\n', self.text.as_bytes().get(end..).unwrap_or(&[]));
                self.prose_until = line_end.map_or(self.text.len(), |more| end + more + 1);
            }
            None => {
                self.comments_end = false;
                self.troubles.push(Trouble::new(K::UnclosedComment, line.trim_matches(is_space)));
            }
        }
    }

    fn heading(&mut self, line: &'a str) -> LineKind<'a> {
        let Some((level, text)) = heading(line) else { return self.glued_heading(line) };
        let deeper = match self.section {
            Section::Session { level: above } | Section::Block { level: above, .. } => level > above,
            Section::Outside { .. } => false,
        };
        if let Some(name) = block_name(text) {
            let has_keys = self.keys_follow(|_, _| true);
            if has_keys || !deeper {
                self.section = Section::Block { level, has_keys };
                self.owner = Owner::None;
                return LineKind::Block(BlockHeading { name, has_keys });
            }
        }
        if let Some(name) = block_slip(text).filter(|_| block_name(text).is_none() && self.any_key_follows()) {
            let missing = "a blank alone parts `Block` and its name";
            let trouble = Trouble::new(K::LooksLikeBlock { missing }, text);
            let fixed = format!("{} {name}", text.get(..5).unwrap_or(text));
            return self.nearly_block(if self.keys_follow(is_start) { trouble.fixed(fixed) } else { trouble });
        }
        let kind = match session(text, &mut self.troubles) {
            Dated::Session(heading) => LineKind::Session(heading),
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
    fn loose_heading(&mut self, text: &'a str) -> bool {
        let Some(loose) = loose_date(text) else { return false };
        let label = text.get(loose.end..).unwrap_or("");
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
    fn date_line(&mut self, line: &'a str) -> Option<LineKind<'a>> {
        let level = match self.section {
            Section::Session { level } => level,
            _ => 2,
        };
        let in_session = matches!(self.section, Section::Session { .. });
        let whole = line.trim_matches(is_space);
        let text = whole.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | ':'));
        if text.len() > 40 || !text.bytes().any(|byte| byte.is_ascii_digit()) && text.contains(' ') {
            return None;
        }
        let mut troubles = Vec::new();
        let iso = text.split(is_space).any(|word| matches!(iso_date(word.trim_end_matches(',')), Ok(("", Some(_)))));
        if iso && let Dated::Session(heading) = session(text, &mut troubles) {
            // A title behind the date may be anything.
            let plain = text.split(is_space).all(|word| {
                let word = word.trim_end_matches(',');
                let date = matches!(iso_date(word), Ok(("", Some(_))));
                date || matches!(weekday(word), Ok(("", _))) || matches!(time_of_day(word), Ok(("", _)))
            });
            if plain || heading.day.is_some() {
                let read = format!("## {text}");
                self.troubles.append(&mut troubles);
                self.troubles.push(Trouble::new(K::LooseSpelling { read: read.clone() }, whole).fixed(read));
                self.section = Section::Session { level };
                self.owner = Owner::None;
                return Some(LineKind::Session(heading));
            }
        }
        let loose = loose_date(text).filter(|_| in_session)?;
        let label = text.get(loose.end..).unwrap_or("");
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
    fn glued_heading(&mut self, line: &'a str) -> LineKind<'a> {
        match glued(line, &mut self.troubles) {
            Some(Glued::Date(level)) => {
                self.section = Section::Session { level };
                self.owner = Owner::None;
                return LineKind::BadSession;
            }
            Some(Glued::Block(signs)) if self.any_key_follows() => {
                let missing = "the blank after `#` is missing";
                let trouble = Trouble::new(K::LooksLikeBlock { missing }, line.trim_matches(is_space));
                let blank = signs.get(signs.len()..).unwrap_or("");
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
    fn nearly_block(&mut self, trouble: Trouble<'a>) -> LineKind<'a> {
        self.troubles.push(trouble);
        self.section = Section::Outside { keys_said: true };
        self.owner = Owner::None;
        LineKind::Heading { ends: true }
    }

    /// Whether a bullet with a block's key that is wanted stands between here and the next heading.
    fn keys_follow(&self, wanted: impl Fn(BlockKeyName, &'a str) -> bool) -> bool {
        self.lines_to_heading().any(|line| {
            let at_key = bullet(line).and_then(|bullet| at_colon(bullet.content));
            at_key.is_some_and(|(name, value)| keys::block(name).is_some_and(|key| wanted(key, value)))
        })
    }

    /// Whether any key of a block follows, with a bullet or without, or one that is nearly a key.
    fn any_key_follows(&self) -> bool {
        self.lines_to_heading().any(|line| {
            let content = bullet(line).map_or(line.trim_start_matches(is_space), |bullet| bullet.content);
            at_colon(content).is_some_and(|(name, _)| keys::block(name).is_some() || keys::near_block(name).is_some())
        })
    }

    /// The lines from here to the next one that is, or would be, a heading.
    fn lines_to_heading(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let rest = self.text.get(self.at..).unwrap_or("");
        rest.split('\n').take_while(|line| !line.trim_start_matches(' ').starts_with('#'))
    }

    /// A line that begins with a letter: a fact without a bullet, or prose.
    fn plain(&mut self, line: &'a str) -> LineKind<'a> {
        if let Section::Block { .. } = self.section {
            self.key_without_bullet(line);
        }
        if !matches!(self.section, Section::Session { .. }) {
            return LineKind::Prose;
        }
        let inner = line.trim_start_matches(is_space);
        let Some((name, value)) = at_colon(inner) else { return LineKind::Prose };
        if line.len() - inner.len() > 3 {
            return LineKind::Prose;
        }
        if name.len() > 16 || !self.troubles.is_empty() {
            return LineKind::Prose;
        }
        match keys::fact(name) {
            Some(FactKey::Note) | None => {
                self.near_key(name, keys::near_fact(name));
                LineKind::Prose
            }
            Some(key) => LineKind::Fact(fact(key, value, &mut self.troubles)),
        }
    }

    /// `starts: 2026-03-02` under a block's heading.
    fn key_without_bullet(&mut self, line: &'a str) {
        let inner = line.trim_start_matches(is_space);
        let Some((name, value)) = at_colon(inner) else { return };
        let Some(key) = keys::block(name) else { return };
        let reads = block_key(key, value, &mut Vec::new()).is_some();
        if !reads || line.len() - inner.len() > 3 || value.trim_matches(is_space).is_empty() {
            return;
        }
        let missing = "the dash before the key is missing";
        let trouble = Trouble::new(K::LooksLikeBlock { missing }, inner.trim_end_matches(is_space));
        // A block with other keys than its start would only be another error.
        let first = key == BlockKeyName::Starts || matches!(self.section, Section::Block { has_keys: true, .. });
        self.troubles.push(if first { trouble.fixed_at(before(inner, inner), "- ") } else { trouble });
    }

    fn near_key(&mut self, name: &'a str, known: Option<&'static str>) {
        let Some(known) = known else { return };
        let bare = bare_name(name);
        self.troubles.push(Trouble::new(K::NearKey { read: bare.into(), known }, bare).fixed(known));
    }

    fn bullet(&mut self, line: &'a str) -> LineKind<'a> {
        let Some(bullet) = bullet(line) else { return self.emphasised_fact(line) };
        let in_session = matches!(self.section, Section::Session { .. });
        let belongs = bullet.indent > 0 && self.owner != Owner::None && bullet.indent > self.top_indent;
        if !in_session {
            return self.bullet_outside(&bullet);
        }
        if belongs {
            return self.indented(&bullet);
        }
        let under_work = matches!(self.owner, Owner::Work { .. });
        self.top_indent = bullet.indent;
        self.owner = Owner::Prose;
        let Some((name, value)) = at_colon(bullet.content) else { return LineKind::Prose };
        match keys::fact(name) {
            Some(FactKey::Note) => return LineKind::SessionNote(value.trim_matches(is_space)),
            Some(key) => return LineKind::Fact(fact(key, value, &mut self.troubles)),
            None => {}
        }
        if let Some(known) = keys::detail_word(name) {
            self.detail_outside(line, name, known, under_work);
            return LineKind::Prose;
        }
        let known = self.troubles.len();
        let read = work(name, value, &mut self.troubles);
        let as_work = self.troubles.len() == known && !matches!(read.body, Body::Nothing);
        let fact = keys::near_fact(name);
        let detail = if as_work { None } else { keys::near_detail(name) };
        // A slip in a key, not a lift, unless what follows reads as work.
        if fact.is_some() || detail.is_some() {
            if !as_work {
                self.troubles.truncate(known);
            }
            match (fact, detail) {
                (None, Some(key)) => self.detail_outside(line, name, key, under_work),
                _ => self.near_key(name, fact),
            }
            if !as_work {
                return LineKind::Prose;
            }
        }
        let carried = matches!(&read.body, Body::Groups(groups) if has_load(groups));
        self.owner = Owner::Work { carried };
        LineKind::Work(read)
    }

    fn bullet_outside(&mut self, bullet: &Bullet<'a>) -> LineKind<'a> {
        let Some((name, value)) = at_colon(bullet.content) else {
            if count_before_at(bullet.content).is_some() {
                let piece = bullet.content.trim_end_matches(is_space);
                self.troubles.push(Trouble::new(K::WorkOutsideSession, piece));
            }
            return LineKind::Prose;
        };
        if let Section::Block { .. } = self.section {
            if let Some(key) = keys::block(name) {
                return LineKind::BlockKey(key, block_key(key, value, &mut self.troubles));
            }
            let known = keys::near_block(name);
            self.near_key(name, known);
            // A block with other keys than its start would only be another error.
            if known != Some("starts") && matches!(self.section, Section::Block { has_keys: false, .. }) {
                self.troubles.iter_mut().for_each(|trouble| trouble.fix = None);
            }
        } else if self.section == (Section::Outside { keys_said: false })
            && keys::block(name).is_some_and(|key| is_start(key, value))
        {
            let missing = "the heading above it does not begin with `Block`";
            self.troubles.push(Trouble::new(K::LooksLikeBlock { missing }, bullet.content.trim_end_matches(is_space)));
        }
        if self.troubles.is_empty() && would_be_work(name, value) {
            self.troubles.push(Trouble::new(K::WorkOutsideSession, bullet.content.trim_end_matches(is_space)));
        }
        LineKind::Prose
    }

    /// A bullet under another: a detail, a set line, or prose.
    fn indented(&mut self, bullet: &Bullet<'a>) -> LineKind<'a> {
        let content = bullet.content;
        let Owner::Work { carried } = self.owner else { return LineKind::Prose };
        if let Some((name, value)) = at_colon(content)
            && let Some(key) = keys::detail(name)
        {
            return LineKind::Detail(detail(key, value, &mut self.troubles));
        }
        if content.starts_with(|c: char| c.is_ascii_digit() || matches!(c, 'a' | 'A' | '~')) && is_set_line(content) {
            let groups = set_line(content, carried, &mut self.troubles);
            // A line that is lost takes its load with it: what follows does not take over an older one.
            self.owner = Owner::Work { carried: carried || has_load(&groups) };
            return LineKind::SetLine(groups);
        }
        if let Some((name, _)) = at_colon(content) {
            let near = keys::near_detail(name);
            if near.is_some() {
                self.near_key(name, near);
                return LineKind::Prose;
            }
        }
        LineKind::Prose
    }

    /// A detail that is not indented belongs to no lift.
    fn detail_outside(&mut self, line: &'a str, name: &'a str, known: &'static str, under_work: bool) {
        let bare = bare_name(name);
        let trouble = Trouble::new(K::DetailOutsideLift { key: known }, bare);
        let start = line.get(..0).unwrap_or("");
        let exact = bare.eq_ignore_ascii_case(known);
        self.troubles.push(match (under_work, exact) {
            (false, _) => trouble,
            (true, true) => trouble.fixed_at(start, "  "),
            (true, false) => trouble.fixed_at(through(line, bare), format!("  - {known}")),
        });
    }

    /// `**bodyweight:** 83 kg` without a bullet.
    fn emphasised_fact(&mut self, line: &'a str) -> LineKind<'a> {
        let inner = line.trim_start_matches(is_space);
        if matches!(self.section, Section::Session { .. })
            && let Some((name, value)) = at_colon(inner)
            && keys::fact(name).is_some()
            && let Some(known) = keys::fact_word(name)
        {
            let piece = before(inner, value).trim_end_matches(is_space);
            let kind = K::NearKey { read: piece.into(), known };
            self.troubles.push(Trouble::new(kind, piece).fixed(format!("{known}:")));
        }
        LineKind::Prose
    }
}

/// Whether a block's key is its start, and can be read.
fn is_start(key: BlockKeyName, value: &str) -> bool {
    key == BlockKeyName::Starts && block_key(key, value, &mut Vec::new()).is_some()
}

fn has_load(groups: &[Group<'_>]) -> bool {
    groups.iter().any(|group| group.load.is_some())
}

pub(super) struct Bullet<'a> {
    indent: usize,
    pub(super) content: &'a str,
}

/// A bullet's white space and content.
pub(super) fn bullet(line: &str) -> Option<Bullet<'_>> {
    let inner = line.trim_start_matches(is_space);
    let after = inner.strip_prefix(|c| is_dash(c) || matches!(c, '*' | '+'))?;
    if !(after.is_empty() || after.starts_with(is_space)) {
        return None;
    }
    Some(Bullet { indent: line.len() - inner.len(), content: skip_gap(after) })
}

impl<'a> Iterator for Reader<'a> {
    type Item = Line<'a>;

    fn next(&mut self) -> Option<Line<'a>> {
        let start = self.at;
        let rest = self.text.get(start..).filter(|rest| !rest.is_empty())?;
        let length = memchr::memchr(b'\n', rest.as_bytes()).map_or(rest.len(), |at| at + 1);
        let end = start + length;
        let text = rest.get(..length).unwrap_or(rest);
        self.at = end;
        let line = text.strip_suffix('\n').unwrap_or(text);
        let line = line.strip_suffix('\r').unwrap_or(line);
        let line = if start == 0 { line.strip_prefix('\u{feff}').unwrap_or(line) } else { line };
        let kind = self.kind(start, end, line);
        self.after_gap = line.trim_matches(is_space).is_empty()
            || matches!(kind, LineKind::Session(_) | LineKind::BadSession | LineKind::Heading { .. });
        // What stands in a fence, a comment or a quote is prose on purpose.
        let typed = matches!(self.section, Section::Session { .. })
            && end > self.prose_until
            && !line.trim_start_matches(is_space).starts_with(['>', '`', '~']);
        let problems = match self.troubles.is_empty() {
            true => Vec::new(),
            false => {
                let page = self.text;
                let mut problems: Vec<Problem> = self.troubles.drain(..).map(|trouble| trouble.placed(page)).collect();
                problems.sort_by_key(|problem| problem.span);
                problems
            }
        };
        Some(Line { text, kind, problems, typed })
    }
}
