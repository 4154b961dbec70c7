//! Judging what is said about the shop.

mod conditions;
mod specifications;
mod specified;

use super::Kept;
use crate::command::ShopCommand;
use crate::decide::Context;
use crate::fact::Fact;
use crate::refusal::Refusal;

pub use specifications::wrong_lines;
pub use specified::{MOST_DEGREES, MOST_STEPS};

pub(crate) fn decide(command: &ShopCommand, context: &Context<'_>) -> Result<Vec<Fact>, Refusal> {
    let shop = context.shop;
    match command {
        ShopCommand::CreateCondition(stated) => conditions::create(shop, stated, context),
        ShopCommand::ReviseCondition { stated, etag } => {
            conditions::revise(shop, stated, etag, context)
        }
        ShopCommand::WithdrawCondition { withdrawn, etag } => {
            conditions::withdraw(shop, withdrawn, etag)
        }
        ShopCommand::CreateSpecification(stated) => specifications::create(shop, stated),
        ShopCommand::ReviseSpecification { stated, etag } => {
            specifications::revise(shop, stated, etag)
        }
        ShopCommand::WithdrawSpecification { withdrawn, etag } => {
            specifications::withdraw(shop, withdrawn, etag)
        }
        ShopCommand::ImportSpecifications(lines) => specifications::import(shop, lines),
    }
}

/// What is kept under a name, if it is still in use and as the caller read it.
fn in_use<'k, F>(
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
