//! Any bytes as a table of sets: each row is read, refused, left out or blank, and what is gathered comes from the rows.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::import::{gather, read_rows, read_table};
use loadline::journal::{Mapping, mapping};
use std::sync::LazyLock;

const MAPPING: &str = "columns: { date: d, time: t, day: y, lift: l, sets: s, reps: r, seconds: c, per side: p, load: w, \
    unit: u, effort: e, effort scale: x, faults: f, missed: m, bodyweight: b, note: n }\n";
const HEADER: &[u8] = b"d,t,y,l,s,r,c,p,w,u,e,x,f,m,b,n\n";

static MAPPING_READ: LazyLock<Mapping> = LazyLock::new(|| mapping(MAPPING.as_bytes()).expect("a mapping"));

fuzz_target!(|bytes: &[u8]| {
    let Ok(table) = read_table(&[HEADER, bytes].concat(), b',') else { return };
    let rows = read_rows(&table, &MAPPING_READ);
    let refused: std::collections::BTreeSet<u64> = rows.faults.iter().map(|fault| fault.row).collect();
    assert_eq!(rows.entries.len() + refused.len() + rows.unwanted.len() + rows.blank.len(), table.rows.len());
    gather(&rows.entries);
});
