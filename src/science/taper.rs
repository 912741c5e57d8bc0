//! How much a week is cut before a test or a meet, as surveys and one meta-analysis report it. Most of it says what
//! lifters do, not what was shown to work best. What a lifter's settings say stands in place of it.

use crate::training::{self, Hundredths, Mass, TaperBands, Tenths, words};
use schemars::JsonSchema;
use serde::Serialize;

/// A published or customary range, its ends included. Cuts are negative: −60 percent takes 60 % off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Advice {
    /// The low end.
    #[serde(serialize_with = "training::hundredths")]
    #[schemars(with = "Hundredths")]
    pub low: f64,
    /// The high end.
    #[serde(serialize_with = "training::hundredths")]
    #[schemars(with = "Hundredths")]
    pub high: f64,
    /// Whose the two ends are.
    pub basis: Basis,
    /// Where it is from.
    pub source: &'static str,
}

words! {
    /// Whose figures a range has.
    pub enum Basis {
        /// Published.
        Published = "published",
        /// This project's own.
        Own = "own",
        /// The lifter's or the journal's settings.
        Settings = "settings",
    }
}

/// How a figure lies to advice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Under the low end: more is cut, or the day is nearer.
    Below,
    /// Inside the range.
    Within,
    /// Over the high end: less is cut, or the day is farther.
    Above,
}

impl Advice {
    /// What the settings say under this name, of figures in tenths: a cut is a change below nothing.
    fn set_off(range: Tenths, source: &'static str) -> Advice {
        let off = |tenths: u32| -f64::from(tenths) / 10.0;
        Advice { low: off(range.high), high: off(range.low), basis: Basis::Settings, source }
    }

    /// What the settings say is kept: so many tenths either way.
    fn set_within(tenths: u32, source: &'static str) -> Advice {
        let either_way = f64::from(tenths) / 10.0;
        Advice { low: -either_way, high: either_way, basis: Basis::Settings, source }
    }

    /// How a figure lies to the range.
    #[must_use]
    pub fn fit(&self, found: f64) -> Fit {
        if found < self.low {
            Fit::Below
        } else if found > self.high {
            Fit::Above
        } else {
            Fit::Within
        }
    }
}

/// The change of tonnage, in percent: volume is cut by about half.
///
/// 41 to 60 % in the meta-analysis, mostly of endurance (Bosquet et al. 2007, Med Sci Sports Exerc 39(8):1358–1365).
/// Powerlifters report 41 to 50 % (Travis et al. 2021, J Strength Cond Res 35(12S):S26–S35), 50.5 ± 11.7 % (Grgic and
/// Mikulic 2017, J Strength Cond Res 31(9):2371–2378) and 58.9 ± 8.4 % (Pritchard et al. 2016, J Strength Cond Res
/// 30(7):1796–1804), strongman athletes 45.5 ± 12.9 % (Winwood et al. 2018, J Strength Cond Res 32(5):1181–1196).
pub const VOLUME: Advice = Advice {
    low: -60.0,
    high: -41.0,
    basis: Basis::Published,
    source: "Bosquet et al. 2007, mostly endurance; lifters report as much (Pritchard et al. 2016, Grgic and Mikulic \
             2017, Travis et al. 2021)",
};

/// The change of the top load, in percent: intensity is kept.
///
/// Unchanged in Bosquet et al. 2007; kept, raised or slightly less in Pritchard et al. 2016 and Grgic and Mikulic 2017.
/// That five percent either way counts as kept is this project's own.
pub const INTENSITY: Advice = Advice {
    low: -5.0,
    high: 5.0,
    basis: Basis::Own,
    source: "kept in Bosquet et al. 2007, Pritchard et al. 2016, Grgic and Mikulic 2017; 5 % either way is this \
             project's own",
};

const CUSTOM: &str = "common practice, no source; a half either way is this project's own";

/// The change of effort, in points of RPE: it is kept. Common practice, no source; the half point is this project's
/// own.
pub const EFFORT: Advice = Advice { low: -0.5, high: 0.5, basis: Basis::Own, source: CUSTOM };

/// The change of sets a session, of a competition lift: one set comes off, from three sets of six to two of four.
/// Common practice, no source; the half set is this project's own.
pub const SETS: Advice = Advice { low: -1.5, high: -0.5, basis: Basis::Own, source: CUSTOM };
/// Where fewer sets a session were done there is none to take off.
pub const SETS_NEEDED: f64 = 2.0;

/// The change of reps a set, of a competition lift: two come off. Common practice, no source; the half rep is this
/// project's own.
pub const REPS: Advice = Advice { low: -2.5, high: -1.5, basis: Basis::Own, source: CUSTOM };
/// Where fewer reps a set were done there are no two to take off.
pub const REPS_NEEDED: f64 = 3.0;

/// The change of sets a session, of the other lifts that stay: they lose a set too. Common practice, no source; the
/// half set is this project's own.
pub const ACCESSORY_SETS: Advice = Advice { low: -1.5, high: -0.5, basis: Basis::Own, source: CUSTOM };

/// The change of a week's deadlift sets, in percent: deadlifts come out first, so they are cut by at least as much as
/// the other competition lift that is cut most, and never raised. Common practice, no source.
#[must_use]
pub fn deadlift_sets(others: f64) -> Advice {
    let high = others.clamp(-100.0, 0.0);
    Advice { low: -100.0, high, basis: Basis::Own, source: "common practice, no source" }
}

/// A heavy set is above so many percent of the maximum (Travis et al. 2021).
pub const HEAVY_PERCENT: f64 = 85.0;

const REPORTED: &str = "Travis et al. 2021, what 364 powerlifters report";
/// Days from the last heavy squat, and the last heavy deadlift, to the test: 7 to 10 (Travis et al. 2021).
pub const HEAVY_SQUAT_OR_DEADLIFT_DAYS: Advice =
    Advice { low: 7.0, high: 10.0, basis: Basis::Published, source: REPORTED };
/// Days from the last heavy bench press to the test: under 7 (Travis et al. 2021).
pub const HEAVY_BENCH_PRESS_DAYS: Advice = Advice { low: 1.0, high: 6.0, basis: Basis::Published, source: REPORTED };

/// Days from the last session to the test: 3.7 ± 1.6 (Pritchard et al. 2016) and 3 ± 1 (Grgic and Mikulic 2017), one
/// standard deviation either way in whole days.
pub const LAST_SESSION_DAYS: Advice =
    Advice { low: 2.0, high: 5.0, basis: Basis::Published, source: "Pritchard et al. 2016, Grgic and Mikulic 2017" };

/// How many times their own weight the strongest lift must be for a deeper cut.
const STRONG: f64 = 3.0;
/// Below this the cut is shallower.
const LESS_STRONG: f64 = 2.0;
/// A lifter who weighs less, in kilograms, is a small one.
const SMALL: i64 = 60;

/// The cut of the strong, as the settings have it or this project's own: 50 to 70 %.
fn strong_cut(set: &TaperBands) -> Advice {
    let own = |source| Advice { low: -70.0, high: -50.0, basis: Basis::Own, source };
    match (set.strong_cut, set.strong_from) {
        (Some(cut), _) => Advice::set_off(cut, "set in the settings, `taper: strong cut`"),
        (None, Some(_)) => {
            own("for whom the settings call strong, this project's own band; common practice, no source")
        }
        (None, None) => own("for three times bodyweight and more, this project's own band; common practice, no source"),
    }
}

/// The cut of the small and less strong, as the settings have it or this project's own: 30 to 50 %.
fn less_strong_cut(set: &TaperBands) -> Advice {
    let own = |source| Advice { low: -50.0, high: -30.0, basis: Basis::Own, source };
    match (set.less_strong_cut, set.less_strong_under.is_some() || set.small_under.is_some()) {
        (Some(cut), _) => Advice::set_off(cut, "set in the settings, `taper: less strong cut`"),
        (None, true) => {
            own("for whom the settings call small or less strong, this project's own band; common practice, no source")
        }
        (None, false) => {
            own("for under twice bodyweight or under 60 kg, this project's own band; common practice, no source")
        }
    }
}

/// The cut in tonnage where nothing is known of the lifter: [`VOLUME`], or what the settings say.
#[must_use]
pub fn volume(set: &TaperBands) -> Advice {
    set.cut.map_or(VOLUME, |cut| Advice::set_off(cut, "set in the settings, `taper: cut`"))
}

/// The cut in tonnage that fits a lifter of a bodyweight, whose strongest lift is so many times that: the smaller and
/// the less strong cut less, who lifts three to four times bodyweight cuts more.
///
/// Common practice, no source; the bands are this project's own. Under twice bodyweight, or under 60 kg of it, 30 to
/// 50 %; from three times on 50 to 70 %; else, and where both hold, the published range. Their outer ends are those of
/// a review, about 30 to 70 % (Travis et al. 2020, Sports 8(9):125; the numbers from memory, medium confidence).
#[must_use]
pub fn volume_for(set: &TaperBands, bodyweight: Mass, times_bodyweight: f64) -> Advice {
    let times = |set: Option<u32>, usual: f64| set.map_or(usual, |tenths| f64::from(tenths) / 10.0);
    let strong = times_bodyweight >= times(set.strong_from, STRONG);
    let small = bodyweight < set.small_under.unwrap_or(Mass::kg(SMALL));
    let less = small || times_bodyweight < times(set.less_strong_under, LESS_STRONG);
    match (strong, less) {
        (true, false) => strong_cut(set),
        (false, true) => less_strong_cut(set),
        _ => volume(set),
    }
}

/// [`INTENSITY`], or what the settings say.
#[must_use]
pub fn intensity(set: &TaperBands) -> Advice {
    let source = "kept, as far as set in the settings, `taper: load kept within`";
    set.load_within.map_or(INTENSITY, |within| Advice::set_within(within, source))
}

/// [`EFFORT`], or what the settings say.
#[must_use]
pub fn effort(set: &TaperBands) -> Advice {
    let source = "kept, as far as set in the settings, `taper: effort kept within`";
    set.effort_within.map_or(EFFORT, |within| Advice::set_within(within, source))
}

/// [`SETS`], or what the settings say.
#[must_use]
pub fn sets(set: &TaperBands) -> Advice {
    set.sets_off.map_or(SETS, |off| Advice::set_off(off, "set in the settings, `taper: sets off`"))
}

/// [`REPS`], or what the settings say.
#[must_use]
pub fn reps(set: &TaperBands) -> Advice {
    set.reps_off.map_or(REPS, |off| Advice::set_off(off, "set in the settings, `taper: reps off`"))
}

/// [`ACCESSORY_SETS`], or what the settings say.
#[must_use]
pub fn accessory_sets(set: &TaperBands) -> Advice {
    set.other_sets_off
        .map_or(ACCESSORY_SETS, |off| Advice::set_off(off, "set in the settings, `taper: other sets off`"))
}

/// [`DELOAD_VOLUME`], or what the settings say.
#[must_use]
pub fn deload_volume(set: &TaperBands) -> Advice {
    set.deload_cut.map_or(DELOAD_VOLUME, |cut| Advice::set_off(cut, "set in the settings, `taper: deload cut`"))
}

/// A change in percent; `None` from nothing.
#[must_use]
pub fn change(before: f64, now: f64) -> Option<f64> {
    (before > 0.0 && now.is_finite()).then(|| (now / before - 1.0) * 100.0)
}

/// What stands under advice on a peak.
pub const CAUTION: &str =
    "what is usual is what lifters and coaches do, and mostly no proof that it works best; the coach decides";

/// What a drafted peak week takes off, of sets or reps: the middle of what is advised, in whole ones.
#[must_use]
pub fn drafted_off(advice: &Advice) -> u32 {
    let middle = -f64::midpoint(advice.low, advice.high);
    // The float is a small number of sets or reps, so the cast keeps it.
    middle.round().clamp(0.0, 100.0) as u32
}

/// A drafted deload keeps one set of two, rounded up: lifters do fewer sets (Rogerson et al. 2024), how many fewer is
/// common practice, no source.
#[must_use]
pub fn deload_sets(sets: u32) -> u32 {
    sets.div_ceil(2)
}
/// A drafted deload takes so many reps off each set of at least [`DELOAD_REPS_NEEDED`]: common practice, no source.
pub const DELOAD_REPS_OFF: u32 = 2;
/// See [`DELOAD_REPS_OFF`].
pub const DELOAD_REPS_NEEDED: u32 = 4;
/// A drafted deload takes so many percent off the load: common practice, no source.
pub const DELOAD_PERCENT_OFF: u32 = 10;
/// A load in a drafted deload.
#[must_use]
pub fn deload_load(load: Mass) -> Mass {
    load.percent(i64::from(100 - DELOAD_PERCENT_OFF) * 1000)
}
/// The effort of a drafted deload, RPE 4 to 6: common practice, no source.
pub const DELOAD_RPE: (i64, i64) = (4, 6);

/// The change of tonnage in a deload, in percent: 40 to 80 % come off. This project's own band, no source. Half the
/// sets, two reps and a tenth of the load less, as deloads are drafted, are 40 % off three sets of three, 64 % off three
/// of five and 78 % off four of four.
pub const DELOAD_VOLUME: Advice = Advice {
    low: -80.0,
    high: -40.0,
    basis: Basis::Own,
    source: "this project's own band; no published figure says how much a deload should cut",
};

/// What is known of deloads: what is done, not how much (Rogerson et al. 2024, Sports Med Open 10:26, 246 competitors).
pub const DELOAD: &str = "no published figure says how much a deload should cut; most lifters do fewer sets and reps a \
                          set, with less load and more reps in reserve (Rogerson et al. 2024); the coach decides";
