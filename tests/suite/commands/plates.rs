//! `plates`: whole screens on the example journal, and what cannot be hung.

use crate::support::journal::{Journal, example};
use crate::support::{run, snapshot};

fn screen(name: &str, width: usize, arguments: &[&str]) {
    snapshot::check(name, &run::run(&example(), width, arguments));
}

#[test]
fn screens_of_the_example_stay_as_they_are() {
    screen("plates-80", 80, &["plates", "337.5"]);
    screen("plates-48", 48, &["plates", "337.5"]);
    screen("plates-near-80", 80, &["plates", "265 lb", "--bar", "pound bar"]);
    screen("plates-near-48", 48, &["plates", "265 lb", "--bar", "pound bar", "--from", "225 lb"]);
    screen("plates-from-80", 80, &["plates", "200 kg", "--bar", "trap bar", "--from", "180 kg"]);
    screen("plates-from-48", 48, &["plates", "60", "--from", "bar + 2 red/side + 1 green/side"]);
    screen("plates-all-48", 48, &["plates", "600"]);
}

/// 20 + 5 kg of bar and collars; 2 x (45 lb + 10 kg) = 60.82 kg more.
const MIXED: &str =
    "gear:\n  plates:\n    - { mass: 45 lb, pairs: 2 }\n    - { mass: 10 kg, pairs: 2 }\n  collars: 5 kg\n";

#[test]
fn collars_and_plates_of_both_units_are_drawn() {
    let journal = Journal::new().file("journal.yaml", MIXED);
    assert_eq!(
        journal.run_at(48, &["plates", "bar + 45 lb/side + 10 kg/side"]),
        "\
bar + 45 lb/side + 10 kg/side (85.82 kg) on bar:
  45 lb + 10 kg each side
bar 20 kg + collars 5 kg + 2 x 30.41 kg
  = 85.82 kg

     .----.
     |    |.----.
     |    ||    |
----[|45lb||10kg|]==
     |    ||    |
     |    |'----'
     '----'
"
    );
}

#[test]
fn no_line_is_wider_than_the_screen() {
    for width in [24, 36, 48, 80] {
        for (load, from) in [("600", "400"), ("265 lb", "315 lb"), ("341.3", "332.5"), ("20", "337.5"), ("337.5", "20")]
        {
            let out = run::run(&example(), width, &["plates", load, "--from", from]);
            let widest = out.lines().map(|line| line.chars().count()).max();
            assert!(!out.contains("--- ") && widest <= Some(width), "{load} from {from} at {width}\n{out}");
        }
    }
}

/// What a page with that load comes to is what was asked for: read back by the journal's own grammar.
#[test]
fn the_text_of_an_answer_reads_back_as_the_load() {
    for bar in ["bar", "pound bar", "trap bar", "belt squat"] {
        for load in ["62.5", "85.25", "97.4", "140", "181", "226", "262.5", "300.3"] {
            let last = format!("{bar} + 2x20 kg/side + 5 kg/side");
            let answer = run::json(&example(), &["plates", load, "--from", &last]);
            for which in ["exact", "below", "above"] {
                for text in [&answer[which]["text"], &answer[which]["change"]["text"]] {
                    let Some(text) = text.as_str() else { continue };
                    let again = run::json(&example(), &["plates", text]);
                    assert_eq!(again["exact"]["kg"], answer[which]["kg"], "{text}");
                    assert_eq!(again["bar"]["name"], bar, "{text}");
                    assert_eq!(again["exact"]["text"], answer[which]["text"], "{text}");
                }
            }
        }
    }
}

/// What it says on standard error.
fn refused(settings: &str, arguments: &[&str]) -> String {
    let out = Journal::new().file("journal.yaml", settings).run(&[&["plates"], arguments].concat());
    let why = out.strip_prefix("--- stderr\nloadline: ").and_then(|out| out.strip_suffix("\n--- exit 2\n"));
    why.unwrap_or_else(|| panic!("{arguments:?} was answered:\n{out}")).to_owned()
}

#[test]
fn what_cannot_be_hung_says_why() {
    let bars = "gear:\n  bars: { trap bar: 25 kg, pound bar: 45 lb }\n";
    for (settings, arguments, why) in [
        ("", &["19 kg"] as &[&str], "19 kg is lighter than `bar` alone, which is 20 kg"),
        (
            bars,
            &["40", "--bar", "pound bar", "--from", "44 lb"],
            "44 lb (19.96 kg) is lighter than `pound bar` alone, which is 45 lb",
        ),
        (
            "gear:\n  collars: 5 kg\n",
            &["22.5"],
            "22.5 kg is lighter than `bar` with its collars, which is 25 kg (20 kg and 5 kg)",
        ),
        ("", &["1000.5"], "1000.5 kg is more than a bar holds; the most is 1000 kg"),
        (
            "",
            &["pin 7"],
            "`pin 7` isn't a weight that hangs on a bar; write it in kg or lb, or as a bar with its plates",
        ),
        (
            "",
            &["bw + 20 kg"],
            "`bw + 20 kg` isn't a weight that hangs on a bar; write it in kg or lb, or as a bar with its plates",
        ),
        (
            "",
            &["\"blue band\""],
            "`\"blue band\"` isn't a weight that hangs on a bar; write it in kg or lb, or as a bar with its plates",
        ),
        ("", &["75%"], "`75%` isn't a weight that hangs on a bar; write it in kg or lb, or as a bar with its plates"),
        ("", &["  "], "a load is missing; write one such as \"120 kg\""),
        ("", &["122,5"], "`122,5` has a comma; a number takes a point"),
        ("", &["bar + 3 redd/side"], "`redd` isn't a bar or a plate colour of this gym; perhaps red"),
        (bars, &["100"], "on which bar? Name one with --bar: trap bar or pound bar"),
        (bars, &["100", "--bar", "trapbra"], "no bar is called `trapbra`; there is trap bar"),
        (bars, &["100", "--bar", "log"], "no bar is called `log`; there are trap bar and pound bar"),
        (
            "gear:\n  bars: {}\n",
            &["100"],
            "the gym has no bar; name one under `gear:` in journal.yaml, such as `bars: { bar: 20 kg }`",
        ),
        (
            bars,
            &["100", "--bar", "trap bar", "--from", "pound bar + red/side"],
            "the last set was on `pound bar` and this one is on `trap bar`, so every plate is hung anew: leave out --from",
        ),
        (
            "gear:\n  plates:\n    - { mass: 25 kg, pairs: 1 }\n    - { mass: 1.25 kg, pairs: 1 }\n",
            &["70", "--from", "50"],
            "no plates of this gym come near 50 kg on `bar`, so what hung there is not known; write --from with its plates, such as `bar + 2x20 kg/side`",
        ),
    ] {
        assert_eq!(refused(settings, arguments), why);
    }
}

#[test]
fn a_load_or_the_last_set_names_the_bar() {
    let bar = |arguments: &[&str]| {
        let journal = Journal::new().file("journal.yaml", "gear:\n  bars: { bar: 20 kg, trap bar: 25 kg }\n");
        let answer = journal.json(&[&["plates"], arguments].concat());
        answer["bar"]["name"].as_str().unwrap().to_owned()
    };
    assert_eq!(bar(&["100"]), "bar");
    assert_eq!(bar(&["trap bar + 2 red/side"]), "trap bar");
    assert_eq!(bar(&["125", "--from", "trap bar + red/side"]), "trap bar");
    assert_eq!(bar(&["trap bar + 2 red/side", "--bar", "Bar"]), "bar");
}

#[test]
fn a_lone_small_number_is_a_load_here() {
    let settings = "gear:\n  bars: { belt squat: 0 kg }\n";
    let answer = Journal::new().file("journal.yaml", settings).json(&["plates", "7.5"]);
    assert_eq!(answer["exact"]["text"], "belt squat + 2.5 kg/side + 1.25 kg/side");
}

/// The plates that the last set names are those that hang, though they are not those that would be answered.
#[test]
fn the_last_sets_own_plates_count() {
    let journal = Journal::new();
    let change = |from: &str| journal.json(&["plates", "120", "--from", from])["exact"]["change"].clone();
    assert_eq!(change("bar + 2x20 kg/side")["text"], "bar + 2x20 kg/side + 10 kg/side");
    assert_eq!(change("100 kg")["text"], "bar + 25 kg/side + 15 kg/side + 10 kg/side");
    // 20 kg written out is the bar, for the sum is the same.
    assert_eq!(change("20 kg + 2x20 kg/side")["text"], "bar + 2x20 kg/side + 10 kg/side");
    // Something else is in this sum, so it is only a sum.
    assert_eq!(change("bar + 2x15 kg/side + 20 kg")["text"], "bar + 25 kg/side + 15 kg/side + 10 kg/side");
}

/// A lifter of kilos with a hotel's pound plates, and a meet whose collars weigh 5 kg.
fn travelling() -> Journal {
    let gyms = "gyms:\n  Ferry Hall:\n    bars: { bar: 45 lb, short bar: 35 lb }\n    plates:\n      - { mass: 45 lb, \
                colour: red }\n      - { mass: 10 lb }\n  Meet: { collars: 5 kg }\n";
    let page = "## 2026-03-02\n- Back squat: 5 @ bar + 1 red/side RPE 7\n\n\
                ## 2026-03-05\n- Back squat: 5 @ bar + 1 red/side RPE 7\n- Bench press: 5 @ short bar + 1 red/side\n\
                gym: ferry hall\n\n## 2026-03-07\n\n- gym: Meet (upstairs)\n- Back squat: 1 @ bar + 2 red/side\n";
    Journal::new().file("journal.yaml", gyms).file("page.md", page)
}

#[test]
fn a_session_elsewhere_is_read_and_loaded_with_the_bars_and_plates_there() {
    let journal = travelling();
    let history = |lift: &str| journal.run_at(80, &["history", lift, "--on", "2026-03-08"]);
    assert_eq!(
        history("Bench press"),
        "Bench press: 1 mark, oldest first\ndate        done                          where\n2026-03-05  1x5 @ short bar + 1 red/side  page.md:6\n"
    );
    assert_eq!(
        journal.run_at(80, &["volume", "--by", "lift", "--on", "2026-03-08"]).lines().nth(2),
        Some("Bench press         1     1     5         284    56.7")
    );
    // On the day itself the gym of its session holds, else the usual one, unless another is asked for.
    let asked = |more: &[&str]| {
        let all = [&["plates", "65 kg"], more].concat();
        journal.run_at(80, &all).lines().next().unwrap_or_default().to_owned()
    };
    assert_eq!(
        asked(&["--on", "2026-03-05"]),
        "65 kg cannot be made exactly on bar; the nearest is 65.77 kg, 0.77 kg too heavy"
    );
    assert_eq!(asked(&["--on", "2026-03-06"]), "65 kg on bar: 20 kg blue + 2.5 kg each side");
    assert_eq!(asked(&["--on", "2026-03-07"]), "65 kg on bar: 20 kg blue each side");
    assert_eq!(
        asked(&["--on", "2026-03-06", "--gym", "FERRY hall"]),
        "65 kg cannot be made exactly on bar; the nearest is 65.77 kg, 0.77 kg too heavy"
    );
    assert_eq!(
        journal.run_at(80, &["plates", "65 kg", "--gym", "Fery Hall"]),
        "--- stderr\nloadline: no gym is called `Fery Hall`; there is Ferry Hall\n--- exit 2\n"
    );
}

/// The card of a session elsewhere is of loads that hang there.
#[test]
fn a_session_to_come_is_loaded_with_the_plates_of_its_gym() {
    let plan = "\n## 2026-03-12\ngym: Ferry Hall\n- Back squat:\n  - plan: 3x5 @ 62 kg RPE 7\n";
    let journal = travelling().file("plan.md", plan);
    let card = journal.run_at(60, &["session", "--on", "2026-03-12"]);
    assert!(card.contains("\n  each side  45\n"), "{card}");
    let asked = journal.run_at(60, &["session", "--on", "2026-03-12", "--gym", "Meet"]);
    assert!(asked.contains("\n  each side  5 5 5 2.5 1.25\n"), "{asked}");
}
