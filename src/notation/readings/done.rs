//! A count with the sets behind it as they were done: `3x8: 8,8,6 @ 80 kg`.

use crate::notation::grammar::lexer::{is_space, trim_start};
use crate::source::Cut;

/// The sets that were done, behind the count that was meant.
pub(super) struct Done<'t> {
    /// Each set's reps, and what else stands there.
    pub(super) list: &'t str,
}

/// Nobody counts more sets or reps than these where each set's stand behind.
const MOST: u32 = 30;

/// What was done, where a text begins with a count and has a number for each of its sets behind it.
pub(super) fn behind_its_count(text: &str) -> Option<Done<'_>> {
    let (sets, rest) = number(text)?;
    let rest = trim_start(rest).strip_prefix(['x', 'X', '\u{d7}', '*'])?;
    let (reps, rest) = number(trim_start(rest))?;
    let list = rest.trim_start_matches(|c| is_space(c) || matches!(c, ':' | ';' | ',' | '=' | '-' | '>' | '\u{2192}'));
    if list.len() == rest.len() || sets > MOST || reps > MOST {
        return None;
    }
    let (mut done, mut rest) = (Vec::new(), list);
    while let Some((one, behind)) = number(rest) {
        // `5x3`, `8kg`, `7.5` are no reps of one set.
        if !behind.is_empty() && !behind.starts_with(|c| is_space(c) || matches!(c, ',' | '/' | ';')) {
            break;
        }
        done.push(one);
        let next = behind.trim_start_matches(|c| is_space(c) || matches!(c, ',' | '/' | ';'));
        if next.starts_with(['x', 'X', '\u{d7}', '@']) && done.len() as u32 != sets {
            return None;
        }
        rest = next;
        if done.len() as u32 == sets {
            break;
        }
    }
    let (last, others) = done.split_last()?;
    let fewer = others.iter().all(|one| *one <= reps) && *last <= reps.saturating_mul(2);
    (done.len() > 1 && done.len() as u32 == sets && fewer).then_some(Done { list })
}

/// The whole number that a text begins with, and what stands behind it.
fn number(text: &str) -> Option<(u32, &str)> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let number = text.head(digits).parse().ok().filter(|_| digits <= 2)?;
    Some((number, text.tail(digits)))
}

#[cfg(test)]
mod tests {
    use super::behind_its_count;

    #[test]
    fn sets_as_they_were_done_stand_behind_what_was_meant() {
        for (text, list) in [
            ("3x8: 8, 8, 6 @ 80kg", Some("8, 8, 6 @ 80kg")),
            ("3x8 8,8,6 80", Some("8,8,6 80")),
            ("3 x 10 - 10 9 8", Some("10 9 8")),
            ("3x10: 10, 9, 8 x 60kg", Some("10, 9, 8 x 60kg")),
            ("3x8 80", None),
            ("3x8 80 85 90", None),
            ("3x5, 2x3 100", None),
            ("3x5 100, 5x5 80", None),
            ("2x8 8", None),
        ] {
            assert_eq!(behind_its_count(text).map(|done| done.list), list, "{text}");
        }
    }
}
