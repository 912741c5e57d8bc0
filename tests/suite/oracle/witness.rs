//! The rows in SQLite, and the questions asked there in SQL.

use super::shown::{BlockShown, MARK, Shown, SinceShown, TaperRow, hundredths, millionths, volume_row};
use crate::support::generator::{Journal, KG, METRE};
use loadline::questions::{best, since, volume};
use loadline::training::{BlockId, Family};
use rusqlite::{Connection, Row, ToSql, params_from_iter};

const TABLES: &str = "
    CREATE TABLE sets (id INTEGER PRIMARY KEY, session INT, date TEXT, block INT, week INT, light INT, meet INT, day TEXT, lift TEXT,
        family TEXT, reps INT, seconds INT, metres INT, sides INT, mass INT, kind TEXT, pin INT, added INT, load TEXT,
        approximate INT, effort INT, clean INT, fault TEXT, grp INT, page TEXT, line INT, work INT);
    CREATE TABLE sessions (id INTEGER PRIMARY KEY, date TEXT, block INT, week INT, light INT, marked INT, meet TEXT, test INT, day TEXT);
    CREATE TABLE pains (session INT, site TEXT, tenths INT, line INT);
    CREATE TABLE lights (block INT, week INT);
    CREATE TABLE works (id INTEGER PRIMARY KEY, session INT, date TEXT, block INT, week INT, light INT, marked INT, meet INT, lift TEXT, fate TEXT, instead TEXT,
        page TEXT, line INT);
    CREATE TABLE plans (work INT, run INT, fewest INT, most INT, reps INT, reps_most INT, seconds INT, seconds_most INT, metres INT,
        metres_most INT, sides INT, mass INT, kind TEXT, pin INT, added INT, load TEXT, low INT, high INT);
    CREATE TABLE blocks (id INTEGER PRIMARY KEY, name TEXT, starts TEXT, ends TEXT);
    CREATE INDEX by_lift ON sets (lift);
    CREATE INDEX by_work ON sets (work);
    CREATE INDEX by_session ON sets (session);
    CREATE INDEX of_work ON plans (work);
    CREATE VIEW work AS SELECT * FROM sets WHERE reps > 0 OR seconds > 0 OR metres > 0;";

/// Training up to today, and what is planned from today on and not done yet: `n` sets a row. A week with plans alone is
/// light where all of its sessions are marked so.
const TRAINING: &str = "
    coming AS (SELECT w.*, p.fewest, p.reps, p.sides, p.mass, p.kind FROM works w JOIN plans p ON p.work = w.id
        WHERE NOT w.meet AND p.fewest > 0 AND (w.date > ?1 AND w.fate <> 'Skipped' OR w.date = ?1 AND w.fate = 'Nothing'
            AND NOT EXISTS (SELECT 1 FROM works o WHERE o.session = w.session AND o.id <> w.id AND o.instead = w.lift
                AND EXISTS (SELECT 1 FROM work s WHERE s.work = o.id)))),
    training AS (
        SELECT work, block, week, light, lift, 1 AS n, reps, sides, mass, kind, 0 AS open FROM work WHERE date <= ?1 AND NOT meet
        UNION ALL
        SELECT id, block, week, light OR NOT EXISTS (SELECT 1 FROM work s WHERE s.block = c.block AND s.week = c.week
                AND s.date <= ?1) AND NOT EXISTS (SELECT 1 FROM coming o WHERE o.block = c.block AND o.week = c.week
                AND NOT o.marked), lift, fewest, reps, sides, mass, kind, kind = 'None' FROM coming c)";

/// An empty database.
pub(super) fn sqlite() -> Connection {
    let sql = Connection::open_in_memory().unwrap();
    sql.set_prepared_statement_cache_capacity(200);
    sql.execute_batch(TABLES).unwrap();
    sql
}

/// A journal's rows in SQLite.
pub(super) struct Witness<'j> {
    pub(super) journal: &'j Journal,
    pub(super) today: String,
    pub(super) sql: &'j Connection,
}

impl<'j> Witness<'j> {
    pub(super) fn new(sql: &'j Connection, journal: &'j Journal) -> Self {
        sql.execute_batch(
            "BEGIN; DELETE FROM sets; DELETE FROM blocks; DELETE FROM works; DELETE FROM plans;
            DELETE FROM sessions; DELETE FROM pains; DELETE FROM lights",
        )
        .unwrap();
        for (id, block) in (0u32..).zip(&journal.blocks) {
            let ends = block.ends.map(|ends| ends.to_string());
            sql.execute("INSERT INTO blocks VALUES (?, ?, ?, ?)", (id, &block.name, block.starts.to_string(), ends))
                .unwrap();
        }
        let places = ["?"; 27].join(", ");
        let mut insert = sql.prepare_cached(&format!("INSERT INTO sets VALUES ({places})")).unwrap();
        for (id, row) in (0u32..).zip(&journal.rows) {
            let (date, kind) = (row.date.to_string(), format!("{:?}", row.kind));
            let values: [&dyn ToSql; 27] = [
                &id,
                &row.session,
                &date,
                &row.block,
                &row.week,
                &row.light,
                &row.meet,
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
                &row.fault,
                &row.group,
                &row.page,
                &row.line,
                &row.work,
            ];
            insert.execute(values).unwrap();
        }
        drop(insert);
        super::adherence::insert(sql, journal);
        super::cautions::insert(sql, journal);
        super::adherence::move_plans(sql, &journal.today.to_string());
        sql.execute_batch(super::adherence::ONE_LINE).unwrap();
        sql.execute_batch("COMMIT").unwrap();
        Witness { journal, today: journal.today.to_string(), sql }
    }

    pub(super) fn all<T>(
        &self,
        query: &str,
        values: &[&dyn ToSql],
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Vec<T> {
        let mut query = self.sql.prepare_cached(query).unwrap();
        query.query_map(params_from_iter(values), read).unwrap().map(Result::unwrap).collect()
    }
}

/// The best of some sets: its mark, and what it is ranked by.
#[derive(Clone, Debug)]
pub(super) struct Best {
    pub(super) mark: Shown,
    pub(super) class: u32,
    pub(super) rank: (i64, i64),
    pub(super) mass: Option<i64>,
    /// Of loads that contain the lifter's own weight.
    pub(super) added: Option<i64>,
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
            own AS (SELECT SUM(kind = 'Bodyweight') > 0 AND SUM(kind = 'Mass') = 0 AS only FROM q),
            r AS (SELECT *,
                CASE WHEN only AND kind = 'Bodyweight' OR mass IS NOT NULL THEN 0 WHEN kind = 'Pin' THEN 1 WHEN kind = 'Quote' THEN 2 ELSE 3 END AS class,
                CASE WHEN only AND kind = 'Bodyweight' THEN added WHEN mass IS NOT NULL THEN mass WHEN kind = 'Pin' THEN pin ELSE 0 END AS rank,
                CASE WHEN kind = 'Pin' THEN added ELSE 0 END AS more
                FROM q, own)"
        )
    }

    /// A session's sets in the order that `--sets` takes them in, and one candidate a session and class.
    pub(super) fn best(&self, name: &str, ask: &best::Ask, bound: best::Bound) -> Option<Best> {
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
    pub(super) fn table(&self, name: &str, ask: &best::Ask) -> Vec<(u32, bool, Shown)> {
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

    pub(super) fn volume(&self, ask: &volume::Ask, lift: Option<&str>) -> Vec<String> {
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

    pub(super) fn since(&self, ask: &since::Ask, lift: Option<&str>) -> SinceShown {
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

    /// The weeks of blocks that have training, or will have it as planned.
    pub(super) fn training_weeks(&self) -> Vec<(u32, u32)> {
        let query = format!(
            "WITH {TRAINING} SELECT DISTINCT block, week FROM training WHERE block IS NOT NULL ORDER BY block, week"
        );
        self.all(&query, &[&self.today], |row| Ok((row.get(0)?, row.get(1)?)))
    }

    /// A week against the mean of the last three loading weeks before it: a row for all, then one a lift. Nothing
    /// where there is no loading week. What is planned and not done yet counts as planned; where a plan leaves the load of
    /// a lift open that has one elsewhere in these weeks, nobody knows the tonnage.
    pub(super) fn taper(&self, (block, week): (u32, u32)) -> Vec<TaperRow> {
        let query = |name: &str, group: &str| {
            format!(
                "WITH {TRAINING},
                    loading AS (SELECT week FROM training WHERE block = ?2 AND week < ?3 AND NOT light GROUP BY week
                        ORDER BY week DESC LIMIT 3),
                    loaded AS (SELECT lift FROM training WHERE block = ?2 AND (week = ?3 OR week IN loading) AND mass IS NOT NULL)
                 SELECT {name}, (SELECT COUNT(*) FROM loading), COUNT(DISTINCT CASE WHEN week < ?3 THEN week END),
                    SUM(CASE WHEN week < ?3 THEN n ELSE 0 END), SUM(CASE WHEN week = ?3 THEN n ELSE 0 END),
                    COALESCE(SUM(CASE WHEN week < ?3 THEN n * reps * sides END), 0),
                    COALESCE(SUM(CASE WHEN week = ?3 THEN n * reps * sides END), 0),
                    COALESCE(SUM(CASE WHEN week < ?3 AND kind = 'Mass' THEN n * mass * reps * sides END), 0),
                    COALESCE(SUM(CASE WHEN week = ?3 AND kind = 'Mass' THEN n * mass * reps * sides END), 0),
                    SUM(open AND lift IN loaded AND lift NOT IN (SELECT lift FROM sets WHERE kind = 'Bodyweight'))
                 FROM training WHERE block = ?2 AND (week = ?3 OR week IN loading) {group}"
            )
        };
        let read = |row: &Row<'_>| {
            let (weeks, of_lift): (u32, u32) = (row.get(1)?, row.get(2)?);
            let change = |before: f64, now: f64| {
                (before > 0.0).then(|| millionths((now * f64::from(weeks) / before - 1.0) * 100.0))
            };
            let now_sets: f64 = row.get(4)?;
            Ok((
                weeks,
                TaperRow {
                    name: row.get(0)?,
                    sets: change(row.get(3)?, now_sets),
                    reps: change(row.get(5)?, row.get(6)?),
                    tonnage: if row.get::<_, u32>(9)? > 0 { None } else { change(row.get(7)?, row.get(8)?) },
                    taken_out: now_sets == 0.0 && 2 * of_lift >= weeks,
                },
            ))
        };
        let values: [&dyn ToSql; 3] = [&self.today, &block, &week];
        let mut rows = self.all(&query("'all'", ""), &values, read);
        rows.extend(self.all(&query("lift", "GROUP BY lift ORDER BY MIN(week * 1000000 + work)"), &values, read));
        rows.into_iter().filter(|(weeks, _)| *weeks > 0).map(|(_, row)| row).collect()
    }

    pub(super) fn lifts(&self) -> Vec<String> {
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
    pub(super) fn history(&self, name: &str) -> Vec<(Shown, bool)> {
        let query = format!(
            "WITH m AS (SELECT *, COUNT(*) AS n, MAX(effort) AS most, MIN(clean) AS pure, MIN(id) AS first FROM sets
                WHERE lift = ?1 AND date <= ?2 GROUP BY grp, reps, seconds, metres)
             SELECT {MARK}, pure FROM m ORDER BY first"
        );
        self.all(&query, &[&name, &self.today], |row| Ok((Shown::of_row(row)?, row.get(15)?)))
    }
}
