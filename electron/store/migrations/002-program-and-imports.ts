/** Days off, programs, decisions on advice, examples to practise with, and imports that can be undone. */
export const programAndImports = `
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
) STRICT, WITHOUT ROWID;

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
CREATE INDEX advice_decision_by_group ON advice_decision (group_id, decided_ms);
CREATE INDEX advice_decision_by_student ON advice_decision (student_id)
  WHERE student_id IS NOT NULL;

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
CREATE INDEX record_import_by_group ON record_import (group_id, imported_ms);

-- Null for what was made here.
ALTER TABLE student ADD COLUMN import_id TEXT
  CONSTRAINT student_of_import REFERENCES record_import (id) ON DELETE RESTRICT;
ALTER TABLE session ADD COLUMN import_id TEXT
  CONSTRAINT session_of_import REFERENCES record_import (id) ON DELETE RESTRICT;
CREATE INDEX student_by_import ON student (import_id) WHERE import_id IS NOT NULL;
CREATE INDEX session_by_import ON session (import_id) WHERE import_id IS NOT NULL;
`;
