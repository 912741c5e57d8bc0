//! What is spelled how.

use super::tidied;
use crate::support::journal::example;
use std::fs;
use std::path::Path;

/// A line where it can stand: a heading and a block's key by themselves, a detail and a set line under a work line, the
/// rest in a session.
fn placed(line: &str) -> String {
    let inner = line.trim_start();
    let key = |keys: &[&str]| {
        keys.iter().any(|key| inner.to_lowercase().trim_start_matches(['-', '*', '+', ' ']).starts_with(key))
    };
    if inner.starts_with('#') {
        return format!("{line}\n\n- starts: 2026-03-02\n");
    }
    if key(&["starts"]) {
        return format!("# Block 6\n\n{line}\n");
    }
    if key(&["weeks", "deload", "peak", "max", "goal", "phase"]) {
        return format!("# Block 6\n\n- starts: 2026-03-02\n{line}\n");
    }
    let above = if inner.len() < line.len() { "- Front squat: 8 @ 100 kg\n" } else { "" };
    let below = if inner.to_lowercase().contains("planned") { "  - plan: 3x8 @ 60 kg\n" } else { "" };
    format!("# Block 6\n\n- starts: 2026-03-02\n- max: Front squat 120 kg\n\n## 2026-03-05\n\n{above}{line}\n{below}")
}

#[track_caller]
fn row(typed: &str, spelled: &str) {
    assert_eq!(tidied(&placed(typed)), placed(typed).replace(typed, spelled), "{typed}");
    // The spelling is one: it has no other.
    assert_eq!(tidied(&placed(spelled)), placed(spelled), "{spelled}");
}

#[test]
fn the_table_of_the_notation_holds() {
    let doc = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/notation.md")).unwrap();
    let table = doc.split("| typed | tidied |").nth(1).expect("the table");
    let mut count = 0;
    for line in table.lines().skip(2).take_while(|line| line.starts_with('|')) {
        let cells: Vec<&str> = line.trim_matches('|').split(" | ").map(|cell| cell.trim().trim_matches('`')).collect();
        row(cells[0], cells[1]);
        count += 1;
    }
    assert!(count >= 15, "{count} rows");
}

#[test]
fn work_lines() {
    for (typed, spelled) in [
        // Blanks.
        ("- Front squat: 3 x 8 @ 120 kg", "3x8 @ 120 kg"),
        ("- Front squat: 3x8@120kg", "3x8 @ 120 kg"),
        ("- Front squat: 3x8  @  120  kg   RPE  6", "3x8 @ 120 kg RPE 6"),
        ("- Front squat:3x8 @ 120 kg", "3x8 @ 120 kg"),
        ("- Front squat :  3x8 @ 120 kg", "3x8 @ 120 kg"),
        ("-   Front squat: 3x8 @ 120 kg \t", "3x8 @ 120 kg"),
        ("- Front squat: 3x8 @ 120 kg , 5 @ 130 kg,3 @ 140 kg", "3x8 @ 120 kg, 5 @ 130 kg, 3 @ 140 kg"),
        ("- Front squat: 8,8,7@120 kg", "8,8,7 @ 120 kg"),
        // What phones put in.
        ("- Front\u{a0}squat: 3\u{a0}×\u{a0}8 @ 120\u{a0}kg RPE 6–7", "3x8 @ 120 kg RPE 6-7"),
        ("– Front squat: 3X8 @ 120\u{202f}kg", "3x8 @ 120 kg"),
        ("− Front squat: 3×8 @ 120 kg", "3x8 @ 120 kg"),
        ("- Front squat: 3x15 @ “blue band”", "3x15 @ \"blue band\""),
        ("- Front squat: 3x15 @ „blue band“", "3x15 @ \"blue band\""),
        ("- Front squat: 8 @ bw – 15 kg", "8 @ bw - 15 kg"),
        // Bullets and line ends.
        ("* Front squat: 3x8 @ 120 kg", "3x8 @ 120 kg"),
        ("+ Front squat: 3x8 @ 120 kg.", "3x8 @ 120 kg"),
        ("- Front squat: 3x8 @ 120 kg,", "3x8 @ 120 kg"),
        ("- Front squat: 3x8 @ 120 kg ,. ", "3x8 @ 120 kg"),
        ("- Front squat: .", ""),
        // Units.
        ("- Front squat: 3x8 @ 120 KG", "3x8 @ 120 kg"),
        ("- Front squat: 3x8 @ 120kgs", "3x8 @ 120 kg"),
        ("- Front squat: 3x8 @ 120 kilos", "3x8 @ 120 kg"),
        ("- Front squat: 3x8 @ 265lbs", "3x8 @ 265 lb"),
        ("- Front squat: 3x8 @ 265 pounds", "3x8 @ 265 lb"),
        ("- Front squat: 3x20 sec", "3x20s"),
        ("- Front squat: 3x20 Seconds", "3x20s"),
        ("- Front squat: 1x20 minutes", "1x20min"),
        ("- Front squat: 4x40 metres", "4x40m"),
        ("- Front squat: 4x40yds @ 20 kg", "4x40yd @ 20 kg"),
        ("- Front squat: 1x1 Mile", "1x1mi"),
        ("- Front squat: 1x2 KM", "1x2km"),
        // Numbers.
        ("- Front squat: 3x8 @ 122.50 kg", "3x8 @ 122.5 kg"),
        ("- Front squat: 3x8 @ 120.0", "3x8 @ 120"),
        // Counts.
        ("- Front squat: 12 + 4 + 4 @ 60 kg", "12+4+4 @ 60 kg"),
        ("- Front squat: 3x10 / Side @ 20 kg", "3x10/side @ 20 kg"),
        // Loads.
        ("- Front squat: 8 @ ~ 405 lb", "8 @ ~405 lb"),
        ("- Front squat: 8 @ BW+20kg", "8 @ bw + 20 kg"),
        ("- Front squat: 8 @ 45lb+80", "8 @ 45 lb + 80"),
        ("- Front squat: 4x40m @ 2 x 32kg", "4x40m @ 2x32 kg"),
        ("- Front squat: 5 @ bar+2  red / side", "5 @ bar + 2 red/side"),
        ("- Front squat: 5 @ bar + 2red/side", "5 @ bar + 2 red/side"),
        ("- Front squat: 5 @ 20 kg + 2 × 25 kg/side+5kg / side", "5 @ 20 kg + 2x25 kg/side + 5 kg/side"),
        ("- Front squat: 5 @ Pin7", "5 @ pin 7"),
        ("- Front squat: 5 @ pin  7+2.5kg", "5 @ pin 7 + 2.5 kg"),
        ("- Front squat: 5 @ 75 %", "5 @ 75%"),
        // A load that is joined by `x`, or stands elsewhere.
        ("- Front squat: 5 x 60 kg", "5 @ 60 kg"),
        ("- Front squat: 60 kg x 5", "5 @ 60 kg"),
        ("- Front squat: 60kgx5", "5 @ 60 kg"),
        ("- Front squat: 60 kg x 5 RPE 7, 5 x 70 kg", "5 @ 60 kg RPE 7, 5 @ 70 kg"),
        ("- Front squat: 3x5x60 kg", "3x5 @ 60 kg"),
        ("- Front squat: 60 kg × 8,8,7 (slow)", "8,8,7 @ 60 kg (slow)"),
        ("- Front squat: 3x8 RPE 6 @ 120 kg", "3x8 @ 120 kg RPE 6"),
        ("- Front squat: 3x8(slow)@120kg", "3x8 @ 120 kg (slow)"),
        ("- Front squat: 3x8 RPE 6 !depth @ 120 kg rest 90s, 5", "3x8 @ 120 kg RPE 6 !depth rest 90s, 5"),
        ("- Front squat: 3x8 @ 120 kg @RPE 7", "3x8 @ 120 kg RPE 7"),
        ("- Front squat: 3x8 @ RPE 7 @ 120 kg", "3x8 @ 120 kg RPE 7"),
        ("- Front squat: 3x8 @ rir 2", "3x8 RIR 2"),
        // Keywords.
        ("- Front squat: 3x8 rpe6", "3x8 RPE 6"),
        ("- Front squat: 2x8 Rpe 6,6.5", "2x8 RPE 6,6.5"),
        ("- Front squat: 3x8 rir 1–2", "3x8 RIR 1-2"),
        ("- Front squat: 9 @ 50 kg amrap", "9 @ 50 kg AMRAP"),
        ("- Front squat: 1x0 @ 50 kg Miss 1", "1x0 @ 50 kg miss 1"),
        ("- Front squat: 3x8 Rest 90 sec", "3x8 rest 90s"),
        ("- Front squat: 3x8 rest 2min", "3x8 rest 2 min"),
        ("- Front squat: 3x8 REST  3:00", "3x8 rest 3:00"),
        ("- Front squat: 3x8 Tempo 3-1-x-0", "3x8 tempo 3-1-x-0"),
        ("- Front squat: 3x8 !depth( 2 , 3 )", "3x8 !depth(2,3)"),
        ("- Front squat: 3x8 RPE 6(slow)(belt)!depth", "3x8 RPE 6 (slow) (belt) !depth"),
        // Whole lines.
        ("- Front squat: Skipped", "skipped"),
        ("- Front squat: SKIPPED(knee).", "skipped (knee)"),
        ("- Front squat: As  Planned  rpe 7 .", "as planned RPE 7"),
    ] {
        let gap = if spelled.is_empty() { "" } else { " " };
        row(typed, &format!("- Front squat:{gap}{spelled}"));
    }
}

#[test]
fn names_of_lifts() {
    for (typed, spelled) in [
        ("- front-squats: 8", "- Front squat: 8"),
        ("- FRONT  SQUAT: 8", "- Front squat: 8"),
        ("- pull_ups: 8", "- Pull-up: 8"),
        ("- Farmer’s carry: 1x40m", "- Farmer's carry: 1x40m"),
        // Another name of the lift, and a lift that no book has.
        ("- rdl: 8", "- rdl: 8"),
        ("- military  press: 8", "- military press: 8"),
        ("- Rope  drags: 1x40m", "- Rope drags: 1x40m"),
        // Bold and a task box stay where they are.
        ("* [x] **front-squats:** 3×8", "- [x] **Front squat:** 3x8"),
        ("- _front squats_ : 8", "- _Front squat_: 8"),
        ("- max: front-squats: @ 100kg", "- max: Front squat 100 kg"),
        ("  - instead of:  back-squats.", "  - instead of: Back squat"),
    ] {
        row(typed, spelled);
    }
}

#[test]
fn names_as_the_settings_have_them() {
    let settings = "lifts:\n  - { name: Belt Squat, family: squat, also: [pit squat] }\n  - { name: 'Press: heavy', also: [heavy press], family: other }\n  - { name: Pain, family: other }\n";
    let page = "## 2026-03-05\n- belt-squats: 3X8\n- PIT SQUAT: 3X8\n- Heavy press: 3X8\n- pa-in: 3X8\n";
    let journal = super::of_page(page).with("journal.yaml", settings);
    let after = &super::tidying(&journal, false).revisions[0].after;
    // A name that would be read as something else than a name is left as it was typed.
    assert_eq!(after.text(), "## 2026-03-05\n- Belt Squat: 3x8\n- PIT SQUAT: 3x8\n- Heavy press: 3x8\n- pa-in: 3x8\n");
}

#[test]
fn set_lines_and_details() {
    for (typed, spelled) in [
        ("  * 8@110kg rpe 6.", "  - 8 @ 110 kg RPE 6"),
        ("\t+  5 x 60 kg", "\t- 5 @ 60 kg"),
        ("    - 60kg x 5, 5", "    - 5 @ 60 kg, 5"),
        ("  - Plan:3 x 8–10@60kg RPE 6–7.", "  - plan: 3x8-10 @ 60 kg RPE 6-7"),
        ("  - plan: 1 x amrap, 2 - 3x5 +", "  - plan: 1 x amrap, 2 - 3x5 +"),
        ("  - plan: 1 x Amrap, 2–3 x 5+", "  - plan: 1xAMRAP, 2-3x5+"),
        ("  - Warm up: 5@60 kg , 3@90kg", "  - warm-up: 5 @ 60 kg, 3 @ 90 kg"),
        ("  - WARMUP: 5", "  - warm-up: 5"),
        ("  - Setup:  rack  pin 14 ,  safeties at 6. ", "  - setup: rack  pin 14 ,  safeties at 6. "),
        ("  * Cue:elbows  “up”", "  - cue: elbows  “up”"),
        ("  - WHY : because.", "  - why: because."),
        ("  - Note:", "  - note:"),
    ] {
        row(typed, spelled);
    }
}

#[test]
fn facts_and_block_keys() {
    for (typed, spelled) in [
        ("Bodyweight:83.1kg", "bodyweight: 83.1 kg"),
        ("BW : 83.10 kgs.", "bw: 83.1 kg"),
        ("* weight: 183lbs(morning)", "- weight: 183 lb (morning)"),
        ("Sleep: 7hours", "sleep: 7 h"),
        ("sleep: 7:30.", "sleep: 7:30"),
        ("Duration: 1h15min", "duration: 1 h 15 min"),
        ("duration: 75 minutes", "duration: 75 min"),
        ("Session rpe: 7 / 10", "session RPE: 7/10"),
        ("pain:  left  knee: 3 / 10", "pain: left  knee: 3/10"),
        ("* Note:  new  shoes. ", "- note: new  shoes. "),
        ("* Starts : 2026–03–02.", "- starts: 2026-03-02"),
        ("+ weeks:4.", "- weeks: 4"),
        ("- Deload: Week4 ,week 8", "- deload: week 4, week 8"),
        ("- max: Front squat @ ~ 120kg", "- max: Front squat ~120 kg"),
        ("- GOAL:more   work. ", "- goal: more   work. "),
    ] {
        row(typed, spelled);
    }
}

#[test]
fn headings() {
    for (typed, spelled) in [
        ("#  block   6", "# Block 6"),
        ("# BLOCK summer  base #", "# Block summer  base #"),
        ("##  2026–03–05 ", "## 2026-03-05"),
        ("## thu, 2026-03-05", "## Thu 2026-03-05"),
        ("## THURSDAY 2026-03-05: 18:30", "## Thursday 2026-03-05 18:30"),
        ("## 2026-03-05, thu. – Technique Day", "## 2026-03-05 Thu – Technique day"),
        ("## 2026-03-05 – technique Day ,felt  fresh", "## 2026-03-05 technique day, felt  fresh"),
        ("## 2026-03-05, Week  3,DELOAD,Block  6", "## 2026-03-05 week 3, deload, block 6"),
        ("## 2026-03-05 Day  B, Peak Week", "## 2026-03-05 day B, peak week"),
        ("## 2026-03-05 Test Day, MEET Harbour  Open", "## 2026-03-05 Test day, meet Harbour  Open"),
        ("## 2026-03-05 MEET  Bench Day", "## 2026-03-05 meet Bench Day"),
        ("## 2026-03-05 meet prep Day", "## 2026-03-05 meet prep day"),
        ("## 2026-03-05 ran 2,5 km ,,then lifted,", "## 2026-03-05 ran 2,5 km, then lifted"),
        ("## 2026-03-05 Thursday day", "## 2026-03-05 Thursday day"),
    ] {
        // `block 6` is one that there is.
        let page = |line: &str| format!("{line}\n\n# Block 6\n\n- starts: 2026-03-02\n");
        let block = typed.to_lowercase().contains("block") && !typed.contains("2026");
        let page = |line: &str| if block { placed(line) } else { page(line) };
        assert_eq!(tidied(&page(typed)), page(spelled), "{typed}");
        assert_eq!(tidied(&page(spelled)), page(spelled), "{spelled}");
    }
}

/// A page in and a page out, with all that stays.
#[test]
fn what_is_not_the_notations_stays() {
    let before = "\
---
title :  “mine”
---
Intro  with  blanks.\u{20}\u{20}

## 2026-03-05
* stretched   a little
* 9:15
* Front squat: 3X8@122,5kg
* Front squat: 3X8@120kg
  * odd   – “thoughts”
  - 5@110 kg felt ok
  - 5@110 kg
* Bench press: 3x8 <!-- was  @110kg --> @120kg
* Bench press: 3x8 RPE 6 <!-- belt --> @ 120kg rest 90 s
* Bench press: 3X8 (  tempo –  slow @120kg )
<!--
- Front squat: 3X8@120kg
-->

```
- Front squat: 3X8@120kg
```
> - Front squat: 3X8@120kg

### Later   – “that day”
- Bench press: 3x8@unknown
";
    let after = "\
---
title :  “mine”
---
Intro  with  blanks.\u{20}\u{20}

## 2026-03-05
* stretched   a little
* 9:15
- Front squat: 3x8 @ 122.5 kg
- Front squat: 3x8 @ 120 kg
  * odd   – “thoughts”
  - 5 @ 110 kg (felt ok)
  - 5 @ 110 kg
- Bench press: 3x8 <!-- was  @110kg --> @120 kg
- Bench press: 3x8 RPE 6 <!-- belt --> @ 120 kg rest 90s
- Bench press: 3x8 (  tempo –  slow @120kg )
<!--
- Front squat: 3X8@120kg
-->

```
- Front squat: 3X8@120kg
```
> - Front squat: 3X8@120kg

### Later   – “that day”
- Bench press: 3x8@unknown
";
    assert_eq!(tidied(before), after);
}

#[test]
fn line_ends_and_the_byte_order_mark_stay() {
    let before =
        "\u{feff}## 2026-03-05,\r\n* Front squat: 3X8 \r\n\r\nprose \r\n* Front squat: 3X8\n* Front squat: 3X8.";
    let after = "\u{feff}## 2026-03-05\r\n- Front squat: 3x8\r\n\r\nprose \r\n- Front squat: 3x8\n- Front squat: 3x8";
    assert_eq!(tidied(before), after);
}

#[test]
fn bytes_that_are_no_text_stay() {
    let before = b"## 2026-03-05\n- Front squat: 3X8\n- Front squat: 3X8 (\xff)\n- Front squat: 3X8\n";
    let journal = super::of_page(before.as_slice());
    let after = &super::tidying(&journal, false).revisions[0].after;
    let expected = b"## 2026-03-05\n- Front squat: 3x8\n- Front squat: 3X8 (\xff)\n- Front squat: 3x8\n";
    assert_eq!(after.bytes(), expected);
}

/// The example's pages, and the first page of a new journal.
#[test]
fn what_the_project_shows_is_tidy() {
    let out = crate::support::run::run(&example(), 80, &["tidy"]);
    assert!(out.starts_with("nothing to tidy: ") && !out.starts_with("nothing to tidy: 0"), "{out}");
    let folder = tempfile::tempdir().unwrap();
    crate::support::run::run_in(folder.path(), 80, &["new", "fresh"]);
    let out = crate::support::run::run(&folder.path().join("fresh"), 80, &["tidy"]);
    assert_eq!(out, "nothing to tidy: 1 page read\n");
}
