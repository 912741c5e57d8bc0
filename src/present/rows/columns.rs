//! The columns of a table of sets. Their names are for ever: others' queries are written against them, and
//! docs/export.md tells each of them.

use crate::analysis::rows::Scale;
use crate::questions::export::Line;
use crate::training::{Amount, AmountRange, Block, Load, Log, Mass, Pain, Session, Substance, Unit, decimal};
use serde::ser::{Error, Serialize, Serializer};
use serde_json::value::RawValue;
use std::borrow::Cow;

/// What a row is made with beside itself.
#[derive(Clone, Copy)]
pub struct Scene<'a> {
    /// The log that it is of.
    pub log: &'a Log,
    /// What the lifter is called.
    pub lifter: Option<&'a str>,
    /// Of loads written without a unit.
    pub units: Unit,
}

/// The value of a column in a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell<'a> {
    /// Not known, or not asked of such a row.
    Null,
    /// Words.
    Text(Cow<'a, str>),
    /// A number in decimal digits, in full.
    Number(String),
    /// Yes or no.
    Flag(bool),
    /// Words one after the other.
    List(Vec<Cow<'a, str>>),
}

/// What the cells of a column are, where they are not null.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Is {
    /// Words.
    Text,
    /// A day.
    Date,
    /// A whole number, of nothing less than 0.
    Whole,
    /// A mass, to the thousandth of a pound.
    Kilograms,
    /// A distance, to the thousandth of a yard.
    Metres,
    /// A point on a scale of ten.
    Points,
    /// Yes or no.
    Flag,
    /// Words one after the other; never null.
    List,
}

/// What rows share the cell of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Of {
    /// Those of a session.
    Session,
    /// Those of a written group, done or planned.
    Group,
    /// None.
    Row,
}

/// A column: its name, what its cells are, what rows have the same cell of it, and how its cells are made.
pub struct Column {
    /// Its name.
    pub name: &'static str,
    /// What its cells are.
    pub is: Is,
    of: Of,
    cell: Make,
}

/// How a cell of a column is made.
type Make = for<'a> fn(&Scene<'a>, &Line<'a>) -> Cell<'a>;

/// A column whose cell all rows of a session share.
const fn of_session(name: &'static str, is: Is, cell: Make) -> Column {
    Column { name, is, of: Of::Session, cell }
}

/// A column whose cell all rows of a written group share.
const fn of_group(name: &'static str, is: Is, cell: Make) -> Column {
    Column { name, is, of: Of::Group, cell }
}

/// A column with a cell of its own for each row.
const fn of_row(name: &'static str, is: Is, cell: Make) -> Column {
    Column { name, is, of: Of::Row, cell }
}

/// Every column, in order.
pub const COLUMNS: [Column; 51] = [
    of_session("lifter", Is::Text, |scene, _| text(scene.lifter)),
    of_session("date", Is::Date, |_, line| made(Some(line.session().date.to_string()))),
    of_session("time", Is::Text, |_, line| made(line.session().minute.map(crate::training::spelling::clock))),
    of_session("block", Is::Text, |scene, line| text(block(scene, line).map(|block| block.name.as_str()))),
    of_session("week", Is::Whole, |_, line| number(line.session().week)),
    of_session("day", Is::Text, |_, line| text(line.session().day.as_deref())),
    of_session("deload", Is::Flag, deload),
    of_session("peak", Is::Flag, peak),
    of_session("test_day", Is::Flag, |_, line| Cell::Flag(line.session().test_day)),
    of_session("meet", Is::Flag, |_, line| Cell::Flag(line.session().meet.is_some())),
    of_session("meet_name", Is::Text, |_, line| text(line.session().meet.as_deref())),
    of_group("lift", Is::Text, |scene, line| text(line.work().map(|work| scene.log.lift_name(work.lift)))),
    of_group("family", Is::Text, |scene, line| {
        text(line.work().and_then(|work| scene.log.lift(work.lift)).map(|lift| lift.family.word()))
    }),
    of_row("kind", Is::Text, |_, line| text(Some(kind(line)))),
    of_row("set", Is::Whole, |_, line| number(of(line, |row| row.number, |planned| planned.number))),
    of_row("reps", Is::Whole, |_, line| least(line).map_or(Cell::Null, |least| amount(least, 0))),
    of_row("seconds", Is::Whole, |_, line| least(line).map_or(Cell::Null, |least| amount(least, 1))),
    of_row("metres", Is::Metres, |_, line| least(line).map_or(Cell::Null, |least| amount(least, 2))),
    of_group("per_side", Is::Flag, |_, line| Cell::Flag(per_side(line))),
    of_group("load", Is::Text, |_, line| made(load(line).text())),
    of_group("unit", Is::Text, unit),
    of_group("load_kind", Is::Text, |_, line| text(load_kind(load(line)))),
    of_group("kg", Is::Kilograms, |_, line| mass(load(line).kilograms(line.session().own_mass()))),
    of_group("added_kg", Is::Kilograms, |_, line| {
        mass(load(line).added().or(load(line).pin().map(|(_, added)| added)))
    }),
    of_session("bodyweight", Is::Text, bodyweight),
    of_session("bodyweight_kg", Is::Kilograms, |_, line| mass(line.session().own_mass())),
    of_group("approximate", Is::Flag, |_, line| Cell::Flag(load(line).is_approximate())),
    of_row("effort", Is::Points, effort),
    of_row("effort_scale", Is::Text, effort_scale),
    of_row("high_rep", Is::Flag, high_rep),
    of_row("faults", Is::List, |_, line| list(of(line, |row| row.faults().map(Cow::Borrowed).collect(), |_| vec![]))),
    of_row("missed", Is::Whole, |_, line| number(of(line, |row| Some(row.missed()), |_| None).flatten())),
    of_row("amrap", Is::Flag, |_, line| Cell::Flag(of(line, |row| row.is_amrap(), |_| false) == Some(true))),
    of_group("rest", Is::Whole, |_, line| number(of(line, |row| row.pace().rest, |_| None).flatten())),
    of_group("tempo", Is::Text, |_, line| text(of(line, |row| row.pace().tempo.as_deref(), |_| None).flatten())),
    of_row("remarks", Is::List, |_, line| list(of(line, |row| row.remarks().map(Cow::Borrowed).collect(), |_| vec![]))),
    of_group("instead_of", Is::Text, instead_of),
    of_row("optional", Is::Flag, |_, line| {
        of(line, |_| Cell::Null, |planned| Cell::Flag(planned.optional)).unwrap_or(Cell::Null)
    }),
    of_group("reps_most", Is::Whole, |_, line| most(line, 0)),
    of_group("seconds_most", Is::Whole, |_, line| most(line, 1)),
    of_group("metres_most", Is::Metres, |_, line| most(line, 2)),
    of_group("effort_most", Is::Points, effort_most),
    of_group("page", Is::Text, |scene, line| {
        let page = of(line, |row| row.page(), |planned| planned.work.page);
        text(Some(scene.log.page_path(page.unwrap_or(line.session().page))))
    }),
    of_group("line", Is::Whole, |_, line| {
        let number = of(line, |row| row.line(), |planned| planned.line);
        self::number(Some(number.unwrap_or(line.session().line)))
    }),
    of_group("gym", Is::Text, |scene, line| {
        text(said(line).and_then(|session| scene.log.gym(session.gym?)).map(|gym| &*gym.name))
    }),
    of_group("sleep_minutes", Is::Whole, |_, line| number(said(line).and_then(|said| said.sleep).map(u32::from))),
    of_group("duration_minutes", Is::Whole, |_, line| number(said(line).and_then(|said| said.duration).map(u32::from))),
    of_group("session_rpe", Is::Points, |_, line| {
        digits(said(line).and_then(|said| said.rpe).map(|rpe| decimal(i64::from(rpe))))
    }),
    of_group("pain", Is::Points, |_, line| {
        let most = said(line).and_then(|said| said.pains.iter().map(|pain| pain.tenths).max());
        digits(most.map(|tenths| decimal(i64::from(tenths) * 100)))
    }),
    of_group("pains", Is::List, pains),
    of_group("notes", Is::List, |_, line| {
        list(said(line).map(|said| said.notes.iter().map(|note| note.text.as_ref().into()).collect()))
    }),
];

/// The cells of one row after the other, made into something. What a row shares with the one before it is not made anew: most
/// rows are sets of one group.
pub(crate) struct Cells<'s, 'a, T> {
    scene: &'s Scene<'a>,
    fill: fn(&mut T, &Column, Cell<'_>),
    /// Those of the last row.
    cells: Vec<T>,
    last: Option<Line<'a>>,
}

impl<'s, 'a, T: Clone + Default> Cells<'s, 'a, T> {
    /// None yet, each to be filled so, over what is there from the last row.
    pub(crate) fn new(scene: &'s Scene<'a>, fill: fn(&mut T, &Column, Cell<'_>)) -> Self {
        Cells { scene, fill, cells: vec![T::default(); COLUMNS.len()], last: None }
    }

    /// The cells of a row.
    pub(crate) fn of(&mut self, line: Line<'a>) -> &[T] {
        let same_session = self.last.is_some_and(|last| std::ptr::eq(last.session(), line.session()));
        let same_group = same_session && self.last.is_some_and(|last| of_one_group(&last, &line));
        for (column, cell) in COLUMNS.iter().zip(&mut self.cells) {
            let stays = match column.of {
                Of::Session => same_session,
                Of::Group => same_group,
                Of::Row => false,
            };
            if !stays {
                (self.fill)(cell, column, (column.cell)(self.scene, &line));
            }
        }
        self.last = Some(line);
        &self.cells
    }
}

impl<'a> Cells<'_, 'a, String> {
    /// Adds a row's cells to a text, with a comma between them.
    pub(crate) fn put(&mut self, line: Line<'a>, out: &mut String) {
        for (nth, text) in self.of(line).iter().enumerate() {
            if nth > 0 {
                out.push(',');
            }
            out.push_str(text);
        }
    }
}

fn of_one_group(one: &Line<'_>, other: &Line<'_>) -> bool {
    match (one, other) {
        (Line::Set(one), Line::Set(other)) => {
            std::ptr::eq(one.work, other.work) && std::ptr::eq(one.set.group, other.set.group)
        }
        (Line::Plan(one), Line::Plan(other)) => {
            std::ptr::eq(one.work, other.work) && std::ptr::eq(one.group, other.group)
        }
        _ => false,
    }
}

impl Serialize for Cell<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Cell::Null => serializer.serialize_none(),
            Cell::Text(text) => serializer.serialize_str(text),
            // A binary fraction would not hold every pound.
            Cell::Number(digits) => {
                RawValue::from_string(digits.clone()).map_err(S::Error::custom)?.serialize(serializer)
            }
            Cell::Flag(flag) => serializer.serialize_bool(*flag),
            Cell::List(words) => serializer.collect_seq(words),
        }
    }
}

fn text(text: Option<&str>) -> Cell<'_> {
    text.filter(|text| !text.is_empty()).map_or(Cell::Null, |text| Cell::Text(Cow::Borrowed(text)))
}

fn made<'a>(text: Option<String>) -> Cell<'a> {
    text.map_or(Cell::Null, |text| Cell::Text(Cow::Owned(text)))
}

fn number<'a>(number: Option<u32>) -> Cell<'a> {
    number.map_or(Cell::Null, |number| Cell::Number(number.to_string()))
}

fn mass<'a>(mass: Option<Mass>) -> Cell<'a> {
    mass.map_or(Cell::Null, |mass| Cell::Number(mass.exact_kilograms()))
}

fn list(words: Option<Vec<Cow<'_, str>>>) -> Cell<'_> {
    Cell::List(words.unwrap_or_default())
}

fn digits<'a>(digits: Option<String>) -> Cell<'a> {
    digits.map_or(Cell::Null, Cell::Number)
}

/// What is asked of a set, or of a planned one; a session is neither.
fn of<'a, T>(
    line: &Line<'a>,
    set: impl FnOnce(&crate::analysis::rows::Row<'a>) -> T,
    plan: impl FnOnce(&crate::questions::export::Planned<'a>) -> T,
) -> Option<T> {
    match line {
        Line::Set(row) => Some(set(row)),
        Line::Plan(planned) => Some(plan(planned)),
        Line::Session(_) => None,
    }
}

/// The session, in a row of its own: what it says stands there once, and in no row of a set.
fn said<'a>(line: &Line<'a>) -> Option<&'a Session> {
    match line {
        Line::Session(session) => Some(session),
        _ => None,
    }
}

/// Each pain as one writes it: `left knee 3/10`.
fn pains<'a>(_: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let pain = |pain: &Pain| format!("{} {}/10", pain.site, decimal(i64::from(pain.tenths) * 100)).into();
    list(said(line).map(|said| said.pains.iter().map(pain).collect()))
}

fn block<'a>(scene: &Scene<'a>, line: &Line<'_>) -> Option<&'a Block> {
    line.session().block.and_then(|id| scene.log.block(id))
}

/// The bodyweight as written, on the day that it was written.
fn bodyweight<'a>(_: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let session = line.session();
    let of_day = session.bodyweight.filter(|own| own.date == session.date);
    made(of_day.map(|own| own.mass.written()))
}

/// Whether the session's heading says so, or its block of the week.
fn deload<'a>(scene: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    Cell::Flag(line.session().deload || of_week(scene, line, |block| &block.deload))
}

fn peak<'a>(scene: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    Cell::Flag(line.session().peak || of_week(scene, line, |block| &block.peak))
}

/// Whether the session's week is among those of its block.
fn of_week<'a>(scene: &Scene<'a>, line: &Line<'a>, weeks: fn(&Block) -> &Vec<u32>) -> bool {
    block(scene, line).zip(line.session().week).is_some_and(|(block, week)| weeks(block).contains(&week))
}

fn kind(line: &Line<'_>) -> &'static str {
    match line {
        Line::Plan(_) => "plan",
        Line::Set(row) if row.warm_up => "warm-up",
        Line::Set(row) if row.set.is_work() => "work",
        Line::Set(_) => "failed",
        Line::Session(_) => "session",
    }
}

/// What was done, or the least that was to be.
fn least(line: &Line<'_>) -> Option<Amount> {
    of(line, |row| row.amount(), |planned| planned.group.amounts.least())
}

/// An amount in the column of its kind: 0 reps, 1 seconds, 2 metres.
fn amount<'a>(amount: Amount, column: u8) -> Cell<'a> {
    match (amount, column) {
        (Amount::Reps(reps), 0) => number(Some(reps)),
        (Amount::Seconds(seconds), 1) => number(Some(seconds)),
        (Amount::Metres(distance), 2) => Cell::Number(distance.exact_metres()),
        _ => Cell::Null,
    }
}

/// The most of a planned set; null where that is open, and for what was done.
fn most<'a>(line: &Line<'_>, column: u8) -> Cell<'a> {
    let of_plan = |amounts: AmountRange| amounts.most().map_or(Cell::Null, |most| amount(most, column));
    of(line, |_| Cell::Null, |planned| of_plan(planned.group.amounts)).unwrap_or(Cell::Null)
}

fn per_side(line: &Line<'_>) -> bool {
    of(line, |row| row.set.group.per_side, |planned| planned.group.per_side) == Some(true)
}

static NO_LOAD: Load = Load::None;

fn load<'a>(line: &Line<'a>) -> &'a Load {
    match line {
        Line::Set(row) => row.load(),
        Line::Plan(planned) => &planned.group.load,
        Line::Session(_) => &NO_LOAD,
    }
}

/// The unit of the first number in a load, where none stands beside it.
fn unit<'a>(scene: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    match load(line) {
        Load::None | Load::Percent(_) => Cell::Null,
        Load::Plain { unit, .. } => text(Some(unit.word())),
        Load::Other(_) => text(Some(scene.units.word())),
    }
}

fn load_kind(load: &Load) -> Option<&'static str> {
    match load {
        Load::None => None,
        Load::Plain { .. } => Some("mass"),
        Load::Percent(_) => Some("percent"),
        Load::Other(other) => Some(match other.substance {
            Substance::Mass(_) => "mass",
            Substance::Bodyweight(_) => "bodyweight",
            Substance::Pin(..) => "pin",
            Substance::Quoted => "quoted",
        }),
    }
}

fn effort<'a>(_: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let effort = of(line, |row| row.effort(), |planned| planned.group.effort.map(|range| range.low)).flatten();
    digits(effort.map(|effort| effort.value().to_string()))
}

fn effort_most<'a>(_: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let effort = of(line, |_| None, |planned| planned.group.effort.map(|range| range.high)).flatten();
    digits(effort.map(|effort| effort.value().to_string()))
}

fn effort_scale<'a>(_: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let scale = of(line, |row| row.scale(), |_| None).flatten();
    text(scale.map(|scale| match scale {
        Scale::Rpe => "RPE",
        Scale::Rir => "RIR",
        Scale::Amrap => "AMRAP",
        Scale::Miss => "miss",
    }))
}

/// Whether it is a work set of the settings' high reps or more.
fn high_rep<'a>(scene: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let is_high = kind(line) == "work"
        && least(line).and_then(|least| least.reps()).is_some_and(|reps| reps >= scene.log.high_reps);
    Cell::Flag(is_high)
}

fn instead_of<'a>(scene: &Scene<'a>, line: &Line<'a>) -> Cell<'a> {
    let other = line.work().and_then(|work| work.details.as_deref()).and_then(|details| details.instead_of);
    text(other.map(|(lift, _)| scene.log.lift_name(lift)))
}
