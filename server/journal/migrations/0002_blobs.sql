-- Contents that entries name by their hash, such as photos: each is kept once, beside the entries. Never changed or deleted.

CREATE TABLE blobs (
    key   INTEGER PRIMARY KEY,
    hash  BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),                  -- BLAKE3 over the bytes
    bytes BLOB NOT NULL CHECK (length(bytes) > 0)
) STRICT;

CREATE TRIGGER blobs_are_not_changed BEFORE UPDATE ON blobs
BEGIN SELECT raise(ABORT, 'blobs are never changed'); END;
CREATE TRIGGER blobs_are_not_deleted BEFORE DELETE ON blobs
BEGIN SELECT raise(ABORT, 'blobs are never deleted'); END;
