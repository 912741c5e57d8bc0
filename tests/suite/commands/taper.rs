//! `taper`, on pages small enough to check by hand, and whole screens.

use super::screen;
use crate::support::journal::Journal;
use serde_json::{Value, json};

#[test]
fn screens_of_the_example_stay_as_they_are() {
    screen("taper-80", 80, &["taper", "--block", "6"]);
    screen("taper-48", 48, &["taper", "--block", "harbour", "--lifter", "nerys"]);
    screen("taper-deload-80", 80, &["taper", "--block", "5"]);
    screen("taper-unfinished-80", 80, &["taper", "--week", "4"]);
}

/// A block from Monday 2026-10-05 on, and what stands in it.
fn block(keys: &str, sessions: &str) -> Journal {
    Journal::new().page(&format!("# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n{keys}\n{sessions}"))
}

/// One session on the Tuesday of each week, with these lines.
fn tuesdays(lines: &[&str]) -> String {
    let dates = ["2026-10-06", "2026-10-13", "2026-10-20", "2026-10-27"];
    dates.iter().zip(lines).map(|(date, lines)| format!("## {date}\n\n{lines}\n")).collect()
}

const PEAK: &str = "- peak: week 4\n";

fn changes(row: &Value, fields: &[&str]) -> Vec<Option<f64>> {
    fields.iter().map(|field| row["change"][field].as_f64()).collect()
}

/// The row of a name.
fn named<'a>(rows: &'a Value, name: &str) -> &'a Value {
    rows.as_array().unwrap().iter().find(|row| row["name"] == name).unwrap()
}

/// What was found and how it lies, of one piece of advice.
fn check<'a>(answer: &'a Value, about: &str) -> (&'a Value, &'a str) {
    let checks = answer["checks"].as_array().unwrap();
    let check = checks.iter().find(|check| check["about"] == about).unwrap_or_else(|| panic!("{about}: {checks:#?}"));
    (&check["found"], check["verdict"].as_str().unwrap())
}

fn has(answer: &Value, about: &str) -> bool {
    answer["checks"].as_array().unwrap().iter().any(|check| check["about"] == about)
}

/// Three sets of six to two of four at the same load: sets 2/3 - 1, reps 8/18 - 1.
#[test]
fn the_usual_peak_week_by_hand() {
    let loading = "- Back squat: 3x6 @ 150 kg RPE 8\n";
    let answer = block(PEAK, &tuesdays(&[loading, loading, loading, "- Back squat: 2x4 @ 150 kg RPE 8\n"]));
    let answer = answer.json(&["taper"]);
    let fields = ["sets_percent", "reps_percent", "tonnage_percent", "average_load_percent", "top_load_percent"];
    let expected = [-33.33, -55.56, -55.56, 0.0, 0.0].map(Some);
    for row in [&answer["all"], &answer["families"][0], &answer["lifts"][0]] {
        assert_eq!(changes(row, &fields), expected, "{row:#}");
        assert_eq!(changes(row, &["sets_a_session", "reps_a_set", "effort"]), [-1.0, -2.0, 0.0].map(Some));
    }
    assert_eq!((&answer["kind"], &answer["against"]), (&json!("peak"), &json!([1, 2, 3])));
    for (about, found) in [("volume", -55.56), ("top load", 0.0), ("effort", 0.0), ("sets", -1.0), ("reps", -2.0)] {
        let (is, verdict) = check(&answer, about);
        assert_eq!((is.as_f64(), verdict), (Some(found), "within"), "{about}");
    }
}

/// Ten sets of ten at 200, 215 and 230 kg are 20000, 21500 and 23000 kg, their mean 21500; five at 215 kg are 10750: half.
/// The mean of all the weeks' loads is 215 kg, so the average load stays.
#[test]
fn the_week_is_held_against_the_mean_of_the_weeks_before() {
    let weeks = ["10x10 @ 200 kg", "10x10 @ 215 kg", "10x10 @ 230 kg", "5x10 @ 215 kg"];
    let weeks = weeks.map(|sets| format!("- Back squat: {sets}\n"));
    let answer = block(PEAK, &tuesdays(&weeks.each_ref().map(String::as_str))).json(&["taper"]);
    let all = &answer["all"];
    assert_eq!((&all["before"]["tonnage_kg"], &all["now"]["tonnage_kg"]), (&json!(21500), &json!(10750)));
    assert_eq!(
        changes(all, &["tonnage_percent", "average_load_percent", "top_load_percent"]),
        [Some(-50.0), Some(0.0), Some(0.0)]
    );
    assert_eq!(check(&answer, "effort"), (&Value::Null, "unknown"), "no effort is written");
}

/// Squat, bench press, row and deadlift of 2700, 1800, 2400 and 3240 kg a week; 1200, 800 and 1600 kg are left: 3600 of
/// 10140, 64.5 % less. 15 sets to 6, 99 reps to 36; the meet counts nowhere.
const WHOLE: &str = "
## {1} heavier day

- Back squat: 3x6 @ 150 kg RPE 8
- Bench press: 3x6 @ 100 kg RPE 8
- Barbell row: 3x10 @ 80 kg RPE 8

## {2} pull day

- Deadlift: 3x6 @ 180 kg RPE 8
- Pull-up: 3x5
";

fn whole() -> Journal {
    let weeks = [("2026-10-06", "2026-10-08"), ("2026-10-13", "2026-10-15"), ("2026-10-20", "2026-10-22")];
    let loading: String = weeks.iter().map(|(one, other)| WHOLE.replace("{1}", one).replace("{2}", other)).collect();
    let peak = "
## 2026-10-27 heavier day

bodyweight: 90 kg

- Back squat: 2x4 @ 150 kg RPE 8
- Bench press: 2x4 @ 100 kg RPE 8
- Barbell row: 2x10 @ 80 kg RPE 7

## 2026-10-31 meet Harbour Open

- Back squat: 1 @ 200 kg RPE 9
- Bench press: 1 @ 130 kg RPE 9
- Deadlift: 1 @ 240 kg RPE 9
";
    block(PEAK, &(loading + peak))
}

#[test]
fn a_small_block_makes_this_screen() {
    assert_eq!(
        whole().run_at(80, &["taper"]),
        "\
block 1 week 4, peak week: volume -64 %, cut more than usual
before the meet Harbour Open on Sat 31 Oct 2026
Deadlift about 2.5 times bodyweight (2.3 to 2.8)

          what                                 here  usual
cut more  volume (tonnage)                    -64 %  -60 to -41 %    (1)
as usual  top load, competition lifts           0 %  -5 to +5 %      (2)
as usual  RPE, competition lifts                0.0  -0.5 to +0.5    (3)
as usual  sets a session, competition lifts    -1.0  -1.5 to -0.5    (3)
as usual  reps a set, competition lifts        -2.0  -2.5 to -1.5    (3)
as usual  other lifts' sets                    -1.0  -1.5 to -0.5    (3)
as usual  deadlift sets                      -100 %  -33 % or lower  (4)
as usual  last session                       4 days  2 to 5 days     (5)
(1) Bosquet et al. 2007, mostly endurance; lifters report as much (Pritchard et
  al. 2016, Grgic and Mikulic 2017, Travis et al. 2021). (2) kept in Bosquet et
  al. 2007, Pritchard et al. 2016, Grgic and Mikulic 2017; 5 % either way is
  this project's own. (3) common practice, no source; a half either way is this
  project's own. (4) common practice, no source. (5) Pritchard et al. 2016,
  Grgic and Mikulic 2017

no set of a competition lift was heavy, over 85 % of its estimated maximum, in
  the half year before

2 lifts taken out; --all shows every family and lift

what is usual is what lifters and coaches do, and mostly no proof that it works
best; the coach decides
"
    );
    assert_eq!(
        whole().run_at(48, &["taper", "--all"]),
        "\
block 1 week 4, peak week: volume -64 %, cut
  more than usual
before the meet Harbour Open on Sat 31 Oct 2026
Deadlift about 2.5 times bodyweight (2.3 to 2.8)

          what
    here  usual
cut more  volume (tonnage)
   -64 %  -60 to -41 %    (1)
as usual  top load, competition lifts
     0 %  -5 to +5 %      (2)
as usual  RPE, competition lifts
     0.0  -0.5 to +0.5    (3)
as usual  sets a session, competition lifts
    -1.0  -1.5 to -0.5    (3)
as usual  reps a set, competition lifts
    -2.0  -2.5 to -1.5    (3)
as usual  other lifts' sets
    -1.0  -1.5 to -0.5    (3)
as usual  deadlift sets
  -100 %  -33 % or lower  (4)
as usual  last session
  4 days  2 to 5 days     (5)
(1) Bosquet et al. 2007, mostly endurance;
  lifters report as much (Pritchard et al. 2016,
  Grgic and Mikulic 2017, Travis et al. 2021).
  (2) kept in Bosquet et al. 2007, Pritchard et
  al. 2016, Grgic and Mikulic 2017; 5 % either
  way is this project's own. (3) common
  practice, no source; a half either way is this
  project's own. (4) common practice, no source.
  (5) Pritchard et al. 2016, Grgic and Mikulic
  2017

no set of a competition lift was heavy, over
  85 % of its estimated maximum, in the half
  year before

change in % from the mean of weeks 1, 2 and 3;
  avg, top: load; RPE in points
family            sets  reps  tonnage  top   RPE
squat              -33   -56      -56    0   0.0
hinge             -100  -100     -100
horizontal press   -33   -56      -56    0   0.0
horizontal pull    -33   -33      -33    0  -1.0
vertical pull     -100  -100
all                -60   -64      -64  -17  -0.3

lift         sets  reps  tonnage  top   RPE
Back squat    -33   -56      -56    0   0.0
Bench press   -33   -56      -56    0   0.0
Barbell row   -33   -33      -33    0  -1.0

taken out: Deadlift, Pull-up

what is usual is what lifters and coaches do,
and mostly no proof that it works best; the
coach decides
"
    );
}

#[test]
fn meets_and_test_days_are_no_training_of_the_week() {
    let with_meet = whole().json(&["taper"]);
    assert_eq!(with_meet["all"]["now"]["sets"], 6);
    assert_eq!(with_meet["test"], json!({"date": "2026-10-31", "meet": "Harbour Open"}));
    assert_eq!(check(&with_meet, "last session"), (&json!(4), "within"));
    let single = "- Back squat: 1 @ 200 kg RPE 9\n";
    let sessions = tuesdays(&[single, single, single, single]) + "## 2026-10-30 test day\n\n- Back squat: 9 @ 150 kg\n";
    let answer = block(PEAK, &sessions).json(&["taper"]);
    assert_eq!((&answer["all"]["now"]["sets"], &answer["test"]["meet"]), (&json!(1), &Value::Null));
    assert!(block(PEAK, &sessions).run(&["taper"]).contains("\nbefore a test day on Fri 30 Oct 2026\n"));
    // A test day in a week before is none of that week's training either.
    let tested = sessions.replace("2026-10-30", "2026-10-17");
    assert_eq!(block(PEAK, &tested).json(&["taper"])["all"]["before"]["sets"], 1);
}

#[test]
fn only_loading_weeks_with_training_are_held_against() {
    let set = "- Back squat: 3x5 @ 100 kg\n";
    let five = |keys: &str, dates: &[&str]| {
        let sessions: String = dates.iter().map(|date| format!("## {date}\n\n{set}\n")).collect();
        let page = format!("# Block 1\n\n- starts: 2026-09-14\n- weeks: 7\n- peak: week 7\n{keys}\n{sessions}");
        Journal::new().page(&page).json(&["taper"])
    };
    let all = ["2026-09-15", "2026-09-22", "2026-09-29", "2026-10-06", "2026-10-13", "2026-10-20", "2026-10-27"];
    assert_eq!(five("", &all)["against"], json!([4, 5, 6]));
    assert_eq!(five("- deload: week 5\n", &all)["against"], json!([3, 4, 6]));
    let ill = ["2026-09-15", "2026-09-22", "2026-10-06", "2026-10-27"];
    assert_eq!(five("", &ill)["against"], json!([1, 2, 4]));
}

/// In two of three weeks is regular, in one it is not.
#[test]
fn regular_lifts_that_are_gone_are_taken_out() {
    let (row, both) =
        ("- Barbell row: 3x8 @ 80 kg\n- Back squat: 3x5 @ 150 kg\n", "- Back squat: 3x5 @ 150 kg\n- Dip: 3x5\n");
    let answer = block(PEAK, &tuesdays(&[row, row, both, "- Back squat: 2x5 @ 150 kg\n- Plank: 1x60s\n"]));
    let json = answer.json(&["taper"]);
    assert_eq!(json["taken_out"], json!(["Barbell row"]));
    let plank = named(&json["lifts"], "Plank");
    assert_eq!(changes(plank, &["sets_percent", "reps_percent", "sets_a_session"]), [None, None, None], "new");
    let text = answer.run(&["taper", "--all"]);
    assert!(text.contains("\nPlank       0 to 1        new\n"), "{text}");
    assert!(!text.contains("\nDip "), "a lift that was seldom in and is not now has nothing to say\n{text}");
}

#[test]
fn what_is_missing_is_named() {
    let set = "- Back squat: 3x5 @ 100 kg\n";
    let four = tuesdays(&[set, set, set, set]);
    let cases = [
        (Journal::new(), vec!["taper"], "block", "No work inside a block yet, so there is no week to look at\n"),
        (
            block("", &four),
            vec!["taper"],
            "week",
            "Block 1 has no peak or deload week. Write `- peak: week 4` under its heading, or\n  ask for any week with \
             --week N\n",
        ),
        (
            block("- peak: week 1\n", &four),
            vec!["taper"],
            "weeks before",
            "Block 1 has no loading week with work before week 1 to hold it against\n",
        ),
        (
            block(PEAK, &tuesdays(&[set, set])),
            vec!["taper", "--on", "2026-10-20"],
            "work",
            "Block 1 week 4 has no training yet, and none is planned with sets\n",
        ),
        (block(PEAK, &tuesdays(&[set, set])), vec!["taper"], "work", "Block 1 week 4 has no training in it\n"),
    ];
    for (journal, arguments, missing, words) in cases {
        let answer = journal.json(&arguments);
        assert_eq!(answer["missing"], missing, "{words}");
        assert_eq!((&answer["all"], &answer["checks"]), (&Value::Null, &json!([])), "{words}");
        assert_eq!(journal.run(&arguments), words);
    }
    let refused = block("", &four).run(&["taper", "--week", "5"]);
    assert_eq!(refused, "--- stderr\nloadline: block 1 has no week 5: it has 4 weeks\n--- exit 2\n");
}

/// A deload after the meet, still to come, does not hide the peak; once it is trained it is the last one.
#[test]
fn the_last_marked_week_with_training_is_meant() {
    let set = "- Back squat: 3x5 @ 100 kg\n";
    let week = |lines: &[&str]| {
        let answer = block("- peak: week 3\n- deload: week 4\n", &tuesdays(lines)).json(&["taper"]);
        (answer["week"].clone(), answer["kind"].clone(), answer["missing"].clone())
    };
    assert_eq!(week(&[set, set]), (json!(4), json!("deload"), json!("work")));
    assert_eq!(week(&[set, set, set]), (json!(3), json!("peak"), Value::Null));
    assert_eq!(week(&[set, set, set, set]), (json!(4), json!("deload"), Value::Null));
}

/// The block that one is in has none: the last one that there was is named.
#[test]
fn the_last_marked_week_is_offered() {
    let set = "- Back squat: 3x5 @ 100 kg\n";
    let before = tuesdays(&[set, set, set, set]);
    let page = format!("# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n{PEAK}\n{before}");
    let page = page + "# Block 2\n\n- starts: 2026-11-02\n\n## 2026-11-03\n\n" + set;
    assert_eq!(
        Journal::new().page(&page).run(&["taper"]),
        "Block 2 has no peak or deload week; the last one with work is block 1 week 4:\n  --block \"1\". Write `- peak: \
         week 4` under its heading, or ask for any\n  week with --week N\n"
    );
}

/// On the Wednesday four days of the week are left; with a meet on the Saturday two of them are training days.
#[test]
fn a_week_that_is_not_done_is_not_judged() {
    let (loading, peak) = ("- Back squat: 3x6 @ 150 kg RPE 8\n", "- Back squat: 2x4 @ 150 kg RPE 8\n");
    let sessions = tuesdays(&[loading, loading, loading, peak]);
    let at = |sessions: &str, day: &str| block(PEAK, sessions).json(&["taper", "--on", day]);
    let answer = at(&sessions, "2026-10-28");
    assert_eq!(answer["days_to_come"], 4);
    for about in ["volume", "top load", "effort", "sets", "reps"] {
        assert_eq!(check(&answer, about).1, "open", "{about}");
    }
    assert_eq!(at(&sessions, "2026-11-01")["days_to_come"], 0);
    assert_eq!(check(&at(&sessions, "2026-11-01"), "volume").1, "within");
    // What is cut too little already stays so.
    let heavy = tuesdays(&[loading, loading, loading, loading]);
    assert_eq!(check(&at(&heavy, "2026-10-28"), "volume"), (&json!(0), "above"));
    let meet = sessions + "## 2026-10-31 meet Harbour Open\n\n- Back squat:\n";
    assert_eq!(at(&meet, "2026-10-28")["days_to_come"], 2);
    assert_eq!(check(&at(&meet, "2026-10-28"), "last session"), (&json!(4), "open"));
    assert_eq!(at(&meet, "2026-10-30")["days_to_come"], 0);
    let text = block(PEAK, &meet).run(&["taper", "--on", "2026-10-28"]);
    assert!(text.starts_with("block 1 week 4, peak week: volume -56 % so far\n"), "{text}");
    assert!(text.contains("\nwith 2 days of it to come: what may still change is open\n"), "{text}");
}

/// A single at RPE 10 is the maximum itself. A bench press of 120 kg is over 85 % of 130 kg, a squat of 150 kg is
/// three quarters of 200 kg.
#[test]
fn days_from_the_last_heavy_set_are_counted_to_the_test() {
    let page = "## 2026-10-20\n\n- Back squat: 1 @ 200 kg RPE 10\n- Bench press: 1 @ 130 kg RPE 10\n\n\
                ## 2026-10-22\n\n- Deadlift: 1 @ 240 kg RPE 10\n\n\
                ## 2026-10-27\n\n- Back squat: 2x5 @ 150 kg RPE 6\n- Bench press: 1 @ 120 kg RPE 8\n\n\
                ## 2026-11-03 meet Harbour Open\n\n- Back squat:\n";
    let of = |day: &str| {
        let answer = block(PEAK, page).json(&["taper", "--on", day]);
        let heavy = answer["heavy"].as_array().unwrap().iter();
        let days: Vec<_> = heavy.map(|heavy| (heavy["lift"].clone(), heavy["days"].as_i64())).collect();
        let checks = answer["checks"].as_array().unwrap().iter().filter(|check| check["about"] == "last heavy set");
        (days, checks.map(|check| check["verdict"].as_str().unwrap().to_owned()).collect::<Vec<_>>(), answer)
    };
    let (days, verdicts, answer) = of("2026-11-25");
    assert_eq!(days, [("Back squat".into(), Some(14)), ("Bench press".into(), Some(7)), ("Deadlift".into(), Some(12))]);
    assert_eq!(verdicts, ["above", "above", "above"]);
    // Of a maximum without the tiredness of that week of the block.
    assert_eq!(answer["heavy"][0]["percent"], 99.61);
    assert_eq!(answer["heavy"][0]["mark"]["line"], 9);
    // Six days before the meet no squat can be heavy in time any more, but a bench press can.
    assert_eq!(of("2026-10-28").1, ["above", "open", "above"]);
}

#[test]
fn a_deload_leads_to_no_test_and_is_held_to_its_volume_alone() {
    let set = "- Back squat: 3x6 @ 150 kg RPE 8\n";
    let sessions = tuesdays(&[set, set, set, "- Back squat: 2x4 @ 120 kg RPE 5\n"]);
    let journal =
        block("- deload: week 4\n", &(sessions + "## 2026-10-31 meet Harbour Open\n\n- Back squat: 1 @ 200 kg\n"));
    let answer = journal.json(&["taper"]);
    assert_eq!(answer["kind"], "deload");
    assert_eq!((&answer["test"], &answer["heavy"]), (&Value::Null, &json!([])));
    assert_eq!(answer["checks"].as_array().unwrap().len(), 1, "the volume, and nothing else");
    let (found, verdict) = check(&answer, "volume");
    assert_eq!((found.as_f64(), verdict), (Some(-64.44), "within"));
    let check = &answer["checks"][0];
    assert_eq!((&check["low"], &check["high"], &check["basis"]), (&json!(-80), &json!(-40), &json!("own")));
    let text = journal.run(&["taper"]);
    let title = "block 1 week 4, deload week: volume -64 %, inside this project's own band\n";
    assert!(text.starts_with(title) && text.contains("\n(1) this project's own band; no published figure"), "{text}");
    assert!(!text.contains("Harbour Open") && text.contains("no published figure says how much a deload"), "{text}");
}

#[test]
fn a_week_may_be_marked_by_its_sessions() {
    let set = "- Back squat: 3x5 @ 100 kg\n";
    let sessions = tuesdays(&[set, set, set, set]);
    for mark in ["peak", "deload"] {
        let marked = sessions.replace("## 2026-10-27", &format!("## 2026-10-27 {mark}"));
        let answer = block("", &marked).json(&["taper"]);
        assert_eq!((&answer["week"], &answer["kind"]), (&json!(4), &json!(mark)));
    }
    let answer = block("", &sessions).json(&["taper", "--week", "4"]);
    assert_eq!((&answer["kind"], &answer["checks"][0]["about"]), (&json!("unmarked"), &json!("volume")));
}

#[test]
fn a_bench_only_lifter_is_asked_for_no_squat_and_no_deadlift() {
    let loading = "- Bench press: 4x5 @ 100 kg RPE 8\n- Barbell row: 3x10 @ 70 kg RPE 7\n";
    let peak = "- Bench press: 3x3 @ 102.5 kg RPE 8\n- Barbell row: 2x10 @ 70 kg RPE 7\n";
    let journal = block(
        PEAK,
        &(tuesdays(&[loading, loading, loading, peak])
            + "## 2026-10-31 meet Harbour Open\n\n- Bench press: 1 @ 130 kg RPE 9\n"),
    );
    let answer = journal.json(&["taper"]);
    assert_eq!(answer["heavy"].as_array().unwrap().len(), 1);
    assert!(!has(&answer, "deadlift sets"));
    assert_eq!(check(&answer, "top load"), (&json!(2.5), "within"));
    assert_eq!(check(&answer, "accessory sets"), (&json!(-1), "within"));
    let text = journal.run(&["taper", "--all"]);
    assert!(!text.to_lowercase().contains("squat") && !text.to_lowercase().contains("deadlift"), "{text}");
}

/// The pull of the meets counts, not the one that is trained more.
#[test]
fn the_competition_lift_is_the_one_of_the_meets() {
    let set = "- Sumo deadlift: 1x3 @ 200 kg RPE 8\n- Deadlift: 3x5 @ 170 kg RPE 8\n";
    let sessions = tuesdays(&[set, set, set, set]);
    let lifts = |sessions: &str| block(PEAK, sessions).json(&["taper"])["heavy"][0]["lift"].clone();
    assert_eq!(lifts(&sessions), "Deadlift");
    assert_eq!(lifts(&(sessions + "## 2026-10-31 meet Open\n\n- Sumo deadlift: 1 @ 220 kg RPE 9\n")), "Sumo deadlift");
}

/// Deadlifts cut by a third while the bench press is cut by half: they did not come out first.
#[test]
fn deadlifts_are_held_against_the_lift_that_is_cut_most() {
    let loading = "- Back squat: 3x5 @ 150 kg\n- Bench press: 4x5 @ 100 kg\n- Deadlift: 3x5 @ 180 kg\n";
    let peak = |sets: u32| {
        let lines = format!("- Back squat: 3x5 @ 150 kg\n- Bench press: 2x5 @ 100 kg\n- Deadlift: {sets}x5 @ 180 kg\n");
        let answer = block(PEAK, &tuesdays(&[loading, loading, loading, &lines])).json(&["taper"]);
        let (found, verdict) = check(&answer, "deadlift sets");
        (found.as_f64().unwrap(), verdict.to_owned())
    };
    assert_eq!(peak(2), (-33.33, "above".into()));
    assert_eq!(peak(1), (-66.67, "within".into()));
}

/// One set a session and two reps a set have no set and no two reps to take off.
#[test]
fn nothing_is_asked_off_where_there_is_nothing_to_take() {
    let set = "- Back squat: 1x2 @ 200 kg RPE 8\n";
    let answer = block(PEAK, &tuesdays(&[set, set, set, set])).json(&["taper"]);
    assert!(has(&answer, "volume") && !has(&answer, "sets") && !has(&answer, "reps"), "{answer:#}");
}

/// A single at RPE 10 is the maximum: 200 kg is 2.5 times 80 kg, 4 times 50 kg, 3.33 times 60 kg, 1.82 times 110 kg.
#[test]
fn the_band_is_that_of_the_lifter() {
    let set = "- Back squat: 1 @ 200 kg RPE 10\n";
    let band = |fact: &str| {
        let week = format!("{fact}\n\n{set}");
        let answer = block(PEAK, &tuesdays(&[set, set, set, &week])).json(&["taper"]);
        let volume = answer["checks"][0].clone();
        assert_eq!(volume["about"], "volume");
        (volume["low"].as_i64().unwrap(), volume["high"].as_i64().unwrap(), answer["strongest"].clone())
    };
    for (fact, low, high) in [
        ("bodyweight: 80 kg", -60, -41),
        ("bodyweight: 60 kg", -70, -50),
        ("bodyweight: 110 kg", -50, -30),
        // Small, and strong for it.
        ("bodyweight: 50 kg", -60, -41),
    ] {
        assert_eq!((band(fact).0, band(fact).1), (low, high), "{fact}");
    }
    let strongest = band("bodyweight: 80 kg").2;
    assert_eq!((&strongest["lift"], &strongest["bodyweight_kg"]), (&json!("Back squat"), &json!(80)));
    let times = ["low", "times_bodyweight", "high"].map(|field| strongest[field].as_f64().unwrap());
    assert!(times[0] < times[1] && times[1] < times[2] && (times[1] - 2.5).abs() < 0.05, "{strongest}");
    assert_eq!(band("").2, Value::Null);
    assert_eq!((band("").0, band("").1), (-60, -41), "the published range where the bodyweight is not known");
}

/// Pounds and a lone rep at a time: 225 lb is 102.06 kg.
#[test]
fn pounds_are_summed_as_kilograms() {
    let (loading, peak) = ("- Bench press: 2x5 @ 225 lb\n", "- Bench press: 1x5 @ 225 lb\n");
    let answer = block(PEAK, &tuesdays(&[loading, loading, loading, peak])).json(&["taper"]);
    let all = &answer["all"];
    assert_eq!((&all["before"]["tonnage_kg"], &all["now"]["top_kg"]), (&json!(1020.58), &json!(102.06)));
    assert_eq!(changes(all, &["tonnage_percent"]), [Some(-50.0)]);
}

#[test]
fn no_line_is_wider_than_the_screen() {
    for width in [48, 64, 80, 120] {
        let out = whole().run_at(width, &["taper", "--all"]);
        let wide: Vec<&str> = out.lines().filter(|line| line.chars().count() > width).collect();
        assert!(wide.is_empty(), "{width}: {wide:?}");
    }
}

/// Who pulls from blocks at meets says so in lifter.yaml, and is held to that lift, here as in `meet`.
#[test]
fn the_settings_say_which_lift_is_contested() {
    let page = "# Block 1\n- starts: 2026-10-26\n- weeks: 4\n- peak: week 2\n\n## 2026-10-26\n- Block pull: 3x3 @ 200 kg RPE \
                8\n- Deadlift: 3x3 @ 180 kg RPE 8\n\n## 2026-11-02\n- Block pull: 2x2 @ 200 kg RPE 8\n- Deadlift: 2x2 @ 180 kg RPE \
                8\n\n## 2026-11-07 meet Tidewater\n";
    let heavy = |settings: &str| {
        let journal = crate::support::journal::Journal::new().page(page).file("lifter.yaml", settings);
        journal.json(&["taper"])["heavy"][0]["lift"].clone()
    };
    assert_eq!(heavy("name: Aske\n"), "Deadlift");
    assert_eq!(heavy("name: Aske\nmeet lifts: { deadlift: Block pull }\n"), "Block pull");
}
