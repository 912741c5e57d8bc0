//! Plain values of training. Nothing here knows text positions, files, or the clock. What these values
//! display is the tidied spelling of the notation.
//!
//! - `mass.rs`, `distance.rs`: exact quantities; `decimal.rs`: numbers as they are written
//! - `load.rs`: what hung on the bar; `tolerance.rs`: when two of them are the same
//! - `gear.rs`: the gym's bars and plates
//! - `loading.rs`: which plates make a load; `plate_sums.rs`: all that some plates can come to;
//!   `change.rs`: from one load to the next; `warm_up.rs`: from the bare bar to the first work set
//! - `effort.rs`: RPE and reps in reserve
//! - `figure.rs`: how quantities stand in JSON; `word.rs`: enums whose values have words
//! - `spelling.rs`: how the notation writes all of these
//! - `set.rs`: groups of sets and the sets in them; `plan.rs`: what was to be done
//! - `taper_bands.rs`: what the settings say of a peak or deload week
//! - `thresholds.rs`: from where on an answer cautions; `words.rs`: counts, loads and days in sentences
//! - `lift.rs`, `lift_book.rs`, `lifts.yaml`: lifts, their families and names
//! - `block.rs`, `session.rs`, `log.rs`: blocks, sessions, and all of a lifter's
//! - `plans_to_work.rs`: a plan and the work that was done on it as one line
//! - `days.rs`: days from one to another
//! - `aside.rs`: what a page says beside its sets
//! - `competition.rs`: who competes, in what kit, on which lifts
//! - `cores.rs`: work spread over cores, each of which tells masses in the same unit

mod aside;
mod block;
mod change;
mod competition;
mod cores;
mod days;
mod decimal;
mod distance;
mod effort;
mod figure;
mod gear;
mod lift;
mod lift_book;
mod load;
mod loading;
mod log;
mod mass;
mod plan;
mod plans_to_work;
mod plate_sums;
mod session;
mod set;
pub mod spelling;
mod taper_bands;
mod thresholds;
mod tolerance;
mod warm_up;
mod word;
pub mod words;

pub use aside::{Aside, AsideKind};
pub use block::{Block, BlockId};
pub use change::{Change, change_the_side};
pub use competition::{CompetitionLift, Competitor, Equipment, Event, Sex, WeightClass};
pub use cores::on_every_core;
pub use days::is_within;
pub(crate) use decimal::decimal;
pub use distance::Distance;
pub use effort::{Effort, EffortGap};
pub use figure::{AmountFields, Figure, Hundredths, Thousandths, Weighed, amount, amounts, hundredths, known_amount};
pub use gear::{Bar, DUMBBELLS, Gear, Gym, GymId, KETTLEBELLS, Plate, Step};
pub use lift::{Family, Lift, LiftId, fold, fold_on, singular};
pub use lift_book::{BookEntry, LiftBook};
pub use load::{Load, LoadClass, OtherLoad, Substance};
pub use loading::{Fit, Loadable, Loading};
pub use log::Log;
pub use mass::{Mass, Tonnage, Unit, show_in, shown_in};
pub use plan::{AmountRange, EffortRange, Plan, PlannedGroup};
pub use session::{Bodyweight, Details, Pain, Remark, RemarkKind, Session, Status, Work};
pub use set::{Amount, Bouts, Efforts, Extra, Fault, Group, Pace, Set, Sets};
pub use taper_bands::{TaperBands, Tenths};
pub use thresholds::{POINTS, Threshold, Thresholds};
pub use tolerance::Tolerance;
pub use warm_up::{Ladder, LadderStep, Rung, WarmUp, ladder};
pub use word::Words;
pub(crate) use word::words;
