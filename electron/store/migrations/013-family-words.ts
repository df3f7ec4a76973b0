/** What the adult writes to a student's family on the next page; replaced when it is written anew. */
export const familyWords = `
CREATE TABLE family_words (
  student_id TEXT NOT NULL CONSTRAINT family_words_key PRIMARY KEY
    CONSTRAINT family_words_of_student REFERENCES student (id) ON DELETE RESTRICT,
  words TEXT NOT NULL CONSTRAINT family_words_words CHECK (length(words) BETWEEN 1 AND 600),
  -- School-local day on which they were written.
  day TEXT NOT NULL CONSTRAINT family_words_day CHECK (day IS date(day))
) STRICT, WITHOUT ROWID;
`;
