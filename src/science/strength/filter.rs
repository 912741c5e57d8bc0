//! Strength followed through a lift's days: under each curve that is held possible a state, and how likely the curve is.

use super::curve::Curve;
use super::day::{Day, End, Set};
use super::state::{BIAS, FORM, LOSS, RATING, Row, STRENGTH, State, Sum, THEN, TIRED, TREND};
use crate::science::Equation;
use std::sync::Arc;

/// How far a tested maximum strays from day to day, as a share: 2 %, for an experienced lifter (1 to 3 %, from memory,
/// medium confidence; Grgic et al. 2020, Sports Med Open 6:31, have 4.2 % as the median over all sorts of people).
pub const ONE_DAY: f64 = 0.02;

/// How far strength drifts in a week beyond its trend, as a share; this project's own choice.
pub const WEEKLY_DRIFT: f64 = 0.007;

/// Strength before the first set is known to so much, as a share; this project's own choice.
const BEFORE: f64 = 0.15;
/// The trend of a week and its spread between lifters, and the weeks over which one is kept (from novices' 1 to 2 % a
/// session to hardly anything: ACSM 2009, Med Sci Sports Exerc 41(3):687–708; this project's own reading).
const A_WEEK: (f64, f64) = (0.0015, 0.0035);
const TREND_WEEKS: f64 = 26.0;
/// Reps left beyond those that are said to be: 0.95 fewer are said on average by all sorts of people (Halperin et al.
/// 2022, Sports Med 52(2):377–390), 0.17 by trained ones near failure (Refalo et al. 2023, J Strength Cond Res).
const TOO_FEW: (f64, f64) = (0.4, 1.0);
/// What ratings share drifts back to what is published over so many weeks, so that no number of sets makes it known:
/// this project's own choice.
const BIAS_WEEKS: f64 = 60.0;
/// A bias is whole where many reps are left and nothing at failure; half of it shows at so many. Own choice.
const HALF_BIAS: f64 = 0.7;
/// Reps lost from set to set, and over how many weeks that is kept; this project's own choice.
const LOST: (f64, f64) = (0.4, 0.4);
const LOSS_WEEKS: f64 = 200.0;
/// How much of strength is missing at a block's end; this project's own choice.
const WORN: (f64, f64) = (0.006, 0.005);
/// A rating errs by a standard deviation of half a rep at failure and a fifth more for each rep that is left: through
/// 1.0 at 2 (Refalo et al. 2023) and about 2 at 7 (Hackett et al. 2017, J Strength Cond Res 31(8):2162–2168).
const RATED: (f64, f64) = (0.5, 0.2);
/// How much of that variance a day's ratings share; this project's own choice.
const OF_DAY: f64 = 0.5;
/// How many reps may be left where none is said to be, with the error of that, and the share of the bias that shows.
const AT_FAILURE: (f64, f64, f64) = (0.3, 0.55, 0.3);
/// Where so many reps are said to be left it may as well be more: the scale has no number beyond RPE 5 (Helms et al. 2016,
/// Strength Cond J 38(4):42–49), and who finds a set easy writes the last one.
const EASY: f64 = 5.0;
/// A single at RPE 10 is the maximum, to so much of a rep: a true one was rated 9.6 to 9.7 ± 0.4 to 0.5 (Helms et al.
/// 2017, J Strength Cond Res 31(2):292–297).
const SINGLE: f64 = 0.3;
/// Where in the last rep a set failed.
const FAILED: (f64, f64) = (0.5, 0.4);
/// A rating that is this unexpected counts for less, as Student's distribution of so many degrees has it.
const DEGREES: f64 = 15.0;
/// Weeks without training that cost nothing, what each one more costs, and the most they do: McMaster et al. 2013, Sports
/// Med 43(5):367–384 (held for about three weeks; −14.5 % after 7.2 ± 5.8 weeks, from memory, medium confidence).
const HELD_WEEKS: f64 = 3.0;
const FALL_A_WEEK: f64 = 0.02;
const MOST_FALL: f64 = 0.15;
/// The published falls differ by so much of themselves.
const FALL_ERROR: f64 = 0.6;
/// How often a day shows a jump of strength, as injury and illness make, and how often it is only odd, with the standard
/// deviations of both; this project's own choice.
const JUMP: (f64, f64) = (0.05, 0.09);
const ODD: (f64, f64) = (0.01, 0.05);
/// Neither is thought of on a day that was foretold to so many standard deviations.
const SURPRISE: f64 = 1.6;
/// How often an attempt within strength fails all the same; common practice, no source.
const WITHIN_STRENGTH: f64 = 0.1;
/// What a day counts for between curves: one lifter's ratings err together more than is said here (weighing a likelihood:
/// Grünwald and van Ommen 2017, Bayesian Anal 12(4):1069–1103, from memory, high confidence).
const COUNTS: f64 = 0.7;
/// What the reps say between curves; at 1 loads would be taken to be chosen blindly, while lifters know their strength.
const BLIND: f64 = 0.9;

/// One curve, and what is believed under it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Part {
    pub(super) curve: Arc<Curve>,
    /// Its place among all.
    place: usize,
    /// The logarithms of its chance, each up to a constant: before anything was learned, and now.
    prior: f64,
    pub(super) weight: f64,
    pub(super) state: State,
}

/// All curves, on a day.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Filter {
    pub(super) parts: Vec<Part>,
    day: i64,
    trained: i64,
}

impl Filter {
    /// On the first of the days that says something. `taught` are logarithms that are added to the curves' chances.
    pub(super) fn begin(equation: Equation, first: &Day, taught: &[f64]) -> Option<Self> {
        let most = *equation.valid_reps().end();
        let says = |curve: &Curve, set: &Set| {
            let left = if let End::Left(left) = set.end { left } else { 2.0 };
            let log_load = set.log_load().filter(|_| set.reps > 0)?;
            Some(log_load + curve.log_multiple((f64::from(set.reps) + left).min(most)))
        };
        let part = |(at, (curve, chance)): (usize, (Arc<Curve>, f64))| {
            let strength = first.sets.iter().filter_map(|set| says(&curve, set)).reduce(f64::max)?;
            let state = State::of([
                (STRENGTH, (strength, BEFORE)),
                (TREND, A_WEEK),
                (BIAS, TOO_FEW),
                (LOSS, LOST),
                (TIRED, WORN),
            ]);
            let prior = chance.ln() + taught.get(at).copied().unwrap_or_default();
            let mut part = Part { curve, place: at, prior, weight: prior, state };
            part.see(first);
            // By itself the first day says nothing of curves.
            Some(Part { weight: prior, ..part })
        };
        let parts: Option<Vec<Part>> = Curve::all(equation).into_iter().enumerate().map(part).collect();
        Some(Filter { parts: parts?, day: first.day, trained: first.day })
    }

    /// On to a day on which nothing is done.
    pub(super) fn pass_to(&mut self, day: i64) {
        if day <= self.day {
            return;
        }
        let fallen = |day: i64| {
            let off = (day - self.trained) as f64 / 7.0 - HELD_WEEKS;
            (FALL_A_WEEK * off.max(0.0)).min(MOST_FALL)
        };
        let (weeks, fall) = ((day - self.day) as f64 / 7.0, fallen(day) - fallen(self.day));
        self.parts.iter_mut().for_each(|part| part.state.pass(weeks, fall));
        self.day = day;
    }

    /// What a later day says.
    pub(super) fn see(&mut self, day: &Day) {
        self.pass_to(day.day);
        self.trained = self.day;
        self.parts.iter_mut().for_each(|part| part.see(day));
        // What has become so unlikely weighs nothing in any answer, and never will.
        let most = self.parts.iter().map(|part| part.weight).fold(f64::NEG_INFINITY, f64::max);
        self.parts.retain(|part| part.weight > most - UNLIKELY);
    }

    /// Keeps strength as it is now, to be compared.
    pub(super) fn remember(&mut self) {
        for part in &mut self.parts {
            part.state.renew(THEN, 0.0);
            part.state.add(THEN, STRENGTH, 1.0);
        }
    }

    /// The chance of each curve.
    pub(super) fn chances(&self) -> Vec<f64> {
        let most = self.parts.iter().map(|part| part.weight).fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = self.parts.iter().map(|part| (part.weight - most).exp()).collect();
        let sum: f64 = weights.iter().sum();
        weights.into_iter().map(|weight| weight / sum).collect()
    }

    /// What was learned of the curves, as logarithms to be added to their chances.
    pub(super) fn taught(&self) -> Vec<f64> {
        let least = self.parts.iter().map(|part| part.weight - part.prior).fold(0.0, f64::min) - UNLIKELY;
        let mut taught = vec![least; Curve::COUNT];
        for part in &self.parts {
            if let Some(log) = taught.get_mut(part.place) {
                *log = part.weight - part.prior;
            }
        }
        taught
    }
}

/// How much of a bias shows where so many reps are left.
pub(super) fn bias_shown(left: f64) -> f64 {
    let left = left.max(0.0);
    left / (left + HALF_BIAS)
}

/// How far a rating errs where so many reps are left, in reps.
pub(super) fn rating_error(left: f64) -> f64 {
    RATED.0 + RATED.1 * left
}

impl State {
    fn pass(&mut self, weeks: f64, fall: f64) {
        self.add(STRENGTH, TREND, weeks.min(HELD_WEEKS));
        self.revert(TREND, (-weeks / TREND_WEEKS).exp(), A_WEEK);
        self.revert(BIAS, (-weeks / BIAS_WEEKS).exp(), TOO_FEW);
        self.revert(LOSS, (-weeks / LOSS_WEEKS).exp(), LOST);
        self.move_by(-fall, WEEKLY_DRIFT * WEEKLY_DRIFT * weeks + (FALL_ERROR * fall).powi(2));
    }

    fn move_by(&mut self, rise: f64, variance: f64) {
        let [mean, ..] = &mut self.mean;
        *mean += rise;
        let [[own, ..], ..] = &mut self.cov;
        *own += variance;
    }

    pub(super) fn number(&self, at: usize) -> f64 {
        self.mean.get(at).copied().unwrap_or_default()
    }

    /// The covariance of two numbers.
    pub(super) fn between(&self, one: usize, other: usize) -> f64 {
        self.cov.get(one).and_then(|row| row.get(other)).copied().unwrap_or_default()
    }
}

impl Part {
    /// A day is ordinary, or one of a jump, or an odd one. As long as it was foretold it is ordinary.
    fn see(&mut self, day: &Day) {
        let under = |jump, form| Seen::under(&self.curve, self.state, jump, form, day);
        let ordinary = under(0.0, ONE_DAY);
        let (state, fit) = if ordinary.surprise < SURPRISE {
            (ordinary.state, ordinary.fit)
        } else {
            let jump = under(JUMP.1 * JUMP.1, ONE_DAY);
            let odd = under(0.0, ODD.1);
            let each = [(1.0 - JUMP.0 - ODD.0, ordinary), (JUMP.0, jump), (ODD.0, odd)];
            let most = each.iter().map(|(_, seen)| seen.fit).fold(f64::NEG_INFINITY, f64::max);
            let each = each.map(|(chance, seen)| (chance * (seen.fit - most).exp(), seen.state));
            (State::merged(&each), most + each.iter().map(|(weight, _)| weight).sum::<f64>().ln())
        };
        self.state = state;
        self.weight += COUNTS * fit;
    }
}

/// A day under one curve, set by set.
struct Seen<'c> {
    curve: &'c Curve,
    state: State,
    through: f64,
    /// How many sets were done before.
    before: f64,
    /// Whether one of them was rated.
    rated: bool,
    /// The most that strength of the day was at least, by what was made, and the variance of its load.
    made: Option<(f64, f64)>,
    /// The most that a rating says of it.
    said: f64,
    /// The logarithm of how well the day was foretold, and the worst of its surprises in standard deviations.
    fit: f64,
    surprise: f64,
}

impl<'c> Seen<'c> {
    /// A whole day, with so much of a jump and of a form.
    fn under(curve: &'c Curve, mut state: State, jump: f64, form: f64, day: &Day) -> Self {
        state.move_by(0.0, jump);
        state.renew(FORM, form * form);
        state.renew(RATING, OF_DAY);
        let through = day.through;
        let mut seen = Seen {
            curve,
            state,
            through,
            before: 0.0,
            rated: false,
            made: None,
            said: f64::NEG_INFINITY,
            fit: 0.0,
            surprise: 0.0,
        };
        day.sets.iter().for_each(|set| seen.set(set));
        seen.was_made();
        seen
    }

    fn set(&mut self, set: &Set) {
        let Some(load) = set.log_load() else { return };
        let kept = self.state.number(LOSS);
        let (reps, error) = (f64::from(set.reps), set.load_error * set.load_error);
        match set.end {
            End::Missed if set.reps == 0 => return self.not_made(load, error),
            End::Missed => self.rating(load, error, reps, FAILED.0, Some(FAILED.1)),
            End::Left(left) if left < 0.25 && set.reps == 1 => {
                self.rating(load, error, reps, 0.0, Some(SINGLE));
            }
            End::Left(left) if left < 0.25 => self.at_failure(load, error, reps),
            End::Left(left) if left >= EASY => self.easy(load, error, reps),
            End::Left(left) => self.rating(load, error, reps, left, None),
            End::Unrated => {}
        }
        match set.end {
            End::Unrated => self.made(load, error, reps),
            End::Left(left) if left < 0.25 && set.reps > 1 => self.made(load, error, reps),
            End::Left(left) => self.said(load, reps + left),
            End::Missed => self.said(load, reps),
        }
        // Only sets that are both rated tell what is lost between them.
        let is_rated = set.end != End::Unrated;
        if !(self.rated && is_rated) {
            self.keep_loss(kept);
        }
        self.rated |= is_rated;
        self.before += if set.reps > 2 { 1.0 } else { 0.5 };
    }

    /// Strength of this day.
    fn today(&self) -> f64 {
        self.state.number(STRENGTH) + self.state.number(FORM) - self.through * self.state.number(TIRED)
    }

    fn lost(&self) -> f64 {
        self.before * self.state.number(LOSS)
    }

    /// The sum of the numbers that a set of reps to failure speaks of, where a rep is worth so much.
    fn sum(&self, slope: f64, bias: f64, rating: f64, noise: f64) -> Sum {
        self.state.sum(&self.row(1.0, slope, bias, rating), noise)
    }

    /// Strength, form, tiredness, bias, loss and rating, in the order of the state.
    fn row(&self, sign: f64, slope: f64, bias: f64, rating: f64) -> Row {
        let lost = slope * self.before;
        [sign, 0.0, -sign * slope * bias, -sign * lost, -sign * self.through, sign, -sign * rating, 0.0]
    }

    /// So many reps were said to be left, or failed at the next. Reps are foretold and not loads, because the rating is
    /// what errs; how much it may err goes by what was foretold, never by what was said: an easy rating would weigh less
    /// because it is easy, and whoever then trains lighter and lighter would never learn of it.
    fn rating(&mut self, load: f64, error: f64, reps: f64, left: f64, failed: Option<f64>) {
        if reps + left > self.curve.most() {
            return;
        }
        let above = self.today() - load;
        let foretold = self.curve.reps(above);
        let middle = (foretold - self.lost() - reps).clamp(0.0, 6.0);
        let (size, shown, of_day) = match failed {
            Some(size) => (size, 0.0, 0.0),
            None => (rating_error(middle), bias_shown(middle), OF_DAY),
        };
        let here = reps + left + shown * self.state.number(BIAS) + self.lost();
        let apart = here - foretold;
        let slope = if apart.abs() > 0.3 {
            (self.curve.log_multiple(here) - above) / apart
        } else {
            self.curve.slope(here.midpoint(foretold))
        };
        let (off, own) = (slope * apart, (slope * size).powi(2));
        let shared = if of_day > 0.0 { slope * size } else { 0.0 };
        let mut sum = self.sum(slope, shown, shared, own * (1.0 - of_day) + error);
        let surprise = off * off / sum.variance;
        sum.variance += own * (surprise - 1.0).max(0.0) / DEGREES;
        self.state.observe(&sum, off);
        let surprise = off * off / sum.variance;
        self.tell(BLIND * slope.ln() - sum.variance.ln() / 2.0 - surprise / 2.0, surprise.sqrt());
    }

    /// No rep was said to be left: no more than a rating hides.
    fn at_failure(&mut self, load: f64, error: f64, reps: f64) {
        let (most, size, shown) = AT_FAILURE;
        // Where many reps were foretold to be left, a rating of none errs as far as any other there.
        let foretold = (self.curve.reps(self.today() - load) - self.lost() - reps).clamp(0.0, 6.0);
        let (size, shown) = (size.max(rating_error(foretold)), shown.max(bias_shown(foretold) / 2.0));
        let here = reps + most + shown * self.state.number(BIAS) + self.lost();
        let slope = self.curve.slope(here);
        let row = self.row(-1.0, slope, shown, 0.0);
        let sum = self.state.sum(&row, (slope * size).powi(2) + error);
        let above = load + self.curve.log_multiple(here) - self.today();
        let (fit, surprise) = self.state.bound(&sum, above, 1.0);
        self.tell(fit, surprise);
    }

    /// So many reps are left at least.
    fn easy(&mut self, load: f64, error: f64, reps: f64) {
        if reps + EASY > self.curve.most() {
            return;
        }
        let shown = bias_shown(EASY);
        let here = reps + EASY + shown * self.state.number(BIAS) + self.lost();
        let slope = self.curve.slope(here);
        let sum = self.sum(slope, shown, 0.0, (slope * rating_error(EASY)).powi(2) + error);
        let above = self.today() - load - self.curve.log_multiple(here);
        let (fit, surprise) = self.state.bound(&sum, above, 1.0);
        self.tell(fit, surprise);
    }

    fn said(&mut self, load: f64, reps: f64) {
        self.said = self.said.max(load + self.curve.log_multiple(reps.min(self.curve.most())));
    }

    /// What was made was made.
    fn made(&mut self, load: f64, error: f64, reps: f64) {
        let least = load + self.curve.log_multiple(reps.min(self.curve.most()));
        if self.made.is_none_or(|(most, _)| least > most) {
            self.made = Some((least, error));
        }
    }

    /// The day's strength was at least what the best of its sets took. It is one bound however many sets are as good: each
    /// cut of a normal distribution is one again only nearly, and the same cut made anew would lift it each time. A rating
    /// that says more says it all.
    fn was_made(&mut self) {
        let Some((least, error)) = self.made.filter(|(least, _)| *least > self.said) else { return };
        let kept = self.state.number(LOSS);
        let above = self.today() - least;
        // Far within strength nothing needs to be summed.
        if above < CLEAR {
            let sum = self.state.sum(&self.row(1.0, 0.0, 0.0, 0.0), error + EXACT);
            let (fit, surprise) = self.state.bound(&sum, above, 1.0);
            self.tell(fit, surprise);
        }
        self.keep_loss(kept);
    }

    /// What tells nothing of what is lost between sets leaves it as it was.
    fn keep_loss(&mut self, kept: f64) {
        if let Some(loss) = self.state.mean.get_mut(LOSS) {
            *loss = kept;
        }
    }

    /// An attempt that failed was too heavy, mostly.
    fn not_made(&mut self, load: f64, error: f64) {
        let sum = self.state.sum(&self.row(-1.0, 0.0, 0.0, 0.0), error + EXACT);
        let (fit, surprise) = self.state.bound(&sum, load - self.today(), 1.0 - WITHIN_STRENGTH);
        self.tell(fit, surprise - 0.5);
    }

    fn tell(&mut self, fit: f64, surprise: f64) {
        self.fit += fit;
        self.surprise = self.surprise.max(surprise);
    }
}

/// A curve is given up when the logarithm of its chance falls so far behind the likeliest's.
const UNLIKELY: f64 = 8.0;
/// So far above a bound, as a share, no strength is in doubt of it.
const CLEAR: f64 = 0.15;
/// The variance that a bound is blunted by, to keep the sums in order.
const EXACT: f64 = 1e-5;

#[cfg(test)]
mod tests {
    use super::super::curve::BEND;
    use super::*;

    /// docs/science.md tells the model's figures as they are.
    #[test]
    fn the_docs_have_these_figures() {
        let docs = include_str!("../../../docs/science.md").split_whitespace().collect::<Vec<_>>().join(" ");
        let percent = |(mean, spread): (f64, f64)| format!("{} ± {} %", rounded(100.0 * mean), rounded(100.0 * spread));
        let plain = |(mean, spread): (f64, f64)| format!("{mean} ± {spread}");
        let told = [
            format!(
                "by the first day's sets, ± {} % | rises by its trend, drifts by {} %",
                rounded(100.0 * BEFORE),
                rounded(100.0 * WEEKLY_DRIFT)
            ),
            format!("{} a week | forgotten over {TREND_WEEKS} weeks", percent(A_WEEK)),
            format!("{:.1} ± {:.1} | back towards that over {BIAS_WEEKS} weeks", TOO_FEW.0, TOO_FEW.1),
            format!("{} | kept, over {LOSS_WEEKS} weeks", plain(LOST)),
            format!("{} | kept", percent(WORN)),
            format!("0 ± {} %", 100.0 * ONE_DAY),
            format!("errs by {} + {} for each rep left", RATED.0, RATED.1),
            format!("bound at {} reps, blunted by {}", AT_FAILURE.0, AT_FAILURE.1),
            format!("the good reps and {}", plain(FAILED)),
            format!("Student's distribution of {DEGREES} degrees"),
            format!("the share l / (l + {HALF_BIAS})"),
            format!("within {SURPRISE} standard deviations"),
            format!("each day counting for {COUNTS}"),
            format!("the power of {BLIND}"),
            format!("The bend is {}", plain(BEND)),
        ];
        for told in told {
            assert!(docs.contains(&told), "not told: {told}");
        }
    }

    fn rounded(number: f64) -> f64 {
        (number * 1000.0).round() / 1000.0
    }
}
