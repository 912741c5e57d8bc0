//! `match --plot`: this block's weeks over the last block's, a row a lift.

use crate::support::journal::Journal;
use serde_json::json;

/// Two blocks of two weeks: a squat that went up, a press that stayed, a row that went down, and a lift of the first week.
const PAGE: &str = "# Block 1\n\n- starts: 2026-01-05\n- weeks: 2\n\n\
    ## 2026-01-05\n\n- Back squat: 3x5 @ 100 kg\n- Bench press: 3x5 @ 80 kg\n- Barbell row: 3x8 @ 60 kg\n- Dip: 3x8\n\n\
    ## 2026-01-12\n\n- Back squat: 3x5 @ 110 kg\n- Bench press: 3x5 @ 80 kg\n- Barbell row: 3x8 @ 60 kg\n\n\
    # Block 2\n\n- starts: 2026-01-19\n- weeks: 2\n\n\
    ## 2026-01-19\n\n- Back squat: 3x5 @ 110 kg\n- Bench press: 3x5 @ 80 kg\n- Barbell row: 3x8 @ 60 kg\n- Dip: 3x9\n\n\
    ## 2026-01-26\n\n- Back squat: 3x5 @ 115.5 kg\n- Bench press: 3x5 @ 80 kg\n- Barbell row: 3x8 @ 57 kg\n";

/// 110 for 100 is 10 %, 115.5 for 110 is 5 %, 57 for 60 is 5 % less: by hand.
#[test]
fn each_lift_has_its_weeks_and_how_far_they_are_from_then() {
    let answer = Journal::new().page(PAGE).json(&["match", "--plot", "--on", "2026-01-27"]);
    let rows: Vec<_> = answer["weeks_over"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| {
            let weeks: Vec<_> =
                row["weeks"].as_array().unwrap().iter().map(|week| json!([week["week"], week["change"]])).collect();
            json!([row["lift"], weeks])
        })
        .collect();
    assert_eq!(
        json!(rows),
        json!([
            ["Back squat", [[1, 10], [2, 5]]],
            ["Bench press", [[1, 0], [2, 0]]],
            ["Barbell row", [[1, 0], [2, -5]]],
            ["Dip", [[1, 12.5]]],
        ]),
        "{answer:#}"
    );
}

#[test]
fn a_row_goes_from_then_to_now_with_the_weeks_before_as_digits() {
    let screen = Journal::new().page(PAGE).run(&["match", "--plot", "--on", "2026-01-27"]);
    let rows: Vec<&str> = screen.lines().skip(3).collect();
    assert_eq!(screen.lines().next(), Some("1 ahead, 1 level, 1 behind"), "{screen}");
    let row = |lift: &str| rows.iter().find(|row| row.starts_with(lift)).copied().unwrap_or_else(|| panic!("{screen}"));
    let at = |row: &str, sign: char| row[12..].find(sign);
    let squat = row("Back squat");
    assert!(
        at(squat, 'o') < at(squat, '>') && at(squat, '>') < at(squat, '1') && squat.ends_with("110 to 115.5 kg"),
        "{screen}"
    );
    let barbell_row = row("Barbell row");
    assert!(at(barbell_row, '<') < at(barbell_row, '1') && barbell_row.ends_with("60 to 57 kg"), "{screen}");
    assert!(row("Bench press").ends_with("the same"), "{screen}");
    assert!(row("Dip").ends_with("8 to 9, wk 1"), "{screen}");
}

/// Both at once: the picture, and below it each lift with its line.
#[test]
fn the_picture_has_the_places_below_it_where_they_are_asked_for() {
    let journal = Journal::new().page(PAGE);
    let (plot, places) =
        (&["match", "--plot", "--on", "2026-01-27"][..], &["match", "--places", "--on", "2026-01-27"][..]);
    let (drawn, listed) = (journal.run(plot), journal.run(places));
    let both = journal.run(&[plot, &["--places"]].concat());
    let (_, lifts) = listed.split_once("\n\n").unwrap();
    assert_eq!(both, format!("{drawn}\n{lifts}"));
    assert!(lifts.contains("page.md:"), "{lifts}");
}

#[test]
fn a_first_block_has_nothing_to_be_laid_over() {
    let screen = Journal::new()
        .page("# Block 1\n\n- starts: 2026-01-05\n\n## 2026-01-05\n\n- Back squat: 3x5 @ 100 kg\n")
        .run(&["match", "--plot", "--on", "2026-01-06"]);
    assert!(screen.starts_with("1 new\nblock 1 week 1; no block before it\n"), "{screen}");
}
