//! A draft as a calendar (RFC 5545): a day without a time for each session and each meet to come.

use super::plan;
use crate::questions::draft::{Answer, Drafted};
use crate::training::spelling;
use chrono::NaiveDate;
use std::collections::HashMap;

/// Octets of a line without its line end; longer lines are folded (RFC 5545, 3.1).
const LINE: usize = 75;

/// The calendar. `lifter` keeps the events of lifters apart.
pub fn calendar(answer: &Answer, lifter: Option<&str>) -> String {
    let mut out = Calendar { text: String::new(), seen: HashMap::new(), lifter: slug(lifter.unwrap_or("lifter")) };
    out.line("BEGIN:VCALENDAR");
    out.line("VERSION:2.0");
    out.line("PRODID:-//Loadline//draft//EN");
    for session in &answer.sessions {
        let name = session.day.as_deref().map_or_else(|| "session".to_owned(), spelling::day);
        let plans: Vec<String> =
            session.works.iter().map(|work| format!("{}: {}", work.lift, plan(&work.groups))).collect();
        out.event(answer.on, session.date, &name, &summary(session, &name), &plans.join("\n"));
    }
    for meet in &answer.meets {
        out.event(answer.on, meet.date, "meet", &format!("meet {}", meet.name), "");
    }
    out.line("END:VCALENDAR");
    out.text
}

fn summary(session: &Drafted, name: &str) -> String {
    let mut lifts: Vec<&str> = Vec::new();
    for work in &session.works {
        if !lifts.contains(&work.lift.as_str()) {
            lifts.push(&work.lift);
        }
    }
    format!("{name}: {}", lifts.join(", "))
}

struct Calendar {
    text: String,
    /// How often an event of a name and day has been written.
    seen: HashMap<String, u32>,
    lifter: String,
}

impl Calendar {
    /// An event of a whole day. The same session drafted again has the same identifier, so that a calendar takes it
    /// for a change and not for another one.
    fn event(&mut self, on: NaiveDate, date: NaiveDate, name: &str, summary: &str, description: &str) {
        let key = format!("loadline-{}-{date}-{}", self.lifter, slug(name));
        let times = self.seen.entry(key.clone()).or_default();
        *times += 1;
        let identifier = if *times > 1 { format!("{key}-{times}") } else { key };
        self.line("BEGIN:VEVENT");
        self.line(&format!("UID:{identifier}"));
        self.line(&format!("DTSTAMP:{}T000000Z", on.format("%Y%m%d")));
        self.line(&format!("DTSTART;VALUE=DATE:{}", date.format("%Y%m%d")));
        self.line(&format!("SUMMARY:{}", escaped(summary)));
        if !description.is_empty() {
            self.line(&format!("DESCRIPTION:{}", escaped(description)));
        }
        self.line("TRANSP:TRANSPARENT");
        self.line("END:VEVENT");
    }

    /// A content line, folded between characters.
    fn line(&mut self, line: &str) {
        let mut octets = 0;
        for c in line.chars() {
            if octets + c.len_utf8() > LINE {
                self.text.push_str("\r\n ");
                octets = 1;
            }
            self.text.push(c);
            octets += c.len_utf8();
        }
        self.text.push_str("\r\n");
    }
}

/// Text as a value (RFC 5545, 3.3.11). Control characters are not allowed in it.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// Letters and digits, with a hyphen for whatever lies between them.
fn slug(text: &str) -> String {
    let words: Vec<String> =
        text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    words.join("-")
}
