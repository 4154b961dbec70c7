//! A lubrication or finish, and what it does to torque.

use crate::{
    torque::{DRY_SCATTER, LUBRICATED_SCATTER},
    units::NutFactor,
};
use clampbook_data::{ConditionRow, Origin};
use std::fmt;

/// One lubrication or finish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Condition {
    row: &'static ConditionRow,
}

impl Condition {
    pub(crate) const fn of(row: &'static ConditionRow) -> Self {
        Self { row }
    }

    /// Stable id, such as `zinc-plated`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Name as spoken.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.row.name
    }

    /// Other names it is known by.
    #[must_use]
    pub const fn aliases(&self) -> &'static [&'static str] {
        self.row.aliases
    }

    /// Nut factor to work with.
    #[must_use]
    pub const fn nut_factor(&self) -> NutFactor {
        NutFactor::computed(self.row.nut_factor)
    }

    /// Lowest nut factor in the literature.
    #[must_use]
    pub const fn low_nut_factor(&self) -> NutFactor {
        NutFactor::computed(self.row.low_nut_factor)
    }

    /// Highest nut factor in the literature.
    #[must_use]
    pub const fn high_nut_factor(&self) -> NutFactor {
        NutFactor::computed(self.row.high_nut_factor)
    }

    /// Whether thread and turned face are lubricated; decides the scatter.
    #[must_use]
    pub const fn is_lubricated(&self) -> bool {
        self.row.lubricated
    }

    /// Whether it is an electroplated coat, which loads hard steel with hydrogen.
    #[must_use]
    pub const fn is_electroplated(&self) -> bool {
        self.row.electroplated
    }

    /// Share by which the clamp load may be off either way at a set torque.
    #[must_use]
    pub const fn share_of_error(&self) -> f64 {
        if self.row.lubricated {
            LUBRICATED_SCATTER
        } else {
            DRY_SCATTER
        }
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}

/// The name as spoken.
impl fmt::Display for Condition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.row.name)
    }
}

/// Words of a thread nobody should tighten as it is.
pub(crate) const UNFIT_WORDS: [&str; 12] = [
    "rusty",
    "rusted",
    "rust",
    "dirty",
    "dirt",
    "corroded",
    "corrosion",
    "gritty",
    "painted",
    "muddy",
    "scaled",
    "pitted",
];
