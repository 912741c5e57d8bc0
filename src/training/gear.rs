//! The gym's bars and plates, and the steps that other weights go in.

use super::{Load, Mass, Unit, fold};
use schemars::JsonSchema;
use serde::Serialize;

/// A bar that loads name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Bar {
    /// Its name.
    pub name: String,
    /// Its mass, without collars.
    #[serde(rename = "kg")]
    pub mass: Mass,
}

/// Plates of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plate {
    /// The mass of one.
    pub mass: Mass,
    /// The mass as written in the settings.
    pub text: String,
    /// Its colour, where it has one.
    pub colour: Option<String>,
    /// Pairs owned; nothing for enough of them.
    pub pairs: Option<u32>,
}

/// Weights that go in steps of their own, from one to the next heavier one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// [`DUMBBELLS`], [`KETTLEBELLS`], or a lift.
    pub name: String,
    /// How much heavier the next one is.
    pub mass: Mass,
}

/// No two dumbbells that count as different loads lie further apart, in sizes.
const MOST_SIZES: u32 = 20;

/// The name of dumbbells among the steps.
pub const DUMBBELLS: &str = "dumbbells";
/// The name of kettlebells among the steps.
pub const KETTLEBELLS: &str = "kettlebells";

/// A gym by name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gym {
    /// Its name.
    pub name: String,
    /// Its bars and plates.
    pub gear: Gear,
}

/// The number of a gym among a lifter's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GymId(pub u16);

impl GymId {
    /// The gym of a name, whatever its case and blanks.
    pub fn named(gyms: &[Gym], name: &str) -> Option<GymId> {
        let name = fold(name);
        let at = gyms.iter().position(|gym| fold(&gym.name) == name)?;
        u16::try_from(at).ok().map(GymId)
    }
}

/// What can be hung on what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gear {
    /// Bars by name.
    pub bars: Vec<Bar>,
    /// Plates.
    pub plates: Vec<Plate>,
    /// The pair of collars, added to a bar loaded by name.
    pub collars: Mass,
    /// The smallest mass that can be added to a bar.
    pub step: Mass,
    /// Steps of weights that are no bar, in the order written.
    pub steps: Vec<Step>,
    /// From one dumbbell to the next where no step is given.
    pub dumbbell_step: Mass,
}

impl Gear {
    /// The gear of a gym that says nothing of its own: a bar of 20 kg or 45 lb, and enough of the usual plates.
    ///
    /// Bar, discs and the colours of 15 kg and more: IPF Technical Rules, equipment (from memory). The
    /// 10 kg green and 5 kg white are weightlifting's colours (from memory). The bar of 45 lb and the
    /// pound plates: common practice, no source.
    pub fn usual(units: Unit) -> Self {
        let plate = |thousandths, unit: Unit, colour: Option<&str>| Plate {
            mass: Mass::of(thousandths, unit),
            text: format!("{} {}", thousandths as f64 / 1000.0, unit.word()),
            colour: colour.map(str::to_owned),
            pairs: None,
        };
        let plates = match units {
            Unit::Kg => vec![
                plate(25_000, Unit::Kg, Some("red")),
                plate(20_000, Unit::Kg, Some("blue")),
                plate(15_000, Unit::Kg, Some("yellow")),
                plate(10_000, Unit::Kg, Some("green")),
                plate(5_000, Unit::Kg, Some("white")),
                plate(2_500, Unit::Kg, None),
                plate(1_250, Unit::Kg, None),
            ],
            Unit::Lb => [45_000, 35_000, 25_000, 10_000, 5_000, 2_500].map(|mass| plate(mass, Unit::Lb, None)).into(),
        };
        let (bar, step) = match units {
            Unit::Kg => (Mass::kg(20), Mass::of(2_500, Unit::Kg)),
            Unit::Lb => (Mass::of(45_000, Unit::Lb), Mass::of(5_000, Unit::Lb)),
        };
        Gear {
            bars: vec![Bar { name: "bar".into(), mass: bar }],
            plates,
            collars: Mass::ZERO,
            step,
            steps: Vec::new(),
            // Racks go up by 2 or 2.5 kg, or by 5 lb: common practice, no source.
            dumbbell_step: step,
        }
    }

    /// The step of a name, where one is given.
    fn step_named(&self, name: &str) -> Option<Mass> {
        let name = fold(name);
        self.steps.iter().find(|step| fold(&step.name) == name).map(|step| step.mass)
    }

    /// The least by which a load on a lift can go up: that of the lift where one is given; of dumbbells and kettlebells
    /// the next heavier ones, one for each that is lifted; else the smallest mass that can be added to a bar.
    ///
    /// A load such as `2x16 kg` is dumbbells, or kettlebells where the lift's name says so; one number is one of them
    /// where the name says which. Kettlebells go up by 4 kg (common practice, no source).
    pub fn step_of(&self, lift: &str, load: &Load) -> Mass {
        let pieces = load.pieces();
        if let Some(step) = self.step_named(lift) {
            return step;
        }
        let says = |words: &[&str]| lift.split([' ', '-']).any(|word| words.contains(&fold(word).as_str()));
        let each = if says(&["kettlebell", "kb"]) {
            self.step_named(KETTLEBELLS).unwrap_or(Mass::kg(4))
        } else if pieces.is_some() || says(&["dumbbell", "db"]) {
            self.step_named(DUMBBELLS).unwrap_or(self.dumbbell_step)
        } else {
            return self.step;
        };
        // Less than half a step of the bar counts as the same load.
        let all = each.times(pieces.unwrap_or(1));
        (1..=MOST_SIZES).map(|sizes| all.times(sizes)).find(|step| *step >= self.step.half()).unwrap_or(self.step)
    }

    /// The bar of a name.
    pub fn bar(&self, name: &str) -> Option<&Bar> {
        let name = fold(name);
        self.bars.iter().find(|bar| fold(&bar.name) == name)
    }

    /// The plate of a colour.
    pub fn colour(&self, colour: &str) -> Option<&Plate> {
        let colour = fold(colour);
        self.plates.iter().find(|plate| plate.colour.as_deref().is_some_and(|known| fold(known) == colour))
    }

    /// Every name a load may use: bars, then colours.
    pub fn names(&self) -> Vec<&str> {
        let bars = self.bars.iter().map(|bar| bar.name.as_str());
        bars.chain(self.plates.iter().filter_map(|plate| plate.colour.as_deref())).collect()
    }
}
