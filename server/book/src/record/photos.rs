//! The photos of a job. Their contents are kept beside the journal, under their hashes.

use crate::record::entry::Said;
use crate::record::fact::{PhotoAdded, PhotoOf, Shown};
use crate::record::ids::{AssemblyId, EntryNumber};
use crate::record::job::Job;
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

impl Job {
    /// The assembly that a photo is of, or that what it is of belongs to; nothing for one of the whole machine.
    #[must_use]
    pub fn assembly_shown<'j>(&'j self, photo: &'j PhotoAdded) -> Option<&'j AssemblyId> {
        match &photo.of {
            PhotoOf::Job => None,
            PhotoOf::Assembly(assembly) => Some(assembly),
            PhotoOf::Joint(joint) | PhotoOf::Position(joint, _) => {
                Some(&self.joint(joint)?.fact.assembly)
            }
            PhotoOf::Finding(entry) => Some(&self.findings.get(*entry)?.found.assembly),
        }
    }

    /// The answer about the other side that a photo gives, if one rests on it.
    #[must_use]
    pub fn answer_by_photo(&self, photo: EntryNumber) -> Option<EntryNumber> {
        self.findings
            .iter()
            .filter_map(|finding| finding.answer.as_ref())
            .find(|answer| answer.answered.shown == Shown::AddedPhoto(photo))
            .map(|answer| answer.entry)
    }

    /// The answer about the other side that a photo of a finding gives, if one rests on such a photo.
    #[must_use]
    pub fn answer_by_photo_of(&self, finding: EntryNumber) -> Option<EntryNumber> {
        self.photos
            .iter()
            .filter(|photo| photo.fact.of == PhotoOf::Finding(finding))
            .find_map(|photo| self.answer_by_photo(photo.entry))
    }
}
