//! The contract of Clampbook: messages, clients and server traits made from `proto/`.
//!
//! Integrators depend on this crate; it pulls in no server and no client program.
//! The names of errors and of call metadata live here too, since both sides act on them.

pub mod reason;

/// Package `clampbook.v1`.
pub mod v1 {
    tonic::include_proto!("clampbook.v1");
}

/// Encoded descriptor set of the contract with comments, for reflection and for tools.
pub const FILE_DESCRIPTOR_SET: &[u8] =
    include_bytes!(concat!(env!("OUT_DIR"), "/clampbook_descriptor.bin"));

/// Call metadata that names the person who speaks, by name or by the id of one of the shop's people.
pub const PERSON_KEY: &str = "clampbook-person";

/// Call metadata that names the device in use.
pub const DEVICE_KEY: &str = "clampbook-device";
