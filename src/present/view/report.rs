//! What only a report has: how estimated maxima went, which best sets are new, and the weeks' volume by family.

use super::{best, estimate};
use crate::analysis::strength::course;
use crate::history::Mark;
use crate::present::doc::{Column, Table};
use crate::present::plot::{self, Columns, Glyphs, Line};
use crate::present::{Doc, Role, wording};
use crate::questions::report::{Record, Records, Week};
use crate::questions::volume::Row;
use crate::training::{Family, shown_in};
use chrono::NaiveDate;

/// How the estimated maxima of the main lifts went over dates: a plot a lift, with its numbers.
pub fn maxima(courses: &[course::Answer], until: NaiveDate) -> Doc {
    let mut out = Doc::new();
    if courses.is_empty() {
        let words = "No estimate yet: it needs clean sets of a main lift with a load, reps, and how hard they were.";
        out.wrapped(Role::Plain, words, 2);
        return out;
    }
    out.pictures(courses.iter().map(|course| Line { course: course.clone(), until, glyphs: Glyphs::Blocks }));
    let graded = courses.iter().filter(|course| !course.graded.is_empty());
    let came = graded.map(|course| {
        let caption = format!("Foretold and done, {}", course.lift);
        Doc::of(estimate::came(&course.graded, course.unit).captioned(caption))
    });
    out.sheets(came.collect());
    let mut tables = Doc::new();
    tables.sheets(courses.iter().map(|course| Doc::of(dates(course))).collect());
    out.folded("Estimates as tables", tables);
    out
}

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

/// The rep records of the main lifts, a table a lift, and what is new in the block.
pub fn records(lifts: &[Records]) -> Doc {
    let mut out = Doc::new();
    let words = match lifts {
        [] => "No clean set of a main lift with reps yet.",
        _ => "The heaviest clean set at each rep count, and what stood there when the block began.",
    };
    out.wrapped(Role::Place, words, 2);
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
    out.sheets(lifts.iter().map(sheet).collect());
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
    let all = |mark: &Mark| wording::work(mark.sets, mark.amount, mark.per_side, &mark.load, mark.effort);
    let (new, before) = match (record.new, &record.before) {
        (false, _) => ("", String::new()),
        (true, Some(before)) => ("new", format!("was {}", all(before))),
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

/// Weekly volume: a plot a family, then all weeks in tables.
pub fn volume(weeks: &[Week], high_reps: u32) -> Doc {
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
    out.pictures(families.iter().map(|family| Columns {
        title: family.word().to_owned(),
        columns: weeks.iter().map(|week| column(week, *family)).collect(),
        unit: "sets",
        top,
        high_reps,
        glyphs: Glyphs::Blocks,
    }));
    out.folded("Sets by family as a table", Doc::of(by_family(weeks, &families)));
    out.folded("Weekly sums as a table", Doc::of(sums(weeks)));
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

fn column(week: &Week, family: Family) -> plot::Column {
    let row = of(week, family);
    plot::Column {
        label: format!("{}{}", week.all.week.unwrap_or(0), star(week)),
        group: week.all.block.clone().unwrap_or_default(),
        whole: row.map_or(0.0, |row| f64::from(row.sets)),
        part: row.map_or(0.0, |row| f64::from(row.high_rep_sets)),
    }
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
        let share = match row.sets {
            0 => String::new(),
            sets => format!(" ({:.0} %)", f64::from(row.high_rep_sets) / f64::from(sets) * 100.0),
        };
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
