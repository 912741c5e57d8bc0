//! Plans in SQLite, and what was done held against them.
//!
//! The library pairs planned sets with sets that were done, one by one. SQLite pairs nothing: as many can be paired as the
//! tightest choice of planned groups allows (Hall's theorem in its deficiency form, Ore 1955: from memory, high confidence).
//! For each choice of a line's groups that is their number of sets outside the choice, and inside it the sets done that
//! reach any of them; the least of these sums is the answer.

use super::findings::Findings;
use super::shown::hundredths;
use super::witness::Witness;
use crate::support::generator::{Journal, METRE};
use chrono::NaiveDate;
use loadline::history::History;
use loadline::questions::adherence::{Answer, Ask, By, Line, Sums, answer};
use loadline::training::{BlockId, Distance};
use rusqlite::{Connection, Row, ToSql};
use serde_json::Value;

/// Puts work lines and their plans into the tables.
pub(super) fn insert(sql: &Connection, journal: &Journal) {
    let mut works = sql.prepare_cached("INSERT INTO works VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)").unwrap();
    for (id, work) in (0u32..).zip(&journal.works) {
        let (date, fate) = (work.date.to_string(), format!("{:?}", work.fate));
        let values: [&dyn ToSql; 13] = [
            &id,
            &work.session,
            &date,
            &work.block,
            &work.week,
            &work.light,
            &work.marked,
            &work.meet,
            &work.lift,
            &fate,
            &work.instead_of,
            &work.page,
            &work.line,
        ];
        works.execute(values).unwrap();
    }
    let places = ["?"; 18].join(", ");
    let mut plans = sql.prepare_cached(&format!("INSERT INTO plans VALUES ({places})")).unwrap();
    for plan in &journal.plans {
        let kind = format!("{:?}", plan.kind);
        let (reps, seconds, metres) = (plan.reps.unzip(), plan.seconds.unzip(), plan.metres.unzip());
        let (low, high) = plan.effort.unzip();
        let values: [&dyn ToSql; 18] = [
            &plan.work,
            &plan.run,
            &plan.fewest,
            &plan.most,
            &reps.0,
            &reps.1.flatten(),
            &seconds.0,
            &seconds.1.flatten(),
            &metres.0,
            &metres.1.flatten(),
            &plan.sides,
            &plan.mass,
            &kind,
            &plan.pin,
            &plan.added,
            &plan.load,
            &low,
            &high,
        ];
        plans.execute(values).unwrap();
    }
}

/// Plans of a session of which nothing is written go to the later one of the same label and week, or of the same day where
/// neither has a label, that has work and no plan. Each such session takes the plans of one, the earliest that waits.
pub(super) fn move_plans(sql: &Connection, today: &str) {
    let sessions = "SELECT id, date, block, week, lower(replace(day, ' ', '')),
            EXISTS (SELECT 1 FROM works w JOIN plans p ON p.work = w.id WHERE w.session = s.id),
            EXISTS (SELECT 1 FROM work w WHERE w.session = s.id),
            NOT EXISTS (SELECT 1 FROM works w WHERE w.session = s.id AND w.fate <> 'Nothing')
        FROM sessions s WHERE date <= ?1 AND meet IS NULL ORDER BY id";
    type Told = (u32, String, Option<u32>, Option<u32>, Option<String>, bool, bool, bool);
    let mut query = sql.prepare_cached(sessions).unwrap();
    let rows = query.query_map([today], |row| {
        let place: (u32, String, Option<u32>) = (row.get(0)?, row.get(1)?, row.get(2)?);
        Ok((place.0, place.1, place.2, row.get(3)?, row.get(4)?, row.get(5)?, row.get(6)?, row.get(7)?))
    });
    let rows: Vec<Told> = rows.unwrap().map(Result::unwrap).collect();
    let mut taken: Vec<u32> = Vec::new();
    for (id, date, block, week, label, planned, worked, _) in &rows {
        if *planned || !worked {
            continue;
        }
        let waits = |(other, day, of_block, of_week, of_label, planned, worked, nothing): &&Told| {
            let alike = (of_block, of_week, of_label) == (block, week, label);
            let known = if label.is_some() { block.is_some() } else { day == date };
            other < id && alike && known && *planned && !worked && *nothing && !taken.contains(other)
        };
        if let Some((from, ..)) = rows.iter().find(waits) {
            taken.push(*from);
            sql.execute("UPDATE works SET session = ?1, date = ?2 WHERE session = ?3", (id, date, from)).unwrap();
        }
    }
}

/// A planned line on which nothing is written, and the work of the same lift and session that has no plan and stands in for
/// nothing, are one line: the first of the work, where the first of the plans stands.
pub(super) const ONE_LINE: &str = "
    CREATE TEMP TABLE parts AS SELECT * FROM (SELECT id, session, lift, page, line,
        fate = 'Nothing' AND EXISTS (SELECT 1 FROM plans p WHERE p.work = w.id)
            AND NOT EXISTS (SELECT 1 FROM sets s WHERE s.work = w.id) AS planned,
        EXISTS (SELECT 1 FROM work s WHERE s.work = w.id) AND instead IS NULL
            AND NOT EXISTS (SELECT 1 FROM plans p WHERE p.work = w.id) AS worked FROM works w) WHERE planned OR worked;
    CREATE TEMP TABLE one AS SELECT p.id, p.planned, k.keep, k.plan FROM parts p JOIN (
        SELECT session, lift, MIN(CASE WHEN worked THEN id END) AS keep, MIN(CASE WHEN planned THEN id END) AS plan
        FROM parts GROUP BY session, lift) k ON k.session = p.session AND k.lift = p.lift
        JOIN works w ON w.id = p.id WHERE keep IS NOT NULL AND plan IS NOT NULL;
    UPDATE works SET (page, line) = (SELECT p.page, p.line FROM one o JOIN parts p ON p.id = o.plan WHERE o.id = works.id)
        WHERE id IN (SELECT keep FROM one);
    UPDATE works SET instead = (SELECT w.instead FROM one o JOIN works w ON w.id = o.id WHERE o.keep = works.id AND o.planned
        AND w.instead IS NOT NULL ORDER BY o.id LIMIT 1) WHERE id IN (SELECT keep FROM one);
    UPDATE sets SET work = (SELECT keep FROM one WHERE one.id = sets.work) WHERE work IN (SELECT id FROM one);
    CREATE TEMP TABLE runs AS SELECT p.rowid AS at, o.keep, ROW_NUMBER() OVER (PARTITION BY o.keep ORDER BY p.work, p.run) - 1 AS run
        FROM plans p JOIN one o ON o.id = p.work;
    UPDATE plans SET run = (SELECT r.run FROM runs r WHERE r.at = plans.rowid), work = (SELECT r.keep FROM runs r WHERE r.at = plans.rowid)
        WHERE rowid IN (SELECT at FROM runs);
    DELETE FROM works WHERE id IN (SELECT id FROM one WHERE id <> keep);
    DROP TABLE parts; DROP TABLE one; DROP TABLE runs;";

/// What became of each work line; `?1` is today. Then of each line the planned sets that were reached.
pub(super) const TOLD: &str = "
    told AS MATERIALIZED (SELECT w.*,
        EXISTS (SELECT 1 FROM plans p WHERE p.work = w.id) AS planned,
        (SELECT COUNT(*) FROM work s WHERE s.work = w.id) AS sets,
        fate IN ('Skipped', 'Nothing') AS open,
        fate IN ('Skipped', 'Nothing') AND date <= ?1 AND EXISTS (SELECT 1 FROM works o WHERE o.session = w.session
            AND o.id <> w.id AND o.instead = w.lift AND EXISTS (SELECT 1 FROM work s WHERE s.work = o.id)) AS swapped
        FROM works w WHERE session NOT IN (SELECT id FROM sessions WHERE meet IS NOT NULL)),
    due AS MATERIALIZED (SELECT *, date > ?1 OR date = ?1 AND fate = 'Nothing' AND NOT swapped AS coming FROM told
        WHERE (?2 IS NULL OR block = ?2) AND (?3 IS NULL OR date >= ?3) AND (?4 IS NULL OR date <= ?4)),
    reaches AS MATERIALIZED (SELECT p.work, p.run, s.id AS done,
        CASE WHEN p.kind = 'None' THEN NULL
             WHEN p.kind = 'Bodyweight' AND s.kind = 'Bodyweight' THEN MIN(MAX((s.added - p.added) / ?5, -1), 1)
             WHEN p.mass IS NOT NULL AND s.mass IS NOT NULL THEN MIN(MAX((s.mass - p.mass) / ?5, -1), 1)
             WHEN p.mass IS NOT NULL OR s.mass IS NOT NULL THEN NULL
             WHEN p.kind = 'Pin' AND s.kind = 'Pin' THEN (s.pin > p.pin OR s.pin = p.pin AND s.added > p.added)
                - (s.pin < p.pin OR s.pin = p.pin AND s.added < p.added)
             WHEN p.kind = 'Quote' AND s.kind = 'Quote' AND s.load = p.load THEN 0 END AS side,
        p.kind = 'None' AS free,
        COALESCE(s.reps >= p.reps, s.seconds >= p.seconds, s.metres >= p.metres, 0) AS enough
        FROM plans p JOIN work s ON s.work = p.work),
    choices AS (SELECT work, COUNT(*) AS n, 0 AS choice FROM plans GROUP BY work
        UNION ALL SELECT work, n, choice + 1 FROM choices WHERE choice + 1 < (1 << n)),
    bounds AS (SELECT work, (SELECT COALESCE(SUM(fewest), 0) FROM plans p WHERE p.work = c.work AND NOT (choice >> run) & 1)
        + (SELECT COUNT(DISTINCT done) FROM reaches r WHERE r.work = c.work AND (choice >> run) & 1
            AND enough AND (free OR side >= 0)) AS bound FROM choices c),
    reached AS MATERIALIZED (SELECT work, MIN(bound) AS reached FROM bounds GROUP BY work)";

/// The values of `?1` to `?5`.
struct Range<'w> {
    today: &'w str,
    block: Option<u32>,
    since: Option<String>,
    until: Option<String>,
    close: i64,
}

impl Range<'_> {
    fn values(&self) -> [&dyn ToSql; 5] {
        [&self.today, &self.block, &self.since, &self.until, &self.close]
    }
}

/// Numbers of a line or row: lines, skipped; sets planned, most, done, reached, swapped; then of reps, seconds and metres
/// planned, most, done.
fn numbers(row: &Row<'_>, from: usize) -> rusqlite::Result<String> {
    let number = |at: usize| row.get::<_, Option<i64>>(from + at);
    let whole: Vec<i64> = (0..7).map(|at| Ok(number(at)?.unwrap_or(0))).collect::<rusqlite::Result<_>>()?;
    let metres = |at: usize| Ok::<_, rusqlite::Error>(hundredths(number(at)?.unwrap_or(0), METRE));
    let reps = (number(7)?.unwrap_or(0), number(8)?, number(9)?.unwrap_or(0));
    let seconds = (number(10)?.unwrap_or(0), number(11)?.unwrap_or(0), number(12)?.unwrap_or(0));
    Ok(format!("{whole:?} {reps:?} {seconds:?} {:?}", (metres(13)?, metres(14)?, metres(15)?)))
}

fn numbers_of(sums: &Sums) -> String {
    let whole = [
        sums.lines,
        sums.skipped,
        sums.sets_planned,
        sums.sets_most,
        sums.sets_done,
        sums.sets_reached,
        sums.sets_swapped,
    ];
    let reps = (sums.reps.planned, sums.reps.most, sums.reps.done);
    let seconds = (sums.seconds.planned, sums.seconds.most.unwrap(), sums.seconds.done);
    let metres = [sums.metres.planned, sums.metres.most.unwrap(), sums.metres.done].map(Distance::rounded_metres);
    format!("{whole:?} {reps:?} {seconds:?} {:?}", (metres[0], metres[1], metres[2]))
}

/// Each planned line with its sums, in columns that [`numbers`] reads.
pub(super) const LINES: &str = "
    sums AS (SELECT d.id, d.session, d.block, d.week, d.lift, d.fate, d.swapped, d.page, d.line,
        NOT swapped AS lines, NOT swapped AND open AS skipped,
        CASE WHEN NOT swapped THEN SUM(p.fewest) END AS planned, CASE WHEN NOT swapped THEN SUM(p.most) END AS most,
        CASE WHEN NOT swapped THEN d.sets END AS done,
        CASE WHEN NOT swapped THEN (SELECT reached FROM reached r WHERE r.work = d.id) END AS reached,
        CASE WHEN swapped THEN SUM(p.fewest) END AS swapped_sets,
        CASE WHEN NOT swapped THEN SUM(p.fewest * p.reps * p.sides) END AS reps,
        CASE WHEN NOT swapped AND SUM(p.reps IS NOT NULL AND p.reps_most IS NULL) > 0 THEN NULL
             WHEN NOT swapped THEN COALESCE(SUM(p.most * p.reps_most * p.sides), 0) ELSE 0 END AS reps_most,
        CASE WHEN NOT swapped THEN SUM(p.fewest * p.seconds * p.sides) END AS seconds,
        CASE WHEN NOT swapped THEN SUM(p.most * p.seconds_most * p.sides) END AS seconds_most,
        CASE WHEN NOT swapped THEN SUM(p.fewest * p.metres * p.sides) END AS metres,
        CASE WHEN NOT swapped THEN SUM(p.most * p.metres_most * p.sides) END AS metres_most,
        (SELECT SUM(reps * sides) FROM work s WHERE s.work = d.id) AS reps_done,
        (SELECT SUM(seconds * sides) FROM work s WHERE s.work = d.id) AS seconds_done,
        (SELECT SUM(metres * sides) FROM work s WHERE s.work = d.id) AS metres_done
        FROM due d JOIN plans p ON p.work = d.id WHERE NOT coming GROUP BY d.id)";

const NUMBERS: &str = "SUM(lines), SUM(skipped), SUM(planned), SUM(most), SUM(done), SUM(reached), SUM(swapped_sets),
    SUM(reps), CASE WHEN SUM(reps_most IS NULL) = 0 THEN SUM(reps_most) END, SUM(reps_done), SUM(seconds), SUM(seconds_most),
    SUM(seconds_done), SUM(metres), SUM(metres_most), SUM(metres_done)";

impl Witness<'_> {
    /// Everything an answer lists, as lines of text.
    fn adherence(&self, by: By, range: &Range<'_>) -> Shown {
        let all = |query: &str, read: fn(&Row<'_>) -> rusqlite::Result<String>| {
            self.all(&format!("WITH RECURSIVE {TOLD}, {LINES} {query}"), &range.values(), read)
        };
        let rows = match by {
            By::Week => format!(
                "SELECT (SELECT name FROM blocks WHERE blocks.id = block), week, lift, {NUMBERS},
                    MIN(id) AS first, MIN(MIN(id)) OVER (PARTITION BY block, CASE WHEN block IS NOT NULL THEN week END) AS week_first
                 FROM sums GROUP BY block, CASE WHEN block IS NOT NULL THEN week END, lift ORDER BY week_first, first"
            ),
            By::Lift => format!("SELECT NULL, NULL, lift, {NUMBERS} FROM sums GROUP BY lift ORDER BY MIN(id)"),
        };
        Shown {
            rows: all(&rows, |row| {
                let (block, week): (Option<String>, Option<u32>) = (row.get(0)?, row.get(1)?);
                Ok(format!("{block:?} {week:?} {} {}", row.get::<_, String>(2)?, numbers(row, 3)?))
            }),
            lines: all(
                &format!(
                    "SELECT page, line, CASE WHEN swapped THEN 'Swapped' WHEN fate = 'Nothing' THEN 'Skipped' ELSE fate END,
                        {NUMBERS} FROM sums GROUP BY id ORDER BY id"
                ),
                |row| {
                    let (page, line, fate): (String, u32, String) = (row.get(0)?, row.get(1)?, row.get(2)?);
                    Ok(format!("{page}:{line} {fate} {}", numbers(row, 3)?))
                },
            ),
            // With one planned group and no more sets than it has room for, every set is paired with it.
            single: all(
                "SELECT page, line, (SELECT low FROM plans p WHERE p.work = d.id), (SELECT high FROM plans p WHERE p.work = d.id),
                    (SELECT MAX(effort) FROM work s WHERE s.work = d.id), COALESCE(SUM(side < 0 AND NOT free), 0),
                    COALESCE(SUM(side = 0 AND NOT free), 0), COALESCE(SUM(side > 0 AND NOT free), 0),
                    COALESCE(SUM(side IS NULL AND NOT free), 0)
                 FROM due d JOIN reaches r ON r.work = d.id WHERE NOT coming AND NOT swapped AND 1 = (SELECT COUNT(*) FROM plans p
                    WHERE p.work = d.id) AND sets <= (SELECT most FROM plans p WHERE p.work = d.id)
                 GROUP BY d.id ORDER BY d.id",
                |row| {
                    let (page, line): (String, u32) = (row.get(0)?, row.get(1)?);
                    let efforts: (Option<u32>, Option<u32>, Option<u32>) = (row.get(2)?, row.get(3)?, row.get(4)?);
                    let efforts = efforts.0.map(|low| (low, efforts.1.unwrap(), efforts.2));
                    let loads: [u32; 4] = [row.get(5)?, row.get(6)?, row.get(7)?, row.get(8)?];
                    Ok(format!("{page}:{line} {efforts:?} {loads:?}"))
                },
            ),
            listed: all(
                "SELECT 'skipped ' || page || ':' || line FROM due WHERE NOT coming AND NOT swapped AND open
                    AND (planned OR fate = 'Skipped')
                 UNION ALL SELECT 'added ' || page || ':' || line || ' ' || sets FROM due d WHERE date <= ?1 AND NOT open
                    AND NOT planned AND instead IS NULL AND sets > 0 AND EXISTS (SELECT 1 FROM told o WHERE o.planned
                    AND (o.session = d.session AND d.block IS NULL OR o.block = d.block AND o.week = d.week))
                 UNION ALL SELECT 'swapped ' || instead || ' by ' || lift || ' ' || date FROM due
                    WHERE date <= ?1 AND instead IS NOT NULL AND sets > 0
                 UNION ALL SELECT 'to come ' || COUNT(DISTINCT d.id) || ' ' || COALESCE(SUM(p.fewest), 0) FROM due d
                    JOIN plans p ON p.work = d.id WHERE coming",
                |row| row.get(0),
            ),
        }
        .sorted()
    }
}

/// An answer in one shape for SQLite and the library.
#[derive(Debug, PartialEq)]
struct Shown {
    rows: Vec<String>,
    lines: Vec<String>,
    single: Vec<String>,
    listed: Vec<String>,
}

impl Shown {
    fn sorted(mut self) -> Self {
        self.listed.sort_unstable();
        self
    }

    fn of(answer: &Answer, journal: &Journal) -> Self {
        let rows = answer
            .rows
            .iter()
            .map(|row| format!("{:?} {:?} {} {}", row.block, row.week, row.lift, numbers_of(&row.sums)));
        let place = |at: &loadline::questions::adherence::Where| at.place.to_string();
        let lines = answer.lines.iter();
        let lines = lines.map(|line| format!("{} {:?} {}", place(&line.at), line.fate, numbers_of(&line.sums)));
        // Which lines have one planned group is the generator's to say.
        let single = answer.lines.iter().filter(|line| {
            let here = |work: &crate::support::generator::WorkRow| {
                (&*work.page, work.line) == (&*line.at.place.page, line.at.place.line)
            };
            let work = journal.works.iter().position(here).unwrap() as u32;
            let plans = journal.plans.iter().filter(|plan| plan.work == work).count();
            plans == 1 && line.sums.sets_done > 0 && line.sums.sets_done <= line.sums.sets_most
        });
        let listed = answer.skipped.iter().map(|one| format!("skipped {}", place(&one.at)));
        let added = answer.added.iter().map(|one| format!("added {} {}", place(&one.at), one.sets));
        let swapped = answer.swapped.iter().map(|one| format!("swapped {} by {} {}", one.lift, one.by, one.at.date));
        let to_come = format!("to come {} {}", answer.to_come.lines, answer.to_come.sets);
        Shown {
            rows: rows.collect(),
            lines: lines.collect(),
            single: single.map(|line| format!("{} {}", place(&line.at), of_single(line))).collect(),
            listed: listed.chain(added).chain(swapped).chain([to_come]).collect(),
        }
        .sorted()
    }
}

/// The rows of the program's JSON, in the same shape.
fn rows_of_json(answer: &Value) -> Vec<String> {
    let row = |row: &Value| {
        let number = |key: &str| row[key].as_u64().unwrap();
        let whole = [
            "lines_planned",
            "lines_skipped",
            "sets_planned",
            "sets_most",
            "sets_done",
            "sets_reached",
            "sets_swapped",
        ];
        let total = |key: &str, part: &str| row[key][part].as_f64();
        let none = row["reps"].is_null();
        let reps =
            [total("reps", "planned"), total("reps", "most"), total("reps", "done")].map(|n| n.map(|n| n as u64));
        let reps = (reps[0].unwrap_or(0), if none { Some(0) } else { reps[1] }, reps[2].unwrap_or(0));
        let parts = ["planned", "most", "done"];
        let seconds = parts.map(|part| total("seconds", part).unwrap_or(0.0) as u64);
        let metres = parts.map(|part| total("metres", part).unwrap_or(0.0));
        format!(
            "{:?} {:?} {} {:?} {reps:?} {:?} {:?}",
            row["block"].as_str(),
            row["week"].as_u64(),
            row["lift"].as_str().unwrap(),
            whole.map(number),
            (seconds[0], seconds[1], seconds[2]),
            (metres[0], metres[1], metres[2])
        )
    };
    answer["rows"].as_array().unwrap().iter().map(row).collect()
}

/// Holds the program's `adherence --since 1990-01-01` against SQLite.
pub(super) fn check_json(seed: u64, answer: &Value, witness: &Witness<'_>, findings: &mut Findings) {
    let close = witness.close();
    let range = Range { today: &witness.today, block: None, since: Some("1990-01-01".into()), until: None, close };
    findings.same("adherence", &seed, rows_of_json(answer), witness.adherence(By::Week, &range).rows);
}

fn of_single(line: &Line) -> String {
    let quarters = |effort: loadline::training::Effort| effort.quarters();
    let effort = line.efforts.first();
    let effort = effort.map(|one| (quarters(one.planned.low), quarters(one.planned.high), one.done.map(quarters)));
    let loads = &line.sums.loads;
    format!("{effort:?} {:?}", [loads.lighter, loads.same, loads.heavier, loads.unknown])
}

/// Holds every plan of a journal against SQLite.
pub(super) fn check(
    seed: u64,
    middle: NaiveDate,
    history: &History<'_>,
    witness: &Witness<'_>,
    findings: &mut Findings,
) {
    let journal = witness.journal;
    let close = witness.close();
    let started = journal.blocks.iter().rposition(|block| block.starts <= journal.today).map(|at| at as u32);
    let everything = NaiveDate::from_ymd_opt(1990, 1, 1);
    let plain = Ask { by: By::Week, block: None, week: None, lift: None, since: None, until: None };
    let mut asks = vec![
        (plain.clone(), started),
        (Ask { since: everything, ..plain.clone() }, None),
        (Ask { by: By::Lift, since: everything, until: Some(middle), ..plain.clone() }, None),
    ];
    if !journal.blocks.is_empty() {
        asks.push((Ask { by: By::Lift, block: Some(BlockId(0)), since: Some(middle), ..plain }, Some(0)));
    }
    for (ask, block) in asks {
        let days = |day: Option<NaiveDate>| day.map(|day| day.to_string());
        let range = Range { today: &witness.today, block, since: days(ask.since), until: days(ask.until), close };
        let found = Shown::of(&answer(history, &ask), journal);
        findings.same("adherence", &(seed, &ask), found, witness.adherence(ask.by, &range));
    }
}
