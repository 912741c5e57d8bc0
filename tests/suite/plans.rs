//! Plans as values: what the first `plan:` of a line asks for.

use loadline::journal::{Memory, open};
use loadline::meaning::{self, Reading};
use loadline::training::{Amount, PlannedGroup};

fn read(page: &str) -> Reading {
    let files = Memory::default().with("journal.yaml", "").with("page.md", page);
    let journal = open(&files);
    meaning::read(&files, &journal.lifters[0], journal.pages_of(&journal.lifters[0]), None)
}

fn amount(amount: Amount) -> String {
    match amount {
        Amount::Reps(reps) => reps.to_string(),
        Amount::Seconds(seconds) => format!("{seconds}s"),
        Amount::Metres(distance) => format!("{}m", distance.rounded_metres()),
    }
}

/// A planned group in words: sets, amounts, load, effort.
fn shown(group: &PlannedGroup) -> String {
    let most = group.amounts.most().map_or("more".to_owned(), amount);
    let mut text = format!("{}-{} x {}-{most}", group.fewest, group.most, amount(group.amounts.least()));
    if group.per_side {
        text += "/side";
    }
    text += &group.load.text().map_or(String::new(), |load| format!(" @ {load}"));
    text +=
        &group.effort.map_or(String::new(), |effort| format!(" RPE {}-{}", effort.low.value(), effort.high.value()));
    text
}

fn planned(line: &str, details: &[&str]) -> Vec<String> {
    let details: String = details.iter().map(|detail| format!("  - {detail}\n")).collect();
    let block = "# Block 1\n- starts: 2026-03-02\n- max: Bench press 120 kg\n\n";
    let reading = read(&format!("{block}## 2026-03-05\n- {line}\n{details}"));
    let plan = reading.log.sessions[0].works[0].plan();
    plan.map_or(Vec::new(), |plan| plan.groups.iter().map(shown).collect())
}

#[test]
fn every_range_is_kept() {
    for (plan, groups) in [
        ("3x8 @ 120 kg RPE 5-6", &["3-3 x 8-8 @ 120 kg RPE 5-6"][..]),
        ("2-3x8-10", &["2-3 x 8-10"]),
        ("8-10 RPE 7", &["1-1 x 8-10 RPE 7-7"]),
        ("1x5+ @ 100 kg", &["1-1 x 5-more @ 100 kg"]),
        ("12+4+4 @ 60 kg", &["1-1 x 20-20 @ 60 kg"]),
        ("3x20-30s", &["3-3 x 20s-30s"]),
        ("4x40m/side @ 32 kg", &["4-4 x 40m-40m/side @ 32 kg"]),
        ("2x1-2km", &["2-2 x 1000m-2000m"]),
        ("3x5 RIR 1-2", &["3-3 x 5-5 RPE 8-9"]),
        ("3x5 RIR 1 RPE 8", &["3-3 x 5-5 RPE 8-8"]),
        ("3x5 @ 75%", &["3-3 x 5-5 @ 75%"]),
    ] {
        assert_eq!(planned("Bench press:", &[&format!("plan: {plan}")]), groups, "{plan}");
    }
}

#[test]
fn sets_that_differ_are_groups_of_their_own() {
    for (plan, groups) in [
        ("8,8,7 @ 60 kg", &["2-2 x 8-8 @ 60 kg", "1-1 x 7-7 @ 60 kg"][..]),
        ("3x5 @ 60 kg RPE 6,6,7", &["2-2 x 5-5 @ 60 kg RPE 6-6", "1-1 x 5-5 @ 60 kg RPE 7-7"]),
        ("2-3x5 RPE 6,7", &["2-3 x 5-5 RPE 6-7"]),
        ("1x3 @ 90 kg RPE 8, 3x5", &["1-1 x 3-3 @ 90 kg RPE 8-8", "3-3 x 5-5 @ 90 kg"]),
    ] {
        assert_eq!(planned("Bench press:", &[&format!("plan: {plan}")]), groups, "{plan}");
    }
}

#[test]
fn as_many_as_possible_is_open_and_as_hard_as_can_be() {
    for (plan, groups) in [
        ("1xAMRAP @ 60 kg", &["1-1 x 1-more @ 60 kg RPE 10-10"][..]),
        ("1xAMRAP @ 60 kg RPE 9", &["1-1 x 1-more @ 60 kg RPE 9-9"]),
        ("3x8 @ 60 kg AMRAP", &["2-2 x 8-8 @ 60 kg", "1-1 x 8-more @ 60 kg RPE 10-10"]),
        ("3x8 @ 60 kg RPE 8 AMRAP", &["2-2 x 8-8 @ 60 kg RPE 8-8", "1-1 x 8-more @ 60 kg RPE 8-8"]),
    ] {
        assert_eq!(planned("Bench press:", &[&format!("plan: {plan}")]), groups, "{plan}");
    }
}

/// A plan that says no load leaves it open, also where work that is done would be at the lifter's own weight.
#[test]
fn a_lifts_default_load_is_not_planned() {
    assert_eq!(planned("Pull-up: 3x5", &["plan: 3x5"]), ["3-3 x 5-5"]);
    assert_eq!(planned("Pull-up: 3x5", &["plan: 3x5, 1x8 @ bw + 10 kg"]), ["3-3 x 5-5", "1-1 x 8-8 @ bw + 10 kg"]);
}

#[test]
fn the_first_plan_is_the_plan_also_where_an_error_costs_it() {
    assert_eq!(planned("Bench press: 3x5 @ 60 kg", &["plan: 3x5 @ 60 kg", "plan: 5x5 @ 70 kg"]), ["3-3 x 5-5 @ 60 kg"]);
    assert_eq!(planned("Bench press: 3x5 @ 60 kg", &["plan: 0x5 @ 60 kg", "plan: 5x5 @ 70 kg"]), [""; 0]);
    // A percentage of a lift without a maximum costs the plan, and the plan only.
    let done = "Front squat: 3x5 @ 60 kg";
    assert_eq!(planned(done, &["plan: 3x5 @ 75%"]), [""; 0]);
}
