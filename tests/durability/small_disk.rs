//! Small disk: a file system of its own that is really full, for the server's journal and for a backup.
//!
//! It is made in a namespace of the process, so that nobody must be the superuser and nothing is left behind. A system that
//! does not allow that shows nothing here; `full_disk` does without.

use crate::ask::says;
use crate::crew::Crew;
use crate::dice::Dice;
use crate::health::{is_serving, served};
use crate::outside::Outside;
use crate::server::{Server, until};
use clampbook_api::reason;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tonic::Code;

/// Commands of a shell that put the rest of it on a disk of this size at `folder`.
fn on_a_disk(folder: &Path, kib: u32, then: &str) -> String {
    format!(
        "exec unshare -Urm sh -c 'mount -t tmpfs -o size={kib}k tmpfs {} && {then} exec \"$0\" \"$@\"' \"$0\" \"$@\"",
        folder.display()
    )
}

fn is_allowed() -> bool {
    let tried = Command::new("unshare")
        .args(["-Urm", "mount", "-t", "tmpfs", "tmpfs", "/mnt"])
        .stderr(Stdio::null())
        .status();
    let allowed = tried.is_ok_and(|status| status.success());
    if !allowed {
        eprintln!("this system gives no process a disk of its own; nothing was shown");
    }
    allowed
}

/// A path as a process in a namespace of its own sees it.
fn as_seen_by(process: u32, path: &Path) -> PathBuf {
    PathBuf::from(format!("/proc/{process}/root{}", path.display()))
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_disk_that_is_really_full_is_named_until_there_is_room() {
    if !is_allowed() {
        return;
    }
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    let folder = outside.beside("disk");
    fs::create_dir(&folder).expect("a folder");
    let data = folder.join("shop.clampbook");
    let ballast = format!("head -c 1500000 /dev/zero >{}/ballast &&", folder.display());
    let mut server = Server::start_after(&data, &on_a_disk(&folder, 2_600, &ballast));
    let channel = server.connect();
    let mut round = 0;
    let refused = loop {
        let crew = Crew::begin(&server, round, &mut outside.dice).await;
        crew.ledger.goes_down();
        let ledger = crew.ends().await;
        let cut_off = ledger.cut_off_with();
        if !cut_off.is_empty() {
            break cut_off;
        }
        round += 1;
        assert!(round < 50, "the disk gets full");
    };
    for status in &refused {
        let told = says(status, reason::NOT_READY)
            && status
                .message()
                .contains("nothing was written: the disk is full");
        assert!(status.code() == Code::Unavailable && told, "{status:?}");
    }
    until("health says so", async || served(&channel).await.is_empty()).await;
    assert!(
        server.log().contains("the disk is full"),
        "{}",
        server.log()
    );
    server.assert_alive();

    fs::remove_file(as_seen_by(server.id(), &folder.join("ballast"))).expect("removed");
    until("health says that there is room", async || {
        is_serving(&channel).await
    })
    .await;
    let crew = Crew::begin(&server, 100, &mut outside.dice).await;
    crew.acknowledged(10).await;
    crew.ledger.goes_down();
    crew.ends().await;
    server.terminate();
    server.ended().await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_full_disk_of_the_backup_is_not_a_journal_that_cannot_be_read() {
    if !is_allowed() {
        return;
    }
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    let server = Server::start(&outside.data());
    let crew = Crew::begin(&server, 0, &mut outside.dice).await;
    crew.ends().await;
    let folder = outside.beside("disk");
    fs::create_dir(&folder).expect("a folder");
    // A shell runs the command on that disk and lists what it left there.
    let output = Command::new("sh")
        .args([
            "-c",
            &on_a_disk(&folder, 64, "exec sh -c \"$LIST\" \"$0\" \"$@\";"),
        ])
        .arg(env!("CARGO_BIN_EXE_clampbookd"))
        .args(["backup", "--data"])
        .arg(outside.data())
        .arg(folder.join("copy"))
        .env(
            "LIST",
            format!(
                "\"$0\" \"$@\"; told=$?; ls -A {}; exit $told",
                folder.display()
            ),
        )
        .output()
        .expect("a shell");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(!output.status.success(), "{output:?}");
    assert!(
        said.contains("no copy was made") && said.contains("is full"),
        "{said}"
    );
    assert!(!said.contains("cannot be read"), "{said}");
    assert_eq!(output.stdout, b"", "nothing is left behind");
    server.kill();
}
