//! Work sets by how hard they were.

use crate::history::History;
use crate::training::{BlockId, Effort};

/// The work sets of a block by how hard they were.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bands {
    /// The block's name.
    pub block: String,
    /// Sets in each of [`LABELS`].
    pub sets: [u32; LABELS.len()],
    /// Sets without an effort.
    pub unrated: u32,
}

/// The bands: a point of RPE each, from its whole number on.
pub const LABELS: [&str; 6] = ["<6", "6", "7", "8", "9", "10"];

impl Bands {
    /// Those of a block; nothing where none of its sets is rated.
    pub(super) fn of(history: &History<'_>, block: BlockId) -> Option<Bands> {
        let name = history.log.block(block)?.name.clone();
        let mut bands = Bands { block: name, sets: [0; LABELS.len()], unrated: 0 };
        let works = history.works().filter(|done| done.session.block == Some(block));
        for set in works.flat_map(|done| done.work_sets().collect::<Vec<_>>()) {
            match set.effort.and_then(|effort| bands.sets.get_mut(band(effort))) {
                Some(sets) => *sets += 1,
                None => bands.unrated += 1,
            }
        }
        bands.sets.iter().any(|sets| *sets > 0).then_some(bands)
    }
}

fn band(effort: Effort) -> usize {
    let whole = effort.value().floor() as usize;
    whole.saturating_sub(5).min(LABELS.len() - 1)
}
