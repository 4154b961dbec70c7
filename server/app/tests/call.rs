//! What every call passes through: who may do it, how long it takes, and that a panic stays inside.

use clampbook_app::book::entry::Moment;
use clampbook_app::book::fact::JobOpened;
use clampbook_app::book::ids::JobId;
use clampbook_app::book::words::TorqueUnit;
use clampbook_app::{App, Caller, Change, LONGEST, Operation, Reason, Role};
use std::sync::Arc;
use std::time::Duration;
use tempfile::TempDir;

fn app() -> (TempDir, App) {
    let folder = tempfile::tempdir().expect("a folder");
    let clock = Arc::new(|| Moment(1_800_000_000_000_000));
    let app = App::open(&folder.path().join("shop.clampbook"), clock).expect("a journal");
    (folder, app)
}

fn ida(role: Role) -> Caller {
    Caller {
        role,
        ..Caller::local("Ida", "bench")
    }
}

fn tractor() -> Change<JobOpened> {
    let opened = JobOpened {
        display_name: "Orchard tractor".into(),
        machine: String::new(),
        torque_unit: Some(TorqueUnit::NewtonMetre),
    };
    Change::new(JobId::new("tractor").expect("a slug"), opened)
}

#[tokio::test]
async fn a_reader_is_let_in_to_read_and_not_to_write() {
    let (_folder, app) = app();
    for operation in Operation::ALL {
        let refused = app.let_in(ida(Role::Reader), *operation).err();
        let reason = refused.map(|error| error.reason);
        let expected = operation.writes().then_some(Reason::NotAllowed);
        assert_eq!(reason, expected, "{operation:?}");
        assert!(app.let_in(ida(Role::Local), *operation).is_ok());
    }
}

#[tokio::test]
async fn a_call_does_what_it_was_let_in_for_and_nothing_else() {
    let (_folder, app) = app();
    for operation in [Operation::GetJob, Operation::LogRemoval] {
        let call = app.let_in(ida(Role::Local), operation).expect("let in");
        let refused = call.open_job(tractor()).await.expect_err("another thing");
        assert_eq!(refused.reason, Reason::Broken);
    }
    let reading = app.let_in(ida(Role::Reader), Operation::ListJobs);
    let jobs = reading.expect("let in").jobs(None, 10).await;
    assert!(jobs.expect("a list").jobs.is_empty());
    let call = app.let_in(ida(Role::Local), Operation::CreateJob);
    let opened = call.expect("let in").open_job(tractor()).await;
    assert_eq!(opened.expect("a job").id.to_string(), "tractor");
}

#[tokio::test]
async fn a_call_ends_at_its_limit() {
    let (_folder, app) = app();
    let limit = Duration::from_millis(20);
    let waiting = app.call(ida(Role::Local), Operation::GetJob, limit, async |_| {
        std::future::pending().await
    });
    let outcome: Result<(), _> = waiting.await;
    let reason = outcome.expect_err("too late").reason;
    assert_eq!(reason, Reason::DeadlinePassed);
}

#[tokio::test]
async fn a_panic_stays_inside_its_call() {
    let (_folder, app) = app();
    let operation = Operation::GetJob;
    let calculated: Result<(), _> =
        app.calculate(ida(Role::Local), operation, |_| panic!("by the test"));
    assert_eq!(calculated.expect_err("broken").reason, Reason::Broken);
    let called = app.call(ida(Role::Local), operation, LONGEST, async |_| {
        panic!("by the test")
    });
    let called: Result<(), _> = called.await;
    assert_eq!(called.expect_err("broken").reason, Reason::Broken);
}
