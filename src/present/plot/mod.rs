//! Plots: values that are drawn with characters on a screen and in SVG, by hand, on a page. An axis of numbers or dates
//! knows nothing of either and serves both.
//!
//! - `scale.rs`: an axis of numbers with round ticks; `dates.rs`: an axis of dates with ticks at Mondays, months, years
//! - `glyphs.rs`: with which characters: Braille and blocks, or plain ASCII
//! - `canvas.rs`: dots, shades and marks on a grid of characters
//! - `frame.rs`: the axes, the blocks and the legend round a canvas
//! - `line.rs`: an estimate with its interval over dates; `marks.rs`: the heaviest sets over dates
//! - `arrows.rs`: a row a thing, from what was to what is
//! - `dots.rs`: numbers over dates
//! - `columns.rs`: a column a week; `bars.rs`: a bar a row; `ranges.rs`: planned ranges with what was done
//! - `strip.rs`: a row a thing, with a mark for each of its days
//! - `svg.rs`: what plots of a page share

mod arrows;
mod bars;
mod canvas;
mod columns;
mod dates;
mod dots;
mod frame;
mod glyphs;
mod line;
mod marks;
mod ranges;
mod scale;
mod strip;
mod svg;

pub use arrows::{Arrow, Arrows};
pub use bars::{Bar, Bars};
pub use columns::{Column, Columns, Told};
pub use dots::{Dots, Point};
pub use glyphs::Glyphs;
pub use line::Line;
pub use marks::Marks;
pub use ranges::{Range, Ranges};
pub use strip::Strip;
