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
    let other = new.replace(|digit: char| digit == new.chars().last().expect("one"), "0");
    let other = format!(
        "{}:{}",
        new.split(':').next().expect("one"),
        other.split(':').nth(1).expect("two")
    );
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
    assert_eq!(shop.server.entry_count(), 1);
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
