//! A file of a journal as a handler needs it: settings, or a page.

use super::switches::Switches;
use super::text::{Encoding, Text};
use super::{uri, wire};
use crate::editor::abilities::problems::problems;
use crate::editor::held::Held;
use crate::editor::laid::Laid;
use crate::editor::scene::Scene;
use crate::editor::values::{At, Edits, Found};
use crate::editor::workspace::Workspace;
use crate::journal::{Files, is_settings};
use crate::source::{Page, Place};
use gen_lsp_types::{Diagnostic, Location, TextEdit, Uri, WorkspaceEdit};
use std::collections::HashMap;
use std::path::Path;

/// A file of a journal.
pub(super) struct File<'a> {
    /// The text, whatever kind of file it is.
    pub(super) page: &'a Page,
    /// The same with positions.
    pub(super) text: Text<'a>,
    /// What abilities see of a lifter's page; nothing for settings.
    pub(super) scene: Option<Scene<'a>>,
    /// What is wrong with it.
    pub(super) found: Vec<Found>,
    /// What is on.
    pub(super) switches: &'a Switches,
    files: Laid<'a>,
    root: &'a Path,
    encoding: Encoding,
}

impl<'a> File<'a> {
    /// The text of a file.
    pub(super) fn page(held: &Held, path: &str) -> Option<Page> {
        Page::new(path, held.files().read(path).ok()?).ok()
    }

    /// The file of that text, for which the journal has been read.
    pub(super) fn new(held: &'a Held, page: &'a Page, encoding: Encoding, switches: &'a Switches) -> Self {
        let scene = held.scene(page.path());
        File {
            page,
            text: Text::of(page.text(), encoding),
            found: problems(held.of_file(page.path()), scene.as_ref()),
            scene,
            switches,
            files: held.files(),
            root: &held.root,
            encoding,
        }
    }

    /// The address of a path below the root.
    pub(super) fn address(&self, path: &str) -> Option<Uri> {
        uri::uri(&Workspace::place(self.root, path))
    }

    /// A place of any page.
    pub(super) fn location(&self, place: &Place) -> Option<Location> {
        Some(Location { uri: self.address(&place.page)?, range: wire::start_of(place.line) })
    }

    /// Places of any pages, each page read once.
    pub(super) fn locations(&self, places: &[At]) -> Vec<Location> {
        let mut all = Vec::new();
        for of_page in places.chunk_by(|one, other| one.path == other.path) {
            let Some(path) = of_page.first().map(|at| at.path.as_str()) else { continue };
            let Some((uri, page)) = self.address(path).zip(self.other(path)) else { continue };
            let text = Text::of(page.text(), self.encoding);
            all.extend(of_page.iter().map(|at| Location { uri: uri.clone(), range: text.range(at.span) }));
        }
        all
    }

    /// Edits of any files.
    pub(super) fn edit(&self, edits: &Edits) -> WorkspaceEdit {
        let changes = edits.iter().filter_map(|(path, edits)| {
            let page = self.other(path)?;
            Some((self.address(path)?, wire::text_edits(&Text::of(page.text(), self.encoding), edits)))
        });
        let changes: HashMap<Uri, Vec<TextEdit>> = changes.collect();
        WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }
    }

    /// Its problems.
    pub(super) fn diagnostics(&self) -> Vec<Diagnostic> {
        self.found.iter().map(|found| self.diagnostic(found)).collect()
    }

    /// One of them.
    pub(super) fn diagnostic(&self, found: &Found) -> Diagnostic {
        let elsewhere = found.elsewhere.as_ref().and_then(|place| self.location(place));
        wire::diagnostic(&self.text, found, elsewhere, self.switches.docs.as_deref())
    }

    /// Whether it is settings.
    pub(super) fn is_settings(&self) -> bool {
        is_settings(self.page.path())
    }

    fn other(&self, path: &str) -> Option<Page> {
        Page::new(path, self.files.read(path).ok()?).ok()
    }
}
