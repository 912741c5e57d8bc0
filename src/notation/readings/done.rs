//! A count with the sets behind it as they were done: `3x8: 8,8,6 @ 80 kg`.

use super::vocabulary::Role;
use crate::notation::grammar::lexer::{is_space, trim_start};
use crate::source::Cut;

/// Nobody counts more sets or reps than these where each set's stand behind.
const MOST: u32 = 30;

/// Each set's reps, and what else stands there, where a text begins with a count and has a number for each of its sets
/// behind it.
pub(super) fn behind_its_count(text: &str) -> Option<&str> {
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
    (done.len() > 1 && done.len() as u32 == sets && fewer).then_some(list)
}

/// What a number of sets in front of others comes to.
pub(super) enum Each<'t> {
    /// As many stand behind it, each one set.
    All(&'t str),
    /// Fewer or more do.
    Unlike,
}

/// `4 sets: 80x6, 80x6, 80x5, 80x5`: how many there are, and then each of them.
pub(super) fn each_behind_their_number(text: &str) -> Option<Each<'_>> {
    // `80 4 sets: 8, 7, 6`: with the load before it only a number that does not fit is told.
    let behind = text.match_indices(" ").map(|(at, _)| text.tail(at + 1));
    let unlike = |text: &str| matches!(at_start(text), Some(Each::Unlike));
    if text.contains(':') && behind.filter(|text| text.starts_with(|c: char| c.is_ascii_digit())).any(unlike) {
        return Some(Each::Unlike);
    }
    at_start(text)
}

fn at_start(text: &str) -> Option<Each<'_>> {
    let (sets, rest) = number(text)?;
    let rest = trim_start(rest);
    let word = super::numbers::letters(rest);
    let behind = trim_start(rest.tail(word.len()));
    if !Role::Sets.has(&word.to_lowercase()) || sets < 2 {
        return None;
    }
    let told = behind.starts_with([':', ',', '=']);
    let list = trim_start(behind.trim_start_matches([':', ',', '=', ' ']));
    let whole =
        |piece: &&str| piece.contains(['x', 'X', '@', '\u{d7}']) && piece.contains(|c: char| c.is_ascii_digit());
    let pieces: Vec<&str> = if list.contains([',', ';']) {
        list.split([',', ';']).map(str::trim).filter(|piece| !piece.is_empty()).collect()
    } else {
        list.split(' ').filter(whole).collect()
    };
    // Bare numbers are a list like any other.
    if pieces.len() < 2 || !pieces.iter().all(whole) {
        let bare = |piece: &&str| piece.bytes().all(|byte| byte.is_ascii_digit());
        let unlike = told && pieces.len() > 1 && pieces.iter().all(bare) && pieces.len() as u32 != sets;
        return unlike.then_some(Each::Unlike);
    }
    match (pieces.len() as u32 == sets, told) {
        (true, true) => Some(Each::All(list)),
        // `2 sets 5@100, 3@110`: two of the first, or one of each.
        (true, false) | (false, true) => Some(Each::Unlike),
        (false, false) => None,
    }
}

/// `3x5 100, 102.5, 105`: a load for each set, with the sign between them that a list of loads has.
pub(super) fn loads_behind_their_count(text: &str) -> Option<String> {
    let (sets, rest) = number(text)?;
    let rest = trim_start(rest).strip_prefix(['x', 'X', '\u{d7}', '*'])?;
    let (_, behind) = number(trim_start(rest))?;
    let list = behind.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '@'));
    let loads: Vec<&str> = list.split(',').map(str::trim).collect();
    let is_load = |load: &&str| {
        let plain = load.chars().all(|c| c.is_ascii_digit() || c == '.');
        plain && load.parse::<f64>().is_ok_and(|load| load > 20.0)
    };
    let all = list.len() < behind.len() && loads.len() > 1 && loads.len() as u32 == sets && loads.iter().all(is_load);
    all.then(|| format!("{} {}", text.head(text.len() - behind.len()), loads.join("/")))
}

/// The whole number that a text begins with, and what stands behind it.
fn number(text: &str) -> Option<(u32, &str)> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let number = text.head(digits).parse().ok().filter(|_| digits <= 2)?;
    Some((number, text.tail(digits)))
}

#[cfg(test)]
mod tests {
    use super::{Each, behind_its_count, each_behind_their_number, loads_behind_their_count};

    #[test]
    fn a_number_of_sets_has_as_many_behind_it() {
        let told = |text: &str| match each_behind_their_number(text) {
            Some(Each::All(list)) => list.to_owned(),
            Some(Each::Unlike) => "unlike".to_owned(),
            None => String::new(),
        };
        assert_eq!(told("4 sets: 80x6, 80x6, 80x5, 80x5"), "80x6, 80x6, 80x5, 80x5");
        assert_eq!(told("5 sets: 60x5 80x5 100x5 100x5 100x5"), "60x5 80x5 100x5 100x5 100x5");
        assert_eq!(told("3 sets: 5@100, 5@105"), "unlike");
        assert_eq!(told("2 sets 5@100, 3@110"), "unlike");
        assert_eq!(told("3 sets: 8, 7, 6"), "");
        assert_eq!(told("4 sets: 8, 7, 6"), "unlike");
        assert_eq!(told("80 4 sets: 8, 7, 6"), "unlike");
        assert_eq!(told("80 3 sets: 8, 7, 6"), "");
        assert_eq!(told("3 sets of 8 at 80, 1x12 60"), "");
        assert_eq!(loads_behind_their_count("3x5 100, 102.5, 105").as_deref(), Some("3x5 100/102.5/105"));
        assert_eq!(loads_behind_their_count("3x8: 60, 65, 70").as_deref(), Some("3x8 60/65/70"));
        assert_eq!(loads_behind_their_count("3x5 100, 102.5"), None);
        assert_eq!(loads_behind_their_count("3x10 8, 10, 12"), None);
    }

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
            assert_eq!(behind_its_count(text), list, "{text}");
        }
    }
}
