//! Which plates make a load.

use super::plate_sums::{Pairs, PlateSums};
use super::{Bar, Gear, Mass, Plate, Unit};

/// A bar that is loaded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loading {
    /// Everything: bar, collars, and plates on both sides.
    pub total: Mass,
    /// The plates of each side, heaviest first.
    pub side: Vec<Plate>,
}

/// How near the gym's plates come to a load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fit {
    /// They make it.
    Exact(Loading),
    /// They do not.
    Between {
        /// The heaviest lighter load; nothing where the bare bar is heavier already.
        below: Option<Loading>,
        /// The lightest heavier load; nothing where the plates run out before.
        above: Option<Loading>,
    },
}

/// Every load that can be hung on a bar, ready to be asked many times.
///
/// Both sides are loaded alike. Of all the ways to make a load the one with the fewest plates is taken, and
/// of equally few the one whose heaviest plate is heavier, then the second heaviest, and so on. Of plates
/// alike in mass, those that stand first in the settings. Collars count with the bar.
///
/// Kilo pairs and pound pairs are summed apart, and a load is one sum of each: no two pairs of sums come to
/// the same load, for a whole number of thousandths of a pound is one of thousandths of a kilogram only
/// from 100,000 lb on. Each of the two tables is short, so asking is a walk through the shorter one.
#[derive(Clone, Debug)]
pub struct Loadable {
    /// Bar and collars.
    bare: Mass,
    /// Kinds of plates, heaviest first.
    plates: Vec<Plate>,
    few: PlateSums,
    many: PlateSums,
    /// The heaviest load they are made for.
    most: Mass,
}

impl Loadable {
    /// Makes the tables for a bar with the gym's collars and plates, for any load.
    pub fn new(bar: &Bar, gear: &Gear) -> Self {
        Loadable::up_to(Loadable::most(), bar, gear)
    }

    /// The same for loads up to `most`, and no more than [`Loadable::most`].
    pub fn up_to(most: Mass, bar: &Bar, gear: &Gear) -> Self {
        Loadable::of(most.min(Loadable::most()), bar.mass + gear.collars, &gear.plates)
    }

    /// The heaviest load that may be asked for, 1000 kg: no bar holds more, and somewhere the plates must
    /// end where the gym has enough of them (common practice, no source).
    pub fn most() -> Mass {
        Mass::kg(1000)
    }

    /// The tables for loads up to `most` on something that weighs `bare`.
    pub(super) fn of(most: Mass, bare: Mass, plates: &[Plate]) -> Self {
        let mut plates: Vec<Plate> =
            plates.iter().filter(|plate| plate.mass > Mass::ZERO && plate.pairs != Some(0)).cloned().collect();
        plates.sort_by_key(|plate| std::cmp::Reverse(plate.mass));
        // The lightest load above the heaviest one asked for is less than one pair away from it.
        let limit = most - bare + plates.first().map_or(Mass::ZERO, |plate| plate.mass.times(2));
        let sums = |unit: Unit| {
            let lightest_first = (0u32..).zip(&plates).collect::<Vec<_>>().into_iter().rev();
            let pairs = lightest_first.filter(|(_, plate)| plate.mass.unit() == unit).map(|(kind, plate)| Pairs {
                kind,
                mass: plate.mass.times(2),
                count: plate.pairs.unwrap_or(u32::MAX),
            });
            PlateSums::of(pairs, limit)
        };
        let (kilos, pounds) = (sums(Unit::Kg), sums(Unit::Lb));
        let (few, many) = if pounds.len() < kilos.len() { (pounds, kilos) } else { (kilos, pounds) };
        Loadable { bare, plates, few, many, most }
    }

    /// How near the plates come to a load.
    pub fn fit(&self, total: Mass) -> Fit {
        let (below, above) = (self.below(total), self.above(total));
        match below {
            Some(below) if below == total => Fit::Exact(self.loading(below)),
            _ => Fit::Between {
                below: below.map(|total| self.loading(total)),
                above: above.map(|total| self.loading(total)),
            },
        }
    }

    /// The heaviest load that is not above this one; nothing where the bare bar is. More than the tables
    /// were made for is taken as their limit.
    pub fn below(&self, total: Mass) -> Option<Mass> {
        let wanted = total.min(self.most) - self.bare;
        let few = self.few.masses().take_while(|few| *few <= wanted);
        few.filter_map(|few| Some(few + self.many.not_above(wanted - few)?)).max().map(|hung| self.bare + hung)
    }

    /// The lightest load that is not below this one; nothing where the plates run out. More than the
    /// tables were made for is taken as their limit.
    pub fn above(&self, total: Mass) -> Option<Mass> {
        let wanted = total.min(self.most) - self.bare;
        let sums = self.few.masses().filter_map(|few| Some(few + self.many.not_below(wanted - few)?));
        sums.min().map(|hung| self.bare + hung)
    }

    /// The nearest load there is. Of two equally near ones the lighter: it is never the riskier one.
    pub fn nearest(&self, total: Mass) -> Mass {
        match (self.below(total), self.above(total)) {
            (Some(below), Some(above)) if above.apart(total) < below.apart(total) => above,
            (Some(below), _) => below,
            (None, above) => above.unwrap_or(self.bare),
        }
    }

    /// The plates of each side for a load, heaviest first; nothing where it cannot be made exactly.
    pub fn side(&self, total: Mass) -> Option<Vec<Plate>> {
        let hung = total - self.bare;
        self.few.masses().find_map(|few| {
            let mut made_of = self.many.made_of(hung - few)?;
            made_of.extend(self.few.made_of(few)?);
            made_of.sort_unstable_by_key(|(kind, _)| *kind);
            let plates = made_of.into_iter().filter_map(|(kind, count)| Some((self.plates.get(kind as usize)?, count)));
            Some(plates.flat_map(|(plate, count)| (0..count).map(|_| plate.clone())).collect())
        })
    }

    fn loading(&self, total: Mass) -> Loading {
        Loading { total, side: self.side(total).unwrap_or_default() }
    }
}

#[cfg(test)]
mod tests;
