//! Where the journal is: what the writer goes on from.

use crate::protocol::chain::Head;
use crate::protocol::judge::FRESH;
use crate::sqlite::error::RowError;
use crate::sqlite::load::{Known, load};
use crate::sqlite::verify;
use clampbook_book::entry::Moment;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use rusqlite::Connection;
use std::sync::Arc;

/// What the writer goes on from.
#[derive(Clone, Debug)]
pub(crate) struct At {
    /// The last entry.
    pub(crate) head: Head,
    /// When that was written, by the clock as it was then.
    pub(crate) written: Moment,
    /// The shop; nothing before anything was written about it.
    pub(crate) shop: Option<Known<Shop>>,
}

impl At {
    /// As the file has it.
    pub(crate) fn read(conn: &Connection, head: Head, no_shop: &Shop) -> Result<Self, RowError> {
        let shop = load(conn, &Stream::Shop, || no_shop.clone())?;
        let written = verify::written(conn, head)?;
        Ok(Self {
            head,
            written,
            shop,
        })
    }

    /// The next entry is written now. A clock that was set back is told; what it says is kept as it is.
    pub(crate) fn is_written(&mut self, now: Moment) {
        if is_set_back(self.written, now) {
            tracing::warn!(
                entry.seq = self.head.seq,
                seconds = (self.written.0 - now.0) / 1_000_000,
                "the clock was set back: this entry has an earlier time than the one before it"
            );
        }
        self.written = now;
    }

    /// The shop as it is.
    pub(crate) fn shop(&self, no_shop: &Arc<Shop>) -> Arc<Shop> {
        let shop = self.shop.as_ref().map_or(no_shop, |known| &known.state);
        Arc::clone(shop)
    }
}

/// Whether the clock was set back between two entries that follow each other.
pub(crate) fn is_set_back(before: Moment, now: Moment) -> bool {
    now.0 < before.0.saturating_sub(FRESH)
}
