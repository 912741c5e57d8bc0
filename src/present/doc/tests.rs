use super::breaks::{atoms, broken, width};
use super::stack::Stack;
use super::{Column, Role, Table};

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
    assert_eq!(broken("one two three four", 20, 5), ["one two three four"]);
    assert_eq!(broken("unbreakable", 3, 3), ["unbreakable"]);
}
