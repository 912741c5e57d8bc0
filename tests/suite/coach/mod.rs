//! Six lifters and ten weeks in a repository, with all that happens in ten weeks: docs/coach.md is lived section by section,
//! each of its screens is held against what the program says there, and each Sunday's roster against a model that counts
//! planned sets and those that were reached by itself.
//!
//! - `squad.rs`: the lifters, their pages, and the model
//! - `weeks.rs`: what happens before the screens of each section

mod squad;
mod weeks;

use crate::support::page_suite::sections;
use crate::support::snapshot;
use squad::Squad;
use std::fs;
use std::path::Path;

/// The story as it is written.
fn story() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/coach.md")).unwrap()
}

/// What a shell says of the commands of a screen, each below its own.
fn screen(squad: &Squad, text: &str) -> String {
    let mut out = String::new();
    // What a command says begins in no line with a dollar, so that the next one is the next command.
    for command in text.lines().filter_map(|line| line.strip_prefix("$ ")) {
        out += &format!("$ {command}\n{}", squad.repository.try_sh(command).0);
    }
    out
}

/// Told with its screens as the program makes them, the story is as it is written. `UPDATE_SNAPSHOTS=1` writes it anew.
#[test]
fn the_story_of_the_coach_is_lived_week_by_week() {
    let known = story();
    let mut told = known.clone();
    let mut squad = Squad::new();
    let mut lived = Vec::new();
    for section in sections(&known) {
        let Some(week) = weeks::WEEKS.iter().find(|week| week.title == section.name) else {
            assert!(section.blocks.iter().all(|block| block.info != "console"), "{}: nobody lives it", section.name);
            continue;
        };
        lived.push(week.title);
        for block in section.blocks.iter().filter(|block| block.info.contains(' ')) {
            // `yaml mila/lifter.yaml`: a file that the coach writes.
            let (_, path) = block.info.split_once(' ').unwrap();
            squad.repository.write(path, &block.text);
        }
        (week.before)(&mut squad);
        for block in section.blocks.iter().filter(|block| block.info == "console") {
            told = told.replacen(&block.text, &screen(&squad, &block.text), 1);
        }
        (week.after)(&mut squad);
    }
    assert_eq!(lived, weeks::WEEKS.map(|week| week.title));
    snapshot::check_file("docs/coach.md", &told);
}
