//! The program: arguments in, answer out, exit status.

use loadline::commands;
use std::process::ExitCode;

/// Reading makes millions of small pieces on every core; the system's allocator took a fifth of all time there.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    commands::deliver(commands::replies(std::env::args_os()))
}
