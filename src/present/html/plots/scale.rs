//! Values to places on a plot, and where ticks stand.

use crate::present::plot::dates::{Dates, Tick};
use crate::present::plot::scale::Scale as Axis;
use chrono::NaiveDate;

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

/// Round whole values from `low` to `high`, about `wanted` of them.
pub(super) fn ticks(low: f64, high: f64, wanted: usize) -> Vec<f64> {
    Axis::covering(low, high, wanted, true).ticks().filter(|tick| (low..=high).contains(tick)).collect()
}

/// Ticks from one day to another, no more than `most`.
pub(super) fn dates(from: NaiveDate, until: NaiveDate, most: usize) -> Vec<Tick> {
    let axis = Dates::covering(from, until);
    let within = |tick: &Tick| (from..=until).contains(&tick.date);
    let list = axis.ticks().find(|ticks| ticks.len() <= most).unwrap_or_default();
    list.into_iter().filter(within).collect()
}

#[cfg(test)]
mod tests {
    use super::{Scale, dates, px, ticks};
    use chrono::NaiveDate;

    #[test]
    fn ticks_stand_within_the_plot() {
        assert_eq!(ticks(203.0, 241.0, 5), [210.0, 220.0, 230.0, 240.0]);
        assert_eq!(ticks(0.0, 2.0, 4), [0.0, 1.0, 2.0]);
        let day = |month, day| NaiveDate::from_ymd_opt(2026, month, day).unwrap();
        let short = |from, until| dates(from, until, 5).into_iter().map(|tick| tick.short).collect::<Vec<_>>();
        assert_eq!(short(day(1, 15), day(5, 31)), ["Feb", "Mar", "Apr", "May"]);
        assert_eq!(short(day(2, 2), day(2, 20)), ["2 Feb", "9 Feb", "16 Feb"]);
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
