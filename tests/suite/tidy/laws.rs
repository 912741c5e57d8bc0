//! What holds for any page.

use super::{checked, journal, of_page, revised, tidying};
use crate::laws::{cases, faulty, flat_text, word};
use crate::support::generator;
use loadline::journal::{Memory, open};
use loadline::meaning::{Reading, Tidying};
use loadline::notation::nodes::{Group, LineKind};
use loadline::notation::read;
use loadline::problems::Severity;
use loadline::source::{Page, apply};
use loadline::training::{Log, fold};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// All that the pages say. Plans are kept there as they are typed, so they are told by their groups instead.
fn said(reading: &Reading) -> Log {
    let mut log = reading.log.clone();
    for work in log.sessions.iter_mut().flat_map(|session| &mut session.works) {
        if let Some(plan) = work.details.as_mut().and_then(|details| details.plan.as_mut()) {
            plan.text = "".into();
        }
    }
    log
}

/// The groups of every plan and warm-up in the notation, without their spelling, but for those of lines that are left out.
/// What was typed loosely is no tree of the notation before it is tidied; `said` holds what it is read as.
fn plans(page: &Page, left_out: &[bool]) -> Vec<String> {
    let group = |group: &Group<'_>| {
        let load = group.load.as_ref().map(|load| {
            let terms = std::iter::once(&load.first).chain(load.more.iter().map(|(_, term)| term));
            let kinds: Vec<String> = terms.map(|term| fold(&format!("{:?} {}", term.kind, term.per_side))).collect();
            (load.approximate, kinds, load.more.iter().map(|(sign, _)| *sign).collect::<Vec<_>>())
        });
        let attributes: Vec<_> = group.attributes.iter().map(|attribute| &attribute.kind).collect();
        format!("{:?} {} {load:?} {attributes:?}", group.count.sets, group.count.per_side)
    };
    let of_line = |kind: &LineKind<'_>| match kind {
        LineKind::Detail(detail) => Some(detail.groups.iter().map(group).collect::<Vec<_>>().join("; ")),
        _ => None,
    };
    let lines = read(page);
    lines.iter().zip(left_out).filter(|(_, left_out)| !**left_out).filter_map(|(line, _)| of_line(&line.kind)).collect()
}

/// The lines of a page that were read as people type them.
fn loose(page: &Page, reading: &Reading) -> Vec<bool> {
    let problems = reading
        .problems
        .iter()
        .filter(|(of, problem)| reading.log.page_path(*of) == page.path() && problem.kind.name() == "loose-spelling");
    let places: Vec<u32> = problems.map(|(_, problem)| problem.span.start).collect();
    let mut start = 0;
    let lines = read(page).into_iter().map(|line| {
        let end = start + line.text.len() as u32;
        let here = places.iter().any(|at| (start..end).contains(at));
        start = end;
        here
    });
    lines.collect()
}

/// Every comment inside a line, in the order of the alphabet: one in quotes moves with its load.
fn comments(text: &str) -> Vec<&str> {
    let mut all = Vec::new();
    for line in text.lines() {
        for (at, _) in line.match_indices("<!--") {
            all.extend(line[at..].find("-->").map(|end| &line[at..at + end]));
        }
    }
    all.sort_unstable();
    all
}

fn kinds(reading: &Reading) -> Vec<(u32, &'static str)> {
    let mut kinds: Vec<(u32, &'static str)> =
        reading.problems.iter().map(|(page, problem)| (page.0, problem.kind.name())).collect();
    kinds.sort_unstable();
    kinds
}

/// The lines of a page that must stay: what is nobody's spelling but the writer's, and what has an error.
fn kept(page: &Page, reading: &Reading) -> Vec<bool> {
    let path = page.path();
    let mut start = 0;
    let mut kept = Vec::new();
    for (line, loose) in read(page).into_iter().zip(loose(page, reading)) {
        let end = start + line.text.len() as u32;
        let last = end as usize == page.text().len();
        let faulty = reading.problems.iter().any(|(of, problem)| {
            let at = problem.span.start;
            reading.log.page_path(*of) == path
                && problem.kind.severity() == Severity::Error
                && at >= start
                && (at < end || (last && at == end))
        });
        let own = matches!(
            line.kind,
            LineKind::Prose
                | LineKind::Opaque
                | LineKind::MergeMarker
                | LineKind::Heading { .. }
                | LineKind::BadSession
        );
        // What is read as people type it is written in the notation.
        kept.push((faulty || own) && !loose);
        start = end;
    }
    kept
}

/// What is before a line's end, and the end.
fn parted(line: &str) -> (&str, &str) {
    let body = line.trim_end_matches('\n');
    let body = body.strip_suffix('\r').unwrap_or(body);
    line.split_at(body.len())
}

/// Everything that tidying promises, on one journal.
fn holds(before: &Memory) -> Tidying {
    let (first, reading) = (tidying(before, false), checked(before));
    let after = revised(before, &first);
    let lifters = open(before).lifters;
    let again = checked(&after);
    assert_eq!(said(&reading), said(&again), "the same is said");
    // What was read loosely is in the notation now, which was its only problem.
    let but_loose =
        |reading| kinds(reading).into_iter().filter(|(_, kind)| *kind != "loose-spelling").collect::<Vec<_>>();
    assert_eq!(but_loose(&reading), but_loose(&again), "no problem comes or goes");
    for revision in &first.revisions {
        let (old, new) = (&revision.before, &revision.after);
        let typed = loose(old, &reading);
        assert_eq!(plans(old, &typed), plans(new, &typed), "plans say the same");
        let flat = |page: &Page| flat_text(&lifters[0], vec![page.clone()]);
        assert_eq!(flat(old), flat(new), "one set a line, it is the same text");
        assert_eq!(comments(old.text()), comments(new.text()), "comments stay");
        let lines: (Vec<&str>, Vec<&str>) =
            (old.text().split_inclusive('\n').collect(), new.text().split_inclusive('\n').collect());
        assert_eq!(lines.0.len(), lines.1.len(), "no line is joined or split");
        for ((one, other), kept) in lines.0.iter().zip(&lines.1).zip(kept(old, &reading)) {
            assert!(!kept || one == other, "{one:?} must stay, and becomes {other:?}");
            assert_eq!(parted(one).1, parted(other).1, "line ends");
        }
        assert_eq!(old.text().starts_with('\u{feff}'), new.text().starts_with('\u{feff}'), "the byte-order mark");
        assert_eq!(apply(old.text(), &revision.edits()).unwrap(), new.text(), "the edits are the difference");
    }
    let second = tidying(&after, false);
    let left: Vec<_> =
        second.revisions.iter().map(|revision| (revision.before.text(), revision.after.text())).collect();
    assert_eq!(left, Vec::<(&str, &str)>::new(), "what is tidy stays");
    first
}

/// Every load that is written on a work line without an error is spelled as the answers spell it.
fn spelled_as_answers_do(after: &Memory) {
    let reading = checked(after);
    let works = reading.log.sessions.iter().flat_map(|session| &session.works);
    let known: BTreeSet<String> = works.flat_map(|work| &work.groups).filter_map(|group| group.load.text()).collect();
    for path in &reading.log.pages {
        let page = Page::new(&**path, loadline::journal::Files::read(after, path).unwrap()).unwrap();
        for (line, _) in read(&page).iter().zip(kept(&page, &reading)).filter(|(_, kept)| !kept) {
            let groups = match &line.kind {
                LineKind::Work(work) => match &work.body {
                    loadline::notation::nodes::Body::Groups(groups) => groups,
                    _ => continue,
                },
                LineKind::SetLine(groups) => groups,
                _ => continue,
            };
            for load in groups.iter().filter_map(|group| group.load.as_ref()) {
                assert!(known.contains(load.text), "{:?} in {:?}", load.text, line.text);
            }
        }
    }
}

#[test]
fn journals_in_wild_spelling_say_the_same_once_tidied() {
    let mut changed = 0;
    for seed in 0..40 {
        let journal = journal(&generator::journal(seed).files);
        let tidying = holds(&journal);
        assert_eq!(tidying.faulty, 0, "seed {seed}: {:?}", checked(&journal).problems);
        spelled_as_answers_do(&revised(&journal, &tidying));
        changed += tidying.revisions.len();
    }
    assert!(changed > 40, "{changed} pages changed");
}

#[test]
fn a_journal_in_tidy_spelling_stays_as_it_is() {
    let journal = journal(&generator::lifetime(1, 5).files);
    assert!(tidying(&journal, false).revisions.is_empty());
}

/// Lines in which the parts are right and everything between and about them is odd.
fn odd() -> impl Strategy<Value = String> {
    let of = |texts: &'static [&'static str]| prop::sample::select(texts);
    let gap = || of(&[" ", " ", " ", "", "  ", "\u{a0}", "\t", " <!-- 3x8 @9kg --> "]);
    let count =
        || of(&["3x8", "3 X 8", "8", "8,8,7", "12 + 4", "3 × 20 sec", "4x40m", "2x1 min", "3x10 / side", "1×5"]);
    let load = of(&[
        "@120kg",
        "@ ~ 405lbs",
        "x 60 kg",
        "×60KG",
        "@BW–15",
        "@ pin7+2.5kg",
        "@ “b  b”",
        "@bar+2 red / side",
        "@45lb+80",
        "@ 20kg+2 x 25kg/side",
        "@75 %",
        "@120.0",
        "",
    ]);
    let attribute = of(&[
        "rpe6",
        "@ RPE 6–7",
        "Rir 2",
        "@rir1",
        "amrap",
        "!depth",
        "!lock-out( 1 )",
        "Rest 90 sec",
        "rest 2min",
        "Tempo 3–1–0",
        "(  a <!-- b -->  “c” )",
        "MISS 1",
    ]);
    let attributes = prop::collection::vec((attribute, gap()), 0..3)
        .prop_map(|all| all.into_iter().map(|(text, gap)| format!("{gap}{text}")).collect::<String>());
    let group =
        (count(), gap(), load, gap(), attributes, 0..4).prop_map(
            |(count, gap, load, other, more, order)| match order {
                0 => format!("{count}{more}{gap}{load}"),
                1 => format!("60 kg{gap}x{other}{count}{more}"),
                _ => format!("{count}{gap}{load}{other}{more}"),
            },
        );
    let start = of(&[
        "* Front squat:",
        "- **front-squats** :",
        "+ [x] _Rope  drag:_",
        "- Pull ups:",
        "- Dip:\n  *",
        "- Dip: 5@9kg\n\t+ ",
        "- Dip:\n  - Plan :",
        "- Dip: As  Planned rpe 7\n  - plan:",
        "- Dip:\n  - Warm up:",
    ]);
    let end = of(&["", "", ".", " ,", ",.", " ", "\u{a0}.", " <!-- end -->"]);
    let comma = of(&[", ", " ,", ",  ", " , "]);
    let line =
        (start, gap(), prop::collection::vec((group, comma), 1..3), end).prop_map(|(start, gap, groups, end)| {
            let groups: Vec<String> = groups.into_iter().map(|(group, comma)| format!("{group}{comma}")).collect();
            format!("{start}{gap}{}{end}\n", groups.concat().trim_end_matches([',', ' ']))
        });
    prop::collection::vec(line, 1..4).prop_map(|lines| {
        format!("# Block 6\n- starts: 2026-03-02\n- max: Dip 90 kg\n## 2026-03-05\n{}", lines.concat())
    })
}

/// A page fixed and tidied has no fix left that is not a question, and no set the less.
fn fixes_help(page: &str) {
    let before = of_page(page);
    let fixed = tidying(&before, true);
    let after = checked(&revised(&before, &fixed));
    let left: Vec<_> =
        after.problems.iter().filter(|(_, problem)| problem.kind.leaves_out() && problem.fix.is_some()).collect();
    assert!(left.is_empty(), "{page:?}: {left:?}");
    let sets = |reading: &Reading| -> usize {
        let works = reading.log.sessions.iter().flat_map(|session| &session.works);
        works.flat_map(|work| &work.groups).map(|group| group.count()).sum()
    };
    assert!(sets(&after) >= sets(&checked(&before)), "{page:?}");
    assert!(tidying(&revised(&before, &fixed), true).revisions.is_empty(), "{page:?}");
}

proptest! {
    #![proptest_config(cases(250))]

    #[test]
    fn mistyped_pages_say_the_same_once_tidied(page in faulty()) {
        holds(&of_page(page.as_str()));
    }

    #[test]
    fn oddly_spelled_pages_say_the_same_once_tidied(page in odd()) {
        holds(&of_page(page.as_str()));
        spelled_as_answers_do(&revised(&of_page(page.as_str()), &tidying(&of_page(page.as_str()), false)));
    }

    #[test]
    fn mistyped_pages_lose_nothing_by_their_fixes(page in faulty()) {
        fixes_help(&page);
    }

    #[test]
    fn anything_like_the_notation_says_the_same_once_tidied(
        words in prop::collection::vec(word(), 0..30),
        mark in any::<bool>(),
        end in prop::sample::select(&["\n", "\r\n"][..]),
    ) {
        let mark = if mark { "\u{feff}" } else { "" };
        for glue in [" ", ""] {
            let page = format!("{mark}## 2026-03-05\n- Front squat: {}", words.join(glue)).replace('\n', end);
            holds(&of_page(page));
        }
    }

    #[test]
    fn any_bytes_say_the_same_once_tidied(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        holds(&of_page(bytes.clone()));
        let mut below = b"## 2026-03-05\n* Front squat: 3X8 ".to_vec();
        below.extend(bytes);
        holds(&of_page(below));
    }
}
