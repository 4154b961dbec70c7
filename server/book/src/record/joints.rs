//! The joints of a job: in the order they were added, found by identifier, and cheap to copy, because copies share what
//! did not change.

use crate::record::ids::{EntryNumber, JointId};
use crate::record::joint::Joint;
use rpds::{HashTrieMapSync, VectorSync};
use std::ops::Index;

/// Bits of a place that choose a branch of the list. A change copies a node at each level and touches whatever it branches
/// to, so nodes of eight cost less than the library's of thirty-two.
const BITS: u8 = 3;

/// The joints of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Joints {
    list: VectorSync<Joint>,
    places: HashTrieMapSync<JointId, usize>,
}

impl Default for Joints {
    fn default() -> Self {
        Self {
            list: VectorSync::new_with_bits(BITS),
            places: HashTrieMapSync::new_sync(),
        }
    }
}

impl Joints {
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// All joints, in the order they were added.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = &Joint> {
        self.list.iter()
    }

    /// The joint with this identifier.
    #[must_use]
    pub fn get(&self, id: &JointId) -> Option<&Joint> {
        self.list.get(*self.places.get(id)?)
    }

    /// The joint that this entry added.
    #[must_use]
    pub fn added_by(&self, entry: EntryNumber) -> Option<&Joint> {
        self.iter().find(|joint| joint.entry == entry)
    }

    pub(crate) fn push(&mut self, joint: Joint) {
        let id = &joint.fact.joint;
        if !self.places.contains_key(id) {
            self.places.insert_mut(id.clone(), self.list.len());
        }
        self.list.push_back_mut(joint);
    }

    pub(crate) fn get_mut(&mut self, id: &JointId) -> Option<&mut Joint> {
        self.list.get_mut(*self.places.get(id)?)
    }

    pub(crate) fn added_by_mut(&mut self, entry: EntryNumber) -> Option<&mut Joint> {
        let place = self.iter().position(|joint| joint.entry == entry)?;
        self.list.get_mut(place)
    }
}

impl Index<usize> for Joints {
    type Output = Joint;

    /// The joint at a place in the order of adding.
    ///
    /// # Panics
    /// There are not so many.
    fn index(&self, place: usize) -> &Joint {
        &self.list[place]
    }
}
