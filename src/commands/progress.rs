//! How far a long piece of work is.

use indicatif::{ProgressBar, ProgressStyle};
use std::io::IsTerminal;

/// On a terminal, how far it is; of nothing there is nothing to show.
pub(super) fn progress(of: usize, what: &str) -> ProgressBar {
    if of == 0 || !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(of as u64);
    match ProgressStyle::with_template(&format!("{{pos}} of {{len}} {what} {{wide_bar}}")) {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}
