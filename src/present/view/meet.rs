//! `meet` as text: the verdict, then the attempts.

use super::{meet_outcome, meet_plan};
use crate::present::{Doc, Role};
use crate::questions::meet::Answer;

/// Shows the answer.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let Some(meet) = &answer.meet else {
        out.line(Role::Answer, "No meet and no test day in the journal yet");
        let words = "A meet is a heading with a date, such as `## 2026-12-19 meet Harbour Open`; a test day is \
                     `## 2026-12-19 test day`.";
        out.wrapped(Role::Plain, words, 0);
        return out;
    };
    if let Some(plan) = &meet.plan {
        out.append(meet_plan::show(meet, plan));
    }
    if let Some(outcome) = &meet.outcome {
        out.append(meet_outcome::show(meet, outcome));
    }
    if let Some(caution) = answer.caution {
        out.gap();
        out.wrapped(Role::Caution, caution, 0);
    }
    out
}
