//! Where settings name lifts.

use super::settings::parsed;
use super::yaml::Node;
use crate::source::Span;

/// A lift's name in a settings file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LiftName {
    /// The name.
    pub name: String,
    /// Where it stands.
    pub span: Span,
    /// Whether it is said there what lift that is; else something is said of a lift that is known.
    pub defines: bool,
}

/// Every name of a lift in a settings file, in its order: under `lifts:`, `meet lifts:`, and `steps:` of any gym. What is no
/// settings has none.
pub fn lift_names(bytes: &[u8]) -> Vec<LiftName> {
    let Ok((text, value)) = parsed(bytes) else { return Vec::new() };
    let top = Node::top(&value);
    let mut nodes: Vec<(Node<'_>, bool)> = Vec::new();
    for lift in top.get("lifts").and_then(|lifts| lifts.items()).into_iter().flatten() {
        nodes.extend(lift.get("name").map(|name| (name, true)));
        let also = lift.get("also").and_then(|also| also.items());
        nodes.extend(also.into_iter().flatten().map(|name| (name, true)));
    }
    let competed = top.get("meet lifts").and_then(|lifts| lifts.entries());
    nodes.extend(competed.into_iter().flatten().map(|(_, name)| (name, false)));
    let gyms = top.get("gyms").and_then(|gyms| gyms.entries()).into_iter().flatten().map(|(_, gear)| gear);
    for gear in top.get("gear").into_iter().chain(gyms) {
        let steps = gear.get("steps").and_then(|steps| steps.entries());
        nodes.extend(steps.into_iter().flatten().map(|(name, _)| (name, false)));
    }
    let named = nodes.into_iter().filter_map(|(node, defines)| {
        let (name, span) = (node.text()?.to_owned(), node.place(text));
        (!span.is_empty()).then_some(LiftName { name, span, defines })
    });
    let mut names: Vec<LiftName> = named.collect();
    names.sort_by_key(|name| name.span.start);
    names
}

/// A lift's name as settings write it.
pub fn lift_written(name: &str) -> String {
    let plain = name.chars().all(|c| c.is_alphanumeric() || c == ' ' || c == '-');
    if plain { name.to_owned() } else { serde_json::Value::from(name).to_string() }
}

#[cfg(test)]
mod tests {
    use super::lift_names;

    #[test]
    fn every_name_of_a_lift_is_found_where_it_stands() {
        let text = "\u{feff}# Belt squat\ngear: { steps: { dumbbells: 2 kg, Belt squat: 5 kg } }\nlifts:\n  - { name: \"Belt squat\", family: squat, also: [hip squat] }\n  - name: Bänkpress\n    family: horizontal press\nmeet lifts: { squat: Belt squat }\ngyms:\n  Hall:\n    steps:\n      Belt squat: 10 kg\n";
        let found: Vec<(String, &str, bool)> =
            lift_names(text.as_bytes()).into_iter().map(|one| (one.name, one.span.text(text), one.defines)).collect();
        let of = |name: &str, text: &'static str, defines| (name.to_owned(), text, defines);
        assert_eq!(
            found,
            [
                of("dumbbells", "dumbbells", false),
                of("Belt squat", "Belt squat", false),
                of("Belt squat", "\"Belt squat\"", true),
                of("hip squat", "hip squat", true),
                of("Bänkpress", "Bänkpress", true),
                of("Belt squat", "Belt squat", false),
                of("Belt squat", "Belt squat", false),
            ]
        );
        assert!(lift_names(b"lifts: [").is_empty());
    }
}
