//! Serving a journal until told to stop.

use crate::backups::Backups;
use crate::clock;
use crate::config::Serve;
use crate::serve::{Serving, bind, serve as serve_on};
use anyhow::Context;
use clampbook_app::{App, Options, Role};
use clampbook_journal::Barrier;
use std::io::Write;
use std::path::Path;
use tokio::signal::unix::{Signal, SignalKind, signal};

/// Serves a journal until told to stop.
///
/// # Errors
/// When the journal cannot be opened, the address not be bound, or the transport fails.
pub(crate) fn serve(flags: Serve) -> anyhow::Result<()> {
    let barrier = barrier(&flags)?;
    let role = if flags.read_only {
        Role::Reader
    } else {
        Role::Local
    };
    let runtime = runtime()?;
    let served = runtime.block_on(async {
        // Before anybody is told that it serves: anyone who reads that line may ask it to stop.
        let stop = StopSignals::hear()?;
        let listener = bind(flags.listen).await?;
        let address = listener.local_addr().context("own address")?;
        let app = open(&flags.data, barrier)?;
        let backups = Backups::of(&flags, clock::system())?;
        let serving = Serving {
            app: app.clone(),
            role,
            backups,
        };
        let mut stdout = std::io::stdout();
        writeln!(stdout, "listening on http://{address}").context("standard output")?;
        stdout.flush().context("standard output")?;
        serve_on(listener, serving, stop.first()).await?;
        app.stop().await;
        Ok(())
    });
    // A backup under way is not waited for; the next one sweeps what is left of it.
    runtime.shutdown_background();
    served
}

/// Where a test holds the writer.
#[cfg(debug_assertions)]
fn barrier(flags: &Serve) -> anyhow::Result<Option<Barrier>> {
    let barrier = flags.barrier.as_deref().map(str::parse).transpose();
    barrier.map_err(|why| anyhow::anyhow!("--barrier {why}"))
}

/// A release has no flag that holds the writer.
#[cfg(not(debug_assertions))]
const fn barrier(_: &Serve) -> anyhow::Result<Option<Barrier>> {
    Ok(None)
}

/// Opens a journal and puts the use cases on it.
///
/// # Errors
/// When the journal cannot be opened.
pub(crate) fn open(data: &Path, barrier: Option<Barrier>) -> anyhow::Result<App> {
    let options = App::options(data, clock::system());
    App::with(Options { barrier, ..options })
        .with_context(|| format!("cannot open {}", data.display()))
}

/// The runtime that everything runs on.
///
/// # Errors
/// When threads cannot be started.
pub(crate) fn runtime() -> anyhow::Result<tokio::runtime::Runtime> {
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .context("cannot start the runtime")
}

/// Signals that ask the process to stop, heard from the moment this is made.
struct StopSignals {
    terminate: Signal,
    interrupt: Signal,
}

impl StopSignals {
    fn hear() -> anyhow::Result<Self> {
        let hear = |kind| signal(kind).context("cannot hear signals");
        Ok(Self {
            terminate: hear(SignalKind::terminate())?,
            interrupt: hear(SignalKind::interrupt())?,
        })
    }

    async fn next(&mut self) {
        tokio::select! {
            _ = self.terminate.recv() => {}
            _ = self.interrupt.recv() => {}
        }
    }

    /// Ends at the first signal; a second one ends the process at once.
    async fn first(mut self) {
        self.next().await;
        tokio::spawn(async move {
            self.next().await;
            std::process::exit(130);
        });
    }
}
