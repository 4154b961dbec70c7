//! Lubrications of the shop's own.

use super::{Call, Error, ShopChange};
use clampbook_book::command::ShopCommand;
use clampbook_book::fact::{LubricationStated, LubricationWithdrawn};
use clampbook_book::ids::LubricationId;
use clampbook_book::shop::Kept;

impl Call<'_> {
    /// Keeps a lubrication.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn create_lubrication(
        &self,
        change: ShopChange<LubricationStated>,
    ) -> Result<Kept<LubricationStated>, Error> {
        let id = change.what.lubrication.clone();
        self.write_lubrication(id, change, ShopCommand::CreateLubrication)
            .await
    }

    /// Keeps a new revision of a lubrication whose etag is given.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn revise_lubrication(
        &self,
        change: ShopChange<LubricationStated>,
        etag: String,
    ) -> Result<Kept<LubricationStated>, Error> {
        let id = change.what.lubrication.clone();
        let command = |stated| ShopCommand::ReviseLubrication { stated, etag };
        self.write_lubrication(id, change, command).await
    }

    /// Uses a lubrication whose etag is given no more.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn withdraw_lubrication(
        &self,
        change: ShopChange<LubricationWithdrawn>,
        etag: String,
    ) -> Result<Kept<LubricationStated>, Error> {
        let id = change.what.lubrication.clone();
        let command = |withdrawn| ShopCommand::WithdrawLubrication { withdrawn, etag };
        self.write_lubrication(id, change, command).await
    }

    /// Writes a change and reads the lubrication as it is then.
    async fn write_lubrication<W>(
        &self,
        id: LubricationId,
        change: ShopChange<W>,
        command: impl FnOnce(W) -> ShopCommand,
    ) -> Result<Kept<LubricationStated>, Error> {
        let receipt = self.write_shop(change, command).await?;
        let kept = receipt.shop.lubrication(&id).cloned();
        kept.ok_or_else(|| Error::broken(&"a request was answered without its lubrication"))
    }
}
