//! The schema and its history: numbered SQL files, each applied once, in its own transaction, never edited once shipped.

use rusqlite::{Connection, TransactionBehavior};

/// Marks the file as ours: `CLMP`.
pub(crate) const APPLICATION_ID: i64 = 0x434C_4D50;

/// The schema's history; number `n` of the file's `user_version` says that the first `n` are applied.
pub(crate) const MIGRATIONS: &[&str] = &[
    include_str!("../../migrations/0001_journal.sql"),
    include_str!("../../migrations/0002_blobs.sql"),
    include_str!("../../migrations/0003_left_out.sql"),
    include_str!("../../migrations/0004_people.sql"),
];

/// What the file says it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Identity {
    pub(crate) application: i64,
    pub(crate) schema: i64,
}

impl Identity {
    pub(crate) fn read(conn: &Connection) -> rusqlite::Result<Self> {
        let number = |name| conn.pragma_query_value(None, name, |row| row.get(0));
        Ok(Self {
            application: number("application_id")?,
            schema: number("user_version")?,
        })
    }
}

/// The latest schema of this program.
pub(crate) fn latest() -> i64 {
    MIGRATIONS.len() as i64
}

/// Applies what the file lacks.
pub(crate) fn apply(conn: &mut Connection, migrations: &[&str]) -> rusqlite::Result<()> {
    let from: i64 = conn.pragma_query_value(None, "user_version", |row| row.get(0))?;
    for (number, sql) in (1_i64..)
        .zip(migrations)
        .filter(|(number, _)| *number > from)
    {
        let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
        tx.execute_batch(sql)?;
        tx.pragma_update(None, "application_id", APPLICATION_ID)?;
        tx.pragma_update(None, "user_version", number)?;
        tx.commit()?;
    }
    Ok(())
}

#[cfg(test)]
#[allow(clippy::disallowed_methods, reason = "tests open what they like")]
mod tests {
    use super::{APPLICATION_ID, Identity, apply};
    use rusqlite::Connection;

    const FIRST: &str = "CREATE TABLE a (x INTEGER) STRICT;";
    const SECOND: &str = "CREATE TABLE b (x INTEGER) STRICT; INSERT INTO b VALUES (7);";

    #[test]
    fn only_what_is_missing_is_applied() {
        let mut conn = Connection::open_in_memory().expect("SQLite works");
        apply(&mut conn, &[FIRST]).expect("SQLite works");
        apply(&mut conn, &[FIRST, SECOND]).expect("SQLite works");
        apply(&mut conn, &[FIRST, SECOND]).expect("SQLite works");
        let identity = Identity::read(&conn).expect("SQLite works");
        assert_eq!(
            identity,
            Identity {
                application: APPLICATION_ID,
                schema: 2
            }
        );
        let rows: i64 = conn
            .query_row("SELECT count(*) FROM b", [], |r| r.get(0))
            .expect("SQLite works");
        assert_eq!(rows, 1);
    }

    #[test]
    fn a_migration_that_fails_leaves_the_schema_before_it() {
        let mut conn = Connection::open_in_memory().expect("SQLite works");
        let broken = "CREATE TABLE b (x INTEGER) STRICT; INSERT INTO b VALUES ('seven');";
        apply(&mut conn, &[FIRST, broken]).expect_err("it must be refused");
        assert_eq!(Identity::read(&conn).expect("SQLite works").schema, 1);
        let tables: i64 = conn
            .query_row("SELECT count(*) FROM sqlite_schema", [], |r| r.get(0))
            .expect("SQLite works");
        assert_eq!(tables, 1);
    }
}
