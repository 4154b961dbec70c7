//! The world besides the record: who speaks, when it was said, what time it is, and the shop.

use crate::record::entry::{Caller, Moment};
use crate::record::shop::Shop;

/// The world besides the record. Judging, rules, orders and the sheet take it whole, so that a rule may look at who speaks
/// and at the time; none of them reads a clock.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// Who speaks or asks.
    pub by: Speaker<'a>,
    /// When the caller says it was said; of a question, now.
    pub said: Moment,
    /// The server's time.
    pub now: Moment,
    /// The shop as it is.
    pub shop: &'a Shop,
}

/// Who speaks or asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Speaker<'a> {
    /// The name as it is written down.
    pub name: &'a str,
    /// How the person is known.
    pub known: Known,
}

/// How a person is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// Not at all: no name was given, and the door is open to anyone.
    Open,
    /// By the name that was given, which nobody checked.
    Named,
}

impl<'a> Context<'a> {
    /// The world as a question sees it: said now.
    #[must_use]
    pub fn asked(by: &'a Caller, now: Moment, shop: &'a Shop) -> Self {
        Self {
            by: by.speaker(),
            said: now,
            now,
            shop,
        }
    }
}
