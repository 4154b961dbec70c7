//! Calls against a stub of the torque service that answers by script.
#![allow(clippy::unwrap_used)] // a test may panic

use std::{
    collections::VecDeque,
    pin::Pin,
    sync::{Arc, Mutex},
};

use clampbook_api::{
    reason,
    v1::{
        self, ComputeTorqueRequest, ComputeTorqueResponse,
        torque_service_server::{TorqueService, TorqueServiceServer},
    },
};
use tokio::net::TcpListener;
use tonic::{Code, Streaming, metadata::MetadataMap, transport::server::TcpIncoming};
use tonic_types::{ErrorDetails, StatusExt};

use super::*;

enum Reply {
    Answer,
    Refusal(Status),
    Never,
}

#[derive(Clone, Default)]
struct Stub {
    script: Arc<Mutex<VecDeque<Reply>>>,
    seen: Arc<Mutex<Vec<MetadataMap>>>,
}

/// Methods that no script here calls.
macro_rules! unscripted {
    ($($method:ident $request:ident $response:ident;)+) => {
        $(fn $method<'s, 'f>(
            &'s self,
            _: Request<v1::$request>,
        ) -> Pin<Box<dyn Future<Output = Result<Response<v1::$response>, Status>> + Send + 'f>>
        where
            's: 'f,
            Self: 'f,
        {
            Box::pin(async { Err(Status::unimplemented(stringify!($method))) })
        })+
    };
}

#[tonic::async_trait]
impl TorqueService for Stub {
    async fn compute_torque(
        &self,
        request: Request<ComputeTorqueRequest>,
    ) -> Result<Response<ComputeTorqueResponse>, Status> {
        self.seen.lock().unwrap().push(request.metadata().clone());
        let reply = self.script.lock().unwrap().pop_front();
        match reply.expect("no more calls than scripted") {
            Reply::Answer => Ok(Response::new(ComputeTorqueResponse {
                torque_nm: 91.2,
                ..Default::default()
            })),
            Reply::Refusal(status) => Err(status),
            Reply::Never => std::future::pending().await,
        }
    }

    type ComputeTorquesStream = tokio_stream::Empty<Result<v1::ComputeTorquesResponse, Status>>;

    async fn compute_torques(
        &self,
        _: Request<Streaming<v1::ComputeTorquesRequest>>,
    ) -> Result<Response<Self::ComputeTorquesStream>, Status> {
        Err(Status::unimplemented("compute_torques"))
    }

    unscripted! {
        render_chart RenderChartRequest RenderChartResponse;
        restate_torque RestateTorqueRequest RestateTorqueResponse;
        set_wrench SetWrenchRequest SetWrenchResponse;
        plan_tightening PlanTighteningRequest PlanTighteningResponse;
        compute_long_form_torque ComputeLongFormTorqueRequest ComputeLongFormTorqueResponse;
        check_joint CheckJointRequest CheckJointResponse;
        fit_length FitLengthRequest FitLengthResponse;
        compute_stretch ComputeStretchRequest ComputeStretchResponse;
        align_castellated_nut AlignCastellatedNutRequest AlignCastellatedNutResponse;
    }
}

impl Stub {
    async fn start(script: impl IntoIterator<Item = Reply>) -> (Self, String) {
        let stub = Self::default();
        stub.script.lock().unwrap().extend(script);
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = format!("http://{}", listener.local_addr().unwrap());
        let serve = tonic::transport::Server::builder()
            .add_service(TorqueServiceServer::new(stub.clone()))
            .serve_with_incoming(TcpIncoming::from(listener));
        tokio::spawn(serve);
        (stub, address)
    }

    fn calls(&self) -> usize {
        self.seen.lock().unwrap().len()
    }
}

fn global(address: &str, timeout: Duration) -> Global {
    Global {
        server: address.to_owned(),
        timeout,
        json: false,
        no_color: true,
        person: Some("Jörg Quill".to_owned()),
        device: "bench".to_owned(),
    }
}

async fn ask(address: &str, timeout: Duration) -> Result<ComputeTorqueResponse, Failure> {
    let global = global(address, timeout);
    let server = Server::new(&global, Pending::default(), Out::new(&global)).unwrap();
    server
        .torque(
            TorqueServiceClient::compute_torque,
            ComputeTorqueRequest::default(),
        )
        .await
}

fn refusal(code: Code, reason: &str) -> Reply {
    let mut details = ErrorDetails::new();
    details.set_error_info(reason, reason::DOMAIN, []);
    Reply::Refusal(Status::with_error_details(code, "said so", details))
}

const LONG: Duration = Duration::from_secs(20);

#[tokio::test]
async fn a_call_names_person_and_device_and_has_a_deadline() {
    let (stub, address) = Stub::start([Reply::Answer]).await;
    let answer = ask(&address, LONG).await.unwrap();
    assert_eq!(answer.torque_nm, 91.2);
    let seen = stub.seen.lock().unwrap()[0].clone();
    assert_eq!(seen.get(PERSON_KEY).unwrap(), "J%C3%B6rg%20Quill");
    assert_eq!(seen.get(DEVICE_KEY).unwrap(), "bench");
    assert!(seen.contains_key("grpc-timeout"));
}

#[tokio::test]
async fn unavailable_is_sent_again_until_it_is_answered() {
    let away = || Reply::Refusal(Status::unavailable("starting"));
    let (stub, address) = Stub::start([away(), away(), away(), Reply::Answer]).await;
    assert!(ask(&address, LONG).await.is_ok());
    assert_eq!(stub.calls(), 4);
}

#[tokio::test]
async fn four_times_in_vain_is_the_end() {
    let busy = || refusal(Code::Unavailable, reason::OVERLOADED);
    let (stub, address) = Stub::start([busy(), busy(), busy(), busy()]).await;
    let failure = ask(&address, LONG).await.unwrap_err();
    assert_eq!(stub.calls(), 4);
    assert_eq!(failure.exit_code(), 5);
    // The server said that nothing was taken in, so there is nothing to ask about.
    assert!(
        !failure
            .of_request(&Ticket::new("ID".to_owned()))
            .told()
            .contains("ID")
    );
}

#[tokio::test]
async fn no_other_refusal_is_sent_again() {
    let (stub, address) = Stub::start([refusal(Code::Aborted, reason::ETAG_STALE)]).await;
    let failure = ask(&address, LONG).await.unwrap_err();
    assert_eq!((stub.calls(), failure.exit_code()), (1, 4));
}

#[tokio::test]
async fn a_silent_server_is_a_passed_deadline_with_an_unknown_outcome() {
    let (stub, address) = Stub::start([Reply::Never]).await;
    let failure = ask(&address, Duration::from_millis(100)).await.unwrap_err();
    assert_eq!((stub.calls(), failure.exit_code()), (1, 5));
    let told = failure.of_request(&Ticket::new("ID".to_owned())).told();
    assert!(
        told.starts_with("clampbook: no answer within the time allowed"),
        "{told}"
    );
    assert!(told.contains("--request-id ID"), "{told}");
}

#[tokio::test]
async fn one_unknown_outcome_among_the_attempts_is_not_forgotten() {
    let unknown = refusal(Code::Unavailable, reason::OUTCOME_UNKNOWN);
    let stopping = || refusal(Code::Unavailable, reason::NOT_READY);
    let (_, address) = Stub::start([unknown, stopping(), stopping(), stopping()]).await;
    let failure = ask(&address, LONG).await.unwrap_err();
    assert!(
        failure
            .of_request(&Ticket::new("ID".to_owned()))
            .told()
            .contains("--request-id ID")
    );
}

#[tokio::test]
async fn where_nobody_listens_nothing_was_written() {
    // A port that was free a moment ago.
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = format!("http://{}", listener.local_addr().unwrap());
    drop(listener);
    let failure = ask(&address, LONG).await.unwrap_err();
    assert_eq!(failure.exit_code(), 5);
    let told = failure.of_request(&Ticket::new("ID".to_owned())).told();
    assert!(told.contains(&format!("no server at {address}")), "{told}");
    assert!(told.contains("clampbookd serve"), "{told}");
    assert!(!told.contains("ID"), "{told}");
}

#[tokio::test]
async fn a_connection_that_breaks_is_unavailable_with_an_unknown_outcome() {
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = format!("http://{}", listener.local_addr().unwrap());
    tokio::spawn(async move {
        // Takes every connection and hangs up on it.
        while let Ok((stream, _)) = listener.accept().await {
            sleep(Duration::from_millis(20)).await;
            drop(stream);
        }
    });
    let failure = ask(&address, LONG).await.unwrap_err();
    assert_eq!(failure.exit_code(), 5);
    let told = failure.of_request(&Ticket::new("ID".to_owned())).told();
    assert!(told.contains("--request-id ID"), "{told}");
}
