use super::breaks::{atoms, broken, width};
use super::stack::Stack;
use super::{Column, Doc, Links, Picture, Role, Table, Typeset, When, html, markdown, text};
use crate::present::paint;
use crate::source::Place;
use maud::Markup;
use pulldown_cmark::{Event, Options, Parser};

fn table(columns: Vec<Column>, head: usize, rows: &[&[&str]]) -> Table {
    let mut table = Table::new(columns).with_head(head);
    for row in rows {
        table.row(row.iter().map(|cell| (Role::Plain, (*cell).to_owned())).collect());
    }
    table
}

/// What stands on the screen, without the blanks at the ends of lines.
fn shown(table: &Table, screen: usize) -> Vec<String> {
    let laid = table.lay_out(screen);
    let line = |line: &Vec<(Role, String)>| line.iter().map(|(_, text)| text.as_str()).collect::<String>();
    laid.lines().iter().map(|pieces| line(pieces).trim_end().to_owned()).collect()
}

/// Two weeks side by side, as `match` has them.
fn weeks() -> Table {
    let columns = vec![
        Column::left(""),
        Column::left("lift").wraps(1, 12),
        Column::left("").wraps(1, 6),
        Column::left("now").wraps(2, 18),
        Column::left("then").wraps(2, 18),
        Column::left("where").spare(1),
    ];
    let rows: [&[&str]; 5] = [
        &["ahead", "Back squat", "+load", "3x4 @ 230 kg RPE 8", "3x4 @ 222.5 kg RPE 8", "block-09.md:12"],
        &["level", "Bench press", "", "4x4 @ 147.5 kg RPE 8", "4x4 @ 147.5 kg RPE 8", "block-09.md:14"],
        &["behind", "Pause squat", "-load", "3x3 @ 192.5 kg RPE 8", "3x3 @ 197.5 kg RPE 8", "block-09.md:16"],
        &["level", "Chest-supported row", "-effort", "4x8 @ 92.5 kg RPE 8", "4x8 @ 92.5 kg RPE 8.5", "block-09.md:18"],
        &["new", "Good morning", "", "3x8 @ 92.5 kg RPE 7.5", "", "block-09.md:24"],
    ];
    table(columns, 3, &rows)
}

/// Lifters, as `roster` has them.
fn lifters() -> Table {
    let columns = vec![
        Column::left("lifter").wraps(2, 8),
        Column::left("at"),
        Column::right("days"),
        Column::right("done"),
        Column::right("behind"),
        Column::right("cautions"),
        Column::left("meet in"),
    ];
    let rows: [&[&str]; 2] = [
        &["Anselm", "block 9 week 4", "1", "75 %", "2", "2", "3 weeks"],
        &["Nerys", "block winter week 4", "1", "76 %", "", "7", "3 weeks"],
    ];
    table(columns, 2, &rows)
}

#[test]
fn at_80_columns_a_cell_is_broken() {
    assert_eq!(
        shown(&weeks(), 80),
        [
            "        lift                        now                    then",
            "ahead   Back squat         +load    3x4 @ 230 kg RPE 8     3x4 @ 222.5 kg RPE 8",
            "level   Bench press                 4x4 @ 147.5 kg RPE 8   4x4 @ 147.5 kg RPE 8",
            "behind  Pause squat        -load    3x3 @ 192.5 kg RPE 8   3x3 @ 197.5 kg RPE 8",
            "level   Chest-supported    -effort  4x8 @ 92.5 kg RPE 8    4x8 @ 92.5 kg RPE 8.5",
            "        row",
            "new     Good morning                3x8 @ 92.5 kg RPE 7.5",
        ]
    );
}

/// Two lines a row, the cells of both weeks still below each other.
#[test]
fn at_60_and_48_columns_rows_are_folded() {
    let folded = [
        "        lift",
        "  now                    then",
        "ahead   Back squat           +load",
        "  3x4 @ 230 kg RPE 8     3x4 @ 222.5 kg RPE 8",
        "level   Bench press",
        "  4x4 @ 147.5 kg RPE 8   4x4 @ 147.5 kg RPE 8",
        "behind  Pause squat          -load",
        "  3x3 @ 192.5 kg RPE 8   3x3 @ 197.5 kg RPE 8",
        "level   Chest-supported row  -effort",
        "  4x8 @ 92.5 kg RPE 8    4x8 @ 92.5 kg RPE 8.5",
        "new     Good morning",
        "  3x8 @ 92.5 kg RPE 7.5",
    ];
    assert_eq!(shown(&weeks(), 60), folded);
    assert_eq!(shown(&weeks(), 48), folded);
}

#[test]
fn at_40_and_30_columns_rows_are_stacked() {
    let stacked = |row: [&'static str; 2]| {
        let first = ["ahead  Back squat  +load", "  now 3x4 @ 230 kg RPE 8", "  then 3x4 @ 222.5 kg RPE 8"];
        let second = ["level  Bench press", "  now 4x4 @ 147.5 kg RPE 8", "  then 4x4 @ 147.5 kg RPE 8"];
        let third = ["behind  Pause squat  -load", "  now 3x3 @ 192.5 kg RPE 8", "  then 3x3 @ 197.5 kg RPE 8"];
        let row = row.into_iter().filter(|line| !line.is_empty());
        let rest = [
            "  now 4x8 @ 92.5 kg RPE 8",
            "  then 4x8 @ 92.5 kg RPE 8.5",
            "new  Good morning",
            "  now 3x8 @ 92.5 kg RPE 7.5",
        ];
        first.into_iter().chain(second).chain(third).chain(row).chain(rest).collect::<Vec<_>>()
    };
    assert_eq!(shown(&weeks(), 40), stacked(["level  Chest-supported row  -effort", ""]));
    assert_eq!(shown(&weeks(), 30), stacked(["level  Chest-supported row", "  -effort"]));
}

#[test]
fn lifters_take_one_line_each_then_two_then_three() {
    assert_eq!(
        shown(&lifters(), 80),
        [
            "lifter  at                   days  done  behind  cautions  meet in",
            "Anselm  block 9 week 4          1  75 %       2         2  3 weeks",
            "Nerys   block winter week 4     1  76 %                 7  3 weeks",
        ]
    );
    let two_lines = [
        "lifter  at             days  done  behind  cautions  meet in",
        "Anselm  block 9           1  75 %       2         2  3 weeks",
        "        week 4",
        "Nerys   block winter      1  76 %                 7  3 weeks",
        "        week 4",
    ];
    assert_eq!(shown(&lifters(), 60), two_lines);
    let folded = [
        "lifter  at",
        "  days  done  behind  cautions  meet in",
        "Anselm  block 9 week 4",
        "     1  75 %       2         2  3 weeks",
        "Nerys   block winter week 4",
        "     1  76 %                 7  3 weeks",
    ];
    assert_eq!(
        (shown(&lifters(), 48), shown(&lifters(), 40)),
        (folded.map(str::to_owned).to_vec(), folded.map(str::to_owned).to_vec())
    );
    assert_eq!(
        shown(&lifters(), 30),
        [
            "Anselm  block 9 week 4",
            "  days 1  done 75 %  behind 2",
            "  cautions 2  meet in 3 weeks",
            "Nerys  block winter week 4",
            "  days 1  done 76 %",
            "  cautions 7  meet in 3 weeks",
        ]
    );
}

/// A long load, as a sum of plates, is broken at its signs.
#[test]
fn a_cell_wider_than_the_screen_is_broken() {
    let loads = table(
        vec![Column::left("rests on"), Column::left("alone"), Column::left("date")],
        2,
        &[&["4x5 @ 20 kg + 3x25 kg/side + 15 kg/side RPE 6.5", "288 kg (264-314)", "2026-10-05"]],
    );
    for screen in [30, 40, 48, 60, 80] {
        let lines = shown(&loads, screen);
        assert!(lines.iter().all(|line| width(line) <= screen), "{screen}: {lines:#?}");
        let text = lines.join(" ");
        for whole in ["@ 20 kg", "+ 3x25 kg/side", "RPE 6.5", "2026-10-05", "(264-314)"] {
            assert!(text.contains(whole), "{screen}: {whole} in {lines:#?}");
        }
    }
}

/// Whatever the screen, nothing is wider than it but a word that is, and every word stands there whole.
#[test]
fn nothing_is_wider_than_the_screen() {
    for table in [weeks(), lifters()] {
        for screen in 24..=120 {
            let lines = shown(&table, screen);
            assert!(lines.iter().all(|line| width(line) <= screen), "{screen}: {lines:#?}");
            let text = lines.join("\n");
            for cell in table.rows.iter().flat_map(|row| row.iter().take(5)) {
                for atom in atoms(&cell.1) {
                    assert!(text.contains(&atom), "{screen}: {atom} in {lines:#?}");
                }
            }
        }
    }
    let wide = table(vec![Column::left("page"), Column::right("sets")], 1, &[&["training/block-09/monday.md", "3"]]);
    assert_eq!(shown(&wide, 24), ["training/block-09/monday.md", "  sets 3"]);
}

/// As `adherence` has it.
#[test]
fn a_column_that_is_folded_alone_has_its_title_beside_it() {
    let columns = vec![Column::left("lift"), Column::right("done"), Column::left("effort")];
    let rows: [&[&str]; 2] = [&["Close-grip bench press", "4/4", "over by 0.5"], &["Good morning", "3/3", "2 on"]];
    assert_eq!(
        shown(&table(columns, 2, &rows), 30),
        [
            "lift                    done",
            "Close-grip bench press   4/4",
            "  effort over by 0.5",
            "Good morning             3/3",
            "  effort 2 on",
        ]
    );
}

#[test]
fn a_title_may_leave_no_room_for_what_it_is_of() {
    let mut stack = Stack::new(24);
    stack.put("", Role::Plain, "Back squat", false);
    stack.put("estimate that day ", Role::Plain, "287 kg (275 to 299)", true);
    stack.put("best ", Role::Plain, "280 kg", false);
    let text = |line: &Vec<(Role, String)>| line.iter().map(|(_, text)| text.as_str()).collect::<String>();
    let lines: Vec<String> = stack.done().iter().map(|line| text(line).trim_end().to_owned()).collect();
    assert_eq!(lines, ["Back squat", "  estimate that day", "    287 kg (275 to 299)", "  best 280 kg"]);
}

#[test]
fn numbers_keep_what_belongs_to_them() {
    for (text, expected) in [
        ("4x8 @ 92.5 kg RPE 8", vec!["4x8", "@ 92.5 kg", "RPE 8"]),
        ("-60 to -41 %", vec!["-60 to -41 %"]),
        ("87 %, of 3 weeks (2.3 to 2.5)", vec!["87 %,", "of", "3 weeks", "(2.3 to 2.5)"]),
        ("block 9 week 4", vec!["block 9", "week 4"]),
        ("from one to two sets", vec!["from", "one", "to", "two", "sets"]),
    ] {
        assert_eq!(atoms(text), expected);
    }
}

#[test]
fn the_first_line_has_a_room_of_its_own() {
    assert_eq!(broken("one two three four", 8, 20), ["one two", "three four"]);
    // The count of another set stands before its load.
    let sets = "2x4 @ 92.5 kg RPE 9, 3 @ 92.5 kg RPE 10";
    assert_eq!(broken(sets, 24, 24), ["2x4 @ 92.5 kg RPE 9,", "3 @ 92.5 kg RPE 10"]);
    assert_eq!(broken("one two three four", 20, 5), ["one two three four"]);
    assert_eq!(broken("unbreakable", 3, 3), ["unbreakable"]);
}

fn place(page: &str, line: u32) -> Place {
    Place { page: page.into(), line }
}

#[derive(Debug)]
struct Bar;

impl Picture for Bar {
    fn draw(&self, _: usize) -> Typeset {
        let mut out = Typeset::new();
        out.line(Role::Plot, "---[]=");
        out
    }

    fn html(&self, links: &Links) -> Markup {
        maud::html! { svg id=(links.plot()) {} }
    }
}

/// An answer with one of everything.
fn answer() -> Doc {
    let columns = vec![
        Column::verdict(),
        Column::left("lift"),
        Column::right("sets").called("sets a week"),
        Column::left("day").under(1),
        Column::left("where").on_screens(),
        Column::left("").on_pages().under(2),
    ];
    let mut table = Table::new(columns).captioned("Each lift");
    let cells = |verdict, word: &str, lift: &str, sets: &str, day: &str| {
        let plain = |text: &str| (Role::Plain, text.to_owned());
        vec![(verdict, word.to_owned()), (Role::Answer, lift.to_owned()), plain(sets), plain(day)]
    };
    let at = [place("a.md", 3), place("a.md", 5)];
    table.row(cells(Role::Ahead, "ahead", "Squat", "4", "heavier")).at(&at).at(&at);
    table.row(cells(Role::Behind, "behind", "Press", "", "")).at([]).at([]);
    let mut out = Doc::new();
    out.broken(vec![(Role::Answer, "1 ahead, 1 behind".into()), (Role::Hint, "; `match --week 3` has more".into())], 2);
    out.gap();
    out.table(table);
    let mut more = Doc::new();
    more.line(Role::Place, "sets are work sets");
    out.only(When::Shown(2), more);
    let mut pages = Doc::new();
    pages.places("at: ", &at, 2, 1);
    out.only(When::Hidden(4), pages);
    let mut item = Doc::new();
    item.beside((Role::Plain, "  Row: skipped".into()), [&place("b 1.md", 7)], 4);
    out.line(Role::Title, "skipped");
    out.list(vec![item.clone(), item]);
    out.pictures([Bar, Bar]);
    let mut page = Doc::new();
    page.line(Role::Caution, "on a page");
    out.only(When::OnPage, page);
    let mut why = Doc::new();
    why.line(Role::Plain, "because");
    out.folded("Why", why);
    out
}

#[test]
fn on_a_screen_an_answer_is_lines() {
    let shown = |screen| paint(&text(&answer(), screen), false);
    let end = "skipped\n  Row: skipped  b 1.md:7\n  Row: skipped  b 1.md:7\n---[]=\n---[]=\nbecause\n";
    assert_eq!(
        shown(80),
        format!(
            "1 ahead, 1 behind; `match --week 3` has more\n\n\
             \u{20}       lift   sets  day      where\n\
             ahead   Squat     4  heavier  a.md:3, 5\n\
             behind  Press\n\
             sets are work sets\n{end}"
        )
    );
}

#[test]
fn on_a_page_an_answer_is_headings_tables_and_links() {
    let laid = html(&answer(), 3, &Links::default()).into_string().replace("><", ">\n<");
    let link = "<a class=\"place\" tabindex=\"-1\" href=\"#page-1-line-3\">a.md:3</a>, \
                <a class=\"place\" tabindex=\"-1\" href=\"#page-1-line-5\" aria-label=\"a.md:5\">5</a>";
    let item = "<li>\n<p>Row: skipped<span class=\"below\">\n\
                <a class=\"place\" tabindex=\"-1\" href=\"#page-2-line-7\">b 1.md:7</a>\n</span>\n</p>\n</li>\n";
    assert_eq!(
        laid,
        format!(
            "<p class=\"answer\">1 ahead, 1 behind</p>\n\
             <div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"Each lift\">\n<table>\n\
             <caption>Each lift</caption>\n<thead>\n<tr>\n<th scope=\"col\">lift</th>\n\
             <th scope=\"col\">verdict</th>\n<th scope=\"col\" class=\"number\">sets a week</th>\n</tr>\n</thead>\n\
             <tbody>\n<tr>\n<th scope=\"row\">Squat<span class=\"below\">heavier</span>\n</th>\n\
             <td>\n<span class=\"verdict ahead\">\n<span aria-hidden=\"true\">▲</span> ahead</span>\n</td>\n\
             <td class=\"number\">4<span class=\"below\">\n{link}\n</span>\n</td>\n</tr>\n\
             <tr>\n<th scope=\"row\">Press</th>\n\
             <td>\n<span class=\"verdict behind\">\n<span aria-hidden=\"true\">▼</span> behind</span>\n</td>\n\
             <td class=\"number\">\n</td>\n</tr>\n</tbody>\n</table>\n</div>\n\
             <p class=\"soft\">sets are work sets</p>\n<h3>skipped</h3>\n<ul class=\"items\">\n{item}{item}</ul>\n\
             <div class=\"plots\">\n<svg id=\"plot-1\">\n</svg>\n<svg id=\"plot-2\">\n</svg>\n</div>\n\
             <p class=\"warn\">on a page</p>\n<details>\n<summary>Why</summary>\n<p>because</p>\n</details>"
        )
    );
}

#[test]
fn in_an_editor_an_answer_is_markdown() {
    assert_eq!(
        markdown(&answer()),
        "**1 ahead, 1 behind**\n\n\
         | verdict | lift | sets a week | day | where |\n\
         | --- | --- | ---: | --- | --- |\n\
         | ahead | Squat | 4 | heavier | a.md:3, 5 |\n\
         | behind | Press |  |  |  |\n\n\
         sets are work sets\n\n\
         ### skipped\n\n\
         - Row: skipped (b 1.md:7)\n\
         - Row: skipped (b 1.md:7)\n\n```\n---[]=\n```\n```\n---[]=\n```\n\n\
         because\n"
    );
}

/// What a journal may say that HTML or Markdown would take for its own, and what turns text round.
const HOSTILE: [&str; 9] = [
    "<script>alert(1)</script>",
    "| a | [b](javascript:c) `d` *e* _f_ ~g~ &lt; <!-- h -->",
    "# one",
    "- one",
    "12. one",
    "a\u{202e}b\nc",
    "http://a.b <http://c.d> ![i](j)",
    "\\| \\",
    "---",
];

/// The same wherever an answer has text.
fn hostile() -> Doc {
    let columns = vec![Column::left("lift"), Column::left("day").under(0), Column::left("where")];
    let mut table = Table::new(columns).captioned(HOSTILE[0]);
    let mut out = Doc::new();
    for said in HOSTILE {
        let piece = |role| (role, said.to_owned());
        for role in [Role::Plain, Role::Answer, Role::Title, Role::Caution] {
            out.line(role, said);
        }
        out.beside(piece(Role::Plain), [&place(said, 1)], 2);
        out.places(said, [&place(said, 2)], 2, 1);
        let mut item = Doc::new();
        item.line(Role::Plain, said);
        out.list(vec![item.clone()]);
        out.folded(said, item);
        table.row(vec![piece(Role::Plain), piece(Role::Answer)]).at([&place(said, 3)]);
    }
    out.table(table);
    out
}

#[test]
fn text_of_a_journal_makes_no_element_of_a_page() {
    let laid = html(&hostile(), 3, &Links::default()).into_string();
    assert!(laid.matches("&lt;script&gt;alert(1)&lt;/script&gt;").count() >= 10, "{laid}");
    for element in ["<script", "<!--", "<img", "\u{202e}", "href=\"j"] {
        assert!(!laid.contains(element), "{element} in {laid}");
    }
}

/// Read as CommonMark with tables, the text is what was written, and nothing of it has become a heading, a link, a list, a
/// cell or an element of HTML.
#[test]
fn text_of_a_journal_is_text_in_markdown() {
    let text = markdown(&hostile());
    let known = Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH;
    let mut tags: Vec<String> = Vec::new();
    let mut said = String::new();
    for event in Parser::new_ext(&text, known) {
        match event {
            Event::Start(tag) => {
                let tag = format!("{tag:?}");
                tags.push(tag.split([' ', '(', '{']).next().unwrap_or_default().to_owned());
            }
            Event::Text(text) => said.push_str(&text),
            Event::End(_) => said.push('\n'),
            other => panic!("{other:?} in {text}"),
        }
    }
    let count = |name: &str| tags.iter().filter(|tag| *tag == name).count();
    let each = HOSTILE.len();
    let expected = [("Strong", each), ("Heading", each), ("BlockQuote", each), ("List", each), ("Item", each)];
    for (name, expected) in
        expected.into_iter().chain([("Table", 1), ("TableRow", each), ("TableCell", 3 * (each + 1))])
    {
        assert_eq!(count(name), expected, "{name} in {text}");
    }
    let all: usize = ["Paragraph", "TableHead"].into_iter().chain(expected.map(|(name, _)| name)).map(count).sum();
    assert_eq!(all + 1 + each + 3 * (each + 1), tags.len(), "{tags:?}");
    for line in HOSTILE.into_iter().filter(|line| !line.contains('\n')) {
        assert!(said.lines().filter(|found| *found == line).count() >= 5, "{line} in {said}");
    }
}

#[test]
fn a_place_before_broken_words_is_whole() {
    let mut out = Doc::new();
    let place = (Role::Answer, "2026-03 block 2.md:14:16:".to_owned());
    out.behind(place, vec![(Role::Error, " error[no-sets]".into()), (Role::Plain, ": no sets at all".into())], 2);
    let on = |screen| paint(&text(&out, screen), false);
    assert_eq!(on(30), "2026-03 block 2.md:14:16:\n  error[no-sets]: no sets at\n  all\n");
    assert_eq!(on(20), "2026-03 block 2.md:14:16:\n  error[no-sets]: no\n  sets at all\n");
    assert_eq!(on(80), "2026-03 block 2.md:14:16: error[no-sets]: no sets at all\n");
}
