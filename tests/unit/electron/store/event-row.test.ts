import fc from "fast-check";
import { expect, test } from "vitest";
import { type EventRow, toEvent } from "../../../../electron/store/event-row.ts";
import { mostCues } from "../../../../shared/plan/most-cues.ts";
import { sessionEventSchema } from "../../../../shared/session/event.ts";

const pine = "0195b7a4-7c1e-7d11-a111-000000000001";
const students = { of: (number: number) => (number === 1 ? pine : null), forget: () => {} };

const mostly = <Value>(whole: Value, ...damaged: readonly Value[]) =>
  fc.oneof({ arbitrary: fc.constant(whole), weight: 12 }, fc.constantFrom(whole, ...damaged));

// Rows with every kind of damage, mostly with little; the source is the schema that writes are checked against.
const row: fc.Arbitrary<EventRow> = fc.tuple(
  mostly(7, 0, -1),
  mostly("mark", "mork"),
  mostly(90_000, 0, -5),
  mostly(1_772_445_600_000, 0),
  mostly(60, -300),
  mostly<number | null>(1, 2, null),
  mostly<number | null>(3, mostCues, mostCues + 1, 0, null),
  mostly<string | null>("on", "off", "none", "unseen", "", null),
  mostly<string | null>("paper", "screen", "seat", "import", "air", null),
  mostly<number | null>(0, 1, null),
  mostly<string | null>(null, "{}", '{"more":1}', "{", "[1]"),
);

test("1. a mark is read as the schema reads it, whatever is damaged", () => {
  let whole = 0;
  fc.assert(
    fc.property(row, (fields) => {
      const [seq, kind, atMs, wallMs, offsetMinutes, student, cue, value, way, late] = fields;
      const said = {
        kind,
        studentId: student === null ? null : students.of(student),
        cue,
        value,
        way,
        late: late === null ? null : late === 1,
      };
      const detail = fields[10];
      const event = sessionEventSchema.safeParse({
        stamp: { seq, atMs, wallMs, offsetMinutes },
        body: said,
      }).data;
      const expected = detail === null ? (event ?? null) : null;
      const read = toEvent(fields, students);
      // A mark has a column for each of its fields: anything beside them is damage.
      expect(read).toEqual(expected);
      if (read !== null) whole++;
    }),
    { numRuns: 3_000 },
  );
  expect(whole).toBeGreaterThan(100);
});
