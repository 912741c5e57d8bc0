//! The nearest of the names there are.

/// How many letters two words are apart, a swap of two neighbours counting as one. Letter case is ignored.
pub fn distance(one: &str, other: &str) -> usize {
    strsim::osa_distance(&one.to_lowercase(), &other.to_lowercase())
}

/// Up to three of `names` that are close to `typed`, the nearest first; none rather than nonsense.
///
/// Close is a distance of at most a third of the longer word (at least one letter), or one text inside
/// the other. Ties go by the names themselves, so that the answer is the same every time.
pub fn nearest<'a>(typed: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let wanted = plain(typed);
    if wanted.is_empty() {
        return Vec::new();
    }
    let mut close: Vec<(usize, &str)> = names
        .into_iter()
        .filter_map(|name| {
            let candidate = plain(name);
            let longer = wanted.chars().count().max(candidate.chars().count());
            let apart = distance(&wanted, &candidate);
            let inside = wanted.len() >= 3
                && candidate.len() >= 3
                && (candidate.contains(&wanted) || wanted.contains(&candidate));
            // A name that holds the typed word ranks after a slip of the finger, before a far cousin.
            let rank = if inside { apart.min(2) } else { apart };
            (apart <= (longer / 3).max(1) || inside).then_some((rank, name))
        })
        .collect();
    close.sort_by(|a, b| a.0.cmp(&b.0).then_with(|| a.1.len().cmp(&b.1.len())).then_with(|| a.1.cmp(b.1)));
    close.dedup_by_key(|(_, name)| *name);
    close.truncate(3);
    close.into_iter().map(|(_, name)| name).collect()
}

fn plain(name: &str) -> String {
    name.chars().filter(|c| !matches!(c, ' ' | '-' | '_')).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::nearest;

    const LIFTS: [&str; 5] = ["Back squat", "Front squat", "Pause front squat", "Bench press", "Deadlift"];

    #[test]
    fn a_slip_finds_its_word() {
        assert_eq!(nearest("Fornt squat", LIFTS), ["Front squat"]);
        assert_eq!(nearest("deadlfit", LIFTS), ["Deadlift"]);
    }

    #[test]
    fn a_part_finds_the_whole() {
        assert_eq!(nearest("squat", LIFTS), ["Back squat", "Front squat", "Pause front squat"]);
    }

    #[test]
    fn nothing_rather_than_nonsense() {
        assert!(nearest("Kite flying", LIFTS).is_empty());
        assert!(nearest("", LIFTS).is_empty());
    }
}
