//! What can be turned on and off: `initializationOptions`, or the settings of the client below `loadline`.

use serde::Deserialize;

/// The switches. One that is left out is as it stands here.
#[derive(Clone, Debug, Deserialize, PartialEq, Eq)]
#[serde(default, rename_all = "camelCase")]
pub(super) struct Switches {
    /// Problems while typing.
    pub(super) problems: bool,
    /// Hints behind lines.
    pub(super) hints: Hints,
    /// Above a session, what is to come.
    pub(super) lens: bool,
    /// Where the documentation stands, so that a problem's name leads to its section.
    pub(super) docs: Option<String>,
}

/// Which hints are shown.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(default)]
pub(super) struct Hints {
    /// Behind a work line how it compares.
    pub(super) verdict: bool,
    /// Behind a planned line what goes on the bar.
    pub(super) next: bool,
    /// Behind a load that is no plain mass its kilograms.
    pub(super) mass: bool,
}

impl Default for Switches {
    fn default() -> Self {
        Switches { problems: true, hints: Hints::default(), lens: false, docs: None }
    }
}

impl Default for Hints {
    fn default() -> Self {
        Hints { verdict: true, next: true, mass: true }
    }
}

impl Switches {
    /// What a client says; what cannot be read leaves all as it stands.
    pub(super) fn said(value: &serde_json::Value) -> Option<Switches> {
        let own = value.get("loadline").unwrap_or(value);
        own.is_object().then(|| Switches::deserialize(own).ok())?
    }
}
