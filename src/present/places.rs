//! Pages and lines that an answer rests on, gathered by page.

use crate::source::Place;

/// Each page once, with its lines in the order given: `page.md:14, 20`.
pub(crate) fn by_page<'a>(places: impl IntoIterator<Item = &'a Place>) -> Vec<String> {
    let mut pages: Vec<(&str, Vec<String>)> = Vec::new();
    for Place { page, line } in places {
        match pages.iter_mut().find(|(known, _)| *known == &**page) {
            Some((_, lines)) => lines.push(line.to_string()),
            None => pages.push((page, vec![line.to_string()])),
        }
    }
    pages.into_iter().map(|(page, lines)| format!("{page}:{}", lines.join(", "))).collect()
}

#[cfg(test)]
mod tests {
    use super::{Place, by_page};

    #[test]
    fn a_page_stands_once_with_all_its_lines() {
        let places = [("a.md", 3), ("b.md", 1), ("a.md", 7)].map(|(page, line)| Place { page: page.into(), line });
        assert_eq!(by_page(&places), ["a.md:3, 7", "b.md:1"]);
    }
}
