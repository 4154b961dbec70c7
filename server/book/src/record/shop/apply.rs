//! The fold: how an entry changes the state of the shop. Total, as a job's.

use super::{Kept, Shop, Stated, Withdrawn};
use crate::record::entry::Entry;
use crate::record::fact::{Fact, LubricationStated};
use clampbook_engine::{OwnLubrication, OwnLubricationAsk, WithdrawnLubrication};
use std::sync::Arc;

impl Shop {
    /// Applies the next entry of the shop's stream.
    pub fn apply(&mut self, entry: &Entry) {
        self.last = entry.number;
        self.updated = entry.said.written;
        match &entry.fact {
            Fact::LubricationStated(stated) => {
                let id = stated.lubrication.clone();
                let kept = restated(self.lubrication(&id), entry, stated);
                self.lubrications.insert_mut(id, Arc::new(kept));
                self.make_catalogue();
            }
            Fact::LubricationWithdrawn(withdrawn) => {
                let id = &withdrawn.lubrication;
                if let Some(kept) = ended(self.lubrication(id), entry, &withdrawn.reason) {
                    self.lubrications.insert_mut(id.clone(), Arc::new(kept));
                    self.make_catalogue();
                }
            }
            Fact::SpecificationStated(stated) => {
                let id = stated.specification.clone();
                let kept = restated(self.specification(&id), entry, stated);
                self.specifications.insert_mut(id, Arc::new(kept));
            }
            Fact::SpecificationWithdrawn(withdrawn) => {
                let id = &withdrawn.specification;
                if let Some(kept) = ended(self.specification(id), entry, &withdrawn.reason) {
                    self.specifications.insert_mut(id.clone(), Arc::new(kept));
                }
            }
            Fact::PersonStated(stated) => {
                let id = stated.person.clone();
                let kept = restated(self.person(&id), entry, stated);
                self.people.insert_mut(id, Arc::new(kept));
            }
            Fact::PersonWithdrawn(withdrawn) => {
                let id = &withdrawn.person;
                if let Some(kept) = ended(self.person(id), entry, &withdrawn.reason) {
                    self.people.insert_mut(id.clone(), Arc::new(kept));
                }
            }
            Fact::JobOpened(_)
            | Fact::AssemblyAdded(_)
            | Fact::JointAdded(_)
            | Fact::Marked(_)
            | Fact::Removed(_)
            | Fact::Decided(_)
            | Fact::Refitted(_)
            | Fact::Tightened(_)
            | Fact::NotRefitted(_)
            | Fact::PartFound(_)
            | Fact::CounterpartAnswered(_)
            | Fact::PartWanted(_)
            | Fact::PartArrived(_)
            | Fact::PhotoAdded(_)
            | Fact::Corrected(_) => {}
        }
    }

    fn make_catalogue(&mut self) {
        let own = self
            .lubrications()
            .filter(|kept| kept.is_in_use())
            .filter_map(|kept| row(&kept.newest.fact));
        let withdrawn = self.lubrications().filter_map(|kept| {
            let end = kept.withdrawn.as_ref()?;
            Some(WithdrawnLubrication {
                id: kept.newest.fact.lubrication.as_str().into(),
                name: kept.newest.fact.display_name.as_str().into(),
                how: end.to_string().into(),
            })
        });
        let catalogue = self
            .catalogue
            .with_own_lubrications(own)
            .with_withdrawn_lubrications(withdrawn);
        self.catalogue = Arc::new(catalogue);
    }
}

/// What is kept after something was stated, for the first time or again.
fn restated<F: Clone>(before: Option<&Kept<F>>, entry: &Entry, fact: &F) -> Kept<F> {
    Kept {
        newest: Stated {
            entry: entry.number,
            said: entry.said.clone(),
            fact: Arc::new(fact.clone()),
        },
        older: before.map_or_else(Vec::new, |kept| {
            kept.older.iter().chain([&kept.newest]).cloned().collect()
        }),
        withdrawn: None,
    }
}

/// What is kept after it was withdrawn; nothing of what was never there.
fn ended<F: Clone>(before: Option<&Kept<F>>, entry: &Entry, reason: &str) -> Option<Kept<F>> {
    Some(Kept {
        withdrawn: Some(Withdrawn {
            entry: entry.number,
            said: entry.said.clone(),
            reason: reason.into(),
        }),
        ..before?.clone()
    })
}

/// The row of the catalogue; none for numbers that are not believed any more, which nothing is computed with then.
fn row(stated: &LubricationStated) -> Option<Arc<OwnLubrication>> {
    let citation = stated.citation();
    let row = OwnLubrication::new(&OwnLubricationAsk {
        id: stated.lubrication.as_str(),
        name: &stated.display_name,
        nut_factor: stated.nut_factor,
        low_nut_factor: stated.low_nut_factor,
        high_nut_factor: stated.high_nut_factor,
        lubricated: stated.lubricated,
        citation: &citation,
        note: &stated.note,
    });
    row.ok().map(Arc::new)
}

impl LubricationStated {
    /// How an answer cites it.
    #[must_use]
    pub fn citation(&self) -> String {
        let tests = if self.test_count == 1 {
            "test"
        } else {
            "tests"
        };
        format!(
            "own {tests} of {} by {}: {} {tests}, K {} to {}, {} (lubrications/{}, revision {})",
            self.tested_on,
            self.tested_by,
            self.test_count,
            self.low_nut_factor,
            self.high_nut_factor,
            self.tested,
            self.lubrication,
            self.revision
        )
    }
}
