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
            "seq, stream, n, said, written, 'Bob', device, kind, body, request, hash",
        ),
        ("requests", "key, id, fingerprint, stream, first_seq, 0"),
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
    let row = |n: &str, body: &str, request: &str, hash: &str| {
        format!(
            "INSERT INTO entries VALUES (4, 1, {n}, 0, 0, 'Ada', '', 'removed', {body}, {request}, {hash})"
        )
    };
    let (body, hash) = ("'{}'", "zeroblob(32)");
    for wrong in [
        row("0", body, "1", hash),
        row("3", body, "1", hash),
        row("4.5", body, "1", hash),
        row("4", "'{'", "1", hash),
        row("4", "x'7b7d'", "1", hash),
        row("4", body, "99", hash),
        row("4", body, "1", "zeroblob(31)"),
        row("4", body, "1", "NULL"),
    ] {
        refused(&conn, &wrong);
    }
    let count: i64 = conn
        .query_row("SELECT count(*) FROM entries", [], |row| row.get(0))
        .expect("a count");
    assert_eq!(count, 3);
}
