//! Two versions of a page made one, section by section: what one of them changed is taken, what both changed is merged
//! line by line, and where that does not work both stand between the markers that git leaves.
//!
//! No line goes in silence. A section goes where one version took it out and the other left it alone; a line of a
//! section likewise.
//!
//! - `merge/pair.rs`: which sections of two versions are the same one
//! - `merge/order.rs`: in which order they stand
//! - `merge/parts.rs`: what a merged page is made of
//! - `merge/version.rs`: a page without its line ends, and with them again

mod order;
mod pair;
mod parts;
mod version;

use crate::notation::{Section, Sections, Title, read, sections};
use crate::source::Page;
use parts::{Node, Part, date};
use std::collections::HashSet;
use std::mem::discriminant;
use version::Version;

/// What a merge comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Merged {
    /// The page.
    pub bytes: Vec<u8>,
    /// Whether nothing is left to decide; where something is, it stands between markers.
    pub settled: bool,
}

/// Merges line by line what both changed: base, ours, theirs. Nothing where it cannot.
pub type ByLines<'m> = dyn Fn(&[u8], &[u8], &[u8]) -> Option<Merged> + 'm;

/// Merges two versions of a page that were made from a common one, which is empty where they have none. Byte-order mark
/// and line ends are those of ours.
pub fn merge(base: &[u8], ours: &[u8], theirs: &[u8], by_lines: &ByLines<'_>) -> Merged {
    if ours == theirs || base == theirs {
        return Merged { bytes: ours.to_vec(), settled: true };
    }
    if base == ours {
        return Merged { bytes: theirs.to_vec(), settled: true };
    }
    let versions = (Version::of(base), Version::of(ours), Version::of(theirs));
    let (Some(base_page), Some(our_page), Some(their_page)) = versions else {
        return whole_by_lines(base, ours, theirs, by_lines);
    };
    let split = (sections(&base_page.page), sections(&our_page.page), sections(&their_page.page));
    let (Some(base_split), Some(our_split), Some(their_split)) = split else {
        return whole_by_lines(base, ours, theirs, by_lines);
    };
    let sides = Sides { base: &base_split, ours: &our_split, theirs: &their_split };
    let parts = sides.parts(&our_page, by_lines);
    let tail = of_three(
        (base_split.tail, base_page.ended),
        (our_split.tail, our_page.ended),
        (their_split.tail, their_page.ended),
    );
    let sure: Vec<Part> = parts.iter().filter(|part| part.settled).cloned().collect();
    // A fence that one version opened may be closed in the other's section: then neither is what it was.
    if !still_reads(&our_page.written(&sure, tail), &sure) {
        return Merged { bytes: between_markers(ours, theirs, our_page.line_end()), settled: false };
    }
    Merged { bytes: our_page.written(&parts, tail), settled: sure.len() == parts.len() }
}

/// Pages that have no sections: line by line, or both whole.
fn whole_by_lines(base: &[u8], ours: &[u8], theirs: &[u8], by_lines: &ByLines<'_>) -> Merged {
    let both = || Merged { bytes: between_markers(ours, theirs, "\n"), settled: false };
    by_lines(base, ours, theirs).unwrap_or_else(both)
}

/// Whether a page falls into these texts, and no others.
fn still_reads(bytes: &[u8], parts: &[Part]) -> bool {
    let Some(version) = Version::of(bytes) else { return false };
    let Some(found) = sections(&version.page) else { return false };
    let wanted = parts.iter().map(|part| part.text.as_str()).filter(|text| !text.is_empty());
    found.all.iter().map(|section| section.text).filter(|text| !text.is_empty()).eq(wanted)
}

/// Both versions between the markers that git leaves.
fn between_markers(ours: &[u8], theirs: &[u8], line_end: &str) -> Vec<u8> {
    let mut out = Vec::with_capacity(ours.len() + theirs.len() + 64);
    for (marker, text) in [("<<<<<<< ours", ours), ("=======", theirs), (">>>>>>> theirs", b"")] {
        out.extend_from_slice(marker.as_bytes());
        out.extend_from_slice(line_end.as_bytes());
        out.extend_from_slice(text);
        if !text.is_empty() && !text.ends_with(b"\n") {
            out.extend_from_slice(line_end.as_bytes());
        }
    }
    out
}

/// Theirs where they alone changed it, else ours.
fn of_three<T: PartialEq>(base: T, ours: T, theirs: T) -> T {
    if ours == base { theirs } else { ours }
}

/// The three versions in sections.
struct Sides<'s, 'a> {
    base: &'s Sections<'a>,
    ours: &'s Sections<'a>,
    theirs: &'s Sections<'a>,
}

impl Sides<'_, '_> {
    /// The merged page in order.
    fn parts(&self, our_page: &Version, by_lines: &ByLines<'_>) -> Vec<Part> {
        let (nodes, ours, theirs) = pair::nodes(&self.base.all, &self.ours.all, &self.theirs.all);
        let order = order::order(&nodes, &ours, &theirs, |node| self.any(node).and_then(date));
        let lines = our_page.lines_of(self.ours);
        let nodes = order.into_iter().filter_map(|at| nodes.get(at));
        nodes.filter_map(|node| self.part(node, &lines, by_lines)).collect()
    }

    /// A node as ours have it, or theirs.
    fn any(&self, node: &Node) -> Option<&Section<'_>> {
        let ours = node.ours.and_then(|at| self.ours.all.get(at));
        ours.or_else(|| node.theirs.and_then(|at| self.theirs.all.get(at)))
    }

    /// What becomes of a section; nothing where it goes.
    fn part(&self, node: &Node, lines: &[usize], by_lines: &ByLines<'_>) -> Option<Part> {
        let base = node.base.and_then(|at| self.base.all.get(at));
        let ours = node.ours.and_then(|at| self.ours.all.get(at));
        let theirs = node.theirs.and_then(|at| self.theirs.all.get(at));
        let line = node.ours.and_then(|at| lines.get(at)).copied();
        let first = |at: Option<usize>, side: &Sections<'_>| {
            at.is_some_and(|at| side.all.iter().take(at).all(|section| section.text.is_empty()))
        };
        let whole = |section: &Section<'_>, was_first: bool, line: Option<usize>| Part {
            lead: section.lead.to_owned(),
            was_first: was_first && section.title != Title::Head,
            text: section.text.to_owned(),
            line,
            settled: true,
        };
        let ours_alone = |one: &Section<'_>| whole(one, first(node.ours, self.ours), line);
        let theirs_alone = |one: &Section<'_>| whole(one, first(node.theirs, self.theirs), None);
        let both = |part: Part, ours: &str, theirs: &str| {
            let marked = between_markers(ours.as_bytes(), theirs.as_bytes(), "\n");
            Part { text: String::from_utf8_lossy(&marked).into_owned(), line: None, settled: false, ..part }
        };
        Some(match (base, ours, theirs) {
            (None, Some(ours), None) => ours_alone(ours),
            (None, None, Some(theirs)) => theirs_alone(theirs),
            (Some(base), Some(ours), None) if base.text == ours.text => return None,
            (Some(base), None, Some(theirs)) if base.text == theirs.text => return None,
            (Some(_), Some(ours), None) => both(ours_alone(ours), ours.text, ""),
            (Some(_), None, Some(theirs)) => both(theirs_alone(theirs), "", theirs.text),
            (_, None, None) => return None,
            (base, Some(ours), Some(theirs)) => {
                // Blank lines are no change that both could have made. Whoever put something before it, spaced it.
                let spaced = if base.is_some_and(|base| base.lead == ours.lead) { theirs.lead } else { ours.lead };
                let part = Part { lead: spaced.to_owned(), was_first: false, ..ours_alone(ours) };
                match base {
                    _ if ours.text == theirs.text => part,
                    Some(base) if base.text == theirs.text => part,
                    Some(base) if base.text == ours.text => Part { text: theirs.text.into(), line: None, ..part },
                    None if holds(ours, theirs) => part,
                    None if holds(theirs, ours) => Part { text: theirs.text.into(), line: None, ..part },
                    None => both(part, ours.text, theirs.text),
                    Some(base) => match section_by_lines(base.text, ours.text, theirs.text, by_lines) {
                        Some((text, settled)) => Part { text, line: None, settled, ..part },
                        None => both(part, ours.text, theirs.text),
                    },
                }
            }
        })
    }
}

/// A section that both changed, line by line; where that leaves something to decide, its heading and what stands under it
/// each for itself, for a heading that one moved is no line that the other filled in.
fn section_by_lines(base: &str, ours: &str, theirs: &str, by_lines: &ByLines<'_>) -> Option<(String, bool)> {
    let merged = |base: &str, ours: &str, theirs: &str| {
        let merged = by_lines(base.as_bytes(), ours.as_bytes(), theirs.as_bytes())?;
        Some((String::from_utf8(merged.bytes).ok()?, merged.settled))
    };
    let sound = |(text, settled): &(String, bool)| !settled || reads_alike(text, ours, theirs);
    let whole = merged(base, ours, theirs).filter(sound);
    if whole.as_ref().is_some_and(|(_, settled)| *settled) {
        return whole;
    }
    let split = |text: &str| -> (String, String) {
        let end = text.find('\n').map_or(text.len(), |at| at + 1);
        let (heading, below) = text.split_at(end);
        (heading.to_owned(), below.to_owned())
    };
    let [(base, base_below), (mine, below), (other, other_below)] = [base, ours, theirs].map(split);
    if mine != base && other != base && mine != other {
        return whole;
    }
    let apart = merged(&base_below, &below, &other_below).filter(|(_, settled)| *settled);
    let apart = apart.map(|(text, _)| (of_three(base, mine, other) + &text, true));
    apart.filter(sound).or(whole)
}

/// Whether each line of a merged section is read as it was in one of the two: no fence swallows it, and no set line is
/// another thing now.
fn reads_alike(merged: &str, ours: &str, theirs: &str) -> bool {
    let pages = (page(merged), page(ours), page(theirs));
    let (Some(merged), Some(ours), Some(theirs)) = pages else { return false };
    let (merged, ours, theirs) = (read(&merged), read(&ours), read(&theirs));
    let known: HashSet<_> = ours.iter().chain(&theirs).map(|line| (line.text, discriminant(&line.kind))).collect();
    merged.iter().all(|line| known.contains(&(line.text, discriminant(&line.kind))))
}

/// Whether all that stands under one heading stands under another, without a gap and read in the same way: a session
/// that was written further on another machine.
fn holds(more: &Section<'_>, less: &Section<'_>) -> bool {
    let pages = (page(more.text), page(less.text));
    let (Some(more), Some(less)) = pages else { return false };
    let (more, less) = (read(&more), read(&less));
    let blank = |line: &&crate::notation::nodes::Line<'_>| line.text.trim().is_empty();
    // `technique day` and `technique day, tired`: one of the two would lose its words.
    let heading = |lines: &[crate::notation::nodes::Line<'_>]| lines.first().map(|line| line.text.trim().to_owned());
    if heading(&more) != heading(&less) {
        return false;
    }
    let more: Vec<_> = more.iter().skip(1).collect();
    let less: Vec<_> = less.iter().skip(1).skip_while(blank).collect();
    let Some(first) = less.first() else { return true };
    // An indented line would belong to another lift there.
    let indented = first.text.starts_with([' ', '\t']);
    let begin = more.iter().take_while(|line| line.text.trim().is_empty()).count();
    more.windows(less.len()).enumerate().any(|(at, lines)| {
        (!indented || at == begin)
            && lines
                .iter()
                .zip(&less)
                .all(|(one, other)| one.text == other.text && discriminant(&one.kind) == discriminant(&other.kind))
    })
}

fn page(text: &str) -> Option<Page> {
    Page::new("", text.as_bytes().to_vec()).ok()
}
