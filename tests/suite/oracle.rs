//! An independent witness: the rows of generated journals in SQLite, the questions asked there in SQL as
//! `docs/answers.md` puts them, and every answer of the program held against that.
//!
//! Nothing of the program's reader or index is on SQLite's side. A disagreement is a fault of one of the
//! two, so nothing here is rounded before it is compared but where the contract says so.

use crate::support::generator::{self, Journal, KG, METRE};
use crate::support::run;
use crate::support::snapshot::difference;
use chrono::NaiveDate;
use loadline::history::{History, Mark};
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::problems::Severity;
use loadline::questions::{best, history, lifts, since, volume};
use loadline::training::{Amount, BlockId, Distance, Effort, Family, LiftId};
use rusqlite::{Connection, Row, ToSql, params_from_iter};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::Debug;

/// How many journals are looked at.
const SEEDS: u64 = 200;
/// Of the questions about best sets, each lift of a journal is asked one in so many.
const STRIDE: usize = 11;

const TABLES: &str = "
    CREATE TABLE sets (id INTEGER PRIMARY KEY, session INT, date TEXT, block INT, week INT, light INT, day TEXT, lift TEXT,
        family TEXT, reps INT, seconds INT, metres INT, sides INT, mass INT, kind TEXT, pin INT, added INT, load TEXT,
        approximate INT, effort INT, clean INT, grp INT, page TEXT, line INT);
    CREATE TABLE blocks (id INTEGER PRIMARY KEY, name TEXT, starts TEXT, ends TEXT);
    CREATE INDEX by_lift ON sets (lift);
    CREATE VIEW work AS SELECT * FROM sets WHERE reps > 0 OR seconds > 0 OR metres > 0;";

/// An empty database.
fn sqlite() -> Connection {
    let sql = Connection::open_in_memory().unwrap();
    sql.set_prepared_statement_cache_capacity(200);
    sql.execute_batch(TABLES).unwrap();
    sql
}

/// A journal's rows in SQLite.
struct Witness<'j> {
    journal: &'j Journal,
    today: String,
    sql: &'j Connection,
}

impl<'j> Witness<'j> {
    fn new(sql: &'j Connection, journal: &'j Journal) -> Self {
        sql.execute_batch("BEGIN; DELETE FROM sets; DELETE FROM blocks").unwrap();
        for (id, block) in (0u32..).zip(&journal.blocks) {
            let ends = block.ends.map(|ends| ends.to_string());
            sql.execute("INSERT INTO blocks VALUES (?, ?, ?, ?)", (id, &block.name, block.starts.to_string(), ends))
                .unwrap();
        }
        let places = ["?"; 24].join(", ");
        let mut insert = sql.prepare_cached(&format!("INSERT INTO sets VALUES ({places})")).unwrap();
        for (id, row) in (0u32..).zip(&journal.rows) {
            let (date, kind) = (row.date.to_string(), format!("{:?}", row.kind));
            let values: [&dyn ToSql; 24] = [
                &id,
                &row.session,
                &date,
                &row.block,
                &row.week,
                &row.light,
                &row.day,
                &row.lift,
                &row.family,
                &row.reps,
                &row.seconds,
                &row.metres,
                &row.sides,
                &row.mass,
                &kind,
                &row.pin,
                &row.added,
                &row.load,
                &row.approximate,
                &row.effort,
                &row.clean,
                &row.group,
                &row.page,
                &row.line,
            ];
            insert.execute(values).unwrap();
        }
        drop(insert);
        sql.execute_batch("COMMIT").unwrap();
        Witness { journal, today: journal.today.to_string(), sql }
    }

    fn all<T>(&self, query: &str, values: &[&dyn ToSql], read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>) -> Vec<T> {
        let mut query = self.sql.prepare_cached(query).unwrap();
        query.query_map(params_from_iter(values), read).unwrap().map(Result::unwrap).collect()
    }
}

/// What a mark says, as one line: the same for a row of SQLite, a value of the library, and JSON.
#[derive(Clone, Debug, Default, PartialEq)]
struct Shown {
    date: String,
    block: Option<String>,
    week: Option<u32>,
    day: Option<String>,
    sets: u32,
    reps: Option<u32>,
    seconds: Option<u32>,
    metres: Option<f64>,
    per_side: bool,
    load: Option<String>,
    kilograms: Option<f64>,
    approximate: bool,
    effort: Option<f64>,
    page: String,
    line: u32,
}

/// A block's name and start, weeks with work, high-rep weeks, sets, and high-rep sets.
type BlockShown = (String, String, u32, u32, u32, u32);

/// What `since` says.
#[derive(Clone, Debug, PartialEq)]
struct SinceShown {
    reps: u32,
    block: Option<String>,
    blocks_since: Option<u32>,
    last_high: Option<String>,
    last_set: Option<Shown>,
    weeks: Option<i64>,
    rows: Vec<BlockShown>,
    high: Vec<bool>,
}

/// The columns that [`Shown::of_row`] reads, of a subquery with `n` sets and effort `most`.
const MARK: &str =
    "date, (SELECT name FROM blocks WHERE blocks.id = block), week, day, n, reps, seconds, metres, sides,
    load, mass, approximate, most, page, line";

impl Shown {
    fn of_row(row: &Row<'_>) -> rusqlite::Result<Self> {
        Ok(Shown {
            date: row.get(0)?,
            block: row.get(1)?,
            week: row.get(2)?,
            day: row.get(3)?,
            sets: row.get(4)?,
            reps: row.get(5)?,
            seconds: row.get(6)?,
            metres: row.get::<_, Option<i64>>(7)?.map(|metres| hundredths(metres, METRE)),
            per_side: row.get::<_, u32>(8)? == 2,
            load: row.get(9)?,
            kilograms: row.get::<_, Option<i64>>(10)?.map(|mass| hundredths(mass, KG)),
            approximate: row.get(11)?,
            effort: row.get::<_, Option<f64>>(12)?.map(|quarters| quarters / 4.0),
            page: row.get(13)?,
            line: row.get(14)?,
        })
    }

    fn of_mark(mark: &Mark) -> Self {
        let mut shown = Shown {
            date: mark.date.to_string(),
            block: mark.block.clone(),
            week: mark.week,
            day: mark.day.clone(),
            sets: mark.sets,
            per_side: mark.per_side,
            load: mark.load.text(),
            kilograms: mark.kilograms.map(|mass| mass.rounded_kg()),
            approximate: mark.load.is_approximate(),
            effort: mark.effort.map(Effort::value),
            page: mark.page.clone(),
            line: mark.line,
            ..Shown::default()
        };
        match mark.amount {
            Amount::Reps(reps) => shown.reps = Some(reps),
            Amount::Seconds(seconds) => shown.seconds = Some(seconds),
            Amount::Metres(metres) => shown.metres = Some(metres.rounded_metres()),
        }
        shown
    }

    fn of_json(mark: &Value) -> Self {
        let text = |value: &Value| value.as_str().map(str::to_owned);
        let number = |key: &str| mark[key].as_u64().map(|number| number as u32);
        Shown {
            date: text(&mark["date"]).unwrap(),
            block: text(&mark["block"]),
            week: number("week"),
            day: text(&mark["day"]),
            sets: number("sets").unwrap(),
            reps: number("reps"),
            seconds: number("seconds"),
            metres: mark["metres"].as_f64(),
            per_side: mark["per_side"].as_bool().unwrap(),
            load: text(&mark["load"]["text"]),
            kilograms: mark["load"]["kg"].as_f64(),
            approximate: mark["load"]["approximate"].as_bool().unwrap_or(false),
            effort: mark["effort"].as_f64(),
            page: text(&mark["page"]).unwrap(),
            line: number("line").unwrap(),
        }
    }
}

/// A number of the rows' unit to the nearest hundredth, half away from zero.
fn hundredths(number: i64, unit: i64) -> f64 {
    ((number + unit / 200) / (unit / 100)) as f64 / 100.0
}

/// Where the program and SQLite disagree. All are gathered, so that one fault does not hide another.
#[derive(Default)]
struct Findings(BTreeMap<&'static str, (u32, String)>);

impl Findings {
    /// Notes an answer that is not the witness's; the first one of each question is kept whole.
    fn same<T: Debug + PartialEq>(&mut self, question: &'static str, of: &dyn Debug, program: T, witness: T) {
        if program != witness {
            let (program, witness) = (format!("{program:#?}"), format!("{witness:#?}"));
            let first = || (0, format!("{of:?}\n{}", difference(&witness, &program)));
            self.0.entry(question).or_insert_with(first).0 += 1;
        }
    }

    fn assert_none(&self) {
        let all: Vec<String> =
            self.0.iter().map(|(question, (count, text))| format!("{count} x {question}: {text}\n")).collect();
        assert!(all.is_empty(), "{}", all.join("\n"));
    }
}

/// The best of some sets: its mark, and what it is ranked by.
#[derive(Clone, Debug)]
struct Best {
    mark: Shown,
    class: u32,
    rank: (i64, i64),
    mass: Option<i64>,
    /// Of loads that contain the lifter's own weight.
    added: Option<i64>,
}

impl Witness<'_> {
    /// The sets that qualify, each with its class and rank. Loads that all contain the lifter's own weight
    /// are ranked by what is added; else by kilograms.
    fn qualifying(ask: &best::Ask) -> String {
        let amount = match ask.bound {
            Some(best::Bound::Seconds(_)) => "seconds",
            Some(best::Bound::Metres(_)) => "metres",
            _ => "reps",
        };
        format!(
            "WITH q AS (SELECT *, {amount} AS amount FROM work WHERE lift = ?1 AND date <= ?2 AND {amount} >= ?3
                AND ({amount} = ?3 OR NOT ?4) AND (clean OR ?5) AND date >= ?6 AND date <= ?7 AND (?8 IS NULL OR block = ?8)),
            own AS (SELECT COUNT(*) > 0 AND COUNT(*) = SUM(kind = 'Bodyweight') AS only FROM q),
            r AS (SELECT *,
                CASE WHEN only OR mass IS NOT NULL THEN 0 WHEN kind = 'Pin' THEN 1 WHEN kind = 'Quote' THEN 2 ELSE 3 END AS class,
                CASE WHEN only THEN added WHEN mass IS NOT NULL THEN mass WHEN kind = 'Pin' THEN pin ELSE 0 END AS rank,
                CASE WHEN kind = 'Pin' THEN added ELSE 0 END AS more
                FROM q, own)"
        )
    }

    /// A session's sets in the order that `--sets` takes them in, and one candidate a session and class.
    fn best(&self, name: &str, ask: &best::Ask, bound: best::Bound) -> Option<Best> {
        let qualifying = Self::qualifying(&best::Ask { bound: Some(bound), ..ask.clone() });
        let candidates = if ask.sets > 1 {
            "o AS (SELECT *, ROW_NUMBER() OVER taken AS nth, MIN(amount) OVER taken AS fewest, MAX(effort) OVER taken AS most,
                COUNT(*) OVER (PARTITION BY session, class ORDER BY rank DESC, more DESC) AS n FROM r
                WINDOW taken AS (PARTITION BY session, class ORDER BY rank DESC, more DESC, amount DESC, id ROWS UNBOUNDED PRECEDING)),
             c AS (SELECT date, block, week, day, sides, load, mass, approximate, page, line, class, rank, more, kind, added, id,
                n, most, fewest AS amount, CASE WHEN reps > 0 THEN fewest END AS reps,
                CASE WHEN seconds > 0 THEN fewest END AS seconds, CASE WHEN metres > 0 THEN fewest END AS metres
                FROM o WHERE nth = ?9)"
        } else {
            "c AS (SELECT *, COUNT(*) AS n, MAX(effort) AS most, MIN(id) FROM r WHERE ?9 = 1 GROUP BY grp, amount)"
        };
        let query = format!(
            "{qualifying}, {candidates}
             SELECT {MARK}, class, rank, more, CASE WHEN kind = 'Bodyweight' THEN added END FROM c
             WHERE class = (SELECT MIN(class) FROM c)
             ORDER BY rank DESC, more DESC, amount DESC, n DESC, most IS NULL, most, date, page, line, id LIMIT 1"
        );
        let least = match bound {
            best::Bound::Reps(least) | best::Bound::Seconds(least) => i64::from(least),
            best::Bound::Metres(_) => 20 * METRE,
        };
        let since = ask.since.map_or("0000".to_owned(), |date| date.to_string());
        let until = ask.until.map_or("9999".to_owned(), |date| date.to_string());
        let block = ask.block.map(|BlockId(at)| at);
        let values: [&dyn ToSql; 9] =
            [&name, &self.today, &least, &ask.exactly, &ask.with_faults, &since, &until, &block, &ask.sets];
        let found = self.all(&query, &values, |row| {
            Ok(Best {
                mark: Shown::of_row(row)?,
                mass: row.get(10)?,
                class: row.get(15)?,
                rank: (row.get(16)?, row.get(17)?),
                added: row.get(18)?,
            })
        });
        found.into_iter().next()
    }

    /// The rows of the table: at least so many reps, whether it stands, the mark.
    fn table(&self, name: &str, ask: &best::Ask) -> Vec<(u32, bool, Shown)> {
        let most = self.all(
            "SELECT MAX(reps) FROM work WHERE lift = ?1 AND date <= ?2 AND (clean OR ?3)",
            &[&name, &self.today, &ask.with_faults],
            |row| row.get::<_, Option<u32>>(0),
        );
        let most = most[0].unwrap_or(0);
        let rows: Vec<(u32, Best)> =
            (1..=most).filter_map(|reps| Some((reps, self.best(name, ask, best::Bound::Reps(reps))?))).collect();
        let close = (self.journal.step / 2).max(KG);
        let no_lighter = |later: i64, row: i64| later >= row || row - later < close;
        let beaten = |row: &Best, later: &Best| {
            if row.class != later.class {
                return false;
            }
            match (row.added, later.added, row.mass, later.mass) {
                (Some(row), Some(later), ..) => no_lighter(later, row),
                (_, _, Some(row), Some(later)) => no_lighter(later, row),
                _ if row.class == 2 => row.mark.load == later.mark.load,
                _ => later.rank >= row.rank,
            }
        };
        rows.iter()
            .enumerate()
            .map(|(at, (reps, best))| {
                let standing = !rows[at + 1..].iter().any(|(_, later)| beaten(best, later));
                (*reps, standing, best.mark.clone())
            })
            .collect()
    }

    fn volume(&self, ask: &volume::Ask, lift: Option<&str>) -> Vec<String> {
        let key = match ask.by {
            volume::By::Week => "block || '/' || week",
            volume::By::Block => "block",
            volume::By::Lift => "lift",
            volume::By::Family => "family",
            volume::By::Day => "lower(replace(day, ' ', ''))",
            volume::By::Month => "substr(date, 1, 7)",
        };
        let shown = match ask.by {
            volume::By::Week => "NULL",
            volume::By::Block => "(SELECT name FROM blocks WHERE blocks.id = block)",
            volume::By::Day => "day",
            _ => key,
        };
        let in_week = matches!(ask.by, volume::By::Week);
        let query = format!(
            "SELECT MIN(id), {shown}, CASE WHEN ?1 THEN (SELECT name FROM blocks WHERE blocks.id = block) END,
                CASE WHEN ?1 AND block IS NOT NULL THEN week END, COUNT(DISTINCT session), COUNT(*), COALESCE(SUM(reps * sides), 0),
                COALESCE(SUM(CASE WHEN kind = 'Mass' THEN mass * reps * sides END), 0),
                COALESCE(SUM(CASE WHEN kind = 'Mass' THEN reps * sides END), 0),
                COALESCE(SUM(CASE WHEN kind = 'Bodyweight' THEN mass * reps * sides END), 0),
                COALESCE(SUM(kind = 'Bodyweight' AND mass IS NULL AND reps > 0), 0), COALESCE(SUM(seconds * sides), 0),
                COALESCE(SUM(metres * sides), 0), COALESCE(SUM(reps >= ?2), 0), COUNT(effort), COALESCE(SUM(effort), 0)
             FROM work WHERE date <= ?3 AND (?4 IS NULL OR lift = ?4) AND (?5 IS NULL OR family = ?5)
                AND (?6 IS NULL OR block = ?6) AND (?7 IS NULL OR date >= ?7) AND (?8 IS NULL OR date <= ?8)
             GROUP BY {key} ORDER BY MIN(id)"
        );
        let family = ask.family.map(Family::word);
        let (since, until) = (ask.since.map(|date| date.to_string()), ask.until.map(|date| date.to_string()));
        let block = ask.block.map(|BlockId(at)| at);
        let values: [&dyn ToSql; 8] =
            [&in_week, &self.journal.high_reps, &self.today, &lift, &family, &block, &since, &until];
        self.all(&query, &values, |row| {
            let (kilograms, reps): (i64, i64) = (row.get(7)?, row.get(8)?);
            let (efforts, quarters): (u32, u32) = (row.get(14)?, row.get(15)?);
            Ok(volume_row(
                (row.get(1)?, row.get(2)?, row.get(3)?),
                (row.get(4)?, row.get(5)?, row.get(6)?),
                hundredths(kilograms, KG),
                (row.get::<_, u32>(10)? == 0).then_some(hundredths(row.get(9)?, KG)),
                (reps > 0).then(|| hundredths(kilograms / reps, KG)),
                (row.get(11)?, hundredths(row.get(12)?, METRE), row.get(13)?),
                (efforts > 0).then(|| f64::from(quarters) / 4.0 / f64::from(efforts)),
                row.get::<_, u32>(5)? - efforts,
            ))
        })
    }

    fn since(&self, ask: &since::Ask, lift: Option<&str>) -> SinceShown {
        let counted = match ask.of {
            since::Of::Main => {
                "family IN ('squat', 'hinge', 'horizontal press', 'vertical press') AND mass IS NOT NULL"
            }
            since::Of::Lift(_) => "lift = ?3",
            since::Of::Family(_) => "family = ?3",
        };
        let named = match ask.of {
            since::Of::Family(family) => Some(family.word()),
            _ => lift,
        };
        let bound = ask.reps.unwrap_or(self.journal.high_reps);
        let values: [&dyn ToSql; 3] = [&self.today, &bound, &named];
        let rows = self.all(
            &format!(
                "WITH w AS (SELECT block, week, COUNT(*) AS n, SUM(reps >= ?2) AS high FROM work
                    WHERE reps > 0 AND NOT light AND block IS NOT NULL AND date <= ?1 AND {counted} AND (?3 IS NULL OR ?3 = ?3)
                    GROUP BY block, week)
                 SELECT name, starts, COUNT(week), COALESCE(SUM(2 * high >= n), 0), COALESCE(SUM(n), 0), COALESCE(SUM(high), 0)
                 FROM blocks LEFT JOIN w ON w.block = blocks.id WHERE starts <= ?1 GROUP BY blocks.id ORDER BY starts"
            ),
            &values,
            |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?, row.get(5)?)),
        );
        let rows: Vec<BlockShown> = rows;
        let is_high = |row: &BlockShown| row.2 > 0 && 2 * row.3 >= row.2;
        let now = self.all(
            "SELECT name FROM blocks WHERE starts <= ?1 AND (ends IS NULL OR ends >= ?1) ORDER BY starts DESC LIMIT 1",
            &[&self.today],
            |row| row.get::<_, String>(0),
        );
        let now = now.into_iter().next();
        let last_high = rows.iter().rposition(is_high);
        let current = match &now {
            Some(name) => rows.iter().position(|row| row.0 == *name).unwrap(),
            None => rows.len().saturating_sub(1),
        };
        // The last high-rep set, and those of its group that are alike.
        let last = self.all(
            &format!(
                "WITH h AS (SELECT * FROM work WHERE reps >= ?2 AND date <= ?1 AND {counted} AND (?3 IS NULL OR ?3 = ?3)),
                 l AS (SELECT * FROM h ORDER BY id DESC LIMIT 1),
                 m AS (SELECT l.*, (SELECT COUNT(*) FROM h WHERE h.grp = l.grp AND h.reps = l.reps) AS n,
                    (SELECT MAX(effort) FROM h WHERE h.grp = l.grp AND h.reps = l.reps) AS most FROM l)
                 SELECT {MARK}, CAST((julianday(?1) - julianday(date)) / 7 AS INT) FROM m"
            ),
            &values,
            |row| Ok((Shown::of_row(row)?, row.get::<_, i64>(15)?)),
        );
        let last = last.into_iter().next();
        let (last_set, weeks) = last.unzip();
        SinceShown {
            reps: bound,
            blocks_since: last_high.map(|at| current.saturating_sub(at) as u32),
            last_high: last_high.map(|at| rows[at].0.clone()),
            last_set,
            weeks,
            high: rows.iter().map(is_high).collect(),
            block: now,
            rows,
        }
    }

    fn lifts(&self) -> Vec<String> {
        self.all(
            "SELECT lift, family, MIN(date), MAX(date), COUNT(DISTINCT session), COUNT(*) FROM work WHERE date <= ?1 GROUP BY lift",
            &[&self.today],
            |row| {
                let (sessions, sets): (u32, u32) = (row.get(4)?, row.get(5)?);
                let texts: [String; 4] = [row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?];
                Ok(format!("{} {sessions} {sets}", texts.join(" ")))
            },
        )
    }

    /// Every mark of a lift, faulted ones and attempts too; whether all its sets are clean.
    fn history(&self, name: &str) -> Vec<(Shown, bool)> {
        let query = format!(
            "WITH m AS (SELECT *, COUNT(*) AS n, MAX(effort) AS most, MIN(clean) AS pure, MIN(id) AS first FROM sets
                WHERE lift = ?1 AND date <= ?2 GROUP BY grp, reps, seconds, metres)
             SELECT {MARK}, pure FROM m ORDER BY first"
        );
        self.all(&query, &[&name, &self.today], |row| Ok((Shown::of_row(row)?, row.get(15)?)))
    }
}

type Names = (Option<String>, Option<String>, Option<u32>);

#[allow(clippy::too_many_arguments)]
fn volume_row(
    names: Names,
    sessions_sets_reps: (u32, u32, i64),
    tonnage: f64,
    bodyweight_tonnage: Option<f64>,
    average: Option<f64>,
    seconds_metres_high: (i64, f64, u32),
    effort: Option<f64>,
    without_effort: u32,
) -> String {
    // Efforts are compared to the hundredth, as JSON has them.
    let effort = effort.map(|effort| (effort * 100.0).round() / 100.0);
    format!(
        "{names:?} {sessions_sets_reps:?} {tonnage} {bodyweight_tonnage:?} {average:?} {seconds_metres_high:?} {effort:?} {without_effort}"
    )
}

fn volume_of(answer: &volume::Answer) -> Vec<String> {
    let row = |row: &volume::Row| {
        volume_row(
            (row.key.clone(), row.block.clone(), row.week),
            (row.sessions, row.sets, row.reps as i64),
            row.tonnage.rounded_kg(),
            (row.without_bodyweight == 0).then(|| row.bodyweight_tonnage.rounded_kg()),
            row.tonnage.per_rep(row.tonnage_reps),
            (row.seconds as i64, row.metres.rounded_metres(), row.high_rep_sets),
            row.average_effort(),
            row.sets - row.sets_with_effort,
        )
    };
    answer.rows.iter().map(row).collect()
}

fn volume_of_json(answer: &Value) -> Vec<String> {
    let text = |value: &Value| value.as_str().map(str::to_owned);
    let row = |row: &Value| {
        let number = |key: &str| row[key].as_i64().unwrap();
        volume_row(
            (text(&row["key"]), text(&row["block"]), row["week"].as_u64().map(|week| week as u32)),
            (number("sessions") as u32, number("sets") as u32, number("reps")),
            row["tonnage_kg"].as_f64().unwrap(),
            row["bodyweight_tonnage_kg"].as_f64(),
            row["average_kg"].as_f64(),
            (number("seconds"), row["metres"].as_f64().unwrap(), number("high_rep_sets") as u32),
            row["average_effort"].as_f64(),
            number("sets_without_effort") as u32,
        )
    };
    answer["rows"].as_array().unwrap().iter().map(row).collect()
}

fn since_of(answer: &since::Answer) -> SinceShown {
    let row = |row: &since::Row| {
        let (name, starts) = (row.name.clone(), row.starts.to_string());
        (name, starts, row.weeks_with_work, row.high_rep_weeks, row.sets, row.high_rep_sets)
    };
    SinceShown {
        reps: answer.reps,
        block: answer.block.clone(),
        blocks_since: answer.blocks_since,
        last_high: answer.last_high_rep_block.clone(),
        last_set: answer.last_set.as_ref().map(Shown::of_mark),
        weeks: answer.weeks_since_set,
        rows: answer.blocks.iter().map(row).collect(),
        high: answer.blocks.iter().map(|row| row.high_rep).collect(),
    }
}

/// The plain question of a lift's best sets.
fn plain_best(lift: LiftId) -> best::Ask {
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

const ALL_BY: [volume::By; 6] =
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
    let turn = seed as usize;
    let families = [since::Of::Main, since::Of::Family(Family::Squat), since::Of::Family(Family::VerticalPull)];
    for (of, reps) in families.into_iter().zip([None, Some(6), Some(12)].into_iter().cycle().skip(turn % 3)) {
        let ask = since::Ask { of, reps };
        findings.same("since", &(seed, &ask), since_of(&since::answer(&history, &ask)), witness.since(&ask, None));
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
    let marks = history::answer(history, lift);
    let marks: Vec<_> = marks.marks.iter().map(|(mark, _)| (Shown::of_mark(mark), mark.faults.is_empty())).collect();
    findings.same("history", &of, marks, witness.history(name));
    for ask in bests(lift, middle).into_iter().skip(turn % STRIDE).step_by(STRIDE) {
        let best::Found::One(bound, mark) = best::answer(history, &ask).found else { panic!("one was asked for") };
        let expected = witness.best(name, &ask, bound).map(|best| best.mark);
        findings.same("best", &(of, &ask), mark.as_ref().map(Shown::of_mark), expected);
    }
    if turn.is_multiple_of(3) {
        let ask = best::Ask { with_faults: turn.is_multiple_of(2), ..plain_best(lift) };
        let best::Found::Table(rows, _) = best::answer(history, &ask).found else { panic!("a table was asked for") };
        let rows: Vec<_> = rows.iter().map(|row| (row.reps, row.standing, Shown::of_mark(&row.best))).collect();
        findings.same("table", &of, rows, witness.table(name, &ask));
    }
    let ask = since::Ask { of: since::Of::Lift(lift), reps: [None, Some(5)][turn % 2] };
    findings.same("since", &of, since_of(&since::answer(history, &ask)), witness.since(&ask, Some(name)));
    let by = ALL_BY[turn % ALL_BY.len()];
    let ask = volume::Ask { by, lift: Some(lift), family: None, block: None, since: None, until: None };
    findings.same("volume", &of, volume_of(&volume::answer(history, &ask)), witness.volume(&ask, Some(name)));
}

fn lifts_of(answer: &lifts::Answer) -> Vec<String> {
    let row = |row: &lifts::Row| {
        format!("{} {} {} {} {} {}", row.lift, row.family, row.first, row.last, row.sessions, row.sets)
    };
    answer.lifts.iter().map(row).collect()
}

fn sorted(mut lines: Vec<String>) -> Vec<String> {
    lines.sort_unstable();
    lines
}

#[test]
fn every_answer_is_what_sqlite_makes_of_the_rows() {
    // Two threads, as the journals are many and small.
    std::thread::scope(|scope| {
        for odd in 0..2 {
            scope.spawn(move || {
                let (sql, mut findings) = (sqlite(), Findings::default());
                (0..SEEDS).filter(|seed| seed % 2 == odd).for_each(|seed| check(seed, &sql, &mut findings));
                findings.assert_none();
            });
        }
    });
}

/// The same through the binary's JSON, on a few journals on disk.
#[test]
fn the_json_of_the_program_is_what_sqlite_makes_of_the_rows() {
    let (sql, mut findings) = (sqlite(), Findings::default());
    for seed in [1000, 1001, 1002, 1003] {
        let journal = generator::journal(seed);
        let witness = Witness::new(&sql, &journal);
        let mut disk = crate::support::journal::Journal::new();
        for (path, text) in &journal.files {
            disk = disk.file(path, text);
        }
        let ask = |arguments: &[&str]| run::json(disk.root(), &[arguments, &["--on", &witness.today]].concat());
        assert_eq!(ask(&["check"])["errors"], 0, "seed {seed}");
        let lift = journal.rows.iter().find(|row| row.family == "squat").map_or("Front squat", |row| &row.lift);
        let plain = &plain_best(LiftId(0));
        for (reps, sets) in [(1, 1), (5, 1), (8, 1), (8, 3), (10, 1)] {
            let answer = ask(&["best", lift, "--reps", &reps.to_string(), "--sets", &sets.to_string()]);
            let mark = answer["best"].is_object().then(|| Shown::of_json(&answer["best"]));
            let bound = best::Bound::Reps(reps);
            let expected = witness.best(lift, &best::Ask { bound: Some(bound), sets, ..plain.clone() }, bound);
            findings.same("best", &(seed, lift, reps, sets), mark, expected.map(|best| best.mark));
        }
        let answer = ask(&["best", lift]);
        let rows = answer["rows"].as_array().unwrap();
        let rows: Vec<_> = rows
            .iter()
            .map(|row| {
                (row["reps"].as_u64().unwrap() as u32, row["standing"].as_bool().unwrap(), Shown::of_json(&row["best"]))
            })
            .collect();
        findings.same("table", &(seed, lift), rows, witness.table(lift, plain));
        for (word, by) in ["week", "block", "lift", "family", "day", "month"].into_iter().zip(ALL_BY) {
            let of = volume::Ask { by, lift: None, family: None, block: None, since: None, until: None };
            findings.same(
                "volume",
                &(seed, word),
                volume_of_json(&ask(&["volume", "--by", word])),
                witness.volume(&of, None),
            );
        }
        let answer = ask(&["history", lift]);
        let marks = answer["marks"].as_array().unwrap().iter();
        let marks: Vec<_> =
            marks.map(|mark| (Shown::of_json(mark), mark["faults"].as_array().unwrap().is_empty())).collect();
        findings.same("history", &(seed, lift), marks, witness.history(lift));
        let answer = ask(&["lifts"]);
        let row = |row: &Value| {
            let texts = ["lift", "family", "first", "last"].map(|key| row[key].as_str().unwrap());
            format!("{} {} {}", texts.join(" "), row["sessions"], row["sets"])
        };
        findings.same(
            "lifts",
            &seed,
            sorted(answer["lifts"].as_array().unwrap().iter().map(row).collect()),
            sorted(witness.lifts()),
        );
    }
    findings.assert_none();
}
