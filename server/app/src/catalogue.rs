//! Reading the catalogue.

use super::{Call, Error, names};
use clampbook_engine::hex::AcrossFlats;
use clampbook_engine::metal::Metal;
use clampbook_engine::published_rows::{PublishedTorque, published_torques};
use clampbook_engine::published_targets::{PublishedTarget, published_targets};
use clampbook_engine::{Purpose, Thread};

impl Call<'_> {
    /// Printed torques, for one purpose or for all.
    #[must_use]
    pub fn published_torques(&self, purpose: Option<Purpose>) -> Vec<PublishedTorque> {
        published_torques()
            .filter(|row| purpose.is_none_or(|wanted| row.purpose() == wanted))
            .collect()
    }

    /// Hexagon heads, nuts and holes by size.
    #[must_use]
    pub fn across_flats(&self) -> Vec<AcrossFlats> {
        AcrossFlats::all().collect()
    }

    /// Metals that are clamped or tapped.
    #[must_use]
    pub fn parent_metals(&self) -> Vec<Metal> {
        Metal::all().collect()
    }

    /// Printed clamp loads and turns.
    #[must_use]
    pub fn published_targets(&self) -> Vec<PublishedTarget> {
        published_targets().collect()
    }

    /// The thread that a mechanic means, or the one with a catalogue id, for `show`.
    ///
    /// # Errors
    /// Not found, or a violation of `name` that lists what it could mean.
    pub fn thread<T>(&self, said: &str, show: impl FnOnce(&Thread) -> T) -> Result<T, Error> {
        let catalogue = self.catalogue();
        if let Some(id) = said.strip_prefix("threads/") {
            let found = catalogue.thread_by_id(id);
            return found.map(show).ok_or_else(|| Error::not_found(said));
        }
        let found = catalogue.thread(said);
        found.map(show).map_err(|reason| match reason {
            clampbook_engine::FaultReason::UnknownThread { .. } => {
                Error::not_found(names::row("threads", said))
            }
            other => Error::invalid(vec![clampbook_book::refusal::Violation::new(
                "name",
                other.to_string(),
            )]),
        })
    }
}

/// What else to know of a thread.
#[must_use]
pub fn thread_note(thread: &Thread) -> String {
    if !thread.is_british() {
        return thread.origin().note.into();
    }
    let area = "No standard publishes a stress area for it; the mean of effective and core diameter is used instead.";
    match thread.origin().note {
        "" => area.into(),
        note => format!("{area} {note}."),
    }
}
