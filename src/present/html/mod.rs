//! A report as one page of HTML: no script, nothing from the network, its style and plots inside it.
//!
//! - `page.rs`: the frame: head, skip link, contents, footer; `style.css`: how it looks on a screen and on paper
//! - `places.rs`: links to lines of the journal, and where the pages lie
//! - `pieces.rs`: tables, verdicts and places, as every section has them
//! - `report.rs`: a lifter's report; `roster.rs`: that of a whole journal
//! - one file a section: `glance.rs`, `week.rs`, `cautions.rs`, `maxima.rs`, `records.rs`, `volume.rs`, `plan.rs`,
//!   `taper.rs`, `lines.rs`
//! - `plots/`: plots in SVG
//!
//! Text of a journal is escaped by maud wherever it stands; what could hide it or turn it round is spelled out by the
//! frame, for the whole page at once.

mod cautions;
mod glance;
mod lines;
mod maxima;
mod page;
mod pieces;
mod places;
mod plan;
mod plots;
mod records;
pub mod report;
pub mod roster;
mod taper;
mod volume;
mod week;

pub use page::is_report;
pub use places::Pages;
