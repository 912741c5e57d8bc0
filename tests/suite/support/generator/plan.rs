//! Plans: what a work line was to be, near to what was done or far from it.

use super::book::Style;
use super::load::Load;
use super::model::{Amount, Group, Model, Planned};
use super::number::{METRE, decimal, half};
use super::row::Kind;

impl Model {
    /// A plan near to what was done, with its text.
    pub(super) fn plan_for(
        &mut self,
        lift: usize,
        style: Style,
        block: Option<usize>,
        done: &[Group],
    ) -> (String, Vec<Planned>) {
        let mut done: Vec<&Group> = done.iter().take(3).collect();
        if self.chance(25) {
            self.random.shuffle(&mut done);
        }
        // A load that first appears after sets with none is an error, but for lifts with a load of their own.
        let default = matches!(style, Style::Bodyweight | Style::Hold | Style::Rollout);
        let open = self.chance(12);
        let (mut texts, mut planned): (Vec<String>, Vec<Planned>) = (Vec::new(), Vec::new());
        for (at, group) in done.into_iter().enumerate() {
            let before = planned.last().map(|last: &Planned| last.load.clone());
            let (written, load) = match before {
                _ if at == 0 && open => (String::new(), Load::none()),
                Some(before) if before.kind == Kind::None && !default => (String::new(), Load::none()),
                Some(before) if self.chance(20) => (String::new(), before),
                _ => self.planned_load(lift, style, block, group),
            };
            let (text, groups) = self.planned_group(group, at == 0, &load);
            let (effort, groups) = self.planned_effort(groups);
            texts.push(format!("{text}{written}{effort}"));
            planned.extend(merged(groups));
        }
        (texts.join(", "), planned)
    }

    /// The load of a planned group: the one that was used, or another.
    fn planned_load(&mut self, lift: usize, style: Style, block: Option<usize>, group: &Group) -> (String, Load) {
        let load = match (&group.load.text, self.chance(65)) {
            (Some(text), true) => Load { written: text.clone(), ..group.load.clone() },
            _ => self.load(lift, style, block),
        };
        (format!(" @ {}", load.written), load)
    }

    /// The count of a planned group. `first`: whether it may begin with a bare number.
    fn planned_group(&mut self, group: &Group, first: bool, load: &Load) -> (String, Vec<Planned>) {
        let side = if group.per_side { "/side" } else { "" };
        let one = |fewest, most, amount: Amount, longest: Option<Amount>, load: &Load| Planned {
            fewest,
            most,
            amount,
            longest,
            per_side: group.per_side,
            load: load.clone(),
            effort: None,
        };
        let amounts: Vec<Amount> = group.sets.iter().map(|set| set.amount).collect();
        let is_list = amounts.iter().all(|amount| matches!(amount, Amount::Reps(reps) if *reps > 0));
        if first && is_list && amounts.len() > 1 && self.chance(25) {
            let planned = amounts.iter().map(|amount| one(1, 1, *amount, Some(*amount), load)).collect();
            return (self.list(&amounts, side), planned);
        }
        let count = amounts.len() as u32;
        let fewest = self.random.pick(&[count, count, count, count + 1, count.saturating_sub(1).max(1)]);
        let most = if self.chance(25) { fewest + self.random.within(1..=2) } else { fewest };
        let (amount, longest, text) = self.planned_amount(amounts[0]);
        let sets = if most > fewest { format!("{fewest}-{most}") } else { fewest.to_string() };
        let mut planned = vec![one(fewest, most, amount, longest, load)];
        if text == "AMRAP" {
            planned[0].effort = Some((40, 40));
        }
        (format!("{sets}x{text}{side}"), planned)
    }

    /// A planned amount: the least, the most where it has one, and its text.
    fn planned_amount(&mut self, done: Amount) -> (Amount, Option<Amount>, String) {
        match done {
            Amount::Reps(reps) => {
                let least = self.random.pick(&[reps, reps, reps, reps + 1, reps + 2, reps.saturating_sub(1)]).max(1);
                let one = Amount::Reps(least);
                match self.random.below(100) {
                    0..60 => (one, Some(one), least.to_string()),
                    60..85 => {
                        let most = least + self.random.within(1..=3);
                        (one, Some(Amount::Reps(most)), format!("{least}-{most}"))
                    }
                    85..95 => (one, None, format!("{least}+")),
                    _ => (Amount::Reps(1), None, "AMRAP".into()),
                }
            }
            Amount::Seconds(seconds) => {
                let least = self.random.pick(&[seconds, seconds, seconds + 5, seconds - 5]);
                let most = if self.chance(25) { least + 10 } else { least };
                let text = if most > least { format!("{least}-{most}s") } else { format!("{least}s") };
                (Amount::Seconds(least), Some(Amount::Seconds(most)), text)
            }
            Amount::Metres(metres) => {
                let least = self.random.pick(&[metres, metres, metres + 5 * METRE]);
                let shown = |metres: i64| decimal(metres / (METRE / 1000));
                let most = if self.chance(25) { least + 10 * METRE } else { least };
                let text = if most > least {
                    format!("{}-{}m", shown(least), shown(most))
                } else {
                    format!("{}m", shown(least))
                };
                (Amount::Metres(least), Some(Amount::Metres(most)), text)
            }
        }
    }

    /// An effort for the sets of a planned group, in quarter points, and how it is written.
    fn planned_effort(&mut self, mut planned: Vec<Planned>) -> (String, Vec<Planned>) {
        let single = planned.len() == 1;
        let text = match self.random.below(100) {
            0..35 => return (String::new(), planned),
            35..45 if !single => {
                let halves: Vec<u32> = planned.iter().map(|_| self.random.within(12..=20)).collect();
                planned.iter_mut().zip(&halves).for_each(|(one, half)| one.effort = Some((half * 2, half * 2)));
                let texts: Vec<String> = halves.iter().map(|halves| half(*halves)).collect();
                return (format!(" RPE {}", texts.join(",")), planned);
            }
            35..60 => {
                let reserve = self.random.within(0..=3);
                let most = reserve + self.random.within(0..=1);
                let range = Some((40 - 4 * most, 40 - 4 * reserve));
                planned.iter_mut().for_each(|one| one.effort = range);
                if most > reserve { format!(" RIR {reserve}-{most}") } else { format!(" RIR {reserve}") }
            }
            _ => {
                let low = self.random.within(10..=19);
                let high = if self.chance(50) { low + 1 } else { low };
                planned.iter_mut().for_each(|one| one.effort = Some((low * 2, high * 2)));
                if high > low { format!(" RPE {}-{}", half(low), half(high)) } else { format!(" RPE {}", half(low)) }
            }
        };
        (text, planned)
    }
}

/// Neighbours of one group that are alike, together, as lists have them.
fn merged(planned: Vec<Planned>) -> Vec<Planned> {
    let mut out: Vec<Planned> = Vec::new();
    for one in planned {
        match out.last_mut() {
            Some(last)
                if (last.amount, last.longest, last.effort, last.per_side)
                    == (one.amount, one.longest, one.effort, one.per_side)
                    && (&last.load.text, last.load.kind) == (&one.load.text, one.load.kind) =>
            {
                last.fewest += one.fewest;
                last.most += one.most;
            }
            _ => out.push(one),
        }
    }
    out
}

/// The plan of which these groups are just what was done.
pub(super) fn plan_of(done: &[Group], last_effort: Option<(u32, u32)>) -> Vec<Planned> {
    let mut planned = Vec::new();
    let mut loaded = false;
    for (at, group) in done.iter().enumerate() {
        // A lift's own load is no part of a plan that says none.
        loaded |= !group.load.written.is_empty();
        let load = if loaded { group.load.clone() } else { Load::none() };
        let sets = group.sets.iter().map(|set| Planned {
            fewest: 1,
            most: 1,
            amount: set.amount,
            longest: Some(set.amount),
            per_side: group.per_side,
            load: load.clone(),
            effort: last_effort.filter(|_| at + 1 == done.len()),
        });
        planned.extend(merged(sets.collect()));
    }
    planned
}

/// A plan in one group, at one mass or with its load left open.
pub(super) fn simple(
    sets: (u32, u32),
    reps: (u32, Option<u32>),
    kilos: Option<i64>,
    effort: Option<(u32, u32)>,
) -> Vec<Planned> {
    let load = kilos.map_or(Load::none(), |kilos| {
        let text = format!("{kilos} kg");
        Load::of(Kind::Mass, kilos * super::number::KG, text.clone(), text)
    });
    vec![Planned {
        fewest: sets.0,
        most: sets.1,
        amount: Amount::Reps(reps.0),
        longest: reps.1.map(Amount::Reps),
        per_side: false,
        load,
        effort: effort.map(|(low, high)| (low * 4, high * 4)),
    }]
}
