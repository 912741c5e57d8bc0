//! How wide a text is on a screen, and where it may be broken.

use crate::present::sanitize;
use unicode_width::UnicodeWidthStr;

/// How many columns a text takes on a screen.
pub(crate) fn width(text: &str) -> usize {
    // Nearly every text is plain ASCII, of which a letter is a column.
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) { text.len() } else { sanitize(text).width() }
}

/// The pieces that a text may be broken into: words; an effort with its number, a sign with what it belongs to, a number
/// with its unit, and a range being one each.
pub(crate) fn atoms(text: &str) -> Vec<String> {
    let mut atoms: Vec<String> = Vec::new();
    let (mut open, mut number, mut named) = (false, false, false);
    let words: Vec<&str> = text.split(' ').collect();
    for (at, word) in words.iter().enumerate() {
        let bare = word.trim_end_matches([')', ',', ';', ':', '.']);
        let range = bare == "to" && number && words.get(at + 1).is_some_and(|next| is_number(next));
        let unit = matches!(bare, "kg" | "lb") || range || number && (UNITS.contains(&bare) || bare.ends_with("/side"));
        match atoms.last_mut().filter(|_| open || unit) {
            Some(atom) => {
                atom.push(' ');
                atom.push_str(word);
            }
            None => atoms.push((*word).to_owned()),
        }
        // The number of a block, a week or an effort is none of what comes after.
        number = is_number(word) && !named || range;
        named = matches!(*word, "RPE" | "block" | "week");
        open = range || named || matches!(*word, "@" | "+" | "=");
    }
    atoms
}

/// What a number alone says nothing without.
const UNITS: [&str; 9] = ["%", "week", "weeks", "day", "days", "set", "sets", "rep", "reps"];

fn is_number(word: &str) -> bool {
    let digits = word.trim_start_matches(['(', '+', '-', '±']).trim_end_matches([')', ',', ';']);
    digits.starts_with(|c: char| c.is_ascii_digit()) && digits.chars().all(|c| c.is_ascii_digit() || c == '.')
}

/// Takes the count of another set off the end of a line, to stand before its load on the next one.
fn count_behind(line: &mut String, load: &str, room: usize) -> Option<String> {
    let at = line.rfind(", ").filter(|_| load.starts_with("@ "))?;
    let count = line.get(at + 2..)?.to_owned();
    (!count.contains(' ') && width(&count) + 1 + width(load) <= room).then(|| {
        line.truncate(at + 1);
        count
    })
}

/// A cell's lines, none wider than the room where words allow; the first line has a room of its own.
pub(super) fn broken(text: &str, first: usize, room: usize) -> Vec<String> {
    if width(text) <= first {
        return vec![text.to_owned()];
    }
    let mut lines: Vec<String> = Vec::new();
    for atom in atoms(text) {
        let only = lines.len() <= 1;
        let room = if only { first } else { room };
        match lines.last_mut().filter(|line| width(line) + 1 + width(&atom) <= room) {
            Some(line) => {
                line.push(' ');
                line.push_str(&atom);
            }
            None => {
                let count = lines.last_mut().and_then(|line| count_behind(line, &atom, room));
                lines.push(count.map_or(atom.clone(), |count| format!("{count} {atom}")));
            }
        }
    }
    lines
}
