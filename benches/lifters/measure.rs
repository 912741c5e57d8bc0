//! What the program says of a kind of lifters, held against the truth.

use super::lifter::{Day, Kind, Lifter, WEEKS};
use super::page::{date, page};
use super::random::Random;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::questions::estimate::{self, Ask};
use loadline::science::Equation;

/// After so many blocks the program is asked.
pub const BLOCKS: [u32; 3] = [2, 6, 12];

/// Errors on the logarithm, in percent.
#[derive(Clone, Default)]
pub struct Errors(Vec<f64>);

impl Errors {
    pub fn add(&mut self, error: f64) {
        self.0.push(error * 100.0);
    }

    pub fn size(&self) -> f64 {
        (self.0.iter().map(|error| error * error).sum::<f64>() / self.0.len() as f64).sqrt()
    }

    pub fn mean(&self) -> f64 {
        self.0.iter().sum::<f64>() / self.0.len() as f64
    }
}

/// What came of one length.
#[derive(Clone, Default)]
pub struct Outcome {
    pub inside: Errors,
    pub off: Errors,
    pub half: Errors,
    /// Of the baselines: the best, the mean and the last estimate of the last four weeks by Epley's equation.
    pub baselines: [Errors; 3],
}

pub fn with_history<T>(page: String, look: impl FnOnce(&History<'_>) -> T) -> T {
    let files = Memory::default().with("2023.md", page);
    let journal = open(&files);
    let lifter = journal.lifter(None, None).unwrap();
    let reading = meaning::read(&files, lifter, journal.pages_of(lifter), None);
    look(&History::new(&reading.log, &lifter.book, date(100_000)))
}

/// What each rated set says by Epley's equation, the best of each of the last four weeks.
fn by_epley(days: &[Day]) -> Vec<f64> {
    let of_day = |day: &Day| {
        let rated = day.sets.iter().filter_map(|set| Some((set.load, f64::from(set.reps) + set.left?)));
        rated.map(|(load, n)| if n <= 1.0 { load } else { load * (1.0 + n / 30.0) }).reduce(f64::max)
    };
    days.iter().rev().take(4).filter_map(of_day).collect()
}

/// What came of so many lifters, asked after each of so many blocks.
pub fn outcomes<const N: usize>(kind: Kind, lifters: u32, seed: u64, asked: [u32; N]) -> [Outcome; N] {
    let mut outcomes = asked.map(|_| Outcome::default());
    for nth in 0..lifters {
        for (outcome, blocks) in outcomes.iter_mut().zip(asked) {
            let mut random = Random::new(seed * 1_000_003 + u64::from(nth));
            let mut lifter = Lifter::drawn(kind, &mut random);
            let days = lifter.train(blocks, &mut random);
            let last = days.last().unwrap();
            with_history(page(&days), |history| {
                let then = history.as_of(date((blocks * WEEKS - 1) * 7));
                let lift = history.find_lift("Back squat").unwrap();
                let ask = Ask { lift, equation: Equation::default(), about: None, over: None };
                let Some(estimate) = estimate::answer(&then, &ask).estimate else { return };
                let log = |mass: loadline::training::Mass| mass.in_kilograms().ln();
                let (low, middle, high) = (log(estimate.low), log(estimate.maximum), log(estimate.high));
                outcome.inside.add(f64::from(u8::from((low..=high).contains(&last.truth))));
                outcome.off.add(middle - last.truth);
                outcome.half.add((high - low) / 2.0);
            });
            let said = by_epley(&days);
            if let (Some(most), Some(last_said)) = (said.iter().copied().reduce(f64::max), said.first()) {
                let mean = said.iter().map(|one| one.ln()).sum::<f64>() / said.len() as f64;
                for (errors, log) in outcome.baselines.iter_mut().zip([most.ln(), mean, last_said.ln()]) {
                    errors.add(log - last.truth);
                }
            }
        }
    }
    outcomes
}

/// A line of the table, with what the model before said: how often its interval held, and its error.
pub fn row(kind: Kind, lifters: u32, seed: u64, before: [&str; 2]) -> String {
    let of = outcomes(kind, lifters, seed, BLOCKS);
    let all = |what: &dyn Fn(&Outcome) -> String| of.iter().map(what).collect::<Vec<_>>().join(" / ");
    let best = |outcome: &Outcome| outcome.baselines.iter().map(Errors::size).fold(f64::INFINITY, f64::min);
    let cells = [
        kind.name.to_owned(),
        all(&|one| format!("{:.0}", one.inside.mean())),
        before[0].to_owned(),
        all(&|one| format!("{:+.1}", one.off.mean()).replace('-', "−")),
        all(&|one| format!("{:.1}", one.off.size())),
        before[1].to_owned(),
        all(&|one| format!("{:.1}", best(one))),
        all(&|one| format!("±{:.1}", one.half.mean())),
    ];
    format!("| {} |", cells.join(" | "))
}
