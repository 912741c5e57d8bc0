//! The lines of the journal that the report rests on, quoted, so that a report that was sent on is whole by itself.

use super::places::{Cited, Pages};
use maud::{Markup, html};

/// Quotes every line that was named.
pub(super) fn section(cited: &Cited, pages: &Pages<'_>) -> Markup {
    html! {
        p { "Each figure's place leads here. The name of a page opens the page itself, where the journal is at hand." }
        @for page in cited.pages(pages) {
            h3 { a href=(page.address) { (page.page) } }
            ul.lines {
                @for (line, id, text) in page.lines {
                    li id=(id) tabindex="-1" {
                        span.no { (line) }
                        @match text {
                            Some(text) => code { (text.trim_end()) },
                            None => span.soft { "no longer there" },
                        }
                    }
                }
            }
        }
    }
}
