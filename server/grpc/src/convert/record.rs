//! `job.proto`: removals, decisions and refits in; jobs, joints, flags and entries out.

mod deciding;
mod incoming;
mod outgoing;

pub(super) use deciding::decided;
pub(super) use incoming::{refitted, removed};
pub(super) use outgoing::entry_name;
pub(crate) use outgoing::{
    assembly, count, decision, entry, flag, flags, job, job_summary, joint, refit, removal, rule,
    state,
};
