//! What a key is for: its row of the docs.

/// The reference of the notation, whose tables have a row for each key.
const DOCS: &str = include_str!("../../../docs/notation.md");

/// The line of the docs about a key of a page, without its marks of a table.
pub(crate) fn of_page(key: &str) -> Option<&'static str> {
    let wanted = format!("`{}:`", key.to_lowercase().replace("session rpe", "session RPE"));
    let rows = DOCS.lines().filter(|line| line.starts_with('|'));
    let mut cells = rows.filter_map(|row| {
        let (name, about) = row.trim_matches('|').split_once('|')?;
        name.contains(&wanted).then_some(about.trim())
    });
    cells.next()
}
