//! Lengths and torques as people write them. How they are shown is in [`crate::show`].
//!
//! Reading converts from exact definitions only.

use crate::thread::System;
use crate::units::{
    MILLIMETRES_PER_INCH, Millimetres, NEWTON_METRES_PER_KILOGRAM_FORCE_METRE,
    NEWTON_METRES_PER_POUND_FORCE_FOOT, NEWTON_METRES_PER_POUND_FORCE_INCH, NewtonMetres,
    OutOfRange,
};
use std::fmt;

/// Unit of a torque.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TorqueUnit {
    /// Newton metre.
    NewtonMetre,
    /// Pound-force foot.
    PoundForceFoot,
    /// Pound-force inch.
    PoundForceInch,
    /// Kilogram-force metre.
    KilogramForceMetre,
}

impl TorqueUnit {
    /// All units.
    pub const ALL: [Self; 4] = [
        Self::NewtonMetre,
        Self::PoundForceFoot,
        Self::PoundForceInch,
        Self::KilogramForceMetre,
    ];

    /// The unit that people use at a thread of this family, where nobody chose another.
    #[must_use]
    pub const fn usual(family: System) -> Self {
        match family {
            System::Inch | System::British => Self::PoundForceFoot,
            System::Metric => Self::NewtonMetre,
        }
    }

    /// Symbol as shown.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::NewtonMetre => "N·m",
            Self::PoundForceFoot => "lbf·ft",
            Self::PoundForceInch => "lbf·in",
            Self::KilogramForceMetre => "kgf·m",
        }
    }

    /// Newton metres in one of this unit.
    pub(crate) const fn newton_metres(self) -> f64 {
        match self {
            Self::NewtonMetre => 1.0,
            Self::PoundForceFoot => NEWTON_METRES_PER_POUND_FORCE_FOOT,
            Self::PoundForceInch => NEWTON_METRES_PER_POUND_FORCE_INCH,
            Self::KilogramForceMetre => NEWTON_METRES_PER_KILOGRAM_FORCE_METRE,
        }
    }

    /// The unit people mean, dots and blanks between its parts left out.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let compact: String = text
            .chars()
            .filter(|c| !matches!(c, '.' | '·' | '⋅' | '-' | ' ' | '*'))
            .flat_map(char::to_lowercase)
            .collect();
        Some(match compact.as_str() {
            "nm" | "newtonmetre" | "newtonmetres" | "newtonmeter" | "newtonmeters" => {
                Self::NewtonMetre
            }
            "lbfft" | "lbft" | "ftlb" | "ftlbs" | "ftlbf" | "lbsft" | "footpound"
            | "footpounds" | "poundforcefeet" | "poundforcefoot" => Self::PoundForceFoot,
            "lbfin" | "lbin" | "inlb" | "inlbs" | "inlbf" | "lbsin" | "inchpound"
            | "inchpounds" | "poundforceinches" | "poundforceinch" => Self::PoundForceInch,
            "kgfm" | "kgm" | "mkg" | "mkgf" | "kilogramforcemetres" => Self::KilogramForceMetre,
            _ => return None,
        })
    }
}

/// A torque as entered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Torque {
    /// The torque.
    pub torque: NewtonMetres,
    /// The number as entered.
    pub entered: f64,
    /// The unit as entered.
    pub unit: TorqueUnit,
}

/// Unit of a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LengthUnit {
    /// Millimetre.
    Millimetre,
    /// Inch.
    Inch,
}

impl LengthUnit {
    /// Symbol as shown.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }
}

/// A length as entered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Length {
    /// The length.
    pub length: Millimetres,
    /// The number as entered.
    pub entered: f64,
    /// The unit as entered.
    pub unit: LengthUnit,
}

/// A text that is no length or no torque.
#[derive(Clone, Debug, PartialEq)]
pub enum QuantityError {
    /// No number in front.
    NoNumber {
        /// How to write one.
        like: &'static str,
    },
    /// No unit, or one that is not known.
    UnknownUnit {
        /// The unit as given, may be empty.
        given: String,
        /// Units allowed.
        allowed: &'static str,
    },
    /// A number outside its bounds.
    OutsideRange(OutOfRange),
}

impl Torque {
    /// Reads `60 lbf·ft`, `25 N·m`, `110 in-lb`, `8.3 kgf·m`.
    ///
    /// # Errors
    /// No number, no known unit, or a torque nobody sets.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let (entered, unit) = number_and_unit(text).ok_or(QuantityError::NoNumber {
            like: "60 lbf·ft or 25 N·m",
        })?;
        let unit = TorqueUnit::parse(unit).ok_or_else(|| QuantityError::UnknownUnit {
            given: unit.to_owned(),
            allowed: "N·m, lbf·ft, lbf·in or kgf·m",
        })?;
        let torque = NewtonMetres::new(entered * unit.newton_metres())
            .map_err(QuantityError::OutsideRange)?;
        Ok(Self {
            torque,
            entered,
            unit,
        })
    }
}

impl Length {
    /// Reads `45 mm`, `1-3/4 in`, `1.75in`, `1 3/4"`.
    ///
    /// # Errors
    /// No number, no known unit, or an absurd length.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let (entered, unit) = number_and_unit(text).ok_or(QuantityError::NoNumber {
            like: "45 mm or 1-3/4 in",
        })?;
        let (unit, mm) = match unit.to_lowercase().as_str() {
            "mm" | "millimetre" | "millimetres" => (LengthUnit::Millimetre, entered),
            "in" | "in." | "inch" | "inches" | "\"" | "”" | "″" => {
                (LengthUnit::Inch, entered * MILLIMETRES_PER_INCH)
            }
            _ => {
                return Err(QuantityError::UnknownUnit {
                    given: unit.to_owned(),
                    allowed: "mm or in",
                });
            }
        };
        let length = Millimetres::new(mm).map_err(QuantityError::OutsideRange)?;
        Ok(Self {
            length,
            entered,
            unit,
        })
    }
}

/// A number, decimal or mixed fraction, and what follows it.
fn number_and_unit(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '/' | '-' | ' ')))
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let value = number_of(number.trim().trim_end_matches('-').trim());
    Some((value?, unit.trim()))
}

/// `45`, `1.75`, `3/4`, `1-3/4`, `1 3/4`.
fn number_of(text: &str) -> Option<f64> {
    if let Some((whole, fraction)) = text.split_once(['-', ' ']) {
        let whole: u16 = whole.parse().ok()?;
        return Some(f64::from(whole) + fraction_of(fraction.trim())?);
    }
    if text.contains('/') {
        return fraction_of(text);
    }
    text.parse().ok()
}

fn fraction_of(text: &str) -> Option<f64> {
    let (top, bottom) = text.split_once('/')?;
    let (top, bottom): (u16, u16) = (top.parse().ok()?, bottom.parse().ok()?);
    (top > 0 && top < bottom).then(|| f64::from(top) / f64::from(bottom))
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoNumber { like } => {
                write!(
                    f,
                    "no number above zero before the unit; write it like {like}"
                )
            }
            Self::UnknownUnit { given, allowed } if given.is_empty() => {
                write!(f, "no unit, allowed is {allowed}")
            }
            Self::UnknownUnit { given, allowed } => {
                write!(f, "unit \"{given}\" is not known, allowed is {allowed}")
            }
            Self::OutsideRange(range) => range.fmt(f),
        }
    }
}

impl std::error::Error for QuantityError {}
