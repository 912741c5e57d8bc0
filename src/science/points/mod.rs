//! Points, which set totals of unlike bodyweights side by side. None compares women with men, classic with equipped,
//! or a full meet with the bench press alone.
//!
//! - `ipf_gl.rs`: the IPF's GL points
//! - `dots.rs`: DOTS

mod dots;
mod ipf_gl;

pub use dots::dots;
pub use ipf_gl::{LEAST_BODYWEIGHT, ipf_gl};
