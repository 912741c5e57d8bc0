//! The colours of the page, held to the contrast that text and signs need.
//!
//! Source: W3C, Web Content Accessibility Guidelines (WCAG) 2.2: "relative luminance" and "contrast ratio" in the
//! definitions; success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (what is no text, 3 : 1).

use crate::support::journal::Journal;
use std::collections::HashMap;

/// The share of light of a channel, from 0 to 1.
fn linear(channel: u8) -> f64 {
    let value = f64::from(channel) / 255.0;
    if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
}

fn luminance(colour: &str) -> f64 {
    let digits = colour.strip_prefix('#').expect("a colour with a #");
    // `#abc` is short for `#aabbcc`.
    let digits: String = match digits.len() {
        3 => digits.chars().flat_map(|digit| [digit, digit]).collect(),
        _ => digits.to_owned(),
    };
    let channel = |at: usize| linear(u8::from_str_radix(&digits[at..at + 2], 16).expect("two digits"));
    0.2126 * channel(0) + 0.7152 * channel(2) + 0.0722 * channel(4)
}

fn ratio(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// The ends of the scale, and a grey that W3C's page on technique G18 works out: #767676 on white is just over 4.5 : 1.
#[test]
fn the_formula_is_the_published_one() {
    assert_eq!(ratio("#000", "#ffffff"), 21.0);
    assert_eq!(ratio("#abc", "#aabbcc"), 1.0);
    assert!((4.5..4.6).contains(&ratio("#767676", "#fff")), "{}", ratio("#767676", "#fff"));
}

/// The style of a report, and the colours of each `:root` in it: light, dark, print.
fn schemes() -> (String, Vec<HashMap<String, String>>) {
    let page = Journal::new().run(&["report"]);
    let style = page.split("<style>").nth(1).unwrap().split("</style>").next().unwrap().to_owned();
    let roots = style.split(":root {").skip(1).map(|root| {
        let root = root.split('}').next().unwrap();
        let pairs = root.split(';').filter_map(|line| line.trim().strip_prefix("--")?.split_once(": "));
        pairs.map(|(name, colour)| (name.to_owned(), colour.trim().to_owned())).collect()
    });
    let roots = roots.collect();
    (style, roots)
}

#[test]
fn text_and_signs_stand_out_from_their_ground_in_every_scheme() {
    let (_, schemes) = schemes();
    assert_eq!(schemes.len(), 3, "light, dark, print");
    let text = ["ink", "soft", "link", "ahead", "behind", "warn"].map(|name| (name, ["paper", "tint"], 4.5));
    let signs =
        [("mark", ["paper", "band"], 3.0), ("edge", ["paper", "paper"], 3.0), ("behind", ["paper", "band"], 3.0)];
    for colours in schemes {
        for (name, grounds, least) in text.into_iter().chain(signs) {
            for ground in grounds {
                let found = ratio(&colours[name], &colours[ground]);
                assert!(found >= least, "{name} {} on {ground} {}: {found:.2}", colours[name], colours[ground]);
            }
        }
    }
}

/// A colour that stands elsewhere would be in no scheme, and in no test.
#[test]
fn every_colour_is_one_of_a_scheme() {
    let (style, schemes) = schemes();
    let outside: String = style
        .split(":root {")
        .enumerate()
        .map(|(at, part)| if at == 0 { part } else { part.split_once('}').unwrap().1 })
        .collect();
    let named: Vec<&str> = outside.split("var(--").skip(1).map(|rest| rest.split(')').next().unwrap()).collect();
    assert!(!outside.contains('#'), "a colour outside the schemes: {outside}");
    for name in named {
        assert!(schemes.iter().all(|colours| colours.contains_key(name)), "--{name} is missing in a scheme");
    }
}
