//! Random merges, judged by a model that knows days and lines and nothing else: it shares no code with `merge`.

use crate::support::cases;
use loadline::journal::merge_lines;
use loadline::meaning::{Merged, merge};
use std::collections::{BTreeMap, BTreeSet};

/// A page: of each day its one line.
type Days = BTreeMap<u32, String>;

/// Numbers that look random and are the same every time (the constants of Knuth's MMIX, from memory).
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % u64::from(most)) as u32
    }

    fn line(&mut self) -> String {
        let lift = ["Back squat", "Bench press", "Deadlift", "Dip"][self.below(4) as usize];
        format!("- {lift}: {}x{} @ {} kg", 1 + self.below(5), 1 + self.below(12), 40 + 5 * self.below(30))
    }

    /// A version of a page: days taken out, changed and added.
    fn version(&mut self, base: &Days) -> Days {
        let mut days = base.clone();
        for _ in 0..self.below(4) {
            let day = 1 + self.below(28);
            match self.below(3) {
                0 => drop(days.remove(&day)),
                _ => drop(days.insert(day, self.line())),
            }
        }
        days
    }
}

fn page(days: &Days) -> String {
    let days: Vec<String> = days.iter().map(|(day, line)| format!("## 2026-03-{day:02}\n\n{line}\n")).collect();
    days.join("\n")
}

/// What a page says of each day, read as plainly as it was written.
fn said(page: &str) -> Days {
    let days = page.split("## 2026-03-").skip(1);
    days.map(|day| (day[..2].parse().unwrap(), day[2..].trim().to_owned())).collect()
}

/// What three versions of a day come to; nothing where only the lifter can say.
fn of_a_day<'d>(
    base: Option<&'d String>,
    ours: Option<&'d String>,
    theirs: Option<&'d String>,
) -> Option<Option<&'d String>> {
    match (ours == base, theirs == base) {
        (true, _) => Some(theirs),
        (_, true) => Some(ours),
        _ => (ours == theirs).then_some(ours),
    }
}

#[test]
fn a_merge_says_of_each_day_what_a_model_says() {
    let by_lines = |base: &[u8], ours: &[u8], theirs: &[u8]| {
        merge_lines(base, ours, theirs).map(|(bytes, settled)| Merged { bytes, settled })
    };
    let mut dice = Dice(20_261_125);
    let mut settled = 0;
    let cases = cases("LOADLINE_MERGES", 60);
    for case in 0..cases {
        let mut base = Days::new();
        for _ in 0..dice.below(9) {
            base.insert(1 + dice.below(28), dice.line());
        }
        let (ours, theirs) = (dice.version(&base), dice.version(&base));
        let days: BTreeSet<u32> = base.keys().chain(ours.keys()).chain(theirs.keys()).copied().collect();
        let model: Vec<(u32, Option<Option<&String>>)> =
            days.iter().map(|day| (*day, of_a_day(base.get(day), ours.get(day), theirs.get(day)))).collect();
        let merged = merge(page(&base).as_bytes(), page(&ours).as_bytes(), page(&theirs).as_bytes(), &by_lines);
        let text = String::from_utf8(merged.bytes).unwrap();
        let told =
            format!("case {case}\nbase\n{}ours\n{}theirs\n{}merged\n{text}", page(&base), page(&ours), page(&theirs));
        if model.iter().all(|(_, day)| day.is_some()) {
            let wanted: Days = model.into_iter().filter_map(|(day, line)| Some((day, line??.clone()))).collect();
            assert!(merged.settled, "{told}");
            assert_eq!(said(&text), wanted, "{told}");
            settled += 1;
        } else {
            assert!(!merged.settled, "{told}");
            let lines: BTreeSet<&str> = text.lines().collect();
            for (day, line) in ours.iter().chain(&theirs) {
                let gone =
                    of_a_day(base.get(day), ours.get(day), theirs.get(day)).is_some_and(|kept| kept != Some(line));
                assert!(gone || lines.contains(line.as_str()), "{line} is lost\n{told}");
            }
        }
    }
    assert!(settled * 4 > cases && settled < cases, "{settled} of {cases} settle themselves");
}
