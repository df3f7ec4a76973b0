/** Students' own devices: a slip each, whose code is kept as a hash, and for whom it is. */
export const seats = `
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
`;
