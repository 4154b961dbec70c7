//! Threads that are easily mistaken for each other, and how much thread depth bears when they meet.

use crate::{catalogue::Catalogue, thread::Thread};
use clampbook_data::{Half, LOOK_ALIKES, LookAlikeRow, Origin};

/// Two threads that are taken for each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LookAlike<'c> {
    row: &'static LookAlikeRow,
    external: &'c Thread,
    internal: &'c Thread,
}

/// Share of the internal thread's depth that the external one fills, by basic sizes.
///
/// s = (d − D1) / (D − D1)
///
/// * `external`: thread of the screw, diameter d
/// * `internal`: thread of the nut, D and D1
///
/// Returns a share: 1 for a pair of one thread, above 1 for a screw larger than the nut's thread, 0
/// or below for a screw that falls through.
///
/// # Sources
/// Geometry; basic sizes of ISO 724, ASME B1.1 and the British standards.
/// # Example
/// M12x1.25 in a 1/2-20 nut: (12 − 11.325)/(12.7 − 11.325) = 0.49, computed by hand.
/// ```
/// # use clampbook_engine::{Catalogue, identify::overlap_share};
/// let catalogue = Catalogue::built_in();
/// let screw = catalogue.thread("M12x1.25").map_err(|e| e.to_string())?;
/// let nut = catalogue.thread("1/2-20").map_err(|e| e.to_string())?;
/// assert!((overlap_share(screw, nut) - 0.49).abs() < 0.005);
/// # Ok::<(), String>(())
/// ```
#[must_use]
pub fn overlap_share(external: &Thread, internal: &Thread) -> f64 {
    let bore = internal.geometry().internal_minor_diameter.get();
    (external.diameter().get() - bore) / (internal.diameter().get() - bore)
}

impl Catalogue {
    /// All pairs that are taken for each other.
    pub fn look_alikes(&self) -> impl Iterator<Item = LookAlike<'_>> {
        LOOK_ALIKES.iter().filter_map(|row| {
            // The tables are checked for it; a row of unknown threads would tell nothing.
            Some(LookAlike {
                row,
                external: self.thread_by_id(row.external)?,
                internal: self.thread_by_id(row.internal)?,
            })
        })
    }
}

impl<'c> LookAlike<'c> {
    /// Stable id.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// The thread on the screw.
    #[must_use]
    pub const fn external(&self) -> &'c Thread {
        self.external
    }

    /// The thread in nut or hole.
    #[must_use]
    pub const fn internal(&self) -> &'c Thread {
        self.internal
    }

    /// Whether it goes together and fails later.
    #[must_use]
    pub fn is_cruel(&self) -> bool {
        self.row.half == Half::Cruel
    }

    /// What happens.
    #[must_use]
    pub const fn what_happens(&self) -> &'static str {
        self.row.what_happens
    }

    /// How to tell them apart.
    #[must_use]
    pub const fn how_to_tell(&self) -> &'static str {
        self.row.how_to_tell
    }

    /// Share of the depth that bears.
    #[must_use]
    pub fn overlap_share(&self) -> f64 {
        overlap_share(self.external, self.internal)
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}
