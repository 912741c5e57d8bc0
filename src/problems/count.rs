//! How many problems there are.

use super::{Problem, Severity};

/// How many problems there are, shown or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Count {
    /// Of what is left out of the answers.
    pub errors: u32,
    /// Of what was read and wants a look.
    pub warnings: u32,
}

impl Count {
    /// Counts problems.
    pub fn of<'p>(problems: impl Iterator<Item = &'p Problem>) -> Self {
        let mut count = Count::default();
        problems.for_each(|problem| count.add(problem.kind.severity()));
        count
    }

    /// Counts one more.
    pub fn add(&mut self, severity: Severity) {
        match severity {
            Severity::Error => self.errors += 1,
            Severity::Warning => self.warnings += 1,
        }
    }

    /// Errors and warnings together.
    pub fn all(self) -> u32 {
        self.errors + self.warnings
    }
}

impl std::ops::AddAssign for Count {
    fn add_assign(&mut self, other: Count) {
        self.errors += other.errors;
        self.warnings += other.warnings;
    }
}
