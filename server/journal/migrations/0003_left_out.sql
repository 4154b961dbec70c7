-- Positions that are empty on purpose. No journal from before could say so, and their lists need no new count.

ALTER TABLE jobs ADD COLUMN left_out INTEGER NOT NULL DEFAULT 0 CHECK (left_out >= 0);
