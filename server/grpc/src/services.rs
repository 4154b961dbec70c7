//! The services of the contract: each method goes through the guard to the function of its noun.

use crate::guard::Guard;
use crate::{
    assembly, catalogue, chart, correction, decision, effective, entry, finding, flag, history,
    identify, job, joint, lubrication, many, mark, parts_to_order, people, photo, pieces,
    procedure, published, refit, removal, replacement, search, sheet, specification, strength,
    stretch, tightening, torque, wrench,
};
use clampbook_api::v1 as wire;
use clampbook_api::v1::catalog_service_server::{CatalogService, CatalogServiceServer};
use clampbook_api::v1::job_service_server::{JobService, JobServiceServer};
use clampbook_api::v1::people_service_server::{PeopleService, PeopleServiceServer};
use clampbook_api::v1::sheet_service_server::{SheetService, SheetServiceServer};
use clampbook_api::v1::specification_service_server::{
    SpecificationService, SpecificationServiceServer,
};
use clampbook_api::v1::torque_service_server::{TorqueService, TorqueServiceServer};
use clampbook_app::{App, Operation, Role};
use tonic::service::RoutesBuilder;
use tonic::{Request, Response, Status, Streaming};

/// Most bytes of an ordinary request.
const REQUEST_BYTES: usize = 256 * 1024;
/// Most bytes of a request that may carry a whole strip-down or a book of specifications.
const IMPORT_BYTES: usize = 1024 * 1024;
/// Most bytes of an answer.
const ANSWER_BYTES: usize = 4 * 1024 * 1024;

/// The names of the services, for health.
pub const NAMES: [&str; 6] = [
    "clampbook.v1.CatalogService",
    "clampbook.v1.TorqueService",
    "clampbook.v1.JobService",
    "clampbook.v1.SpecificationService",
    "clampbook.v1.SheetService",
    "clampbook.v1.PeopleService",
];

/// Adds all services.
pub fn add(routes: &mut RoutesBuilder, app: &App, role: Role) {
    let methods = Methods(Guard::new(app.clone(), role));
    macro_rules! add {
        ($($server:ident up to $bytes:ident;)+) => {
            $(routes.add_service(
                $server::new(methods.clone())
                    .max_decoding_message_size($bytes)
                    .max_encoding_message_size(ANSWER_BYTES),
            );)+
        };
    }
    add! {
        CatalogServiceServer up to REQUEST_BYTES;
        TorqueServiceServer up to REQUEST_BYTES;
        JobServiceServer up to IMPORT_BYTES;
        SpecificationServiceServer up to IMPORT_BYTES;
        SheetServiceServer up to REQUEST_BYTES;
        PeopleServiceServer up to REQUEST_BYTES;
    }
}

/// The methods of all services.
#[derive(Clone)]
struct Methods(Guard);

/// The methods of a service. Those that wait for the journal come first, then those that only calculate, then streams.
macro_rules! service {
    (
        $service:ident:
        waits { $($wait:ident: $waiting:ident($wait_request:ident) -> $wait_answer:ident = $wait_run:path;)* }
        calculates { $($method:ident: $operation:ident($request:ident) -> $answer:ident = $run:path;)* }
        $($stream:item)*
    ) => {
        #[tonic::async_trait]
        impl $service for Methods {
            $(async fn $wait(
                &self,
                request: Request<wire::$wait_request>,
            ) -> Result<Response<wire::$wait_answer>, Status> {
                self.0.call(Operation::$waiting, request, $wait_run).await
            })*

            $(async fn $method(
                &self,
                request: Request<wire::$request>,
            ) -> Result<Response<wire::$answer>, Status> {
                self.0.calculate(Operation::$operation, request, $run)
            })*

            $($stream)*
        }
    };
}

service! {
    CatalogService:
    waits {
        create_lubrication: CreateLubrication(CreateLubricationRequest) -> Lubrication = lubrication::create;
        revise_lubrication: ReviseLubrication(ReviseLubricationRequest) -> Lubrication = lubrication::revise;
        withdraw_lubrication: WithdrawLubrication(WithdrawLubricationRequest) -> Lubrication = lubrication::withdraw;
    }
    calculates {
        list_threads: ListThreads(ListThreadsRequest) -> ListThreadsResponse = catalogue::threads;
        get_thread: GetThread(GetThreadRequest) -> Thread = catalogue::thread;
        list_grades: ListGrades(ListGradesRequest) -> ListGradesResponse = catalogue::grades;
        list_nut_grades: ListNutGrades(ListNutGradesRequest) -> ListNutGradesResponse = catalogue::nut_grades;
        list_lubrications: ListLubrications(ListLubricationsRequest) -> ListLubricationsResponse = catalogue::lubrications;
        list_look_alikes: ListLookAlikes(ListLookAlikesRequest) -> ListLookAlikesResponse = catalogue::look_alikes;
        list_published_torques: ListPublishedTorques(ListPublishedTorquesRequest) -> ListPublishedTorquesResponse = catalogue::published_torques;
        list_across_flats: ListAcrossFlats(ListAcrossFlatsRequest) -> ListAcrossFlatsResponse = catalogue::across_flats;
        list_parent_metals: ListParentMetals(ListParentMetalsRequest) -> ListParentMetalsResponse = catalogue::parent_metals;
        list_published_targets: ListPublishedTargets(ListPublishedTargetsRequest) -> ListPublishedTargetsResponse = catalogue::published_targets;
        identify_thread: IdentifyThread(IdentifyThreadRequest) -> IdentifyThreadResponse = identify::thread;
        identify_grade: IdentifyGrade(IdentifyGradeRequest) -> IdentifyGradeResponse = identify::grade;
        identify_spanner: IdentifySpanner(IdentifySpannerRequest) -> IdentifySpannerResponse = identify::spanner;
    }
}

service! {
    TorqueService:
    waits {}
    calculates {
        compute_torque: ComputeTorque(ComputeTorqueRequest) -> ComputeTorqueResponse = torque::compute;
        render_chart: RenderChart(RenderChartRequest) -> RenderChartResponse = chart::render;
        restate_torque: RestateTorque(RestateTorqueRequest) -> RestateTorqueResponse = published::restate;
        set_wrench: SetWrench(SetWrenchRequest) -> SetWrenchResponse = wrench::set;
        plan_tightening: PlanTightening(PlanTighteningRequest) -> PlanTighteningResponse = procedure::plan;
        compute_long_form_torque: ComputeLongFormTorque(ComputeLongFormTorqueRequest) -> ComputeLongFormTorqueResponse = strength::compute_long_form;
        check_joint: CheckJoint(CheckJointRequest) -> CheckJointResponse = strength::check_joint;
        fit_length: FitLength(FitLengthRequest) -> FitLengthResponse = strength::fit_length;
        compute_stretch: ComputeStretch(ComputeStretchRequest) -> ComputeStretchResponse = stretch::compute;
        align_castellated_nut: AlignCastellatedNut(AlignCastellatedNutRequest) -> AlignCastellatedNutResponse = stretch::align;
    }

    type ComputeTorquesStream = many::Answers;

    async fn compute_torques(
        &self,
        request: Request<Streaming<wire::ComputeTorquesRequest>>,
    ) -> Result<Response<Self::ComputeTorquesStream>, Status> {
        many::compute(&self.0, request)
    }
}

service! {
    JobService:
    waits {
        create_job: CreateJob(CreateJobRequest) -> Job = job::create;
        get_job: GetJob(GetJobRequest) -> Job = job::get;
        list_jobs: ListJobs(ListJobsRequest) -> ListJobsResponse = job::list;
        create_assembly: CreateAssembly(CreateAssemblyRequest) -> Assembly = assembly::create;
        create_joint: CreateJoint(CreateJointRequest) -> Joint = joint::create;
        get_joint: GetJoint(GetJointRequest) -> Joint = joint::get;
        list_joints: ListJoints(ListJointsRequest) -> ListJointsResponse = joint::list;
        log_match_marks: LogMatchMarks(LogMatchMarksRequest) -> LogMatchMarksResponse = mark::log;
        log_removal: LogRemoval(LogRemovalRequest) -> LogRemovalResponse = removal::log;
        log_alike_removals: LogAlikeRemovals(LogAlikeRemovalsRequest) -> LogAlikeRemovalsResponse = removal::log_alike;
        import_removals: ImportRemovals(ImportRemovalsRequest) -> ImportRemovalsResponse = removal::import;
        log_decision: LogDecision(LogDecisionRequest) -> LogDecisionResponse = decision::log;
        log_refit: LogRefit(LogRefitRequest) -> LogRefitResponse = refit::log;
        log_tightening: LogTightening(LogTighteningRequest) -> LogTighteningResponse = tightening::log;
        log_not_refitted: LogNotRefitted(LogNotRefittedRequest) -> LogNotRefittedResponse = pieces::log;
        log_finding: LogFinding(LogFindingRequest) -> LogFindingResponse = finding::log;
        answer_counterpart: AnswerCounterpart(AnswerCounterpartRequest) -> AnswerCounterpartResponse = finding::answer;
        check_replacement: CheckReplacement(CheckReplacementRequest) -> CheckReplacementResponse = replacement::check;
        list_parts_to_order: ListPartsToOrder(ListPartsToOrderRequest) -> ListPartsToOrderResponse = parts_to_order::list;
        list_waits: ListWaits(ListWaitsRequest) -> ListWaitsResponse = parts_to_order::waits;
        log_part_wanted: LogPartWanted(LogPartWantedRequest) -> LogPartWantedResponse = parts_to_order::log_wanted;
        log_part_arrival: LogPartArrival(LogPartArrivalRequest) -> LogPartArrivalResponse = parts_to_order::log_arrival;
        correct_entry: CorrectEntry(CorrectEntryRequest) -> CorrectEntryResponse = correction::correct;
        list_flags: ListFlags(ListFlagsRequest) -> ListFlagsResponse = flag::list;
        list_rules: ListRules(ListRulesRequest) -> ListRulesResponse = flag::rules;
        get_rule: GetRule(GetRuleRequest) -> Rule = flag::rule;
        search_jobs: SearchJobs(SearchJobsRequest) -> SearchJobsResponse = search::jobs;
        list_position_history: ListPositionHistory(ListPositionHistoryRequest) -> ListPositionHistoryResponse = history::list;
        list_entries: ListEntries(ListEntriesRequest) -> ListEntriesResponse = entry::list;
    }
    calculates {}

    type GetPhotoStream = photo::Sent;

    async fn add_photo(
        &self,
        request: Request<Streaming<wire::AddPhotoRequest>>,
    ) -> Result<Response<wire::AddPhotoResponse>, Status> {
        photo::add(&self.0, request).await
    }

    async fn get_photo(
        &self,
        request: Request<wire::GetPhotoRequest>,
    ) -> Result<Response<Self::GetPhotoStream>, Status> {
        let room = self.0.photos.clone();
        let get = async |call, request| photo::get(call, request, room).await;
        self.0.call(Operation::GetPhoto, request, get).await
    }

    type WatchEntriesStream = entry::Watched;

    async fn watch_entries(
        &self,
        request: Request<wire::WatchEntriesRequest>,
    ) -> Result<Response<Self::WatchEntriesStream>, Status> {
        self.0.call(Operation::WatchEntries, request, entry::watch).await
    }
}

service! {
    SpecificationService:
    waits {
        create_specification: CreateSpecification(CreateSpecificationRequest) -> Specification = specification::create;
        revise_specification: ReviseSpecification(ReviseSpecificationRequest) -> Specification = specification::revise;
        withdraw_specification: WithdrawSpecification(WithdrawSpecificationRequest) -> Specification = specification::withdraw;
        import_specifications: ImportSpecifications(ImportSpecificationsRequest) -> ImportSpecificationsResponse = specification::import;
        list_specification_uses: ListSpecificationUses(ListSpecificationUsesRequest) -> ListSpecificationUsesResponse = effective::uses;
        get_effective_value: GetEffectiveValue(GetEffectiveValueRequest) -> GetEffectiveValueResponse = effective::get;
    }
    calculates {
        get_specification: GetSpecification(GetSpecificationRequest) -> Specification = specification::get;
        export_specifications: ExportSpecifications(ExportSpecificationsRequest) -> ExportSpecificationsResponse = specification::export;
        list_specifications: ListSpecifications(ListSpecificationsRequest) -> ListSpecificationsResponse = specification::list;
    }
}

service! {
    SheetService:
    waits {
        get_sheet: GetSheet(GetSheetRequest) -> Sheet = sheet::get;
        render_sheet: RenderSheet(RenderSheetRequest) -> RenderSheetResponse = sheet::render;
    }
    calculates {}
}

service! {
    PeopleService:
    waits {
        create_person: CreatePerson(CreatePersonRequest) -> Person = people::create;
        revise_person: RevisePerson(RevisePersonRequest) -> Person = people::revise;
        withdraw_person: WithdrawPerson(WithdrawPersonRequest) -> Person = people::withdraw;
    }
    calculates {
        list_people: ListPeople(ListPeopleRequest) -> ListPeopleResponse = people::list;
    }
}
