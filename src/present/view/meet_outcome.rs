//! What came of a meet, as text.

use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::meet::{Formula, LiftOutcome, Named, NoPoints, NoTotal, Outcome, Taken};
use crate::training::{CompetitionLift, Equipment, Figure, Mass, Sex, shown_in};
use std::cmp::Ordering;

/// Shows the outcome.
pub(super) fn show(meet: &Named, outcome: &Outcome) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, format!("{}: {}", meet.title(), verdict(outcome)), 2);
    let own = outcome.bodyweight.map_or(String::new(), |own| {
        let stale = if own.date == meet.date { String::new() } else { format!(" as of {}", own.date) };
        format!(", at {}{stale}", own.mass.written())
    });
    let class = outcome.scored_as.map_or(String::new(), |(sex, equipment)| {
        let sex = match sex {
            Sex::Female => "women's",
            Sex::Male => "men's",
        };
        let kit = match (outcome.formula, equipment) {
            (Formula::Dots, _) => "",
            (Formula::IpfGl, Equipment::Classic) => " classic",
            (Formula::IpfGl, Equipment::Equipped) => " equipped",
        };
        format!(", by the {sex}{kit} formula")
    });
    out.wrapped(Role::Plain, format!("{}{own}{class}", wording::day(meet.date)), 2);
    if outcome.planned > 0 {
        let planned = wording::count(outcome.planned, "attempt");
        let words = format!("planned {planned}, took {}, {} as planned", outcome.taken, outcome.as_planned);
        out.wrapped(Role::Plain, &words, 2);
    }
    if let Some(why) = outcome.no_points.and_then(|why| no_points(why, outcome)) {
        out.wrapped(Role::Caution, &why, 2);
    }
    out.line(Role::Place, meet.place.to_string());
    if !outcome.lifts.is_empty() {
        out.gap();
        out.append(taken(outcome));
        if outcome.lifts.iter().any(|lift| lift.more_than_count) {
            let words = "of more than three attempts the first three count; check the rule book";
            out.wrapped(Role::Place, words, 2);
        }
        out.gap();
        out.append(held_against(outcome));
    }
    if !outcome.others.is_empty() {
        out.gap();
        out.append(others(outcome));
    }
    out
}

/// `720 kg, 8 of 9 attempts, 83.9 IPF GL points`
fn verdict(outcome: &Outcome) -> String {
    let lift = outcome.no_total_for.map_or("lift", CompetitionLift::word);
    let total = match outcome.no_total {
        None => format!("total {}", outcome.total.map_or(String::new(), Mass::written)),
        Some(NoTotal::NoAttempt) if outcome.others.is_empty() => return "nothing is written as done".into(),
        Some(NoTotal::NoAttempt) => "no attempt at a single, so no total".into(),
        Some(NoTotal::RepsOnly) => format!("no total, the {lift} was done for reps only"),
        Some(NoTotal::NoGoodAttempt) => format!("no total, no good attempt in the {lift}"),
        Some(NoTotal::NoMass) => format!("no total, the best {lift} is of no known mass"),
    };
    let made = match outcome.taken {
        0 => String::new(),
        taken => format!(", {} of {}", outcome.made, wording::count(taken, "attempt")),
    };
    let points =
        outcome.points.map_or(String::new(), |Figure(points)| format!(", {points:.2} {}", formula(outcome.formula)));
    format!("{total}{made}{points}")
}

fn formula(formula: Formula) -> &'static str {
    match formula {
        Formula::IpfGl => "IPF GL points",
        Formula::Dots => "DOTS",
    }
}

/// Why there are no points; nothing where there is no total either.
fn no_points(why: NoPoints, outcome: &Outcome) -> Option<String> {
    let formula = formula(outcome.formula);
    Some(match why {
        NoPoints::Total => return None,
        NoPoints::Bodyweight => {
            format!("no {formula}: no bodyweight is known; write `bodyweight: 83.1 kg` under the heading")
        }
        NoPoints::Sex => {
            format!("no {formula}: write `sex: female` or `sex: male` in the lifter's lifter.yaml")
        }
        NoPoints::Event => {
            format!("no {formula}: they are for all three lifts or the bench press alone; try --points dots")
        }
        NoPoints::TooLight => format!("no {formula}: they begin at a bodyweight of 35 kg"),
    })
}

fn taken(outcome: &Outcome) -> Doc {
    let mut table = Table::new(vec![
        Column::left("lift"),
        Column::left("attempts").wraps(1, 14),
        Column::right("best"),
        Column::left("planned").wraps(1, 14).spare(2),
        Column::left("where").spare(1),
    ])
    .with_head(1);
    for lift in &outcome.lifts {
        let planned: Vec<String> = lift.planned.iter().map(wording::weighed).collect();
        let attempts: Vec<String> = lift.attempts.iter().map(attempt).collect();
        let best = lift.best.map_or((Role::Behind, "none".to_owned()), |best| (Role::Ahead, best.written()));
        let place = lift.attempts.first().map_or(String::new(), |first| first.place.to_string());
        table.row(vec![
            (Role::Answer, lift.lift.clone()),
            (Role::Plain, attempts.join(", ")),
            best,
            (Role::Plain, planned.join(", ")),
            (Role::Place, place),
        ]);
    }
    Doc::of(table)
}

/// `245 kg`, `262.5 kg miss`, `115 kg !depth`
fn attempt(taken: &Taken) -> String {
    let load = wording::weighed(&taken.load);
    match (taken.good, taken.faults.as_slice()) {
        (true, _) => load,
        (false, []) => format!("{load} miss"),
        (false, faults) => format!("{load} {}", wording::faults(faults)),
    }
}

/// Against the meet before, and against what had been estimated.
fn held_against(outcome: &Outcome) -> Doc {
    let mut out = Doc::new();
    if outcome.before.is_none() && outcome.lifts.iter().all(|lift| lift.estimated.is_none()) {
        let words = "nothing to hold it against: no meet before it, and no estimate of the day before";
        out.wrapped(Role::Plain, words, 2);
        return out;
    }
    let title = match &outcome.before {
        Some(before) => format!("against {} of {} and the estimate of the day before", before.title, before.date),
        None => "against the estimate of the day before; no meet before it to be held against".to_owned(),
    };
    out.wrapped(Role::Title, &title, 2);
    let mut table = Table::new(vec![
        Column::left("lift"),
        Column::right("then"),
        Column::right("change"),
        Column::left("estimated"),
        Column::left("").wraps(1, 10),
    ])
    .with_head(1);
    for lift in &outcome.lifts {
        let (role, words) = foretold(lift);
        table.row(vec![
            (Role::Answer, lift.lift.clone()),
            (Role::Plain, lift.before.map_or(String::new(), Mass::written)),
            change(lift.change),
            (Role::Plain, lift.estimated.as_ref().map_or(String::new(), |known| wording::spread(known, shown_in()))),
            (role, words.into()),
        ]);
    }
    if let Some(before) = outcome.before.as_ref().filter(|before| before.total.is_some()) {
        table.row(vec![
            (Role::Answer, "total".into()),
            (Role::Plain, before.total.map_or(String::new(), Mass::written)),
            change(before.change),
            (Role::Plain, String::new()),
            (Role::Plain, String::new()),
        ]);
    }
    out.table(table);
    out
}

/// `+5 kg`, `-2.5 kg`, `level`
fn change(change: Option<Mass>) -> (Role, String) {
    match change.map(|change| (change, change.cmp(&Mass::ZERO))) {
        None => (Role::Plain, String::new()),
        Some((change, Ordering::Greater)) => (Role::Ahead, format!("+{}", change.written())),
        Some((_, Ordering::Equal)) => (Role::Level, "level".into()),
        Some((change, Ordering::Less)) => (Role::Behind, change.written()),
    }
}

/// How the best attempt lies to what had been estimated.
fn foretold(lift: &LiftOutcome) -> (Role, &'static str) {
    match (lift.best, &lift.estimated) {
        (_, None) => (Role::Place, "no estimate then"),
        (None, Some(_)) => (Role::Behind, "no good attempt"),
        (Some(best), Some(known)) if best > known.high => (Role::Ahead, "more than estimated"),
        (Some(best), Some(known)) if best < known.low => (Role::Behind, "less than estimated"),
        (Some(_), Some(_)) => (Role::Level, "as estimated"),
    }
}

/// What was done beside the attempts.
fn others(outcome: &Outcome) -> Doc {
    let mut table =
        Table::new(vec![Column::left("also done"), Column::left("").wraps(1, 14), Column::left("where").spare(1)])
            .with_head(2);
    for other in &outcome.others {
        let mark = &other.mark;
        let faults = if mark.faults.is_empty() { String::new() } else { format!(" {}", wording::faults(&mark.faults)) };
        let work = wording::mark(mark);
        table.row(vec![
            (Role::Answer, other.lift.clone()),
            (Role::Plain, format!("{work}{faults}")),
            (Role::Place, mark.place.to_string()),
        ]);
    }
    Doc::of(table)
}
