//! What only a report has: how estimated maxima went, which best sets are new, and the weeks' volume by family.

use super::{best, estimate};
use crate::analysis::strength::course;
use crate::present::doc::{Column, Table};
use crate::present::plot::{self, Columns, Glyphs, Line, Strip, Told};
use crate::present::{Doc, Role, wording};
use crate::questions::report::{Answer, Bands, LABELS, Record, Records, Week};
use crate::questions::volume::Row;
use crate::training::{Family, shown_in};
use chrono::NaiveDate;

/// How the estimated maxima of the main lifts went over dates: a plot a lift, with its numbers.
pub fn maxima(courses: &[course::Answer], ends: (NaiveDate, NaiveDate)) -> Doc {
    let mut out = Doc::new();
    if courses.is_empty() {
        let words = "No estimate yet: it needs clean sets of a main lift with a load, reps, and how hard they were.";
        out.wrapped(Role::Plain, words, 2);
        return out;
    }
    let line = |course: &course::Answer| Line { course: course.clone(), ends, glyphs: Glyphs::Blocks };
    let (shown, more) = courses.split_at(courses.len().min(MOST_DRAWN));
    out.pictures(shown.iter().map(line));
    let mut folded = Doc::new();
    folded.pictures(more.iter().map(line));
    let graded = courses.iter().filter(|course| !course.graded.is_empty());
    let came = graded.map(|course| {
        let caption = format!("Foretold and done, {}", course.lift);
        Doc::of(estimate::came(&course.graded, course.unit).captioned(caption))
    });
    folded.sheets(came.collect());
    folded.sheets(courses.iter().map(|course| Doc::of(dates(course))).collect());
    let lifts =
        if more.is_empty() { String::new() } else { format!("{}, ", wording::count(more.len() as u64, "more lift")) };
    out.folded(format!("{lifts}what was foretold and done, all as tables"), folded);
    out
}

/// More new best sets than these stand folded.
const MOST_NEW: u64 = 6;

/// More plots than these stand folded.
const MOST_DRAWN: usize = 3;

/// The numbers of a plot, the latest first.
fn dates(course: &course::Answer) -> Table {
    let numbers = ["estimate", "low", "high"].map(Column::right);
    let columns = [Column::left("date"), Column::left("block")].into_iter().chain(numbers).collect();
    let mut table = Table::new(columns).captioned(format!("Estimated maximum, {}", course.lift));
    for course::Point { date, block, estimate, .. } in course.points.iter().rev() {
        let mass = |mass| (Role::Plain, wording::estimated(mass, course.unit));
        table.row(vec![
            (Role::Plain, wording::date(*date)),
            (Role::Plain, block.clone().unwrap_or_default()),
            mass(estimate.maximum),
            mass(estimate.low),
            mass(estimate.high),
        ]);
    }
    table
}

/// The rep records of the main lifts: what is new in the block, when each was done, and a table a lift.
pub fn records(answer: &Answer) -> Doc {
    let lifts = &answer.records;
    let mut out = Doc::new();
    if lifts.is_empty() {
        out.wrapped(Role::Place, "No clean set of a main lift with reps yet.", 2);
        return out;
    }
    out.append(new_ones(lifts));
    let days = |lift: &Records| {
        let mut days: Vec<NaiveDate> = lift.records.iter().map(|record| record.mark.date).collect();
        days.sort_unstable();
        days.dedup();
        (lift.lift.clone(), days)
    };
    out.picture(Strip {
        title: "When they were done".into(),
        rows: lifts.iter().map(days).collect(),
        ends: answer.axis,
        blocks: answer.blocks.clone(),
        glyphs: Glyphs::Blocks,
    });
    let mut all = Doc::new();
    let words = "The heaviest clean set at each rep count, and what stood there when the block began.";
    all.wrapped(Role::Place, words, 2);
    let sheet = |lift: &Records| {
        let mut sheet = Doc::new();
        sheet.line(Role::Title, lift.lift.as_str());
        let mut table = Table::new(vec![
            Column::right("reps"),
            Column::left("load"),
            Column::left("est. max").under(1),
            Column::left("").under(1),
            Column::left("done"),
            Column::left("date").under(4),
            Column::verdict().called("new"),
            Column::left("before").under(6),
            Column::left("where").under(4),
        ])
        .captioned(format!("{}: best at each rep count", lift.lift));
        lift.records.iter().for_each(|record| {
            table.row(cells(record)).at([&record.mark.place]);
        });
        sheet.table(table);
        sheet
    };
    all.sheets(lifts.iter().map(sheet).collect());
    out.folded("All of them, lift by lift", all);
    out
}

/// Those of the block.
fn new_ones(lifts: &[Records]) -> Doc {
    let mut table = Table::new(vec![
        Column::left("lift").heading(),
        Column::left("new"),
        Column::left("before"),
        Column::left("where").under(1),
    ])
    .captioned("New in this block");
    let mut found = 0u64;
    for (lift, record) in lifts.iter().flat_map(|lift| lift.records.iter().map(move |record| (lift, record))) {
        if !record.new {
            continue;
        }
        found += 1;
        if found > MOST_NEW {
            continue;
        }
        let before = record.before.as_ref().map_or("the first".into(), wording::mark);
        table
            .row(vec![
                (Role::Answer, lift.lift.clone()),
                (Role::Ahead, wording::mark(&record.mark)),
                (Role::Plain, before),
            ])
            .at([&record.mark.place]);
    }
    let mut out = Doc::new();
    let words = match found {
        0 => "No new best set in this block".into(),
        found => format!("{} in this block", wording::count(found, "new best set")),
    };
    out.wrapped(Role::Answer, words, 2);
    out.table(table);
    if found > MOST_NEW {
        out.wrapped(Role::Place, format!("{} more are marked below, lift by lift.", found - MOST_NEW), 2);
    }
    out
}

fn cells(record: &Record) -> Vec<(Role, String)> {
    let mark = &record.mark;
    let reps =
        if record.from == record.to { record.to.to_string() } else { format!("{}–{}", record.from, record.to) };
    let worth = record.estimate.as_ref().map(|estimate| format!("est. max {}", best::max(mark, estimate)));
    let block = wording::block_week(mark.block.as_deref(), mark.week);
    let day = [wording::date(mark.date), block].into_iter().filter(|words| !words.is_empty());
    // The load stands beside it.
    let sets = wording::sets(mark.sets, mark.amount, mark.per_side);
    let (new, before) = match (record.new, &record.before) {
        (false, _) => ("", String::new()),
        (true, Some(before)) => ("new", format!("was {}", wording::mark(before))),
        (true, None) => ("new", "the first".into()),
    };
    vec![
        (Role::Answer, reps),
        (Role::Plain, wording::weighed(&mark.load)),
        (Role::Place, worth.unwrap_or_default()),
        (Role::Place, if record.standing { String::new() } else { "as much at more reps".into() }),
        (Role::Plain, mark.effort.map_or(sets.clone(), |effort| format!("{sets} {effort}"))),
        (Role::Place, day.collect::<Vec<_>>().join(", ")),
        (Role::Ahead, new.into()),
        (Role::Place, before),
    ]
}

/// Weekly volume: all lifts, attendance and how hard the sets were; then a plot a family, and all weeks in tables.
pub fn volume(answer: &Answer) -> Doc {
    let (weeks, high_reps) = (&answer.weeks, answer.since.reps);
    let mut out = Doc::new();
    if weeks.is_empty() {
        out.wrapped(Role::Plain, "No work inside a block yet.", 2);
        return out;
    }
    let done = |family: &Family| weeks.iter().any(|week| of(week, *family).is_some());
    let families: Vec<Family> = Family::ALL.into_iter().filter(done).collect();
    // One scale for all, so that they can be held against each other.
    let all = weeks.iter().flat_map(|week| week.families.iter().map(|(_, row)| row.sets));
    let top = f64::from(all.max().unwrap_or(0));
    let drawn = |title: &str, columns, unit, top, told| Columns {
        title: title.to_owned(),
        columns,
        unit,
        top,
        told,
        glyphs: Glyphs::Blocks,
    };
    let of_all = weeks.iter().map(|week| column(week, Some(&week.all))).collect();
    let attended = weeks.iter().map(attendance).collect();
    let mut sheets = vec![
        drawn("work sets, all lifts", of_all, "sets", 0.0, Told::HighReps(high_reps)),
        drawn("sessions", attended, "sessions", 0.0, Told::Done),
    ];
    if !answer.bands.is_empty() {
        let bands = answer.bands.iter().flat_map(by_effort).collect();
        sheets.push(drawn("sets by RPE", bands, "sets", 0.0, Told::Bands));
    }
    out.pictures(sheets);
    let mut by_families = Doc::new();
    by_families.pictures(families.iter().map(|family| {
        let columns = weeks.iter().map(|week| column(week, of(week, *family))).collect();
        drawn(family.word(), columns, "sets", top, Told::HighReps(high_reps))
    }));
    by_families.table(band_table(&answer.bands));
    by_families.table(by_family(weeks, &families));
    by_families.table(sums(weeks));
    out.folded("By family, and all as tables", by_families);
    out
}

fn of(week: &Week, family: Family) -> Option<&Row> {
    week.families.iter().find(|(known, _)| *known == family).map(|(_, row)| row)
}

fn star(week: &Week) -> &'static str {
    if week.light { "*" } else { "" }
}

/// `block 9 week 4`, with a star where it is light.
fn name(week: &Week) -> (Role, String) {
    let name = wording::block_week(week.all.block.as_deref(), week.all.week);
    (Role::Answer, format!("{name} {}", star(week)).trim_end().to_owned())
}

fn column(week: &Week, row: Option<&Row>) -> plot::Column {
    plot::Column {
        so_far: week.so_far,
        label: format!("{}{}", week.all.week.unwrap_or(0), star(week)),
        group: week.all.block.clone().unwrap_or_default(),
        whole: row.map_or(0.0, |row| f64::from(row.sets)),
        part: row.map_or(0.0, |row| f64::from(row.high_rep_sets)),
    }
}

/// The sessions of a week, and how many of them were done.
fn attendance(week: &Week) -> plot::Column {
    let done = week.all.sessions;
    plot::Column { whole: f64::from(week.sessions.max(done)), part: f64::from(done), ..column(week, None) }
}

/// The sets of a block by how hard they were.
fn by_effort(bands: &Bands) -> impl Iterator<Item = plot::Column> + '_ {
    LABELS.iter().zip(bands.sets).map(|(label, sets)| plot::Column {
        group: bands.block.clone(),
        label: (*label).to_owned(),
        whole: f64::from(sets),
        part: 0.0,
        so_far: false,
    })
}

fn band_table(blocks: &[Bands]) -> Table {
    let columns = LABELS.iter().map(|label| Column::right(label)).chain([Column::right("no RPE")]);
    let columns = std::iter::once(Column::left("block").heading()).chain(columns).collect();
    let mut table = Table::new(columns).captioned("Work sets by RPE, from each number up to the next");
    for bands in blocks {
        let numbers = bands.sets.iter().chain([&bands.unrated]).map(|sets| (Role::Plain, sets.to_string()));
        table.row(std::iter::once((Role::Answer, bands.block.clone())).chain(numbers).collect());
    }
    table
}

/// Of each family the sets, and in brackets the high-rep ones.
fn by_family(weeks: &[Week], families: &[Family]) -> Table {
    let columns =
        std::iter::once(Column::left("week")).chain(families.iter().map(|family| Column::right(family.word())));
    let caption = "Work sets a week by family, and how many of them were high-rep";
    let mut table = Table::new(columns.collect()).captioned(caption);
    for week in weeks {
        let sets = |family: &Family| match of(week, *family) {
            Some(row) if row.high_rep_sets > 0 => format!("{} ({})", row.sets, row.high_rep_sets),
            Some(row) => row.sets.to_string(),
            None => "0".into(),
        };
        let cells = families.iter().map(|family| (Role::Plain, sets(family)));
        table.row(std::iter::once(name(week)).chain(cells).collect());
    }
    table
}

fn sums(weeks: &[Week]) -> Table {
    let numbers =
        ["sessions", "sets", "high-rep", "RPE 6+", "reps", wording::in_unit("tonnage kg", "tonnage lb"), "avg RPE"]
            .map(Column::right);
    let columns = std::iter::once(Column::left("week")).chain(numbers);
    let mut table = Table::new(columns.collect()).captioned("Weekly sums, all lifts");
    for week in weeks {
        let row = &week.all;
        // `6 (38 %)`
        let share = row.high_rep_percent().map_or(String::new(), |percent| format!(" ({percent:.0} %)"));
        let numbers = [
            row.sessions.to_string(),
            row.sets.to_string(),
            format!("{}{share}", row.high_rep_sets),
            row.sets_at_rpe_6.to_string(),
            row.reps.to_string(),
            wording::thousands(row.tonnage.rounded_in(shown_in())),
            row.average_effort.map_or(String::new(), |effort| format!("{:.1}", effort.0)),
        ];
        table.row(std::iter::once(name(week)).chain(numbers.map(|number| (Role::Plain, number))).collect());
    }
    table
}
