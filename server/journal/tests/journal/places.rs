//! Places: a file that is not where it was opened is not written into, and nobody is told that anything was.

use crate::child::{child_of, command};
use crate::support::{Hand, Shop, after, book, lay_out, log_removal, order};
use clampbook_journal::{CommitError, Condition, Options, ReadError, Store};
use std::fs::{self, File};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

type Blow = (&'static str, fn(&Path));

/// Everything that may happen to the files of a served journal, given its path.
const BLOWS: [Blow; 7] = [
    ("deleted", |path| fs::remove_file(path).expect("removed")),
    ("moved", |path| {
        fs::rename(path, path.with_extension("away")).expect("moved");
    }),
    ("replaced by a copy", |path| {
        let copy = path.with_extension("copy");
        fs::copy(path, &copy).expect("copied");
        fs::rename(copy, path).expect("replaced");
    }),
    ("its log deleted", |path| {
        fs::remove_file(log_of(path)).expect("removed");
    }),
    ("its log replaced", |path| {
        fs::copy(log_of(path), path.with_extension("copy")).expect("copied");
        fs::rename(path.with_extension("copy"), log_of(path)).expect("replaced");
    }),
    ("its folder moved", |path| {
        let folder = path.parent().expect("a folder");
        fs::rename(folder, folder.with_extension("away")).expect("moved");
    }),
    ("its folder deleted", |path| {
        fs::remove_dir_all(path.parent().expect("a folder")).expect("removed");
    }),
];

fn log_of(path: &Path) -> std::path::PathBuf {
    path.with_extension("clampbook-wal")
}

/// A journal in a folder of its own, within the shop's.
async fn served(shop: &Shop) -> (Store, std::path::PathBuf) {
    let folder = shop.folder().join("own");
    fs::create_dir(&folder).expect("a folder");
    let mut options = shop.options();
    options.path = folder.join("shop.clampbook");
    let path = options.path.clone();
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 4).await;
    (store, path)
}

#[tokio::test]
async fn nothing_is_acknowledged_once_the_file_is_not_in_its_place() {
    for (blow, strike) in BLOWS {
        let shop = Shop::new();
        let (store, path) = served(&shop).await;
        strike(&path);
        for position in 1..=2 {
            let refused = store
                .commit(order("hub", log_removal("drum", position)))
                .await
                .expect_err(blow);
            assert!(
                matches!(&refused, CommitError::Lost { detail } if detail.contains("while it was served")),
                "{blow}: {refused}"
            );
        }
        assert!(
            matches!(&*store.condition().borrow(), Condition::Lost(_)),
            "{blow}"
        );
        let copied = store.backup(&shop.folder().join("copy")).await;
        assert!(copied.is_err(), "{blow}: another file would be copied");
        store.stop().await;
    }
}

#[tokio::test]
async fn a_file_that_is_gone_is_noticed_while_nobody_writes() {
    let shop = Shop::new();
    let (store, path) = served(&shop).await;
    let mut condition = store.condition();
    assert_eq!(*condition.borrow_and_update(), Condition::Sound);
    fs::remove_file(path).expect("removed");
    let told = tokio::time::timeout(Duration::from_secs(20), condition.changed());
    told.await.expect("in time").expect("the store lives");
    assert!(matches!(&*condition.borrow(), Condition::Lost(_)));
    store.stop().await;
}

#[tokio::test]
async fn another_file_of_the_same_name_is_not_read() {
    let shop = Shop::new();
    let (store, path) = served(&shop).await;
    let other = Shop::new();
    let stranger = other.open();
    lay_out(&stranger, "axle", 1).await;
    stranger.stop().await;
    fs::copy(other.path(), path.with_extension("new")).expect("copied");
    fs::rename(path.with_extension("new"), &path).expect("replaced");
    let read = store.head().await;
    assert!(matches!(read, Err(ReadError::Lost { .. })), "{read:?}");
    store.stop().await;
}

/// Opening and closing the file by other means than SQLite drops its locks; then any SQLite before 3.51 that opens and closes
/// the journal takes its log away, and what is acknowledged afterwards would be gone with the process. Newer ones notice.
/// Whichever it is: what is acknowledged is there.
#[tokio::test]
async fn another_descriptor_of_the_file_never_costs_an_acknowledged_entry() {
    const TEST: &str = "places::another_descriptor_of_the_file_never_costs_an_acknowledged_entry";
    if let Some(path) = child_of(TEST) {
        hold_open(&path).await;
        return;
    }
    for careless in [false, true] {
        let shop = Shop::new();
        let mut child = command(&shop, TEST, "")
            .env("CARELESS", careless.to_string())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the child runs");
        let mut said = BufReader::new(child.stdout.take().expect("piped")).lines();
        let mut line = |wanted: &str| {
            let mut lines = said.by_ref().map(|line| line.expect("a line"));
            lines
                .find(|line| line.contains(wanted))
                .unwrap_or_else(|| panic!("the child ended before {wanted}"))
        };
        line("ready");
        drop_in(&shop);
        tell(&mut child);
        let answer = line("answer");
        child.kill().expect("the child can be killed");
        child.wait().expect("the child ends");

        let store = shop.open();
        let last = *store.last_seq(None).borrow();
        store.stop().await;
        let acknowledged = answer == "answer acknowledged 4";
        assert!(
            acknowledged || careless && answer.contains("Lost"),
            "{answer}"
        );
        assert_eq!(last == 4, acknowledged, "{answer}, and then {last} entries");
    }
}

/// The child's part: serves a journal, is careless with it or not, and writes once more when told to.
async fn hold_open(path: &Path) {
    let hand = Hand::default();
    hand.set(1);
    let store = Store::open(Options::new(path, book(), hand.clock())).expect("the journal opens");
    lay_out(&store, "hub", 2).await;
    if std::env::var("CARELESS").is_ok_and(|careless| careless == "true") {
        let mut first = [0; 16];
        let mut file = File::open(path).expect("it opens");
        file.read_exact(&mut first).expect("it can be read");
    }
    println!("\nready");
    let mut word = String::new();
    std::io::stdin().read_line(&mut word).expect("a word");
    let answer = store.commit(order("hub", log_removal("drum", 1))).await;
    match answer {
        Ok(receipt) => println!("answer acknowledged {}", after(&receipt).last),
        Err(error) => println!("answer {error:?}"),
    }
    std::thread::sleep(Duration::from_secs(60));
}

/// Somebody opens the journal, reads and closes it, as any program may; with an older SQLite where there is one.
fn drop_in(shop: &Shop) {
    let count = "SELECT count(*) FROM entries";
    let older = Command::new("sqlite3").arg(shop.path()).arg(count).output();
    if let Ok(output) = older {
        assert_eq!(output.stdout, b"3\n", "{output:?}");
    }
    let conn = shop.outsider();
    let entries: i64 = conn
        .query_row(count, [], |row| row.get(0))
        .expect("a count");
    assert_eq!(entries, 3);
}

fn tell(child: &mut Child) {
    let stdin = child.stdin.as_mut().expect("piped");
    stdin.write_all(b"go\n").expect("the child listens");
}
