//! `tidy` as text: a unified diff, and how many pages it is about.

use crate::present::{Doc, Role, wording};
use crate::source::Revision;
use similar::{ChangeTag, TextDiff};

/// Lines shown above and below a change.
const AROUND: usize = 3;

/// What is done about the pages that would change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Done {
    /// Nothing: it is shown.
    Shown,
    /// Nothing: it is only said which they are.
    Named,
    /// They were written.
    Written,
}

/// Shows what changes in pages, `pages` of which were looked at, and that so many lines with an error stay.
pub fn show(pages: u32, revisions: &[Revision], faulty: u32, done: Done) -> Doc {
    let mut out = Doc::new();
    for revision in revisions {
        match done {
            Done::Named => out.line(Role::Answer, revision.before.path()),
            Done::Shown | Done::Written => {
                out.append(difference(revision));
                out.gap();
            }
        }
    }
    let changing = revisions.len() as u64;
    let of = format!("{changing} of {}", wording::count(pages, "page"));
    let (role, words) = match done {
        _ if revisions.is_empty() => (Role::Ahead, format!("nothing to tidy: {} read", wording::count(pages, "page"))),
        Done::Shown => {
            let them = if changing == 1 { "it" } else { "them" };
            (Role::Caution, format!("{of} would change; --write writes {them}"))
        }
        Done::Named => (Role::Caution, format!("{of} would change")),
        Done::Written => (Role::Ahead, format!("{of} written")),
    };
    out.wrapped(role, &words, 2);
    if faulty > 0 && done != Done::Named {
        let verb = if faulty == 1 { "has an error and stays as it is" } else { "have errors and stay as they are" };
        let words = format!("{} {verb}; see `loadline check`", wording::count(faulty, "line"));
        out.wrapped(Role::Caution, &words, 2);
    }
    out
}

/// A page's unified diff, with the page's name above it.
pub fn difference(revision: &Revision) -> Doc {
    let mut out = Doc::new();
    out.line(Role::Title, format!("--- {}", revision.before.path()));
    out.line(Role::Title, format!("+++ {}", revision.after.path()));
    let diff = TextDiff::from_lines(revision.before.text(), revision.after.text());
    for hunk in diff.unified_diff().context_radius(AROUND).iter_hunks() {
        out.line(Role::Place, hunk.header().to_string());
        for change in hunk.iter_changes() {
            let line = change.value().trim_end_matches(['\r', '\n']);
            match change.tag() {
                ChangeTag::Equal => out.line(Role::Plain, format!(" {line}")),
                ChangeTag::Delete => out.line(Role::Behind, format!("-{}", told_apart(line))),
                ChangeTag::Insert => out.line(Role::Ahead, format!("+{}", told_apart(line))),
            }
        }
    }
    out
}

/// A line whose blanks can be told apart: odd ones, and those at its end, are spelled out.
fn told_apart(line: &str) -> String {
    let kept = line.trim_end();
    let spelled = |c: char| format!("\\u{{{:x}}}", c as u32);
    let mut out = String::new();
    for (at, c) in line.char_indices() {
        let odd = c.is_whitespace() && (at >= kept.len() || c != ' ');
        if odd { out.push_str(&spelled(c)) } else { out.push(c) }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::told_apart;

    #[test]
    fn blanks_that_change_are_seen() {
        assert_eq!(told_apart("- Dip: 3x8"), "- Dip: 3x8");
        assert_eq!(told_apart("- Dip:\u{a0}3x8\t@ bw "), "- Dip:\\u{a0}3x8\\u{9}@ bw\\u{20}");
    }
}
