//! Every mass that some plates can come to, with the fewest plates that make it.

use super::Mass;
use std::cmp::Ordering;

/// Pairs of one kind of plate.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pairs {
    /// The number by which whoever asks knows the kind.
    pub(super) kind: u32,
    /// What one pair weighs.
    pub(super) mass: Mass,
    /// How many there are.
    pub(super) count: u32,
}

/// The sums of some pairs: rising, each once, each with its fewest pairs. Of equally few, those with the
/// heavier plates first.
///
/// A sum is kept once, however many ways lead to it. So of plates that are all whole thousandths of one
/// unit there are never more sums than thousandths up to the limit, and with real plates a few hundred.
#[derive(Clone, Debug)]
pub(super) struct PlateSums {
    sums: Vec<Sum>,
    /// What the sums are made of; each piece names the one below it.
    pieces: Vec<Piece>,
}

/// There may be a great many sums and pieces, so they are kept small.
#[derive(Clone, Copy, Debug)]
struct Sum {
    mass: Mass,
    pairs: u32,
    /// How many of them are of the kind being added.
    of_this_kind: u32,
    /// The last piece it is made of, counted from 1; 0 for none.
    top: u32,
}

/// Some pairs of one kind, put to what was there before.
#[derive(Clone, Copy, Debug)]
struct Piece {
    kind: u32,
    count: u32,
    /// Counted from 1; 0 for none.
    below: u32,
}

impl PlateSums {
    /// All sums of these pairs up to a limit. The kinds must come lightest first: of two ways with equally
    /// few pairs the one with more of the later kind is kept.
    pub(super) fn of(kinds: impl IntoIterator<Item = Pairs>, limit: Mass) -> Self {
        let nothing = Sum { mass: Mass::ZERO, pairs: 0, of_this_kind: 0, top: 0 };
        let mut all = PlateSums { sums: vec![nothing], pieces: Vec::new() };
        for kind in kinds {
            for sum in &mut all.sums {
                sum.of_this_kind = 0;
            }
            // Lots of 1, 2, 4, … and what is left make up every number of pairs in few steps.
            let (mut left, mut lot) = (kind.count.min(limit.holds(kind.mass)), 1);
            while left > 0 {
                let count = lot.min(left);
                all.add(kind, count, limit);
                left -= count;
                lot = lot.saturating_mul(2);
            }
        }
        all
    }

    /// Adds a lot of pairs that is taken whole or not at all.
    fn add(&mut self, kind: Pairs, count: u32, limit: Mass) {
        let lot = kind.mass.times(count);
        let old = std::mem::take(&mut self.sums);
        let mut without = old.iter().copied().peekable();
        let mut with = old
            .iter()
            .map(|sum| Sum {
                mass: sum.mass + lot,
                pairs: sum.pairs + count,
                of_this_kind: sum.of_this_kind + count,
                ..*sum
            })
            .take_while(|sum| sum.mass <= limit)
            .peekable();
        loop {
            let order = match (without.peek(), with.peek()) {
                (None, None) => break,
                (Some(_), None) => Ordering::Less,
                (None, Some(_)) => Ordering::Greater,
                (Some(one), Some(other)) => one.mass.cmp(&other.mass),
            };
            let one = if order.is_le() { without.next() } else { None };
            let other = if order.is_ge() { with.next() } else { None };
            let better = |sum: &Sum| {
                one.is_none_or(|one| {
                    sum.pairs < one.pairs || (sum.pairs == one.pairs && sum.of_this_kind > one.of_this_kind)
                })
            };
            match other.filter(better) {
                Some(mut sum) => {
                    self.pieces.push(Piece { kind: kind.kind, count, below: sum.top });
                    sum.top = self.pieces.len() as u32;
                    self.sums.push(sum);
                }
                None => self.sums.extend(one),
            }
        }
    }

    /// How many sums there are.
    pub(super) fn len(&self) -> usize {
        self.sums.len()
    }

    /// The sums, rising.
    pub(super) fn masses(&self) -> impl Iterator<Item = Mass> {
        self.sums.iter().map(|sum| sum.mass)
    }

    /// The greatest sum that is not above a mass.
    pub(super) fn not_above(&self, mass: Mass) -> Option<Mass> {
        let at = self.sums.partition_point(|sum| sum.mass <= mass);
        self.sums.get(at.checked_sub(1)?).map(|sum| sum.mass)
    }

    /// The smallest sum that is not below a mass.
    pub(super) fn not_below(&self, mass: Mass) -> Option<Mass> {
        self.sums.get(self.sums.partition_point(|sum| sum.mass < mass)).map(|sum| sum.mass)
    }

    /// The kinds that make a sum and how many pairs of each; the same kind may come more than once. Nothing
    /// where it is none of the sums.
    pub(super) fn made_of(&self, mass: Mass) -> Option<Vec<(u32, u32)>> {
        let at = self.sums.binary_search_by(|sum| sum.mass.cmp(&mass)).ok()?;
        let mut piece = self.sums.get(at)?.top;
        let mut made_of = Vec::new();
        while let Some(one) = (piece as usize).checked_sub(1).and_then(|at| self.pieces.get(at)) {
            made_of.push((one.kind, one.count));
            piece = one.below;
        }
        Some(made_of)
    }
}
