//! Quantities that cannot hold a wrong value: one newtype per unit, bounds checked on the way in.
//!
//! Unlike units do not mix; arithmetic between them is written out in the formulae. Reading quantities as people
//! write them is in [`crate::quantity`], showing them in [`crate::show`].

use std::fmt;

/// Millimetres in an inch, exactly.
pub const MILLIMETRES_PER_INCH: f64 = 25.4;
/// Newtons in a pound-force, exactly: 0.45359237 kg at 9.80665 m/s².
pub const NEWTONS_PER_POUND_FORCE: f64 = 0.453_592_37 * 9.806_65;
/// Newton metres in a pound-force foot, exactly.
pub const NEWTON_METRES_PER_POUND_FORCE_FOOT: f64 = NEWTONS_PER_POUND_FORCE * 0.3048;
/// Newton metres in a pound-force inch, exactly.
pub const NEWTON_METRES_PER_POUND_FORCE_INCH: f64 = NEWTONS_PER_POUND_FORCE * 0.0254;
/// Newton metres in a kilogram-force metre, exactly.
pub const NEWTON_METRES_PER_KILOGRAM_FORCE_METRE: f64 = 9.806_65;

/// A value outside the bounds of its quantity, or no number at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// What was given, such as `nut factor`.
    pub quantity: &'static str,
    /// The value as given; may be NaN or infinite.
    pub given: f64,
    /// Lowest value allowed.
    pub low: f64,
    /// Highest value allowed.
    pub high: f64,
    /// Unit of all three, empty for a plain number.
    pub unit: &'static str,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            quantity,
            given,
            low,
            high,
            unit,
        } = self;
        let gap = if unit.is_empty() { "" } else { " " };
        let (low, high) = (plain(*low), plain(*high));
        if given.is_finite() {
            let given = plain(*given);
            write!(
                f,
                "{quantity} is {given}{gap}{unit}, allowed is {low} to {high}{gap}{unit}"
            )
        } else {
            write!(
                f,
                "{quantity} is not a number, allowed is {low} to {high}{gap}{unit}"
            )
        }
    }
}

/// A number for a sentence: six figures at most, an exponent only where digits would run on.
fn plain(value: f64) -> String {
    let six = format!("{value:.5e}");
    match six.parse::<f64>() {
        Ok(rounded) if value == 0.0 || (1e-9..1e15).contains(&rounded.abs()) => rounded.to_string(),
        _ => format!("{value:e}"),
    }
}

impl std::error::Error for OutOfRange {}

/// Checks a value against closed bounds; NaN and infinity are outside of every range.
pub(crate) fn within(
    quantity: &'static str,
    given: f64,
    (low, high): (f64, f64),
    unit: &'static str,
) -> Result<f64, OutOfRange> {
    if given.is_finite() && low <= given && given <= high {
        Ok(given)
    } else {
        Err(OutOfRange {
            quantity,
            given,
            low,
            high,
            unit,
        })
    }
}

/// Whether a value exceeds its limit. Two that agree in decimals (0.75 of 120 ksi against 90 ksi, six marks of 2.5 lbf·ft
/// against 15) may differ in the last binary digit; that is no excess.
pub(crate) fn exceeds(value: f64, limit: f64) -> bool {
    value > limit * (1.0 + 1e-12)
}

/// The lesser of two values that were checked; unlike `f64::min` no hiding place for NaN.
pub(crate) fn lesser(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The greater of two values that were checked.
pub(crate) fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident, $quantity:literal, $low:literal ..= $high:literal, $unit:literal;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Lowest value the type holds.
            pub const LOW: f64 = $low;
            /// Highest value the type holds.
            pub const HIGH: f64 = $high;
            /// Unit of the number inside, empty for a plain number.
            pub const UNIT: &'static str = $unit;

            /// Checks the value against [`Self::LOW`] and [`Self::HIGH`].
            ///
            /// # Errors
            /// [`OutOfRange`] for anything outside, for NaN and for infinity.
            pub fn new(value: f64) -> Result<Self, OutOfRange> {
                within($quantity, value, (Self::LOW, Self::HIGH), Self::UNIT).map(Self)
            }

            /// The number, in [`Self::UNIT`].
            #[must_use]
            pub const fn get(self) -> f64 {
                self.0
            }

            /// For results of formulae whose inputs were all checked.
            #[allow(dead_code)] // not every quantity is the result of a formula
            pub(crate) const fn computed(value: f64) -> Self {
                Self(value)
            }
        }
    )*};
}

quantities! {
    /// Length or diameter, in mm.
    Millimetres, "length", 0.01 ..= 10_000.0, "mm";
    /// Area, in mm².
    SquareMillimetres, "area", 0.01 ..= 100_000.0, "mm2";
    /// Force, such as a clamp load, in N.
    Newtons, "force", 1e-3 ..= 1e8, "N";
    /// Stress, in MPa.
    Megapascals, "stress", 1e-3 ..= 10_000.0, "MPa";
    /// Torque, in N·m. Torque and energy are different things: this is never a joule.
    NewtonMetres, "torque", 1e-6 ..= 1e6, "N.m";
    /// Nut factor K of the short form T = K·D·F.
    NutFactor, "nut factor", 0.05 ..= 0.60, "";
    /// Coefficient of friction, of thread or of bearing face.
    Friction, "coefficient of friction", 0.02 ..= 0.80, "";
    /// Load over the change of length it makes, in N/mm.
    Stiffness, "stiffness", 1.0 ..= 1e12, "N/mm";
    /// Angle, in degrees.
    Degrees, "angle", 0.0 ..= 3600.0, "degrees";
    /// Share of a proof load, 1 being all of it.
    Share, "share of proof", 0.05 ..= 1.0, "";
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn what_is_outside_is_refused_and_said() {
        for wrong in [
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            -1.0,
            0.0,
            0.049_999,
            0.600_001,
        ] {
            assert!(NutFactor::new(wrong).is_err(), "{wrong}");
        }
        let error = NutFactor::new(2.0).unwrap_err();
        assert_eq!(error.to_string(), "nut factor is 2, allowed is 0.05 to 0.6");
        let error = NewtonMetres::new(f64::NAN).unwrap_err();
        assert_eq!(
            error.to_string(),
            "torque is not a number, allowed is 0.000001 to 1000000 N.m"
        );
        let error = Newtons::new(-1e300).unwrap_err();
        assert_eq!(
            error.to_string(),
            "force is -1e300 N, allowed is 0.001 to 100000000 N"
        );
        assert_eq!(plain(75_741.932_4), "75741.9");
    }

    #[test]
    fn bounds_themselves_are_inside() {
        assert_eq!(NutFactor::new(0.05).unwrap().get(), 0.05);
        assert_eq!(NutFactor::new(0.60).unwrap().get(), 0.60);
        assert_eq!(Share::new(1.0).unwrap().get(), 1.0);
    }

    #[test]
    fn pound_units_follow_from_exact_definitions() {
        // NIST SP 811 (2008), appendix B.8: 4.448 221 615 260 5 N exactly; 1.355 818 N.m; 0.112 984 8 N.m.
        assert!((NEWTONS_PER_POUND_FORCE - 4.448_221_615_260_5).abs() < 5e-14);
        assert!((NEWTON_METRES_PER_POUND_FORCE_FOOT - 1.355_818).abs() < 5e-7);
        assert!((NEWTON_METRES_PER_POUND_FORCE_INCH - 0.112_984_8).abs() < 5e-8);
    }
}
