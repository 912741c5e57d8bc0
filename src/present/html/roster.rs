//! The report of a whole journal: one line a lifter, then the cautions of each.

use super::page::{Head, Section, page};
use super::places::{Pages, address, quoted};
use crate::present::doc::{Links, html as laid};
use crate::present::{view, wording};
use crate::questions::review;
use crate::questions::roster::{Answer, Line};
use chrono::NaiveDate;
use maud::html;
use std::collections::BTreeSet;

/// Lays the report out; with links to the lifters' own pages beside it, where there are any.
pub fn show(
    lifters: &[(Line, review::Answer)],
    on: NaiveDate,
    caution: &'static str,
    pages: &Pages<'_>,
    files: Option<&[String]>,
    watched: bool,
) -> String {
    let links = Links::default();
    let head =
        Head { title: "The roster".into(), about: html! { p.when { "As of " (wording::day(on)) } }, caution, watched };
    let lines = Answer { lifters: lifters.iter().map(|(line, _)| line.clone()).collect() };
    let cautions = view::review::of_each(lifters.iter().map(|(line, review)| (line.name.as_str(), review)));
    let sections = [
        ("lifters", "Lifters", view::roster::show(&lines, lines.lifters.len(), &BTreeSet::new())),
        ("cautions", "Cautions", cautions),
    ];
    let laid = |(id, title, doc)| Section { id, title, body: laid(&doc, 3, &links) };
    let mut sections: Vec<Section> = sections.into_iter().map(laid).collect();
    if let (Some(files), Some(first)) = (files, sections.first_mut()) {
        let table = std::mem::take(&mut first.body);
        first.body = html! {
            (table)
            ul.pages {
                @for ((line, _), file) in lifters.iter().zip(files) { li { a href=(address(file)) { (line.name) } } }
            }
        };
    }
    sections.push(quoted(&links, pages));
    page(&head, &sections)
}
