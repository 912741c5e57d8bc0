//! Sessions and pains in SQLite, and what `review` finds by plain counting, as `docs/cautions.md` puts it.
//!
//! Which set is held against which planned one is not always SQLite's to say: where a line has one planned group and
//! room for all its sets, there is one way to pair them. Of other lines it says what may be, and lifts with such a line
//! are left out.

use super::adherence::TOLD;
use super::findings::Findings;
use super::matching::{Paired, bounds};
use super::shown::millionths;
use super::witness::Witness;
use crate::support::generator::{Journal, KG};
use chrono::NaiveDate;
use loadline::history::History;
use loadline::questions::r#match::Verdict;
use loadline::questions::review::{self, Ask, Caution};
use rusqlite::{Connection, Row, ToSql};

/// The cautions that are plain counting.
pub(super) const COUNTED: [&str; 11] = [
    "block-behind",
    "deload-overdue",
    "far-under-plan",
    "high-reps-missing",
    "high-reps-near-meet",
    "load-jump",
    "over-plan",
    "pain-again",
    "planned-and-skipped",
    "same-fault",
    "sets-rise",
];

/// No settings of these journals set this threshold, in percent.
const BLOCK_BEHIND: u32 = 50;

/// Puts sessions, pains and light weeks into the tables.
pub(super) fn insert(sql: &Connection, journal: &Journal) {
    let mut sessions = sql.prepare_cached("INSERT INTO sessions VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)").unwrap();
    for (id, session) in (0u32..).zip(&journal.sessions) {
        let date = session.date.to_string();
        let (block, week, light) = (session.block, session.week, session.light);
        let marks = (session.marked, session.meet, session.test_day);
        sessions.execute((id, date, block, week, light, marks.0, marks.1, marks.2, session.day)).unwrap();
    }
    let mut pains = sql.prepare_cached("INSERT INTO pains VALUES (?, ?, ?, ?)").unwrap();
    for pain in &journal.pains {
        pains.execute((pain.session, pain.site, pain.tenths, pain.line)).unwrap();
    }
    let mut lights = sql.prepare_cached("INSERT INTO lights VALUES (?, ?)").unwrap();
    for (id, block) in (0u32..).zip(&journal.blocks) {
        for week in &block.light {
            lights.execute((id, week)).unwrap();
        }
    }
}

/// The largest loading streak that reaches today: from its first session on no light week, and no more than seven days
/// between two sessions.
const DELOAD_OVERDUE: &str = "WITH
    trained AS (SELECT id, date, CASE WHEN block IS NULL THEN marked ELSE light END AS light FROM sessions s
        WHERE date <= ?1 AND meet IS NULL AND NOT test AND EXISTS (SELECT 1 FROM work w WHERE w.session = s.id)),
    told AS (SELECT *, LAG(light) OVER (ORDER BY id) AS rested, julianday(date) - julianday(LAG(date) OVER (ORDER BY id)) AS gap
        FROM trained),
    start AS (SELECT date FROM told WHERE NOT light AND (gap IS NULL OR rested OR gap > 7)
        AND id > COALESCE((SELECT MAX(id) FROM told WHERE light), -1) ORDER BY id DESC LIMIT 1),
    here AS (SELECT id, CAST((julianday(MIN(?1, COALESCE(ends, ?1))) - julianday(starts)) AS INT) / 7 + 1 AS week
        FROM blocks WHERE id = ?2)
    SELECT 'deload-overdue ' || ?1 || ' since ' || date || ' weeks ' || (CAST(julianday(?1) - julianday(date) AS INT) / 7)
    FROM start, here WHERE julianday(?1) - julianday(date) > 7 * ?3
        AND julianday(?1) - (SELECT MAX(julianday(date)) FROM trained) <= 7
        AND NOT EXISTS (SELECT 1 FROM lights l WHERE l.block = here.id AND l.week = here.week)
        AND NOT EXISTS (SELECT 1 FROM sessions s WHERE s.block = here.id AND s.week = here.week AND s.light AND s.date <= ?1)";

const SETS_RISE: &str = "WITH
    weeks AS (SELECT block, week, ROW_NUMBER() OVER (ORDER BY block, week) AS nth FROM
        (SELECT DISTINCT block, week FROM sessions WHERE date <= ?1 AND block IS NOT NULL AND NOT light)),
    rated AS (SELECT nth, family, COUNT(*) AS n FROM work JOIN weeks USING (block, week)
        WHERE effort >= 4 * 6 AND date <= ?1 GROUP BY nth, family),
    held AS (SELECT week, now.family AS family, now.n AS n, (SELECT SUM(n) FROM rated h WHERE h.family = now.family
            AND h.nth BETWEEN now.nth - 4 AND now.nth - 1) AS before, (SELECT MAX(n) FROM rated h WHERE h.family = now.family
            AND h.nth BETWEEN now.nth - 4 AND now.nth - 1) AS most
        FROM weeks JOIN rated now USING (nth) WHERE block = ?2 AND nth > 4)
    SELECT 'sets-rise ' || family || ' week ' || week || ' sets ' || n || ' quarters before ' || before FROM held
    WHERE before > 0 AND n > most AND 4 * n - before >= 4 * 3 AND (4 * n - before) * 100 >= ?3 * before";

/// Sets of the main lifts: `?1` is today, `?4` how many reps are many.
const MAIN: &str = "main AS (SELECT *, reps >= ?4 AS high FROM work WHERE reps > 0 AND mass IS NOT NULL AND date <= ?1
    AND family IN ('squat', 'hinge', 'horizontal press', 'vertical press'))";

/// A block is a high-rep one where half of its weeks have half of their sets at many reps, deload and peak weeks aside.
/// `?5` is how many weeks before a meet or test high reps are not missed.
const HIGH_REPS_MISSING: &str = "
    weeks AS (SELECT block, 2 * SUM(high) >= COUNT(*) AS many FROM main WHERE NOT light AND block IS NOT NULL GROUP BY block, week),
    high AS (SELECT block FROM weeks GROUP BY block HAVING 2 * SUM(many) >= COUNT(*)),
    begun AS (SELECT *, LEAD(starts) OVER (ORDER BY id) AS next FROM blocks WHERE starts <= ?1),
    last AS (SELECT MAX(block) AS block FROM high),
    gone AS (SELECT julianday(?1) - CASE WHEN block IS NULL THEN (SELECT julianday(starts) - 1 FROM begun ORDER BY id LIMIT 1)
        ELSE (SELECT julianday(COALESCE(ends, next)) FROM begun WHERE id = block) END AS days, block FROM last)
    SELECT 'high-reps-missing ' || ?1 || ' weeks ' || (CAST(days AS INT) / 7) || ' last ' || COALESCE((SELECT name FROM blocks
        WHERE id = block), 'never') FROM gone WHERE days > 7 * ?3 AND EXISTS (SELECT 1 FROM main WHERE block = ?2 AND NOT light)
        AND NOT EXISTS (SELECT 1 FROM sessions WHERE (meet IS NOT NULL OR test) AND date >= ?1
            AND julianday(date) - julianday(?1) <= 7 * ?5)";

const HIGH_REPS_NEAR_MEET: &str = "
    near AS (SELECT m.*, (SELECT n.id FROM sessions n WHERE n.meet IS NOT NULL AND n.date >= m.date ORDER BY n.id LIMIT 1) AS next
        FROM main m WHERE block = ?2 AND NOT meet),
    close AS (SELECT n.*, s.meet AS called, CAST(julianday(s.date) - julianday(n.date) AS INT) AS days FROM near n
        JOIN sessions s ON s.id = next WHERE julianday(s.date) - julianday(n.date) < 7 * ?3),
    weeks AS (SELECT week FROM close GROUP BY week HAVING SUM(high) > 0 AND 2 * SUM(high) >= COUNT(*))
    SELECT 'high-reps-near-meet ' || date || ' days ' || days || ' ' || called FROM close
        WHERE high AND week IN weeks ORDER BY week DESC, id DESC LIMIT 1";

const LOAD_JUMP: &str = "WITH
    top AS (SELECT lift, week, lower(replace(day, ' ', '')) AS label, reps, MAX(mass) AS mass FROM work
        WHERE block = ?2 AND date <= ?1 AND NOT meet AND NOT light AND reps > 0 AND mass IS NOT NULL
        GROUP BY lift, week, lower(replace(day, ' ', '')), reps)
    SELECT a.lift, b.week, MAX(CAST(b.mass - a.mass AS REAL) / a.mass) FROM top a JOIN top b
        ON a.lift = b.lift AND a.week + 1 = b.week AND a.label IS b.label AND a.reps = b.reps
    WHERE a.mass > 0 AND (b.mass - a.mass) * 100 > a.mass * ?3 AND b.mass - a.mass > ?4 GROUP BY a.lift, b.week";

const PAIN_AGAIN: &str = "WITH
    noted AS (SELECT session, site, lower(replace(site, ' ', '')) AS place, date, block, line FROM pains
        JOIN sessions ON sessions.id = session WHERE tenths > 0 AND date <= ?1),
    near AS (SELECT n.*, (SELECT COUNT(*) FROM noted o WHERE o.place = n.place
            AND julianday(n.date) - julianday(o.date) BETWEEN 0 AND ?3) AS times,
        (SELECT MIN(session) FROM noted o WHERE o.place = n.place AND julianday(n.date) - julianday(o.date) BETWEEN 0 AND ?3) AS first
        FROM noted n WHERE block = ?2),
    last AS (SELECT *, ROW_NUMBER() OVER (PARTITION BY place ORDER BY session DESC, line DESC) AS back FROM near
        WHERE first < session)
    SELECT 'pain-again ' || l.date || ' ' || site || ' times ' || times || ' days '
        || CAST(julianday(l.date) - julianday(s.date) AS INT)
    FROM last l JOIN sessions s ON s.id = first WHERE back = 1";

/// What stands in the plan and was not done, by week; then runs of weeks without one between them.
const PLANNED_AND_SKIPPED: &str = "
    weeks AS (SELECT block, week, ROW_NUMBER() OVER (ORDER BY block, week) AS nth FROM
        (SELECT DISTINCT block, week FROM sessions WHERE date <= ?1 AND block IS NOT NULL)),
    missed AS (SELECT lift, nth, block FROM told JOIN weeks USING (block, week) WHERE date <= ?1 GROUP BY lift, nth
        HAVING MIN(open AND NOT swapped AND NOT (fate = 'Nothing' AND date = ?1)) AND MAX(fate = 'Skipped' OR planned)),
    islands AS (SELECT *, nth - ROW_NUMBER() OVER (PARTITION BY lift ORDER BY nth) AS island FROM missed),
    runs AS (SELECT *, ROW_NUMBER() OVER (PARTITION BY lift, island ORDER BY nth) AS run FROM islands)
    SELECT 'planned-and-skipped ' || lift || ' weeks ' || MAX(run) FROM runs WHERE block = ?2 AND run >= ?3 GROUP BY lift";

const SAME_FAULT: &str = "WITH
    visits AS (SELECT lift, session, ROW_NUMBER() OVER (PARTITION BY lift ORDER BY session DESC) AS back FROM
        (SELECT DISTINCT lift, session FROM work WHERE date <= ?1)),
    seen AS (SELECT DISTINCT lift, session, fault FROM sets JOIN visits USING (lift, session)
        WHERE fault IS NOT NULL AND back <= 5 AND work IN (SELECT work FROM work))
    SELECT 'same-fault ' || lift || ' ' || fault || ' in ' || COUNT(*) || ' of '
        || (SELECT COUNT(*) FROM visits v WHERE v.lift = seen.lift AND back <= 5)
    FROM seen JOIN sessions s ON s.id = session GROUP BY lift, fault
    HAVING COUNT(*) >= ?3 AND MAX(session) = MAX(CASE WHEN s.block = ?2 THEN session END)";

/// The planned efforts of lines that were done, and whether there is one way to pair their sets. A set that the plan
/// has no room for is held against none.
const EFFORTS: &str = "
    efforts AS MATERIALIZED (SELECT d.id, d.date, d.block, d.week, d.lift, p.low, p.high, sets <= p.most AND 1 = (SELECT COUNT(*) FROM plans o
            WHERE o.work = d.id) AS certain, (SELECT MAX(effort) FROM work s WHERE s.work = d.id) AS most,
        (SELECT MIN(effort) FROM work s WHERE s.work = d.id) AS least,
        (SELECT r.reached >= SUM(o.fewest) FROM plans o, reached r WHERE o.work = d.id AND r.work = d.id) AS all_done
        FROM told d JOIN plans p ON p.work = d.id WHERE NOT open AND sets > 0 AND p.low IS NOT NULL AND date <= ?1)";

impl Witness<'_> {
    /// The last block begun.
    pub(super) fn current_block(&self) -> Option<u32> {
        self.all("SELECT MAX(id) FROM blocks WHERE starts <= ?1", &[&self.today], |row| row.get(0))[0]
    }

    /// Efforts over their plan in a week: those that are, and those that may be.
    pub(super) fn over_plan(&self, (block, week): (u32, u32)) -> (u32, u32) {
        let over = self.journal.watch.over;
        let query = format!(
            "WITH RECURSIVE {TOLD}, {EFFORTS} SELECT COALESCE(SUM(certain), 0), COUNT(*) FROM efforts
                WHERE block = ?6 AND week = ?7 AND most - high >= ?8",
        );
        let close = self.close();
        let values: [&dyn ToSql; 8] =
            [&self.today, &None::<u32>, &None::<u32>, &None::<u32>, &close, &block, &week, &over];
        self.all(&query, &values, |row| Ok((row.get(0)?, row.get(1)?)))[0]
    }

    /// The mass at which two loads differ.
    pub(super) fn close(&self) -> i64 {
        (self.journal.step / 2).max(KG)
    }

    /// The lifts with efforts over their plan or far under it, and those of which SQLite cannot say.
    fn off_plan(&self, block: u32) -> (Vec<String>, Vec<String>) {
        let watch = self.journal.watch;
        let close = self.close();
        let of = |name: &str, gap: &str, least: u32, more: &str, told: &str| {
            // On two days, or a point more on one; of a lift that SQLite is not certain of it cannot be told.
            let query = format!(
                "WITH RECURSIVE {TOLD}, {EFFORTS}, off AS (SELECT *, {gap} AS gap FROM efforts WHERE block = ?6 AND {gap} >= ?7)
                 SELECT lift, MIN(certain), '{name} ' || lift || ' lines ' || COUNT(*) || ' most ' || MAX(gap) {more}
                 FROM off GROUP BY lift
                 HAVING COUNT(DISTINCT date) > 1 OR MAX(gap) >= ?7 + 4 OR NOT MIN(certain) {told}",
            );
            let values: [&dyn ToSql; 7] =
                [&self.today, &None::<u32>, &None::<u32>, &None::<u32>, &close, &block, &least];
            self.all(&query, &values, |row| {
                Ok((row.get::<_, String>(0)?, row.get::<_, bool>(1)?, row.get::<_, String>(2)?))
            })
        };
        // Half a point under is as planned.
        let over = of("over-plan", "(most - high)", watch.over, "", "");
        let gap = "(low - CASE WHEN certain THEN most ELSE least END)";
        let all_done = "|| ' all done ' || MIN(all_done)";
        let under = of("far-under-plan", gap, watch.under.max(3), all_done, "OR NOT MIN(all_done)");
        let unsure = |name: &'static str, rows: &[(String, bool, String)]| {
            let rows = rows.iter().filter(|(_, certain, _)| !certain);
            rows.map(|(lift, ..)| format!("{name} {lift} ")).collect::<Vec<_>>()
        };
        let unknown = [unsure("over-plan", &over), unsure("far-under-plan", &under)].concat();
        let sure = over.into_iter().chain(under).filter(|(_, certain, _)| *certain);
        (sure.map(|(.., text)| text).collect(), unknown)
    }

    fn is_light(&self, block: u32, week: u32) -> bool {
        let query = "SELECT EXISTS (SELECT 1 FROM lights WHERE block = ?1 AND week = ?2)
            OR EXISTS (SELECT 1 FROM sessions WHERE block = ?1 AND week = ?2 AND light AND date <= ?3)";
        self.all(query, &[&block, &week, &self.today], |row| row.get(0))[0]
    }

    /// The last loading week of a block that has an end, where most of its pairs are behind: as far as no estimate is
    /// needed.
    fn block_behind(&self, block: u32) -> Option<Result<String, &'static str>> {
        let weeks = "SELECT CAST(julianday(ends) - julianday(starts) AS INT) / 7 + 1 FROM blocks WHERE id = ?1";
        let weeks: Option<u32> = self.all(weeks, &[&block], |row| row.get(0))[0];
        let week = (1..=weeks?).rev().find(|week| !self.is_light(block, *week))?;
        if block == 0 || self.is_light(block - 1, week) {
            return None;
        }
        let pairs = self.pairs((block, week));
        let pairs: Vec<&Paired> = pairs.iter().filter(|pair| pair.block == block - 1).collect();
        let [behind, ahead, level, mixed] =
            [Verdict::Behind, Verdict::Ahead, Verdict::Level, Verdict::Mixed].map(|verdict| bounds(&pairs, verdict));
        if pairs.iter().any(|pair| pair.is(Verdict::Ahead).is_none()) {
            return Some(Err("block-behind "));
        }
        let compared = behind.0 + ahead.0 + level.0 + mixed.0;
        let is_behind = behind.0 > ahead.0 && 100 * behind.0 >= BLOCK_BEHIND * compared;
        is_behind.then(|| Ok(format!("block-behind week {week} {} of {compared}", behind.0)))
    }

    /// The cautions that are plain counting, and the beginnings of those that SQLite cannot tell.
    pub(super) fn cautions(&self) -> (Vec<String>, Vec<String>) {
        let Some(block) = self.current_block() else { return (Vec::new(), Vec::new()) };
        let watch = self.journal.watch;
        let text = |row: &Row<'_>| row.get::<_, String>(0);
        let mut found = Vec::new();
        for (query, threshold) in [
            (DELOAD_OVERDUE, watch.deload),
            (SETS_RISE, watch.sets_at_rpe_6),
            (PAIN_AGAIN, watch.pain),
            (SAME_FAULT, watch.same_fault),
        ] {
            found.extend(self.all(query, &[&self.today, &block, &threshold], text));
        }
        let reps = self.journal.high_reps;
        let missing = format!("WITH {MAIN}, {HIGH_REPS_MISSING}");
        let values: [&dyn ToSql; 5] = [&self.today, &block, &watch.high_missing, &reps, &watch.high_near];
        found.extend(self.all(&missing, &values, text));
        let near = format!("WITH {MAIN}, {HIGH_REPS_NEAR_MEET}");
        found.extend(self.all(&near, &[&self.today, &block, &watch.high_near, &reps], text));
        let told = TOLD.split("due AS").next().unwrap().trim().trim_end_matches(',');
        let skipped = format!("WITH {told}, {PLANNED_AND_SKIPPED}");
        found.extend(self.all(&skipped, &[&self.today, &block, &watch.skipped], text));
        let step = self.journal.step;
        found.extend(self.all(LOAD_JUMP, &[&self.today, &block, &watch.load_jump, &step], |row| {
            let (lift, week, share): (String, u32, f64) = (row.get(0)?, row.get(1)?, row.get(2)?);
            Ok(format!("load-jump {lift} week {week} {}", millionths(100.0 * share)))
        }));
        let (off_plan, mut unknown) = self.off_plan(block);
        found.extend(off_plan);
        match self.block_behind(block) {
            Some(Ok(text)) => found.push(text),
            Some(Err(start)) => unknown.push(start.to_owned()),
            None => {}
        }
        found.sort_unstable();
        (found, unknown)
    }
}

/// What a caution says that is plain counting.
fn text_of(caution: &Caution) -> Option<String> {
    let Caution { name, date, message, places, found, .. } = caution;
    let found = found.0;
    let about = caution.about.as_deref().unwrap_or_default();
    // The word, or what stands up to another mark, behind a mark in the message.
    let upto = |mark: &str, end: &str| {
        message.split_once(mark).map_or("", |(_, rest)| rest.split_once(end).map_or(rest, |(word, _)| word))
    };
    let word = |mark: &str| upto(mark, " ").trim_end_matches([',', ':']);
    let text = match *name {
        "over-plan" => format!("{about} lines {} most {}", places.len(), found * 4.0),
        "far-under-plan" => {
            let all_done = u8::from(message.contains("; all planned work was done"));
            format!("{about} lines {} most {} all done {all_done}", places.len(), found * 4.0)
        }
        "load-jump" => format!("{about} week {} {}", word(" in week "), millionths(found)),
        "sets-rise" => {
            let sets: f64 = word(": ").parse().unwrap();
            let before = (sets / (1.0 + found / 100.0) * 4.0).round();
            format!("{about} week {} sets {sets} quarters before {before}", word(" in week "))
        }
        "deload-overdue" => {
            let since = NaiveDate::parse_from_str(upto(", since ", "\n"), "%a %d %b %Y").unwrap();
            format!("{date} since {since} weeks {found}")
        }
        "high-reps-missing" => {
            let last = if message.contains(" yet ") { "never" } else { upto("; the last was block ", "\n") };
            format!("{date} weeks {found} last {last}")
        }
        "high-reps-near-meet" => format!("{date} days {} {}", (found * 7.0).round(), upto(" before ", "\n")),
        "same-fault" => format!("{about} {} in {found} of {}", word(": !"), word("of the last ")),
        "pain-again" => format!("{date} {about} times {} days {found}", word(" noted ")),
        "block-behind" => format!("week {} {} of {}", word("week "), word(" on "), word(" of ")),
        "planned-and-skipped" => format!("{about} weeks {found}"),
        _ => return None,
    };
    Some(format!("{name} {text}"))
}

/// Holds the cautions about the current block against SQLite; gives those it could tell.
pub(super) fn check(
    of: &dyn std::fmt::Debug,
    history: &History<'_>,
    witness: &Witness<'_>,
    findings: &mut Findings,
) -> Vec<String> {
    let (expected, unknown) = witness.cautions();
    let answer = review::answer(history, &Ask::default());
    let known = |text: &String| !unknown.iter().any(|start| text.starts_with(start));
    let mut found: Vec<String> = answer.cautions.iter().filter_map(text_of).filter(known).collect();
    found.sort_unstable();
    findings.same("review", of, &found, &expected);
    expected
}
