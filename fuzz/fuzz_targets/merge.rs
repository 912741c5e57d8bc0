//! Any bytes as three versions of a page, parted by a zero byte: they merge without a panic, what only one of them changed
//! is as that one has it, and no line of theirs is gone while anything is left to decide.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::meaning::merge;

fuzz_target!(|bytes: &[u8]| {
    let mut versions = bytes.splitn(3, |byte| *byte == 0);
    let mut next = || versions.next().unwrap_or_default();
    let (base, ours, theirs) = (next(), next(), next());
    let merged = merge(base, ours, theirs, &|_, _, _| None);
    if base == ours || ours == theirs {
        assert!(merged.settled && merged.bytes == theirs);
    }
    if base == theirs {
        assert!(merged.settled && merged.bytes == ours);
    }
});
