//! From the bare bar to the first work set, with plates that only go on.

use super::{Bar, Gear, Loadable, Mass, Plate, Unit};

/// A step of a warm-up, as a share of the first work set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rung {
    /// About so many percent.
    pub percent: u32,
    /// So many reps.
    pub reps: u32,
}

/// The steps of a warm-up that nobody wrote.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WarmUp(Option<Vec<Rung>>);

impl WarmUp {
    /// No steps.
    pub const OFF: WarmUp = WarmUp(Some(Vec::new()));

    /// These, the lightest first.
    pub fn steps(rungs: Vec<Rung>) -> Self {
        WarmUp(Some(rungs))
    }

    /// The steps before a first work set of so many reps. Where the settings name none: eight reps at 40 %, five at
    /// 60 %, three at 75 % and one at 87 %, or two before a set of more than five (common practice, no source).
    pub fn before(&self, reps: u32) -> Vec<Rung> {
        let usual = || [(40, 8), (60, 5), (75, 3), (87, if reps > 5 { 2 } else { 1 })];
        match &self.0 {
            Some(rungs) => rungs.clone(),
            None => usual().map(|(percent, reps)| Rung { percent, reps }).into(),
        }
    }
}

/// One load on the way up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LadderStep {
    /// Bar, collars and plates.
    pub total: Mass,
    /// So many reps.
    pub reps: u32,
    /// The plates of each side, from the inside out.
    pub side: Vec<Plate>,
}

/// The way up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ladder {
    /// The steps, the lightest first.
    pub steps: Vec<LadderStep>,
    /// What hangs on each side at the first work set, from the inside out.
    pub work: Vec<Plate>,
}

/// A step may lie so far from its percent, in percent of the first work set.
const WINDOW: f64 = 10.0;

/// A plate that is hung weighs as much as so many percent off the mark. This project's own choice.
const A_PLATE: f64 = 6.0;

/// A plate that hangs outside a lighter one weighs twice that.
const OUT_OF_ORDER: f64 = 6.0;

/// A step left out weighs as much as two or three plates.
const A_STEP: f64 = 15.0;

/// On one step no more plates go on each side.
const MOST_AT_ONCE: usize = 3;

/// So many ways are followed from step to step.
const WAYS: usize = 150;

/// The way up to a work set that the plates can make. Nothing where they cannot.
///
/// Every step holds the plates of the step before and more of them, so none comes off on the way, and all of them hang
/// there at the work set. Of the ways there are the one is taken that hangs the fewest plates and stays nearest to the
/// percents. No step is below the bar, and none within 20 lb, or 9 kg, of the next: light work has fewer steps. Where the
/// first step is more than twice the bar, the empty bar comes before it.
pub fn ladder(rungs: &[Rung], work: Mass, bar: &Bar, gear: &Gear) -> Option<Ladder> {
    let bare = bar.mass + gear.collars;
    Loadable::up_to(work, bar, gear).side(work)?;
    let mut kinds: Vec<&Plate> = gear.plates.iter().filter(|plate| plate.mass > Mass::ZERO).collect();
    kinds.sort_by_key(|plate| std::cmp::Reverse(plate.mass));
    let climb = Climb { kinds, bare, work, apart: Mass::of(20_000, Unit::Lb) };
    let mut ways = vec![Way { total: bare, hung: Vec::new(), steps: Vec::new(), cost: 0.0 }];
    if let Some(first) = rungs.first()
        && work.percent(i64::from(first.percent) * 1000) > bare.times(2)
        && bare > Mass::ZERO
    {
        ways.iter_mut().for_each(|way| way.steps.push((0, bare, first.reps)));
    }
    for rung in rungs {
        ways = climb.next(&ways, *rung);
    }
    let mut best: Option<(f64, Ladder)> = None;
    // The cheapest come first, and the plates to the work set only add to what a way costs.
    ways.sort_by(|one, other| one.cost.total_cmp(&other.cost));
    for way in &ways {
        if best.as_ref().is_some_and(|(least, _)| way.cost >= *least) {
            break;
        }
        let ended = climb.end(way).filter(|(cost, _)| best.as_ref().is_none_or(|(least, _)| cost < least));
        best = ended.or(best);
    }
    best.map(|(_, ladder)| ladder)
}

/// A way that is partly gone.
#[derive(Clone)]
struct Way {
    total: Mass,
    /// The kinds of plates on each side, from the inside out.
    hung: Vec<usize>,
    /// Each step: how many plates hang then, the load, and its reps.
    steps: Vec<(usize, Mass, u32)>,
    cost: f64,
}

struct Climb<'g> {
    /// Kinds of plates, heaviest first.
    kinds: Vec<&'g Plate>,
    bare: Mass,
    work: Mass,
    /// How far steps are apart at least.
    apart: Mass,
}

impl Climb<'_> {
    /// The best ways over one more rung, and those that leave it out.
    fn next(&self, ways: &[Way], rung: Rung) -> Vec<Way> {
        let mut next: Vec<Way> = Vec::new();
        for way in ways {
            next.push(Way { cost: way.cost + A_STEP, ..way.clone() });
            if way.steps.is_empty() && self.bare > Mass::ZERO {
                // Nothing is as little trouble as the empty bar, and nothing is lighter.
                let off = (self.off(self.bare, rung) - WINDOW).max(0.0);
                if self.fits(self.bare, way) {
                    next.push(self.stepped(way, &[], self.bare, rung, off));
                }
            }
            self.add(way, rung, 0, &mut Vec::new(), way.total, &mut next);
        }
        next.sort_by(|one, other| one.cost.total_cmp(&other.cost));
        // With no step at all the work set can always be made.
        let none = next.iter().position(|way| way.hung.is_empty()).filter(|at| *at >= WAYS);
        let none = none.and_then(|at| next.get(at).cloned());
        next.truncate(WAYS);
        next.extend(none);
        next
    }

    /// Every step that hangs a few plates more, the heaviest of them inside.
    fn add(&self, way: &Way, rung: Rung, from: usize, on: &mut Vec<usize>, total: Mass, next: &mut Vec<Way>) {
        let off = self.off(total, rung);
        if !on.is_empty() && off <= WINDOW && self.fits(total, way) {
            next.push(self.stepped(way, on, total, rung, off));
        }
        if on.len() == MOST_AT_ONCE {
            return;
        }
        for (kind, plate) in self.kinds.iter().enumerate().skip(from) {
            let heavier = total + plate.mass.times(2);
            if self.share(heavier) > f64::from(rung.percent) + WINDOW || !self.is_left(plate, kind, &way.hung, on) {
                continue;
            }
            on.push(kind);
            self.add(way, rung, kind, on, heavier, next);
            on.pop();
        }
    }

    /// Whether the gym has one more pair of a plate.
    fn is_left(&self, plate: &Plate, kind: usize, hung: &[usize], on: &[usize]) -> bool {
        let taken = hung.iter().chain(on).filter(|known| **known == kind).count();
        plate.pairs.is_none_or(|pairs| taken < pairs as usize)
    }

    /// Whether a load lies far enough above the step before and below the work set.
    fn fits(&self, total: Mass, way: &Way) -> bool {
        let before = way.steps.last().map(|(_, before, _)| *before);
        before.is_none_or(|before| total >= before + self.apart) && total + self.apart <= self.work
    }

    fn stepped(&self, way: &Way, on: &[usize], total: Mass, rung: Rung, off: f64) -> Way {
        let mut stepped = way.clone();
        stepped.hung.extend(on);
        stepped.total = total;
        stepped.steps.push((stepped.hung.len(), total, rung.reps));
        // Kinds stand heaviest first.
        let falls = on.first().is_some_and(|first| way.hung.last().is_some_and(|last| last > first));
        stepped.cost += off + A_PLATE * on.len() as f64 + if falls { OUT_OF_ORDER } else { 0.0 };
        stepped
    }

    /// A load in percent of the work set.
    fn share(&self, total: Mass) -> f64 {
        total.in_kilograms() / self.work.in_kilograms().max(f64::MIN_POSITIVE) * 100.0
    }

    fn off(&self, total: Mass, rung: Rung) -> f64 {
        (self.share(total) - f64::from(rung.percent)).abs()
    }

    /// The way with its last plates, and what it costs in all; nothing where the plates that are left do not make it.
    fn end(&self, way: &Way) -> Option<(f64, Ladder)> {
        let missing = self.work - way.total;
        let left = self.kinds.iter().enumerate().map(|(kind, plate)| {
            let taken = way.hung.iter().filter(|known| **known == kind).count() as u32;
            Plate { pairs: plate.pairs.map(|pairs| pairs.saturating_sub(taken)), ..(*plate).clone() }
        });
        let left: Vec<Plate> = left.collect();
        let on = match missing {
            Mass::ZERO => Vec::new(),
            _ => Loadable::of(missing, Mass::ZERO, &left).side(missing)?,
        };
        let side = |count: usize| -> Vec<Plate> {
            way.hung.iter().take(count).filter_map(|kind| self.kinds.get(*kind).map(|plate| (*plate).clone())).collect()
        };
        let steps =
            way.steps.iter().map(|(count, total, reps)| LadderStep { total: *total, reps: *reps, side: side(*count) });
        let work = side(way.hung.len()).into_iter().chain(on.iter().cloned()).collect();
        let mass = |kind: &usize| self.kinds.get(*kind).map(|plate| plate.mass);
        let falls =
            on.first().is_some_and(|first| way.hung.last().and_then(mass).is_some_and(|last| last < first.mass));
        let order = if falls { OUT_OF_ORDER } else { 0.0 };
        Some((way.cost + A_PLATE * on.len() as f64 + order, Ladder { steps: steps.collect(), work }))
    }
}

#[cfg(test)]
mod tests;
