//! The ways in which the trade lays out sets: which number is the sets, which the reps, which the load.

use super::core::{Between, Core, Element};
use super::habits::{AtSign, BeforeX, CommaSign, CountOrder, Habits, ThreeNumbers};
use super::items::LoadKind;
use super::names::Takes;
use super::numbers::{Number, heaviest, load_over_reps};

/// Nobody writes more reps than these before a number of sets.
const MOST_TURNED: i64 = 30;

/// The reps of one candidate.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Reps {
    /// So many sets of so many; no number of sets where none is written.
    Times(Option<u32>, u32),
    List(Vec<u32>),
    /// Times or distances, as the notation writes them.
    Amount(Option<u32>, String),
}

/// What a way to read a line takes for granted, where another way would not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Labels {
    /// `8x3` beside a load.
    pub count: Option<CountOrder>,
    /// `40x12` with no load near.
    pub before_x: Option<BeforeX>,
    /// `60x8x3`.
    pub three: Option<ThreeNumbers>,
    /// `@8`.
    pub at: Option<AtSign>,
    /// `80,5`.
    pub comma: Option<CommaSign>,
}

impl Labels {
    /// Both together, unless one person would not write both.
    pub(super) fn and(self, other: Labels) -> Option<Labels> {
        Some(Labels {
            count: agree(self.count, other.count)?,
            before_x: agree(self.before_x, other.before_x)?,
            three: agree(self.three, other.three)?,
            at: agree(self.at, other.at)?,
            comma: agree(self.comma, other.comma)?,
        })
    }

    /// Whether what is taken for granted is what the habits say.
    pub fn fit(self, habits: &Habits) -> bool {
        let habit = Labels {
            count: habits.count,
            before_x: habits.before_x,
            three: habits.three_numbers,
            at: habits.at_sign,
            comma: habits.comma,
        };
        self.and(habit).is_some()
    }
}

fn agree<T: PartialEq>(one: Option<T>, other: Option<T>) -> Option<Option<T>> {
    match (one, other) {
        (Some(one), Some(other)) => (one == other).then_some(Some(one)),
        (one, other) => Some(one.or(other)),
    }
}

/// One way to read the numbers of a group.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Candidate {
    pub(super) reps: Reps,
    /// None where no load is written, one for all, or one for each set.
    pub(super) loads: Vec<String>,
    pub(super) effort: Option<Number>,
    pub(super) labels: Labels,
    /// Whether it may be read where it is the only one.
    pub(super) sure: Sure,
}

/// How far a way can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sure {
    /// It is offered, and stands in no other's way.
    Offered,
    /// It stands beside the others, but is not read by itself.
    Doubted,
    /// It may be read.
    Read,
}

impl Sure {
    /// Read, or else doubted.
    fn or_doubted(read: bool) -> Self {
        if read { Sure::Read } else { Sure::Doubted }
    }

    /// Read, or else only offered.
    fn or_offered(read: bool) -> Self {
        if read { Sure::Read } else { Sure::Offered }
    }
}

/// Every way in which a group can be laid out. `follows`: whether sets stand before it that it may go on from.
pub(super) fn candidates(core: &Core, takes: Takes, habits: &Habits, follows: bool) -> Vec<Candidate> {
    let layout = Layout { takes, habits, follows };
    let (elements, between) = (core.elements.as_slice(), core.between.as_slice());
    let mut out = Vec::new();
    if core.led_by_at && !matches!(elements.first(), Some(Element::Load(..))) {
        return out;
    }
    layout.blank_list(elements, between, &mut out);
    layout.shapes(elements, between, &mut out);
    layout.strokes(elements, between, &mut out);
    // The last number may be an effort.
    if let [head @ .., Element::Bare(last)] = elements
        && let [rest @ .., sign @ (Between::At | Between::Blank)] = between
        && last.is_effort()
        // `60 kg 8 6` may be two sets as well.
        && (*sign == Between::At || tells_a_count(head, rest))
        && !(*sign == Between::Blank && goes_on_alike(head, *last))
    {
        if *sign == Between::At {
            out.iter_mut().for_each(|candidate| candidate.labels.at = Some(AtSign::Load));
        }
        let mut with_effort = Vec::new();
        layout.blank_list(head, rest, &mut with_effort);
        layout.shapes(head, rest, &mut with_effort);
        for mut candidate in with_effort {
            candidate.effort = Some(*last);
            candidate.labels.at = (*sign == Between::At).then_some(AtSign::Effort);
            out.push(candidate);
        }
    }
    // `bike 20 min 8`: a level, watts, and neither a load nor an effort.
    if takes.machine {
        let loaded = elements.iter().any(|element| matches!(element, Element::Load(..)));
        out.retain(|candidate| candidate.effort.is_none() && (loaded || candidate.loads.is_empty()));
    }
    out
}

/// Whether the first of a list is no number of reps beside the others.
fn begins_with_load(list: &[Number]) -> bool {
    matches!(list, [one, two, _, ..] if one.thousandths > 20_000 && one.thousandths > two.thousandths * 2 + 10_000)
}

/// Whether a count is told by a sign or a word, so that a number behind it is none of its reps.
fn tells_a_count(elements: &[Element], between: &[Between]) -> bool {
    let told = |element: &Element| !matches!(element, Element::Bare(_) | Element::Load(..));
    between.iter().any(|sign| matches!(sign, By | For)) || elements.iter().any(told)
}

/// `95 lb 5 5 5 5 5`: the last of the same numbers is one of them, and no effort.
fn goes_on_alike(before: &[Element], last: Number) -> bool {
    matches!(before, [.., Element::Bare(one), Element::Bare(two), Element::Bare(three)] if [one, two, three] == [&last; 3])
}

pub(super) struct Layout<'h> {
    pub(super) takes: Takes,
    habits: &'h Habits,
    follows: bool,
}

use Between::{At, Blank, By, For};

impl Layout<'_> {
    fn shapes(&self, elements: &[Element], between: &[Between], out: &mut Vec<Candidate>) {
        match (elements, between) {
            // `100/5`: a hundred for five, as some write it.
            ([Element::List(pair)], []) if load_over_reps(pair).is_some() => {
                if let Some((load, reps)) = load_over_reps(pair) {
                    self.push(
                        None,
                        &Element::Bare(reps),
                        Some(&Element::Bare(load)),
                        Labels::default(),
                        Sure::Doubted,
                        out,
                    );
                }
            }
            // `80/5/3`, `80,5,3`: a load, and what is done with it in one of three ways.
            ([Element::List(list)], []) if !self.takes.own && begins_with_load(list) => {
                if let [load, rest @ ..] = list.as_slice() {
                    let (load, none) = (Element::Bare(*load), Labels::default());
                    if let [one, two] = rest {
                        let (one, two) = (Element::Bare(*one), Element::Bare(*two));
                        self.push(Some(&two), &one, Some(&load), none, Sure::Doubted, out);
                        self.push(Some(&one), &two, Some(&load), none, Sure::Doubted, out);
                    }
                    self.push(None, &Element::List(rest.to_vec()), Some(&load), none, Sure::Doubted, out);
                }
            }
            // `bench 100`: a load, and how often is not said.
            ([Element::Bare(number)], []) if !self.takes.own && number.thousandths > 40_000 => {}
            ([reps], []) => {
                let lone = match reps {
                    Element::Bare(_) => true,
                    Element::List(list) => list.len() == 2,
                    _ => false,
                };
                let sure = Sure::or_offered(self.follows || self.takes.own || !lone);
                self.push(None, reps, None, Labels::default(), sure, out);
            }
            ([one, two], [sign]) => self.two(one, *sign, two, out),
            ([one, two, three], [first, second]) => self.three([one, two, three], *first, *second, out),
            _ => {}
        }
    }

    fn two(&self, one: &Element, sign: Between, two: &Element, out: &mut Vec<Candidate>) {
        let none = Labels::default();
        let before = |way| Labels { before_x: Some(way), ..none };
        if self.takes.own
            && !self.takes.bar
            && sign == Blank
            && let (Element::Bare(a), Element::Bare(b)) = (one, two)
        {
            return self.push(None, &Element::List(vec![*a, *b]), None, none, Sure::Offered, out);
        }
        if let (Element::Bare(a), By, Element::Bare(b) | Element::Reps(b)) = (one, sign, two) {
            let (first, second) = (a.thousandths / 1000, b.thousandths / 1000);
            let plainly_sets = first <= 6 && second <= 20;
            self.push(Some(one), two, None, before(BeforeX::Sets), Sure::Read, out);
            if self.takes.own && first > 6 && first > second {
                self.push(
                    Some(two),
                    one,
                    None,
                    Labels { count: Some(CountOrder::RepsSets), ..none },
                    Sure::Doubted,
                    out,
                );
            }
            if !plainly_sets {
                self.push(None, two, Some(one), before(BeforeX::Load), Sure::Read, out);
            }
            if second > 20 && first <= 30 && matches!(two, Element::Bare(_)) {
                self.push(None, one, Some(two), before(BeforeX::Reps), Sure::Read, out);
            }
            return;
        }
        let tagged = |element: &Element| !matches!(element, Element::Bare(_));
        let is_load = |element: &Element| matches!(element, Element::Load(..));
        match (one, sign, two) {
            (Element::Sets(_), By | Blank, _) if !is_load(two) => {
                self.push(Some(one), two, None, none, Sure::Read, out)
            }
            (Element::Bare(_), By, Element::Amount(_)) => self.push(Some(one), two, None, none, Sure::Read, out),
            (_, By | For | Blank, Element::Sets(_)) if !is_load(one) => {
                self.push(Some(two), one, None, none, Sure::Read, out)
            }
            (Element::Amount(_), By, Element::Bare(_)) => self.push(Some(two), one, None, none, Sure::Read, out),
            _ => {}
        }
        if matches!(one, Element::Sets(_)) || matches!(two, Element::Sets(_)) {
            return;
        }
        // The load first.
        let loads = |list: &[Number]| list.iter().all(|number| number.thousandths > 20_000);
        let first_is_load = match one {
            Element::Bare(_) | Element::Load(..) => true,
            // `120/140/160 5/3/1`: as many loads as sets.
            Element::List(list) => {
                let as_many = matches!(two, Element::List(reps) if reps.len() == list.len() && !loads(reps));
                loads(list) && (sign == By || (sign == Blank && as_many))
            }
            _ => false,
        };
        let joined = match sign {
            By | For => true,
            Blank => is_load(one) || tagged(two),
            At => false,
        };
        // `100@5@8`
        let at = sign == At
            && matches!((one, two), (Element::Bare(a), Element::Bare(b)) if a.thousandths > 20_000 && b.thousandths <= 20_000);
        if first_is_load && !is_load(two) && (joined || sign == Blank || at) {
            // `8x5,5,4`: eight kilograms, or eight sets?
            let doubt = match (one, two) {
                (Element::Bare(a), Element::List(_)) => sign == By && a.thousandths <= 20_000,
                _ => false,
            };
            // `3 x 2 min`: three of them, not at three kilograms.
            let timed = matches!((one, two), (Element::Bare(few), Element::Amount(_)) if few.thousandths <= 20_000);
            let joined = joined && !timed;
            // `25s x 12`: a pair of bells of that mass, or seconds?
            let doubt = doubt || (sign == By && matches!(one, Element::Load(_, LoadKind::Bells)));
            let sure = if doubt { Sure::Doubted } else { Sure::or_offered(joined) };
            self.push(None, two, Some(one), none, sure, out);
        }
        // The load last.
        let joined = match sign {
            At => true,
            By => is_load(two),
            Blank => is_load(two) || matches!(one, Element::List(_) | Element::Reps(_)),
            For => false,
        };
        let second_is_load = matches!(two, Element::Bare(_) | Element::Load(..) | Element::List(_));
        if second_is_load && !is_load(one) && (joined || sign == Blank) {
            // `100 @ 8`: a hundred reps of eight, or a hundred at RPE 8?
            let many = matches!(one, Element::Bare(a) if a.thousandths > 20_000);
            // `2x20 kg`: two reps, or two bells?
            let bells = sign == By && value(one) == 2;
            // `14/12/10 10/8/6`: which of them are the loads?
            let light = matches!(two, Element::List(list) if !loads(list));
            let sure = if bells { Sure::Doubted } else { Sure::or_offered(joined && !many && !light) };
            self.push(None, one, Some(two), none, sure, out);
        }
    }

    fn three(&self, [one, two, three]: [&Element; 3], first: Between, second: Between, out: &mut Vec<Candidate>) {
        let none = Labels::default();
        let tagged_sets = |element: &Element| matches!(element, Element::Sets(_));
        let tagged_reps =
            |element: &Element| matches!(element, Element::Reps(_) | Element::Amount(_) | Element::List(_));
        let is_load = |element: &Element| matches!(element, Element::Load(..));
        let three_label = |way| Labels { three: Some(way), ..none };
        // Two numbers that are the count, in this order: sets x reps, and the other way round where that may be.
        let count = |a: &Element, b: &Element, load: &Element, three: bool, out: &mut Vec<Candidate>| {
            let told = tagged_sets(a) || tagged_reps(b) || tagged_sets(b) || tagged_reps(a);
            let (high, low) = (value(a), value(b));
            let turned = !told
                && !three
                && (self.habits.count == Some(CountOrder::RepsSets)
                    || ((7..=MOST_TURNED).contains(&high) && high > low));
            let label = |way| if turned { Labels { count: Some(way), ..none } } else { none };
            if !tagged_sets(b) && !tagged_reps(a) {
                self.push(Some(a), b, Some(load), label(CountOrder::SetsReps), Sure::Read, out);
            }
            let habit = self.habits.count == Some(CountOrder::RepsSets);
            if turned || tagged_sets(b) || (tagged_reps(a) && !tagged_sets(a) && !tagged_reps(b)) {
                self.push(Some(b), a, Some(load), label(CountOrder::RepsSets), Sure::or_doubted(!turned || habit), out);
            }
        };
        let counts = |a: &Element, sign: Between, b: &Element| {
            sign == By || (sign == Blank && (tagged_sets(a) || tagged_sets(b))) || (sign == For && tagged_sets(b))
        };
        let (a_load, c_load) = (!tagged_sets(one) && !tagged_reps(one), !tagged_sets(three) && !tagged_reps(three));
        let plain = |element: &Element| matches!(element, Element::Bare(_));
        if [one, two, three].iter().all(|element| plain(element)) && first == By && second == By {
            self.push(Some(three), two, Some(one), three_label(ThreeNumbers::LoadRepsSets), Sure::Read, out);
            self.push(Some(two), three, Some(one), three_label(ThreeNumbers::LoadSetsReps), Sure::Read, out);
            self.push(Some(one), two, Some(three), three_label(ThreeNumbers::SetsRepsLoad), Sure::Read, out);
            // `3x80x8`
            if value(two) > 20 && value(three) <= 20 {
                self.push(Some(one), three, Some(two), none, Sure::Doubted, out);
            }
            return;
        }
        if is_load(one) && first == By && second == By && plain(two) && plain(three) {
            self.push(Some(three), two, Some(one), three_label(ThreeNumbers::LoadRepsSets), Sure::Read, out);
            self.push(Some(two), three, Some(one), three_label(ThreeNumbers::LoadSetsReps), Sure::Read, out);
            return;
        }
        // The load first: `120 3x8`, `100 kg for 3 sets of 5`, `100 x 5 x 3 sets`.
        if a_load && !is_load(two) && !is_load(three) && counts(two, second, three) && first != At {
            count(two, three, one, false, out);
        }
        // A load for each set: `3x5 100/105/110`.
        if let Element::List(loads) = three
            && loads.iter().all(|number| number.thousandths > 20_000)
            && counts(one, first, two)
            && matches!(second, At | Blank)
        {
            self.push(Some(one), two, Some(three), none, Sure::Read, out);
        }
        // The load last: `3x8 120`, `3 sets of 8 at 120`.
        if c_load
            && !is_load(one)
            && !is_load(two)
            && counts(one, first, two)
            && matches!(second, At | By | Blank | For)
        {
            let short = second == By && plain(three) && plain(one) && plain(two);
            count(one, two, three, short, out);
        }
        // The sets before a load and its reps, or behind them: `3 sets 100x5`, `5 @ 100 x 3 sets`.
        if tagged_sets(one) && !is_load(three) && !tagged_reps(two) && matches!(second, By | For) && first != At {
            let load_first = is_load(two) || value(two) > 20;
            self.push(Some(one), three, Some(two), none, Sure::or_doubted(load_first), out);
        }
        if tagged_sets(three) && !is_load(one) && matches!(first, At | By | Blank) && (is_load(two) || first == At) {
            self.push(Some(three), one, Some(two), none, Sure::Read, out);
        }
        // `8 reps x 90 kg x 4`
        if is_load(two) && matches!(one, Element::Reps(_)) && plain(three) && first == By && second == By {
            self.push(Some(three), one, Some(two), none, Sure::Read, out);
        }
        // `3x 80 8`: so many sets at that load, or an effort behind them.
        if plain(one) && plain(three) && first == By && second == Blank && (is_load(two) || value(two) > MOST_TURNED) {
            self.push(Some(one), three, Some(two), none, Sure::Doubted, out);
        }
        if is_load(two) && plain(one) && plain(three) {
            self.push(Some(three), one, Some(two), none, Sure::Offered, out);
            self.push(Some(one), three, Some(two), none, Sure::Offered, out);
        }
    }

    /// `140 5 5 4`, `5 5 4`: reps of sets one by one, which do not rise.
    fn blank_list(&self, elements: &[Element], between: &[Between], out: &mut Vec<Candidate>) {
        let list = |elements: &[Element], least: usize| {
            let numbers: Option<Vec<Number>> = elements
                .iter()
                .map(|element| match element {
                    Element::Bare(number) => Some(*number),
                    _ => None,
                })
                .collect();
            numbers.filter(|list| {
                list.len() >= least
                    && list.windows(2).all(|pair| matches!(pair, [one, two] if one.thousandths >= two.thousandths))
            })
        };
        let is_load = |element: &Element| matches!(element, Element::Load(..));
        if between.iter().all(|sign| *sign == Blank)
            && let Some(numbers) = list(elements, 3)
            && (self.takes.own || !begins_with_load(&numbers))
        {
            self.push(None, &Element::List(numbers), None, Labels::default(), Sure::Read, out);
        }
        if let [load @ (Element::Bare(_) | Element::Load(..)), rest @ ..] = elements
            && let [first @ (Blank | By | For), signs @ ..] = between
            && (signs.iter().all(|sign| *sign == Blank)
                // `90 x5 x5 x4`: the sign again before each of them, behind what can be no count.
                || (*first == By && signs.iter().all(|sign| *sign == By) && (is_load(load) || value(load) > 20)))
            && let Some(numbers) = list(rest, 2)
        {
            // `100 5 5`: two alone may be sets of so many as well.
            let sure = Sure::or_offered(numbers.len() > 2);
            if sure == Sure::Read || (*first == Blank && value(load) > 20) {
                self.push(None, &Element::List(numbers), Some(load), Labels::default(), sure, out);
            }
        }
        if let [rest @ .., load @ (Element::Bare(_) | Element::Load(..))] = elements
            && let [signs @ .., last] = between
            && (*last == At || matches!(load, Element::Load(..)))
            && signs.iter().all(|sign| *sign == Blank)
            && let Some(numbers) = list(rest, 3)
        {
            self.push(None, &Element::List(numbers), Some(load), Labels::default(), Sure::Read, out);
        }
    }

    /// Notes a candidate, unless it is impossible.
    pub(super) fn push(
        &self,
        sets: Option<&Element>,
        reps: &Element,
        load: Option<&Element>,
        labels: Labels,
        mut sure: Sure,
        out: &mut Vec<Candidate>,
    ) {
        let sets = match sets {
            None => None,
            Some(Element::Bare(number) | Element::Sets(number)) => match number.whole().filter(|sets| *sets > 0) {
                Some(sets) => Some(sets),
                None => return,
            },
            Some(_) => return,
        };
        let whole = |number: &Number| number.whole().filter(|reps| *reps > 0);
        let reps = match reps {
            Element::Bare(number) | Element::Reps(number) if !self.takes.held && !self.takes.carried => {
                match whole(number) {
                    Some(reps) => Reps::Times(sets, reps),
                    None => return,
                }
            }
            Element::List(list) if !self.takes.held && !self.takes.carried => {
                let list: Option<Vec<u32>> = list.iter().map(whole).collect();
                // `60,70,80` without a load are loads.
                let most = list.iter().flatten().max().copied().unwrap_or(0);
                if load.is_none() && !self.takes.own && most > 20 {
                    if most > 40 {
                        return;
                    }
                    sure = sure.min(Sure::Doubted);
                }
                match list {
                    // `3x8,8,8` says the number of sets twice.
                    Some(list) if sets.is_none() || sets == Some(list.len() as u32) => Reps::List(list),
                    _ => return,
                }
            }
            Element::Amount(text) if self.takes.held || self.takes.carried || self.takes.anything => {
                // `60,45,45s` says the number of sets as well.
                let each = text.split(',').count() as u32;
                if each > 1 && sets.is_some_and(|sets| sets != each) {
                    return;
                }
                // `plank 2m`, `bike 20m`: minutes, perhaps. Nothing is held over a distance.
                let Takes { held, machine, .. } = self.takes;
                let short = minutes(text).filter(|_| held || (machine && sets.is_none()));
                if held && short.is_none() && text.ends_with(['m', 'd', 'i']) {
                    return;
                }
                if short.is_some() {
                    sure = sure.min(Sure::Doubted);
                }
                if let Some(minutes) = short.clone().filter(|_| !held && load.is_none()) {
                    let reps = Reps::Amount(sets, minutes);
                    out.push(Candidate { reps, loads: Vec::new(), effort: None, labels, sure });
                }
                let text = short.filter(|_| held).unwrap_or_else(|| text.clone());
                Reps::Amount(sets.filter(|_| each == 1), text)
            }
            _ => return,
        };
        let loads = match load {
            None => Vec::new(),
            Some(Element::List(list)) => {
                let sets = match &reps {
                    Reps::List(reps) => reps.len() == list.len(),
                    Reps::Times(None, _) => true,
                    Reps::Times(Some(sets), _) => *sets as usize == list.len(),
                    Reps::Amount(..) => false,
                };
                let loads: Option<Vec<String>> = list.iter().map(|number| self.bare_load(*number, &mut sure)).collect();
                match loads.filter(|_| sets) {
                    Some(loads) => loads,
                    None => return,
                }
            }
            Some(Element::Bare(number)) => match self.bare_load(*number, &mut sure) {
                Some(load) => vec![load],
                None => return,
            },
            Some(Element::Load(text, kind)) => match self.load(text, *kind, &mut sure) {
                Some(load) => vec![load],
                None => return,
            },
            Some(_) => return,
        };
        out.push(Candidate { reps, loads, effort: None, labels, sure });
    }

    fn bare_load(&self, number: Number, sure: &mut Sure) -> Option<String> {
        let most = heaviest(self.takes.unit == "lb");
        // `push-ups 100 (5x20)`, `plank 1 min 30`: nobody hangs so much on, or says so of what is held.
        let Takes { own, bar, held, .. } = self.takes;
        let unlikely = own && !bar && (held || number.thousandths > most / 8);
        if number.thousandths == 0 || number.thousandths > most || unlikely {
            return None;
        }
        self.load(&format!("{} {}", number.text(), self.takes.unit), LoadKind::Mass, sure)
    }

    /// A load as this lift takes it.
    fn load(&self, text: &str, kind: LoadKind, sure: &mut Sure) -> Option<String> {
        let Takes { own, bar, anything, helped, .. } = self.takes;
        match kind {
            LoadKind::Added if own => Some(format!("bw + {text}")),
            LoadKind::Added => None,
            // `Calf raise 3x20 bw`: of a lift without a bar there is nothing else that it could be.
            LoadKind::Own if own || anything || (!bar && text == "bw") => Some(text.to_owned()),
            // `Squat 3x8 @ -100 kg`: nobody's weight is made less on a bar.
            LoadKind::Own if text.starts_with("bw -") => None,
            LoadKind::Own | LoadKind::PerhapsBells => {
                *sure = Sure::Offered;
                Some(text.to_owned())
            }
            LoadKind::Mass if own && self.takes.added && !too_heavy(text) => Some(format!("bw + {text}")),
            LoadKind::Mass if own && !bar => {
                *sure = Sure::Offered;
                Some(format!("bw {} {text}", if helped { '-' } else { '+' }))
            }
            LoadKind::Mass if too_heavy(text) => None,
            _ => Some(text.to_owned()),
        }
    }
}

/// `20m`, where it may be twenty minutes.
fn minutes(text: &str) -> Option<String> {
    let number = text.strip_suffix('m').filter(|number| number.len() <= 2)?;
    number.bytes().all(|byte| byte.is_ascii_digit()).then(|| format!("{number}min"))
}

fn too_heavy(text: &str) -> bool {
    let Some((number, unit)) = text.split_once(' ') else { return false };
    let most = heaviest(unit == "lb") as f64 / 1000.0;
    number.parse::<f64>().is_ok_and(|mass| mass > most || mass <= 0.0)
}

/// What a number counts to, for the rules of thumb; nothing for lists and loads.
fn value(element: &Element) -> i64 {
    match element {
        Element::Bare(number) | Element::Sets(number) | Element::Reps(number) => number.thousandths / 1000,
        _ => 0,
    }
}
