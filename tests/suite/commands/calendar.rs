//! `draft --ics`, read by a parser that is not this program's.

use crate::support::journal::Journal;
use icalendar::parser::{read_calendar, unfold};

fn calendar(journal: &Journal) -> String {
    let out = journal.run(&["draft", "week", "--ics", "--on", "2026-11-07"]);
    out.split("--- stderr\n").next().unwrap().to_owned()
}

fn journal() -> Journal {
    let sessions = "## 2026-11-02 heavier day\n\n- Back squat: 3x5 @ 200 kg RPE 7, 2x8 @ 150 kg\n- Kniebeuge; längs, \\ tief: 3x8 @ 60 kg\n- Zercher squat from the floor: 3x5 @ 100 kg\n\n\
                    ## 2026-11-04\n\n- Dip: 3x5 @ bw + 10 kg\n\n## 2026-11-04 18:00\n\n- Plank: 3x45s\n\n\
                    ## 2026-12-19 meet Tidewater; Classic\n";
    Journal::new().page(&format!("# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n\n{sessions}"))
}

#[test]
fn a_calendar_reads_with_another_parser() {
    let text = calendar(&journal());
    let unfolded = unfold(&text);
    let calendar = read_calendar(&unfolded).unwrap_or_else(|error| panic!("{error}\n{text}"));
    let value = |of: &icalendar::parser::Component<'_>, name: &str| {
        of.find_prop(name).map(|property| property.val.to_string()).unwrap_or_default()
    };
    let events: Vec<_> = calendar.components.iter().filter(|component| component.name == "VEVENT").collect();
    let days: Vec<String> = events.iter().map(|event| value(event, "DTSTART")).collect();
    assert_eq!(days, ["20261109", "20261111", "20261111", "20261219"]);
    for event in &events {
        let start = event.find_prop("DTSTART").unwrap();
        let kinds: Vec<_> =
            start.params.iter().map(|one| (one.key.to_string(), one.val.as_ref().unwrap().to_string())).collect();
        assert_eq!(kinds, [("VALUE".to_owned(), "DATE".to_owned())]);
        assert_eq!(value(event, "DTSTAMP"), "20261107T000000Z");
    }
    let identifiers: Vec<String> = events.iter().map(|event| value(event, "UID")).collect();
    assert_eq!(
        identifiers,
        [
            "loadline-lifter-2026-11-09-heavier-day",
            "loadline-lifter-2026-11-11-session",
            "loadline-lifter-2026-11-11-session-2",
            "loadline-lifter-2026-12-19-meet",
        ]
    );
    // What a calendar shows: the escapes are undone.
    let shown: icalendar::Calendar = unfolded.parse().unwrap();
    use icalendar::Component;
    let shown: Vec<&icalendar::Event> = shown.components.iter().filter_map(|component| component.as_event()).collect();
    assert_eq!(
        shown[0].get_summary().unwrap(),
        "heavier day: Back squat, Kniebeuge; längs, \\ tief, Zercher squat from the floor"
    );
    assert_eq!(shown[3].get_summary().unwrap(), "meet Tidewater; Classic");
    let description = shown[0].get_description().unwrap();
    assert!(
        description.lines().count() == 3 && description.starts_with("Back squat: 3x5 @ 202.5 kg RPE 7-8, 2x8 @"),
        "{description}"
    );
}

/// RFC 5545, 3.1: lines end in CRLF and hold no more than 75 octets without it.
#[test]
fn lines_are_folded_at_75_octets_and_end_in_crlf() {
    let text = calendar(&journal());
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
    assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
    assert!(text.contains("\r\n "), "nothing was long enough to be folded");
}

#[test]
fn a_session_drafted_again_keeps_its_identifier() {
    let of = |cap: &str| {
        let out = journal().run(&["draft", "week", "--ics", "--cap", cap, "--on", "2026-11-07"]);
        out.lines().filter(|line| line.starts_with("UID:")).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(of("8"), of("10"));
    assert_eq!(of("8").len(), 4);
}
