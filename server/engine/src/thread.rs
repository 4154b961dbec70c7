//! A thread of the catalogue: what it is called and what follows from it.

use crate::{
    geometry::{
        self, Geometry,
        british::{self, Form},
    },
    units::Millimetres,
};
use clampbook_data::{Origin, ThreadRow};
pub use clampbook_data::{PublishedArea, Series, System};
use std::fmt;

/// One thread size with its basic dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thread {
    row: &'static ThreadRow,
    geometry: Geometry,
}

impl Thread {
    /// Works out the dimensions of a row; the tables were checked when they were built.
    pub(crate) fn of(row: &'static ThreadRow) -> Self {
        let d = Millimetres::computed(row.diameter_mm);
        let p = Millimetres::computed(row.pitch_mm);
        let sixty_degrees = |area| Geometry {
            pitch_diameter: geometry::pitch_diameter(d, p),
            external_minor_diameter: geometry::external_minor_diameter(d, p),
            internal_minor_diameter: geometry::internal_minor_diameter(d, p),
            tensile_stress_area: area,
        };
        let geometry = match (british_form(row.series), row.system) {
            (Some(form), _) => Geometry {
                pitch_diameter: british::effective_diameter(form, d, p),
                external_minor_diameter: british::core_diameter(form, d, p),
                internal_minor_diameter: british::core_diameter(form, d, p),
                tensile_stress_area: british::stress_area(form, d, p),
            },
            (None, System::Metric) => sixty_degrees(geometry::metric_stress_area(d, p)),
            (None, _) => sixty_degrees(geometry::unified_stress_area(d, p)),
        };
        Self { row, geometry }
    }

    /// Stable id, such as `unf-7-16-20`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Inch, metric or British.
    #[must_use]
    pub const fn system(&self) -> System {
        self.row.system
    }

    /// Thread series.
    #[must_use]
    pub const fn series(&self) -> Series {
        self.row.series
    }

    /// The designation as the standard writes it: `7/16-20 UNF`, `#10-32 UNF`, `M10x1.25`, `2 BA`.
    #[must_use]
    pub const fn designation(&self) -> &'static str {
        self.row.designation
    }

    /// Nominal size as said, without pitch: `7/16`, `#10`, `10`.
    #[must_use]
    pub const fn size(&self) -> &'static str {
        self.row.size
    }

    pub(crate) fn is_number_size(&self) -> bool {
        self.row.size.starts_with('#')
    }

    pub(crate) fn is_fractional_inch(&self) -> bool {
        !self.is_number_size() && self.row.system != System::Metric && self.row.series != Series::Ba
    }

    /// Whether it is of one of the old British standards.
    #[must_use]
    pub fn is_british(&self) -> bool {
        self.row.system == System::British
    }

    /// Angle between the flanks, in degrees.
    #[must_use]
    pub fn flank_angle_deg(&self) -> f64 {
        british_form(self.row.series).map_or(60.0, |form| form.flank_angle_deg)
    }

    /// Nominal diameter.
    #[must_use]
    pub const fn diameter(&self) -> Millimetres {
        Millimetres::computed(self.row.diameter_mm)
    }

    /// Pitch.
    #[must_use]
    pub const fn pitch(&self) -> Millimetres {
        Millimetres::computed(self.row.pitch_mm)
    }

    /// Threads per inch, for inch threads.
    #[must_use]
    pub const fn threads_per_inch(&self) -> Option<f64> {
        self.row.threads_per_inch
    }

    /// Dimensions that follow from diameter and pitch.
    #[must_use]
    pub const fn geometry(&self) -> &Geometry {
        &self.geometry
    }

    /// Tensile stress area as printed in a table, beside the computed one.
    #[must_use]
    pub const fn published_stress_area(&self) -> Option<PublishedArea> {
        self.row.published_stress_area
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}

/// The form of a British thread; `None` for the 60° threads of ISO and ASME.
const fn british_form(series: Series) -> Option<Form> {
    match series {
        Series::Bsw | Series::Bsf => Some(british::WHITWORTH),
        Series::Ba => Some(british::BA),
        Series::Bsc => Some(british::CYCLE),
        Series::Unc
        | Series::Unf
        | Series::Unef
        | Series::Un
        | Series::Uns
        | Series::MetricCoarse
        | Series::MetricFine => None,
    }
}

/// The designation as the standard writes it.
impl fmt::Display for Thread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.row.designation)
    }
}

/// The series as the standard writes it; metric series are `coarse` and `fine`.
#[must_use]
pub const fn series_name(series: Series) -> &'static str {
    match series {
        Series::Unc => "UNC",
        Series::Unf => "UNF",
        Series::Unef => "UNEF",
        Series::Un => "UN",
        Series::Uns => "UNS",
        Series::MetricCoarse => "coarse",
        Series::MetricFine => "fine",
        Series::Bsw => "BSW",
        Series::Bsf => "BSF",
        Series::Ba => "BA",
        Series::Bsc => "BSC",
    }
}
