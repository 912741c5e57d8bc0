//! Things side by side, in groups with a little room between them.

use super::axis::{LEFT, RIGHT, fitted, label_below};
use super::scale::px;
use maud::{Markup, html};

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
    /// A line below the group, and its name below that.
    pub(super) fn label(&self, y: f64) -> Markup {
        let inset = (self.to - self.from) * 0.04;
        html! {
            line.axis x1=(px(self.from + inset)) x2=(px(self.to - inset)) y1=(px(y)) y2=(px(y)) {}
            (label_below(f64::midpoint(self.from, self.to), y + 15.0, "tick", &fitted(self.name, self.to - self.from)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::placed;

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
