//! What is typed, and what it means: each row a line under a session and the marks it makes.

use crate::support::journal::Journal;

/// The marks of a body as `sets x amount @ kg`, with the names of the problems in front.
fn read(body: &str) -> String {
    let journal = Journal::new().page(&format!("## 2026-03-05\nbodyweight: 80 kg\n- Front squat: {body}\n"));
    let check = journal.json(&["check"]);
    let mut out: Vec<String> = check["problems"]
        .as_array()
        .unwrap()
        .iter()
        .map(|problem| problem["kind"].as_str().unwrap().to_owned())
        .collect();
    for mark in journal.json(&["history", "Front squat"])["marks"].as_array().unwrap() {
        let amount =
            ["reps", "seconds", "metres"].iter().map(|key| &mark[*key]).find(|value| !value.is_null()).unwrap();
        let mut text = format!("{}x{amount}", mark["sets"]);
        if !mark["load"].is_null() {
            text += &format!(
                " @ {}",
                if mark["load"]["kg"].is_null() { &mark["load"]["text"] } else { &mark["load"]["kg"] }
            );
        }
        if !mark["effort"].is_null() {
            text += &format!(" RPE {}", mark["effort"]);
        }
        out.push(text);
    }
    out.join(", ")
}

#[test]
fn groups_are_read_as_written() {
    for (body, expected) in [
        ("3x8@120kg RPE6", "3x8 @ 120 RPE 6"),
        ("8,8,7 @ 120 kg", "2x8 @ 120, 1x7 @ 120"),
        ("8 @ 120 kg, 6, 5 @ 110", "1x8 @ 120, 1x6 @ 120, 1x5 @ 110"),
        ("12+4+4 @ 60 kg", "1x20 @ 60"),
        ("3x20s", "3x20"),
        ("2x1:30", "2x90"),
        ("20,30s", "1x20, 1x30"),
        ("3 × 8 @ 120 kg RPE 5–6", "3x8 @ 120 RPE 5.5"),
        ("60 kg x 5", "1x5 @ 60"),
        ("3x5x60 kg", "3x5 @ 60"),
        ("60kgx5", "1x5 @ 60"),
        ("3x8 @ 20 kg + 3x25 kg/side + 15 kg/side", "3x8 @ 200"),
        ("5 @ bw + 20 kg", "1x5 @ 100"),
        ("5 @ pin 7", "1x5 @ \"pin 7\""),
        ("3x8 @ 120 kg RIR 2", "3x8 @ 120 RPE 8"),
        ("1x0 @ 210 kg miss 1", "1x0 @ 210 RPE 10"),
        ("3x8 @ 120 kg @RPE 7.", "3x8 @ 120 RPE 7"),
        ("2x5 @ 100 kg RPE 8, 8,8,7 @ 90 kg", "2x5 @ 100 RPE 8, 2x8 @ 90, 1x7 @ 90"),
    ] {
        assert_eq!(read(body), expected, "{body}");
    }
}

#[test]
fn what_is_wrong_costs_its_part_and_no_more() {
    let mut wrong = Vec::new();
    for (body, expected) in [
        ("8, 8, 7 @ 120 kg", "loose-spelling, 2x8 @ 120, 1x7 @ 120"),
        ("245x10", "loose-spelling, 1x10 @ 245"),
        ("120 kg 3x8", "loose-spelling, 3x8 @ 120"),
        ("3x5x60", "loose-spelling, 3x5 @ 60"),
        ("8x3x60", "three-numbers"),
        ("3x5 @ 8", "load-or-effort"),
        ("3x5 @ 122,5 kg", "loose-spelling, 3x5 @ 122.5"),
        ("3x5 @ 100-110 kg", "load-range"),
        ("3x8 @ 120 kg RPE 6, 7, 7", "effort-list-spaced, 3x8 @ 120"),
        ("1x8 @ 120 kg RPE 6,5", "effort-decimal-comma, 1x8 @ 120"),
        ("2x8 @ 120 kg RPE 6,5", "effort-comma-doubt, 2x8 @ 120 RPE 6"),
        ("3x8 @ 120 kg felt good RPE 7", "loose-spelling, 3x8 @ 120 RPE 7"),
        ("3x8 @ 120 kg RPE 11", "unread-effort, 3x8 @ 120"),
        ("3x8, RPE 7 @ 100 kg", "loose-spelling, 3x8 @ 100 RPE 7"),
        ("3·8 @ 100 kg", "loose-spelling, 3x8 @ 100"),
        ("3x @ 12o kg RPE 11", "unread-count, unread-load, unread-effort"),
        ("3x8 at 120 kg", "loose-spelling, 3x8 @ 120"),
        ("3x8 - 120 kg", "loose-spelling, 3x8 @ 120"),
        ("3x8, 120 kg", "unread-count"),
        ("3x8 6", "unread-words"),
        ("3x8 @ 1 000 kg", "unread-load"),
        ("3x8 @ 60 stone", "unread-load"),
        ("3x8 @ 120 kg 130 kg", "unread-words"),
        ("3x8 @ 120 kg; 3x5 @ 130 kg", "loose-spelling, 3x8 @ 120, 3x5 @ 130"),
        ("3x8@100,2x5@110", "groups-run-together"),
        ("20s,30", "mixed-units"),
        ("3x8 - 10 @ 120 kg", "unread-words"),
        ("3x8 @ 120 kg RPE: 6", "loose-spelling, 3x8 @ 120 RPE 6"),
        ("3x8 @ 120 kg 2 RIR", "loose-spelling, 3x8 @ 120 RPE 8"),
        ("3x8 @ 120 kg RPE 5 - 6", "spaced-range, 3x8 @ 120"),
        ("3x8 @ 120 kg rest 3-5 min", "unread-attribute, unread-words"),
        ("3x8 @ 120 kg tempo 3 1 0", "unread-attribute, unread-words"),
        ("0x8", "no-sets"),
        ("3x8 @ bar + 2 mauve/side", "unknown-gear"),
    ] {
        let said = read(body);
        if said != expected {
            wrong.push(format!("{body}: {said}, not {expected}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Of marks equal in everything the one done first, and of those the one written first, is the best; which page
/// they stand in does not matter where times are given.
#[test]
fn full_ties_go_to_the_earliest() {
    let evening = "## 2026-03-05 18:30\n- Front squat: 8 @ 110 kg\n";
    let morning = "## 2026-03-05 7:30\n- Front squat: 8 @ 110 kg, 8 @ 20 kg + 90\n";
    let journal = Journal::new().file("a.md", evening).file("b.md", morning);
    let best = &journal.json(&["best", "Front squat", "--reps", "8"])["best"];
    assert_eq!((best["page"].as_str(), best["load"]["text"].as_str()), (Some("b.md"), Some("110 kg")));
}

/// A count ends where the sign before its load begins, so that what is offered behind it stands there.
#[test]
fn a_count_ends_before_the_load_that_is_joined_to_it() {
    let journal = Journal::new().page("## 2026-03-05\n\n- Kettlebell press: 3x5x16 kg\n");
    let check = journal.json(&["check"]);
    let (problem, fix) = (&check["problems"][0], &check["problems"][0]["fix"]);
    assert_eq!(
        (&problem["kind"], &problem["column"], &problem["end_column"]),
        (&"side-not-said".into(), &21.into(), &24.into())
    );
    assert_eq!((&fix["column"], &fix["text"]), (&24.into(), &"/side ".into()));
}
