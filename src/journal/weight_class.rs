//! `class:` in `lifter.yaml`: the weight class a lifter competes in.

use super::faults::{Faults, spelled};
use super::yaml::Node;
use crate::training::{Mass, WeightClass};

/// Who weighs less or more has typed something else (common practice, no source).
const BETWEEN_KG: [i64; 2] = [20, 250];
/// What is taken.
pub(super) const WANTED: &str = "a weight class from 20 to 250 kg, such as 74 kg, 165 lb or 120+ kg";

/// Reads `74 kg`, `-74`, `120+ kg`, `165 lb`; of text, for `+120` without quotes is a number without its sign.
pub(super) fn read(faults: &Faults<'_>, value: &Node<'_>) -> Option<WeightClass> {
    let text = spelled(value.value);
    let up_to = text.strip_prefix(['-', '−', '–']).unwrap_or(&text);
    let bare = up_to.replacen('+', "", 1);
    let limit = faults.mass_of(bare.trim())?;
    let known = (Mass::kg(BETWEEN_KG[0])..=Mass::kg(BETWEEN_KG[1])).contains(&limit);
    let open = bare.len() < up_to.len();
    (known && !(open && up_to.len() < text.len())).then_some(WeightClass { limit, open })
}
