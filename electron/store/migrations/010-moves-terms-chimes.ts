/**
 * A student's own hold goal, and the groups a student was in before; the school's terms; chimes of the
 * teacher's; what was put aside of what waits.
 */
export const movesTermsChimes = `
-- A share of marks on task, 0 to 1; null: the group's.
ALTER TABLE student ADD COLUMN hold_goal REAL
  CONSTRAINT student_hold_goal CHECK (hold_goal BETWEEN 0.05 AND 1);
-- Since when the student is in this group; null: since created_ms.
ALTER TABLE student ADD COLUMN joined_ms INTEGER;

-- A stretch of time in a group that a student has left: that group's numbers keep it.
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

-- A WAV file as the shipped chimes are: one channel, 16 bits, 48 kHz.
CREATE TABLE own_chime (
  id TEXT NOT NULL CONSTRAINT own_chime_key PRIMARY KEY
    CONSTRAINT own_chime_id CHECK (length(id) = 36),
  name TEXT NOT NULL CONSTRAINT own_chime_name CHECK (length(name) BETWEEN 1 AND 60),
  made_ms INTEGER NOT NULL,
  sound BLOB NOT NULL CONSTRAINT own_chime_sound CHECK (length(sound) BETWEEN 45 AND 1000000)
) STRICT, WITHOUT ROWID;

-- Something that waited on Today and was put aside: what, and for which group or session.
CREATE TABLE put_aside (
  what TEXT NOT NULL CONSTRAINT put_aside_key PRIMARY KEY
    CONSTRAINT put_aside_what CHECK (length(what) BETWEEN 1 AND 120),
  at_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
`;
