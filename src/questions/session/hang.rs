//! What hangs there: loads that can be had, the plates of each side, and the warm-up before them.

use super::answer::{Plates, WarmUpSet};
use super::foretelling::own_part;
use crate::analysis::rack::{HangsOn, Rack, as_mass, of_its_size, whole};
use crate::questions::plates::{self, Ask};
use crate::training::{
    Bar, Gear, Group, Lift, Load, LoadClass, Mass, Plate, Rung, Tolerance, Unit, Weighed, change_the_side, ladder,
};

/// No two loads that can be had lie further apart, in steps.
const MOST_STEPS: u32 = 20;

/// A lift at the rack.
pub(super) struct LoadFinder<'h, 'g> {
    pub(super) gear: &'g Gear,
    pub(super) rack: &'h Rack<'g>,
    pub(super) lift: Option<&'g Lift>,
    /// Whether the line is worked one side at a time.
    pub(super) per_side: bool,
    /// The lifter's own weight.
    pub(super) own: Option<Mass>,
}

impl<'g> LoadFinder<'_, 'g> {
    fn hangs_on(&self, load: &Load) -> HangsOn<'g> {
        match load.added() {
            Some(_) => HangsOn::Lifter,
            None => self.rack.hangs_on(share(load).as_ref().unwrap_or(load), self.per_side, self.lift),
        }
    }

    fn bar(&self, load: &Load) -> Option<&'g Bar> {
        match self.hangs_on(load) {
            HangsOn::Bar { bar, .. } => Some(bar),
            _ => None,
        }
    }

    /// By how much a load of this kind can be moved.
    pub(super) fn step(&self, load: &Load) -> Mass {
        self.rack.step(self.hangs_on(load), load, self.lift)
    }

    /// The load of the kind of another that comes nearest to so many kilograms lifted in all.
    pub(super) fn near(&self, like: &Load, everything: f64) -> Option<Load> {
        let wanted = Mass::from_kilograms(everything)? - own_part(like, self.own);
        let now = like.added().or(like.kilograms(None))?;
        match self.hangs_on(like) {
            // A load that is as good as the wanted one stays as it is spelled, where the plates make it.
            HangsOn::Bar { bar, .. }
                if wanted == now && share(like).is_none() && self.rack.loadable(bar).nearest(wanted) == wanted =>
            {
                Some(like.clone())
            }
            on @ HangsOn::Bar { .. } => self.rack.nearest(on, wanted),
            _ if wanted == now => Some(like.clone()),
            HangsOn::Lifter => self.rack.at_most(HangsOn::Lifter, whole(wanted, self.gear.step)),
            HangsOn::Implement => {
                let apart = whole(wanted - now, self.step(like));
                let moved = now + apart;
                (moved > Mass::ZERO).then(|| of_its_size(like, moved))
            }
        }
    }

    /// The same, or where plates or dumbbells lie so far apart that it is more than `most`, the next lighter one.
    pub(super) fn near_below(&self, like: &Load, everything: f64, most: f64) -> Option<Load> {
        let load = self.near(like, everything)?;
        let kilograms = load.kilograms(self.own)?;
        if kilograms.in_kilograms() <= most {
            return Some(load);
        }
        let step = self.step(like);
        let lighter = (1..=MOST_STEPS).find_map(|steps| {
            let lighter = self.near(like, (kilograms - step.times(steps)).in_kilograms())?;
            (lighter.kilograms(self.own)? < kilograms).then_some(lighter)
        });
        Some(lighter.unwrap_or(load))
    }

    /// The nearest load that hangs here, in place of one from another gym or of a share of a maximum; a load that is no mass
    /// stays.
    pub(super) fn here(&self, load: &Load) -> Load {
        let near = load.kilograms(self.own).and_then(|all| self.near(load, all.in_kilograms()));
        near.unwrap_or_else(|| load.clone())
    }

    /// What a deload makes of a load.
    pub(super) fn in_deload(&self, load: &Load) -> Load {
        let load = share(load).unwrap_or_else(|| load.clone());
        self.rack.in_deload(self.hangs_on(&load), &load).unwrap_or(load)
    }

    /// The next load of this kind that is heavier.
    pub(super) fn heavier(&self, load: &Load) -> Option<Load> {
        let (kilograms, step) = (load.kilograms(self.own)?, self.step(load));
        (1..=MOST_STEPS).find_map(|steps| {
            let heavier = self.near(load, (kilograms + step.times(steps)).in_kilograms())?;
            (heavier.kilograms(self.own)? > kilograms).then_some(heavier)
        })
    }

    /// The plates of each side, as they hang after those of the set before; the fewest there can be where nothing hangs.
    pub(super) fn plates(&self, load: &Load, hung: Option<&[Plate]>) -> Option<Plates> {
        let bar = self.bar(load)?;
        let nearest = self.rack.loadable(bar).nearest(load.kilograms(None)?);
        let last = hung.map(|side| plates::Last {
            load: as_mass(side.iter().fold(bar.mass + self.gear.collars, |sum, plate| sum + plate.mass.times(2))),
            bar: Some(bar),
            side: side.to_vec(),
        });
        let ask = Ask { load: as_mass(nearest), bar, gear: self.gear, units: Unit::Kg, from: last };
        let mut hung = plates::answer(&ask).ok()?.exact?;
        hung.off = nearest - load.kilograms(None)?;
        // What hangs there, in the order in which it does.
        if let Some(change) = &hung.change {
            (hung.side, hung.text) = (change.side.clone(), change.text.clone());
        }
        Some(Plates { bar: bar.name.clone(), hung })
    }

    /// What hangs on each side when a load follows on what hung before.
    pub(super) fn side(&self, load: &Load, hung: Option<&[Plate]>) -> Option<Vec<Plate>> {
        let bar = self.bar(load)?;
        let loadable = self.rack.loadable(bar);
        let total = loadable.nearest(load.kilograms(None)?);
        match hung {
            Some(hung) => {
                change_the_side(hung, total - bar.mass - self.gear.collars, &self.gear.plates).map(|change| change.side)
            }
            None => loadable.side(total),
        }
    }

    /// Warm-up sets as written; of those that were written another time, the ones below today's load.
    pub(super) fn written(&self, groups: &[Group], below: Option<&Load>) -> Vec<WarmUpSet> {
        let heaviest = below.and_then(|load| load.kilograms(self.own));
        let sets = groups.iter().flat_map(|group| group.sets());
        let lighter = sets.filter(|set| {
            let load = set.group.load.kilograms(self.own);
            load.zip(heaviest).is_none_or(|(load, heaviest)| load < heaviest)
        });
        let shown = lighter.map(|set| WarmUpSet {
            load: Weighed { load: set.group.load.clone(), kilograms: set.group.load.kilograms(self.own) },
            reps: set.amount.reps(),
            plates: self.plates(&set.group.load, None),
        });
        shown.collect()
    }

    /// Whether a warm-up of another time leads up to today's load: its last step is three quarters of it, or more.
    pub(super) fn reaches(&self, sets: &[WarmUpSet], load: Option<&Load>) -> bool {
        let heaviest = sets.iter().filter_map(|set| set.load.kilograms).max();
        let wanted = load.and_then(|load| load.kilograms(self.own));
        !sets.is_empty() && heaviest.zip(wanted).is_none_or(|(heaviest, wanted)| heaviest >= wanted.percent(75_000))
    }

    /// The ladder to a work set, and what hangs on each side at its end. A load that names its plates is made of these
    /// alone.
    pub(super) fn ladder(&self, rungs: &[Rung], load: &Load) -> Option<(Vec<WarmUpSet>, Vec<Plate>)> {
        let bar = self.bar(load)?;
        let loadable = self.rack.loadable(bar);
        let total = loadable.nearest(load.kilograms(None)?);
        let mut gear = self.gear.clone();
        if load.text().is_some_and(|text| text.contains("/side")) {
            gear.plates = owned(loadable.side(total)?);
        }
        let way = ladder(rungs, total, bar, &gear)?;
        let mut hung: &[Plate] = &[];
        let mut steps = Vec::with_capacity(way.steps.len());
        for step in &way.steps {
            let plates = plates::as_hung(bar, self.gear, &step.side, hung);
            let load = Weighed { load: as_mass(step.total), kilograms: Some(step.total) };
            let plates = Some(Plates { bar: bar.name.clone(), hung: plates });
            steps.push(WarmUpSet { load, reps: Some(step.reps), plates });
            hung = &step.side;
        }
        Some((steps, way.work))
    }

    /// Whether two loads are the same in this gym.
    pub(super) fn is_same(&self, one: &Load, other: &Load) -> bool {
        let same = Tolerance::of(self.gear);
        one.class(self.own) == LoadClass::Mass
            && one
                .kilograms(self.own)
                .zip(other.kilograms(self.own))
                .is_some_and(|(one, other)| same.compare(one, other).is_eq())
    }
}

/// A share of a maximum as the mass that it comes to; nothing for another load.
pub(super) fn share(load: &Load) -> Option<Load> {
    load.kilograms(None).filter(|_| load.is_percent()).map(as_mass)
}

/// Plates as a gym that has these and no others.
fn owned(plates: Vec<Plate>) -> Vec<Plate> {
    let mut kinds: Vec<Plate> = Vec::new();
    for plate in plates {
        match kinds.iter_mut().find(|kind| kind.mass == plate.mass && kind.colour == plate.colour) {
            Some(kind) => kind.pairs = kind.pairs.map(|pairs| pairs + 1),
            None => kinds.push(Plate { pairs: Some(1), ..plate }),
        }
    }
    kinds
}
