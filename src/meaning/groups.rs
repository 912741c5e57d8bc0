//! Groups: sets with their loads, efforts and faults.

use super::context::Context;
use super::loads::{as_load, asked, load};
use super::page_log::push_lean;
use crate::notation::nodes::{
    Amount as WrittenAmount, Attribute, AttributeKind, DistanceUnit, Group as Written, Number, Scale,
    Sets as WrittenSets,
};
use crate::problems::{Choice, Problem, ProblemKind as K};
use crate::source::{Edit, Page, PageId, Span};
use crate::training::{Amount, Bouts, Distance, Effort, Efforts, Extra, Fault, Group, Load, Sets, Substance};

/// The load that a group without one takes over.
#[derive(Clone, Debug)]
pub(crate) enum Carried {
    /// Nothing stands before it: the lift's default.
    Default,
    /// The load of the group before.
    From(Load),
    /// The line before was lost, and its load with it.
    Lost,
}

/// What the groups of a line are read with.
pub(crate) struct Line<'a> {
    pub(crate) context: &'a Context<'a>,
    pub(crate) page: &'a Page,
    /// The line's number, from 1.
    pub(crate) line: u32,
    /// Whether the lift's default load is the lifter's own weight.
    pub(crate) bodyweight: bool,
}

impl Line<'_> {
    fn span(&self, piece: &str) -> Span {
        Span::of(self.page.text(), piece)
    }

    /// The groups of a line, or nothing where a load costs it. `carried` is left as the next line finds it.
    pub(crate) fn groups(
        &self,
        written: &[Written<'_>],
        carried: &mut Carried,
        problems: &mut Vec<Problem>,
    ) -> Option<Vec<Group>> {
        let mut out = Vec::with_capacity(written.len());
        self.loads(written, carried, problems, |group, load| out.push(self.group(group, load))).then_some(out)
    }

    /// Gives each group with its load to `take`. Whether no load costs the line; what was taken counts only then.
    pub(super) fn loads<'w, 'a>(
        &self,
        written: &'w [Written<'a>],
        carried: &mut Carried,
        problems: &mut Vec<Problem>,
        mut take: impl FnMut(&'w Written<'a>, Load),
    ) -> bool {
        if let Some(problem) = self.load_after_sets(written, carried) {
            problems.push(problem);
            *carried = Carried::Lost;
            return false;
        }
        let mut lost = false;
        for group in written {
            let read = match &group.load {
                Some(written) => match load(self.context, self.page, written, problems) {
                    Ok(load) => load,
                    Err(problem) => {
                        problems.push(if has_effort(group) { as_load(self.page, *problem) } else { *problem });
                        lost = true;
                        continue;
                    }
                },
                None => match carried {
                    Carried::Default => self.default_load(),
                    Carried::From(load) => load.clone(),
                    Carried::Lost => Load::None,
                },
            };
            if group.load.is_some() || matches!(carried, Carried::Default) && self.bodyweight {
                *carried = Carried::From(read.clone());
            }
            take(group, read);
        }
        if lost {
            *carried = Carried::Lost;
        }
        !lost
    }

    /// `bw` for bodyweight lifts, else none.
    pub(crate) fn default_load(&self) -> Load {
        if self.bodyweight {
            Load::other(Substance::Bodyweight(crate::training::Mass::ZERO), "bw", false)
        } else {
            Load::None
        }
    }

    /// A load that first appears after groups that have none.
    fn load_after_sets(&self, written: &[Written<'_>], carried: &Carried) -> Option<Problem> {
        if self.bodyweight || !matches!(carried, Carried::Default) {
            return None;
        }
        let at = written.iter().position(|group| group.load.is_some()).filter(|at| *at > 0)?;
        let (first, with_load) = (written.first()?, written.get(at)?);
        let written_load = with_load.load.as_ref()?;
        let span = self.span(first.text).cover(self.span(written_load.text));
        let problem = Problem::new(K::LoadAfterSets, span);
        let single = |group: &Written<'_>| {
            matches!(&group.count.sets, WrittenSets::Times { low: 1, high: 1, .. } | WrittenSets::List(_))
                && !group.count.text.contains('/')
        };
        let before = written.get(..at)?;
        let plain = before.iter().all(|group| single(group) && group.attributes.is_empty()) && single(with_load);
        let counts = || before.iter().chain([with_load]).map(|group| group.count.text).collect::<Vec<_>>().join(",");
        let mut load = written_load.text.to_owned();
        if let Some(asked) = asked(self.context, self.page, written_load) {
            if !has_effort(with_load) {
                // `8, 8 @ 8`: where the number is an effort, no load comes late.
                return Some(if plain { asked.with_fix(span, format!("{} RPE {load}", counts())) } else { asked });
            }
            load = format!("{load} {}", self.context.units.word());
        }
        if plain {
            return Some(problem.with_fix(span, format!("{} @ {load}", counts())));
        }
        // Of other sets only the lifter knows. The first group takes the load, and those after it take it over.
        let after = self.span(first.count.text).end as usize;
        let edit = Edit::new(Span::new(after, after), format!(" @ {load}"));
        Some(Problem { choices: vec![Choice { say: format!("all of them at {load}"), edit }], ..problem })
    }

    /// One group.
    pub(crate) fn group(&self, written: &Written<'_>, load: Load) -> Group {
        let sets = sets(&written.count.sets);
        let mut group = Group {
            page: PageId::default(),
            line: self.line,
            sets,
            per_side: written.count.per_side,
            load,
            efforts: Efforts::None,
            extra: None,
        };
        in_bouts(&mut group, &written.count.sets);
        attribute_all(&mut group, &written.attributes);
        group
    }
}

/// Puts the bouts of a count on its group.
pub(crate) fn in_bouts(group: &mut Group, written: &WrittenSets) {
    let amounts = match written {
        WrittenSets::Times { each, .. } => std::slice::from_ref(each),
        WrittenSets::List(amounts) => amounts,
    };
    if amounts.iter().any(|amount| matches!(amount, WrittenAmount::Bouts(_))) {
        extra(group).bouts = amounts.iter().map(bouts).collect();
    }
}

/// The bouts of one set.
pub(super) fn bouts(written: &WrittenAmount) -> Option<Bouts> {
    match written {
        WrittenAmount::Bouts(bouts) => Some(Bouts(bouts.as_slice().into())),
        _ => None,
    }
}

fn has_effort(group: &Written<'_>) -> bool {
    group.attributes.iter().any(|attribute| attribute.kind.is_effort())
}

/// Puts attributes on a group.
pub(crate) fn attribute_all(group: &mut Group, attributes: &[Attribute<'_>]) {
    let count = group.count();
    let mut rpe = None;
    let mut rir = None;
    let mut last_is_maximal = false;
    let mut rated = |scale: Scale, efforts| match scale {
        Scale::Rpe => rpe = Some(efforts),
        Scale::Rir => rir = Some(efforts),
    };
    for attribute in attributes {
        match &attribute.kind {
            AttributeKind::Effort(scale, low, high) => rated(*scale, Efforts::All(effort(*scale, *low, *high))),
            AttributeKind::Efforts(scale, values) => {
                let each = values.iter().map(|value| Some(effort(*scale, *value, *value)));
                rated(*scale, Efforts::Each(each.collect()));
            }
            AttributeKind::Amrap => {
                last_is_maximal = true;
                extra(group).amrap = true;
            }
            AttributeKind::Miss(missed) => {
                last_is_maximal = true;
                extra(group).missed = *missed;
            }
            AttributeKind::Fault(name, sets) => {
                let fault = Fault { name: (*name).into(), sets: sets.clone().into() };
                push_lean(&mut extra(group).faults, fault);
            }
            AttributeKind::Rest(seconds) => extra(group).pace.rest = Some(*seconds),
            AttributeKind::Tempo(text) => extra(group).pace.tempo = Some((*text).into()),
            AttributeKind::Remark(text) => push_lean(&mut extra(group).remarks, (*text).into()),
        }
    }
    if rpe.is_none() && rir.is_some() {
        extra(group).in_reserve = true;
    }
    group.efforts = match rpe.or(rir) {
        Some(efforts) => efforts,
        None if last_is_maximal && count > 0 => {
            let mut each = vec![None; count];
            if let Some(last) = each.last_mut() {
                *last = Some(Effort::MAXIMAL);
            }
            Efforts::Each(each.into())
        }
        None => Efforts::None,
    };
}

fn extra(group: &mut Group) -> &mut Extra {
    group.extra.get_or_insert_with(Box::default)
}

/// An effort, the middle of its range.
pub(super) fn effort(scale: Scale, low: Number, high: Number) -> Effort {
    match scale {
        Scale::Rpe => Effort::rpe(low.thousandths, high.thousandths),
        Scale::Rir => Effort::rir(low.thousandths, high.thousandths),
    }
}

/// The sets of a count. Only a plan's ranges are open, and those are asked about before.
pub(crate) fn sets(written: &WrittenSets) -> Sets {
    match written {
        WrittenSets::Times { low, each, .. } => Sets::Same(*low, amount(each)),
        WrittenSets::List(amounts) => Sets::Each(amounts.iter().map(amount).collect()),
    }
}

/// What one set is. Of an open number, the least.
pub(super) fn amount(written: &WrittenAmount) -> Amount {
    match written {
        WrittenAmount::Reps { low, .. } => Amount::Reps(*low),
        WrittenAmount::AtLeast(reps) => Amount::Reps(*reps),
        WrittenAmount::AsManyAsPossible => Amount::Reps(0),
        WrittenAmount::Bouts(bouts) => Amount::Reps(bouts.iter().fold(0, |sum: u32, bout| sum.saturating_add(*bout))),
        WrittenAmount::Seconds { low, .. } => Amount::Seconds(*low),
        WrittenAmount::Distance { low, unit, .. } => Amount::Metres(match unit {
            DistanceUnit::Metre => Distance::metres(low.thousandths),
            DistanceUnit::Kilometre => Distance::metres(low.thousandths.saturating_mul(1000)),
            DistanceUnit::Yard => Distance::yards(low.thousandths),
            DistanceUnit::Mile => Distance::miles(low.thousandths),
        }),
    }
}
