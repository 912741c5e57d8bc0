//! Work that is spread over the machine's cores.

use super::mass::{show_in, shown_in};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// Does a number of things on whichever core is free, and gives what comes of them in their order. Masses are told in the
/// unit of the thread that asks.
pub fn on_every_core<T: Send>(count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let worker = || {
        let mut done = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            if at >= count {
                break done;
            }
            done.push((at, work(at)));
        }
    };
    let cores = thread::available_parallelism().map_or(1, usize::from).min(count).max(1);
    let unit = shown_in();
    let mut done = thread::scope(|scope| {
        let other = || {
            show_in(unit);
            worker()
        };
        let others: Vec<_> = (1..cores).map(|_| scope.spawn(other)).collect();
        let mut all = worker();
        // One that panicked would lose things unseen; passing the panic on is the honest end.
        for other in others {
            all.extend(other.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        }
        all
    });
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, one)| one).collect()
}
