//! Bash, which the library's own adapter completes only where no name has a blank in it: bash hands words over as
//! they are typed, with their quotes, and quotes what comes back only where it takes it for the names of files.

use clap_complete::engine;
use clap_complete::env::EnvCompleter;
use std::ffi::OsString;
use std::io::{Error, Write};
use std::path::Path;

const SCRIPT: &str = r#"_NAME_words() {
    local word
    COMPREPLY=()
    while IFS= read -r word; do
        COMPREPLY+=("$word")
    done < <(VAR=bash LOADLINE_WORD=$COMP_CWORD COMPLETER -- "${COMP_WORDS[@]}" 2>/dev/null)
}
complete -o filenames -o bashdefault -F _NAME_words BIN
"#;

/// The adapter.
pub(super) struct Bash;

impl EnvCompleter for Bash {
    fn name(&self) -> &'static str {
        "bash"
    }

    fn is(&self, name: &str) -> bool {
        name == "bash"
    }

    fn write_registration(
        &self,
        var: &str,
        name: &str,
        bin: &str,
        completer: &str,
        out: &mut dyn Write,
    ) -> Result<(), Error> {
        let script = SCRIPT.replace("NAME", name).replace("BIN", bin);
        out.write_all(script.replace("COMPLETER", completer).replace("VAR", var).as_bytes())
    }

    fn write_complete(
        &self,
        program: &mut clap::Command,
        words: Vec<OsString>,
        here: Option<&Path>,
        out: &mut dyn Write,
    ) -> Result<(), Error> {
        let at = std::env::var("LOADLINE_WORD").ok().and_then(|at| at.parse().ok());
        let at = at.unwrap_or(words.len().saturating_sub(1));
        for candidate in engine::complete(program, words, at, here)? {
            writeln!(out, "{}", candidate.get_value().to_string_lossy())?;
        }
        Ok(())
    }
}

/// A word without the quotes and backslashes that bash was typed.
pub(super) fn unquoted(word: &OsString) -> OsString {
    let word = word.to_string_lossy();
    let mut out = String::new();
    let mut within = None;
    let mut signs = word.chars();
    while let Some(sign) = signs.next() {
        match (sign, within) {
            ('\\', None | Some('"')) => out.extend(signs.next()),
            ('\'' | '"', None) => within = Some(sign),
            (sign, Some(quote)) if sign == quote => within = None,
            _ => out.push(sign),
        }
    }
    out.into()
}
