//! A doc as HTML: headings, paragraphs, and tables that a reader of the screen can follow.

use super::table::Medium;
use super::{Doc, Links, Part, Piece, Role, Table, When};
use crate::present::sanitize;
use maud::{Markup, html as markup};

/// The doc as HTML. A headline is a paragraph: headings are of the page that it stands on, but for titles, which are of
/// the level given.
pub fn html(doc: &Doc, level: u8, links: &Links) -> Markup {
    // A table without a name of its own is called by the title above it.
    let titled = doc.parts.iter().scan("", |title, part| {
        if let Part::Line(pieces, _) = part
            && let [(Role::Title, text)] = pieces.as_slice()
        {
            *title = text;
        }
        Some((part, *title))
    });
    markup! {
        @for (part, title) in titled {
            @match part {
                Part::Line(pieces, _) => {
                    @if let [(Role::Title, text)] = pieces.as_slice() {
                        (heading(text.trim(), level))
                    } @else {
                        (line(pieces))
                    }
                }
                Part::Beside((role, words), places, _) => {
                    p class=[class(*role)] { (sanitize(words.trim())) span.below { (links.places(places)) } }
                }
                Part::Places(all) => { p.below { (sanitize(all.lead.trim_start())) (links.places(&all.places)) } }
                Part::Table(rows) => { @if !rows.is_empty() { (table(rows, title, links)) } }
                Part::If(When::Shown(_) | When::Wide(_) | When::OnPage, inner) => { (html(inner, level, links)) }
                Part::Gap | Part::If(..) => {}
                Part::Folded(summary, inner) => {
                    details { summary { (sanitize(summary)) } (html(inner, level, links)) }
                }
                Part::List(items) => { ul.items { @for item in items { li { (html(item, level, links)) } } } }
                Part::Sheets(docs) => { div.sheets { @for doc in docs { div { (html(doc, level, links)) } } } }
                Part::Pictures(pictures) => {
                    @if let Some(first) = pictures.first() {
                        (first.key())
                        div.plots { @for picture in pictures { (picture.html(links)) } }
                    }
                }
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

/// A paragraph, without what is to be typed.
fn line(pieces: &[Piece]) -> Markup {
    let said: Vec<&Piece> = pieces.iter().filter(|(role, text)| *role != Role::Hint && !text.is_empty()).collect();
    match said.as_slice() {
        _ if said.iter().all(|(_, text)| text.trim().is_empty()) => markup! {},
        [(role, text)] => markup! { p class=[class(*role)] { (dated(text.trim())) } },
        _ => markup! { p { @for (role, text) in said { span class=[class(*role)] { (dated(text)) } } } },
    }
}

/// Text in which no date is broken at the end of a line: a browser would break it at its strokes.
fn dated(text: &str) -> Markup {
    let is_date = |word: &str| {
        let parts: Vec<&str> = word.split('-').collect();
        parts.len() == 3 && parts.iter().all(|part| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit()))
    };
    markup! {
        @for word in text.split_inclusive(' ') {
            @let bare = word.trim_end_matches([' ', ',', ';', '.', ':']);
            @if is_date(bare) { span.date { (bare) } (word.get(bare.len()..).unwrap_or_default()) } @else { (sanitize(word)) }
        }
    }
}

/// The style of a role; none of plain text.
fn class(role: Role) -> Option<&'static str> {
    match role {
        Role::Plain | Role::Plot => None,
        Role::Answer => Some("answer"),
        Role::Title => Some("title"),
        Role::Ahead => Some("ahead"),
        Role::Level => Some("level"),
        Role::Behind | Role::Error => Some("behind"),
        Role::Place | Role::Hint => Some("soft"),
        Role::Caution => Some("warn"),
    }
}

/// A verdict: a sign, its word, its colour. The word says it all; the sign is for the eye.
fn verdict(role: Role, word: &str) -> Markup {
    let sign = match role {
        Role::Ahead => "▲",
        Role::Level => "=",
        Role::Behind | Role::Error => "▼",
        Role::Caution => "◆",
        Role::Plain | Role::Answer | Role::Title | Role::Place | Role::Plot | Role::Hint => "·",
    };
    markup! { span class={ "verdict " (class(role).unwrap_or_default()) } { span aria-hidden="true" { (sign) } " " (sanitize(word)) } }
}

/// A table, every column shown: first the one that heads the rows, and below the cells of a column those that stand
/// under it.
fn table(table: &Table, title: &str, links: &Links) -> Markup {
    let caption = table.caption.as_deref().unwrap_or(title.trim());
    let filled = table.filled(Medium::Screen);
    let column = |at: &usize| table.columns.get(*at);
    let under = |at: &usize| column(at).and_then(|column| column.under);
    let mut shown: Vec<usize> = filled.iter().copied().filter(|at| under(at).is_none()).collect();
    let named = |at: &&usize| column(at).is_some_and(|column| !column.title.is_empty());
    let head = shown.iter().find(|at| column(at).is_some_and(|column| column.heading)).or(shown.iter().find(named));
    let head = head.copied();
    shown.sort_by_key(|at| Some(*at) != head);
    let number = |at: &usize| column(at).filter(|column| column.right).map(|_| "number");
    let cell = |row: usize, at: &usize| {
        let (role, text) = table.rows.get(row).and_then(|row| row.get(*at))?;
        let below: Vec<usize> = filled.iter().copied().filter(|below| under(below) == Some(*at)).collect();
        Some((*role, text.as_str(), below)).filter(|_| *at < table.columns.len())
    };
    let words = |row: usize, at: &usize, role: Role, text: &str| match table.places.get(&(row, *at)) {
        Some(places) => links.places(places),
        None if column(at).is_some_and(|column| column.verdict) && !text.is_empty() => verdict(role, text),
        // Of two things side by side, one that is missing is said to be.
        None if table.paired && text.is_empty() => markup! { span.soft { "none" } },
        None => dated(text),
    };
    let content = |row: usize, at: &usize| {
        let Some((role, text, below)) = cell(row, at) else { return markup! {} };
        markup! {
            (words(row, at, role, text))
            @for at in &below {
                @if let Some((role, text, _)) = cell(row, at).filter(|(_, text, _)| !text.is_empty()) {
                    span.below { (words(row, at, role, text)) }
                }
            }
        }
    };
    let style = |row: usize, at: &usize| {
        let plain = column(at).is_some_and(|column| column.verdict);
        number(at).or_else(|| cell(row, at).and_then(|(role, ..)| class(role)).filter(|_| !plain))
    };
    markup! {
        // What is wider than a phone is moved sideways, by the keyboard too.
        div class={ "scroll" @if table.paired { " paired" } @if table.carded { " carded" } } role="region" tabindex="0" aria-label=(sanitize(caption)) {
            table {
                @if !caption.is_empty() { caption { (sanitize(caption)) } }
                thead {
                    tr {
                        @for at in &shown {
                            th scope="col" class=[number(at)] { (column(at).map_or("", |column| column.name())) }
                        }
                    }
                }
                tbody {
                    @for row in 0..table.rows.len() {
                        tr {
                            @for at in &shown {
                                @if Some(*at) == head {
                                    th scope="row" class=[number(at)] { (content(row, at)) }
                                } @else {
                                    td class=[style(row, at)] { (content(row, at)) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
