/** Two conditions that take turns by session in a drawn order, and which session had which place in it. */
export const alternation = `
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
`;
