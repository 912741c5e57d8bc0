//! Where front matter, code fences and comments close. Found once a page, so that a page full of fences
//! that never close costs no more than any other.

use crate::source::Cut;
/// The length in bytes of the front matter at a page's head, its closing line included.
pub(crate) fn front_matter(text: &str) -> Option<usize> {
    let mut lines = text.split_inclusive('\n');
    if lines.next().map(str::trim_end) != Some("---") {
        return None;
    }
    let mut end = text.find('\n')? + 1;
    for line in lines {
        end += line.len();
        if matches!(line.trim_end(), "---" | "...") {
            return Some(end);
        }
    }
    None
}

/// A line that opens or closes a code fence: its sign and how many of it.
fn fence(line: &str) -> Option<(char, usize, &str)> {
    let line = line.trim_start();
    let sign = line.chars().next().filter(|c| matches!(c, '`' | '~'))?;
    let info = line.trim_start_matches(sign);
    let length = line.len() - info.len();
    (length >= 3).then_some((sign, length, info))
}

/// The fences of a page that could close one.
#[derive(Debug, Default)]
pub(crate) struct Fences {
    /// Offset after the line, sign, length; found at the first fence asked about.
    closers: Option<Vec<(usize, char, usize)>>,
    /// For each of them, the longest of that sign from there on: `` ` `` and `~`.
    longest: Vec<(usize, usize)>,
    next: usize,
}

/// What a line that looks like a fence opens.
pub(crate) enum Fence {
    /// No fence.
    None,
    /// A fence that closes; prose up to this offset.
    Until(usize),
    /// A fence that never closes.
    Unclosed,
}

impl Fences {
    /// What the line from `start` to `end` of `text` opens.
    pub(crate) fn open(&mut self, text: &str, start: usize, end: usize) -> Fence {
        let line = text.cut(start..end);
        let Some((sign, length, info)) = fence(line) else { return Fence::None };
        if sign == '`' && info.contains('`') {
            return Fence::None;
        }
        let closers = self.closers.get_or_insert_with(|| closers(text, start));
        if self.longest.is_empty() {
            let mut longest = (0, 0);
            self.longest = closers
                .iter()
                .rev()
                .map(|(_, sign, length)| {
                    if *sign == '`' {
                        longest.0 = longest.0.max(*length)
                    } else {
                        longest.1 = longest.1.max(*length)
                    }
                    longest
                })
                .collect();
            self.longest.reverse();
        }
        while closers.get(self.next).is_some_and(|(after, ..)| *after <= end) {
            self.next += 1;
        }
        let longest = self.longest.get(self.next).map_or(0, |(tick, tilde)| if sign == '`' { *tick } else { *tilde });
        if longest < length {
            return Fence::Unclosed;
        }
        let closing =
            closers.get(self.next..).and_then(|rest| rest.iter().find(|(_, s, l)| *s == sign && *l >= length));
        closing.map_or(Fence::Unclosed, |(after, ..)| Fence::Until(*after))
    }
}

/// Every line from `start` on that is nothing but a fence.
fn closers(text: &str, start: usize) -> Vec<(usize, char, usize)> {
    let mut at = start;
    let mut out = Vec::new();
    for line in text.tail(start).split_inclusive('\n') {
        at += line.len();
        if let Some((sign, length, info)) = fence(line)
            && info.trim().is_empty()
        {
            out.push((at, sign, length));
        }
    }
    out
}
