//! `SpecificationService`.

use super::guard::Guard;
use crate::app::shop::ShopChange;
use crate::app::{Caller, Error, Operation};
use crate::convert::page::{Sizes, jobs_token, of_list};
use crate::convert::{Check, effective, specification};
use clampbook_api::v1 as wire;
use clampbook_api::v1::specification_service_server::SpecificationService;
use clampbook_book::effective::Effective;
use clampbook_book::fact::Fact;
use tonic::{Request, Response, Status};

const SIZES: Sizes = Sizes {
    default: 100,
    most: 500,
};

/// Jobs that are looked through for one page of uses.
const JOBS: Sizes = Sizes {
    default: 50,
    most: 200,
};

#[derive(Clone)]
pub(super) struct Specifications(pub(super) Guard);

impl Specifications {
    async fn create(
        &self,
        caller: &Caller,
        request: wire::CreateSpecificationRequest,
    ) -> Result<wire::Specification, Error> {
        let change = specification::create(&request)?;
        let operation = Operation::CreateSpecification;
        self.write(caller, operation, change).await
    }

    async fn revise(
        &self,
        caller: &Caller,
        request: wire::ReviseSpecificationRequest,
    ) -> Result<wire::Specification, Error> {
        let change = specification::revise(&request)?;
        let operation = Operation::ReviseSpecification;
        self.write(caller, operation, change).await
    }

    async fn withdraw(
        &self,
        caller: &Caller,
        request: wire::WithdrawSpecificationRequest,
    ) -> Result<wire::Specification, Error> {
        let change = specification::withdraw(&request)?;
        let operation = Operation::WithdrawSpecification;
        self.write(caller, operation, change).await
    }

    /// Writes a change and shows the specification as it is then.
    async fn write(
        &self,
        caller: &Caller,
        operation: Operation,
        change: ShopChange,
    ) -> Result<wire::Specification, Error> {
        let recorded = self.0.app.write_shop(caller, operation, change).await?;
        let id = recorded
            .entries
            .first()
            .and_then(|stored| match &stored.entry.fact {
                Fact::SpecificationStated(stated) => Some(&stated.specification),
                Fact::SpecificationWithdrawn(withdrawn) => Some(&withdrawn.specification),
                _ => None,
            });
        let kept = id.and_then(|id| recorded.shop.specification(id));
        kept.map(specification::newest)
            .ok_or_else(|| Error::broken(&"a request was answered without its specification"))
    }

    fn get(
        &self,
        caller: &Caller,
        request: &wire::GetSpecificationRequest,
    ) -> Result<wire::Specification, Error> {
        let (id, revision) = specification::wanted(request)?;
        let shop = self.0.app.shop(caller, Operation::GetSpecification)?;
        let kept = shop
            .specification(&id)
            .ok_or_else(|| Error::not_found(&request.name))?;
        let is_wanted = |found| revision.is_none_or(|wanted| wanted == found);
        kept.revisions()
            .find(|stated| is_wanted(stated.fact.revision))
            .map(|stated| specification::specification(kept, stated))
            .ok_or_else(|| specification::no_such_revision(request, kept))
    }

    async fn import(
        &self,
        caller: &Caller,
        request: wire::ImportSpecificationsRequest,
    ) -> Result<wire::ImportSpecificationsResponse, Error> {
        let operation = Operation::ImportSpecifications;
        let shop = self.0.app.shop(caller, operation)?;
        let (change, line_count) = specification::import(&request, &shop)?;
        if request.validate_only {
            let facts = self.0.app.check_shop(caller, operation, &change)?;
            return Ok(specification::imported(line_count, facts.iter()));
        }
        let recorded = self.0.app.write_shop(caller, operation, change).await?;
        let facts = recorded.entries.iter().map(|stored| &stored.entry.fact);
        Ok(specification::imported(line_count, facts))
    }

    fn export(
        &self,
        caller: &Caller,
        request: &wire::ExportSpecificationsRequest,
    ) -> Result<wire::ExportSpecificationsResponse, Error> {
        let mut check = Check::default();
        let operation = Operation::ExportSpecifications;
        let list = operation.name();
        let page = check.numbered_page(list, request.page_size, &request.page_token, SIZES);
        let (size, after) = check.finish(page)?;
        let shop = self.0.app.shop(caller, operation)?;
        let in_use = shop.specifications().filter(|kept| kept.is_in_use());
        let (page, next_page_token) = of_list(list, in_use, size, after);
        specification::exported(&page, next_page_token)
    }

    async fn uses(
        &self,
        caller: &Caller,
        request: &wire::ListSpecificationUsesRequest,
    ) -> Result<wire::ListSpecificationUsesResponse, Error> {
        let mut check = Check::default();
        let id = check.specification_name("name", &request.name);
        // A token goes on with the specification that it was given for.
        let list = format!("ListSpecificationUses {}", request.name);
        let page = check.jobs_page(&list, request.page_size, &request.page_token, JOBS);
        let (id, (limit, after)) = check.finish(id.zip(page))?;
        let (jobs, next) = self.0.app.jobs_with_uses(caller, &id, after, limit).await?;
        Ok(wire::ListSpecificationUsesResponse {
            uses: jobs
                .iter()
                .flat_map(|job| effective::uses(job, &id))
                .collect(),
            next_page_token: jobs_token(&list, next),
        })
    }

    async fn effective(
        &self,
        caller: &Caller,
        request: &wire::GetEffectiveValueRequest,
    ) -> Result<wire::GetEffectiveValueResponse, Error> {
        let (job, joint, unit) = effective::wanted(request)?;
        let show = |found: &Effective<'_>| effective::value(&job, found);
        let app = &self.0.app;
        app.effective_value(caller, &job, &joint, unit, show).await
    }

    fn list(
        &self,
        caller: &Caller,
        request: &wire::ListSpecificationsRequest,
    ) -> Result<wire::ListSpecificationsResponse, Error> {
        let mut check = Check::default();
        let list = Operation::ListSpecifications.name();
        let page = check.numbered_page(list, request.page_size, &request.page_token, SIZES);
        let (size, after) = check.finish(page)?;
        let shop = self.0.app.shop(caller, Operation::ListSpecifications)?;
        let all: Vec<_> = shop.specifications().collect();
        let (page, next_page_token) = of_list(list, &all, size, after);
        Ok(wire::ListSpecificationsResponse {
            specifications: page
                .into_iter()
                .map(|kept| specification::newest(kept))
                .collect(),
            next_page_token,
        })
    }
}

#[tonic::async_trait]
impl SpecificationService for Specifications {
    async fn create_specification(
        &self,
        request: Request<wire::CreateSpecificationRequest>,
    ) -> Result<Response<wire::Specification>, Status> {
        let run = async |caller, request| self.create(&caller, request).await;
        let operation = Operation::CreateSpecification;
        self.0.call(operation, request, run).await
    }

    async fn revise_specification(
        &self,
        request: Request<wire::ReviseSpecificationRequest>,
    ) -> Result<Response<wire::Specification>, Status> {
        let run = async |caller, request| self.revise(&caller, request).await;
        let operation = Operation::ReviseSpecification;
        self.0.call(operation, request, run).await
    }

    async fn withdraw_specification(
        &self,
        request: Request<wire::WithdrawSpecificationRequest>,
    ) -> Result<Response<wire::Specification>, Status> {
        let run = async |caller, request| self.withdraw(&caller, request).await;
        let operation = Operation::WithdrawSpecification;
        self.0.call(operation, request, run).await
    }

    async fn get_specification(
        &self,
        request: Request<wire::GetSpecificationRequest>,
    ) -> Result<Response<wire::Specification>, Status> {
        let run = |caller: Caller, request| self.get(&caller, &request);
        self.0.calculate(Operation::GetSpecification, request, run)
    }

    async fn import_specifications(
        &self,
        request: Request<wire::ImportSpecificationsRequest>,
    ) -> Result<Response<wire::ImportSpecificationsResponse>, Status> {
        let run = async |caller, request| self.import(&caller, request).await;
        let operation = Operation::ImportSpecifications;
        self.0.call(operation, request, run).await
    }

    async fn export_specifications(
        &self,
        request: Request<wire::ExportSpecificationsRequest>,
    ) -> Result<Response<wire::ExportSpecificationsResponse>, Status> {
        let run = |caller: Caller, request| self.export(&caller, &request);
        let operation = Operation::ExportSpecifications;
        self.0.calculate(operation, request, run)
    }

    async fn list_specification_uses(
        &self,
        request: Request<wire::ListSpecificationUsesRequest>,
    ) -> Result<Response<wire::ListSpecificationUsesResponse>, Status> {
        let run = async |caller, request| self.uses(&caller, &request).await;
        let operation = Operation::ListSpecificationUses;
        self.0.call(operation, request, run).await
    }

    async fn get_effective_value(
        &self,
        request: Request<wire::GetEffectiveValueRequest>,
    ) -> Result<Response<wire::GetEffectiveValueResponse>, Status> {
        let run = async |caller, request| self.effective(&caller, &request).await;
        let operation = Operation::GetEffectiveValue;
        self.0.call(operation, request, run).await
    }

    async fn list_specifications(
        &self,
        request: Request<wire::ListSpecificationsRequest>,
    ) -> Result<Response<wire::ListSpecificationsResponse>, Status> {
        let run = |caller: Caller, request| self.list(&caller, &request);
        let operation = Operation::ListSpecifications;
        self.0.calculate(operation, request, run)
    }
}
