//! What one page says, as far as it can be known without the others.

use super::back::Back;
use super::found::Found;
use crate::source::Span;
use crate::training::{Details, Group, GymId, Load, Mass, Pain, Remark, Status};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// How many lines of sessions were read as what.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Lines with sets that count.
    pub work: u32,
    /// Plans.
    pub planned: u32,
    /// Lines that hold no training.
    pub prose: u32,
}

impl std::ops::AddAssign for Tally {
    fn add_assign(&mut self, other: Tally) {
        self.work += other.work;
        self.planned += other.planned;
        self.prose += other.prose;
    }
}

/// A page read.
#[derive(Clone, Debug, Default)]
pub(crate) struct PageLog {
    pub(crate) blocks: Vec<PageBlock>,
    pub(crate) sessions: Vec<PageSession>,
    /// Lifts as written, by the numbers that works hold.
    pub(crate) lifts: Vec<PageLift>,
    pub(crate) percents: Vec<Percent>,
    pub(crate) problems: Found,
    /// Whether a line was refused that may name a lift of another page.
    pub(crate) waits: bool,
    /// Lines that an error costs.
    pub(crate) left_out: u32,
    /// Sessions below a heading that is no date are not counted.
    pub(crate) dated: u32,
    /// How many lines were read as what.
    pub(crate) tally: Tally,
    /// Where groups stand, for `check` only.
    pub(crate) places: Vec<Place>,
    /// Fixes that help only where the lift has a maximum, for `check` only.
    pub(crate) on_maxima: Vec<OnMaximum>,
}

impl PageLog {
    /// Puts every place back to where it stands in the page as it was typed.
    pub(crate) fn moved(&mut self, back: &Back) {
        let put = |span: &mut Span| {
            let (place, anew) = back.place(*span);
            *span = place;
            anew
        };
        self.problems.moved(put);
        self.on_maxima.iter_mut().for_each(|fix| {
            put(&mut fix.problem.0);
        });
        for place in &mut self.places {
            let anew = put(&mut place.name);
            put(&mut place.count);
            put(&mut place.load);
            if anew {
                place.side = Side::Unsaid;
            }
        }
        let blocks = self.blocks.iter_mut().map(|block| &mut block.span);
        let sessions = self.sessions.iter_mut().map(|session| &mut session.span);
        let percents = self.percents.iter_mut().map(|percent| &mut percent.span);
        let lifts = self.lifts.iter_mut().map(|lift| &mut lift.span);
        for span in blocks.chain(sessions).chain(percents).chain(lifts) {
            put(span);
        }
    }
}

/// A fix after which a percentage waits for its block's maximum.
#[derive(Clone, Debug)]
pub(crate) struct OnMaximum {
    /// The place of its problem, and the kind.
    pub(crate) problem: (Span, &'static str),
    pub(crate) session: usize,
    pub(crate) lift: u32,
}

/// A lift as a page writes it.
#[derive(Clone, Debug)]
pub(crate) struct PageLift {
    pub(crate) name: String,
    pub(crate) folded: String,
    pub(crate) bodyweight: bool,
    /// Whether the lift book or the settings have it.
    pub(crate) in_book: bool,
    /// Whether a line in the notation has sets of it.
    pub(crate) worked: bool,
    /// Where the page first writes it.
    pub(crate) span: Span,
    /// The earliest session with work on it: its name is the one that is shown.
    pub(crate) first: Option<(NaiveDate, Option<u16>)>,
}

/// A block as a page writes it.
#[derive(Clone, Debug, Default)]
pub(crate) struct PageBlock {
    pub(crate) name: String,
    pub(crate) span: Span,
    pub(crate) line: u32,
    pub(crate) has_keys: bool,
    /// Whether `starts:` is written, readable or not.
    pub(crate) start_written: bool,
    pub(crate) starts: Option<NaiveDate>,
    pub(crate) weeks: Option<u32>,
    pub(crate) phase: Option<String>,
    pub(crate) goal: Option<String>,
    pub(crate) deload: Option<Vec<u32>>,
    pub(crate) peak: Option<Vec<u32>>,
    pub(crate) maxima: Vec<(u32, Load)>,
}

/// A session as a page writes it.
#[derive(Clone, Debug)]
pub(crate) struct PageSession {
    pub(crate) date: NaiveDate,
    pub(crate) minute: Option<u16>,
    pub(crate) day: Option<Box<str>>,
    pub(crate) week: Option<u32>,
    pub(crate) block: Option<Box<str>>,
    pub(crate) deload: bool,
    pub(crate) peak: bool,
    pub(crate) test_day: bool,
    pub(crate) meet: Option<Box<str>>,
    pub(crate) gym: Option<GymId>,
    pub(crate) line: u32,
    pub(crate) span: Span,
    pub(crate) bodyweight: Option<Mass>,
    pub(crate) sleep: Option<u16>,
    pub(crate) duration: Option<u16>,
    pub(crate) rpe: Option<u32>,
    /// Whether prose stands in it.
    pub(crate) prose: bool,
    pub(crate) works: Vec<PageWork>,
    pub(crate) notes: Vec<Remark>,
    pub(crate) pains: Vec<Pain>,
}

/// A work line as a page writes it.
#[derive(Clone, Debug)]
pub(crate) struct PageWork {
    pub(crate) lift: u32,
    pub(crate) line: u32,
    pub(crate) status: Status,
    pub(crate) groups: Vec<Group>,
    /// Their other lift is the page's number for it until the pages are joined.
    pub(crate) details: Option<Box<Details>>,
}

/// A percentage that waits for its block's maximum.
#[derive(Clone, Debug)]
pub(crate) struct Percent {
    pub(crate) session: usize,
    pub(crate) work: usize,
    pub(crate) line: u32,
    pub(crate) span: Span,
    /// Taken over from a plan whose own line says what is missing.
    pub(crate) repeats: bool,
}

/// Where a work line or group stands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Place {
    pub(crate) line: u32,
    pub(crate) name: Span,
    pub(crate) count: Span,
    pub(crate) load: Span,
    /// How to say that the count is of each side.
    pub(crate) side: Side,
}

/// How to say that a count is of each side. There are as many as groups, so that they are kept small.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Side {
    /// Not by a fix.
    Unsaid,
    /// `/side` behind it.
    Behind,
    /// The same with a blank before what is glued to it.
    Parted,
}

impl Side {
    /// What to put after the count, where it can be said so.
    pub(crate) fn text(self) -> Option<&'static str> {
        match self {
            Side::Unsaid => None,
            Side::Behind => Some("/side"),
            Side::Parted => Some("/side "),
        }
    }
}

/// Pushes onto a list that mostly stays at one, for which no room for more is taken.
pub(crate) fn push_lean<T>(list: &mut Vec<T>, one: T) {
    if list.is_empty() {
        list.reserve_exact(1);
    }
    list.push(one);
}

/// The lifts that the journal has and no book, by their folded names.
pub(super) fn own_lifts<'p>(pages: impl Iterator<Item = &'p PageLog>) -> BTreeMap<String, String> {
    let lifts = pages.flat_map(|page| &page.lifts).filter(|lift| lift.worked && !lift.in_book);
    lifts.map(|lift| (lift.folded.clone(), lift.name.clone())).collect()
}
