/** Points: the ledger, what they buy, when they are exchanged, and how far each session is settled. */
export const pointsLedger = `
CREATE TABLE privilege (
  id TEXT NOT NULL CONSTRAINT privilege_key PRIMARY KEY
    CONSTRAINT privilege_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT privilege_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  name TEXT NOT NULL CONSTRAINT privilege_name CHECK (length(name) BETWEEN 1 AND 60),
  picture TEXT CONSTRAINT privilege_picture CHECK (length(picture) BETWEEN 1 AND 40),
  price INTEGER NOT NULL CONSTRAINT privilege_price CHECK (price BETWEEN 1 AND 1000),
  band INTEGER NOT NULL CONSTRAINT privilege_band CHECK (band BETWEEN 1 AND 3),
  places INTEGER CONSTRAINT privilege_places CHECK (places BETWEEN 1 AND 60),
  minutes INTEGER CONSTRAINT privilege_minutes CHECK (minutes BETWEEN 1 AND 120),
  per_day INTEGER CONSTRAINT privilege_per_day CHECK (per_day BETWEEN 1 AND 20),
  position INTEGER NOT NULL,
  archived_ms INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX privilege_by_group ON privilege (group_id, position);

CREATE TABLE not_for (
  privilege_id TEXT NOT NULL
    CONSTRAINT not_for_privilege REFERENCES privilege (id) ON DELETE CASCADE,
  student_id TEXT NOT NULL CONSTRAINT not_for_student REFERENCES student (id) ON DELETE RESTRICT,
  CONSTRAINT not_for_key PRIMARY KEY (privilege_id, student_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE period (
  id TEXT NOT NULL CONSTRAINT period_key PRIMARY KEY CONSTRAINT period_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT period_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  name TEXT NOT NULL CONSTRAINT period_name CHECK (length(name) BETWEEN 1 AND 60),
  starts TEXT CONSTRAINT period_starts CHECK (starts IS strftime('%H:%M', starts)),
  ends TEXT CONSTRAINT period_ends CHECK (ends IS strftime('%H:%M', ends)),
  position INTEGER NOT NULL,
  exchange INTEGER NOT NULL CONSTRAINT period_exchange CHECK (exchange IN (0, 1))
) STRICT, WITHOUT ROWID;
CREATE INDEX period_by_group ON period (group_id, position);

CREATE TABLE ledger_entry (
  number INTEGER NOT NULL CONSTRAINT ledger_entry_key PRIMARY KEY,
  id TEXT NOT NULL CONSTRAINT ledger_entry_id_once UNIQUE
    CONSTRAINT ledger_entry_id CHECK (length(id) = 36),
  student_number INTEGER NOT NULL
    CONSTRAINT ledger_entry_of_student REFERENCES student (number) ON DELETE RESTRICT,
  source TEXT NOT NULL CONSTRAINT ledger_entry_source CHECK
    (source IN ('session', 'press', 'contract', 'team', 'exchange', 'reversal', 'opening')),
  -- The id of the session, or of the press.
  source_key TEXT NOT NULL CONSTRAINT ledger_entry_source_key CHECK (length(source_key) = 36),
  rule TEXT NOT NULL CONSTRAINT ledger_entry_rule CHECK (length(rule) BETWEEN 1 AND 20),
  revision INTEGER NOT NULL CONSTRAINT ledger_entry_revision CHECK (revision >= 1),
  amount INTEGER NOT NULL,
  -- What the session is worth by this rule; null for what is no session's.
  due INTEGER CONSTRAINT ledger_entry_due CHECK (due >= 0),
  forgiven INTEGER NOT NULL,
  day TEXT NOT NULL CONSTRAINT ledger_entry_day CHECK (day IS date(day)),
  wall_ms INTEGER NOT NULL,
  offset_minutes INTEGER NOT NULL
    CONSTRAINT ledger_entry_offset CHECK (offset_minutes BETWEEN -1080 AND 1080),
  reverses INTEGER CONSTRAINT ledger_entry_reversed_once UNIQUE
    CONSTRAINT ledger_entry_reverses REFERENCES ledger_entry (number),
  privilege_id TEXT
    CONSTRAINT ledger_entry_privilege REFERENCES privilege (id) ON DELETE RESTRICT,
  CONSTRAINT ledger_entry_once UNIQUE (source, source_key, student_number, rule, revision)
) STRICT;
CREATE INDEX ledger_entry_by_student ON ledger_entry (student_number, day, amount);

-- How far the ledger has followed each session's log.
CREATE TABLE settled (
  session_number INTEGER NOT NULL CONSTRAINT settled_key PRIMARY KEY
    CONSTRAINT settled_session REFERENCES session (number) ON DELETE CASCADE,
  seq INTEGER NOT NULL CONSTRAINT settled_seq CHECK (seq >= 0)
) STRICT;

CREATE TRIGGER ledger_entry_never_changes BEFORE UPDATE ON ledger_entry
BEGIN
  SELECT RAISE (ABORT, 'ledger entries are never changed');
END;

CREATE TRIGGER ledger_entry_never_goes BEFORE DELETE ON ledger_entry
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'ledger entries are deleted only by an erasure');
END;
`;
