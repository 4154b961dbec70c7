//! A lubrication or finish, and what it does to torque.

mod own;

pub use own::{OwnLubrication, OwnLubricationAsk, WithdrawnLubrication};

use crate::source::{Cited, UsedFor};
use crate::{
    torque::{DRY_SCATTER, LUBRICATED_SCATTER},
    units::NutFactor,
};
use clampbook_data::{Basis, LubricationRow, Source};
use std::{fmt, sync::Arc};

/// One lubrication or finish.
#[derive(Clone, Debug, PartialEq)]
pub struct Lubrication {
    row: Row,
}

/// Where its values stand.
#[derive(Clone, Debug, PartialEq)]
enum Row {
    Published(&'static LubricationRow),
    Own(Arc<OwnLubrication>),
}

impl Lubrication {
    pub(crate) const fn of(row: &'static LubricationRow) -> Self {
        Self {
            row: Row::Published(row),
        }
    }

    /// A lubrication of the shop's own.
    #[must_use]
    pub const fn own(row: Arc<OwnLubrication>) -> Self {
        Self { row: Row::Own(row) }
    }

    /// Whether it is the shop's own and not published.
    #[must_use]
    pub const fn is_own(&self) -> bool {
        matches!(self.row, Row::Own(_))
    }

    /// Stable id, such as `zinc-plated`.
    #[must_use]
    pub fn id(&self) -> &str {
        match &self.row {
            Row::Published(row) => row.id,
            Row::Own(row) => &row.id,
        }
    }

    /// Name as spoken.
    #[must_use]
    pub fn name(&self) -> &str {
        match &self.row {
            Row::Published(row) => row.name,
            Row::Own(row) => &row.name,
        }
    }

    /// Other names it is known by.
    #[must_use]
    pub const fn aliases(&self) -> &'static [&'static str] {
        match self.row {
            Row::Published(row) => row.aliases,
            Row::Own(_) => &[],
        }
    }

    /// Nut factor to work with.
    #[must_use]
    pub fn nut_factor(&self) -> NutFactor {
        match &self.row {
            Row::Published(row) => NutFactor::computed(row.nut_factor),
            Row::Own(row) => row.nut_factor,
        }
    }

    /// Lowest nut factor in the literature, or of the shop's tests.
    #[must_use]
    pub fn low_nut_factor(&self) -> NutFactor {
        match &self.row {
            Row::Published(row) => NutFactor::computed(row.low_nut_factor),
            Row::Own(row) => row.low_nut_factor,
        }
    }

    /// Highest nut factor in the literature, or of the shop's tests.
    #[must_use]
    pub fn high_nut_factor(&self) -> NutFactor {
        match &self.row {
            Row::Published(row) => NutFactor::computed(row.high_nut_factor),
            Row::Own(row) => row.high_nut_factor,
        }
    }

    /// Whether thread and turned face are lubricated; decides the scatter.
    #[must_use]
    pub fn is_lubricated(&self) -> bool {
        match &self.row {
            Row::Published(row) => row.lubricated,
            Row::Own(row) => row.lubricated,
        }
    }

    /// Whether it is an electroplated coat, which loads hard steel with hydrogen.
    #[must_use]
    pub const fn is_electroplated(&self) -> bool {
        match self.row {
            Row::Published(row) => row.electroplated,
            Row::Own(_) => false,
        }
    }

    /// Share by which the clamp load may be off either way at a set torque.
    #[must_use]
    pub fn relative_scatter(&self) -> f64 {
        relative_scatter(self.is_lubricated())
    }

    /// What the values cite, for one use.
    pub fn cited(&self, used_for: UsedFor) -> impl Iterator<Item = Cited<'_>> {
        let (published, own): (&[&'static Source], _) = match &self.row {
            Row::Published(row) => (row.origin.sources, None),
            Row::Own(row) => (&[], Some(&row.source)),
        };
        let basis = self.basis();
        let sources = published.iter().copied().chain(own);
        sources.map(move |source| Cited {
            source,
            used_for,
            basis,
        })
    }

    /// How the values came about.
    #[must_use]
    pub const fn basis(&self) -> Basis {
        match self.row {
            Row::Published(row) => row.origin.basis,
            Row::Own(_) => Basis::Shop,
        }
    }

    /// What else to know, may be empty.
    #[must_use]
    pub fn note(&self) -> &str {
        match &self.row {
            Row::Published(row) => row.origin.note,
            Row::Own(row) => &row.note,
        }
    }
}

/// Share by which the clamp load may be off either way at a set torque, with or without lubrication.
#[must_use]
pub const fn relative_scatter(lubricated: bool) -> f64 {
    if lubricated {
        LUBRICATED_SCATTER
    } else {
        DRY_SCATTER
    }
}

/// The name as spoken.
impl fmt::Display for Lubrication {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
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
