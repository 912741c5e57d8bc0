//! Two numbers with a stroke between: `5/100` is a load, `3/5` a count, `8/10` may be a score.

use super::core::{Between, Element};
use super::names::Takes;
use super::numbers::{Number, is_load};
use super::shapes::{Candidate, Labels, Layout, Sure};

/// Nobody does more reps than these with a load that is not told by its unit.
const MOST_REPS: i64 = 30_000;

impl Layout<'_> {
    /// What a line with such pairs may mean; none of it is certain.
    pub(super) fn strokes(&self, elements: &[Element], between: &[Between], out: &mut Vec<Candidate>) {
        let Takes { own, .. } = self.takes;
        let pairs: Option<Vec<(Number, Number)>> = elements.iter().map(pair).collect();
        let mut push = |sets: Option<&Element>, reps: &Element, load: Option<&Element>, sure| {
            self.push(sets, reps, load, Labels::default(), sure, out);
        };
        match (pairs.as_deref(), elements) {
            (Some([(one, two)]), _) => {
                // `bench 9/10` is how it went.
                let score = two.thousandths == 10_000 && one.thousandths <= 10_000;
                for (reps, load) in [(one, two), (two, one)] {
                    if !own && is_load(*load) && reps.thousandths <= MOST_REPS && load.thousandths > reps.thousandths {
                        push(None, &Element::Bare(*reps), Some(&Element::Bare(*load)), Sure::Doubted);
                    }
                }
                if own || (!score && one.thousandths <= 20_000 && two.thousandths <= 20_000) {
                    push(None, &Element::List(vec![*one, *two]), None, Sure::Doubted);
                }
            }
            // `5/100 3/120`: as many loads as sets.
            (Some(pairs), _) if pairs.len() > 1 && between.iter().all(|sign| *sign == Between::Blank) => {
                let (ones, twos): (Vec<Number>, Vec<Number>) = pairs.iter().copied().unzip();
                for (reps, loads) in [(&ones, &twos), (&twos, &ones)] {
                    let heavier = reps.iter().zip(loads).all(|(reps, load)| load.thousandths > reps.thousandths);
                    let few = reps.iter().all(|reps| reps.thousandths <= MOST_REPS);
                    let heavy = loads.iter().any(|load| is_load(*load));
                    if !own && few && (heavier || !heavy) {
                        push(None, &Element::List(reps.clone()), Some(&Element::List(loads.clone())), Sure::Doubted);
                    }
                }
            }
            // `5 x 3/100`: so many sets of reps over a load.
            (None, [sets @ Element::Bare(_), Element::Over(reps, load)])
                if is_load(*load) && between == [Between::By] =>
            {
                push(Some(sets), &Element::Bare(*reps), Some(&Element::Bare(*load)), Sure::Doubted);
            }
            // `3/5 100`, `100 kg 5/4`: a set of each, or so many sets of so many.
            (None, [Element::Over(one, two), load] | [load, Element::Over(one, two)]) => {
                let list = Element::List(vec![*one, *two]);
                // `90 10/10`: nobody does ten sets, and goes by fewer reps.
                // `12/10 x 3`: behind the sign may stand how often.
                let plain = matches!(load, Element::List(_))
                    || (one.thousandths > 6000
                        && one.thousandths >= two.thousandths
                        && !between.contains(&Between::By));
                push(None, &list, Some(load), if plain { Sure::Read } else { Sure::Doubted });
                if !plain {
                    push(Some(&Element::Bare(*one)), &Element::Bare(*two), Some(load), Sure::Doubted);
                }
            }
            _ => {}
        }
    }
}

fn pair(element: &Element) -> Option<(Number, Number)> {
    match element {
        Element::Over(one, two) => Some((*one, *two)),
        _ => None,
    }
}
