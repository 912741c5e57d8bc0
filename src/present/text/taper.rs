//! `taper` as text.

use crate::present::table::{Column, Table};
use crate::present::{Markup, Role, Screen, wording};
use crate::questions::taper::{About, Answer, Check, Fit, Heavy, Kind, Row, WhyNot};

/// Shows the answer.
pub fn show(answer: &Answer, screen: Screen) -> Markup {
    let mut out = Markup::new();
    if let Some(why) = answer.why_not {
        out.wrapped(Role::Answer, &missing(answer, why), screen.width, 2);
        return out;
    }
    out.wrapped(Role::Answer, &title(answer), screen.width, 2);
    let weeks: Vec<String> = answer.against.iter().map(u32::to_string).collect();
    let noun = if weeks.len() == 1 { "week" } else { "the mean of weeks" };
    out.wrapped(Role::Plain, &format!("against {noun} {}", wording::all_of(&weeks)), screen.width, 2);
    if let Some(test) = &answer.test {
        let what = test.meet.as_ref().map_or("a test day".to_owned(), |meet| format!("the meet {meet}"));
        out.wrapped(Role::Plain, &format!("before {what} on {}", wording::day(test.date)), screen.width, 2);
    }
    out.gap();
    checks(&mut out, answer, screen);
    rows(&mut out, "family", answer.families.iter().chain(&answer.all), screen);
    out.gap();
    rows(&mut out, "lift", answer.lifts.iter().filter(|row| row.now.sets > 0.0), screen);
    if !answer.taken_out.is_empty() {
        out.gap();
        let words = format!("taken out: {}", answer.taken_out.join(", "));
        out.wrapped(Role::Plain, &words, screen.width, 2);
    }
    heavy(&mut out, answer, screen);
    if answer.checks.iter().any(|check| check.source.contains("common practice")) {
        out.gap();
        let words = "advice is what lifters and coaches do, and mostly no proof that it works best; the coach decides";
        out.wrapped(Role::Caution, words, screen.width, 0);
    }
    out
}

fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Peak => "a peak week",
        Kind::Deload => "a deload week",
        Kind::Unmarked => "not marked as peak or deload",
    }
}

/// `block 6 week 4, a peak week: volume -52 %`
fn title(answer: &Answer) -> String {
    let week = wording::block_week(answer.block.as_deref(), answer.week);
    let volume = answer.all.as_ref().and_then(|all| change(all.before.tonnage, all.now.tonnage));
    let cut = volume.map_or(String::new(), |cut| format!(": volume {cut}"));
    format!("{week}, {}{cut}", kind(answer.kind))
}

fn missing(answer: &Answer, why: WhyNot) -> String {
    let block = answer.block.as_deref().unwrap_or("");
    let week = answer.week.unwrap_or(0);
    match why {
        WhyNot::NoBlock => "No work inside a block yet, so there is no week to look at".into(),
        WhyNot::NoWeek => format!(
            "Block {block} has no peak or deload week with work; say `- peak: week 4` under its heading, or ask with \
             --week N"
        ),
        WhyNot::NoWork => format!("Block {block} week {week} has no training yet"),
        WhyNot::NothingBefore => format!("Block {block} has no loading week before week {week} to hold it against"),
    }
}

/// `-52 %`, from two numbers.
fn change(before: f64, now: f64) -> Option<String> {
    (before > 0.0).then(|| format!("{:+.0} %", (now / before - 1.0) * 100.0))
}

fn rows<'a>(out: &mut Markup, title: &'static str, rows: impl Iterator<Item = &'a Row>, screen: Screen) {
    let mut table = Table::new(vec![
        Column::left(title),
        Column::right("sets"),
        Column::right("now"),
        Column::right("sets %"),
        Column::right("reps %"),
        Column::right("tonnage %"),
        Column::right("avg load %").spare(2),
        Column::right("top load %"),
        Column::right("RPE").spare(1),
    ])
    .with_head(1);
    for row in rows {
        let (before, now) = (&row.before, &row.now);
        let percent = |before: Option<f64>, now: Option<f64>| {
            before.zip(now).and_then(|(before, now)| change(before, now)).unwrap_or_default()
        };
        let kilos = |mass: Option<crate::training::Mass>| mass.map(crate::training::Mass::in_kilograms);
        let effort =
            before.effort.zip(now.effort).map_or(String::new(), |(before, now)| format!("{:+.1}", now - before));
        table.row(vec![
            (Role::Answer, row.key.clone()),
            (Role::Plain, format!("{:.1}", before.sets)),
            (Role::Plain, format!("{:.0}", now.sets)),
            (Role::Plain, percent(Some(before.sets), Some(now.sets))),
            (Role::Plain, percent(Some(before.reps), Some(now.reps))),
            (Role::Plain, percent(Some(before.tonnage), Some(now.tonnage))),
            (Role::Plain, percent(before.average_load, now.average_load)),
            (Role::Plain, percent(kilos(before.top), kilos(now.top))),
            (Role::Plain, effort),
        ]);
    }
    out.append(table.lay_out(screen.width));
}

fn checks(out: &mut Markup, answer: &Answer, screen: Screen) {
    if answer.checks.is_empty() {
        return;
    }
    let mut sources: Vec<&str> = Vec::new();
    let mut table = Table::new(vec![
        Column::left(""),
        Column::left("what").wraps(1, 16),
        Column::right("here"),
        Column::left("usual"),
        Column::left("source"),
    ])
    .with_head(2);
    for check in &answer.checks {
        let (role, verdict) = match check.fit {
            None => (Role::Place, "unknown"),
            Some(Fit::Within) => (Role::Level, "as usual"),
            Some(Fit::Below) => (Role::Caution, below(&check.about)),
            Some(Fit::Above) => (Role::Caution, above(&check.about)),
        };
        let source = match sources.iter().position(|known| *known == check.source) {
            Some(at) => at,
            None => {
                sources.push(check.source);
                sources.len() - 1
            }
        };
        let (what, here, usual) = words(check);
        table.row(vec![
            (role, verdict.into()),
            (Role::Plain, what),
            (Role::Plain, here),
            (Role::Plain, usual),
            (Role::Place, format!("({})", source + 1)),
        ]);
    }
    out.append(table.lay_out(screen.width));
    for (at, source) in sources.iter().enumerate() {
        out.wrapped(Role::Place, &format!("({}) {source}", at + 1), screen.width, 4);
    }
    out.gap();
}

fn below(about: &About) -> &'static str {
    match about {
        About::Volume | About::Sets | About::Reps | About::DeadliftFirst | About::Accessories => "cut more",
        About::Intensity => "lighter",
        About::HeavyDays(_) => "later",
    }
}

fn above(about: &About) -> &'static str {
    match about {
        About::Volume | About::Sets | About::Reps | About::DeadliftFirst | About::Accessories => "cut less",
        About::Intensity => "heavier",
        About::HeavyDays(_) => "earlier",
    }
}

/// What advice is about, what was found, and what is usual.
fn words(check: &Check) -> (String, String, String) {
    let (low, high) = check.advised;
    let (what, unit) = match &check.about {
        About::Volume => ("volume".to_owned(), " %"),
        About::Intensity => ("top load, competition lifts".into(), " %"),
        About::Sets => ("sets a competition lift".into(), ""),
        About::Reps => ("reps a set of them".into(), ""),
        About::DeadliftFirst => ("deadlift sets, out first".into(), " %"),
        About::Accessories => ("sets each other lift".into(), ""),
        About::HeavyDays(lift) => (format!("last heavy {lift}"), " days"),
    };
    let number = |number: f64| match unit {
        " %" => format!("{number:+.0}"),
        "" => format!("{number:+.1}"),
        _ => format!("{number:.0}"),
    };
    let here = check.found.map_or("?".to_owned(), |found| format!("{}{unit}", number(found)));
    (what, here, format!("{} to {}{unit}", number(low), number(high)))
}

fn heavy(out: &mut Markup, answer: &Answer, screen: Screen) {
    if answer.test.is_none() || answer.heavy.is_empty() {
        return;
    }
    out.gap();
    let mut table = Table::new(vec![
        Column::left("last heavy"),
        Column::left("set"),
        Column::left("of max"),
        Column::left("before"),
        Column::left("where").spare(1),
    ])
    .with_head(2);
    for Heavy { lift, mark, percent, days } in &answer.heavy {
        table.row(vec![
            (Role::Answer, lift.clone()),
            (
                Role::Plain,
                mark.as_ref().map_or("none over 85 %".into(), |mark| {
                    wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort)
                }),
            ),
            (Role::Plain, percent.map_or(String::new(), |percent| format!("{percent:.0} %"))),
            (Role::Plain, days.map_or(String::new(), |days| wording::count(days.unsigned_abs(), "day"))),
            (Role::Place, mark.as_ref().map_or(String::new(), wording::mark_place)),
        ]);
    }
    out.append(table.lay_out(screen.width));
}
