//! The main job against something outside the project, each figure with its source.

use crate::support::journal::Journal;
use serde_json::Value;

/// The kilograms of a load, as `best` gives them.
fn kilograms(settings: &str, load: &str) -> Value {
    let journal =
        Journal::new().file("journal.yaml", settings).page(&format!("## 2026-03-05\n- Deadlift: 1 @ {load}\n"));
    journal.json(&["best", "Deadlift", "--reps", "1"])["best"]["load"]["kg"].clone()
}

/// NIST SP 811 (2008), appendix B.8, and NIST Handbook 44, appendix C: 1 lb = 0.45359237 kg exactly; the kilograms
/// are rounded to hundredths once, at the end.
#[test]
fn pounds_in_kilograms() {
    for (pounds, kg) in [
        ("45 lb", 20.41),
        ("135 lb", 61.23),
        ("225 lb", 102.06),
        ("265 lb", 120.2),
        ("315 lb", 142.88),
        ("405 lb", 183.7),
        ("495 lb", 224.53),
        ("600 lb", 272.16),
    ] {
        assert_eq!(kilograms("", pounds).as_f64(), Some(kg), "{pounds}");
    }
}

/// IPF Technical Rules, bar, collars and discs (from memory): a 20 kg bar, collars of 2.5 kg each, so 25 kg in
/// all; discs of 25 kg red, 20 kg blue, 15 kg yellow. Each side as in the rule book's loading order.
#[test]
fn the_competition_bar_by_colour() {
    let collars = "gear:\n  collars: 5 kg\n";
    assert_eq!(kilograms(collars, "bar").as_f64(), Some(25.0));
    assert_eq!(kilograms(collars, "bar + 3 red/side + 1 yellow/side").as_f64(), Some(205.0));
    assert_eq!(kilograms(collars, "bar + 2 red/side + blue/side + 2.5 kg/side").as_f64(), Some(170.0));
    assert_eq!(kilograms("", "bar + 2 red/side").as_f64(), Some(120.0));
}

/// A 45 lb bar with four 25 kg plates a side is 485.9 lb: common practice, no source; exact by the definition of
/// the pound.
#[test]
fn a_pound_bar_with_kilo_plates() {
    let settings = "gear:\n  bars: { pound bar: 45 lb }\n";
    let kg = kilograms(settings, "pound bar + 4 red/side").as_f64().unwrap();
    assert_eq!(kg, 220.41);
    assert_eq!((kg / 0.453_592_37 * 10.0).round() / 10.0, 485.9);
}

/// ISO 8601 weeks, as chrono counts them: a block that starts on a Monday has its weeks.
#[test]
fn weeks_of_a_monday_block_are_iso_weeks() {
    use chrono::{Datelike, Days, NaiveDate};
    let starts = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
    let mut page = format!("# Block 6\n\n- starts: {starts}\n\n");
    for day in (0..60).step_by(3) {
        let date = starts + Days::new(day);
        page.push_str(&format!("## {date}\n\n- Deadlift: 1 @ {} kg\n\n", 100 + day));
    }
    let answer = Journal::new().page(&page).json(&["history", "Deadlift"]);
    let marks = answer["marks"].as_array().unwrap();
    assert_eq!(marks.len(), 20);
    for mark in marks {
        let date: NaiveDate = mark["date"].as_str().unwrap().parse().unwrap();
        let week = date.iso_week().week() - starts.iso_week().week() + 1;
        assert_eq!(mark["week"].as_u64(), Some(u64::from(week)), "{date}");
    }
}
