//! Lists: page after page until the end, put together into one answer.

use clampbook_api::v1::{
    ExportSpecificationsResponse, ListAcrossFlatsResponse, ListEntriesResponse, ListFlagsResponse,
    ListGradesResponse, ListJobsResponse, ListJointsResponse, ListLookAlikesResponse,
    ListLubricationsResponse, ListNutGradesResponse, ListParentMetalsResponse,
    ListPartsToOrderResponse, ListPeopleResponse, ListPositionHistoryResponse,
    ListPublishedTargetsResponse, ListPublishedTorquesResponse, ListRulesResponse,
    ListSpecificationUsesResponse, ListSpecificationsResponse, ListThreadsResponse,
    ListWaitsResponse, SearchJobsResponse,
};

use crate::error::Failure;

/// One page of a list.
pub(super) trait Page: Default {
    /// Takes over the rows of the page that follows, and with them its token.
    fn extend(&mut self, next: Self);

    /// Token of the page that follows; empty at the end.
    fn next_page_token(&self) -> &str;
}

macro_rules! pages {
    ($($page:ident $rows:ident $(keeps $kept:ident)?;)+) => {
        $(impl Page for $page {
            fn extend(&mut self, next: Self) {
                self.$rows.extend(next.$rows);
                self.next_page_token = next.next_page_token;
                $(self.$kept = next.$kept;)?
            }

            fn next_page_token(&self) -> &str {
                &self.next_page_token
            }
        })+
    };
}

pages! {
    ListLubricationsResponse lubrications keeps edition;
    ListEntriesResponse entries;
    ListFlagsResponse flags;
    ListGradesResponse grades keeps edition;
    ListJobsResponse jobs;
    ListJointsResponse joints;
    ListNutGradesResponse nut_grades keeps edition;
    ListLookAlikesResponse look_alikes keeps edition;
    ListPublishedTorquesResponse published_torques keeps edition;
    ListAcrossFlatsResponse across_flats keeps edition;
    ListParentMetalsResponse parent_metals keeps edition;
    ListPublishedTargetsResponse published_targets keeps edition;
    ListPartsToOrderResponse parts;
    ListPeopleResponse people;
    ListPositionHistoryResponse items;
    ListRulesResponse rules;
    ListSpecificationUsesResponse uses;
    ListSpecificationsResponse specifications;
    ListThreadsResponse threads keeps edition;
    ListWaitsResponse waits;
    SearchJobsResponse places;
}

impl Page for ExportSpecificationsResponse {
    /// Every page begins with the header line; the whole table has it once.
    fn extend(&mut self, next: Self) {
        let rows = next.csv.split_once('\n').map_or("", |(_, rows)| rows);
        let is_first = self.csv.is_empty();
        self.csv.push_str(if is_first { &next.csv } else { rows });
        self.next_page_token = next.next_page_token;
    }

    fn next_page_token(&self) -> &str {
        &self.next_page_token
    }
}

/// The whole list. `page` fetches the page of a token.
pub(super) async fn all<P: Page>(
    page: impl AsyncFn(String) -> Result<P, Failure>,
) -> Result<P, Failure> {
    let mut whole = P::default();
    loop {
        let token = whole.next_page_token().to_owned();
        whole.extend(page(token).await?);
        if whole.next_page_token().is_empty() {
            return Ok(whole);
        }
    }
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Rule;

    use super::*;

    #[tokio::test]
    async fn pages_come_together_even_when_one_is_empty() {
        let page = async |token: String| {
            let (names, next): (&[&str], &str) = match token.as_str() {
                "" => (&["a", "b"], "2"),
                "2" => (&[], "3"),
                _ => (&["c"], ""),
            };
            let rule = |name: &&str| Rule {
                name: (*name).to_owned(),
                ..Default::default()
            };
            Ok(ListRulesResponse {
                rules: names.iter().map(rule).collect(),
                next_page_token: next.to_owned(),
            })
        };
        let whole = all(page).await.expect("all pages");
        let names: Vec<_> = whole.rules.iter().map(|rule| rule.name.as_str()).collect();
        assert_eq!(names, ["a", "b", "c"]);
        assert_eq!(whole.next_page_token, "");
    }
}
