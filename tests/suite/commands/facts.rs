//! `facts`: what sessions say of the lifter, small pages in, the whole answer out.

use crate::support::journal::Journal;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::questions::facts::{Answer, Ask, answer};
use loadline::training::BlockId;

const PAGE: &str = "# Block 1

- starts: 2026-03-02
- weeks: 1

## 2026-03-03

bodyweight: 82.5 kg
sleep: 7:30
duration: 75 min
pain: left knee 3/10

- Back squat: 3x5 @ 140 kg
- Leg curl: 3x10 @ pin 7
- Back squat: 8 @ 100 kg

## 2026-03-05

- Bench press: 3x5 @ 100 kg

# Block 2

- starts: 2026-03-09
- weeks: 1

## 2026-03-10

bodyweight: 181 lb
pain: Left Knee 1.5/10
pain: lower back 2/10

- Deadlift: 3x5 @ 180 kg
- Bench press: skipped (no time)
";

/// The answer of the questions alone, without a program around it.
fn of(page: &str, ask: Ask) -> Answer {
    let files = Memory::default().with("page.md", page.as_bytes()).with("journal.yaml", b"");
    let journal = open(&files);
    let lifter = journal.lifter(None, None).expect("a lifter");
    let reading = meaning::read(&files, lifter, journal.pages_of(lifter), None);
    let today = "2026-03-12".parse().expect("a date");
    answer(&History::new(&reading.log, &lifter.book, today), &ask)
}

#[test]
fn each_session_that_says_something_of_the_lifter_is_a_row() {
    let answer = of(PAGE, Ask::default());
    let rows: Vec<String> = answer
        .sessions
        .iter()
        .map(|facts| {
            let pains: Vec<String> =
                facts.pains.iter().map(|pain| format!("{} {}", pain.site, pain.of_ten.0)).collect();
            let kilograms = facts.bodyweight.map(|mass| mass.in_kilograms());
            format!(
                "{} {:?} {:?} {:?} {kilograms:.2?} {:?} {:?} {}",
                facts.date,
                facts.block.as_deref(),
                facts.week,
                facts.place.line,
                facts.sleep_minutes,
                facts.duration_minutes,
                pains.join(", ")
            )
        })
        .collect();
    // 181 lb are 82.10 kg: a pound is 0.45359237 kg (NIST Special Publication 811, appendix B.8).
    assert_eq!(
        rows,
        [
            "2026-03-03 Some(\"1\") Some(1) 6 Some(82.50) Some(450) Some(75) left knee 3",
            "2026-03-10 Some(\"2\") Some(1) 26 Some(82.10) None None Left Knee 1.5, lower back 2",
        ]
    );
}

/// A site is the same however its letters are written; what was skipped was not lifted, and a lift is named once.
#[test]
fn pain_is_told_by_where_it_was_with_what_was_lifted() {
    let sites: Vec<String> = of(PAGE, Ask::default())
        .sites
        .iter()
        .flat_map(|site| {
            site.days.iter().map(move |day| {
                format!(
                    "{}: {} {}/10 {} line {}",
                    site.site,
                    day.date,
                    day.of_ten.0,
                    day.lifts.join(", "),
                    day.place.line
                )
            })
        })
        .collect();
    assert_eq!(
        sites,
        [
            "Left Knee: 2026-03-10 1.5/10 Deadlift line 29",
            "Left Knee: 2026-03-03 3/10 Back squat, Leg curl line 11",
            "lower back: 2026-03-10 2/10 Deadlift line 30",
        ]
    );
}

#[test]
fn a_block_and_days_narrow_it() {
    let dates = |ask| of(PAGE, ask).sessions.iter().map(|facts| facts.date.to_string()).collect::<Vec<_>>();
    let day = |text: &str| text.parse().ok();
    assert_eq!(dates(Ask { block: Some(BlockId(0)), ..Ask::default() }), ["2026-03-03"]);
    assert_eq!(dates(Ask { since: day("2026-03-04"), ..Ask::default() }), ["2026-03-10"]);
    assert_eq!(dates(Ask { until: day("2026-03-04"), ..Ask::default() }), ["2026-03-03"]);
    assert!(of("## 2026-03-05\n\n- Bench press: 3x5 @ 100 kg\n", Ask::default()).sessions.is_empty());
}

#[test]
fn the_screen_has_the_last_of_each_then_rows_then_pain_by_site() {
    let screen = Journal::new().page(PAGE).run(&["facts", "--on", "2026-03-12"]);
    assert_eq!(
        screen,
        "bodyweight 82.1 kg, 0.4 kg down since 3 Mar; sleep 7:30 a night; sessions 1:15\n  long; pain on 2 days\n\n\
         date    bodyweight  sleep  session  pain\n\
         10 Mar     82.1 kg                  Left Knee 1.5/10, lower back 2/10\n\
         3 Mar      82.5 kg   7:30     1:15  left knee 3/10\n\n\
         Left Knee, 2 days\n\
         date    of 10  lifted that day       where\n\
         10 Mar    1.5  Deadlift              page.md:29\n\
         3 Mar       3  Back squat, Leg curl  page.md:11\n\n\
         lower back, 1 day\n\
         date    of 10  lifted that day  where\n\
         10 Mar      2  Deadlift         page.md:30\n"
    );
}

/// On a plot zero is at the foot where a number has one, and every plot has the same days.
#[test]
fn the_plots_are_over_the_same_days() {
    let screen = Journal::new().page(PAGE).run(&["facts", "--plot", "--on", "2026-03-12"]);
    let axes: Vec<&str> = screen.lines().filter(|line| line.contains("4 Mar 2026")).collect();
    assert_eq!(axes.len(), 1, "dates stand once, below the last: {screen}");
    assert!(screen.contains("pain of ten: Left Knee, lower back, /10\n") && screen.contains("\n    0 +"), "{screen}");
    let nothing = Journal::new().page("## 2026-03-05\n\n- Dip: 5\n").run(&["facts", "--plot", "--on", "2026-03-12"]);
    assert!(nothing.starts_with("nothing is written of bodyweight, sleep, duration or pain\n"), "{nothing}");
}
