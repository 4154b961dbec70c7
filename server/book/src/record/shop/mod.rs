//! The state of the shop: what the entries of its own stream add up to, and the catalogue that follows from it.
//!
//! Cheap to copy, because copies share what did not change. A job is judged on the shop as it is then.

mod apply;
mod kept;
mod people;

pub use kept::{Kept, Stated, Withdrawn};

use crate::record::entry::Moment;
use crate::record::fact::{LubricationStated, PersonStated, SpecificationStated};
use crate::record::ids::{EntryNumber, LubricationId, PersonId, SpecificationId};
use clampbook_engine::Catalogue;
use rpds::RedBlackTreeMapSync;
use std::sync::Arc;

/// What the shop keeps for all its jobs.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// Number of the last entry; 0 before the first.
    pub last: EntryNumber,
    /// When it was written.
    pub updated: Moment,
    lubrications: RedBlackTreeMapSync<LubricationId, Arc<Kept<LubricationStated>>>,
    specifications: RedBlackTreeMapSync<SpecificationId, Arc<Kept<SpecificationStated>>>,
    people: RedBlackTreeMapSync<PersonId, Arc<Kept<PersonStated>>>,
    catalogue: Arc<Catalogue>,
}

impl Default for Shop {
    fn default() -> Self {
        Self::new()
    }
}

impl Shop {
    /// A shop that nothing was said about yet: it has the published tables.
    #[must_use]
    pub fn new() -> Self {
        Self {
            last: 0,
            updated: Moment(0),
            lubrications: RedBlackTreeMapSync::new_sync(),
            specifications: RedBlackTreeMapSync::new_sync(),
            people: RedBlackTreeMapSync::new_sync(),
            catalogue: Arc::new(Catalogue::built_in()),
        }
    }

    /// The catalogue in force: the published tables and the shop's own rows.
    #[must_use]
    pub fn catalogue(&self) -> &Arc<Catalogue> {
        &self.catalogue
    }

    /// A lubrication of the shop's own, with all its revisions.
    #[must_use]
    pub fn lubrication(&self, id: &LubricationId) -> Option<&Kept<LubricationStated>> {
        self.lubrications.get(id).map(|kept| &**kept)
    }

    /// A published specification, with all its revisions.
    #[must_use]
    pub fn specification(&self, id: &SpecificationId) -> Option<&Kept<SpecificationStated>> {
        self.specifications.get(id).map(|kept| &**kept)
    }

    /// All published specifications, also withdrawn ones, by identifier.
    pub fn specifications(&self) -> impl ExactSizeIterator<Item = &Kept<SpecificationStated>> {
        self.specifications.values().map(|kept| &**kept)
    }

    /// All lubrications of the shop's own, also withdrawn ones, by identifier.
    pub fn lubrications(&self) -> impl ExactSizeIterator<Item = &Kept<LubricationStated>> {
        self.lubrications.values().map(|kept| &**kept)
    }
}
