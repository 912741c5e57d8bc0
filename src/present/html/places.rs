//! Where the pages of a journal lie, and the lines of them that a report names.

use super::page::Section;
use crate::present::doc::Links;
use maud::html;
use std::ffi::OsStr;
use std::fmt::Write;
use std::path::{Component, Path};

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

/// The address of a file beside the page.
pub(super) fn address(file: &str) -> String {
    let mut out = String::new();
    encode(OsStr::new(file), &mut out);
    out
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

/// The lines of the journal that a report rests on, quoted, so that a report that was sent on is whole by itself.
pub(super) fn quoted(links: &Links, pages: &Pages<'_>) -> Section {
    let body = html! {
        details { summary { "The lines that this report rests on" }
            p { "Each figure's place leads here. The name of a page opens the page itself, where the journal is at hand." }
        @for (page, lines) in links.cited() {
            @let text = (pages.read)(&page);
            h3.page { a href=(pages.address(&page)) { (page) } }
            ul.lines {
                @for (line, id) in lines {
                    @let quoted = text.as_ref().and_then(|text| text.lines().nth(line.checked_sub(1)? as usize));
                    li id=(id) tabindex="-1" {
                        span.no { (line) }
                        @match quoted {
                            Some(quoted) => code { (quoted.trim_end()) },
                            None => span.soft { "no longer there" },
                        }
                    }
                }
            }
        } }
    };
    Section { id: "lines", title: "Lines of the journal", body }
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
