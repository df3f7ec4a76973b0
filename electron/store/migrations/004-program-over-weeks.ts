/**
 * What a program over weeks needs: the days a first day was drawn from and how often it was drawn, the
 * days drawn for probes, the weekdays on which a group sits, and the moment a program came to its place.
 *
 * Draws made until now were from Monday to Friday of their span, whatever the calendar said; those days
 * are written down. How often they were drawn was not counted: they stand as drawn once.
 */
export const programOverWeeks = `
ALTER TABLE phase ADD COLUMN drawn_days TEXT
  CONSTRAINT phase_drawn_days CHECK (json_valid(drawn_days));
ALTER TABLE phase ADD COLUMN drawn_times INTEGER
  CONSTRAINT phase_drawn_times CHECK (drawn_times >= 1);

UPDATE phase
SET
  drawn_times = 1,
  drawn_days = (
    WITH RECURSIVE span (day) AS (
      SELECT drawn_from
      UNION ALL
      SELECT date(day, '+1 day') FROM span WHERE day < drawn_to
    )
    SELECT json_group_array(day) FROM span WHERE strftime('%w', day) NOT IN ('0', '6')
  )
WHERE drawn_from IS NOT NULL;

ALTER TABLE phase ADD COLUMN probe_until TEXT
  CONSTRAINT phase_probe_until CHECK (probe_until IS date(probe_until));
ALTER TABLE phase ADD COLUMN probe_seed TEXT
  CONSTRAINT phase_probe_seed
    CHECK (length(probe_seed) BETWEEN 1 AND 12 AND probe_seed NOT GLOB '*[^a-z0-9]*');
ALTER TABLE phase ADD COLUMN probe_days TEXT
  CONSTRAINT phase_probe_days CHECK (json_valid(probe_days))
  CONSTRAINT phase_probe_whole
    CHECK ((probe_until IS NULL) = (probe_seed IS NULL) AND (probe_until IS NULL) = (probe_days IS NULL));

-- Weekdays as figures, 1 for Monday to 7 for Sunday.
ALTER TABLE student_group ADD COLUMN weekdays TEXT NOT NULL DEFAULT '12345'
  CONSTRAINT student_group_weekdays
    CHECK (length(weekdays) BETWEEN 1 AND 7 AND weekdays NOT GLOB '*[^1-7]*');

-- Null: since the first moment of the day.
ALTER TABLE program ADD COLUMN place_since_ms INTEGER;
`;
