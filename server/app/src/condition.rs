//! Lubrications of the shop's own.

use super::{Call, Error, ShopChange};
use clampbook_book::command::ShopCommand;
use clampbook_book::fact::{ConditionStated, ConditionWithdrawn};
use clampbook_book::ids::ConditionId;
use clampbook_book::shop::Kept;

impl Call<'_> {
    /// Keeps a lubrication.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn create_condition(
        &self,
        change: ShopChange<ConditionStated>,
    ) -> Result<Kept<ConditionStated>, Error> {
        let id = change.what.condition.clone();
        self.write_condition(id, change, ShopCommand::CreateCondition)
            .await
    }

    /// Keeps a new revision of a lubrication whose etag is given.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn revise_condition(
        &self,
        change: ShopChange<ConditionStated>,
        etag: String,
    ) -> Result<Kept<ConditionStated>, Error> {
        let id = change.what.condition.clone();
        let command = |stated| ShopCommand::ReviseCondition { stated, etag };
        self.write_condition(id, change, command).await
    }

    /// Uses a lubrication whose etag is given no more.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn withdraw_condition(
        &self,
        change: ShopChange<ConditionWithdrawn>,
        etag: String,
    ) -> Result<Kept<ConditionStated>, Error> {
        let id = change.what.condition.clone();
        let command = |withdrawn| ShopCommand::WithdrawCondition { withdrawn, etag };
        self.write_condition(id, change, command).await
    }

    /// Writes a change and reads the lubrication as it is then.
    async fn write_condition<W>(
        &self,
        id: ConditionId,
        change: ShopChange<W>,
        command: impl FnOnce(W) -> ShopCommand,
    ) -> Result<Kept<ConditionStated>, Error> {
        let receipt = self.write_shop(change, command).await?;
        let kept = receipt.shop.condition(&id).cloned();
        kept.ok_or_else(|| Error::broken(&"a request was answered without its lubrication"))
    }
}
