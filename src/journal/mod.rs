//! A journal on disk: where it is, which pages it has, whose they are, and its settings. What a line
//! means is not known here.
//!
//! - `files.rs`: reading files, from disk or from memory
//! - `find.rs`: the root, and what lies below it
//! - `settings.rs`: `journal.yaml` and `lifter.yaml`, every key checked; `cautions.rs`: thresholds
//! - `mapping.rs`: which column of a table says what
//! - `yaml.rs`: YAML with the places of its keys and values
//! - `git.rs`: the files of a commit
//! - `lifters.rs`: which page is whose
//! - `open.rs`: all of it together
//! - `save.rs`: a page written whole or not at all

mod cautions;
mod files;
mod find;
mod git;
mod lifters;
mod mapping;
mod open;
mod save;
mod settings;
mod yaml;

pub use cautions::Cautions;
pub use files::{Disk, Files, Memory, Overlay};
pub use find::{NoRoot, find_root};
pub use git::{Commit, NoGit, Repository};
pub use lifters::{Lifter, NoLifter};
pub use mapping::{Field, Mapping, Source, mapping};
pub use open::{Journal, open};
pub use save::{NotSaved, create, replace, save};
pub use settings::{SETTINGS_FILE, Settings};
