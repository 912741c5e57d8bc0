//! One page: its path below the journal's root and its bytes.

use super::edit::{Edit, apply_to_bytes};

/// Which page of a journal; pages are numbered in order of their paths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PageId(pub u32);

/// The page is longer than offsets can count (4 GiB).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong;

/// A page's path and text.
///
/// Lines that are not UTF-8 are kept: in [`Page::text`] each of their bad bytes is one `?`, so that every
/// offset is the same as on disk, and [`Page::is_opaque`] tells which lines they are.
#[derive(Clone, Debug)]
pub struct Page {
    path: String,
    text: String,
    /// The bytes as they were, and the starts of the lines that are not UTF-8; only where there are any.
    damage: Option<(Vec<u8>, Vec<u32>)>,
}

impl Page {
    /// Takes a page's bytes. `path` is the one below the journal's root, with `/` between folders.
    ///
    /// # Errors
    /// [`TooLong`] for pages of 4 GiB and more.
    pub fn new(path: impl Into<String>, bytes: Vec<u8>) -> Result<Self, TooLong> {
        if u32::try_from(bytes.len()).is_err() {
            return Err(TooLong);
        }
        let path = path.into();
        match String::from_utf8(bytes) {
            Ok(text) => Ok(Page { path, text, damage: None }),
            Err(error) => {
                let bytes = error.into_bytes();
                let (text, opaque) = patched(&bytes);
                Ok(Page { path, text, damage: Some((bytes, opaque)) })
            }
        }
    }

    /// The path below the journal's root, with `/` between folders.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// The text, as long in bytes as the page on disk.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The bytes on disk.
    pub fn bytes(&self) -> &[u8] {
        self.damage.as_ref().map_or(self.text.as_bytes(), |(bytes, _)| bytes)
    }

    /// The page with edits in it; a line that is not UTF-8 keeps its bytes. Nothing where two edits overlap, or one does
    /// not fit the text.
    #[must_use]
    pub fn edited(&self, edits: &[Edit]) -> Option<Page> {
        let fits = |edit: &Edit| self.text.get(edit.span.start as usize..edit.span.end as usize).is_some();
        let bytes = edits.iter().all(fits).then(|| apply_to_bytes(self.bytes(), edits).ok())??;
        Page::new(self.path.as_str(), bytes).ok()
    }

    /// Whether the line that starts at this offset is not UTF-8.
    pub fn is_opaque(&self, line_start: u32) -> bool {
        self.damage.as_ref().is_some_and(|(_, opaque)| opaque.binary_search(&line_start).is_ok())
    }
}

/// The text with every byte that is not UTF-8 as `?`, and the starts of the lines that hold one.
fn patched(bytes: &[u8]) -> (String, Vec<u32>) {
    let mut text = String::with_capacity(bytes.len());
    let mut opaque: Vec<u32> = Vec::new();
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        if chunk.invalid().is_empty() {
            continue;
        }
        let start = memchr::memrchr(b'\n', text.as_bytes()).map_or(0, |at| at + 1) as u32;
        if opaque.last() != Some(&start) {
            opaque.push(start);
        }
        text.extend(chunk.invalid().iter().map(|_| '?'));
    }
    (text, opaque)
}

#[cfg(test)]
mod tests {
    use super::Page;

    #[test]
    fn bad_bytes_keep_their_places() {
        let bytes = b"fine\nbad \xff\xfe here\nfine too\n".to_vec();
        let Ok(page) = Page::new("a.md", bytes.clone()) else { panic!("short page") };
        assert_eq!(page.text(), "fine\nbad ?? here\nfine too\n");
        assert_eq!(page.bytes(), bytes);
        assert!(page.is_opaque(5));
        assert!(!page.is_opaque(0));
    }
}
