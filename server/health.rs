//! Health: whether the journal is whole and can be written, as anyone may ask and the log tells.

use clampbook_app::{Condition, ReadError, Store};
use clampbook_grpc as grpc;
use std::time::Duration;
use tonic_health::ServingStatus;
use tonic_health::server::HealthReporter;

/// How often the log is told how far the journal reaches, so that a journal that lost its end can be told from it.
const HEAD_LOGGED: Duration = Duration::from_secs(24 * 60 * 60);

/// Keeps health up to date until it is dropped.
pub(crate) async fn keep(store: Store, health: HealthReporter) {
    if is_whole(&store).await {
        tokio::join!(serving(&store, &health), log_head(&store));
    }
}

/// Whether every entry is what was written, and can be found.
async fn is_whole(store: &Store) -> bool {
    match store.verify().await {
        Ok(found) if found.is_whole() => {
            tracing::info!(entries = found.entries, "the journal is whole");
            return true;
        }
        Ok(found) => {
            if let Some(broken) = found.first_break {
                tracing::error!(
                    entry.seq = broken.seq,
                    cause = %broken.what,
                    "the journal is not whole; health stays NOT_SERVING"
                );
            }
            log_faults(&found.faults);
        }
        Err(error) => tracing::error!(cause = %error, "the journal could not be verified"),
    }
    false
}

/// Says that it serves as long as the journal can be written, unless what takes longer to look at is not as it must be.
async fn serving(store: &Store, health: &HealthReporter) {
    tokio::select! {
        () = follow(store, health) => {}
        () = is_faulty(store) => set_all(health, ServingStatus::NotServing).await,
    }
}

async fn follow(store: &Store, health: &HealthReporter) {
    let mut condition = store.condition();
    loop {
        let status = match *condition.borrow_and_update() {
            Condition::Sound => ServingStatus::Serving,
            _ => ServingStatus::NotServing,
        };
        set_all(health, status).await;
        if condition.changed().await.is_err() {
            return;
        }
    }
}

/// Ends when indexes or lists are found not to be what follows from the entries.
async fn is_faulty(store: &Store) {
    match store.examine().await {
        Ok(faults) if faults.is_empty() => {
            tracing::info!("indexes and lists are as they must be");
            std::future::pending().await
        }
        Ok(faults) => log_faults(&faults),
        Err(ReadError::Stopped) => std::future::pending().await,
        Err(error) => log_faults(&[error.to_string()]),
    }
}

fn log_faults(faults: &[String]) {
    for fault in faults {
        tracing::error!(cause = %fault, "the journal is not as it must be; health is NOT_SERVING. Stop the server and run clampbookd rebuild");
    }
}

async fn log_head(store: &Store) {
    let mut daily = tokio::time::interval(HEAD_LOGGED);
    loop {
        daily.tick().await;
        match store.head().await {
            Ok(head) => tracing::info!(%head, "the journal reaches to here"),
            Err(error) => tracing::error!(cause = %error, "the head of the journal cannot be read"),
        }
    }
}

/// The whole server (the empty name) never says that it serves before each of its services does, nor after.
pub(crate) async fn set_all(health: &HealthReporter, status: ServingStatus) {
    let whole = [""].into_iter();
    let names: Vec<&str> = match status {
        ServingStatus::Serving => grpc::NAMES.into_iter().chain(whole).collect(),
        _ => whole.chain(grpc::NAMES).collect(),
    };
    for name in names {
        health.set_service_status(name, status).await;
    }
}
