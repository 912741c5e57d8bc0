//! `estimate` as text.

use crate::analysis::strength::course::Answer as Course;
use crate::history::Mark;
use crate::present::doc::{Column, Table};
use crate::present::plot::{Glyphs, Line};
use crate::present::{Doc, Role, wording};
use crate::questions::estimate::{Answer, Cell, CurveKind, Estimate, Expected, Graded, Rpe, TimeAway};
use crate::training::{Figure, Mass, Unit};

/// So many of the days that graded the estimate are shown.
const GRADED: usize = 4;

/// Shows the answer; with the table of loads where `loads` says so.
pub fn show(answer: &Answer, loads: bool) -> Doc {
    let mut out = Doc::new();
    let unit = answer.unit;
    let Some(estimate) = &answer.estimate else {
        out.wrapped(Role::Answer, format!("{}: no estimate yet", answer.lift), 2);
        let words = match answer.unused.without_bodyweight {
            0 => {
                "An estimate needs a clean set with a load, reps, and how hard it was: RPE 5 to 10, RIR 0 to 5, AMRAP, \
                 or a miss after good reps. Write it behind the load: 3x5 @ 120 kg RPE 8"
            }
            _ => {
                "Your own weight is part of what is lifted here, and none is written on those days or in the 60 days \
                 before. Write it below the day's heading: - bodyweight: 80 kg"
            }
        };
        out.wrapped(Role::Plain, words, 2);
        unused(&mut out, answer);
        return out;
    };
    // Who asks about a set is told of it first.
    if let Some(expected) = &answer.expected {
        out.wrapped(Role::Answer, today(answer, expected), 2);
        out.gap();
    }
    let top = match answer.own_weight {
        Some(_) => format!("{}: {} added", answer.lift, wording::estimated(estimate.maximum, unit)),
        None => format!("{}: {}", answer.lift, wording::estimated(estimate.maximum, unit)),
    };
    out.wrapped(Role::Answer, format!("{top} estimated maximum, {}", between(estimate, unit)), 2);
    if let Some(own) = answer.own_weight {
        let words = format!("on top of the lifter's own {}", wording::brief_mass(own, unit));
        out.wrapped(Role::Plain, &words, 2);
    }
    out.wrapped(Role::Plain, rests_on(answer), 2);
    if let Some(away) = &answer.away {
        out.append(time_away(away));
    }
    let asked = answer.asked;
    if asked.is_none() && !loads {
        out.gap();
        grounds(&mut out, answer);
        blocks(&mut out, answer);
    }
    // Reps alone ask for the loads of each effort.
    if loads || asked.is_some_and(|about| about.load.is_none() && about.effort.is_none()) {
        table(&mut out, answer);
    }
    if asked.is_none() && !loads {
        out.append(graded(&answer.graded, unit));
        unused(&mut out, answer);
    }
    out.gap();
    out.wrapped(Role::Caution, answer.caution, 0);
    out
}

/// `on 2026-11-25, by Wathan's equation, fitted to 24 of your days`
fn rests_on(answer: &Answer) -> String {
    let days = answer.curve.days;
    let curve = match (answer.curve.kind, answer.curve.family) {
        (CurveKind::Published, _) => "; too few rated days yet to fit it well to you".to_owned(),
        (CurveKind::Fitted, None) => format!(", fitted to {days} of your days"),
        (CurveKind::Fitted, Some(family)) => format!(", fitted to {days} of your days of the family {family}"),
    };
    format!("on {}, by {}'s equation{curve}", answer.on, answer.equation)
}

/// `last trained 25 weeks ago, on Thu 4 Jun 2026: this is a guess`
pub(super) fn time_away(away: &TimeAway) -> Doc {
    let mut out = Doc::new();
    let when = format!("last trained {} weeks ago, on {}", away.weeks_away, wording::day(away.last_trained));
    if away.guess {
        let words = format!("{when}: this is a guess; build up again, and let the first sets tell");
        out.wrapped(Role::Caution, &words, 2);
    } else {
        out.wrapped(Role::Plain, &when, 2);
    }
    out
}

/// What had been said before days that showed strength, and how often the interval held.
fn graded(graded: &[Graded], unit: Unit) -> Doc {
    let mut out = Doc::new();
    if !graded.is_empty() {
        out.gap();
        out.table(came(graded, unit));
        let held = graded.iter().filter(|one| one.held).count();
        let number = u64::try_from(graded.len()).unwrap_or(u64::MAX);
        let words = if graded.len() > GRADED {
            format!("of {number} in two years {held} held, 80 % should; above the latest {GRADED}")
        } else {
            format!("of {} {held} held, in two years; 80 % should", wording::count(number, "such interval"))
        };
        out.wrapped(Role::Plain, &words, 2);
    }
    out
}

/// What had been said before the last days that showed strength, and what came, the latest first.
pub(super) fn came(graded: &[Graded], unit: Unit) -> Table {
    let mut table = Table::new(vec![
        Column::left("date"),
        Column::left("foretold"),
        Column::left("what came"),
        Column::left("interval").spare(1),
    ])
    .with_head(2);
    for one in graded.iter().rev().take(GRADED) {
        let what = match one.rpe {
            Some(effort) => format!("1x{} {effort}: ", one.reps),
            None => String::new(),
        };
        let foretold = format!(
            "{what}{} ({}-{})",
            wording::bare(one.expected, unit),
            wording::bare(one.low, unit),
            wording::bare(one.high, unit)
        );
        let load = |load: Option<Mass>, what: &str| load.map(|load| format!("{} {what}", wording::mass(load, unit)));
        let came: Vec<String> = [load(one.made, "made"), load(one.missed, "missed")].into_iter().flatten().collect();
        table.row(vec![
            (Role::Plain, wording::date(one.date)),
            (Role::Plain, foretold),
            (Role::Answer, came.join(", ")),
            (Role::Plain, if one.held { "held" } else { "failed" }.to_owned()),
        ]);
    }
    table
}

/// The estimate of today, and how it went over dates, drawn.
pub fn plot(answer: &Answer, course: Course, glyphs: Glyphs) -> Doc {
    let Some(estimate) = &answer.estimate else { return show(answer, false) };
    let mut out = Doc::new();
    let lift = glyphs.safe(&answer.lift);
    let added = if course.added { " added" } else { "" };
    let most = wording::estimated(estimate.maximum, answer.unit);
    let words = format!("{lift}: {most}{added} estimated maximum, {}", between(estimate, answer.unit));
    out.wrapped(Role::Answer, &words, 2);
    out.wrapped(Role::Plain, rests_on(answer), 2);
    if let Some(away) = &answer.away {
        out.append(time_away(away));
    }
    if course.points.is_empty() {
        out.wrapped(Role::Plain, "no day in that range has sets to estimate from", 2);
    } else {
        let first = course.points.first().map_or(answer.on, |point| point.date);
        out.picture(Line { course, ends: (first, answer.on), glyphs });
    }
    out.append(graded(&answer.graded, answer.unit));
    out
}

/// `80 % range 203 to 221 kg`
fn between(estimate: &Estimate, unit: Unit) -> String {
    format!("80 % range {} to {}", wording::bare(estimate.low, unit), wording::estimated(estimate.high, unit))
}

/// `Back squat 4 reps at RPE 8: 225 kg, bar + 3x25 kg + 20 kg/side`, `Back squat 5 reps with 200 kg: expect RPE 7.5`
fn today(answer: &Answer, expected: &Expected) -> String {
    let (lift, unit) = (&answer.lift, answer.unit);
    let added = |mass: String| match (answer.own_weight, mass.strip_prefix('-')) {
        (None, _) => mass,
        (Some(_), None) => format!("bw + {mass}"),
        (Some(_), Some(less)) => format!("bw - {less}"),
    };
    let load = added(wording::mass(expected.load, unit));
    let whole = |reps: u32| wording::count(reps, "rep");
    if let (None, Some(reps), Some(effort)) = (expected.about.load, expected.reps, expected.about.effort) {
        let load = added(wording::estimated(expected.load, unit));
        let on_the_bar = match (expected.loadable, &expected.plates) {
            (Some(loadable), Some(plates)) => {
                format!("{}, {}", wording::mass(loadable, unit), each_side(plates).unwrap_or_else(|| plates.clone()))
            }
            (Some(in_hand), None) => wording::in_pieces(in_hand, answer.pieces, unit),
            _ => load,
        };
        return format!("{lift} {} at {effort}: {on_the_bar}", whole(reps));
    }
    match (expected.about.reps, expected.rpe, expected.about.effort, expected.reps) {
        (Some(reps), Some(effort), ..) => {
            let effort = match effort {
                Rpe::Missed => "more than can be done".to_owned(),
                within => within.to_string(),
            };
            format!("{lift} {} with {load}: expect {effort}", whole(reps))
        }
        (_, _, Some(effort), Some(reps)) => format!("{lift} {load} at {effort}: expect {}", whole(reps)),
        _ => match expected.reps_to_failure {
            Some(Figure(reps)) => format!("{lift} {load}: expect {reps:.0} reps to failure"),
            None => format!("{lift} {load}: more than the maximum, or lighter than the equation reaches"),
        },
    }
}

/// `bar, each side 25 25 20` of `bar + 2x25 kg/side + 20 kg/side`; nothing where plates have other names.
fn each_side(plates: &str) -> Option<String> {
    let mut terms = plates.split(" + ");
    let bar = terms.next()?;
    let mut each: Vec<&str> = Vec::new();
    for term in terms {
        let plates = term.strip_suffix(" kg/side").or(term.strip_suffix(" lb/side"))?;
        match plates.split_once('x') {
            Some((number, plate)) => {
                each.extend(std::iter::repeat_n(plate, number.parse().ok().filter(|many| *many < 40)?))
            }
            None => each.push(plates),
        }
    }
    (!each.is_empty()).then(|| format!("{bar}, each side {}", each.join(" ")))
}

fn grounds(out: &mut Doc, answer: &Answer) {
    let mut table = Table::new(vec![
        Column::left("rests on"),
        Column::left("alone"),
        Column::left("").spare(3),
        Column::left("date"),
        Column::left("block").spare(2),
        Column::left("where").spare(1),
    ])
    .with_head(2);
    let place = |mark: &Mark| {
        [
            (Role::Plain, wording::date(mark.date)),
            (Role::Place, wording::block_week(mark.block.as_deref(), mark.week)),
            (Role::Place, mark.place.to_string()),
        ]
    };
    let sets = answer.evidence.iter().map(|ground| {
        let mark = &ground.mark;
        let weak = if ground.weak { "weak: over 10 reps" } else { "" };
        let range = format!(
            "{} ({}-{})",
            wording::estimated(ground.estimate.maximum, answer.unit),
            wording::bare(ground.estimate.low, answer.unit),
            wording::bare(ground.estimate.high, answer.unit),
        );
        let mut row = vec![
            (Role::Plain, wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort)),
            (Role::Plain, range),
            (Role::Caution, weak.into()),
        ];
        row.extend(place(mark));
        (mark.date, row)
    });
    let misses = answer.misses.iter().map(|missed| {
        let mark = &missed.mark;
        let below = wording::mass(missed.below, answer.unit);
        let bounds = match missed.made {
            Some(made) => format!("{} to {below}", bare(&wording::mass(made, answer.unit))),
            None => format!("below {below}"),
        };
        let mut row = vec![
            (Role::Plain, format!("{} miss", wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, None))),
            (Role::Plain, bounds),
            (Role::Caution, String::new()),
        ];
        row.extend(place(mark));
        (mark.date, row)
    });
    let mut rows: Vec<_> = sets.chain(misses).collect();
    rows.sort_by_key(|(date, _)| *date);
    for (_, row) in rows.into_iter().rev() {
        table.row(row);
    }
    out.table(table);
}

/// A mass without its unit.
fn bare(text: &str) -> &str {
    text.split(' ').next().unwrap_or(text)
}

fn blocks(out: &mut Doc, answer: &Answer) {
    if answer.blocks.len() < 2 {
        return;
    }
    out.gap();
    let mut table = Table::new(vec![
        Column::left("at the end of"),
        Column::right("estimate"),
        Column::left("80 % range").spare(1),
        Column::left("last day").spare(2),
    ]);
    for end in &answer.blocks {
        let range = format!(
            "{}-{}",
            wording::bare(end.estimate.low, answer.unit),
            wording::estimated(end.estimate.high, answer.unit)
        );
        table.row(vec![
            (Role::Answer, format!("block {}", end.block)),
            (Role::Plain, wording::estimated(end.estimate.maximum, answer.unit)),
            (Role::Plain, range),
            (Role::Place, wording::date(end.date)),
        ]);
    }
    out.table(table);
}

/// The titles of the columns of the table, a count of reps each; and which go first where there is no room for all.
const COUNTS: [(&str, u8); 12] = [
    ("1 rep", 0),
    ("2", 0),
    ("3", 0),
    ("4", 0),
    ("5", 0),
    ("6", 1),
    ("7", 3),
    ("8", 1),
    ("9", 3),
    ("10", 2),
    ("11", 3),
    ("12", 2),
];

/// Efforts down, reps across.
fn table(out: &mut Doc, answer: &Answer) {
    let loadable = answer.table.iter().any(|cell| cell.loadable.is_some());
    out.gap();
    let words = match answer.pieces {
        _ if !loadable => "loads",
        Some(_) => "loads of the sizes there are",
        None => "loads that your plates make",
    };
    let of = match answer.asked.and_then(|about| about.reps) {
        Some(reps) => format!(" for {}", wording::count(reps, "rep")),
        None => String::new(),
    };
    out.wrapped(Role::Plain, format!("{words}{of}, in {}:", answer.unit.word()), 2);
    let columns: Vec<Column> = match answer.asked {
        Some(_) => vec![Column::right("")],
        None => COUNTS.iter().map(|(title, order)| Column::right(title).spare(*order)).collect(),
    };
    let mut table = Table::new([Column::left("")].into_iter().chain(columns).collect());
    let mut cells: Vec<&Cell> = answer.table.iter().collect();
    cells.sort_by_key(|cell| cell.effort);
    for row in cells.chunk_by(|one, other| one.effort == other.effort) {
        let effort = row.first().map_or(String::new(), |cell| cell.effort.to_string());
        let loads = row.iter().map(|cell| (Role::Plain, load(cell, answer)));
        table.row([(Role::Answer, effort)].into_iter().chain(loads).collect());
    }
    out.table(table);
}

fn load(cell: &Cell, answer: &Answer) -> String {
    match (cell.loadable, cell.load) {
        (Some(mass), _) => bare(&wording::in_pieces(mass, answer.pieces, answer.unit)).to_owned(),
        (None, Some(mass)) => wording::bare(mass, answer.unit),
        (None, None) => "-".into(),
    }
}

/// Which sets are not used, and why.
fn unused(out: &mut Doc, answer: &Answer) {
    let unused = &answer.unused;
    let why = [
        (unused.without_effort, "without an effort"),
        (unused.too_light, "below RPE 5, where the scale names no reps in reserve"),
        (unused.too_many_reps, "with more reps to failure than the equation reaches"),
        (unused.without_mass - unused.without_bodyweight, "with a load without a weight"),
        (unused.without_bodyweight, "with a bodyweight that is not known"),
    ];
    if answer.by_what_was_made > 0 {
        let sets = wording::count(answer.by_what_was_made, "set");
        out.wrapped(Role::Place, format!("by what was made alone: {sets} without an RPE from 5 up"), 2);
    }
    let said: Vec<String> =
        why.iter().filter(|(sets, _)| *sets > 0).map(|(sets, why)| format!("{sets} {why}")).collect();
    if !said.is_empty() {
        let words = format!("sets not used: {}", said.join("; "));
        out.wrapped(Role::Place, &words, 2);
    }
}
