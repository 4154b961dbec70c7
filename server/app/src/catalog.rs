//! Reading the catalogue.

use super::{App, Caller, Error, Operation};
use clampbook_engine::hex::HexPart;
use clampbook_engine::metal::Metal;
use clampbook_engine::published_rows::{PublishedTorque, published_torques};
use clampbook_engine::published_targets::{PublishedTarget, published_targets};
use clampbook_engine::{Catalogue, Purpose, Thread};
use std::sync::Arc;

impl App {
    /// The catalogue, for an operation that lists a part of it.
    ///
    /// # Errors
    /// When the caller may not read it.
    pub fn read_catalogue(
        &self,
        caller: &Caller,
        operation: Operation,
    ) -> Result<Arc<Catalogue>, Error> {
        caller.may(operation)?;
        Ok(self.catalogue())
    }

    /// Printed torques, for one purpose or for all.
    ///
    /// # Errors
    /// When the caller may not read them.
    pub fn published_torques(
        &self,
        caller: &Caller,
        purpose: Option<Purpose>,
    ) -> Result<Vec<PublishedTorque>, Error> {
        caller.may(Operation::ListPublishedTorques)?;
        Ok(published_torques()
            .filter(|row| purpose.is_none_or(|wanted| row.purpose() == wanted))
            .collect())
    }

    /// Hexagon heads, nuts and holes by size.
    ///
    /// # Errors
    /// When the caller may not read them.
    pub fn hex_parts(&self, caller: &Caller) -> Result<Vec<HexPart>, Error> {
        caller.may(Operation::ListHexParts)?;
        Ok(HexPart::all().collect())
    }

    /// Metals that are clamped or tapped.
    ///
    /// # Errors
    /// When the caller may not read them.
    pub fn parent_metals(&self, caller: &Caller) -> Result<Vec<Metal>, Error> {
        caller.may(Operation::ListParentMetals)?;
        Ok(Metal::all().collect())
    }

    /// Printed clamp loads and turns.
    ///
    /// # Errors
    /// When the caller may not read them.
    pub fn published_targets(&self, caller: &Caller) -> Result<Vec<PublishedTarget>, Error> {
        caller.may(Operation::ListPublishedTargets)?;
        Ok(published_targets().collect())
    }

    /// The thread that a mechanic means, or the one with a catalogue id, for `show`.
    ///
    /// # Errors
    /// Not found, or a violation of `name` that lists what it could mean.
    pub fn thread<T>(
        &self,
        caller: &Caller,
        said: &str,
        show: impl FnOnce(&Thread) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::GetThread)?;
        let catalogue = self.catalogue();
        if let Some(id) = said.strip_prefix("threads/") {
            let found = catalogue.thread_by_id(id);
            return found.map(show).ok_or_else(|| Error::not_found(said));
        }
        let found = catalogue.thread(said);
        found.map(show).map_err(|reason| match reason {
            clampbook_engine::FaultReason::UnknownThread { .. } => {
                Error::not_found(format!("threads/{said}"))
            }
            other => Error::invalid(vec![clampbook_book::refusal::Violation::new(
                "name",
                other.to_string(),
            )]),
        })
    }
}
