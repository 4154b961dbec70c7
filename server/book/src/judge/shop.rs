//! Judging what is said about the shop.

use super::{lubrication, person, specification};
use crate::judge::command::ShopCommand;
use crate::judge::refusal::Refusal;
use crate::record::context::Context;
use crate::record::fact::Fact;
use crate::record::shop::Kept;

pub(super) fn decide(command: &ShopCommand, context: &Context<'_>) -> Result<Vec<Fact>, Refusal> {
    let shop = context.shop;
    match command {
        ShopCommand::CreateLubrication(stated) => lubrication::create(shop, stated, context),
        ShopCommand::ReviseLubrication { stated, etag } => {
            lubrication::revise(shop, stated, etag, context)
        }
        ShopCommand::WithdrawLubrication { withdrawn, etag } => {
            lubrication::withdraw(shop, withdrawn, etag)
        }
        ShopCommand::CreateSpecification(stated) => specification::create(shop, stated),
        ShopCommand::ReviseSpecification { stated, etag } => {
            specification::revise(shop, stated, etag)
        }
        ShopCommand::WithdrawSpecification { withdrawn, etag } => {
            specification::withdraw(shop, withdrawn, etag)
        }
        ShopCommand::CreatePerson(stated) => person::create(shop, stated),
        ShopCommand::RevisePerson { stated, etag } => person::revise(shop, stated, etag),
        ShopCommand::WithdrawPerson { withdrawn, etag } => person::withdraw(shop, withdrawn, etag),
        ShopCommand::ImportSpecifications(lines) => specification::import(shop, lines),
    }
}

/// What is kept under a name, if it is still in use and as the caller read it.
pub(super) fn in_use<'k, F>(
    kept: Option<&'k Kept<F>>,
    name: &str,
    etag: &str,
) -> Result<&'k Kept<F>, Refusal> {
    let kept = kept.ok_or_else(|| Refusal::NotFound { name: name.into() })?;
    if kept.etag() != etag {
        return Err(Refusal::Stale {
            subject: name.into(),
            given: etag.into(),
            current: kept.etag(),
        });
    }
    if kept.is_in_use() {
        Ok(kept)
    } else {
        Err(Refusal::State {
            subject: name.into(),
            explanation: "was withdrawn; create another one under a name of its own".into(),
        })
    }
}
