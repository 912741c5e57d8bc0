//! `taper` on weeks that are planned, and with figures that the settings say.

use crate::support::journal::Journal;
use serde_json::{Value, json};

/// Three loading weeks of one squat and one bench press session, from Monday 2026-10-05 on; the peak is week 4.
fn journal(rest: &str) -> Journal {
    let weeks = [("2026-10-06", "2026-10-08"), ("2026-10-13", "2026-10-15"), ("2026-10-20", "2026-10-22")];
    let loading: String = weeks
        .iter()
        .map(|(one, other)| {
            format!(
                "## {one}\n\n- Back squat: 3x6 @ 150 kg RPE 8\n\n## {other}\n\n- Bench press: 3x6 @ 100 kg RPE 8\n\n"
            )
        })
        .collect();
    Journal::new().page(&format!("# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n- peak: week 4\n\n{loading}{rest}"))
}

/// A set and two reps off both lifts: 1200 and 800 kg of 2700 and 1800 kg, 55.6 % less.
const PLANNED: &str = "## 2026-10-27

- Back squat:
  - plan: 2x4 @ 150 kg RPE 8

## 2026-10-29

- Bench press:
  - plan: 2x4 @ 100 kg RPE 7.5-8.5

## 2026-10-31 meet Harbour Open

- Back squat:
";

fn done(first: &str) -> String {
    PLANNED.replacen("- Back squat:\n  - plan", &format!("- Back squat: {first}\n  - plan"), 1)
}

fn check<'a>(answer: &'a Value, about: &str) -> &'a Value {
    let mut checks = answer["checks"].as_array().unwrap().iter();
    checks.find(|check| check["about"] == about).unwrap_or_else(|| panic!("{about}: {answer:#}"))
}

/// Verdict, and whether it rests on a plan.
fn verdict(answer: &Value, about: &str) -> (String, bool) {
    let check = check(answer, about);
    (check["verdict"].as_str().unwrap().to_owned(), check["planned"].as_bool().unwrap())
}

fn at(journal: &Journal, day: &str) -> Value {
    journal.json(&["taper", "--on", day])
}

/// On the Sunday before, all of the week is to come.
#[test]
fn a_week_to_come_is_judged_by_its_plans() {
    let answer = at(&journal(PLANNED), "2026-10-25");
    assert_eq!((&answer["week"], &answer["as_planned"], &answer["days_to_come"]), (&json!(4), &json!(true), &json!(5)));
    assert_eq!((&answer["all"]["now"]["sets"], &answer["all"]["now"]["planned_sets"]), (&json!(4), &json!(4)));
    assert_eq!(answer["all"]["before"]["planned_sets"], 0);
    for (about, found) in [("volume", -55.56), ("top load", 0.0), ("effort", 0.0), ("sets", -1.0), ("reps", -2.0)] {
        assert_eq!(
            (check(&answer, about)["found"].as_f64(), verdict(&answer, about)),
            (Some(found), ("within".into(), true))
        );
    }
    assert_eq!((&check(&answer, "last session")["found"], verdict(&answer, "last session").1), (&json!(2), true));
    let text = journal(PLANNED).run(&["taper", "--all", "--on", "2026-10-25"]);
    assert!(text.starts_with("block 1 week 4, peak week: volume -56 % as planned, as usual\n"), "{text}");
    assert!(text.contains("\nwith 4 sets planned and not done yet, counted as planned\n"), "{text}");
    assert!(text.contains("\nBack squat   3 to 2        -33   -56      -56    0    0  0.0  all\n"), "{text}");
}

/// What is done counts as it was done, what is not as planned.
#[test]
fn a_week_that_is_partly_done_says_what_rests_on_plans() {
    let journal = journal(&done("2x4 @ 140 kg RPE 8"));
    let answer = at(&journal, "2026-10-27");
    let lifts = answer["lifts"].as_array().unwrap();
    let planned: Vec<&Value> = lifts.iter().map(|lift| &lift["now"]["planned_sets"]).collect();
    assert_eq!((planned, &answer["all"]["now"]["planned_sets"]), (vec![&json!(0), &json!(2)], &json!(2)));
    assert_eq!(
        (&answer["all"]["now"]["tonnage_kg"], verdict(&answer, "volume")),
        (&json!(1920), ("within".into(), true))
    );
    let text = journal.run(&["taper", "--all", "--on", "2026-10-27"]);
    assert!(text.contains("\nall               6 to 4        -33   -56      -57   -4   -7  0.0  part\n"), "{text}");
    // Once all of it is done nothing rests on plans, and what is left of the week is rest.
    let all = done("as planned RPE 8").replace("- Bench press:\n", "- Bench press: as planned RPE 8\n");
    let answer = at(&self::journal(&all), "2026-10-29");
    assert_eq!((&answer["as_planned"], &answer["days_to_come"]), (&json!(true), &json!(1)));
    assert_eq!(verdict(&answer, "volume"), ("within".into(), false));
}

/// A day that was missed may be made up for, and a plan for today alone is none for a week that had four sessions.
#[test]
fn a_plan_that_was_missed_or_is_for_a_day_only_leaves_the_week_open() {
    let answer = at(&journal(&done("as planned RPE 8")), "2026-10-30");
    assert_eq!((&answer["as_planned"], &answer["days_to_come"]), (&json!(false), &json!(0)), "the meet is tomorrow");
    let missed = journal(&done("as planned RPE 8").replace("2026-10-31 meet", "2026-11-02 meet"));
    assert_eq!(verdict(&at(&missed, "2026-10-30"), "volume"), ("open".into(), false));
    let four: String =
        [6, 7, 8, 9].map(|day| format!("## 2026-10-{day:02}\n\n- Back squat: 3x6 @ 150 kg\n\n")).concat();
    let today = "## 2026-10-27\n\n- Back squat:\n  - plan: 2x4 @ 150 kg\n";
    let page = format!("# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n- peak: week 4\n\n{four}{today}");
    let answer = at(&Journal::new().page(&page), "2026-10-27");
    assert_eq!((&answer["as_planned"], verdict(&answer, "volume")), (&json!(false), ("open".into(), true)));
}

/// 2x3-4: two reps less is as usual, three is not. A load that is left open adds to the volume, nobody knows how much.
#[test]
fn what_a_plan_leaves_open_is_open() {
    let ranged = journal(&PLANNED.replace("2x4 @", "2x3-4 @"));
    assert_eq!(check(&at(&ranged, "2026-10-25"), "reps")["found"], -3);
    assert_eq!(verdict(&at(&ranged, "2026-10-25"), "reps"), ("open".into(), true));
    assert_eq!(verdict(&at(&ranged, "2026-10-25"), "sets"), ("within".into(), true));
    let no_load = journal(&PLANNED.replace("2x4 @ 100 kg", "2x4"));
    let answer = at(&no_load, "2026-10-25");
    for about in ["volume", "top load"] {
        assert_eq!(verdict(&answer, about), ("open".into(), true), "{about}");
    }
    assert_eq!(verdict(&answer, "sets"), ("within".into(), true));
}

#[test]
fn what_is_skipped_or_over_is_not_planned() {
    let skipped = journal(&done("skipped (knee)"));
    assert_eq!(at(&skipped, "2026-10-26")["all"]["now"]["planned_sets"], 2);
    // The Tuesday was missed.
    assert_eq!(at(&journal(PLANNED), "2026-10-28")["all"]["now"]["planned_sets"], 2);
    let swapped =
        PLANNED.replace("## 2026-10-29", "- Front squat: 2x4 @ 120 kg\n  - instead of: Back squat\n\n## 2026-10-29");
    let answer = at(&journal(&swapped), "2026-10-27");
    let lifts: Vec<&Value> =
        answer["lifts"].as_array().unwrap().iter().map(|lift| &lift["now"]["planned_sets"]).collect();
    assert_eq!(lifts, [&json!(0), &json!(2), &json!(0)], "{answer:#}");
}

/// A single at RPE 10 is the maximum itself: 180 kg is 90 % of 200 kg.
#[test]
fn a_heavy_set_may_be_planned() {
    let page = "## 2026-10-23\n\n- Back squat: 1 @ 200 kg RPE 10\n\n".to_owned()
        + &PLANNED.replace("2x4 @ 150 kg RPE 8", "1x2 @ 180 kg RPE 8, 1x2 @ 160 kg");
    let answer = at(&journal(&page), "2026-10-25");
    let heavy = &answer["heavy"][0];
    assert_eq!((&heavy["lift"], &heavy["planned"], &heavy["days"]), (&json!("Back squat"), &json!(true), &json!(4)));
    assert_eq!((&heavy["mark"]["load"]["kg"], &heavy["mark"]["sets"]), (&json!(180), &json!(1)));
    assert_eq!(verdict(&answer, "last heavy set"), ("below".into(), true));
    assert!(journal(&page).run(&["taper", "--on", "2026-10-25"]).contains("planned 1x2 @ 180 kg RPE 8"));
    // Once it is past and not done, the single of the week before is the last.
    let after = at(&journal(&page), "2026-10-28");
    assert_eq!((&after["heavy"][0]["planned"], &after["heavy"][0]["days"]), (&json!(false), &json!(8)));
}

/// The week that is to come is meant, not the deload that is over nor the one after it.
#[test]
fn the_next_planned_week_is_meant() {
    let week = |keys: &str, on: &str| {
        let page = format!(
            "# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n{keys}\n## 2026-10-06\n\n- Back squat: 3x6 @ 150 kg\n\n\
             ## 2026-10-13\n\n- Back squat: 2x4 @ 130 kg\n\n## 2026-10-20\n\n- Back squat:\n  - plan: 2x4 @ 150 kg\n\n\
             ## 2026-10-27\n\n- Back squat:\n  - plan: 2x4 @ 120 kg\n"
        );
        let answer = at(&Journal::new().page(&page), on);
        (answer["week"].clone(), answer["kind"].clone())
    };
    assert_eq!(week("- peak: week 3\n- deload: week 2, week 4\n", "2026-10-19"), (json!(3), json!("peak")));
    assert_eq!(week("- peak: week 3\n- deload: week 2, week 4\n", "2026-10-26"), (json!(4), json!("deload")));
    assert_eq!(week("- peak: week 3\n- deload: week 2, week 4\n", "2026-11-25"), (json!(2), json!("deload")));
}

/// A peak that is planned too light is cautioned of while it can be changed.
#[test]
fn an_unusual_peak_is_seen_in_its_plans() {
    let cautions = |rest: &str, on: &str| {
        let answer = journal(rest).json(&["review", "--on", on]);
        let all = answer["cautions"].as_array().unwrap().clone();
        all.into_iter().filter(|caution| caution["name"] == "unusual-peak").collect::<Vec<Value>>()
    };
    assert_eq!(cautions(PLANNED, "2026-10-25"), Vec::<Value>::new());
    let light = PLANNED.replace("2x4 @ 150 kg", "2x4 @ 120 kg");
    let found = cautions(&light, "2026-10-25");
    assert_eq!((found.len(), &found[0]["found"], &found[0]["date"]), (1, &json!(-10), &json!("2026-10-25")));
    let message = found[0]["message"].as_str().unwrap();
    assert!(message.starts_with("peak week 4 as planned: top loads of the competition lifts -10 %"), "{message}");
    assert_eq!(found[0]["places"].as_array().unwrap().len(), 2);
    // Nothing is said of a plan that leaves the load open.
    assert_eq!(cautions(&PLANNED.replace("2x4 @ 150 kg", "2x4"), "2026-10-25"), Vec::<Value>::new());
    let whole = PLANNED.replace("2x4", "3x6");
    assert!(
        cautions(&whole, "2026-10-25")[0]["message"]
            .as_str()
            .unwrap()
            .contains("4 as planned: volume +0 %, cut far less")
    );
}

#[test]
fn the_settings_say_what_is_usual() {
    let done = done("2x4 @ 150 kg RPE 8").replace("- Bench press:\n", "- Bench press: 2x4 @ 100 kg RPE 8\n");
    let of = |settings: &str, own: &str, about: &str| {
        let journal = journal(&done).file("journal.yaml", settings).file("lifter.yaml", format!("name: Aske\n{own}"));
        let answer = journal.json(&["taper"]);
        let check = check(&answer, about).clone();
        let ends = (check["low"].as_f64().unwrap(), check["high"].as_f64().unwrap());
        (ends, check["verdict"].as_str().unwrap().to_owned(), check["basis"].as_str().unwrap().to_owned())
    };
    let is = |low: f64, high: f64, verdict: &str, basis: &str| ((low, high), verdict.to_owned(), basis.to_owned());
    assert_eq!(of("", "", "volume"), is(-60.0, -41.0, "within", "published"));
    assert_eq!(of("", "", "sets"), is(-1.5, -0.5, "within", "own"));
    for (key, about, low, high, verdict) in [
        ("cut: 30-50", "volume", -50.0, -30.0, "below"),
        ("load kept within: 2", "top load", -2.0, 2.0, "within"),
        ("effort kept within: 1", "effort", -1.0, 1.0, "within"),
        ("sets off: 1.5-2.5", "sets", -2.5, -1.5, "above"),
        ("reps off: 1-2", "reps", -2.0, -1.0, "within"),
    ] {
        assert_eq!(of(&format!("taper: {{ {key} }}\n"), "", about), is(low, high, verdict, "settings"), "{key}");
        let own = format!("taper: {{ {key} }}\n");
        assert_eq!(
            of("taper: { cut: 10-20, sets off: 3-4 }\n", &own, about),
            is(low, high, verdict, "settings"),
            "{key}"
        );
    }
    assert_eq!(of("taper: { cut: 10-20 }\n", "taper: { sets off: 3-4 }\n", "volume").0, (-20.0, -10.0));
    let text = journal(&done).file("journal.yaml", "taper: { cut: 30-50 }\n").run(&["taper"]);
    assert!(text.starts_with("block 1 week 4, peak week: volume -56 %, cut more than the settings say\n"), "{text}");
    assert!(text.contains("\n(1) set in the settings, `taper: cut`. (2)"), "{text}");
}

/// A single at RPE 10 is the maximum: 200 kg is 2.5 times 80 kg.
#[test]
fn the_settings_say_who_is_strong() {
    let volume = |settings: &str| {
        let set = "- Back squat: 1 @ 200 kg RPE 10\n\n";
        let sessions: String =
            [6, 13, 20, 27].map(|day| format!("## 2026-10-{day:02}\n\nbodyweight: 80 kg\n\n{set}")).concat();
        let page = format!("# Block 1\n\n- starts: 2026-10-05\n- weeks: 4\n- peak: week 4\n\n{sessions}");
        let answer = Journal::new().page(&page).file("journal.yaml", settings).json(&["taper"]);
        let check = check(&answer, "volume").clone();
        (check["low"].as_i64().unwrap(), check["high"].as_i64().unwrap(), check["basis"].as_str().unwrap().to_owned())
    };
    for (settings, low, high, basis) in [
        ("", -60, -41, "published"),
        ("taper: { strong from: 2.4 }", -70, -50, "own"),
        ("taper: { strong from: 2.4, strong cut: 60-80 }", -80, -60, "settings"),
        ("taper: { less strong under: 2.6 }", -50, -30, "own"),
        ("taper: { small under: 85 kg }", -50, -30, "own"),
        ("units: lb\ntaper: { small under: 180, less strong cut: 20-40 }", -40, -20, "settings"),
        ("units: lb\ntaper: { small under: 170, less strong cut: 20-40 }", -60, -41, "published"),
        // The one speaks for less, the other for more.
        ("taper: { small under: 85 kg, strong from: 2.4 }", -60, -41, "published"),
    ] {
        assert_eq!(volume(settings), (low, high, basis.to_owned()), "{settings}");
    }
}

#[test]
fn the_settings_say_what_a_deload_cuts() {
    let page = "# Block 1\n\n- starts: 2026-10-05\n- deload: week 2\n\n## 2026-10-06\n\n- Back squat: 4x5 @ 150 kg\n\n\
                ## 2026-10-13\n\n- Back squat: 3x5 @ 150 kg\n";
    let title = |settings: &str| {
        let text = Journal::new().page(page).file("journal.yaml", settings).run_at(120, &["taper"]);
        text.lines().next().unwrap().to_owned()
    };
    let is = "block 1 week 2, deload week: volume -25 %, ";
    assert_eq!(title(""), format!("{is}cut less than this project's own band"));
    assert_eq!(title("taper: { deload cut: 20-40 }"), format!("{is}as the settings say"));
}

/// A narrow screen has no room for a column about plans.
#[test]
fn a_narrow_screen_stars_what_rests_on_plans() {
    let text = journal(&done("2x4 @ 150 kg RPE 8")).run_at(48, &["taper", "--all", "--on", "2026-10-27"]);
    assert!(text.contains("RPE in points; * with planned\n  sets\n"), "{text}");
    assert!(text.contains("\nsquat               -33   -56      -56    0  0.0\n"), "{text}");
    assert!(text.contains("\nhorizontal press*   -33   -56      -56    0  0.0\n"), "{text}");
}

#[test]
fn no_line_is_wider_than_the_screen() {
    for width in [48, 64, 80, 120] {
        let out = journal(PLANNED).run_at(width, &["taper", "--all", "--on", "2026-10-25"]);
        let wide: Vec<&str> = out.lines().filter(|line| line.chars().count() > width).collect();
        assert!(wide.is_empty(), "{width}: {wide:?}");
    }
}

/// What no plan says a load of is no cut of all of it.
#[test]
fn a_volume_without_loads_is_not_known() {
    let page = "# Block 1\n\n- starts: 2026-03-02\n- weeks: 4\n- deload: week 4\n\n## 2026-03-04\n\n- Back squat: 3x5 @ 100 kg\n\n\
                ## 2026-03-11\n\n- Back squat: 3x5 @ 102.5 kg\n\n## 2026-03-18\n\n- Back squat: 3x5 @ 105 kg\n\n\
                ## 2026-03-25\n\n- Back squat:\n  - plan: 2x3 RPE 5\n";
    let journal = Journal::new().page(page);
    assert_eq!(
        journal.run(&["taper", "--all", "--on", "2026-03-20"]),
        "\
block 1 week 4, deload week: sets -33 %, reps -60 % as planned; volume not
  known, as a plan has no load
with 2 sets planned and not done yet, counted as planned

      what              here  band               from
open  volume (tonnage)     ?  -80 to -40 %  (1)  plan
(1) this project's own band; no published figure says how much a deload should
  cut

change in % from the mean of weeks 1, 2 and 3; avg, top: load; RPE in points
family  sets a week  sets  reps  plan
squat   3 to 2        -33   -60  all
all     3 to 2        -33   -60  all

lift        sets a week  sets  reps  plan
Back squat  3 to 2        -33   -60  all

no published figure says how much a deload should cut; most lifters do fewer
sets and reps a set, with less load and more reps in reserve (Rogerson et al.
2024); the coach decides
"
    );
    let answer = at(&journal, "2026-03-20");
    assert_eq!(answer["all"]["now"]["tonnage_kg"], Value::Null);
    assert_eq!(answer["all"]["change"]["tonnage_percent"], Value::Null);
    assert_eq!((&check(&answer, "volume")["found"], verdict(&answer, "volume").0), (&Value::Null, "open".into()));
    assert_eq!(
        (&answer["all"]["change"]["sets_percent"], &answer["all"]["change"]["reps_percent"]),
        (&json!(-33.33), &json!(-60))
    );
}
