//! Single characters and the gaps between them. Phones put in no-break spaces, dashes and curly quotes;
//! they are read as the plain ones.

use super::trouble::{Miss, Reading};
use nom::Parser;
use nom::bytes::complete::take_while;
use nom::character::complete::satisfy;
use nom::combinator::{peek, recognize};

/// Whether a character is white space inside a line.
pub(crate) fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\u{a0}' | '\u{202f}' | '\u{2007}' | '\u{2009}' | '\r')
}

/// Hyphen, en dash, or minus sign.
pub(crate) fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2013}' | '\u{2212}')
}

/// A straight or curly double quote.
pub(crate) fn is_quote(c: char) -> bool {
    matches!(c, '"' | '\u{201c}' | '\u{201d}' | '\u{201e}')
}

/// The sign between sets and reps.
fn is_times(c: char) -> bool {
    matches!(c, 'x' | 'X' | '×')
}

/// White space, or none; a closed comment counts as white space.
pub(crate) fn gap(i: &str) -> Reading<'_, &str> {
    let mut rest = i;
    loop {
        rest = rest.trim_start_matches(' ');
        if rest.as_bytes().first().is_none_or(|b| b.is_ascii_graphic() && *b != b'<') {
            break;
        }
        rest = rest.trim_start_matches(is_space);
        match rest.strip_prefix("<!--").and_then(|inside| inside.split_once("-->")) {
            Some((_, after)) => rest = after,
            None => break,
        }
    }
    Ok((rest, front(i, rest)))
}

/// The text after any white space.
pub(crate) fn skip_gap(i: &str) -> &str {
    // Nearly every gap is one blank or none.
    let bytes = i.as_bytes();
    let blank = usize::from(bytes.first() == Some(&b' '));
    match bytes.get(blank) {
        Some(b) if !b.is_ascii_graphic() || *b == b'<' => gap(i).map_or(i, |(rest, _)| rest),
        _ => i.get(blank..).unwrap_or(i),
    }
}

/// What stands in `whole` before `rest`, which must be its tail.
pub(crate) fn front<'a>(whole: &'a str, rest: &str) -> &'a str {
    whole.get(..whole.len().saturating_sub(rest.len())).unwrap_or(whole)
}

/// `front` without white space at its end.
pub(crate) fn front_trimmed<'a>(whole: &'a str, rest: &str) -> &'a str {
    front(whole, rest).trim_end_matches(is_space)
}

/// The piece from the start of `from` to the end of `to`, both of one text.
pub(crate) fn through<'a>(from: &'a str, to: &str) -> &'a str {
    let length = (to.as_ptr() as usize + to.len()).wrapping_sub(from.as_ptr() as usize);
    from.get(..length).unwrap_or(from)
}

/// What stands in `whole` after `piece`, which must lie in it.
pub(crate) fn past<'a>(whole: &'a str, piece: &str) -> &'a str {
    let at = (piece.as_ptr() as usize + piece.len()).wrapping_sub(whole.as_ptr() as usize);
    whole.get(at..).unwrap_or("")
}

/// What stands in `whole` before `piece`, which must lie in it.
pub(crate) fn before<'a>(whole: &'a str, piece: &str) -> &'a str {
    let at = (piece.as_ptr() as usize).wrapping_sub(whole.as_ptr() as usize);
    whole.get(..at).unwrap_or("")
}

/// `x` between numbers, with any white space round it.
pub(crate) fn times(i: &str) -> Reading<'_, ()> {
    let i = skip_gap(i);
    let (i, _) = satisfy(is_times).parse(i)?;
    let (i, _) = gap(i)?;
    let (i, _) = peek(satisfy(|c| c.is_ascii_digit() || matches!(c, 'a' | 'A'))).parse(i)?;
    Ok((i, ()))
}

/// One dash.
pub(crate) fn dash(i: &str) -> Reading<'_, char> {
    satisfy(is_dash).parse(i)
}

/// A keyword in any letter case that does not go on as a longer word.
///
/// The library's own caseless tag folds character by character; keywords are ASCII, and this is read at
/// every sign of every line.
pub(crate) fn keyword<'a>(word: &'static str) -> impl Parser<&'a str, Output = &'a str, Error = Miss<'a>> {
    let first = word.as_bytes().first().copied().unwrap_or(0);
    move |i: &'a str| match i.split_at_checked(word.len()) {
        // The first letter rules out nearly all.
        _ if !i.as_bytes().first().is_some_and(|b| b.eq_ignore_ascii_case(&first)) => super::trouble::no_fit(i),
        Some((read, rest)) if read.eq_ignore_ascii_case(word) && !rest.starts_with(char::is_alphabetic) => {
            Ok((rest, read))
        }
        _ => super::trouble::no_fit(i),
    }
}

/// Letters, digits, and the signs inside a name: the words of a bar, a colour, or a lift.
pub(crate) fn word(i: &str) -> Reading<'_, &str> {
    recognize((
        satisfy(char::is_alphabetic),
        take_while(|c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '\'' | '’' | '.')),
    ))
    .parse(i)
}
