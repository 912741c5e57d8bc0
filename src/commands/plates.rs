//! `plates`

use super::desk::Desk;
use super::options::Options;
use super::outcome::{Failure, Reply};
use crate::journal::Lifter;
use crate::meaning::{TypedLoad, typed_load};
use crate::present::{view, wording};
use crate::problems::nearest;
use crate::questions::plates::{Ask, Last, answer};
use crate::training::{Bar, Gear};
use clap::Args;

/// Say what to hang on each side of the bar
///
/// Makes a load from the gym's own bars, plates and collars (`gear:` in journal.yaml), kilos and pounds
/// together, with the fewest plates, the heaviest inside. Where the plates cannot make it, the nearest loads
/// below and above, and how far off each is. The load is written as on a page: 200 kg, 265 lb, 200 in your
/// own unit, or a bar with plates.
///
/// With --from, what to take off and put on after the last set so that the fewest plates are moved. A plate
/// comes off only after those outside it, and new ones go on outside what stays, so a heavier plate may come
/// to hang outside a lighter one. What hung there is taken from the plates that --from names, from the inside
/// out; where it names none, the plates are those that this command answers for it. Exit status: 0
/// answered, 2 could not answer.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  # a load that the kilo plates only come near
  loadline plates \"265 lb\" --bar \"pound bar\"
  # what to change after the last set
  loadline plates \"200 kg\" --bar \"trap bar\" --from \"180 kg\"")]
pub(crate) struct Plates {
    /// The load, with the bar's own mass
    load: String,
    /// The bar, by its name in the settings [default: the one that LOAD or --from names, else `bar`]
    #[arg(long, value_name = "NAME")]
    bar: Option<String>,
    /// The load of the last set, still on the bar
    #[arg(long, value_name = "LOAD")]
    from: Option<String>,
}

impl Plates {
    pub(crate) fn run(&self, options: &Options) -> Result<Reply, Failure> {
        let book = Desk::open(options)?.book(options)?;
        let lifter = &book.lifter;
        let load = typed(&self.load, lifter)?;
        let from = self.from.as_deref().map(|from| typed(from, lifter)).transpose()?;
        let bar = match &self.bar {
            Some(name) => named(name, &lifter.gear)?,
            None => meant(&load, from.as_ref(), &lifter.gear)?,
        };
        let from = from.map(|from| Last { load: from.load, bar: from.bar, side: from.side });
        let answer = answer(&Ask { load: load.load, bar, gear: &lifter.gear, units: lifter.units, from })?;
        Ok(book.answer(options, &answer, || view::plates::show(&answer)))
    }
}

/// A load of the command line.
fn typed<'a>(text: &str, lifter: &'a Lifter) -> Result<TypedLoad<'a>, Failure> {
    if text.trim().is_empty() {
        return Err(Failure("a load is missing; write one such as \"120 kg\"".into()));
    }
    if text.trim_start().starts_with('-') {
        return Err(Failure(format!("`{text}` is no load: a load is more than nothing, such as \"120 kg\"")));
    }
    Ok(typed_load(text, lifter)?)
}

/// The bar of a name.
fn named<'a>(name: &str, gear: &'a Gear) -> Result<&'a Bar, Failure> {
    let names = || gear.bars.iter().map(|bar| bar.name.as_str());
    gear.bar(name).ok_or_else(|| {
        let near = nearest(name, names());
        let near: Vec<String> =
            if near.is_empty() { names().collect() } else { near }.into_iter().map(str::to_owned).collect();
        Failure(match near.as_slice() {
            [] => NO_BAR.to_owned(),
            near => format!("no bar is called `{name}`; {}", wording::there_are(near)),
        })
    })
}

/// The bar where none is asked for by name: the one that a load names, or `bar`, or the only one.
fn meant<'a>(load: &TypedLoad<'a>, from: Option<&TypedLoad<'a>>, gear: &'a Gear) -> Result<&'a Bar, Failure> {
    let bar = load.bar.or(from.and_then(|from| from.bar)).or_else(|| gear.bar("bar"));
    match (bar, gear.bars.as_slice()) {
        (Some(bar), _) | (None, [bar]) => Ok(bar),
        (None, []) => Err(Failure(NO_BAR.into())),
        (None, bars) => {
            let names: Vec<String> = bars.iter().map(|bar| bar.name.clone()).collect();
            Err(Failure(format!("on which bar? Name one with --bar: {}", wording::any_of(&names))))
        }
    }
}

const NO_BAR: &str = "the gym has no bar; name one under `gear:` in journal.yaml, such as `bars: { bar: 20 kg }`";
