//! How much a week is cut before a test or a meet, as surveys and one meta-analysis report it. Most of it says what
//! lifters do, not what was shown to work best.

/// A published or customary range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Advice {
    /// The low end, as a change in percent: −60 is a cut of 60 %.
    pub low: f64,
    /// The high end.
    pub high: f64,
    /// Where it is from.
    pub source: &'static str,
}

/// Volume is cut by about half: 41 to 60 % in the meta-analysis, mostly of endurance; powerlifters report 41 to 50 %
/// (Travis et al. 2021, J Strength Cond Res 35(12S):S26–S35), 50.5 ± 11.7 % (Grgic and Mikulic 2017, J Strength Cond
/// Res 31(9):2371–2378) and 58.9 ± 8.4 % (Pritchard et al. 2016, J Strength Cond Res 30(7):1796–1804).
pub const VOLUME: Advice = Advice {
    low: -60.0,
    high: -41.0,
    source: "Bosquet et al. 2007; powerlifters: Pritchard 2016, Grgic and Mikulic 2017, Travis 2021",
};

/// Intensity is kept: unchanged in Bosquet et al. 2007 (Med Sci Sports Exerc 39(8):1358–1365), kept, raised or slightly
/// less in Pritchard et al. 2016 and Grgic and Mikulic 2017. Five percent either way counts as kept: this project's own.
pub const INTENSITY: Advice =
    Advice { low: -5.0, high: 5.0, source: "Bosquet et al. 2007; the 5 % are this project's own" };

/// The usual peak week takes a set and two reps a set off, from three sets of six to two of four: sets −33 %, reps
/// −56 %. Common practice, no source.
pub const SETS_OFF: f64 = 1.0;
/// The reps a set that the usual peak week takes off.
pub const REPS_OFF: f64 = 2.0;

/// The sets that other lifts lose. Common practice, no source.
pub const ACCESSORY_SETS_OFF: f64 = 1.0;

/// How many times their own weight the strongest lift must be for a deeper cut.
const STRONG: f64 = 3.0;
/// Below this the cut is shallower.
const LESS_STRONG: f64 = 2.0;

/// The cut in volume that fits a lifter: the smaller and less strong cut less, who lifts three to four times
/// bodyweight more.
///
/// Common practice, no source; the bands are this project's own: under twice bodyweight 30 to 50 %, from three times
/// on 50 to 70 %, between them the published 41 to 60 %. Without a known bodyweight the published range.
#[must_use]
pub fn volume_for(strongest_over_bodyweight: Option<f64>) -> Advice {
    let own = "this project's own bands by strength over bodyweight; common practice, no source";
    match strongest_over_bodyweight {
        Some(times) if times >= STRONG => Advice { low: -70.0, high: -50.0, source: own },
        Some(times) if times < LESS_STRONG => Advice { low: -50.0, high: -30.0, source: own },
        _ => VOLUME,
    }
}

/// The least share of the maximum of a heavy set: above 85 % (Travis et al. 2021).
pub const HEAVY_PERCENT: f64 = 85.0;

/// How many days before the test the last heavy squat and deadlift were: 7 to 10 (Travis et al. 2021, 364 raw
/// powerlifters).
pub const HEAVY_SQUAT_DEADLIFT_DAYS: (i64, i64) = (7, 10);
/// The same of the bench press: under 7.
pub const HEAVY_BENCH_DAYS: (i64, i64) = (1, 6);

/// A change in percent; `None` from nothing.
#[must_use]
pub fn change(before: f64, now: f64) -> Option<f64> {
    (before > 0.0 && now.is_finite()).then(|| (now / before - 1.0) * 100.0)
}

/// How a change lies to advice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Inside the range.
    Within,
    /// More is cut, or the load is lighter, than advised.
    Below,
    /// Less is cut, or the load is heavier.
    Above,
}

impl Advice {
    /// How a change in percent lies to it; half a percent is nothing.
    #[must_use]
    pub fn fit(&self, change: f64) -> Fit {
        if change < self.low - 0.5 {
            Fit::Below
        } else if change > self.high + 0.5 {
            Fit::Above
        } else {
            Fit::Within
        }
    }
}
