//! `taper` as text.

use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::taper::{About, Advice, Answer, Basis, Check, Comparison, Heavy, Kind, Row, Verdict, WhyNot};
use crate::training::Hundredths;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let comparison = match &answer.comparison {
        Ok(comparison) => comparison,
        Err(why) => {
            out.wrapped(Role::Answer, &missing(answer, why), 2);
            return out;
        }
    };
    out.wrapped(Role::Answer, &title(answer, comparison), 2);
    about(&mut out, answer, comparison);
    checks(&mut out, answer.kind, &comparison.checks);
    heavy(&mut out, answer, &comparison.heavy);
    out.gap();
    let stars = if comparison.all.is_planned() { "; * with planned sets" } else { "" };
    let caption = format!("change in % from {}; avg, top: load; RPE in points{stars}", against(comparison));
    out.wrapped(Role::Place, &caption, 2);
    rows(&mut out, "family", comparison.families.iter().chain([&comparison.all]));
    out.gap();
    rows(&mut out, "lift", comparison.lifts.iter().filter(|row| row.now.sets.0 > 0.0));
    if !comparison.taken_out.is_empty() {
        out.gap();
        let open = answer.days_to_come > 0 && !answer.as_planned;
        let said = if open { "not in it yet" } else { "taken out" };
        let words = format!("{said}: {}", comparison.taken_out.join(", "));
        out.wrapped(Role::Plain, &words, 2);
    }
    out.gap();
    out.wrapped(Role::Caution, comparison.caution.unwrap_or_default(), 0);
    out
}

/// `block 6 week 4, a peak week: volume -73 %, cut more than is usual`
pub(in crate::present) fn title(answer: &Answer, comparison: &Comparison) -> String {
    let week = wording::block_week(answer.block.as_deref(), answer.week);
    let kind = match answer.kind {
        Kind::Peak => "a peak week",
        Kind::Deload => "a deload week",
        Kind::Unmarked => "not marked as peak or deload",
    };
    let Some(volume) = comparison.all.change.tonnage else { return format!("{week}, {kind}") };
    let so_far = match (answer.as_planned, answer.days_to_come > 0) {
        (true, _) if comparison.all.now.planned_sets.0 > 0.0 => " as planned",
        (false, true) => " so far",
        _ => "",
    };
    let volume = format!("{week}, {kind}: volume {} %{so_far}", signed(volume.0, 0));
    let check = comparison.checks.iter().find(|check| check.about == About::Volume);
    let Some(check) = check else { return volume };
    let (within, than) = match (answer.kind, check.advice.basis) {
        (_, Basis::Settings) => ("as the settings say", "the settings say"),
        (Kind::Deload, _) => ("inside this project's own band", "this project's own band"),
        _ => ("as is usual", "is usual"),
    };
    match check.verdict {
        Verdict::Below => format!("{volume}, cut more than {than}"),
        Verdict::Within => format!("{volume}, {within}"),
        Verdict::Above => format!("{volume}, cut less than {than}"),
        Verdict::Open | Verdict::Unknown => volume,
    }
}

/// `week 3`, `the mean of weeks 1, 2 and 3`
pub(in crate::present) fn against(comparison: &Comparison) -> String {
    let weeks: Vec<String> = comparison.against.iter().map(u32::to_string).collect();
    match weeks.as_slice() {
        [week] => format!("week {week}"),
        _ => format!("the mean of weeks {}", wording::all_of(&weeks)),
    }
}

/// What the week leads to, what of it is to come, and for whom.
fn about(out: &mut Doc, answer: &Answer, comparison: &Comparison) {
    context(answer, comparison).iter().for_each(|words| out.wrapped(Role::Plain, words, 2));
}

/// The same, a line each.
pub(in crate::present) fn context(answer: &Answer, comparison: &Comparison) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(test) = &answer.test {
        let what = test.meet.as_ref().map_or("a test day".to_owned(), |meet| format!("the meet {meet}"));
        lines.push(format!("before {what} on {}", wording::day(test.date)));
    }
    let planned = comparison.all.now.planned_sets.0;
    if planned > 0.0 {
        let sets = wording::count(planned as u64, "set");
        lines.push(format!("with {sets} planned and not done yet, counted as planned"));
    }
    if answer.days_to_come > 0 && !answer.as_planned {
        let days = wording::count(answer.days_to_come, "day");
        lines.push(format!("with {days} of it to come: what may still change is open"));
    }
    if let Some(build) = &comparison.build {
        lines.push(format!(
            "{} about {:.1} times bodyweight ({:.1} to {:.1})",
            build.lift, build.times_bodyweight.0, build.low.0, build.high.0
        ));
    }
    lines
}

/// Why there is nothing to show.
pub(in crate::present) fn missing(answer: &Answer, why: &WhyNot) -> String {
    let block = answer.block.as_deref().unwrap_or("");
    let week = answer.week.unwrap_or(0);
    match why {
        WhyNot::NoBlock => "No work inside a block yet, so there is no week to look at".into(),
        WhyNot::NoWeek { last } => {
            let last = last.as_ref().map_or(String::new(), |(block, week)| {
                format!("; the last one with work is block {block} week {week}: --block \"{block}\"")
            });
            format!(
                "Block {block} has no peak or deload week{last}. Write `- peak: week 4` under its heading, or ask for \
                 any week with --week N"
            )
        }
        WhyNot::NoSuchWeek(weeks) => {
            format!("Block {block} has no week {week}: it has {}", wording::count(*weeks, "week"))
        }
        WhyNot::NoWork if answer.days_to_come > 0 => {
            format!("Block {block} week {week} has no training yet, and none is planned with sets")
        }
        WhyNot::NoWork => format!("Block {block} week {week} has no training in it"),
        WhyNot::NothingBefore => {
            format!("Block {block} has no loading week with work before week {week} to hold it against")
        }
    }
}

/// A number with its sign, so rounded; nothing has none.
pub(in crate::present) fn signed(value: f64, decimals: usize) -> String {
    let text = format!("{value:+.decimals$}");
    if text.chars().any(|digit| ('1'..='9').contains(&digit)) { text } else { text.replace(['+', '-'], "") }
}

fn rows<'a>(out: &mut Doc, title: &'static str, rows: impl Iterator<Item = &'a Row>) {
    let rows: Vec<&Row> = rows.collect();
    let mut columns = vec![
        Column::left(title).wraps(1, 12),
        Column::left("sets a week").spare(1),
        Column::right("sets"),
        Column::right("reps"),
        Column::right("tonnage"),
        Column::right("avg").spare(2),
        Column::right("top"),
        Column::right("RPE"),
    ];
    columns.push(Column::left("plan").spare(3));
    let mut table = Table::new(columns).with_head(1);
    for row in rows {
        let change = &row.change;
        let percent =
            |change: Option<Hundredths>| (Role::Plain, change.map_or(String::new(), |change| signed(change.0, 0)));
        let new = row.before.sets.0 == 0.0;
        let sets = if new { (Role::Plain, "new".into()) } else { percent(change.sets) };
        let star = if row.is_planned() { "*" } else { "" };
        let mut cells = vec![
            (Role::Answer, format!("{}{star}", row.name)),
            (Role::Place, format!("{} to {}", tenth(row.before.sets.0), tenth(row.now.sets.0))),
            sets,
            percent(change.reps),
            percent(change.tonnage),
            percent(change.average_load),
            percent(change.top_load),
            (Role::Plain, change.effort.map_or(String::new(), |points| signed(points.0, 1))),
        ];
        cells.push((Role::Place, rests_on(row).into()));
        table.row(cells);
    }
    out.table(table);
}

/// How much of a row's sums rests on plans.
fn rests_on(row: &Row) -> &'static str {
    match row.now.planned_sets {
        _ if !row.is_planned() => "",
        planned if planned.0 > 0.0 && planned == row.now.sets => "all",
        _ => "part",
    }
}

/// A number of sets, with a tenth only where there is one.
pub(in crate::present) fn tenth(sets: f64) -> String {
    let text = format!("{sets:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

fn checks(out: &mut Doc, kind: Kind, checks: &[Check]) {
    if checks.is_empty() {
        return;
    }
    out.gap();
    let mut sources: Vec<&str> = Vec::new();
    // A deload's band is no custom, and is not called one.
    let band = if kind == Kind::Deload { "band" } else { "usual" };
    let mut columns = vec![
        Column::left(""),
        Column::left("what").wraps(1, 16),
        Column::right("here"),
        Column::left(band),
        Column::left("source"),
    ];
    let any_planned = checks.iter().any(|check| check.is_planned);
    if any_planned {
        columns.push(Column::left("from"));
    }
    let mut table = Table::new(columns).with_head(2);
    for check in checks {
        let (role, verdict) = verdict(kind, check);
        let number = sources.iter().position(|known| *known == check.advice.source).unwrap_or_else(|| {
            sources.push(check.advice.source);
            sources.len() - 1
        });
        let mut cells = vec![
            (role, verdict.into()),
            (Role::Plain, what(check)),
            (Role::Plain, check.found.map_or("?".into(), |found| figure(check.about, found.0))),
            (Role::Plain, usual(check)),
            (Role::Place, format!("({})", number + 1)),
        ];
        if any_planned {
            cells.push((Role::Place, if check.is_planned { "plan".into() } else { String::new() }));
        }
        table.row(cells);
    }
    out.table(table);
    for (at, source) in sources.iter().enumerate() {
        out.wrapped(Role::Place, &format!("({}) {source}", at + 1), 4);
    }
}

/// How a check came out.
pub(in crate::present) fn verdict(kind: Kind, check: &Check) -> (Role, &'static str) {
    let (below, above) = match check.about {
        About::Intensity => ("lighter", "heavier"),
        About::Effort => ("easier", "harder"),
        About::LastSession | About::LastHeavy => ("later", "earlier"),
        About::Volume | About::Sets | About::Reps | About::DeadliftSets | About::AccessorySets => {
            ("cut more", "cut less")
        }
    };
    match check.verdict {
        Verdict::Below => (Role::Caution, below),
        Verdict::Within if kind == Kind::Deload || check.advice.basis == Basis::Settings => (Role::Level, "in band"),
        Verdict::Within => (Role::Level, "as usual"),
        Verdict::Above => (Role::Caution, above),
        Verdict::Open | Verdict::Unknown => (Role::Place, check.verdict.word()),
    }
}

/// What is checked.
pub(in crate::present) fn what(check: &Check) -> String {
    match check.about {
        About::Volume => "volume (tonnage)".into(),
        About::Intensity => "top load, competition lifts".into(),
        About::Effort => "RPE, competition lifts".into(),
        About::Sets => "sets a session, competition lifts".into(),
        About::Reps => "reps a set, competition lifts".into(),
        About::DeadliftSets => "deadlift sets, out first".into(),
        About::AccessorySets => "sets a session, other lifts".into(),
        About::LastSession => "last session".into(),
        About::LastHeavy => format!("last heavy {}", check.lift.as_deref().unwrap_or_default()),
    }
}

/// `-52 %`, `-1.0`, `9 days`
pub(in crate::present) fn figure(about: About, value: f64) -> String {
    match about {
        About::Volume | About::Intensity | About::DeadliftSets => format!("{} %", signed(value, 0)),
        About::Effort | About::Sets | About::Reps | About::AccessorySets => signed(value, 1),
        About::LastSession | About::LastHeavy => format!("{value:.0} {}", if value == 1.0 { "day" } else { "days" }),
    }
}

/// `-60 to -41 %`, `7 to 10 days`, `-33 % or lower`
pub(in crate::present) fn usual(check: &Check) -> String {
    let Advice { low, high, .. } = check.advice;
    match check.about {
        About::Volume | About::Intensity => format!("{} to {} %", signed(low, 0), signed(high, 0)),
        About::DeadliftSets if high <= -99.5 => "all off".into(),
        About::DeadliftSets => format!("{} % or lower", signed(high, 0)),
        About::Effort | About::Sets | About::Reps | About::AccessorySets => {
            format!("{} to {}", signed(low, 1), signed(high, 1))
        }
        About::LastSession | About::LastHeavy => format!("{low:.0} to {high:.0} days"),
    }
}

fn heavy(out: &mut Doc, answer: &Answer, heavy: &[Heavy]) {
    if answer.test.is_none() || heavy.is_empty() {
        return;
    }
    out.gap();
    if heavy.iter().all(|heavy| heavy.mark.is_none()) {
        let words =
            "no set of a competition lift was heavy, over 85 % of its estimated maximum, in the half year before";
        return out.wrapped(Role::Plain, words, 2);
    }
    let mut table = Table::new(vec![
        Column::left("last heavy"),
        Column::left("set"),
        Column::left("of max"),
        Column::left("to test"),
        Column::left("where").spare(1),
    ])
    .with_head(2);
    for Heavy { lift, mark, percent, days, is_planned, .. } in heavy {
        let set = mark.as_ref().map_or("none over 85 %".into(), |mark| {
            let planned = if *is_planned { "planned " } else { "" };
            format!("{planned}{}", wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort))
        });
        table.row(vec![
            (Role::Answer, lift.clone()),
            (Role::Plain, set),
            (Role::Plain, percent.map_or(String::new(), |percent| format!("~{:.0} %", percent.0))),
            (Role::Plain, days.map_or(String::new(), |days| wording::count(days.unsigned_abs(), "day"))),
            (Role::Place, mark.as_ref().map_or(String::new(), |mark| mark.place.to_string())),
        ]);
    }
    out.table(table);
    let mut pages = Doc::new();
    heavy
        .iter()
        .filter_map(|heavy| heavy.mark.as_ref())
        .for_each(|mark| pages.wrapped(Role::Place, mark.place.to_string(), 2));
    out.if_hidden(4, pages);
}
