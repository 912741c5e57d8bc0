//! What happens before the screens of each section of the story, and what is held after them.

use super::squad::{Done, SIX, Squad, first_page};
use crate::support::repository::Repository;

pub struct Week {
    /// The section's heading.
    pub title: &'static str,
    pub before: fn(&mut Squad),
    pub after: fn(&mut Squad),
}

const EVERYBODY: [&str; 6] = ["bram", "edda", "mila", "oskar", "tarek", "wren"];
/// After Oskar left.
const FIVE: [&str; 5] = ["bram", "edda", "mila", "tarek", "wren"];
/// With Juno.
const WITH_JUNO: [&str; 6] = ["bram", "edda", "juno", "mila", "tarek", "wren"];

const fn week(title: &'static str, before: fn(&mut Squad), after: fn(&mut Squad)) -> Week {
    Week { title, before, after }
}

pub const WEEKS: [Week; 11] = [
    week("Six folders", six_folders, |squad| squad.repository.commit("Block 1")),
    week("Week 1: what was done of it", first_sunday, drafted),
    week("Week 2: a page that came twice", a_copy, |squad| {
        squad.sunday(&EVERYBODY);
        next(squad, "2026-03-16");
    }),
    week("Week 3: a day that moved", a_moved_day, |squad| {
        squad.sunday(&EVERYBODY);
        next(squad, "2026-03-23");
    }),
    week("Week 4: the next block", a_deload, |squad| squad.repository.commit("Block 2")),
    week("Week 5: a knee", a_knee, drafted),
    week("Week 6: a week without a word", no_word, |squad| squad.repository.commit("Week 7, and one less")),
    week("Week 7: one who joins", one_who_joins, |squad| squad.repository.commit("Juno begins")),
    week("Week 8: another gym", another_gym, |squad| squad.repository.commit("Block 3")),
    week("Week 9: what came in", what_came_in, drafted),
    week("Week 10: the meet", the_meet, |squad| squad.sunday(&WITH_JUNO)),
];

fn drafted(squad: &mut Squad) {
    squad.repository.commit("The next week");
}

/// The next week is drafted as in the weeks before, without a screen.
fn next(squad: &mut Squad, monday: &str) {
    squad.repository.sh(&format!("loadline draft week --starts {monday} --all-lifters --write"));
    squad.repository.commit("The next week");
}

fn six_folders(squad: &mut Squad) {
    squad.on("03-01");
    for (lifter, loads) in SIX {
        if lifter != "mila" {
            let units = if lifter == "tarek" { "units: lb\n" } else { "" };
            let name = lifter[..1].to_uppercase() + &lifter[1..];
            squad.repository.write(&format!("{lifter}/lifter.yaml"), &format!("name: {name}\n{units}"));
        }
        if lifter != "edda" {
            squad.repository.write(&format!("{lifter}/block 1 week 1.md"), &first_page(loads));
        }
    }
    assert_eq!(squad.repository.read("edda/block 1 week 1.md"), first_page(SIX[1].1), "the page that the story shows");
    squad.repository.write(".gitattributes", "*.md diff=loadline merge=loadline\n");
    squad.repository.sh("git config merge.loadline.driver 'loadline merge %O %A %B'");
}

fn first_sunday(squad: &mut Squad) {
    squad.as_planned(&["edda", "mila", "oskar", "tarek", "wren"], "block 1 week 1", "7");
    squad.train("bram", "block 1 week 1", |_, lift| match lift {
        "Bench press" => Done::Sets("5,5,4 @ 110 kg RPE 9", 2),
        "Plank" => Done::Skipped("no time"),
        _ => Done::AsPlanned("7"),
    });
    squad.on("03-08");
    squad.repository.commit("Week 1");
    squad.sunday(&EVERYBODY);
}

/// Bram's folder is kept in step by a service that makes a copy where two devices write one page: the copy has Friday with
/// another effort.
fn a_copy(squad: &mut Squad) {
    squad.on("03-15");
    squad.as_planned(&EVERYBODY, "block 1 week 2", "7.5");
    let page = squad.repository.read("bram/block 1 week 2.md");
    squad.repository.write("bram/block 1 week 2 (conflicted copy).md", &page);
    squad.sunday(&EVERYBODY);
}

/// Wren's Wednesday moves to Thursday on the laptop, while her telephone has it filled in under Wednesday. Edda trains on
/// Thursday what stands under Wednesday, on a page of her own.
fn a_moved_day(squad: &mut Squad) {
    let mut phone = Repository::clone_of(&squad.repository);
    phone.sh("git config merge.loadline.driver 'loadline merge %O %A %B'");
    squad.on("03-18");
    phone.on("2026-03-19");
    let path = "wren/block 1 week 3.md";
    let plans = squad.repository.read(path);
    squad.repository.write(path, &plans.replace("## 2026-03-18 bench day", "## 2026-03-19 bench day"));
    squad.repository.commit("Wren has Thursday");
    let filled = squad.filled("wren", &plans, |_, _| Done::AsPlanned("8"));
    phone.write(path, &filled);
    phone.commit("Week 3 from the telephone");
    squad.repository.sh(&format!("git remote add wren {}", phone.root().display()));
    squad.as_planned(&["bram", "mila", "oskar", "tarek"], "block 1 week 3", "8");
    squad.train("edda", "block 1 week 3", |_, lift| match lift {
        "Bench press" | "Barbell row" => Done::Nothing,
        _ => Done::AsPlanned("8"),
    });
    late(squad);
    squad.on("03-22");
    squad.repository.commit("Week 3 of the others");
    squad.phone = Some(phone);
}

/// Edda's Thursday: the plans of Wednesday, done on a page of hers.
fn late(squad: &mut Squad) {
    let page = squad.repository.read("edda/block 1 week 3.md");
    let plan = |lift: &str| {
        let plan = page.split(&format!("- {lift}:\n  - plan: ")).nth(1).unwrap().lines().next().unwrap();
        plan.split(" RPE").next().unwrap().to_owned()
    };
    let day = format!(
        "## 2026-03-19 bench day\n\n- Bench press: {} RPE 8\n- Barbell row: {}\n",
        plan("Bench press"),
        plan("Barbell row")
    );
    squad.repository.write("edda/thursday.md", &day);
    // Planned for Wednesday and reached on Thursday: by the model, six sets more.
    squad.reach("edda", "03-16", 6);
}

fn a_deload(squad: &mut Squad) {
    squad.as_planned(&EVERYBODY, "block 1 week 4", "5");
    squad.on("03-29");
    squad.repository.commit("Week 4");
    squad.sunday(&EVERYBODY);
}

/// Edda's knee hurts from Monday on.
fn a_knee(squad: &mut Squad) {
    squad.as_planned(&["bram", "mila", "oskar", "tarek", "wren"], "block 2 week 1", "7");
    squad.train("edda", "block 2 week 1", |_, lift| match lift {
        "Back squat" | "Split squat" => Done::Skipped("left knee"),
        _ => Done::AsPlanned("7"),
    });
    let path = "edda/block 2 week 1.md";
    let page = squad.repository.read(path).replacen("squat day\n", "squat day\n\npain: left knee 6/10\n", 1);
    squad.repository.write(path, &page);
    squad.on("04-05");
    squad.repository.commit("Week 5");
    squad.sunday(&EVERYBODY);
}

/// Tarek has the flu and writes nothing. Oskar moves away at its end.
fn no_word(squad: &mut Squad) {
    squad.as_planned(&["bram", "edda", "mila", "oskar", "wren"], "block 2 week 2", "7.5");
    squad.train("tarek", "block 2 week 2", |_, _| Done::Nothing);
    squad.on("04-12");
    squad.repository.commit("Week 6");
    squad.sunday(&EVERYBODY);
}

fn one_who_joins(squad: &mut Squad) {
    squad.as_planned(&["bram", "edda", "mila", "wren"], "block 2 week 3", "8");
    // His plans of the week before stand in this one now.
    squad.forget("tarek", "04-06");
    squad.as_planned(&["tarek"], "block 2 week 2", "7.5");
    squad.on("04-19");
    squad.repository.commit("Week 7");
    squad.sunday(&FIVE);
}

/// Wren is in the hotel; the others have their deload, Tarek the third week of his block, Juno her first.
fn another_gym(squad: &mut Squad) {
    squad.as_planned(&["bram", "edda", "mila", "wren"], "block 2 week 4", "5");
    squad.as_planned(&["tarek"], "block 2 week 4", "8");
    squad.as_planned(&["juno"], "block 2 week 1", "7");
    squad.on("04-26");
    squad.repository.commit("Week 8");
    squad.sunday(&WITH_JUNO);
}

fn what_came_in(squad: &mut Squad) {
    squad.as_planned(&["bram", "edda", "mila", "wren"], "block 3 week 1", "7");
    squad.as_planned(&["tarek"], "block 2 week 5", "5");
    squad.as_planned(&["juno"], "block 2 week 2", "7.5");
    let path = "mila/block 3 week 1.md";
    let page = squad.repository.read(path).replacen("squat day\n", "squat day\n\nbodyweight: 70.2 kg\n", 1);
    squad.repository.write(path, &page);
    squad.on("05-03");
    squad.sunday(&WITH_JUNO);
}

/// Mila takes a heavier second deadlift than planned, and leaves her third squat at what she had in mind for the second.
fn the_meet(squad: &mut Squad) {
    squad.as_planned(&["bram", "edda", "wren"], "block 3 week 2", "7.5");
    squad.as_planned(&["mila"], "block 3 week 2", "5");
    squad.as_planned(&["juno"], "block 2 week 3", "8");
    squad.as_planned(&["tarek"], "block 3 week 1", "7");
    let page = squad.repository.read("mila/block 3.md");
    let taken = [
        ("Back squat", "1 @ 112.5 kg, 1 @ 120 kg, 1x0 @ 125 kg"),
        ("Bench press", "1 @ 65 kg, 1 @ 70 kg, 1 @ 72.5 kg"),
        ("Deadlift", "1 @ 140 kg, 1 @ 152.5 kg, 1 @ 157.5 kg"),
    ];
    let page = taken
        .iter()
        .fold(page, |page, (lift, sets)| page.replacen(&format!("- {lift}:\n"), &format!("- {lift}: {sets}\n"), 1));
    squad.repository.write("mila/block 3.md", &page.replacen("Open\n", "Open\n\nbodyweight: 68.7 kg\n", 1));
    squad.on("05-10");
}
