//! The load in a cell: a number with a unit, or what the notation writes behind `@`.

use super::cells::Cells;
use super::fault::Fault;
use crate::journal::Field;
use crate::notation;
use crate::notation::nodes::{Load, TermKind};
use crate::training::{Unit, decimal};

/// The load of a row, as the notation writes it; nothing where the cell is empty.
pub(super) fn read(cells: &Cells<'_>) -> Result<Option<String>, Fault> {
    let Some(cell) = cells.get(Field::Load)? else { return Ok(None) };
    let unit =
        || -> Result<Unit, Fault> { unit(cells, Field::Unit)?.ok_or_else(|| no_unit(cells, &cell.column, &cell.text)) };
    if let Some(thousandths) = cells.decimal(&cell.text) {
        if thousandths < 0 {
            let wanted = "a load of 0 or more; help is written `bw - 20 kg`";
            return Err(cells.wrong(&cell, wanted));
        }
        return Ok(Some(format!("{} {}", decimal(thousandths), unit()?.word())));
    }
    let text = with_points(cells, &cell.text);
    let load = notation::load(&text)
        .map_err(|kind| cells.wrong(&cell, format!("a number, or a load of the notation; {}", kind.message())))?;
    // A later number without a unit is in that of the one before, as the notation has it.
    let first = terms(&load).find(|(_, kind)| matches!(kind, TermKind::Mass(..)));
    let is_bare = matches!(first, Some((_, TermKind::Mass(_, _, None))));
    Ok(Some(if is_bare { with_unit(&load, unit()?) } else { text.trim().to_owned() }))
}

/// The unit in a field.
pub(super) fn unit(cells: &Cells<'_>, field: Field) -> Result<Option<Unit>, Fault> {
    let Some(cell) = cells.get(field)? else { return Ok(None) };
    match notation::mass(&format!("1 {}", cell.text)) {
        Some((1000, Some(unit))) => Ok(Some(unit)),
        _ => Err(cells.wrong(&cell, "kg or lb")),
    }
}

pub(super) fn no_unit(cells: &Cells<'_>, column: &str, read: &str) -> Fault {
    cells.fault(Some(column), read, "a unit beside it, or a `unit`, as a column or a constant: kg or lb")
}

fn terms<'a>(load: &Load<'a>) -> impl Iterator<Item = (&'a str, TermKind<'a>)> {
    let all = std::iter::once(load.first).chain(load.more.iter().map(|(_, term)| *term));
    all.map(|term| (term.text, term.kind)).collect::<Vec<_>>().into_iter()
}

/// The load with the unit behind its first number.
fn with_unit(load: &Load<'_>, unit: Unit) -> String {
    let mut out = if load.approximate { "~".to_owned() } else { String::new() };
    let mut has_unit = false;
    let signs = std::iter::once(None).chain(load.more.iter().map(|(sign, _)| Some(*sign)));
    for (sign, (text, kind)) in signs.zip(terms(load)) {
        out += match sign {
            None => "",
            Some(notation::nodes::Sign::Plus) => " + ",
            Some(notation::nodes::Sign::Minus) => " - ",
        };
        let is_first = !has_unit && matches!(kind, TermKind::Mass(..));
        has_unit |= is_first;
        match text.rfind(|c: char| c.is_ascii_digit()).filter(|_| is_first).and_then(|at| text.split_at_checked(at + 1))
        {
            Some((number, rest)) => out += &format!("{number} {}{rest}", unit.word()),
            None => out += text,
        }
    }
    out
}

/// A text with its decimals as the notation has them.
pub(super) fn with_points(cells: &Cells<'_>, text: &str) -> String {
    if cells.mapping.decimal_comma { points(text) } else { text.to_owned() }
}

/// Commas between digits as points.
fn points(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let is_digit = |at: Option<usize>| at.and_then(|at| chars.get(at)).is_some_and(char::is_ascii_digit);
    let one = |(at, c): (usize, &char)| {
        if *c == ',' && is_digit(at.checked_sub(1)) && is_digit(at.checked_add(1)) { '.' } else { *c }
    };
    chars.iter().enumerate().map(one).collect()
}
