//! Acknowledged LogRemoval calls at 64 in flight, client and server on the same cores; and the journal alone, without the
//! network, against the same rows (request, entry, the job's line of the list) written by hand in groups of 64 into the same
//! tables with the same settings.

#[path = "support/journal.rs"]
mod journal;
mod support;

use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::{self as wire, RemovalMethod, RemovalOutcome};
use rusqlite::{Connection, params};
use std::path::Path;
use std::time::Instant;
use support::{Server, connect, report};
use tonic::transport::Channel;
use uuid::Uuid;

/// Calls measured alone, and together over all lanes.
const ALONE: usize = 3_000;
const TOGETHER: usize = 96_000;
const LANES: usize = 64;
/// So many that a full group waits while the one before is written, as the rows by hand do.
const JOURNAL_LANES: usize = 128;
const CONNECTIONS: usize = 4;
/// Each lane has a job of its own with so many joints of so many positions, enough for its share of the calls.
const JOINTS: usize = 200;
const POSITIONS: usize = 16;

/// The server's own, so that the journal alone is the journal as it is served.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime");
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("bench.clampbook");
    let server = Server::clampbook(&data);
    let (alone, together) = runtime.block_on(measure(&server.url));
    drop(server);
    let journal = runtime.block_on(journal::removals_per_second(
        &folder.path().join("journal.clampbook"),
        JOURNAL_LANES,
        TOGETHER / JOURNAL_LANES / POSITIONS,
        POSITIONS,
    ));
    let by_hand = by_hand(&data, &folder.path().join("by_hand.db"));
    println!("LogRemoval, 1 in flight: {alone:.0}/s");
    println!("LogRemoval, {LANES} in flight: {together:.0}/s (wanted >= 15000)");
    report(
        "the journal alone, in groups of 64",
        journal,
        "the same rows by hand in groups of 64",
        by_hand,
        ">= 0.7",
    );
    println!(
        "the call against the rows by hand: ratio {:.2}",
        together / by_hand
    );
}

async fn measure(url: &str) -> (f64, f64) {
    let mut channels = Vec::new();
    for _ in 0..CONNECTIONS {
        channels.push(connect(url).await);
    }
    let layouts: Vec<_> = (0..=LANES)
        .map(|lane| tokio::spawn(lay_out(channels[lane % CONNECTIONS].clone(), lane)))
        .collect();
    for layout in layouts {
        layout.await.expect("laid out");
    }
    let start = Instant::now();
    for n in 0..ALONE {
        log(channels[0].clone(), LANES, n).await;
    }
    let alone = ALONE as f64 / start.elapsed().as_secs_f64();
    let start = Instant::now();
    let lanes: Vec<_> = (0..LANES)
        .map(|lane| {
            let channel = channels[lane % CONNECTIONS].clone();
            tokio::spawn(async move {
                for n in 0..TOGETHER / LANES {
                    log(channel.clone(), lane, n).await;
                }
            })
        })
        .collect();
    for lane in lanes {
        lane.await.expect("a lane");
    }
    (alone, TOGETHER as f64 / start.elapsed().as_secs_f64())
}

fn job(lane: usize) -> String {
    format!("jobs/bench-{lane}")
}

async fn lay_out(channel: Channel, lane: usize) {
    let mut client = JobServiceClient::new(channel);
    client
        .create_job(wire::CreateJobRequest {
            job_id: format!("bench-{lane}"),
            job: Some(wire::Job {
                display_name: "Bench".into(),
                ..Default::default()
            }),
            ..Default::default()
        })
        .await
        .expect("a job");
    client
        .create_assembly(wire::CreateAssemblyRequest {
            parent: job(lane),
            assembly_id: "hub".into(),
            assembly: Some(wire::Assembly {
                display_name: "Hub".into(),
                ..Default::default()
            }),
            ..Default::default()
        })
        .await
        .expect("an assembly");
    for n in 0..JOINTS {
        let request = wire::CreateJointRequest {
            parent: job(lane),
            joint_id: format!("plate-{n}"),
            joint: Some(joint(lane)),
            ..Default::default()
        };
        client.create_joint(request).await.expect("a joint");
    }
}

fn joint(lane: usize) -> wire::Joint {
    wire::Joint {
        assembly: format!("{}/assemblies/hub", job(lane)),
        display_name: "Plate".into(),
        layout: wire::Layout::Ring.into(),
        positions: vec![wire::Position::default(); POSITIONS],
        criticality: wire::Criticality::B.into(),
        hole_kind: wire::HoleKind::TappedThrough.into(),
        target: Some(wire::JointTarget {
            thread: "7/16-20 UNF".into(),
            grade: "SAE J429 5".into(),
            lubrication: "oiled".into(),
            ..Default::default()
        }),
        ..Default::default()
    }
}

#[expect(
    clippy::disallowed_methods,
    reason = "a machine that is measured has a clock"
)]
async fn log(channel: Channel, lane: usize, n: usize) {
    let request = wire::LogRemovalRequest {
        removal: Some(wire::Removal {
            joint: format!("{}/joints/plate-{}", job(lane), n / POSITIONS),
            position: i32::try_from(n % POSITIONS).expect("small") + 1,
            outcome: RemovalOutcome::Normal.into(),
            methods: vec![RemovalMethod::Hand.into()],
            kept_in: "bag 2".into(),
            grade: "SAE J429 5".into(),
            ..Default::default()
        }),
        request_id: Uuid::now_v7().to_string(),
        said_time: None,
    };
    JobServiceClient::new(channel)
        .log_removal(request)
        .await
        .expect("it is out");
}

/// Writes the entries that the server wrote once more by hand: same tables, triggers and settings, groups of 64.
fn by_hand(server: &Path, own: &Path) -> f64 {
    let from = Connection::open(server).expect("the server's file");
    let rows = read(&from);
    let mut to = Connection::open(own).expect("an own file");
    for schema in [
        include_str!("../server/journal/migrations/0001_journal.sql"),
        include_str!("../server/journal/migrations/0004_people.sql"),
    ] {
        to.execute_batch(schema).expect("the same schema");
    }
    to.execute_batch(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; \
         PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA cache_size = -16384; \
         PRAGMA wal_autocheckpoint = 4000; PRAGMA journal_size_limit = 67108864;",
    )
    .expect("the same settings");
    for lane in 1..=LANES as i64 + 1 {
        to.execute(
            "INSERT INTO streams VALUES (?1, ?2)",
            params![lane, format!("jobs/{lane}")],
        )
        .expect("a stream");
    }
    let start = Instant::now();
    for group in rows.chunks(64) {
        let transaction = to
            .transaction_with_behavior(rusqlite::TransactionBehavior::Immediate)
            .expect("a transaction");
        {
            let mut request = transaction
                .prepare_cached("INSERT INTO requests VALUES (?1, ?2, ?3, ?4, ?5, 1, 1)")
                .expect("a statement");
            let mut entry = transaction
                .prepare_cached("INSERT INTO entries VALUES (?1, ?2, ?3, ?4, ?4, ?5, ?6, 'removed', ?7, ?8, ?9, 2, 'named', NULL)")
                .expect("a statement");
            let mut list = transaction
                .prepare_cached(
                    "INSERT INTO jobs VALUES (?1, 'Bench', '', 'newton-metre', 0, ?2, ?3, ?4, 3200, 0, 0, 0) \
                     ON CONFLICT (stream) DO UPDATE SET updated = excluded.updated, last_n = excluded.last_n, \
                     last_seq = excluded.last_seq, in_place = excluded.in_place - 1, empty = empty + 1",
                )
                .expect("a statement");
            for row in group {
                request
                    .execute(params![row.seq, row.id, row.hash, row.stream, row.seq])
                    .expect("a request");
                entry
                    .execute(params![
                        row.seq,
                        row.stream,
                        row.n,
                        row.written,
                        row.person,
                        row.device,
                        row.body,
                        row.seq,
                        row.hash
                    ])
                    .expect("an entry");
                list.execute(params![row.stream, row.written, row.n, row.seq])
                    .expect("a line of the job list");
            }
        }
        transaction.commit().expect("a commit");
    }
    rows.len() as f64 / start.elapsed().as_secs_f64()
}

struct Written {
    seq: i64,
    stream: i64,
    n: i64,
    written: i64,
    person: String,
    device: String,
    body: String,
    hash: Vec<u8>,
    id: Vec<u8>,
}

fn read(from: &Connection) -> Vec<Written> {
    let mut query = from
        .prepare(
            "SELECT e.seq, e.stream, e.n, e.written, e.person, e.device, e.body, e.hash, r.id
             FROM entries e JOIN requests r ON r.key = e.request WHERE e.kind = 'removed' ORDER BY e.seq",
        )
        .expect("a query");
    let mut seq = 0;
    query
        .query_map([], |row| {
            seq += 1;
            Ok(Written {
                seq,
                stream: row.get(1)?,
                n: row.get(2)?,
                written: row.get(3)?,
                person: row.get(4)?,
                device: row.get(5)?,
                body: row.get(6)?,
                hash: row.get(7)?,
                id: row.get(8)?,
            })
        })
        .expect("rows")
        .collect::<Result<_, _>>()
        .expect("rows")
}
