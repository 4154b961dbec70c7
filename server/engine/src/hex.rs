//! Hexagon head, nut and clearance hole that go with a thread.

use crate::{thread::Thread, units::Millimetres};
use clampbook_data::{AcrossFlatsRow, HEX_PARTS, Origin, System};
use std::fmt;

/// Dimensions of the standard hexagon parts of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AcrossFlats {
    row: &'static AcrossFlatsRow,
}

impl AcrossFlats {
    /// All hexagon parts, metric before inch, each by size.
    pub fn all() -> impl Iterator<Item = Self> {
        HEX_PARTS.iter().map(|row| Self { row })
    }

    /// The parts for a thread; `None` where the tables have none.
    #[must_use]
    pub fn of(thread: &Thread) -> Option<Self> {
        let fits = |part: &Self| {
            part.row.system == thread.system() && part.diameter() == thread.diameter()
        };
        Self::all().find(fits)
    }

    /// Inch or metric.
    #[must_use]
    pub const fn system(&self) -> System {
        self.row.system
    }

    /// Stable id, such as `hex-m10`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Nominal diameter.
    #[must_use]
    pub const fn diameter(&self) -> Millimetres {
        Millimetres::computed(self.row.diameter_mm)
    }

    /// Height of the head.
    #[must_use]
    pub const fn head_height(&self) -> Millimetres {
        Millimetres::computed(self.row.head_height_mm)
    }

    /// Width across flats.
    #[must_use]
    pub const fn across_flats(&self) -> Millimetres {
        Millimetres::computed(self.row.across_flats_mm)
    }

    /// Minimum outer diameter of the bearing face.
    #[must_use]
    pub const fn bearing_diameter(&self) -> Millimetres {
        Millimetres::computed(self.row.bearing_diameter_mm)
    }

    /// Height of the plain nut.
    #[must_use]
    pub const fn nut_height(&self) -> Millimetres {
        Millimetres::computed(self.row.nut_height_mm)
    }

    /// Clearance hole.
    #[must_use]
    pub const fn clearance_hole(&self) -> Millimetres {
        Millimetres::computed(self.row.clearance_hole_mm)
    }

    /// Slots of the castellated nut, where one exists.
    #[must_use]
    pub const fn castle_slots(&self) -> Option<u32> {
        self.row.castle_slots
    }

    /// Cross hole for the split pin, where one exists.
    #[must_use]
    pub fn cross_hole(&self) -> Option<Millimetres> {
        self.row.cross_hole_mm.map(Millimetres::computed)
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}

/// The size as said: `M10`, `1/2 in`.
impl fmt::Display for AcrossFlats {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.row.system {
            System::Metric => write!(f, "M{}", self.row.size),
            System::Inch | System::British => write!(f, "{} in", self.row.size),
        }
    }
}
