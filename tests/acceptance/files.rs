//! The journal as a file: commands that copy, verify, restore and rebuild it, and what they print.

use crate::support::Shop;
use crate::support::server::clampbookd;
use clampbook_api::v1::SheetFormat;
use std::path::Path;
use std::process::Output;

/// Runs a command with paths at its end.
fn run(words: &[&str], paths: &[&Path]) -> Output {
    let paths = paths.iter().map(|path| path.to_str().expect("a name"));
    let words: Vec<&str> = words.iter().copied().chain(paths).collect();
    clampbookd(&words)
}

#[track_caller]
fn said(output: &Output) -> String {
    assert!(output.status.success(), "{output:?}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

#[track_caller]
fn refused(output: &Output) -> String {
    assert!(!output.status.success(), "{output:?}");
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// The head that a command printed.
fn head(said: &str) -> String {
    let head = said.lines().find_map(|line| line.strip_prefix("head "));
    head.unwrap_or_else(|| panic!("no head in {said}"))
        .to_owned()
}

#[tokio::test]
async fn a_journal_whose_end_was_cut_off_does_not_lead_to_the_head_that_was_printed() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let copy = shop.server.beside("copy.db");
    let data = shop.server.data().to_owned();
    let backup = said(&run(&["backup", "--data"], &[&data, &copy]));
    let old = head(&backup);
    plate.comes_apart().await;
    let sheet = job.print(SheetFormat::Text).await;
    let chain = sheet.split("chain ").nth(1).expect("a sheet has its chain");
    let chain = chain[..12].to_owned();
    shop.server.stop().await;

    let verify =
        |path: &Path, expected: &str| run(&["verify", "--expect", expected, "--data"], &[path]);
    let whole = said(&run(&["verify", "--data"], &[&data]));
    let new = head(&whole);
    for expected in [&old, &new, &chain] {
        assert_eq!(head(&said(&verify(&data, expected))), new);
    }
    assert_eq!(head(&said(&verify(&copy, &old))), old);
    let cut = refused(&verify(&copy, &new));
    assert!(cut.contains("its end was cut off"), "{cut}");
    let cut = refused(&verify(&copy, &chain));
    assert!(cut.contains("no entry has hash"), "{cut}");
    let last = if new.ends_with('0') { "1" } else { "0" };
    let other = format!("{}{last}", &new[..new.len() - 1]);
    assert!(refused(&verify(&data, &other)).contains("another hash"));
    for nonsense in ["7", "7:xyz", "0123456789z", "x:0123456789ab"] {
        assert!(refused(&verify(&data, nonsense)).contains("is no head"));
    }
}

#[tokio::test]
async fn a_backup_comes_back_in_place_of_a_stopped_journal_only() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    let copy = shop.server.beside("copy.db");
    let data = shop.server.data().to_owned();
    said(&run(&["backup", "--data"], &[&data, &copy]));
    let plate = job.joint("plate").await;
    let flags = ["restore", "--in-place", "--data"];
    let served = refused(&run(&flags, &[&data, &copy]));
    assert!(served.contains("in use"), "{served}");
    drop(plate);
    shop.server.stop().await;

    let there = refused(&run(&["restore", "--data"], &[&data, &copy]));
    assert!(there.contains("--in-place"), "{there}");
    let restored = said(&run(&flags, &[&data, &copy]));
    assert!(restored.contains("is kept as"), "{restored}");
    let whole = said(&run(&["verify", "--data"], &[&data]));
    assert_eq!(head(&whole), head(&restored));
    let fresh = shop.server.beside("fresh.db");
    said(&run(&["restore", "--data"], &[&fresh, &copy]));
    shop.server.start_again(&[]);
    assert_eq!(shop.server.entry_count(), 2);
}

#[tokio::test]
async fn the_head_of_the_journal_is_logged() {
    let shop = Shop::open();
    let logged = || shop.server.log().contains("the journal reaches to here");
    let begun = std::time::Instant::now();
    while !logged() {
        assert!(
            begun.elapsed() < std::time::Duration::from_secs(20),
            "{}",
            shop.server.log()
        );
        tokio::task::yield_now().await;
    }
    assert!(
        shop.server.log().contains("head=0:"),
        "{}",
        shop.server.log()
    );
}

/// The line of the doctor about something.
fn line<'t>(told: &'t str, what: &str) -> &'t str {
    let found = told.lines().find(|line| line.contains(what));
    found.unwrap_or_else(|| panic!("nothing about {what} in {told}"))
}

#[tokio::test]
async fn backups_are_made_by_the_clock_verified_and_the_oldest_removed() {
    let mut shop = Shop::open();
    shop.job("tractor").await;
    let folder = shop.server.beside("backups");
    std::fs::create_dir(&folder).expect("a folder");
    let name = folder.to_str().expect("a name").to_owned();
    shop.server.stop().await;
    // Once a second, and a bit.
    shop.server.start_again(&[
        "--backups",
        &name,
        "--backup-every",
        "0.0003",
        "--backups-kept",
        "2",
    ]);
    let made = || {
        shop.server
            .log()
            .matches("a backup was made and verified")
            .count()
    };
    let begun = std::time::Instant::now();
    while made() < 4 {
        assert!(
            begun.elapsed() < std::time::Duration::from_secs(30),
            "{}",
            shop.server.log()
        );
        tokio::time::sleep(std::time::Duration::from_millis(20)).await;
    }
    let data = shop.server.data().to_owned();
    let told = run(&["doctor", "--backups", &name, "--data"], &[&data]);
    let told = String::from_utf8_lossy(&told.stdout).into_owned();
    assert!(
        line(&told, "last backup").starts_with("ok    last backup: 0 h ago"),
        "{told}"
    );
    shop.server.stop().await;
    let left: Vec<_> = std::fs::read_dir(&folder)
        .expect("the folder")
        .map(|item| item.expect("an item").path())
        .filter(|path| !path.to_string_lossy().contains("partial"))
        .collect();
    assert!((2..=3).contains(&left.len()), "{left:?}");
    for backup in &left {
        said(&run(&["verify", "--data"], &[backup]));
    }
    shop.server.start_again(&[]);
}

#[tokio::test]
async fn the_doctor_names_what_is_wrong_with_one_line_of_advice() {
    let mut shop = Shop::open();
    shop.job("tractor").await;
    let data = shop.server.data().to_owned();
    let ask = |path: &Path| {
        let output = run(&["doctor", "--data"], &[path]);
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    let told = ask(&data);
    for fine in [
        "versions",
        "permissions: 600",
        "chain: 2 entries",
        "indexes and lists",
        "clock",
        "disk",
    ] {
        assert!(line(&told, fine).starts_with("ok "), "{told}");
    }
    assert!(line(&told, "last backup").starts_with("LOOK"), "{told}");
    shop.server.stop().await;

    let bad = shop.server.beside("bad.db");
    std::fs::copy(&data, &bad).expect("a copy");
    std::fs::set_permissions(&bad, std::os::unix::fs::PermissionsExt::from_mode(0o644))
        .expect("set");
    let conn = rusqlite::Connection::open(&bad).expect("it opens");
    conn.execute_batch("UPDATE jobs SET machine = 'Hay press'")
        .expect("anybody can");
    drop(conn);
    let told = ask(&bad);
    assert!(
        told.contains("chmod 600") && told.contains("clampbookd rebuild"),
        "{told}"
    );
    assert!(
        line(&told, "indexes and lists").starts_with("LOOK"),
        "{told}"
    );
    said(&run(&["rebuild", "--data"], &[&bad]));
    assert!(line(&ask(&bad), "indexes and lists").starts_with("ok "));
    let nothing = ask(&shop.server.beside("nothing.db"));
    assert!(line(&nothing, "journal").starts_with("LOOK"), "{nothing}");
    shop.server.start_again(&[]);
}
