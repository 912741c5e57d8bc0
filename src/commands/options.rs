//! The options that every command shares.

use super::outcome::Failure;
use super::watch::kept_desk::KeptDesk;
use crate::present::plot::Glyphs;
use crate::present::{Doc, doc, paint};
use crate::training::Words;
use chrono::NaiveDate;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};
use std::io::IsTerminal;
use std::path::PathBuf;

/// Options of every command.
#[derive(Args, Debug)]
pub(crate) struct Options {
    /// The journal's folder [default: the one that this folder is in]
    #[arg(
        long,
        global = true,
        value_name = "DIR",
        env = "LOADLINE_JOURNAL",
        hide_env_values = true,
        help_heading = "Common options"
    )]
    pub(crate) journal: Option<PathBuf>,
    /// The lifter, by name or folder [default: the only one, or the one whose folder this is]
    #[arg(long, global = true, value_name = "NAME", help_heading = "Common options")]
    pub(crate) lifter: Vec<String>,
    /// The gym that you are in, by its name under `gyms:` [default: that of the session, else the usual one]
    #[arg(long, global = true, value_name = "NAME", help_heading = "Common options")]
    pub(crate) gym: Option<String>,
    /// The day to answer for, as YYYY-MM-DD [default: today]
    #[arg(long, global = true, value_name = "DATE", value_parser = date, help_heading = "Common options")]
    pub(crate) on: Option<NaiveDate>,
    /// Answer as text, for people, or as json, for programs
    #[arg(long, global = true, value_name = "FORMAT", default_value = "text", help_heading = "Common options")]
    pub(crate) format: Format,
    /// When to use colour; auto is on a terminal, unless NO_COLOR is set
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto", help_heading = "Common options")]
    pub(crate) color: Colour,
    /// Whether the program goes on after its answer.
    #[arg(skip)]
    pub(crate) goes_on: bool,
    /// What is kept until the next answer, where it goes on.
    #[arg(skip)]
    pub(crate) kept: Option<KeptDesk>,
    /// The whole program, where its manual is to be written.
    #[arg(skip)]
    pub(crate) manual: Option<clap::Command>,
    /// Draw plots in plain ASCII [default: only where the terminal has no UTF-8]
    #[arg(long, global = true, help_heading = "Common options")]
    pub(crate) plain: bool,
}

/// How to answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    Text,
    Json,
}

/// When to use colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Colour {
    Auto,
    Always,
    Never,
}

/// A date of the command line.
pub(crate) fn date(text: &str) -> Result<NaiveDate, String> {
    let real = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok().filter(|_| text.len() == 10);
    real.ok_or_else(|| "write a date as YYYY-MM-DD, such as 2026-03-05".into())
}

/// A whole number of the command line, from 1 up.
pub(crate) fn at_least_one(text: &str) -> Result<u32, String> {
    text.parse().ok().filter(|number| *number > 0).ok_or_else(|| "write a whole number from 1 up".into())
}

/// A word of the command line that stands for a value.
pub(crate) fn word<T: Words + Send + Sync>() -> impl TypedValueParser<Value = T> {
    let words = T::ALL.iter().map(|value| value.word());
    PossibleValuesParser::new(words).try_map(|word| T::of_word(&word).ok_or("no such word"))
}

/// What the environment says of how wide the screen is.
pub(crate) fn columns_said() -> Option<usize> {
    std::env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok()).filter(|columns| *columns > 0)
}

impl Options {
    /// The lifter who is named, where one is answered for.
    pub(crate) fn one_lifter(&self) -> Result<Option<&str>, Failure> {
        match self.lifter.as_slice() {
            [] => Ok(None),
            [one] => Ok(Some(one)),
            _ => Err(Failure(
                "this answers for one lifter, so name one with --lifter; `roster`, `review`, `adherence`, `match`, \
                 `facts` and `draft` take several"
                    .into(),
            )),
        }
    }

    /// A failure with the journal and the lifter that were typed in the command that it says to type.
    pub(crate) fn in_full(&self, Failure(words): Failure) -> Failure {
        let quoted = |text: &str| if text.contains(' ') { format!("\"{text}\"") } else { text.to_owned() };
        let is_typed = |path: &&PathBuf| std::env::var_os("LOADLINE_JOURNAL").is_none_or(|set| set != path.as_os_str());
        let journal = self.journal.iter().filter(is_typed).map(|path| ("--journal", path.to_string_lossy()));
        let lifter = self.lifter.iter().map(|name| ("--lifter", name.into()));
        let typed: String = journal.chain(lifter).map(|(name, value)| format!("{name} {} ", quoted(&value))).collect();
        Failure(words.replace("`loadline ", &format!("`loadline {typed}")))
    }

    /// Whether several lifters are answered, a section each: everybody, or those who are named.
    pub(crate) fn asks_several(&self, everybody: bool) -> Result<bool, Failure> {
        if everybody && !self.lifter.is_empty() {
            return Err(Failure("--all-lifters is everybody; leave it out, or --lifter".into()));
        }
        Ok(everybody || self.lifter.len() > 1)
    }

    /// Whether to use colour: asked for, or on a terminal that nobody has asked to keep plain.
    pub(crate) fn colour(&self) -> bool {
        let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        match self.color {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => {
                let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
                std::io::stdout().is_terminal() && !set("NO_COLOR") && !dumb
            }
        }
    }

    /// A doc as it goes to the screen.
    pub(crate) fn shown(&self, doc: &Doc) -> String {
        paint(&doc::text(doc, self.width()), self.colour())
    }

    /// The same on no more than so many columns.
    pub(crate) fn shown_within(&self, doc: &Doc, columns: usize) -> String {
        paint(&doc::text(doc, self.width().min(columns)), self.colour())
    }

    /// A doc as it goes to standard error, without colour.
    pub(crate) fn plainly(&self, doc: &Doc) -> String {
        paint(&doc::text(doc, self.width()), false)
    }

    /// With which characters to draw: plain ones where asked for, on a dumb terminal, and where the locale names no
    /// UTF-8. Of its variables the first that is set and not empty counts (POSIX.1-2017, chapter 8.2: `LC_ALL`, the
    /// category's own, `LANG`; from memory, high confidence).
    pub(crate) fn glyphs(&self) -> Glyphs {
        let value = |name: &str| std::env::var(name).ok().filter(|value| !value.is_empty());
        let dumb = value("TERM").is_some_and(|term| term == "dumb");
        let locale =
            ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().find_map(value).unwrap_or_default().to_ascii_lowercase();
        let utf8 = locale.contains("utf-8") || locale.contains("utf8");
        if self.plain || dumb || !utf8 { Glyphs::Ascii } else { Glyphs::Blocks }
    }

    /// How wide the screen is: `COLUMNS` where it is set, else the terminal, else 80.
    pub(crate) fn width(&self) -> usize {
        let width = columns_said().or_else(|| terminal_size::terminal_size().map(|(width, _)| usize::from(width.0)));
        // Narrower than this nothing can be laid out; wider, lines are hard to follow.
        width.unwrap_or(80).clamp(24, 160)
    }
}
