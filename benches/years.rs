//! Many years of a shop in one file, 10,000 jobs with 5 million entries unless `CLAMPBOOK_BENCH_JOBS` says how many jobs:
//! what a job, its flags and its sheet cost there against the same job alone in a file; and what only a long journal shows,
//! reading a job that is in no cache, verifying the whole file, starting on it, and writing the read models anew.

#[path = "support/journal.rs"]
mod journal;
mod support;

use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::sheet_service_client::SheetServiceClient;
use clampbook_api::v1::{GetJobRequest, GetSheetRequest, ListFlagsRequest};
use clampbook_journal::Store;
use rusqlite::{Connection, types::Value};
use std::path::Path;
use std::time::{Duration, Instant};
use support::{Server, connect, ms};
use tonic::transport::Channel;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;

/// The server's own.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const JOBS: usize = 10_000;
/// 1 for the job, 1 for its assembly, 30 joints, 240 removals, 228 refits: 500 entries.
const JOINTS: usize = 30;
const POSITIONS: usize = 8;
const BACK: usize = 228;
const ENTRIES: usize = 500;

const LANES: usize = 64;
/// How often each thing that takes milliseconds is done; the middle one counts.
const ROUNDS: usize = 101;

fn main() {
    let jobs = std::env::var("CLAMPBOOK_BENCH_JOBS")
        .map_or(JOBS, |given| given.parse().expect("a number of jobs"));
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime");
    let folder = tempfile::tempdir().expect("a folder");
    let (long, short) = (
        folder.path().join("long.clampbook"),
        folder.path().join("short.clampbook"),
    );
    runtime.block_on(async {
        fill(&short, 1).await;
        let start = Instant::now();
        fill(&long, jobs).await;
        println!(
            "{jobs} jobs, {} entries, written in {:.0} s",
            jobs * ENTRIES,
            start.elapsed().as_secs_f64()
        );
        one_job(&long, &short).await;
        cold(&long, jobs).await;
    });
    runtime.block_on(verifying(&long, jobs));
    starting(&long, &short);
    runtime.block_on(rebuilding(&long));
}

async fn fill(path: &Path, jobs: usize) {
    let store = journal::open(path);
    let lanes: Vec<_> = (0..LANES.min(jobs))
        .map(|lane| tokio::spawn(write(store.clone(), (lane..jobs).step_by(LANES))))
        .collect();
    for lane in lanes {
        lane.await.expect("a lane");
    }
    store.stop().await;
}

async fn write(store: Store, jobs: impl Iterator<Item = usize>) {
    for number in jobs {
        for command in journal::whole_job(JOINTS, POSITIONS, BACK) {
            store
                .commit(journal::order(number, command))
                .await
                .expect("it is written");
        }
    }
}

/// The same job in both files, asked in turns over the public interface.
async fn one_job(long: &Path, short: &Path) {
    let servers = [Server::clampbook(long), Server::clampbook(short)];
    let channels = [
        connect(&servers[0].url).await,
        connect(&servers[1].url).await,
    ];
    for channel in &channels {
        until_serving(channel.clone()).await;
    }
    let mut times: [[Vec<Duration>; 3]; 2] = Default::default();
    for _ in 0..ROUNDS {
        for (channel, times) in channels.iter().zip(&mut times) {
            for (time, times) in asked(channel).await.into_iter().zip(times) {
                times.push(time);
            }
        }
    }
    let [long, short] = times.map(|times| times.map(median));
    for (what, (long, short)) in ["a job", "its flags", "its sheet"]
        .iter()
        .zip(long.into_iter().zip(short))
    {
        println!(
            "{what}: {:.3} ms; alone in a file: {:.3} ms; ratio {:.2} (wanted <= 1.1)",
            ms(long),
            ms(short),
            ms(long) / ms(short)
        );
    }
}

/// Waits for the verification that a server does when it starts.
async fn until_serving(channel: Channel) {
    let mut health = HealthClient::new(channel);
    loop {
        let request = HealthCheckRequest::default();
        let answer = health.check(request).await.expect("an answer").into_inner();
        if answer.status() == ServingStatus::Serving {
            return;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

async fn asked(channel: &Channel) -> [Duration; 3] {
    let name = format!("jobs/{}", journal::job(0));
    let mut jobs = JobServiceClient::new(channel.clone());
    let mut sheets = SheetServiceClient::new(channel.clone());
    let mut start = Instant::now();
    let mut lap = || std::mem::replace(&mut start, Instant::now()).elapsed();
    let job = GetJobRequest { name: name.clone() };
    jobs.get_job(job).await.expect("the job");
    let job = lap();
    let flags = ListFlagsRequest {
        parent: name.clone(),
        ..Default::default()
    };
    jobs.list_flags(flags).await.expect("its flags");
    let flags = lap();
    let sheet = GetSheetRequest {
        name,
        ..Default::default()
    };
    sheets.get_sheet(sheet).await.expect("its sheet");
    [job, flags, lap()]
}

/// Jobs that are in no cache of ours; the system has the file in memory.
async fn cold(path: &Path, jobs: usize) {
    let store = journal::open(path);
    let mut times = Vec::new();
    for round in 0..ROUNDS.min(jobs) {
        let id = journal::job(round * jobs / ROUNDS.min(jobs));
        let start = Instant::now();
        let job = store
            .job(&id)
            .await
            .expect("it is read")
            .expect("it is there");
        times.push(start.elapsed());
        assert_eq!(job.last as usize, ENTRIES);
    }
    store.stop().await;
    println!(
        "a job of {ENTRIES} entries that is in no cache: {:.2} ms (wanted <= 3)",
        ms(median(times))
    );
}

/// As a server does it before it says that it serves: apart from what is looked at afterwards, as `verify` does too.
async fn verifying(path: &Path, jobs: usize) {
    let store = journal::open(path);
    let start = Instant::now();
    let found = store.verify().await.expect("it is read");
    let took = start.elapsed().as_secs_f64();
    assert!(found.is_whole(), "{found:?}");
    assert_eq!(found.entries as usize, jobs * ENTRIES);
    println!(
        "verification of the whole file: {:.0} entries/s (wanted >= 500000)",
        found.entries as f64 / took
    );
    let start = Instant::now();
    let faults = store.examine().await.expect("it is read");
    assert!(faults.is_empty(), "{faults:?}");
    println!(
        "indexes and lists against the entries: {:.1} s",
        start.elapsed().as_secs_f64()
    );
    store.stop().await;
}

fn starting(long: &Path, short: &Path) {
    let start = |path: &Path| {
        let start = Instant::now();
        let server = Server::clampbook(path);
        let took = start.elapsed();
        drop(server);
        took
    };
    let mut times: [Vec<Duration>; 2] = Default::default();
    for _ in 0..11 {
        times[0].push(start(long));
        times[1].push(start(short));
    }
    let [long, short] = times.map(median);
    println!(
        "start to serving: {:.1} ms (wanted <= 300); on one job: {:.1} ms; ratio {:.2}",
        ms(long),
        ms(short),
        ms(long) / ms(short)
    );
}

async fn rebuilding(path: &Path) {
    let before = job_list(path);
    let store = journal::open(path);
    let start = Instant::now();
    store.rebuild_read_models().await.expect("they are written");
    let took = start.elapsed();
    store.stop().await;
    assert!(
        job_list(path) == before,
        "the read models differ from what was there"
    );
    println!(
        "read models of {} jobs written anew, the same as they were: {:.1} s",
        before.len(),
        took.as_secs_f64()
    );
}

fn job_list(path: &Path) -> Vec<Vec<Value>> {
    let conn = Connection::open(path).expect("the file");
    let mut query = conn
        .prepare("SELECT * FROM jobs ORDER BY stream")
        .expect("a query");
    let columns = query.column_count();
    query
        .query_map([], |row| {
            (0..columns).map(|column| row.get(column)).collect()
        })
        .expect("rows")
        .collect::<Result<_, _>>()
        .expect("rows")
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}
