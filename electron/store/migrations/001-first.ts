/** Groups, students, plans, phases, settings, sessions and the session event log. */
export const first = `
CREATE TABLE student_group (
  id TEXT NOT NULL CONSTRAINT student_group_key PRIMARY KEY
    CONSTRAINT student_group_id CHECK (length(id) = 36),
  name TEXT NOT NULL CONSTRAINT student_group_name CHECK (length(name) BETWEEN 1 AND 60),
  target TEXT NOT NULL CONSTRAINT student_group_target CHECK (length(target) <= 300),
  is_sample INTEGER NOT NULL CONSTRAINT student_group_is_sample CHECK (is_sample IN (0, 1)),
  position INTEGER NOT NULL,
  created_ms INTEGER NOT NULL,
  archived_ms INTEGER
) STRICT, WITHOUT ROWID;

CREATE TABLE student (
  -- The event log is by far the largest table: it names students and sessions by these short numbers,
  -- which keeps the file a sixth of the size. Everything else goes by id.
  number INTEGER NOT NULL CONSTRAINT student_key PRIMARY KEY,
  id TEXT NOT NULL CONSTRAINT student_id_once UNIQUE
    CONSTRAINT student_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT student_in_group REFERENCES student_group (id) ON DELETE RESTRICT,
  name TEXT NOT NULL CONSTRAINT student_name CHECK (length(name) BETWEEN 1 AND 60),
  picture TEXT CONSTRAINT student_picture CHECK (length(picture) BETWEEN 1 AND 40),
  target TEXT NOT NULL CONSTRAINT student_target CHECK (length(target) <= 300),
  position INTEGER NOT NULL,
  created_ms INTEGER NOT NULL,
  archived_ms INTEGER
) STRICT;
CREATE INDEX student_by_group ON student (group_id, position);

CREATE TABLE plan (
  id TEXT NOT NULL CONSTRAINT plan_key PRIMARY KEY CONSTRAINT plan_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT plan_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  name TEXT NOT NULL CONSTRAINT plan_name CHECK (length(name) BETWEEN 1 AND 60),
  settings TEXT NOT NULL CONSTRAINT plan_settings CHECK (json_valid(settings)),
  created_ms INTEGER NOT NULL,
  archived_ms INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX plan_by_group ON plan (group_id, created_ms);

CREATE TABLE phase (
  id TEXT NOT NULL CONSTRAINT phase_key PRIMARY KEY CONSTRAINT phase_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT phase_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  student_id TEXT
    CONSTRAINT phase_of_student REFERENCES student (id) ON DELETE RESTRICT,
  kind TEXT NOT NULL CONSTRAINT phase_kind
    CHECK (kind IN ('baseline', 'intervention', 'fading', 'maintenance')),
  label TEXT NOT NULL CONSTRAINT phase_label CHECK (length(label) <= 60),
  starts_on TEXT NOT NULL CONSTRAINT phase_starts_on CHECK (starts_on IS date(starts_on))
) STRICT, WITHOUT ROWID;
CREATE INDEX phase_by_group ON phase (group_id, starts_on);
CREATE INDEX phase_by_student ON phase (student_id) WHERE student_id IS NOT NULL;

CREATE TABLE setting (
  name TEXT NOT NULL CONSTRAINT setting_key PRIMARY KEY,
  value TEXT NOT NULL CONSTRAINT setting_value CHECK (json_valid(value))
) STRICT, WITHOUT ROWID;

CREATE TABLE session (
  number INTEGER NOT NULL CONSTRAINT session_key PRIMARY KEY,
  id TEXT NOT NULL CONSTRAINT session_id_once UNIQUE
    CONSTRAINT session_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT session_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  kind TEXT NOT NULL CONSTRAINT session_kind
    CHECK (kind IN ('seatwork', 'baseline', 'probe', 'practice')),
  plan_name TEXT NOT NULL CONSTRAINT session_plan_name CHECK (length(plan_name) BETWEEN 1 AND 60),
  plan TEXT NOT NULL CONSTRAINT session_plan CHECK (json_valid(plan)),
  seed TEXT NOT NULL CONSTRAINT session_seed CHECK (length(seed) BETWEEN 1 AND 80),
  started_ms INTEGER NOT NULL,
  offset_minutes INTEGER NOT NULL
    CONSTRAINT session_offset CHECK (offset_minutes BETWEEN -1080 AND 1080),
  day TEXT NOT NULL CONSTRAINT session_day CHECK (day IS date(day)),
  -- Highest number of an event that an erasure removed, so that no number is given twice.
  erased_seq INTEGER NOT NULL DEFAULT 0 CONSTRAINT session_erased_seq CHECK (erased_seq >= 0)
) STRICT;
CREATE INDEX session_by_group ON session (group_id, started_ms);
CREATE INDEX session_by_start ON session (started_ms);

CREATE TABLE session_event (
  session_number INTEGER NOT NULL
    CONSTRAINT session_event_of_session REFERENCES session (number) ON DELETE RESTRICT,
  seq INTEGER NOT NULL CONSTRAINT session_event_seq CHECK (seq >= 1),
  kind TEXT NOT NULL CONSTRAINT session_event_kind CHECK (length(kind) BETWEEN 1 AND 40),
  at_ms INTEGER NOT NULL CONSTRAINT session_event_at CHECK (at_ms >= 0),
  wall_ms INTEGER NOT NULL,
  offset_minutes INTEGER NOT NULL
    CONSTRAINT session_event_offset CHECK (offset_minutes BETWEEN -1080 AND 1080),
  student_number INTEGER
    CONSTRAINT session_event_of_student REFERENCES student (number) ON DELETE RESTRICT,
  cue INTEGER CONSTRAINT session_event_cue CHECK (cue >= 1),
  value TEXT CONSTRAINT session_event_value CHECK (value IN ('on', 'off', 'none', 'unseen')),
  way TEXT CONSTRAINT session_event_way CHECK (way IN ('screen', 'paper', 'seat', 'import')),
  late INTEGER CONSTRAINT session_event_late CHECK (late IN (0, 1)),
  -- What has no column of its own.
  detail TEXT CONSTRAINT session_event_detail CHECK (json_valid(detail)),
  CONSTRAINT session_event_key PRIMARY KEY (session_number, seq)
) STRICT, WITHOUT ROWID;
-- No index by student: only an erasure looks events up that way, and it may take its time.
-- Counting reads the few events that are no marks apart from the many that are.
CREATE INDEX session_event_other ON session_event (session_number)
  WHERE kind <> 'mark' AND kind <> 'announced';
CREATE INDEX session_event_ended ON session_event (session_number) WHERE kind = 'ended';

-- The log only grows. A row here, put in and taken out within one transaction, is the key with which
-- an erasure (and nothing else) may delete.
CREATE TABLE erasure (
  open INTEGER NOT NULL CONSTRAINT erasure_key PRIMARY KEY CONSTRAINT erasure_one CHECK (open = 1)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER session_event_never_changes BEFORE UPDATE ON session_event
BEGIN
  SELECT RAISE (ABORT, 'session events are never changed');
END;

CREATE TRIGGER session_event_never_goes BEFORE DELETE ON session_event
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'session events are deleted only by an erasure');
END;
`;
