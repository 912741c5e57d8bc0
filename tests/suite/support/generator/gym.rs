//! The gym that the pages are written for, and its settings.

use super::number::{KG, LB, decimal};
use super::random::Random;

/// The gym that the pages are written for.
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
}

impl Gym {
    pub(super) fn new(random: &mut Random, wild: bool) -> Self {
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
                gym.colours.clear();
                gym.step = 5 * LB;
                settings += "units: lb\n";
            }
        }
        if wild && random.chance(30) {
            gym.high_reps = random.within(6..=12);
            settings += &format!("high reps: {}\n", gym.high_reps);
        }
        if wild && random.chance(30) {
            gym.folder = "ilse/";
            let mut own = "name: Ilse\n".to_owned();
            if random.chance(50) {
                gym.high_reps = random.within(6..=12);
                own += &format!("high reps: {}\n", gym.high_reps);
            }
            gym.files.push(("ilse/lifter.yaml".into(), own));
        }
        gym.files.push(("journal.yaml".into(), settings));
        gym
    }
}
