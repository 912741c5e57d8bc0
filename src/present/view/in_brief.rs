//! Cautions in a few words each, as `roster` and the top of a report say them.

use crate::present::wording::count;
use crate::questions::review::Caution;

/// All of them, each told once: `hinge sets +80 %; Deadlift 1.5 RPE over plan`.
pub(in crate::present) fn in_brief(cautions: &[Caution]) -> String {
    let mut told: Vec<(&str, Option<&str>)> = Vec::new();
    let mut words = Vec::new();
    // The latest is the one that still holds.
    for caution in cautions.iter().rev() {
        let about = (caution.name, caution.about.as_deref());
        if !told.contains(&about) {
            told.push(about);
            words.push(of(caution));
        }
    }
    words.reverse();
    words.join("; ")
}

/// One of them in a few words; the sentence of `review` where there are none shorter.
pub(in crate::present) fn of(caution: &Caution) -> String {
    let about = caution.about.as_deref().unwrap_or_default();
    let found = caution.found.0;
    let whole = |what: &str| count(found.round().max(0.0) as u64, what);
    match caution.name {
        "deload-overdue" => format!("{} without a deload", whole("week")),
        "far-under-plan" => format!("{about} {found} RPE under plan"),
        "over-plan" => format!("{about} {found} RPE over plan"),
        "sets-rise" => format!("{about} sets +{found:.0} %"),
        "load-jump" => format!("{about} load +{found:.0} %"),
        "no-room-left" => format!("no room left on {about}"),
        "no-word" => format!("{} without a word", whole("session")),
        "pain-again" => format!("{about} pain again"),
        "pain-at-once" => format!("{about} pain {found} of 10"),
        "planned-and-skipped" => format!("{about} skipped {} running", whole("week")),
        "same-fault" => format!("{about} same fault again"),
        "high-reps-missing" => format!("{} without high reps", whole("week")),
        "high-reps-near-meet" => "high reps close to a meet".into(),
        "heavy-deadlift-near-meet" => format!("heavy {about} close to a meet"),
        "block-behind" => format!("{found:.0} % of lifts behind"),
        _ => caution.message.clone(),
    }
}
