//! What a load hangs on, and the loads that hang there.

use crate::science::taper::deload_load;
use crate::training::{Bar, Family, Gear, Lift, Load, Loadable, Mass, Substance, Tolerance};
use std::cell::RefCell;
use std::rc::Rc;

/// What a load hangs on.
#[derive(Clone, Copy, Debug)]
pub(crate) enum HangsOn<'g> {
    /// A bar.
    Bar {
        bar: &'g Bar,
        /// Whether the load names it.
        named: bool,
    },
    /// The lifter, with something added or with help.
    Lifter,
    /// Something of its own size: a dumbbell, a pin, a band, nothing.
    Implement,
}

/// The gym's bars with the loads that each can have.
pub(crate) struct Rack<'g> {
    gear: &'g Gear,
    known: RefCell<Vec<(&'g str, Rc<Loadable>)>>,
}

impl<'g> Rack<'g> {
    pub(crate) fn new(gear: &'g Gear) -> Self {
        Rack { gear, known: RefCell::default() }
    }

    /// What a load hangs on. Carries, and what is worked one side at a time, are taken for weights of a size of their
    /// own, as is what is lighter than the bar.
    pub(crate) fn hangs_on(&self, load: &Load, per_side: bool, lift: Option<&Lift>) -> HangsOn<'g> {
        let by_hand = per_side || lift.is_some_and(|lift| matches!(lift.family, Family::Carry | Family::Trunk));
        let bare = |bar: &Bar| bar.mass + self.gear.collars;
        let usual = self.gear.bar("bar").or(self.gear.bars.first());
        match load {
            Load::Plain { .. } if by_hand => HangsOn::Implement,
            Load::Plain { .. } => match usual.zip(load.kilograms(None)) {
                Some((bar, mass)) if mass >= bare(bar) => HangsOn::Bar { bar, named: false },
                _ => HangsOn::Implement,
            },
            Load::Other(other) => match &other.substance {
                Substance::Bodyweight(added) if *added != Mass::ZERO => HangsOn::Lifter,
                Substance::Mass(_) => {
                    self.bar_of(&other.text).map_or(HangsOn::Implement, |bar| HangsOn::Bar { bar, named: true })
                }
                _ => HangsOn::Implement,
            },
            Load::None | Load::Percent(_) => HangsOn::Implement,
        }
    }

    /// The bar of a sum: one that it names, or one that weighs as much as the mass it begins with.
    fn bar_of(&self, sum: &str) -> Option<&'g Bar> {
        let mut terms = sum.split(" + ");
        let first = terms.next()?;
        self.gear.bar(first).or_else(|| terms.find_map(|term| self.gear.bar(term))).or_else(|| {
            let is_first = |bar: &&Bar| sum.len() > first.len() && bar.mass.written() == first;
            self.gear.bars.iter().find(is_first)
        })
    }

    /// The loads that a bar can have, worked out once.
    pub(crate) fn loadable(&self, bar: &'g Bar) -> Rc<Loadable> {
        let mut known = self.known.borrow_mut();
        if let Some((_, loadable)) = known.iter().find(|(name, _)| *name == bar.name) {
            return Rc::clone(loadable);
        }
        let loadable = Rc::new(Loadable::new(bar, self.gear));
        known.push((&bar.name, Rc::clone(&loadable)));
        loadable
    }

    /// The load that hangs nearest to so much and not above it, unless the bare bar is heavier or what is above counts
    /// as the same. `wanted` is what the load says: without the lifter's own weight for [`HangsOn::Lifter`].
    pub(crate) fn at_most(&self, on: HangsOn<'g>, wanted: Mass) -> Option<Load> {
        let same = Tolerance::of(self.gear);
        match on {
            HangsOn::Bar { bar, named } => {
                let loadable = self.loadable(bar);
                let below = loadable.below(wanted).unwrap_or_else(|| loadable.nearest(wanted));
                let nearest = loadable.nearest(wanted);
                // A load in pounds on kilo plates, or the other way round, was hung as the nearest one.
                let is_spelled_otherwise = nearest.unit() != wanted.unit() && same.compare(nearest, wanted).is_eq();
                self.spelled(bar, if is_spelled_otherwise { nearest } else { below }, named)
            }
            HangsOn::Lifter => Some(on_the_lifter(wanted)),
            HangsOn::Implement => None,
        }
    }

    /// What a deload makes of a load: a tenth less on the bar and of what the lifter adds; help stays as it is. Nothing for what
    /// has a size of its own.
    pub(crate) fn in_deload(&self, on: HangsOn<'g>, load: &Load) -> Option<Load> {
        let lighter = match on {
            HangsOn::Bar { .. } => load.kilograms(None).map(deload_load),
            HangsOn::Lifter => load.added().map(|added| match added.is_negative() {
                true => added,
                false => self.whole_steps(deload_load(added)),
            }),
            HangsOn::Implement => None,
        };
        self.at_most(on, lighter?)
    }

    /// The nearest load that hangs there.
    pub(crate) fn nearest(&self, on: HangsOn<'g>, wanted: Mass) -> Option<Load> {
        match on {
            HangsOn::Bar { bar, named } => {
                let nearest = self.loadable(bar).nearest(wanted);
                self.spelled(bar, nearest, named)
            }
            _ => self.at_most(on, wanted),
        }
    }

    /// Down to whole steps of the gym.
    pub(crate) fn whole_steps(&self, mass: Mass) -> Mass {
        down(mass, self.gear.step)
    }

    /// A load with a step put to it; on the lifter only whole steps of the gym.
    pub(crate) fn moved(&self, on: HangsOn<'_>, load: Mass, step: Mass) -> Mass {
        match on {
            HangsOn::Lifter => load + self.whole_steps(step),
            _ => load + step,
        }
    }

    /// By how much a load of a kind can be moved.
    pub(crate) fn step(&self, on: HangsOn<'_>, like: &Load, lift: Option<&Lift>) -> Mass {
        match on {
            HangsOn::Implement => self.gear.step_of(lift.map_or("", |lift| &lift.name), like),
            _ => self.gear.step,
        }
    }

    /// A load that the bar can have: as a mass where it is one of one unit and does not name its bar, else the bar and
    /// what hangs on it.
    fn spelled(&self, bar: &'g Bar, total: Mass, named: bool) -> Option<Load> {
        if let Some(load) = plain(total).filter(|_| !named) {
            return Some(load);
        }
        let side = self.loadable(bar).side(total)?;
        let mut text = bar.name.clone();
        for unit in [crate::training::Unit::Kg, crate::training::Unit::Lb] {
            let of_unit = side.iter().filter(|plate| plate.mass.unit() == unit);
            let mass = of_unit.fold(Mass::ZERO, |sum, plate| sum + plate.mass.times(2));
            if mass > Mass::ZERO {
                text += &format!(" + {}", mass.written());
            }
        }
        Some(Load::other(Substance::Mass(total), text, false))
    }
}

/// Down to whole steps, also below zero.
pub(crate) fn down(mass: Mass, step: Mass) -> Mass {
    let steps = (if mass.is_negative() { -mass } else { mass }).down_to(step);
    match mass.is_negative() {
        false => steps,
        true if steps == -mass => -steps,
        true => -(steps + step),
    }
}

/// The nearest whole steps, up or down.
pub(crate) fn whole(mass: Mass, step: Mass) -> Mass {
    if mass.is_negative() { -(-mass).nearest(step) } else { mass.nearest(step) }
}

/// A mass as a load.
pub(crate) fn as_mass(mass: Mass) -> Load {
    plain(mass).unwrap_or_else(|| Load::other(Substance::Mass(mass), mass.written(), false))
}

/// A dumbbell, or two, of another size.
pub(crate) fn of_its_size(like: &Load, everything: Mass) -> Load {
    match like.pieces() {
        Some(pieces) if pieces > 1 => {
            let each = everything.shared(pieces);
            Load::other(Substance::Mass(everything), format!("{pieces}x{}", each.written()), false)
        }
        _ => as_mass(everything),
    }
}

/// A mass as a load, where it is a whole number of thousandths of its unit.
fn plain(mass: Mass) -> Option<Load> {
    let unit = mass.unit();
    let thousandths = mass.in_thousandths(unit);
    (Mass::of(thousandths, unit) == mass).then_some(Load::Plain {
        thousandths,
        unit,
        unit_written: true,
        approximate: false,
    })
}

/// The lifter's own weight with something added, or with help.
fn on_the_lifter(added: Mass) -> Load {
    let text = match added {
        Mass::ZERO => "bw".to_owned(),
        added if added.is_negative() => format!("bw - {}", (-added).written()),
        added => format!("bw + {}", added.written()),
    };
    Load::other(Substance::Bodyweight(added), text, false)
}
