//! A lubrication of the shop's own: a nut factor from its own tests, held beside the published rows.

use crate::{
    fault::{Fault, FaultReason},
    source::Source,
    units::NutFactor,
};

/// What a shop says of its lubrication, before it was looked at.
#[derive(Clone, Copy, Debug)]
pub struct OwnLubricationAsk<'a> {
    /// Stable id.
    pub id: &'a str,
    /// Name as spoken.
    pub name: &'a str,
    /// Nut factor to work with, 0.05 to 0.60.
    pub nut_factor: f64,
    /// Lowest nut factor of the tests.
    pub low_nut_factor: f64,
    /// Highest nut factor of the tests.
    pub high_nut_factor: f64,
    /// Whether thread and turned face are lubricated.
    pub lubricated: bool,
    /// Who tested, when and what, as an answer is to cite it.
    pub citation: &'a str,
    /// What else to know, may be empty.
    pub note: &'a str,
}

/// A lubrication of the shop's own with believable numbers.
#[derive(Debug, PartialEq)]
pub struct OwnLubrication {
    pub(super) id: Box<str>,
    pub(super) name: Box<str>,
    pub(super) nut_factor: NutFactor,
    pub(super) low_nut_factor: NutFactor,
    pub(super) high_nut_factor: NutFactor,
    pub(super) lubricated: bool,
    pub(super) note: Box<str>,
    pub(super) source: Source,
}

/// A lubrication of the shop's own that is not used any more. Nothing is computed with it; who asks for it is told.
#[derive(Clone, Debug, PartialEq)]
pub struct WithdrawnLubrication {
    /// Stable id.
    pub id: Box<str>,
    /// Name as spoken.
    pub name: Box<str>,
    /// By whom, when and why: `by Ada on 2026-03-02: the tin is empty`.
    pub how: Box<str>,
}

impl OwnLubrication {
    /// Takes the row if its numbers can be believed. Whether its name is free, the catalogue knows
    /// ([`crate::Catalogue::is_free_for_lubrication`]).
    ///
    /// # Errors
    /// All faults: a nut factor out of range, or not between the lowest and the highest.
    pub fn new(ask: &OwnLubricationAsk<'_>) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        let mut factor = |field, given| {
            Fault::keep(&mut faults, field, NutFactor::new(given)).map(NutFactor::get)
        };
        let nut_factor = factor("nut_factor", ask.nut_factor);
        let low = factor("low_nut_factor", ask.low_nut_factor);
        let high = factor("high_nut_factor", ask.high_nut_factor);
        if let (Some(nut_factor), Some(low)) = (nut_factor, low)
            && low > nut_factor
        {
            let why = "is above the nut factor to compute with; it must not be higher";
            faults.push(Fault::new(
                "low_nut_factor",
                FaultReason::Contradicts { why },
            ));
        }
        if let (Some(nut_factor), Some(high)) = (nut_factor, high)
            && high < nut_factor
        {
            let why = "is below the nut factor to compute with; it must not be lower";
            faults.push(Fault::new(
                "high_nut_factor",
                FaultReason::Contradicts { why },
            ));
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        Ok(Self {
            id: ask.id.into(),
            name: ask.name.into(),
            nut_factor: NutFactor::computed(ask.nut_factor),
            low_nut_factor: NutFactor::computed(ask.low_nut_factor),
            high_nut_factor: NutFactor::computed(ask.high_nut_factor),
            lubricated: ask.lubricated,
            note: ask.note.into(),
            source: Source {
                id: format!("shop-{}", ask.id).into(),
                citation: ask.citation.to_owned().into(),
            },
        })
    }
}
