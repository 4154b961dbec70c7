//! Thread designations as people say them, and as the standards write them.
//!
//! `7/16-20`, `7/16-20 UNF-2A`, `#10-32`, `1/4-28 UNF-2B-LH`, `M10x1.25`, `M10`, `5/16 UNC`,
//! `1/2 fine`, `1/4 BSF`, `2 BA`. A British thread is only meant where its family is said. A designation may leave things open (`M10`, `1/2 fine`, `10 fine`); [`crate::Catalogue`] finds which thread it is.
//! Printing a designation and parsing it again gives the same designation.

mod parse;
mod text;

use crate::{
    thread::{Series, System, Thread},
    units::MILLIMETRES_PER_INCH,
};
use std::fmt;

/// What was said of a thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Designation {
    pub(crate) size: Size,
    pub(crate) pitch: Option<f64>,
    pub(crate) series: Option<SeriesSaid>,
    pub(crate) class: Option<ToleranceClass>,
    pub(crate) left_hand: bool,
}

/// Nominal size as said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// Metric diameter, in mm.
    Metric(f64),
    /// Inches, in sixty-fourths.
    Inch {
        /// How many sixty-fourths of an inch.
        sixty_fourths: u16,
    },
    /// Number size, said with `#` or `No.`
    Number(u8),
    /// Number of a BA thread.
    Ba(u8),
    /// A small whole number without a mark: a number size or inches.
    NumberOrInch(u8),
}

/// Series as said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeriesSaid {
    /// By its letters.
    Exactly(Series),
    /// `coarse`, inch or metric.
    Coarse,
    /// `fine`, inch or metric.
    Fine,
    /// `extra fine`.
    ExtraFine,
}

/// Tolerance class such as `2A`, `6g`, `4g6g`.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct ToleranceClass {
    text: [u8; 4],
    len: u8,
}

/// A text that is no thread designation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotADesignation;

impl Designation {
    /// Reads a designation.
    ///
    /// # Errors
    /// [`NotADesignation`] when a part of the text makes no sense.
    pub fn parse(text: &str) -> Result<Self, NotADesignation> {
        parse::designation(text)
    }

    /// The full designation of a thread, keeping class and hand as said.
    #[must_use]
    pub(crate) fn completed(mut self, thread: &Thread) -> Self {
        self.size = match (self.size, thread.size().strip_prefix('#')) {
            (Size::NumberOrInch(n), Some(_)) => Size::Number(n),
            (Size::NumberOrInch(n), None) => Size::Inch {
                sixty_fourths: u16::from(n) * 64,
            },
            (size, _) => size,
        };
        self.pitch = match self.size {
            Size::Ba(_) => None,
            _ => Some(thread.threads_per_inch().unwrap_or(thread.pitch().get())),
        };
        self.series = match self.size {
            Size::Metric(_) => None,
            _ => Some(SeriesSaid::Exactly(thread.series())),
        };
        self
    }

    /// Whether a left-hand thread was said.
    #[must_use]
    pub const fn is_left_hand(&self) -> bool {
        self.left_hand
    }

    /// Tolerance class as said.
    #[must_use]
    pub fn tolerance_class(&self) -> Option<&str> {
        self.class.as_ref().map(ToleranceClass::as_str)
    }

    /// Whether this may be what was said.
    #[must_use]
    pub(crate) fn fits(&self, thread: &Thread) -> bool {
        self.size.fits(thread) && self.pitch_fits(thread) && self.series_fits(thread)
    }

    fn pitch_fits(&self, thread: &Thread) -> bool {
        let pitch = thread.threads_per_inch().unwrap_or(thread.pitch().get());
        self.pitch.is_none_or(|said| said == pitch)
    }

    fn series_fits(&self, thread: &Thread) -> bool {
        let series = thread.series();
        match self.series {
            None => !thread.is_british(),
            Some(SeriesSaid::Exactly(said)) => said == series,
            Some(SeriesSaid::Coarse) => matches!(series, Series::Unc | Series::MetricCoarse),
            Some(SeriesSaid::Fine) => matches!(series, Series::Unf | Series::MetricFine),
            Some(SeriesSaid::ExtraFine) => series == Series::Unef,
        }
    }
}

/// No number size has fewer threads per inch, no size of an inch and more has as many.
const FINE_OF_A_NUMBER: f64 = 24.0;

impl Size {
    /// Tells a number size from a whole inch by the threads per inch.
    fn told_apart_by(self, threads_per_inch: Option<f64>) -> Self {
        match (self, threads_per_inch) {
            (Self::NumberOrInch(n), Some(tpi)) if tpi >= FINE_OF_A_NUMBER => Self::Number(n),
            (Self::NumberOrInch(n), Some(_)) => Self::Inch {
                sixty_fourths: u16::from(n) * 64,
            },
            _ => self,
        }
    }

    /// Diameters in mm that it may mean; none for a BA number, which is no measure.
    pub(crate) fn diameters(self) -> [Option<f64>; 2] {
        match self {
            Self::Metric(d) => [Some(d), None],
            Self::Inch { sixty_fourths } => [Some(inches(sixty_fourths)), None],
            Self::Number(n) => [Some(number_size(n)), None],
            Self::NumberOrInch(n) => [Some(number_size(n)), Some(inches(u16::from(n) * 64))],
            Self::Ba(_) => [None, None],
        }
    }

    pub(crate) fn fits(self, thread: &Thread) -> bool {
        match self {
            Self::Metric(d) => thread.diameter().get() == d && thread.system() == System::Metric,
            Self::Inch { sixty_fourths } => is_inch(thread, sixty_fourths),
            Self::Number(n) => is_number(thread, n),
            Self::Ba(n) => thread.series() == Series::Ba && thread.size().parse() == Ok(n),
            Self::NumberOrInch(n) => is_number(thread, n) || is_inch(thread, u16::from(n) * 64),
        }
    }
}

// The tables multiply the same numbers in the same way, so that diameters are equal to the bit.

fn inches(sixty_fourths: u16) -> f64 {
    f64::from(sixty_fourths) / 64.0 * MILLIMETRES_PER_INCH
}

fn number_size(number: u8) -> f64 {
    f64::from(60 + 13 * u16::from(number)) / 1000.0 * MILLIMETRES_PER_INCH
}

fn is_inch(thread: &Thread, sixty_fourths: u16) -> bool {
    thread.diameter().get() == inches(sixty_fourths) && thread.is_fractional_inch()
}

fn is_number(thread: &Thread, number: u8) -> bool {
    thread.diameter().get() == number_size(number) && thread.is_number_size()
}

impl ToleranceClass {
    /// Reads `2A`, `6g` or `4g6g`.
    fn parse(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        let pairs = matches!(bytes.len(), 2 | 4).then(|| bytes.chunks_exact(2))?;
        for pair in pairs {
            if !(pair[0].is_ascii_digit() && b"ABefgGhH".contains(&pair[1])) {
                return None;
            }
        }
        let mut class = Self {
            text: [0; 4],
            len: bytes.len() as u8,
        };
        class.text[..bytes.len()].copy_from_slice(bytes);
        Some(class)
    }

    fn as_str(&self) -> &str {
        // Only ASCII gets in.
        std::str::from_utf8(&self.text[..usize::from(self.len)]).unwrap_or_default()
    }
}

impl fmt::Debug for ToleranceClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl fmt::Display for NotADesignation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("no thread designation; write it like 7/16-20, #10-32 UNF-2A, M10x1.25, 1/4 BSF or 2 BA")
    }
}

impl std::error::Error for NotADesignation {}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Metric(d) => write!(f, "M{d}"),
            Self::Number(n) => write!(f, "#{n}"),
            Self::NumberOrInch(n) | Self::Ba(n) => write!(f, "{n}"),
            Self::Inch { sixty_fourths } => {
                let (whole, rest) = (sixty_fourths / 64, sixty_fourths % 64);
                // A power of two divides both; 64 when nothing is left over.
                let common = 1 << rest.trailing_zeros().min(6);
                match (whole, rest) {
                    (_, 0) => write!(f, "{whole}"),
                    (0, _) => write!(f, "{}/{}", rest / common, 64 / common),
                    (_, _) => write!(f, "{whole}-{}/{}", rest / common, 64 / common),
                }
            }
        }
    }
}

impl fmt::Display for Designation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.size)?;
        let whole_inch =
            matches!(self.size, Size::Inch { sixty_fourths } if sixty_fourths % 64 == 0);
        // British inch families have no number sizes.
        let could_be_number = !matches!(
            self.series,
            Some(SeriesSaid::Exactly(Series::Bsw | Series::Bsf | Series::Bsc))
        );
        if whole_inch && could_be_number && self.pitch.is_none_or(|tpi| tpi >= FINE_OF_A_NUMBER) {
            // Else a whole inch would read as a number size.
            write!(f, " in")?;
        }
        match (self.size, self.pitch) {
            (Size::Metric(_), Some(pitch)) => write!(f, "x{pitch}")?,
            (_, Some(pitch)) => write!(f, "-{pitch}")?,
            (_, None) => {}
        }
        match self.series {
            Some(SeriesSaid::Exactly(series)) => {
                write!(f, " {}", crate::thread::series_name(series))?;
            }
            Some(SeriesSaid::Coarse) => write!(f, " coarse")?,
            Some(SeriesSaid::Fine) => write!(f, " fine")?,
            Some(SeriesSaid::ExtraFine) => write!(f, " extra fine")?,
            None => {}
        }
        if let Some(class) = self.tolerance_class() {
            write!(f, "-{class}")?;
        }
        if self.left_hand {
            write!(f, "-LH")?;
        }
        Ok(())
    }
}
