//! Two weeks side by side, lift by lift, as far as no estimate of a maximum is needed: `docs/answers.md#match` in SQL.
//!
//! A pair whose verdict hangs on strength is left open. It does where both sessions have a set with an effort and none
//! of the rules before it settles the matter.

use super::findings::Findings;
use super::witness::Witness;
use loadline::questions::r#match::{Answer, Pair, Side, Verdict};
use rusqlite::ToSql;
use std::collections::BTreeMap;
use std::fmt::Debug;

/// `?1` is today, `?2` the block, `?3` the week, `?4` the mass at which two loads differ. A session's side of a lift; the
/// earlier week of each lift; pairs by label, then the rest in order; how each thing compares.
const PAIRS: &str = "WITH
    clean AS (SELECT *, SUM(kind = 'Bodyweight') OVER of_lift > 0 AND SUM(kind = 'Mass') OVER of_lift = 0 AS own FROM work WHERE clean AND date <= ?1
        AND week = ?3 WINDOW of_lift AS (PARTITION BY session, lift)),
    ranked AS (SELECT *, CASE WHEN own AND kind = 'Bodyweight' OR mass IS NOT NULL THEN 0 WHEN kind = 'Pin' THEN 1 WHEN kind = 'Quote' THEN 2 ELSE 3 END AS class,
        CASE WHEN own AND kind = 'Bodyweight' THEN added WHEN mass IS NOT NULL THEN mass WHEN kind = 'Pin' THEN pin ELSE 0 END AS rank,
        CASE WHEN kind = 'Pin' THEN added ELSE 0 END AS more FROM clean),
    top AS (SELECT * FROM (SELECT *, ROW_NUMBER() OVER (PARTITION BY session, lift ORDER BY class, rank DESC, more DESC, id) AS nth
        FROM ranked) WHERE nth = 1),
    heavy AS (SELECT t.session AS session, t.lift AS lift, r.effort AS effort, r.sides AS sides, COALESCE(r.reps, r.seconds, r.metres) AS amount,
        CASE WHEN r.reps IS NOT NULL THEN 0 WHEN r.seconds IS NOT NULL THEN 1 ELSE 2 END AS unit, r.id AS id
        FROM top t JOIN ranked r ON r.session = t.session AND r.lift = t.lift
            AND r.class = t.class AND CASE t.class WHEN 0 THEN abs(r.rank - t.rank) < ?4 WHEN 1 THEN r.rank = t.rank AND r.more = t.more
                WHEN 2 THEN r.load = t.load ELSE r.added IS t.added END),
    fullest AS (SELECT *, FIRST_VALUE(unit) OVER best AS of_unit, FIRST_VALUE(sides) OVER best AS of_sides FROM heavy
        WINDOW best AS (PARTITION BY session, lift ORDER BY unit, amount DESC, id DESC)),
    counted AS (SELECT *, ROW_NUMBER() OVER (PARTITION BY session, lift ORDER BY amount DESC) AS nth FROM fullest
        WHERE unit = of_unit AND sides = of_sides),
    at_top AS (SELECT session, lift, COUNT(*) AS n, MAX(unit) AS unit, MAX(effort) AS effort FROM counted GROUP BY session, lift),
    visits AS (SELECT session, lift, date, block, CASE WHEN EXISTS (SELECT 1 FROM sessions s WHERE s.block = work.block
        AND s.week = work.week AND s.meet IS NOT NULL) THEN 3 ELSE light END AS light, lower(replace(day, ' ', '')) AS label, COUNT(effort) > 0 AS felt FROM work
        WHERE date <= ?1 AND week = ?3 AND block IS NOT NULL GROUP BY session, lift),
    now AS (SELECT *, ROW_NUMBER() OVER (PARTITION BY lift, label ORDER BY session) AS nth FROM visits WHERE block = ?2),
    partner AS (SELECT lift, MAX(block) AS block FROM visits WHERE block < ?2 GROUP BY lift),
    before AS (SELECT v.*, ROW_NUMBER() OVER (PARTITION BY lift, label ORDER BY session) AS nth
        FROM visits v JOIN partner USING (lift, block)),
    labelled AS (SELECT n.lift AS lift, n.session AS new, b.session AS old FROM now n JOIN before b
        ON n.lift = b.lift AND n.label = b.label AND n.nth = b.nth),
    rest_now AS (SELECT lift, session, ROW_NUMBER() OVER (PARTITION BY lift ORDER BY session) AS nth FROM now n
        WHERE NOT EXISTS (SELECT 1 FROM labelled l WHERE l.lift = n.lift AND l.new = n.session)),
    rest_before AS (SELECT lift, session, ROW_NUMBER() OVER (PARTITION BY lift ORDER BY session) AS nth FROM before b
        WHERE NOT EXISTS (SELECT 1 FROM labelled l WHERE l.lift = b.lift AND l.old = b.session)),
    paired AS (SELECT * FROM labelled UNION ALL SELECT n.lift, n.session, b.session FROM rest_now n JOIN rest_before b USING (lift, nth)),
    comparison AS (SELECT p.lift AS lift, n.date AS new, b.date AS old, b.block AS block, n.light <> b.light AS unlike, n.felt AND b.felt AS felt,
        CASE WHEN x.kind = 'Bodyweight' AND y.kind = 'Bodyweight' THEN (abs(x.added - y.added) >= ?4) * sign(x.added - y.added)
             WHEN x.mass IS NOT NULL AND y.mass IS NOT NULL THEN (abs(x.mass - y.mass) >= ?4) * sign(x.mass - y.mass)
             WHEN x.mass IS NOT NULL OR y.mass IS NOT NULL THEN NULL
             WHEN x.kind = 'Pin' AND y.kind = 'Pin' THEN sign(2 * sign(x.pin - y.pin) + sign(x.added - y.added))
             WHEN x.kind = 'Quote' AND y.kind = 'Quote' AND x.load = y.load THEN 0
             WHEN x.kind = 'None' AND y.kind = 'None' THEN 0 END AS load,
        CASE WHEN i.unit = j.unit THEN sign(
            (SELECT SUM(c.amount) FROM counted c WHERE c.session = i.session AND c.lift = i.lift AND c.nth <= MIN(i.n, j.n))
          - (SELECT SUM(c.amount) FROM counted c WHERE c.session = j.session AND c.lift = j.lift AND c.nth <= MIN(i.n, j.n))) END AS amount,
        sign(i.n - j.n) AS sets, i.effort IS NULL OR j.effort IS NULL OR i.effort = j.effort AS agree
        FROM paired p JOIN now n ON n.session = p.new AND n.lift = p.lift JOIN before b ON b.session = p.old AND b.lift = p.lift
        LEFT JOIN top x ON x.session = p.new AND x.lift = p.lift LEFT JOIN top y ON y.session = p.old AND y.lift = p.lift
        LEFT JOIN at_top i ON i.session = p.new AND i.lift = p.lift LEFT JOIN at_top j ON j.session = p.old AND j.lift = p.lift),
    ruled AS (SELECT *, CASE WHEN unlike OR COALESCE(load, amount, sets) IS NULL THEN 0
        WHEN load IS NOT NULL AND amount = 0 AND sets = 0 AND agree THEN 1
        WHEN felt THEN 2
        WHEN MAX(COALESCE(load, 0), COALESCE(amount, 0), COALESCE(sets, 0)) = 1
            AND MIN(COALESCE(load, 0), COALESCE(amount, 0), COALESCE(sets, 0)) = -1 THEN 4
        ELSE 3 END AS basis FROM comparison)
    SELECT lift, new, old, block, basis, CASE basis WHEN 0 THEN 'Unknown' WHEN 2 THEN '?' WHEN 4 THEN 'Mixed'
        ELSE CASE CASE basis WHEN 1 THEN load ELSE MAX(COALESCE(load, -1), COALESCE(amount, -1), COALESCE(sets, -1))
                + MIN(COALESCE(load, 1), COALESCE(amount, 1), COALESCE(sets, 1)) END
            WHEN 0 THEN 'Level' WHEN 1 THEN 'Ahead' WHEN 2 THEN 'Ahead' ELSE 'Behind' END END
    FROM ruled ORDER BY lift, new, old";

/// A pair: the lift, the days, the block then, and the rule with its verdict.
pub(super) struct Paired {
    names: (String, String, String),
    pub(super) block: u32,
    basis: u8,
    verdict: String,
}

impl Paired {
    /// Whether this is the verdict; nothing where it hangs on strength.
    pub(super) fn is(&self, verdict: Verdict) -> Option<bool> {
        (self.basis != 2).then(|| self.verdict == format!("{verdict:?}"))
    }
}

/// How many pairs have a verdict: at least, and at most.
pub(super) fn bounds(pairs: &[&Paired], verdict: Verdict) -> (u32, u32) {
    let count = |wanted: &[Option<bool>]| pairs.iter().filter(|pair| wanted.contains(&pair.is(verdict))).count() as u32;
    (count(&[Some(true)]), count(&[Some(true), None]))
}

impl Witness<'_> {
    /// The week of the last work inside a block.
    pub(super) fn last_week(&self) -> Option<(u32, u32)> {
        let query = "SELECT block, week FROM work WHERE date <= ?1 AND block IS NOT NULL ORDER BY session DESC LIMIT 1";
        self.all(query, &[&self.today], |row| Ok((row.get(0)?, row.get(1)?))).pop()
    }

    /// The week of a block that holds today, else that of the last work inside a block.
    pub(super) fn this_week(&self) -> Option<(u32, u32)> {
        let query = "SELECT id, CAST(julianday(?1) - julianday(starts) AS INT) / 7 + 1 FROM blocks
            WHERE starts <= ?1 AND (ends IS NULL OR ends >= ?1) ORDER BY id DESC LIMIT 1";
        let today = self.all(query, &[&self.today], |row| Ok((row.get(0)?, row.get(1)?))).pop();
        today.or_else(|| self.last_week())
    }

    /// The pairs of a week that have two sides.
    pub(super) fn pairs(&self, (block, week): (u32, u32)) -> Vec<Paired> {
        let close = self.close();
        let values: [&dyn ToSql; 4] = [&self.today, &block, &week, &close];
        self.all(PAIRS, &values, |row| {
            let names = (row.get(0)?, row.get(1)?, row.get(2)?);
            Ok(Paired { names, block: row.get(3)?, basis: row.get(4)?, verdict: row.get(5)? })
        })
    }
}

/// Holds every pair against SQLite: which sessions are paired, and the rule that gave the verdict, but where either
/// hangs on strength.
pub(super) fn check(of: &dyn Debug, answer: &Answer, pairs: &[Paired], findings: &mut Findings) {
    let days = |pair: &Pair| {
        let date = |side: &Option<Side>| side.as_ref().map(|side| side.date.to_string());
        Some((pair.lift.clone(), date(&pair.now)?, date(&pair.then)?))
    };
    let mut expected: BTreeMap<_, Vec<String>> = BTreeMap::new();
    let mut found: BTreeMap<_, Vec<String>> = BTreeMap::new();
    for pair in pairs {
        let verdict = if pair.basis == 2 { "?".to_owned() } else { format!("{} {}", pair.basis, pair.verdict) };
        expected.entry(pair.names.clone()).or_default().push(verdict);
    }
    for pair in &answer.pairs {
        if let (Some(key), Some(basis)) = (days(pair), pair.basis) {
            // Where strength is not known after all, a later rule is asked.
            let open = expected.get(&key).is_some_and(|all| all.contains(&"?".to_owned()));
            let verdict = if open && basis >= 2 { "?".to_owned() } else { format!("{basis} {:?}", pair.verdict) };
            found.entry(key).or_default().push(verdict);
        }
    }
    found.values_mut().chain(expected.values_mut()).for_each(|verdicts| verdicts.sort_unstable());
    findings.same("match", of, found, expected);
}
