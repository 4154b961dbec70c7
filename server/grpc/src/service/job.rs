//! `JobService`.

mod finding;
mod history;
mod marking;
mod ordering;
mod photo;
mod pieces;
mod reading;
mod search;
mod writing;

use super::guard::Guard;
use clampbook_api::v1 as wire;
use clampbook_api::v1::job_service_server::JobService;
use clampbook_app::Operation;
pub(super) use photo::UNDER_WAY;
use tokio_stream::wrappers::ReceiverStream;
use tonic::{Request, Response, Status, Streaming};

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

            type GetPhotoStream = ReceiverStream<Result<wire::GetPhotoResponse, Status>>;

            async fn add_photo(
                &self,
                request: Request<Streaming<wire::AddPhotoRequest>>,
            ) -> Result<Response<wire::AddPhotoResponse>, Status> {
                let received = photo::receive(&self.0, request).await?;
                self.0
                    .call(Operation::AddPhoto, received, async |caller, upload| {
                        self.keep_photo(&caller, upload).await
                    })
                    .await
            }

            async fn get_photo(
                &self,
                request: Request<wire::GetPhotoRequest>,
            ) -> Result<Response<Self::GetPhotoStream>, Status> {
                self.0
                    .call(Operation::GetPhoto, request, async |caller, request| {
                        self.show_photo(&caller, request).await
                    })
                    .await
            }

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
    log_marks = LogMarks(LogMarksRequest) -> LogMarksResponse;
    log_removal = LogRemoval(LogRemovalRequest) -> LogRemovalResponse;
    log_alike_removals = LogAlikeRemovals(LogAlikeRemovalsRequest) -> LogAlikeRemovalsResponse;
    import_removals = ImportRemovals(ImportRemovalsRequest) -> ImportRemovalsResponse;
    log_decision = LogDecision(LogDecisionRequest) -> LogDecisionResponse;
    log_refit = LogRefit(LogRefitRequest) -> LogRefitResponse;
    log_pieces = LogPieces(LogPiecesRequest) -> LogPiecesResponse;
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
    search_jobs = SearchJobs(SearchJobsRequest) -> SearchJobsResponse;
    list_position_history = ListPositionHistory(ListPositionHistoryRequest) -> ListPositionHistoryResponse;
    list_entries = ListEntries(ListEntriesRequest) -> ListEntriesResponse;
}
