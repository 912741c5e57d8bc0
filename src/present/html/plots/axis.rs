//! What all plots share: a title and a description for who does not see them, lines across with their labels, names below.

use super::scale::{Scale, px};
use maud::{Markup, html};

/// How wide a plot is, in its own units: those of the page where there is room for it.
pub(super) const WIDTH: f64 = 340.0;

/// Where the plot's area begins and ends, across.
pub(super) const LEFT: f64 = 34.0;
pub(super) const RIGHT: f64 = WIDTH - 10.0;

/// How wide a letter of a label is at most in the fonts of the style, at the size of a label. What is not known is as wide
/// as it is high.
fn width(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | 'f' | 'r' | 't' | 'I' | ' ' | '.' | ',' | ':' | '-' | '\'' | '(' | ')' => 5.2,
        'm' | 'w' | 'M' | 'W' | '…' | '@' | '%' => 12.2,
        letter if letter.is_ascii() => 8.4,
        _ => 12.2,
    }
}

/// As much of a label as has room, and nothing where that would be a letter or two of a longer one.
pub(super) fn fitted(label: &str, room: f64) -> String {
    if label.chars().map(width).sum::<f64>() <= room {
        return label.to_owned();
    }
    let mut left = room - width('…');
    let begins = |letter: &char| {
        left -= width(*letter);
        left >= 0.0
    };
    let kept: String = label.chars().take_while(begins).collect();
    if kept.chars().count() < 3 { String::new() } else { format!("{}…", kept.trim_end()) }
}

/// What a plot says in words.
pub(in crate::present::html) struct Words {
    /// Its name in the page; no other plot has it.
    pub(in crate::present::html) id: String,
    /// What it is of: its heading, too.
    pub(in crate::present::html) title: String,
    /// What it shows, in a sentence or two.
    pub(in crate::present::html) description: String,
}

/// A figure of one plot: its heading, the plot, and below it what is said of it.
pub(super) fn figure(words: &Words, height: f64, drawing: &Markup, below: &Markup) -> Markup {
    let (title, description) = (format!("{}-title", words.id), format!("{}-description", words.id));
    html! {
        figure.plot {
            figcaption { (words.title) }
            svg role="img" viewBox={ "0 0 " (px(WIDTH)) " " (px(height)) } aria-labelledby={ (title) " " (description) } {
                title id=(title) { (words.title) }
                desc id=(description) { (words.description) }
                (drawing)
            }
            (below)
        }
    }
}

/// Lines across the plot at the ticks, up to its right end, with their labels to the left.
pub(super) fn lines_across(scale: &Scale, right: f64, ticks: &[f64], label: impl Fn(f64) -> String) -> Markup {
    html! {
        @for tick in ticks {
            @let y = scale.at(*tick);
            line.grid x1=(px(LEFT)) x2=(px(right)) y1=(px(y)) y2=(px(y)) {}
            text.tick x=(px(LEFT - 6.0)) y=(px(y + 4.0)) text-anchor="end" { (label(*tick)) }
        }
    }
}

/// A label below the area.
pub(super) fn label_below(x: f64, y: f64, class: &str, label: &str) -> Markup {
    html! { text class=(class) x=(px(x)) y=(px(y)) text-anchor="middle" { (label) } }
}

#[cfg(test)]
mod tests {
    use super::fitted;

    #[test]
    fn a_label_takes_no_more_than_its_room() {
        assert_eq!(fitted("9", 8.4), "9");
        assert_eq!(fitted("harbour", 52.4), "harbour");
        assert_eq!(fitted("harbour", 52.0), "harbo…");
        assert_eq!(fitted("long sets", 47.0), "long…");
        assert_eq!(fitted("harbour", 31.0), "");
        assert_eq!(fitted("harbour", -5.0), "");
    }
}
