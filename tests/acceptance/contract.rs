//! The contract itself, read from its descriptors: shape, names, comments, and that no change goes unseen.
//!
//! A wanted change of the contract is written down with `CLAMPBOOK_BLESS=1`; the diff of `contract.txt` is what is approved.

mod comments;
mod golden;
mod shape;

use prost_reflect::{EnumDescriptor, FileDescriptor, MessageDescriptor, MethodDescriptor};

pub(crate) use crate::support::whole::pool;

/// Our files; not those of protobuf itself.
fn files() -> impl Iterator<Item = FileDescriptor> {
    pool()
        .files()
        .filter(|file| file.package_name() == "clampbook.v1")
}

/// Every message.
pub(crate) fn messages() -> impl Iterator<Item = MessageDescriptor> {
    files().flat_map(|file| file.messages().collect::<Vec<_>>())
}

fn enums() -> impl Iterator<Item = EnumDescriptor> {
    files().flat_map(|file| file.enums().collect::<Vec<_>>())
}

/// Every method of every service.
pub(crate) fn methods() -> impl Iterator<Item = MethodDescriptor> {
    let services = files().flat_map(|file| file.services().collect::<Vec<_>>());
    services.flat_map(|service| service.methods().collect::<Vec<_>>())
}

/// The comment above an element, joined into one line; empty when there is none.
pub(crate) fn comment(file: &FileDescriptor, path: &[i32]) -> String {
    let info = file.file_descriptor_proto().source_code_info.as_ref();
    let places = info
        .map(|info| info.location.as_slice())
        .unwrap_or_default();
    let place = places.iter().find(|place| place.path == path);
    let text = place.and_then(|place| place.leading_comments.as_deref());
    text.unwrap_or_default()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

/// Asserts that nothing was found, and shows all that was.
#[track_caller]
fn none(found: &[String]) {
    assert!(found.is_empty(), "\n{}", found.join("\n"));
}
