//! Serving: one listener, limits, health, reflection, and an end that comes in time.

use crate::backups::Backups;
use crate::clock;
use crate::health::{keep, set_all};
use anyhow::Context;
use clampbook_api::FILE_DESCRIPTOR_SET;
use clampbook_app::{App, Role};
use clampbook_grpc as grpc;
use http::HeaderValue;
use http::header::DATE;
use std::future::Future;
use std::net::SocketAddr;
use std::time::Duration;
use tokio::net::TcpListener;
use tokio_util::sync::CancellationToken;
use tonic::service::Routes;
use tonic::transport::Server;
use tonic::transport::server::TcpIncoming;
use tonic_health::ServingStatus;
use tower::util::MapResponseLayer;

/// Longest that calls under way may take when the server stops.
const DRAIN: Duration = Duration::from_secs(10);
/// Calls at once on one connection.
const STREAMS: u32 = 256;
const KEEPALIVE: Duration = Duration::from_secs(45);
const KEEPALIVE_TIMEOUT: Duration = Duration::from_secs(20);

/// What is served.
pub(crate) struct Serving {
    /// The use cases. Their journal is verified in the background before health says that it serves.
    pub(crate) app: App,
    /// What callers may do.
    pub(crate) role: Role,
    /// Backups by the clock, if any.
    pub(crate) backups: Option<Backups>,
}

/// Serves on `listener` until `shutdown` ends, then drains.
///
/// # Errors
/// When the server cannot be put together or the transport fails.
pub(crate) async fn serve(
    listener: TcpListener,
    serving: Serving,
    shutdown: impl Future<Output = ()> + Send,
) -> anyhow::Result<()> {
    let (health, health_service) = tonic_health::server::health_reporter();
    set_all(&health, ServingStatus::NotServing).await;
    let reflection = tonic_reflection::server::Builder::configure()
        .register_encoded_file_descriptor_set(FILE_DESCRIPTOR_SET)
        .register_encoded_file_descriptor_set(tonic_health::pb::FILE_DESCRIPTOR_SET)
        .build_v1()
        .context("reflection")?;
    let mut routes = Routes::builder();
    routes.add_service(health_service).add_service(reflection);
    grpc::add(&mut routes, &serving.app, serving.role);

    let keeping = tokio::spawn(keep(serving.app.store().clone(), health.clone()));
    let store = serving.app.store().clone();
    if let Some(backups) = &serving.backups {
        backups.are_known_to(&health).await;
    }
    let backups = serving
        .backups
        .map(|backups| tokio::spawn(backups.make(store, health.clone())));
    let incoming = TcpIncoming::from(listener).with_nodelay(Some(true));
    let stop = CancellationToken::new();
    let server = Server::builder()
        .max_concurrent_streams(Some(STREAMS))
        .http2_keepalive_interval(Some(KEEPALIVE))
        .http2_keepalive_timeout(Some(KEEPALIVE_TIMEOUT))
        .layer(grpc::OversizeLayer)
        .layer(MapResponseLayer::new(dated))
        .add_routes(routes.routes())
        .serve_with_incoming_shutdown(incoming, stop.clone().cancelled_owned());
    tokio::pin!(server);
    tokio::select! {
        ended = &mut server => return ended.context("transport"),
        () = shutdown => {}
    }
    tracing::info!("stopping");
    if let Some(backups) = backups {
        backups.abort();
    }
    // Ended first: nothing may say "serving" again, and a verification cut short is no finding.
    keeping.abort();
    let _ = keeping.await;
    set_all(&health, ServingStatus::NotServing).await;
    serving.app.end_streams();
    stop.cancel();
    match tokio::time::timeout(DRAIN, server).await {
        Ok(ended) => ended.context("transport"),
        Err(_) => {
            tracing::warn!("calls were still under way after {} s", DRAIN.as_secs());
            Ok(())
        }
    }
}

/// Binds a listener, on loopback only: until people sign in with tokens, anyone who reaches the server may do everything.
///
/// # Errors
/// When the address is not loopback or cannot be bound.
pub(crate) async fn bind(address: SocketAddr) -> anyhow::Result<TcpListener> {
    anyhow::ensure!(
        address.ip().is_loopback(),
        "--listen {address}: only loopback addresses are allowed, for instance 127.0.0.1:50551"
    );
    TcpListener::bind(address)
        .await
        .with_context(|| format!("cannot listen on {address}"))
}

/// The transport writes the date on each answer, and panics when the clock is before 1970, which resets every call. Then it
/// finds a date there already.
fn dated<B>(mut answer: http::Response<B>) -> http::Response<B> {
    if clock::is_before_1970() {
        let epoch = HeaderValue::from_static("Thu, 01 Jan 1970 00:00:00 GMT");
        answer.headers_mut().insert(DATE, epoch);
    }
    answer
}
