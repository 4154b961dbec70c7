//! Writing to the record of the shop, and reading what it keeps.

use super::job::Sending;
use super::{App, Caller, Error, Operation};
use clampbook_book::command::ShopCommand;
use clampbook_book::fact::Fact;
use clampbook_book::judge::{Asked, Context, judge};
use clampbook_book::shop::Shop;
use clampbook_store::{StoredEntry, Work};
use std::sync::Arc;

/// A change of what the shop keeps that somebody wants written.
#[derive(Debug)]
pub(crate) struct ShopChange {
    /// What is wanted.
    pub(crate) command: ShopCommand,
    /// How it was sent.
    pub(crate) sending: Sending,
}

/// What was written about the shop.
#[derive(Debug)]
pub(crate) struct ShopRecorded {
    /// The entries.
    pub(crate) entries: Vec<StoredEntry>,
    /// The shop after them.
    pub(crate) shop: Arc<Shop>,
}

impl App {
    /// Writes a change of what the shop keeps.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub(crate) async fn write_shop(
        &self,
        caller: &Caller,
        operation: Operation,
        change: ShopChange,
    ) -> Result<ShopRecorded, Error> {
        let work = Work::Shop(change.command);
        let receipt = self
            .order(caller, operation, work, change.sending, None)
            .await?;
        Ok(ShopRecorded {
            entries: receipt.entries,
            shop: receipt.shop,
        })
    }

    /// Judges a change of what the shop keeps without writing it.
    ///
    /// # Errors
    /// Every refusal of the book.
    pub(crate) fn check_shop(
        &self,
        caller: &Caller,
        operation: Operation,
        change: &ShopChange,
    ) -> Result<Vec<Fact>, Error> {
        caller.may(operation)?;
        let now = self.now();
        let context = Context {
            by: caller.who.speaker(),
            said: change.sending.said.unwrap_or(now),
            now,
            shop: &self.store.shop(),
        };
        Ok(judge(Asked::OfShop(&change.command), &context)?)
    }

    /// What the shop keeps.
    ///
    /// # Errors
    /// When the caller may not read it.
    pub(crate) fn shop(&self, caller: &Caller, operation: Operation) -> Result<Arc<Shop>, Error> {
        caller.may(operation)?;
        Ok(self.store.shop())
    }
}
