//! Sets that are not what they look like: others were done, at another time, by somebody else, or in another unit; and
//! lines that look like sets and are none. A typed page in, what counts and what is said out.

use crate::days::{fixed, pages, told};
use loadline::journal::{Memory, open};
use loadline::source::Page;

/// What is said of lines typed below one date.
fn below_a_date(lines: &str) -> Vec<String> {
    told(&format!("## 2026-09-10\n\n{lines}\n"))
}

/// None of these lines counts, and each is said to.
fn all_refused(pages: &[&str]) {
    for lines in pages {
        let told = below_a_date(lines);
        let counted = told.iter().any(|said| said.starts_with("2026-"));
        assert!(!counted && !told.is_empty(), "{lines}: {told:?}");
    }
}

/// The first line counts as it stands, and the second is said to mean something.
fn second_refused(first: &str, counted: &str, seconds: &[&str]) {
    for second in seconds {
        let told = below_a_date(&format!("{first}\n{second}"));
        assert_eq!(told.first().map(String::as_str), Some(counted), "{second}: {told:?}");
        assert_eq!(told.len(), 2, "{second}: {told:?}");
    }
}

#[test]
fn sets_as_they_were_done_behind_what_was_meant_are_asked_about() {
    all_refused(&[
        "Squat 3x8: 8, 8, 6 @ 80kg",
        "- Squat 3x8: 8, 8, 6 @ 80kg",
        "Squat 3x5: 5, 5, 5 @ 100",
        "bench 3x10: 10, 9, 8 x 60kg",
        "curl 12/10 x3",
    ]);
    second_refused(
        "squat 5x5 100",
        "2026-09-10 Back squat 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg",
        &["5,5,5,4,3", "5 5 4"],
    );
}

#[test]
fn a_line_that_says_that_the_sets_above_were_others_is_no_prose() {
    let squat = "2026-09-10 Back squat 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg";
    second_refused(
        "squat 3x5 100",
        squat,
        &[
            "only did 2 sets",
            "failed set 3",
            "missed last rep",
            "last set 3",
            "(only 2 sets)",
            "-> last set only 3",
            "scratch that, 3x4",
            "edit: 102.5",
            "5 more at 60",
            "- 4",
        ],
    );
    for remark in ["last set was a grind", "only had 45 minutes", "next time only 3x3", "2 reps left in the tank"] {
        assert_eq!(below_a_date(&format!("squat 3x5 100\n{remark}")), [squat], "{remark}");
    }
}

#[test]
fn a_word_behind_sets_below_a_lift_is_no_other_lift() {
    all_refused(&[
        "Bench\n100x4 F",
        "- Bench press:\n  - 4 @ 100 kg F",
        "Bench\n100x5 clean",
        "Bench\n100x5 dl",
        "100x4 squat f",
        "Squat\nL: 60x5",
        "Squat\nW1: 60x5",
        "Squat\nC: 3x8 50",
        "L: squat 100x5",
    ]);
    pages(&[("## 2026-09-10\n\nA1: squat 100x5\n", &["2026-09-10 Back squat 5 @ 100 kg"])]);
}

#[test]
fn words_in_many_tongues_that_say_it_was_not_done_are_no_remark() {
    let words = [
        "yesterday",
        "(from monday)",
        "moved to friday",
        "plan",
        "a hand",
        "a leg",
        "every hour",
        "(nie zrobione)",
        "(pomini\u{119}te)",
        "(niet gehaald)",
        "(misslyckades)",
        "(vynech\u{e1}no)",
        "(n\u{e3}o fiz)",
        "(com ajuda)",
        "(\u{e9}chauffement)",
        "(rozgrzewka)",
        "(abgesagt)",
    ];
    for word in words {
        all_refused(&[&format!("squat 3x5 100 {word}")]);
    }
    let squat = "2026-09-10 Back squat 5 @ 100 kg (felt heavy)";
    assert_eq!(below_a_date("squat 1x5 100 (felt heavy)").len(), 1, "{squat}");
}

#[test]
fn captions_in_many_tongues_hold_for_lines_and_rows() {
    for caption in [
        "Today's plan",
        "Coach's plan",
        "Rx",
        "Not done",
        "To do on Saturday",
        "What I did last Thursday",
        "On Tuesday I did",
        "A year ago",
        "Same day last year",
        "Volgende keer",
        "N\u{e4}sta g\u{e5}ng",
        "Nast\u{119}pnym razem",
        "P\u{159}\u{ed}\u{161}t\u{11b}",
        "La settimana prossima",
        "5 times through",
        "Warm up",
        "### Warm-up",
        "### 1RM",
    ] {
        all_refused(&[&format!("{caption}\nsquat 3x5 100")]);
        let table = "| Lift | Sets | Reps | Weight |\n|---|---|---|---|\n| Squat | 3 | 5 | 140 |";
        all_refused(&[&format!("{caption}\n{table}")]);
    }
    all_refused(&["Lena:\n\n- squat 3x5 140"]);
    pages(&[
        ("## 2026-09-10 planned\n\n- Squat: 3x5 @ 100 kg\n", &["unread-work: - Squat: 3x5 @ 100 kg"]),
        ("## 2026-09-10 (skipped)\n\nsquat 3x5 100\n", &["unread-work: squat 3x5 100"]),
        ("## 2026-09-10 PR day\n\n- Squat: 5 @ 100 kg\n", &["2026-09-10 Back squat 5 @ 100 kg"]),
    ]);
}

#[test]
fn what_is_said_of_all_units_is_asked_of_each_load_without_one() {
    all_refused(&[
        "all weights in lbs\nsquat 225x5",
        "all weights in lbs\n\nfelt good\n\n- Squat: 5 @ 225",
        "weights per side, bar not counted\nsquat 40x5",
    ]);
    pages(&[
        ("## 2026-09-10\n\nall weights in lbs\nsquat 225 lb x5\n", &["2026-09-10 Back squat 5 @ 225 lb"]),
        ("## 2026-09-10\n\nall in kg\nsquat 100x5\n", &["2026-09-10 Back squat 5 @ 100 kg"]),
    ]);
}

#[test]
fn the_number_of_a_set_in_a_table_is_no_number_of_sets() {
    let head = "| Exercise | Set | Reps | kg |\n|---|---|---|---|\n";
    let rows = "| Squat | 1 | 5 | 100 |\n| Squat | 2 | 5 | 105 |\n| Squat | 3 | 4 | 110 |\n| Bench | 3 | 8 | 60 |\n";
    pages(&[(
        &format!("## 2026-09-10\n\n{head}{rows}"),
        &[
            "2026-09-10 Back squat 5 @ 100 kg",
            "2026-09-10 Back squat 5 @ 105 kg",
            "2026-09-10 Back squat 4 @ 110 kg",
            "several-readings: | Bench | 3 | 8 | 60 |",
        ],
    )]);
}

#[test]
fn what_no_lift_is_called_is_none() {
    all_refused(&[
        "- Goal: 3x5 @ 120 kg",
        "- Next week: 5x5 @ 100 kg",
        "- Yesterday: 3x5 @ 100 kg",
        "- Squat: 3x5 @ 100 kg (not done)",
        "- Squat: 3x5 @ 100 kg (tomorrow)",
        "- Squat: 100",
        "- Deadlift: 140 RPE 8",
        "\u{43f}\u{440}\u{438}\u{441}\u{435}\u{434}\u{430}\u{43d}\u{438}\u{44f} 3\u{445}5 100\u{43a}\u{433}",
    ]);
    for prose in ["- Time: 18:05", "- Pause: 90s", "- Parkrun: 24:10", "BP 125/78 x2", "BP 118/76 x3"] {
        assert_eq!(below_a_date(prose), <[&str; 0]>::default(), "{prose}");
    }
    // A hundred reps are not what a load becomes.
    let page = "## 2026-09-10\n\n- Squat: 100 @ 8\n";
    assert_eq!(crate::days::fixed(page), page);
}

#[test]
fn other_days_are_seen_in_more_tongues_and_forms() {
    for day in [
        "sexta-feira",
        "ned\u{11b}le",
        "Samstag fr\u{fc}h",
        "samedi matin",
        "domingo por la tarde",
        "Friday the 11th",
        "on the 12th",
        "12th",
        "the next morning",
        "two days later",
        "Session 3:",
        "Training 14",
    ] {
        let told = below_a_date(&format!("squat 5x100\n\n{day}\nbench 1x5 80"));
        assert!(!told.iter().any(|said| said.contains("Bench")), "{day}: {told:?}");
        assert!(told.iter().any(|said| said.starts_with("not-a-date")), "{day}: {told:?}");
    }
    pages(&[
        (
            "## 2026-09-10\n\nsquat 100x5\n- 2026-09-12\nbench 1x5 80\n",
            &["2026-09-10 Back squat 5 @ 100 kg", "2026-09-12 Bench press 5 @ 80 kg"],
        ),
        ("## 2026-09-10 & 2026-09-11\n\nsquat 100x5\n", &["not-a-date: ## 2026-09-10 & 2026-09-11"]),
        ("## 2026-09-10 moved from 2026-09-09\n\nsquat 100x5\n", &["2026-09-10 Back squat 5 @ 100 kg"]),
    ]);
}

/// A day behind a bullet is a heading once it is tidied, and no bullet with a heading in it.
#[test]
fn a_day_behind_a_bullet_is_tidied_whole() {
    let page = "## 2026-09-10\n\nsquat 100x5\n- 2026-09-12\nbench 80x5\n";
    let tidied = crate::days::fixed(page);
    assert_eq!(tidied, "## 2026-09-10\n\n- Back squat: 5 @ 100 kg\n## 2026-09-12\n- Bench press: 5 @ 80 kg\n");
    assert_eq!(told(&tidied), told(page));
}

#[test]
fn pain_in_a_hurry_is_pain() {
    let pains = |lines: &str| {
        let page = format!("## 2026-09-10\n\n{lines}\n");
        crate::days::fixed(&page).lines().filter(|line| line.contains("pain")).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(pains("pain left knee 7/10"), ["- pain: left knee 7/10"]);
    assert_eq!(pains("knee pain 6/10"), ["- pain: knee 6/10"]);
    assert_eq!(pains("pain = chest 3/10"), ["- pain: chest 3/10"]);
    assert_eq!(below_a_date("knee 3/10"), <[&str; 0]>::default());
    assert_eq!(below_a_date("- pain: knee 3/10, shoulder 7/10"), ["unread-fact: - pain: knee 3/10, shoulder 7/10"]);
}

#[test]
fn a_number_of_sets_in_front_of_each_is_no_multiple_of_the_first() {
    pages(&[
        (
            "## 2026-09-10\n\nbench 3 sets: 80x6, 80x6, 80x5\n",
            &["2026-09-10 Bench press 6 @ 80 kg, 6 @ 80 kg, 5 @ 80 kg"],
        ),
        ("## 2026-09-10\n\nsquat 2 sets: 60x5 80x5\n", &["2026-09-10 Back squat 5 @ 60 kg, 5 @ 80 kg"]),
        ("## 2026-09-10\n\nsquat 2x5 100, 102.5\n", &["2026-09-10 Back squat 5 @ 100 kg, 5 @ 102.5 kg"]),
    ]);
    all_refused(&[
        "squat 2 sets 5@100, 3@110",
        "squat 3 sets: 5@100, 5@105",
        "bench 80 4 sets: 8, 7, 6",
        "squat 3x5 100, 2 paused",
        "squat 3x5 100, 2 felt easy",
    ]);
}

#[test]
fn sets_whose_load_stands_on_the_next_line_do_not_count_without_it() {
    all_refused(&[
        "Leg press 3x12\nWeight: 160kg",
        "Squat 3x5\n100kg",
        "Squat 3x5\n100",
        "Bench 3x8\n@80",
        "Bench 3x8\n60/65/70",
        "Bench\n3x8\n80",
        "- Leg press:\n  - 3x12\n  - 160 kg",
        "- Squat: 3x5\n100 kg",
    ]);
    pages(&[("## 2026-09-10\n\npull-ups 1x8\nbw 80\n", &["2026-09-10 bodyweight 80", "2026-09-10 Pull-up 8 @ bw"])]);
}

#[test]
fn a_line_below_that_takes_all_of_it_back_is_said() {
    let bench = "2026-09-10 Bench press 5 @ 80 kg";
    let lines = [
        "not done",
        "skipped",
        "cancelled",
        "did not do these",
        "4th set skipped",
        "only two sets really",
        "scratch that",
        "last set was 4 really",
        "actually 82.5",
        "got only 4 on the third",
        "same",
    ];
    second_refused("bench 1x5 80", bench, &lines);
    for said in ["felt good", "not bad at all", "same gym as last week", "short rest", "actually felt fine"] {
        assert_eq!(below_a_date(&format!("bench 1x5 80\n{said}")), [bench], "{said}");
    }
}

#[test]
fn a_remark_or_a_rest_between_sets_does_not_end_the_lift() {
    for between in ["felt good", "rest 3 min", "(3 min)", "Rest: 3 min"] {
        assert_eq!(
            below_a_date(&format!("Squat\n100x5\n{between}\n110x5")),
            ["2026-09-10 Back squat 5 @ 100 kg, 5 @ 110 kg"],
            "{between}"
        );
    }
    pages(&[
        ("## 2026-09-10\n\nBench 60x8\n65x8\n", &["2026-09-10 Bench press 8 @ 60 kg, 8 @ 65 kg"]),
        ("## 2026-09-10\n\nheavy squat 120x3\n", &["2026-09-10 Back squat 3 @ 120 kg"]),
        ("## 2026-09-10\n\nthen curls 12.5x12\n", &["2026-09-10 Biceps curl 12 @ 12.5 kg"]),
    ]);
    all_refused(&["Squat\n\n110x5", "Squat\n\nthen some curls\n\n12x10"]);
}

#[test]
fn what_a_day_is_called_below_its_heading_is_no_other_day() {
    for label in ["Week 2 Day 1", "Session 1", "Day 2", "Tag 2", "Monday", "10/10 session", "Best day in 3 weeks"] {
        let told = told(&format!("## 2026-09-10\n\n{label}\n\nsquat 100x5\n"));
        assert_eq!(told, ["2026-09-10 Back squat 5 @ 100 kg"], "{label}");
    }
}

#[test]
fn training_told_in_words_is_not_lost() {
    all_refused(&["deadlifted 140 for 5", "Cleaned 80 for 3", "Hit 140 for a double", "Squat\n100-5"]);
    for prose in ["cleaned the garage for 3 hours", "no pain 0/10", "bw 82.1 yesterday"] {
        assert_eq!(below_a_date(prose), <[&str; 0]>::default(), "{prose}");
    }
}

#[test]
fn captions_and_corrections_are_known_in_more_words() {
    for caption in [
        "weights are in pounds, travelling",
        "Hotel gym today so lb not kg",
        "without the bar",
        "Still to do",
        "Coach wants",
        "PRs so far",
        "From Monday",
        "Bo's sets",
        "Ramp up",
        "4 rounds with 1 min rest",
        "three times through",
    ] {
        all_refused(&[&format!("{caption}\nSquat 5x100")]);
    }
    let lines = [
        "only two",
        "third one was a miss",
        "oops 95",
        "not me, Bo",
        "that was the warm up",
        "done on Wednesday",
        "planned",
        "repeat 3 times",
        "all in lbs btw",
    ];
    second_refused("squat 100x5", "2026-09-10 Back squat 5 @ 100 kg", &lines);
    for said in ["felt good, maybe a bit slow", "just me today", "lost a few pounds this week", "warm in here today"] {
        let told = below_a_date(&format!("squat 100x5\n{said}\n\nbench 80x5"));
        assert_eq!(told, ["2026-09-10 Back squat 5 @ 100 kg", "2026-09-10 Bench press 5 @ 80 kg"], "{said}");
    }
    all_refused(&["Row 4x10 60kg same as last week", "squat 3x\"blue band\"- Back squat: elt easy"]);
    assert_eq!(below_a_date("Bench 1x8 80kg same as last week"), ["2026-09-10 Bench press 8 @ 80 kg"]);
}

/// What git is shown of one page by itself knows the lifts that only that page has.
#[test]
fn a_lone_page_knows_its_own_lifts() {
    let page = "## 2026-09-10\n\n- Rope drag: 4x20m @ 25 kg\nRope drag 4x20m 20 kg\n";
    let lone = |text: &str| {
        let lifter = open(&Memory::default()).lifters.remove(0);
        let read = loadline::meaning::lone(&lifter, vec![Page::new("page.md", text.as_bytes().to_vec()).unwrap()]);
        format!("{:?} {:?}", read.log.sessions, read.asides)
    };
    assert_eq!(lone(page), lone(&page.replace("Rope drag 4x20m 20", "- Rope drag: 4x20m @ 20")));
}

/// The unit that is written beside a load without one is perhaps its own.
#[test]
fn a_load_without_a_unit_beside_another_unit_is_asked_about() {
    let pounds = "2026-09-10 Back squat 5 @ 225 lb";
    for (lines, counted) in [
        ("squat 225 lb x5, 245x3", None),
        ("squat 3x5 225lb, 2x3 245", None),
        ("Squat\n225lb x 5\n235 x 3", Some(pounds)),
    ] {
        let told = below_a_date(lines);
        let line = lines.lines().last().unwrap();
        let first = counted.map(str::to_owned);
        let said = told.last().unwrap();
        assert_eq!(told.first().filter(|said| said.starts_with("2026")), first.as_ref(), "{lines}");
        assert!(said.starts_with("several-readings: ") && said.contains(line), "{lines}: {told:?}");
    }
    // Tidied it is asked all the same, and so is a third row.
    let page = "## 2026-09-10\n\nSquat\n225lb x 5\n235 x 3\n245 x 1\n";
    let asked = [pounds, "several-readings: 235 x 3", "several-readings: 245 x 1"];
    assert_eq!(told(page), asked);
    assert_eq!(told(&fixed(page)), asked);
    let other_lift = below_a_date("Curl 3x10 30 lb\nSquat\n100x5");
    assert!(other_lift.contains(&"2026-09-10 Back squat 5 @ 100 kg".to_owned()), "{other_lift:?}");
    // In the notation the settings say what it is of.
    let told = below_a_date("- Back squat: 5 @ 225 lb, 3 @ 102.5");
    assert_eq!(told, ["2026-09-10 Back squat 5 @ 225 lb, 3 @ 102.5 kg"]);
}

#[test]
fn a_unit_behind_a_name_and_another_box_than_a_tick_cost_the_line() {
    all_refused(&[
        "Squat (lb)\n225x5",
        "Squat (lb) 225x5",
        "- Squat (lb): 3x5 @ 225",
        "- [>] Bench press: 3x5 @ 80 kg",
        "- [-] Bench press: 3x5 @ 80 kg",
        "- [?] Bench press: 3x5 @ 80 kg",
        "\u{1f51c} Bench 3x5 80kg",
        "Bench 3x5 80kg \u{1f6ab}",
    ]);
}

/// Sets that stand right below a lift, or in a table below it, are never silent.
#[test]
fn what_stands_below_a_lift_is_read_or_said_to_be_not() {
    all_refused(&[
        "Squat\n| kg | Reps |\n|---|---|\n| 100 | 5 |",
        "Bench:\n\n3x5 80",
        "**Bench**\n\n3x5 80",
        "goblet squat\nweight 24kg\n3x10",
        "Chin ups\nbw 8",
    ]);
    second_refused(
        "Squat 5x3 100",
        "2026-09-10 Back squat 3 @ 100 kg, 3 @ 100 kg, 3 @ 100 kg, 3 @ 100 kg, 3 @ 100 kg",
        &["then worked up to 150x3"],
    );
    for (lines, sets) in [
        ("Bench\n80 for 5\n90 for 1", "Bench press 5 @ 80 kg, 1 @ 90 kg"),
        ("Bench\nSet 2 \u{2014} 80 kg \u{d7} 4", "Bench press 4 @ 80 kg"),
        ("plank 1'30\"", "Plank 1:30 @ bw"),
        (
            "squat \u{ff15}x\u{ff15} \u{ff11}\u{ff10}\u{ff10}kg",
            "Back squat 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg",
        ),
    ] {
        assert_eq!(below_a_date(lines), [format!("2026-09-10 {sets}")], "{lines}");
    }
}

#[test]
fn a_heading_may_say_that_nothing_was_done_or_what_the_numbers_are_of() {
    let squat = "- Back squat: 3x5 @ 100";
    for (label, counts) in [
        ("(moved to Saturday)", false),
        ("didn't happen", false),
        ("to do", false),
        ("off sick", false),
        ("rest day", false),
        ("lbs", false),
        (", all in lb", false),
        (", all in kg", true),
        ("Thu, heavy day", true),
        ("last heavy day", true),
    ] {
        let told = told(&format!("## 2026-09-10 {label}\n\n{squat}\n"));
        assert_eq!(told.iter().any(|said| said.starts_with("2026")), counts, "{label}: {told:?}");
        assert_eq!(told.len(), 1, "{label}: {told:?}");
    }
}

/// The notation's own form makes no lift of what sets and days are called, and no remark of what takes sets back.
#[test]
fn the_notation_has_no_lift_called_saturday_and_no_set_that_failed() {
    all_refused(&[
        "- actual: 3x5 @ 90 kg",
        "- prev: 3x5 @ 90 kg",
        "- Saturday: 3x5 @ 90 kg",
        "- new PR: 1 @ 90 kg",
        "- Working sets: 3x5 @ 90 kg",
        "- edit: 3x5 @ 90 kg",
        "- Bench press: 1 @ 100 kg (failed)",
        "- Bench press: 3x5 @ 100 kg (not done, elbow)",
        "- Bench press: 3x5 @ 100 (lb)",
        "- Bench press: 3x8 @ 40 kg (per side)",
        "Skipped today:\n- Back squat: 3x5 @ 100 kg",
        "Homework for the weekend:\n- Back squat: 3x5 @ 100 kg",
        "Ran out of time for:\n- Back squat: 3x5 @ 100 kg",
        "Activation:\n- Back squat: 3x5 @ 100 kg",
        "Pendiente:\n- Back squat: 3x5 @ 100 kg",
    ]);
    for lines in [
        "- Core: 5 @ 80 kg",
        "- Chest: 5 @ 80 kg",
        "- Back squat: 5 @ 80 kg (felt heavy, no belt) (left knee clicky)",
        "- Back squat: 5 @ 80 kg (sick) (long rest)",
        "Accessories:\n- Back squat: 5 @ 80 kg",
        "Felt great today:\n- Back squat: 5 @ 80 kg",
    ] {
        let told = below_a_date(lines);
        assert!(matches!(told.as_slice(), [one] if one.ends_with(" 5 @ 80 kg")), "{lines}: {told:?}");
    }
}

#[test]
fn remarks_that_take_sets_back_in_more_words_and_tongues_are_none() {
    for remark in [
        ", ran out of time",
        ", scrapped",
        ", rescheduled",
        ", red lights",
        ", no lockout",
        ", swapped for floor press",
        ", did leg press instead",
        ", done Sat morning",
        " RPE 8 cap",
        " no pude",
        " pas pu",
        " (keine Zeit)",
        " (weggelassen)",
        " (reporté)",
    ] {
        all_refused(&[&format!("squat 3x5 100{remark}")]);
    }
    let squat = "2026-09-10 Back squat 5 @ 100 kg, 5 @ 100 kg, 5 @ 100 kg";
    let amending = [
        "third set: 4",
        "3rd: 4",
        "4 on set 3",
        "last one didn't go",
        "weight was 95 not 100",
        "typo: 95",
        "+5 kg on the last set",
        "moved to Friday",
        "did these on Tuesday",
        "plan only",
        "+ bar",
        "each hand",
        "once more",
    ];
    second_refused("squat 3x5 100", squat, &amending);
    for said in ["felt easy, next time 105", "last set slow", "good session", "bar speed good", "third week in a row"] {
        assert_eq!(below_a_date(&format!("squat 3x5 100\n{said}")), [squat], "{said}");
    }
}
