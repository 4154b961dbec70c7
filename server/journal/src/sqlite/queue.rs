//! What waits for the writer, and how it is taken in groups.

use crate::protocol::error::CommitError;
use crate::protocol::request::Given;
use crate::sqlite::batch::Answer;
use std::sync::mpsc::Receiver;
use tokio::sync::oneshot;

/// Most orders in one transaction.
const GROUP: usize = 64;

/// What the writer is asked to do.
pub(crate) enum Task {
    /// Judge and write an order.
    Commit(Ticket),
    /// Write the read models again.
    Rebuild(oneshot::Sender<Result<(), CommitError>>),
    /// Finish what waits, and close the file.
    Stop(oneshot::Sender<()>),
}

/// An order and who waits for its answer. A caller who hangs up does not undo the order.
pub(crate) struct Ticket {
    pub(crate) given: Box<Given>,
    pub(crate) answer: oneshot::Sender<Answered>,
}

/// The answer with what was given, which goes back so that throwing it away is its giver's work.
pub(crate) type Answered = (Answer, Box<Given>);

/// Takes what waits into the group as long as there is room; gives back a task that is no order.
pub(crate) fn gather(group: &mut Vec<Ticket>, tasks: &Receiver<Task>) -> Option<Task> {
    while has_room(group) {
        match tasks.try_recv() {
            Ok(Task::Commit(ticket)) => group.push(ticket),
            Ok(other) => return Some(other),
            Err(_) => break,
        }
    }
    None
}

/// Content takes long to write; callers who come after it need not wait for more of it.
pub(crate) fn has_room(group: &[Ticket]) -> bool {
    let carries = |ticket: &Ticket| ticket.given.order.blob.is_some();
    group.len() < GROUP && !group.last().is_some_and(carries)
}
