//! Journals of several lifters: every column of the roster that a sum answers, and what `review` and `match` say of each.

use super::adherence::{LINES, TOLD};
use super::findings::{Findings, journals};
use super::witness::{Witness, sqlite};
use super::{cautions, matching};
use crate::support::generator::{self, Member, Team};
use crate::support::run;
use loadline::history::History;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::questions::r#match::{self, Verdict};
use loadline::questions::roster::{self, Line};
use rusqlite::{Connection, ToSql};
use serde_json::Value;
use std::collections::BTreeMap;

/// The columns that SQLite answers, in one shape for it, the library and JSON.
#[derive(Clone, Debug, PartialEq)]
struct Shown {
    name: String,
    folder: String,
    block: Option<String>,
    week: Option<u32>,
    last: Option<(String, i64)>,
    /// Planned sets of the week, and those that were done.
    sets: (u32, u32),
    /// Title, date and whole weeks.
    next: Option<(String, String, i64)>,
    left_out: u32,
}

/// The columns of which SQLite says at least so many, and at most.
#[derive(Clone, Debug)]
struct Counts {
    ahead: u32,
    level: u32,
    behind: u32,
    over: u32,
    cautions: Vec<String>,
}

/// The next meet or test day: the first of its kind, name and day on which nothing is written as done yet.
const NEXT: &str = "SELECT COALESCE(NULLIF(meet, ''), CASE WHEN meet IS NULL THEN 'test day' ELSE 'meet' END), date,
        CAST(julianday(date) - julianday(?1) AS INT) / 7
    FROM sessions s WHERE (meet IS NOT NULL OR test) AND (date > ?1 OR date = ?1 AND NOT EXISTS (SELECT 1 FROM sessions o
        JOIN sets ON sets.session = o.id WHERE o.date = s.date AND o.meet IS s.meet AND (o.meet IS NOT NULL OR o.test)))
    ORDER BY id LIMIT 1";

impl Witness<'_> {
    fn roster(&self, member: &Member) -> Shown {
        let last = self.all(
            "SELECT MAX(date), CAST(julianday(?1) - julianday(MAX(date)) AS INT) FROM work WHERE date <= ?1",
            &[&self.today],
            |row| Ok(row.get::<_, Option<String>>(0)?.zip(row.get(1)?)),
        );
        let key = self.this_week();
        let (block, week) = key.unzip();
        let close = self.close();
        let values: [&dyn ToSql; 6] = [&self.today, &block, &None::<String>, &None::<String>, &close, &week];
        let sums = format!(
            "WITH RECURSIVE {TOLD}, {LINES} SELECT COALESCE(SUM(planned), 0), COALESCE(SUM(reached), 0) FROM sums
                WHERE block = ?2 AND week = ?6"
        );
        Shown {
            name: member.name.to_owned(),
            folder: member.folder.trim_end_matches('/').to_owned(),
            block: block.map(|block| self.journal.blocks[block as usize].name.clone()),
            week,
            last: last.into_iter().next().flatten(),
            sets: self.all(&sums, &values, |row| Ok((row.get(0)?, row.get(1)?)))[0],
            next: self.all(NEXT, &[&self.today], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?))).pop(),
            left_out: 0,
        }
    }

    /// Holds counts against SQLite's.
    fn check_counts(&self, of: (u64, &str), counts: &Counts, findings: &mut Findings) {
        let pairs = self.this_week().map(|key| self.pairs(key)).unwrap_or_default();
        let pairs: Vec<&matching::Paired> = pairs.iter().collect();
        let mut within = |question: &'static str, number: u32, (least, most): (u32, u32)| {
            findings.same(question, &of, number.clamp(least, most), number);
        };
        within("ahead", counts.ahead, matching::bounds(&pairs, Verdict::Ahead));
        within("level", counts.level, matching::bounds(&pairs, Verdict::Level));
        within("behind", counts.behind, matching::bounds(&pairs, Verdict::Behind));
        within("over", counts.over, self.this_week().map_or((0, 0), |key| self.over_plan(key)));
        // A caution that SQLite cannot tell is one more at the most.
        let (found, unknown) = self.cautions();
        let tally = |texts: &[String]| {
            let mut all: BTreeMap<String, u32> = BTreeMap::new();
            texts.iter().for_each(|text| *all.entry(text.split(' ').next().unwrap_or("").to_owned()).or_default() += 1);
            all
        };
        let (sure, perhaps, program) = (tally(&found), tally(&unknown), tally(&counts.cautions));
        for name in cautions::COUNTED {
            let of_name = |all: &BTreeMap<String, u32>| all.get(name).copied().unwrap_or(0);
            within("cautions", of_name(&program), (of_name(&sure), of_name(&sure) + of_name(&perhaps)));
        }
    }
}

fn of_line(line: &Line) -> (Shown, Counts) {
    let shown = Shown {
        name: line.name.clone(),
        folder: line.folder.clone(),
        block: line.block.clone(),
        week: line.week,
        last: line.last.map(|last| last.to_string()).zip(line.days_since),
        sets: (line.sets_planned, line.sets_reached),
        next: line.next_meet.as_ref().map(|next| (next.title.clone(), next.date.to_string(), next.weeks)),
        left_out: line.left_out,
    };
    let cautions = line.cautions.iter().map(|name| (*name).to_owned()).collect();
    (shown, Counts { ahead: line.ahead, level: line.level, behind: line.behind, over: line.over_plan, cautions })
}

fn of_json(line: &Value) -> (Shown, Counts) {
    let text = |value: &Value| value.as_str().map(str::to_owned);
    let number = |key: &str| line[key].as_u64().unwrap() as u32;
    let next = &line["next_meet"];
    let shown = Shown {
        name: text(&line["name"]).unwrap(),
        folder: text(&line["folder"]).unwrap(),
        block: text(&line["block"]),
        week: line["week"].as_u64().map(|week| week as u32),
        last: text(&line["last"]).zip(line["days_since"].as_i64()),
        sets: (number("sets_planned"), number("sets_reached")),
        next: next
            .is_object()
            .then(|| (text(&next["title"]).unwrap(), text(&next["date"]).unwrap(), next["weeks"].as_i64().unwrap())),
        left_out: number("left_out"),
    };
    let cautions = line["cautions"].as_array().unwrap().iter().map(|name| text(name).unwrap()).collect();
    let [ahead, level, behind, over] = ["ahead", "level", "behind", "over_plan"].map(number);
    (shown, Counts { ahead, level, behind, over, cautions })
}

/// How often each matter came up, so that a test of nothing is seen.
type Seen = BTreeMap<String, u32>;

/// Holds each lifter of a journal against SQLite.
fn check(seed: u64, sql: &Connection, findings: &mut Findings, seen: &mut Seen) {
    let team = generator::team(seed);
    let files = team.files.iter().fold(Memory::default(), |files, (path, text)| files.with(path, text.as_bytes()));
    let opened = open(&files);
    assert!(opened.problems.is_empty(), "seed {seed}: {:?}", opened.problems);
    assert_eq!(opened.lifters.len(), team.members.len(), "seed {seed}");
    for member in &team.members {
        let of = (seed, member.name);
        let witness = Witness::new(sql, &member.journal);
        let lifter = opened.lifter(Some(member.name), None).unwrap();
        let reading = meaning::read(&files, lifter, opened.pages_of(lifter), Some(team.today));
        let history = History::new(&reading.log, &lifter.book, team.today);
        let (shown, counts) = of_line(&roster::line(&history, &lifter.folder));
        let expected = witness.roster(member);
        let mut saw = |what: &str, times: u32| *seen.entry(what.to_owned()).or_default() += times;
        saw("planned sets", expected.sets.0);
        saw("next meets", u32::from(expected.next.is_some()));
        saw("lifters without a week", u32::from(expected.week.is_none()));
        findings.same("roster", &of, shown, expected);
        witness.check_counts(of, &counts, findings);
        for text in cautions::check(&of, &history, &witness, findings) {
            saw(text.split(' ').next().unwrap(), 1);
        }
        if let Some(key) = witness.this_week() {
            let pairs = witness.pairs(key);
            for pair in &pairs {
                for verdict in [Verdict::Ahead, Verdict::Level, Verdict::Behind, Verdict::Mixed] {
                    saw(&format!("{verdict:?}"), u32::from(pair.is(verdict) == Some(true)));
                }
            }
            let ask = r#match::Ask {
                block: Some(loadline::training::BlockId(key.0)),
                week: Some(key.1),
                ..r#match::Ask::default()
            };
            matching::check(&of, &r#match::answer(&history, &ask), &pairs, findings);
        }
    }
}

#[test]
fn every_line_of_the_roster_is_what_sqlite_makes_of_the_rows() {
    // Two threads, as the journals are many and small.
    let halves = std::thread::scope(|scope| {
        let halves = [0, 1].map(|odd| {
            scope.spawn(move || {
                let (sql, mut findings, mut seen) = (sqlite(), Findings::default(), Seen::new());
                let seeds = (0..journals() / 2).filter(|seed| seed % 2 == odd);
                seeds.for_each(|seed| check(seed, &sql, &mut findings, &mut seen));
                findings.assert_none();
                seen
            })
        });
        halves.map(|half| half.join().unwrap())
    });
    let mut seen = Seen::new();
    halves.into_iter().flatten().for_each(|(matter, times)| *seen.entry(matter).or_default() += times);
    let matters = ["planned sets", "next meets", "lifters without a week", "Ahead", "Level", "Behind", "Mixed"];
    // What is rare comes up three times in two hundred journals.
    let least = journals() / 66;
    for matter in matters.into_iter().chain(cautions::COUNTED) {
        let times = u64::from(seen.get(matter).copied().unwrap_or(0));
        assert!(journals() < 200 || times >= least, "{matter} came up {times} times only: {seen:?}");
    }
}

/// The lifters' names in an order that SQLite gives them.
fn names(sql: &Connection, lines: &[(Shown, Counts)], order: &str) -> Vec<String> {
    sql.execute_batch(
        "CREATE TEMP TABLE lines (name TEXT, days INT, done REAL, behind INT, over INT, cautions INT, meet TEXT)",
    )
    .unwrap();
    for (shown, counts) in lines {
        let done = (shown.sets.0 > 0).then(|| shown.sets.1 * 100 / shown.sets.0);
        let (days, meet) = (shown.last.as_ref().map(|last| last.1), shown.next.as_ref().map(|next| &next.1));
        let values = (&shown.name, days, done, counts.behind, counts.over, counts.cautions.len() as u32, meet);
        sql.execute("INSERT INTO lines VALUES (?, ?, ?, ?, ?, ?, ?)", values).unwrap();
    }
    let query = format!("SELECT name FROM lines ORDER BY {order}, name COLLATE NOCASE");
    let found = sql.prepare(&query).unwrap().query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect();
    sql.execute_batch("DROP TABLE lines").unwrap();
    found
}

#[test]
fn the_roster_that_the_program_prints_is_what_sqlite_makes_of_the_rows() {
    let (sql, mut findings) = (sqlite(), Findings::default());
    for seed in 2000..2006 {
        let Team { files, today, members } = generator::team(seed);
        let mut disk = crate::support::journal::Journal::new();
        for (path, text) in &files {
            disk = disk.file(path, text);
        }
        let today = today.to_string();
        let ask = |sort: &str| run::json(disk.root(), &["roster", "--sort", sort, "--on", &today]);
        let lines = |answer: &Value| answer["lifters"].as_array().unwrap().iter().map(of_json).collect::<Vec<_>>();
        let by_name = lines(&ask("name"));
        assert_eq!(by_name.len(), members.len());
        for member in &members {
            let witness = Witness::new(&sql, &member.journal);
            let (shown, counts) = by_name.iter().find(|(shown, _)| shown.name == member.name).unwrap().clone();
            findings.same("roster", &(seed, member.name), shown, witness.roster(member));
            witness.check_counts((seed, member.name), &counts, &mut findings);
        }
        for (sort, order) in [
            ("name", "0 + 0"),
            ("since", "days IS NOT NULL, days DESC"),
            ("done", "done IS NULL, done"),
            ("behind", "behind DESC"),
            ("over", "over DESC"),
            ("cautions", "cautions DESC"),
            ("meet", "meet IS NULL, meet"),
        ] {
            let found: Vec<String> = lines(&ask(sort)).into_iter().map(|(shown, _)| shown.name).collect();
            findings.same("order", &(seed, sort), found, names(&sql, &by_name, order));
        }
    }
    findings.assert_none();
}
