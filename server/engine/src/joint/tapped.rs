//! A tapped hole at the far end, looked up.

use super::{grip::TappedHole, stack::length};
use crate::{
    fault::{Fault, FaultReason},
    insert::insert_hole,
    metal::Metal,
    thread::Thread,
    units::{Megapascals, Millimetres, within},
};

/// A tapped hole looked up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tapped {
    pub(crate) metal: Metal,
    /// Of the metal; with an insert as much more as its longer sheared path bears.
    pub(crate) shear: Megapascals,
    pub(crate) shear_was_given: bool,
    pub(crate) insert: bool,
    pub(crate) full_thread: Millimetres,
    pub(crate) blind: bool,
}

impl Tapped {
    /// Looks up a tapped hole.
    pub(super) fn resolve(
        ask: &TappedHole,
        thread: Option<&Thread>,
        faults: &mut Vec<Fault>,
    ) -> Option<Self> {
        let metal = Fault::keep(faults, "stack.tapped.metal", Metal::called(&ask.metal));
        let given = ask.shear_mpa.map(|shear| {
            // Lead to the hardest tool steel. Common practice.
            let checked = within("shear strength", shear, (5.0, 2000.0), "MPa");
            Fault::keep(faults, "stack.tapped.shear_mpa", checked).map(Megapascals::computed)
        });
        let depth = length("depth of full thread", ask.full_thread_mm);
        let full_thread = Fault::keep(faults, "stack.tapped.full_thread_mm", depth)?;
        let gain = insert_gain(ask.insert, thread, faults);
        let metal = metal?;
        let shear = given.unwrap_or(Some(metal.shear()))?;
        Some(Self {
            metal,
            shear: Megapascals::computed(shear.get() * gain),
            shear_was_given: given.is_some(),
            insert: ask.insert,
            full_thread,
            blind: ask.blind,
        })
    }
}

/// How many times more the metal bears with an insert in its hole; 1 without one.
fn insert_gain(insert: bool, thread: Option<&Thread>, faults: &mut Vec<Fault>) -> f64 {
    let Some(thread) = thread.filter(|_| insert) else {
        return 1.0;
    };
    insert_hole(thread).map_or_else(
        || {
            let why = "the tables have no helical insert for British threads";
            let reason = FaultReason::Contradicts { why };
            faults.push(Fault::new("stack.tapped.insert", reason));
            1.0
        },
        |hole| hole.shear_gain,
    )
}
