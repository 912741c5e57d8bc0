//! A doc as text for a screen.

use super::breaks::width;
use super::typeset::Typeset;
use super::{Doc, Part, Places, Role, Table, When};
use crate::present::places::by_page;
use crate::present::wording;

/// Lays the doc out for a screen of so many columns.
pub fn text(doc: &Doc, screen: usize) -> Typeset {
    let mut out = Typeset::new();
    let mut table: Option<&Table> = None;
    for part in &doc.parts {
        match part {
            Part::Line(pieces, None) => out.pieces(pieces.clone()),
            Part::Line(pieces, Some(breaks)) => out.broken(pieces, screen, *breaks),
            Part::Beside(words, places, indent) => {
                let named = wording::all_of(&by_page(places));
                if width(&words.1) + 2 + width(&named) <= screen {
                    out.pieces(vec![words.clone(), (Role::Plain, "  ".into()), (Role::Place, named)]);
                } else {
                    out.wrapped(words.0, &words.1, screen, *indent);
                    pages(&mut out, &by_page(places), &" ".repeat(*indent), screen, indent + 2);
                }
            }
            Part::Places(places) => pages(&mut out, &named(places), &places.lead, screen, places.indent),
            Part::Gap => out.gap(),
            Part::Table(next) => {
                out.append(next.lay_out(screen));
                table = Some(next);
            }
            Part::If(when, inner) => {
                let shows = |column: &usize| table.is_some_and(|table| table.shows(*column, screen));
                let holds = match when {
                    When::Shown(column) => shows(column),
                    When::Hidden(column) => table.is_some() && !shows(column),
                    When::Wide(least) => screen >= *least,
                    When::Narrow(least) => screen < *least,
                    When::OnPage => false,
                    When::OnScreen => true,
                };
                if holds {
                    out.append(text(inner, screen));
                }
            }
            Part::Folded(_, inner) => out.append(text(inner, screen)),
            Part::List(docs) | Part::Sheets(docs) => docs.iter().for_each(|doc| out.append(text(doc, screen))),
            Part::Pictures(pictures) => pictures.iter().for_each(|picture| out.append(picture.draw(screen))),
        }
    }
    out
}

/// `page.md:14, 20 and other.md:3`; a line a page where there is no room for all on one.
fn pages(out: &mut Typeset, named: &[String], lead: &str, screen: usize, indent: usize) {
    let all = format!("{lead}{}", wording::all_of(named));
    if width(&all) <= screen {
        return out.line(Role::Place, all);
    }
    named.iter().for_each(|page| out.wrapped(Role::Place, &format!("{lead}{page}"), screen, indent));
}

fn named(places: &Places) -> Vec<String> {
    let mut named = by_page(places.places.iter().take(places.most));
    let more = places.places.len().saturating_sub(places.most);
    if more > 0 {
        named.push(wording::count(u64::try_from(more).unwrap_or(u64::MAX), "more line"));
    }
    named
}
