//! The estimate over dates, held against what `estimate` says of the same dates.

use crate::support::journal::{Journal, example};
use chrono::NaiveDate;
use loadline::analysis::strength::course::{self, Answer, Curve, LightKind};
use loadline::history::{History, MeetKind};
use loadline::journal::{Disk, open};
use loadline::meaning;
use loadline::questions::estimate::{self, Ask, Estimate};
use loadline::science::Equation;
use loadline::training::{LiftId, Mass};
use std::path::Path;

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn with<T>(root: &Path, lifter: Option<&str>, today: &str, look: impl FnOnce(&History<'_>) -> T) -> T {
    let files = Disk::new(root);
    let journal = open(&files);
    let lifter = journal.lifter(lifter, None).unwrap();
    let reading = meaning::read(&files, lifter, journal.pages_of(lifter), None);
    look(&History::new(&reading.log, &lifter.book, day(today)))
}

fn course(history: &History<'_>, lift: LiftId, since: Option<&str>, until: Option<&str>) -> Answer {
    let ask = course::Ask { lift, equation: Equation::default(), since: since.map(day), until: until.map(day) };
    course::answer(history, &ask)
}

fn estimated(history: &History<'_>, lift: LiftId) -> estimate::Answer {
    estimate::answer(history, &Ask { lift, equation: Equation::default(), about: None, over: None })
}

/// Every lift of the example that bears an estimate.
fn lifts(history: &History<'_>) -> Vec<LiftId> {
    let all = (0..history.log.lifts.len()).map(|at| LiftId(u32::try_from(at).unwrap()));
    all.filter(|lift| estimated(history, *lift).estimate.is_some()).collect()
}

/// As long as no other lift lends its curve, a date says what `estimate --on` that date says: every second one is asked.
#[test]
fn a_date_says_what_estimate_says_on_that_day() {
    let mut held = 0;
    for lifter in ["anselm", "nerys"] {
        with(&example(), Some(lifter), "2026-09-10", |history| {
            for lift in lifts(history) {
                let course = course(history, lift, None, None);
                let lent = |curve: Curve| curve.family.is_some();
                for point in course.points.iter().step_by(2).filter(|_| !lent(course.curve)) {
                    let then = estimated(&history.as_of(point.date), lift);
                    if !lent(then.curve) {
                        assert_eq!(Some(point.estimate), then.estimate, "{} on {}", course.lift, point.date);
                        held += 1;
                    }
                }
            }
        });
    }
    assert!(held > 40, "{held} dates");
}

/// The last date says what `estimate` says on it, and the ends of the blocks what it says of them, whatever the curve:
/// of the current block, too, which the report draws beside the others.
#[test]
fn the_ends_of_blocks_are_those_of_estimate() {
    let (mut fitted, mut ends) = (0, 0);
    for lifter in ["anselm", "nerys"] {
        with(&example(), Some(lifter), "2026-11-25", |history| {
            for lift in lifts(history) {
                let course = course(history, lift, None, None);
                let on = |date: NaiveDate| course.points.iter().find(|point| point.date == date).unwrap().estimate;
                let last = course.points.last().unwrap();
                let then = estimated(&history.as_of(last.date), lift);
                if then.curve == course.curve {
                    assert_eq!(Some(last.estimate), then.estimate, "{}", course.lift);
                    fitted += u32::from(then.curve != Curve::PUBLISHED);
                }
                for end in estimated(history, lift).blocks {
                    assert_eq!(on(end.date), end.estimate, "{} at the end of {}", course.lift, end.block);
                    ends += 1;
                }
            }
        });
    }
    assert!(fitted > 5 && ends > 60, "{fitted} lifts with a curve of their own, {ends} ends");
}

#[test]
fn a_range_leaves_out_dates_and_changes_none() {
    with(&example(), Some("anselm"), "2026-11-25", |history| {
        let lift = history.find_lift("Back squat").unwrap();
        let whole = course(history, lift, None, None);
        let part = course(history, lift, Some("2026-09-01"), Some("2026-10-10"));
        let inside = |date: NaiveDate| day("2026-09-01") <= date && date <= day("2026-10-10");
        let expected: Vec<_> = whole.points.iter().filter(|point| inside(point.date)).cloned().collect();
        assert!(expected.len() > 3 && expected.len() < whole.points.len());
        assert_eq!(part.points, expected);
        assert_eq!(part.blocks.iter().map(|block| block.name.as_str()).collect::<Vec<_>>(), ["7", "8"]);
        assert!(course(history, lift, Some("2027-01-01"), None).blocks.is_empty());
    });
}

#[test]
fn blocks_light_weeks_test_days_and_meets_stand_on_the_axis() {
    let page = "# Block Harvest\n\n- starts: 2026-10-05\n- weeks: 4\n- deload: week 3\n- peak: week 4\n\n\
                ## 2026-10-06\n\n- Back squat: 5 @ 100 kg RPE 8\n\n\
                ## 2026-10-31 test day\n\n- Back squat: 1 @ 120 kg, 1 @ 130 kg !depth, 1x0 @ 140 kg miss 1\n\n\
                # Block Long\n\n- starts: 2026-11-09\n\n## 2026-11-10 meet Harbour Open\n\n- Bench press: 1 @ 80 kg\n\n\
                ## 2026-12-24 meet To come\n\n- Back squat:\n";
    with(Journal::new().page(page).root(), None, "2026-11-25", |history| {
        let course = course(history, history.find_lift("Back squat").unwrap(), None, None);
        let [harvest, long] = &course.blocks[..] else { panic!("{:?}", course.blocks) };
        assert_eq!((harvest.starts, harvest.ends), (day("2026-10-05"), Some(day("2026-11-01"))));
        assert_eq!((long.name.as_str(), long.ends), ("Long", None));
        let light: Vec<_> = harvest.light.iter().map(|week| (week.kind, week.starts, week.ends)).collect();
        let weeks = [
            (LightKind::Deload, day("2026-10-19"), day("2026-10-25")),
            (LightKind::Peak, day("2026-10-26"), day("2026-11-01")),
        ];
        assert_eq!(light, weeks);
        let meets: Vec<_> = course.meets.iter().map(|meet| (meet.kind, meet.title.as_str(), meet.date)).collect();
        let days =
            [(MeetKind::TestDay, "test day", day("2026-10-31")), (MeetKind::Meet, "Harbour Open", day("2026-11-10"))];
        assert_eq!(meets, days);
        // The heaviest without a fault; nothing where the lift was not done.
        assert_eq!(course.meets[0].lifted.as_ref().map(|lifted| lifted.load), Some(Mass::kg(120)));
        assert_eq!(course.meets[1].lifted, None);
    });
}

/// A day with a miss and no rated set is a date of its own, and says what `estimate` says on it.
#[test]
fn a_missed_attempt_makes_a_date() {
    let page = "# Block 1\n- starts: 2026-11-02\n- weeks: 4\n\n## 2026-11-03\n\n- Back squat: 5 @ 125 kg RPE 8\n\n\
                ## 2026-11-21\n\n- Back squat: 1 @ 140 kg, 1x0 @ 147.5 kg miss 1\n";
    with(Journal::new().page(page).root(), None, "2026-11-25", |history| {
        let lift = history.find_lift("Back squat").unwrap();
        let course = course(history, lift, None, None);
        let [first, last] = &course.points[..] else { panic!("{:?}", course.points) };
        assert_eq!((last.date, last.block.as_deref(), last.alone), (day("2026-11-21"), Some("1"), None));
        assert!(last.estimate.maximum < first.estimate.maximum);
        assert_eq!(Some(last.estimate), estimated(&history.as_of(last.date), lift).estimate);
        assert_eq!(estimated(&history.as_of(last.date), lift).blocks[0].estimate, last.estimate);
    });
}

/// The loads of `bw + 20 kg` are shown as 20 kg: by itself 100 kg x 5 at RPE 8 is 124.03 kg by Wathan as printed, less 80.
#[test]
fn a_bodyweight_lift_is_shown_as_what_is_added() {
    let page = "## 2026-11-20\n\nbodyweight: 80 kg\n- Pull-up: 5 @ bw + 20 kg RPE 8\n";
    with(Journal::new().page(page).root(), None, "2026-11-25", |history| {
        let course = course(history, history.find_lift("Pull-up").unwrap(), None, None);
        assert!(course.added);
        let Estimate { low, maximum, high } = course.points[0].estimate;
        assert_eq!(course.points[0].alone.map(|alone| alone.maximum.rounded_kg()), Some(44.03));
        assert!(low < maximum && maximum < high);
        assert_eq!(course.points[0].block, None);
    });
}

#[test]
fn without_evidence_there_is_no_date() {
    with(Journal::new().page("## 2026-11-20\n\n- Dip: 5\n").root(), None, "2026-11-25", |history| {
        let course = course(history, history.find_lift("Dip").unwrap(), None, None);
        assert!(course.points.is_empty() && course.blocks.is_empty() && course.meets.is_empty());
    });
}

/// What is said beside a line is what `estimate` says: of lifts in use, of those long left alone, and of those whose loads
/// are never one number.
#[test]
fn what_is_said_in_brief_is_the_estimate() {
    let of_long_ago = "## 2020-01-06\n\n- Front squat: 3x5 @ 100 kg RPE 8\n- Pull-up: 3x5 @ bw + 10 kg RPE 8\n- bodyweight: 80 kg\n\n\
                       ## 2020-01-08\n\n- Front squat: 3x5 @ bar + 2x40 kg/side RPE 8\n- Pull-up: 3x5 @ bw + 12 kg RPE 8\n\n\
                       ## 2025-06-02\n\n- Front squat: 3x5 @ bar + 2x40 kg/side\n- Split squat: 3x5 @ 40 lb RPE 9\n\n\
                       ## 2025-07-02\n\n- Front squat: 3x5 @ 105 kg\n- Split squat: 2x5 @ bar + 2x20 kg/side RPE 9\n";
    let journal = Journal::new().page(of_long_ago);
    let grown = crate::support::generator::lifetime(3, 11);
    let folder = grown.files.iter().fold(Journal::new(), |folder, (path, text)| folder.file(path, text));
    let generated = ["1996-05-01", "1997-03-10", "1998-12-20", "1999-08-01", "2001-02-01", "2004-01-01"];
    let written = ["2020-01-07", "2020-02-01", "2021-12-20", "2022-02-01", "2025-06-30", "2025-07-02", "2028-01-01"];
    let example_days = ["2026-08-03", "2026-10-01", "2026-11-25", "2028-09-30", "2029-09-30"];
    let (mut lifts, mut estimates) = (0, 0);
    for (root, days) in
        [(journal.root(), &written[..]), (folder.root(), &generated[..]), (&*example(), &example_days[..])]
    {
        let lifter = (root == example()).then_some("nerys");
        for today in days {
            with(root, lifter, today, |history| {
                for lift in (0..history.log.lifts.len()).map(|at| LiftId(u32::try_from(at).unwrap())) {
                    let (whole, brief) = (estimated(history, lift), estimate::brief(history, lift));
                    let name = history.log.lift_name(lift);
                    assert_eq!((brief.estimate, brief.unit), (whole.estimate, whole.unit), "{name} on {today}");
                    lifts += 1;
                    estimates += u32::from(brief.estimate.is_some());
                }
            });
        }
    }
    assert!(lifts > 150 && estimates > 60, "{lifts} lifts, {estimates} estimates");
}
