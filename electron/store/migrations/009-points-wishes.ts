/**
 * Points beyond the ledger: each student's own goal and what is saved for, until when a group spends what
 * is left, and the timers of privileges that last some minutes.
 */
export const pointsWishes = `
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
`;
