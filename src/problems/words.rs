//! Every message, in one place and in the lifter's words. What to type instead is the problem's fix.

use super::{Open, ProblemKind, Unread};

impl ProblemKind {
    /// What is wrong, as one sentence without a full stop. It quotes the journal as it is: whoever
    /// prints it escapes it.
    pub fn message(&self) -> String {
        use ProblemKind as K;
        match self {
            K::NotUtf8 => "this line is not UTF-8 text, so it was not read; save the page as UTF-8".into(),
            K::BareCarriageReturn => "the lines here end in a carriage return alone, so they were read as one and none counts; save the page with usual line ends".into(),
            K::MergeMarker => "a version-control merge was not finished here; keep the lines that are right and delete this one".into(),
            K::UnclosedFence => "this code fence never closes, so the lines below it were read as usual".into(),
            K::UnclosedComment => "this comment never closes, so the lines below it were read as usual".into(),
            K::PageWithoutLifter => "this page stands in no lifter's folder, so nothing in it counts; move it below a folder with a lifter.yaml".into(),
            K::UnreadablePage { why } => format!("this page could not be read: {why}"),

            K::NotADate { read } if read.starts_with('#') => format!("`{read}` isn't a heading: a blank stands between `#` and the date"),
            K::NotADate { read } if read.ends_with("/10") && read.len() <= 5 => format!("`{read}` is not a date; write YYYY-MM-DD, such as 2026-03-05, or, for a score, `- note: {read}`"),
            K::NotADate { read } if read.contains(':') && !read.contains(": ") => format!("`{read}` is not a date; write YYYY-MM-DD, a blank, and the time"),
            K::NotADate { read } => format!("`{read}` is not a date; write YYYY-MM-DD, such as 2026-03-05"),
            K::WrongWeekday { read, right } => format!("`{read}` is not the weekday of this date, which is a {right}"),
            K::DescriptorsRunTogether { read } => format!("`{read}` is a title as it stands; a comma parts two descriptors"),
            K::UnknownGym { name, near } if near.is_empty() => format!("no gym is called `{name}`; name it, with its bars and plates, under `gyms:` in journal.yaml"),
            K::UnknownGym { name, near } => format!("no gym is called `{name}`{}", maybe(near)),
            K::UnknownBlock { name, near } => format!("no block is called `{name}`{}", maybe(near)),

            K::BlockWithoutStart { name } => format!("block {name} does not say when it starts; write `- starts: YYYY-MM-DD` under it"),
            K::BlockOverlap { name, other, from } => format!("block {name} and block {other} share days from {from}; those days count for block {name}"),
            K::BlockTwice { name, first } => format!("a second block is called {name}; the first is in {first}"),
            K::UnreadBlockValue { key, wanted } => format!("`{key}:` takes {wanted}"),
            K::RepeatedBlockKey { key } => format!("this block has a `{key}:` already; the first one holds"),

            K::WorkOutsideSession { lines: 1 } => "this looks like work, but it stands in no session, so it counts nowhere; put it under a heading with its date, `## 2026-03-05`".into(),
            K::WorkOutsideSession { lines } => format!("this looks like work, and so do {} of the lines below it, but they stand in no session, so they count nowhere; put them under a heading with their date, `## 2026-03-05`", lines - 1),
            K::LooksLikeBlock { missing } => format!("this looks like a block, but {missing}, so it counts nowhere"),
            K::DetailOutsideLift { key } => format!("`{key}:` belongs to a lift; indent it under the lift's line"),
            K::NearKey { read, known } => format!("`{read}` isn't a key; did you mean `{known}`?"),

            K::LooseSpelling { read } => format!("read as `{read}`; `loadline tidy` writes it so"),
            K::SeveralReadings { ways: 1 } => "this could be read one way, but it is not certain, so it counts nowhere".into(),
            K::SeveralReadings { ways } => format!("this can be read in {ways} ways, so it counts nowhere until one is written"),
            K::UnreadWork { why: Unread::Piece { text, written: Some(written), .. } } => format!("`{text}` can't be read here, so this line counts nowhere; {written}. What is only a remark stands in parentheses behind the sets"),
            K::UnreadWork { why: Unread::Piece { text, rest: Some(rest), .. } } => format!("`{text}` can't be read here, so this line counts nowhere; the rest is `- {rest}`. What is only a remark stands in parentheses behind that"),
            K::UnreadWork { why: Unread::Piece { text, .. } } if text.starts_with('(') => format!("`{text}` may change the sets, so this line counts nowhere; write what was done outside parentheses, and inside them only what changes nothing"),
            K::UnreadWork { why: Unread::Piece { text, .. } } => format!("`{text}` can't be read here, so this line counts nowhere; write it in another way, or, if it is only a remark, in parentheses behind the sets"),
            K::UnreadWork { why: Unread::Below } => "the line above it counts nowhere, so this counts nowhere either; write that one in another way first".into(),
            K::UnreadWork { why: Unread::NoLift { name } } => format!("`{name}` isn't what a lift is called, so these sets count nowhere; write the lift in its place, such as `- Back squat: 3x5 @ 100 kg`, or, where it is one, put it under `lifts:` in the settings"),
            K::UnreadWork { why: Unread::Apart { lift } } => format!("something stands between `{lift}` and this, so it counts nowhere; write the lift and its sets on one line, or these right below it"),
            K::UnreadWork { why: Unread::Caption { text, open: Open::Rounds } } => format!("`{text}` above it says how often all of this was done, so it counts nowhere; write each lift with all of its sets, such as `- Push-up: 10x5`"),
            K::UnreadWork { why: Unread::Caption { text, open: Open::Done } } => format!("`{text}` above it leaves open whether, when or by whom this was done, so it counts nowhere; put what was done under the heading of its day, or above that line"),
            K::UnreadWork { why: Unread::Caption { text, open: Open::Units } } => format!("`{text}` above it says what the numbers are of, and this load has no unit, so it counts nowhere; write each load whole, such as `5 @ 225 lb`, or `units: lb` in the settings"),
            K::UnreadWork { why: Unread::Load } => "a line beside this, perhaps with its load, counts nowhere, so this counts nowhere either; write both on one line, such as `5,5,5 @ 80 kg`".into(),
            K::UnreadWork { why: Unread::Amends } => "this seems to say that the sets above were others than are written, and they count as they stand; write there what was done, such as `5,5,4 @ 100 kg` or `5x5 @ 100 kg miss 1`, and this in parentheses behind it".into(),
            K::UnreadWork { why: Unread::Heading } => "sets in a heading count nowhere; write them below it, each lift on a line of its own, such as `- Back squat: 3x5 @ 100 kg`".into(),
            K::UnreadWork { why: Unread::Whole { unit } } => {
                let load = if *unit == "lb" { "225 lb" } else { "100 kg" };
                format!("this looks like training, but can't be read, so it counts nowhere; write `- Lift: 3x5 @ {load}`, or, for a note, put it in quotes or parentheses, behind `>`, or write `- note: …`")
            }
            K::UnknownLift { name, near } => format!("`{name}` isn't a lift I know, so these sets count nowhere{}; a new lift is written `- {name}: 3x5`, with its load, or stands under `lifts:` in the settings", maybe(near)),
            K::CopiedPage { of } => format!("this page is named as a copy of \"{of}\" is, made where two devices changed it at once: join the two by hand or with `loadline merge`, delete this one, or leave it out with `exclude:` in journal.yaml"),
            K::SessionTwice { first, lines } => format!("this session stands in {first} too: its {} with the same sets count{} once. Delete the copy; if you trained twice that day, give the second a time or a day label of its own", if *lines == 1 { "line".to_owned() } else { format!("{lines} lines") }, if *lines == 1 { "s" } else { "" }),
            K::SessionOutsideBlock { name, starts, ends: Some(ends) } => format!("this day lies outside block {name}, which is from {starts} to {ends}: the session counts for no week of it"),
            K::SessionOutsideBlock { name, starts, ends: None } => format!("this day lies before block {name}, which starts on {starts}: the session counts for no week of it"),
            K::SessionWithoutWork { date } => format!("the session of {date} has text, but no work that counts"),
            K::NotAPage { files: 1 } => "this file isn't a page, so nothing in it was read; a page's name ends in .md".into(),
            K::NotAPage { files } => format!("this file isn't a page, so nothing in it was read, and neither are {} others; a page's name ends in .md", files - 1),

            K::NoLiftName => "the lift's name is missing before the colon".into(),
            K::UnreadCount { read } if read.is_empty() => "a count such as 3x8 is missing here".into(),
            K::UnreadCount { read } if is_load(read) => {
                format!("`{read}` is a load, and a count comes before it: 3x8 @ {read}, or 1x1 @ {read} for a single")
            }
            K::UnreadCount { read } => format!("`{read}` is not a count; a count is 3x8, or 8,8,7, or 3x20s"),
            K::NoSets => "no sets at all: leave the line out, or write `skipped`; a failed attempt is 1x0".into(),
            K::DecimalCount { read } => format!("`{read}` is not a whole number; only distances take a decimal point"),
            K::TooManySets { sets, most } => format!("{sets} sets are more than the {most} that are read in one count here; is the load written first?"),
            K::ManyReps { reps } => format!("{reps} reps in one set; is that right?"),
            K::PlanOnlyCount { read } => format!("`{read}` leaves the number open, which only a plan may; write what was done"),
            K::MixedCount { read } => format!("`{read}` gives the sets twice, as a number and as a list"),
            K::ReversedRange { read } => format!("`{read}` is a range the wrong way round"),
            K::NumberTooLong { read } => format!("`{read}` is a longer number than can be meant"),
            K::MixedUnits { read } => format!("`{read}` lists unlike things; the members of a list are all reps, all held, or all carried"),
            K::ThreeNumbers { read, orders } => three_numbers(read, orders),
            K::SpacedRange { read } => format!("`{read}` is a range; a range has one dash and no blanks"),
            K::GroupsRunTogether => "another group begins here; a comma and a blank part two groups".into(),
            K::LoadBeforeCount { read } => format!("`{read}` has the load before the count; the count comes first"),

            K::UnreadLoad { read } if read.is_empty() => "a load such as 120 kg is missing after `@`".into(),
            K::UnreadLoad { read } => format!("`{read}` is not a load; a load is 120 kg, or bw + 20 kg, or pin 7, or \"blue band\""),
            K::TwoLoads => "this group has a load already; a comma starts the next group".into(),
            K::LoadRange { read } => format!("`{read}` is a range; a load is one number"),
            K::DecimalComma { read } => format!("`{read}` has a comma; a number takes a point"),
            K::LoadOrEffort { read, unit: "" } => format!("is {read} an effort or a load? Write `RPE {read}`, or `@ {read}` and its unit"),
            K::LoadOrEffort { read, unit } => format!("is {read} an effort or a load? Write `RPE {read}` or `@ {read} {unit}`"),
            K::LoadAfterSets => "the load comes after sets that have none".into(),
            K::UnknownGear { read, near } => format!("`{read}` isn't a bar or a plate colour of this gym{}", maybe(near)),
            K::NegativeLoad { read } => format!("`{read}` comes to less than nothing"),
            K::NoMaximum { lift, block: Some(block) } => format!("a percentage of what? Block {block} has no `- max: {lift} …` line"),
            K::NoMaximum { lift, block: None } => format!("a percentage of what? This session is in no block, so there is no `max:` for {lift}"),
            K::MaximumNotAMass { lift, maximum } => format!("a percentage needs a mass, and the block's max for {lift} is `{maximum}`"),
            K::PlatesNotOwned { plate, written, owned } => format!("{written} plates of {plate} are on the bar; the gym owns {owned}"),
            K::UnlikelyBodyweight { read, other } => format!("a bodyweight of {read}? If you meant {other}, write that"),
            K::UnitsJump { date, by, lifts, of } => format!("from {date} on the loads without a unit are about {by} on {lifts} of {}; if kilos and pounds changed places there, write the unit with the loads of one side", plural(*of, "lift")),
            K::LoadLeap { load, heaviest, date } => format!("{load} is more than half again the heaviest before, {heaviest} on {date}; is the unit right?"),

            K::UnreadWords { read } => format!("`{read}` means nothing here; a remark stands in parentheses"),
            K::UnreadEffort { scale: "RPE", read } => format!("`{read}` is not an RPE; it is a whole or half number from 1 to 10, or a range"),
            K::UnreadEffort { scale, read } => format!("`{read}` is not an {scale}; it is a number from 0 to 9, or a range"),
            K::EffortCount { efforts, sets } => format!("{} for {}", plural(*efforts, "effort"), plural(*sets, "set")),
            K::EffortListSpaced => "with spaces the numbers after the commas would be sets; a list has none".into(),
            K::EffortDecimalComma { read } => format!("`{read}` is two efforts for one set; a number takes a point"),
            K::EffortCommaDoubt { read } => format!("`{read}` was read as one effort for each of the two sets; was one effort with a decimal point meant?"),
            K::ReversedEffort { read } => format!("`{read}` is a range the wrong way round"),
            K::UnreadAttribute { keyword, wanted } => format!("`{keyword}` takes {wanted}"),
            K::AttributeTwice { keyword } => format!("this group has `{keyword}` already; the first one holds"),
            K::FaultWithoutSet { set, sets } => format!("there is no set {set}: the group has {}", plural(*sets, "set")),
            K::UnreadFault => "a fault is `!` and a word, such as !depth, or !depth(3) for the third set only".into(),
            K::UnclosedRemark => "this parenthesis never closes".into(),
            K::AttributeAfterComma { read } => format!("`{read}` stands after a comma, which starts a new group"),

            K::NoPlan => "`as planned` needs a `plan:` under the line".into(),
            K::OpenPlan { plan } => format!("`as planned` leaves open what was done: the plan is `{plan}`; write the sets"),
            K::SkippedButDone => "skipped, and yet sets stand under it: the sets count".into(),
            K::DoneInFuture { date } => format!("work done on {date}, which is still to come; is the year right?"),
            K::NearLift { read, known } => format!("`{read}` is a lift of its own; was `{known}` meant?"),
            K::SideNotSaid { lift } => format!("{lift} is worked one side at a time: write `/side` after the count if the number is for each side"),

            K::UnreadFact { key, wanted } => format!("`{key}:` takes {wanted}"),

            K::UnreadSettings { why } => format!("these settings could not be read: {why}"),
            K::UnknownSetting { key, near } => format!("no setting is called `{key}`{}", maybe(near)),
            K::WrongSetting { key, wanted } => format!("`{key}:` takes {wanted}"),
            K::LifterTwice { name, first } => format!("two lifters are called {name}; the other one's folder is {first}"),
        }
    }
}

/// Which of the three is the load? A load from 5 to 10 without a unit could be taken for an effort.
fn three_numbers(read: &str, orders: &[String]) -> String {
    let small = |order: &String| {
        order
            .rsplit(' ')
            .next()
            .and_then(|load| load.parse().ok())
            .is_some_and(|load: f64| (5.0..=10.0).contains(&load))
    };
    let unit = if orders.iter().any(small) { " and the load's unit" } else { "" };
    match orders {
        [] => format!("which number of `{read}` is the load? Sets and reps come first, then `@` and the load"),
        [one] => format!("which number of `{read}` is the load? Write `{one}`{unit}"),
        [one, other, ..] => format!("which number of `{read}` is the load? Write `{one}` or `{other}`{unit}"),
    }
}

/// A number and a unit of mass, and nothing else: `180 kg`, `405lb`.
fn is_load(read: &str) -> bool {
    let number = ["kg", "lbs", "lb"].iter().find_map(|unit| read.strip_suffix(unit)).map(str::trim_end);
    number.is_some_and(|number| !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit() || b == b'.'))
}

/// `; perhaps a, b or c`, or nothing.
fn maybe(near: &[String]) -> String {
    match near {
        [] => String::new(),
        [one] => format!("; perhaps {one}"),
        [first @ .., last] => format!("; perhaps {} or {last}", first.join(", ")),
    }
}

fn plural(count: u32, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
