//! To every other program a page is Markdown: the example's pages under a CommonMark library (pulldown-cmark)
//! have the headings that the program reads as blocks and sessions, and every work line in a list.

use crate::support::journal::example;
use loadline::notation::nodes::LineKind;
use loadline::notation::read;
use loadline::source::Page;
use pulldown_cmark::{Event, Parser, Tag, TagEnd};
use std::fs;

fn pages(folder: &std::path::Path, out: &mut Vec<std::path::PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            pages(&path, out);
        } else if path.extension().is_some_and(|end| end == "md") && path.file_name().unwrap() != "README.md" {
            out.push(path);
        }
    }
}

#[test]
fn headings_and_lists_are_those_of_commonmark() {
    let mut all = Vec::new();
    pages(&example(), &mut all);
    assert!(all.len() > 20);
    for path in all {
        let text = fs::read_to_string(&path).unwrap();
        let (mut headings, mut items, mut depth) = (0, 0, 0usize);
        for event in Parser::new(&text) {
            match event {
                Event::Start(Tag::Heading { .. }) => headings += 1,
                Event::Start(Tag::List(_)) => depth += 1,
                Event::End(TagEnd::List(_)) => depth -= 1,
                Event::Start(Tag::Item) if depth == 1 => items += 1,
                _ => {}
            }
        }
        let page = Page::new("a.md", text.clone().into_bytes()).unwrap();
        let lines = read(&page);
        let of = |wanted: fn(&LineKind<'_>) -> bool| lines.iter().filter(|line| wanted(&line.kind)).count();
        let ours = of(|kind| matches!(kind, LineKind::Block(_) | LineKind::Session(_) | LineKind::Heading { .. }));
        assert_eq!(ours, headings, "{}", path.display());
        let work = of(|kind| matches!(kind, LineKind::Work(_) | LineKind::BlockKey(..)));
        assert!(work <= items, "{}: {work} lines of work, {items} items", path.display());
    }
}
