//! Which day sets count for, as people write days: dates in every form, work in no session, captions, cards and headings.

use chrono::NaiveDate;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::source::Lines;

fn today() -> NaiveDate {
    "2026-11-27".parse().unwrap()
}

/// The sets that a page counts, `2026-09-10 Back squat 5 @ 100 kg`, and what is wrong with which line.
pub(crate) fn told(page: &str) -> Vec<String> {
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
pub(crate) fn fixed(page: &str) -> String {
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

/// What a day is called may stand before its date.
#[test]
fn a_date_behind_its_title_is_a_day_of_its_own() {
    for (line, heading) in [
        ("### Upper, 2026-09-14", "### 2026-09-14 Upper"),
        ("**Upper \u{2014} 2026-09-14**", "## 2026-09-14 Upper"),
        ("Lower B 2026-09-14", "## 2026-09-14 Lower B"),
        ("Upper 14.9.", "## 2026-09-14 Upper"),
        ("### Upper - Mon 14 Sept", "### 2026-09-14 Upper"),
        ("Upper (Sat)", "Upper (Sat)"),
        ("Push day Saturday", "Push day Saturday"),
        ("- Monday 14 Sept", "## 2026-09-14"),
        ("- **Sat**", "- **Sat**"),
        ("7. z\u{e1}\u{159}\u{ed}", "## 2026-09-07"),
    ] {
        let page = format!("## 2026-09-05\n\n- Back squat: 3x5 @ 90 kg\n\n{line}\n\n- Bench press: 3x5 @ 80 kg\n");
        let squat = "2026-09-05 Back squat 5 @ 90 kg, 5 @ 90 kg, 5 @ 90 kg".to_owned();
        assert_eq!(told(&page), [squat, format!("not-a-date: {line}")], "{line}");
        assert_eq!(fixed(&page).lines().nth(4), Some(heading), "{line}");
    }
    for label in ["Legs sat out", "Squat Saturday and Sunday", "Upper 7/3", "Push pull legs"] {
        let page = format!("## 2026-09-05\n\n- Back squat: 5 @ 90 kg\n\n{label}\n\n- Bench press: 5 @ 80 kg\n");
        let counted = ["2026-09-05 Back squat 5 @ 90 kg", "2026-09-05 Bench press 5 @ 80 kg"];
        assert_eq!(told(&page), counted, "{label}");
    }
}

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

/// Pages, and all that is said of them.
pub(crate) fn pages(pages: &[(&str, &[&str])]) {
    let mut wrong = Vec::new();
    for (page, expected) in pages {
        let lines = told(page);
        if lines != *expected {
            wrong.push(format!("{page}---\n{}\nnot\n{}\n", lines.join("\n"), expected.join("\n")));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn work_in_no_session_is_said() {
    pages(&[
        ("10/9\nSquat 3x5 90\n\n12/9\nBench 3x5 80\n", &["not-a-date: 10/9", "not-a-date: 12/9"]),
        ("2026-09-10 legs\nSquat 1x5 90\n", &["2026-09-10 Back squat 5 @ 90 kg"]),
        ("10.9.2026\nSquat 3x5 90\n", &["not-a-date: 10.9.2026"]),
        ("Monday\nSquat 3x5 90\n", &["not-a-date: Monday"]),
        ("squat 3x5 100\n", &["work-outside-session: squat 3x5 100"]),
        ("---\ndate: 2026-09-10\n---\n\nSquat 3x5 100\nBench 3x5 80\n", &["work-outside-session: Squat 3x5 100"]),
        ("# Log\n\nSquat\n3x5 100\n\nPull-ups 3x8\n", &["work-outside-session: 3x5 100"]),
        (
            "## 2026-09-10\n\nSquat 1x5 90\n\n## Legs\n\nLeg press 3x8 140\n- Leg curl: 3x8 @ 40 kg\n",
            &["2026-09-10 Back squat 5 @ 90 kg", "work-outside-session: Leg press 3x8 140"],
        ),
        // Plans, records and words.
        ("# Records\n\nSquat 1x180 kg\n- Bench press: 1x1 @ 120 kg\n", &[]),
        ("# Plan for autumn\n\n## Legs\n\nSquat 3x5 100\n", &[]),
        ("Next week:\nSquat 3x5 100\n", &[]),
        ("# Notes\n\nMonday\n\nI squatted 100 and it felt good. Bench is next.\n\nSquat 3x5\nBench 3x8\n", &[]),
    ]);
}

#[test]
fn sets_below_a_caption_count_only_where_they_were_done() {
    let squat = "2026-09-10 Back squat 5 @ 100 kg";
    let refused = "unread-work: Squat 1x5 100";
    let mut all: Vec<(String, Vec<&str>)> = Vec::new();
    for caption in [
        "Next week:",
        "Plan:",
        "Plan for Thursday:",
        "TODO",
        "Tomorrow",
        "Goals",
        "PRs:",
        "Program",
        "planned:",
        "Last week:",
        "yesterday",
        "Anna:",
        "Training partner:",
        "morgen",
        "n\u{e4}chste Woche",
        "demain",
        "ma\u{f1}ana:",
    ] {
        all.push((format!("## 2026-09-10\n\n{caption}\nSquat 1x5 100\n"), vec![refused]));
        all.push((format!("## 2026-09-10\n\n{caption}\nfoo\n\nSquat 1x5 100\n"), vec![squat]));
        all.push((format!("## 2026-09-10\n\n{caption}\nToday:\nSquat 1x5 100\n"), vec![squat]));
        if caption != "Anna:" {
            let bullet = "unread-work: - Back squat: 1x5 @ 100 kg";
            all.push((format!("## 2026-09-10\n\n### {caption}\n\n- Back squat: 1x5 @ 100 kg\n"), vec![bullet]));
        }
    }
    for caption in ["Today:", "done:", "Me:", "Main work:", "### Later that day", "Felt fresh", "Accessories:"] {
        all.push((format!("## 2026-09-10\n\n{caption}\nSquat 1x5 100\n"), vec![squat]));
    }
    let all: Vec<(&str, &[&str])> = all.iter().map(|(page, said)| (page.as_str(), said.as_slice())).collect();
    pages(&all);
    pages(&[
        ("## 2026-09-10\n\nAnna:\n- Back squat: 1x5 @ 100 kg\n", &[squat]),
        (
            "## 2026-09-10\n\n3 rounds:\n5 push ups\n5 pull ups\n\nSquat 1x5 100\n",
            &[squat, "unread-work: 3 rounds:", "unread-work: 5 push ups", "unread-work: 5 pull ups"],
        ),
        ("## 2026-09-10\n\nEvery 2 min for 10 min\nSquat 1x5 100\n", &[refused]),
        ("## 2026-09-10\n\nCircuit x3:\n- Push-up: 10\n", &["unknown-lift: Circuit x3:", "unread-work: - Push-up: 10"]),
    ]);
}

#[test]
fn sets_whose_load_is_refused_do_not_count_without_one() {
    for lines in [
        &["Squat", "100kg", "5,5,5"][..],
        &["Squat 80", "5,5,5"],
        &["Squat: 80", "5,5,5"],
        &["Bench", "8 reps", "80 kg"],
        &["Squat:", "100 kg", "3 sets", "5 reps"],
        &["Squat", "Weight: 100", "Sets: 3", "Reps: 5"],
        &["Exercise: Squat", "Weight: 100", "Sets: 3", "Reps: 5"],
    ] {
        let lines_told = told(&format!("## 2026-09-10\n\n{}\n", lines.join("\n")));
        assert!(
            lines_told.iter().all(|line| line.starts_with("unread-work: ") || line.starts_with("several-")),
            "{lines:?}: {lines_told:?}"
        );
        assert!(lines_told.len() >= 2, "{lines:?}: {lines_told:?}");
    }
    pages(&[(
        "## 2026-09-10\n\nWeight: 82\n\nSquat\n100x5\n",
        &["2026-09-10 bodyweight 82", "2026-09-10 Back squat 5 @ 100 kg"],
    )]);
}

#[test]
fn sets_in_a_heading_are_said_and_a_lift_there_holds_for_the_lines_below() {
    let squat = "2026-09-10 Back squat 5 @ 100 kg, 3 @ 110 kg";
    pages(&[
        ("## 2026-09-10\n\n### Bench 3x8 80\n", &["unread-work: ### Bench 3x8 80"]),
        ("# Squat 3x5 100\n", &["unread-work: # Squat 3x5 100"]),
        ("## 2026-09-10 Squat 3x5 100\n", &["unread-work: ## 2026-09-10 Squat 3x5 100"]),
        ("## 2026-09-10: squat 3x5 100, bench 3x5 80\n", &["unread-work: ## 2026-09-10: squat 3x5 100, bench 3x5 80"]),
        (
            "2026-09-10 squat 3x5 100\nbench 1x5 80\n",
            &["2026-09-10 Bench press 5 @ 80 kg", "unread-work: 2026-09-10 squat 3x5 100"],
        ),
        ("## 2026-09-10 Squat 5x5\n\n- Bench press: 5 @ 80 kg\n", &["2026-09-10 Bench press 5 @ 80 kg"]),
        ("## 2026-09-10\n\n### Squat\n100x5\n110x3\n", &[squat]),
        ("## 2026-09-10\n\n### Squat\n\n- 5 @ 100\n- 3 @ 110\n", &[squat]),
    ]);
}
