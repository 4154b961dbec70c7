//! What was sent comes back, field by field.

use crate::support::Shop;
use crate::support::whole::Teller;

#[tokio::test]
async fn the_whole_story_is_taken() {
    let shop = Shop::open();
    Teller::new(shop.channel()).tells_all().await;
}
