//! What the settings say under `cautions:`, held against the cautions there are.

use crate::journal::{Files, Journal, caution_places};
use crate::problems::{Problem, ProblemKind as K, nearest};
use crate::questions::review::{RULES, rule};

/// Finding a place reads the file anew. Of settings with so many faults that more bytes than this would be read, the
/// rest stand at the beginning of their file.
const MOST_READ: usize = 4 << 20;

/// Names that are no caution's, and numbers that a threshold does not take.
pub fn wrong_cautions(files: &dyn Files, journal: &Journal) -> Vec<(String, Problem)> {
    let mut left = MOST_READ;
    let mut problems = Vec::new();
    for (path, said) in &journal.cautions {
        let takes = |name: &str| {
            rule(name).zip(said.thousandths).is_some_and(|(rule, it)| rule.threshold.takes(it as f64 / 1000.0))
        };
        let known = rule(&said.name);
        if takes(&said.name) {
            continue;
        }
        let bytes = files.read(path).ok().filter(|bytes| bytes.len() <= left).unwrap_or_default();
        left -= bytes.len();
        let (key, value) = caution_places(&bytes, said.nth).unwrap_or_default();
        let problem = match known {
            Some(rule) => {
                Problem::new(K::WrongSetting { key: said.name.clone(), wanted: rule.threshold.wanted() }, value)
            }
            None => {
                let near = nearest(&said.name, RULES.iter().map(|rule| rule.name()));
                let stands =
                    |name: &str| journal.cautions.iter().any(|(other, said)| other == path && said.name == name);
                let only = match near.as_slice() {
                    [only] if takes(only) && !stands(only) => Some(*only),
                    _ => None,
                };
                let near = near.iter().map(|name| (*name).to_owned()).collect();
                let problem = Problem::new(K::UnknownSetting { key: said.name.clone(), near }, key);
                only.into_iter().fold(problem, |problem, only| problem.with_fix(key, only))
            }
        };
        problems.push((path.clone(), problem));
    }
    problems
}
