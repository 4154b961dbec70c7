//! Methods that write: lubrications of the shop's own.

use super::Catalog;
use crate::convert::own_condition;
use clampbook_api::v1 as wire;
use clampbook_app::shop::ShopChange;
use clampbook_app::{Caller, Error, Operation};
use clampbook_book::fact::Fact;

impl Catalog {
    pub(super) async fn create(
        &self,
        caller: &Caller,
        request: wire::CreateConditionRequest,
    ) -> Result<wire::Condition, Error> {
        let change = own_condition::create(&request)?;
        self.write(caller, Operation::CreateCondition, change).await
    }

    pub(super) async fn revise(
        &self,
        caller: &Caller,
        request: wire::ReviseConditionRequest,
    ) -> Result<wire::Condition, Error> {
        let change = own_condition::revise(&request)?;
        self.write(caller, Operation::ReviseCondition, change).await
    }

    pub(super) async fn withdraw(
        &self,
        caller: &Caller,
        request: wire::WithdrawConditionRequest,
    ) -> Result<wire::Condition, Error> {
        let change = own_condition::withdraw(&request)?;
        self.write(caller, Operation::WithdrawCondition, change)
            .await
    }

    /// Writes a change and shows the lubrication as it is then.
    async fn write(
        &self,
        caller: &Caller,
        operation: Operation,
        change: ShopChange,
    ) -> Result<wire::Condition, Error> {
        let recorded = self.0.app.write_shop(caller, operation, change).await?;
        let id = recorded
            .entries
            .first()
            .and_then(|stored| match &stored.entry.fact {
                Fact::ConditionStated(stated) => Some(&stated.condition),
                Fact::ConditionWithdrawn(withdrawn) => Some(&withdrawn.condition),
                _ => None,
            });
        let kept = id.and_then(|id| recorded.shop.condition(id));
        kept.map(own_condition::own)
            .ok_or_else(|| Error::broken(&"a request was answered without its condition"))
    }
}
