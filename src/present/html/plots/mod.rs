//! Plots in SVG, made by hand: small ones, side by side where there is room, so that their words are as large as those
//! of the page on a phone too. Each has a title and a description, and its numbers stand in a table beside it.
//!
//! - `scale.rs`: values to places, and where ticks stand
//! - `axis.rs`: the frame that all plots share: title, description, lines and their labels
//! - `groups.rs`: things side by side, in groups
//! - `line.rs`: a line over dates in its band
//! - `bars.rs`: a bar a week, in two parts
//! - `ranges.rs`: planned ranges with what was done

mod axis;
pub(super) mod bars;
mod groups;
pub(super) mod line;
pub(super) mod ranges;
mod scale;
