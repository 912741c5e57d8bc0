//! The state of the server.

use super::file::File;
use super::switches::Switches;
use super::text::Encoding;
use super::uri;
use crate::editor::held::{Held, Machine};
use crate::editor::scene::Scene;
use crate::editor::workspace::Workspace;
use gen_lsp_types::{Diagnostic, PublishDiagnosticsParams, Uri};
use std::collections::HashMap;

/// The server.
pub(super) struct Server {
    /// The journals.
    pub(super) workspace: Workspace,
    /// How characters are counted.
    pub(super) encoding: Encoding,
    /// What is on.
    pub(super) switches: Switches,
    /// Whether what is said of a thing may have links in it.
    pub(super) links: bool,
    /// Open files of journals, with their texts and versions.
    pub(super) open: HashMap<Uri, (String, i32)>,
    /// The problems that were told last.
    told: HashMap<Uri, Vec<Diagnostic>>,
    /// Whether problems are to be told anew.
    pub(super) stale: bool,
    /// The tokens of a page as they were given last.
    pub(super) tokens: HashMap<Uri, (u64, Vec<u32>)>,
}

/// Why a request is not answered.
pub(super) struct Refusal(pub(super) String);

impl Server {
    /// A server that has opened nothing yet.
    pub(super) fn new(machine: Machine, encoding: Encoding, switches: Switches, links: bool) -> Self {
        Server {
            workspace: Workspace::new(machine),
            encoding,
            switches,
            links,
            open: HashMap::new(),
            told: HashMap::new(),
            stale: false,
            tokens: HashMap::new(),
        }
    }

    /// The journal of a file, and the file's path in it.
    pub(super) fn find(&mut self, address: &Uri) -> Option<(&mut Held, String)> {
        self.workspace.find(&uri::file(address)?)
    }

    /// Asks something of a file; nothing where it is none of a journal.
    pub(super) fn file<T>(&mut self, address: &Uri, ask: impl FnOnce(&File<'_>) -> T) -> Option<T> {
        let (encoding, switches) = (self.encoding, self.switches.clone());
        let (held, path) = self.find(address)?;
        held.read_for(&path);
        let page = File::page(held, &path)?;
        Some(ask(&File::new(held, &page, encoding, &switches)))
    }

    /// Asks something of a page; nothing where it is no page of a lifter.
    pub(super) fn page<T>(&mut self, address: &Uri, ask: impl FnOnce(&File<'_>, &Scene<'_>) -> T) -> Option<T> {
        self.file(address, |file| file.scene.as_ref().map(|scene| ask(file, scene)))?
    }

    /// What is to be told of open files whose problems are others than before.
    pub(super) fn news(&mut self) -> Vec<PublishDiagnosticsParams> {
        self.stale = false;
        let mut open: Vec<(Uri, i32)> = self.open.iter().map(|(uri, (_, version))| (uri.clone(), *version)).collect();
        open.sort();
        let mut news = Vec::new();
        for (uri, version) in open {
            let shown = self.switches.problems;
            let found = self.file(&uri, |file| if shown { file.diagnostics() } else { Vec::new() });
            let Some(diagnostics) = found.filter(|found| self.told.get(&uri) != Some(found)) else { continue };
            self.told.insert(uri.clone(), diagnostics.clone());
            news.push(PublishDiagnosticsParams { uri, version: Some(version), diagnostics });
        }
        news
    }

    /// A page of each lifter, for what is asked of whole journals.
    pub(super) fn first_pages(&mut self) -> Vec<Uri> {
        let place = |held: &mut Held| {
            let pages = held.first_pages();
            pages.into_iter().filter_map(|path| uri::uri(&Workspace::place(&held.root, &path))).collect::<Vec<_>>()
        };
        self.workspace.all().flat_map(place).collect()
    }

    /// Keeps the tokens that are given now, and names them.
    pub(super) fn keep_tokens(&mut self, address: &Uri, data: Vec<u32>) -> String {
        let number = self.tokens.get(address).map_or(1, |(number, _)| number + 1);
        self.tokens.insert(address.clone(), (number, data));
        number.to_string()
    }

    /// The tokens that were given under a name.
    pub(super) fn kept_tokens(&self, address: &Uri, name: &str) -> Option<Vec<u32>> {
        self.tokens.get(address).filter(|(number, _)| number.to_string() == name).map(|(_, data)| data.clone())
    }

    /// A file is closed: nothing is told of it any more.
    pub(super) fn closed(&mut self, address: &Uri) {
        self.open.remove(address);
        self.told.remove(address);
        self.tokens.remove(address);
    }
}
