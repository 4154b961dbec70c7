//! What was measured of a thread, with the errors of the tools and the wear of the part.

use crate::{
    fault::{Fault, FaultReason},
    units::within,
};

/// Error of a caliper on a thread, in mm.
const CALIPER_ERROR_MM: f64 = 0.05;
/// Error of a pitch gauge or of counting over ten threads, in mm.
const PITCH_ERROR_MM: f64 = 0.03;
/// Wear of crests that is taken into account, in mm.
const WEAR_MM: f64 = 0.10;

/// Measurements as given; what is absent takes the usual value.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MeasuredAsk {
    /// Whether the bore of a nut or hole was measured, not the outside of a screw.
    pub internal: bool,
    /// Outer diameter of the screw or bore of the nut, in mm.
    pub diameter_mm: f64,
    /// Error of that measurement, in mm.
    pub diameter_error_mm: Option<f64>,
    /// Wear of the crests, in mm.
    pub wear_mm: Option<f64>,
    /// Pitch by gauge or counting, in mm.
    pub pitch_mm: Option<f64>,
    /// Error of the pitch, in mm.
    pub pitch_error_mm: Option<f64>,
    /// Angle between the flanks by gauge, in degrees.
    pub flank_angle_deg: Option<f64>,
}

/// Measurements inside their bounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    pub(super) internal: bool,
    pub(super) diameter: f64,
    pub(super) diameter_error: f64,
    pub(super) wear: f64,
    pub(super) pitch: Option<f64>,
    pub(super) pitch_error: f64,
    pub(super) flank_angle: Option<f64>,
}

impl Measured {
    /// Checks measurements.
    ///
    /// # Errors
    /// All that lie outside their bounds, or an error without its measurement.
    pub fn new(ask: &MeasuredAsk) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        let mut checked = |field, quantity, value: f64, bounds, unit| {
            Fault::keep(&mut faults, field, within(quantity, value, bounds, unit)).unwrap_or(value)
        };
        let diameter = checked("diameter", "diameter", ask.diameter_mm, (0.5, 160.0), "mm");
        let error = ask.diameter_error_mm.unwrap_or(CALIPER_ERROR_MM);
        let diameter_error = checked("diameter_error_mm", "error", error, (0.001, 1.0), "mm");
        let wear = ask.wear_mm.unwrap_or(WEAR_MM);
        let wear = checked("wear_mm", "wear", wear, (0.0, 1.0), "mm");
        let pitch = ask
            .pitch_mm
            .map(|p| checked("pitch", "pitch", p, (0.15, 10.0), "mm"));
        let error = ask.pitch_error_mm.unwrap_or(PITCH_ERROR_MM);
        let pitch_error = checked("pitch_error_mm", "error", error, (0.001, 0.5), "mm");
        let flank_angle = ask.flank_angle_deg.map(|a| {
            checked(
                "flank_angle_degrees",
                "flank angle",
                a,
                (40.0, 70.0),
                "degrees",
            )
        });
        if ask.pitch_error_mm.is_some() && ask.pitch_mm.is_none() {
            let why = "an error of the pitch is given but no pitch";
            faults.push(Fault::new(
                "pitch_error_mm",
                FaultReason::Contradicts { why },
            ));
        }
        if faults.is_empty() {
            Ok(Self {
                internal: ask.internal,
                diameter,
                diameter_error,
                wear,
                pitch,
                pitch_error,
                flank_angle,
            })
        } else {
            Err(faults)
        }
    }

    /// The error of the diameter that was used, in mm.
    #[must_use]
    pub const fn diameter_error_mm(&self) -> f64 {
        self.diameter_error
    }

    /// The error of the pitch that was used, in mm.
    #[must_use]
    pub const fn pitch_error_mm(&self) -> f64 {
        self.pitch_error
    }

    /// The wear that was used, in mm.
    #[must_use]
    pub const fn wear_mm(&self) -> f64 {
        self.wear
    }
}
