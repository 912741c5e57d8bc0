//! A page in sections: what stands above the first heading, blocks, sessions, and what stands under other headings.
//! Nothing is left out: leads, texts and the tail, one after the other, are the page.

use super::nodes::{LineKind, SessionHeading};
use super::reader::Reader;
use crate::source::{Cut, Page};

/// A heading with all that stands under it, down to the next one that is not deeper.
#[derive(Clone, Debug)]
pub struct Section<'a> {
    /// What its heading says.
    pub title: Title<'a>,
    /// The blank lines above its heading.
    pub lead: &'a str,
    /// From its heading to its last line that is not blank.
    pub text: &'a str,
}

/// What a section's heading says, in whatever spelling.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Title<'a> {
    /// No heading: the head of the page.
    Head,
    /// A block of that name.
    Block(&'a str),
    /// A session.
    Session(SessionHeading<'a>),
    /// Any other heading, as it stands there; a date that is none too.
    Other(&'a str),
}

/// A page's sections.
#[derive(Clone, Debug)]
pub struct Sections<'a> {
    /// In order; the first is the head, which may be empty.
    pub all: Vec<Section<'a>>,
    /// The blank lines at the page's end.
    pub tail: &'a str,
}

/// A page's sections; nothing where a merge was not finished in it, or it has lines that cannot be read.
pub fn sections(page: &Page) -> Option<Sections<'_>> {
    let text = page.text();
    let mut all = Vec::new();
    let (mut title, mut lead) = (Title::Head, "");
    let (mut start, mut filled, mut at) = (0, 0, 0);
    // Below a heading that is none of ours, each heading is one of its own.
    let mut outside = true;
    for line in Reader::new(page) {
        let next = match line.kind {
            LineKind::MergeMarker | LineKind::Opaque => return None,
            LineKind::Block(heading) => Some((Title::Block(heading.name), false)),
            LineKind::Session(heading) => Some((Title::Session(*heading), false)),
            LineKind::BadSession => Some((Title::Other(line.text.trim()), false)),
            LineKind::Heading { ends } if ends || outside => Some((Title::Other(line.text.trim()), true)),
            _ => None,
        };
        if let Some((next, is_other)) = next {
            let title = std::mem::replace(&mut title, next);
            all.push(Section { title, lead, text: text.cut(start..filled) });
            lead = text.cut(filled..at);
            (start, outside) = (at, is_other);
        }
        at += line.text.len();
        if !line.text.trim().is_empty() {
            filled = at;
        }
    }
    all.push(Section { title, lead, text: text.cut(start..filled) });
    Some(Sections { all, tail: text.tail(filled) })
}

#[cfg(test)]
mod tests {
    use super::{Title, sections};
    use crate::source::Page;

    /// The first line of each section.
    fn firsts(text: &str) -> Vec<String> {
        let page = Page::new("a.md", text.into()).unwrap();
        let found = sections(&page).unwrap();
        let all: String = found.all.iter().flat_map(|section| [section.lead, section.text]).collect();
        assert_eq!(all + found.tail, text);
        found.all.iter().map(|section| section.text.lines().next().unwrap_or("").to_owned()).collect()
    }

    #[test]
    fn a_section_ends_at_the_next_heading_that_is_not_deeper() {
        assert_eq!(firsts(""), [""]);
        assert_eq!(firsts("\n\n"), [""]);
        let page = "---\na: b\n---\n\n# Log\n\n# Block 1\n- starts: 2026-03-02\n\n## 2026-03-02\n- Dip: 3x8\n### Afterwards\nWarm.\n\n## Notes\n### On food\n\n## 2.3.2026\n- Dip: 3x8\n\n\n";
        let wanted = ["---", "# Log", "# Block 1", "## 2026-03-02", "## Notes", "### On food", "## 2.3.2026"];
        assert_eq!(firsts(page), wanted);
    }

    #[test]
    fn a_heading_in_a_fence_or_a_comment_begins_nothing() {
        let page = "## 2026-03-02\n```\n## 2026-03-03\n```\n<!--\n# Block 1\n-->\n";
        assert_eq!(firsts(page), ["", "## 2026-03-02"]);
    }

    #[test]
    fn a_title_knows_no_spelling() {
        let page = Page::new("a.md", b"## 2026-03-02 Heavier day\n\n# Thu 2026-03-05, heavier day\n".to_vec()).unwrap();
        let all = sections(&page).unwrap().all;
        assert!(matches!(&all[1].title, Title::Session(heading) if heading.day == Some("Heavier")));
        assert!(matches!(&all[2].title, Title::Session(heading) if heading.day == Some("heavier")));
    }

    #[test]
    fn a_page_with_a_merge_left_in_it_has_no_sections() {
        for text in [b"## 2026-03-02\n<<<<<<< a\n".as_slice(), b"a\rb\rc\n", b"## 2026-03-02\n\xff\n"] {
            assert!(sections(&Page::new("a.md", text.to_vec()).unwrap()).is_none(), "{text:?}");
        }
    }
}
