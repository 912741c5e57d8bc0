//! A doc as text for a screen.

use super::breaks::width;
use super::typeset::Typeset;
use super::{Doc, Part, Role, Table};

/// Lays the doc out for a screen of so many columns.
pub fn text(doc: &Doc, screen: usize) -> Typeset {
    let mut out = Typeset::new();
    let mut table: Option<&Table> = None;
    for part in &doc.parts {
        match part {
            Part::Line(pieces, None) => out.pieces(pieces.clone()),
            Part::Line(pieces, Some(indent)) => out.broken(pieces, screen, *indent),
            Part::Beside(words, place, indent) => {
                if width(&words.1) + 2 + width(&place.1) <= screen {
                    out.pieces(vec![words.clone(), (Role::Plain, "  ".into()), place.clone()]);
                } else {
                    out.wrapped(words.0, &words.1, screen, *indent);
                    out.wrapped(place.0, &format!("{}{}", " ".repeat(*indent), place.1), screen, indent + 2);
                }
            }
            Part::Gap => out.gap(),
            Part::Table(next) => {
                out.append(next.lay_out(screen));
                table = Some(next);
            }
            Part::IfShown(column, inner) if table.is_some_and(|table| table.shows(*column, screen)) => {
                out.append(text(inner, screen));
            }
            Part::IfHidden(column, inner) if table.is_some_and(|table| !table.shows(*column, screen)) => {
                out.append(text(inner, screen));
            }
            Part::Wide(least, inner) if screen >= *least => out.append(text(inner, screen)),
            Part::Narrow(least, inner) if screen < *least => out.append(text(inner, screen)),
            Part::IfShown(..) | Part::IfHidden(..) | Part::Wide(..) | Part::Narrow(..) => {}
            Part::Picture(picture) => out.append(picture.draw(screen)),
        }
    }
    out
}
