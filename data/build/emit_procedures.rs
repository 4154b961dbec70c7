//! Writes lock nuts and procedures as Rust statics.

use super::{origin, table};
use crate::check::{LockNut, Procedure, Step, Tables};

pub(crate) fn tables(out: &mut String, tables: &Tables) {
    table(
        out,
        "LOCK_NUTS",
        "LockNutRow",
        "Minimum prevailing torques of used lock nuts.",
        &tables.lock_nuts,
        lock_nut,
    );
    table(
        out,
        "PROCEDURES",
        "ProcedureRow",
        "All procedures.",
        &tables.procedures,
        procedure,
    );
}

fn lock_nut(n: &LockNut) -> String {
    format!(
        "LockNutRow {{ id: {:?}, size: {:?}, threads_per_inch: {:?}, nut: LockNutKind::{}, \
         minimum_lbf_in: {:?}, {} }},\n",
        n.id,
        n.size,
        n.threads_per_inch,
        n.nut,
        n.minimum_lbf_in,
        origin(&n.origin),
    )
}

fn procedure(p: &Procedure) -> String {
    let steps: String = p.steps.iter().map(step).collect();
    format!(
        "ProcedureRow {{ id: {:?}, title: {:?}, when: {:?}, values: Values::{}, purposes: &{:?}, \
         steps: &[{steps}], {} }},\n",
        p.id,
        p.title,
        p.when,
        p.values,
        p.purposes,
        origin(&p.origin),
    )
}

fn step(s: &Step) -> String {
    format!(
        "StepRow {{ kind: StepKind::{}, share: {:?}, around: Around::{}, text: {:?}, \
         instrument: {:?}, limits: {:?}, state: {}, after: {}, {} }}, ",
        s.kind,
        s.share,
        s.around,
        s.text,
        s.instrument,
        s.limits,
        s.state,
        s.after,
        origin(&s.origin),
    )
}
