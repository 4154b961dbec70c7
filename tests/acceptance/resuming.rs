//! Going on where one left off: over many pages of a list, over the pages of a watch, and over broken connections, no entry is
//! lost and none comes twice.

use std::io::{self, BufRead, BufReader, Read};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::process::Command;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use clampbook_api::v1::WatchEntriesRequest;
use serde_json::{Value, json};

use crate::support::cli::{clampbook, run};
use crate::support::whole::{Teller, json as as_json};
use crate::support::{Shop, cli, fresh_id};

const JOBS: [&str; 2] = ["jobs/tractor", "jobs/press"];

/// A watch that says nothing for so long has lost an entry.
const SILENCE: Duration = Duration::from_secs(10);

/// Removals of each import; two of each job are more than two pages of every list and watch.
const HOLES: i32 = 200;

/// Two jobs of 605 entries each, in turns.
async fn two_long_jobs(shop: &Shop) {
    let jobs = [shop.job("tractor").await, shop.job("press").await];
    let teller = Teller::new(shop.channel());
    for joint in ["front", "middle", "rear"] {
        for job in &jobs {
            job.joint_like(joint, |joint| {
                joint.layout = clampbook_api::v1::Layout::Line.into();
                joint.positions = vec![Default::default(); HOLES as usize];
            })
            .await;
        }
        for job in &jobs {
            takes_out(&teller, &job.name, joint).await;
        }
    }
}

async fn takes_out(teller: &Teller, job: &str, joint: &str) {
    let lines = (1..=HOLES).map(|hole| format!("{joint},{hole},normal\n"));
    let csv = format!("joint,position,outcome\n{}", lines.collect::<String>());
    let import = json!({"parent": job, "csv": csv, "request_id": fresh_id()});
    teller.ask("ImportRemovals", import).await;
}

/// The sequences of a job's entries, page by page.
async fn listed(teller: &Teller, stream: &str, page_size: i32) -> Vec<i64> {
    let (mut sequences, mut token) = (Vec::new(), Value::from(""));
    loop {
        let asked = json!({"parent": stream, "page_size": page_size, "page_token": token});
        let page = as_json(&teller.ask("ListEntries", asked).await);
        sequences.extend(
            page["entries"]
                .as_array()
                .into_iter()
                .flatten()
                .map(sequence),
        );
        match &page["next_page_token"] {
            Value::Null => return sequences,
            next => token = next.clone(),
        }
    }
}

fn sequence(entry: &Value) -> i64 {
    let text = entry["sequence"].as_str().expect("a sequence");
    text.parse().expect("a number")
}

#[tokio::test]
async fn lists_and_watches_lose_nothing_over_many_pages() {
    let shop = Shop::open();
    two_long_jobs(&shop).await;
    let teller = Teller::new(shop.channel());
    let mut all = Vec::new();
    for job in JOBS {
        let whole = listed(&teller, job, 1_000).await;
        assert_eq!(whole.len(), 605);
        for page_size in [0, 7, 255, 256, 300] {
            assert_eq!(listed(&teller, job, page_size).await, whole, "{page_size}");
        }
        all.extend(whole);
    }
    all.sort_unstable();
    assert!(
        all.iter().copied().eq(1..=1_210),
        "every entry is in one job"
    );
    for (parent, after) in [
        ("", 0),
        ("", 1),
        ("", 256),
        ("", 700),
        (JOBS[1], 0),
        (JOBS[1], 300),
    ] {
        let of_it = match parent {
            "" => all.clone(),
            job => listed(&teller, job, 1_000).await,
        };
        let mut expected = of_it.into_iter().filter(|sequence| *sequence > after);
        let request = WatchEntriesRequest {
            parent: parent.into(),
            after_sequence: after,
        };
        let watch = shop.jobs().watch_entries(request).await;
        let mut watch = watch.expect("a stream").into_inner();
        let last = expected.clone().next_back();
        loop {
            let entry = watch.message().await.expect("no error").expect("no end");
            assert_eq!(
                Some(entry.sequence),
                expected.next(),
                "{parent} after {after}"
            );
            if Some(entry.sequence) == last {
                break;
            }
        }
        // And what is written while it listens.
        shop.job_named("press")
            .assembly(&format!("late-{}-{after}", parent.len()), "")
            .await;
        let entry = watch.message().await.expect("no error").expect("no end");
        all.push(entry.sequence);
        assert_eq!(all.len() as i64, entry.sequence);
    }
}

#[tokio::test]
async fn the_command_line_puts_all_pages_together() {
    let shop = Shop::open();
    two_long_jobs(&shop).await;
    let whole = listed(&Teller::new(shop.channel()), JOBS[0], 1_000).await;
    let told = cli(&shop.server, &["entries", "tractor", "--json"]).json();
    let told: Vec<i64> = told["entries"]
        .as_array()
        .expect("entries")
        .iter()
        .map(sequence)
        .collect();
    assert_eq!(told, whole);
}

/// A way to the server that breaks after so many bytes of answers, each time anew. Gives where it begins.
fn breaking_way(server: &str, bytes: u64) -> String {
    let server = server.trim_start_matches("http://").to_owned();
    let way = TcpListener::bind("127.0.0.1:0").expect("a port");
    let begins = format!("http://{}", way.local_addr().expect("an address"));
    thread::spawn(move || {
        for here in way.incoming().flatten() {
            let there = TcpStream::connect(&server).expect("the server is there");
            thread::spawn(move || joined(&here, &there, bytes));
        }
    });
    begins
}

fn joined(here: &TcpStream, there: &TcpStream, bytes: u64) {
    thread::scope(|both| {
        both.spawn(|| {
            let (mut from, mut to) = (here, there);
            let _ = io::copy(&mut from, &mut to);
        });
        let (from, mut to) = (there, here);
        let _ = io::copy(&mut from.take(bytes), &mut to);
        for side in [here, there] {
            let _ = side.shutdown(Shutdown::Both);
        }
    });
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_command_line_takes_a_watch_up_again_without_losing_an_entry() {
    let shop = Shop::open();
    two_long_jobs(&shop).await;
    let whole = listed(&Teller::new(shop.channel()), JOBS[1], 1_000).await;
    let way = breaking_way(shop.server.url(), 40_000);
    let mut watch = clampbook(&["watch", "press", "--json"])
        .env("CLAMPBOOK_SERVER", &way)
        .spawn()
        .expect("it starts");
    let lines = BufReader::new(watch.stdout.take().expect("piped")).lines();
    let (tell, told) = mpsc::channel();
    thread::spawn(move || {
        lines
            .map_while(Result::ok)
            .try_for_each(|line| tell.send(line))
    });
    let mut seen = Vec::new();
    while seen.len() < whole.len() {
        let Ok(line) = told.recv_timeout(SILENCE) else {
            watch.kill().expect("it is ended");
            break;
        };
        seen.push(sequence(&serde_json::from_str(&line).expect("JSON")));
    }
    assert_eq!(seen, whole);
    end(&mut watch);
    let mut told = String::new();
    let mut notices = watch.stderr.take().expect("piped");
    notices.read_to_string(&mut told).expect("text");
    assert!(told.matches("connecting again").count() > 2, "{told}");

    // A list is asked page by page; what comes in one piece is asked again as a whole.
    let list = run(clampbook(&["entries", "press", "--json"])
        .env("CLAMPBOOK_SERVER", breaking_way(shop.server.url(), 150_000)));
    let told: Vec<i64> = list.json()["entries"]
        .as_array()
        .expect("entries")
        .iter()
        .map(sequence)
        .collect();
    assert_eq!(told, whole);
}

fn end(process: &mut std::process::Child) {
    let told = Command::new("kill")
        .args(["-INT", &process.id().to_string()])
        .status();
    assert!(told.expect("kill runs").success());
    assert_eq!(process.wait().expect("it ends").code(), Some(130));
}
