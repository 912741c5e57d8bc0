//! How many cautions two years of sensible training raise: a lifter who deloads every fourth week, plans each line and
//! writes down how hard it was.

use super::measure::with_history;
use super::page::date;
use super::random::Random;
use loadline::questions::review::{self, Ask};
use std::collections::BTreeMap;
use std::fmt::Write;

/// The lifts of three days, as shares of the squat, and whether each is a main one.
const DAYS: [[(&str, f64, bool); 4]; 3] = [
    [
        ("Back squat", 1.0, true),
        ("Bench press", 0.68, true),
        ("Barbell row", 0.55, false),
        ("Biceps curl", 0.25, false),
    ],
    [("Deadlift", 1.2, true), ("Overhead press", 0.42, true), ("Leg press", 1.6, false), ("Barbell row", 0.55, false)],
    [
        ("Back squat", 0.97, true),
        ("Bench press", 0.66, true),
        ("Romanian deadlift", 0.9, false),
        ("Biceps curl", 0.25, false),
    ],
];

/// Two years of pages; the squat's maximum at the beginning, which grows by so much a year.
fn pages(squat: f64, gain: f64, random: &mut Random) -> String {
    let mut page = String::new();
    for week in 0..104_u32 {
        let (block, in_block) = (week / 4, week % 4);
        if in_block == 0 {
            let starts = date(week * 7);
            writeln!(page, "# Block {}\n\n- starts: {starts}\n- weeks: 4\n- deload: week 4\n", block + 1).unwrap();
        }
        let strength = squat * (gain * f64::from(week) / 52.0).exp();
        for (nth, day) in DAYS.iter().enumerate() {
            writeln!(page, "## {}\n", date(week * 7 + 2 * nth as u32)).unwrap();
            let form = random.normal(0.0, 0.02);
            for (lift, share, main) in day {
                let reps = if *main { [5, 4, 8][block as usize % 3] } else { 10 };
                let left = [3.5, 2.5, 1.5, 4.5][in_block as usize];
                let (sets, cut) = if in_block == 3 { (2, 0.9) } else { (4, 1.0) };
                let maximum = strength * share;
                let load = |maximum: f64, reps: f64| maximum / (1.0 + (reps - 1.0) * 0.03);
                let plate = |load: f64| ((load / 2.5).round() * 2.5).max(20.0);
                let planned = plate(cut * load(maximum, f64::from(reps) + left));
                let to_failure = (maximum * (1.0 + form) / planned - 1.0) / 0.03 + 1.0;
                let felt = to_failure - f64::from(reps) + random.normal(0.0, 0.7);
                let rpe = ((10.0 - felt) * 2.0).round() / 2.0;
                let plan = 10.0 - left;
                writeln!(page, "- {lift}: {sets}x{reps} @ {planned} kg RPE {}", rpe.clamp(5.0, 10.0)).unwrap();
                writeln!(page, "  - plan: {sets}x{reps} @ {planned} kg RPE {}-{}", plan - 0.5, plan + 0.5).unwrap();
            }
            page.push('\n');
        }
    }
    page
}

/// Of each kind of lifter how many are new in two weeks, how many Sundays have a new one, and of what names they are.
pub fn reviews(lifters: u32) -> String {
    let mut table =
        "| lifter | new in two weeks | Sundays without a new one | of which |\n| --- | --- | --- | --- |\n".to_owned();
    for (name, squat, gain) in [("strong, squats 200 kg", 200.0, 0.03), ("small, squats 60 kg", 60.0, 0.08)] {
        let (mut sundays, mut quiet) = (0_u32, 0_u32);
        let mut names: BTreeMap<&str, u32> = BTreeMap::new();
        for nth in 0..lifters {
            let page = pages(squat, gain, &mut Random::new(9_000_003 + u64::from(nth)));
            with_history(page, |history| {
                for week in 4..104 {
                    let answer = review::answer(&history.as_of(date(week * 7 + 6)), &Ask::default());
                    let new: Vec<&str> = answer.cautions.iter().filter(|one| one.is_new).map(|one| one.name).collect();
                    sundays += 1;
                    quiet += u32::from(new.is_empty());
                    new.into_iter().for_each(|name| *names.entry(name).or_default() += 1);
                }
            });
        }
        let per_two_weeks = |count: u32| 2.0 * f64::from(count) / f64::from(sundays);
        let of: Vec<String> =
            names.iter().map(|(name, count)| format!("{name} {:.2}", per_two_weeks(*count))).collect();
        writeln!(
            table,
            "| {name} | {:.2} | {:.0} % | {} |",
            per_two_weeks(names.values().sum()),
            100.0 * f64::from(quiet) / f64::from(sundays),
            of.join(", ")
        )
        .unwrap();
    }
    table
}
