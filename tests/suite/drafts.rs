//! What holds for any draft: it reads back without a problem, `as planned` does all of it, and every load on a bar is
//! one that the gym can make.

use crate::support::{cases, generator};
use chrono::{Days, NaiveDate};
use loadline::history::History;
use loadline::journal::{Lifter, Memory, open};
use loadline::meaning::{self, Reading};
use loadline::present::pages;
use loadline::problems::ProblemKind;
use loadline::questions::adherence;
use loadline::questions::draft::{self, Answer, WhyNot, block, week};
use loadline::training::{
    Amount, Effort, Family, Fit, Lift, Load, Loadable, Mass, Plan, PlannedGroup, Session, Status, Work,
};

fn rpe(points: i64) -> Effort {
    Effort::rpe(points * 1000, points * 1000)
}

/// The page that the draft is put to.
const PAGE: &str = "zz draft.md";

struct Journal {
    files: Memory,
    /// The folder of the lifter, with its stroke.
    folder: String,
}

impl Journal {
    fn read(&self, check_on: Option<NaiveDate>) -> (Reading, Lifter) {
        let opened = open(&self.files);
        let lifter = opened.lifter(None, None).unwrap().clone();
        (meaning::read(&self.files, &lifter, opened.pages_of(&lifter), check_on), lifter)
    }

    fn with(&self, page: &str) -> Journal {
        let path = format!("{}{PAGE}", self.folder);
        Journal { files: self.files.clone().with(&path, page), folder: self.folder.clone() }
    }
}

fn generated(seed: u64) -> (Journal, NaiveDate) {
    let journal = generator::journal(seed);
    let files = journal.files.iter().fold(Memory::default(), |files, (path, text)| files.with(path, text.as_bytes()));
    let opened = open(&files);
    let folder = opened.lifter(None, None).unwrap().folder.clone();
    let folder = if folder.is_empty() { folder } else { format!("{folder}/") };
    (Journal { files, folder }, journal.today)
}

/// Problems and what they are of, without the draft's own page.
fn on_the_draft(reading: &Reading) -> Vec<String> {
    let own = reading.problems.iter().filter(|(page, _)| reading.log.page_path(*page).ends_with(PAGE));
    own.map(|(_, problem)| format!("{:?}", problem.kind)).collect()
}

fn sessions(reading: &Reading) -> Vec<&Session> {
    reading.log.sessions.iter().filter(|session| reading.log.page_path(session.page).ends_with(PAGE)).collect()
}

/// Every set of a plan: load and amount.
fn sets_of_plan(plan: &Plan) -> Vec<(Load, Amount)> {
    let of_group = |group: &PlannedGroup| {
        assert_eq!(group.fewest, group.most, "{plan:?}");
        assert_eq!(group.amounts.most(), Some(group.amounts.least()), "{plan:?}");
        vec![(group.load.clone(), group.amounts.least()); group.fewest as usize]
    };
    plan.groups.iter().flat_map(of_group).collect()
}

fn sets_of_work(work: &Work) -> Vec<(Load, Amount)> {
    work.groups.iter().flat_map(|group| group.sets().map(|set| (group.load.clone(), set.amount))).collect()
}

/// Every planned set of the draft was reached, with the load that was planned.
fn adheres(seed: u64, page: &str, done: &Reading, lifter: &Lifter, answer: &Answer) {
    let last = answer.sessions.last().map(|session| session.date);
    let Some(last) = last else { return };
    let history = History::new(&done.log, &lifter.book, last);
    let since = answer.sessions.first().map(|session| session.date);
    let by = adherence::By::Lift;
    let ask = adherence::Ask { by, block: None, week: None, lift: None, since, until: Some(last) };
    let lines = adherence::answer(&history, &ask).lines;
    let own: Vec<_> = lines.iter().filter(|line| line.at.place.page.ends_with(PAGE)).collect();
    assert_eq!(
        own.len(),
        answer.sessions.iter().map(|session| session.works.len()).sum::<usize>(),
        "seed {seed}\n{page}"
    );
    for line in own {
        let sums = &line.sums;
        assert_eq!(
            (sums.sets_reached, sums.sets_done),
            (sums.sets_planned, sums.sets_planned),
            "seed {seed}: {line:?}\n{page}"
        );
        assert_eq!((sums.loads.lighter, sums.loads.heavier), (0, 0), "seed {seed}: {line:?}");
    }
}

/// The page is spelled as `tidy` spells it.
fn is_tidy(seed: u64, journal: &Journal, page: &str) {
    let journal = journal.with(page);
    let opened = open(&journal.files);
    let lifter = opened.lifter(None, None).unwrap();
    let of_draft = |path: &str| path.ends_with(PAGE);
    let tidied = meaning::tidy(&journal.files, lifter, &opened.pages_of(lifter), &of_draft, false, None);
    let revised: Vec<String> =
        tidied.revisions.iter().map(|one| String::from_utf8_lossy(one.after.bytes()).into_owned()).collect();
    assert_eq!(revised, [""; 0], "seed {seed}\n{page}");
}

/// The draft reads back as what it is, and done as planned it is done whole.
fn reads_back(seed: u64, journal: &Journal, answer: &Answer, machine_date: NaiveDate) {
    let page = pages::draft::page(answer);
    let (planned, _) = journal.with(&page).read(Some(machine_date));
    assert_eq!(on_the_draft(&planned), [""; 0], "seed {seed}\n{page}");
    is_tidy(seed, journal, &page);
    let read = sessions(&planned);
    assert_eq!(read.len(), answer.sessions.len(), "seed {seed}\n{page}");
    for drafted in &answer.sessions {
        let session = read
            .iter()
            .find(|session| session.date == drafted.date && session.day.as_deref() == drafted.day.as_deref())
            .unwrap_or_else(|| panic!("seed {seed}: {} {:?}\n{page}", drafted.date, drafted.day));
        if answer.of.kind == draft::Kind::Week {
            let id = session.block.unwrap_or_else(|| panic!("seed {seed}\n{page}"));
            assert_eq!(
                (&planned.log.block(id).unwrap().name, session.week),
                (&answer.of.block, Some(answer.of.week)),
                "seed {seed}\n{page}"
            );
        }
        let works: Vec<&Work> = read
            .iter()
            .filter(|session| session.date == drafted.date && session.day.as_deref() == drafted.day.as_deref())
            .flat_map(|session| &session.works)
            .collect();
        for work in &drafted.works {
            let sets: Vec<_> = work
                .groups
                .iter()
                .flat_map(|group| {
                    vec![(group.load.text_with_unit(), group.amounts, group.bouts.clone()); group.fewest as usize]
                })
                .collect();
            let same = |read: &&&Work| {
                let plan = read.plan().unwrap_or_else(|| panic!("seed {seed}: {}\n{page}", work.lift));
                let groups = plan.groups.iter();
                let of =
                    groups.flat_map(|g| vec![(g.load.text_with_unit(), g.amounts, g.bouts.clone()); g.fewest as usize]);
                planned.log.lift_name(read.lift) == work.lift && of.collect::<Vec<_>>() == sets
            };
            assert!(works.iter().any(|read| same(&read)), "seed {seed}: {}\n{page}", work.lift);
        }
    }
    let done = page.replace(":\n  - plan", ": as planned\n  - plan");
    // Without the warnings about work that is done: a leap in the load may well have been planned.
    let (done, lifter) = journal.with(&done).read(None);
    assert_eq!(on_the_draft(&done), [""; 0], "seed {seed}\n{page}");
    adheres(seed, &page, &done, &lifter, answer);
    for work in sessions(&done).iter().flat_map(|session| &session.works) {
        assert_eq!(work.status, Status::AsPlanned);
        for ((planned, amount), (load, done)) in sets_of_plan(work.plan().unwrap()).into_iter().zip(sets_of_work(work))
        {
            assert_eq!(amount, done, "seed {seed}\n{page}");
            assert!(planned == load || planned == Load::None, "seed {seed}: {planned:?} {load:?}\n{page}");
        }
        assert_eq!(sets_of_plan(work.plan().unwrap()).len(), sets_of_work(work).len(), "seed {seed}\n{page}");
    }
}

fn gram() -> Mass {
    Mass::of(1, loadline::training::Unit::Kg)
}

/// Every load is made by the gym's plates on one of its bars, or is one that the lifter wrote for that lift.
fn is_loadable(seed: u64, reading: &Reading, lifter: &Lifter, answer: &Answer) -> usize {
    let mut on_bars = 0;
    for work in answer.sessions.iter().flat_map(|session| &session.works) {
        let written = |group: &PlannedGroup| {
            let load = &group.load;
            let sessions = reading.log.sessions.iter();
            let works = sessions.flat_map(|session| &session.works);
            let of_lift = works.filter(|other| reading.log.lift_name(other.lift) == work.lift);
            of_lift.into_iter().any(|other| {
                let planned = other.plan().into_iter().flat_map(|plan| plan.groups.iter().map(|group| &group.load));
                other.groups.iter().map(|group| &group.load).chain(planned).any(|known| {
                    let mass = |load: &Load| load.kilograms(None);
                    // A percentage is planned as the mass it came to, to the gram.
                    let step = lifter.gear.step_of(&work.lift, load);
                    // A dumbbell of another size is so many steps from one that was lifted.
                    let carried =
                        |lift: &Lift| lift.name == work.lift && matches!(lift.family, Family::Carry | Family::Trunk);
                    let by_hand =
                        group.per_side || work.lift.contains("Dumbbell") || reading.log.lifts.iter().any(carried);
                    let is_size = known.pieces() == load.pieces() && (load.pieces().is_some() || by_hand);
                    known == load
                        || mass(known).zip(mass(load)).is_some_and(|(one, other)| {
                            let apart = one.apart(other);
                            apart <= gram() || is_size && apart.nearest(step).apart(apart) <= gram()
                        })
                })
            })
        };
        for group in &work.groups {
            // A share of a maximum is hung as near as the plates come.
            let is_share = group.load.text().is_some_and(|text| text.ends_with('%'));
            let Some(mass) = group.load.kilograms(None).filter(|_| !is_share) else { continue };
            let makes = |bar| matches!(Loadable::up_to(mass, bar, &lifter.gear).fit(mass), Fit::Exact(_));
            let is_made = lifter.gear.bars.iter().any(makes);
            on_bars += usize::from(is_made);
            assert!(is_made || written(group), "seed {seed}: {} {:?}", work.lift, group.load);
        }
    }
    on_bars
}

/// Lines lost at random: whatever they leave is drafted, or it is said why not.
#[test]
fn a_draft_of_a_damaged_journal_reads_back() {
    let mut drafts = 0;
    for seed in seeds() {
        let journal = generator::journal(seed);
        let every = 5 + seed as usize % 11;
        let damaged = |text: &str| -> String {
            let kept = text.lines().enumerate().filter(|(at, _)| at % every != seed as usize % every);
            kept.map(|(_, line)| format!("{line}\n")).collect()
        };
        let files = journal.files.iter().fold(Memory::default(), |files, (path, text)| {
            let text = if path.ends_with(".md") { damaged(text) } else { text.clone() };
            files.with(path, text.as_bytes())
        });
        let folder = open(&files).lifter(None, None).unwrap().folder.clone();
        let folder = if folder.is_empty() { folder } else { format!("{folder}/") };
        let (journal, today) = (Journal { files, folder }, journal.today);
        let (reading, lifter) = journal.read(Some(today));
        let history = History::new(&reading.log, &lifter.book, today);
        let whole = seed % 2 == 0;
        let block = block::answer(&history, &block::Ask { reps: Some(5), whole, ..block::Ask::default() });
        for answer in
            [week::answer(&history, week::Ask { cap: rpe(9), week: None, starts: None }), block].into_iter().flatten()
        {
            // A new block ends the one before it, and sessions may lie outside that one then.
            let outside = |kind: &ProblemKind| matches!(kind, ProblemKind::SessionOutsideBlock { .. });
            let without =
                |reading: &Reading| reading.problems.iter().filter(|(_, problem)| !outside(&problem.kind)).count();
            let (with, _) = journal.with(&pages::draft::page(&answer)).read(Some(today));
            assert_eq!(on_the_draft(&with), [""; 0], "seed {seed}");
            assert!(without(&with) <= without(&reading), "seed {seed}");
            // A session that the journal has for that day already may be one with the drafted one.
            let there = answer.already.len() + answer.fills.len();
            let apart = answer.sessions.len().saturating_sub(there)..=answer.sessions.len();
            assert!(apart.contains(&sessions(&with).len()), "seed {seed}");
            drafts += 1;
        }
    }
    assert!(drafts > 50, "{drafts} drafts");
}

/// Seeded journals in every legal spelling: so many, or as many as `LOADLINE_JOURNALS` asks for.
fn seeds() -> std::ops::Range<u64> {
    0..cases("LOADLINE_JOURNALS", 60) as u64
}

#[test]
fn every_draft_of_any_journal_reads_back_and_can_be_loaded() {
    let (mut weeks, mut blocks, mut wholes, mut on_bars) = (0, 0, 0, 0);
    for seed in seeds() {
        let (journal, today) = generated(seed);
        let (reading, lifter) = journal.read(Some(today));
        let history = History::new(&reading.log, &lifter.book, today);
        let caps = [7, 8, 9, 10].map(rpe);
        let next_week =
            week::answer(&history, week::Ask { cap: caps[seed as usize % caps.len()], week: None, starts: None });
        let reps = [None, Some(3), Some(8), Some(12)][seed as usize % 4];
        let last = reading.log.blocks.iter().map(|block| block.ends.unwrap_or(block.starts)).max();
        let starts = last.map(|last| last.max(today) + Days::new(seed % 9 + 1));
        let whole = seed % 3 > 0;
        let next_block = block::answer(&history, &block::Ask { reps, weeks: Some(4), starts, name: None, whole });
        for (answer, count) in [(next_week, &mut weeks), (next_block, &mut blocks)] {
            match answer {
                // A session that the journal has for that day already is one with the drafted one.
                Ok(answer) if !answer.already.is_empty() || !answer.fills.is_empty() => {}
                Ok(answer) => {
                    reads_back(seed, &journal, &answer, today);
                    on_bars += is_loadable(seed, &reading, &lifter, &answer);
                    *count += 1;
                    wholes += usize::from(answer.is_whole());
                }
                Err(why) => assert!(
                    matches!(
                        why,
                        WhyNot::NoBlock
                            | WhyNot::BlockOver { .. }
                            | WhyNot::NoTraining { .. }
                            | WhyNot::OnlyMeets
                            | WhyNot::NotBegun { .. }
                            | WhyNot::Overlaps { .. }
                    ),
                    "seed {seed}: {why:?}"
                ),
            }
        }
    }
    // A law that nothing comes under proves nothing.
    let counts = format!("{weeks} weeks, {blocks} blocks, {wholes} of them whole, {on_bars} loads on bars");
    assert!(weeks > 15 && blocks > 30 && wholes > 20 && on_bars > 150, "{counts}");
}

/// The first week of a whole block is done; the loads of the second are put into its plans, and the page reads as before.
#[test]
fn the_loads_put_into_a_planned_week_are_read_and_can_be_loaded() {
    let (mut fills, mut on_bars) = (0, 0);
    for seed in seeds() {
        let (journal, today) = generated(seed);
        let (reading, lifter) = journal.read(Some(today));
        let history = History::new(&reading.log, &lifter.book, today);
        let last = reading.log.blocks.iter().map(|block| block.ends.unwrap_or(block.starts)).max();
        let Some(starts) = last.map(|last| last.max(today) + Days::new(seed % 9 + 1)) else { continue };
        let ask = block::Ask { weeks: Some(3), starts: Some(starts), whole: true, ..block::Ask::default() };
        let Ok(answer) = block::answer(&history, &ask) else { continue };
        let second = answer.sessions.iter().map(|session| session.date).find(|date| *date >= starts + Days::new(7));
        let Some(second) = second.filter(|_| answer.already.is_empty()) else { continue };
        let page = pages::draft::page(&answer);
        let at = page.find(&format!("## {second}")).unwrap();
        let first_week = page[..at].replace(":\n  - plan", ": as planned RPE 7\n  - plan");
        let trained = journal.with(&format!("{first_week}{}", &page[at..]));
        let on = starts + Days::new(6);
        let (before, lifter) = trained.read(Some(on));
        let ask = week::Ask { cap: rpe(9), week: Some(2), starts: None };
        let Ok(filled) = week::answer(&History::new(&before.log, &lifter.book, on), ask) else { continue };
        let loads = |page: &str, line: u32| {
            let fill = filled.fills.iter().find(|fill| *fill.place.page == *page && fill.place.line == line)?;
            Some(fill.loads.clone())
        };
        let opened = open(&trained.files);
        let revisions = meaning::hang(&trained.files, &opened.pages_of(&lifter), &loads);
        let changed: usize = revisions.iter().map(|one| one.edits().len()).sum();
        assert_eq!(changed, filled.fills.len(), "seed {seed}");
        for revision in &revisions {
            assert!(revision.before.path().ends_with(PAGE), "seed {seed}: {}", revision.before.path());
            let (after, _) = journal.with(revision.after.text()).read(Some(on));
            assert_eq!(on_the_draft(&after), on_the_draft(&before), "seed {seed}\n{}", revision.after.text());
            assert_eq!(sessions(&after).len(), sessions(&before).len(), "seed {seed}");
        }
        on_bars += is_loadable(seed, &before, &lifter, &filled);
        fills += changed;
    }
    assert!(fills > 50 && on_bars > 50, "{fills} plans filled, {on_bars} loads on bars");
}
