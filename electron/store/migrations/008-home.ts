/**
 * What was agreed about each student, the cards that go home and come back, and contracts. What was said,
 * rated and signed is only ever added to, like the log; an erasure alone takes it out.
 */
export const schoolAndHome = `
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
`;
