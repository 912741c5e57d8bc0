//! A session as a card for the telephone or for paper: nothing to fold, nothing to move sideways, no script.

use super::page::{head, is_made_by, lay_out};
use crate::present::doc::Role;
use crate::present::view::session as view;
use crate::questions::session::{Answer, LiftAhead};
use maud::{DOCTYPE, Markup, html};

/// How a card is known again.
const GENERATOR: &str = "loadline session";

const STYLE: &str = include_str!("card.css");

/// Lays the card out.
pub fn show(answer: &Answer, lifter: Option<&str>) -> String {
    let title = view::day(answer);
    let about = view::around(answer);
    let whole = lifter.map_or_else(|| title.clone(), |lifter| format!("{lifter}: {title}"));
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (head(GENERATOR, &whole, STYLE, false))
            body {
                header {
                    @if let Some(stop) = view::stop(answer) { p.warn { (stop) } }
                    h1 { (whole) }
                    @if let Some(block) = view::block(answer) { p { (block) } }
                    @if !about.is_empty() { p.warn { (about) } }
                }
                main { @for lift in &answer.lifts { (of_lift(lift)) } }
                footer {
                    @for hint in view::hints(&answer.lifts) { p { (hint) } }
                    p { (answer.caution) }
                }
            }
        }
    };
    lay_out(&page.into_string())
}

fn of_lift(lift: &LiftAhead) -> Markup {
    html! {
        section {
            h2 { (lift.lift) @if let Some(said) = view::beside(lift) { span { (said) } } }
            @if let Some(next) = &lift.next {
                p.next {
                    strong { (view::load_and_count(lift, next)) }
                    @if let Some(effort) = view::effort(next) { span { (effort) } }
                }
            }
            dl {
                @for row in view::rows(lift) {
                    @if !row.label.is_empty() { dt { (row.label) } }
                    @if row.role == Role::Caution { dd.warn { (row.text) } } @else { dd { (row.text) } }
                }
            }
        }
    }
}

/// Whether a file begins as a card of this program does.
pub fn is_card(bytes: &[u8]) -> bool {
    is_made_by(bytes, GENERATOR)
}
