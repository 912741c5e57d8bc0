//! The report of a lifter, or of all of them.

use crate::commands::desk::{Book, Desk, today};
use crate::commands::options::Options;
use crate::commands::outcome::Failure;
use crate::commands::roster::each_lifter;
use crate::history::History;
use crate::present::html::{self, Pages};
use crate::questions::report::{Ask, CAUTION, answer};
use crate::questions::{review, roster};

/// A lifter's, of the current block or of one that is named.
pub(super) fn of_lifter(
    options: &Options,
    book: &Book,
    block: Option<&str>,
    pages: &Pages<'_>,
) -> Result<String, Failure> {
    let history = book.history(options);
    let block = block.map(|name| history.find_block(name)).transpose()?;
    Ok(html::report::show(&answer(&history, &Ask { block }), pages))
}

/// Everybody's.
pub(super) fn of_roster(options: &Options, desk: &Desk, pages: &Pages<'_>) -> Result<String, Failure> {
    let of = |history: &History<'_>, folder: &str| {
        (roster::line(history, folder), review::answer(history, &review::Ask::default()))
    };
    let mut lifters = each_lifter(options, desk, of)?;
    lifters.sort_by(|(one, _), (other, _)| (&one.name, &one.folder).cmp(&(&other.name, &other.folder)));
    Ok(html::roster::show(&lifters, today(options), CAUTION, pages))
}
