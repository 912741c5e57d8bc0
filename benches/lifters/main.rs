//! How well strength is estimated, on lifters whose truth is known: `cargo bench --bench lifters`.
//!
//! Each lifter trains, writes pages, and the program is asked, through the library, at the end of 2, 6 and 12 blocks.
//! `lifter.rs` is one, `kinds.rs` all kinds, each in a file of its own; what comes of them is written into
//! docs/science.md. Nothing is shared with the program's own model.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs, dead_code, unreachable_pub)]

mod advice;
mod as_modelled;
mod as_published;
mod beginner;
mod biased;
mod calls;
mod cautions;
mod copied;
mod heavy_tails;
mod injured;
mod kinds;
mod last_rated;
mod lifter;
mod loss;
mod measure;
mod page;
mod random;
mod single;
mod tired;

/// What the model before said of the same lifters, as this bench measured it on 60 of each kind: inside, and the error.
const BEFORE: &str = include_str!("before.txt");

const HEAD: &str = "| lifters | inside | before | off | error | before | baseline | half-width |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n";

/// `LIFTERS` says how many of each kind, 200 where it is not set; of those who follow advice a tenth.
fn main() {
    let lifters = std::env::var("LIFTERS").ok().and_then(|text| text.parse().ok()).unwrap_or(200);
    // `cargo bench --bench lifters -- calls cautions`: only these tables.
    let named: Vec<String> = std::env::args().skip(1).filter(|name| !name.starts_with('-')).collect();
    let wanted = |table: &str| named.is_empty() || named.iter().any(|name| name == table);
    if wanted("lifters") {
        let mut table = HEAD.to_owned();
        let mut before = BEFORE.lines();
        for second in [false, true] {
            for kind in kinds::all() {
                let kind = if second { kinds::another(kind) } else { kind };
                let (inside, error) = before.next().and_then(|line| line.split_once('|')).unwrap_or_default();
                let row = measure::row(kind, lifters, 1, [inside.trim(), error.trim()]);
                table.push_str(&row);
                table.push('\n');
            }
        }
        into_the_docs("lifters", &table);
    }
    if wanted("calls") {
        into_the_docs("calls", &calls::matches(lifters));
    }
    if wanted("attempts") {
        let first = kinds::all();
        let kinds = [first[2], first[3], first[5], first[6], first[7], first[8], first[9]];
        into_the_docs("attempts", &calls::attempts(&kinds, lifters));
    }
    if wanted("cautions") {
        into_the_docs("cautions", &cautions::reviews(lifters.div_ceil(20)));
    }
    if wanted("advice") {
        into_the_docs("advice", &advice::table(lifters.div_ceil(10)));
    }
}

/// Writes a table between its markers in docs/science.md, and shows it.
fn into_the_docs(name: &str, table: &str) {
    println!("{table}");
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/docs/science.md");
    let docs = std::fs::read_to_string(path).unwrap();
    let (begins, ends) = (format!("<!-- {name} -->\n"), format!("<!-- /{name} -->"));
    let (head, rest) = docs.split_once(&begins).unwrap();
    let (_, tail) = rest.split_once(&ends).unwrap();
    std::fs::write(path, format!("{head}{begins}{table}{ends}{tail}")).unwrap();
}
