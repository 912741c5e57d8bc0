//! A report as one page of HTML: no script, nothing from the network, its style and plots inside it. What stands in its
//! sections are the views of the answers.
//!
//! - `page.rs`: the frame: head, skip link, contents, footer; `style.css`: how it looks on a screen and on paper
//! - `places.rs`: where the pages lie, and the lines that are quoted
//! - `card.rs`, `card.css`: a session as a card for the telephone or for paper
//! - `report.rs`: a lifter's report; `roster.rs`: that of a whole journal
//!
//! Text of a journal is escaped by maud wherever it stands; what could hide it or turn it round is spelled out by the
//! frame, for the whole page at once.

pub mod card;
mod page;
mod places;
pub mod report;
pub mod roster;

pub use card::is_card;
pub use page::is_report;
pub use places::Pages;
