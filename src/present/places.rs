//! Pages and lines that an answer rests on, gathered by page.

/// Each page once, with its lines in the order given: `page.md:14, 20`.
pub(crate) fn by_page<'a>(places: impl IntoIterator<Item = (&'a str, u32)>) -> Vec<String> {
    let mut pages: Vec<(&str, Vec<String>)> = Vec::new();
    for (page, line) in places {
        match pages.iter_mut().find(|(known, _)| *known == page) {
            Some((_, lines)) => lines.push(line.to_string()),
            None => pages.push((page, vec![line.to_string()])),
        }
    }
    pages.into_iter().map(|(page, lines)| format!("{page}:{}", lines.join(", "))).collect()
}

#[cfg(test)]
mod tests {
    use super::by_page;

    #[test]
    fn a_page_stands_once_with_all_its_lines() {
        assert_eq!(by_page([("a.md", 3), ("b.md", 1), ("a.md", 7)]), ["a.md:3, 7", "b.md:1"]);
    }
}
