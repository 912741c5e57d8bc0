//! A load that was typed on a command line: the same words as on a page, and with them the bar and the
//! plates they name.

use super::context::Context;
use super::loads;
use crate::journal::Lifter;
use crate::notation;
use crate::notation::nodes::{Load as Written, Sign, TermKind};
use crate::problems::ProblemKind;
use crate::source::Page;
use crate::training::{Bar, Gear, Load, Mass, Plate, Unit};

/// A load with the gear it names.
#[derive(Clone, Debug)]
pub struct TypedLoad<'a> {
    /// The load.
    pub load: Load,
    /// The first bar it names.
    pub bar: Option<&'a Bar>,
    /// The plates of each side, in the order written; empty where it takes something off.
    pub side: Vec<Plate>,
}

/// Reads a load as a page of this lifter would be read. A number alone is a load whatever its size: there is
/// no effort it could be. More plates than the gym owns are no matter here.
///
/// # Errors
/// What is wrong with it.
pub fn typed_load<'a>(text: &str, lifter: &'a Lifter) -> Result<TypedLoad<'a>, ProblemKind> {
    let unread = || ProblemKind::UnreadLoad { read: text.into() };
    let page = Page::new("", text.trim().into()).map_err(|_| unread())?;
    let written = notation::load(page.text())?;
    let load = match plain(&written, lifter.units) {
        Some(load) => load,
        None => {
            let context = Context::of(lifter, false);
            loads::load(&context, &page, &written, &mut Vec::new()).map_err(|problem| problem.kind)?
        }
    };
    let (bar, side) = named(&written, lifter.units, &lifter.gear);
    Ok(TypedLoad { load, bar, side })
}

/// A load that is one number.
fn plain(written: &Written<'_>, units: Unit) -> Option<Load> {
    let TermKind::Mass(1, number, unit) = written.first.kind else { return None };
    (written.more.is_empty() && !written.first.per_side).then_some(Load::Plain {
        thousandths: number.thousandths,
        unit: unit.unwrap_or(units),
        unit_written: unit.is_some(),
        approximate: written.approximate,
    })
}

/// The first bar that a load names, and its plates of each side.
fn named<'a>(written: &Written<'_>, units: Unit, gear: &'a Gear) -> (Option<&'a Bar>, Vec<Plate>) {
    let (mut bar, mut side, mut unit) = (None, Vec::new(), units);
    for term in std::iter::once(&written.first).chain(written.more.iter().map(|(_, term)| term)) {
        let (count, plate) = match term.kind {
            TermKind::Mass(count, number, written) => {
                // A number without a unit has that of the mass before it.
                unit = written.unwrap_or(unit);
                (count, plate_of(Mass::of(number.thousandths, unit), gear))
            }
            TermKind::Named(None, words) if !term.per_side && gear.bar(words).is_some() => {
                bar = bar.or(gear.bar(words));
                continue;
            }
            TermKind::Named(count, words) => match gear.colour(words) {
                Some(plate) => (count.unwrap_or(1), plate.clone()),
                None => continue,
            },
            _ => continue,
        };
        if term.per_side {
            side.extend((0..count).map(|_| plate.clone()));
        }
    }
    if written.more.iter().any(|(sign, _)| *sign == Sign::Minus) {
        side.clear();
    }
    (bar, side)
}

/// The gym's plate of that mass, or one that the gym does not own.
fn plate_of(mass: Mass, gear: &Gear) -> Plate {
    let known = gear.plates.iter().find(|plate| plate.mass == mass);
    known.cloned().unwrap_or_else(|| Plate { mass, text: mass.written(), colour: None, pairs: None })
}
