//! One side of a loaded bar, drawn in plain letters: every plate a box with its number, the heavier the
//! taller.

use super::doc::width;

/// A plate as drawn: a box.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Disc {
    /// What stands on it.
    pub(crate) label: String,
    /// Lines above and below the bar, at least 1.
    pub(crate) reach: usize,
}

/// The bar from its shaft, on the left, to the sleeve's end. Nothing where the screen is too narrow.
pub(crate) fn draw(discs: &[Disc], collar: bool, screen: usize) -> Option<Vec<String>> {
    let end = if collar { "]==" } else { "===" };
    let wide: usize = discs.iter().map(|one| width(&one.label) + 2).sum();
    if SHAFT.len() + wide + end.len() > screen {
        return None;
    }
    let reach = discs.iter().map(|one| one.reach).max().unwrap_or(0);
    let above = (1..=reach).rev().map(|row| line(discs, row, '.'));
    let bar = discs.iter().map(|one| format!("|{}|", one.label)).collect::<String>();
    let below = (1..=reach).map(|row| line(discs, row, '\''));
    Some(above.chain([format!("{SHAFT}{bar}{end}")]).chain(below).collect())
}

const SHAFT: &str = "----[";

/// A line so far from the bar.
fn line(discs: &[Disc], row: usize, corner: char) -> String {
    let mut out = " ".repeat(SHAFT.len());
    for one in discs {
        let (edge, fill) = match row.cmp(&one.reach) {
            std::cmp::Ordering::Less => ('|', " "),
            std::cmp::Ordering::Equal => (corner, "-"),
            std::cmp::Ordering::Greater => (' ', " "),
        };
        out.push(edge);
        out.push_str(&fill.repeat(width(&one.label)));
        out.push(edge);
    }
    out.truncate(out.trim_end().len());
    out
}

#[cfg(test)]
mod tests {
    use super::{Disc, draw};

    fn discs(of: &[(&str, usize)]) -> Vec<Disc> {
        of.iter().map(|(label, reach)| Disc { label: (*label).into(), reach: *reach }).collect()
    }

    #[test]
    fn plates_are_boxes_with_their_numbers() {
        let drawn = draw(&discs(&[("25", 3), ("10", 2), ("2.5", 1)]), true, 48).unwrap();
        assert_eq!(
            drawn,
            [
                "     .--.",
                "     |  |.--.",
                "     |  ||  |.---.",
                "----[|25||10||2.5|]==",
                "     |  ||  |'---'",
                "     |  |'--'",
                "     '--'",
            ]
        );
    }

    #[test]
    fn a_bare_bar_is_one_line() {
        assert_eq!(draw(&[], false, 24).unwrap(), ["----[==="]);
    }

    #[test]
    fn nothing_is_drawn_wider_than_the_screen() {
        let ten = discs(&[("25", 3); 10]);
        assert_eq!(draw(&ten, false, 48).unwrap()[3].len(), 48);
        assert_eq!(draw(&ten, false, 47), None);
    }
}
