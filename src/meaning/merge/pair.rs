//! Which sections of two versions are the same one: first those of the same text; then those that stand in order between
//! two of these, where each has its heading or its lines; then those of the same heading, in order; then a date's only
//! session, whatever else its heading says; at last a session beside a paired one that has the lines of the other.

use super::parts::{Node, date};
use crate::notation::{Section, Title};
use crate::training::fold;
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
    if by_date {
        pairs.in_gaps(from, to);
    }
    pairs.add(from, to, false, |section| Some(&section.title));
    if by_date {
        pairs.add(from, to, true, date);
        pairs.beside(from, to);
    }
    pairs.of
}

/// Whether one is the other on another day: sessions of one label, half of whose lines or more are the same.
fn is_moved(one: &Section<'_>, other: &Section<'_>) -> bool {
    let (Title::Session(this), Title::Session(that)) = (&one.title, &other.title) else { return false };
    let label = |day: Option<&str>| day.map(fold);
    if (label(this.day), this.meet) != (label(that.day), that.meet) {
        return false;
    }
    let lines = |section: &Section<'_>| -> HashMap<String, usize> {
        let mut lines = HashMap::new();
        for line in section.text.lines().skip(1).map(str::trim).filter(|line| !line.is_empty()) {
            *lines.entry(line.to_owned()).or_default() += 1;
        }
        lines
    };
    let (mine, yours) = (lines(one), lines(other));
    let shared: usize = mine.iter().map(|(line, count)| yours.get(line).map_or(0, |more| *count.min(more))).sum();
    let most = mine.values().sum::<usize>().max(yours.values().sum());
    most > 0 && shared * 2 >= most
}

struct Pairs {
    of: Vec<Option<usize>>,
    taken: Vec<bool>,
}

impl Pairs {
    fn pair(&mut self, from: usize, to: usize) {
        if let (Some(of), Some(taken)) = (self.of.get_mut(to), self.taken.get_mut(from)) {
            (*of, *taken) = (Some(from), true);
        }
    }

    /// Pairs in order what stands between two sections that are paired, where it is as many in both versions and each has
    /// the heading of its pair or its lines: days that were moved one after the other, perhaps each to the day of the next.
    fn in_gaps(&mut self, from: &[Section<'_>], to: &[Section<'_>]) {
        let mut anchors: Vec<(usize, usize)> =
            self.of.iter().enumerate().filter_map(|(at, pair)| Some(((*pair)?, at))).collect();
        if !anchors.iter().map(|(from, _)| from).is_sorted() {
            return;
        }
        anchors.push((from.len(), to.len()));
        let (mut first, mut second) = (0, 0);
        for (from_end, to_end) in anchors {
            let gap: Vec<(usize, usize)> = (first..from_end).zip(second..to_end).collect();
            let is_same = |(one, other): &(usize, usize)| {
                let both = from.get(*one).zip(to.get(*other));
                both.is_some_and(|(one, other)| one.title == other.title || is_moved(one, other))
            };
            if from_end - first == to_end - second && gap.iter().all(is_same) {
                gap.into_iter().for_each(|(one, other)| self.pair(one, other));
            }
            (first, second) = (from_end + 1, to_end + 1);
        }
    }

    /// Pairs a session with one on another day, beside which stands what stood beside the first.
    fn beside(&mut self, from: &[Section<'_>], to: &[Section<'_>]) {
        for (at, section) in to.iter().enumerate().filter(|(_, section)| date(section).is_some()) {
            if self.of.get(at) != Some(&None) {
                continue;
            }
            let before = at.checked_sub(1).and_then(|at| *self.of.get(at)?).map(|pair| pair + 1);
            let after = self.of.get(at + 1).and_then(|pair| pair.as_ref()?.checked_sub(1));
            let free = |pair: &usize| {
                self.taken.get(*pair) == Some(&false) && from.get(*pair).is_some_and(|one| is_moved(one, section))
            };
            if let Some(pair) = before.into_iter().chain(after).find(free) {
                self.pair(pair, at);
            }
        }
    }

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
