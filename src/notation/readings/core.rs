//! The numbers of a group with the words that say what they are, and what stands between them.

use super::items::{Item, LoadKind};
use super::names::Takes;
use super::numbers::Number;
use Between::{At, Blank, By};

/// A number or load of a group, with the words that tell what it is.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Element {
    Bare(Number),
    Sets(Number),
    Reps(Number),
    List(Vec<Number>),
    /// `5/100`
    Over(Number, Number),
    Amount(String),
    Load(String, LoadKind),
}

/// What stands between two elements.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Between {
    Blank,
    By,
    At,
    For,
}

/// The elements of a group and what stands between them.
#[derive(Clone, Debug, Default)]
pub(super) struct Core {
    pub(super) elements: Vec<Element>,
    pub(super) between: Vec<Between>,
    pub(super) per_side: bool,
    /// An `@` before the first element: the load of the sets before.
    pub(super) led_by_at: bool,
}

/// The core of a group; `None` where something is left over.
pub(super) fn core<'i>(items: impl Iterator<Item = &'i Item>, takes: Takes) -> Option<Core> {
    let mut core = Core::default();
    let mut sign: Option<Between> = None;
    let mut pending: Option<bool> = None;
    let mut side_behind_first = false;
    for item in items {
        let element = match item {
            Item::Number(number) => match pending.take() {
                Some(true) => Element::Sets(*number),
                Some(false) => Element::Reps(*number),
                None => Element::Bare(*number),
            },
            Item::List(list) => {
                pending.take_if(|sets| !*sets);
                Element::List(list.clone())
            }
            Item::Over(one, other) => {
                pending.take_if(|sets| !*sets);
                Element::Over(*one, *other)
            }
            Item::Amount(text) => {
                pending.take_if(|sets| !*sets);
                Element::Amount(text.clone())
            }
            Item::Load(text, kind) => Element::Load(text.clone(), *kind),
            Item::Sets | Item::Reps => {
                let sets = *item == Item::Sets;
                let last = core.elements.last_mut().filter(|_| sign.is_none());
                match (last, sets) {
                    (Some(element @ Element::Bare(_)), _) => {
                        if let Element::Bare(number) = *element {
                            *element = if sets { Element::Sets(number) } else { Element::Reps(number) };
                        }
                    }
                    (Some(Element::List(_)), false) => {}
                    _ if pending.is_none() => pending = Some(sets),
                    _ => return None,
                }
                continue;
            }
            Item::Of => {
                if !matches!(core.elements.last(), Some(Element::Sets(_))) || sign.is_some() {
                    return None;
                }
                sign = Some(Between::By);
                continue;
            }
            Item::By | Item::At | Item::For => {
                let read = match item {
                    Item::By => Between::By,
                    Item::At => Between::At,
                    _ => Between::For,
                };
                // `x @`: one sign too many, but for the `@` that says what follows is the load.
                if core.elements.is_empty() && sign.is_none() && pending.is_none() && read == Between::By {
                    // `Pull-ups x 10`: what follows are the reps.
                    pending = Some(false);
                    continue;
                }
                if sign.is_some() || (core.elements.is_empty() && read != Between::At) {
                    return None;
                }
                core.led_by_at |= core.elements.is_empty();
                sign = Some(read);
                continue;
            }
            Item::Weak => continue,
            Item::Side => {
                // `squat 3x5 20 kg each side`: what hangs on each end of the bar, and no count of a side.
                let behind_load = matches!(core.elements.last(), Some(Element::Load(..)))
                    || core.between.last() == Some(&At)
                    || core.elements.len() > 2;
                if core.per_side || core.elements.is_empty() || (behind_load && !takes.one_side) {
                    return None;
                }
                core.per_side = true;
                side_behind_first = core.elements.len() == 1;
                continue;
            }
            _ => return None,
        };
        if !core.elements.is_empty() {
            core.between.push(sign.unwrap_or(Between::Blank));
        }
        sign = None;
        core.elements.push(element);
    }
    // `100/side 3x5`: what hangs on each end of the bar; `8/side x 3` and `10/side @ 20 kg` are counts.
    if side_behind_first
        && let ([first, next, ..], [between, ..]) = (&mut core.elements[..], &core.between[..])
        && let Element::Bare(reps) = *first
    {
        match *next {
            Element::Bare(sets) if *between == By && takes.one_side => {
                (*first, *next) = (Element::Reps(reps), Element::Sets(sets));
            }
            Element::Load(..) => {}
            _ if *between == At => {}
            _ => return None,
        }
    }
    // `@ 85: 5, 5, 4`: no effort is that high, so it is a load.
    if core.led_by_at
        && let Some(first @ Element::Bare(_)) = core.elements.first_mut()
        && let Element::Bare(number) = *first
        && number.thousandths > 10_000
    {
        *first = Element::Load(format!("{} {}", number.text(), takes.unit), LoadKind::Mass);
    }
    (sign.is_none() && pending.is_none() && core.elements.len() <= 12).then_some(core)
}

impl Core {
    /// Whether the first number may be the last of a list: a load follows it, or nothing.
    pub(super) fn lists_up_to_here(&self) -> bool {
        matches!(
            (self.elements.as_slice(), self.between.as_slice()),
            ([_, Element::Load(..)], [At | By | Blank])
                | ([_, Element::Bare(_)], [At])
                | ([_, Element::Load(..), Element::Bare(_)], [At | By | Blank, At | Blank])
                | ([_, Element::Bare(_), Element::Bare(_)], [At, At | Blank])
        )
    }
}
