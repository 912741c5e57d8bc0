//! Loads, in every spelling.

use super::book::{LIFTS, Style};
use super::model::Model;
use super::number::{KG, LB, decimal};
use super::row::Kind;

/// A load: what it comes to, how it is tidied, and how it is written here.
#[derive(Clone)]
pub(super) struct Load {
    pub(super) kind: Kind,
    /// Of masses the mass, of bodyweights and pins what is added.
    pub(super) mass: i64,
    pub(super) pin: i64,
    pub(super) text: Option<String>,
    pub(super) written: String,
    pub(super) approximate: bool,
    /// One mass with its unit, which may stand beside an `x`.
    pub(super) joins: bool,
}

impl Load {
    pub(super) fn none() -> Self {
        Load { kind: Kind::None, mass: 0, pin: 0, text: None, written: String::new(), approximate: false, joins: false }
    }

    pub(super) fn of(kind: Kind, mass: i64, text: String, written: String) -> Self {
        Load { kind, mass, text: Some(text), written, ..Load::none() }
    }

    pub(super) fn own() -> Self {
        Load::of(Kind::Bodyweight, 0, "bw".into(), "bw".into())
    }
}

impl Model {
    pub(super) fn load(&mut self, lift: usize, style: Style, block: Option<usize>) -> Load {
        let usual = LIFTS[self.lifts[lift].0].3;
        match style {
            Style::Barbell => {
                let maximum = block.and_then(|block| {
                    self.blocks[block].maxima.iter().find(|(at, _)| *at == lift).map(|(_, mass)| *mass)
                });
                if let Some(maximum) = maximum.filter(|_| self.random.chance(12)) {
                    let percent = self.random.within(120..=190) * 500;
                    let text = format!("{}%", decimal(i64::from(percent)));
                    let written = if self.wild(20) { text.replace('%', " %") } else { text.clone() };
                    let mass = i128::from(maximum) * i128::from(percent) / 100_000;
                    return Load::of(Kind::Mass, mass as i64, text, written);
                }
                let steps = if self.shape.plain { 3..=4 } else { 0..=6 };
                let kilos = usual + i64::from(self.random.within(steps)) * 5 - 15;
                self.bar_load(kilos)
            }
            Style::Dumbbells if self.chance(40) => {
                let each = usual + i64::from(self.random.within(0..=4)) * 2;
                Load::of(
                    Kind::Mass,
                    2 * each * KG,
                    format!("2x{each} kg"),
                    format!("2{}{each} kg", self.spell("x", &[" x ", "×"])),
                )
            }
            Style::Bodyweight if self.chance(3) => self.plain(usual * 1000, false),
            Style::Bodyweight if self.chance(5) => {
                let text = "bw - \"green band\"".to_owned();
                Load::of(Kind::Quote, 0, text.clone(), text)
            }
            Style::Bodyweight | Style::Hold | Style::Rollout => self.own_load(usual),
            Style::Stack => {
                let pin = i64::from(self.random.within(0..=4)) + usual;
                let added = if self.chance(25) { KG * 5 / 2 } else { 0 };
                let more = if added > 0 { " + 2.5 kg" } else { "" };
                let written = format!(
                    "{}{pin}{}",
                    self.spell("pin ", &["Pin ", "pin"]),
                    if added > 0 { self.spell(" + 2.5 kg", &["+2.5kg"]) } else { "" }
                );
                Load { pin: pin * 1000, ..Load::of(Kind::Pin, added, format!("pin {pin}{more}"), written) }
            }
            Style::Band => {
                let band = self.random.pick(&["blue band", "green band", "blue band, doubled"]);
                let written = if self.wild(30) { format!("“{band}”") } else { format!("\"{band}\"") };
                Load::of(Kind::Quote, 0, format!("\"{band}\""), written)
            }
            Style::Odd if self.chance(10) => {
                let text = "\"the old stone\"".to_owned();
                Load::of(Kind::Quote, 0, text.clone(), text)
            }
            _ => {
                let kilos = usual + i64::from(self.random.within(0..=4)) * 2;
                self.plain(kilos * 1000, true)
            }
        }
    }

    pub(super) fn own_load(&mut self, usual: i64) -> Load {
        let bw = self.spell("bw", &["BW", "Bw"]);
        let number = (usual + i64::from(self.random.within(1..=4)) * 5) * 1000 / 2;
        match self.random.below(10) {
            0..4 => Load::of(Kind::Bodyweight, 0, "bw".into(), bw.into()),
            4..6 if usual > 0 => {
                let text = format!("bw - {} kg", decimal(number));
                let written = format!(
                    "{bw}{}{}{}",
                    self.spell(" - ", &["-", " – ", " − "]),
                    decimal(number),
                    self.spell(" kg", &["kg"])
                );
                Load::of(Kind::Bodyweight, -number * (KG / 1000), text, written)
            }
            6 => {
                let text = format!("bw + {}", decimal(number));
                let unit = if self.gym.pounds { LB } else { KG };
                Load::of(Kind::Bodyweight, number * (unit / 1000), text.clone(), text.replace("bw", bw))
            }
            7 => Load::of(
                Kind::Bodyweight,
                25 * LB,
                "bw + 25 lb".into(),
                format!("{bw}{}25 lb", self.spell(" + ", &["+"])),
            ),
            _ => {
                let text = format!("bw + {} kg", decimal(number));
                let written = format!(
                    "{bw}{}{}{}",
                    self.spell(" + ", &["+", " +"]),
                    decimal(number),
                    self.spell(" kg", &["kg", "kgs"])
                );
                Load::of(Kind::Bodyweight, number * (KG / 1000), text, written)
            }
        }
    }

    /// What hangs on a bar, near so many kilograms.
    pub(super) fn bar_load(&mut self, kilos: i64) -> Load {
        match self.random.below(100) {
            0..8 => {
                let plates = (kilos - 20).max(10);
                let text = format!("45 lb + {plates} kg");
                let written = self.spaced(&text);
                Load::of(Kind::Mass, 45 * LB + plates * KG, text, written)
            }
            8..14 => {
                // Of a number without a unit: that of the mass before it.
                let text = format!("20 kg + {}", kilos - 20);
                let written = self.spaced(&text);
                Load::of(Kind::Mass, kilos * KG, text, written)
            }
            14..22 => {
                let (mut terms, mut mass) = (vec!["20 kg".to_owned()], 20 * KG);
                self.plates_by_mass(kilos, &mut terms, &mut mass);
                let text = terms.join(" + ");
                let written = self.spaced(&text);
                Load::of(Kind::Mass, mass, text, written)
            }
            22..32 => {
                let (name, bar) = self.random.pick(&self.gym.bars);
                let (mut terms, mut mass) = (vec![name.to_owned()], bar + self.gym.collars);
                if self.gym.colours.is_empty() || self.chance(30) {
                    self.plates_by_mass(kilos, &mut terms, &mut mass);
                } else {
                    let (colour, plate) = self.random.pick(&self.gym.colours);
                    let count = self.random.within(1..=3);
                    terms.push(if count == 1 && self.chance(50) {
                        format!("{colour}/side")
                    } else {
                        format!("{count} {colour}/side")
                    });
                    mass += 2 * i64::from(count) * plate;
                    if self.chance(30) {
                        terms.push("2.5 kg/side".into());
                        mass += 5 * KG;
                    }
                }
                let text = terms.join(" + ");
                let written = self.spaced(&text);
                Load::of(Kind::Mass, mass, text, written)
            }
            _ => {
                let finer = if self.chance(30) { i64::from(self.random.within(0..=3)) * 1250 } else { 0 };
                self.plain(kilos * 1000 + finer, true)
            }
        }
    }

    pub(super) fn plates_by_mass(&mut self, kilos: i64, terms: &mut Vec<String>, mass: &mut i64) {
        let mut side = (kilos - 20).max(5) * 500;
        for plate in [25_000, 15_000, 10_000, 5_000, 2_500] {
            let count = side / plate;
            side -= count * plate;
            match count {
                0 => {}
                1 => terms.push(format!("{} kg/side", decimal(plate))),
                _ => terms.push(format!("{count}x{} kg/side", decimal(plate))),
            }
            *mass += 2 * count * plate * (KG / 1000);
        }
    }

    /// A sum with other blanks.
    pub(super) fn spaced(&mut self, text: &str) -> String {
        match if self.wild(35) { self.random.below(4) } else { 9 } {
            0 => text.replace(" + ", "+"),
            1 => text.replace(" kg", "kg").replace(" lb", "lb"),
            2 => text.replace("kg", "KG"),
            3 => text.replace('x', " x ").replace("a x le", "axle"),
            _ => text.to_owned(),
        }
    }

    /// One mass in kilograms or pounds, near so many thousandths of a kilogram.
    pub(super) fn plain(&mut self, thousandths: i64, may_be_pounds: bool) -> Load {
        let pounds = may_be_pounds && self.chance(if self.gym.pounds { 60 } else { 12 });
        let number = if pounds { thousandths * 22 / 10 / 5000 * 5000 } else { thousandths };
        let (unit, word) = if pounds { (LB, "lb") } else { (KG, "kg") };
        // A lone number from 5 to 10 could be an effort.
        let bare = pounds == self.gym.pounds && !(5_000..=10_000).contains(&number) && self.wild(35);
        let approximate = self.chance(4);
        let shown = decimal(number);
        let written = if bare {
            shown.clone()
        } else {
            let blank = self.spell(" ", &["", "\u{a0}"]);
            let plural = if pounds { self.spell("lb", &["lbs", "LB"]) } else { self.spell("kg", &["kgs", "KG"]) };
            format!("{shown}{blank}{plural}")
        };
        let about = if approximate { self.spell("~", &["~ "]) } else { "" };
        let text = if bare { shown } else { format!("{shown} {word}") };
        Load {
            approximate,
            joins: !bare && !approximate,
            ..Load::of(
                Kind::Mass,
                number * (unit / 1000),
                if approximate { format!("~{text}") } else { text },
                format!("{about}{written}"),
            )
        }
    }
}
