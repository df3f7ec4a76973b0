/** Teams that are dealt anew each week, and pairs for peer tutoring, both kept over a term. */
export const teamsAndPairs = `
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
`;
