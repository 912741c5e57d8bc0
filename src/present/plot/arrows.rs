//! A row a thing, with an arrow from what was to what is, on one axis of percent for all.

use super::glyphs::Glyphs;
use super::scale::Scale;
use super::svg::{figure, fitted, px};
use crate::present::doc::{Links, Picture, width};
use crate::present::{Role, Typeset};
use maud::{Markup, html};

/// The arrows get at least so many columns; words give way first.
const LEAST_ROOM: usize = 16;

/// A change of more than so many percent ends at the edge: one such lift would press all others together.
const FARTHEST: f64 = 10.0;

/// Sizes on a page, in its own units.
const ROW: f64 = 29.0;
const TOP: f64 = 22.0;
const FROM: f64 = 30.0;
const TO: f64 = 310.0;

/// Where the words of a row begin and end.
const EDGES: (f64, f64) = (8.0, 332.0);

/// A thing that changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrow {
    /// The name of its row.
    pub name: String,
    /// By how many percent, the last time.
    pub change: f64,
    /// The times before: a digit, and by how many percent.
    pub before: Vec<(char, f64)>,
    /// What stands behind it.
    pub words: String,
}

/// Arrows below one another.
#[derive(Clone, Debug)]
pub struct Arrows {
    /// The heading on a page.
    pub title: String,
    /// The arrows.
    pub arrows: Vec<Arrow>,
    /// With which characters.
    pub glyphs: Glyphs,
}

impl Arrows {
    /// The axis: nothing stands inside it, and every change does.
    fn scale(&self) -> Scale {
        let all = || self.arrows.iter().flat_map(|arrow| arrow.before.iter().map(|(_, at)| *at).chain([arrow.change]));
        let ends = all().map(held).fold((-1.0, 1.0), |(low, high): (f64, f64), at| (low.min(at), high.max(at)));
        Scale::covering(ends.0, ends.1, 4, true)
    }
}

/// A change as far as it is drawn.
fn held(change: f64) -> f64 {
    if change.is_finite() { change.clamp(-FARTHEST, FARTHEST) } else { 0.0 }
}

/// `-5 %`, `then`, `+5 %`
fn tick(scale: &Scale, at: f64) -> String {
    match at {
        0.0 => "then".into(),
        at if at > 0.0 => format!("+{} %", scale.label(at)),
        at => format!("{} %", scale.label(at)),
    }
}

impl Picture for Arrows {
    fn draw(&self, screen: usize) -> Typeset {
        let (names, for_names) = self.glyphs.names(self.arrows.iter().map(|arrow| arrow.name.as_str()), screen);
        let for_words = self.arrows.iter().map(|arrow| width(&arrow.words)).max().unwrap_or(0) + 1;
        let left = screen.saturating_sub(for_names);
        let with_words = left >= for_words + LEAST_ROOM;
        let room = if with_words { left - for_words } else { left }.max(1);
        let scale = self.scale();
        let column = |at: f64| ((scale.position(held(at)) * (room - 1) as f64).round().max(0.0) as usize).min(room - 1);
        let mut out = Typeset::new();
        out.pieces(vec![(Role::Place, " ".repeat(for_names)), (Role::Place, axis(&scale, room, column))]);
        for (arrow, name) in self.arrows.iter().zip(names) {
            let mut cells = vec![' '; room];
            let (then, now) = (column(0.0), column(arrow.change));
            let mut put = |at: usize, sign: char| {
                if let Some(cell) = cells.get_mut(at) {
                    *cell = sign;
                }
            };
            (then.min(now)..=then.max(now)).for_each(|at| put(at, self.glyphs.floor().2));
            put(then, 'o');
            for (sign, change) in &arrow.before {
                put(column(*change), *sign);
            }
            match now.cmp(&then) {
                std::cmp::Ordering::Greater => put(now, '>'),
                std::cmp::Ordering::Less => put(now, '<'),
                std::cmp::Ordering::Equal => put(now, 'o'),
            }
            let drawn: String = cells.into_iter().collect();
            let mut pieces = vec![(Role::Answer, name), (role(arrow), drawn)];
            if with_words {
                pieces.push((Role::Plain, format!(" {}", arrow.words)));
            }
            out.pieces(pieces);
        }
        out
    }

    fn html(&self, links: &Links) -> Markup {
        let scale = self.scale();
        let x = |at: f64| FROM + scale.position(held(at)) * (TO - FROM);
        let height = TOP + ROW * self.arrows.len() as f64;
        let drawing = html! {
            @for at in scale.ticks() {
                line.grid x1=(px(x(at))) x2=(px(x(at))) y1=(px(TOP - 4.0)) y2=(px(height)) {}
                text.tick x=(px(x(at))) y=(px(TOP - 8.0)) text-anchor="middle" { (tick(&scale, at)) }
            }
            @for (nth, arrow) in self.arrows.iter().enumerate() {
                @let (above, on) = (TOP + ROW * nth as f64 + 12.0, TOP + ROW * nth as f64 + 21.0);
                text.row x=(px(EDGES.0)) y=(px(above)) { (fitted(&arrow.name, 150.0)) }
                text.row x=(px(EDGES.1)) y=(px(above)) text-anchor="end" { (fitted(&arrow.words, 170.0)) }
                @for (_, change) in &arrow.before { circle.edge cx=(px(x(*change))) cy=(px(on)) r="2.5" {} }
                (drawn(x(0.0), x(arrow.change), on))
            }
        };
        let ahead = self.arrows.iter().filter(|arrow| arrow.change > 0.0).count();
        let behind = self.arrows.iter().filter(|arrow| arrow.change < 0.0).count();
        let description = format!("{ahead} up, {behind} down, {} the same.", self.arrows.len() - ahead - behind);
        figure(links, &self.title, &description, height, &drawing, &html! {})
    }
}

fn role(arrow: &Arrow) -> Role {
    match arrow.change {
        change if change > 0.0 => Role::Ahead,
        change if change < 0.0 => Role::Behind,
        _ => Role::Level,
    }
}

/// A ring at what was, an arrow to what is.
fn drawn(then: f64, now: f64, y: f64) -> Markup {
    let tip = if now > then { -6.0 } else { 6.0 };
    html! {
        @if (now - then).abs() > 6.0 {
            line.shaft x1=(px(then)) x2=(px(now + tip)) y1=(px(y)) y2=(px(y)) {}
            polygon class=(if now > then { "up" } else { "down" })
                points=(super::svg::points([(now, y), (now + tip, y - 5.0), (now + tip, y + 5.0)])) {}
        }
        circle.then cx=(px(then)) cy=(px(y)) r="4" {}
    }
}

/// The ticks' words where there is room for them.
fn axis(scale: &Scale, room: usize, column: impl Fn(f64) -> usize) -> String {
    let mut line = vec![' '; room];
    let mut free = 0;
    for at in scale.ticks() {
        let word: Vec<char> = tick(scale, at).chars().collect();
        let begin = column(at).saturating_sub(word.len() / 2).min(room.saturating_sub(word.len()));
        if begin < free || word.len() > room {
            continue;
        }
        free = begin + word.len() + 1;
        for (cell, sign) in line.iter_mut().skip(begin).zip(word) {
            *cell = sign;
        }
    }
    line.into_iter().collect::<String>().trim_end().to_owned()
}
