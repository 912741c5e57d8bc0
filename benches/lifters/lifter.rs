//! A lifter whose truth is known, and what stands in the journal of such a one. Nothing here is shared with the
//! program's own model: another curve, other noise, another tiredness.

use super::random::Random;

/// How reps to failure fall off with load.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// The share of the maximum falls from 1 at one rep towards a floor, as e to a power.
    Exponential,
    /// The share falls by so much a rep, a little less for each: 1 − k (n − 1)^0.85.
    Power,
    /// The equation of the program, Wathan's, to a power: what the model before took for true.
    Published,
}

/// Which sets have an effort.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rated {
    All,
    Last,
    First,
}

/// One kind of lifter: means and standard deviations of what each is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct Kind {
    pub name: &'static str,
    pub shape: Shape,
    /// Reps at 80 % of the maximum (Nuzzo et al. 2024: 8.8, 2.51).
    pub reps_at_80: (f64, f64),
    pub sets: u32,
    pub rated: Rated,
    /// Reps lost from set to set.
    pub loss: (f64, f64),
    /// Reps in reserve said too few.
    pub too_few: (f64, f64),
    /// Whether that grows with the reps that are left, being whole at three.
    pub grows: bool,
    /// The error of a rating, at failure and more for each rep left.
    pub error: (f64, f64),
    /// How much of that error is the day's.
    pub of_day: f64,
    pub heavy_tails: bool,
    /// The plan's effort is written and not what was felt.
    pub copied: bool,
    /// How much a day strays.
    pub form: f64,
    /// Drift of strength in a week, and its mean.
    pub drift: f64,
    pub gain: f64,
    /// How much is missing at the end of a block.
    pub tired: f64,
    /// A single at RPE 8 each week.
    pub single: bool,
    /// A fall, so many weeks before the end.
    pub injured: Option<(f64, u32)>,
    /// The true maximum at the beginning.
    pub starts: f64,
}

impl Kind {
    /// Trains, tires and rates as published.
    pub const PUBLISHED: Kind = Kind {
        name: "as published",
        shape: Shape::Exponential,
        reps_at_80: (8.8, 2.51),
        sets: 4,
        rated: Rated::All,
        loss: (0.4, 0.25),
        too_few: (0.5, 0.8),
        grows: false,
        error: (0.5, 0.25),
        of_day: 0.4,
        heavy_tails: false,
        copied: false,
        form: 0.02,
        drift: 0.007,
        gain: 0.001,
        tired: 0.0,
        single: false,
        injured: None,
        starts: 180.0,
    };
}

/// Weeks in a block.
pub const WEEKS: u32 = 4;
const REPS: [u32; 6] = [8, 5, 3, 10, 6, 4];
const LEFT: [f64; 4] = [4.0, 3.0, 2.0, 1.0];

#[derive(Clone, Copy, Debug)]
pub struct Set {
    pub load: f64,
    pub reps: u32,
    pub left: Option<f64>,
}

/// A day's training of one lift.
#[derive(Clone, Debug)]
pub struct Day {
    /// From the first day.
    pub day: u32,
    pub week: u32,
    pub sets: Vec<Set>,
    /// The logarithm of the maximum on an ordinary rested day.
    pub truth: f64,
}

pub struct Lifter {
    pub kind: Kind,
    reps_at_80: f64,
    floor: f64,
    pub loss: f64,
    too_few: f64,
    /// The logarithm of the maximum on an ordinary rested day.
    pub strength: f64,
    by_feel: f64,
}

impl Lifter {
    pub fn drawn(kind: Kind, random: &mut Random) -> Self {
        Lifter {
            kind,
            reps_at_80: random.normal(kind.reps_at_80.0, kind.reps_at_80.1).clamp(4.5, 16.0),
            floor: 0.4 + 0.15 * random.unit(),
            loss: random.normal(kind.loss.0, kind.loss.1).max(0.0),
            too_few: random.normal(kind.too_few.0, kind.too_few.1),
            strength: kind.starts.ln() + random.normal(0.0, 0.15),
            by_feel: random.unit(),
        }
    }

    /// The share of the maximum that so many reps to failure take.
    pub fn share(&self, reps: f64) -> f64 {
        let (n, n80) = (reps - 1.0, self.reps_at_80 - 1.0);
        match self.kind.shape {
            Shape::Exponential => {
                let k = -((0.8 - self.floor) / (1.0 - self.floor)).ln() / n80;
                self.floor + (1.0 - self.floor) * (-k * n).exp()
            }
            Shape::Power if n < 0.0 => 1.0 - 0.2 / n80.powf(0.85) * n,
            Shape::Power => 1.0 - 0.2 * (n / n80).powf(0.85),
            Shape::Published => {
                let wathan = |r: f64| ((48.8 + 53.8 * (-0.075 * r).exp()) / 100.0).ln();
                let high = |r: f64| if r < 2.0 { (r - 1.0) * wathan(2.0) } else { wathan(r) };
                (high(reps) * 0.8_f64.ln() / high(self.reps_at_80)).exp()
            }
        }
    }

    /// Reps to failure with a load, at a logarithm of the maximum; below 1 the load is too heavy.
    pub fn reps_with(&self, load: f64, strength: f64) -> f64 {
        let share = load / strength.exp();
        let (mut low, mut high) = (-4.0, 30.0);
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            if self.share(middle) > share { low = middle } else { high = middle }
        }
        low
    }

    /// What is written of reps that are left.
    pub fn said(&self, left: f64, of_day: f64, random: &mut Random) -> f64 {
        let size = self.kind.error.0 + self.kind.error.1 * left.max(0.0);
        let own = (1.0 - self.kind.of_day).sqrt();
        let error = if self.kind.heavy_tails { random.heavy(own) } else { random.normal(0.0, own) };
        let bias = if self.kind.grows { self.too_few * left.max(0.0) / 3.0 } else { self.too_few };
        let said = left - bias + size * (error + of_day);
        ((said * 2.0).round() / 2.0).clamp(0.0, 5.0)
    }

    /// Trains so many blocks, one day a week.
    pub fn train(&mut self, blocks: u32, random: &mut Random) -> Vec<Day> {
        let kind = self.kind;
        let mut days = Vec::new();
        for week in 0..blocks * WEEKS {
            let left_weeks = blocks * WEEKS - 1 - week;
            if let Some((fall, ago)) = kind.injured
                && ago == left_weeks
            {
                self.strength -= fall;
            }
            let (block, in_block) = (week / WEEKS, week % WEEKS);
            let (reps, planned) = (REPS[(block % 6) as usize], LEFT[in_block as usize]);
            let form = random.normal(0.0, kind.form);
            let tired = kind.tired * f64::from(in_block) / f64::from(WEEKS - 1);
            let today = self.strength + form - tired;
            // What the lifter takes the maximum to be, when loading the bar.
            let believed = self.strength - tired * 0.5 + 0.5 * form + random.normal(0.0, 0.02);
            let of_day = random.normal(0.0, kind.of_day.sqrt());
            let mut sets = Vec::new();
            let mut done = 0.0;
            let plate = |load: f64| (load / 2.5).round() * 2.5;
            if kind.single {
                let load = plate(believed.exp() * self.share(3.0 + self.by_feel * self.too_few.clamp(-1.5, 2.0)));
                let n = self.reps_with(load, today);
                if n >= 1.0 {
                    sets.push(Set { load, reps: 1, left: Some(self.said(n - 1.0, of_day, random)) });
                    done += 0.5;
                }
            }
            let mid = self.loss * f64::from(kind.sets - 1) / 2.0;
            let wanted = f64::from(reps) + planned + self.by_feel * self.too_few.max(-planned) + mid * 0.5;
            let load = plate(believed.exp() * self.share(wanted.max(1.0)));
            for nth in 0..kind.sets {
                let n = self.reps_with(load, today) - self.loss * f64::powf(done, 0.9);
                done += 1.0;
                let made = f64::from(reps).min(n.floor()).max(0.0) as u32;
                if made == 0 {
                    break;
                }
                let felt = self.said(n - f64::from(made), of_day, random);
                let said = match (made < reps, kind.copied) {
                    (true, _) => 0.0,
                    (_, true) => planned,
                    _ => felt,
                };
                let rated = match kind.rated {
                    Rated::All => true,
                    Rated::Last => nth + 1 == kind.sets,
                    Rated::First => nth == 0,
                };
                sets.push(Set { load, reps: made, left: rated.then_some(said) });
            }
            days.push(Day { day: week * 7, week, sets, truth: self.strength });
            let fading = if kind.gain > 0.004 { (-f64::from(week) / 60.0).exp() } else { 1.0 };
            self.strength += kind.gain * fading + random.normal(0.0, kind.drift);
        }
        days
    }

    /// Whether a single is made on a day of that strength.
    pub fn makes(&self, load: f64, truth: f64, random: &mut Random) -> bool {
        truth + random.normal(0.0, self.kind.form) >= load.ln()
    }
}
