/** Where a student was in a round before a swap, so that days before it keep the teams they had. */
export const earlierTeamPlaces = `
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
`;
