//! The photos of a job. Their contents are kept beside the journal, under their hashes.

use crate::record::entry::Said;
use crate::record::fact::PhotoAdded;
use crate::record::ids::EntryNumber;
use rpds::RedBlackTreeMapSync;

/// The photos of a job; copies share what did not change.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Photos(RedBlackTreeMapSync<EntryNumber, Photo>);

/// A photo.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    /// The entry's place.
    pub entry: EntryNumber,
    /// Who and when.
    pub said: Said,
    /// What was said.
    pub fact: PhotoAdded,
}

impl Photos {
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.size()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// All that stand, oldest first.
    pub fn iter(&self) -> impl Iterator<Item = &Photo> {
        self.0.values()
    }

    /// The photo of an entry.
    #[must_use]
    pub fn get(&self, entry: EntryNumber) -> Option<&Photo> {
        self.0.get(&entry)
    }

    pub(crate) fn add(&mut self, entry: EntryNumber, said: &Said, added: &PhotoAdded) {
        let photo = Photo {
            entry,
            said: said.clone(),
            fact: added.clone(),
        };
        self.0.insert_mut(entry, photo);
    }

    /// Takes back a photo.
    pub(crate) fn forget(&mut self, entry: EntryNumber) {
        self.0.remove_mut(&entry);
    }
}

impl Photo {
    /// As people read it beside what it is of: `bracket under the head (photo of entry 14)`.
    #[must_use]
    pub fn spoken(&self) -> String {
        match self.fact.caption.as_str() {
            "" => format!("photo of entry {}", self.entry),
            caption => format!("{caption} (photo of entry {})", self.entry),
        }
    }
}
