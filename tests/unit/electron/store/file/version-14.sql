-- A database of version 14 with a row of everything, as that version wrote it. Never edit: it stands for
-- files that teachers have.
CREATE TABLE student_group (
  id TEXT NOT NULL CONSTRAINT student_group_key PRIMARY KEY
    CONSTRAINT student_group_id CHECK (length(id) = 36),
  name TEXT NOT NULL CONSTRAINT student_group_name CHECK (length(name) BETWEEN 1 AND 60),
  target TEXT NOT NULL CONSTRAINT student_group_target CHECK (length(target) <= 300),
  is_sample INTEGER NOT NULL CONSTRAINT student_group_is_sample CHECK (is_sample IN (0, 1)),
  position INTEGER NOT NULL,
  created_ms INTEGER NOT NULL,
  archived_ms INTEGER
, weekdays TEXT NOT NULL DEFAULT '12345'
  CONSTRAINT student_group_weekdays
    CHECK (length(weekdays) BETWEEN 1 AND 7 AND weekdays NOT GLOB '*[^1-7]*')) STRICT, WITHOUT ROWID;
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
, import_id TEXT
  CONSTRAINT student_of_import REFERENCES record_import (id) ON DELETE RESTRICT, hold_goal REAL
  CONSTRAINT student_hold_goal CHECK (hold_goal BETWEEN 0.05 AND 1), joined_ms INTEGER) STRICT;
CREATE TABLE plan (
  id TEXT NOT NULL CONSTRAINT plan_key PRIMARY KEY CONSTRAINT plan_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT plan_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  name TEXT NOT NULL CONSTRAINT plan_name CHECK (length(name) BETWEEN 1 AND 60),
  settings TEXT NOT NULL CONSTRAINT plan_settings CHECK (json_valid(settings)),
  created_ms INTEGER NOT NULL,
  archived_ms INTEGER
) STRICT, WITHOUT ROWID;
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
, drawn_from TEXT
  CONSTRAINT phase_drawn_from CHECK (drawn_from IS date(drawn_from)), drawn_to TEXT
  CONSTRAINT phase_drawn_to CHECK (drawn_to IS date(drawn_to) AND drawn_from <= drawn_to), drawn_seed TEXT
  CONSTRAINT phase_drawn_seed
    CHECK (length(drawn_seed) BETWEEN 1 AND 12 AND drawn_seed NOT GLOB '*[^a-z0-9]*')
  CONSTRAINT phase_drawn_whole
    CHECK ((drawn_from IS NULL) = (drawn_to IS NULL) AND (drawn_from IS NULL) = (drawn_seed IS NULL)), drawn_days TEXT
  CONSTRAINT phase_drawn_days CHECK (json_valid(drawn_days)), drawn_times INTEGER
  CONSTRAINT phase_drawn_times CHECK (drawn_times >= 1), probe_until TEXT
  CONSTRAINT phase_probe_until CHECK (probe_until IS date(probe_until)), probe_seed TEXT
  CONSTRAINT phase_probe_seed
    CHECK (length(probe_seed) BETWEEN 1 AND 12 AND probe_seed NOT GLOB '*[^a-z0-9]*'), probe_days TEXT
  CONSTRAINT phase_probe_days CHECK (json_valid(probe_days))
  CONSTRAINT phase_probe_whole
    CHECK ((probe_until IS NULL) = (probe_seed IS NULL) AND (probe_until IS NULL) = (probe_days IS NULL))) STRICT, WITHOUT ROWID;
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
, import_id TEXT
  CONSTRAINT session_of_import REFERENCES record_import (id) ON DELETE RESTRICT) STRICT;
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
CREATE TABLE erasure (
  open INTEGER NOT NULL CONSTRAINT erasure_key PRIMARY KEY CONSTRAINT erasure_one CHECK (open = 1)
) STRICT, WITHOUT ROWID;
CREATE TABLE day_off (
  id TEXT NOT NULL CONSTRAINT day_off_key PRIMARY KEY
    CONSTRAINT day_off_id CHECK (length(id) = 36),
  first_day TEXT NOT NULL CONSTRAINT day_off_first_day CHECK (first_day IS date(first_day)),
  last_day TEXT NOT NULL CONSTRAINT day_off_last_day CHECK (last_day IS date(last_day)),
  label TEXT NOT NULL CONSTRAINT day_off_label CHECK (length(label) <= 60),
  CONSTRAINT day_off_order CHECK (first_day <= last_day)
) STRICT, WITHOUT ROWID;
CREATE TABLE program (
  group_id TEXT NOT NULL CONSTRAINT program_key PRIMARY KEY
    CONSTRAINT program_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  goal REAL NOT NULL CONSTRAINT program_goal CHECK (goal BETWEEN 0.05 AND 1),
  step_means TEXT NOT NULL CONSTRAINT program_step_means CHECK (json_valid(step_means)),
  place INTEGER NOT NULL CONSTRAINT program_place CHECK (place BETWEEN 0 AND 20),
  points_paid INTEGER NOT NULL CONSTRAINT program_points_paid CHECK (points_paid IN (0, 1)),
  place_since TEXT NOT NULL
    CONSTRAINT program_place_since CHECK (place_since IS date(place_since))
, place_since_ms INTEGER) STRICT, WITHOUT ROWID;
CREATE TABLE advice_decision (
  id TEXT NOT NULL CONSTRAINT advice_decision_key PRIMARY KEY
    CONSTRAINT advice_decision_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT advice_decision_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  student_id TEXT
    CONSTRAINT advice_decision_of_student REFERENCES student (id) ON DELETE RESTRICT,
  advice TEXT NOT NULL CONSTRAINT advice_decision_advice CHECK (length(advice) BETWEEN 1 AND 40),
  accepted INTEGER NOT NULL CONSTRAINT advice_decision_accepted CHECK (accepted IN (0, 1)),
  note TEXT NOT NULL CONSTRAINT advice_decision_note CHECK (length(note) <= 500),
  decided_ms INTEGER NOT NULL,
  day TEXT NOT NULL CONSTRAINT advice_decision_day CHECK (day IS date(day))
) STRICT, WITHOUT ROWID;
CREATE TABLE practice_example (
  group_id TEXT NOT NULL
    CONSTRAINT practice_example_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  is_working INTEGER NOT NULL CONSTRAINT practice_example_is_working CHECK (is_working IN (0, 1)),
  position INTEGER NOT NULL CONSTRAINT practice_example_position CHECK (position >= 1),
  words TEXT NOT NULL CONSTRAINT practice_example_words CHECK (length(words) BETWEEN 1 AND 200),
  CONSTRAINT practice_example_key PRIMARY KEY (group_id, is_working, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE record_import (
  id TEXT NOT NULL CONSTRAINT record_import_key PRIMARY KEY
    CONSTRAINT record_import_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT record_import_into_group REFERENCES student_group (id) ON DELETE RESTRICT,
  imported_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE imported_phase (
  phase_id TEXT NOT NULL CONSTRAINT imported_phase_key PRIMARY KEY
    CONSTRAINT imported_phase_of_phase REFERENCES phase (id) ON DELETE CASCADE,
  import_id TEXT NOT NULL
    CONSTRAINT imported_phase_of_import REFERENCES record_import (id) ON DELETE RESTRICT
) STRICT, WITHOUT ROWID;
CREATE TABLE seat (
  id TEXT NOT NULL CONSTRAINT seat_key PRIMARY KEY CONSTRAINT seat_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT seat_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  number INTEGER NOT NULL CONSTRAINT seat_number CHECK (number BETWEEN 1 AND 999),
  student_id TEXT CONSTRAINT seat_of_one_student UNIQUE
    CONSTRAINT seat_of_student REFERENCES student (id) ON DELETE RESTRICT,
  -- A hash; null once the slip is void.
  code TEXT CONSTRAINT seat_code_once UNIQUE
    CONSTRAINT seat_code CHECK (length(code) BETWEEN 20 AND 100),
  language TEXT NOT NULL CONSTRAINT seat_language CHECK (language IN ('en', 'es')),
  look TEXT NOT NULL CONSTRAINT seat_look CHECK (look IN ('words', 'pictures')),
  printed_ms INTEGER,
  CONSTRAINT seat_once UNIQUE (group_id, number)
) STRICT, WITHOUT ROWID;
INSERT INTO student_group (id, name, target, is_sample, position, created_ms, archived_ms, weekdays) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', 'Room 4', 'Eyes on my work', 0, 1, 1772445600000, NULL, '135');
INSERT INTO record_import (id, group_id, imported_ms) VALUES ('019cadfd-8900-7001-8000-000000000003', '019cadfd-8900-72f1-ac06-7b62b3124920', 1772445600000);
INSERT INTO student (number, id, group_id, name, picture, target, position, created_ms, archived_ms, import_id) VALUES (1, '019cadfd-8900-70ba-a3b7-9bbcfa68998c', '019cadfd-8900-72f1-ac06-7b62b3124920', 'Pine', NULL, '', 1, 1772445600000, NULL, NULL);
INSERT INTO plan (id, group_id, name, settings, created_ms, archived_ms) VALUES ('019cadfd-8900-7703-99b6-bd06be6798c5', '019cadfd-8900-72f1-ac06-7b62b3124920', 'First plan', '{"law":"exponential","meanSeconds":120,"shortestGapSeconds":20,"longestGapSeconds":null,"lengthSeconds":1200,"leadInSeconds":0,"endMarginSeconds":0,"fewestCues":1,"chime":"bell","volume":0.5,"cueing":"sound","recording":"screen","hideNextCue":true}', 1772445600000, NULL);
INSERT INTO phase (id, group_id, student_id, kind, label, starts_on, drawn_from, drawn_to, drawn_seed, drawn_days, drawn_times, probe_until, probe_seed, probe_days) VALUES ('019cadfd-8900-7001-8000-000000000004', '019cadfd-8900-72f1-ac06-7b62b3124920', NULL, 'intervention', 'Self-check', '2026-03-11', '2026-03-09', '2026-03-20', 'kiwi', '["2026-03-09","2026-03-10","2026-03-11","2026-03-12"]', 3, NULL, NULL, NULL);
INSERT INTO phase (id, group_id, student_id, kind, label, starts_on, drawn_from, drawn_to, drawn_seed, drawn_days, drawn_times, probe_until, probe_seed, probe_days) VALUES ('019cadfd-8900-7001-8000-000000000005', '019cadfd-8900-72f1-ac06-7b62b3124920', NULL, 'maintenance', '', '2026-06-01', NULL, NULL, NULL, NULL, NULL, '2026-06-30', 'plum', '["2026-06-03","2026-06-19"]');
INSERT INTO phase (id, group_id, student_id, kind, label, starts_on, drawn_from, drawn_to, drawn_seed, drawn_days, drawn_times, probe_until, probe_seed, probe_days) VALUES ('019cadfd-8900-745b-a05c-42bcdadceed3', '019cadfd-8900-72f1-ac06-7b62b3124920', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', 'baseline', 'Before', '2026-03-02', NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL);
INSERT INTO setting (name, value) VALUES ('theme', '"dark"');
INSERT INTO session (number, id, group_id, kind, plan_name, plan, seed, started_ms, offset_minutes, day, erased_seq, import_id) VALUES (1, '019cadfd-8900-743a-a52d-286f7994c7b9', '019cadfd-8900-72f1-ac06-7b62b3124920', 'seatwork', 'First plan', '{"law":"exponential","meanSeconds":120,"shortestGapSeconds":20,"longestGapSeconds":null,"lengthSeconds":1200,"leadInSeconds":0,"endMarginSeconds":0,"fewestCues":1,"chime":"bell","volume":0.5,"cueing":"sound","recording":"screen","hideNextCue":true}', 'paper', 1772445600000, 60, '2026-03-02', 0, '019cadfd-8900-7001-8000-000000000003');
INSERT INTO session_event (session_number, seq, kind, at_ms, wall_ms, offset_minutes, student_number, cue, value, way, late, detail) VALUES (1, 1, 'begun', 0, 1772445600000, 60, NULL, NULL, NULL, NULL, NULL, NULL);
INSERT INTO session_event (session_number, seq, kind, at_ms, wall_ms, offset_minutes, student_number, cue, value, way, late, detail) VALUES (1, 2, 'announced', 60000, 1772445660000, 60, NULL, 1, NULL, NULL, NULL, NULL);
INSERT INTO session_event (session_number, seq, kind, at_ms, wall_ms, offset_minutes, student_number, cue, value, way, late, detail) VALUES (1, 3, 'delivered', 60001, 1772445660001, 60, NULL, 1, NULL, NULL, NULL, '{"by":"sound","latenessMs":1.5,"problem":null}');
INSERT INTO session_event (session_number, seq, kind, at_ms, wall_ms, offset_minutes, student_number, cue, value, way, late, detail) VALUES (1, 4, 'mark', 63000, 1772445663000, 60, 1, 1, 'on', 'screen', 0, NULL);
INSERT INTO session_event (session_number, seq, kind, at_ms, wall_ms, offset_minutes, student_number, cue, value, way, late, detail) VALUES (1, 5, 'ended', 1200000, 1772446800000, 60, NULL, NULL, NULL, NULL, NULL, '{"reason":"finished"}');
INSERT INTO day_off (id, first_day, last_day, label) VALUES ('019cadfd-8900-7001-8000-000000000001', '2026-04-03', '2026-04-12', 'Spring holidays');
INSERT INTO program (group_id, goal, step_means, place, points_paid, place_since, place_since_ms) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', 0.8, '[120,240,480]', 1, 0, '2026-03-09', 1773050400000);
INSERT INTO advice_decision (id, group_id, student_id, advice, accepted, note, decided_ms, day) VALUES ('019cadfd-8900-7001-8000-000000000002', '019cadfd-8900-72f1-ac06-7b62b3124920', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', 'thin-cues', 1, 'Held for a week', 1773050400000, '2026-03-09');
INSERT INTO practice_example (group_id, is_working, position, words) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', 0, 1, 'Sharpening a sharp pencil');
INSERT INTO practice_example (group_id, is_working, position, words) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', 1, 1, 'Reading the task again');
INSERT INTO imported_phase (phase_id, import_id) VALUES ('019cadfd-8900-7001-8000-000000000004', '019cadfd-8900-7001-8000-000000000003');
CREATE INDEX student_by_group ON student (group_id, position);
CREATE INDEX plan_by_group ON plan (group_id, created_ms);
CREATE INDEX phase_by_group ON phase (group_id, starts_on);
CREATE INDEX phase_by_student ON phase (student_id) WHERE student_id IS NOT NULL;
CREATE INDEX session_by_group ON session (group_id, started_ms);
CREATE INDEX session_by_start ON session (started_ms);
CREATE INDEX session_event_other ON session_event (session_number)
  WHERE kind <> 'mark' AND kind <> 'announced';
CREATE INDEX session_event_ended ON session_event (session_number) WHERE kind = 'ended';
CREATE TRIGGER session_event_never_changes BEFORE UPDATE ON session_event
BEGIN
  SELECT RAISE (ABORT, 'session events are never changed');
END;
CREATE TRIGGER session_event_never_goes BEFORE DELETE ON session_event
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'session events are deleted only by an erasure');
END;
CREATE INDEX advice_decision_by_group ON advice_decision (group_id, decided_ms);
CREATE INDEX advice_decision_by_student ON advice_decision (student_id)
  WHERE student_id IS NOT NULL;
CREATE INDEX imported_phase_by_import ON imported_phase (import_id);
CREATE INDEX record_import_by_group ON record_import (group_id, imported_ms);
CREATE INDEX student_by_import ON student (import_id) WHERE import_id IS NOT NULL;
CREATE INDEX session_by_import ON session (import_id) WHERE import_id IS NOT NULL;
PRAGMA application_id = 1348617064;
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
INSERT INTO privilege (id, group_id, name, picture, price, band, places, minutes, per_day, position, archived_ms) VALUES ('019cadfd-8900-7001-8000-000000000011', '019cadfd-8900-72f1-ac06-7b62b3124920', 'Choose my seat', NULL, 4, 1, 3, NULL, 1, 1, NULL);
INSERT INTO not_for (privilege_id, student_id) VALUES ('019cadfd-8900-7001-8000-000000000011', '019cadfd-8900-70ba-a3b7-9bbcfa68998c');
INSERT INTO period (id, group_id, name, starts, ends, position, exchange) VALUES ('019cadfd-8900-7001-8000-000000000012', '019cadfd-8900-72f1-ac06-7b62b3124920', 'Morning', '09:00', '10:30', 1, 1);
INSERT INTO ledger_entry (number, id, student_number, source, source_key, rule, revision, amount, due, forgiven, day, wall_ms, offset_minutes, reverses, privilege_id) VALUES (1, '019cadfd-8900-7001-8000-000000000013', 1, 'session', '019cadfd-8900-743a-a52d-286f7994c7b9', 'mark', 1, 8, 8, 0, '2026-03-02', 1772445600000, 60, NULL, NULL);
INSERT INTO ledger_entry (number, id, student_number, source, source_key, rule, revision, amount, due, forgiven, day, wall_ms, offset_minutes, reverses, privilege_id) VALUES (2, '019cadfd-8900-7001-8000-000000000014', 1, 'exchange', '019cadfd-8900-4001-8000-000000000015', 'exchange', 1, -4, NULL, 0, '2026-03-02', 1772445700000, 60, NULL, '019cadfd-8900-7001-8000-000000000011');
INSERT INTO settled (session_number, seq) VALUES (1, 5);
CREATE TABLE alternation (
  id TEXT NOT NULL CONSTRAINT alternation_key PRIMARY KEY
    CONSTRAINT alternation_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT alternation_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  name_a TEXT NOT NULL CONSTRAINT alternation_name_a CHECK (length(name_a) BETWEEN 1 AND 60),
  name_b TEXT NOT NULL CONSTRAINT alternation_name_b CHECK (length(name_b) BETWEEN 1 AND 60),
  turns TEXT NOT NULL CONSTRAINT alternation_turns
    CHECK (length(turns) BETWEEN 10 AND 24 AND turns NOT GLOB '*[^AB]*'),
  seed TEXT NOT NULL CONSTRAINT alternation_seed
    CHECK (length(seed) BETWEEN 1 AND 12 AND seed NOT GLOB '*[^a-z0-9]*'),
  times INTEGER NOT NULL CONSTRAINT alternation_times CHECK (times >= 1),
  created_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX alternation_by_group ON alternation (group_id, created_ms);

CREATE TABLE alternated_session (
  session_number INTEGER NOT NULL CONSTRAINT alternated_session_key PRIMARY KEY
    CONSTRAINT alternated_session_of_session REFERENCES session (number) ON DELETE CASCADE,
  alternation_id TEXT NOT NULL
    CONSTRAINT alternated_session_of_alternation REFERENCES alternation (id) ON DELETE CASCADE,
  place INTEGER NOT NULL CONSTRAINT alternated_session_place CHECK (place >= 1),
  CONSTRAINT alternated_session_once UNIQUE (alternation_id, place)
) STRICT;
INSERT INTO alternation (id, group_id, name_a, name_b, turns, seed, times, created_ms) VALUES ('019cadfd-8900-7001-8000-000000000021', '019cadfd-8900-72f1-ac06-7b62b3124920', 'With music', 'In quiet', 'ABBABAABAB', 'kiwi', 1, 1772434800000);
INSERT INTO alternated_session (session_number, alternation_id, place) VALUES (1, '019cadfd-8900-7001-8000-000000000021', 1);
CREATE TABLE agreed_answer (
  number INTEGER NOT NULL CONSTRAINT agreed_answer_key PRIMARY KEY,
  student_id TEXT NOT NULL
    CONSTRAINT agreed_answer_of_student REFERENCES student (id) ON DELETE RESTRICT,
  line TEXT NOT NULL CONSTRAINT agreed_answer_line
    CHECK (line IN ('observed', 'cued', 'points', 'taken', 'home-card')),
  -- 'open' takes an answer back.
  answer TEXT NOT NULL CONSTRAINT agreed_answer_answer CHECK (answer IN ('yes', 'no', 'open')),
  -- When it was said, and by whom.
  day TEXT NOT NULL CONSTRAINT agreed_answer_day CHECK (day IS date(day)),
  who TEXT NOT NULL CONSTRAINT agreed_answer_who CHECK (length(who) <= 60),
  wall_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX agreed_answer_by_student ON agreed_answer (student_id, number);

-- What holds for one student's papers until it is changed.
CREATE TABLE student_paper (
  student_id TEXT NOT NULL CONSTRAINT student_paper_key PRIMARY KEY
    CONSTRAINT student_paper_of_student REFERENCES student (id) ON DELETE RESTRICT,
  review_on TEXT CONSTRAINT student_paper_review CHECK (review_on IS date(review_on)),
  language TEXT CONSTRAINT student_paper_language CHECK (language IN ('en', 'es')),
  card_stopped INTEGER NOT NULL CONSTRAINT student_paper_stopped CHECK (card_stopped IN (0, 1))
) STRICT, WITHOUT ROWID;

-- A home card as it is from a day on: changed, it is another version, and history keeps its own.
CREATE TABLE home_card (
  id TEXT NOT NULL CONSTRAINT home_card_key PRIMARY KEY
    CONSTRAINT home_card_id CHECK (length(id) = 36),
  student_id TEXT NOT NULL
    CONSTRAINT home_card_of_student REFERENCES student (id) ON DELETE RESTRICT,
  from_day TEXT NOT NULL CONSTRAINT home_card_from CHECK (from_day IS date(from_day)),
  card TEXT NOT NULL CONSTRAINT home_card_card CHECK (json_valid(card)),
  made_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX home_card_by_student ON home_card (student_id, from_day);

-- A card that came back, as it was typed in; the newest row of a day counts.
CREATE TABLE home_card_day (
  number INTEGER NOT NULL CONSTRAINT home_card_day_key PRIMARY KEY,
  student_id TEXT NOT NULL
    CONSTRAINT home_card_day_of_student REFERENCES student (id) ON DELETE RESTRICT,
  card_id TEXT NOT NULL
    CONSTRAINT home_card_day_card REFERENCES home_card (id) ON DELETE CASCADE,
  day TEXT NOT NULL CONSTRAINT home_card_day_day CHECK (day IS date(day)),
  -- From 0 to 4, goal by goal within each period; null for a cell that nobody rated.
  ratings TEXT NOT NULL CONSTRAINT home_card_day_ratings CHECK (json_valid(ratings)),
  homework TEXT NOT NULL CONSTRAINT home_card_day_homework CHECK (length(homework) <= 300),
  went_well TEXT NOT NULL CONSTRAINT home_card_day_well CHECK (length(went_well) <= 300),
  tomorrow TEXT NOT NULL CONSTRAINT home_card_day_tomorrow CHECK (length(tomorrow) <= 300),
  wall_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX home_card_day_by_student ON home_card_day (student_id, day, number);

CREATE TABLE contract (
  id TEXT NOT NULL CONSTRAINT contract_key PRIMARY KEY
    CONSTRAINT contract_id CHECK (length(id) = 36),
  student_id TEXT NOT NULL
    CONSTRAINT contract_of_student REFERENCES student (id) ON DELETE RESTRICT,
  terms TEXT NOT NULL CONSTRAINT contract_terms CHECK (json_valid(terms)),
  -- First day that counts, and the day on which it is looked at together, at most three weeks later.
  from_day TEXT NOT NULL CONSTRAINT contract_from CHECK (from_day IS date(from_day)),
  review_on TEXT NOT NULL CONSTRAINT contract_review CHECK (review_on IS date(review_on)),
  made_ms INTEGER NOT NULL,
  -- Null until both have said yes.
  signed_on TEXT CONSTRAINT contract_signed CHECK (signed_on IS date(signed_on)),
  ended_on TEXT CONSTRAINT contract_ended CHECK (ended_on IS date(ended_on)),
  CONSTRAINT contract_review_soon CHECK
    (review_on > from_day AND julianday(review_on) - julianday(from_day) <= 21)
) STRICT, WITHOUT ROWID;
CREATE INDEX contract_by_student ON contract (student_id, from_day);

-- A day that was closed: what it costs was decided then, once. Entries of the ledger name it.
CREATE TABLE contract_day (
  id TEXT NOT NULL CONSTRAINT contract_day_key PRIMARY KEY
    CONSTRAINT contract_day_id CHECK (length(id) = 36),
  contract_id TEXT NOT NULL
    CONSTRAINT contract_day_contract REFERENCES contract (id) ON DELETE CASCADE,
  student_id TEXT NOT NULL
    CONSTRAINT contract_day_of_student REFERENCES student (id) ON DELETE RESTRICT,
  day TEXT NOT NULL CONSTRAINT contract_day_day CHECK (day IS date(day)),
  wall_ms INTEGER NOT NULL,
  CONSTRAINT contract_day_once UNIQUE (contract_id, day)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER agreed_answer_never_changes BEFORE UPDATE ON agreed_answer
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'what was agreed is never changed');
END;
CREATE TRIGGER agreed_answer_never_goes BEFORE DELETE ON agreed_answer
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'what was agreed is deleted only by an erasure');
END;

CREATE TRIGGER home_card_never_changes BEFORE UPDATE ON home_card
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a version of a card is never changed');
END;
CREATE TRIGGER home_card_never_goes BEFORE DELETE ON home_card
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a version of a card is deleted only by an erasure');
END;

CREATE TRIGGER home_card_day_never_changes BEFORE UPDATE ON home_card_day
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a card that was typed in is never changed');
END;
CREATE TRIGGER home_card_day_never_goes BEFORE DELETE ON home_card_day
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a card that was typed in is deleted only by an erasure');
END;

CREATE TRIGGER contract_terms_never_change
BEFORE UPDATE OF id, student_id, terms, from_day, review_on, made_ms ON contract
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'what a contract says is never changed');
END;
CREATE TRIGGER contract_never_goes BEFORE DELETE ON contract
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a contract is deleted only by an erasure');
END;

CREATE TRIGGER contract_day_never_changes BEFORE UPDATE ON contract_day
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a day that was closed is never changed');
END;
CREATE TRIGGER contract_day_never_goes BEFORE DELETE ON contract_day
WHEN NOT EXISTS (SELECT 1 FROM erasure)
BEGIN
  SELECT RAISE (ABORT, 'a day that was closed is deleted only by an erasure');
END;
INSERT INTO agreed_answer (number, student_id, line, answer, day, who, wall_ms) VALUES (1, '019cadfd-8900-70ba-a3b7-9bbcfa68998c', 'cued', 'yes', '2026-03-02', 'Mother', 1772445600000);
INSERT INTO student_paper (student_id, review_on, language, card_stopped) VALUES ('019cadfd-8900-70ba-a3b7-9bbcfa68998c', '2026-06-01', 'es', 0);
INSERT INTO home_card (id, student_id, from_day, card, made_ms) VALUES ('019cadfd-8900-7001-8000-000000000031', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', '2026-03-02', '{"goals":["Start at once"],"periods":["Reading","Sums"],"scale":{"kind":"scale","goodEnd":"five","weights":[0,5,10,15,20]},"homework":true,"selfRecord":false}', 1772445600000);
INSERT INTO home_card_day (number, student_id, card_id, day, ratings, homework, went_well, tomorrow, wall_ms) VALUES (1, '019cadfd-8900-70ba-a3b7-9bbcfa68998c', '019cadfd-8900-7001-8000-000000000031', '2026-03-03', '[4,null]', '', 'Began at once', '', 1772532000000);
INSERT INTO contract (id, student_id, terms, from_day, review_on, made_ms, signed_on, ended_on) VALUES ('019cadfd-8900-7001-8000-000000000032', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', '{"wording":"young","goal":{"kind":"work","completed":0.8,"correct":null},"points":2,"earns":"","cost":1,"checkedBy":"Ms Reed"}', '2026-03-02', '2026-03-16', 1772445600000, '2026-03-02', NULL);
INSERT INTO contract_day (id, contract_id, student_id, day, wall_ms) VALUES ('019cadfd-8900-7001-8000-000000000033', '019cadfd-8900-7001-8000-000000000032', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', '2026-03-02', 1772460000000);
CREATE TABLE own_goal (
  student_number INTEGER NOT NULL CONSTRAINT own_goal_key PRIMARY KEY
    CONSTRAINT own_goal_of_student REFERENCES student (number) ON DELETE CASCADE,
  share REAL NOT NULL CONSTRAINT own_goal_share CHECK (share BETWEEN 0.05 AND 1)
) STRICT;

CREATE TABLE saving_for (
  student_number INTEGER NOT NULL CONSTRAINT saving_for_key PRIMARY KEY
    CONSTRAINT saving_for_of_student REFERENCES student (number) ON DELETE CASCADE,
  privilege_id TEXT NOT NULL
    CONSTRAINT saving_for_privilege REFERENCES privilege (id) ON DELETE CASCADE
) STRICT;

CREATE TABLE last_spending (
  group_id TEXT NOT NULL CONSTRAINT last_spending_key PRIMARY KEY
    CONSTRAINT last_spending_of_group REFERENCES student_group (id) ON DELETE CASCADE,
  until TEXT NOT NULL CONSTRAINT last_spending_until CHECK (until IS date(until))
) STRICT, WITHOUT ROWID;

CREATE TABLE class_timer (
  id TEXT NOT NULL CONSTRAINT class_timer_key PRIMARY KEY
    CONSTRAINT class_timer_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT class_timer_of_group REFERENCES student_group (id) ON DELETE CASCADE,
  name TEXT NOT NULL CONSTRAINT class_timer_name CHECK (length(name) BETWEEN 1 AND 60),
  minutes INTEGER NOT NULL CONSTRAINT class_timer_minutes CHECK (minutes BETWEEN 1 AND 120),
  ends_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX class_timer_by_group ON class_timer (group_id, ends_ms);
INSERT INTO own_goal (student_number, share) VALUES (1, 0.7);
INSERT INTO saving_for (student_number, privilege_id) VALUES (1, '019cadfd-8900-7001-8000-000000000011');
INSERT INTO last_spending (group_id, until) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', '2026-03-09');
INSERT INTO class_timer (id, group_id, name, minutes, ends_ms) VALUES ('019cadfd-8900-7001-8000-000000000016', '019cadfd-8900-72f1-ac06-7b62b3124920', 'Time to draw', 10, 1772446300000);
CREATE TABLE stay (
  student_number INTEGER NOT NULL
    CONSTRAINT stay_of_student REFERENCES student (number) ON DELETE CASCADE,
  group_id TEXT NOT NULL
    CONSTRAINT stay_in_group REFERENCES student_group (id) ON DELETE RESTRICT,
  from_ms INTEGER NOT NULL,
  until_ms INTEGER NOT NULL,
  CONSTRAINT stay_key PRIMARY KEY (student_number, until_ms),
  CONSTRAINT stay_order CHECK (from_ms <= until_ms)
) STRICT, WITHOUT ROWID;
CREATE INDEX stay_by_group ON stay (group_id);
CREATE TABLE term (
  id TEXT NOT NULL CONSTRAINT term_key PRIMARY KEY CONSTRAINT term_id CHECK (length(id) = 36),
  name TEXT NOT NULL CONSTRAINT term_name CHECK (length(name) BETWEEN 1 AND 60),
  first_day TEXT NOT NULL CONSTRAINT term_first_day CHECK (first_day IS date(first_day)),
  last_day TEXT NOT NULL CONSTRAINT term_last_day CHECK (last_day IS date(last_day)),
  CONSTRAINT term_order CHECK (first_day <= last_day)
) STRICT, WITHOUT ROWID;
CREATE TABLE own_chime (
  id TEXT NOT NULL CONSTRAINT own_chime_key PRIMARY KEY
    CONSTRAINT own_chime_id CHECK (length(id) = 36),
  name TEXT NOT NULL CONSTRAINT own_chime_name CHECK (length(name) BETWEEN 1 AND 60),
  made_ms INTEGER NOT NULL,
  sound BLOB NOT NULL CONSTRAINT own_chime_sound CHECK (length(sound) BETWEEN 45 AND 1000000)
) STRICT, WITHOUT ROWID;
CREATE TABLE put_aside (
  what TEXT NOT NULL CONSTRAINT put_aside_key PRIMARY KEY
    CONSTRAINT put_aside_what CHECK (length(what) BETWEEN 1 AND 120),
  at_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO stay (student_number, group_id, from_ms, until_ms) VALUES (1, '019cadfd-8900-72f1-ac06-7b62b3124920', 1772434000000, 1772434900000);
INSERT INTO term (id, name, first_day, last_day) VALUES ('019cadfd-8900-7001-8000-000000000031', 'Spring', '2026-01-07', '2026-04-02');
INSERT INTO own_chime (id, name, made_ms, sound) VALUES ('019cadfd-8900-7001-8000-000000000032', 'Hand bell', 1772434800000, zeroblob(46));
INSERT INTO put_aside (what, at_ms) VALUES ('cards 019cadfd-8900-7001-8000-000000000033', 1772434800000);
CREATE TABLE team_term (
  group_id TEXT NOT NULL CONSTRAINT team_term_key PRIMARY KEY
    CONSTRAINT team_term_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  -- The group's own seed; each deal has a stream of its own by its number.
  seed TEXT NOT NULL CONSTRAINT team_term_seed CHECK (length(seed) BETWEEN 1 AND 80),
  deals INTEGER NOT NULL CONSTRAINT team_term_deals CHECK (deals >= 0),
  size INTEGER NOT NULL CONSTRAINT team_term_size CHECK (size BETWEEN 2 AND 12),
  rounds INTEGER NOT NULL CONSTRAINT team_term_rounds CHECK (rounds BETWEEN 1 AND 60),
  weekday INTEGER NOT NULL CONSTRAINT team_term_weekday CHECK (weekday BETWEEN 1 AND 7),
  goal REAL CONSTRAINT team_term_goal CHECK (goal > 0 AND goal <= 1),
  points INTEGER NOT NULL CONSTRAINT team_term_points CHECK (points BETWEEN 0 AND 20),
  is_shown INTEGER NOT NULL CONSTRAINT team_term_is_shown CHECK (is_shown IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE TABLE team_name (
  group_id TEXT NOT NULL
    CONSTRAINT team_name_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  team INTEGER NOT NULL CONSTRAINT team_name_team CHECK (team >= 1),
  name TEXT NOT NULL CONSTRAINT team_name_name CHECK (length(name) BETWEEN 1 AND 60),
  CONSTRAINT team_name_key PRIMARY KEY (group_id, team)
) STRICT, WITHOUT ROWID;

CREATE TABLE team_wish (
  id TEXT NOT NULL CONSTRAINT team_wish_key PRIMARY KEY
    CONSTRAINT team_wish_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT team_wish_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  kind TEXT NOT NULL CONSTRAINT team_wish_kind CHECK (kind IN ('apart', 'together'))
) STRICT, WITHOUT ROWID;
CREATE INDEX team_wish_by_group ON team_wish (group_id);

CREATE TABLE team_wish_student (
  wish_id TEXT NOT NULL
    CONSTRAINT team_wish_student_wish REFERENCES team_wish (id) ON DELETE CASCADE,
  student_id TEXT NOT NULL
    CONSTRAINT team_wish_student_student REFERENCES student (id) ON DELETE RESTRICT,
  CONSTRAINT team_wish_student_key PRIMARY KEY (wish_id, student_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE team_round (
  id TEXT NOT NULL CONSTRAINT team_round_key PRIMARY KEY
    CONSTRAINT team_round_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT team_round_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  number INTEGER NOT NULL CONSTRAINT team_round_number CHECK (number >= 1),
  starts_on TEXT NOT NULL CONSTRAINT team_round_starts_on CHECK (starts_on IS date(starts_on)),
  CONSTRAINT team_round_once UNIQUE (group_id, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE team_place (
  round_id TEXT NOT NULL
    CONSTRAINT team_place_round REFERENCES team_round (id) ON DELETE CASCADE,
  student_id TEXT NOT NULL
    CONSTRAINT team_place_student REFERENCES student (id) ON DELETE RESTRICT,
  team INTEGER NOT NULL CONSTRAINT team_place_team CHECK (team >= 1),
  CONSTRAINT team_place_key PRIMARY KEY (round_id, student_id)
) STRICT, WITHOUT ROWID;

-- A day whose team goals were looked at for points.
CREATE TABLE team_day (
  id TEXT NOT NULL CONSTRAINT team_day_key PRIMARY KEY
    CONSTRAINT team_day_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT team_day_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  day TEXT NOT NULL CONSTRAINT team_day_day CHECK (day IS date(day)),
  CONSTRAINT team_day_once UNIQUE (group_id, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE pair_lesson (
  id TEXT NOT NULL CONSTRAINT pair_lesson_key PRIMARY KEY
    CONSTRAINT pair_lesson_id CHECK (length(id) = 36),
  group_id TEXT NOT NULL
    CONSTRAINT pair_lesson_of_group REFERENCES student_group (id) ON DELETE RESTRICT,
  day TEXT NOT NULL CONSTRAINT pair_lesson_day CHECK (day IS date(day)),
  points INTEGER NOT NULL CONSTRAINT pair_lesson_points CHECK (points BETWEEN 0 AND 20)
) STRICT, WITHOUT ROWID;
CREATE INDEX pair_lesson_by_group ON pair_lesson (group_id, day);

CREATE TABLE pair_part (
  lesson_id TEXT NOT NULL
    CONSTRAINT pair_part_lesson REFERENCES pair_lesson (id) ON DELETE CASCADE,
  student_id TEXT NOT NULL
    CONSTRAINT pair_part_student REFERENCES student (id) ON DELETE RESTRICT,
  -- Null for who was left over and joined a pair.
  pair INTEGER CONSTRAINT pair_part_pair CHECK (pair >= 1),
  taught INTEGER NOT NULL CONSTRAINT pair_part_taught CHECK (taught IN (0, 1)),
  corrected INTEGER NOT NULL CONSTRAINT pair_part_corrected CHECK (corrected IN (0, 1)),
  CONSTRAINT pair_part_key PRIMARY KEY (lesson_id, student_id)
) STRICT, WITHOUT ROWID;
INSERT INTO team_term (group_id, seed, deals, size, rounds, weekday, goal, points, is_shown) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', 'kmp3wq7rtz', 1, 4, 10, 1, 0.7, 2, 1);
INSERT INTO team_name (group_id, team, name) VALUES ('019cadfd-8900-72f1-ac06-7b62b3124920', 1, 'Kites');
INSERT INTO team_wish (id, group_id, kind) VALUES ('019cadfd-8900-7001-8000-000000000071', '019cadfd-8900-72f1-ac06-7b62b3124920', 'apart');
INSERT INTO team_wish_student (wish_id, student_id) VALUES ('019cadfd-8900-7001-8000-000000000071', '019cadfd-8900-70ba-a3b7-9bbcfa68998c');
INSERT INTO team_round (id, group_id, number, starts_on) VALUES ('019cadfd-8900-7001-8000-000000000072', '019cadfd-8900-72f1-ac06-7b62b3124920', 1, '2026-03-02');
INSERT INTO team_place (round_id, student_id, team) VALUES ('019cadfd-8900-7001-8000-000000000072', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', 1);
INSERT INTO team_day (id, group_id, day) VALUES ('019cadfd-8900-7001-8000-000000000073', '019cadfd-8900-72f1-ac06-7b62b3124920', '2026-03-02');
INSERT INTO pair_lesson (id, group_id, day, points) VALUES ('019cadfd-8900-7001-8000-000000000074', '019cadfd-8900-72f1-ac06-7b62b3124920', '2026-03-02', 2);
INSERT INTO pair_part (lesson_id, student_id, pair, taught, corrected) VALUES ('019cadfd-8900-7001-8000-000000000074', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', 1, 1, 0);
INSERT INTO seat (id, group_id, number, student_id, code, language, look, printed_ms) VALUES ('019cadfd-8900-7001-8000-000000000021', '019cadfd-8900-72f1-ac06-7b62b3124920', 1, '019cadfd-8900-70ba-a3b7-9bbcfa68998c', 'Wk9Yd0lZcVZ5b2x4R2ZqZk5hVkE', 'es', 'pictures', 1772445600000);
CREATE TABLE family_words (
  student_id TEXT NOT NULL CONSTRAINT family_words_key PRIMARY KEY
    CONSTRAINT family_words_of_student REFERENCES student (id) ON DELETE RESTRICT,
  words TEXT NOT NULL CONSTRAINT family_words_words CHECK (length(words) BETWEEN 1 AND 600),
  -- School-local day on which they were written.
  day TEXT NOT NULL CONSTRAINT family_words_day CHECK (day IS date(day))
) STRICT, WITHOUT ROWID;
INSERT INTO family_words (student_id, words, day) VALUES ('019cadfd-8900-70ba-a3b7-9bbcfa68998c', 'A good week at the front table.', '2026-03-06');
CREATE TABLE team_earlier_place (
  round_id TEXT NOT NULL
    CONSTRAINT team_earlier_place_round REFERENCES team_round (id) ON DELETE CASCADE,
  student_id TEXT NOT NULL
    CONSTRAINT team_earlier_place_student REFERENCES student (id) ON DELETE RESTRICT,
  -- School-local day from which on the student was in another team.
  until TEXT NOT NULL CONSTRAINT team_earlier_place_until CHECK (until IS date(until)),
  team INTEGER NOT NULL CONSTRAINT team_earlier_place_team CHECK (team >= 1),
  CONSTRAINT team_earlier_place_key PRIMARY KEY (round_id, student_id, until)
) STRICT, WITHOUT ROWID;
INSERT INTO team_earlier_place (round_id, student_id, until, team) VALUES ('019cadfd-8900-7001-8000-000000000072', '019cadfd-8900-70ba-a3b7-9bbcfa68998c', '2026-03-04', 2);
PRAGMA user_version = 14;
