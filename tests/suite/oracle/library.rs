//! The library on many journals.

use super::adherence;
use super::findings::{Findings, journals};
use super::shown::{Shown, lifts_of, since_of, sorted, taper_of, volume_of};
use super::witness::{Witness, sqlite};
use crate::support::generator;
use chrono::NaiveDate;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::problems::Severity;
use loadline::questions::{best, history, lifts, since, taper, volume};
use loadline::training::{BlockId, Distance, Family, LiftId};
use rusqlite::Connection;

/// Of the questions about best sets, each lift of a journal is asked one in so many.
const STRIDE: usize = 11;

/// The plain question of a lift's best sets.
pub(super) fn plain_best(lift: LiftId) -> best::Ask {
    best::Ask { lift, bound: None, exactly: false, sets: 1, with_faults: false, since: None, until: None, block: None }
}

/// Questions of a lift's best sets.
fn bests(lift: LiftId, middle: NaiveDate) -> Vec<best::Ask> {
    let mut asks = Vec::new();
    let bounds = [1, 3, 5, 8, 10, 12].map(best::Bound::Reps);
    for bound in bounds.into_iter().chain([best::Bound::Seconds(30), best::Bound::Metres(Distance::metres(20_000))]) {
        let plain = best::Ask { bound: Some(bound), ..plain_best(lift) };
        for sets in [1, 2, 3, 5] {
            asks.push(best::Ask { sets, ..plain.clone() });
        }
        for sets in [1, 3] {
            asks.push(best::Ask { sets, since: Some(middle), ..plain.clone() });
            asks.push(best::Ask { sets, until: Some(middle), with_faults: true, ..plain.clone() });
            asks.push(best::Ask { sets, block: Some(BlockId(0)), with_faults: true, ..plain.clone() });
        }
        asks.push(best::Ask { exactly: true, ..plain });
    }
    asks
}

pub(super) const ALL_BY: [volume::By; 6] =
    [volume::By::Week, volume::By::Block, volume::By::Lift, volume::By::Family, volume::By::Day, volume::By::Month];

/// Holds the answers on one journal against SQLite. Which of the many questions are asked of a lift goes
/// round with the seed; all of them are asked of some journals.
fn check(seed: u64, sql: &Connection, findings: &mut Findings) {
    let journal = generator::journal(seed);
    let Some(middle) = journal.rows.get(journal.rows.len() / 2).map(|row| row.date) else { return };
    let witness = Witness::new(sql, &journal);
    let files = journal.files.iter().fold(Memory::default(), |files, (path, text)| files.with(path, text.as_bytes()));
    let opened = open(&files);
    assert!(opened.problems.is_empty(), "seed {seed}: {:?}", opened.problems);
    let lifter = opened.lifter(None, None).unwrap();
    let reading = meaning::read(&files, lifter, opened.pages_of(lifter), Some(journal.today));
    for (page, problem) in &reading.problems {
        if problem.kind.severity() == Severity::Error {
            let path = reading.log.page_path(*page);
            let text = &journal.files.iter().find(|(known, _)| known == path).unwrap().1;
            let before = &text[..problem.span.start as usize];
            let line = text[before.rfind('\n').map_or(0, |at| at + 1)..].lines().next().unwrap_or("");
            findings.same("errors", &seed, format!("{path}: {:?}: {line}", problem.kind), String::new());
        }
    }
    findings.same("left out", &seed, reading.log.left_out, 0);
    let history = History::new(&reading.log, &lifter.book, journal.today);
    findings.same("lifts", &seed, sorted(lifts_of(&lifts::answer(&history))), sorted(witness.lifts()));
    let names = "SELECT DISTINCT lift FROM sets WHERE date <= ?1 ORDER BY id";
    let names = witness.all(names, &[&witness.today], |row| row.get::<_, String>(0));
    for (name, turn) in names.iter().zip(seed as usize..) {
        let Ok(lift) = history.find_lift(name) else {
            findings.same("names", &(seed, name), false, true);
            continue;
        };
        check_lift((seed, name, turn), (lift, middle), &history, &witness, findings);
    }
    adherence::check(seed, middle, &history, &witness, findings);
    let turn = seed as usize;
    let families = [since::Of::Main, since::Of::Family(Family::Squat), since::Of::Family(Family::VerticalPull)];
    for (of, reps) in families.into_iter().zip([None, Some(6), Some(12)].into_iter().cycle().skip(turn % 3)) {
        let ask = since::Ask { of, reps };
        findings.same("since", &(seed, &ask), since_of(&since::answer(&history, &ask)), witness.since(&ask, None));
    }
    for key in witness.training_weeks().into_iter().skip(turn % 3).step_by(3) {
        let answer = taper::answer(&history, &taper::Ask { block: Some(BlockId(key.0)), week: Some(key.1) });
        findings.same("taper", &(seed, key), taper_of(&answer), witness.taper(key));
    }
    for (by, turn) in ALL_BY.into_iter().zip(turn..) {
        let plain = volume::Ask { by, lift: None, family: None, block: None, since: None, until: None };
        let narrow = match turn % 3 {
            0 => volume::Ask { family: Some(Family::Squat), ..plain.clone() },
            1 => volume::Ask { block: Some(BlockId(0)), since: Some(middle), ..plain.clone() },
            _ => volume::Ask { until: Some(middle), ..plain.clone() },
        };
        for ask in [plain, narrow] {
            let answer = volume_of(&volume::answer(&history, &ask));
            findings.same("volume", &(seed, &ask), answer, witness.volume(&ask, None));
        }
    }
}

fn check_lift(
    of: (u64, &str, usize),
    (lift, middle): (LiftId, NaiveDate),
    history: &History<'_>,
    witness: &Witness<'_>,
    findings: &mut Findings,
) {
    let (_, name, turn) = of;
    let marks = history::answer(history, &history::Ask { lift, since: None, until: None });
    let marks: Vec<_> = marks
        .marks
        .iter()
        .map(|history::Planned { mark, .. }| (Shown::of_mark(mark), mark.faults.is_empty()))
        .collect();
    findings.same("history", &of, marks, witness.history(name));
    for ask in bests(lift, middle).into_iter().skip(turn % STRIDE).step_by(STRIDE) {
        let best::Found::One { bound, best: mark, .. } = best::answer(history, &ask).found else {
            panic!("one was asked for")
        };
        let expected = witness.best(name, &ask, bound).map(|best| best.mark);
        findings.same("best", &(of, &ask), mark.as_ref().map(|best| Shown::of_mark(&best.mark)), expected);
    }
    if turn.is_multiple_of(3) {
        let ask = best::Ask { with_faults: turn.is_multiple_of(2), ..plain_best(lift) };
        let best::Found::Table { rows, .. } = best::answer(history, &ask).found else {
            panic!("a table was asked for")
        };
        let rows: Vec<_> = rows.iter().map(|row| (row.reps, row.standing, Shown::of_mark(&row.best.mark))).collect();
        findings.same("table", &of, rows, witness.table(name, &ask));
    }
    let ask = since::Ask { of: since::Of::Lift(lift), reps: [None, Some(5)][turn % 2] };
    findings.same("since", &of, since_of(&since::answer(history, &ask)), witness.since(&ask, Some(name)));
    let by = ALL_BY[turn % ALL_BY.len()];
    let ask = volume::Ask { by, lift: Some(lift), family: None, block: None, since: None, until: None };
    findings.same("volume", &of, volume_of(&volume::answer(history, &ask)), witness.volume(&ask, Some(name)));
}

#[test]
fn every_answer_is_what_sqlite_makes_of_the_rows() {
    // Two threads, as the journals are many and small.
    std::thread::scope(|scope| {
        for odd in 0..2 {
            scope.spawn(move || {
                let (sql, mut findings) = (sqlite(), Findings::default());
                (0..journals()).filter(|seed| seed % 2 == odd).for_each(|seed| check(seed, &sql, &mut findings));
                findings.assert_none();
            });
        }
    });
}
