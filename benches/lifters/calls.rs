//! How often what `match` and `meet` say comes true.

use super::lifter::{Kind, Lifter, WEEKS};
use super::measure::with_history;
use super::page::{date, page};
use super::random::Random;
use loadline::questions::{r#match, meet};
use loadline::training::{BlockId, Figure, Mass, Unit};
use std::fmt::Write;

/// How strength moves, against a week four weeks before.
pub const MOVES: [Kind; 4] = [
    Kind { name: "drifts by 1 % a week", drift: 0.01, gain: 0.0, ..Kind::PUBLISHED },
    Kind { name: "gains 0.3 % a week", drift: 0.004, gain: 0.003, ..Kind::PUBLISHED },
    Kind { name: "hardly moves", drift: 0.003, gain: 0.0003, ..Kind::PUBLISHED },
    Kind { name: "as published", ..Kind::PUBLISHED },
];

/// Chances of being ahead, and whether that was so; a line of the table for each kind and one for the tenths of all.
pub fn matches(lifters: u32) -> String {
    let mut table = "| strength | called | right | Brier | of a coin |\n| --- | --- | --- | --- | --- |\n".to_owned();
    let mut tenths = [(0.0, 0.0); 10];
    for kind in MOVES {
        let (mut count, mut called, mut right, mut brier) = (0.0, 0.0, 0.0, 0.0);
        for nth in 0..lifters {
            let mut random = Random::new(7_000_003 + u64::from(nth));
            let days = Lifter::drawn(kind, &mut random).train(8, &mut random);
            with_history(page(&days), |history| {
                for (block, week) in [(2, 3), (4, 0), (5, 3), (7, 1)] {
                    let now = (block * WEEKS + week) as usize;
                    let then = now - WEEKS as usize;
                    let history = history.as_of(date(days[now].day));
                    let ask = r#match::Ask { block: Some(BlockId(block)), week: Some(week + 1), ..Default::default() };
                    let answer = r#match::answer(&history, &ask);
                    let Some(Figure(chance)) = answer.pairs.first().and_then(|pair| pair.chance_ahead) else {
                        continue;
                    };
                    let ahead = days[now].truth > days[then].truth;
                    count += 1.0;
                    brier += (chance - f64::from(u8::from(ahead))).powi(2);
                    let tenth = &mut tenths[((chance * 10.0) as usize).min(9)];
                    *tenth = (tenth.0 + 1.0, tenth.1 + f64::from(u8::from(ahead)));
                    if !(0.2..0.8).contains(&chance) {
                        called += 1.0;
                        right += f64::from(u8::from(ahead == (chance > 0.5)));
                    }
                }
            });
        }
        let cells = [
            kind.name.to_owned(),
            format!("{:.0} %", 100.0 * called / count),
            format!("{:.0} %", 100.0 * right / called),
            format!("{:.2}", brier / count),
            "0.25".to_owned(),
        ];
        writeln!(table, "| {} |", cells.join(" | ")).unwrap();
    }
    let tenths = tenths.map(|(count, ahead)| format!("{:.0}", 100.0 * ahead / count)).join(" | ");
    write!(
        table,
        "\n| said, in a hundred | 0–9 | 10–19 | 20–29 | 30–39 | 40–49 | 50–59 | 60–69 | 70–79 | 80–89 | 90–99 |\n\
         | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n| ahead | {tenths} |\n"
    )
    .unwrap();
    table
}

/// A third attempt at each of these chances, and how often it was made, six days after the last block.
pub fn attempts(kinds: &[Kind], lifters: u32) -> String {
    let mut table = "| lifters | 95 % | 75 % | 50 % | 25 % |\n| --- | --- | --- | --- | --- |\n".to_owned();
    let mut pooled = [(0.0, 0.0); 4];
    for kind in kinds {
        let mut made = [(0.0, 0.0); 4];
        for nth in 0..lifters {
            let mut random = Random::new(8_000_003 + u64::from(nth));
            let mut lifter = Lifter::drawn(*kind, &mut random);
            let days = lifter.train(6, &mut random);
            let (last, truth) = days.last().map(|day| (day.day, day.truth)).unwrap();
            let meet = format!("## {} meet X\n\n- Back squat:\n", date(last + 6));
            with_history(format!("{}{meet}", page(&days)), |history| {
                let then = history.as_of(date(last));
                for (chance, made) in [0.95, 0.75, 0.5, 0.25].into_iter().zip(&mut made) {
                    let step = Mass::of(500, Unit::Kg);
                    let wanted = meet::Wanted { chance, step, over_best: 50 };
                    let ask = meet::Ask { meet: then.next_meet(), wanted, points: meet::Formula::IpfGl };
                    let plan = meet::answer(&then, &ask).meet.unwrap().plan.unwrap();
                    let Some(third) = plan.lifts[0].attempts.get(2) else { continue };
                    let load = third.load.in_kilograms();
                    *made = (made.0 + 1.0, made.1 + f64::from(u8::from(lifter.makes(load, truth, &mut random))));
                }
            });
        }
        for (all, made) in pooled.iter_mut().zip(made) {
            *all = (all.0 + made.0, all.1 + made.1);
        }
        writeln!(table, "| {} | {} |", kind.name, shares(made)).unwrap();
    }
    writeln!(table, "| all of these | {} |", shares(pooled)).unwrap();
    table
}

fn shares(made: [(f64, f64); 4]) -> String {
    made.map(|(count, made)| format!("{:.0}", 100.0 * made / count)).join(" | ")
}
