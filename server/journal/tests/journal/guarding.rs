//! Guarding: the file itself refuses to have its past changed.

use crate::support::{Shop, lay_out};
use rusqlite::Connection;

async fn written() -> Shop {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    store.stop().await;
    shop
}

fn refused(conn: &Connection, sql: &str) -> String {
    conn.execute_batch(sql)
        .expect_err("the file must refuse this")
        .to_string()
}

#[tokio::test]
async fn entries_requests_and_streams_are_never_changed_or_deleted() {
    let shop = written().await;
    let conn = shop.outsider();
    for (table, change) in [
        ("entries", "person = 'Bob'"),
        ("entries", "seq = seq + 100"),
        ("requests", "entry_count = 0"),
        ("streams", "name = 'jobs/other'"),
    ] {
        let error = refused(&conn, &format!("UPDATE {table} SET {change}"));
        assert!(
            error.contains(&format!("{table} are never changed")),
            "{error}"
        );
        let error = refused(&conn, &format!("DELETE FROM {table}"));
        assert!(
            error.contains(&format!("{table} are never deleted")),
            "{error}"
        );
    }
}

#[tokio::test]
async fn replacing_is_deleting() {
    let shop = written().await;
    let conn = shop.outsider();
    // As the writer's connection is set; without this SQLite does not ask the triggers.
    conn.pragma_update(None, "recursive_triggers", true)
        .expect("it can be set");
    for (table, columns) in [
        (
            "entries",
            "seq, stream, n, said, written, 'Bob', device, kind, body, request, hash, format, known, person_id",
        ),
        (
            "requests",
            "key, id, fingerprint, stream, first_seq, 0, fingerprint_version",
        ),
        ("streams", "key, name"),
    ] {
        let error = refused(
            &conn,
            &format!("INSERT OR REPLACE INTO {table} SELECT {columns} FROM {table}"),
        );
        assert!(
            error.contains(&format!("{table} are never deleted")),
            "{error}"
        );
    }
}

#[tokio::test]
async fn what_makes_no_sense_does_not_go_in() {
    let shop = written().await;
    let conn = shop.outsider();
    let row = |n: &str, body: &str, request: &str, hash: &str, who: &str| {
        format!(
            "INSERT INTO entries VALUES (4, 1, {n}, 0, 0, 'Ada', '', 'removed', {body}, {request}, {hash}, {who})"
        )
    };
    let (body, hash, who) = ("'{}'", "zeroblob(32)", "2, 'named', 'ada'");
    for wrong in [
        row("0", body, "1", hash, who),
        row("3", body, "1", hash, who),
        row("4.5", body, "1", hash, who),
        row("4", "'{'", "1", hash, who),
        row("4", "x'7b7d'", "1", hash, who),
        row("4", body, "99", hash, who),
        row("4", body, "1", "zeroblob(31)", who),
        row("4", body, "1", "NULL", who),
        row("4", body, "1", hash, "1, 'named', 'ada'"),
        row("4", body, "1", hash, "2, NULL, NULL"),
        row("4", body, "1", hash, "2, 'named', ''"),
        row("4", body, "1", hash, "NULL, 'named', NULL"),
        row("4", body, "1", hash, "NULL, NULL, 'ada'"),
    ] {
        refused(&conn, &wrong);
    }
    let right = row("4", body, "1", hash, who);
    conn.execute_batch(&format!("BEGIN; {right}; ROLLBACK"))
        .expect("what makes sense goes in");
    let count: i64 = conn
        .query_row("SELECT count(*) FROM entries", [], |row| row.get(0))
        .expect("a count");
    assert_eq!(count, 3);
}
