//! `session`, on pages small enough to follow with a pencil.

use crate::report::hostile;
use crate::support::browser::Browser;
use crate::support::journal::{Journal, example};
use crate::support::run;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::questions::session::{Answer, Ask, answer};
use proptest::prelude::*;
use serde_json::json;
use std::fs;

/// Two days of squats, then the third one.
const BEFORE: &str = "\
# Block 1

- starts: 2026-10-26
- weeks: 4

## 2026-10-26 heavy day

- Back squat: 4,4,4 @ 150 kg RPE 7,7.5,8
  - cue: knees out
  - setup: pin 14

## 2026-11-16 heavy day

pain: left knee 3/10

- Back squat: 4,4,4 @ 155 kg RPE 7.5,8,8.5 !depth(3)

# Block 2

- starts: 2026-11-23
- weeks: 4

## 2026-11-25 heavy day

";

fn today(lines: &str) -> Journal {
    Journal::new().page(&format!("{BEFORE}{lines}"))
}

#[test]
fn before_the_first_set_all_is_on_one_screen() {
    let out = today("- Back squat:\n  - plan: 3x4 @ 155 kg RPE 7-8\n").run_at(60, &["session"]);
    assert_eq!(
        out,
        "\
Wed 25 Nov, heavy day             block 2, week 1 of 4
left knee 3/10 9 days ago

Back squat            plan 3x4 @ 155 kg RPE 7-8
  next set   155 kg, expect RPE 7.5 (5 to 10)
  each side  20 15 15 10 5 2.5
  to beat    3x4 @ 150 kg RPE 8   block 1, 26 Oct
  last time  2x4 @ 155 kg RPE 8   16 Nov
  set-up     pin 14
  cue        knees out
  watch      depth on the last set, 16 Nov
             left knee 3/10, 16 Nov
  warm-up    bar x8, 60 x8, 90 x5, 120 x3, 140 x1

Back squat: nothing near a maximum in four weeks; a single
  at RPE 8 at the block's start would make all of this surer

These numbers are advice: use safeties or spotters, stop on
pain; coach, meet rules and a physician decide.
"
    );
}

#[test]
fn after_a_hard_set_the_plans_load_is_not_lowered_in_silence() {
    let journal = today("- Back squat: 4 @ 155 kg RPE 8.5\n  - plan: 3x4 @ 155 kg RPE 7-8\n");
    assert_eq!(
        journal.run(&["session", "--next"]),
        "\
Back squat, set 2 of 3
152.5 kg x 4        RPE 8 (7 to 9.5)
aims at RPE 7.5; the plan's load, 155 kg,
  would be RPE 8.5
each side  20 15 15 10 5 1.25
take off 2.5, put on 1.25
cue  knees out
"
    );
    let next = &journal.json(&["session", "--next"])["lifts"][0]["next"];
    assert_eq!((&next["set"], &next["rule"], &next["load"]["kg"]), (&json!(2), &json!(1), &json!(152.5)));
}

#[test]
fn after_a_set_as_foretold_it_is_the_same_again() {
    let out = today("- Back squat: 4 @ 150 kg RPE 7\n  - plan: 3x4 @ 150 kg RPE 7-8\n").run(&["session", "--next"]);
    assert_eq!(
        out,
        "\
Back squat, set 2 of 3
150 kg x 4          RPE 7.5 (5.5 to 9)
the same again
each side  20 15 10 10 10
nothing to change
cue  knees out
"
    );
}

#[test]
fn after_a_miss_the_same_again_is_over_the_top() {
    let out = today("- Back squat: 3 @ 155 kg miss 1\n  - plan: 3x4 @ 155 kg RPE 7-8\n").run(&["session", "--next"]);
    assert_eq!(
        out,
        "\
Back squat, set 2 of 3
145 kg x 4          RPE 8 (6.5 to 9.5)
aims at RPE 7.5; the plan's load, 155 kg,
  would be over RPE 10
each side  20 15 15 10 2.5
take off 2.5 and 5, put on 2.5
cue  knees out
"
    );
}

#[test]
fn where_the_plan_has_only_an_effort_what_is_to_beat_is_beaten_if_it_may_be() {
    let out = today("- Back squat:\n  - plan: 3x3 RPE 7-8\n").run(&["session", "--next"]);
    assert_eq!(
        out,
        "\
Back squat, set 1 of 3
162.5 kg x 3        RPE 8.5 (6 to over 10)
aims at RPE 7.5
each side  20 20 10 10 10 1.25
warm-up  bar x8, 60 x8, 100 x5, 120 x3,
  140 x1
cue  knees out
"
    );
    let beat = &today("- Back squat:\n  - plan: 3x3 RPE 7-8\n").json(&["session"])["lifts"][0]["to_beat"];
    // 150 kg for four with two left are six to failure, and five are to be done with as many left: 150 f(6)/f(5) = 154.82 kg by
    // Wathan's printed form. Curves that the lifter's own days bend stay within one part in a hundred of it here.
    assert_eq!(beat["mark"]["load"]["kg"], json!(150));
    let equal = beat["equal_kg"].as_f64().unwrap();
    assert!((equal / 154.82 - 1.0).abs() < 0.01, "{equal}");
}

#[test]
fn without_an_estimate_it_is_last_times_load_and_that_is_said() {
    let page = "# Block 1\n\n- starts: 2026-11-23\n\n## 2026-11-24 heavy day\n\n- Leg press: 3x10 @ pin 7\n- Overhead press: 3x5 @ 40 \
                kg\n\n## 2026-11-25 heavy day\n\n- Leg press:\n  - plan: 3x10\n- Overhead press:\n  - plan: 3x5\n- Side \
                plank:\n  - plan: 3x30s/side\n- Bench press: skipped (shoulder)\n  - plan: 3x5 @ 80 kg\n";
    assert_eq!(
        Journal::new().page(page).run(&["session"]),
        "\
Wed 25 Nov, heavy day             block 1, week 1

Leg press             plan 3x10
  next set   pin 7
             last time's load, and only that: no estimate reaches this
  last time  3x10 @ pin 7   24 Nov

Overhead press        plan 3x5
  next set   40 kg
             last time's load, and only that: no estimate reaches this
  each side  5 5
  warm-up    bar x8, 30 x3

Side plank            plan 3x30s/side
  next set   30s/side

Overhead press: how hard it will be is not known; an effort written behind the
  load, such as RPE 8, would tell

These numbers are advice: use safeties or spotters, stop on pain; coach, meet
rules and a physician decide.
"
    );
}

#[test]
fn a_gym_of_pounds_answers_in_pounds() {
    let settings = "units: lb\ngear:\n  bars: { bar: 45 lb }\n  plates: [{ mass: 45 lb, pairs: 2 }, { mass: 25 lb, pairs: 1 }, { mass: \
                    10 lb, pairs: 2 }, { mass: 5 lb, pairs: 1 }, { mass: 2.5 lb, pairs: 1 }]\nwarm-up: { 50: 5, 80: 2 }\n";
    let page = "# Block 1\n\n- starts: 2026-11-23\n\n## 2026-11-24\n\n- Bench press: 5,5,5 @ 185 lb RPE 7,7.5,8\n\n## 2026-11-25\n\n- \
                Bench press:\n  - plan: 3x5 @ 190 lb RPE 7-8\n";
    let out = Journal::new().file("journal.yaml", settings).page(page).run(&["session", "--next"]);
    assert_eq!(
        out,
        "\
Bench press, set 1 of 3
190 lb x 5          RPE 8 (5.5 to over 10)
each side  25 45 2.5
warm-up  bar x5, 95 x5
"
    );
    let off = Journal::new().file("journal.yaml", "warm-up: off\n").page(page);
    assert_eq!(off.json(&["session"])["lifts"][0]["warm_up"], json!([]));
}

#[test]
fn a_written_warm_up_comes_before_the_ladder() {
    let own = today("- Back squat:\n  - plan: 3x4 @ 155 kg\n  - warm-up: 5 @ 70 kg, 3 @ 110 kg\n");
    let loads = |journal: &Journal| {
        let answer = journal.json(&["session"]);
        let sets = answer["lifts"][0]["warm_up"].as_array().unwrap().clone();
        sets.iter().map(|set| set["load"]["kg"].as_f64().unwrap()).collect::<Vec<_>>()
    };
    assert_eq!(loads(&own), [70.0, 110.0]);
    let with = |last: &str| {
        let cue = "  - cue: knees out\n";
        Journal::new().page(
            &(BEFORE.replace(cue, &format!("{cue}  - warm-up: {last}\n")) + "- Back squat:\n  - plan: 3x4 @ 155 kg\n"),
        )
    };
    // Only what is lighter than today's load, and only where it leads up to it.
    assert_eq!(loads(&with("5 @ 90 kg, 3 @ 130 kg, 1 @ 160 kg")), [90.0, 130.0]);
    assert_eq!(loads(&with("5 @ 60 kg, 3 @ 90 kg")), [20.0, 60.0, 90.0, 120.0, 140.0]);
}

#[test]
fn a_session_of_the_past_reads_as_it_stood() {
    let answer = today("- Back squat: 4 @ 200 kg RPE 7\n").json(&["session", "2026-11-16"]);
    let lift = &answer["lifts"][0];
    assert_eq!(lift["next"], json!(null));
    assert_eq!(lift["done"].as_array().unwrap().len(), 1);
    assert_eq!((&lift["last_time"]["date"], &lift["best"]), (&json!("2026-10-26"), &json!(null)));
    // The pain is of that day; the fault is of the day itself and so not known before it.
    let watch: Vec<&str> = lift["watch"].as_array().unwrap().iter().map(|one| one["text"].as_str().unwrap()).collect();
    assert_eq!(watch, ["left knee 3/10, 16 Nov"]);
}

#[test]
fn what_is_meant_is_found_or_it_is_said_what_to_type() {
    let journal = today("- Back squat: 3x4 @ 155 kg RPE 8\n");
    for (arguments, said) in [
        (
            &["session", "--on", "2026-11-26"][..],
            "no session is written for today or later; `loadline draft week --write PAGE` drafts the next week; next in the rotation is heavy day, whose heaviest sets on 2026-11-25 were Back squat 3x4 @ 155 kg RPE 8",
        ),
        (
            &["session", "2026-11-20"],
            "no work is written on 2026-11-20; the nearest days with work are 2026-11-16 and 2026-11-25",
        ),
        (&["session", "2026-11-99"], "`2026-11-99` isn't a date: write a date as YYYY-MM-DD, such as 2026-03-05"),
        (&["session", "--day", "nothing"], "no session is labelled `nothing`; there is heavy"),
        (
            &["session", "Back squat", "Bench press"],
            "one lift and one date can be asked for, such as `loadline session \"Front squat\" 2026-11-28`",
        ),
        (&["session", "2026-11-16", "--day", "heavy"], "a date says the day already; leave out --day"),
    ] {
        assert_eq!(journal.run(arguments), format!("--- stderr\nloadline: {said}\n--- exit 2\n"), "{arguments:?}");
    }
    assert!(journal.run(&["session", "--day", "heavy day"]).contains("3 of 3 done: 3x4 @ 155 kg RPE 8"));
    assert_eq!(
        journal.run(&["session", "--next"]),
        "\
Wed 25 Nov, heavy day: every set is done
"
    );
}

/// The answer for a page, through the library.
fn asked(page: &str, ask: &Ask) -> Answer {
    let files = Memory::default().with("journal.yaml", b"").with("page.md", page.as_bytes());
    let journal = open(&files);
    let lifter = journal.lifter(None, None).unwrap();
    let reading = meaning::read(&files, lifter, journal.pages_of(lifter), None);
    let today = "2026-11-25".parse().unwrap();
    answer(&History::new(&reading.log, &lifter.book, today), ask).unwrap()
}

proptest! {
    #![proptest_config(crate::laws::cases(200))]

    /// Whatever was done, and however hard: a load other than the plan's names the plan's, every load proposed can be hung,
    /// the expected effort lies in its range, and what comes off hung there.
    #[test]
    fn the_plans_load_is_never_lowered_in_silence(
        steps in 20u32..100,
        efforts in proptest::collection::vec(proptest::option::of(10u32..=20), 0..3),
        missed in any::<bool>(),
        low in 12u32..18,
        reps in 1u32..9,
    ) {
        let load = f64::from(steps) * 2.5;
        let sets: Vec<String> = efforts.iter().enumerate().map(|(nth, effort)| match effort {
            _ if missed && nth + 1 == efforts.len() => format!("{reps} @ {load} kg miss 1"),
            Some(halves) => format!("{reps} @ {load} kg RPE {}", f64::from(*halves) / 2.0),
            None => format!("{reps} @ {load} kg"),
        }).collect();
        let (low, high) = (f64::from(low) / 2.0, f64::from(low) / 2.0 + 1.0);
        let page = format!("{BEFORE}- Back squat: {}\n  - plan: 3x{reps} @ {load} kg RPE {low}-{high}\n", sets.join(", "));
        let answer = asked(&page, &Ask::default());
        let next = answer.lifts[0].next.as_ref().unwrap();
        let now = next.load.as_ref().unwrap().kilograms.unwrap().in_kilograms();
        prop_assert!(now == load || next.why.contains(&format!("the plan's load, {load} kg")), "{}", next.why);
        let plates = next.plates.as_ref().unwrap();
        prop_assert_eq!(plates.hung.off.in_kilograms(), 0.0);
        prop_assert_eq!(plates.hung.total.in_kilograms(), now);
    }
}

/// A card that fits two screens of a telephone, whatever the page says in it.
#[test]
fn a_card_fits_two_screens_of_a_telephone() {
    let Some(browser) = Browser::find() else { return };
    let folder = tempfile::tempdir().unwrap();
    let written = |root: &std::path::Path, arguments: &[&str]| {
        let path = folder.path().join("card.html");
        let out = run::run(root, 80, &[&["session", "--write", path.to_str().unwrap()], arguments].concat());
        assert!(out.contains("open it in a browser"), "{out}");
        fs::read_to_string(path).unwrap()
    };
    let script = "
        const beyond = [...document.querySelectorAll('body *')].filter(one => one.getBoundingClientRect().right > innerWidth + 1);
        const tall = document.documentElement.scrollHeight > 2 * 740 ? ' is too tall' : '';
        found(innerWidth + ' px' + tall + beyond.map(one => ' ' + one.tagName).join() + ' ' + getComputedStyle(document.body).backgroundColor);
    ";
    let card = written(&example(), &["--lifter", "anselm"]);
    let light = ["360 px rgb(251, 249, 245)", "560 px rgb(251, 249, 245)"];
    assert_eq!(browser.found(&card, [360, 560], false, script), light);
    assert_eq!(
        browser.found(&card, [360, 560], true, script),
        light.map(|at| at.replace("251, 249, 245", "21, 24, 27"))
    );
    let card = written(hostile().root(), &["2026-11-09"]);
    assert_eq!(browser.found(&card, [360, 560], false, script), light);
    assert!(!card.contains("<script") && card.contains("&lt;script"), "{card}");
}

#[test]
fn every_lifter_gets_a_card_and_no_other_file_is_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().to_str().unwrap();
    let out = run::run(&example(), 80, &["session", "--write", path, "--all-lifters"]);
    let mut files: Vec<String> =
        fs::read_dir(folder.path()).unwrap().map(|file| file.unwrap().file_name().into_string().unwrap()).collect();
    files.sort();
    assert_eq!(files, ["Anselm.html", "nerys.html"], "{out}");
    let own = folder.path().join("own.html");
    fs::write(&own, "mine").unwrap();
    let out = run::run(&example(), 80, &["session", "--lifter", "nerys", "--write", own.to_str().unwrap()]);
    assert!(out.contains("own.html is no card of this program, so nothing was written; name another one"), "{out}");
    assert_eq!(fs::read_to_string(own).unwrap(), "mine");
    let out = run::run(&example(), 80, &["session", "--write", path, "--all-lifters", "--on", "2027-01-01"]);
    assert_eq!(out, "--- stderr\nloadline: nobody has a session to come, so no card was written\n--- exit 2\n");
}

/// Plates of 5 kg and up make steps of 10: a lighter load than wanted is said, and none is hung that is over the range.
#[test]
fn where_plates_lie_far_apart_the_lighter_load_is_taken() {
    let asked = |done: &str, plan: &str| {
        let page = format!(
            "# Block 1\n\n- starts: 2026-10-26\n\n## 2026-10-26\n\n- Back squat: 5,5,5 @ 100 kg RPE 7,7.5,8\n\n\
             ## 2026-11-16\n\n- Back squat: 5,5,5 @ 100 kg RPE 6.5,7,7.5\n\n# Block 2\n\n- starts: 2026-11-23\n- weeks: 1\n\n\
             ## 2026-11-25\n\n- Back squat:{done}\n  - plan: 3x5 RPE {plan}\n"
        );
        let gear = "gear: { plates: [ { mass: 20 kg }, { mass: 10 kg }, { mass: 5 kg } ] }\n";
        let journal = Journal::new().file("journal.yaml", gear).page(&page);
        let out = journal.run_at(60, &["session", "--next", "--on", "2026-11-25"]);
        let said = out.lines().skip(1).take_while(|line| !line.starts_with("each side")).map(str::trim);
        said.collect::<Vec<_>>().join(" ").replace(") ", "): ")
    };
    assert_eq!(asked("", "6-7"), "100 kg x 5          RPE 6.5 (under 5 to 9): aims at RPE 6.5");
    assert_eq!(asked("", "8-9"), "100 kg x 5          RPE 6.5 (under 5 to 9): the next load, 110 kg, would be RPE 10");
    assert_eq!(
        asked(" 5 @ 100 kg RPE 7", "8-9"),
        "100 kg x 5          RPE 7.5 (6 to 9): the same again: no load comes nearer to RPE 8.5"
    );
    assert_eq!(
        asked(" 5 @ 110 kg RPE 9", "6-7"),
        "100 kg x 5          RPE 6 (5.5 to 6.5): aims at RPE 6.5; the same again, 110 kg, would be RPE 9.5"
    );
}
