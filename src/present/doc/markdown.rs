//! A doc as Markdown (CommonMark, with the tables that most viewers know), for editors.

use super::{Doc, Part, Piece, Role, Table};
use crate::present::sanitize;

/// The doc as Markdown.
pub fn markdown(doc: &Doc) -> String {
    let mut out = String::new();
    blocks(doc, &mut out);
    out
}

fn blocks(doc: &Doc, out: &mut String) {
    for part in &doc.parts {
        let block = match part {
            Part::Line(pieces, _) => line(pieces),
            Part::Beside(words, place, _) => format!("{} ({})", escaped(words.1.trim()), escaped(&place.1)),
            Part::Table(rows) => table(rows),
            Part::IfShown(_, inner) | Part::Wide(_, inner) => {
                blocks(inner, out);
                continue;
            }
            Part::Picture(picture) => {
                let drawn = picture.draw(72);
                let lines = drawn.lines().iter().map(|line| line.iter().map(|(_, text)| &**text).collect::<String>());
                let lines: Vec<String> = lines.map(|line| format!("    {}", sanitize(line.trim_end()))).collect();
                lines.join("\n")
            }
            Part::Gap | Part::IfHidden(..) | Part::Narrow(..) => continue,
        };
        if block.is_empty() {
            continue;
        }
        if !out.is_empty() {
            out.push('\n');
        }
        out.push_str(&block);
        out.push('\n');
    }
}

fn line(pieces: &[Piece]) -> String {
    let text: String = pieces.iter().map(|(_, text)| text.as_str()).collect();
    let text = escaped(text.trim());
    match pieces.first() {
        _ if text.is_empty() => text,
        Some((Role::Answer, _)) => format!("**{text}**"),
        Some((Role::Title, _)) => format!("### {text}"),
        Some((Role::Caution, _)) => format!("> {text}"),
        _ => text,
    }
}

fn table(table: &Table) -> String {
    let shown: Vec<usize> = (0..table.columns.len())
        .filter(|at| table.rows.iter().any(|row| row.get(*at).is_some_and(|(_, text)| !text.is_empty())))
        .collect();
    if shown.is_empty() {
        return String::new();
    }
    let row = |cell: &dyn Fn(usize) -> String| -> String {
        shown.iter().map(|at| format!("| {} ", cell(*at))).collect::<String>() + "|"
    };
    let column = |at: usize| table.columns.get(at);
    let mut lines = vec![
        row(&|at| column(at).map_or("", |column| column.title).to_owned()),
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
    for c in sanitize(text).chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|' | '~' | '&' | '!') {
            out.push('\\');
        }
        out.push(c);
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
