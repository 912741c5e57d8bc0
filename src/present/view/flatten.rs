//! `flatten` as text. It is no wider for a wide screen: what is compared must not depend on who looks at it.

use crate::present::Doc;
use crate::present::rows::flat;
use crate::questions::flatten::Line;

/// Shows the lines.
pub fn show(lines: &[Line<'_>]) -> Doc {
    let mut out = Doc::new();
    for line in lines {
        out.pieces(flat::line(line));
    }
    out
}
