//! Ctrl-C: ends the program at once, and says how to ask after a change that was under way.

use std::{
    process,
    sync::{Arc, Mutex, PoisonError},
    thread,
};

use crate::{out::Out, ticket::Ticket};

/// Exit code of an interrupted program.
const INTERRUPTED: i32 = 130;

/// The changing request that is under way, if one is.
#[derive(Clone, Debug, Default)]
pub(crate) struct Pending(Arc<Mutex<Option<Ticket>>>);

impl Pending {
    /// A request is about to leave.
    pub(crate) fn begin(&self, ticket: &Ticket) {
        self.set(Some(ticket.clone()));
    }

    /// Its outcome is known, or will be reported.
    pub(crate) fn end(&self) {
        self.set(None);
    }

    fn set(&self, ticket: Option<Ticket>) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = ticket;
    }

    fn get(&self) -> Option<Ticket> {
        self.0
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}

/// Listens on a thread of its own, since the main one may be held up by a full pipe. Where listening cannot be set up
/// the system's own way of interrupting stays in force.
pub(crate) fn watch(pending: Pending, out: Out) {
    let listen = move || {
        let Ok(runtime) = tokio::runtime::Builder::new_current_thread()
            .enable_io()
            .build()
        else {
            return;
        };
        if runtime.block_on(tokio::signal::ctrl_c()).is_err() {
            return;
        }
        if let Some(ticket) = pending.get() {
            out.notice(&ticket.advice());
        }
        process::exit(INTERRUPTED);
    };
    // Without the thread the program works as well.
    drop(
        thread::Builder::new()
            .name("interrupt".to_owned())
            .spawn(listen),
    );
}
