//! Plots drawn with characters. An axis of numbers or dates knows nothing of characters and serves any drawing.
//!
//! - `scale.rs`: an axis of numbers with round ticks; `dates.rs`: an axis of dates with ticks at Mondays, months, years
//! - `glyphs.rs`: with which characters: Braille and blocks, or plain ASCII
//! - `canvas.rs`: dots, shades and marks on a grid of characters
//! - `frame.rs`: the axes, the blocks and the legend round a canvas
//! - `line.rs`: an estimate with its interval over dates; `marks.rs`: the heaviest sets over dates
//! - `columns.rs`: a column a week; `bars.rs`: a bar a row

mod bars;
mod canvas;
mod columns;
pub mod dates;
mod frame;
mod glyphs;
mod line;
mod marks;
pub mod scale;

pub use bars::{Bar, bars};
pub use columns::{Column, columns};
pub use glyphs::Glyphs;
pub use line::line;
pub use marks::marks;
