//! `pain-at-once`: a pain that is not waited on.

use super::caution::{Found, Rule, Tells};
use super::scene::Scene;
use crate::training::{Pain, Threshold, Thresholds, fold};

pub(super) const RULE: Rule = Rule {
    threshold: Threshold { name: "pain-at-once", unit: "of ten", least: 1.0, most: 10.0, default: 7.0 },
    brief: |site, found| format!("{site} pain {found} of 10"),
    tells: Tells::Pain,
    text: "
Pain of seven of ten or more, or any in the chest, noted once. Stop for today and see a physician before you train again.
Pain in the chest under load, with breathlessness, or with an arm or the jaw hurting too: call for help at once.

- raised: for each site, for the last time in the block
- threshold: {threshold}, `cautions: { pain-at-once: 8 }` for eight; in the chest always
- on sensible training: never in two years of a strong and a small lifter (simulated)
- source: the chest is from screening before exercise (Riebe et al. 2015, Med Sci Sports Exerc 47(11):2473–2479; from memory,
  high confidence); the seven is common practice, no source
",
    find,
};

/// Whether a pain is one, by the thresholds that are set.
pub(in crate::questions) fn is_at_once(pain: &Pain, set: &Thresholds) -> bool {
    is_from(pain, RULE.threshold.in_force(set))
}

fn is_from(pain: &Pain, threshold: f64) -> bool {
    pain.tenths > 0 && (f64::from(pain.tenths) / 10.0 >= threshold || fold(&pain.site).contains("chest"))
}

fn find(scene: &Scene<'_, '_>, threshold: f64) -> Vec<Found> {
    let mut found: Vec<Found> = Vec::new();
    for session in scene.sessions() {
        for pain in session.pains.iter().filter(|pain| is_from(pain, threshold)) {
            let (site, of_ten) = (fold(&pain.site), f64::from(pain.tenths) / 10.0);
            found.retain(|known| known.about.as_deref().map(fold).as_ref() != Some(&site));
            let message =
                format!("{}: pain of {of_ten} of 10; stop, and see a physician before you train again", pain.site);
            let (about, places) = (Some(pain.site.to_string()), vec![scene.place(pain.page, pain.line)]);
            found.push(Found { date: session.date, figure: of_ten, message, about, places });
        }
    }
    found
}
