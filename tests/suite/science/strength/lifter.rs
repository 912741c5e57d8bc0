//! Lifters whose strength and curve are known, because they are made up; and what they write down.

use loadline::science::Equation;
use loadline::science::rating_error::rating_sd;
use loadline::science::strength::{Miss, Observation, published_spread};
use std::f64::consts::PI;

/// A small generator of numbers (splitmix64), the same on every machine.
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Random(seed)
    }

    /// Above 0 and at most 1.
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (((z ^ (z >> 31)) >> 11) as f64 + 1.0) / (1_u64 << 53) as f64
    }

    /// Of the standard normal distribution, by Box and Muller 1958, Ann Math Stat 29(2):610–611.
    pub fn normal(&mut self) -> f64 {
        (-2.0 * self.uniform().ln()).sqrt() * (2.0 * PI * self.uniform()).cos()
    }
}

/// How lifters train and rate.
#[derive(Clone, Copy)]
pub struct Habits {
    pub equation: Equation,
    /// The reps of one four-week block after another; then again from the first.
    pub reps: &'static [u32],
    /// By what share strength rises in a week, beside its drift.
    pub rise: f64,
    /// How many reps in reserve too few are said, on average.
    pub under_rated: f64,
    /// Whether the planned effort is written in place of a rating.
    pub as_planned: bool,
    /// How singles are tried after every block; nothing where none are.
    pub tested: Option<Tested>,
}

/// How a lifter tries singles.
#[derive(Clone, Copy)]
pub struct Tested {
    /// The attempts as shares of what the lifter takes the maximum to be.
    pub attempts: &'static [f64],
    /// How often an attempt within strength fails all the same.
    pub spoiled: f64,
}

/// A week's set, as it was written and as it was.
pub struct Week {
    /// What was written; nothing where not one rep was good.
    pub set: Option<Observation>,
    pub load: f64,
    /// The logarithm of the true maximum, without the day's form.
    pub strength: f64,
    /// The reps that this load really allowed on that day; below 1 it could not be lifted.
    pub reps_to_failure: f64,
    /// The lightest miss above all that was made, of the singles tried a few days later.
    pub missed: Option<Miss>,
}

/// A lifter somewhere in training.
pub struct Lifter {
    habits: Habits,
    /// The true strength-endurance.
    pub endurance: f64,
    /// The logarithm of the true maximum.
    strength: f64,
    day: i64,
}

/// Reps in reserve that are aimed at in the four weeks of a block.
const RESERVE: [f64; 4] = [4.0, 3.0, 2.0, 1.0];
/// By what share strength drifts in a week, as a standard deviation.
const DRIFT: f64 = 0.01;
/// By what share a day strays from strength.
const FORM: f64 = 0.02;
/// By what share lifters misjudge what they are going to try.
const BELIEF: f64 = 0.02;
/// So many days after a block's last set singles are tried.
pub const DAYS_TO_TEST: i64 = 3;
/// The first maximum, in kilograms; a barbell is loaded in steps of 2.5.
const FIRST: f64 = 180.0;
const STEP: f64 = 2.5;
/// Nobody rates below RPE 5.
const MOST_RESERVE: f64 = 5.0;

impl Lifter {
    /// One of the published spread of people.
    pub fn drawn(habits: Habits, random: &mut Random) -> Self {
        let endurance = loop {
            let drawn = 1.0 + published_spread(habits.equation) * random.normal();
            if (0.2..1.8).contains(&drawn) {
                break drawn;
            }
        };
        Lifter { habits, endurance, strength: FIRST.ln(), day: 0 }
    }

    /// So many blocks, the last of them with the last reps of the habits, so that all lifters end alike.
    pub fn train(&mut self, blocks: usize, random: &mut Random) -> Vec<Week> {
        let reps = self.habits.reps;
        let first = reps.len() - blocks % reps.len();
        (0..blocks).flat_map(|block| self.block(reps[(first + block) % reps.len()], random)).collect()
    }

    /// A block of four weeks, one session a week. The load is the one that strength, without the day's form, allows
    /// for the reps and the reserve: lifters know themselves.
    pub fn block(&mut self, reps: u32, random: &mut Random) -> Vec<Week> {
        let mut weeks: Vec<Week> = RESERVE.map(|reserve| self.week(reps, reserve, random)).into();
        if let (Some(tested), Some(last)) = (self.habits.tested, weeks.last_mut()) {
            last.missed = self.test(tested, random);
        }
        weeks
    }

    /// Singles, written without an effort: a heavier one after each that was made, the same again after a miss.
    fn test(&self, tested: Tested, random: &mut Random) -> Option<Miss> {
        let maximum = (self.strength + FORM * random.normal()).exp();
        let belief = (self.strength + BELIEF * random.normal()).exp();
        let (mut next, mut made, mut missed) = (tested.attempts.iter(), None, None);
        let mut share = next.next();
        for _ in 0..tested.attempts.len() {
            let load = (belief * share? / STEP).round() * STEP;
            if load <= maximum && random.uniform() > tested.spoiled {
                (made, share) = (Some(load), next.next());
            } else if missed.is_none() {
                missed = Some(load);
            }
        }
        let load = missed.filter(|load| made.is_none_or(|made| *load > made))?;
        Some(Miss { day: self.day + DAYS_TO_TEST, load, made, load_error: 0.0 })
    }

    fn week(&mut self, reps: u32, reserve: f64, random: &mut Random) -> Week {
        self.strength += self.habits.rise + DRIFT * random.normal();
        self.day += 7;
        let share = self.multiple(f64::from(reps) + reserve).powf(-self.endurance);
        let load = (self.strength.exp() * share / STEP).round() * STEP;
        let reps_to_failure = self.reps_at(load, self.strength + FORM * random.normal());
        let noise = random.normal();
        let (good, said) = self.rated(reps, reserve, reps_to_failure, noise);
        let set = (good >= 1.0).then_some(Observation {
            day: self.day,
            load,
            reps_to_failure: good + said,
            reps_error: if good + said > 1.0 { rating_sd(said) } else { 0.0 },
            load_error: 0.0,
        });
        Week { set, load, strength: self.strength, reps_to_failure, missed: None }
    }

    /// Good reps, and those said to be in reserve, in halves.
    fn rated(&self, reps: u32, planned: f64, reps_to_failure: f64, noise: f64) -> (f64, f64) {
        let left = reps_to_failure - f64::from(reps);
        if left < 0.0 {
            return (reps_to_failure.floor(), 0.0);
        }
        if self.habits.as_planned {
            return (f64::from(reps), planned);
        }
        let said = left - self.habits.under_rated + rating_sd(left) * noise;
        (f64::from(reps), ((said * 2.0).round() / 2.0).clamp(0.0, MOST_RESERVE))
    }

    fn multiple(&self, reps: f64) -> f64 {
        self.habits.equation.multiple(reps).unwrap()
    }

    /// The reps that a load allows on a day of such strength; 0 where it is too heavy for one.
    fn reps_at(&self, load: f64, strength: f64) -> f64 {
        let multiple = ((strength - load.ln()) / self.endurance).exp();
        let equation = self.habits.equation;
        equation
            .reps_at(multiple, 1.0)
            .or_else(|| equation.published_reps(multiple))
            .filter(|_| multiple >= 1.0)
            .unwrap_or(0.0)
    }
}
