//! The world that a question is asked in: who asks, when, and the shop as it is then.

use super::Call;
use clampbook_book::context::Context;
use clampbook_book::entry::{self, Moment};
use clampbook_book::shop::Shop;
use std::sync::Arc;

/// Owned, so that it can go to the threads that do what takes long.
pub(super) struct World {
    by: entry::Caller,
    pub(super) now: Moment,
    pub(super) shop: Arc<Shop>,
}

impl World {
    /// As the book takes it.
    pub(super) fn asked(&self) -> Context<'_> {
        Context::asked(&self.by, self.now, &self.shop)
    }
}

impl Call<'_> {
    /// The world as this call asks it now.
    pub(super) fn world(&self) -> World {
        World {
            by: self.caller.who.clone(),
            now: self.app.now(),
            shop: self.shop(),
        }
    }
}
