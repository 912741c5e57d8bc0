//! Days from one to another.

use chrono::NaiveDate;

/// Whether a day is from one on and up to another; where one of the two is not named, that end is open.
pub fn is_within(date: NaiveDate, since: Option<NaiveDate>, until: Option<NaiveDate>) -> bool {
    since.is_none_or(|since| since <= date) && until.is_none_or(|until| date <= until)
}
