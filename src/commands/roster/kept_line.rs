//! A line of the roster as it is kept, exact to the last bit: JSON of answers is rounded, and read by people's programs.

use crate::analysis::weight_class::ToClass;
use crate::questions::review::{Caution, rule};
use crate::questions::roster::{Line, Next, Pain};
use crate::source::Place;
use crate::training::{Bodyweight, Figure, Mass};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// The line. Numbers with decimals are kept as their bits.
#[derive(Serialize, Deserialize)]
pub(super) struct KeptLine {
    name: String,
    folder: String,
    block: Option<String>,
    week: Option<u32>,
    last: Option<NaiveDate>,
    days_since: Option<i64>,
    sets: (u32, u32, Option<u32>),
    lifts: [u32; 3],
    over_plan: u32,
    pains: Vec<(String, u64, NaiveDate)>,
    cautions: Vec<KeptCaution>,
    next_meet: Option<(String, NaiveDate, i64)>,
    weight_class: Option<KeptClass>,
    left_out: u32,
}

#[derive(Serialize, Deserialize)]
struct KeptCaution {
    name: String,
    date: NaiveDate,
    about: Option<String>,
    found: u64,
    threshold: u64,
    message: String,
    places: Vec<(String, u32)>,
    is_new: bool,
}

#[derive(Serialize, Deserialize)]
struct KeptClass {
    class: String,
    limit: i64,
    open: bool,
    bodyweight: Option<(i64, NaiveDate)>,
    over: Option<i64>,
}

impl From<&Line> for KeptLine {
    /// Each field by its name, so that a new one cannot be left out.
    fn from(line: &Line) -> Self {
        let Line {
            name,
            folder,
            block,
            week,
            last,
            days_since,
            sets_planned,
            sets_reached,
            percent,
            ahead,
            level,
            behind,
            over_plan,
            pains,
            // The names of those that are told.
            cautions: _,
            told,
            next_meet,
            weight_class,
            left_out,
        } = line.clone();
        let pain = |Pain { site, of_ten, date }| (site, of_ten.0.to_bits(), date);
        KeptLine {
            name,
            folder,
            block,
            week,
            last,
            days_since,
            sets: (sets_planned, sets_reached, percent),
            lifts: [ahead, level, behind],
            over_plan,
            pains: pains.into_iter().map(pain).collect(),
            cautions: told.into_iter().map(KeptCaution::of).collect(),
            next_meet: next_meet.map(|Next { title, date, weeks }| (title, date, weeks)),
            weight_class: weight_class.map(KeptClass::of),
            left_out,
        }
    }
}

impl KeptLine {
    /// The line again; nothing where it names a caution that there is not.
    pub(super) fn line(&self) -> Option<Line> {
        let told: Vec<Caution> = self.cautions.iter().map(KeptCaution::caution).collect::<Option<_>>()?;
        let (sets_planned, sets_reached, percent) = self.sets;
        let [ahead, level, behind] = self.lifts;
        let pain = |(site, bits, date): &(String, u64, NaiveDate)| Pain {
            site: site.clone(),
            of_ten: Figure(f64::from_bits(*bits)),
            date: *date,
        };
        Some(Line {
            name: self.name.clone(),
            folder: self.folder.clone(),
            block: self.block.clone(),
            week: self.week,
            last: self.last,
            days_since: self.days_since,
            sets_planned,
            sets_reached,
            percent,
            ahead,
            level,
            behind,
            over_plan: self.over_plan,
            pains: self.pains.iter().map(pain).collect(),
            cautions: told.iter().map(|caution| caution.name).collect(),
            told,
            next_meet: self.next_meet.clone().map(|(title, date, weeks)| Next { title, date, weeks }),
            weight_class: self.weight_class.as_ref().map(KeptClass::class),
            left_out: self.left_out,
        })
    }
}

impl KeptCaution {
    fn of(caution: Caution) -> Self {
        // What it is counted in is its rule's.
        let Caution { name, date, about, found, threshold, unit: _, message, places, is_new } = caution;
        let places = places.into_iter().map(|Place { page, line }| (page.to_string(), line)).collect();
        let (name, found, threshold) = (name.to_owned(), found.0.to_bits(), threshold.0.to_bits());
        KeptCaution { name, date, about, found, threshold, message, places, is_new }
    }

    fn caution(&self) -> Option<Caution> {
        let rule = rule(&self.name)?;
        let place = |(page, line): &(String, u32)| Place { page: page.as_str().into(), line: *line };
        Some(Caution {
            name: rule.name(),
            date: self.date,
            about: self.about.clone(),
            found: Figure(f64::from_bits(self.found)),
            threshold: Figure(f64::from_bits(self.threshold)),
            unit: rule.threshold.unit,
            message: self.message.clone(),
            places: self.places.iter().map(place).collect(),
            is_new: self.is_new,
        })
    }
}

impl KeptClass {
    fn of(to: ToClass) -> Self {
        let ToClass { class, limit, open, bodyweight, over } = to;
        KeptClass {
            class,
            limit: limit.exact(),
            open,
            bodyweight: bodyweight.map(|Bodyweight { mass, date }| (mass.exact(), date)),
            over: over.map(Mass::exact),
        }
    }

    fn class(&self) -> ToClass {
        ToClass {
            class: self.class.clone(),
            limit: Mass::of_exact(self.limit),
            open: self.open,
            bodyweight: self.bodyweight.map(|(mass, date)| Bodyweight { mass: Mass::of_exact(mass), date }),
            over: self.over.map(Mass::of_exact),
        }
    }
}
