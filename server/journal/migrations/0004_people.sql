-- Entries of format 2 name a person; requests say which version their fingerprint is of. Both are nothing in older rows, which
-- stay of format 1 for ever: no person is guessed from a name.

ALTER TABLE requests ADD COLUMN fingerprint_version INTEGER CHECK (fingerprint_version >= 0);

ALTER TABLE entries ADD COLUMN format INTEGER CHECK (format > 1);              -- of the hash
ALTER TABLE entries ADD COLUMN known TEXT CHECK ((known IS NULL) = (format IS NULL)); -- how the person is known: open, named
ALTER TABLE entries ADD COLUMN person_id TEXT CHECK (person_id <> '' AND (person_id IS NULL OR format IS NOT NULL));
