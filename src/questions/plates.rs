//! `plates`: what to hang on each side of the bar for a load, and what to change from the last one.

use crate::training::{
    Bar, Change, Fit, Gear, Load, Loadable, Loading, Mass, Plate, Tolerance, Unit, Weighed, change_the_side, words,
};
use schemars::JsonSchema;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Ask<'a> {
    /// The load to make.
    pub load: Load,
    /// On what.
    pub bar: &'a Bar,
    /// The gym's plates and collars.
    pub gear: &'a Gear,
    /// The unit of loads that are not one number.
    pub units: Unit,
    /// The last set.
    pub from: Option<Last<'a>>,
}

/// The last set's load.
#[derive(Clone, Debug)]
pub struct Last<'a> {
    /// The load.
    pub load: Load,
    /// The bar it names.
    pub bar: Option<&'a Bar>,
    /// The plates of each side it names, from the inside out; empty where it names none.
    pub side: Vec<Plate>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The load that was asked for.
    pub load: Weighed,
    /// The unit to speak of masses in.
    #[serde(skip)]
    pub unit: Unit,
    /// The bar.
    pub bar: Bar,
    /// The pair of collars.
    #[serde(rename = "collars_kg")]
    pub collars: Mass,
    /// What the last set left on the bar.
    pub from: Option<Before>,
    /// The load as it can be made; nothing where it cannot.
    pub exact: Option<Hung>,
    /// The nearest lighter one, where it cannot be made.
    pub below: Option<Hung>,
    /// The nearest heavier one, where it cannot be made.
    pub above: Option<Hung>,
    /// Which of the three is the nearest; of two equally near ones the lighter.
    pub nearest: Nearest,
}

/// The bar as the last set left it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Before {
    /// The last set's load.
    pub load: Weighed,
    /// What hung there: the same, or as near to it as the plates come.
    #[serde(rename = "kg")]
    pub total: Mass,
    /// The loaded bar as a page has it.
    pub text: String,
    /// The plates of each side, from the inside out.
    pub side: Vec<Run>,
}

words! {
    /// Which way the nearest load lies.
    pub enum Nearest {
        /// It is the one asked for.
        Exact = "exact",
        /// It is lighter.
        Below = "below",
        /// It is heavier.
        Above = "above",
    }
}

/// A bar with its plates.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Hung {
    /// Bar, collars, and plates.
    #[serde(rename = "kg")]
    pub total: Mass,
    /// How far that is from what was asked for; less than nothing where it is lighter.
    #[serde(rename = "off_kg")]
    pub off: Mass,
    /// The loaded bar as a page has it: `trap bar + 3x25 kg/side + 2.5 kg/side`.
    pub text: String,
    /// What the plates of one side weigh.
    #[serde(rename = "side_kg")]
    pub side_mass: Mass,
    /// The plates of each side, heaviest first.
    pub side: Vec<Run>,
    /// What to do after the last set.
    pub change: Option<Moves>,
}

/// Plates of one kind side by side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Run {
    /// How many.
    pub count: u32,
    /// The mass of one in its own unit: `45 lb`.
    pub plate: String,
    /// The mass of one.
    #[serde(rename = "kg")]
    pub mass: Mass,
    /// The colour, where it has one.
    pub colour: Option<String>,
}

/// What to do on each side after the last set.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Moves {
    /// What comes off, outermost first.
    pub off: Vec<Run>,
    /// What goes on, in this order.
    pub on: Vec<Run>,
    /// How many plates that moves; one that comes off and goes on again is moved twice.
    pub moved: usize,
    /// The loaded bar then, as a page has it.
    pub text: String,
    /// What hangs then, from the inside out.
    pub side: Vec<Run>,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// The load has no mass, or holds the lifter's own.
    NoMass(Load),
    /// The load is lighter than what the plates hang on.
    TooLight {
        /// The load.
        load: Load,
        /// What it comes to.
        kilograms: Mass,
        /// The bar.
        bar: Bar,
        /// The pair of collars.
        collars: Mass,
    },
    /// The load is heavier than any that is answered for.
    TooHeavy {
        /// The load.
        load: Load,
        /// The heaviest.
        most: Mass,
    },
    /// The last set was on another bar.
    OtherBar {
        /// The one then.
        then: String,
        /// The one now.
        now: String,
    },
    /// No plates of this gym come near the last set's load, so what hung there is not known.
    UnknownLast {
        /// The last set's load.
        load: Load,
        /// The bar.
        bar: Bar,
    },
}

/// Answers.
///
/// # Errors
/// [`WhyNot`] says what stands in the way.
pub fn answer(ask: &Ask<'_>) -> Result<Answer, WhyNot> {
    let kilograms = mass(&ask.load, ask)?;
    let last = ask.from.as_ref().and_then(|last| last.load.kilograms(None)).unwrap_or_default();
    let loadable = Loadable::up_to(kilograms.max(last), ask.bar, ask.gear);
    let last = ask.from.as_ref().map(|last| last_set(last, ask, &loadable)).transpose()?;
    let (from, now) = last.unzip();
    let now = now.as_deref();
    let hung = |loading: Loading| hung(loading, kilograms, ask, now);
    let (exact, below, above) = match loadable.fit(kilograms) {
        Fit::Exact(loading) => (Some(hung(loading)), None, None),
        Fit::Between { below, above } => (None, below.map(&hung), above.map(&hung)),
    };
    let nearest = match (&exact, loadable.nearest(kilograms)) {
        (Some(_), _) => Nearest::Exact,
        (None, nearest) if nearest < kilograms => Nearest::Below,
        _ => Nearest::Above,
    };
    let unit = match ask.load {
        Load::Plain { unit, .. } => unit,
        _ => ask.units,
    };
    Ok(Answer {
        load: Weighed { load: ask.load.clone(), kilograms: Some(kilograms) },
        unit,
        bar: ask.bar.clone(),
        collars: ask.gear.collars,
        from,
        exact,
        below,
        above,
        nearest,
    })
}

/// The nearest to a load that can be made, and the loaded bar as a page has it.
pub(super) fn nearest(load: Mass, bar: &Bar, gear: &Gear) -> Option<(Mass, String)> {
    let loadable = Loadable::up_to(load, bar, gear);
    let total = loadable.nearest(load);
    Some((total, text(bar, &runs(&loadable.side(total)?))))
}

/// The mass of a load that can hang on this bar.
fn mass(load: &Load, ask: &Ask<'_>) -> Result<Mass, WhyNot> {
    let Some(kilograms) = load.kilograms(None) else { return Err(WhyNot::NoMass(load.clone())) };
    if kilograms > Loadable::most() {
        return Err(WhyNot::TooHeavy { load: load.clone(), most: Loadable::most() });
    }
    if kilograms < ask.bar.mass + ask.gear.collars {
        let (bar, collars) = (ask.bar.clone(), ask.gear.collars);
        return Err(WhyNot::TooLight { load: load.clone(), kilograms, bar, collars });
    }
    Ok(kilograms)
}

/// What the last set left on the bar, and its plates: those it names where they and the bar are the whole of
/// it, else those that this question would answer for it. A load that counts as the same as the nearest one
/// was hung as that: 225 lb on a bar with kilo plates.
fn last_set(last: &Last<'_>, ask: &Ask<'_>, loadable: &Loadable) -> Result<(Before, Vec<Plate>), WhyNot> {
    if let Some(then) = last.bar.filter(|then| *then != ask.bar) {
        return Err(WhyNot::OtherBar { then: then.name.clone(), now: ask.bar.name.clone() });
    }
    let kilograms = mass(&last.load, ask)?;
    let named = last.side.iter().fold(ask.bar.mass + ask.gear.collars, |sum, plate| sum + plate.mass.times(2));
    let (total, side) = if !last.side.is_empty() && named == kilograms {
        (named, last.side.clone())
    } else {
        let nearest = loadable.nearest(kilograms);
        let same = Tolerance::of(ask.gear).compare(nearest, kilograms).is_eq();
        let unknown = || WhyNot::UnknownLast { load: last.load.clone(), bar: ask.bar.clone() };
        (nearest, loadable.side(nearest).filter(|_| same).ok_or_else(unknown)?)
    };
    let load = Weighed { load: last.load.clone(), kilograms: Some(kilograms) };
    let runs = runs(&side);
    Ok((Before { load, total, text: text(ask.bar, &runs), side: runs }, side))
}

/// A bar as it hangs, from the inside out, with what went on since `before`, or as `before` left it.
pub(super) fn as_hung(bar: &Bar, gear: &Gear, all: &[Plate], before: &[Plate]) -> Hung {
    let side = runs(all);
    let side_mass = all.iter().fold(Mass::ZERO, |sum, plate| sum + plate.mass);
    let on = runs(all.get(before.len()..).unwrap_or_default());
    let moved = all.len().saturating_sub(before.len());
    let total = bar.mass + gear.collars + side_mass.times(2);
    let text = text(bar, &side);
    let change = Moves { off: Vec::new(), on, moved, text: text.clone(), side: side.clone() };
    Hung { total, off: Mass::ZERO, text, side_mass, side, change: Some(change) }
}

fn hung(loading: Loading, wanted: Mass, ask: &Ask<'_>, now: Option<&[Plate]>) -> Hung {
    let both_sides = loading.total - ask.bar.mass - ask.gear.collars;
    let change = now.and_then(|now| change_the_side(now, both_sides, &ask.gear.plates));
    let side = runs(&loading.side);
    Hung {
        total: loading.total,
        off: loading.total - wanted,
        side_mass: both_sides.half(),
        text: text(ask.bar, &side),
        side,
        change: change.map(|change| moves(&change, ask.bar)),
    }
}

fn moves(change: &Change, bar: &Bar) -> Moves {
    let side = runs(&change.side);
    Moves { off: runs(&change.off), on: runs(&change.on), moved: change.moved(), text: text(bar, &side), side }
}

/// The loaded bar as a page has it.
fn text(bar: &Bar, side: &[Run]) -> String {
    let plates = side.iter().map(|run| match run.count {
        1 => format!(" + {}/side", run.plate),
        count => format!(" + {count}x{}/side", run.plate),
    });
    format!("{}{}", bar.name, plates.collect::<String>())
}

/// Neighbours of one kind counted together.
fn runs(plates: &[Plate]) -> Vec<Run> {
    let alike = |one: &Plate, other: &Plate| one.mass == other.mass && one.colour == other.colour;
    let count = |run: &[Plate]| u32::try_from(run.len()).unwrap_or(u32::MAX);
    let run = |run: &[Plate]| {
        let Plate { mass, colour, .. } = run.first()?;
        Some(Run { count: count(run), plate: mass.written(), mass: *mass, colour: colour.clone() })
    };
    plates.chunk_by(alike).filter_map(run).collect()
}
