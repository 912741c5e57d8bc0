//! What was asked lately, for whoever asks again after a set more was written: the same days say the same, and a day more
//! goes on from those before. It is kept a thread, and little of it.

use super::belief::{Course, Strength, Taught};
use super::day::{Day, End};
use crate::science::Equation;
use std::cell::RefCell;
use std::collections::VecDeque;
use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};
use std::sync::Arc;

/// So many courses are kept: those of a lifter's lifts.
const COURSES: usize = 32;
/// And so many days' strengths, and chances between two days.
const STRENGTHS: usize = 64;
const CHANCES: usize = 512;

thread_local! {
    static LATELY: RefCell<Lately> = RefCell::default();
}

/// The last that was asked for comes first.
#[derive(Default)]
struct Lately {
    courses: VecDeque<Gone>,
    strengths: VecDeque<(Sum, Option<Strength>)>,
    chances: VecDeque<(Sum, Option<f64>)>,
}

/// What stands for all that was asked with: two sums of 64 bits are not the same by chance.
type Sum = (u64, u64);

/// A course with the days that it went through.
struct Gone {
    equation: Equation,
    taught: Taught,
    days: Vec<Day>,
    course: Option<Arc<Course>>,
}

impl Course {
    /// The same as [`Course::over`], of which what was asked lately is kept.
    #[must_use]
    pub fn lately(equation: Equation, taught: &Taught, days: &[Day]) -> Option<Arc<Self>> {
        LATELY.with_borrow_mut(|lately| {
            let same = |gone: &Gone| gone.equation == equation && gone.taught == *taught;
            let courses = &mut lately.courses;
            if let Some(at) = courses.iter().position(|gone| same(gone) && gone.days == days) {
                let gone = courses.remove(at)?;
                let course = gone.course.clone();
                courses.push_front(gone);
                return course;
            }
            let on_from = |gone: &Gone| {
                let common = gone.days.iter().zip(days).take_while(|(one, other)| one == other).count();
                gone.course.as_ref()?.on_from(common, gone.days.len(), days)
            };
            let course = courses.iter().filter(|gone| same(gone)).find_map(on_from);
            let course = course.or_else(|| Course::over(equation, taught, days)).map(Arc::new);
            courses.truncate(COURSES - 1);
            courses.push_front(Gone { equation, taught: taught.clone(), days: days.to_vec(), course: course.clone() });
            course
        })
    }
}

impl Strength {
    /// The same as [`Strength::on`], of which what was asked lately is kept.
    #[must_use]
    pub fn lately(equation: Equation, taught: &Taught, days: &[Day], day: i64) -> Option<Self> {
        let days = up_to(days, day);
        let key = sum(equation, taught, days, (day, day));
        LATELY.with_borrow_mut(|lately| {
            kept(&mut lately.strengths, STRENGTHS, key, || Strength::on(equation, taught, days, day))
        })
    }

    /// The same as [`Strength::chance_above`], of which what was asked lately is kept.
    #[must_use]
    pub fn chance_lately(equation: Equation, taught: &Taught, days: &[Day], now: i64, then: i64) -> Option<f64> {
        let days = up_to(days, now.max(then));
        let key = sum(equation, taught, days, (now, then));
        LATELY.with_borrow_mut(|lately| {
            kept(&mut lately.chances, CHANCES, key, || Strength::chance_above(equation, taught, days, now, then))
        })
    }
}

/// The days up to one: later ones say nothing of it.
fn up_to(days: &[Day], day: i64) -> &[Day] {
    days.get(..days.partition_point(|known| known.day <= day)).unwrap_or(days)
}

fn kept<T: Clone>(all: &mut VecDeque<(Sum, T)>, most: usize, key: Sum, anew: impl FnOnce() -> T) -> T {
    if let Some(known) = all.iter().position(|(known, _)| *known == key).and_then(|at| all.remove(at)) {
        let said = known.1.clone();
        all.push_front(known);
        return said;
    }
    let said = anew();
    all.truncate(most - 1);
    all.push_front((key, said.clone()));
    said
}

fn sum(equation: Equation, taught: &Taught, days: &[Day], on: (i64, i64)) -> Sum {
    let [mut one, mut other] = [DefaultHasher::new(), DefaultHasher::new()];
    other.write_u8(1);
    for sum in [&mut one, &mut other] {
        (equation, on, taught.days, days.len()).hash(sum);
        taught.logarithms().iter().for_each(|number| number.to_bits().hash(sum));
        for day in days {
            (day.day, day.through.to_bits(), day.sets.len()).hash(sum);
            for set in &day.sets {
                let end = match set.end {
                    End::Unrated => (0, 0),
                    End::Left(left) => (1, left.to_bits()),
                    End::Missed => (2, 0),
                };
                (set.load.to_bits(), set.load_error.to_bits(), set.reps, end).hash(sum);
            }
        }
    }
    (one.finish(), other.finish())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::strength::Set;

    fn day(day: i64, load: f64, left: f64) -> Day {
        let set = Set { load, load_error: 0.0, reps: 5, end: End::Left(left) };
        Day { day, through: 0.0, sets: vec![set, Set { end: End::Unrated, ..set }] }
    }

    /// However a journal is typed, what is kept says what is worked out anew.
    #[test]
    fn what_is_kept_says_what_is_worked_out_anew() {
        let (equation, taught) = (Equation::default(), Taught::default());
        let mut days: Vec<Day> = Vec::new();
        let edits: [fn(&mut Vec<Day>, i64); 5] = [
            |days, at| days.push(day(at * 3, 100.0 + at as f64, 2.0)),
            |days, _| days.last_mut().into_iter().for_each(|last| last.sets.truncate(1)),
            |days, at| days.push(day(at * 3 + 1, 97.5, (at % 4) as f64)),
            |days, _| drop(days.pop()),
            |days, at| {
                if at % 9 == 0 {
                    days.remove(0);
                }
            },
        ];
        for at in 0..60 {
            for edit in edits {
                edit(&mut days, at);
                let (kept, anew) = (Course::lately(equation, &taught, &days), Course::over(equation, &taught, &days));
                let told = |course: &Course| {
                    course.days.iter().map(|known| (known.foretold.clone(), known.strength.clone())).collect::<Vec<_>>()
                };
                assert_eq!(kept.as_deref().map(told), anew.as_ref().map(told));
                assert_eq!(kept.as_deref().map(Course::taught), anew.as_ref().map(Course::taught));
                let on = days.last().map_or(0, |last| last.day) - 4;
                let anew = Strength::on(equation, &taught, &days, on);
                assert_eq!(Strength::lately(equation, &taught, &days, on), anew);
                let anew = Strength::chance_above(equation, &taught, &days, on, on - 20);
                assert_eq!(Strength::chance_lately(equation, &taught, &days, on, on - 20), anew);
            }
        }
    }
}
