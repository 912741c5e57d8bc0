//! A text merged line by line, as git does it: `git merge-file`, which knows what `merge.conflictStyle` is set to.

use std::io;
use std::process::{Command, Stdio};

/// Merges two texts that were made from one, line by line; what both changed stands between markers. Gives the text, and
/// whether nothing is left to decide; nothing where there is no git, or it takes one of the three for no text.
pub fn merge_lines(base: &[u8], ours: &[u8], theirs: &[u8]) -> Option<(Vec<u8>, bool)> {
    asked(base, ours, theirs).ok().flatten()
}

fn asked(base: &[u8], ours: &[u8], theirs: &[u8]) -> io::Result<Option<(Vec<u8>, bool)>> {
    let folder = tempfile::tempdir()?;
    let mut git = Command::new("git");
    git.args(["merge-file", "-p", "-L", "ours", "-L", "base", "-L", "theirs"]);
    for (name, text) in [("ours", ours), ("base", base), ("theirs", theirs)] {
        let place = folder.path().join(name);
        std::fs::write(&place, text)?;
        git.arg(place);
    }
    let said = git.stdin(Stdio::null()).stderr(Stdio::null()).output()?;
    // The status is how many places both changed, 127 at most; a fault of its own is 128 or more.
    Ok(match said.status.code() {
        Some(places @ 0..=127) => Some((said.stdout, places == 0)),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::merge_lines;

    #[test]
    fn lines_far_apart_go_together_and_the_same_line_does_not() {
        let (text, settled) = merge_lines(b"a\nb\nc\n", b"A\nb\nc\n", b"a\nb\nC\n").unwrap();
        assert_eq!((text.as_slice(), settled), (b"A\nb\nC\n".as_slice(), true));
        let (text, settled) = merge_lines(b"a\n", b"b\n", b"c\n").unwrap();
        assert_eq!(String::from_utf8(text).unwrap(), "<<<<<<< ours\nb\n=======\nc\n>>>>>>> theirs\n");
        assert!(!settled);
    }

    #[test]
    fn what_is_no_text_is_not_merged() {
        assert_eq!(merge_lines(b"a\n", b"b\0\n", b"c\n"), None);
    }
}
