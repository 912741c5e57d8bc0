//! What a peak or deload week cuts.

use super::pieces::{cell, done, number, numbers, table, verdict as sign, words};
use super::places::Cited;
use crate::present::view::taper::{against, context, figure, missing, signed, tenth, title, usual, verdict, what};
use crate::present::wording;
use crate::questions::taper::{Answer, Check, Comparison, Heavy, Kind, Row};
use crate::training::Hundredths;
use maud::{Markup, html};

/// The week, how it lies to what is usual, the last heavy sets, then the changes.
pub(super) fn section(answer: &Answer, cited: &Cited) -> Markup {
    let comparison = match &answer.comparison {
        Ok(comparison) => comparison,
        Err(why) => return html! { p { (missing(answer, why)) } },
    };
    html! {
        p.lead { (title(answer, comparison)) }
        @for words in context(answer, comparison) { p { (words) } }
        @if !comparison.checks.is_empty() { (checks(answer.kind, &comparison.checks)) }
        @if answer.test.is_some() && !comparison.heavy.is_empty() { (heavy(&comparison.heavy, cited)) }
        @let caption = format!("Change in % from {}", against(comparison));
        (changes(&caption, "family", comparison.families.iter().chain([&comparison.all])))
        (numbers("The same by lift", changes(&format!("{caption}, by lift"), "lift", in_it(comparison))))
        @if !comparison.taken_out.is_empty() {
            p {
                @if answer.days_to_come > 0 && !answer.as_planned { "not in it yet: " } @else { "taken out: " }
                (comparison.taken_out.join(", "))
            }
        }
        p.caution { (comparison.caution.unwrap_or_default()) }
    }
}

fn in_it(comparison: &Comparison) -> impl Iterator<Item = &Row> {
    comparison.lifts.iter().filter(|row| row.now.sets.0 > 0.0)
}

fn checks(kind: Kind, checks: &[Check]) -> Markup {
    // A deload's band is no custom, and is not called one.
    let (caption, band) = match kind {
        Kind::Deload => ("Against this project's own band", "band"),
        _ => ("Against what is usual", "usual"),
    };
    let mut sources: Vec<&str> = Vec::new();
    let mut rows = Vec::new();
    for check in checks {
        let (role, word) = verdict(kind, check);
        let number = sources.iter().position(|known| *known == check.advice.source).unwrap_or_else(|| {
            sources.push(check.advice.source);
            sources.len() - 1
        });
        rows.push(vec![
            cell(what(check)),
            sign(role, word),
            html! {
                (check.found.map_or("?".into(), |found| figure(check.about, found.0)))
                @if check.is_planned { span.below { "as planned" } }
            },
            html! { (usual(check)) " " span.soft { "(" (number + 1) ")" } },
        ]);
    }
    html! {
        (table(caption, &[words("what"), words("verdict"), number("here"), words(band)], &rows))
        ol.sources { @for source in sources { li { (source) } } }
    }
}

fn heavy(heavy: &[Heavy], cited: &Cited) -> Markup {
    if heavy.iter().all(|heavy| heavy.mark.is_none()) {
        return html! {
            p { "No set of a competition lift was heavy, over 85 % of its estimated maximum, in the half year before." }
        };
    }
    let row = |Heavy { lift, mark, percent, days, .. }: &Heavy| {
        vec![
            cell(lift),
            html! {
                @match mark {
                    Some(mark) => { (done(mark)) span.below { (cited.place(&mark.place)) } },
                    None => "none over 85 %",
                }
            },
            cell(percent.map_or(String::new(), |percent| format!("~{:.0} %", percent.0))),
            cell(days.map_or(String::new(), |days| wording::count(days.unsigned_abs(), "day"))),
        ]
    };
    let columns = [words("lift"), words("last heavy set"), number("of max"), number("to test")];
    table("Last heavy sets before the test", &columns, &heavy.iter().map(row).collect::<Vec<_>>())
}

fn changes<'a>(caption: &str, title: &'static str, rows: impl Iterator<Item = &'a Row>) -> Markup {
    let row = |row: &Row| {
        let change = &row.change;
        let percent = |change: Option<Hundredths>| cell(change.map_or(String::new(), |change| signed(change.0, 0)));
        vec![
            cell(&row.name),
            html! {
                (tenth(row.before.sets.0)) " to " (tenth(row.now.sets.0))
                @if row.is_planned() { span.below { "with planned ones" } }
            },
            if row.before.sets.0 == 0.0 { cell("new") } else { percent(change.sets) },
            percent(change.reps),
            percent(change.tonnage),
            percent(change.average_load),
            percent(change.top_load),
            cell(change.effort.map_or(String::new(), |points| signed(points.0, 1))),
        ]
    };
    let columns = [
        words(title),
        words("sets a week"),
        number("sets %"),
        number("reps %"),
        number("tonnage %"),
        number("avg load %"),
        number("top load %"),
        number("RPE, points"),
    ];
    table(caption, &columns, &rows.map(row).collect::<Vec<_>>())
}
