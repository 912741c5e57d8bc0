//! Which day sets count for, as people write days: dates in every form, work in no session, captions, cards and headings.

use chrono::NaiveDate;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::source::Lines;

fn today() -> NaiveDate {
    "2026-11-27".parse().unwrap()
}

/// The sets that a page counts, `2026-09-10 Back squat 5 @ 100 kg`, and what is wrong with which line.
fn told(page: &str) -> Vec<String> {
    let files = Memory::default().with("journal.yaml", "").with("page.md", page);
    let journal = open(&files);
    let lifter = &journal.lifters[0];
    let reading = meaning::read(&files, lifter, journal.pages_of(lifter), Some(today()));
    let mut out = Vec::new();
    for session in &reading.log.sessions {
        let weighed = session.bodyweight.as_ref().filter(|weighed| weighed.date == session.date);
        out.extend(weighed.map(|weighed| format!("{} bodyweight {}", session.date, weighed.mass.in_kilograms())));
        for work in &session.works {
            let sets = work.groups.iter().flat_map(|group| group.sets()).map(|set| {
                let amount = loadline::training::spelling::amount(set.amount, set.group.per_side);
                let load = set.group.load.text_with_unit().unwrap_or_default();
                format!("{amount} @ {load}").trim_end_matches(" @ ").to_owned()
            });
            let sets: Vec<String> = sets.collect();
            if sets.is_empty() {
                continue;
            }
            out.push(format!("{} {} {}", session.date, reading.log.lift_name(work.lift), sets.join(", ")));
        }
    }
    let lines = Lines::of(page);
    for (_, problem) in &reading.problems {
        let name = problem.kind.name();
        if !matches!(name, "loose-spelling" | "session-without-work" | "side-not-said") {
            out.push(format!("{name}: {}", lines.line(lines.position(problem.span.start).line).trim()));
        }
    }
    out
}

/// A page with the fixes that are offered, or as it is.
fn fixed(page: &str) -> String {
    let files = Memory::default().with("journal.yaml", "").with("page.md", page);
    let journal = open(&files);
    let lifter = &journal.lifters[0];
    let paths = journal.pages_of(lifter);
    let tidying = meaning::tidy(&files, lifter, &paths, &|_| true, true, Some(today()));
    tidying.revisions.into_iter().next().map_or_else(|| page.to_owned(), |revision| revision.after.text().to_owned())
}

/// Forms of a day below `## 2026-09-10`, and the heading that is offered for the line; nothing where several are.
const DAYS: [(&str, &str); 55] = [
    ("2026-09-12 push", "2026-09-12 push"),
    ("2026-09-14: legs", "2026-09-14: legs"),
    ("[2026-09-14]", "2026-09-14"),
    ("Date: 2026-09-14", "2026-09-14"),
    ("**2026-09-14**", "2026-09-14"),
    ("2026.09.14", "2026-09-14"),
    ("2026-9-14", "2026-09-14"),
    ("20260914", "2026-09-14"),
    ("2026/09/14", "2026-09-14"),
    ("2026 09 14", "2026-09-14"),
    ("Datum: 14.9.2026", "2026-09-14"),
    ("14.9. 2026", "2026-09-14"),
    ("\u{1f4c5} 14/9", "2026-09-14"),
    ("14/9", "2026-09-14"),
    ("*14/9*", "2026-09-14"),
    ("__14/9__", "2026-09-14"),
    ("14/9 legs", "2026-09-14 legs"),
    ("14.9. Push", "2026-09-14 Push"),
    ("14/9 - push day", "2026-09-14 push day"),
    ("14.9", "2026-09-14"),
    ("14-9", "2026-09-14"),
    ("14-Sep", "2026-09-14"),
    ("Today 14/9", "2026-09-14"),
    ("14/9 (Mon)", "2026-09-14"),
    ("14/9 (Tue)", ""),
    ("Mon 14/9 18:30", "2026-09-14 18:30"),
    ("14/9/26 6am", "2026-09-14 6am"),
    ("14 Sept '26", "2026-09-14"),
    ("14 Sep 2026", "2026-09-14"),
    ("14.9.26 Mo", "2026-09-14"),
    ("14.9.26 Di", ""),
    ("14 de septiembre", "2026-09-14"),
    ("14 settembre", "2026-09-14"),
    ("ma 14 sep", "2026-09-14"),
    ("m\u{e5}n 14 sep", "2026-09-14"),
    ("lun 14/9", "2026-09-14"),
    ("pon 14.09", "2026-09-14"),
    ("mar 15/9", "2026-09-15"),
    ("Mon 14", ""),
    ("Sunday", ""),
    ("Sunday - legs", ""),
    ("Monday push", ""),
    ("sobota", ""),
    ("l\u{f6}rdag", ""),
    ("Week 3 - Day 2", ""),
    ("Week 3 Day 2 - legs", ""),
    ("W2D3", ""),
    ("Day 2", ""),
    ("Tag 2", ""),
    ("D\u{ed}a 2", ""),
    ("5/3", ""),
    ("30/12", ""),
    ("28/11", ""),
    ("10/9", ""),
    ("14 Sep 2019", "2019-09-14"),
];

#[test]
fn what_stands_below_a_day_in_whatever_form_counts_for_no_other() {
    let mut wrong = Vec::new();
    for (day, offered) in DAYS {
        for signs in ["", "## ", "### "] {
            let page =
                format!("## 2026-09-10\n\n- Back squat: 3x5 @ 90 kg\n\n{signs}{day}\n\n- Bench press: 3x5 @ 80 kg\n");
            let squat = "2026-09-10 Back squat 5 @ 90 kg, 5 @ 90 kg, 5 @ 90 kg";
            let lines = told(&page);
            let iso = day.contains("2026-09-1") && (signs.is_empty() || day.starts_with("2026"));
            let other = lines.iter().any(|line| line.contains("Bench") && line.contains("2026-09-10"));
            let said = lines.iter().any(|line| *line == format!("not-a-date: {signs}{day}"));
            if !lines.contains(&squat.to_owned()) || other || said == iso {
                wrong.push(format!("{signs}{day}: {lines:?}"));
            }
            let after = fixed(&page);
            let heading = after.lines().nth(4).unwrap_or_default().to_owned();
            let signs = if signs.is_empty() { "## " } else { signs };
            let as_it_is = if page.contains(signs) && page.contains(&format!("{signs}{day}")) { signs } else { "" };
            let wanted = if offered.is_empty() { format!("{as_it_is}{day}") } else { format!("{signs}{offered}") };
            let plain = |text: &str| text.replace([':', '-', ' ', '*'], "");
            if plain(&heading) != plain(&wanted) {
                wrong.push(format!("{day}: `{heading}`, not `{wanted}`"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_is_no_day_begins_none() {
    for line in [
        "82.4",
        "3-5",
        "18:30",
        "Sunday was hard",
        "Monday felt heavy today",
        "14/9 it is",
        "Sam",
        "may be too heavy",
        "14.9 km",
        "so tired",
        "Week 3 of the block went well",
    ] {
        let page = format!("## 2026-09-10\n\n- Back squat: 3x5 @ 90 kg\n\n{line}\n\n- Bench press: 5 @ 80 kg\n");
        let lines = told(&page);
        assert!(lines.contains(&"2026-09-10 Bench press 5 @ 80 kg".to_owned()), "{line}: {lines:?}");
    }
    // A score among facts.
    let page = "## 2026-09-10\n\nsleep: 7 h\n\n7/10\n\nfelt fresh\n";
    assert_eq!(told(page), Vec::<String>::new());
}

#[test]
fn a_date_of_another_year_is_not_overruled_and_one_out_of_order_is_asked() {
    let page = "## 2019-09-10\n\n- Deadlift: 5 @ 90 kg\n\n## 14 Sept '26\n\n- Deadlift: 5 @ 80 kg\n";
    assert!(fixed(page).contains("## 2026-09-14\n"), "{}", fixed(page));
    let page = "## 2026-01-02\n\n- Deadlift: 5 @ 90 kg\n\n## 30/12\n\n- Deadlift: 5 @ 80 kg\n";
    assert_eq!(fixed(page), page);
}
