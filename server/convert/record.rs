//! `job.proto`: removals, decisions and refits in; jobs, joints, flags and entries out.

mod incoming;
mod outgoing;

pub(super) use incoming::{decided, refitted, removed};
pub(super) use outgoing::entry_name;
pub(crate) use outgoing::{
    assembly, count, decision, entry, flag, flags, job, job_summary, joint, refit, removal, rule,
    state,
};
