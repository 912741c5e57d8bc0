//! What comes of it when lifters hang what `session` says, block after block: advice that looks fine on fixed data may sink
//! when it is followed. Beside it are three other ways to choose a load, on lifters drawn alike.

use super::lifter::{Kind, Lifter, Set, WEEKS};
use super::measure::with_history;
use super::page::{date, written};
use super::random::Random;
use super::{biased, loss};
use loadline::questions::session::{Ask, answer};
use loadline::training::Mass;
use std::fmt::Write;

/// So many blocks are trained.
const BLOCKS: u32 = 16;
/// The shares are of these blocks: the first four, up to the eighth, up to the last.
const ENDS: [u32; 3] = [4, 8, 16];
const REPS: [u32; 6] = [8, 5, 3, 10, 6, 4];
/// The middle of the planned range of each week of a block; it is a point wide.
const EFFORTS: [f64; WEEKS as usize] = [6.5, 7.0, 8.0, 8.5];
const SETS: u32 = 4;
/// Days of a week on which the lift is trained.
const DAYS: [u32; 2] = [0, 3];

/// How the load is chosen.
#[derive(Clone, Copy)]
pub enum Way {
    /// Last week's and the gym's smallest step.
    Step,
    /// A table of shares of the maximum, tested at the beginning of each block: Wathan's equation at the reps and the reps to
    /// be left.
    Chart,
    /// That of the same week of the last block, carried to the reps of this one by the same table.
    LastBlock,
    /// What `session` says before each set.
    Card,
}

pub const WAYS: [(&str, Way); 4] = [
    ("last week's load and a step", Way::Step),
    ("a chart, from a maximum tested each block", Way::Chart),
    ("the same week of the last block", Way::LastBlock),
    ("`session`", Way::Card),
];

/// What came of the sets up to a block.
#[derive(Clone, Copy, Debug, Default)]
pub struct Shares {
    pub sets: u32,
    pub inside: u32,
    pub over: u32,
    light: u32,
}

#[derive(Default)]
struct Outcome {
    shares: [Shares; ENDS.len()],
    changes: u32,
    sessions: u32,
}

/// The share of the maximum for so many reps to failure (Wathan 1994).
fn chart(reps: f64) -> f64 {
    if reps <= 1.0 { 1.0 } else { (48.8 + 53.8 * (-0.075 * reps).exp()) / 100.0 }
}

fn plate(load: f64) -> f64 {
    ((load / 2.5).round() * 2.5).max(20.0)
}

/// The table: a line a way for each kind of lifter.
pub fn table(lifters: u32) -> String {
    let kinds = [
        Kind::PUBLISHED,
        Kind { name: "0.8 reps lost a set", ..loss::KINDS[2] },
        Kind { name: "1.5 reps too many said", ..biased::KINDS[1] },
        Kind { name: "light lifters", starts: 60.0, ..Kind::PUBLISHED },
    ];
    let mut table = "| lifters | the load is | in range | over by 1 | too light | changes a session |\n| --- | --- | --- | --- | --- | --- |\n".to_owned();
    for kind in kinds {
        for (name, way) in WAYS {
            let outcome = outcome(kind, way, lifters, BLOCKS);
            let share = |of: fn(&Shares) -> u32| {
                let shares = outcome.shares.iter().map(|shares| 100.0 * f64::from(of(shares)) / f64::from(shares.sets));
                shares.map(|share| format!("{share:.0}")).collect::<Vec<_>>().join(" / ")
            };
            let changes = f64::from(outcome.changes) / f64::from(outcome.sessions);
            writeln!(
                table,
                "| {} | {name} | {} | {} | {} | {changes:.1} |",
                kind.name,
                share(|shares| shares.inside),
                share(|shares| shares.over),
                share(|shares| shares.light),
            )
            .unwrap();
        }
    }
    writeln!(table, "\n{lifters} lifters of each kind, {BLOCKS} blocks each.").unwrap();
    table
}

/// What came of all sets of so many blocks.
pub fn shares(kind: Kind, way: Way, lifters: u32, blocks: u32) -> Shares {
    outcome(kind, way, lifters, blocks).shares[ENDS.len() - 1]
}

fn outcome(kind: Kind, way: Way, lifters: u32, blocks: u32) -> Outcome {
    let mut outcome = Outcome::default();
    for nth in 0..lifters {
        let mut random = Random::new(7_000_003 + u64::from(nth));
        let mut lifter = Lifter::drawn(kind, &mut random);
        train(&mut lifter, way, blocks, &mut random, &mut outcome);
    }
    outcome
}

fn train(lifter: &mut Lifter, way: Way, blocks: u32, random: &mut Random, outcome: &mut Outcome) {
    let mut page = String::new();
    // The first set of each week, and the reps of its block.
    let mut loads: Vec<(f64, f64)> = Vec::new();
    let mut tested = lifter.strength.exp();
    for week in 0..blocks * WEEKS {
        let (block, in_block) = (week / WEEKS, week % WEEKS);
        let (reps, middle) = (REPS[(block % 6) as usize], EFFORTS[in_block as usize]);
        if in_block == 0 {
            writeln!(page, "# Block {}\n\n- starts: {}\n- weeks: {WEEKS}\n", block + 1, date(week * 7)).unwrap();
            tested = (lifter.strength + random.normal(0.0, lifter.kind.form)).exp();
        }
        for day in DAYS {
            let today = lifter.strength + random.normal(0.0, lifter.kind.form);
            let of_day = random.normal(0.0, lifter.kind.of_day.sqrt());
            let by_chart = tested * chart(f64::from(reps) + 10.0 - middle);
            let beside_last = |weeks: usize| {
                let (load, then) = *loads.get(loads.len().checked_sub(weeks)?)?;
                Some(load * chart(f64::from(reps) + 2.0) / chart(then + 2.0))
            };
            // Nothing is known on the first day: everybody begins with a tested maximum.
            let fixed = match way {
                Way::Step => beside_last(1).map_or(by_chart, |load| load + 2.5),
                Way::LastBlock => beside_last(WEEKS as usize).unwrap_or(by_chart),
                Way::Chart | Way::Card => by_chart,
            };
            let on = date(week * 7 + day);
            let plan = format!("  - plan: {SETS}x{reps} RPE {}-{}\n", middle - 0.5, middle + 0.5);
            let mut sets: Vec<Set> = Vec::new();
            for nth in 0..SETS {
                let load = match way {
                    Way::Card if !(page.is_empty() || week == 0 && day == 0 && nth == 0) => {
                        let done: Vec<String> = sets.iter().map(written).collect();
                        let line = format!("## {on}\n\n- Back squat: {}\n{plan}", done.join(", "));
                        said(format!("{page}{line}"), on).unwrap_or_else(|| plate(fixed))
                    }
                    _ => plate(fixed),
                };
                outcome.changes += u32::from(sets.last().is_some_and(|last| last.load != load));
                let to_failure = lifter.reps_with(load, today) - lifter.loss * f64::from(nth).powf(0.9);
                let effort = 10.0 - (to_failure - f64::from(reps));
                for (shares, ends) in outcome.shares.iter_mut().zip(ENDS) {
                    if block < ends {
                        shares.sets += 1;
                        // The range is a point wide, and half a point beside it is near enough.
                        shares.inside += u32::from((effort - middle).abs() <= 1.0);
                        shares.over += u32::from(effort - middle >= 1.5);
                        shares.light += u32::from(middle - effort > 1.0);
                    }
                }
                let made = f64::from(reps).min(to_failure.floor()).max(0.0) as u32;
                if made == 0 {
                    break;
                }
                let felt = if made < reps { 0.0 } else { lifter.said(to_failure - f64::from(made), of_day, random) };
                sets.push(Set { load, reps: made, left: Some(felt) });
            }
            outcome.sessions += 1;
            let Some(first) = sets.first() else { continue };
            if day == DAYS[0] {
                loads.push((first.load, f64::from(reps)));
            }
            let done: Vec<String> = sets.iter().map(written).collect();
            writeln!(page, "## {on}\n\n- Back squat: {}\n{plan}", done.join(", ")).unwrap();
        }
        lifter.strength += lifter.kind.gain + random.normal(0.0, lifter.kind.drift);
    }
}

/// What the card says to hang.
fn said(page: String, on: chrono::NaiveDate) -> Option<f64> {
    with_history(page, |history| {
        let then = history.as_of(on);
        let answer = answer(&then, &Ask { date: Some(on), next: true, ..Ask::default() }).ok()?;
        let load = answer.lifts.first()?.next.as_ref()?.load.as_ref()?;
        load.kilograms.map(Mass::in_kilograms)
    })
}
