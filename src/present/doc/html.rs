//! A doc as HTML: headings, paragraphs, and tables that a reader of the screen can follow.

use super::{Doc, Part, Piece, Role, Table};
use crate::present::sanitize;
use maud::{Markup, html as markup};

/// The doc as HTML. A headline is a paragraph: headings are of the page that it stands on, but for titles, which are of
/// the level given.
pub fn html(doc: &Doc, level: u8) -> Markup {
    let mut title = "";
    markup! {
        @for part in &doc.parts {
            @match part {
                Part::Line(pieces, _) => {
                    @if let [(Role::Title, text)] = pieces.as_slice() {
                        @let _ = { title = text.as_str(); };
                        (heading(text.trim(), level))
                    } @else if !pieces.iter().all(|(_, text)| text.trim().is_empty()) {
                        p class=[pieces.first().map(|(role, _)| class(*role)).filter(|class| *class != "plain")] { (line(pieces)) }
                    }
                }
                Part::Beside((role, words), place, _) => {
                    p { span class=(class(*role)) { (sanitize(words.trim())) } " " span class=(class(place.0)) { (sanitize(&place.1)) } }
                }
                Part::Table(rows) => { @if !rows.is_empty() { (table(rows, title)) } }
                Part::IfShown(_, inner) | Part::Wide(_, inner) => { (html(inner, level)) }
                Part::Picture(picture) => { (picture.html()) }
                Part::Gap | Part::IfHidden(..) | Part::Narrow(..) => {}
            }
        }
    }
}

fn heading(text: &str, level: u8) -> Markup {
    let text = sanitize(text);
    match level {
        0..=2 => markup! { h2 { (text) } },
        3 => markup! { h3 { (text) } },
        _ => markup! { h4 { (text) } },
    }
}

fn line(pieces: &[Piece]) -> Markup {
    match pieces {
        [(_, text)] => markup! { (sanitize(text.trim())) },
        _ => markup! { @for (role, text) in pieces { span class=(class(*role)) { (sanitize(text)) } } },
    }
}

/// The style of a role.
pub(crate) fn class(role: Role) -> &'static str {
    match role {
        Role::Plain | Role::Plot => "plain",
        Role::Answer => "answer",
        Role::Title => "title",
        Role::Ahead => "ahead",
        Role::Level => "level",
        Role::Behind | Role::Error => "behind",
        Role::Place => "soft",
        Role::Caution => "warn",
    }
}

/// A verdict: a sign, its word, its colour. The word says it all; the sign is for the eye.
pub(crate) fn verdict(role: Role, word: &str) -> Markup {
    let sign = match role {
        Role::Ahead => "▲",
        Role::Level => "=",
        Role::Behind | Role::Error => "▼",
        Role::Caution => "◆",
        Role::Plain | Role::Answer | Role::Title | Role::Place | Role::Plot => "·",
    };
    markup! { span class={ "verdict " (class(role)) } { span aria-hidden="true" { (sign) } " " (sanitize(word)) } }
}

/// A table, every column shown. The first cell of each row that is no verdict is the row's heading.
fn table(table: &Table, title: &str) -> Markup {
    let caption = table.caption.as_deref().unwrap_or(title.trim());
    let shown: Vec<usize> = (0..table.columns.len())
        .filter(|at| table.rows.iter().any(|row| row.get(*at).is_some_and(|(_, text)| !text.is_empty())))
        .collect();
    let column = |at: usize| table.columns.get(at);
    let number = |at: usize| column(at).filter(|column| column.right).map(|_| "number");
    let head = shown.iter().copied().find(|at| column(*at).is_some_and(|column| !column.title.is_empty()));
    markup! {
        // What is wider than a phone is moved sideways, by the keyboard too.
        div.scroll role="region" tabindex="0" aria-label=(sanitize(caption)) {
            table {
                @if !caption.is_empty() { caption { (sanitize(caption)) } }
                thead {
                    tr {
                        @for at in &shown {
                            @let title = column(*at).map_or("", |column| column.title);
                            th scope="col" class=[number(*at)] {
                                @if title.is_empty() { span.unseen { "verdict" } } @else { (title) }
                            }
                        }
                    }
                }
                tbody {
                    @for row in &table.rows {
                        tr {
                            @for at in &shown {
                                @let (role, text) = row.get(*at).map_or((Role::Plain, ""), |(role, text)| (*role, text.as_str()));
                                @if Some(*at) == head {
                                    th scope="row" class=[number(*at)] { (sanitize(text)) }
                                } @else if column(*at).is_some_and(|column| column.title.is_empty()) && matches!(role, Role::Ahead | Role::Behind) {
                                    td { (verdict(role, text)) }
                                } @else {
                                    td class=[number(*at).or((role != Role::Plain).then(|| class(role)))] { (sanitize(text)) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
