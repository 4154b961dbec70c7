//! `JobService`.

mod finding;
mod ordering;
mod reading;
mod writing;

use super::guard::Guard;
use crate::app::Operation;
use clampbook_api::v1 as wire;
use clampbook_api::v1::job_service_server::JobService;
use tokio_stream::wrappers::ReceiverStream;
use tonic::{Request, Response, Status};

#[derive(Clone)]
pub(super) struct Jobs(pub(super) Guard);

/// One method of the service: through the guard to the function of the same name.
macro_rules! methods {
    ($($method:ident = $operation:ident($request:ident) -> $answer:ident;)+) => {
        #[tonic::async_trait]
        impl JobService for Jobs {
            $(async fn $method(
                &self,
                request: Request<wire::$request>,
            ) -> Result<Response<wire::$answer>, Status> {
                self.0
                    .call(Operation::$operation, request, async |caller, request| {
                        self.$method(&caller, request).await
                    })
                    .await
            })+

            type WatchEntriesStream = ReceiverStream<Result<wire::Entry, Status>>;

            async fn watch_entries(
                &self,
                request: Request<wire::WatchEntriesRequest>,
            ) -> Result<Response<Self::WatchEntriesStream>, Status> {
                self.0
                    .call(Operation::WatchEntries, request, async |caller, request| {
                        self.watch(caller, request).await
                    })
                    .await
            }
        }
    };
}

methods! {
    create_job = CreateJob(CreateJobRequest) -> Job;
    get_job = GetJob(GetJobRequest) -> Job;
    list_jobs = ListJobs(ListJobsRequest) -> ListJobsResponse;
    create_assembly = CreateAssembly(CreateAssemblyRequest) -> Assembly;
    create_joint = CreateJoint(CreateJointRequest) -> Joint;
    get_joint = GetJoint(GetJointRequest) -> Joint;
    list_joints = ListJoints(ListJointsRequest) -> ListJointsResponse;
    log_removal = LogRemoval(LogRemovalRequest) -> LogRemovalResponse;
    log_alike_removals = LogAlikeRemovals(LogAlikeRemovalsRequest) -> LogAlikeRemovalsResponse;
    import_removals = ImportRemovals(ImportRemovalsRequest) -> ImportRemovalsResponse;
    log_decision = LogDecision(LogDecisionRequest) -> LogDecisionResponse;
    log_refit = LogRefit(LogRefitRequest) -> LogRefitResponse;
    log_finding = LogFinding(LogFindingRequest) -> LogFindingResponse;
    answer_counterpart = AnswerCounterpart(AnswerCounterpartRequest) -> AnswerCounterpartResponse;
    check_replacement = CheckReplacement(CheckReplacementRequest) -> CheckReplacementResponse;
    list_parts_to_order = ListPartsToOrder(ListPartsToOrderRequest) -> ListPartsToOrderResponse;
    list_waits = ListWaits(ListWaitsRequest) -> ListWaitsResponse;
    log_part_wanted = LogPartWanted(LogPartWantedRequest) -> LogPartWantedResponse;
    log_part_arrival = LogPartArrival(LogPartArrivalRequest) -> LogPartArrivalResponse;
    correct_entry = CorrectEntry(CorrectEntryRequest) -> CorrectEntryResponse;
    list_flags = ListFlags(ListFlagsRequest) -> ListFlagsResponse;
    list_rules = ListRules(ListRulesRequest) -> ListRulesResponse;
    get_rule = GetRule(GetRuleRequest) -> Rule;
    list_entries = ListEntries(ListEntriesRequest) -> ListEntriesResponse;
}
