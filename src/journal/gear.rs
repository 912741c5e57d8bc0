//! `gear:` and `gyms:`: bars, plates, collars and steps, where the lifters train and elsewhere.

use super::faults::{Faults, spelled};
use super::keys::{GearKey, PlateKey};
use super::yaml::Node;
use crate::problems::distance;
use crate::training::{Bar, DUMBBELLS, Gear, KETTLEBELLS, Mass, Plate, Step, fold};

/// What the settings say of one gym. Every key may be missing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct GearSaid {
    /// Bars by name.
    pub bars: Option<Vec<Bar>>,
    /// Plates owned.
    pub plates: Option<Vec<Plate>>,
    /// The pair of collars.
    pub collars: Option<Mass>,
    /// Steps of weights that are no bar.
    pub steps: Vec<Step>,
}

impl GearSaid {
    /// What is said here put over what holds otherwise.
    pub(super) fn over(&self, mut gear: Gear) -> Gear {
        if let Some(bars) = &self.bars {
            gear.bars.clone_from(bars);
        }
        if let Some(plates) = &self.plates {
            gear.plates.clone_from(plates);
            if let Some(smallest) = plates.iter().map(|plate| plate.mass).min() {
                gear.step = smallest.times(2);
            }
        }
        if !self.steps.is_empty() {
            gear.steps.clone_from(&self.steps);
        }
        gear.collars = self.collars.unwrap_or(gear.collars);
        gear
    }
}

/// The sums of a great many kinds of plates would fill the memory (common practice, no source).
const MOST_PLATES: usize = 100;
const PLATES_WANTED: &str = "a list of plates, such as `- { mass: 25 kg, colour: red, pairs: 5 }`";

/// Gyms by name. Of two names that are one but for case and blanks, the first holds.
pub(super) fn gyms<'v>(faults: &mut Faults<'v>, gyms: &Node<'v>) -> Vec<(String, GearSaid)> {
    const WANTED: &str = "gyms by name, such as { city gym: { bars: { bar: 45 lb } } }";
    if gyms.value.is_null() {
        return Vec::new();
    }
    let Some(entries) = gyms.entries() else {
        faults.wrong("gyms", gyms, WANTED);
        return Vec::new();
    };
    let mut read: Vec<(String, GearSaid)> = Vec::new();
    for (key, value) in entries {
        let Some(name) = key.text() else {
            faults.wrong("gyms", &key, WANTED);
            continue;
        };
        let gear = self::read(faults, name, &value);
        match read.iter().any(|(known, _)| fold(known) == fold(name)) {
            true => faults.wrong("gyms", &key, "another name: a gym above is called so already"),
            false => read.push((name.to_owned(), gear)),
        }
    }
    read
}

/// Bars, plates, collars and steps of one gym.
pub(super) fn read<'v>(faults: &mut Faults<'v>, name: &str, gear: &Node<'v>) -> GearSaid {
    let mut said = GearSaid::default();
    let Some(entries) = gear.entries() else {
        faults.wrong(name, gear, "bars:, plates:, collars: and steps: below it");
        return said;
    };
    for (key, value) in entries {
        let Some(key) = faults.key_of(&key) else { continue };
        match key {
            GearKey::Bars => said.bars = bars(faults, &value),
            GearKey::Steps => said.steps = steps(faults, &value),
            GearKey::Plates => match value.items() {
                Some(plates) => {
                    if let Some(more) = plates.get(MOST_PLATES) {
                        faults.wrong("plates", more, "no more than 100 kinds of plates; no gym has as many");
                    }
                    let plates = plates.iter().take(MOST_PLATES);
                    said.plates = Some(plates.filter_map(|one| plate(faults, one)).collect());
                }
                None => faults.wrong("plates", &value, PLATES_WANTED),
            },
            GearKey::Collars => match faults.mass(&value) {
                Some(mass) => said.collars = Some(mass),
                None => faults.wrong("collars", &value, "the mass of the pair, such as 5 kg"),
            },
        }
    }
    said
}

fn bars<'v>(faults: &mut Faults<'v>, bars: &Node<'v>) -> Option<Vec<Bar>> {
    let Some(entries) = bars.entries() else {
        faults.wrong("bars", bars, "bars by name, such as { bar: 20 kg }");
        return None;
    };
    let mut read = Vec::new();
    for (key, value) in entries {
        match (key.value.as_str(), faults.mass(&value)) {
            (Some(name), Some(mass)) => read.push(Bar { name: name.into(), mass }),
            (Some(name), None) => faults.wrong(name, &value, "a mass, such as 20 kg"),
            (None, _) => faults.wrong("bars", &key, "bars by name, such as { bar: 20 kg }"),
        }
    }
    Some(read)
}

fn steps<'v>(faults: &mut Faults<'v>, steps: &Node<'v>) -> Vec<Step> {
    const WANTED: &str = "steps by name, such as { dumbbells: 2 kg, Lat pulldown: 5 kg }";
    let Some(entries) = steps.entries() else {
        faults.wrong("steps", steps, WANTED);
        return Vec::new();
    };
    let mut read = Vec::new();
    for (key, value) in entries {
        let Some(name) = key.value.as_str() else {
            faults.wrong("steps", &key, WANTED);
            continue;
        };
        // Any other name may be a lift's, but not one that is a slip of the finger away.
        let known = [DUMBBELLS, KETTLEBELLS];
        if known.iter().any(|known| distance(name, known) <= 2) && !faults.knows(&key, &known) {
            continue;
        }
        match faults.mass(&value).filter(|mass| *mass > Mass::ZERO) {
            Some(mass) => read.push(Step { name: name.into(), mass }),
            None => faults.wrong(name, &value, "how much heavier the next one is, such as 2 kg"),
        }
    }
    read
}

fn plate<'v>(faults: &mut Faults<'v>, plate: &Node<'v>) -> Option<Plate> {
    let Some(entries) = plate.entries() else {
        faults.wrong("plates", plate, PLATES_WANTED);
        return None;
    };
    let known = entries.iter().filter_map(|(key, value)| Some((faults.key_of::<PlateKey>(key)?, value)));
    let known: Vec<(PlateKey, &Node<'v>)> = known.collect();
    let Some((_, mass)) = known.iter().find(|(key, _)| *key == PlateKey::Mass) else {
        // A key that is none may be the one that is missing.
        if known.len() == entries.len() {
            faults.wrong("plates", plate, PLATES_WANTED);
        }
        return None;
    };
    let text = spelled(mass.value);
    let Some(of_one) = faults.mass(mass).filter(|mass| *mass > Mass::ZERO) else {
        faults.wrong("mass", mass, "the mass of one plate, such as 25 kg");
        return None;
    };
    let mut plate = Plate { mass: of_one, text, colour: None, pairs: None };
    for (key, value) in known {
        let wanted = match key {
            PlateKey::Mass => continue,
            PlateKey::Colour => {
                plate.colour = value.text().map(str::to_owned);
                plate.colour.is_none().then_some("a colour, such as red")
            }
            PlateKey::Pairs => {
                plate.pairs = value.number(0, 1000);
                plate.pairs.is_none().then_some("how many pairs, such as 5")
            }
        };
        if let Some(wanted) = wanted {
            faults.wrong(key.word(), value, wanted);
        }
    }
    Some(plate)
}
