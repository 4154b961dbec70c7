//! Opening the journal. The only place where a file is opened, so that no connection has other settings.

use crate::protocol::chain::Head;
use crate::protocol::error::ReadError;
use crate::sqlite::at::At;
use crate::sqlite::backup::backup_file;
use crate::sqlite::cache::Shared;
use crate::sqlite::claim::Claim;
use crate::sqlite::error::{OpenError, RowError};
use crate::sqlite::load::hidden;
use crate::sqlite::migrate::{self, Identity};
use crate::sqlite::options::Options;
use crate::sqlite::partial::Partial;
use crate::sqlite::place::{Place, SIDE_FILES, beside};
use crate::sqlite::settings::{self, SettingError};
use crate::sqlite::{schema, verify};
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, ErrorCode, OpenFlags};
use std::io;
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Entries of the chain that are verified before the journal is opened.
const VERIFIED_AT_OPENING: i64 = 1_000;

/// A journal opened for writing.
#[derive(Debug)]
pub(crate) struct Opened {
    pub(crate) path: PathBuf,
    pub(crate) place: Arc<Place>,
    pub(crate) conn: Connection,
    pub(crate) at: At,
    pub(crate) no_shop: Arc<Shop>,
    pub(crate) shared: Arc<Shared>,
    pub(crate) claim: Claim,
}

/// Opens the file for writing and makes sure that it is ours, whole, and nobody else's.
pub(crate) fn opened(options: &Options) -> Result<Opened, OpenError> {
    settings::check_version()?;
    let cached_jobs = at_least_one("cached_jobs", options.cached_jobs)?;
    at_least_one("queue", options.queue)?;
    let mut claim = Claim::of(&options.path)?;
    if !claim.exists() {
        create(&claim, |_| Ok::<_, OpenError>(()))?;
        claim.take_file()?;
    }
    let path = claim.path().to_owned();
    let log = Some(beside(&path, SIDE_FILES[0])).filter(|log| log.exists());
    let whole = writer(&path).and_then(|conn| whole(conn, &path, options));
    let (conn, head, at, no_shop) = whole.map_err(|error| match log {
        Some(log) if error.may_come_of_a_log() => OpenError::WithLog {
            error: Box::new(error),
            log,
        },
        _ => error,
    })?;
    let shared = Shared::new(cached_jobs, at.shop(&no_shop), head.seq);
    Ok(Opened {
        place: Arc::new(Place::of(&path)?),
        shared: Arc::new(shared),
        at,
        no_shop,
        path,
        conn,
        claim,
    })
}

/// Makes a new journal, filled and whole before it has its name.
pub(crate) fn create<T, E: From<OpenError>>(
    claim: &Claim,
    fill: impl FnOnce(&mut Connection) -> Result<T, E>,
) -> Result<T, E> {
    let path = claim.path();
    if let Some(log) = claim.files().into_iter().next() {
        return Err(E::from(OpenError::StrayLog {
            path: path.to_owned(),
            log,
        }));
    }
    let failed = |error: io::Error| OpenError::File {
        path: path.to_owned(),
        detail: error.to_string(),
    };
    let partial = Partial::of(path).map_err(failed)?;
    let mut conn =
        connect(partial.path(), OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(file_error(path))?;
    settings::writer(&conn).map_err(|error| setting_error(path, error))?;
    migrate::apply(&mut conn, migrate::MIGRATIONS).map_err(file_error(path))?;
    let filled = fill(&mut conn)?;
    drop(conn);
    partial.settle().map_err(failed)?;
    Ok(filled)
}

/// Opens a journal that is there for writing, and lets its log be as it is until it is known to belong to it.
pub(crate) fn writer(path: &Path) -> Result<Connection, OpenError> {
    let conn = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(file_error(path))?;
    settings::keep_log(&conn, true).map_err(file_error(path))?;
    let identity = identify(path, &conn)?;
    settings::writer(&conn).map_err(|error| setting_error(path, error))?;
    as_made(path, &conn, identity.schema)?;
    Ok(conn)
}

/// Brings a journal to the latest schema and verifies its end.
fn whole(
    mut conn: Connection,
    path: &Path,
    options: &Options,
) -> Result<(Connection, Head, At, Arc<Shop>), OpenError> {
    let file = file_error(path);
    let identity = identify(path, &conn)?;
    if identity.schema < migrate::latest() {
        keep_copy(path, &conn, identity)?;
        migrate::apply(&mut conn, migrate::MIGRATIONS).map_err(&file)?;
    }
    if let Some(pages) = options.most_pages {
        settings::limit_size(&conn, pages).map_err(&file)?;
    }
    let unreadable = |fault| match fault {
        RowError::Sqlite(error) => file(error),
        RowError::Damaged(detail) => OpenError::File {
            path: path.to_owned(),
            detail,
        },
    };
    let (found, numbers) = verify::tail(&conn, VERIFIED_AT_OPENING).map_err(&unreadable)?;
    if let Some(broken) = found.first_break {
        return Err(OpenError::Damaged(broken));
    }
    let no_shop = Arc::new(Shop::new());
    let at = At::read(&conn, found.head, &no_shop).map_err(&unreadable)?;
    let walked = numbers.get(&Stream::Shop.to_string());
    if walked.is_some_and(|last| *last > at.shop(&no_shop).last) {
        return Err(unreadable(hidden(&Stream::Shop, at.shop(&no_shop).last)));
    }
    settings::keep_log(&conn, false).map_err(&file)?;
    Ok((conn, found.head, at, no_shop))
}

/// Keeps a copy of the journal as it is before its schema is changed. One that failed to be changed has its copy already.
fn keep_copy(path: &Path, conn: &Connection, identity: Identity) -> Result<(), OpenError> {
    let head = verify::head(conn).map_err(ReadError::from)?;
    let copy = beside(path, &format!(".schema-{}-{}", identity.schema, head.seq));
    if copy.exists() {
        return Ok(());
    }
    backup_file(path, &copy)?;
    Ok(())
}

/// Opens a connection that only reads.
pub(crate) fn reader(path: &Path) -> Result<Connection, ReadError> {
    let broken = |error: rusqlite::Error| ReadError::Broken {
        detail: format!("{}: {error}", path.display()),
    };
    let mut conn = connect(path, OpenFlags::SQLITE_OPEN_READ_ONLY).map_err(broken)?;
    if is_put_away(path, &conn) {
        let mode = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        conn = connect(&unchanging(path), mode).map_err(broken)?;
    }
    settings::reader(&conn).map_err(|error| match error {
        SettingError::Sqlite(error) => broken(error),
        SettingError::NotTaken(error) => ReadError::Broken {
            detail: error.to_string(),
        },
    })?;
    Ok(conn)
}

/// Whether a journal lies where nothing can be written, on a disk of old backups for instance, and everything is in the one file.
/// SQLite wants to lay an index of the log beside it even so.
fn is_put_away(path: &Path, conn: &Connection) -> bool {
    let read = conn.pragma_query_value(None, "schema_version", |row| row.get::<_, i64>(0));
    let code = read.err().and_then(|error| error.sqlite_error_code());
    let cannot = matches!(code, Some(ErrorCode::CannotOpen | ErrorCode::ReadOnly));
    cannot && path.exists() && !beside(path, SIDE_FILES[0]).exists()
}

/// The name by which SQLite takes it that nobody changes the file.
fn unchanging(path: &Path) -> PathBuf {
    let mut name = path.to_string_lossy().into_owned();
    for (sign, code) in [("%", "%25"), ("?", "%3f"), ("#", "%23")] {
        name = name.replace(sign, code);
    }
    format!("file:{name}?immutable=1").into()
}

/// A database in memory with the schema of this number, as a measure for others.
#[allow(clippy::disallowed_methods, reason = "this is the one place")]
pub(crate) fn example(schema: i64) -> rusqlite::Result<Connection> {
    let mut conn = Connection::open_in_memory()?;
    let known = usize::try_from(schema).unwrap_or_default();
    migrate::apply(
        &mut conn,
        &migrate::MIGRATIONS[..known.min(migrate::MIGRATIONS.len())],
    )?;
    Ok(conn)
}

#[allow(clippy::disallowed_methods, reason = "this is the one place")]
fn connect(path: &Path, mode: OpenFlags) -> rusqlite::Result<Connection> {
    // Each connection is used by one thread at a time, so SQLite need not lock it.
    Connection::open_with_flags(path, mode | OpenFlags::SQLITE_OPEN_NO_MUTEX)
}

fn at_least_one(name: &'static str, given: usize) -> Result<NonZeroUsize, OpenError> {
    NonZeroUsize::new(given).ok_or(OpenError::Option {
        name,
        given: "0".into(),
        allowed: "1 or more",
    })
}

/// Makes sure that the file is ours, before anything in it is touched.
pub(crate) fn identify(path: &Path, conn: &Connection) -> Result<Identity, OpenError> {
    let not_ours = |detail: String| OpenError::NotAJournal {
        path: path.to_owned(),
        detail,
    };
    let identity = Identity::read(conn).map_err(|error| match error.sqlite_error_code() {
        Some(ErrorCode::NotADatabase) => not_ours("it is no SQLite file".into()),
        _ => file_error(path)(error),
    })?;
    if identity.application != migrate::APPLICATION_ID {
        return Err(not_ours(format!(
            "its application id is {:#010x}, not {:#010x}",
            identity.application,
            migrate::APPLICATION_ID
        )));
    }
    if identity.schema > migrate::latest() {
        return Err(OpenError::Newer {
            path: path.to_owned(),
            file: identity.schema,
            program: migrate::latest(),
        });
    }
    Ok(identity)
}

/// Makes sure that the file has the schema that this program made, and nothing besides.
fn as_made(path: &Path, conn: &Connection, schema: i64) -> Result<(), OpenError> {
    let found = schema::differences(conn, schema).map_err(file_error(path))?;
    if found.is_empty() {
        return Ok(());
    }
    Err(OpenError::Schema {
        path: path.to_owned(),
        detail: found.join("; "),
    })
}

fn file_error(path: &Path) -> impl Fn(rusqlite::Error) -> OpenError + use<> {
    let path = path.to_owned();
    move |error| OpenError::File {
        path: path.clone(),
        detail: error.to_string(),
    }
}

fn setting_error(path: &Path, error: SettingError) -> OpenError {
    match error {
        SettingError::Sqlite(error) => file_error(path)(error),
        SettingError::NotTaken(error) => error,
    }
}
