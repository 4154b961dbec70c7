//! A metal that is clamped or tapped: how strong and how stiff it is.

use crate::{fault::FaultReason, units::Megapascals};
use clampbook_data::{Origin, PARENT_METALS, ParentMetalRow};
use std::fmt;

/// One metal of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Metal {
    row: &'static ParentMetalRow,
}

impl Metal {
    /// All metals.
    pub fn all() -> impl Iterator<Item = Self> {
        PARENT_METALS.iter().map(|row| Self { row })
    }

    /// The metal meant by its id, name or another name.
    ///
    /// # Errors
    /// Missing, too long or unknown.
    pub fn called(said: &str) -> Result<Self, FaultReason> {
        let given = said.trim();
        if given.is_empty() {
            return Err(FaultReason::Missing);
        }
        if said.len() > crate::said::LONGEST {
            return Err(FaultReason::TooLong {
                most: crate::said::LONGEST,
            });
        }
        let named = |m: &Self| {
            let mut names = [m.row.id, m.row.name]
                .into_iter()
                .chain(m.row.aliases.iter().copied());
            names.any(|name| name.eq_ignore_ascii_case(given))
        };
        Self::all()
            .find(named)
            .ok_or_else(|| FaultReason::UnknownMetal {
                given: said.to_owned(),
                known: Self::all().map(|m| m.to_string()).collect(),
            })
    }

    /// Stable id, such as `grey-cast-iron`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Other names it is known by.
    #[must_use]
    pub const fn aliases(&self) -> &'static [&'static str] {
        self.row.aliases
    }

    /// Shear strength.
    #[must_use]
    pub const fn shear(&self) -> Megapascals {
        Megapascals::computed(self.row.shear_mpa)
    }

    /// Surface pressure allowed under head, nut or washer.
    #[must_use]
    pub const fn bearing(&self) -> Megapascals {
        Megapascals::computed(self.row.bearing_mpa)
    }

    /// Modulus of elasticity.
    #[must_use]
    pub const fn modulus_mpa(&self) -> f64 {
        self.row.modulus_mpa
    }

    /// Engagement by rule of thumb, as a multiple of the diameter.
    #[must_use]
    pub const fn trade_engagement(&self) -> f64 {
        self.row.trade_engagement
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}

/// The name as spoken.
impl fmt::Display for Metal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.row.name)
    }
}
