//! Everything about one hole, page by page.

use clampbook_api::reason;
use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::{
    DecisionKind, HistoryItem, ListPositionHistoryRequest, ListPositionHistoryResponse,
    RemovalOutcome,
};
use tonic::{Code, Status};

use crate::support::photo::png;
use crate::support::shop::removal;
use crate::support::{Refusal, Shop};

async fn page(
    shop: &Shop,
    joint: &str,
    position: i32,
    size: i32,
    token: &str,
) -> Result<ListPositionHistoryResponse, Status> {
    let request = ListPositionHistoryRequest {
        joint: joint.into(),
        position,
        page_size: size,
        page_token: token.into(),
    };
    let answer = shop.jobs().list_position_history(request).await?;
    Ok(answer.into_inner())
}

fn kinds(items: &[HistoryItem]) -> Vec<&str> {
    let entries = items.iter().filter_map(|item| item.entry.as_ref());
    entries.map(|entry| entry.kind.as_str()).collect()
}

#[tokio::test]
async fn what_was_said_of_a_hole_comes_oldest_first_page_by_page() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let out = plate.takes_out(3, RemovalOutcome::Stiff).await;
    let entry = out.removal.expect("a removal").entry;
    let normal = removal(&plate.name, 3, RemovalOutcome::Normal);
    job.corrects(&entry, Correction::Removal(normal))
        .await
        .await;
    plate.decides(3, DecisionKind::CleanAndReuse).await.await;
    job.adds_photo(&plate.name, 3, &png(1)).await.expect("kept");
    job.adds_photo(&plate.name, 0, &png(2)).await.expect("kept");
    let back = plate.puts_back(3).await;
    let back = back.refit.expect("a refit").entry;
    job.corrects(&back, Correction::Withdrawn(true)).await.await;

    let whole = page(&shop, &plate.name, 3, 0, "")
        .await
        .expect("its history");
    assert_eq!(
        kinds(&whole.items),
        [
            "removed",
            "corrected",
            "decided",
            "photo-added",
            "refitted",
            "corrected"
        ]
    );
    assert_eq!(whole.next_page_token, "");
    let corrects: Vec<_> = whole
        .items
        .iter()
        .map(|i| (i.corrects.as_str(), i.withdraws))
        .collect();
    assert_eq!(corrects[1], (entry.as_str(), false));
    assert_eq!(corrects[5], (back.as_str(), true));
    assert!([0, 2, 3, 4].iter().all(|i| corrects[*i] == ("", false)));

    for size in [1, 2, 5, 6] {
        let (mut together, mut token) = (Vec::new(), String::new());
        loop {
            let next = page(&shop, &plate.name, 3, size, &token)
                .await
                .expect("a page");
            assert!(next.items.len() <= usize::try_from(size).expect("a size"));
            together.extend(next.items);
            token = next.next_page_token;
            if token.is_empty() {
                break;
            }
        }
        assert_eq!(together, whole.items, "in pages of {size}");
    }
    let first = page(&shop, &plate.name, 3, 1, "").await.expect("a page");
    let other = page(&shop, &plate.name, 1, 1, &first.next_page_token).await;
    Refusal::of(&other.expect_err("the token of another hole")).names(&["page_token"]);
    let none = page(&shop, &plate.name, 5, 0, "")
        .await
        .expect_err("there is no such hole");
    Refusal::of(&none).is(Code::NotFound, reason::RESOURCE_NOT_FOUND);
    let untouched = page(&shop, &plate.name, 4, 0, "")
        .await
        .expect("its history");
    assert_eq!(untouched, ListPositionHistoryResponse::default());
}
