//! Groups of sets: counts, efforts, faults.

use super::book::Style;
use super::load::Load;
use super::model::{Amount, Group, Model, SetDone};
use super::number::{METRE, decimal, half};
use super::row::Kind;

impl Model {
    /// Groups on one line, with their text. `carried`: the load that stands before, for set lines.
    pub(super) fn groups(
        &mut self,
        lift: usize,
        style: Style,
        block: Option<usize>,
        carried: Option<Load>,
        most: u32,
        set_line: bool,
    ) -> (String, Vec<Group>) {
        let mut text = String::new();
        let mut groups: Vec<Group> = Vec::new();
        let mut last = String::new();
        let count = if most == 1 || self.chance(55) { 1 } else { self.random.within(2..=most) };
        let default = matches!(style, Style::Bodyweight | Style::Hold | Style::Rollout);
        let per_side = match style {
            Style::OneSide => !self.chance(10),
            Style::Odd | Style::Carry => self.chance(6),
            _ => false,
        };
        let unloaded = carried.is_none() && !default && self.chance(8);
        for at in 0..count {
            let before = groups.last().map(|group| group.load.clone()).or_else(|| carried.clone());
            // A load that first appears after groups with none is an error, but not on a later set line.
            let written = match &before {
                None => !(unloaded || default && self.chance(50)),
                Some(load) if load.kind == Kind::None => set_line && at == 0 && self.chance(50),
                Some(_) => !self.chance(45),
            };
            let load = match (written, before) {
                (true, _) => self.load(lift, style, block),
                (false, Some(load)) => Load { written: String::new(), ..load },
                (false, None) if default => Load { written: String::new(), ..Load::own() },
                (false, None) => Load::none(),
            };
            let written = load.kind != Kind::None && !load.written.is_empty();
            let strict = groups.last().is_some_and(|group| group.effort && group.sets.len() > 1);
            let before_ends = last.contains(['@', '!', '(']);
            let (piece, group) = self.group(style, per_side, load, written, strict);
            if at > 0 {
                // A comma that is glued to both sides parts groups only where no list can be meant.
                let over = text.ends_with(|c: char| !c.is_ascii_digit()) && before_ends;
                let glue = over && self.wild(15);
                text += if glue { "," } else { ", " };
            }
            text += &piece;
            last = piece;
            groups.push(group);
        }
        (text, groups)
    }

    /// One group. `strict`: the group before has an effort for several sets, so that a bare number would be
    /// taken for one of its efforts.
    pub(super) fn group(
        &mut self,
        style: Style,
        per_side: bool,
        load: Load,
        written: bool,
        strict: bool,
    ) -> (String, Group) {
        let mut amounts = self.amounts(style);
        if load.kind == Kind::None {
            // More sets or reps with no load to be seen could be the load.
            amounts.truncate(6);
            for amount in &mut amounts {
                if let Amount::Reps(reps) = amount {
                    *reps = (*reps).min(20);
                }
            }
        }
        if strict {
            // A list would begin with a bare number.
            let first = amounts[0];
            amounts.fill(first);
        }
        let mut sets: Vec<SetDone> =
            amounts.iter().map(|amount| SetDone { amount: *amount, effort: None, clean: true }).collect();
        let mut count = self.count(&amounts, per_side, strict);
        if load.kind == Kind::None && count.bytes().all(|b| b.is_ascii_digit()) {
            // A lone number behind a lift of one's own could be of anything.
            count = format!("1x{count}");
        }
        let mut attributes = self.efforts(&mut sets);
        let effort = !attributes.is_empty();
        let mut wrong = None;
        if self.chance(if self.shape.coached { 20 } else { 7 }) {
            let fault = self.random.pick(&["depth", "lockout", "pause", "hitch"]);
            wrong = Some(fault);
            if sets.len() > 1 && self.chance(60) {
                let first = self.random.below(sets.len());
                sets[first].clean = false;
                let mut on = vec![(first + 1).to_string()];
                if first + 1 < sets.len() && self.chance(40) {
                    sets[first + 1].clean = false;
                    on.push((first + 2).to_string());
                }
                attributes.push(format!("!{fault}({})", on.join(self.spell(",", &[", "]))));
            } else {
                sets.iter_mut().for_each(|set| set.clean = false);
                attributes.push(format!("!{fault}"));
            }
        }
        if self.chance(8) {
            attributes.push(
                self.random.pick(&["rest 3:00", "rest 90s", "rest 2 min", "tempo 3-1-0", "tempo 3-1-X-0"]).to_owned(),
            );
        }
        if self.chance(8) {
            attributes.push(
                self.random.pick(&["(slow, but fine)", "(grip: hook)", "(belt on)", "(1 more was there)"]).to_owned(),
            );
        }
        self.random.shuffle(&mut attributes);
        let tail: String = attributes.iter().map(|attribute| format!(" {attribute}")).collect();
        let plain_reps =
            amounts.iter().all(|amount| matches!(amount, Amount::Reps(_))) && !count.contains(['+', ',']) && !per_side;
        if written && load.joins && plain_reps && self.wild(8) {
            let bare = count.bytes().all(|b| b.is_ascii_digit());
            count = match bare && self.chance(50) {
                true => format!("{} x {count}", load.written),
                false => format!("{count}{}{}", self.spell(" x ", &["x"]), load.written),
            };
        } else if written && self.wild(4) && !tail.is_empty() {
            return (format!("{count}{tail} @ {}", load.written), Group { sets, per_side, load, effort, fault: wrong });
        } else if written {
            count += self.spell(" @ ", &["@", " @", "@ "]);
            count += &load.written;
        }
        (count + &tail, Group { sets, per_side, load, effort, fault: wrong })
    }

    pub(super) fn amounts(&mut self, style: Style) -> Vec<Amount> {
        let sets = self.random.within(1..=5) as usize;
        if self.shape.plain && !matches!(style, Style::Hold | Style::Carry) && self.chance(80) {
            return vec![Amount::Reps(self.random.pick(&[5, 8])); 3];
        }
        match style {
            Style::Hold => vec![Amount::Seconds(self.random.pick(&[20, 30, 45, 60, 90])); sets.min(3)],
            Style::Carry if self.chance(85) => {
                let metres = self.random.pick(&[
                    20 * METRE,
                    40 * METRE,
                    25 * METRE / 2,
                    2000 * METRE,
                    40 * METRE / 10_000 * 9_144,
                    1_609_344 * (METRE / 1000),
                ]);
                vec![Amount::Metres(metres); sets.min(3)]
            }
            _ => {
                let reps = self.random.pick(&[1, 2, 3, 5, 5, 6, 8, 8, 8, 10, 10, 12, 15]);
                let mut amounts = vec![Amount::Reps(reps); sets];
                if sets > 1 && self.chance(25) {
                    let lower = self.random.below(sets);
                    for amount in &mut amounts[lower..] {
                        *amount = Amount::Reps(reps.saturating_sub(self.random.within(0..=2)).max(1));
                    }
                    if self.chance(10) {
                        amounts[sets - 1] = Amount::Reps(0);
                    }
                    if self.chance(20) {
                        self.random.shuffle(&mut amounts);
                    }
                } else if sets == 1 && self.chance(6) {
                    amounts[0] = Amount::Reps(0);
                }
                amounts
            }
        }
    }

    /// A count in one of its spellings. `strict`: it may not begin with a bare number.
    pub(super) fn count(&mut self, amounts: &[Amount], per_side: bool, strict: bool) -> String {
        let side = if per_side { self.spell("/side", &[" /side", "/ side"]) } else { "" };
        let times = self.spell("x", &[" x ", "X", "×", " × "]);
        let sets = amounts.len();
        let same = amounts.iter().all(|amount| *amount == amounts[0]);
        let one = match amounts[0] {
            Amount::Reps(reps) if same && reps >= 6 && self.chance(6) => {
                let last = self.random.within(1..=2);
                if self.chance(50) {
                    format!("{}+{last}", reps - last)
                } else {
                    format!("{}+{last}+{last}", reps - 2 * last)
                }
            }
            Amount::Reps(reps) => reps.to_string(),
            Amount::Seconds(seconds) if seconds % 60 == 0 && self.chance(50) => {
                format!("{}{}", seconds / 60, self.spell("min", &[" min"]))
            }
            Amount::Seconds(seconds) if seconds >= 60 => format!("{}:{:02}", seconds / 60, seconds % 60),
            Amount::Seconds(seconds) => format!("{seconds}{}", self.spell("s", &[" s"])),
            Amount::Metres(metres) if metres % METRE != 0 && metres % (METRE / 10) != 0 => {
                let yard = METRE / 10_000 * 9_144;
                if metres % (1760 * yard) == 0 {
                    format!("{}mi", metres / yard / 1760)
                } else {
                    format!("{}yd", metres / yard)
                }
            }
            Amount::Metres(metres) if metres >= 1000 * METRE => format!("{}km", decimal(metres / METRE)),
            Amount::Metres(metres) => format!("{}{}", decimal(metres / (METRE / 1000)), self.spell("m", &[" m"])),
        };
        if sets == 1 && !strict && amounts[0] != Amount::Reps(0) && self.chance(60) {
            return format!("{one}{side}");
        }
        if same && (sets == 1 || strict || !matches!(amounts[0], Amount::Reps(_)) || !self.chance(10)) {
            return format!("{sets}{times}{one}{side}");
        }
        self.list(amounts, side)
    }

    pub(super) fn list(&mut self, amounts: &[Amount], side: &str) -> String {
        let numbers: Vec<String> = amounts
            .iter()
            .map(|amount| match amount {
                Amount::Reps(reps) => reps.to_string(),
                _ => String::new(),
            })
            .collect();
        if !side.is_empty() && self.wild(30) {
            return numbers.iter().map(|number| format!("{number}/side")).collect::<Vec<_>>().join(",");
        }
        format!("{}{side}", numbers.join(","))
    }

    /// One effort for all sets: quarter points, and how it is written.
    pub(super) fn one_effort(&mut self) -> (u32, String) {
        let halves = self.random.within(10..=20);
        let rpe = self.spell("RPE ", &["rpe ", "RPE", "Rpe "]);
        match self.random.below(10) {
            0..6 => (halves * 2, format!("{rpe}{}", half(halves))),
            6..8 => {
                let high = (halves + self.random.within(1..=2)).min(20);
                let low = halves.min(high - 1);
                (low + high, format!("{rpe}{}{}{}", half(low), self.spell("-", &["–"]), half(high)))
            }
            8 => {
                let reserve = self.random.within(0..=5);
                (40 - 4 * reserve, format!("{}{reserve}", self.spell("RIR ", &["rir ", "RIR"])))
            }
            _ => {
                let reserve = self.random.within(0..=4);
                (40 - 4 * reserve - 2, format!("RIR {reserve}-{}", reserve + 1))
            }
        }
    }

    /// Efforts of a group's sets, and the attributes that say so.
    pub(super) fn efforts(&mut self, sets: &mut [SetDone]) -> Vec<String> {
        let count = sets.len();
        let mut attributes = Vec::new();
        match self.random.below(100) {
            _ if self.shape.plain => {}
            0..45 => {}
            45..80 => {
                let (effort, text) = self.one_effort();
                sets.iter_mut().for_each(|set| set.effort = Some(effort));
                attributes.push(if self.wild(6) { format!("@ {text}") } else { text });
            }
            80..92 if count > 1 => {
                let reserve = self.chance(30);
                let values: Vec<u32> = (0..count)
                    .map(|_| if reserve { self.random.within(0..=5) } else { self.random.within(11..=20) })
                    .collect();
                for (set, value) in sets.iter_mut().zip(&values) {
                    set.effort = Some(if reserve { 40 - 4 * value } else { 2 * value });
                }
                let texts: Vec<String> =
                    values.iter().map(|value| if reserve { value.to_string() } else { half(*value) }).collect();
                attributes.push(format!("{}{}", if reserve { "RIR " } else { "RPE " }, texts.join(",")));
            }
            92..95 => {
                // Beside an RPE, the RPE wins.
                sets.iter_mut().for_each(|set| set.effort = Some(32));
                attributes.extend(["RIR 1".into(), "RPE 8".into()]);
            }
            _ => {}
        }
        let last = &mut sets[count - 1];
        let misses = if last.amount == Amount::Reps(0) { 70 } else { 3 };
        let reps = matches!(last.amount, Amount::Reps(_));
        if reps && self.random.chance(misses) {
            attributes.push(format!("miss {}", self.random.within(1..=2)));
            last.effort = last.effort.or(Some(40));
        } else if reps && self.random.chance(4) {
            attributes.push("AMRAP".into());
            last.effort = last.effort.or(Some(40));
        }
        attributes
    }
}
