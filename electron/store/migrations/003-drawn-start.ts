/**
 * How a phase's first day was drawn, in columns of its own. Until now it stood at the end of the label, as
 * in `Self-check · drawn 2026-09-07/2026-09-18 kiwi`; such labels are taken apart. A label that only looks
 * like one, with a day that is none, stays as it is.
 */
export const drawnStart = `
ALTER TABLE phase ADD COLUMN drawn_from TEXT
  CONSTRAINT phase_drawn_from CHECK (drawn_from IS date(drawn_from));
ALTER TABLE phase ADD COLUMN drawn_to TEXT
  CONSTRAINT phase_drawn_to CHECK (drawn_to IS date(drawn_to) AND drawn_from <= drawn_to);
ALTER TABLE phase ADD COLUMN drawn_seed TEXT
  CONSTRAINT phase_drawn_seed
    CHECK (length(drawn_seed) BETWEEN 1 AND 12 AND drawn_seed NOT GLOB '*[^a-z0-9]*')
  CONSTRAINT phase_drawn_whole
    CHECK ((drawn_from IS NULL) = (drawn_to IS NULL) AND (drawn_from IS NULL) = (drawn_seed IS NULL));

WITH
  -- Everything before the seed, which is the letters and figures at the end.
  cut AS (
    SELECT id, label, rtrim(label, 'abcdefghijklmnopqrstuvwxyz0123456789') AS head FROM phase
  ),
  part AS (
    SELECT
      id,
      substr(label, length(head) + 1) AS seed,
      substr(head, -22, 10) AS first_day,
      substr(head, -11, 10) AS last_day,
      substr(head, 1, length(head) - 28) AS own
    FROM cut
    WHERE head GLOB '*drawn ????-??-??/????-??-?? '
  )
UPDATE phase
SET
  label = CASE part.own WHEN '' THEN '' ELSE substr(part.own, 1, length(part.own) - 3) END,
  drawn_from = part.first_day,
  drawn_to = part.last_day,
  drawn_seed = part.seed
FROM part
WHERE phase.id = part.id
  AND (part.own = '' OR part.own LIKE '% · ')
  AND length(part.seed) BETWEEN 1 AND 12
  AND part.first_day IS date(part.first_day)
  AND part.last_day IS date(part.last_day)
  AND part.first_day <= part.last_day;
`;
