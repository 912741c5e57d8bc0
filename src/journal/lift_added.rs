//! A lift written into the settings.

use super::SETTINGS_FILE;
use super::lift_names::lift_written;
use super::settings::{LIFTER_FILE, read};
use crate::source::{Edit, Span, apply};
use crate::training::{Family, fold};

/// The edit that adds a lift to `lifts:` of the journal's settings; nothing where the file would not say so then, or would
/// have more faults than before.
pub fn lift_added(bytes: &[u8], name: &str, family: Family) -> Option<Edit> {
    let text = std::str::from_utf8(bytes).ok()?;
    let item = format!("- {{ name: {}, family: {family} }}\n", lift_written(name));
    let mut start = 0;
    let mut edit = None;
    let mut below = false;
    for line in text.split_inclusive('\n') {
        let words = line.split('#').next().unwrap_or("").trim_end();
        if below && !words.is_empty() {
            let indent =
                line.get(..line.len() - line.trim_start().len()).filter(|_| words.trim_start().starts_with('-'))?;
            edit = Some(Edit::new(Span::new(start, start), format!("{indent}{item}")));
            break;
        }
        below |= words == "lifts:";
        start += line.len();
    }
    let ends = if text.is_empty() || text.ends_with('\n') { "" } else { "\n" };
    let end = Span::new(text.len(), text.len());
    let edit = edit.unwrap_or_else(|| match below {
        true => Edit::new(end, format!("{ends}  {item}")),
        false => Edit::new(end, format!("{ends}lifts:\n  {item}")),
    });
    let (before, faults) = read(bytes, false);
    let (after, new_faults) = read(apply(text, std::slice::from_ref(&edit)).ok()?.as_bytes(), false);
    let is_there = after.lifts.iter().any(|lift| fold(&lift.name) == fold(name));
    let grew = after.lifts.len() == before.lifts.len() + 1;
    (is_there && grew && new_faults.len() == faults.len()).then_some(edit)
}

/// Whether a path below the root is that of settings.
pub fn is_settings(path: &str) -> bool {
    path == SETTINGS_FILE || path.rsplit('/').next() == Some(LIFTER_FILE)
}

#[cfg(test)]
mod tests {
    use super::lift_added;
    use crate::source::apply;
    use crate::training::Family;

    fn added(text: &str) -> Option<String> {
        lift_added(text.as_bytes(), "Harbour walk", Family::Other).map(|edit| apply(text, &[edit]).unwrap())
    }

    #[test]
    fn it_stands_where_lifts_are_listed() {
        assert_eq!(added("").unwrap(), "lifts:\n  - { name: Harbour walk, family: other }\n");
        assert_eq!(added("units: kg").unwrap(), "units: kg\nlifts:\n  - { name: Harbour walk, family: other }\n");
        let text = "lifts:   # ours\n  - { name: Belt squat, family: squat }\nunits: kg\n";
        let then = "lifts:   # ours\n  - { name: Harbour walk, family: other }\n  - { name: Belt squat, family: squat }\nunits: kg\n";
        assert_eq!(added(text).unwrap(), then);
    }

    #[test]
    fn a_list_in_brackets_is_left_alone() {
        assert_eq!(added("lifts: [{ name: Belt squat, family: squat }]\n"), None);
    }
}
