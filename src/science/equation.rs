//! The most one could lift once, from a load lifted for some repetitions to failure: seven published equations.

use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;
use std::ops::RangeInclusive;

/// An equation that estimates a one-repetition maximum from a load and the repetitions to failure with it.
///
/// Loads may be in any unit of mass: every equation is proportional to the load, so what goes in comes out.
/// Repetitions to failure are those done and those left in reserve, and need not be whole.
///
/// **A single.** Five of the seven, taken as printed, make a single worth more than the load that was lifted
/// (Mayhew by 8.9 %). Here a single is worth its own load, and between one repetition and two these five follow
/// a straight line from there to their printed value at two. The line is this project's choice; it is
/// continuous, rises all the way, and never lies above the printed form. Brzycki and Lombardi give a single its
/// own load as printed, and are left alone.
///
/// **Range.** Each holds only for [`valid_reps`](Equation::valid_reps). Validity falls with repetitions: no more
/// than 10 in Reynolds et al. 2006 (J Strength Cond Res 20(3):584–592), better with fewer in Whisenant et al.
/// 2003 (J Strength Cond Res 17(2):221–227). All seven under-estimate the deadlift in LeSuer et al. 1997 (J
/// Strength Cond Res 11(4):211–213).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Equation {
    /// w (1 + r/30). Epley 1985, *Poundage chart*, Boyd Epley Workout. 1 to 10 repetitions.
    Epley,
    /// 36 w / (37 − r). Brzycki 1993, J Phys Educ Recreat Dance 64(1):88–90. At most 10 repetitions. Some prints
    /// have 1.0278 − 0.0278 r below the line, the same rounded to four decimals.
    Brzycki,
    /// w r^0.10. Lombardi 1989, *Beginning Weight Training*. 1 to 11 repetitions.
    Lombardi,
    /// 100 w / (52.2 + 41.9 e^(−0.055 r)). Mayhew et al. 1992, J Appl Sport Sci Res 6(4):200–206, on the bench
    /// press. Made for up to 20 repetitions; here up to 15.
    Mayhew,
    /// w (1 + 0.025 r). O'Conner, Simmons and O'Shea 1989, *Weight Training Today*. 1 to 10 repetitions.
    OConner,
    /// 100 w / (48.8 + 53.8 e^(−0.075 r)). Wathen 1994, *Load assignment*, in NSCA *Essentials of Strength
    /// Training and Conditioning*. 1 to 15 repetitions. The default: `docs/science.md` weighs it.
    #[default]
    Wathan,
    /// 100 w / (101.3 − 2.67123 r). Lander 1985, NSCA Journal 6(6):60–61. 2 to 10 repetitions, and a single is its
    /// own load.
    Lander,
}

/// Repetitions by which a value may miss the end of a range through rounding alone.
const ROUNDING: f64 = 1e-9;

impl Equation {
    /// All of them, in the order in which they are listed.
    pub const ALL: [Equation; 7] = [
        Equation::Epley,
        Equation::Brzycki,
        Equation::Lombardi,
        Equation::Mayhew,
        Equation::OConner,
        Equation::Wathan,
        Equation::Lander,
    ];

    /// Its name on the command line and in JSON: lower-case letters only.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Equation::Epley => "epley",
            Equation::Brzycki => "brzycki",
            Equation::Lombardi => "lombardi",
            Equation::Mayhew => "mayhew",
            Equation::OConner => "oconner",
            Equation::Wathan => "wathan",
            Equation::Lander => "lander",
        }
    }

    /// The equation of that name, in capitals or not. `Wathen`, as the author writes himself, is known too, and so
    /// is `O'Conner`.
    #[must_use]
    pub fn named(text: &str) -> Option<Equation> {
        let lower = text.to_lowercase();
        match lower.as_str() {
            "wathen" => Some(Equation::Wathan),
            "o'conner" | "o’conner" => Some(Equation::OConner),
            name => Equation::ALL.into_iter().find(|equation| equation.name() == name),
        }
    }

    /// The repetitions to failure for which it may be used: its usual domain, and never more than 15.
    ///
    /// Domains from memory, medium confidence; that all are weak above 10: Reynolds et al. 2006.
    #[must_use]
    pub fn valid_reps(self) -> RangeInclusive<f64> {
        let most = match self {
            Equation::Epley | Equation::Brzycki | Equation::OConner | Equation::Lander => 10.0,
            Equation::Lombardi => 11.0,
            Equation::Mayhew | Equation::Wathan => 15.0,
        };
        1.0..=most
    }

    /// The repetitions to failure that a maximum allows with a load.
    ///
    /// `None` where the load is heavier than the maximum, where it is so light that the repetitions leave
    /// [`valid_reps`](Equation::valid_reps), and where one of the two is not a positive number.
    #[must_use]
    pub fn reps_at(self, maximum: f64, load: f64) -> Option<f64> {
        let multiple = positive(maximum)? / positive(load)?;
        let reps = match self.bridge() {
            Some(at_two) if multiple < at_two => 1.0 + (multiple - 1.0) / (at_two - 1.0),
            _ => self.published_reps(multiple)?,
        };
        let valid = self.valid_reps();
        let near = reps.clamp(*valid.start(), *valid.end());
        ((reps - near).abs() <= ROUNDING).then_some(near)
    }

    /// What the load is multiplied by to give the maximum; `None` outside
    /// [`valid_reps`](Equation::valid_reps).
    #[must_use]
    pub fn multiple(self, reps_to_failure: f64) -> Option<f64> {
        if !self.valid_reps().contains(&reps_to_failure) {
            return None;
        }
        match self.bridge() {
            Some(at_two) if reps_to_failure < 2.0 => Some(1.0 + (reps_to_failure - 1.0) * (at_two - 1.0)),
            _ => self.published_multiple(reps_to_failure),
        }
    }

    /// By what share of itself the estimate moves for one repetition more to failure: `0.03` is 3 %.
    ///
    /// The derivative of the estimate over the estimate. Times an error in repetitions, it is the error that
    /// this causes in the maximum. `None` outside [`valid_reps`](Equation::valid_reps).
    #[must_use]
    pub fn share_per_rep(self, reps_to_failure: f64) -> Option<f64> {
        let multiple = self.multiple(reps_to_failure)?;
        let r = reps_to_failure;
        Some(match self.bridge() {
            Some(at_two) if r < 2.0 => (at_two - 1.0) / multiple,
            _ => match self {
                Equation::Epley => 1.0 / (30.0 + r),
                Equation::Brzycki => 1.0 / (37.0 - r),
                Equation::Lombardi => 0.10 / r,
                Equation::Mayhew => 0.055 * 41.9 * (-0.055 * r).exp() * multiple / 100.0,
                Equation::OConner => 1.0 / (40.0 + r),
                Equation::Wathan => 0.075 * 53.8 * (-0.075 * r).exp() * multiple / 100.0,
                Equation::Lander => 2.671_23 * multiple / 100.0,
            },
        })
    }

    /// The printed form, untouched: what the load is multiplied by, for any repetitions above zero.
    ///
    /// For checking against the literature. `None` where the form has no positive value: Brzycki from 37
    /// repetitions on, Lander from 37.9.
    #[must_use]
    pub fn published_multiple(self, reps: f64) -> Option<f64> {
        let r = positive(reps)?;
        positive(match self {
            Equation::Epley => 1.0 + r / 30.0,
            Equation::Brzycki => 36.0 / (37.0 - r),
            Equation::Lombardi => r.powf(0.10),
            Equation::Mayhew => 100.0 / (52.2 + 41.9 * (-0.055 * r).exp()),
            Equation::OConner => 1.0 + 0.025 * r,
            Equation::Wathan => 100.0 / (48.8 + 53.8 * (-0.075 * r).exp()),
            Equation::Lander => 100.0 / (101.3 - 2.671_23 * r),
        })
    }

    /// The printed form solved for repetitions: how many allow this multiple of the load, for any above zero.
    ///
    /// `None` where it has no solution: Mayhew for loads below 52.2 % of the maximum, Wathan below 48.8 %.
    #[must_use]
    pub fn published_reps(self, multiple: f64) -> Option<f64> {
        let m = positive(multiple)?;
        positive(match self {
            Equation::Epley => 30.0 * (m - 1.0),
            Equation::Brzycki => 37.0 - 36.0 / m,
            Equation::Lombardi => m.powi(10),
            Equation::Mayhew => -((100.0 / m - 52.2) / 41.9).ln() / 0.055,
            Equation::OConner => 40.0 * (m - 1.0),
            Equation::Wathan => -((100.0 / m - 48.8) / 53.8).ln() / 0.075,
            Equation::Lander => (101.3 - 100.0 / m) / 2.671_23,
        })
    }

    /// The printed multiple at two repetitions, where the line from a single ends; `None` for those that give a
    /// single its own load as printed.
    fn bridge(self) -> Option<f64> {
        match self {
            Equation::Brzycki | Equation::Lombardi => None,
            _ => self.published_multiple(2.0),
        }
    }
}

/// The number, where it is finite and above zero.
fn positive(number: f64) -> Option<f64> {
    (number.is_finite() && number > 0.0).then_some(number)
}

/// The name as it is written in the literature: `O'Conner`.
impl fmt::Display for Equation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Equation::Epley => "Epley",
            Equation::Brzycki => "Brzycki",
            Equation::Lombardi => "Lombardi",
            Equation::Mayhew => "Mayhew",
            Equation::OConner => "O'Conner",
            Equation::Wathan => "Wathan",
            Equation::Lander => "Lander",
        })
    }
}
