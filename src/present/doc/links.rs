//! What the links of a page lead to: lines of the journal that it names, and its plots. A browser cannot open a text file
//! at a line, so a figure's link leads to the line as it is quoted at the end of the page.

use crate::present::sanitize;
use crate::source::Place;
use maud::{Markup, html};
use std::cell::{Cell, RefCell};
use std::collections::BTreeSet;
use std::sync::Arc;

/// The lines that a page names, gathered while it is laid out, and how many plots it has.
#[derive(Default)]
pub struct Links {
    lines: RefCell<Vec<(Arc<str>, BTreeSet<u32>)>>,
    plots: Cell<usize>,
}

/// A page with its cited lines, each with the name that leads to it.
pub(crate) type CitedPage = (Arc<str>, Vec<(u32, String)>);

impl Links {
    /// A link to a line: `page.md:14`. The Tab key passes it by: hundreds of stops would hide the few that are wanted.
    pub(crate) fn place(&self, place: &Place) -> Markup {
        let id = self.cite(place);
        html! { a.place tabindex="-1" href={ "#" (id) } { (sanitize(&place.to_string())) } }
    }

    /// Links to several lines, each page's name once: `page.md:14, 20`.
    pub(crate) fn places<'p>(&self, places: impl IntoIterator<Item = &'p Place>) -> Markup {
        let mut last = None;
        html! {
            @for (at, place) in places.into_iter().enumerate() {
                @if at > 0 { ", " }
                @if last.replace(&place.page) == Some(&place.page) {
                    a.place tabindex="-1" href={ "#" (self.cite(place)) } aria-label=(sanitize(&place.to_string())) { (place.line) }
                } @else {
                    (self.place(place))
                }
            }
        }
    }

    fn cite(&self, Place { page, line }: &Place) -> String {
        let mut pages = self.lines.borrow_mut();
        let at = pages.iter().position(|(known, _)| known == page).unwrap_or_else(|| {
            pages.push((Arc::clone(page), BTreeSet::new()));
            pages.len() - 1
        });
        if let Some((_, lines)) = pages.get_mut(at) {
            lines.insert(*line);
        }
        name(at, *line)
    }

    /// Every page that is named, by the alphabet, with the numbers and the names in links of its lines.
    pub(crate) fn cited(&self) -> Vec<CitedPage> {
        let lines = self.lines.borrow();
        let page = |(at, (page, lines)): (usize, &(Arc<str>, BTreeSet<u32>))| {
            (Arc::clone(page), lines.iter().map(|line| (*line, name(at, *line))).collect())
        };
        let mut found: Vec<CitedPage> = lines.iter().enumerate().map(page).collect();
        found.sort();
        found
    }

    /// A name for a plot that no other has.
    pub(crate) fn plot(&self) -> String {
        self.plots.set(self.plots.get() + 1);
        format!("plot-{}", self.plots.get())
    }
}

fn name(page: usize, line: u32) -> String {
    format!("page-{}-line-{line}", page + 1)
}
