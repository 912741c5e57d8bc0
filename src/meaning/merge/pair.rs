//! Which sections of two versions are the same one: first those of the same text, then those of the same heading, in
//! order; then a date's only session, whatever else its heading says.

use super::parts::{Node, date};
use crate::notation::{Section, Title};
use std::collections::{HashMap, VecDeque};
use std::hash::Hash;

/// The sections of all versions, and where each of ours and of theirs is among them.
pub(super) fn nodes(
    base: &[Section<'_>],
    ours: &[Section<'_>],
    theirs: &[Section<'_>],
) -> (Vec<Node>, Vec<usize>, Vec<usize>) {
    let mut nodes: Vec<Node> = (0..base.len()).map(|at| Node { base: Some(at), ours: None, theirs: None }).collect();
    let mut our_nodes = Vec::with_capacity(ours.len());
    for (at, pair) in pairs(base, ours, true).into_iter().enumerate() {
        let node = pair.unwrap_or(nodes.len());
        match nodes.get_mut(node) {
            Some(known) => known.ours = Some(at),
            None => nodes.push(Node { base: None, ours: Some(at), theirs: None }),
        }
        our_nodes.push(node);
    }
    let of_base = pairs(base, theirs, true);
    // What both added may be one section, whose date alone does not tell.
    let (new_ours, our_new): (Vec<usize>, Vec<Section<'_>>) =
        our_nodes.iter().copied().zip(ours.iter().cloned()).filter(|(node, _)| *node >= base.len()).unzip();
    let (new_theirs, their_new): (Vec<usize>, Vec<Section<'_>>) =
        theirs.iter().cloned().enumerate().filter(|(at, _)| of_base.get(*at) == Some(&None)).unzip();
    let of_ours = pairs(&our_new, &their_new, false);
    let mut of_ours: HashMap<usize, usize> =
        new_theirs.into_iter().zip(of_ours).filter_map(|(at, pair)| Some((at, *new_ours.get(pair?)?))).collect();
    let mut their_nodes = Vec::with_capacity(theirs.len());
    for (at, pair) in of_base.into_iter().enumerate() {
        let node = pair.or_else(|| of_ours.remove(&at)).unwrap_or(nodes.len());
        match nodes.get_mut(node) {
            Some(known) => known.theirs = Some(at),
            None => nodes.push(Node { base: None, ours: None, theirs: Some(at) }),
        }
        their_nodes.push(node);
    }
    (nodes, our_nodes, their_nodes)
}

/// For each section of `to` the one of `from` that it is.
fn pairs<'a>(from: &[Section<'a>], to: &[Section<'a>], by_date: bool) -> Vec<Option<usize>> {
    let mut pairs = Pairs { of: vec![None; to.len()], taken: vec![false; from.len()] };
    pairs.add(from, to, false, |section| (section.title != Title::Head).then_some(section.text));
    pairs.add(from, to, false, |section| Some(&section.title));
    if by_date {
        pairs.add(from, to, true, date);
    }
    pairs.of
}

struct Pairs {
    of: Vec<Option<usize>>,
    taken: Vec<bool>,
}

impl Pairs {
    /// Pairs what has no pair yet and the same key, in order; with `alone` only where both have but one of it.
    fn add<'s, 'a: 's, K: Eq + Hash>(
        &mut self,
        from: &'s [Section<'a>],
        to: &'s [Section<'a>],
        alone: bool,
        key: impl Fn(&'s Section<'a>) -> Option<K>,
    ) {
        let mut free: HashMap<K, VecDeque<usize>> = HashMap::new();
        for (at, section) in from.iter().enumerate().filter(|(at, _)| self.taken.get(*at) == Some(&false)) {
            if let Some(key) = key(section) {
                free.entry(key).or_default().push_back(at);
            }
        }
        let mut wanted: HashMap<K, usize> = HashMap::new();
        for (section, _) in to.iter().zip(&self.of).filter(|(_, pair)| pair.is_none()) {
            if let Some(key) = key(section) {
                *wanted.entry(key).or_default() += 1;
            }
        }
        for (section, pair) in to.iter().zip(&mut self.of).filter(|(_, pair)| pair.is_none()) {
            let Some(key) = key(section) else { continue };
            let Some(same) = free.get_mut(&key) else { continue };
            if alone && (same.len() != 1 || wanted.get(&key) != Some(&1)) {
                continue;
            }
            *pair = same.pop_front();
            if let Some(taken) = pair.and_then(|at| self.taken.get_mut(at)) {
                *taken = true;
            }
        }
    }
}
