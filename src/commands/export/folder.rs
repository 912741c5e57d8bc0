//! The folder of an export as Parquet: a file a lifter and year, each whole or not at all.

use crate::commands::outcome::Failure;
use crate::journal::replace;
use crate::present::rows::parquet::{FILE, Year, is_one, is_year_folder, year_folder};
use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};

/// Where it is, and what this export has put there.
pub(super) struct Folder {
    root: PathBuf,
    /// Of each lifter that is asked, by the name of the folder, the folders of the years that have rows.
    years: BTreeMap<String, BTreeSet<String>>,
}

impl Folder {
    /// A folder for these lifters, told by their own folders in it. It is made when there is something to put there.
    pub(super) fn of(root: &Path, lifters: impl Iterator<Item = String>) -> Result<Folder, Failure> {
        if root.metadata().is_ok_and(|found| !found.is_dir()) {
            return Err(Failure(format!("{} is no folder; name one for the files of Parquet", root.display())));
        }
        Ok(Folder { root: root.to_owned(), years: lifters.map(|lifter| (lifter, BTreeSet::new())).collect() })
    }

    /// Writes the rows of a lifter's year. Whatever stands there must be an older export.
    pub(super) fn put(&mut self, lifter: &str, year: &Year) -> Result<(), Failure> {
        let name = year_folder(year.year);
        let folder = self.root.join(lifter).join(&name);
        let file = folder.join(FILE);
        let shown = file.display().to_string();
        let is_there = match is_export(&file) {
            Ok(true) => true,
            Ok(false) => return Err(Failure(format!("{shown} is no export, so it stays; name another folder"))),
            Err(error) if error.kind() == ErrorKind::NotFound => false,
            Err(error) => return Err(Failure(format!("{shown} cannot be read: {error}"))),
        };
        if !is_there {
            self.make(&folder)?;
        }
        let saved = replace(&file, |out| out.write_all(&year.bytes));
        saved.map_err(|why| Failure::of_page(&shown, why))?;
        self.years.entry(lifter.to_owned()).or_default().insert(name);
        Ok(())
    }

    /// Makes the folder of a year. That in which all of them stand is made too, but none above it: it would be a slip.
    fn make(&self, folder: &Path) -> Result<(), Failure> {
        let made = match fs::create_dir(&self.root) {
            Err(error) if error.kind() == ErrorKind::NotFound => {
                let above = self.root.parent().unwrap_or(&self.root).display();
                return Err(Failure(format!("there is no folder {above}; make it first")));
            }
            Err(error) if error.kind() != ErrorKind::AlreadyExists => Err(error),
            _ => fs::create_dir_all(folder),
        };
        made.map_err(|error| Failure(format!("{} cannot be made: {error}", folder.display())))
    }

    /// Takes away what older exports left of these lifters in years that have no rows now, for whoever asks all files would
    /// count it. Nothing else goes.
    pub(super) fn clear(&self) -> Result<(), Failure> {
        for (lifter, years) in &self.years {
            let folder = self.root.join(lifter);
            for name in names(&folder).filter(|name| is_year_folder(name) && !years.contains(name)) {
                let file = folder.join(&name).join(FILE);
                if is_export(&file).is_ok_and(|is_one| is_one) {
                    fs::remove_file(&file)
                        .map_err(|error| Failure(format!("{} cannot be removed: {error}", file.display())))?;
                    // What else stands in it keeps it.
                    let _ = fs::remove_dir(folder.join(&name));
                }
            }
            let _ = fs::remove_dir(folder);
        }
        Ok(())
    }

    /// The folders of other lifters, of whom nothing was asked.
    pub(super) fn others(&self) -> Vec<String> {
        let is_other = |name: &String| name.starts_with("lifter=") && !self.years.contains_key(name);
        let mut others: Vec<String> = names(&self.root).filter(is_other).collect();
        others.sort();
        others
    }
}

/// The names in a folder; none where there is no such folder.
fn names(folder: &Path) -> impl Iterator<Item = String> + use<> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    entries.filter_map(|entry| entry.file_name().into_string().ok())
}

/// Whether a file is an export, or empty.
fn is_export(path: &Path) -> io::Result<bool> {
    // A pipe would be waited for, for ever.
    if !path.metadata()?.is_file() {
        return Ok(false);
    }
    let mut file = File::open(path)?;
    let length = file.metadata()?.len();
    let mut end = Vec::new();
    file.seek(SeekFrom::Start(length.saturating_sub(1000)))?;
    file.take(1000).read_to_end(&mut end)?;
    Ok(end.is_empty() || is_one(&end))
}
