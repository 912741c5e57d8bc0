//! From one load to the next: what comes off each side, and what goes on.

use super::{Loadable, Mass, Plate};
use std::cmp::{Ordering, Reverse};

/// What to do on each side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Plates that come off, the outermost first.
    pub off: Vec<Plate>,
    /// Plates that go on, in this order.
    pub on: Vec<Plate>,
    /// What hangs then, from the inside out.
    pub side: Vec<Plate>,
}

impl Change {
    /// How many plates are moved on each side: one that comes off and goes back on is moved twice.
    pub fn moved(&self) -> usize {
        self.off.len() + self.on.len()
    }

    /// Whether no plate hangs outside a lighter one.
    fn is_ordered(&self) -> bool {
        self.side.is_sorted_by_key(|plate| Reverse(plate.mass))
    }

    /// The better of two changes to the same load first.
    fn compare(&self, other: &Change) -> Ordering {
        let masses = |change: &Change| change.side.iter().map(|plate| plate.mass).collect::<Vec<_>>();
        (self.moved(), !self.is_ordered(), self.side.len(), Reverse(masses(self))).cmp(&(
            other.moved(),
            !other.is_ordered(),
            other.side.len(),
            Reverse(masses(other)),
        ))
    }
}

/// The change with the fewest plates moved.
///
/// A plate comes off only after all that hang outside it, and what goes on goes on outside what stayed, so a
/// heavier plate may come to hang outside a lighter one. Of changes that move equally few plates the one
/// after which none does is taken, then the one that leaves fewer plates on the bar, then the one with the
/// heavier plates inside. `hung` is what hangs on each side now, from the inside out; `both_sides` is what
/// the plates of both sides are to weigh together. Plates that hang are there, whatever the gym says it
/// owns. Nothing where the plates cannot make it.
pub fn change_the_side(hung: &[Plate], both_sides: Mass, owned: &[Plate]) -> Option<Change> {
    let stock = Stock::of(hung, owned);
    let mut best: Option<Change> = None;
    for kept in (0..=hung.len()).rev() {
        let (stays, comes_off) = hung.split_at_checked(kept)?;
        if best.as_ref().is_some_and(|best| comes_off.len() > best.moved()) {
            break;
        }
        let missing = both_sides - stays.iter().fold(Mass::ZERO, |sum, plate| sum + plate.mass.times(2));
        if missing.is_negative() {
            continue;
        }
        let free = stock.without(kept);
        let lightest = stays.iter().map(|plate| plate.mass).min();
        let lighter: Vec<Plate> =
            free.iter().filter(|plate| lightest.is_none_or(|least| plate.mass <= least)).cloned().collect();
        for plates in [&lighter, &free] {
            let Some(on) = Loadable::of(missing, Mass::ZERO, plates).side(missing) else { continue };
            let change = Change {
                off: comes_off.iter().rev().cloned().collect(),
                side: stays.iter().chain(&on).cloned().collect(),
                on,
            };
            if best.as_ref().is_none_or(|best| change.compare(best).is_lt()) {
                best = Some(change);
            }
        }
    }
    best
}

/// What there is to hang: what the gym owns, and what hangs already.
struct Stock {
    plates: Vec<Plate>,
    /// Of each plate that hangs, which kind of the stock it is.
    hung: Vec<usize>,
}

impl Stock {
    fn of(hung: &[Plate], owned: &[Plate]) -> Self {
        let mut stock = Stock { plates: owned.to_vec(), hung: Vec::new() };
        for plate in hung {
            let same = |known: &&(usize, &Plate)| known.1.mass == plate.mass;
            let left = |known: &&(usize, &Plate)| known.1.pairs.is_none_or(|pairs| stock.taken(known.0) < pairs);
            let alike = |known: &&(usize, &Plate)| known.1.colour == plate.colour;
            let known: Vec<(usize, &Plate)> = stock.plates.iter().enumerate().collect();
            let kind = known.iter().filter(same).filter(left).find(alike);
            let kind = kind.or(known.iter().filter(same).find(left)).or(known.iter().find(same)).map(|known| known.0);
            let kind = kind.unwrap_or_else(|| {
                stock.plates.push(Plate { pairs: Some(0), ..plate.clone() });
                stock.plates.len() - 1
            });
            stock.hung.push(kind);
            let taken = stock.taken(kind);
            if let Some(plate) = stock.plates.get_mut(kind) {
                plate.pairs = plate.pairs.map(|pairs| pairs.max(taken));
            }
        }
        stock
    }

    /// How many plates of a kind hang on each side.
    fn taken(&self, kind: usize) -> u32 {
        taken(&self.hung, kind)
    }

    /// What can be put on while the innermost `kept` plates stay.
    fn without(&self, kept: usize) -> Vec<Plate> {
        let stays = self.hung.get(..kept).unwrap_or(&self.hung);
        let free = self.plates.iter().enumerate().map(|(kind, plate)| Plate {
            pairs: plate.pairs.map(|pairs| pairs.saturating_sub(taken(stays, kind))),
            ..plate.clone()
        });
        free.collect()
    }
}

fn taken(hung: &[usize], kind: usize) -> u32 {
    u32::try_from(hung.iter().filter(|known| **known == kind).count()).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests;
