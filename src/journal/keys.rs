//! The keys of settings files. What reads them and what makes their schemas asks every one of these, so that a new one can be
//! forgotten nowhere.

use crate::training::words;

words! {
    /// A key of `journal.yaml` or `lifter.yaml`, in the order in which they are offered.
    pub enum SettingKey {
        /// The lifter's name.
        Name = "name",
        /// Of loads written without a unit.
        Units = "units",
        /// Bars and plates where the lifters train.
        Gear = "gear",
        /// Those of other gyms.
        Gyms = "gyms",
        /// Of which classes a total is scored.
        Sex = "sex",
        /// In what kit the lifter competes.
        Equipment = "equipment",
        /// The weight class.
        Class = "class",
        /// Which lifts count at a meet.
        MeetLifts = "meet lifts",
        /// Lifts added or overridden.
        Lifts = "lifts",
        /// From how many reps on a set is a high-rep set.
        HighReps = "high reps",
        /// From where on an answer cautions.
        Cautions = "cautions",
        /// What a peak or deload week cuts.
        Taper = "taper",
        /// The steps of a warm-up that nobody wrote.
        WarmUp = "warm-up",
        /// What is no page.
        Exclude = "exclude",
        /// What is meant by lines that can be read in several ways.
        Habits = "habits",
    }
}

impl SettingKey {
    /// The keys that a settings file may have.
    pub(super) fn of(of_lifter: bool) -> impl Iterator<Item = SettingKey> {
        SettingKey::ALL.into_iter().filter(move |key| match key {
            SettingKey::Exclude => !of_lifter,
            SettingKey::Name
            | SettingKey::Sex
            | SettingKey::Equipment
            | SettingKey::Class
            | SettingKey::MeetLifts
            | SettingKey::Habits => of_lifter,
            SettingKey::Units
            | SettingKey::Gear
            | SettingKey::Gyms
            | SettingKey::Lifts
            | SettingKey::HighReps
            | SettingKey::Cautions
            | SettingKey::Taper
            | SettingKey::WarmUp => true,
        })
    }
}

words! {
    /// A key of what hangs in a gym.
    pub enum GearKey {
        /// Bars by name.
        Bars = "bars",
        /// Plates owned.
        Plates = "plates",
        /// The pair of collars.
        Collars = "collars",
        /// Steps of weights that are no bar.
        Steps = "steps",
    }
}

words! {
    /// A key of a kind of plate.
    pub enum PlateKey {
        /// Of one plate.
        Mass = "mass",
        /// What it looks like.
        Colour = "colour",
        /// How many of them there are.
        Pairs = "pairs",
    }
}

words! {
    /// A key of a lift that is added.
    pub enum LiftKey {
        /// The name.
        Name = "name",
        /// What kind of movement.
        Family = "family",
        /// Other names.
        Also = "also",
        /// Whether its default load is the lifter's own weight.
        Bodyweight = "bodyweight",
        /// Whether it is worked one side at a time.
        OneSide = "one side",
        /// Whether a bar is loaded for it.
        Bar = "bar",
        /// Whether it is held.
        Held = "held",
        /// Whether it is carried.
        Carried = "carried",
    }
}

words! {
    /// A key below `habits:`.
    pub enum HabitKey {
        /// `8x3` beside a load.
        Count = "count",
        /// `40x12` with no load near.
        BeforeX = "before x",
        /// `60x8x3`.
        ThreeNumbers = "three numbers",
        /// `@8`.
        AtSign = "at sign",
        /// `80,5`.
        Comma = "comma",
        /// `3/5`: month and day, and the year that is left out.
        Dates = "dates",
        /// Short forms of lifts.
        Names = "names",
        /// Words of other tongues and of one's own.
        Words = "words",
    }
}
