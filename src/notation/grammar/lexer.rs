//! A text as tokens: words, numbers and signs, each with its place. White space and closed comments are no tokens;
//! each token knows whether it is glued to the one before it. Phones put in no-break spaces, dashes and curly quotes;
//! they are read as the plain ones.

use crate::source::Cut;

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Behind the last token.
    End,
    /// A run of letters.
    Word,
    /// A run of digits.
    Number,
    /// Digits, a point, digits.
    Decimal,
    /// `x` or `×` by itself, or behind a number.
    Times,
    /// A hyphen, an en dash or a minus sign.
    Dash,
    /// A straight or curly double quote.
    Quote,
    /// `,`
    Comma,
    /// `@`
    At,
    /// `(`
    Open,
    /// Any other sign; `first` is its first byte.
    Sign,
}

/// A token, with its place in bytes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Token {
    pub(crate) start: u32,
    pub(crate) end: u32,
    /// Of a number its thousandths, or `TOO_LONG`; of an opening parenthesis the place of the token that closes it, or
    /// `UNCLOSED`.
    pub(crate) value: u32,
    pub(crate) kind: Kind,
    /// Its first byte, of a letter the small one.
    pub(crate) first: u8,
    /// Whether nothing stands between it and the token before it.
    pub(crate) glued: bool,
}

/// The value of a number that has more digits than anybody means.
pub(crate) const TOO_LONG: u32 = u32::MAX;
/// The value of an opening parenthesis that nothing closes.
pub(crate) const UNCLOSED: u32 = u32::MAX;

/// Digits in front of the point that are read; more cannot be meant.
pub(crate) const MOST_DIGITS: usize = 6;
/// Digits behind the point that are read.
const MOST_DECIMALS: usize = 3;

/// Whether a character is white space inside a line.
pub(crate) fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\u{a0}' | '\u{202f}' | '\u{2007}' | '\u{2009}' | '\r')
}

/// A text without white space at its start. Nearly every text has none, or two blanks before a bullet.
#[inline]
pub(crate) fn trim_start(text: &str) -> &str {
    let (bullet, spaced) = match text.as_bytes() {
        [b' ', b' ', first, ..] => (text.tail(2), first),
        [first, ..] => (text, first),
        [] => return text,
    };
    if spaced.is_ascii_graphic() { bullet } else { bullet.trim_start_matches(is_space) }
}

/// A text without white space at its end.
#[inline]
pub(crate) fn trim_end(text: &str) -> &str {
    match text.as_bytes().last() {
        Some(b' ' | b'\t' | b'\r' | 128..) => text.trim_end_matches(is_space),
        _ => text,
    }
}

/// A text without white space at its ends.
#[inline]
pub(crate) fn trim(text: &str) -> &str {
    trim_end(trim_start(text))
}

/// A line without what ends it.
pub(crate) fn without_end(line: &str) -> &str {
    let text = line.strip_suffix('\n').unwrap_or(line);
    if text.ends_with('\r') { text.trim_end_matches('\r') } else { text }
}

/// Whether a text is white space and nothing else.
pub(crate) fn is_blank(text: &str) -> bool {
    // The first sign behind the blanks tells, of nearly every line.
    match text.as_bytes().iter().find(|byte| **byte != b' ') {
        None => true,
        Some(first) if first.is_ascii_graphic() => false,
        Some(_) => text.trim().is_empty(),
    }
}

/// Hyphen, en dash, or minus sign.
pub(crate) fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2013}' | '\u{2212}')
}

/// A straight or curly double quote.
pub(crate) fn is_quote(c: char) -> bool {
    matches!(c, '"' | '\u{201c}' | '\u{201d}' | '\u{201e}')
}

/// The text after white space and closed comments.
#[inline]
pub(crate) fn skip_gap(text: &str) -> &str {
    // Nearly every gap is one blank or none.
    let blank = usize::from(text.starts_with(' '));
    if text.as_bytes().get(blank).is_some_and(|b| b.is_ascii_graphic() && *b != b'<') {
        return text.get(blank..).unwrap_or(text);
    }
    let mut rest = trim_start(text);
    while let Some((_, after)) = rest.strip_prefix("<!--").and_then(|inside| inside.split_once("-->")) {
        rest = trim_start(after);
    }
    rest
}

/// The tokens of a text, in the place of what `out` held.
pub(crate) fn lex(text: &str, out: &mut Vec<Token>) {
    out.clear();
    let mut lexer = Lexer { text, out, open: UNCLOSED, comments_close: true };
    let (mut at, mut glued) = (0, false);
    while let Some(&first) = text.as_bytes().get(at) {
        (at, glued) = match first {
            b' ' => (at + 1, false),
            b'0'..=b'9' => (lexer.number(at, first, glued), true),
            b'a'..=b'z' | b'A'..=b'Z' => (lexer.word(at, first, glued), true),
            _ => lexer.sign(at, first, glued),
        };
    }
    lexer.leave_open();
}

struct Lexer<'a, 'o> {
    text: &'a str,
    out: &'o mut Vec<Token>,
    /// The last parenthesis that is open; its value is the one before it.
    open: u32,
    /// Whether a comment can still be closed.
    comments_close: bool,
}

impl Lexer<'_, '_> {
    /// The sign or gap that begins at `at`: where it ends, and whether what follows is glued to it.
    fn sign(&mut self, at: usize, first: u8, glued: bool) -> (usize, bool) {
        let (kind, value) = match first {
            b'\t' | b'\r' => return (at + 1, false),
            b',' => (Kind::Comma, 0),
            b'@' => (Kind::At, 0),
            b'(' => (Kind::Open, self.open),
            b'-' => (Kind::Dash, 0),
            b'"' => (Kind::Quote, 0),
            128.. => return self.beyond_ascii(at, first, glued),
            _ => (Kind::Sign, 0),
        };
        match first {
            b'<' => {
                if let Some(end) = self.comment(at) {
                    return (end, false);
                }
            }
            b'(' => self.open = self.out.len() as u32,
            b')' => self.close(),
            _ => {}
        }
        self.out.push(Token { start: at as u32, end: at as u32 + 1, value, kind, first, glued });
        (at + 1, true)
    }

    fn put(&mut self, start: usize, end: usize, kind: Kind, first: u8, glued: bool) {
        self.out.push(Token { start: start as u32, end: end as u32, value: 0, kind, first: first | 0x20, glued });
    }

    fn number(&mut self, start: usize, first: u8, glued: bool) -> usize {
        let bytes = self.text.as_bytes();
        let (mut at, mut value) = (start, 0u32);
        while let Some(digit @ b'0'..=b'9') = bytes.get(at) {
            value = value.wrapping_mul(10).wrapping_add(u32::from(digit - b'0'));
            at += 1;
        }
        let mut too_long = at - start > MOST_DIGITS;
        value = value.wrapping_mul(1000);
        let mut kind = Kind::Number;
        if let (Some(b'.'), Some(b'0'..=b'9')) = (bytes.get(at), bytes.get(at + 1)) {
            kind = Kind::Decimal;
            at += 1;
            let (point, mut place) = (at, 100);
            while let Some(digit @ b'0'..=b'9') = bytes.get(at) {
                value = value.wrapping_add(u32::from(digit - b'0') * place);
                place /= 10;
                at += 1;
            }
            too_long |= at - point > MOST_DECIMALS;
        }
        let value = if too_long { TOO_LONG } else { value };
        self.out.push(Token { start: start as u32, end: at as u32, value, kind, first, glued });
        at
    }

    /// A run of letters. Behind a number an `x` before a digit is a sign of its own: `60kgx5`, `3xAMRAP`.
    fn word(&mut self, start: usize, first: u8, glued: bool) -> usize {
        let bytes = self.text.as_bytes();
        let mut end = start;
        loop {
            let rest = bytes.get(end..).unwrap_or(&[]);
            end += rest.iter().position(|b| !b.is_ascii_alphabetic()).unwrap_or(rest.len());
            let beyond = bytes.get(end).filter(|b| **b >= 128).and_then(|_| self.text.get(end..)?.chars().next());
            match beyond.filter(|c| c.is_alphabetic()) {
                Some(letter) => end += letter.len_utf8(),
                None => break,
            }
        }
        let last = bytes.get(end - 1).copied().unwrap_or(0);
        if first | 0x20 == b'x' {
            if end == start + 1 {
                self.put(start, end, Kind::Times, first, glued);
                return end;
            }
            if bytes.get(start + 1..start + 6).is_some_and(|word| word.eq_ignore_ascii_case(b"amrap")) {
                self.put(start, start + 1, Kind::Times, first, glued);
                self.put(start + 1, end, Kind::Word, b'a', true);
                return end;
            }
        }
        let behind_number = || self.out.last().is_some_and(|last| matches!(last.kind, Kind::Number | Kind::Decimal));
        if last | 0x20 == b'x' && bytes.get(end).is_some_and(u8::is_ascii_digit) && behind_number() {
            self.put(start, end - 1, Kind::Word, first, glued);
            self.put(end - 1, end, Kind::Times, last, true);
        } else {
            self.put(start, end, Kind::Word, first, glued);
        }
        end
    }

    fn beyond_ascii(&mut self, at: usize, first: u8, glued: bool) -> (usize, bool) {
        let Some(c) = self.text.get(at..).and_then(|rest| rest.chars().next()) else { return (at + 1, false) };
        let end = at + c.len_utf8();
        let kind = match c {
            c if is_space(c) => return (end, false),
            c if c.is_alphabetic() => return (self.word(at, first, glued), true),
            c if is_dash(c) => Kind::Dash,
            c if is_quote(c) => Kind::Quote,
            '×' => Kind::Times,
            _ => Kind::Sign,
        };
        self.put(at, end, kind, first, glued);
        (end, true)
    }

    /// Where the comment that begins here ends, if it is one and closes.
    fn comment(&mut self, at: usize) -> Option<usize> {
        let inside = self.text.get(at..).and_then(|rest| rest.strip_prefix("<!--")).filter(|_| self.comments_close)?;
        let close = inside.find("-->");
        self.comments_close = close.is_some();
        Some(at + 4 + close? + 3)
    }

    fn close(&mut self) {
        let place = self.out.len() as u32;
        if let Some(open) = self.out.get_mut(self.open as usize) {
            self.open = std::mem::replace(&mut open.value, place);
        }
    }

    fn leave_open(&mut self) {
        while let Some(open) = self.out.get_mut(self.open as usize) {
            self.open = std::mem::replace(&mut open.value, UNCLOSED);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Token, lex};

    /// A text's tokens, parted by a blank, glued ones by nothing but a point.
    fn shown(text: &str) -> String {
        let mut tokens: Vec<Token> = Vec::new();
        lex(text, &mut tokens);
        let word = |token: &Token| {
            format!("{}{}", if token.glued { "." } else { " " }, &text[token.start as usize..token.end as usize])
        };
        tokens.iter().map(word).collect()
    }

    #[test]
    fn words_numbers_and_signs_are_tokens_and_gaps_are_none() {
        for (text, tokens) in [
            ("3x8 @ 122.5 kg", " 3.x.8 @ 122.5 kg"),
            ("60kgx5, 3xAMRAP", " 60.kg.x.5., 3.x.AMRAP"),
            ("3 × 8\u{a0}RPE6–7", " 3 × 8 RPE.6.–.7"),
            ("box x 5", " box x 5"),
            ("8,8,7 <!-- two, then --> (slow)", " 8.,.8.,.7 (.slow.)"),
            ("5 <!-- open", " 5 <.!.-.- open"),
            ("1.2.3 8.", " 1.2...3 8.."),
            ("größer 🏋 3:00", " größer 🏋 3.:.00"),
        ] {
            assert_eq!(shown(text), tokens, "{text}");
        }
    }
}
