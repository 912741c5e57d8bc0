//! What all plots of a page share: a title and a description for who does not see them, lines across with their labels,
//! names below. They are small and stand side by side where there is room, so that their words are as large as those of the
//! page on a phone too.

use super::dates::{Dates, Tick};
use super::scale::Scale;
use crate::analysis::strength::axis::Span;
use crate::present::doc::Links;
use crate::present::sanitize;
use chrono::NaiveDate;
use maud::{Markup, html};

/// How wide a plot is, in its own units: those of the page where there is room for it.
const WIDTH: f64 = 340.0;

/// Where the plot's area begins and ends, across.
pub(super) const LEFT: f64 = 34.0;
pub(super) const RIGHT: f64 = WIDTH - 10.0;

/// Where an area begins and ends, from above, and the numbers of its axis.
pub(super) struct Area {
    pub(super) top: f64,
    pub(super) bottom: f64,
    pub(super) right: f64,
    pub(super) scale: Scale,
}

impl Area {
    /// How far from above a number stands.
    pub(super) fn y(&self, number: f64) -> f64 {
        self.bottom - self.scale.position(number) * (self.bottom - self.top)
    }

    /// Lines across the area at the ticks, with their labels to the left.
    pub(super) fn lines(&self) -> Markup {
        html! {
            @for tick in self.scale.ticks() {
                @let y = self.y(tick);
                line.grid x1=(px(LEFT)) x2=(px(self.right)) y1=(px(y)) y2=(px(y)) {}
                text.tick x=(px(LEFT - 6.0)) y=(px(y + 4.0)) text-anchor="end" { (self.scale.label(tick)) }
            }
        }
    }
}

/// An axis of dates across an area.
pub(super) struct Days {
    /// The dates.
    pub(super) dates: Dates,
    /// How far to the right the last of them stands.
    pub(super) end: f64,
}

impl Days {
    /// How far from the left a day stands.
    pub(super) fn x(&self, date: NaiveDate) -> f64 {
        LEFT + 6.0 + self.dates.position(date) * (self.end - LEFT - 6.0)
    }

    /// The ticks that have room.
    pub(super) fn ticks(&self) -> Vec<Tick> {
        self.dates.ticks().find(|ticks| ticks.len() <= 5).unwrap_or_default()
    }

    /// The label of a tick below an area.
    pub(super) fn label(&self, tick: &Tick, bottom: f64) -> Markup {
        label_below(self.x(tick.date), bottom + 18.0, "tick", &tick.short)
    }

    /// A dashed line where a block begins, and its name above where it has room; the last one has it up to the edge. `begun`:
    /// a block that began before the axis has its name there, too.
    pub(super) fn blocks(&self, blocks: &[Span], (top, bottom): (f64, f64), edge: f64, begun: bool) -> Markup {
        let next = blocks.iter().skip(1).map(|block| self.x(block.starts)).chain([edge]);
        html! {
            @for (block, next) in blocks.iter().zip(next) {
                @let at = self.x(block.starts);
                @let begins = block.starts >= self.dates.first();
                @if begins { line.block x1=(px(at)) x2=(px(at)) y1=(px(top - 14.0)) y2=(px(bottom)) {} }
                @if begins || begun { text.tick x=(px(at + 3.0)) y=(px(top - 6.0)) { (fitted(&block.name, next - at - 5.0)) } }
            }
        }
    }
}

/// A place as SVG has it: to the tenth, which is finer than a screen shows.
pub(super) fn px(place: f64) -> String {
    let text = format!("{place:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" { "0".into() } else { text.to_owned() }
}

/// Corners, as SVG has them.
pub(super) fn points(points: impl IntoIterator<Item = (f64, f64)>) -> String {
    let points: Vec<String> = points.into_iter().map(|(x, y)| format!("{},{}", px(x), px(y))).collect();
    points.join(" ")
}

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
    let label = sanitize(label);
    if label.chars().map(width).sum::<f64>() <= room {
        return label.into_owned();
    }
    let mut left = room - width('…');
    let begins = |letter: &char| {
        left -= width(*letter);
        left >= 0.0
    };
    let kept: String = label.chars().take_while(begins).collect();
    if kept.chars().count() < 3 { String::new() } else { format!("{}…", kept.trim_end()) }
}

/// A figure of one plot: its title, the plot, and below it what is said of it.
pub(super) fn figure(
    links: &Links,
    title: &str,
    description: &str,
    height: f64,
    drawing: &Markup,
    below: &Markup,
) -> Markup {
    let id = links.plot();
    let (named, described) = (format!("{id}-title"), format!("{id}-description"));
    html! {
        figure.plot {
            figcaption { (sanitize(title)) }
            svg role="img" viewBox={ "0 0 " (px(WIDTH)) " " (px(height)) } aria-labelledby={ (named) " " (described) } {
                title id=(named) { (sanitize(title)) }
                desc id=(described) { (sanitize(description)) }
                (drawing)
            }
            (below)
        }
    }
}

/// A label below the area.
pub(super) fn label_below(x: f64, y: f64, class: &str, label: &str) -> Markup {
    html! { text class=(class) x=(px(x)) y=(px(y)) text-anchor="middle" { (sanitize(label)) } }
}

/// Things that stand together.
pub(super) struct Group<'a, T> {
    /// What they have in common.
    name: &'a str,
    /// Where the group begins and ends.
    from: f64,
    to: f64,
    /// Each with the middle of its room.
    pub(super) things: Vec<(f64, &'a T)>,
}

/// Places things from left to right. Those that follow one another with the same name are a group; between groups is the
/// room of `gap` things. Gives the groups and the room of one thing.
pub(super) fn placed<'a, T>(things: &'a [T], name: impl Fn(&T) -> &str, gap: f64) -> (Vec<Group<'a, T>>, f64) {
    let groups: Vec<&'a [T]> = things.chunk_by(|one, other| name(one) == name(other)).collect();
    let gaps = groups.len().saturating_sub(1) as f64 * gap;
    let room = (RIGHT - LEFT) / (things.len() as f64 + gaps).max(1.0);
    let mut left = LEFT;
    let mut placed = Vec::with_capacity(groups.len());
    for group in groups {
        let Some(first) = group.first() else { continue };
        let middle = |nth: usize| left + (nth as f64 + 0.5) * room;
        let to = left + group.len() as f64 * room;
        let things = group.iter().enumerate().map(|(nth, thing)| (middle(nth), thing)).collect();
        placed.push(Group { name: name(first), from: left, to, things });
        left = to + gap * room;
    }
    (placed, room)
}

impl<T> Group<'_, T> {
    /// A line below the group, and its name with a word before it below that.
    pub(super) fn label(&self, word: &str, y: f64) -> Markup {
        let (room, name) = (self.to - self.from, format!("{word}{}", self.name));
        html! {
            line.axis x1=(px(self.from + room * 0.04)) x2=(px(self.to - room * 0.04)) y1=(px(y)) y2=(px(y)) {}
            (label_below(f64::midpoint(self.from, self.to), y + 15.0, "tick", &fitted(&name, room)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{fitted, placed, px};

    #[test]
    fn a_label_takes_no_more_than_its_room() {
        assert_eq!(fitted("9", 8.4), "9");
        assert_eq!(fitted("harbour", 52.4), "harbour");
        assert_eq!(fitted("harbour", 52.0), "harbo…");
        assert_eq!(fitted("long sets", 47.0), "long…");
        assert_eq!(fitted("harbour", 31.0), "");
        assert_eq!(fitted("harbour", -5.0), "");
    }

    #[test]
    fn places_are_short() {
        assert_eq!((px(1.0), px(1.26), px(-0.04)), ("1".into(), "1.3".into(), "0".into()));
    }

    #[test]
    fn things_fill_the_room_and_groups_stand_apart() {
        let things = ["a", "a", "b"];
        let (groups, room) = placed(&things, |thing| thing, 1.0);
        assert_eq!(room, (330.0 - 34.0) / 4.0);
        let middles: Vec<Vec<f64>> =
            groups.iter().map(|group| group.things.iter().map(|(middle, _)| *middle).collect()).collect();
        assert_eq!(middles, [vec![71.0, 145.0], vec![293.0]]);
        assert!(placed(&things[..0], |thing| thing, 1.0).0.is_empty());
    }
}
