//! `CatalogService`.

mod writing;

use super::guard::Guard;
use crate::convert::identify::SpannerAsk;
use crate::convert::page::{Sizes, of_list};
use crate::convert::{Check, catalog, identify, own_condition, parts};
use clampbook_api::v1::catalog_service_server::CatalogService;
use clampbook_api::v1::{
    Condition, CreateConditionRequest, GetThreadRequest, IdentifyGradeRequest,
    IdentifyGradeResponse, IdentifySpannerRequest, IdentifySpannerResponse, IdentifyThreadRequest,
    IdentifyThreadResponse, ListConditionsRequest, ListConditionsResponse, ListGradesRequest,
    ListGradesResponse, ListHexPartsRequest, ListHexPartsResponse, ListLookAlikesRequest,
    ListLookAlikesResponse, ListNutGradesRequest, ListNutGradesResponse, ListParentMetalsRequest,
    ListParentMetalsResponse, ListPublishedTargetsRequest, ListPublishedTargetsResponse,
    ListPublishedTorquesRequest, ListPublishedTorquesResponse, ListThreadsRequest,
    ListThreadsResponse, ReviseConditionRequest, Thread, WithdrawConditionRequest,
};
use clampbook_app::{Caller, Error, Operation};
use clampbook_book::{CATALOGUE_EDITION, bounds};
use tonic::{Request, Response, Status};

const SIZES: Sizes = Sizes {
    default: 100,
    most: 500,
};

#[derive(Clone)]
pub(super) struct Catalog(pub(super) Guard);

impl Catalog {
    /// One page of a part of the catalogue, and the token for the next.
    fn list<T, W>(
        &self,
        caller: &Caller,
        operation: Operation,
        (size, token): (i32, &str),
        items: &[T],
        show: impl Fn(&T) -> W,
    ) -> Result<(Vec<W>, String), Error> {
        self.0.app.read_catalogue(caller, operation)?;
        page(operation, (size, token), items, show)
    }
}

/// One page of rows, and the token for the next.
fn page<T, W>(
    operation: Operation,
    (size, token): (i32, &str),
    items: &[T],
    show: impl Fn(&T) -> W,
) -> Result<(Vec<W>, String), Error> {
    let mut check = Check::default();
    let wanted = check.numbered_page(operation.name(), size, token, SIZES);
    let (size, after) = check.finish(wanted)?;
    let (page, next) = of_list(operation.name(), items, size, after);
    Ok((page.into_iter().map(show).collect(), next))
}

#[tonic::async_trait]
impl CatalogService for Catalog {
    async fn list_threads(
        &self,
        request: Request<ListThreadsRequest>,
    ) -> Result<Response<ListThreadsResponse>, Status> {
        let all = self.0.app.catalogue();
        self.0
            .calculate(Operation::ListThreads, request, |caller, request| {
                let wanted = (request.page_size, request.page_token.as_str());
                let (threads, next_page_token) = self.list(
                    &caller,
                    Operation::ListThreads,
                    wanted,
                    all.threads(),
                    catalog::thread,
                )?;
                Ok(ListThreadsResponse {
                    threads,
                    next_page_token,
                    edition: CATALOGUE_EDITION.into(),
                })
            })
    }

    async fn get_thread(
        &self,
        request: Request<GetThreadRequest>,
    ) -> Result<Response<Thread>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::GetThread, request, |caller, request| {
                let mut check = Check::default();
                let name = check.required_text("name", &request.name, bounds::DESIGNATION);
                let name = check.finish(Some(name))?;
                app.thread(&caller, &name, catalog::thread)
            })
    }

    async fn list_grades(
        &self,
        request: Request<ListGradesRequest>,
    ) -> Result<Response<ListGradesResponse>, Status> {
        let all = self.0.app.catalogue();
        self.0
            .calculate(Operation::ListGrades, request, |caller, request| {
                let wanted = (request.page_size, request.page_token.as_str());
                let (grades, next_page_token) =
                    self.list(&caller, Operation::ListGrades, wanted, all.grades(), |g| {
                        catalog::grade(g)
                    })?;
                Ok(ListGradesResponse {
                    grades,
                    next_page_token,
                    edition: CATALOGUE_EDITION.into(),
                })
            })
    }

    async fn list_nut_grades(
        &self,
        request: Request<ListNutGradesRequest>,
    ) -> Result<Response<ListNutGradesResponse>, Status> {
        let all = self.0.app.catalogue();
        self.0
            .calculate(Operation::ListNutGrades, request, |caller, request| {
                let wanted = (request.page_size, request.page_token.as_str());
                let (nut_grades, next_page_token) =
                    self.list(&caller, Operation::ListNutGrades, wanted, all.nuts(), |n| {
                        catalog::nut(n)
                    })?;
                Ok(ListNutGradesResponse {
                    nut_grades,
                    next_page_token,
                    edition: CATALOGUE_EDITION.into(),
                })
            })
    }

    async fn list_conditions(
        &self,
        request: Request<ListConditionsRequest>,
    ) -> Result<Response<ListConditionsResponse>, Status> {
        self.0
            .calculate(Operation::ListConditions, request, |caller, request| {
                let wanted = (request.page_size, request.page_token.as_str());
                let shop = self.0.app.shop(&caller, Operation::ListConditions)?;
                let (conditions, next_page_token) = self.list(
                    &caller,
                    Operation::ListConditions,
                    wanted,
                    shop.catalogue().conditions(),
                    |row| own_condition::condition(&shop, row),
                )?;
                Ok(ListConditionsResponse {
                    conditions,
                    next_page_token,
                    edition: CATALOGUE_EDITION.into(),
                })
            })
    }

    async fn identify_thread(
        &self,
        request: Request<IdentifyThreadRequest>,
    ) -> Result<Response<IdentifyThreadResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::IdentifyThread, request, |caller, request| {
                let ask = identify::measured(&request)?;
                app.identify_thread(&caller, &ask, identify::identified)
            })
    }

    async fn identify_grade(
        &self,
        request: Request<IdentifyGradeRequest>,
    ) -> Result<Response<IdentifyGradeResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::IdentifyGrade, request, |caller, request| {
                let mut check = Check::default();
                let said = check.required_text("marking", &request.marking, bounds::DESIGNATION);
                let said = check.finish(Some(said))?;
                app.identify_grade(&caller, &said, identify::grades)
            })
    }

    async fn identify_spanner(
        &self,
        request: Request<IdentifySpannerRequest>,
    ) -> Result<Response<IdentifySpannerResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::IdentifySpanner, request, |caller, request| {
                let found = match identify::spanner(&request)? {
                    SpannerAsk::Width(width) => app.spanner_of_width(&caller, width)?,
                    SpannerAsk::Thread(said) => app.spanner_of_thread(&caller, &said)?,
                };
                Ok(IdentifySpannerResponse {
                    matches: found.iter().map(identify::spanner_match).collect(),
                })
            })
    }

    async fn list_look_alikes(
        &self,
        request: Request<ListLookAlikesRequest>,
    ) -> Result<Response<ListLookAlikesResponse>, Status> {
        let catalogue = self.0.app.catalogue();
        let all: Vec<_> = catalogue.look_alikes().collect();
        self.0
            .calculate(Operation::ListLookAlikes, request, |caller, request| {
                let wanted = (request.page_size, request.page_token.as_str());
                let (look_alikes, next_page_token) =
                    self.list(&caller, Operation::ListLookAlikes, wanted, &all, |pair| {
                        identify::look_alike(pair)
                    })?;
                Ok(ListLookAlikesResponse {
                    look_alikes,
                    next_page_token,
                    edition: CATALOGUE_EDITION.into(),
                })
            })
    }

    async fn list_published_torques(
        &self,
        request: Request<ListPublishedTorquesRequest>,
    ) -> Result<Response<ListPublishedTorquesResponse>, Status> {
        let operation = Operation::ListPublishedTorques;
        let app = &self.0.app;
        self.0.calculate(operation, request, |caller, request| {
            let mut check = Check::default();
            let purpose = identify::purpose(&mut check, request.purpose);
            // A token belongs to the list of one purpose.
            let list = format!("{}:{}", operation.name(), request.purpose);
            let page = check.numbered_page(&list, request.page_size, &request.page_token, SIZES);
            let (size, after) = check.finish(page)?;
            let rows = app.published_torques(&caller, purpose)?;
            let (page, next_page_token) = of_list(&list, &rows, size, after);
            Ok(ListPublishedTorquesResponse {
                published_torques: page.into_iter().map(identify::published).collect(),
                next_page_token,
                edition: CATALOGUE_EDITION.into(),
            })
        })
    }

    async fn list_hex_parts(
        &self,
        request: Request<ListHexPartsRequest>,
    ) -> Result<Response<ListHexPartsResponse>, Status> {
        let (operation, app) = (Operation::ListHexParts, &self.0.app);
        self.0.calculate(operation, request, |caller, request| {
            let rows = app.hex_parts(&caller)?;
            let wanted = (request.page_size, request.page_token.as_str());
            let (hex_parts, next_page_token) = page(operation, wanted, &rows, parts::hex_part)?;
            Ok(ListHexPartsResponse {
                hex_parts,
                next_page_token,
                edition: CATALOGUE_EDITION.into(),
            })
        })
    }

    async fn list_parent_metals(
        &self,
        request: Request<ListParentMetalsRequest>,
    ) -> Result<Response<ListParentMetalsResponse>, Status> {
        let (operation, app) = (Operation::ListParentMetals, &self.0.app);
        self.0.calculate(operation, request, |caller, request| {
            let rows = app.parent_metals(&caller)?;
            let wanted = (request.page_size, request.page_token.as_str());
            let (parent_metals, next_page_token) = page(operation, wanted, &rows, parts::metal)?;
            Ok(ListParentMetalsResponse {
                parent_metals,
                next_page_token,
                edition: CATALOGUE_EDITION.into(),
            })
        })
    }

    async fn list_published_targets(
        &self,
        request: Request<ListPublishedTargetsRequest>,
    ) -> Result<Response<ListPublishedTargetsResponse>, Status> {
        let (operation, app) = (Operation::ListPublishedTargets, &self.0.app);
        self.0.calculate(operation, request, |caller, request| {
            let rows = app.published_targets(&caller)?;
            let wanted = (request.page_size, request.page_token.as_str());
            let (published_targets, next_page_token) =
                page(operation, wanted, &rows, parts::target)?;
            Ok(ListPublishedTargetsResponse {
                published_targets,
                next_page_token,
                edition: CATALOGUE_EDITION.into(),
            })
        })
    }

    async fn create_condition(
        &self,
        request: Request<CreateConditionRequest>,
    ) -> Result<Response<Condition>, Status> {
        let operation = Operation::CreateCondition;
        let run = async |caller, request| self.create(&caller, request).await;
        self.0.call(operation, request, run).await
    }

    async fn revise_condition(
        &self,
        request: Request<ReviseConditionRequest>,
    ) -> Result<Response<Condition>, Status> {
        let operation = Operation::ReviseCondition;
        let run = async |caller, request| self.revise(&caller, request).await;
        self.0.call(operation, request, run).await
    }

    async fn withdraw_condition(
        &self,
        request: Request<WithdrawConditionRequest>,
    ) -> Result<Response<Condition>, Status> {
        let operation = Operation::WithdrawCondition;
        let run = async |caller, request| self.withdraw(&caller, request).await;
        self.0.call(operation, request, run).await
    }
}
