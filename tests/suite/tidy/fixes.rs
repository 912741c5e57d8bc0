//! Fixes first, on demand.

use super::{checked, of_page, tidying};

/// A page with every fix applied, and how many of its lines keep an error.
fn fixed(page: &str) -> (String, u32) {
    let journal = of_page(page);
    let tidying = tidying(&journal, true);
    let after = tidying.revisions.first().map_or_else(|| page.to_owned(), |revision| revision.after.text().to_owned());
    (after, tidying.faulty)
}

#[test]
fn a_page_typed_in_the_other_order_becomes_clean_at_once() {
    let before = "## 2026-03-05\n\n- Front squat: 170x1, 160x4,4,4\n- Bench press: 60x8 RPE 7, 5 x 70kg\n";
    let after =
        "## 2026-03-05\n\n- Front squat: 1 @ 170 kg, 4,4,4 @ 160 kg\n- Bench press: 8 @ 60 kg RPE 7, 5 @ 70 kg\n";
    assert_eq!(fixed(before), (after.to_owned(), 0));
    assert!(checked(&of_page(after)).problems.is_empty());
}

#[test]
fn fixes_go_on_until_none_is_left() {
    let before = "\
## 2026-03-05
- Front squat 3x8@120.5kg
- Front squat: 3x8@120,5kg , RPE 7
- Front squat: 3 sets of 8 reps@120 kg 2 RIR felt good
  - setpu: rack at 8
  - 3x8-10 @ 60 kg
- bodywieght: 83.1kg
";
    let after = "\
## 2026-03-05
- Front squat: 3x8 @ 120.5 kg
- Front squat: 3x8 @ 120.5 kg RPE 7
- Front squat: 3x8 @ 120 kg RIR 2 (felt good)
  - setup: rack at 8
  - 3x8-10 @ 60 kg
- bodyweight: 83.1 kg
";
    assert_eq!(fixed(before), (after.to_owned(), 1));
}

/// What counts already is a question that only the lifter can answer.
#[test]
fn warnings_about_what_counts_stay() {
    let page = "## Fri 2026-03-05\n\n- Frnt squat: 3x8 @ 60 kg\n- Bulgarian split squat: 3x8 @ 20 kg\n";
    let kinds = || {
        checked(&of_page(page))
            .problems
            .iter()
            .map(|(_, problem)| (problem.kind.name(), problem.fix.is_some()))
            .collect::<Vec<_>>()
    };
    assert_eq!(kinds(), [("wrong-weekday", true), ("near-lift", true), ("side-not-said", true)]);
    assert_eq!(fixed(page), (page.to_owned(), 0));
}

#[test]
fn without_being_asked_no_fix_is_applied() {
    let page = "## 2026-03-05\n\n- Front squat: 3x8 @ 80 kg RPE 9-8\n";
    assert_eq!(super::tidied(page), page);
}
