//! In which order the sections of two versions stand: that of ours, and what theirs have more of behind the section that it
//! follows there. What both added in one place goes by date.

use super::parts::Node;
use chrono::NaiveDate;

/// The nodes in order. `ours` and `theirs` are the nodes of each version in its own order.
pub(super) fn order(
    nodes: &[Node],
    ours: &[usize],
    theirs: &[usize],
    date: impl Fn(&Node) -> Option<NaiveDate>,
) -> Vec<usize> {
    let base = |node: &usize| nodes.get(*node).and_then(|node| node.base);
    let moved = |side: &[usize]| !side.iter().filter_map(base).is_sorted();
    // Who alone moved sections meant to.
    let (frame, other) = if moved(theirs) && !moved(ours) { (theirs, ours) } else { (ours, theirs) };
    let dates: Vec<Option<NaiveDate>> = nodes.iter().map(date).collect();
    let date = |node: &usize| dates.get(*node).copied().flatten();
    let known: Vec<NaiveDate> = frame.iter().filter_map(date).collect();
    let newest_first = known.windows(2).filter(|pair| pair.first() > pair.last()).count() * 2 > known.len();
    let mut behind: Vec<Option<NaiveDate>> = vec![None; nodes.len()];
    for side in [frame, other] {
        let mut next = None;
        for node in side.iter().rev() {
            // A block's heading goes before the sessions that were added with it.
            let own = date(node).or(next);
            if let Some(place) = behind.get_mut(*node) {
                *place = own;
            }
            next = own.filter(|_| base(node).is_none());
        }
    }
    let after = |new: &usize, there: &usize| {
        let date = |node: &usize| behind.get(*node).copied().flatten();
        match (date(there), date(new)) {
            (_, None) => true,
            (None, Some(_)) => false,
            (Some(there), Some(new)) => {
                if newest_first {
                    there >= new
                } else {
                    there <= new
                }
            }
        }
    };
    let mut placed = vec![false; nodes.len()];
    let mut place = |node: usize| placed.get_mut(node).is_some_and(|placed| !std::mem::replace(placed, true));
    let mut order: Vec<usize> = frame.iter().copied().filter(|node| place(*node)).collect();
    let added: Vec<bool> = {
        let mut in_other = vec![false; nodes.len()];
        other.iter().for_each(|node| in_other.get_mut(*node).into_iter().for_each(|there| *there = true));
        (0..nodes.len()).map(|node| base(&node).is_none() && in_other.get(node) == Some(&false)).collect()
    };
    let mut before = None;
    for node in other {
        if place(*node) {
            let mut at = order.iter().position(|known| Some(known) == before).map_or(0, |at| at + 1);
            while order.get(at).is_some_and(|there| added.get(*there) == Some(&true) && after(node, there)) {
                at += 1;
            }
            order.insert(at, *node);
        }
        before = Some(node);
    }
    order
}
