//! The room of published knowledge against what is published: `tests/data/published.csv` has the figures with their
//! sources, each file here reads its own, and a figure that nobody reads fails.

mod attempts;
mod cautions;
mod effort_scale;
mod equation;
mod laws;
mod normal;
mod points;
mod published;
mod rating_error;
mod reps_at_percent;
mod statistics;
mod strength;
mod taper;
mod units;
mod volume;

use std::collections::{BTreeSet, HashMap};

#[test]
fn every_published_figure_is_read_by_one_test() {
    let readers = [
        attempts::READERS,
        cautions::READERS,
        effort_scale::READERS,
        equation::READERS,
        normal::READERS,
        points::READERS,
        rating_error::READERS,
        reps_at_percent::READERS,
        statistics::READERS,
        taper::READERS,
        units::READERS,
        volume::READERS,
    ];
    let mut readers_of: HashMap<&str, usize> = HashMap::new();
    readers.iter().flat_map(|list| list.iter()).for_each(|(topic, _)| *readers_of.entry(topic).or_default() += 1);
    let rows = published::rows();
    for row in &rows {
        assert_eq!(readers_of.get(row.group()), Some(&1), "line {}: {}", row.line, row.topic);
        assert!(!row.source.is_empty(), "line {}: no source", row.line);
    }
    let groups: BTreeSet<&str> = rows.iter().map(|row| row.group()).collect();
    for topic in readers_of.keys() {
        assert!(groups.contains(topic), "{topic}: nothing to read");
    }
}
