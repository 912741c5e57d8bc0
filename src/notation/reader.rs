//! Which kind each line is. A page is read line by line; what a line is depends on the heading above it
//! and on the last top-level bullet, and on nothing else.

mod headings;

use super::bullet::{Bullet, before, bullet};
use super::expected::{Expected, ExpectedSet};
use super::grammar::fact::{block_key, fact, free, planned};
use super::grammar::keys::{self, FactKey, at_colon, bare_name};
use super::grammar::lexer::{Token, is_blank, trim, trim_end, trim_start};
use super::grammar::tokens::{Lexed, Tokens, lexed};
use super::grammar::trouble::Trouble;
use super::grammar::work::{count_before_at, is_set_line, set_line, work, would_be_work};
use super::nodes::{BlockKeyName, Body, DetailKey, Group, Line, LineKind};
use super::prose::{Fence, Fences, front_matter};
use crate::problems::{Problem, ProblemKind as K};
use crate::source::{Cut, Page};

/// Reads a whole page into its lines.
pub fn read(page: &Page) -> Vec<Line<'_>> {
    Reader::new(page).collect()
}

/// Reads a page, one line at a time, in order. Nothing is kept of the lines before, so that a page of any
/// length takes little memory.
pub struct Reader<'a> {
    page: &'a Page,
    text: &'a str,
    pub(super) at: usize,
    /// Up to here everything is prose: front matter, a fence, a comment.
    pub(super) prose_until: usize,
    fences: Fences,
    comments_end: bool,
    in_merge: bool,
    section: Section,
    owner: Owner,
    /// The white space before the last top-level bullet; more of it makes a bullet belong to that one.
    top_indent: usize,
    troubles: Vec<Trouble<'a>>,
    /// The tokens of the last line, kept for their memory alone.
    store: Vec<Token>,
    /// What may stand at the end of the last line.
    pub(super) expected: ExpectedSet,
    /// Whether the page has a carriage return anywhere.
    has_returns: bool,
    /// Whether a blank line or a heading stands above.
    after_gap: bool,
    /// Whether the line above is a session's heading, but for blank ones.
    below_heading: bool,
}

/// What a line is read by, apart from the line itself: the heading and the bullet above it.
#[derive(Clone, Copy, Debug)]
pub struct Standing {
    section: Section,
    owner: Owner,
    top_indent: usize,
    in_merge: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
        let prose_until = front_matter(text.tail(mark)).map_or(0, |length| mark + length);
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
            store: Vec::new(),
            expected: ExpectedSet::NOTHING,
            after_gap: true,
            below_heading: false,
            has_returns: memchr::memchr(b'\r', text.as_bytes()).is_some(),
        }
    }

    /// What the next line is read by.
    pub fn standing(&self) -> Standing {
        Standing { section: self.section, owner: self.owner, top_indent: self.top_indent, in_merge: self.in_merge }
    }

    /// Reads a page as if it stood further down in another one.
    pub(super) fn resumed(page: &'a Page, standing: Standing) -> Self {
        let Standing { section, owner, top_indent, in_merge } = standing;
        Reader { prose_until: 0, section, owner, top_indent, in_merge, ..Reader::new(page) }
    }

    /// Lexes a part of the line and reads it. What was looked for behind its end is what may stand there.
    fn lexed<T>(&mut self, text: &'a str, read: impl FnOnce(Tokens<'_, 'a>, &mut Vec<Trouble<'a>>) -> T) -> T {
        let line = Lexed::new(text, &mut self.store);
        let value = read(line.tokens(), &mut self.troubles);
        self.expected = self.expected.and(line.expected());
        value
    }

    /// Notes what may stand at the end of a line that is no longer than this.
    fn expect(&mut self, all: &[Expected]) {
        self.expected = all.iter().fold(self.expected, |set, one| set.with(*one));
    }

    fn kind(&mut self, start: usize, end: usize, line: &'a str, inner: &'a str) -> LineKind<'a> {
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
        let Some(first) = inner.chars().next() else {
            self.blank();
            return LineKind::Prose;
        };
        if (first.is_alphanumeric() || matches!(first, '*' | '_' | '[' | '(') || first > '\u{2100}')
            && line.len() <= 48
            && first != '\u{2212}'
            && let Some(kind) = self.date_line(line, line)
        {
            return kind;
        }
        // `- 2026-03-12`, `- Saturday 7 March` in a session
        if first == '-'
            && line.len() <= 32
            && matches!(self.section, Section::Session { .. })
            && let Some(date) = inner.strip_prefix("- ")
            && (date.starts_with("20")
                || (memchr::memchr(b':', date.as_bytes()).is_none()
                    && date.starts_with(|c: char| c.is_alphabetic() || c == '*')))
            && let Some(kind) = self.date_line(inner, date)
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
                    Fence::Unclosed => self.troubles.push(Trouble::new(K::UnclosedFence, trim(line))),
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

    /// What may begin on an empty line.
    pub(super) fn blank(&mut self) {
        self.expect(&[Expected::Heading]);
        match self.section {
            Section::Session { .. } => self.expect(&[Expected::Bullet, Expected::FactKey]),
            Section::Block { .. } => self.expect(&[Expected::Bullet]),
            Section::Outside { .. } => {}
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
        self.troubles.push(Trouble::new(K::MergeMarker, trim_end(line)));
        true
    }

    fn comment(&mut self, start: usize, line: &'a str) {
        let indent = line.len() - trim_start(line).len();
        if !line.get(indent..).is_some_and(|inner| inner.starts_with("<!--")) {
            return;
        }
        let inside = start + indent + 4;
        let close = if self.comments_end { self.text.get(inside..).and_then(|rest| rest.find("-->")) } else { None };
        match close {
            // `<!-- tired --> bench 80 3x5`: what stands behind it on the line is no comment.
            Some(at) if line.get(indent + 4 + at + 3..).is_some_and(|rest| !rest.trim().is_empty()) => {}
            Some(at) => {
                let end = inside + at + 3;
                let line_end = memchr::memchr(b'\n', self.text.as_bytes().get(end..).unwrap_or(&[]));
                self.prose_until = line_end.map_or(self.text.len(), |more| end + more + 1);
            }
            None => {
                self.comments_end = false;
                self.troubles.push(Trouble::new(K::UnclosedComment, trim(line)));
            }
        }
    }

    /// A line that begins with a letter: a fact without a bullet, or prose.
    fn plain(&mut self, line: &'a str) -> LineKind<'a> {
        if let Section::Block { .. } = self.section {
            self.key_without_bullet(line);
        }
        if !matches!(self.section, Section::Session { .. }) {
            return LineKind::Prose;
        }
        let inner = trim_start(line);
        let Some((name, value)) = at_colon(inner) else {
            self.expect(&[Expected::FactKey]);
            return LineKind::Prose;
        };
        if line.len() - inner.len() > 3 {
            return LineKind::Prose;
        }
        if name.len() > 16 || !self.troubles.is_empty() {
            return LineKind::Prose;
        }
        match keys::FACTS.find(name) {
            Some(FactKey::Note) | None => {
                self.near_key(name, keys::FACTS.near(name));
                LineKind::Prose
            }
            Some(key) => LineKind::Fact(self.lexed(value, |i, troubles| fact(key, i, troubles))),
        }
    }

    /// `starts: 2026-03-02` under a block's heading.
    fn key_without_bullet(&mut self, line: &'a str) {
        let inner = trim_start(line);
        let Some((name, value)) = at_colon(inner) else { return };
        let Some(key) = keys::BLOCKS.find(name) else { return };
        let reads = lexed(value, |i| block_key(key, i, &mut Vec::new())).is_some();
        if !reads || line.len() - inner.len() > 3 || trim(value).is_empty() {
            return;
        }
        let missing = "the dash before the key is missing";
        let trouble = Trouble::new(K::LooksLikeBlock { missing }, trim_end(inner));
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
        let Some((name, value)) = at_colon(bullet.content) else {
            self.expect(&[Expected::Lift, Expected::FactKey]);
            return LineKind::Prose;
        };
        match keys::FACTS.find(name) {
            Some(FactKey::Note) => return LineKind::SessionNote(trim(value)),
            Some(key) => return LineKind::Fact(self.lexed(value, |i, troubles| fact(key, i, troubles))),
            None => {}
        }
        if let Some(known) = keys::DETAILS.word(name) {
            self.detail_outside(line, name, known, under_work);
            return LineKind::Prose;
        }
        let known = self.troubles.len();
        let read = self.lexed(value, |i, troubles| work(name, i, troubles));
        let as_work = self.troubles.len() == known && !matches!(read.body, Body::Nothing);
        let fact = keys::FACTS.near(name);
        let detail = if as_work { None } else { keys::DETAILS.near(name) };
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
            if let Section::Block { .. } = self.section {
                self.expect(&[Expected::BlockKey]);
            }
            if lexed(bullet.content, count_before_at).is_some() {
                let piece = trim_end(bullet.content);
                self.troubles.push(Trouble::new(K::WorkOutsideSession { lines: 1 }, piece));
            }
            return LineKind::Prose;
        };
        if let Section::Block { .. } = self.section {
            if let Some(key) = keys::BLOCKS.find(name) {
                let read = self.lexed(value, |i, troubles| block_key(key, i, troubles));
                return LineKind::BlockKey(key, read.map(Box::new));
            }
            let known = keys::BLOCKS.near(name);
            self.near_key(name, known);
            // A block with other keys than its start would only be another error.
            if known != Some("starts") && matches!(self.section, Section::Block { has_keys: false, .. }) {
                self.troubles.iter_mut().for_each(|trouble| trouble.fix = None);
            }
        } else if self.section == (Section::Outside { keys_said: false })
            && keys::BLOCKS.find(name).is_some_and(|key| is_start(key, value))
        {
            let missing = "the heading above it does not begin with `Block`";
            self.troubles.push(Trouble::new(K::LooksLikeBlock { missing }, trim_end(bullet.content)));
        }
        if self.troubles.is_empty() && lexed(value, |i| would_be_work(name, i)) {
            self.troubles.push(Trouble::new(K::WorkOutsideSession { lines: 1 }, trim_end(bullet.content)));
        }
        LineKind::Prose
    }

    /// A bullet under another: a detail, a set line, or prose.
    fn indented(&mut self, bullet: &Bullet<'a>) -> LineKind<'a> {
        let content = bullet.content;
        let Owner::Work { carried } = self.owner else { return LineKind::Prose };
        let colon = at_colon(content);
        match colon.and_then(|(name, value)| Some((keys::DETAILS.find(name)?, value))) {
            Some((key @ (DetailKey::Plan | DetailKey::WarmUp), value)) => {
                return LineKind::Detail(self.lexed(value, |i, troubles| planned(key, i, troubles)));
            }
            Some((key, value)) => {
                self.expect(&[Expected::Text]);
                return LineKind::Detail(free(key, value));
            }
            None => {}
        }
        let sets =
            |i: Tokens<'_, 'a>, troubles: &mut Vec<Trouble<'a>>| is_set_line(i).then(|| set_line(i, carried, troubles));
        if content.starts_with(|c: char| c.is_ascii_digit() || matches!(c, 'a' | 'A' | '~'))
            && let Some(groups) = self.lexed(content, sets)
        {
            // A line that is lost takes its load with it: what follows does not take over an older one.
            self.owner = Owner::Work { carried: carried || has_load(&groups) };
            return LineKind::SetLine(groups);
        }
        match colon {
            Some((name, _)) => self.near_key(name, keys::DETAILS.near(name)),
            None if content.is_empty() => self.expect(&[Expected::DetailKey, Expected::Count]),
            None => self.expect(&[Expected::DetailKey]),
        }
        LineKind::Prose
    }

    /// A detail that is not indented belongs to no lift.
    fn detail_outside(&mut self, line: &'a str, name: &'a str, known: &'static str, under_work: bool) {
        let bare = bare_name(name);
        let trouble = Trouble::new(K::DetailOutsideLift { key: known }, bare);
        let start = line.head(0);
        let exact = bare.eq_ignore_ascii_case(known);
        self.troubles.push(match (under_work, exact) {
            (false, _) => trouble,
            (true, true) => trouble.fixed_at(start, "  "),
            (true, false) => {
                let end = before(line, bare).len() + bare.len();
                trouble.fixed_at(line.get(..end).unwrap_or(line), format!("  - {known}"))
            }
        });
    }

    /// `**bodyweight:** 83 kg` without a bullet.
    fn emphasised_fact(&mut self, line: &'a str) -> LineKind<'a> {
        let inner = trim_start(line);
        if matches!(self.section, Section::Session { .. })
            && let Some((name, value)) = at_colon(inner)
            && let Some(known) = keys::FACTS.word(name)
        {
            let piece = trim_end(before(inner, value));
            let kind = K::NearKey { read: piece.into(), known };
            self.troubles.push(Trouble::new(kind, piece).fixed(format!("{known}:")));
        }
        LineKind::Prose
    }
}

/// Whether a block's key is its start, and can be read.
fn is_start(key: BlockKeyName, value: &str) -> bool {
    key == BlockKeyName::Starts && lexed(value, |i| block_key(key, i, &mut Vec::new())).is_some()
}

fn has_load(groups: &[Group<'_>]) -> bool {
    groups.iter().any(|group| group.load.is_some())
}

impl<'a> Iterator for Reader<'a> {
    type Item = Line<'a>;

    fn next(&mut self) -> Option<Line<'a>> {
        let start = self.at;
        let rest = self.text.get(start..).filter(|rest| !rest.is_empty())?;
        // Every second line or so is empty.
        let length = match rest.as_bytes() {
            [b'\n', ..] => 1,
            bytes => memchr::memchr(b'\n', bytes).map_or(rest.len(), |at| at + 1),
        };
        let end = start + length;
        let text = rest.get(..length).unwrap_or(rest);
        self.at = end;
        let line = text.strip_suffix('\n').unwrap_or(text);
        let line = line.strip_suffix('\r').unwrap_or(line);
        let line = if start == 0 { line.strip_prefix('\u{feff}').unwrap_or(line) } else { line };
        self.expected = ExpectedSet::NOTHING;
        let inner = trim_start(line);
        let kind = self.kind(start, end, line, inner);
        // Blank lines between a heading and what the day is called are usual.
        self.below_heading =
            matches!(kind, LineKind::Session(_) | LineKind::BadSession) || (self.below_heading && inner.is_empty());
        let blank = is_blank(inner);
        self.after_gap = inner.is_empty() || self.below_heading || matches!(kind, LineKind::Heading { .. });
        // What stands in a fence, a comment or a quote is prose on purpose.
        let quoted = || [">", "```", "~~~"].iter().any(|sign| inner.starts_with(sign));
        let open =
            end > self.prose_until && !(matches!(inner.as_bytes().first(), Some(b'>' | b'`' | b'~')) && quoted());
        let in_session = matches!(self.section, Section::Session { .. });
        let (typed, outside) = (open && in_session, open && !in_session);
        let mut problems = Vec::new();
        if !self.troubles.is_empty() {
            problems.extend(self.troubles.drain(..).map(|trouble| trouble.placed(self.page.text())));
            problems.sort_by_key(|problem: &Problem| problem.span);
        }
        Some(Line { text, kind, problems, typed, outside, blank })
    }
}
