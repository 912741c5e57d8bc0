//! Links to lines of the journal. A browser cannot open a text file at a line, so a figure's link leads to the line as it
//! is quoted at the end of the report, and from there to the page itself.

use crate::source::Place;
use maud::{Markup, html};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::fmt::Write;
use std::path::{Component, Path};
use std::sync::Arc;

/// Where a journal's pages lie, seen from the folder of the report.
pub struct Pages<'a> {
    /// The way to the journal's root, percent-encoded: empty, or with a `/` at its end.
    way: String,
    /// The text of a page by its path below the root; nothing where it cannot be read.
    read: &'a dyn Fn(&str) -> Option<String>,
}

impl<'a> Pages<'a> {
    /// Pages of a journal at `root`, for a report in `folder`; both are whole paths without links in them.
    pub fn between(folder: &Path, root: &Path, read: &'a dyn Fn(&str) -> Option<String>) -> Self {
        let here: Vec<Component<'_>> = folder.components().collect();
        let there: Vec<Component<'_>> = root.components().collect();
        let shared = here.iter().zip(&there).take_while(|(one, other)| one == other).count();
        let mut way = "../".repeat(here.len() - shared);
        for part in there.iter().skip(shared) {
            encode(part.as_os_str(), &mut way);
            way.push('/');
        }
        Pages { way, read }
    }

    /// The address of a page, relative to the report. No name of a page can make another scheme of it.
    fn address(&self, page: &str) -> String {
        let mut out = self.way.clone();
        for (at, part) in page.split('/').enumerate() {
            if at > 0 {
                out.push('/');
            }
            encode(OsStr::new(part), &mut out);
        }
        out
    }
}

/// Percent-encodes all but the unreserved characters (RFC 3986, section 2.3).
fn encode(part: &OsStr, out: &mut String) {
    for byte in part.as_encoded_bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => out.push(char::from(*byte)),
            _ => {
                let _ = write!(out, "%{byte:02X}");
            }
        }
    }
}

/// The lines that a report names, gathered while it is laid out.
#[derive(Default)]
pub(super) struct Cited(RefCell<Vec<(Arc<str>, BTreeSet<u32>)>>);

/// A page with the lines of it that are named.
pub(super) struct CitedPage {
    /// Its path below the root.
    pub(super) page: Arc<str>,
    /// Its address.
    pub(super) address: String,
    /// Each line: its number, its name in links, its text where it can be read.
    pub(super) lines: Vec<(u32, String, Option<String>)>,
}

impl Cited {
    /// A link to a line: `page.md:14`.
    pub(super) fn place(&self, place: &Place) -> Markup {
        let id = self.cite(place);
        html! { a.place href={ "#" (id) } { (place) } }
    }

    /// Links to several lines, each page's name once: `page.md:14, 20`.
    pub(super) fn places<'p>(&self, places: impl IntoIterator<Item = &'p Place>) -> Markup {
        let mut last = None;
        html! {
            @for (at, place) in places.into_iter().enumerate() {
                @if at > 0 { ", " }
                @if last.replace(&place.page) == Some(&place.page) {
                    a.place href={ "#" (self.cite(place)) } aria-label=(place) { (place.line) }
                } @else {
                    (self.place(place))
                }
            }
        }
    }

    fn cite(&self, Place { page, line }: &Place) -> String {
        let mut pages = self.0.borrow_mut();
        let at = pages.iter().position(|(known, _)| known == page).unwrap_or_else(|| {
            pages.push((Arc::clone(page), BTreeSet::new()));
            pages.len() - 1
        });
        if let Some((_, lines)) = pages.get_mut(at) {
            lines.insert(*line);
        }
        format!("page-{}-line-{line}", at + 1)
    }

    /// Every page that is named, with its lines.
    pub(super) fn pages(&self, pages: &Pages<'_>) -> Vec<CitedPage> {
        let cited = self.0.borrow();
        let page = |(at, (page, lines)): (usize, &(Arc<str>, BTreeSet<u32>))| {
            let text = (pages.read)(page);
            let of = |line: u32| text.as_ref()?.lines().nth(line.checked_sub(1)? as usize).map(str::to_owned);
            let id = |line: u32| format!("page-{}-line-{line}", at + 1);
            CitedPage {
                page: Arc::clone(page),
                address: pages.address(page),
                lines: lines.iter().map(|line| (*line, id(*line), of(*line))).collect(),
            }
        };
        let mut found: Vec<CitedPage> = cited.iter().enumerate().map(page).collect();
        found.sort_by(|one, other| one.page.cmp(&other.page));
        found
    }
}

#[cfg(test)]
mod tests {
    use super::Pages;
    use std::path::Path;

    fn address(folder: &str, root: &str, page: &str) -> String {
        Pages::between(Path::new(folder), Path::new(root), &|_| None).address(page)
    }

    #[test]
    fn the_way_is_relative() {
        assert_eq!(address("/a/b", "/a/b", "block 1.md"), "block%201.md");
        assert_eq!(address("/a/b", "/a/b/log", "x/y.md"), "log/x/y.md");
        assert_eq!(address("/a/out/web", "/a/log", "y.md"), "../../log/y.md");
    }

    #[test]
    fn no_name_makes_an_address_that_runs_or_leads_elsewhere() {
        assert_eq!(address("/a", "/a", "javascript:alert(1).md"), "javascript%3Aalert%281%29.md");
        assert_eq!(address("/a", "/a", "\"><script>?#%.md"), "%22%3E%3Cscript%3E%3F%23%25.md");
        assert_eq!(address("/a", "/a", "é.md"), "%C3%A9.md");
    }
}
