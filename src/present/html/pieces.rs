//! Tables, verdicts and marks, as every section has them.

use crate::history::Mark;
use crate::present::Role;
use crate::present::wording;
use maud::{Markup, Render, html};

/// The style of a role.
pub(super) fn class(role: Role) -> &'static str {
    match role {
        Role::Plain | Role::Plot => "plain",
        Role::Answer => "answer",
        Role::Title => "title",
        Role::Ahead => "ahead",
        Role::Level => "level",
        Role::Behind | Role::Error => "behind",
        Role::Place => "soft",
        Role::Caution => "warn",
    }
}

/// A verdict: a sign, its word, its colour. The word says it all; the sign is for the eye.
pub(super) fn verdict(role: Role, word: &str) -> Markup {
    let sign = match role {
        Role::Ahead => "▲",
        Role::Level => "=",
        Role::Behind | Role::Error => "▼",
        Role::Caution => "◆",
        Role::Plain | Role::Answer | Role::Title | Role::Place | Role::Plot => "·",
    };
    signed(sign, class(role), word)
}

/// A word with a sign before it.
pub(super) fn signed(sign: &str, class: &str, word: &str) -> Markup {
    html! { span class={ "verdict " (class) } { span aria-hidden="true" { (sign) } " " (word) } }
}

/// A column: its title, and whether it holds numbers.
pub(super) struct Column {
    title: &'static str,
    number: bool,
}

/// A column of words.
pub(super) const fn words(title: &'static str) -> Column {
    Column { title, number: false }
}

/// A column of numbers, which stand below one another digit by digit.
pub(super) const fn number(title: &'static str) -> Column {
    Column { title, number: true }
}

/// A table. The first cell of each row is the row's heading.
pub(super) fn table(caption: &str, columns: &[Column], rows: &[Vec<Markup>]) -> Markup {
    let style = |at: usize| columns.get(at).filter(|column| column.number).map(|_| "number");
    html! {
        // What is wider than a phone is moved sideways, by the keyboard too.
        div.scroll role="region" tabindex="0" aria-label=(caption) {
            table {
                caption { (caption) }
                thead {
                    tr {
                        @for (at, column) in columns.iter().enumerate() {
                            th scope="col" class=[style(at)] {
                                @if column.title.is_empty() { span.unseen { "verdict" } } @else { (column.title) }
                            }
                        }
                    }
                }
                tbody {
                    @for row in rows {
                        tr {
                            @for (at, cell) in row.iter().enumerate() {
                                @if at == 0 {
                                    th scope="row" class=[style(at)] { (cell) }
                                } @else {
                                    td class=[style(at)] { (cell) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A cell of text.
pub(super) fn cell(text: impl Render) -> Markup {
    html! { (text) }
}

/// A second, softer line below the first.
pub(super) fn below(first: impl Render, second: impl Render) -> Markup {
    html! { (first) span.below { (second) } }
}

/// The numbers of a plot in a table that is folded away on a screen.
pub(super) fn numbers(summary: &str, table: Markup) -> Markup {
    html! { details { summary { (summary) } (table) } }
}

/// `3x8 @ 120 kg RPE 6`
pub(super) fn done(mark: &Mark) -> String {
    wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort)
}
