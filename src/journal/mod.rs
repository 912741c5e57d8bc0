//! A journal on disk: where it is, which pages it has, whose they are, and its settings. What a line
//! means is not known here.
//!
//! - `files.rs`: reading files, from disk or from memory
//! - `find.rs`: the root, and what lies below it
//! - `settings.rs`: `journal.yaml` and `lifter.yaml`, every key checked but the
//!   names of cautions; `keys.rs`: the keys that there are; `taper.rs`: what a peak or deload week cuts
//! - `habits.rs`: what a lifter means by lines that can be read in several ways; `weight_class.rs`: the class of a meet
//! - `gear.rs`: bars and plates, at home and in other gyms; `faults.rs`: what is wrong with a key or a value
//! - `warm_up.rs`: the steps of a warm-up
//! - `mapping.rs`: which column of a table says what
//! - `yaml.rs`: YAML with the places of its keys and values
//! - `git.rs`: the files of a commit; `line_merge.rs`: a text merged line by line
//! - `lift_added.rs`: a lift written into the settings; `lift_names.rs`: where settings name lifts
//! - `lifters.rs`: which page is whose
//! - `stamp.rs`: how a file is known again without being read; `digest.rs`: a sum by which things are known again
//! - `open.rs`: all of it together
//! - `save.rs`: a page written whole or not at all; `write_ahead.rs`: several of them; `staging.rs`: the folder they are made
//!   ready in

mod digest;
mod faults;
mod files;
mod find;
mod gear;
mod git;
mod habits;
mod keys;
mod lift_added;
mod lift_names;
mod lifters;
mod line_merge;
mod mapping;
mod open;
mod save;
mod settings;
mod staging;
mod stamp;
mod taper;
mod warm_up;
mod weight_class;
mod write_ahead;
mod yaml;

pub use digest::Digest;
pub use files::{Disk, Files, Listing, Memory, Overlay};
pub use find::{NoRoot, find_root};
pub use gear::GearSaid;
pub use git::{Commit, NoGit, Repository};
pub use keys::{GearKey, HabitKey, LiftKey, PlateKey, SettingKey};
pub use lift_added::{is_settings, lift_added};
pub use lift_names::{LiftName, lift_names, lift_written};
pub use lifters::{Lifter, NoGym, NoLifter};
pub use line_merge::merge_lines;
pub use mapping::{Field, Mapping, Source, mapping};
pub use open::{Journal, is_read, open};
pub use save::{NotSaved, create, create_all, finish, replace, save};
pub use settings::LIFTER_FILE;
pub use settings::{SETTINGS_FILE, Said, Settings, caution_places, lifter_settings, setting_keys};
pub use staging::NAME as STAGING;
pub use stamp::Stamp;
pub use taper::names as taper_keys;
pub use write_ahead::{NotAllSaved, Resumed, Writing, resume, save_all};
