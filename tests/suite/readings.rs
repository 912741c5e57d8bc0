//! Lines as people type them: a table typed by hand, and lines of every shape held against an enumeration of their
//! readings that shares nothing with the program's.

use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::notation::readings::{
    AtSign, BeforeX, Choice, CommaSign, CountOrder, Fate, Habits, Meaning, Named, Place, ThreeNumbers, lone_lift,
    readings,
};
use loadline::training::LiftBook;
use std::collections::BTreeSet;

/// A line of the table.
struct Typed {
    line: &'static str,
    fate: &'static str,
    habits: Habits,
    below: Option<Named>,
}

fn habits(words: &str) -> Habits {
    let mut habits = Habits::default();
    let mut pairs: Vec<(String, String)> = Vec::new();
    for word in words.split(' ') {
        match word.split_once('=') {
            Some((key, value)) => pairs.push((key.to_owned(), value.to_owned())),
            None => {
                if let Some((_, value)) = pairs.last_mut() {
                    value.push_str(&format!(" {word}"));
                }
            }
        }
    }
    for (key, value) in pairs {
        match (key.as_str(), value.as_str()) {
            ("three", "load x reps x sets") => habits.three_numbers = Some(ThreeNumbers::LoadRepsSets),
            ("three", "load x sets x reps") => habits.three_numbers = Some(ThreeNumbers::LoadSetsReps),
            ("before", "load") => habits.before_x = Some(BeforeX::Load),
            ("at", "effort") => habits.at_sign = Some(AtSign::Effort),
            ("at", "load") => habits.at_sign = Some(AtSign::Load),
            ("count", "reps x sets") => habits.count = Some(CountOrder::RepsSets),
            ("comma", "decimal") => habits.comma = Some(CommaSign::Decimal),
            ("SQ2", lift) => drop(habits.names.insert("SQ2".into(), lift.into())),
            (word, meaning) => {
                let meaning = Meaning::named(meaning).unwrap_or_else(|| panic!("{word}={meaning}"));
                habits.words.insert(word.to_lowercase(), meaning);
            }
        }
    }
    habits
}

fn table() -> Vec<Typed> {
    let book = LiftBook::built_in();
    let (mut out, mut now, mut below) = (Vec::new(), Habits::default(), None);
    for line in include_str!("../data/typed.txt").lines() {
        if line.is_empty() || line.starts_with('#') {
        } else if let Some(words) = line.strip_prefix("habits: ") {
            let words = words.strip_prefix("words ").or(words.strip_prefix("names ")).unwrap_or(words);
            now = if words == "none" { Habits::default() } else { habits(words) };
        } else if let Some(lift) = line.strip_prefix("@ ") {
            below = lone_lift(lift, &book, &now);
        } else if line == "@" {
            below = None;
        } else {
            let (line, fate) = line.split_once(" => ").unwrap_or_else(|| panic!("{line}"));
            out.push(Typed { line, fate, habits: now.clone(), below: below.clone() });
        }
    }
    out
}

fn fate_of(typed: &Typed, book: &LiftBook) -> Fate {
    let place = Place { lift: typed.below.as_ref(), follows: typed.below.is_some(), ..Place::default() };
    readings(typed.line, place, book, &typed.habits, "kg")
}

#[test]
fn every_line_of_the_table_has_its_fate() {
    let book = LiftBook::built_in();
    let table = table();
    assert!(table.len() >= 200, "{} lines", table.len());
    let mut wrong = Vec::new();
    for typed in &table {
        let fate = match fate_of(typed, &book) {
            Fate::Read(choice) => choice.text,
            Fate::Several(_) | Fate::UnknownLift(..) | Fate::Unread => "refused".into(),
            Fate::Prose => "prose".into(),
        };
        if fate != typed.fate {
            wrong.push(format!("{} => {fate}, not {}", typed.line, typed.fate));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// On a bar there is nothing to take the lifter's own weight off from.
#[test]
fn less_than_the_lifters_weight_is_for_lifts_of_it() {
    let book = LiftBook::built_in();
    let fate = |line| readings(line, Place::default(), &book, &Habits::default(), "kg");
    for line in ["Squat: 3x8 @ -100 kg", "Bench press 3x8 -20", "Front squat 3x8 -15kg"] {
        assert_eq!(fate(line), Fate::Unread, "{line}");
    }
    for line in ["Pull-up: 3x8 @ -20 kg", "dips 3x8 -15kg"] {
        assert!(matches!(fate(line), Fate::Read(choice) if choice.text.contains("bw - ")), "{line}");
    }
}

/// Every number of a text, as its digits.
fn numbers(text: &str) -> Vec<String> {
    let text = text.replace(',', " ").replace("three", "3").replace("five", "5").replace("triple", "3");
    let mut out: Vec<String> = text
        .split(|c: char| !c.is_ascii_digit() && c != '.')
        .map(|number| number.trim_matches('.').to_owned())
        .filter(|number| !number.is_empty())
        .collect();
    out.sort();
    out
}

/// No choice loses a number, puts one into a lift's name, or makes one up.
#[test]
fn choices_keep_every_number_and_none_stands_in_a_name() {
    let book = LiftBook::built_in();
    let mut lost = Vec::new();
    for typed in table() {
        let choices: Vec<Choice> = match fate_of(&typed, &book) {
            Fate::Read(choice) => vec![choice],
            Fate::Several(choices) | Fate::UnknownLift(_, choices) => choices,
            _ => Vec::new(),
        };
        for choice in choices {
            // A decimal comma is a point in the notation.
            let decimals =
                choice.text.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|text| text.contains('.'));
            let line = typed.line.replace("1.", "").replace("2)", "").replace("A2:", "");
            let line = decimals.fold(line, |line, decimal| line.replace(&decimal.replace('.', ","), decimal));
            let line = line.replace("set 1:", "").replace("Set 2", "").replace("Set4", "").replace("SQ2", "");
            // The list says how many sets there are.
            let line = line.replace("3 sets: 8, 7, 6", "8, 7, 6").replace("3x5 (100/", "5 (100/");
            // One in each hand is two of them.
            let line = line.replace("/hand", "/hand 2").replace("3x8/hand 2", "3x8/hand");
            // Beats and minutes are written apart.
            let line = line.replace("3110", "3-1-1-0").replace("rest 2'", "rest 2:00").replace("2' rest", "2:00 rest");
            let (written, kept) = (numbers(&line), numbers(&choice.text));
            let written: BTreeSet<String> = written.into_iter().collect();
            let kept: BTreeSet<String> = kept.into_iter().filter(|number| number != "1").collect();
            let written: BTreeSet<String> = written.into_iter().filter(|number| number != "1").collect();
            if kept != written {
                lost.push(format!("{} => {}", typed.line, choice.text));
            }
            if let Some((name, _)) = choice.text.split_once(':') {
                assert!(!name.contains(|c: char| c.is_ascii_digit()), "{} => {}", typed.line, choice.text);
            }
        }
    }
    assert!(lost.is_empty(), "{}", lost.join("\n"));
}

/// What a page says is the same before and after it is tidied.
#[test]
fn tidying_loose_lines_changes_no_answer() {
    let lines: Vec<&str> = table()
        .iter()
        .filter(|typed| typed.below.is_none() && typed.habits == Habits::default())
        .map(|typed| typed.line)
        .filter(|line| *line != "2026-03-05")
        .collect();
    let page = format!("## 2026-03-05\n\n{}\n\nDeadlift\n140x5\n160 x 3 @8\n", lines.join("\n"));
    let files = Memory::default().with("journal.yaml", "").with("page.md", page);
    let journal = open(&files);
    let lifter = &journal.lifters[0];
    let paths = journal.pages_of(lifter);
    let before = meaning::read(&files, lifter, paths.clone(), None);
    let tidying = meaning::tidy(&files, lifter, &paths, &|_| true, false, None);
    let after = tidying.revisions.into_iter().next().expect("the page changes").after;
    let files = Memory::default().with("journal.yaml", "").with("page.md", after.bytes());
    let tidied = meaning::read(&files, lifter, paths, None);
    assert_eq!(format!("{:?}", before.log.sessions), format!("{:?}", tidied.log.sessions));
    assert_eq!(before.log.lifts, tidied.log.lifts);
    assert_eq!(before.log.left_out, tidied.log.left_out);
    let loose = tidied.problems.iter().filter(|(_, problem)| problem.kind.name() == "loose-spelling").count();
    assert_eq!(loose, 0, "a tidy page is in the notation");
}

/// A sign of a generated line.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Sign {
    /// A number; which of the drawn ones.
    Number(usize),
    Kg,
    By,
    At,
    Blank,
    Sets,
    Of,
    Reps,
    Rpe,
    For,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Role {
    Sets,
    Reps,
    Load,
    Effort,
}

/// Sets, reps, load and effort; nothing where none is written.
type Says = (u32, u32, u32, u32);

use Sign::{At, Blank, By, For, Kg, Number as N, Of, Reps, Rpe, Sets};

/// The shapes: every way to write one group that the trade has, and some that it has not.
const SHAPES: [&[Sign]; 45] = [
    &[N(0), By, N(1)],
    &[N(0), By, N(1), Kg],
    &[N(0), Kg, By, N(1)],
    &[N(0), By, N(1), By, N(2)],
    &[N(0), Kg, By, N(1), By, N(2)],
    &[N(0), By, N(1), By, N(2), Kg],
    &[N(0), By, N(1), Blank, N(2)],
    &[N(0), By, N(1), Blank, N(2), Kg],
    &[N(0), By, N(1), At, N(2)],
    &[N(0), By, N(1), Kg, Blank, N(2)],
    &[N(0), By, N(1), At, N(2), Kg],
    &[N(0), Blank, N(1), By, N(2)],
    &[N(0), Kg, Blank, N(1), By, N(2)],
    &[N(0), Sets, Of, N(1)],
    &[N(0), Sets, Of, N(1), At, N(2), Kg],
    &[N(0), Sets, Of, N(1), At, N(2)],
    &[N(0), Sets, Of, N(1), Reps, At, N(2)],
    &[N(0), Sets, Blank, N(1), Reps, Blank, N(2), Kg],
    &[N(0), Sets, By, N(1), At, N(2), Kg],
    &[N(0), Kg, Blank, N(1), Sets, Of, N(2)],
    &[N(0), Kg, Blank, N(1), Reps],
    &[N(0), Kg, For, N(1)],
    &[N(0), For, N(1)],
    &[N(0), Kg, Blank, N(1)],
    &[N(0), Reps, At, N(1), Kg],
    &[N(0), Reps, At, N(1)],
    &[N(0), At, N(1), Kg],
    &[N(0), Blank, N(1), Kg],
    &[N(0), Reps, By, N(1), Sets],
    &[N(0), Reps, By, N(1), Sets, At, N(2), Kg],
    &[N(0), By, N(1), By, N(2), Sets],
    &[N(0), By, N(1), For, N(2), Sets],
    &[N(0), Kg, By, N(1), By, N(2), Sets],
    &[N(0), By, N(1), Rpe, N(2)],
    &[N(0), By, N(1), Blank, N(2), Kg, Rpe, N(3)],
    &[N(0), By, N(1), At, N(2), Kg, At, N(3)],
    &[N(0), By, N(1), At, N(2), At, N(3)],
    &[N(0), By, N(1), Blank, N(2), Blank, N(3)],
    &[N(0), By, N(1), Blank, N(2), At, N(3)],
    &[N(0), Kg, By, N(1), At, N(2)],
    &[N(0), Blank, N(1), By, N(2), At, N(3)],
    &[N(0), Kg, Blank, N(1), By, N(2), Blank, N(3)],
    &[N(0), Kg, By, N(1), Rpe, N(2)],
    &[N(0), Blank, N(1)],
    &[N(0), By, N(1), By, N(2), By, N(3)],
];

fn written(shape: &[Sign], drawn: &[u32; 4]) -> String {
    let words = shape.iter().map(|sign| match sign {
        N(at) => drawn[*at].to_string(),
        Kg => "kg".into(),
        By => " x ".into(),
        At => " @ ".into(),
        Blank => " ".into(),
        Sets => " sets".into(),
        Of => " of ".into(),
        Reps => " reps".into(),
        Rpe => " RPE ".into(),
        For => " for ".into(),
    });
    words.collect()
}

/// Everything that a careful lifter could take a line for, by trying every role for every number.
fn enumerated(shape: &[Sign], drawn: &[u32; 4]) -> BTreeSet<Says> {
    let places: Vec<usize> = (0..shape.len()).filter(|at| matches!(shape[*at], N(_))).collect();
    let values: Vec<u32> = places
        .iter()
        .map(|at| match shape[*at] {
            N(number) => drawn[number],
            _ => unreachable!(),
        })
        .collect();
    let behind = |nth: usize| places.get(nth).and_then(|at| shape.get(at + 1)).copied();
    // The signs between a number and the next, without the word that says what the number is.
    let between = |nth: usize| -> Vec<Sign> {
        let (from, to) = (places[nth] + 1, places[nth + 1]);
        shape[from..to].iter().copied().filter(|sign| !matches!(sign, Kg | Sets | Reps)).collect()
    };
    let tag = |nth: usize| match behind(nth) {
        Some(Kg) => Some(Role::Load),
        Some(Sets) => Some(Role::Sets),
        Some(Reps) => Some(Role::Reps),
        _ if nth > 0 && between(nth - 1) == [Rpe] => Some(Role::Effort),
        _ => None,
    };
    let roles = [Role::Sets, Role::Reps, Role::Load, Role::Effort];
    let mut all = BTreeSet::new();
    for mut number in 0..4usize.pow(values.len() as u32) {
        let mut order = Vec::new();
        for _ in &values {
            order.push(roles[number % 4]);
            number /= 4;
        }
        let once = roles.iter().all(|role| order.iter().filter(|known| *known == role).count() <= 1);
        if !once
            || !order.contains(&Role::Reps)
            || (0..order.len()).any(|nth| tag(nth).is_some_and(|tag| tag != order[nth]))
        {
            continue;
        }
        let value = |role: Role| order.iter().position(|known| *known == role).map(|nth| values[nth]);
        let (sets, reps) = (value(Role::Sets).unwrap_or(1), value(Role::Reps).unwrap_or(1));
        let (load, effort) = (value(Role::Load).unwrap_or(0), value(Role::Effort).unwrap_or(0));
        // Nobody does so much, or lifts so much; no effort is out of bounds, nor under 5 without its keyword.
        let keyword = (0..values.len()).any(|nth| tag(nth) == Some(Role::Effort));
        let least = if keyword { 1 } else { 5 };
        let no_effort = effort != 0 && !(least..=10).contains(&effort);
        if sets > 20 || reps > 100 || sets * reps > 250 || load > 500 || no_effort {
            continue;
        }
        // An effort stands last, behind a blank, `@` or its keyword; who writes one wrote a load or a count before.
        if let Some(at) = order.iter().position(|role| *role == Role::Effort)
            && (at + 1 != order.len() || at < 1 || !matches!(between(at - 1).as_slice(), [At] | [Blank] | [Rpe]))
        {
            continue;
        }
        let order: Vec<Role> = order.into_iter().filter(|role| *role != Role::Effort).collect();
        let tagged = |role: Role| (0..values.len()).any(|nth| tag(nth) == Some(role));
        let sign = |nth: usize| between(nth);
        use Role::{Load as L, Reps as R, Sets as S};
        let by = |nth: usize| sign(nth) == [By] || sign(nth) == [Of];
        let count = |nth: usize, first: Role| {
            let told = tagged(S) || tagged(R);
            by(nth)
                || (told && matches!(sign(nth).as_slice(), [] | [Blank]))
                || (first == R && tagged(S) && sign(nth) == [For])
        };
        // `a x b`: sets x reps, but `8 x 3` beside a load could be either; nobody does more than thirty reps by sets.
        let turned =
            |nth: usize| tagged(S) || tagged(R) || ((7..=30).contains(&values[nth]) && values[nth] > values[nth + 1]);
        let allowed = match order.as_slice() {
            [R] => values.len() == 1,
            [S, R] => count(0, S),
            [R, S] => count(0, R) && tagged(S),
            [L, R] if sign(0) == [By] && !tagged(L) => values[0] > 6 || values[1] > 20,
            [L, R] => match sign(0).as_slice() {
                [By] | [For] => true,
                [Blank] | [] => tagged(L),
                _ => false,
            },
            [R, L] => match sign(0).as_slice() {
                [At] => true,
                [By] if !tagged(L) => values[1] > 20 && values[0] <= 30,
                [By] | [Blank] | [] => tagged(L),
                _ => false,
            },
            [S, R, L] => count(0, S) && !matches!(sign(1).as_slice(), [For]),
            [R, S, L] => count(0, R) && turned(0) && !(by(0) && by(1) && !tagged(S)),
            // `3 x 80 x 8`: so many sets at that load.
            [S, L, R] => match sign(1).as_slice() {
                [By] => by(0) && values[1] > 20 && values[2] <= 20,
                [Blank] => by(0) && (tagged(L) || values[1] > 30),
                _ => false,
            },
            [L, S, R] => sign(0) != [At] && count(1, S),
            [L, R, S] => {
                let three = by(0) && by(1);
                sign(0) != [At] && count(1, R) && (three || turned(1))
            }
            _ => false,
        };
        if allowed {
            all.insert((sets, reps, load, effort));
        }
    }
    all
}

/// Sets, reps, load and effort of a line in the notation.
fn said(text: &str) -> Says {
    let number = |text: &str| {
        let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
        text[..end].parse::<u32>().unwrap_or(0)
    };
    let sets = text.split_once(": ").map_or(text, |(_, sets)| sets);
    let count = sets.split(' ').next().unwrap_or("");
    let (one, two) = count.split_once('x').unwrap_or(("1", count));
    let load = sets.split_once("@ ").map_or(0, |(_, load)| number(load));
    let effort = sets.split_once("RPE ").map_or(0, |(_, effort)| number(effort));
    (number(one), number(two), load, effort)
}

#[test]
fn a_line_is_read_only_where_it_has_one_reading_and_as_that() {
    let book = LiftBook::built_in();
    let none = Habits::default();
    let (mut read, mut lines) = (0u32, 0u32);
    let small = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 15, 20, 25, 30];
    let loads = [6, 8, 12, 20, 22, 60, 80, 102, 140];
    for shape in SHAPES {
        for (nth, a) in small.iter().chain(&loads).enumerate() {
            for (other, b) in small.iter().chain(&loads).enumerate() {
                let c = loads[(nth * 7 + other * 5) % loads.len()];
                let d = [6, 7, 8, 9][(nth + other) % 4];
                for drawn in [[*a, *b, c, d], [c, *a, *b, d], [*a, *b, d, c], [*a, c, *b, d]] {
                    let line = format!("bench {}", written(shape, &drawn));
                    let ways = enumerated(shape, &drawn);
                    lines += 1;
                    if let Fate::Read(choice) = readings(&line, Place::default(), &book, &none, "kg") {
                        read += 1;
                        // `102 x 8 7 7`: a load and the reps of sets that do not rise.
                        let count = choice.text.split_once(" @ ").map_or(choice.text.as_str(), |(count, _)| count);
                        if let Some((_, list)) = count.split_once(": ").filter(|(_, count)| count.contains(',')) {
                            let reps: Vec<u32> = list.split(',').map(|reps| reps.parse().unwrap()).collect();
                            assert!(reps.is_sorted_by(|one, next| one >= next), "{line} was read as {}", choice.text);
                            // `90 x 5 x 5 x 4`: the sign before each of them, behind a load that is no count.
                            let signed = line.split_once(&format!(" x {}", list.replace(',', " x ")));
                            let high =
                                |load: &str| load.ends_with("kg") || load[6..].parse().is_ok_and(|kg: u32| kg > 20);
                            let signed = signed.is_some_and(|(load, rest)| rest.is_empty() && high(load));
                            let blank = line.ends_with(&list.replace(',', " "));
                            assert!(signed || blank, "{line} was read as {}", choice.text);
                            continue;
                        }
                        assert_eq!(
                            ways.iter().copied().collect::<Vec<_>>(),
                            [said(&choice.text)],
                            "{line} was read as {}",
                            choice.text
                        );
                    }
                }
            }
        }
    }
    assert!(read * 5 > lines, "{read} of {lines} lines are read");
}

/// The sets that a page counts, as `Back squat 5 @ 100 kg`, the same before and after it is tidied; and how many lines it
/// leaves out.
fn counted(page: &str) -> (Vec<String>, u32) {
    let of = |bytes: Vec<u8>| {
        let files = Memory::default().with("journal.yaml", "").with("page.md", bytes);
        let journal = open(&files);
        let lifter = &journal.lifters[0];
        let paths = journal.pages_of(lifter);
        let log = meaning::read(&files, lifter, paths.clone(), None).log;
        let mut sets = Vec::new();
        for work in log.sessions.iter().flat_map(|session| &session.works) {
            for set in work.groups.iter().flat_map(|group| group.sets()) {
                let amount = loadline::training::spelling::amount(set.amount, set.group.per_side);
                sets.push(format!(
                    "{} {amount} @ {}",
                    log.lift_name(work.lift),
                    set.group.load.text_with_unit().unwrap_or_default()
                ));
            }
        }
        let tidying = meaning::tidy(&files, lifter, &paths, &|_| true, false, None);
        let after = tidying.revisions.into_iter().next().map(|revision| revision.after.bytes().to_vec());
        (sets, log.left_out, after)
    };
    let (sets, left_out, after) = of(page.as_bytes().to_vec());
    if let Some(after) = after {
        let text = String::from_utf8(after.clone()).unwrap();
        let (tidied, still_out, _) = of(after);
        assert_eq!((&sets, left_out), (&tidied, still_out), "{page}tidied:\n{text}");
    }
    (sets, left_out)
}

/// What stands between the sets of two lifts ends those of the first: sets further down are the second's, or nobody's.
#[test]
fn no_set_counts_for_a_lift_further_up_than_the_name_above_it() {
    for (page, sets, left_out) in [
        ("- Back squat: 1x5 @ 100 kg\n  - 5 @ 110 kg\n", vec!["Back squat 5 @ 100 kg", "Back squat 5 @ 110 kg"], 0),
        ("- Back squat: 1x5 @ 100 kg\nZottman thing\n  - 10 @ 12 kg\n", vec!["Back squat 5 @ 100 kg"], 1),
        ("- Back squat: 1x5 @ 100 kg\nZottman thing\n\n  - 10 @ 12 kg\n", vec!["Back squat 5 @ 100 kg"], 1),
        (
            "- Back squat: 1x5 @ 100 kg\nZottman thing (slow)\nsleep: 7 h\n  - 10 @ 12 kg\n",
            vec!["Back squat 5 @ 100 kg"],
            1,
        ),
        ("- Back squat: 1x5 @ 100 kg\nZottman thing\n  - plan: 3x10 @ 12 kg\n", vec!["Back squat 5 @ 100 kg"], 1),
        ("- Back squat: 1x5 @ 100 kg\nZottman thing 10 @ 12 kg\n  - 10 @ 12 kg\n", vec!["Back squat 5 @ 100 kg"], 2),
        (
            "- Back squat: 1x5 @ 100 kg\nDeadlift\n  - 5 @ 140 kg\n",
            vec!["Back squat 5 @ 100 kg", "Deadlift 5 @ 140 kg"],
            0,
        ),
        ("- Back squat: 1x5 @ 100 kg\nDeadlift\n\n  - 5 @ 140 kg\n", vec!["Back squat 5 @ 100 kg"], 1),
        (
            "- Back squat: 1x5 @ 100 kg\nDeadlift\n  - warm-up: 5 @ 60 kg\n  - 5 @ 140 kg\n",
            vec!["Back squat 5 @ 100 kg", "Deadlift 5 @ 140 kg"],
            0,
        ),
        ("- Back squat: 1x5 @ 100 kg\nbench 60kg x 8 x 3\n\n  - 5 @ 60 kg\n", vec!["Back squat 5 @ 100 kg"], 2),
        ("- Back squat: 1x5 @ 100 kg\n3 rounds of 20 kg\n  - 5 @ 60 kg\n", vec!["Back squat 5 @ 100 kg"], 2),
        // Words about the sets are no lift.
        (
            "- Back squat: 1x5 @ 100 kg\nfelt easy\n  - 5 @ 110 kg\n",
            vec!["Back squat 5 @ 100 kg", "Back squat 5 @ 110 kg"],
            0,
        ),
        ("squat 100x5\n\n  - 5 @ 110 kg\n", vec!["Back squat 5 @ 100 kg", "Back squat 5 @ 110 kg"], 0),
        ("squat 100x5\nfelt easy\n  - 5 @ 110 kg\n", vec!["Back squat 5 @ 100 kg", "Back squat 5 @ 110 kg"], 0),
        ("Deadlift\n140x5\n\n  - 5 @ 150 kg\n", vec!["Deadlift 5 @ 140 kg", "Deadlift 5 @ 150 kg"], 0),
        ("Deadlift\n140x5\n\n160x5\n", vec!["Deadlift 5 @ 140 kg"], 1),
    ] {
        let page = format!("## 2026-03-05\n\n{page}");
        assert_eq!(counted(&page), (sets.into_iter().map(str::to_owned).collect(), left_out), "{page}");
    }
}

/// Work between the rows is no end of a table, for rows that were read stand there as work once they are tidied. Words are.
#[test]
fn a_table_goes_on_below_work_before_and_after_tidying() {
    let head = "Exercise;Sets;Reps;Kg\n";
    for (between, sets, left_out) in [
        ("Back squat;3;5;100\n", vec!["Back squat 5 @ 100 kg"; 3], 0),
        ("bench 60x5\n", vec!["Bench press 5 @ 60 kg"], 0),
        ("- Bench press: 5 @ 60 kg\n", vec!["Bench press 5 @ 60 kg"], 0),
        ("bench\n60x5\n", vec!["Bench press 5 @ 60 kg"], 0),
        ("felt easy\n", vec![], 1),
        ("bw 93.4\n", vec![], 1),
        ("\n", vec![], 1),
        // Another head without a blank line between.
        (
            "| Lift | Sets x Reps | Weight |\n|---|---|---|\n| Bench | 3x8 | 70 kg |\n",
            vec!["Bench press 8 @ 70 kg"; 3],
            1,
        ),
    ] {
        let page = format!("## 2026-03-05\n\n{head}{between}Overhead press;4;6;45\n");
        let mut sets: Vec<String> = sets.into_iter().map(str::to_owned).collect();
        if left_out == 0 {
            sets.extend(["Overhead press 6 @ 45 kg"; 4].map(str::to_owned));
        }
        assert_eq!(counted(&page), (sets, left_out), "{page}");
    }
}
