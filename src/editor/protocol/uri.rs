//! Files to addresses and back.

use gen_lsp_types::Uri;
use std::path::{Path, PathBuf};

/// The file of an address; nothing for what is no file, such as a page that has no name yet.
pub(super) fn file(uri: &Uri) -> Option<PathBuf> {
    (uri.scheme() == "file").then(|| uri.to_file_path().ok())?
}

/// The address of a file, which must be named wholly.
pub(super) fn uri(file: &Path) -> Option<Uri> {
    Uri::from_file_path(file).ok()
}
