//! `match` as text: one line a lift, the verdict first.

use crate::present::doc::{Column, Table, When};
use crate::present::{Doc, Role, wording};
use crate::questions::r#match::{Answer, Pair, Side, Verdict};
use crate::source::Place;
use crate::training::Amount;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let (Some(block), Some(week)) = (&answer.block, answer.week) else {
        out.line(Role::Answer, "No work inside a block yet, so there is no week to match");
        out.wrapped(
            Role::Plain,
            "A block is a heading `# Block 1` with a list under it that says `- starts: YYYY-MM-DD`.",
            0,
        );
        return out;
    };
    out.wrapped(Role::Answer, verdicts(answer), 2);
    out.wrapped(Role::Plain, title(answer, block, week), 2);
    if let Some(words) = why_no_verdict(answer, block, week) {
        out.wrapped(Role::Caution, &words, 2);
    }
    if answer.pairs.is_empty() {
        out.line(Role::Plain, "nothing was done in either week");
        return out;
    }
    out.gap();
    let (to_come, compared): (Vec<&Pair>, Vec<&Pair>) =
        answer.pairs.iter().partition(|pair| pair.verdict == Verdict::ToCome);
    let mut table = Table::new(vec![
        Column::verdict(),
        Column::left("lift").wraps(1, 12),
        Column::left("").wraps(1, 6).under(0),
        Column::left("now").wraps(2, 18),
        Column::left("then").wraps(2, 18),
        Column::left("day").spare(1).under(1),
        Column::left("where").spare(2).on_screens(),
        Column::left("").on_pages().under(3),
        Column::left("").on_pages().under(4),
    ])
    .with_head(3)
    .captioned("Each lift now and then")
    .paired();
    for pair in &compared {
        let place = |side: &'_ Option<Side>| side.as_ref().map(|side| side.place.clone());
        let (now, then) = (place(&pair.now), place(&pair.then));
        table.row(row(pair)).at(now.as_ref().or(then.as_ref())).at(&now).at(&then);
    }
    out.table(table);
    out.only(When::Hidden(6), pages(&compared));
    if !to_come.is_empty() {
        out.gap();
        out.append(still_to_come(&to_come));
    }
    out
}

/// `block 9 week 4 against block 8`
fn title(answer: &Answer, block: &str, week: u32) -> String {
    match &answer.against {
        Some(against) => format!("block {block} week {week} against block {against}"),
        None => format!("block {block} week {week}; no block before it"),
    }
}

/// Said where one of the two weeks is light and the other is not.
fn why_no_verdict(answer: &Answer, block: &str, week: u32) -> Option<String> {
    let which = if answer.light { block } else { answer.against.as_deref().unwrap_or(block) };
    let words =
        format!("week {week} of block {which} is a deload or peak week and the other is not, so no verdict is given");
    (answer.light != answer.against_light).then_some(words)
}

/// What was done then and has its day still to come this week.
fn still_to_come(pairs: &[&Pair]) -> Doc {
    let mut out = Doc::new();
    let mut table = Table::new(vec![
        Column::left("to come"),
        Column::left("then"),
        Column::left("day").spare(1).under(0),
        Column::left("where").spare(2).under(1),
    ])
    .with_head(1)
    .captioned("Still to come this week");
    for pair in pairs {
        let Some(then) = &pair.then else { continue };
        let day = pair.day.clone().unwrap_or_default();
        let cells = vec![(Role::Answer, pair.lift.clone()), (Role::Plain, done(then)), (Role::Place, day)];
        table.row(cells).at([&then.place]);
    }
    out.table(table);
    out.only(When::Hidden(3), pages(pairs));
    out
}

/// `2 ahead, 1 level, 1 behind`
pub(in crate::present) fn verdicts(answer: &Answer) -> String {
    let counted: Vec<String> = Verdict::ALL
        .into_iter()
        .map(|verdict| (verdict, answer.pairs.iter().filter(|pair| pair.verdict == verdict).count()))
        .filter(|(_, count)| *count > 0)
        .map(|(verdict, count)| format!("{count} {}", verdict.word()))
        .collect();
    if counted.is_empty() { "nothing to match".into() } else { counted.join(", ") }
}

/// The role of a verdict.
fn role(verdict: Verdict) -> Role {
    match verdict {
        Verdict::Ahead => Role::Ahead,
        Verdict::Behind | Verdict::Missing => Role::Behind,
        Verdict::Mixed | Verdict::Unknown => Role::Caution,
        Verdict::Level => Role::Level,
        Verdict::New | Verdict::ToCome => Role::Place,
    }
}

fn row(pair: &Pair) -> Vec<(Role, String)> {
    let role = role(pair.verdict);
    let then = pair.then.as_ref().map_or(String::new(), |side| match &pair.earlier {
        Some(block) => format!("{} (block {block})", done(side)),
        None => done(side),
    });
    vec![
        (role, pair.verdict.word().into()),
        (Role::Answer, pair.lift.clone()),
        (role, changes(pair)),
        (Role::Plain, pair.now.as_ref().map_or(String::new(), done)),
        (Role::Plain, then),
        (Role::Place, pair.day.clone().unwrap_or_default()),
    ]
}

/// What was done on a side.
fn done(side: &Side) -> String {
    let faults = if side.faults.is_empty() { String::new() } else { format!(" {}", wording::faults(&side.faults)) };
    match (&side.load, side.sets) {
        (Some(load), Some(sets)) => {
            let amount = side.amount.unwrap_or(Amount::Reps(0));
            format!("{}{faults}", wording::work(sets, amount, side.per_side, load, side.effort))
        }
        _ => format!("no clean set{faults}"),
    }
}

/// What went up and what went down: `+load -reps`.
fn changes(pair: &Pair) -> String {
    let up = pair.up.iter().map(|word| format!("+{word}"));
    let down = pair.down.iter().map(|word| format!("-{word}"));
    up.chain(down).collect::<Vec<_>>().join(" ")
}

/// The pages the answer rests on, with the lines in the order of the rows.
fn pages(pairs: &[&Pair]) -> Doc {
    let mut out = Doc::new();
    for (word, pick) in
        [("now: ", (|pair| pair.now.as_ref()) as fn(&Pair) -> Option<&Side>), ("then:", |pair| pair.then.as_ref())]
    {
        let places: Vec<&Place> = pairs.iter().copied().filter_map(pick).map(|side| &side.place).collect();
        if !places.is_empty() {
            out.places(format!("{word} "), places, 6, usize::MAX);
        }
    }
    out
}
