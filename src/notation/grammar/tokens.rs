//! Tokens as what the library's parsers read. A place behind the last token of a line knows what was looked for there:
//! that is what may stand there.

use super::lexer::{Kind, Token, lex, trim_end};
use crate::notation::expected::{Expected, ExpectedSet};
use crate::source::{Cut, Span};
use nom::{Input, Needed};
use std::cell::Cell;

/// A text and its tokens.
#[derive(Debug)]
pub(crate) struct Lexed<'t, 'a> {
    text: &'a str,
    tokens: &'t [Token],
    expected: Cell<ExpectedSet>,
}

impl<'t, 'a> Lexed<'t, 'a> {
    /// Lexes a text into tokens that are kept in `store`.
    pub(crate) fn new(text: &'a str, store: &'t mut Vec<Token>) -> Self {
        lex(text, store);
        Lexed { text, tokens: store, expected: Cell::default() }
    }

    /// All of its tokens.
    pub(crate) fn tokens<'l>(&'l self) -> Tokens<'l, 'a> {
        Tokens { line: self, at: 0, end: self.tokens.len() as u32 }
    }

    /// What was looked for behind the last token.
    pub(crate) fn expected(&self) -> ExpectedSet {
        self.expected.get()
    }
}

/// Reads a text by itself, apart from any line.
pub(crate) fn lexed<'a, T>(text: &'a str, read: impl FnOnce(Tokens<'_, 'a>) -> T) -> T {
    read(Lexed::new(text, &mut Vec::with_capacity(8)).tokens())
}

#[cfg(test)]
thread_local! {
    /// How often a token was looked at: work that does not depend on the machine.
    pub(crate) static LOOKS: Cell<u64> = const { Cell::new(0) };
}

/// A run of tokens of one line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tokens<'t, 'a> {
    line: &'t Lexed<'t, 'a>,
    at: u32,
    end: u32,
}

impl<'t, 'a> Tokens<'t, 'a> {
    /// Whether no token is left.
    pub(crate) fn is_empty(self) -> bool {
        self.at >= self.end
    }

    /// How many tokens are left.
    pub(crate) fn len(self) -> usize {
        self.end.saturating_sub(self.at) as usize
    }

    /// The next token.
    pub(crate) fn first(self) -> Token {
        self.nth(0)
    }

    /// The token `n` behind the next one; `Kind::End` where there is none.
    #[inline]
    pub(crate) fn nth(self, n: u32) -> Token {
        #[cfg(test)]
        LOOKS.with(|looks| looks.set(looks.get() + 1));
        let at = self.at + n;
        match self.line.tokens.get(at as usize) {
            Some(token) if at < self.end => *token,
            _ => self.past_end(),
        }
    }

    #[cold]
    fn past_end(self) -> Token {
        let end = self.last_end();
        Token { start: end, end, value: 0, kind: Kind::End, first: 0, glued: false }
    }

    /// Where the last token of the run ends.
    fn last_end(self) -> u32 {
        self.end.checked_sub(1).and_then(|last| self.line.tokens.get(last as usize)).map_or(0, |last| last.end)
    }

    /// The token before the run.
    pub(crate) fn before(self) -> Option<Token> {
        self.line.tokens.get(self.at.checked_sub(1)? as usize).copied()
    }

    /// The run without its first `n` tokens.
    pub(crate) fn skip(self, n: u32) -> Self {
        Tokens { at: (self.at + n).min(self.end), ..self }
    }

    /// The run up to where `rest`, its tail, begins.
    pub(crate) fn until(self, rest: Self) -> Self {
        Tokens { end: rest.at.max(self.at), ..self }
    }

    /// The run without its last token.
    pub(crate) fn without_last(self) -> Self {
        Tokens { end: self.end.saturating_sub(1).max(self.at), ..self }
    }

    /// Whether two runs begin at the same token.
    pub(crate) fn is_at(self, other: Self) -> bool {
        self.at == other.at
    }

    /// Where the run begins, in tokens.
    pub(crate) fn place(self) -> u32 {
        self.at
    }

    /// The kind of the next token.
    pub(crate) fn kind(self) -> Kind {
        self.first().kind
    }

    /// Whether the next token is this sign.
    pub(crate) fn is(self, sign: u8) -> bool {
        self.first().first == sign
    }

    /// Whether the next token stands directly behind the one before it.
    pub(crate) fn glued(self) -> bool {
        self.first().glued
    }

    /// Whether the next token is a number.
    pub(crate) fn is_number(self) -> bool {
        is_number(self.kind())
    }

    /// Whether a comma and a digit follow directly: such a comma parts nothing.
    pub(crate) fn lists(self) -> bool {
        let (comma, next) = (self.first(), self.nth(1));
        comma.kind == Kind::Comma && comma.glued && next.glued && is_number(next.kind)
    }

    /// The whole text that the tokens are of.
    pub(crate) fn line(self) -> &'a str {
        self.line.text
    }

    /// The text of the run.
    pub(crate) fn text(self) -> &'a str {
        self.slice(self.first().start, self.last_end())
    }

    /// The text of the next token.
    pub(crate) fn word(self) -> &'a str {
        let first = self.first();
        self.slice(first.start, first.end)
    }

    /// The text before `rest`, the run's tail, without the gap between.
    pub(crate) fn upto(self, rest: Self) -> &'a str {
        match self.line.tokens.get(self.at as usize..rest.at as usize) {
            Some(run @ [first, ..]) => self.slice(first.start, run.last().map_or(first.end, |last| last.end)),
            _ => self.slice(self.first().start, self.first().start),
        }
    }

    /// What stands in the text behind the tokens before `rest`, with its gap.
    pub(crate) fn behind(self, rest: Self) -> &'a str {
        self.line.text.tail(Span::of(self.line.text, self.upto(rest)).end as usize)
    }

    /// The text before `rest` with the gap between.
    pub(crate) fn upto_gap(self, rest: Self) -> &'a str {
        self.slice(self.first().start, rest.first().start)
    }

    /// The gap before the next token.
    pub(crate) fn gap(self) -> &'a str {
        self.gap_to(self)
    }

    /// The text from the blanks before the run up to where `rest` begins. A comment before the blanks stays outside.
    pub(crate) fn gap_to(self, rest: Self) -> &'a str {
        let before = self.slice(self.before().map_or(self.first().start, |before| before.end), self.first().start);
        let blanks = before.len() - trim_end(before).len();
        self.slice(self.first().start - blanks as u32, rest.first().start)
    }

    fn slice(self, start: u32, end: u32) -> &'a str {
        self.line.text.cut(start as usize..end as usize)
    }

    /// The text from the start of one piece to the end of another, both of this line.
    pub(crate) fn through(self, from: &str, to: &str) -> &'a str {
        self.slice(Span::of(self.line.text, from).start, Span::of(self.line.text, to).end)
    }

    /// The run from the first token behind a piece of the line, and never from before its own first.
    pub(crate) fn past(self, piece: &str) -> Self {
        let past = self.at_byte(Span::of(self.line.text, piece).end);
        Tokens { at: past.at.max(self.at), ..self }
    }

    /// The run from the first token that begins at a byte or behind it.
    pub(crate) fn at_byte(self, byte: u32) -> Self {
        let at = self.line.tokens.partition_point(|token| token.start < byte) as u32;
        Tokens { at: at.min(self.end), ..self }
    }

    /// Notes that a thing may stand here, where nothing does.
    pub(crate) fn expect(self, one: Expected) {
        if self.at as usize == self.line.tokens.len() {
            self.line.expected.set(self.line.expected.get().with(one));
        }
    }

    /// The same where what is left of the line may be the beginning of such a thing.
    pub(crate) fn expect_begun(self, one: Expected, part: impl Fn(Kind) -> bool) {
        if self.line.tokens.get(self.at as usize..).is_some_and(|rest| rest.iter().all(|token| part(token.kind))) {
            self.line.expected.set(self.line.expected.get().with(one));
        }
    }

    /// Whether the next token is this word, in any letter case.
    #[inline]
    pub(crate) fn is_word(self, word: &str) -> bool {
        // The first letter and the length rule out nearly all.
        let first = self.first();
        word.as_bytes().first().is_some_and(|own| own | 0x20 == first.first)
            && (first.end - first.start) as usize == word.len()
            && self
                .slice(first.start, first.end)
                .bytes()
                .zip(word.bytes())
                .all(|(one, other)| one | 0x20 == other | 0x20)
    }

    /// Which of these words the next token is.
    pub(crate) fn one_of<T: Copy>(self, words: &[(&str, T)]) -> Option<T> {
        words.iter().find(|(word, _)| self.is_word(word)).map(|(_, value)| *value)
    }

    /// The first character of the next token.
    pub(crate) fn first_char(self) -> Option<char> {
        self.word().chars().next()
    }

    /// What stands behind an `x` before a number or an `AMRAP`.
    pub(crate) fn behind_times(self) -> Option<Self> {
        let next = self.skip(1);
        if self.kind() != Kind::Times {
            return None;
        }
        next.expect(Expected::Amount);
        (next.is_number() || next.is(b'a')).then_some(next)
    }

    /// Whether something other than a sign that parts is glued to what was read: `3x8abc`.
    pub(crate) fn runs_on(self) -> bool {
        self.glued() && !matches!(self.first().first, b',' | b';' | b'@' | b'(' | b'!' | b'<')
    }
}

/// Whether a token of this kind is a number.
pub(crate) fn is_number(kind: Kind) -> bool {
    matches!(kind, Kind::Number | Kind::Decimal)
}

impl<'t> Input for Tokens<'t, '_> {
    type Item = Token;
    type Iter = std::iter::Copied<std::slice::Iter<'t, Token>>;
    type IterIndices = std::iter::Enumerate<Self::Iter>;

    fn input_len(&self) -> usize {
        self.len()
    }

    fn take(&self, index: usize) -> Self {
        Tokens { end: (self.at + index as u32).min(self.end), ..*self }
    }

    fn take_from(&self, index: usize) -> Self {
        self.skip(index as u32)
    }

    fn take_split(&self, index: usize) -> (Self, Self) {
        (self.take_from(index), self.take(index))
    }

    fn position<P: Fn(Self::Item) -> bool>(&self, predicate: P) -> Option<usize> {
        self.iter_elements().position(predicate)
    }

    fn iter_elements(&self) -> Self::Iter {
        self.line.tokens.get(self.at as usize..self.end as usize).unwrap_or(&[]).iter().copied()
    }

    fn iter_indices(&self) -> Self::IterIndices {
        self.iter_elements().enumerate()
    }

    fn slice_index(&self, count: usize) -> Result<usize, Needed> {
        if count <= self.len() { Ok(count) } else { Err(Needed::Unknown) }
    }
}
