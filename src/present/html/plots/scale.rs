//! Values to places on a plot, and where ticks stand.

use chrono::{Datelike, NaiveDate};

/// The months as a plot names them.
const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// A straight scale from values to places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    /// The values at both ends.
    from: (f64, f64),
    /// The places of those values.
    to: (f64, f64),
}

impl Scale {
    /// From values to places. Where both values are the same, every value stands in the middle.
    pub(super) fn new(from: (f64, f64), to: (f64, f64)) -> Self {
        Scale { from, to }
    }

    /// The place of a value.
    pub(super) fn at(&self, value: f64) -> f64 {
        let ((low, high), (start, end)) = (self.from, self.to);
        let share = if high == low { 0.5 } else { (value - low) / (high - low) };
        start + share * (end - start)
    }
}

/// A place as SVG has it: to the tenth, which is finer than a screen shows.
pub(super) fn px(place: f64) -> String {
    let text = format!("{place:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" { "0".into() } else { text.to_owned() }
}

/// Round values from `low` to `high`, about `wanted` of them: steps of 1, 2 or 5 times a power of ten, none smaller than
/// `least`.
pub(super) fn ticks(low: f64, high: f64, wanted: usize, least: f64) -> Vec<f64> {
    let rough = ((high - low) / wanted.max(1) as f64).max(least);
    if !rough.is_finite() || rough <= 0.0 {
        return vec![low];
    }
    let power = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|step| *step >= rough * 0.999);
    let step = step.unwrap_or(rough);
    let first = (low / step - 1e-9).ceil() as i64;
    let last = (high / step + 1e-9).floor() as i64;
    (first..=last).map(|nth| nth as f64 * step).collect()
}

/// The first days of months from one day to another, with their names; so few months apart that no more than `most` stand.
pub(super) fn months(from: NaiveDate, until: NaiveDate, most: usize) -> Vec<(NaiveDate, &'static str)> {
    let first = from.year() * 12 + from.month0() as i32 + i32::from(from.day() > 1);
    let last = until.year() * 12 + until.month0() as i32;
    let span = usize::try_from(last - first + 1).unwrap_or(0);
    let apart = [1, 2, 3, 6, 12].into_iter().find(|apart| span.div_ceil(*apart) <= most).unwrap_or(span.max(1));
    let day = |month: i32| NaiveDate::from_ymd_opt(month.div_euclid(12), month.rem_euclid(12).unsigned_abs() + 1, 1);
    let named = |month: i32| Some((day(month)?, MONTHS.get(month.rem_euclid(12).unsigned_abs() as usize).copied()?));
    (first..=last).step_by(apart).filter_map(named).collect()
}

#[cfg(test)]
mod tests {
    use super::{Scale, months, px, ticks};
    use chrono::NaiveDate;

    #[test]
    fn months_stand_at_their_first_days() {
        let day = |month, day| NaiveDate::from_ymd_opt(2026, month, day).unwrap();
        assert_eq!(months(day(1, 15), day(3, 31), 5), [(day(2, 1), "Feb"), (day(3, 1), "Mar")]);
        assert_eq!(
            months(day(1, 1), day(8, 2), 4).iter().map(|(_, name)| *name).collect::<Vec<_>>(),
            ["Jan", "Mar", "May", "Jul"]
        );
        assert_eq!(months(day(2, 2), day(2, 20), 4), []);
    }

    #[test]
    fn ticks_are_round_and_within() {
        assert_eq!(ticks(0.0, 23.0, 4, 1.0), [0.0, 10.0, 20.0]);
        assert_eq!(ticks(203.0, 241.0, 4, 1.0), [210.0, 220.0, 230.0, 240.0]);
        assert_eq!(ticks(5.0, 10.0, 5, 1.0), [5.0, 6.0, 7.0, 8.0, 9.0, 10.0]);
        assert_eq!(ticks(0.0, 2.0, 4, 1.0), [0.0, 1.0, 2.0]);
        assert_eq!(ticks(-7.0, 7.0, 3, 1.0), [-5.0, 0.0, 5.0]);
    }

    #[test]
    fn ticks_of_nothing_are_one() {
        assert_eq!(ticks(3.0, 3.0, 4, 0.0), [3.0]);
        assert_eq!(ticks(3.0, f64::NAN, 4, 0.0), [3.0]);
    }

    #[test]
    fn ends_of_a_scale_are_its_ends() {
        let scale = Scale::new((10.0, 20.0), (100.0, 0.0));
        assert_eq!((scale.at(10.0), scale.at(20.0), scale.at(12.5)), (100.0, 0.0, 75.0));
        assert_eq!(Scale::new((5.0, 5.0), (0.0, 100.0)).at(5.0), 50.0);
    }

    #[test]
    fn places_are_short() {
        assert_eq!((px(1.0), px(1.26), px(-0.04)), ("1".into(), "1.3".into(), "0".into()));
    }
}
