//! Whole screens on the example journal, read by eye when they change: at 80 and 48 columns, one in colour.

mod adherence;
mod calendar;
mod draft;
mod draft_standing;
mod draft_weeks;
mod draft_whole;
mod draft_write;
mod estimate;
mod facts;
mod match_plot;
mod matching;
mod meet;
mod mistakes;
mod plates;
mod pounds;
mod report;
mod review;
mod room;
mod roster;
mod session;
mod session_around;
mod session_loads;
mod several;
mod shells;
mod shift;
mod since;
mod spelling;
mod taper;
mod taper_plans;
mod tidy;
mod watch;
mod weight_class;

use crate::support::journal::example;
use crate::support::{run, snapshot};

fn screen(name: &str, width: usize, arguments: &[&str]) {
    snapshot::check(name, &run::run(&example(), width, arguments));
}

#[test]
fn screens_of_the_example_stay_as_they_are() {
    screen("match-80", 80, &["match"]);
    screen("match-48", 48, &["match"]);
    screen("match-colour", 80, &["match", "Back squat", "--color", "always"]);
    screen("match-nerys", 80, &["match", "--lifter", "nerys"]);
    screen("best-table", 80, &["best", "Front squat"]);
    screen("best-three-sets", 80, &["best", "Front squat", "--reps", "8", "--sets", "3"]);
    screen("estimate-80", 80, &["estimate", "Back squat"]);
    screen("estimate-48", 48, &["estimate", "Front squat", "--lifter", "nerys"]);
    screen("estimate-pull-up", 80, &["estimate", "Pull-up", "--equation", "epley"]);
    screen("room-80", 80, &["room", "Front squat", "--cap", "9", "--from", "2026-11-05"]);
    screen("room-48", 48, &["room", "Front squat", "--cap", "8"]);
    screen("roster-80", 80, &["roster", "--sort", "cautions"]);
    screen("roster-48", 48, &["roster"]);
    screen("since", 80, &["since"]);
    screen("volume-blocks", 80, &["volume", "--by", "block"]);
    screen("recall", 60, &["recall", "Front squat"]);
    screen("history-60", 60, &["history", "Belt squat", "--lifter", "nerys"]);
}
