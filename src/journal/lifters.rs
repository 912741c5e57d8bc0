//! Which page is whose, and who is meant.

use super::Settings;
use super::settings::LIFTER_FILE;
use crate::notation::readings::Habits;
use crate::problems::nearest;
use crate::training::{Competitor, Gear, Gym, GymId, LiftBook, TaperBands, Thresholds, Unit, WarmUp, fold};
use std::collections::HashMap;
use std::sync::Arc;

/// A lifter: a folder of pages, and the settings that hold there.
#[derive(Clone, Debug)]
pub struct Lifter {
    /// The name, where there is one.
    pub name: Option<String>,
    /// The folder below the root; empty for the root itself.
    pub folder: String,
    /// Of loads written without a unit.
    pub units: Unit,
    /// The gym's bars and plates.
    pub gear: Gear,
    /// Other gyms.
    pub gyms: Vec<Gym>,
    /// The lift book with the settings' lifts in it: one for all lifters who add none of their own.
    pub book: Arc<LiftBook>,
    /// A set of this many reps or more is a high-rep set.
    pub high_reps: u32,
    /// From where on an answer cautions.
    pub thresholds: Thresholds,
    /// What the settings say of a peak or deload week.
    pub taper: TaperBands,
    /// The steps of a warm-up that nobody wrote.
    pub warm_up: WarmUp,
    /// Who competes in what.
    pub competitor: Competitor,
    /// What the lifter means by a line that can be read in several ways.
    pub habits: Habits,
    /// The sums of both files of settings, the journal's and the lifter's own: all of the above is as they say.
    pub sums: [[u64; 2]; 2],
}

/// High-rep sets begin at this many reps where the settings say nothing.
const HIGH_REPS: u32 = 8;

impl Lifter {
    /// The lifter of a folder: the journal's settings, and over them the lifter's own.
    pub(crate) fn new(folder: &str, journal: &Settings, own: &Settings, book: &Arc<LiftBook>) -> Self {
        let units = own.units.or(journal.units).unwrap_or(Unit::Kg);
        // Who says what hangs where they train is believed before the journal; a gym leaves out what is as at home.
        let gear = own.gear.over(journal.gear.over(Gear::usual(units)));
        let mut gyms: Vec<Gym> = Vec::new();
        for (name, said) in journal.gyms.iter().chain(&own.gyms) {
            let known = gyms.iter_mut().find(|gym| fold(&gym.name) == fold(name));
            let beneath = known.as_ref().map_or(&gear, |gym| &gym.gear).clone();
            let gym = Gym { name: name.clone(), gear: said.over(beneath) };
            match known {
                Some(known) => *known = gym,
                None => gyms.push(gym),
            }
        }
        let mut book = Arc::clone(book);
        for lift in &own.lifts {
            Arc::make_mut(&mut book).add(lift.clone());
        }
        let last = folder.rsplit('/').next().filter(|last| !last.is_empty());
        let said = own.cautions.iter().chain(&journal.cautions);
        let said = said.filter_map(|said| Some((said.name.clone(), said.thousandths?)));
        Lifter {
            name: own.name.clone().or_else(|| last.map(str::to_owned)),
            folder: folder.to_owned(),
            units,
            gear,
            gyms,
            book,
            high_reps: own.high_reps.or(journal.high_reps).unwrap_or(HIGH_REPS),
            thresholds: Thresholds(said.collect()),
            taper: own.taper.or(journal.taper),
            warm_up: own.warm_up.clone().or_else(|| journal.warm_up.clone()).unwrap_or_default(),
            competitor: own.competitor.clone(),
            habits: own.habits.clone(),
            sums: [journal.sum, own.sum],
        }
    }

    /// A gym of this lifter.
    ///
    /// # Errors
    /// [`NoGym`] names those that there are.
    pub fn gym(&self, name: &str) -> Result<GymId, NoGym> {
        GymId::named(&self.gyms, name).ok_or_else(|| {
            let names = || self.gyms.iter().map(|gym| gym.name.as_str());
            let near = nearest(name, names());
            let near = if near.is_empty() { names().collect() } else { near };
            NoGym { name: name.to_owned(), near: near.into_iter().map(str::to_owned).collect() }
        })
    }

    /// Whether a path below the root lies in the lifter's folder.
    pub fn holds(&self, path: &str) -> bool {
        self.folder.is_empty() || path.strip_prefix(&self.folder).is_some_and(|rest| rest.starts_with('/'))
    }

    /// Whether a name, or the folder's, is this lifter's.
    fn is_called(&self, name: &str) -> bool {
        let wanted = fold(name);
        let last = self.folder.rsplit('/').next().unwrap_or("");
        self.name.as_deref().is_some_and(|own| fold(own) == wanted)
            || (!last.is_empty() && fold(last) == wanted)
            || fold(&self.folder) == wanted
    }
}

/// The folder of a `lifter.yaml`.
pub(crate) fn folder_of(path: &str) -> Option<&str> {
    match path.rsplit_once('/') {
        Some((folder, LIFTER_FILE)) => Some(folder),
        None if path == LIFTER_FILE => Some(""),
        _ => None,
    }
}

/// Whose the pages are, by the lifters' folders: of a thousand lifters none is asked for each page.
pub(crate) struct Owners<'l>(HashMap<&'l str, usize>);

impl<'l> Owners<'l> {
    /// Of these lifters.
    pub(crate) fn new(lifters: &'l [Lifter]) -> Self {
        Owners(lifters.iter().enumerate().map(|(at, lifter)| (lifter.folder.as_str(), at)).collect())
    }

    /// The deepest lifter above a page.
    pub(crate) fn of(&self, path: &str) -> Option<usize> {
        let above = path.rmatch_indices('/').filter_map(|(at, _)| path.get(..at));
        above.chain([""]).find_map(|folder| self.0.get(folder).copied())
    }
}

/// No gym of that name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoGym {
    /// The name.
    pub name: String,
    /// Names like it, or all there are.
    pub near: Vec<String>,
}

/// Nobody, or too many.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoLifter {
    /// No lifter of that name.
    Unknown {
        /// The name.
        name: String,
        /// Names like it, or all there are.
        near: Vec<String>,
    },
    /// A name was given, and the journal has no lifter with one.
    Nameless {
        /// The name that was given.
        name: String,
    },
    /// Several lifters answer to the name.
    Ambiguous {
        /// The name.
        name: String,
        /// Their folders; empty for the journal's own.
        folders: Vec<String>,
    },
    /// Several lifters, and none is named.
    Several(Vec<String>),
}

/// The lifter who is meant: by name, by the folder one stands in, or the only one.
pub(crate) fn choose<'a>(
    lifters: &'a [Lifter],
    named: Option<&str>,
    standing_in: Option<&str>,
) -> Result<&'a Lifter, NoLifter> {
    let names = || -> Vec<String> {
        let names = lifters.iter().map(|lifter| lifter.name.clone().unwrap_or_else(|| lifter.folder.clone()));
        names.filter(|name| !name.is_empty()).collect()
    };
    if let Some(name) = named {
        // The folder of that very name is meant before any lifter of the name.
        if let Some(lifter) = lifters.iter().find(|lifter| !lifter.folder.is_empty() && lifter.folder == name) {
            return Ok(lifter);
        }
        let called: Vec<&Lifter> = lifters.iter().filter(|lifter| lifter.is_called(name)).collect();
        if called.len() > 1 {
            let folders = called.iter().map(|lifter| lifter.folder.clone()).collect();
            return Err(NoLifter::Ambiguous { name: name.to_owned(), folders });
        }
        return called.first().copied().ok_or_else(|| {
            let names = names();
            if names.is_empty() {
                return NoLifter::Nameless { name: name.to_owned() };
            }
            let near: Vec<String> =
                nearest(name, names.iter().map(String::as_str)).into_iter().map(str::to_owned).collect();
            NoLifter::Unknown { name: name.to_owned(), near: if near.is_empty() { names } else { near } }
        });
    }
    let here = standing_in.and_then(|path| {
        let inside = format!("{path}/");
        Owners::new(lifters).of(&inside)
    });
    match (here.and_then(|at| lifters.get(at)), lifters) {
        (Some(lifter), _) => Ok(lifter),
        (None, [only]) => Ok(only),
        (None, _) => Err(NoLifter::Several(names())),
    }
}
