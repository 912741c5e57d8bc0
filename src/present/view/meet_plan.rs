//! The attempts of a meet to come, as text.

use super::{estimate, weight_class};
use crate::history::Mark;
use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::meet::{LiftPlan, Missing, Named, Plan};
use crate::training::{Load, Mass, Unit};

/// Shows the plan.
pub(super) fn show(meet: &Named, plan: &Plan) -> Doc {
    let mut out = Doc::new();
    let unit = plan.step.unit();
    out.wrapped(Role::Answer, format!("{}: {}", meet.title(), openers(plan)), 2);
    out.wrapped(Role::Plain, format!("{}, {}", wording::day(meet.date), how_far(meet.days_out)), 2);
    let chance = (plan.chance.0 * 100.0).round();
    let sum = match plan.expected_total {
        Some(total) => format!("expect a total of about {}", wording::estimated(total, unit)),
        None => "no total can be expected".to_owned(),
    };
    out.wrapped(Role::Plain, format!("{sum}; third attempts at {chance} %"), 2);
    out.line(Role::Place, meet.place.to_string());
    out.append(meet.weight_class.as_ref().map_or_else(Doc::new, weight_class::line));
    let known: Vec<&LiftPlan> = plan.lifts.iter().filter(|lift| lift.missing.is_none()).collect();
    if !known.is_empty() {
        out.gap();
        out.append(attempts(&known, unit));
        out.gap();
        out.append(grounds(&known, unit));
        out.gap();
        out.append(after_a_miss(&known, unit));
    }
    if plan.lifts.iter().any(|lift| !lift.planned.is_empty()) {
        out.gap();
        out.append(planned(&plan.lifts));
    }
    for lift in &plan.lifts {
        if let Some(missing) = lift.missing {
            out.gap();
            out.wrapped(Role::Caution, why_not(&lift.lift, missing), 2);
            if missing == Missing::Training {
                out.append(away(lift, unit));
            }
        }
    }
    out
}

/// `open with 240, 157.5 and 262.5 kg`
fn openers(plan: &Plan) -> String {
    let opener = |lift: &LiftPlan| {
        let load = lift.attempts.first()?.load;
        Some(format!("{} {}", lift.competed, mass(load, plan.step.unit())))
    };
    let openers: Vec<String> = plan.lifts.iter().filter_map(opener).collect();
    match openers.as_slice() {
        [] => "no attempts can be proposed".to_owned(),
        openers => format!("open with {}", wording::all_of(openers)),
    }
}

/// `in 3 weeks and 3 days`
fn how_far(days: i64) -> String {
    let days = days.unsigned_abs();
    match (days / 7, days % 7) {
        (0, 0) => "today".into(),
        (0, days) => format!("in {}", wording::count(days, "day")),
        (weeks, 0) => format!("in {}", wording::count(weeks, "week")),
        (weeks, days) => format!("in {} and {}", wording::count(weeks, "week"), wording::count(days, "day")),
    }
}

fn attempts(known: &[&LiftPlan], unit: Unit) -> Doc {
    let mut table = Table::new(vec![
        Column::left("lift"),
        Column::right("opener"),
        Column::right(""),
        Column::right("second"),
        Column::right(""),
        Column::right("third"),
        Column::right(""),
        Column::left("half between").spare(1),
    ])
    .with_head(1);
    for lift in known {
        let mut row = vec![(Role::Answer, lift.lift.clone())];
        for attempt in &lift.attempts {
            row.push((Role::Answer, mass(attempt.load, unit)));
            row.push((Role::Plain, percent(attempt.chance.0)));
        }
        if let Some(third) = lift.attempts.last() {
            row.push((Role::Place, format!("{} to {}", percent(third.chance_low.0), percent(third.chance_high.0))));
        }
        table.row(row);
    }
    Doc::of(table)
}

/// What the page plans itself, beside the program's own.
fn planned(lifts: &[LiftPlan]) -> Doc {
    let mut table = Table::new(vec![Column::left("planned on the page"), Column::left("").wraps(1, 16)]);
    for lift in lifts.iter().filter(|lift| !lift.planned.is_empty()) {
        let attempts = lift.planned.iter().map(|attempt| {
            let chance = attempt.chance.map_or(String::new(), |chance| format!(" {}", percent(chance.0)));
            wording::weighed(&attempt.load) + &chance
        });
        let attempts = attempts.collect::<Vec<String>>().join(", ");
        table.row(vec![(Role::Answer, lift.lift.clone()), (Role::Plain, attempts)]);
    }
    Doc::of(table)
}

/// A chance in whole percents, never called sure.
fn percent(chance: f64) -> String {
    match (chance * 100.0).round() {
        whole if whole >= 100.0 => ">99 %".into(),
        whole if whole < 1.0 => "<1 %".into(),
        whole => format!("{whole} %"),
    }
}

/// What the attempts rest on.
fn grounds(known: &[&LiftPlan], unit: Unit) -> Doc {
    let mut table = Table::new(vec![
        Column::left("rests on").wraps(2, 10),
        Column::left("one attempt that day").wraps(1, 18),
        Column::left("best done").wraps(1, 12),
        Column::left("for three or more").wraps(1, 12),
    ])
    .with_head(1);
    for lift in known {
        let done = |mark: &Mark| done(mark, unit);
        table.row(vec![
            (Role::Answer, lift.lift.clone()),
            (Role::Plain, lift.estimate.as_ref().map_or(String::new(), |estimate| wording::spread(estimate, unit))),
            (Role::Plain, lift.best.as_ref().map_or(String::new(), done)),
            (Role::Plain, lift.triple.as_ref().map_or_else(|| "none in 12 weeks".into(), done)),
        ]);
    }
    let mut out = Doc::of(table);
    for lift in known {
        if let Some(most) = lift.held_to {
            let words = format!(
                "{}: no attempt over {}, however far the estimate goes; a set of three or fewer with its RPE would bear more",
                lift.lift,
                mass(most, unit)
            );
            out.wrapped(Role::Caution, &words, 2);
        }
    }
    for lift in known.iter().filter(|lift| lift.stale) {
        let when = lift.last_rated.map_or(String::new(), wording::day);
        let words = format!("{}: no rated set since {when}, so the estimate is wide", lift.lift);
        out.wrapped(Role::Caution, &words, 2);
    }
    out
}

fn after_a_miss(known: &[&LiftPlan], unit: Unit) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Title, "after a missed opener the same again, then less than planned", 2);
    let mut table = Table::new(vec![Column::left("lift"), Column::right("second"), Column::right("third")]);
    for lift in known {
        let mut row = vec![(Role::Answer, lift.lift.clone())];
        row.extend(lift.after_missed_opener.iter().flatten().map(|load| (Role::Plain, mass(*load, unit))));
        table.row(row);
    }
    out.table(table);
    out.wrapped(Role::Place, "the bar never goes down; check the rule book", 2);
    out
}

fn why_not(lift: &str, missing: Missing) -> String {
    match missing {
        Missing::Work => format!(
            "{lift}: no attempts, the journal has no work on it; name the lift that you compete on under `meet lifts:` in \
             lifter.yaml"
        ),
        Missing::Effort => format!(
            "{lift}: no attempts, no clean set of it says how hard it was; write it behind the load, such as 3x3 @ 120 kg \
             RPE 8"
        ),
        Missing::Training => {
            format!("{lift}: no attempts, for after eight weeks without it and more an estimate is a guess")
        }
        Missing::Load => format!("{lift}: no attempts, three would begin below the bar with its collars, 25 kg"),
    }
}

/// What was done before a long time away.
fn away(lift: &LiftPlan, unit: Unit) -> Doc {
    let mut out = lift.away.as_ref().map_or_else(Doc::new, estimate::time_away);
    if let Some(best) = &lift.best {
        out.wrapped(Role::Plain, format!("best done: {}", done(best, unit)), 2);
    }
    out
}

/// `1 @ 200 kg on 2026-11-25`
fn done(mark: &Mark, unit: Unit) -> String {
    // Who lifts in pounds knows the number that stood in the journal.
    let load = match &mark.load.load {
        Load::Plain { unit: written, .. } if *written != unit => wording::weighed(&mark.load),
        _ => mark.load.kilograms.map_or(String::new(), |load| mass(load, unit)),
    };
    format!("{} @ {load} on {}", wording::amount(mark.amount, mark.per_side), mark.date)
}

fn mass(mass: Mass, unit: Unit) -> String {
    wording::mass(mass, unit)
}
