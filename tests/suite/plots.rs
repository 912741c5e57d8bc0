//! Plots: whole screens at several widths, what an odd journal draws, and what must hold for any.

use crate::support::journal::{Journal, example};
use crate::support::snapshot;
use assert_cmd::cargo::cargo_bin_cmd;
use chrono::{Datelike, Days, NaiveDate};
use loadline::analysis::strength::course::{self, Curve, Estimate, Lifted, LightKind, LightWeek, MeetDay, Point, Span};
use loadline::analysis::strength::heaviest::{self, Day};
use loadline::history::{Mark, MeetKind};
use loadline::present::doc::Picture;
use loadline::present::plot::{Bar, Bars, Column, Columns, Glyphs, Line, Marks, Told};
use loadline::present::{Typeset, paint};
use loadline::science::Equation;
use loadline::source::Place;
use loadline::training::{Amount, Load, Mass, Unit, Weighed};
use proptest::prelude::*;
use std::path::Path;
use unicode_width::UnicodeWidthStr;

/// Runs the program in a terminal of a width with some variables set.
fn run(root: &Path, width: usize, variables: &[(&str, &str)], arguments: &[&str]) -> String {
    let mut command = cargo_bin_cmd!("loadline");
    command.env_clear().env("COLUMNS", width.to_string()).current_dir(root).args(arguments);
    command.envs(variables.iter().copied()).args(["--on", "2026-11-25"]);
    let output = command.output().unwrap();
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

const UTF8: (&str, &str) = ("LANG", "en_GB.UTF-8");

const SCREENS: [&[&str]; 5] = [
    &["estimate", "Back squat", "--plot"],
    &["history", "Front squat", "--plot"],
    &["volume", "--plot"],
    &["volume", "--plot", "tonnage"],
    &["volume", "--plot", "--by", "family"],
];

#[test]
fn plots_of_the_example() {
    for lifter in ["anselm", "nerys"] {
        for (name, variables) in [("blocks", &[UTF8][..]), ("ascii", &[])] {
            let mut screens = String::new();
            for width in [48, 60, 80, 120] {
                for arguments in SCREENS {
                    let out = run(&example(), width, variables, &[arguments, &["--lifter", lifter]].concat());
                    assert!(out.lines().all(|line| line.width() <= width), "{width}: {out}");
                    assert!(name == "blocks" || out.is_ascii(), "{out}");
                    screens.push_str(&format!("# {} in {width} columns\n\n{out}\n", arguments.join(" ")));
                }
            }
            snapshot::check(&format!("plots/{lifter} {name}"), &screens);
        }
    }
    let colour = ["estimate", "Back squat", "--lifter", "nerys", "--plot", "--color", "always"];
    snapshot::check("plots/colour", &run(&example(), 80, &[UTF8], &colour).replace('\u{1b}', "\\e"));
}

/// The first of the variables that is set and not empty says the characters; a dumb terminal and `--plain` have ASCII.
#[test]
fn the_locale_says_with_which_characters() {
    let plot = ["estimate", "Back squat", "--lifter", "anselm", "--plot"];
    let cases: [(&[(&str, &str)], bool); 8] = [
        (&[UTF8], false),
        (&[], true),
        (&[UTF8, ("LC_ALL", "C")], true),
        (&[UTF8, ("LC_ALL", "")], false),
        (&[("LANG", "C"), ("LC_CTYPE", "C.utf8")], false),
        (&[("LC_CTYPE", "C"), ("LC_ALL", "C.UTF-8")], false),
        (&[UTF8, ("TERM", "dumb")], true),
        (&[UTF8, ("TERM", "xterm")], false),
    ];
    for (variables, ascii) in cases {
        assert_eq!(run(&example(), 80, variables, &plot).is_ascii(), ascii, "{variables:?}");
    }
    assert!(run(&example(), 80, &[UTF8], &[&plot[..], &["--plain"]].concat()).is_ascii());
}

fn drawn(pages: &str, arguments: &[&str]) -> String {
    let journal = Journal::new().page(pages);
    run(journal.root(), 60, &[], arguments)
}

#[test]
fn a_journal_with_little_in_it() {
    let session = |lines: &str| format!("## 2026-11-20\n\n{lines}\n");
    let squat = ["estimate", "Back squat", "--plot"];
    let unrated = session("- Back squat: 5 @ 100 kg");
    assert!(drawn(&unrated, &squat).starts_with("Back squat: no estimate yet\n"));
    let one = drawn(&session("- Back squat: 5 @ 100 kg RPE 8"), &squat);
    assert!(one.contains('o') && one.contains(" Nov 2026"), "{one}");
    let outside = [&squat[..], &["--since", "2026-11-22"]].concat();
    assert!(drawn(&session("- Back squat: 5 @ 100 kg RPE 8"), &outside).contains("no day in that range"));
    let plank = drawn(&session("- Plank: 30s"), &["history", "Plank", "--plot"]);
    assert_eq!(plank, "Plank: no clean set of reps with a load that is a mass in\n  that range\n");
    assert_eq!(drawn("", &["volume", "--plot"]), "No work set in that range\n");
    let outside = drawn(&session("- Dip: 3x5"), &["volume", "--plot"]);
    assert!(outside.contains("3 sets in no block are not drawn"), "{outside}");
}

#[test]
fn the_day_is_shown_by_its_heaviest_clean_set_and_its_most_reps() {
    let page = "## 2026-11-20\n\n- Back squat: 3 @ 225 lb, 5 @ 225 lb, 12 @ 200 lb, 1 @ 245 lb !depth\n";
    let out = drawn(page, &["history", "Back squat", "--plot"]);
    let set = out.lines().find(|line| line.contains("225")).unwrap();
    assert!(set.ends_with('5') && out.lines().nth(1) == Some("   lb"), "{out}");
    assert!(!out.contains("245"), "{out}");
}

#[test]
fn added_loads_may_be_less_than_nothing() {
    let page = "## 2026-11-02\n\n- Pull-up: 8 @ bw - 20 kg\n\n## 2026-11-09\n\n- Pull-up: 3 @ bw + 10 kg\n";
    let out = drawn(page, &["history", "Pull-up", "--plot"]);
    assert!(out.starts_with("Pull-up: the heaviest clean set of 2 days, added to\n  bodyweight\n"), "{out}");
    assert!(out.contains("  -20 +8") && out.contains("   10 +"), "{out}");
}

/// A block's name can neither colour the screen nor move its columns.
#[test]
fn a_hostile_name_keeps_its_place() {
    let page = "# Block \u{1b}[31m\u{202e}筋肥大 ★ and a good deal more\n\n- starts: 2026-11-02\n- weeks: 1\n\n\
                ## 2026-11-03\n\n- Back squat: 5 @ 100 kg RPE 8\n\n# Block é\n\n- starts: 2026-11-09\n- weeks: 4\n\n\
                ## 2026-11-20\n\n- Back squat: 5 @ 102.5 kg RPE 8\n";
    let journal = Journal::new().page(page);
    for variables in [&[UTF8][..], &[]] {
        for arguments in [SCREENS[0], &["history", "Back squat", "--plot"], &["volume", "--plot"]] {
            let out = run(journal.root(), 60, variables, arguments);
            assert!(!out.contains(['\u{1b}', '\u{202e}']), "{out}");
            assert!(out.lines().all(|line| line.width() <= 60), "{out}");
            assert!(!variables.is_empty() || out.is_ascii(), "{out}");
            let names = out.lines().find(|line| line.starts_with("block")).unwrap();
            assert!(names.contains("~ "), "{out}");
        }
    }
}

/// Thirty years: the heaviest day of all is on the canvas, and so is the lightest.
#[test]
fn a_lifetime_keeps_its_extremes() {
    let start: NaiveDate = "1996-01-01".parse().unwrap();
    let days = (0..3000_u64).map(|at| Day {
        date: start.checked_add_days(Days::new(at * 3)).unwrap(),
        load: Mass::kg(match at {
            1234 => 300,
            2345 => 50,
            _ => 150 + (at % 7) as i64,
        }),
        reps: if at == 1234 || at == 2345 { 1 } else { 5 },
    });
    let answer = heaviest::Answer {
        lift: "Back squat".into(),
        unit: Unit::Kg,
        added: false,
        days: days.collect(),
        blocks: Vec::new(),
        meets: Vec::new(),
    };
    let out = paint(&Marks { answer, glyphs: Glyphs::Ascii }.draw(80), false);
    let singles: Vec<&str> = out
        .lines()
        .filter(|line| line.split('+').nth(1) == Some(line.split('+').next_back().unwrap()) && line.ends_with('1'))
        .collect();
    assert_eq!(singles.len(), 2, "{out}");
    assert!(singles[0].starts_with("  300 +") && singles[1].starts_with("   50 +"), "{out}");
}

fn lines(markup: &Typeset) -> Vec<String> {
    paint(markup, false).lines().map(str::to_owned).collect()
}

fn date(day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(1990, 1, 1).unwrap().checked_add_days(Days::new(day.into())).unwrap()
}

fn name() -> impl Strategy<Value = String> {
    prop_oneof!["\\PC{0,30}", "[0-9]{1,3}", Just("\u{1b}[2J\u{202e}筋肥大".to_owned())]
}

/// Dates in order, each with an estimate.
fn points() -> impl Strategy<Value = Vec<Point>> {
    let one = (1_u32..400, -60_000_i64..400_000, 0_i64..90_000);
    prop::collection::vec(one, 1..60).prop_map(|drawn| {
        let mut day = 0;
        let point = |(later, load, apart): (u32, i64, i64)| {
            day += later;
            let mass = |thousandths| Mass::of(thousandths, Unit::Kg);
            let estimate = Estimate { low: mass(load - apart), maximum: mass(load), high: mass(load + apart) };
            Point { date: date(day), block: None, estimate, alone: None }
        };
        drawn.into_iter().map(point).collect()
    })
}

fn spans(names: Vec<(u32, String)>) -> Vec<Span> {
    let mut day = 0;
    let span = |(days, name): (u32, String)| {
        let starts = date(day);
        day += days;
        let light = LightWeek { kind: LightKind::Deload, week: 1, starts, ends: starts + Days::new(6) };
        Span { name, starts, ends: None, light: vec![light] }
    };
    names.into_iter().map(span).collect()
}

fn meet(day: u32, title: String) -> MeetDay {
    let mark = Mark {
        date: date(day),
        block: None,
        week: None,
        day: None,
        sets: 1,
        amount: Amount::Reps(1),
        per_side: false,
        load: Weighed { load: Load::None, kilograms: None },
        effort: None,
        faults: Vec::new(),
        place: Place { page: "page.md".into(), line: 1 },
    };
    let lifted = Some(Lifted { mark, load: Mass::kg(i64::from(day % 300)) });
    MeetDay {
        kind: if day.is_multiple_of(2) { MeetKind::Meet } else { MeetKind::TestDay },
        title,
        date: date(day),
        lifted,
    }
}

fn glyphs() -> impl Strategy<Value = Glyphs> {
    prop_oneof![Just(Glyphs::Blocks), Just(Glyphs::Ascii)]
}

proptest! {
    /// No line is wider than the screen, and plain lines are ASCII, whatever the estimates and names.
    #[test]
    fn lines_over_dates_keep_to_the_screen(
        points in points(), names in prop::collection::vec((7_u32..60, name()), 0..60),
        meets in prop::collection::vec((0_u32..4000, name()), 0..9), screen in 24_usize..=160, glyphs in glyphs(),
    ) {
        let days = points.iter().map(|point| {
            Day { date: point.date, load: point.estimate.maximum, reps: point.date.day() }
        }).collect();
        let meets: Vec<MeetDay> = meets.into_iter().map(|(day, title)| meet(day, title)).collect();
        let course = course::Answer {
            lift: "Back squat".into(), equation: Equation::default(), curve: Curve::PUBLISHED, unit: Unit::Lb,
            added: false, points, blocks: spans(names), meets, graded: Vec::new(),
        };
        let heaviest = heaviest::Answer {
            lift: "Back squat".into(), unit: Unit::Kg, added: true, days, blocks: course.blocks.clone(),
            meets: course.meets.clone(),
        };
        let until = course.points[0].date;
        let drawn = [Line { course, ends: (until, until), glyphs }.draw(screen), Marks { answer: heaviest, glyphs }.draw(screen)];
        prop_assert!(drawn.iter().all(|drawn| lines(drawn).len() > 9));
        for line in drawn.iter().flat_map(lines) {
            prop_assert!(line.width() <= screen, "{}: {line}", line.width());
            prop_assert!(glyphs == Glyphs::Blocks || line.is_ascii(), "{line}");
        }
    }

    #[test]
    fn bars_and_columns_keep_to_the_screen(
        rows in prop::collection::vec((name(), 0.0..1e5f64, 0.0..=1.0f64), 1..200), screen in 24_usize..=160, glyphs in glyphs(),
    ) {
        let bar = |(name, whole, share): &(String, f64, f64)| {
            Bar { name: name.clone(), whole: *whole, part: whole * share, words: format!("{whole:.0}") }
        };
        let column = |(name, whole, share): &(String, f64, f64)| {
            Column { group: name.clone(), label: String::new(), whole: *whole, part: whole * share, so_far: false }
        };
        let columns = rows.iter().map(column).collect();
        let columns = Columns { title: String::new(), columns, unit: "kg", top: 0.0, told: Told::HighReps(8), glyphs };
        let bars = Bars { bars: rows.iter().map(bar).collect(), glyphs };
        for line in [bars.draw(screen), columns.draw(screen)].iter().flat_map(lines) {
            prop_assert!(line.width() <= screen, "{}: {line}", line.width());
            prop_assert!(glyphs == Glyphs::Blocks || line.is_ascii(), "{line}");
        }
    }
}
