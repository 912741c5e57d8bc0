//! Notes read by the journal's own way of reading pages, until all that is left in the pages is understood.

use crate::commands::desk::machine_date;
use crate::import::notes::{Draft, DraftLine, Notes, Refused, Section, drafts, sections};
use crate::journal::{Files, Lifter, Overlay};
use crate::meaning::{self, Reading};
use crate::notation::readings::Names;
use crate::problems::{Problem, ProblemKind as K, Severity, Unread};
use crate::source::{Lines, PageId};
use crate::training::Unit;
use std::collections::BTreeSet;

/// A line that is taken out may bring to light what another one stood on. More rounds than this are no help.
const MOST_ROUNDS: usize = 24;

/// Where notes are read: as pages of a lifter, beside those that are there.
pub(super) struct Scene<'s> {
    pub(super) files: &'s dyn Files,
    pub(super) lifter: &'s Lifter,
    /// The lifter's pages.
    pub(super) there: &'s [String],
}

/// What notes come to.
pub(super) struct Read<'n> {
    pub(super) sections: Vec<Section<'n>>,
    pub(super) pages: Vec<Draft<'n>>,
    /// The pages and those that are there, read.
    pub(super) reading: Reading,
}

impl Scene<'_> {
    /// The unit of bare loads.
    pub(super) fn unit(&self) -> &'static str {
        if self.lifter.units == Unit::Lb { "lb" } else { "kg" }
    }

    /// The path that a page is read at, before it has one.
    pub(super) fn path(&self, page: &Draft<'_>) -> String {
        let name = format!(".notes-{}.md", page.month.as_deref().unwrap_or("undated"));
        let folder = &self.lifter.folder;
        if folder.is_empty() { name } else { format!("{folder}/{name}") }
    }

    /// Reads notes. Lines that say a day nobody can tell begin a part of their own, and what stands below them counts
    /// nowhere.
    pub(super) fn read<'n>(&self, notes: &'n [Notes]) -> Read<'n> {
        let mut undated: BTreeSet<(usize, u32)> = BTreeSet::new();
        loop {
            let sections = sections(notes, self.lifter.habits.dates, &undated);
            let names: &dyn Names = &*self.lifter.book;
            let mut pages = drafts(&sections, names, &self.lifter.habits, self.unit());
            let before = undated.len();
            self.tidied(&mut pages);
            let reading = self.settle(&mut pages, &mut undated);
            if undated.len() == before {
                return Read { sections, pages, reading };
            }
        }
    }

    /// Refuses what is read otherwise by a habit that all lines together bear out, and that nobody has said: to count
    /// such a line as it stands would be to know better than the evidence.
    pub(super) fn doubt<'n>(&self, read: &mut Read<'n>, other: &Read<'n>) {
        let mut any = false;
        for (page, other) in read.pages.iter_mut().zip(&other.pages) {
            let same = |(at, line): (usize, &DraftLine<'_>)| {
                other.lines.get(at).is_some_and(|other| other.text == line.text || other.refused.is_some())
            };
            let lines = page.lines.iter().enumerate();
            let doubted: Vec<usize> =
                lines.filter(|(at, line)| line.refused.is_none() && !same((*at, line))).map(|(at, _)| at).collect();
            for at in doubted {
                let further = dependent(page, at);
                for at in std::iter::once(at).chain(further) {
                    let say = "by the other lines this could say the reps before the sets; `count:` tells".to_owned();
                    if let Some(line) = page.lines.get_mut(at) {
                        line.refuse(Refused { kind: "several-readings", say });
                    }
                }
                any = true;
            }
        }
        if any {
            read.reading = self.settle(&mut read.pages, &mut BTreeSet::new());
        }
    }

    /// Reads pages, and takes out what has an error, until nothing has; or until a day turns out to have no date.
    fn settle(&self, pages: &mut [Draft<'_>], undated: &mut BTreeSet<(usize, u32)>) -> Reading {
        let before = undated.len();
        let mut rounds = 0;
        loop {
            let reading = self.reading(pages);
            rounds += 1;
            let any = self.refuse(&reading, pages, undated);
            if undated.len() > before || !any || rounds == MOST_ROUNDS {
                return reading;
            }
        }
    }

    /// Writes what can be read in the notation.
    fn tidied(&self, pages: &mut [Draft<'_>]) {
        let (overlay, paths) = self.laid(pages);
        let mut all = self.there.to_vec();
        all.extend(paths.iter().cloned());
        let wanted = |path: &str| paths.iter().any(|known| known == path);
        let tidying = meaning::tidy(&overlay, self.lifter, &all, &wanted, true, None);
        for revision in &tidying.revisions {
            let at = paths.iter().position(|path| path == revision.after.path());
            let Some(page) = at.and_then(|at| pages.get_mut(at)) else { continue };
            let lines: Vec<&str> = revision.after.text().lines().collect();
            // Each line stays where it is, so that it is known where it comes from.
            if lines.len() == page.lines.len() {
                for (line, text) in page.lines.iter_mut().zip(lines).filter(|(line, _)| line.refused.is_none()) {
                    text.clone_into(&mut line.text);
                }
            }
        }
    }

    fn reading(&self, pages: &[Draft<'_>]) -> Reading {
        let (overlay, paths) = self.laid(pages);
        let mut all = self.there.to_vec();
        all.extend(paths);
        meaning::read_telling_all(&overlay, self.lifter, all, Some(machine_date()))
    }

    /// How many lines of work the pages have.
    pub(super) fn work(&self, pages: &[Draft<'_>]) -> usize {
        let (overlay, paths) = self.laid(pages);
        meaning::read(&overlay, self.lifter, paths, None).tally.work as usize
    }

    fn laid(&self, pages: &[Draft<'_>]) -> (Overlay<'_>, Vec<String>) {
        let mut overlay = Overlay::new(self.files);
        let paths: Vec<String> = pages.iter().map(|page| self.path(page)).collect();
        for (page, path) in pages.iter().zip(&paths) {
            overlay.put(path, text(page).into_bytes());
        }
        (overlay, paths)
    }

    /// Takes lines with an error out of the pages, and what belongs to them; whether there was any.
    fn refuse(&self, reading: &Reading, pages: &mut [Draft<'_>], undated: &mut BTreeSet<(usize, u32)>) -> bool {
        let mut any = false;
        for page in pages {
            let path = self.path(page);
            let Some(id) = reading.log.pages.iter().position(|known| **known == *path) else { continue };
            let id = PageId(u32::try_from(id).unwrap_or(u32::MAX));
            let whole = text(page);
            let places = Lines::of(&whole);
            for (_, problem) in reading.problems.iter().filter(|(of, _)| *of == id) {
                let at = places.position(problem.span.start).line.saturating_sub(1) as usize;
                let error = problem.kind.severity() == Severity::Error;
                let Some(line) = page.lines.get_mut(at).filter(|line| error && line.refused.is_none()) else {
                    continue;
                };
                let heading = line.text.starts_with("## ");
                if (matches!(problem.kind, K::NotADate { .. }) || heading)
                    && let Some(from) = line.from
                {
                    any |= undated.insert((from.file, from.number));
                    continue;
                }
                line.refuse(Refused { kind: problem.kind.name(), say: why(problem) });
                any = true;
                let further: Vec<usize> = dependent(page, at);
                for at in further {
                    if let Some(line) = page.lines.get_mut(at) {
                        line.refuse(Refused {
                            kind: problem.kind.name(),
                            say: "it belongs to a line that is not read".into(),
                        });
                    }
                }
            }
        }
        any
    }
}

/// The lines further in that belong to a line that is taken out: they would be those of the lift above it. A set that
/// has no load of its own takes that of the set before.
fn dependent(page: &Draft<'_>, at: usize) -> Vec<usize> {
    let inside = |text: &str| text.len() - text.trim_start().len();
    let Some(line) = page.lines.get(at) else { return Vec::new() };
    let out = inside(line.source);
    let below = page.lines.iter().enumerate().skip(at + 1);
    let below =
        below.take_while(|(_, line)| !line.text.is_empty() && (inside(&line.text) > 0 || line.refused.is_some()));
    let bullet = |text: &str| text.trim_start().starts_with(['-', '*', '+']);
    below
        .filter(|(_, line)| line.refused.is_none() && bullet(&line.text))
        .filter(|(_, line)| inside(&line.text) > out || !line.text.contains('@'))
        .map(|(at, _)| at)
        .collect()
}

/// Why a line is not read, in a few words: there may be many such lines.
fn why(problem: &Problem) -> String {
    let says: Vec<&str> = problem.choices.iter().map(|choice| choice.say.as_str()).collect();
    match &problem.kind {
        K::UnknownLift { name, .. } => format!("no lift is called `{name}`"),
        K::UnreadWork { why: Unread::Piece { text, .. } } => format!("`{text}` can't be read"),
        K::UnreadWork { .. } => "it looks like training, and has no reading".into(),
        K::SeveralReadings { .. } if says.len() == 1 => format!("perhaps {}, but not for certain", says.concat()),
        K::SeveralReadings { .. } if !says.is_empty() => says.join(", or "),
        kind => kind.message(),
    }
}

/// The text of a page as it is written: bullets and sentences stand apart. A line that could say a day behind a gap, or
/// sets, stays where it is.
pub(super) fn spaced(page: &Draft<'_>) -> String {
    let mut out = String::new();
    let mut before: Option<&str> = None;
    let bullet = |text: &str| text.starts_with("- ");
    let prose = |text: &str| text.starts_with(|c: char| !c.is_whitespace() && !matches!(c, '-' | '>' | '#' | '|'));
    for line in &page.lines {
        let text = line.text.as_str();
        let parted = before.is_some_and(|before| {
            let of_list = bullet(before) || before.starts_with("  - ");
            let sentence = text.trim().contains(' ') && !text.contains(|c: char| c.is_ascii_digit());
            prose(before) && bullet(text) || of_list && prose(text) && sentence
        });
        if parted {
            out.push('\n');
        }
        out.push_str(text);
        out.push('\n');
        before = Some(text);
    }
    out
}

/// The text of a page as it is read, line by line.
fn text(page: &Draft<'_>) -> String {
    page.lines.iter().map(|line| format!("{}\n", line.text)).collect()
}
