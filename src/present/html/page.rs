//! The frame of every report: head, skip link, contents, sections, footer.

use crate::present::sanitize;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// How a report is known again by `--write`.
const GENERATOR: &str = "loadline report";

/// Nothing is fetched, nothing runs, nothing is sent; the page's own style holds.
const POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/// The page's own style: colours of both schemes, the screen, the phone, paper.
const STYLE: &str = include_str!("style.css");

/// A section of a report.
pub(super) struct Section {
    /// Its name in links.
    pub(super) id: &'static str,
    /// Its heading.
    pub(super) title: &'static str,
    /// What stands below the heading.
    pub(super) body: Markup,
}

/// What stands above the sections.
pub(super) struct Head {
    /// The heading of the page.
    pub(super) title: String,
    /// Lines below it.
    pub(super) about: Markup,
    /// What is said once, of everything: that these numbers are advice.
    pub(super) caution: &'static str,
    /// Whether the page is written anew while it is looked at, and so loads itself again.
    pub(super) watched: bool,
}

/// A page that is watched loads itself again after so many seconds.
const AGAIN_SECONDS: u32 = 3;

/// Lays a report out.
pub(super) fn page(head: &Head, sections: &[Section]) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (self::head(GENERATOR, &head.title, STYLE, head.watched))
            body {
                a.skip href="#answers" { "Skip to the answers" }
                header {
                    h1 { (head.title) }
                    (head.about)
                }
                main #answers tabindex="-1" {
                    @for (nth, section) in sections.iter().enumerate() {
                        section aria-labelledby=(section.id) {
                            h2 id=(section.id) { (section.title) }
                            (section.body)
                        }
                        // Where to go from here comes after the first answers, not before them.
                        @if nth == 0 {
                            nav aria-label="Sections" {
                                ul { @for section in sections { li { a href={ "#" (section.id) } aria-label=(section.title) { (section.id) } } } }
                            }
                        }
                    }
                }
                footer {
                    p.caution { (head.caution) }
                    p { "Made by Loadline from a journal in plain text. It works offline and runs no script." }
                }
            }
        }
    };
    lay_out(&page.into_string())
}

/// The head of a page: who made it, what it may not do, its title and its style.
pub(super) fn head(generator: &str, title: &str, style: &str, watched: bool) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="generator" content=(generator);
            meta http-equiv="Content-Security-Policy" content=(POLICY);
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            meta name="referrer" content="no-referrer";
            @if watched { meta http-equiv="refresh" content=(AGAIN_SECONDS); }
            title { (title) }
            style { (PreEscaped(style)) }
        }
    }
}

/// Whether a file begins as a report of this program does.
pub fn is_report(bytes: &[u8]) -> bool {
    is_made_by(bytes, GENERATOR)
}

/// Whether a file begins as a page does that has a name for who made it.
pub(super) fn is_made_by(bytes: &[u8], generator: &str) -> bool {
    let head = String::from_utf8_lossy(bytes.get(..400).unwrap_or(bytes)).into_owned();
    head.starts_with("<!DOCTYPE html>") && head.contains(&format!("<meta name=\"generator\" content=\"{generator}\">"))
}

/// Elements that begin a line, so that two reports can be compared line by line. Blanks before them say nothing.
const BEGIN_A_LINE: [&str; 19] = [
    "<head", "<meta", "<title", "<style", "<body", "<header", "<nav", "<main", "<section", "<footer", "<h", "<p",
    "<ul", "<li", "<d", "<table", "<t", "<figure", "<svg",
];

/// Puts elements on lines of their own, and spells out what could hide text or turn it round.
pub(super) fn lay_out(html: &str) -> String {
    let mut out = String::with_capacity(html.len() + html.len() / 20);
    for (at, part) in html.split('<').enumerate() {
        if at > 0 {
            let tag: String = format!("<{}", part.chars().take(9).collect::<String>());
            if BEGIN_A_LINE.iter().any(|begin| tag.starts_with(begin)) && !out.is_empty() && !out.ends_with('\n') {
                out.push('\n');
            }
            out.push('<');
        }
        for (nth, line) in part.split('\n').enumerate() {
            if nth > 0 {
                out.push('\n');
            }
            out.push_str(&sanitize(line));
        }
    }
    out.push('\n');
    out
}

#[cfg(test)]
mod tests {
    use super::{is_report, lay_out};

    #[test]
    fn text_that_hides_or_turns_round_is_spelled_out_wherever_it_stands() {
        let out = lay_out("<p title=\"a\u{202e}b\">x\u{200b}y\u{7}</p>");
        assert_eq!(out, "<p title=\"a\\u{202e}b\">x\\u{200b}y\\u{7}</p>\n");
    }

    #[test]
    fn a_page_of_somebody_elses_is_no_report() {
        assert!(!is_report(b"<!DOCTYPE html><title>loadline report</title>"));
        assert!(!is_report(b"# Block 1\n<meta name=\"generator\" content=\"loadline report\">"));
        assert!(!is_report(b""));
    }
}
