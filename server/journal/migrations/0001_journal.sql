-- The journal: streams, requests, entries. Append-only; the triggers refuse change and deletion.

-- What entries belong to: `jobs/{job}`, or `shop`.
CREATE TABLE streams (
    key  INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE CHECK (name <> '')
) STRICT;

-- What callers asked to be written. Kept for ever, so that a repeated request gets its first answer.
CREATE TABLE requests (
    key         INTEGER PRIMARY KEY,
    id          BLOB    NOT NULL UNIQUE CHECK (length(id) = 16),           -- UUID
    fingerprint BLOB    NOT NULL CHECK (length(fingerprint) = 32),         -- of the request's content
    stream      INTEGER NOT NULL REFERENCES streams (key),
    first_seq   INTEGER NOT NULL CHECK (first_seq > 0),                    -- its entries are first_seq,
    entry_count INTEGER NOT NULL CHECK (entry_count >= 0)                  -- first_seq + 1, ... entry_count of them
) STRICT;

-- What was said. Times are microseconds since 1970-01-01T00:00:00Z.
CREATE TABLE entries (
    seq     INTEGER PRIMARY KEY CHECK (seq > 0),                           -- place in the file, without gaps
    stream  INTEGER NOT NULL REFERENCES streams (key),
    n       INTEGER NOT NULL CHECK (n BETWEEN 1 AND 4294967295),           -- place in the stream, without gaps
    said    INTEGER NOT NULL,                                              -- when it was said
    written INTEGER NOT NULL,                                              -- when the server wrote it
    person  TEXT    NOT NULL CHECK (person <> ''),
    device  TEXT    NOT NULL,
    kind    TEXT    NOT NULL CHECK (kind <> ''),
    body    TEXT    NOT NULL CHECK (json_valid(body)),                     -- the fact: {"v":1,"kind":...}
    request INTEGER NOT NULL REFERENCES requests (key),
    hash    BLOB    NOT NULL CHECK (length(hash) = 32),                    -- BLAKE3 over the hash before it and all of the above
    UNIQUE (stream, n)
) STRICT;

-- Read model of the job list. Follows from the entries; can be rebuilt from them.
CREATE TABLE jobs (
    stream       INTEGER PRIMARY KEY REFERENCES streams (key),
    display_name TEXT    NOT NULL,
    machine      TEXT    NOT NULL,
    torque_unit  TEXT    NOT NULL,
    opened       INTEGER NOT NULL,
    updated      INTEGER NOT NULL,
    last_n       INTEGER NOT NULL CHECK (last_n > 0),
    last_seq     INTEGER NOT NULL UNIQUE CHECK (last_seq > 0),
    in_place     INTEGER NOT NULL CHECK (in_place >= 0),                   -- positions by standing
    empty        INTEGER NOT NULL CHECK (empty >= 0),
    loose        INTEGER NOT NULL CHECK (loose >= 0),
    tight        INTEGER NOT NULL CHECK (tight >= 0)
) STRICT;

CREATE TRIGGER streams_are_not_changed BEFORE UPDATE ON streams
BEGIN SELECT raise(ABORT, 'streams are never changed'); END;
CREATE TRIGGER streams_are_not_deleted BEFORE DELETE ON streams
BEGIN SELECT raise(ABORT, 'streams are never deleted'); END;

CREATE TRIGGER requests_are_not_changed BEFORE UPDATE ON requests
BEGIN SELECT raise(ABORT, 'requests are never changed'); END;
CREATE TRIGGER requests_are_not_deleted BEFORE DELETE ON requests
BEGIN SELECT raise(ABORT, 'requests are never deleted'); END;

CREATE TRIGGER entries_are_not_changed BEFORE UPDATE ON entries
BEGIN SELECT raise(ABORT, 'entries are never changed; write a correction'); END;
CREATE TRIGGER entries_are_not_deleted BEFORE DELETE ON entries
BEGIN SELECT raise(ABORT, 'entries are never deleted; write a correction'); END;
