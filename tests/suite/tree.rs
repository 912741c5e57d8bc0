//! The tree's nodes in their places, and what may stand at a place of a line.

use crate::laws::cases;
use crate::support::generator;
use loadline::notation::nodes::{Attribute, BlockKey, Body, Fact, Group, Line, LineKind, Load};
use loadline::notation::{expected_at, read, tokens};
use loadline::source::{Page, Span};
use proptest::prelude::*;

/// A node as the piece of the page it is, with the nodes inside it.
struct Node<'a>(&'a str, Vec<Node<'a>>);

fn leaf(text: &str) -> Node<'_> {
    Node(text, Vec::new())
}

fn load<'a>(load: &Load<'a>) -> Node<'a> {
    let terms = std::iter::once(&load.first).chain(load.more.iter().map(|(_, term)| term));
    Node(load.text, terms.map(|term| leaf(term.text)).collect())
}

fn attributes<'a>(all: &[Attribute<'a>]) -> Vec<Node<'a>> {
    all.iter().map(|attribute| leaf(attribute.text)).collect()
}

fn group<'a>(group: &Group<'a>) -> Node<'a> {
    let mut inside = vec![leaf(group.count.text)];
    inside.extend(group.load.as_ref().map(load));
    inside.extend(attributes(&group.attributes));
    Node(group.text, inside)
}

fn nodes<'a>(line: &Line<'a>) -> Vec<Node<'a>> {
    match &line.kind {
        LineKind::Block(heading) => vec![leaf(heading.name)],
        LineKind::BlockKey(_, Some(key)) => {
            let inside = match &key.value {
                BlockKey::Deload(weeks) | BlockKey::Peak(weeks) => weeks.iter().map(|week| leaf(week.text)).collect(),
                BlockKey::Max { lift, load: written } => vec![leaf(lift), load(written)],
                _ => Vec::new(),
            };
            vec![Node(key.text, inside)]
        }
        LineKind::Session(heading) => {
            let numbers = [heading.minute.map(|minute| minute.text), heading.week.map(|week| week.text)];
            let words = [heading.day, heading.block, heading.meet];
            let all = std::iter::once(heading.date.text).chain(numbers.into_iter().chain(words).flatten());
            all.map(leaf).collect()
        }
        LineKind::Fact(Some(fact)) => {
            let inside = if let Fact::Pain(site, _) = fact.value { vec![leaf(site)] } else { Vec::new() };
            vec![Node(fact.text, inside)]
        }
        LineKind::SessionNote(note) => vec![leaf(note)],
        LineKind::Work(work) => {
            let mut all = vec![leaf(work.name)];
            match &work.body {
                Body::Nothing => {}
                Body::Skipped(remark) => all.extend(remark.map(leaf)),
                Body::AsPlanned(after, words) => {
                    all.push(leaf(words));
                    all.extend(attributes(after));
                }
                Body::Groups(groups) => all.extend(groups.iter().map(group)),
            }
            all
        }
        LineKind::SetLine(groups) => groups.iter().map(group).collect(),
        LineKind::Detail(detail) => vec![Node(detail.text, detail.groups.iter().map(group).collect())],
        _ => Vec::new(),
    }
}

/// Nodes lie inside the piece that holds them, and none of them in another.
fn nested(within: Span, page: &str, mut all: Vec<Node<'_>>) {
    all.sort_by_key(|node| Span::of(page, node.0));
    let mut end = within.start;
    for Node(text, inside) in all.into_iter().filter(|node| !node.0.is_empty()) {
        let span = Span::of(page, text);
        assert!(span.start >= end && span.end <= within.end, "{text:?} in {:?}", within.text(page));
        end = span.end;
        nested(span, page, inside);
    }
}

/// Each token ends before the next begins, and between them stands nothing but white space and comments.
fn covered(text: &str) {
    let mut bare = String::new();
    let mut end = 0;
    for token in tokens(text) {
        assert!(token.start >= end && !token.is_empty(), "{text:?}");
        bare.push_str(token.text(text));
        let gap = &text[end as usize..token.start as usize];
        assert!(gap.trim().is_empty() || gap.contains("-->"), "{text:?}: {gap:?}");
        end = token.end;
    }
    if !text.contains("-->") {
        let blanks = [' ', '\t', '\r', '\u{a0}', '\u{202f}', '\u{2007}', '\u{2009}'];
        assert_eq!(bare, text.replace(blanks, ""));
    }
}

fn in_their_places(text: &str) {
    let page = Page::new("page.md", text.into()).unwrap();
    for line in read(&page) {
        let span = Span::of(page.text(), line.text);
        covered(line.text);
        nested(span, page.text(), nodes(&line));
        for unread in line.unread(&page) {
            let place = Span::of(page.text(), unread.text);
            assert!(place.start >= span.start && place.end <= span.end, "{unread:?}");
        }
    }
}

#[test]
fn nodes_lie_in_their_lines_and_tokens_cover_them() {
    for seed in 0..10 {
        generator::journal(seed).files.iter().for_each(|(_, page)| in_their_places(page));
    }
    let docs = ["notation.md", "problems.md"].map(|doc| format!("{}/docs/{doc}", env!("CARGO_MANIFEST_DIR")));
    docs.iter().for_each(|doc| in_their_places(&std::fs::read_to_string(doc).unwrap()));
}

/// A page with a marked cursor, `¦`, and what may stand there.
const PLACES: &[(&str, &str)] = &[
    ("## 2026-03-05\n¦", "{Bullet, Heading, FactKey}"),
    ("## ¦", "{Date, Weekday, Block}"),
    ("## 2026-0¦", "{Date}"),
    ("## 2026-03-05 ¦", "{Weekday, Time, Label, Block, Week}"),
    ("## 2026-03-05 18:30 sec¦", "{Weekday, Time, Label, Block, Week}"),
    ("## 2026-03-05 technique day, week ¦", "{Number}"),
    ("## 2026-03-05\n- ¦", "{Lift, FactKey}"),
    ("## 2026-03-05\n- Front sq¦: 3x8", "{Lift, FactKey}"),
    ("## 2026-03-05\n- Front squat: ¦", "{Count, Planned}"),
    ("## 2026-03-05\n- Front squat: as planned ¦", "{Effort, Attribute, Fault, Remark}"),
    ("## 2026-03-05\n- Front squat: 3x¦ @ 100 kg", "{Amount}"),
    ("## 2026-03-05\n- Front squat: 3x8 ¦", "{At, Unit, Measure, Side, Effort, Attribute, Fault, Remark, Group}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ ¦", "{Load}"),
    (
        "## 2026-03-05\n- Front squat: 3x8 @ 120¦ RPE 7",
        "{At, Sign, Unit, Side, Effort, Attribute, Fault, Remark, Group}",
    ),
    ("## 2026-03-05\n- Front squat: 3x8 @ 120 k¦", "{At, Sign, Unit, Side, Effort, Attribute, Fault, Remark, Group}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ 45 lb + ¦", "{Load}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ 120 kg ¦", "{At, Sign, Side, Effort, Attribute, Fault, Remark, Group}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ 120 kg RPE ¦", "{Rating}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ 120 kg rest ¦", "{Number, Duration}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ 120 kg !¦", "{FaultWord}"),
    ("## 2026-03-05\n- Front squat: 3x8 @ 120 kg, ¦", "{Count}"),
    ("## 2026-03-05\n- Front squat: 3q8 @ 12o kg RPE 77 felt good, 5 @ ¦", "{Load}"),
    ("## 2026-03-05\n- Front squat: 3x8\n  - ¦", "{DetailKey, Count}"),
    ("## 2026-03-05\n- Front squat: 3x8\n  - plan: 3x8 @ ¦", "{Load}"),
    ("## 2026-03-05\nsleep: 7 ¦", "{Measure}"),
    ("## 2026-03-05\n- bodyweight: 83 ¦", "{Unit}"),
    ("## 2026-03-05\npain: ¦", "{Pain}"),
    ("# Block 6\n- ¦", "{BlockKey}"),
    ("# Block 6\n- starts: ¦", "{Date}"),
    ("# Block 6\n- deload: week 4, ¦", "{Week}"),
    ("# Block 6\n- max: Back squat ¦", "{Load}"),
    ("```\n- ¦\n```\n", "{}"),
];

#[test]
fn what_may_stand_at_a_place_is_what_the_grammar_would_read_there() {
    let told = |marked: &str| {
        let page = Page::new("page.md", marked.replace('¦', "").into()).unwrap();
        format!("{:?}", expected_at(&page, marked.find('¦').unwrap()))
    };
    let shown = |told: &dyn Fn(&'static (&str, &str)) -> String| {
        PLACES.iter().map(|row| format!("{:?} {}\n", row.0, told(row))).collect::<String>()
    };
    assert_eq!(shown(&|row| told(row.0)), shown(&|row| row.1.to_owned()));
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn nodes_of_any_line_lie_in_it(words in prop::collection::vec(crate::laws::word(), 0..30)) {
        in_their_places(&format!("## 2026-03-05\n- Front squat: {}", words.join(" ")));
        in_their_places(&format!("## 2026-03-05\n- Front squat: {}", words.concat()));
    }

    #[test]
    fn nodes_of_faulty_lines_lie_in_them(page in crate::laws::faulty()) {
        in_their_places(&page);
    }

    #[test]
    fn any_place_of_a_line_can_be_asked_about(words in prop::collection::vec(crate::laws::word(), 0..12), at in 0usize..200) {
        let text = format!("## 2026-03-05\n- Front squat: {}", words.join(" "));
        expected_at(&Page::new("page.md", text.clone().into()).unwrap(), at.min(text.len() + 3));
    }
}
