//! `taper:` in the settings: how much a peak or deload week usually cuts, in place of the program's own figures.

use crate::training::{Mass, TaperBands, Tenths};
use serde_yaml::Value;

/// A figure that can be set.
struct Known {
    name: &'static str,
    takes: Takes,
    /// What it takes, in words.
    wanted: &'static str,
}

/// What is taken, in tenths, and where it is put.
enum Takes {
    /// Two numbers, such as `30-50`.
    Range { most: u32, step: u32, put: fn(&mut TaperBands, Tenths) },
    /// One number.
    One { least: u32, most: u32, step: u32, put: fn(&mut TaperBands, u32) },
    /// A bodyweight.
    Mass(fn(&mut TaperBands, Mass)),
}

const PERCENT: &str = "a range of percent from 0 to 100, such as 30-50";
const OFF: &str = "a range from 0 to 10, such as 0.5-1.5";

const fn cut(name: &'static str, put: fn(&mut TaperBands, Tenths)) -> Known {
    Known { name, takes: Takes::Range { most: 1000, step: 10, put }, wanted: PERCENT }
}

const fn off(name: &'static str, put: fn(&mut TaperBands, Tenths)) -> Known {
    Known { name, takes: Takes::Range { most: 100, step: 1, put }, wanted: OFF }
}

const fn times(name: &'static str, put: fn(&mut TaperBands, u32)) -> Known {
    let takes = Takes::One { least: 5, most: 60, step: 1, put };
    Known { name, takes, wanted: "times bodyweight from 0.5 to 6, such as 2.5" }
}

const KNOWN: [Known; 12] = [
    cut("cut", |bands, range| bands.cut = Some(range)),
    cut("strong cut", |bands, range| bands.strong_cut = Some(range)),
    times("strong from", |bands, times| bands.strong_from = Some(times)),
    cut("less strong cut", |bands, range| bands.less_strong_cut = Some(range)),
    times("less strong under", |bands, times| bands.less_strong_under = Some(times)),
    Known {
        name: "small under",
        takes: Takes::Mass(|bands, mass| bands.small_under = Some(mass)),
        wanted: "a bodyweight, such as 60 kg",
    },
    Known {
        name: "load kept within",
        takes: Takes::One { least: 0, most: 500, step: 10, put: |bands, tenths| bands.load_within = Some(tenths) },
        wanted: "percent from 0 to 50, such as 5",
    },
    Known {
        name: "effort kept within",
        takes: Takes::One { least: 0, most: 90, step: 1, put: |bands, tenths| bands.effort_within = Some(tenths) },
        wanted: "points of RPE from 0 to 9, such as 0.5",
    },
    off("sets off", |bands, range| bands.sets_off = Some(range)),
    off("reps off", |bands, range| bands.reps_off = Some(range)),
    off("other sets off", |bands, range| bands.other_sets_off = Some(range)),
    cut("deload cut", |bands, range| bands.deload_cut = Some(range)),
];

/// The names there are.
pub fn names() -> Vec<&'static str> {
    KNOWN.iter().map(|known| known.name).collect()
}

/// The known name that is meant: a hyphen may stand for the blank.
pub(super) fn named(name: &str) -> Option<&'static str> {
    let spaced = name.replace('-', " ");
    KNOWN.iter().map(|known| known.name).find(|known| *known == spaced)
}

/// Sets the figure of a known name. `mass` is the value as a mass, where it is one.
///
/// # Errors
/// What the figure takes, where the value is none.
pub(super) fn set(bands: &mut TaperBands, name: &str, value: &Value, mass: Option<Mass>) -> Result<(), &'static str> {
    let Some(known) = KNOWN.iter().find(|known| known.name == name) else { return Ok(()) };
    match known.takes {
        Takes::Range { most, step, put } => put(bands, range(value, most, step).ok_or(known.wanted)?),
        Takes::One { least, most, step, put } => {
            let tenths = value.as_f64().and_then(|number| tenths(number, step));
            put(bands, tenths.filter(|tenths| (least..=most).contains(tenths)).ok_or(known.wanted)?);
        }
        Takes::Mass(put) => put(bands, mass.filter(|mass| *mass > Mass::ZERO).ok_or(known.wanted)?),
    }
    Ok(())
}

/// `30-50`, with or without blanks, and with the long dash that phones put in.
fn range(value: &Value, most: u32, step: u32) -> Option<Tenths> {
    let text = value.as_str()?.replace('–', "-");
    let (low, high) = text.split_once('-')?;
    let end = |text: &str| tenths(text.trim().parse::<f64>().ok()?, step).filter(|tenths| *tenths <= most);
    let range = Tenths { low: end(low)?, high: end(high)? };
    (range.low <= range.high).then_some(range)
}

/// A number in tenths, where it is a whole number of steps of so many tenths.
fn tenths(number: f64, step: u32) -> Option<u32> {
    let tenths = number * 10.0;
    let whole = tenths.round();
    let is_whole = (tenths - whole).abs() < 1e-9 && (0.0..=10_000.0).contains(&whole);
    is_whole.then_some(whole as u32).filter(|tenths| tenths % step == 0)
}

#[cfg(test)]
mod tests {
    use super::{KNOWN, Takes, named, range, set};
    use crate::training::{Mass, TaperBands, Tenths};
    use serde_yaml::Value;

    #[test]
    fn a_range_is_two_numbers_in_order() {
        for (text, read) in [
            ("30-50", Some((300, 500))),
            ("30 – 50", Some((300, 500))),
            ("0-100", Some((0, 1000))),
            ("50-50", Some((500, 500))),
            ("50-30", None),
            ("30-101", None),
            ("30.5-50", None),
            ("-60--41", None),
            ("50", None),
            ("much", None),
        ] {
            let read = read.map(|(low, high)| Tenths { low, high });
            assert_eq!(range(&Value::from(text), 1000, 10), read, "{text}");
        }
        assert_eq!(range(&Value::from(50), 1000, 10), None, "one number is no range");
        assert_eq!(range(&Value::from("0.5-1.5"), 100, 1), Some(Tenths { low: 5, high: 15 }));
    }

    #[test]
    fn a_number_is_in_its_range() {
        for (name, value, read) in [
            ("strong from", Value::from(2.5), true),
            ("strong from", Value::from(0.4), false),
            ("strong from", Value::from(2.55), false),
            ("strong from", Value::from("2.5-3"), false),
            ("load kept within", Value::from(5), true),
            ("load kept within", Value::from(5.5), false),
            ("effort kept within", Value::from(0.5), true),
            ("effort kept within", Value::from(-1), false),
        ] {
            assert_eq!(set(&mut TaperBands::default(), name, &value, None).is_ok(), read, "{name} {value:?}");
        }
        let mut bands = TaperBands::default();
        assert!(set(&mut bands, "small under", &Value::Null, None).is_err());
        assert!(set(&mut bands, "small under", &Value::Null, Some(Mass::ZERO)).is_err());
    }

    #[test]
    fn a_hyphen_may_stand_for_the_blank() {
        assert_eq!(
            (named("strong-cut"), named("strong cut"), named("weak cut")),
            (Some("strong cut"), Some("strong cut"), None)
        );
    }

    /// Each one sets a figure, and one of its own; the lifter's own wins over the journal's.
    #[test]
    fn every_name_sets_its_own_figure() {
        let mut all: Vec<TaperBands> = Vec::new();
        for known in &KNOWN {
            let mut bands = TaperBands::default();
            let value = match known.takes {
                Takes::Range { .. } => Value::from("1-2"),
                Takes::One { .. } => Value::from(2),
                Takes::Mass(_) => Value::Null,
            };
            set(&mut bands, known.name, &value, Some(Mass::kg(55))).unwrap();
            assert_ne!(bands, TaperBands::default(), "{}", known.name);
            assert!(!all.contains(&bands), "{}", known.name);
            assert_eq!(TaperBands::default().or(bands), bands, "{}", known.name);
            all.push(bands);
        }
        let of = |range: &str| {
            let mut bands = TaperBands::default();
            set(&mut bands, "cut", &Value::from(range), None).unwrap();
            bands
        };
        assert_eq!(of("10-20").or(of("30-40")), of("10-20"));
    }
}
