//! What was found out about a person's habits, in the file that holds them: as comments, which count once their sign is
//! taken away. What stands there stays.

use super::{Findings, UnknownName};
use crate::journal::HabitKey;
use crate::training::words;

/// The habits that the lines bear out, or ask for, with the words behind each: `before x: load`, `41 of 47 lines`.
pub fn proposals(findings: &Findings) -> Vec<(String, String)> {
    let mut out: Vec<(String, String)> = Vec::new();
    for finding in &findings.proposed {
        let count = format!("{} of {} lines", finding.lines, finding.of);
        match out.last_mut() {
            // All words stand below one key.
            Some((before, counts)) if finding.key == HabitKey::Words && before.starts_with("words:") => {
                let word = finding.value.trim_start_matches('{').trim_end_matches('}').trim();
                *before = format!("{}, {word} }}", before.trim_end_matches(['}', ' ']));
                if *counts != count {
                    *counts = count;
                }
            }
            _ => out.push((format!("{}: {}", finding.key, finding.value), count)),
        }
    }
    out
}

/// The file of habits with what was found out: what was written there before by itself is written anew.
pub fn with_findings(text: &str, findings: &Findings) -> String {
    let mut lines: Vec<String> = text.lines().filter(|line| !is_finding(line)).map(str::to_owned).collect();
    let mut found: Vec<(usize, String, String)> = Vec::new();
    for (what, count) in proposals(findings) {
        found.push((0, what, count));
    }
    for (key, values, count) in &findings.open {
        let ask = if *count == 1 { "asks" } else { "ask" };
        found.push((0, format!("{key}: {values}"), format!("{} {ask}", lines_of(*count))));
    }
    for unknown in &findings.words {
        found.push((0, format!("words: {{ {}: … }}", unknown.word), lines_of(unknown.lines)));
    }
    let top = lines.iter().position(|line| line.trim_end() == "habits:" || line.trim_end() == "habits: {}");
    let at = match top {
        Some(at) => at,
        None if lines.iter().any(|line| line.starts_with("habits:")) => {
            // All on one line: nothing can stand between, so it stands below, to be taken over by hand.
            lines.push("# habits:  # lines found so far".into());
            lines.len() - 1
        }
        None => {
            if lines.last().is_some_and(|line| !line.trim().is_empty()) {
                lines.push(String::new());
            }
            lines.push("habits:".into());
            lines.len() - 1
        }
    };
    if let Some(line) = lines.get_mut(at).filter(|line| line.trim_end() == "habits: {}") {
        *line = "habits:".into();
    }
    let below = |line: &&String| line.starts_with(' ') || line.trim().is_empty() || line.starts_with('#');
    let block = lines.iter().skip(at + 1).take_while(below).count();
    let indent = lines
        .iter()
        .skip(at + 1)
        .take(block)
        .find(|line| !line.trim().is_empty() && !line.trim_start().starts_with('#'));
    let indent = indent.map_or(2, |line| line.len() - line.trim_start().len());
    let named = (at + 1..at + 1 + block)
        .find(|at| lines.get(*at).is_some_and(|line| line.trim_end() == format!("{}names:", " ".repeat(indent))));
    let name = |unknown: &UnknownName| {
        let near = if unknown.near.is_empty() { String::new() } else { format!("; {}?", unknown.near.join(", or ")) };
        (2, format!("{}: …", key(&unknown.name)), format!("{}{near}", lines_of(unknown.lines)))
    };
    let names: Vec<(usize, String, String)> = findings.names.iter().map(name).collect();
    // Names first, where there is no list of them yet.
    let mut into = found;
    match named {
        Some(at) => lines.splice(at + 1..at + 1, commented(&names, indent)).for_each(drop),
        None if names.is_empty() => {}
        None => {
            let sum = words::count(names.len() as u64, "name");
            into.push((0, "names:".into(), format!("{sum} in the lines")));
            into.extend(names);
        }
    }
    lines.splice(at + 1..at + 1, commented(&into, indent)).for_each(drop);
    lines.join("\n") + "\n"
}

fn lines_of(count: usize) -> String {
    words::count(count as u64, "line")
}

/// Lines of comment, their counts below each other.
fn commented(found: &[(usize, String, String)], indent: usize) -> Vec<String> {
    let wide = found.iter().map(|(more, what, _)| more + what.chars().count()).max().unwrap_or(0);
    found
        .iter()
        .map(|(more, what, count)| {
            let blanks = " ".repeat(wide - more - what.chars().count() + 3);
            format!("{}# {}{what}{blanks}# {count}", " ".repeat(indent), " ".repeat(*more))
        })
        .collect()
}

/// A name as a key of YAML.
fn key(name: &str) -> String {
    let plain = name.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | '/'));
    let word = name.starts_with(char::is_alphabetic)
        && !["y", "n", "yes", "no", "on", "off", "true", "false", "null"].contains(&name.to_lowercase().as_str());
    if plain && word {
        return name.to_owned();
    }
    // Signs that may not stand in the file, not even in a comment: notes from old devices have them.
    let unprintable =
        |c: char| c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}');
    if !name.contains(unprintable) {
        return format!("'{}'", name.replace('\'', "''"));
    }
    let escaped = name.chars().map(|c| match c {
        '"' | '\\' => format!("\\{c}"),
        c if unprintable(c) => format!("\\U{:08x}", u32::from(c)),
        c => c.to_string(),
    });
    format!("\"{}\"", escaped.collect::<String>())
}

/// Whether a line is one that was written here.
fn is_finding(line: &str) -> bool {
    let Some((_, count)) = line.trim_start().strip_prefix("# ").and_then(|rest| rest.rsplit_once("  # ")) else {
        return false;
    };
    count.contains("line") && (count.starts_with(|c: char| c.is_ascii_digit()) || count.starts_with("lines found"))
}

#[cfg(test)]
mod tests {
    use super::super::{Finding, Findings, UnknownName};
    use super::with_findings;
    use crate::journal::{HabitKey, lifter_settings};
    use crate::notation::readings::Habits;

    fn name(name: &str, lines: usize, near: &[&str]) -> UnknownName {
        UnknownName { name: name.into(), lines, near: near.iter().map(|near| (*near).to_owned()).collect() }
    }

    fn findings() -> Findings {
        let finding = |key, value: &str| Finding { key, value: value.into(), lines: 41, of: 47 };
        Findings {
            proposed: vec![
                finding(HabitKey::BeforeX, "load"),
                finding(HabitKey::Words, "{ sätze: sets }"),
                finding(HabitKey::Words, "{ wdh: reps }"),
            ],
            open: vec![(HabitKey::AtSign, "effort, or load".into(), 9)],
            names: vec![name("SQ", 12, &["Back squat", "Front squat"])],
            words: Vec::new(),
            habits: Habits::default(),
        }
    }

    #[test]
    fn what_was_found_out_stands_below_what_is_there() {
        let first = with_findings("units: kg  # of the gym\n", &findings());
        let expected = "\
units: kg  # of the gym

habits:
  # before x: load                      # 41 of 47 lines
  # words: { sätze: sets, wdh: reps }   # 41 of 47 lines
  # at sign: effort, or load            # 9 lines ask
  # names:                              # 1 name in the lines
  #   SQ: …                             # 12 lines; Back squat, or Front squat?
";
        assert_eq!(first, expected);
        // Once more: nothing stands there twice.
        assert_eq!(with_findings(&first, &findings()), expected);
    }

    #[test]
    fn a_name_with_a_sign_that_no_file_of_settings_may_have_can_be_answered() {
        for typed in ["ben\u{1}\u{0}ch", "sit\u{2028}up \"x\"", "\u{7f}row\\", "press\u{feff}s", "l\u{ffff}u\u{9f}"] {
            let findings = Findings { names: vec![name(typed, 1, &[])], ..Findings::default() };
            let found = with_findings("", &findings);
            assert!(lifter_settings(found.as_bytes()).1.is_empty(), "{found:?}");
            let answered = found.replace("# ", "").replace("…", "Bench press #").replace("names:", "names: #");
            let (settings, problems) = lifter_settings(answered.as_bytes());
            assert!(problems.is_empty(), "{answered:?}");
            let names = &settings.habits.names;
            assert_eq!(names.get(typed).map(String::as_str), Some("Bench press"), "{names:?}");
        }
    }

    #[test]
    fn answers_stay_and_new_names_stand_among_them() {
        let text = "habits:\n    count: sets x reps # mine\n    names:\n        SQ: Back squat\n";
        let found = Findings { names: vec![name("KB thing", 3, &[])], ..Findings::default() };
        assert_eq!(
            with_findings(text, &found),
            "habits:\n    count: sets x reps # mine\n    names:\n    #   KB thing: …   # 3 lines\n        SQ: Back squat\n"
        );
    }
}
