//! A doc as Markdown (CommonMark, with the tables that most viewers know), for editors.

use super::table::Medium;
use super::{Doc, Part, Piece, Role, Table, Typeset, When};
use crate::present::places::by_page;
use crate::present::{sanitize, wording};
use crate::source::Place;

/// Where a link to a place leads; nothing where there is to be none.
pub type Lead<'l> = &'l dyn Fn(&Place) -> Option<String>;

/// The doc as Markdown.
pub fn markdown(doc: &Doc) -> String {
    linked(doc, &|_| None)
}

/// The same with its places as links.
pub fn linked(doc: &Doc, lead: Lead<'_>) -> String {
    let mut out = String::new();
    blocks(doc, &mut out, lead);
    out
}

/// A place, as a link where one leads there.
pub fn link(place: &Place, lead: Lead<'_>) -> String {
    let name = escaped(&place.to_string());
    // A bracket would end the address.
    let address = lead(place).map(|address| address.replace('(', "%28").replace(')', "%29"));
    address.map_or_else(|| name.clone(), |address| format!("[{name}]({address})"))
}

fn blocks(doc: &Doc, out: &mut String, lead: Lead<'_>) {
    for part in &doc.parts {
        let block = match part {
            Part::Line(pieces, _) => line(pieces),
            Part::Beside(words, places, _) => format!("{} ({})", escaped(words.1.trim()), named(places, lead)),
            Part::Places(all) => format!("{}{}", escaped(all.lead.trim_start()), named(&all.places, lead)),
            Part::Table(rows) => table(rows),
            Part::If(When::Shown(_) | When::Wide(_), inner) | Part::Folded(_, inner) => linked(inner, lead),
            Part::List(items) => items.iter().map(|doc| item(doc, lead)).collect(),
            Part::Sheets(docs) => {
                let docs = docs.iter().map(|doc| linked(doc, lead));
                docs.filter(|doc| !doc.is_empty()).collect::<Vec<_>>().join("\n")
            }
            Part::Pictures(pictures) => pictures.iter().map(|picture| drawn(&picture.draw(72))).collect(),
            Part::Gap | Part::If(..) => continue,
        };
        let block = block.trim_matches('\n');
        if block.is_empty() {
            continue;
        }
        if !out.is_empty() {
            out.push('\n');
        }
        out.push_str(block);
        out.push('\n');
    }
}

/// An item of a list: all that is said of it belongs to it.
fn item(doc: &Doc, lead: Lead<'_>) -> String {
    let text = linked(doc, lead);
    let lines: Vec<&str> = text.lines().collect();
    let line = |(nth, line): (usize, &&str)| match (nth, line.is_empty()) {
        (0, _) => format!("- {line}\n"),
        (_, true) => "\n".to_owned(),
        (_, false) => format!("  {line}\n"),
    };
    lines.iter().enumerate().map(line).collect()
}

/// What is drawn with characters, as it stands. Indented it would be part of a list before it.
fn drawn(drawn: &Typeset) -> String {
    let lines = drawn.lines().iter().map(|line| line.iter().map(|(_, text)| &**text).collect::<String>());
    let lines: String = lines.map(|line| format!("{}\n", sanitize(line.trim_end()))).collect();
    if lines.is_empty() { lines } else { format!("```\n{lines}```\n") }
}

fn named(places: &[Place], lead: Lead<'_>) -> String {
    let links: Option<Vec<String>> = places.iter().map(|place| lead(place).map(|_| link(place, lead))).collect();
    links.map_or_else(|| escaped(&wording::all_of(&by_page(places))), |links| wording::all_of(&links))
}

fn line(pieces: &[Piece]) -> String {
    let said: Vec<&Piece> = pieces.iter().filter(|(role, _)| *role != Role::Hint).collect();
    let text: String = said.iter().map(|(_, text)| text.as_str()).collect();
    let text = escaped(text.trim());
    match said.first() {
        _ if text.is_empty() => text,
        Some((Role::Answer, _)) => format!("**{text}**"),
        Some((Role::Title, _)) => format!("### {text}"),
        Some((Role::Caution, _)) => format!("> {text}"),
        _ => text,
    }
}

fn table(table: &Table) -> String {
    let shown = table.filled(Medium::Page);
    if shown.is_empty() {
        return String::new();
    }
    let row = |cell: &dyn Fn(usize) -> String| -> String {
        shown.iter().map(|at| format!("| {} ", cell(*at))).collect::<String>() + "|"
    };
    let column = |at: usize| table.columns.get(at);
    let mut lines = vec![
        row(&|at| column(at).map_or("", |column| column.name()).to_owned()),
        row(&|at| if column(at).is_some_and(|column| column.right) { "---:" } else { "---" }.to_owned()),
    ];
    lines.extend(
        table.rows.iter().map(|cells| row(&|at| cells.get(at).map_or(String::new(), |(_, text)| escaped(text)))),
    );
    lines.join("\n")
}

/// The text with every sign escaped that Markdown or HTML would take for its own.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let text = sanitize(text);
    let mut before = ' ';
    for c in text.chars() {
        match c {
            // What stands behind a backslash would still end a cell of some tables.
            '|' => out.push_str("&#124;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '~' | '&' | '!' => out.extend(['\\', c]),
            // Many viewers make links of addresses.
            '/' if before == ':' => out.push_str("\\/"),
            _ => out.push(c),
        }
        before = c;
    }
    // A number or a sign at the start would begin a list.
    if let Some(rest) = out.strip_prefix(['-', '+']) {
        return format!("\\{}{rest}", out.chars().next().unwrap_or('-'));
    }
    match out.find(|c: char| !c.is_ascii_digit()) {
        Some(at) if at > 0 && out.get(at..).is_some_and(|rest| rest.starts_with(['.', ')'])) => {
            out.insert(at, '\\');
            out
        }
        _ => out,
    }
}
