//! The report says what the answers say: each of their numbers stands in a table of it.

use crate::support::journal::example;
use crate::support::run;
use scraper::{Html, Selector};
use serde_json::Value;

struct Report(Html);

impl Report {
    fn of(arguments: &[&str]) -> Self {
        Report(Html::parse_document(&run::run(&example(), 80, &[&["report"], arguments].concat())))
    }

    /// The rows of the table with that caption, each as the text of its cells.
    fn rows(&self, caption: &str) -> Vec<Vec<String>> {
        let find = |selector: &str| Selector::parse(selector).unwrap();
        let table = self.0.select(&find("table")).find(|table| {
            table.select(&find("caption")).next().is_some_and(|found| found.text().collect::<String>() == caption)
        });
        let table = table.unwrap_or_else(|| panic!("no table: {caption}"));
        let text = |cell: scraper::ElementRef<'_>| cell.text().collect::<Vec<_>>().join(" ");
        table.select(&find("tbody tr")).map(|row| row.child_elements().map(text).collect()).collect()
    }
}

fn json(arguments: &[&str]) -> Value {
    run::json(&example(), arguments)
}

fn place(value: &Value) -> String {
    format!("{}:{}", value["page"].as_str().unwrap(), value["line"])
}

#[test]
fn every_pair_of_the_match_is_there() {
    for lifter in ["anselm", "nerys"] {
        let report = Report::of(&["--lifter", lifter]);
        let answer = json(&["match", "--lifter", lifter]);
        let pairs = answer["pairs"].as_array().unwrap();
        let of = |verdict: &str| pairs.iter().filter(|pair| pair["verdict"] == verdict).count();
        let rows = report.rows("Each lift now and then");
        let compared: Vec<&Value> = pairs.iter().filter(|pair| !pair["now"].is_null()).collect();
        assert_eq!(rows.len(), compared.len());
        assert!(!rows.is_empty());
        for pair in compared {
            let now = place(&pair["now"]);
            let row = rows.iter().find(|row| row[2].contains(&now)).unwrap_or_else(|| panic!("{now}: {rows:?}"));
            assert!(row[0].contains(pair["lift"].as_str().unwrap()), "{row:?}");
            let verdict = pair["verdict"].as_str().unwrap();
            assert!(row[1].contains(verdict) || verdict == "new" && row[1].contains("no match"), "{row:?}");
            for (side, cell) in [("now", &row[2]), ("then", &row[4])] {
                if pair[side].is_null() {
                    assert!(cell.contains("none"), "{row:?}");
                    continue;
                }
                assert!(cell.contains(&place(&pair[side])), "{row:?}");
                for figure in [&pair[side]["load"]["text"], &pair[side]["effort"]] {
                    let figure = figure.as_str().map_or(figure.to_string(), str::to_owned);
                    assert!(figure == "null" || cell.contains(&figure), "{figure}: {row:?}");
                }
            }
        }
        for (caption, verdict) in [("Done then, and not this week", "missing"), ("Still to come this week", "to come")]
        {
            if of(verdict) > 0 {
                assert_eq!(report.rows(caption).len(), of(verdict));
            }
        }
    }
}

#[test]
fn every_record_of_a_main_lift_is_there_and_those_of_the_block_are_new() {
    let report = Report::of(&[]);
    for lift in ["Back squat", "Bench press", "Deficit deadlift"] {
        let answer = json(&["best", lift]);
        let mut marks: Vec<&Value> = answer["rows"].as_array().unwrap().iter().map(|row| &row["best"]).collect();
        marks.dedup();
        let rows = report.rows(&format!("{lift}: best at each rep count"));
        assert_eq!(rows.len(), marks.len());
        for (mark, row) in marks.iter().zip(rows) {
            let load = mark["load"]["text"].as_str().unwrap();
            // A share of a maximum is shown with what it is: `78 % (200.85 kg)`.
            let load = &load.replace('%', " %");
            assert!(row[1].contains(load) && row[2].contains(&place(mark)), "{mark}: {row:?}");
            assert_eq!(row[3].contains("new"), mark["block"] == "9", "{mark}: {row:?}");
        }
    }
}

#[test]
fn every_weeks_sets_by_family_are_there() {
    let report = Report::of(&["--lifter", "nerys"]);
    let answer = json(&["volume", "--family", "squat", "--lifter", "nerys"]);
    let rows = report.rows("Work sets a week by family, and how many of them were high-rep");
    assert!(rows.len() >= 6, "{rows:?}");
    for row in rows {
        let week = answer["rows"].as_array().unwrap().iter().find(|week| {
            row[0].trim_end_matches(" *")
                == format!("block {} week {}", week["block"].as_str().unwrap_or(""), week["week"])
        });
        let figures = week.map(|week| (week["sets"].as_u64().unwrap(), week["high_rep_sets"].as_u64().unwrap()));
        let expected = match figures {
            Some((sets, 0)) => sets.to_string(),
            Some((sets, high)) => format!("{sets} ({high})"),
            None => "0".into(),
        };
        assert_eq!(row[1], expected, "{row:?}");
    }
}

#[test]
fn every_planned_line_is_there() {
    let report = Report::of(&[]);
    let answer = json(&["adherence"]);
    let rows = report.rows("Planned against done, by week and lift");
    let known = answer["rows"].as_array().unwrap();
    assert_eq!(rows.len(), known.len());
    for (known, row) in known.iter().zip(&rows) {
        assert!(row[0].contains(known["lift"].as_str().unwrap()), "{row:?}");
        assert_eq!(row[3], format!("{}/{}", known["sets_reached"], known["sets_planned"]), "{row:?}");
    }
    let efforts = ["under", "on", "over", "unknown"].map(|stands| answer["efforts"][stands].as_u64().unwrap());
    assert_eq!(report.rows("Efforts planned and done").len() as u64, efforts.iter().sum::<u64>());
}

#[test]
fn the_last_estimate_of_a_lift_is_the_one_that_estimate_gives() {
    let report = Report::of(&[]);
    let rows = report.rows("Estimated maximum, Bench press");
    // On the day of the last evidence no drift has widened it yet.
    let date = rows[0][0].clone();
    let answer = json(&["estimate", "Bench press", "--on", &date]);
    for (cell, field) in rows[0][2..].iter().zip(["est_max_kg", "low_kg", "high_kg"]) {
        let value = answer[field].as_f64().unwrap();
        assert_eq!(*cell, format!("{} kg", value.round()), "{field} of {:?}", rows[0]);
    }
}
