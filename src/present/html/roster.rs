//! The report of a whole journal: one line a lifter, then the cautions of each.

use super::cautions::list;
use super::page::{Head, Section, page};
use super::pieces::{below, cell, number, table, verdict, words};
use super::places::{Cited, Pages};
use super::{glance, lines};
use crate::present::{Role, wording};
use crate::questions::review;
use crate::questions::roster::Line;
use chrono::NaiveDate;
use maud::{Markup, html};

/// Lays the report out.
pub fn show(lifters: &[(Line, review::Answer)], on: NaiveDate, caution: &'static str, pages: &Pages<'_>) -> String {
    let cited = Cited::default();
    let head = Head { title: "The roster".into(), about: html! { p.when { "As of " (wording::day(on)) } }, caution };
    let section = |id, title, body| Section { id, title, body };
    let mut sections = vec![
        section("lifters", "Lifters", table_of(lifters)),
        section("cautions", "Cautions", cautions(lifters, &cited)),
    ];
    let quoted = lines::section(&cited, pages);
    sections.push(section("lines", "Lines of the journal", quoted));
    page(&head, &sections)
}

fn table_of(lifters: &[(Line, review::Answer)]) -> Markup {
    if lifters.is_empty() {
        return html! { p { "no lifter here yet" } };
    }
    let columns = [
        words("lifter"),
        number("days since"),
        number("done"),
        words("against last block"),
        number("overshoots"),
        number("cautions"),
        words("next"),
    ];
    let unread = lifters.iter().filter(|(line, _)| line.left_out > 0).count() as u64;
    html! {
        (table("How each lifter stands", &columns, &lifters.iter().map(|(line, _)| row(line)).collect::<Vec<_>>()))
        p.soft {
            "days since: since the last session; done: of this week's planned sets; against last block: lifts against the \
             same week of it; overshoots: efforts 1 point or more over their plan, or what the settings say"
        }
        @if unread > 0 { p.warn { (wording::count(unread, "lifter")) " with lines that count nowhere; see " code { "loadline check" } } }
    }
}

fn row(line: &Line) -> Vec<Markup> {
    vec![
        below(&line.name, wording::block_week(line.block.as_deref(), line.week)),
        cell(line.days_since.map_or("–".into(), |days| days.to_string())),
        cell(line.percent.map_or(String::new(), |percent| format!("{percent} %"))),
        html! {
            @for (role, count, word) in
                [(Role::Ahead, line.ahead, "ahead"), (Role::Level, line.level, "level"), (Role::Behind, line.behind, "behind")]
            {
                @if count > 0 { (verdict(role, &format!("{count} {word}"))) " " }
            }
        },
        cell(line.overshoots),
        cell(line.cautions.len()),
        cell(line.next_meet.as_ref().map_or(String::new(), glance::to_come)),
    ]
}

fn cautions(lifters: &[(Line, review::Answer)], cited: &Cited) -> Markup {
    let with: Vec<_> = lifters.iter().filter(|(_, review)| !review.cautions.is_empty()).collect();
    html! {
        p { "A caution is advice, and the coach decides." }
        @if with.is_empty() { p { "nothing to caution about" } }
        @for (line, review) in with {
            h3 { (line.name) }
            (list(&review.cautions, cited))
        }
    }
}
