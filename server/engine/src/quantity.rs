//! Lengths and torques as people write them, and how torque is shown.
//!
//! Reading converts from exact definitions only. Showing rounds once, to three significant
//! figures; every face of the product shows a torque through [`show_torque`].

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

    /// Name in full.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::NewtonMetre => "newton metres",
            Self::PoundForceFoot => "pound-force feet",
            Self::PoundForceInch => "pound-force inches",
            Self::KilogramForceMetre => "kilogram-force metres",
        }
    }

    const fn newton_metres(self) -> f64 {
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
    /// The number as entered with its unit, spelled out below 20 lbf·ft: nothing is rounded and nothing added.
    ///
    /// ```
    /// use clampbook_engine::quantity::Torque;
    /// assert_eq!(Torque::parse("55 ft-lb")?.as_entered(), "55 lbf·ft");
    /// assert_eq!(Torque::parse("8.25 N·m")?.as_entered(), "8.25 newton metres");
    /// # Ok::<(), clampbook_engine::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn as_entered(&self) -> String {
        format!("{} {}", self.entered, unit_beside(self.torque, self.unit))
    }

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

/// Below this the unit is spelled out: a small torque read in the wrong unit breaks things.
const SPELLED_OUT_BELOW_LBF_FT: f64 = 20.0;

/// A torque in a unit, to three significant figures; the unit spelled out below 20 lbf·ft.
///
/// ```
/// use clampbook_engine::{quantity::{show_torque, TorqueUnit}, units::NewtonMetres};
/// let torque = NewtonMetres::new(74.8264)?;
/// assert_eq!(show_torque(torque, TorqueUnit::NewtonMetre), "74.8 N·m");
/// assert_eq!(show_torque(torque, TorqueUnit::PoundForceFoot), "55.2 lbf·ft");
/// let small = NewtonMetres::new(9.0)?;
/// assert_eq!(show_torque(small, TorqueUnit::PoundForceInch), "79.7 pound-force inches");
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn show_torque(torque: NewtonMetres, unit: TorqueUnit) -> String {
    let number = three_figures(torque_in(torque, unit));
    format!("{number} {}", unit_beside(torque, unit))
}

/// The unit as it stands beside a torque.
pub(crate) fn unit_beside(torque: NewtonMetres, unit: TorqueUnit) -> &'static str {
    let small = torque.get() < SPELLED_OUT_BELOW_LBF_FT * NEWTON_METRES_PER_POUND_FORCE_FOOT;
    if small { unit.name() } else { unit.symbol() }
}

/// The number of a torque in a unit, unrounded.
#[must_use]
pub fn torque_in(torque: NewtonMetres, unit: TorqueUnit) -> f64 {
    torque.get() / unit.newton_metres()
}

/// A positive number to three significant figures, without exponent: `0.0123`, `74.8`, `12300`.
#[must_use]
pub fn three_figures(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return value.to_string();
    }
    // The exponent after rounding: 99.96 shows as 100, not 100.0.
    let rounded = format!("{value:.2e}");
    let exponent: i32 = rounded
        .split_once('e')
        .and_then(|(_, e)| e.parse().ok())
        .unwrap_or(0);
    let decimals = usize::try_from(2 - exponent).unwrap_or(0);
    let number: f64 = rounded.parse().unwrap_or(value);
    format!("{number:.decimals$}")
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
