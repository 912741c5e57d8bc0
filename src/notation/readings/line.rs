//! A whole line in every way it can be read: its groups together, as one person would mean them.

use super::core::{Between, Core, Element, core};
use super::habits::{CommaSign, Habits};
use super::items::{Doubt, Item, LoadKind, Placed, Way, items};
use super::marks::{has_cross, is_picture};
use super::names::Takes;
use super::numbers::Number;
use super::sets::{Group, Sets};
use super::shapes::{Candidate, Labels, Reps, Sure, candidates};
use super::side_by_side::{led_by_pair, listed, otherwise, side_by_side};
use super::undone::is_undone;
use super::words::{begins_remark, changes_sets, changes_sets_inside, is_of_one_set};

/// More ways than these are no reading.
const MOST_WAYS: usize = 48;
/// More items are typed by nobody in one line.
const MOST_ITEMS: usize = 80;

/// A part of a line between commas or words for the next sets.
struct Part<'t> {
    core: Core,
    attributes: Vec<String>,
    remark: Option<&'t str>,
    after_then: bool,
}

/// Every reading of a text that holds nothing but sets.
pub(super) fn readings(text: &str, takes: Takes, habits: &Habits, follows: bool) -> Vec<Sets> {
    let mut out: Vec<Sets> = Vec::new();
    for decimal_comma in [true, false] {
        let way = Way { habits, decimal_comma, takes };
        let (mut items, doubt) = items(text, way);
        let comma = (doubt != Doubt::None).then_some(if decimal_comma { CommaSign::Decimal } else { CommaSign::List });
        // A load with a decimal comma that no plate makes is read only by habit.
        let unsettled = doubt == Doubt::Number && decimal_comma && habits.comma != Some(CommaSign::Decimal);
        let sure = if unsettled { Sure::Doubted } else { Sure::Read };
        if items.len() <= MOST_ITEMS {
            listed(&mut items);
            // A lift that is carried has no reps: two of a mass are a pair. Of another that no bar is lifted in, perhaps.
            if let Some(pair) = led_by_pair(&items).filter(|_| !takes.bar && !takes.own) {
                let sure = if takes.carried { sure } else { Sure::Doubted };
                out.extend(laid_out(text, &pair, takes, habits, follows, comma, sure));
            }
            for other in otherwise(&items, takes) {
                out.extend(laid_out(text, &other, takes, habits, follows, comma, Sure::Doubted));
            }
            side_by_side(&mut items);
            out.extend(laid_out(text, &items, takes, habits, follows, comma, sure));
        }
        if doubt == Doubt::None {
            break;
        }
    }
    let mut found: Vec<Sets> = Vec::new();
    for sets in out {
        match found.iter_mut().find(|known| known.key == sets.key) {
            Some(known) => {
                known.sure = known.sure.max(sets.sure);
                if sets.labels.fit(habits) {
                    known.labels = sets.labels;
                }
            }
            None => found.push(sets),
        }
    }
    found
}

fn laid_out(
    text: &str,
    items: &[Placed],
    takes: Takes,
    habits: &Habits,
    follows: bool,
    comma: Option<CommaSign>,
    sure: Sure,
) -> Vec<Sets> {
    let Some(parts) = parts(text, items, takes) else { return Vec::new() };
    let whole = pieced(&parts);
    let Some(parts) = whole.or_else(|| joined(parts)) else { return Vec::new() };
    // A number alone on its line may be a load as well, whatever stands above.
    let follows =
        follows && (parts.len() > 1 || parts.iter().any(|part| !matches!(part.core.elements[..], [Element::Bare(_)])));
    let mut ways: Vec<(Vec<Group>, Labels, Sure)> = vec![(Vec::new(), Labels { comma, ..Labels::default() }, sure)];
    for part in &parts {
        let mut next = Vec::new();
        for (groups, labels, sure) in &ways {
            for candidate in candidates(&part.core, takes, habits, follows || !groups.is_empty()) {
                if leaps(groups, &candidate) {
                    continue;
                }
                let Some(together) = labels.and(candidate.labels) else { continue };
                let effort = part.attributes.iter().any(|text| is_effort(text));
                if effort && candidate.effort.is_some() {
                    continue;
                }
                // `3x5 100, 2 paused`: two more sets, or two of the three.
                let of_some = part.remark.is_some()
                    && matches!(groups.last().map(|last| &last.way.reps), Some(Reps::Times(Some(_), _)))
                    && matches!(part.core.elements[..], [Element::Bare(_)]);
                let goes_on = !of_some && goes_on(groups, &candidate, &parts);
                let doubted = if goes_on { Sure::Read } else { Sure::Doubted };
                let sure = (*sure).min(candidate.sure).min(doubted);
                let mut groups = groups.clone();
                let mut attributes = part.attributes.clone();
                attributes.extend(part.remark.map(|remark| format!("({remark})")));
                groups.push(Group { way: candidate, per_side: part.core.per_side, attributes });
                next.push((groups, together, sure));
            }
        }
        if next.len() > MOST_WAYS {
            return Vec::new();
        }
        ways = next;
    }
    // A load that comes after sets without one: whose is it?
    let settled = |groups: &[Group]| {
        let first = groups.first().is_none_or(|group| !group.way.loads.is_empty());
        first || groups.iter().all(|group| group.way.loads.is_empty())
    };
    ways.retain(|(groups, ..)| !groups.is_empty() && settled(groups));
    ways.into_iter().map(|(groups, labels, sure)| Sets::of(&one_by_one(groups), labels, sure)).collect()
}

/// `60x5, 5, 4`: sets that go on at one load are a list of reps.
fn one_by_one(groups: Vec<Group>) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    for group in groups {
        let goes_on = matches!(group.way.reps, Reps::Times(None, _))
            && group.way.loads.is_empty()
            && group.way.effort.is_none()
            && group.attributes.is_empty();
        if let (true, Some(last), Reps::Times(None, next)) = (goes_on, out.last_mut(), &group.way.reps)
            && last.attributes.is_empty()
            && last.way.effort.is_none()
            && last.way.loads.len() < 2
            && last.per_side == group.per_side
        {
            match &mut last.way.reps {
                Reps::Times(None, first) => {
                    last.way.reps = Reps::List(vec![*first, *next]);
                    continue;
                }
                Reps::List(list) => {
                    list.push(*next);
                    continue;
                }
                _ => {}
            }
        }
        out.push(group);
    }
    out
}

/// `5 reps @ 60, 80, 100`: what follows a few reps is no eighty of them.
fn leaps(before: &[Group], next: &Candidate) -> bool {
    let (Some(last), Reps::Times(None, reps), true) = (before.last(), &next.reps, next.loads.is_empty()) else {
        return false;
    };
    let most = match &last.way.reps {
        Reps::Times(_, reps) => *reps,
        Reps::List(list) => list.iter().copied().max().unwrap_or(0),
        Reps::Amount(..) => return false,
    };
    // `130x3, 9` is an effort, if anything.
    let rated = (5..=10).contains(reps) && *reps > most.saturating_add(2) && !last.way.loads.is_empty();
    rated || (*reps > 20 && *reps > most.saturating_mul(2).saturating_add(10))
}

/// A number alone behind a comma goes on with the reps; one that could be an effort or a load is in doubt.
fn goes_on(before: &[Group], next: &Candidate, parts: &[Part<'_>]) -> bool {
    let (Some(last), Reps::Times(None, reps), true) = (before.last(), &next.reps, next.loads.is_empty()) else {
        return true;
    };
    let most = match &last.way.reps {
        Reps::Times(_, reps) => *reps,
        Reps::List(list) => list.last().copied().unwrap_or(0),
        Reps::Amount(..) => 0,
    };
    let lone = parts.len() == 2 && (5..=10).contains(reps) && next.effort.is_none();
    *reps <= most.saturating_add(2) && !lone
}

/// The parts of a line; `None` where something in it can belong to no set.
fn parts<'t>(text: &'t str, items: &[Placed], takes: Takes) -> Option<Vec<Part<'t>>> {
    let mut parts = Vec::new();
    let mut start = 0;
    let mut after_then = false;
    for at in 0..=items.len() {
        let separator = match items.get(at).map(|placed| &placed.item) {
            None => true,
            Some(Item::Then) => true,
            // `, RPE 8` and `, @8` go on with the sets before, and so does a sign whose first number is still open.
            Some(Item::Comma) => match items.get(at + 1).map(|placed| &placed.item) {
                // `, back-off 3x5 90` does not.
                Some(Item::Attribute(said)) => {
                    said.starts_with('(')
                        && matches!(
                            items.get(at + 2).map(|placed| &placed.item),
                            Some(Item::Number(_) | Item::Load(..))
                        )
                }
                Some(Item::At | Item::Side) => false,
                Some(Item::By) => {
                    items.get(start..at).is_some_and(|part| part.iter().any(|placed| placed.item == Item::By))
                }
                _ => true,
            },
            Some(_) => false,
        };
        if !separator {
            continue;
        }
        let of_part = items.get(start..at).unwrap_or(&[]);
        start = at + 1;
        if of_part.is_empty() {
            if at == items.len() {
                break;
            }
            return None;
        }
        parts.push(part(text, of_part, after_then, takes)?);
        after_then = matches!(items.get(at).map(|placed| &placed.item), Some(Item::Then));
    }
    Some(parts)
}

fn part<'t>(text: &'t str, items: &[Placed], after_then: bool, takes: Takes) -> Option<Part<'t>> {
    let mut attributes = Vec::new();
    let mut numbers = Vec::new();
    let mut words: Option<(usize, usize)> = None;
    let mut at_before_effort = false;
    for (at, Placed { item, start, end }) in items.iter().enumerate() {
        match item {
            Item::Attribute(attribute) => {
                // `3x5 100, amrap 8`: what that set came to, and no effort.
                let amrap = attribute.eq_ignore_ascii_case("amrap")
                    && matches!(items.get(at + 1).map(|placed| &placed.item), Some(Item::Number(_)))
                    && numbers.iter().filter(|item| matches!(item, Item::Number(_) | Item::List(_))).count() > 1;
                if amrap || attributes.contains(attribute) {
                    return None;
                }
                // `@ RPE 8`
                if matches!(numbers.last(), Some(Item::At)) && is_effort(attribute) {
                    numbers.pop();
                }
                attributes.push(attribute.clone());
            }
            Item::Comma if words.is_none() => {}
            Item::Word | Item::Stray | Item::Weak | Item::Comma if words.is_some() || *item == Item::Word => {
                // A word behind a number may be its unit in another tongue: only one that is known begins a remark there.
                let parted = at == 0
                    || matches!(
                        items.get(at - 1).map(|placed| &placed.item),
                        Some(Item::Weak | Item::Comma | Item::Attribute(_))
                    );
                let word = text.get(*start..*end)?;
                if words.is_none() && !parted && !begins_remark(word) && !word.chars().all(is_picture) {
                    return None;
                }
                let digits = text.get(*start..*end)?.contains(|c: char| c.is_ascii_digit());
                if digits {
                    return None;
                }
                let from = words.map_or(*start, |(from, _)| from);
                words = Some((from, *end));
            }
            Item::For | Item::At | Item::Of | Item::Then if words.is_some() => {
                words = words.map(|(from, _)| (from, *end))
            }
            // `felt good for once`, `with a belt`: words that hold sets together begin the remark as well.
            Item::For | Item::At
                if items.get(at + 1..).is_some_and(|rest| {
                    matches!(rest.first().map(|placed| &placed.item), Some(Item::Word))
                        && rest.iter().all(|placed| !matches!(placed.item, Item::Number(_) | Item::Load(..)))
                }) && text.get(*start..*end)? != "@" =>
            {
                words = Some((*start, *end));
            }
            _ if words.is_some() => return None,
            Item::Stray | Item::WarmUp => return None,
            Item::At if at_before_effort => return None,
            other => {
                at_before_effort = false;
                numbers.push(other.clone());
            }
        }
    }
    // `3x8 80 @7,8,9`: with a load and a count before it, a list of efforts.
    if let [before @ .., Item::At, Item::List(list)] = numbers.as_slice()
        && before.iter().filter(|item| matches!(item, Item::Number(_) | Item::Load(..))).count() > 2
        && list.iter().all(|number| number.is_effort())
        && !attributes.iter().any(|text| is_effort(text))
    {
        let texts: Vec<String> = list.iter().map(|number| number.text()).collect();
        attributes.push(format!("RPE {}", texts.join(",")));
        numbers.truncate(before.len());
    }
    // `3x5 @8 100 kg`: where a mass says the load, a lone `@8` says the effort.
    if let Some(at) = numbers.iter().position(|item| *item == Item::At)
        && let Some(Item::Number(effort)) = numbers.get(at + 1)
        && effort.is_effort()
        && at + 2 < numbers.len()
        && numbers.iter().filter(|item| matches!(item, Item::Load(_, LoadKind::Mass))).count() == 1
        && numbers.iter().filter(|item| **item == Item::At).count() == 1
        && !matches!(numbers.get(at + 2), Some(Item::By))
        && !attributes.iter().any(|text| is_effort(text))
    {
        attributes.push(format!("RPE {}", effort.text()));
        numbers.drain(at..at + 2);
    }
    let remark = match words {
        None => None,
        Some((from, to)) => {
            let remark = text.get(from..to)?.trim();
            let changes = if is_of_one_set(remark) { changes_sets_inside } else { changes_sets };
            if changes(remark) || is_undone(remark) || has_cross(remark) || remark.contains(['(', ')']) {
                return None;
            }
            Some(remark)
        }
    };
    // A weak sign at either end parts the sets from the name or the remark.
    let core = core(numbers.iter(), takes)?;
    Some(Part { core, attributes, remark, after_then })
}

fn is_effort(attribute: &str) -> bool {
    attribute.get(..3).is_some_and(|word| word.eq_ignore_ascii_case("rpe") || word.eq_ignore_ascii_case("rir"))
}

/// `3x12, 50 kg`, `3 sets; 12 reps; 24 kg`: commas between the pieces of one group, each of which says by itself what it is.
fn pieced<'t>(parts: &[Part<'t>]) -> Option<Vec<Part<'t>>> {
    let mut whole = Part { core: Core::default(), attributes: Vec::new(), remark: None, after_then: false };
    let (mut loads, mut counts) = (0, 0);
    for part in parts {
        whole.attributes.extend(part.attributes.iter().cloned());
        if let Some(remark) = part.remark {
            whole.attributes.extend(whole.remark.replace(remark).map(|remark| format!("({remark})")));
        }
        let count = match part.core.elements.as_slice() {
            [] => continue,
            [Element::Load(..)] => {
                loads += 1;
                false
            }
            [Element::Sets(_) | Element::Reps(_)] => false,
            [Element::Amount(_) | Element::List(_)] => true,
            [one, two] => {
                let told = matches!(one, Element::Sets(_)) || part.core.between == [Between::By];
                if !told || matches!(one, Element::Load(..)) || matches!(two, Element::Load(..)) {
                    return None;
                }
                true
            }
            _ => return None,
        };
        counts += u32::from(count);
        let sign = if part.core.led_by_at { Between::At } else { Between::Blank };
        if !whole.core.elements.is_empty() {
            whole.core.between.push(sign);
        }
        whole.core.elements.extend(part.core.elements.iter().cloned());
        whole.core.between.extend(part.core.between.iter().copied());
        whole.core.per_side |= part.core.per_side;
    }
    let several = parts.iter().filter(|part| !part.core.elements.is_empty()).count() > 1;
    (several && loads <= 1 && counts <= 1 && whole.core.elements.len() <= 3).then(|| vec![whole])
}

/// Parts that are only words or attributes go to the part before; numbers alone before one load are its list.
fn joined(parts: Vec<Part<'_>>) -> Option<Vec<Part<'_>>> {
    let mut out: Vec<Part<'_>> = Vec::new();
    let mut spare: Option<Part<'_>> = None;
    for mut part in parts {
        if part.core.elements.is_empty() {
            match out.last_mut() {
                Some(last) if !part.after_then || part.remark.is_some() => {
                    last.attributes.append(&mut part.attributes);
                    last.attributes.extend(last.remark.take().map(|remark| format!("({remark})")));
                    last.remark = part.remark;
                }
                None if spare.is_none() && part.remark.is_none() => spare = Some(part),
                _ => return None,
            }
            continue;
        }
        if let Some(mut before) = spare.take() {
            before.attributes.append(&mut part.attributes);
            part.attributes = before.attributes;
        }
        // `80 kg for 5, 3 sets`: the sets of all that stands before.
        if let ([Element::Sets(_)], [first]) = (part.core.elements.as_slice(), out.as_mut_slice())
            && (2..=3).contains(&first.core.elements.len())
            && !first.core.elements.iter().any(|element| matches!(element, Element::Sets(_)))
        {
            first.core.between.push(Between::Blank);
            first.core.elements.append(&mut part.core.elements);
            first.attributes.append(&mut part.attributes);
            first.remark = first.remark.or(part.remark);
            continue;
        }
        out.push(part);
    }
    let bare = |part: &Part<'_>| {
        matches!(part.core.elements.as_slice(), [Element::Bare(_)])
            && part.attributes.is_empty()
            && part.remark.is_none()
    };
    // `3 sets: 8, 7, 6` and `100 kg, 5, 5, 5`: what all the numbers behind it are of.
    let behind = out.get(1..).unwrap_or(&[]);
    let all_bare = !behind.is_empty() && behind.iter().all(|part| bare(part) && !part.core.per_side);
    if let Some(first) = out.first().filter(|_| all_bare) {
        let numbers = |skip: usize| -> Vec<Number> {
            let bare = |part: &Part<'_>| match part.core.elements.get(skip) {
                Some(Element::Bare(number)) => Some(*number),
                _ => None,
            };
            let later = behind.iter().filter_map(|part| match part.core.elements.first() {
                Some(Element::Bare(number)) => Some(*number),
                _ => None,
            });
            bare(first).into_iter().chain(later).collect()
        };
        let list = match first.core.elements.as_slice() {
            [Element::Sets(sets), Element::Bare(_)] => {
                let list = numbers(1);
                if sets.whole() != Some(list.len() as u32) {
                    return None;
                }
                Some(vec![Element::Sets(*sets), Element::List(list)])
            }
            [load @ Element::Load(..)] if behind.len() > 1 => Some(vec![load.clone(), Element::List(numbers(1))]),
            _ => None,
        };
        if let Some(elements) = list {
            out.truncate(1);
            if let Some(first) = out.first_mut() {
                first.core.between = vec![Between::Blank];
                first.core.elements = elements;
            }
            return Some(out);
        }
    }
    let run = out.iter().take_while(|part| bare(part) && !part.core.per_side).count();
    let starts = |part: &Part<'_>| {
        let [Element::Bare(_), rest @ ..] = part.core.elements.as_slice() else { return false };
        !rest.is_empty() && part.core.lists_up_to_here()
    };
    let ends_in_load = out.get(run).is_some_and(starts);
    if run > 0 && (ends_in_load || (run > 1 && run == out.len())) {
        let members = if ends_in_load { run + 1 } else { run };
        let numbers = out.iter().take(members).filter_map(|part| match part.core.elements.first() {
            Some(Element::Bare(number)) => Some(*number),
            _ => None,
        });
        let numbers = numbers.collect();
        out.drain(..members - 1);
        if let Some(first) = out.first_mut().and_then(|part| part.core.elements.first_mut()) {
            *first = Element::List(numbers);
        }
    }
    if out.is_empty() || spare.is_some() { None } else { Some(out) }
}
