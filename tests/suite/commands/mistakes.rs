//! Arguments that are wrong: what is missing, unknown or not right, and what to type instead.

use loadline::commands::replies;
use std::ffi::OsString;

/// What is said on standard error, with the exit status.
fn said(line: &str) -> (String, u8) {
    let words = std::iter::once("loadline").chain(line.split_whitespace()).map(OsString::from);
    let reply = replies(words).next().expect("a reply");
    assert_eq!(reply.out, "", "{line}");
    (reply.err, reply.status)
}

#[test]
fn what_is_wrong_is_said_in_one_line_with_what_to_type() {
    for (line, expected) in [
        ("best", "LIFT is missing here; `loadline best --help` shows how, with examples"),
        ("merge", "BASE, OURS and THEIRS are missing here; `loadline merge --help` shows how, with examples"),
        ("shift", "--from DATE or --block NAME is missing here; `loadline shift --help` shows how, with examples"),
        ("shift --from 2026-11-26", "--by TIME is missing here; `loadline shift --help` shows how, with examples"),
        ("mach", "there is no command `mach`; did you mean `man` or `match`?"),
        ("zzz", "there is no command `zzz`; `loadline --help` shows how, with examples"),
        ("import nots x", "there is no `loadline import nots`; did you mean `loadline import notes`?"),
        ("match --plt", "`--plt` is not known here; did you mean `--plot`?"),
        ("match --zzz", "`--zzz` is not known here; `loadline match --help` shows how, with examples"),
        (
            "taper Squat",
            "`loadline taper` takes no word `Squat`; it is asked with --lifter, --block, --week or --all; \
             `loadline taper --help` shows how, with examples",
        ),
        (
            "volume Squat",
            "`loadline volume` takes no word `Squat`; a lift is named with `--lift \"Squat\"`; \
             `loadline volume --help` shows how, with examples",
        ),
        ("lifts Squat", "`loadline lifts` takes no word `Squat`; `loadline lifts --help` shows how, with examples"),
        ("match --week", "--week <N> needs a value; `loadline match --help` shows how, with examples"),
        ("volume --by moon", "`moon` is not right for --by <WHAT>; it takes week, block, lift, family, day or month"),
        ("volume --by", "--by <WHAT> needs a value: week, block, lift, family, day or month"),
        ("shift --from 2026-11-26 --by 1y", "`1y` is not right for --by <TIME>: write weeks or days, such as 1w or 3d"),
        ("report --roster --block 9", "--roster and --block <NAME> do not go together"),
        ("match --week 1 --week 2", "--week <N> is given twice"),
        ("", "a command is missing: `loadline session` says what goes on the bar; `loadline --help` has them all"),
        (
            "--on 2026-11-25",
            "a command is missing: `loadline session` says what goes on the bar; `loadline --help` has them all",
        ),
        (
            "draft",
            "a word is missing: write `loadline draft week` or `loadline draft block`; `loadline draft --help` shows \
             how, with examples",
        ),
        ("draft month", "there is no `loadline draft month`; write `loadline draft week` or `loadline draft block`"),
        ("best Squat --reps -3", "`-3` is not right for --reps <N>: write a whole number from 1 up"),
        ("man foo", "there is no command `foo`; `loadline --help` has them all"),
        ("man mach", "there is no command `mach`; did you mean `match`?"),
        ("flatten nofile", "there is no page nofile"),
    ] {
        assert_eq!(said(line), (format!("loadline: {expected}\n"), 2), "{line}");
    }
}

/// A day for a block, and none for what is planned from a day on.
#[test]
fn a_new_first_day_is_a_blocks() {
    let (said, status) = said("shift --from 2026-11-26 --starts 2026-11-27");
    assert!(said.contains("--starts <DATE>") && said.ends_with(" do not go together\n") && status == 2, "{said}");
}

/// Help is no mistake.
#[test]
fn help_is_answered() {
    let reply = replies(["loadline", "shift", "--help"].map(OsString::from)).next().expect("a reply");
    assert_eq!((reply.err.as_str(), reply.status), ("", 0));
    assert!(reply.out.contains("--starts <DATE>"), "{}", reply.out);
}

/// What was typed cannot hide in a terminal what is said of it.
#[test]
fn what_was_typed_is_spelled_out() {
    assert_eq!(
        said("x\u{1b}[2J").0,
        "loadline: there is no command `x\\u{1b}[2J`; `loadline --help` shows how, with examples\n"
    );
}
