//! Lock nuts that are used again: whether they still grip enough.

use crate::{
    answer::Severity,
    thread::Thread,
    units::{NEWTON_METRES_PER_POUND_FORCE_INCH, NewtonMetres},
};
pub use clampbook_data::{LockNutKind, LockNutRow};

/// One published minimum prevailing torque, and whether a measured one reaches it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Minimum {
    /// The row.
    pub row: &'static LockNutRow,
    /// Minimum prevailing torque.
    pub torque: NewtonMetres,
    /// Whether the measured prevailing torque reaches it.
    pub is_reached: bool,
}

/// What is found of a used lock nut.
#[derive(Clone, Debug, PartialEq)]
pub struct UsedNut {
    /// Every published minimum value for this size and kind.
    pub minimum: Vec<Minimum>,
}

impl UsedNut {
    /// Judges a measured prevailing torque by FAA AC 43.13-1B, table 7-2, and US Army TM 9-6115-604-34, table 1-3.
    #[must_use]
    pub fn judge(thread: &Thread, kind: LockNutKind, measured: NewtonMetres) -> Self {
        let minimum = clampbook_data::LOCK_NUTS
            .iter()
            .filter(|row| holds_for(row, thread, kind))
            .map(|row| {
                let torque =
                    NewtonMetres::computed(row.minimum_lbf_in * NEWTON_METRES_PER_POUND_FORCE_INCH);
                Minimum {
                    row,
                    torque,
                    is_reached: measured >= torque,
                }
            })
            .collect();
        Self { minimum }
    }

    /// Stop below every published value, caution where they do not agree, note where none is published.
    #[must_use]
    pub fn severity(&self) -> Option<Severity> {
        let reached = self.minimum.iter().filter(|l| l.is_reached).count();
        match (self.minimum.len(), reached) {
            (0, _) => Some(Severity::Note),
            (all, reached) if reached == all => None,
            (_, 0) => Some(Severity::Stop),
            _ => Some(Severity::Caution),
        }
    }

    /// The sentence for people; absent where all is well.
    #[must_use]
    pub fn text(&self) -> Option<&'static str> {
        Some(match self.severity()? {
            Severity::Stop => "The nut grips less than a used lock nut must: fit a new one.",
            Severity::Caution => {
                "The published minimum values do not agree on this nut: fit a new one where it matters."
            }
            Severity::Note => {
                "No minimum prevailing torque is published for this size: compare with a new nut, which must be clearly too tight to turn by hand."
            }
        })
    }
}

fn holds_for(row: &LockNutRow, thread: &Thread, kind: LockNutKind) -> bool {
    let pitch = row
        .threads_per_inch
        .is_none_or(|tpi| thread.threads_per_inch() == Some(tpi));
    let made = kind == LockNutKind::Any || row.nut == LockNutKind::Any || row.nut == kind;
    thread.threads_per_inch().is_some() && thread.size() == row.size && pitch && made
}
