//! Any bytes: the program never panics, every row ends in a page or in the report, and what is printed is sound.

use super::{Given, is_sound};
use crate::support::journal::Journal;
use loadline::commands;
use proptest::prelude::*;
use std::ffi::OsString;

const MAP: &str = "columns: { date: d, time: t, day: y, lift: l, sets: s, reps: r, seconds: c, per side: p, load: w, unit: u, \
    effort: e, effort scale: x, faults: f, missed: m, bodyweight: b, note: n }\nformula guard: true\n";
const HEADER: &str = "d,t,y,l,s,r,c,p,w,u,e,x,f,m,b,n\n";

/// Runs an import in this process.
fn import(table: &[u8], mapping: &[u8]) -> (u8, String) {
    let given = Given::of(Journal::new(), table, mapping);
    let root = given.journal.root().to_str().unwrap().to_owned();
    let own = ["--format", "json", "--on", "2026-11-25", "--journal", &root].map(str::to_owned);
    let words = given.arguments(&[]).into_iter().chain(own);
    let mut replies = commands::replies(std::iter::once(OsString::from("loadline")).chain(words.map(OsString::from)));
    let reply = replies.next().expect("a reply");
    (reply.status, reply.out)
}

/// Every row in the table of one place and no other; the pages sound.
fn holds(table: &[u8], mapping: &[u8]) {
    let (status, out) = import(table, mapping);
    if status == 2 {
        assert_eq!(out, "");
        return;
    }
    let answer: serde_json::Value = serde_json::from_str(&out).unwrap();
    let mut faults: Vec<u64> =
        answer["faults"].as_array().unwrap().iter().map(|fault| fault["row"].as_u64().unwrap()).collect();
    faults.dedup();
    let number = |key: &str| answer[key].as_u64().unwrap();
    let sum =
        number("taken") + number("unwanted") + answer["blank"].as_array().unwrap().len() as u64 + faults.len() as u64;
    assert_eq!(sum, number("rows"), "{answer:#}");
    assert_eq!(status, u8::from(!faults.is_empty()));
    for page in answer["pages"].as_array().unwrap() {
        is_sound("", page["text"].as_str().unwrap());
    }
}

/// A cell that is sound more often than not, so that rows get far.
fn cell(sound: &'static [&'static str]) -> impl Strategy<Value = String> {
    let odd = prop::sample::select(&[
        "",
        " ",
        "0",
        "-1",
        "1.5",
        "1,5",
        "=1+1",
        "'=x",
        "\"",
        "a\nb",
        "a\r\nb",
        "\u{1b}[2J",
        "<!--",
        "-->",
        "```",
        "# x",
        "- y: 8",
        "note",
        "skipped",
        "as planned",
        "x:",
        "x: y",
        "(",
        ")",
        "*",
        "_",
        "|",
        "@",
        "kg",
        "100 kg",
        "bw",
        "bw - 5 kg",
        "75%",
        "~40 lb",
        "pin 7",
        "\"blue band\"",
        "bar + 2 red/side",
        "2x20",
        "999999999999",
        "2026-13-45",
        "é",
        "\u{202e}",
        "\u{feff}",
        "2026-03-05",
        "block 6",
        "week 2",
        "deload",
        "meet",
        "test",
        "a, b",
        "!",
        "depth(2)",
        "RIR",
        "1e9",
        "NaN",
        "\u{a0}",
        "{",
        "sets",
    ]);
    prop_oneof![6 => prop::sample::select(sound).prop_map(str::to_owned), 1 => odd.prop_map(str::to_owned), 1 => "\\PC{0,6}"]
}

fn row() -> impl Strategy<Value = Vec<String>> {
    let first = (
        cell(&["2026-03-05", "2026-03-06", "2025-12-31"]),
        cell(&["", "", "18:30"]),
        cell(&["", "pull", "Push day", "2"]),
        cell(&["Front squat", "Dip", "Deadlift", "Harbour press", "RDL"]),
        cell(&["1", "3", "12"]),
        cell(&["5", "8", "0"]),
        cell(&[""]),
        cell(&["", "false", "true"]),
    );
    let second = (
        cell(&["100", "82.5", "bw + 10 kg", "", "20 + 2x5/side"]),
        cell(&["kg", "lb"]),
        cell(&["7", "8.5", "", "7.25", "6-7"]),
        cell(&["RPE", "RIR"]),
        cell(&["", "depth", "depth; lockout"]),
        cell(&["", "0", "1"]),
        cell(&["", "83.1"]),
        cell(&["", "felt fine", "grip: gone"]),
    );
    (first, second).prop_map(|((a, b, c, d, e, f, g, h), (i, j, k, l, m, n, o, p))| {
        vec![a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p]
    })
}

proptest! {
    #![proptest_config(crate::laws::cases(120))]

    #[test]
    fn rows_of_odd_cells_are_taken_or_told(rows in prop::collection::vec(row(), 0..12)) {
        let mut writer = csv::Writer::from_writer(HEADER.as_bytes().to_vec());
        rows.iter().for_each(|row| writer.write_record(row).unwrap());
        holds(&writer.into_inner().unwrap(), MAP.as_bytes());
    }

    #[test]
    fn any_bytes_below_a_header_are_taken_or_told(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        holds(&[HEADER.as_bytes(), &bytes].concat(), MAP.as_bytes());
    }

    #[test]
    fn any_bytes_are_refused_or_read(table in prop::collection::vec(any::<u8>(), 0..80), mapping in "[\\PC\n]{0,80}") {
        holds(&table, mapping.as_bytes());
        holds(&table, MAP.as_bytes());
        holds(HEADER.as_bytes(), mapping.as_bytes());
    }
}
