//! The blocks of all pages: which headings define one, which only name one, and which days each holds.

use super::page_log::PageBlock;
use crate::problems::{Problem, ProblemKind as K};
use crate::source::PageId;
use crate::training::{Block, BlockId, LiftId, Load, fold};
use chrono::{Days, NaiveDate};
use std::collections::HashMap;

/// Blocks in order of time, and how to find one.
#[derive(Debug, Default)]
pub(crate) struct Blocks {
    pub(crate) all: Vec<Block>,
    by_name: HashMap<String, BlockId>,
}

/// A block's heading with its page.
pub(crate) struct Placed {
    pub(crate) page: PageId,
    pub(crate) block: PageBlock,
    /// The maxima with the lifts of the whole log.
    pub(crate) maxima: Vec<(LiftId, Load)>,
}

impl Blocks {
    /// Orders the blocks of all pages, which come in order of page and line. Gives the number of lines that
    /// an error costs.
    pub(crate) fn of(
        placed: Vec<Placed>,
        path: impl Fn(PageId) -> String,
        problems: &mut Vec<(PageId, Problem)>,
    ) -> (Self, u32) {
        let mut left_out = 0;
        let mut first_of: HashMap<String, (PageId, u32)> = HashMap::new();
        let mut defined: Vec<Placed> = Vec::new();
        let mut undefined: Vec<Placed> = Vec::new();
        for placed in placed {
            if placed.block.starts.is_none() {
                undefined.push(placed);
                continue;
            }
            let name = fold(&placed.block.name);
            if let Some((page, line)) = first_of.get(&name) {
                let first = format!("{}:{line}", path(*page));
                let kind = K::BlockTwice { name: placed.block.name.clone(), first };
                problems.push((placed.page, Problem::new(kind, placed.block.span)));
                left_out += 1;
                continue;
            }
            first_of.insert(name, (placed.page, placed.block.line));
            defined.push(placed);
        }
        for placed in undefined {
            // A heading whose start is written but cannot be read has had its problem already.
            let known = first_of.contains_key(&fold(&placed.block.name));
            if !known && placed.block.has_keys && !placed.block.start_written {
                let kind = K::BlockWithoutStart { name: placed.block.name.clone() };
                problems.push((placed.page, Problem::new(kind, placed.block.span)));
                left_out += 1;
            }
        }
        defined.sort_by_key(|placed| placed.block.starts);
        let starts: Vec<Option<NaiveDate>> = defined.iter().map(|placed| placed.block.starts).collect();
        let mut blocks = Blocks::default();
        let mut spans = Vec::new();
        for Placed { page, block, maxima } in defined {
            let Some(first) = block.starts else { continue };
            let next = starts.get(starts.partition_point(|start| *start <= Some(first))).copied().flatten();
            let ends = match block.weeks {
                Some(weeks) => {
                    first.checked_add_days(Days::new(u64::from(weeks) * 7)).and_then(|after| after.pred_opt())
                }
                None => next.and_then(|next| next.pred_opt()),
            };
            blocks.by_name.insert(fold(&block.name), BlockId(blocks.all.len() as u32));
            spans.push((page, block.span));
            blocks.all.push(Block {
                name: block.name,
                starts: first,
                ends,
                phase: block.phase,
                goal: block.goal,
                deload: block.deload.unwrap_or_default(),
                peak: block.peak.unwrap_or_default(),
                maxima,
                page,
                line: block.line,
            });
        }
        blocks.overlaps(&spans, problems);
        (blocks, left_out)
    }

    /// An error at the later block's heading for every block that begins before an earlier one ends.
    fn overlaps(&self, spans: &[(PageId, crate::source::Span)], problems: &mut Vec<(PageId, Problem)>) {
        let mut latest: Option<&Block> = None;
        for (block, (page, span)) in self.all.iter().zip(spans) {
            if let Some(earlier) = latest.filter(|earlier| earlier.holds(block.starts)) {
                let kind = K::BlockOverlap {
                    name: block.name.clone(),
                    other: earlier.name.clone(),
                    from: block.starts.to_string(),
                };
                problems.push((*page, Problem::new(kind, *span)));
            }
            // An open end reaches only to the next block, so it never overlaps.
            let reaches = |block: &Block| block.ends.unwrap_or(block.starts);
            if latest.is_none_or(|earlier| reaches(earlier) <= reaches(block)) {
                latest = Some(block);
            }
        }
    }

    /// The block that holds a day; of two, the later one.
    pub(crate) fn on(&self, date: NaiveDate) -> Option<BlockId> {
        let started = self.all.partition_point(|block| block.starts <= date);
        let holding = self.all.get(..started)?.iter().rposition(|block| block.holds(date))?;
        Some(BlockId(holding as u32))
    }

    /// The block of a name.
    pub(crate) fn named(&self, name: &str) -> Option<BlockId> {
        self.by_name.get(&fold(name)).copied()
    }

    pub(crate) fn get(&self, id: BlockId) -> Option<&Block> {
        self.all.get(id.0 as usize)
    }
}
