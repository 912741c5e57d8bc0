//! `room` as text.

use super::estimate::time_away;
use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::room::{Answer, EffortAhead, Rpe, Target, WeekAhead, WhyNot};
use crate::training::Mass;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, verdict(answer), 2);
    if let Some(mark) = &answer.from {
        let work = wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort);
        let when = wording::block_week(mark.block.as_deref(), mark.week);
        out.wrapped(Role::Plain, format!("from {work} on {}, {when}", wording::day(mark.date)), 2);
        out.line(Role::Place, mark.place.to_string());
    }
    if let Some(away) = &answer.away {
        out.append(time_away(away));
    }
    if !answer.light_weeks.is_empty() {
        let weeks: Vec<String> = answer.light_weeks.iter().map(u32::to_string).collect();
        let verb =
            if weeks.len() == 1 { "is a deload or peak week and takes" } else { "are deload or peak weeks and take" };
        let words = format!("week {} {verb} no step", wording::all_of(&weeks));
        out.wrapped(Role::Plain, &words, 2);
    }
    if answer.largest_step.is_some() {
        out.gap();
        out.line(Role::Title, "with strength as it is");
        out.append(weeks(&answer.weeks, answer));
    }
    if let Some(trend) = &answer.with_trend {
        out.gap();
        let step = match trend.largest_step {
            Mass::ZERO => "no whole step".to_owned(),
            largest => step(largest, trend.step_every_weeks, answer),
        };
        let words = format!(
            "with your trend of {:+.1} % a week ({:+.1} to {:+.1}): {step}",
            trend.percent.0, trend.low.0, trend.high.0
        );
        out.wrapped(Role::Title, &words, 2);
        out.append(weeks(&trend.weeks, answer));
    }
    if !answer.targets.is_empty() {
        out.gap();
        out.append(targets(answer));
    }
    out.gap();
    out.wrapped(Role::Caution, answer.caution, 0);
    out
}

fn verdict(answer: &Answer) -> String {
    let lift = &answer.lift;
    let cap = answer.cap;
    if let (Some(largest), Some(exact)) = (answer.largest_step, answer.exact_step) {
        let last = answer.weeks.last().map_or(0, |week| week.week);
        let reps = answer.from.as_ref().map_or(String::new(), |mark| wording::amount(mark.amount, mark.per_side));
        return if largest > Mass::ZERO {
            let step = step(largest, answer.step_every_weeks.unwrap_or(1), answer);
            format!("{lift}: room for {step}, and sets of {reps} in week {last} stay at {cap} or under")
        } else if exact.is_negative() {
            format!(
                "{lift}: no step fits under {cap}; for week {last} to stay there the load would come down by {} a week",
                wording::in_pieces(-exact, answer.pieces, answer.unit)
            )
        } else {
            format!("{lift}: the same load fits under {cap} to week {last}, a whole step more does not")
        };
    }
    match answer.why_not {
        Some(WhyNot::NoMark) if answer.block.is_some() => format!(
            "{lift}: nothing of it is done in block {} yet, so there is no set to start from; `loadline session` says what to hang for the first one",
            answer.block.as_deref().unwrap_or_default()
        ),
        Some(WhyNot::NoMark) => format!("{lift}: no work on it yet, so there is nothing to start from"),
        Some(WhyNot::NoBlock) => format!("{lift}: its last work stands in no block, so no weeks are left to plan"),
        Some(WhyNot::NoEnd) => {
            format!("{lift}: the block has no end; write `- weeks: 4` under its heading")
        }
        Some(WhyNot::NoWeeksLeft) => format!("{lift}: no loading week is left in this block"),
        Some(WhyNot::NoEffort) | None => format!(
            "{lift}: no clean set with reps, a load and an effort to start from; write it behind the load, such as 3x5 @ 120 kg RPE 7"
        ),
    }
}

/// `+2.5 kg every second week`
fn step(mass: Mass, every: u32, answer: &Answer) -> String {
    let how_often = match every {
        1 => "a week",
        2 => "every second week",
        _ => "every third week",
    };
    format!("+{} {how_often}", wording::in_pieces(mass, answer.pieces, answer.unit))
}

fn weeks(weeks: &[WeekAhead], answer: &Answer) -> Doc {
    let mut table = Table::new(vec![
        Column::left("week"),
        Column::right("load"),
        Column::left("expect"),
        Column::left("80 % range"),
    ]);
    // What is added to the lifter's own weight is told from a load.
    let of_kind = |mass: String| match &answer.from {
        Some(mark) => wording::with_own(mass, &mark.load.load),
        None => mass,
    };
    for week in weeks {
        table.row(vec![
            (Role::Answer, format!("week {}", week.week)),
            (Role::Plain, of_kind(wording::in_pieces(week.load, answer.pieces, answer.unit))),
            (Role::Plain, week.effort.middle.to_string()),
            (Role::Place, spread(week.effort)),
        ]);
    }
    Doc::of(table)
}

fn spread(effort: EffortAhead) -> String {
    between(effort.low, effort.high)
}

/// `7.5 to 8.5`
pub(super) fn between(low: Rpe, high: Rpe) -> String {
    let end = |rpe: Rpe| match rpe {
        Rpe::Light => "under 5".to_owned(),
        Rpe::Of(effort) => effort.value().to_string(),
        Rpe::Missed => "over 10".to_owned(),
    };
    format!("{} to {}", end(low), end(high))
}

fn targets(answer: &Answer) -> Doc {
    let mut table = Table::new(vec![
        Column::left("to reach").wraps(1, 16),
        Column::left("in"),
        Column::left("takes"),
        Column::left("expect"),
        Column::left("80 % range").spare(2),
        Column::left("where").spare(1),
    ])
    .with_head(2);
    for target in &answer.targets {
        let mark = &target.mark;
        let done = wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort);
        table.row(vec![
            (Role::Plain, format!("{done}, {}", wording::block_week(mark.block.as_deref(), mark.week))),
            (Role::Answer, format!("week {}", target.week)),
            (Role::Plain, takes(target, answer)),
            (Role::Plain, target.effort.middle.to_string()),
            (Role::Place, spread(target.effort)),
            (Role::Place, mark.place.to_string()),
        ]);
    }
    Doc::of(table)
}

fn takes(target: &Target, answer: &Answer) -> String {
    match target.step {
        None => String::new(),
        Some(step) if step > Mass::ZERO => format!("+{} a week", wording::in_pieces(step, answer.pieces, answer.unit)),
        Some(step) if step.is_negative() => "no step at all".into(),
        Some(_) => "the same load".into(),
    }
}
