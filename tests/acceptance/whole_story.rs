//! The whole story through the descriptors: what is sent comes back field by field, every field of an answer is filled some
//! time, and none of it is taken from somebody who may only read.
//!
//! A new field of a message needs a value in the story, `support/whole/story.json`, or a reason not to have one.

mod filled;
mod read_back;

use tonic::Code;

use crate::contract::methods;
use crate::support::whole::{Teller, story};
use crate::support::{Refusal, Shop};

/// Methods that write; what only reads has no request id.
fn writes() -> impl Iterator<Item = prost_reflect::MethodDescriptor> {
    methods().filter(|method| method.input().get_field_by_name("request_id").is_some())
}

#[tokio::test]
async fn nothing_is_taken_from_a_reader() {
    let mut shop = Shop::open();
    let mut teller = Teller::new(shop.channel());
    teller.tells_all().await;
    shop.restart(&["--read-only"]).await;
    teller.speaks_to(shop.channel());
    let before = shop.server.entry_count();
    for method in writes() {
        let (_, said) = story()
            .into_iter()
            .find(|(what, _)| what.ends_with(method.name()))
            .unwrap_or_else(|| panic!("the story has no {}", method.name()));
        let request = teller.request(method.name(), said).await;
        let status = teller.send(&method, &request).await;
        let status = status.expect_err(method.name());
        Refusal::of(&status)
            .is(Code::PermissionDenied, clampbook_api::reason::NOT_ALLOWED)
            .says(method.name());
    }
    assert_eq!(shop.server.entry_count(), before);
}
