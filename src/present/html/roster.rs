//! The report of a whole journal: one line a lifter, then the cautions of each.

use super::page::{Head, Section, page};
use super::places::{Pages, quoted};
use crate::present::doc::{Links, html as laid};
use crate::present::{view, wording};
use crate::questions::review;
use crate::questions::roster::{Answer, Line};
use chrono::NaiveDate;
use maud::html;

/// Lays the report out.
pub fn show(lifters: &[(Line, review::Answer)], on: NaiveDate, caution: &'static str, pages: &Pages<'_>) -> String {
    let links = Links::default();
    let head = Head { title: "The roster".into(), about: html! { p.when { "As of " (wording::day(on)) } }, caution };
    let lines = Answer { lifters: lifters.iter().map(|(line, _)| line.clone()).collect() };
    let cautions = view::review::of_each(lifters.iter().map(|(line, review)| (line.name.as_str(), review)));
    let sections = [("lifters", "Lifters", view::roster::show(&lines)), ("cautions", "Cautions", cautions)];
    let laid = |(id, title, doc)| Section { id, title, body: laid(&doc, 3, &links) };
    let mut sections: Vec<Section> = sections.into_iter().map(laid).collect();
    sections.push(quoted(&links, pages));
    page(&head, &sections)
}
