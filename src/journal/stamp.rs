//! How a file is known again without being read.

use std::path::Path;
use std::time::{Duration, SystemTime};

/// What the system says of a file that could be read at that moment. A save changes it, a rename of another file to this
/// place, and also a change of who may read it; the time of the last change cannot be set back as that of the last save can.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stamp {
    file: [u64; 2],
    size: u64,
    saved: SystemTime,
    changed: SystemTime,
}

/// Two saves within this time may leave the same stamp: the coarsest clock of a file system in use, FAT's, counts every
/// second second (Microsoft's description of FAT; from memory, high confidence).
const GRAIN: Duration = Duration::from_secs(2);

impl Stamp {
    /// That of a file; nothing for one that cannot be read, nor on a system that does not say enough.
    #[cfg(unix)]
    pub fn of(place: &Path) -> Option<Stamp> {
        use std::os::unix::fs::MetadataExt;
        // Opening a pipe would wait for ever.
        if !std::fs::metadata(place).ok()?.is_file() {
            return None;
        }
        // Only opening tells whether it may be read.
        let found = std::fs::File::open(place).and_then(|file| file.metadata()).ok()?;
        let at = |seconds: i64, nanos: i64| {
            let past = Duration::new(u64::try_from(seconds).ok()?, u32::try_from(nanos).ok()?);
            SystemTime::UNIX_EPOCH.checked_add(past)
        };
        Some(Stamp {
            file: [found.dev(), found.ino()],
            size: found.len(),
            saved: at(found.mtime(), found.mtime_nsec())?,
            changed: at(found.ctime(), found.ctime_nsec())?,
        })
    }

    /// That of a file; nothing for one that cannot be read, nor on a system that does not say enough.
    #[cfg(not(unix))]
    pub fn of(_: &Path) -> Option<Stamp> {
        None
    }

    /// Whether a save after that moment must leave another stamp. Never where the stamp is of a time to come: a clock was
    /// set back.
    pub fn has_settled(&self, by: SystemTime) -> bool {
        let latest = self.saved.max(self.changed).checked_add(GRAIN);
        latest.is_some_and(|latest| latest <= by)
    }
}

#[cfg(all(test, unix))]
mod tests {
    use super::{GRAIN, Stamp};
    use std::fs::{self, File};
    use std::time::{Duration, SystemTime};

    #[test]
    fn each_way_of_changing_a_file_leaves_another_stamp() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let page = folder.path().join("page.md");
        let written = |text: &str| fs::write(&page, text).unwrap();
        let set_back =
            || File::options().append(true).open(&page).unwrap().set_modified(SystemTime::UNIX_EPOCH).unwrap();
        // The clock that stamps files ticks every few milliseconds.
        let stamp = || {
            std::thread::sleep(Duration::from_millis(20));
            Stamp::of(&page).unwrap()
        };
        written("one");
        set_back();
        let mut seen = vec![stamp()];
        assert_eq!(stamp(), seen[0]);
        let ways: [(&str, &dyn Fn()); 5] = [
            ("longer", &|| written("three")),
            ("as long, and the time of the save set back", &|| (written("seven"), set_back()).1),
            ("only the time set back", &set_back),
            ("another file in its place", &|| {
                fs::write(folder.path().join("new"), "seven").unwrap();
                fs::rename(folder.path().join("new"), &page).unwrap();
            }),
            ("who may read it", &|| fs::set_permissions(&page, fs::Permissions::from_mode(0o640)).unwrap()),
        ];
        for (how, change) in ways {
            change();
            let now = stamp();
            assert!(!seen.contains(&now), "{how}");
            seen.push(now);
        }
        fs::remove_file(&page).unwrap();
        assert_eq!(Stamp::of(&page), None);
        fs::create_dir(&page).unwrap();
        assert_eq!(Stamp::of(&page), None);
    }

    #[test]
    fn a_stamp_has_settled_once_the_clock_has_ticked() {
        let at = |seconds| SystemTime::UNIX_EPOCH + Duration::from_secs(seconds);
        let stamp = |saved, changed| Stamp { file: [1, 2], size: 3, saved: at(saved), changed: at(changed) };
        assert!(stamp(5, 100).has_settled(at(100) + GRAIN));
        assert!(!stamp(5, 100).has_settled(at(101)));
        assert!(!stamp(100, 5).has_settled(at(101)), "a file system may keep no time of the last change");
        assert!(!stamp(100, 100).has_settled(at(50)), "the clock was set back");
    }
}
