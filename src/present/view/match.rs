//! `match` as text: one line a lift, the verdict first.

use crate::present::doc::{Column, Table, When};
use crate::present::{Doc, Role, wording};
use crate::questions::r#match::{Answer, BackOff, NoWeek, Pair, Side, Verdict, WeekKind, fullest};
use crate::training::Amount;

/// Shows the answer; the place of each lift where `places` says so.
pub fn show(answer: &Answer, places: bool) -> Doc {
    let mut out = head(answer);
    out.append(lifts(answer, places));
    out
}

/// For a page: what fell short, and all lifts and `weeks` folded away below `picture`.
pub(in crate::present) fn in_short(answer: &Answer, picture: Doc, weeks: Doc) -> Doc {
    // The verdicts stand at the top of the page.
    let mut out = if answer.pairs.is_empty() { head(answer) } else { about(answer) };
    let is_short = |pair: &&Pair| pair.now.is_some() && urgency(pair.verdict) < urgency(Verdict::Unknown);
    let short: Vec<&Pair> = answer.pairs.iter().filter(is_short).collect();
    if !short.is_empty() {
        out.append(side_by_side("What fell short", &short, false));
    }
    out.append(picture);
    let mut folded = lifts(answer, false);
    folded.append(weeks);
    if !answer.pairs.is_empty() {
        out.folded("Every lift, now and then, as tables", folded);
    }
    out
}

/// What is said before the lifts.
fn head(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    if let Some(why) = &answer.no_week {
        no_week(&mut out, why);
        return out;
    }
    out.wrapped(Role::Answer, verdicts(answer), 2);
    out.append(about(answer));
    if let Some((block, week)) = week_of(answer).filter(|_| answer.pairs.is_empty()) {
        out.line(Role::Plain, nothing_done(answer, block, week));
    }
    out
}

/// The block and the week that are laid beside another: there are, wherever the answer does not say why not.
fn week_of(answer: &Answer) -> Option<(&str, u32)> {
    let week = answer.block.as_deref().zip(answer.week);
    debug_assert!(week.is_some() || answer.no_week.is_some(), "an answer of no week that does not say why");
    week
}

/// Which weeks are compared, and what is to be known of that.
fn about(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let Some((block, week)) = week_of(answer) else { return out };
    out.wrapped(Role::Plain, title(answer, block, week), 2);
    if let Some(days) = answer.days_idle {
        out.wrapped(Role::Caution, format!("last work {}: this is not this week", wording::ago(days)), 2);
    }
    if let Some(words) = why_no_verdict(answer, block, week) {
        out.wrapped(Role::Caution, &words, 2);
    }
    out
}

/// Lift by lift: what has work this week, then what only that week had.
pub(super) fn lifts(answer: &Answer, places: bool) -> Doc {
    let mut out = Doc::new();
    let only_then = |verdict: Verdict| answer.pairs.iter().filter(move |pair| pair.verdict == verdict).collect();
    let mut compared: Vec<&Pair> = answer.pairs.iter().filter(|pair| pair.now.is_some()).collect();
    compared.sort_by_key(|pair| urgency(pair.verdict));
    if !compared.is_empty() {
        out.gap();
        out.append(side_by_side("Each lift now and then", &compared, places));
    }
    for (title, caption, pairs) in [
        ("missing", "Done then, and not this week", only_then(Verdict::Missing)),
        ("to come", "Still to come this week", only_then(Verdict::ToCome)),
    ] {
        let pairs: Vec<&Pair> = pairs;
        if !pairs.is_empty() {
            out.gap();
            // Of what is to come a screen has the next day whole; pages and --places have it all.
            let of_next = |pair: &&&Pair| pair.day == pairs.first().and_then(|pair| pair.day.clone());
            let next: Vec<&Pair> = pairs.iter().filter(of_next).copied().collect();
            let rest = pairs.len() - next.len();
            if places || rest == 0 || title == "missing" {
                out.append(of_then(title, caption, &pairs, places));
            } else {
                out.only(When::OnPage, of_then(title, caption, &pairs, places));
                let mut screen = of_then(title, caption, &next, places);
                let words = format!("and {} after that day; --places has them", wording::count(rest as u64, "lift"));
                screen.wrapped(Role::Place, words, 2);
                out.only(When::OnScreen, screen);
            }
        }
    }
    out
}

/// The section of one lifter among several: how many lifts are ahead and behind, and which are behind.
pub fn of_one(name: &str, answer: &Answer) -> Doc {
    if answer.no_week.is_some() {
        return Doc::titled(name, show(answer, false));
    }
    let mut out = Doc::section(name, verdicts(answer));
    out.append(about(answer));
    if let Some(words) = behind(answer) {
        out.wrapped(Role::Behind, format!("behind: {words}"), 2);
    }
    out
}

/// What is said once below the sections of several lifters.
pub fn once(whole: bool) -> Doc {
    let mut out = Doc::new();
    if !whole {
        out.wrapped(Role::Hint, "--lifter NAME lays each lift beside its last block, --places those of everybody", 2);
    }
    out
}

/// Says why there is nothing to lay side by side, and what to write.
fn no_week(out: &mut Doc, why: &NoWeek) {
    match why {
        NoWeek::NoBlock => {
            out.line(Role::Answer, "No block is written yet, so there is no week to match");
            out.wrapped(
                Role::Plain,
                "A block is a heading `# Block 1` with a list under it that says `- starts: YYYY-MM-DD`.",
                0,
            );
        }
        NoWeek::NoSession { block, starts, ends, outside } => {
            out.line(Role::Answer, format!("No session with work in block {block} yet, so there is no week to match"));
            let days = match ends {
                Some(ends) => format!("Block {block} is from {starts} to {ends}."),
                None => format!("Block {block} starts on {starts}."),
            };
            let outside = outside.map_or(String::new(), |date| {
                format!(" The last work, on {date}, lies in no block: is its date right, or the block's `starts:`?")
            });
            out.wrapped(Role::Plain, days + &outside, 0);
        }
    }
}

/// What fell short comes first, then what cannot be told, and what is well last.
fn urgency(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Behind | Verdict::Missing => 0,
        Verdict::Mixed => 1,
        Verdict::Unknown => 2,
        Verdict::Level => 3,
        Verdict::Ahead => 4,
        Verdict::New => 5,
        Verdict::ToCome => 6,
    }
}

/// The lifts that have work this week.
fn side_by_side(caption: &str, compared: &[&Pair], places: bool) -> Doc {
    let mut columns = vec![
        Column::verdict(),
        Column::left("").called("lift").wraps(1, 12).heading(),
        Column::left("").called("now").wraps(2, 18),
        Column::left("").called("change").wraps(1, 21),
        Column::left("then").wraps(2, 18).spare(3),
        Column::left("day").spare(1).under(1),
    ];
    if places {
        columns.push(Column::left("where").on_screens());
    }
    columns.extend([Column::left("").on_pages().under(2), Column::left("").on_pages().under(4)]);
    let mut table = Table::new(columns).with_head(2).captioned(caption).paired();
    for pair in compared {
        let place = |side: &'_ Option<Side>| side.as_ref().map(|side| side.place.clone());
        let (now, then) = (place(&pair.now), place(&pair.then));
        let row = table.row(row(pair));
        let row = if places { row.at(now.as_ref().or(then.as_ref())) } else { row };
        row.at(&now).at(&then);
    }
    Doc::of(table)
}

/// Said where neither week has work.
fn nothing_done(answer: &Answer, block: &str, week: u32) -> String {
    match &answer.against {
        Some(against) => format!("nothing was done in week {week} of block {block} nor of block {against}"),
        None => format!("nothing was done in week {week} of block {block}"),
    }
}

/// `block 9 week 4 against block 8`
pub(super) fn title(answer: &Answer, block: &str, week: u32) -> String {
    match &answer.against {
        Some(against) => format!("block {block} week {week} against block {against}"),
        None => format!("block {block} week {week}; no block before it"),
    }
}

/// Said where the two weeks are not for the same.
fn why_no_verdict(answer: &Answer, block: &str, week: u32) -> Option<String> {
    let against = answer.against.as_deref()?;
    let is_compared = answer.pairs.iter().any(|pair| pair.comparison.is_some() && pair.earlier.is_none());
    let [one, other] = [answer.kind, answer.against_kind].map(|kind| match kind {
        WeekKind::Loading => "loading week",
        WeekKind::Deload => "deload week",
        WeekKind::Peak => "peak week",
        WeekKind::Meet => "week with a meet",
    });
    let words = format!(
        "week {week} of block {block} is a {one} and that of block {against} a {other}, so no verdict is given"
    );
    (is_compared && one != other).then_some(words)
}

/// What was done then and is not now, or not yet.
fn of_then(title: &'static str, caption: &str, pairs: &[&Pair], places: bool) -> Doc {
    let place = Column::left("where").under(1);
    let mut table = Table::new(vec![
        Column::left(title),
        Column::left("then").wraps(2, 18),
        Column::left("day").spare(1).under(0),
        if places { place } else { place.on_pages() },
    ])
    .with_head(1)
    .captioned(caption);
    for pair in pairs {
        let Some(then) = &pair.then else { continue };
        let day = pair.day.clone().unwrap_or_default();
        let cells = vec![(Role::Answer, pair.lift.clone()), (Role::Plain, done(then)), (Role::Place, day)];
        table.row(cells).at([&then.place]);
    }
    Doc::of(table)
}

/// `2 ahead, 1 level, 1 behind`
pub(in crate::present) fn verdicts(answer: &Answer) -> String {
    let words = Verdict::ALL.into_iter().flat_map(|verdict| {
        let other = (verdict == Verdict::New).then_some(NO_MATCH);
        [verdict.word()].into_iter().chain(other)
    });
    let counted: Vec<String> = words
        .map(|verdict| (verdict, answer.pairs.iter().filter(|pair| word(pair) == verdict).count()))
        .filter(|(_, count)| *count > 0)
        .map(|(verdict, count)| format!("{count} {verdict}"))
        .collect();
    if counted.is_empty() { "nothing to match".into() } else { counted.join(", ") }
}

/// `Pause squat -5 kg, Barbell row -2.5 kg`: what fell short; nothing where nothing did.
pub(in crate::present) fn behind(answer: &Answer) -> Option<String> {
    let short = answer.pairs.iter().filter(|pair| pair.verdict == Verdict::Behind);
    let told: Vec<String> = short
        .map(|pair| {
            let change = changes(pair);
            format!("{} {}", pair.lift, change.split(", ").next().unwrap_or_default())
        })
        .collect();
    (!told.is_empty()).then(|| told.join(", "))
}

/// What is said of a session without a partner whose lift is an old one.
const NO_MATCH: &str = "no match";

/// The verdict in a word.
fn word(pair: &Pair) -> &'static str {
    if pair.verdict == Verdict::New && pair.is_known { NO_MATCH } else { pair.verdict.word() }
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
        (role, word(pair).into()),
        (Role::Answer, pair.lift.clone()),
        (Role::Plain, pair.now.as_ref().map_or(String::new(), done)),
        (role, changes(pair)),
        (Role::Plain, then),
        (Role::Place, pair.day.clone().unwrap_or_default()),
    ]
}

/// What was done on a side: the sets at the heaviest load, then the others, those with a fault last; at a meet in the
/// order done.
pub(super) fn done(side: &Side) -> String {
    let of = |sets: &BackOff| {
        let count = wording::set_by_set(&sets.each, sets.per_side);
        wording::work_of(count, &sets.load, sets.effort)
    };
    let mut parts = Vec::new();
    if let (Some(load), Some(_), false) = (&side.load, side.sets, side.is_at_meet) {
        let count = wording::set_by_set(&side.each, side.per_side);
        parts.push(wording::work_of(count, load, side.effort));
        parts.extend(side.back_offs.iter().map(of));
    }
    let also = side.also.iter();
    parts.extend(also.map(|(sets, faults)| format!("{} {}", of(sets), wording::faults(faults)).trim_end().to_owned()));
    parts.join(", ")
}

/// From how many percent on the work is worth a word beside what it is made of.
const MUCH: f64 = 10.0;

/// By how much what went up or down did so, what fell first: `-1 rep, work -30 %`.
fn changes(pair: &Pair) -> String {
    let (Some(now), Some(then)) = (&pair.now, &pair.then) else { return String::new() };
    let others = |words: &[&str]| words.iter().any(|word| *word != "work");
    let told = |words: &[&'static str]| -> Vec<String> {
        let far = pair.work_change.is_some_and(|change| change.0.abs() >= MUCH);
        let worth = |word: &&&str| **word != "work" || far || !others(words);
        words.iter().filter(worth).map(|word| change(word, pair, now, then)).collect()
    };
    told(&pair.down).into_iter().chain(told(&pair.up)).collect::<Vec<_>>().join(", ")
}

/// One change: `+2.5 kg`, `-2 reps`, `+1 set`, `work -30 %`, `RPE +0.5`.
fn change(word: &str, pair: &Pair, now: &Side, then: &Side) -> String {
    let sign = if pair.up.contains(&word) { '+' } else { '-' };
    let by = match word {
        "load" => load_change(now, then),
        "sets" => now.sets.zip(then.sets).map(|(now, then)| wording::count(now.abs_diff(then), "set")),
        "work" => pair.work_change.map(|change| format!("{:.0} %", change.0.abs())),
        "effort" => now.effort.zip(then.effort).map(|(now, then)| (now.value() - then.value()).abs().to_string()),
        "strength" => None,
        _ => one_set(now, then).or_else(|| fullest(now, then)).map(|(now, then)| match (now, then) {
            (Amount::Reps(now), Amount::Reps(then)) => wording::count(now.abs_diff(then), "rep"),
            (Amount::Seconds(now), Amount::Seconds(then)) => format!("{}s", now.abs_diff(then)),
            (Amount::Metres(now), Amount::Metres(then)) => {
                format!("{:.0}m", (now.rounded_metres() - then.rounded_metres()).abs())
            }
            _ => String::new(),
        }),
    };
    match (word, by) {
        ("strength", _) => if sign == '+' { "stronger" } else { "weaker" }.into(),
        ("work", Some(by)) => format!("work {sign}{by}"),
        ("effort", Some(by)) => format!("RPE {sign}{by}"),
        (_, Some(by)) if !by.is_empty() => format!("{sign}{by}"),
        _ => format!("{sign}{word}"),
    }
}

/// `222.5 to 230 kg`, `the same`, and for what has no mass what was done then and now.
pub(super) fn changes_in_load(pair: &Pair) -> String {
    let (Some(now), Some(then)) = (&pair.now, &pair.then) else { return String::new() };
    let text = |side: &Side| side.load.as_ref().and_then(|load| load.text_with_unit());
    match (text(then), text(now)) {
        (Some(then), Some(now)) if then != now => {
            let unit = [" kg", " lb"].into_iter().find(|unit| then.ends_with(unit) && now.ends_with(unit));
            format!("{} to {now}", unit.and_then(|unit| then.strip_suffix(unit)).unwrap_or(&then))
        }
        _ => one_set(now, then).or_else(|| fullest(now, then)).map_or("the same".into(), |(now, then)| {
            let amount = |of| wording::amount(of, false);
            if now == then { "the same".into() } else { format!("{} to {}", amount(then), amount(now)) }
        }),
    }
}

/// One set of each side, where all sets of a side are alike.
fn one_set(now: &Side, then: &Side) -> Option<(Amount, Amount)> {
    let alike = |side: &Side| side.each.iter().all(|set| Some(*set) == side.amount).then_some(side.amount).flatten();
    alike(now).zip(alike(then))
}

/// By how much two loads differ, where both are masses or have masses added to the lifter's own.
fn load_change(now: &Side, then: &Side) -> Option<String> {
    let (now, then) = (now.load.as_ref()?, then.load.as_ref()?);
    let was = then.text_with_unit()?;
    let (now, then) = match (now.added(), then.added()) {
        (Some(now), Some(then)) => (now, then),
        _ => (now.kilograms?, then.kilograms?),
    };
    let by = if now > then { now - then } else { then - now };
    Some(format!("{by}, was {was}"))
}
