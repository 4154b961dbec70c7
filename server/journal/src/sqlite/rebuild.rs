//! Rebuilding: what follows from the entries, made again from them. For a journal that is not served; one with a damaged
//! index could not even be opened.

use crate::protocol::error::ReadError;
use crate::sqlite::claim::Claim;
use crate::sqlite::error::{OpenError, RowError};
use crate::sqlite::verify::{self, Verification};
use crate::sqlite::{migrate, open, settings, summary};
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;

/// Makes the indexes and the read models of a journal again from its tables, and verifies it.
///
/// # Errors
/// The journal is being served, not ours, or cannot be written; or its tables are damaged, which no rebuilding repairs.
pub fn rebuild_file(path: &Path) -> Result<Verification, OpenError> {
    settings::check_version()?;
    let claim = Claim::of(path)?;
    let path = claim.path();
    let failed = |fault: RowError| ReadError::from(fault);
    if !claim.exists() {
        return Err(OpenError::Missing {
            path: path.to_owned(),
        });
    }
    let mut conn = open::writer(path)?;
    let schema = open::identify(path, &conn)?.schema;
    rebuild(&mut conn, schema).map_err(failed)?;
    let found = verify::complete(&conn, schema).map_err(failed)?;
    settings::keep_log(&conn, false).map_err(|error| failed(error.into()))?;
    Ok(found)
}

/// All or nothing. Lists are as they are written today; an older journal gets them when it is brought to this schema.
fn rebuild(conn: &mut Connection, schema: i64) -> Result<(), RowError> {
    let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
    tx.execute_batch("REINDEX")?;
    if schema == migrate::latest() {
        summary::rebuild(&tx)?;
    }
    tx.commit()?;
    Ok(())
}
