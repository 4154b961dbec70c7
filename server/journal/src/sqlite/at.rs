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
    /// When that was written.
    pub(crate) written: Moment,
    /// Whether the clock was behind that when it was last looked at.
    behind: bool,
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
            behind: false,
            shop,
        })
    }

    /// When the next entry is written: now by the clock, but never before the last one. A clock that was set back is told once.
    pub(crate) fn now(&mut self, clock: Moment) -> Moment {
        let behind = is_set_back(self.written, clock);
        if behind && !self.behind {
            tracing::warn!(
                entry.seq = self.head.seq,
                seconds = (self.written.0 - clock.0) / 1_000_000,
                "the clock was set back: until it is past the last entry, entries are written with that one's time"
            );
        }
        self.behind = behind;
        self.written.max(clock)
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
