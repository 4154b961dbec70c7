//! How connections are set, and the proof that each setting took.

use crate::sqlite::error::OpenError;
use rusqlite::Connection;
use rusqlite::config::DbConfig;
use rusqlite::types::Value;
use std::time::Duration;

/// Oldest SQLite allowed: 3.51.3. Older ones can lose committed writes when a checkpoint and a write meet.
const LEAST_SQLITE: (i32, &str) = (3_051_003, "3.51.3");

/// How long a connection waits for another's lock. Rare even so: one writer, and readers do not block it.
const BUSY: Duration = Duration::from_secs(5);

const FULL: i64 = 2;

/// Settings of the writing connection, in the order they are made.
const WRITER: &[(&str, Setting)] = &[
    ("busy_timeout", Setting::Number(BUSY.as_millis() as i64)),
    ("journal_mode", Setting::Word("wal")),
    // An acknowledged entry must survive a pulled plug.
    ("synchronous", Setting::Number(FULL)),
    ("foreign_keys", Setting::Number(1)),
    // Without it, INSERT OR REPLACE slips past the triggers that refuse deletion.
    ("recursive_triggers", Setting::Number(1)),
    ("trusted_schema", Setting::Number(0)),
    ("cell_size_check", Setting::Number(1)),
    ("cache_size", Setting::Number(-16_384)),
    ("wal_autocheckpoint", Setting::Number(4_000)),
    ("journal_size_limit", Setting::Number(64 << 20)),
];

/// Settings of a connection that reads.
const READER: &[(&str, Setting)] = &[
    ("busy_timeout", Setting::Number(BUSY.as_millis() as i64)),
    ("trusted_schema", Setting::Number(0)),
    ("cell_size_check", Setting::Number(1)),
];

/// What a setting must be.
#[derive(Clone, Copy)]
enum Setting {
    Number(i64),
    Word(&'static str),
}

impl Setting {
    fn value(self) -> Value {
        match self {
            Self::Number(number) => Value::Integer(number),
            Self::Word(word) => Value::Text(word.into()),
        }
    }
}

/// Refuses an SQLite that is known to lose data.
pub(crate) fn check_version() -> Result<(), OpenError> {
    if rusqlite::version_number() < LEAST_SQLITE.0 {
        return Err(OpenError::SqliteTooOld {
            linked: rusqlite::version(),
            minimum: LEAST_SQLITE.1,
        });
    }
    Ok(())
}

/// Sets the writing connection.
pub(crate) fn writer(conn: &Connection) -> Result<(), SettingError> {
    apply(conn, WRITER)?;
    conn.set_prepared_statement_cache_capacity(32);
    Ok(())
}

/// Sets a connection that reads.
pub(crate) fn reader(conn: &Connection) -> Result<(), SettingError> {
    apply(conn, READER)
}

/// Keeps the write-ahead log from being put into the file when the connection is closed.
pub(crate) fn keep_log(conn: &Connection, keep: bool) -> rusqlite::Result<()> {
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, keep)?;
    Ok(())
}

/// Keeps the file from growing beyond `pages`.
pub(crate) fn limit_size(conn: &Connection, pages: u32) -> rusqlite::Result<()> {
    conn.pragma_update(None, "max_page_count", pages)
}

fn apply(conn: &Connection, settings: &[(&'static str, Setting)]) -> Result<(), SettingError> {
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    // Plans do not depend on bound values; otherwise SQLite parses prepared statements again at every use.
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)?;
    for (name, setting) in settings {
        let wanted = setting.value();
        match conn.pragma_update_and_check(None, name, &wanted, |_| Ok(())) {
            // Some settings answer with their value, some do not.
            Ok(()) | Err(rusqlite::Error::QueryReturnedNoRows) => {}
            Err(error) => return Err(error.into()),
        }
        let found: Value = conn.pragma_query_value(None, name, |row| row.get(0))?;
        if found != wanted {
            return Err(SettingError::NotTaken(OpenError::Setting {
                name,
                wanted: shown(&wanted),
                found: shown(&found),
            }));
        }
    }
    Ok(())
}

fn shown(value: &Value) -> String {
    match value {
        Value::Integer(number) => number.to_string(),
        Value::Text(text) => text.clone(),
        other => format!("{other:?}"),
    }
}

/// Why a connection could not be set.
#[derive(Debug)]
pub(crate) enum SettingError {
    Sqlite(rusqlite::Error),
    NotTaken(OpenError),
}

impl From<rusqlite::Error> for SettingError {
    fn from(error: rusqlite::Error) -> Self {
        Self::Sqlite(error)
    }
}

#[cfg(test)]
#[allow(clippy::disallowed_methods, reason = "tests open what they like")]
mod tests {
    use super::{SettingError, reader, writer};
    use crate::sqlite::error::OpenError;
    use rusqlite::Connection;
    use tempfile::TempDir;

    #[test]
    fn the_writer_is_set_for_safety() {
        let folder = TempDir::new().expect("a folder");
        let conn = Connection::open(folder.path().join("a")).expect("a file");
        conn.execute_batch("PRAGMA synchronous = OFF; PRAGMA foreign_keys = OFF")
            .expect("they can be set");
        writer(&conn).unwrap_or_else(|error| panic!("{error:?}"));
        for (name, expected) in [
            ("synchronous", 2),
            ("foreign_keys", 1),
            ("recursive_triggers", 1),
            ("trusted_schema", 0),
            ("cell_size_check", 1),
            ("busy_timeout", 5_000),
        ] {
            let found: i64 = conn
                .pragma_query_value(None, name, |row| row.get(0))
                .expect("a value");
            assert_eq!(found, expected, "{name}");
        }
        let mode: String = conn
            .pragma_query_value(None, "journal_mode", |row| row.get(0))
            .expect("a mode");
        assert_eq!(mode, "wal");
    }

    #[test]
    fn a_setting_that_does_not_take_is_named() {
        // Without a file there is no write-ahead log.
        let conn = Connection::open_in_memory().expect("memory");
        reader(&conn).unwrap_or_else(|error| panic!("{error:?}"));
        let Err(SettingError::NotTaken(OpenError::Setting {
            name,
            wanted,
            found,
        })) = writer(&conn)
        else {
            panic!("it must be refused");
        };
        assert_eq!(
            (name, wanted.as_str(), found.as_str()),
            ("journal_mode", "wal", "memory")
        );
    }
}
