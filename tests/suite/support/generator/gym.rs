//! The gym that the pages are written for, and its settings.

use super::number::{KG, LB, decimal, half};
use super::random::Random;

/// From where on there is a caution, in the rows' units.
#[derive(Clone, Copy, Debug)]
pub struct Watch {
    /// Quarter points over a planned effort, and under it.
    pub over: u32,
    pub under: u32,
    /// Percent.
    pub load_jump: u32,
    pub sets_at_rpe_6: u32,
    /// Weeks.
    pub deload: u32,
    pub high_missing: u32,
    pub high_near: u32,
    pub skipped: u32,
    /// Sessions of the last five.
    pub same_fault: u32,
    /// Days.
    pub pain: u32,
}

/// What holds where the settings say nothing, as `docs/cautions.md` has it.
const WATCH: Watch = Watch {
    over: 4,
    under: 8,
    load_jump: 10,
    sets_at_rpe_6: 50,
    deload: 8,
    high_missing: 8,
    high_near: 4,
    skipped: 3,
    same_fault: 3,
    pain: 14,
};

impl Watch {
    /// Thresholds of a lifter's own, and the line of the settings that sets them.
    pub(super) fn own(random: &mut Random) -> (Watch, String) {
        let watch = Watch {
            over: 2 * random.within(1..=4),
            under: 2 * random.within(2..=5),
            load_jump: random.within(2..=30),
            sets_at_rpe_6: random.within(10..=90),
            deload: random.within(1..=6),
            high_missing: random.within(1..=6),
            high_near: random.within(1..=8),
            skipped: random.within(2..=3),
            same_fault: random.within(2..=4),
            pain: random.within(1..=20),
        };
        let line = format!(
            "cautions: {{ over-plan: {}, far-under-plan: {}, load-jump: {}, sets-rise: {}, deload-overdue: {}, \
             high-reps-missing: {}, high-reps-near-meet: {}, planned-and-skipped: {}, same-fault: {}, pain-again: {} }}\n",
            half(watch.over / 2),
            half(watch.under / 2),
            watch.load_jump,
            watch.sets_at_rpe_6,
            watch.deload,
            watch.high_missing,
            watch.high_near,
            watch.skipped,
            watch.same_fault,
            watch.pain
        );
        (watch, line)
    }
}

/// The gym that the pages are written for.
#[derive(Clone)]
pub(super) struct Gym {
    pub(super) pounds: bool,
    pub(super) bars: Vec<(&'static str, i64)>,
    pub(super) colours: Vec<(&'static str, i64)>,
    pub(super) collars: i64,
    pub(super) step: i64,
    pub(super) high_reps: u32,
    /// The lifter's folder with a `/`, or nothing.
    pub(super) folder: &'static str,
    pub(super) files: Vec<(String, String)>,
    pub(super) watch: Watch,
}

impl Gym {
    /// A lifter's gym, which may have the lifter's own settings.
    pub(super) fn new(random: &mut Random, wild: bool) -> Self {
        let mut gym = Gym::shared(random, wild);
        if wild && random.chance(30) {
            gym.folder = "ilse/";
            let mut own = "name: Ilse\n".to_owned();
            if random.chance(50) {
                gym.high_reps = random.within(6..=12);
                own += &format!("high reps: {}\n", gym.high_reps);
            }
            gym.files.insert(0, ("ilse/lifter.yaml".into(), own));
        }
        gym
    }

    /// A gym for one lifter or several.
    pub(super) fn shared(random: &mut Random, wild: bool) -> Self {
        let colours =
            vec![("red", 25 * KG), ("blue", 20 * KG), ("yellow", 15 * KG), ("green", 10 * KG), ("white", 5 * KG)];
        let mut gym = Gym {
            pounds: false,
            bars: vec![("bar", 20 * KG)],
            colours,
            collars: 0,
            step: KG * 5 / 2,
            high_reps: 8,
            folder: "",
            files: Vec::new(),
            watch: WATCH,
        };
        let lifts = "lifts:\n  - { name: Ring row, family: horizontal pull, also: [strap row], bodyweight: true }\n  \
                     - { name: Slope march, family: carry, also: [bank march] }\n";
        let mut settings = lifts.to_owned();
        match if wild { random.below(4) } else { 1 } {
            0 => {}
            1 | 2 => {
                gym.bars = vec![("bar", 20 * KG), ("trap bar", 45 * LB), ("axle", KG * 25 / 2)];
                gym.colours = vec![("red", 25 * KG), ("blue", 20 * KG), ("violet", 35 * LB), ("grey", KG * 5 / 2)];
                gym.collars = random.pick(&[0, KG * 5 / 2, 5 * KG]);
                gym.step = 2 * KG;
                settings += "gear:\n  bars: { bar: 20 kg, trap bar: 45 lb, axle: 12.5 kg }\n  plates:\n    \
                             - { mass: 25 kg, colour: red }\n    - { mass: 20 kg, colour: blue, pairs: 4 }\n    \
                             - { mass: 35 lb, colour: violet }\n    - { mass: 2.5 kg, colour: grey }\n    - { mass: 1 kg }\n";
                settings += &format!("  collars: {} kg\n", decimal(gym.collars / (KG / 1000)));
            }
            _ => {
                gym.pounds = true;
                gym.bars = vec![("bar", 45 * LB)];
                gym.colours.clear();
                gym.step = 5 * LB;
                settings += "units: lb\n";
            }
        }
        if wild && random.chance(30) {
            gym.high_reps = random.within(6..=12);
            settings += &format!("high reps: {}\n", gym.high_reps);
        }
        gym.files.push(("journal.yaml".into(), settings));
        gym
    }
}
