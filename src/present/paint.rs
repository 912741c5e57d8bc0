//! Roles to a terminal. Colour only repeats what the words say.

use super::doc::{Role, Typeset};
use super::sanitize::sanitize;
use anstyle::{AnsiColor, Effects, Style};

fn style(role: Role) -> Style {
    let colour = |colour: AnsiColor| Style::new().fg_color(Some(colour.into()));
    match role {
        Role::Plain | Role::Level => Style::new(),
        Role::Answer | Role::Title => Style::new().effects(Effects::BOLD),
        Role::Ahead => colour(AnsiColor::Green).effects(Effects::BOLD),
        Role::Behind => colour(AnsiColor::Magenta),
        Role::Place | Role::Hint => Style::new().effects(Effects::DIMMED),
        Role::Error => colour(AnsiColor::Red).effects(Effects::BOLD),
        Role::Caution => colour(AnsiColor::Yellow),
        Role::Plot => colour(AnsiColor::Cyan),
    }
}

/// The text, line by line, with every hostile character spelled out.
pub fn paint(lines: &Typeset, colour: bool) -> String {
    let mut out = String::new();
    for line in lines.lines() {
        let mut painted = String::new();
        for (role, text) in line {
            let text = sanitize(text);
            let style = style(*role);
            if colour && style != Style::new() && !text.trim().is_empty() {
                painted.push_str(&format!("{style}{text}{style:#}"));
            } else {
                painted.push_str(&text);
            }
        }
        out.push_str(painted.trim_end());
        out.push('\n');
    }
    out
}
