//! Whether the head has room where it sits: free height above its face, free width around it.

use super::grip::GripStack;
use crate::{
    answer::Severity,
    fault::{Fault, FaultReason},
    hex::AcrossFlats,
    remarks::Remarks,
    show::{Rounded, length},
    thread::{System, Thread},
    units::{Millimetres, exceeds, within},
};

/// Width across the corners of a hexagon.
///
/// e = 2 s/√3
///
/// * `flats`: width across flats s, in mm
///
/// Returns e, in mm, for sharp corners; standards take some off (ISO 4014: at least 1.13 s).
///
/// # Sources
/// Geometry of the hexagon.
/// # Example
/// M10, 16 mm across flats: 18.48 mm; ISO 4014 prints at least 17.77.
/// ```
/// # use clampbook_engine::{joint::head::across_corners, units::Millimetres};
/// let e = across_corners(Millimetres::new(16.0)?);
/// assert!((e.get() - 18.48).abs() < 0.005);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn across_corners(flats: Millimetres) -> Millimetres {
    Millimetres::computed(2.0 * flats.get() / 3.0_f64.sqrt())
}

/// A head and the room it has, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Head {
    height: f64,
    diameter: f64,
    room: Option<f64>,
    space: Option<f64>,
}

/// Largest head and largest room that are asked about, in mm. Common practice.
const LARGEST_MM: f64 = 1000.0;

impl Head {
    /// Looks the head up; nothing when neither room nor space was said.
    pub(super) fn resolve(
        ask: &GripStack,
        thread: Option<&Thread>,
        faults: &mut Vec<Fault>,
    ) -> Option<Self> {
        let mut length = |field, what, value: Option<f64>| {
            let checked = within(what, value?, (Millimetres::LOW, LARGEST_MM), "mm");
            Fault::keep(faults, field, checked)
        };
        let room = length("stack.head_room_mm", "room for the head", ask.head_room_mm);
        let space = length(
            "stack.head_space_mm",
            "space for the head",
            ask.head_space_mm,
        );
        let height = length(
            "stack.head_height_mm",
            "height of the head",
            ask.head_height_mm,
        );
        let diameter = length(
            "stack.head_diameter_mm",
            "diameter of the head",
            ask.head_diameter_mm,
        );
        if room.is_none() && space.is_none() {
            return None;
        }
        let thread = thread?;
        let hex = AcrossFlats::of(thread);
        let standard = |given: Option<f64>, of: fn(&AcrossFlats) -> Millimetres| {
            given.or_else(|| hex.as_ref().map(|hex| of(hex).get()))
        };
        let height = standard(height, AcrossFlats::head_height);
        let diameter = standard(diameter, |hex| across_corners(hex.across_flats()));
        let (Some(height), Some(diameter)) = (height, diameter) else {
            faults.push(Fault::new(
                "stack.head_height_mm",
                FaultReason::NoAcrossFlats {
                    thread: thread.to_string(),
                    instead: "head_height_mm and head_diameter_mm",
                },
            ));
            return None;
        };
        Some(Self {
            height,
            diameter,
            room,
            space,
        })
    }

    /// Says where the head does not go in.
    pub(super) fn judge(&self, family: System, remarks: &mut Remarks<'_>) {
        let Self {
            height, diameter, ..
        } = *self;
        if let Some(room) = self.room.filter(|room| exceeds(height, *room)) {
            remarks.find(
                "head-room",
                Severity::Stop,
                height / room,
                format!(
                    "The head is {} high and has {} of room: it touches what is above it.",
                    length(height, family, Rounded::Up),
                    length(room, family, Rounded::Down)
                ),
            );
        }
        if let Some(space) = self.space.filter(|space| exceeds(diameter, *space)) {
            remarks.find(
                "head-space",
                Severity::Stop,
                diameter / space,
                format!(
                    "The head is {} across and has {} of space: it does not sit on its face.",
                    length(diameter, family, Rounded::Up),
                    length(space, family, Rounded::Down)
                ),
            );
        }
    }
}
