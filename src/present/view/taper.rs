//! `taper` as text.

use crate::present::doc::{Column, Table, When};
use crate::present::{Doc, Role, wording};
use crate::questions::taper::{
    About, Advice, Answer, Basis, Check, Comparison, Heavy, Kind, NotThatWeek, Row, Verdict, WhyNot,
};
use crate::training::Hundredths;

/// Shows the answer; the sums by family and by lift where `all` is asked for.
pub fn show(answer: &Answer, all: bool) -> Doc {
    let mut out = Doc::new();
    let comparison = match &answer.comparison {
        Ok(comparison) => comparison,
        Err(why) => {
            let (words, hint) = missing(answer.days_to_come, why);
            out.broken(vec![(Role::Answer, words), (Role::Hint, hint)], 2);
            return out;
        }
    };
    out.wrapped(Role::Answer, title(answer, comparison), 2);
    about(&mut out, answer, comparison);
    checks(&mut out, answer.kind, &comparison.checks);
    heavy(&mut out, answer, &comparison.heavy);
    if all {
        out.gap();
        out.only(When::Wide(LEAST_WITH_PLANS), changes(comparison, false));
        out.only(When::Narrow(LEAST_WITH_PLANS), changes(comparison, true));
    }
    let open = answer.days_to_come > 0 && !answer.as_planned;
    let said = if open { "not in it yet" } else { "taken out" };
    if !comparison.taken_out.is_empty() && all {
        out.gap();
        out.wrapped(Role::Plain, format!("{said}: {}", comparison.taken_out.join(", ")), 2);
    } else if !all {
        let out_of_it = match comparison.taken_out.len() as u64 {
            0 => String::new(),
            lifts => format!("{} {said}; ", wording::count(lifts, "lift")),
        };
        out.gap();
        out.wrapped(Role::Hint, format!("{out_of_it}--all shows every family and lift"), 2);
    }
    out.gap();
    out.wrapped(Role::Caution, comparison.caution.unwrap_or_default(), 0);
    out
}

/// On a screen narrower than this there is no room for a column about plans: then rows that rest on some are starred.
const LEAST_WITH_PLANS: usize = 64;

/// What the week cuts, by family and by lift.
fn changes(comparison: &Comparison, starred: bool) -> Doc {
    let mut out = Doc::new();
    let stars = if starred && comparison.all.is_planned() { "; * with planned sets" } else { "" };
    let against = against(comparison);
    let words = format!("change in % from {against}; avg, top: load; RPE in points{stars}");
    out.wrapped(Role::Place, words, 2);
    let caption = format!("Change in % from {against}");
    let families = comparison.families.iter().chain([&comparison.all]);
    out.table(rows("family", &caption, starred, families));
    out.gap();
    let lifts = comparison.lifts.iter().filter(|row| row.now.sets.0 > 0.0);
    out.folded("The same by lift", Doc::of(rows("lift", &format!("{caption}, by lift"), starred, lifts)));
    out
}

/// `block 6 week 4, peak week: volume -73 %, cut more than usual`
fn title(answer: &Answer, comparison: &Comparison) -> String {
    let week = wording::block_week(answer.block.as_deref(), answer.week);
    let kind = match answer.kind {
        Kind::Peak => "peak week",
        Kind::Deload => "deload week",
        Kind::Unmarked => "not marked as peak or deload",
    };
    let so_far = match (answer.as_planned, answer.days_to_come > 0) {
        (true, _) if comparison.all.now.planned_sets.0 > 0.0 => " as planned",
        (false, true) => " so far",
        _ => "",
    };
    let all = &comparison.all;
    if all.is_load_open() {
        let changes = [("sets", all.change.sets), ("reps", all.change.reps)];
        let changes = changes.iter().filter_map(|(what, by)| Some(format!("{what} {} %", signed(by.as_ref()?.0, 0))));
        let changes: Vec<String> = changes.collect();
        return format!("{week}, {kind}: {}{so_far}; volume not known, as a plan has no load", changes.join(", "));
    }
    let Some(volume) = all.change.tonnage else { return format!("{week}, {kind}") };
    let volume = format!("{week}, {kind}: volume {} %{so_far}", signed(volume.0, 0));
    let check = comparison.checks.iter().find(|check| check.about == About::Volume);
    let Some(check) = check else { return volume };
    let (within, than) = match (answer.kind, check.advice.basis) {
        (_, Basis::Settings) => ("as the settings say", "the settings say"),
        (Kind::Deload, _) => ("inside this project's own band", "this project's own band"),
        _ => ("as usual", "usual"),
    };
    match check.verdict {
        Verdict::Below => format!("{volume}, cut more than {than}"),
        Verdict::Within => format!("{volume}, {within}"),
        Verdict::Above => format!("{volume}, cut less than {than}"),
        Verdict::Open | Verdict::Unknown => volume,
    }
}

/// `week 3`, `the mean of weeks 1, 2 and 3`
fn against(comparison: &Comparison) -> String {
    let weeks: Vec<String> = comparison.against.iter().map(u32::to_string).collect();
    match weeks.as_slice() {
        [week] => format!("week {week}"),
        _ => format!("the mean of weeks {}", wording::all_of(&weeks)),
    }
}

/// What the week leads to, what of it is to come, and for whom.
fn about(out: &mut Doc, answer: &Answer, comparison: &Comparison) {
    let mut line = |words: String| out.wrapped(Role::Plain, words, 2);
    if let Some(test) = &answer.test {
        let what = test.meet.as_ref().map_or("a test day".to_owned(), |meet| format!("the meet {meet}"));
        line(format!("before {what} on {}", wording::day(test.date)));
    }
    let planned = comparison.all.now.planned_sets.0;
    if planned > 0.0 {
        let sets = wording::count(planned as u64, "set");
        line(format!("with {sets} planned and not done yet, counted as planned"));
    }
    if answer.days_to_come > 0 && !answer.as_planned {
        let days = wording::count(answer.days_to_come, "day");
        line(format!("with {days} of it to come: what may still change is open"));
    }
    if let Some(build) = &comparison.build {
        line(format!(
            "{} about {:.1} times bodyweight ({:.1} to {:.1})",
            build.lift, build.times_bodyweight.0, build.low.0, build.high.0
        ));
    }
}

/// Why there is nothing to show, and what to ask instead.
fn missing(days_to_come: u32, why: &WhyNot) -> (String, String) {
    let words = match why {
        WhyNot::NoBlock => "No work inside a block yet, so there is no week to look at".into(),
        WhyNot::NoWeek { block, last } => {
            let hint = last.as_ref().map_or(String::new(), |(block, week)| {
                format!("; the last one with work is block {block} week {week}: --block \"{block}\"")
            });
            let hint = hint + ". Write `- peak: week 4` under its heading, or ask for any week with --week N";
            return (format!("Block {block} has no peak or deload week"), hint);
        }
        WhyNot::Week { block, week, why: NotThatWeek::NoWork } if days_to_come > 0 => {
            format!("Block {block} week {week} has no training yet, and none is planned with sets")
        }
        WhyNot::Week { block, week, why: NotThatWeek::NoWork } => {
            format!("Block {block} week {week} has no training in it")
        }
        WhyNot::Week { block, week, why: NotThatWeek::NothingBefore } => {
            format!("Block {block} has no loading week with work before week {week} to hold it against")
        }
    };
    (words, String::new())
}

/// A number with its sign, so rounded; nothing has none.
fn signed(value: f64, decimals: usize) -> String {
    let text = format!("{value:+.decimals$}");
    if text.chars().any(|digit| ('1'..='9').contains(&digit)) { text } else { text.replace(['+', '-'], "") }
}

fn rows<'a>(title: &'static str, caption: &str, starred: bool, rows: impl Iterator<Item = &'a Row>) -> Table {
    let columns = vec![
        Column::left(title).wraps(1, 12),
        Column::left("sets a week").spare(1),
        Column::right("sets").called("sets %"),
        Column::right("reps").called("reps %"),
        Column::right("tonnage").called("tonnage %"),
        Column::right("avg").spare(2).called("avg load %"),
        Column::right("top").called("top load %"),
        Column::right("RPE").called("RPE, points"),
        Column::left("plan").spare(3).called("planned"),
    ];
    let mut table = Table::new(columns).with_head(1).captioned(caption);
    for row in rows {
        let change = &row.change;
        let percent =
            |change: Option<Hundredths>| (Role::Plain, change.map_or(String::new(), |change| signed(change.0, 0)));
        let new = row.before.sets.0 == 0.0;
        let sets = if new { (Role::Plain, "new".into()) } else { percent(change.sets) };
        let star = if starred && row.is_planned() { "*" } else { "" };
        table.row(vec![
            (Role::Answer, format!("{}{star}", row.name)),
            (Role::Place, format!("{} to {}", tenth(row.before.sets.0), tenth(row.now.sets.0))),
            sets,
            percent(change.reps),
            percent(change.tonnage),
            percent(change.average_load),
            percent(change.top_load),
            (Role::Plain, change.effort.map_or(String::new(), |points| signed(points.0, 1))),
            (Role::Place, if starred { String::new() } else { rests_on(row).into() }),
        ]);
    }
    table
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
fn tenth(sets: f64) -> String {
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
    let (caption, band) = match kind {
        Kind::Deload => ("Against this project's own band", "band"),
        _ => ("Against what is usual", "usual"),
    };
    let mut columns = vec![
        Column::verdict(),
        Column::left("what").wraps(1, 16),
        Column::right("here"),
        Column::left(band),
        Column::left("").called("source"),
    ];
    let any_planned = checks.iter().any(|check| check.is_planned);
    if any_planned {
        columns.push(Column::left("from"));
    }
    let mut table = Table::new(columns).with_head(2).captioned(caption);
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
    let sources: Vec<String> = sources.iter().zip(1..).map(|(source, at)| format!("({at}) {source}")).collect();
    out.wrapped(Role::Place, sources.join(". "), 2);
}

/// How a check came out.
fn verdict(kind: Kind, check: &Check) -> (Role, &'static str) {
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
fn what(check: &Check) -> String {
    match check.about {
        About::Volume => "volume (tonnage)".into(),
        About::Intensity => "top load, competition lifts".into(),
        About::Effort => "RPE, competition lifts".into(),
        About::Sets => "sets a session, competition lifts".into(),
        About::Reps => "reps a set, competition lifts".into(),
        About::DeadliftSets => "deadlift sets".into(),
        About::AccessorySets => "other lifts' sets".into(),
        About::LastSession => "last session".into(),
        About::LastHeavy => format!("last heavy {}", check.lift.as_deref().unwrap_or_default()),
    }
}

/// `-52 %`, `-1.0`, `9 days`
fn figure(about: About, value: f64) -> String {
    match about {
        About::Volume | About::Intensity | About::DeadliftSets => format!("{} %", signed(value, 0)),
        About::Effort | About::Sets | About::Reps | About::AccessorySets => signed(value, 1),
        About::LastSession | About::LastHeavy => format!("{value:.0} {}", if value == 1.0 { "day" } else { "days" }),
    }
}

/// `-60 to -41 %`, `7 to 10 days`, `-33 % or lower`
fn usual(check: &Check) -> String {
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
        Column::left("last heavy").called("lift"),
        Column::left("set").called("last heavy set"),
        Column::left("of max"),
        Column::left("to test"),
        Column::left("where").spare(1).under(1),
    ])
    .with_head(2)
    .captioned("Last heavy sets before the test");
    for Heavy { lift, mark, percent, days, is_planned, .. } in heavy {
        let set = mark.as_ref().map_or("none over 85 %".into(), |mark| {
            let planned = if *is_planned { "planned " } else { "" };
            format!("{planned}{}", wording::mark(mark))
        });
        let cells = vec![
            (Role::Answer, lift.clone()),
            (Role::Plain, set),
            (Role::Plain, percent.map_or(String::new(), |percent| format!("~{:.0} %", percent.0))),
            (Role::Plain, days.map_or(String::new(), |days| wording::count(days.unsigned_abs(), "day"))),
        ];
        table.row(cells).at(mark.as_ref().map(|mark| &mark.place));
    }
    out.table(table);
    let mut pages = Doc::new();
    pages.places("", heavy.iter().filter_map(|heavy| Some(&heavy.mark.as_ref()?.place)), 2, usize::MAX);
    out.only(When::Hidden(4), pages);
}
