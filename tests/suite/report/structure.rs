//! What who reads with a keyboard, a screen reader or another program finds in the page.

use super::reports;
use scraper::{ElementRef, Html, Selector};
use std::collections::HashSet;

fn all<'a>(page: &'a Html, selector: &str) -> Vec<ElementRef<'a>> {
    page.select(&Selector::parse(selector).unwrap()).collect()
}

fn text(element: ElementRef<'_>) -> String {
    element.text().collect::<String>().trim().to_owned()
}

/// Does something with every report, read by a parser that finds no fault in it.
fn each(check: impl Fn(&str, &Html)) {
    for (name, source) in reports() {
        let source = source.split("--- stderr").next().unwrap();
        let page = Html::parse_document(source);
        assert!(source.starts_with("<!DOCTYPE html>"), "{name}: {source}");
        assert_eq!(page.errors, Vec::<String>::new(), "{name}");
        check(name, &page);
    }
}

#[test]
fn headings_follow_one_another() {
    each(|name, page| {
        assert_eq!(all(page, "html").first().and_then(|html| html.value().attr("lang")), Some("en"), "{name}");
        assert_eq!(all(page, "h1").len(), 1, "{name}");
        assert_eq!(all(page, "title").first().map(|title| text(*title)), all(page, "h1").first().map(|h1| text(*h1)));
        let mut last = 0;
        for heading in all(page, "h1, h2, h3, h4, h5, h6") {
            let level: u32 = heading.value().name()[1..].parse().unwrap();
            assert!(level <= last + 1, "{name}: h{level} after h{last}");
            assert!(!text(heading).is_empty(), "{name}: an empty heading");
            last = level;
        }
    });
}

#[test]
fn names_are_given_once_and_every_link_leads_somewhere() {
    each(|name, page| {
        let mut ids = HashSet::new();
        for element in all(page, "[id]") {
            let id = element.value().attr("id").unwrap();
            assert!(ids.insert(id), "{name}: {id} twice");
        }
        for link in all(page, "a") {
            let to = link.value().attr("href").unwrap();
            assert!(!text(link).is_empty(), "{name}: a link without text to {to}");
            match to.strip_prefix('#') {
                Some(id) => assert!(ids.contains(id), "{name}: nothing is called {id}"),
                None => assert!(to.ends_with(".md") && !to.contains(':'), "{name}: {to}"),
            }
        }
        for element in all(page, "[aria-labelledby]") {
            for id in element.value().attr("aria-labelledby").unwrap().split(' ') {
                assert!(ids.contains(id), "{name}: nothing is called {id}");
            }
        }
        assert_eq!(all(page, "body > a.skip[href='#answers']").len(), 1, "{name}");
        assert_eq!(all(page, "nav[aria-label] a").len(), all(page, "h2").len(), "{name}");
    });
}

#[test]
fn tables_have_captions_and_headings_with_their_scope() {
    each(|name, page| {
        for table in all(page, "table") {
            let caption = table.select(&Selector::parse("caption").unwrap()).next().map(text).unwrap_or_default();
            assert!(!caption.is_empty(), "{name}: a table without a caption");
            let columns = table.select(&Selector::parse("thead th[scope=col]").unwrap()).count();
            for column in table.select(&Selector::parse("thead th").unwrap()) {
                assert!(!text(column).is_empty(), "{name}, {caption}: a column without a title");
            }
            for row in table.select(&Selector::parse("tbody tr").unwrap()) {
                assert_eq!(row.child_elements().count(), columns, "{name}, {caption}: {}", text(row));
                let first = row.child_elements().next().unwrap();
                assert_eq!(
                    (first.value().name(), first.value().attr("scope")),
                    ("th", Some("row")),
                    "{name}, {caption}"
                );
            }
        }
        let without: Vec<String> = all(page, "th:not([scope])").into_iter().map(text).collect();
        assert!(without.is_empty(), "{name}: {without:?}");
    });
}

#[test]
fn plots_say_in_words_what_they_show_and_have_a_table_in_their_section() {
    let plots = std::cell::Cell::new(0);
    each(|name, page| {
        for svg in all(page, "svg") {
            assert_eq!(svg.value().attr("role"), Some("img"), "{name}");
            let said = |what: &str| svg.select(&Selector::parse(what).unwrap()).next().map(text).unwrap_or_default();
            assert!(!said("title").is_empty() && said("desc").ends_with('.'), "{name}: {}", said("title"));
            plots.set(plots.get() + 1);
        }
        for section in all(page, "section").into_iter().filter(|section| text(*section).contains("Work sets a week")) {
            assert!(section.select(&Selector::parse("details table").unwrap()).count() >= 2, "{name}");
        }
        for section in all(page, "section") {
            let svgs = section.select(&Selector::parse("svg").unwrap()).count();
            let tables = section.select(&Selector::parse("details table").unwrap()).count();
            assert!(svgs == 0 || tables > 0, "{name}: plots without a table");
        }
        for details in all(page, "details") {
            assert_eq!(details.child_elements().next().map(|first| first.value().name()), Some("summary"), "{name}");
        }
    });
    assert!(plots.get() >= 60, "{} plots", plots.get());
}

/// Nothing runs, nothing is fetched: by the elements and attributes there are, not by what a policy forbids.
#[test]
fn nothing_runs_and_nothing_is_fetched() {
    let known = "html head meta title style body a header h1 p nav ul li main section h2 h3 div dl dt dd span table caption \
                 thead tbody tr th td details summary strong code figure figcaption svg desc polygon polyline line rect \
                 circle text ol footer";
    let known: HashSet<&str> = known.split_whitespace().collect();
    each(|name, page| {
        for element in all(page, "*") {
            let element = element.value();
            assert!(known.contains(element.name()), "{name}: <{}>", element.name());
            for (key, value) in element.attrs() {
                assert!(!key.starts_with("on") && key != "style" && key != "src", "{name}: {key}={value}");
                assert!(!value.contains("://"), "{name}: {key}={value}");
            }
        }
        let style: String = all(page, "style").into_iter().map(text).collect();
        assert!(!style.contains("url(") && !style.contains("@import") && !style.contains("//"), "{name}");
        let policy = "meta[http-equiv='Content-Security-Policy'][content^=\"default-src 'none'; \"]";
        assert_eq!(all(page, policy).len(), 1, "{name}");
    });
}
