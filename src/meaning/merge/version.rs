//! A page without byte-order mark and carriage returns, which say nothing and must not make two lines different; and
//! with them again.

use super::parts::Part;
use crate::notation::Sections;
use crate::source::Page;

const MARK: &[u8] = b"\xef\xbb\xbf";

/// A version of a page.
pub(super) struct Version {
    /// Without mark and returns; its last line has an end.
    pub(super) page: Page,
    /// Whether its last line had an end.
    pub(super) ended: bool,
    mark: bool,
    /// Whether each line ended in a return too.
    returns: Vec<bool>,
}

impl Version {
    /// Nothing where it is not UTF-8 or too long.
    pub(super) fn of(bytes: &[u8]) -> Option<Self> {
        let mark = bytes.starts_with(MARK);
        let text = std::str::from_utf8(bytes.strip_prefix(MARK).unwrap_or(bytes)).ok()?;
        let ended = text.is_empty() || text.ends_with('\n');
        let mut plain = String::with_capacity(text.len() + 1);
        let mut returns = Vec::new();
        for line in text.split_inclusive('\n') {
            let bare = line.strip_suffix("\r\n");
            returns.push(bare.is_some());
            plain.push_str(bare.unwrap_or(line));
            if bare.is_some() || !line.ends_with('\n') {
                plain.push('\n');
            }
        }
        let mut version = Version { page: Page::new("", plain.into_bytes()).ok()?, ended, mark, returns };
        let returns = version.line_end() == "\r\n";
        if let Some(last) = version.returns.last_mut().filter(|_| !ended) {
            *last = returns;
        }
        Some(version)
    }

    /// What most of its lines end in.
    pub(super) fn line_end(&self) -> &'static str {
        let returns = self.returns.iter().filter(|returns| **returns).count();
        if returns * 2 > self.returns.len() { "\r\n" } else { "\n" }
    }

    /// At which line, from 0, the text of each section begins.
    pub(super) fn lines_of(&self, sections: &Sections<'_>) -> Vec<usize> {
        let mut at = 0;
        let lines = sections.all.iter().map(|section| {
            let start = at + section.lead.matches('\n').count();
            at = start + section.text.matches('\n').count();
            start
        });
        lines.collect()
    }

    /// Parts as a page like this one. `tail` is the blank lines at its end, and whether its last line has an end.
    pub(super) fn written(&self, parts: &[Part], (tail, ended): (&str, bool)) -> Vec<u8> {
        let mut out = if self.mark { MARK.to_vec() } else { Vec::new() };
        let start = out.len();
        let mut put = |text: &str, line: Option<usize>| {
            for (at, plain) in text.split_inclusive('\n').enumerate() {
                let own = line.and_then(|line| self.returns.get(line + at));
                let line_end = match own {
                    Some(true) => "\r\n",
                    Some(false) => "\n",
                    None => self.line_end(),
                };
                out.extend_from_slice(plain.strip_suffix('\n').unwrap_or(plain).as_bytes());
                out.extend_from_slice(line_end.as_bytes());
            }
        };
        let mut is_first = true;
        for part in parts {
            if part.lead.is_empty() && part.was_first && !is_first {
                put("\n", None);
            }
            put(&part.lead, part.line.and_then(|line| line.checked_sub(part.lead.matches('\n').count())));
            put(&part.text, part.line);
            is_first &= part.text.is_empty();
        }
        put(tail, None);
        if !ended && out.len() > start && parts.iter().all(|part| part.settled) {
            out.pop();
            if out.last() == Some(&b'\r') {
                out.pop();
            }
        }
        out
    }
}
