//! The report of a lifter, or of all of them.

use crate::commands::desk::{Book, Desk, left_out as desk_left_out, today};
use crate::commands::everybody::each_lifter;
use crate::commands::options::Options;
use crate::commands::outcome::{Failure, Reply};
use crate::commands::target::html_file::{Kind, Target, folders};
use crate::history::History;
use crate::journal::{Files, Lifter};
use crate::present::html::{self, Pages};
use crate::questions::report::{Ask, CAUTION, answer};
use crate::questions::{review, roster};
use std::path::Path;

/// A lifter's, of the current block or of one that is named.
pub(super) fn of_lifter(
    options: &Options,
    book: &Book,
    (block, watched): (Option<&str>, bool),
    pages: &Pages<'_>,
) -> Result<String, Failure> {
    let history = book.history(options);
    let block = block.map(|name| history.find_block(name)).transpose()?;
    Ok(html::report::show(&answer(&history, &Ask { block }), pages, watched))
}

/// Everybody's.
pub(super) fn of_roster(options: &Options, desk: &Desk, pages: &Pages<'_>, watched: bool) -> Result<String, Failure> {
    let of = |history: &History<'_>, lifter: &Lifter| {
        (roster::line(history, &lifter.folder), review::answer(history, &review::Ask::default()))
    };
    let mut lifters = each_lifter(options, desk, of)?;
    lifters.sort_by(|(one, _), (other, _)| (&one.name, &one.folder).cmp(&(&other.name, &other.folder)));
    Ok(html::roster::show(&lifters, today(options), CAUTION, pages, None, watched))
}

/// A page a lifter into a folder, and the roster that links to them.
pub(super) fn of_everyone(options: &Options, folder: &Path, replace: bool, watched: bool) -> Result<Reply, Failure> {
    let desk = Desk::open(options)?;
    if !folder.is_dir() {
        std::fs::create_dir(folder)
            .map_err(|error| Failure(format!("the folder {} cannot be made: {error}", folder.display())))?;
    }
    let index = Target::of(&folder.join("index.html"), Kind::Report, replace)?;
    let (here, root) = folders(Some(&index), &desk)?;
    let read = |page: &str| String::from_utf8(desk.files.read(page).ok()?).ok();
    let of = |history: &History<'_>, lifter: &Lifter| {
        let line = roster::line(history, &lifter.folder);
        (line, review::answer(history, &review::Ask::default()), answer(history, &Ask::default()))
    };
    let mut everyone = each_lifter(options, &desk, of)?;
    everyone.sort_by(|(one, ..), (other, ..)| (&one.name, &one.folder).cmp(&(&other.name, &other.folder)));
    let file = |line: &roster::Line| match line.folder.as_str() {
        "" => "lifter.html".to_owned(),
        folder => format!("{}.html", folder.replace(['/', '\\'], " ")),
    };
    // Every name is looked at before anything is written.
    let targets: Vec<Target> = everyone
        .iter()
        .map(|(line, ..)| Target::of(&folder.join(file(line)), Kind::Report, replace))
        .collect::<Result<_, _>>()?;
    let mut out = String::new();
    for ((_, _, answer), target) in everyone.iter().zip(&targets) {
        let pages = Pages::between(&here, &root, &read);
        out.push_str(&target.write(&html::report::show(answer, &pages, watched))?);
    }
    let files: Vec<String> = everyone.iter().map(|(line, ..)| file(line)).collect();
    let lines: Vec<_> = everyone.into_iter().map(|(line, review, _)| (line, review)).collect();
    let pages = Pages::between(&here, &root, &read);
    let page = html::roster::show(&lines, today(options), CAUTION, &pages, Some(&files), watched);
    out.push_str(&index.write(&page)?);
    Ok(Reply::answered(out, desk_left_out(0, 0, &desk.unread(None))))
}
