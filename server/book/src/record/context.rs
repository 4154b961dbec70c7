//! The world besides the record: who speaks, when it was said, what time it is, and the shop.

use crate::record::entry::{Caller, Moment};
use crate::record::shop::Shop;
use crate::record::speaker::Speaker;

/// The world besides the record. Judging, rules, orders and the sheet take it whole, so that a rule may look at who speaks
/// and at the time; none reads a clock.
#[derive(Clone, Debug)]
pub struct Context<'a> {
    /// Who speaks or asks.
    pub by: Speaker,
    /// When the caller says it was said; of a question, now.
    pub said: Moment,
    /// The server's time.
    pub now: Moment,
    /// The shop as it is.
    pub shop: &'a Shop,
}

impl<'a> Context<'a> {
    /// The world as a question sees it: said now.
    #[must_use]
    pub fn asked(by: &Caller, now: Moment, shop: &'a Shop) -> Self {
        Self {
            by: shop.speaker(by),
            said: now,
            now,
            shop,
        }
    }
}
