//! The schema as it must be: what the file has besides makes the server acknowledge what is not stored as it says.

use crate::sqlite::open;
use rusqlite::Connection;
use std::collections::BTreeMap;

/// What differs from the schema with this number, one line each.
pub(crate) fn differences(conn: &Connection, schema: i64) -> rusqlite::Result<Vec<String>> {
    let expected = things(&open::example(schema)?)?;
    let found = things(conn)?;
    let missing = expected
        .iter()
        .filter_map(|(name, sql)| match found.get(name) {
            None => Some(format!("the {name} is missing")),
            Some(other) if other != sql => {
                Some(format!("the {name} is not as this program made it"))
            }
            Some(_) => None,
        });
    let foreign = found
        .keys()
        .filter(|name| !expected.contains_key(*name))
        .map(|name| format!("the {name} is not of this program"));
    Ok(missing.chain(foreign).collect())
}

/// Tables, indexes, triggers and views by kind and name, with the text that made them.
fn things(conn: &Connection) -> rusqlite::Result<BTreeMap<String, String>> {
    conn.prepare("SELECT type || ' ' || name, tbl_name, coalesce(sql, '') FROM sqlite_schema")?
        .query_map([], |row| {
            let (table, sql): (String, String) = (row.get(1)?, row.get(2)?);
            Ok((row.get(0)?, format!("{table} {}", plain(&sql))))
        })?
        .collect()
}

/// The text without its comments and line breaks, which do nothing.
fn plain(sql: &str) -> String {
    let lines = sql.lines().map(|line| match line.split_once("--") {
        Some((code, _)) => code,
        None => line,
    });
    let words = lines.flat_map(str::split_whitespace);
    words.collect::<Vec<_>>().join(" ")
}
