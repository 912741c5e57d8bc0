//! The smallest parsers: one token, and the words of a name.

use super::lexer::{Kind, Token};
use super::tokens::Tokens;
use super::trouble::{Miss, Reading, no_fit};
use nom::Parser;

/// A token of this kind, with any gap before it.
pub(crate) fn kind<'t, 'a: 't>(wanted: Kind) -> impl Parser<Tokens<'t, 'a>, Output = Token, Error = Miss<'a>> {
    move |i: Tokens<'t, 'a>| if i.kind() == wanted { Ok((i.skip(1), i.first())) } else { no_fit(i) }
}

/// A sign, with any gap before it.
pub(crate) fn sign<'t, 'a: 't>(wanted: u8) -> impl Parser<Tokens<'t, 'a>, Output = Token, Error = Miss<'a>> {
    move |i: Tokens<'t, 'a>| if i.is(wanted) { Ok((i.skip(1), i.first())) } else { no_fit(i) }
}

/// One of these words, in any letter case.
pub(crate) fn word<'t, 'a: 't>(
    words: &'static [&'static str],
) -> impl Parser<Tokens<'t, 'a>, Output = &'a str, Error = Miss<'a>> {
    move |i: Tokens<'t, 'a>| {
        if words.iter().any(|word| i.is_word(word)) { Ok((i.skip(1), i.word())) } else { no_fit(i) }
    }
}

/// A token that is glued to the one before it.
pub(crate) fn glued<'t, 'a: 't, T>(
    mut parser: impl Parser<Tokens<'t, 'a>, Output = T, Error = Miss<'a>>,
) -> impl Parser<Tokens<'t, 'a>, Output = T, Error = Miss<'a>> {
    move |i: Tokens<'t, 'a>| if i.glued() { parser.parse(i) } else { no_fit(i) }
}

/// Letters, digits, and the signs inside a name, without blanks: a word of a bar, a colour or a lift.
pub(crate) fn name_word<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, ()> {
    run_of(i, "-_'’.")
}

/// A letter, and what is glued to it of letters, digits and these signs.
pub(crate) fn run_of<'t, 'a>(i: Tokens<'t, 'a>, signs: &str) -> Reading<'t, 'a, ()> {
    if !i.first_char().is_some_and(char::is_alphabetic) {
        return no_fit(i);
    }
    let goes_on = |i: Tokens<'_, '_>| {
        let good = |c: char| c.is_alphanumeric() || signs.contains(c);
        i.glued() && if i.kind() == Kind::Decimal { signs.contains('.') } else { i.first_char().is_some_and(good) }
    };
    let mut rest = i.skip(1);
    while goes_on(rest) {
        rest = rest.skip(1);
    }
    Ok((rest, ()))
}
