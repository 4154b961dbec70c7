//! `clampbook`: the command line. Reads the flags, makes one call, shows the answer; all knowledge is the server's.

mod args;
mod call;
mod command;
mod error;
mod interrupt;
mod json;
mod name;
mod out;
mod retry;
mod show;
mod speaker;
mod ticket;
mod transport;

use std::process::ExitCode;

use self::{args::Args, call::Server, error::Failure, interrupt::Pending, out::Out};

fn main() -> ExitCode {
    let args = Args::read();
    let out = Out::new(&args.global);
    match run(args, &out) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => failure.report(&out),
    }
}

fn run(args: Args, out: &Out) -> Result<(), Failure> {
    let pending = Pending::default();
    interrupt::watch(pending.clone(), out.clone());
    // One call at a time needs no second thread, and starts faster without.
    tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .map_err(|error| Failure::system("cannot start", &error))?
        .block_on(async {
            let server = Server::new(&args.global, pending, out.clone())?;
            command::run(args.command, &server, out).await
        })
}
