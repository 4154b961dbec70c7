//! A photo: what it is of, and what it shows.

use super::Spoken;
use super::told::{Told, place};
use crate::record::fact::{PhotoAdded, PhotoOf};

impl Spoken for PhotoAdded {
    fn text(&self) -> String {
        let of = match &self.of {
            PhotoOf::Job => "the machine".to_owned(),
            PhotoOf::Assembly(assembly) => assembly.to_string(),
            PhotoOf::Joint(joint) => joint.to_string(),
            PhotoOf::Position(joint, position) => place(joint, *position),
            PhotoOf::Finding(entry) => format!("finding {entry}"),
        };
        let (kind, kib) = (self.media_type.spoken(), self.size_bytes.div_ceil(1024));
        Told::of(format!("Photo of {of}"))
            .say(&self.caption)
            .say(format!("{kind}, {kib} KiB"))
            .text()
    }
}
