import fc from "fast-check";
import { expect, test } from "vitest";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { nameKey } from "../../../shared/roster/name-key.ts";
import { csvField, csvText, withoutGuard } from "../../../shared/transfer/csv-field.ts";
import { momentText, parseMoment } from "../../../shared/transfer/moment.ts";
import { groupCsv } from "../../../src/transfer/group-csv.ts";
import { guessMapping } from "../../../src/transfer/mapping.ts";
import { readRows } from "../../../src/transfer/read-rows.ts";
import { readTable } from "../../../src/transfer/read-table.ts";

const nowMs = Date.UTC(2026, 2, 2, 10);
const id = (last: number) => `01900000-0000-7000-8000-${String(last).padStart(12, "0")}`;

/** Letters, and everything that has a meaning in a CSV file or a spreadsheet. */
const letters = fc.constantFrom(..."abÑ'\"=+-@,;\t\r\n 7");
const text = fc.string({ unit: letters, maxLength: 12 });
const name = fc
  .oneof(text, fc.string({ unit: "grapheme", maxLength: 20 }))
  .map((each) => each.trim())
  .filter((each) => each !== "" && each.length <= 60);
const count = fc.integer({ min: 0, max: 600 });
const marks = fc.tuple(count, count, count).filter(([on, off, missing]) => on + off + missing > 0);
const moment = fc.record({
  ms: fc.integer({ min: Date.UTC(2000, 0, 2), max: nowMs - 86_400_000 }),
  offsetMinutes: fc.integer({ min: -14 * 60, max: 14 * 60 }),
});

test("1. every moment is read as it was written", () => {
  fc.assert(
    fc.property(moment, ({ ms, offsetMinutes }) => {
      expect(parseMoment(momentText(ms, offsetMinutes))).toMatchObject({ ms, offsetMinutes });
    }),
  );
});

test("2. no field begins as a formula does, and every text comes back", () => {
  fc.assert(
    fc.property(text, (each) => {
      expect(csvField(each).replace(/^"/, "")).not.toMatch(/^[=+\-@\t\r]/);
      const guarded = csvField(each).startsWith('"')
        ? csvField(each).slice(1, -1).replaceAll('""', '"')
        : csvField(each);
      expect(withoutGuard(guarded)).toBe(each);
    }),
  );
});

test("3. a table of any texts is cut into the same fields again", () => {
  const record = fc.array(
    text.map((each) => each.trim()),
    { minLength: 3, maxLength: 3 },
  );
  const filled = record.filter((fields) => fields.some((each) => each !== ""));
  fc.assert(
    fc.property(fc.array(filled, { maxLength: 8 }), (records) => {
      const table = readTable(csvText([["first", "second", "third"], ...records]));
      expect(table?.broken).toEqual([]);
      expect(table?.rows.map(({ fields }) => fields.map(withoutGuard))).toEqual(records);
    }),
  );
});

const items = fc.integer({ min: 0, max: 2_000 });
const work = fc
  .record({ assigned: items, completed: items, correct: fc.option(items, { nil: null }) })
  .filter(({ completed, correct }) => (correct ?? 0) <= completed);
const outcome = fc.option(marks, { nil: null, freq: 3 });
const groups = fc
  .record({
    names: fc.uniqueArray(name, { minLength: 1, maxLength: 5, selector: nameKey }),
    moments: fc.uniqueArray(moment, { maxLength: 6, selector: ({ ms }) => ms }),
  })
  .chain(({ names, moments }) => {
    const columns = fc.array(outcome, { minLength: moments.length, maxLength: moments.length });
    const works = fc.array(fc.option(work, { nil: null }), {
      minLength: moments.length,
      maxLength: moments.length,
    });
    const ofStudent = fc.record({ self: columns, observer: columns, works });
    const all = fc.array(ofStudent, { minLength: names.length, maxLength: names.length });
    return all.map((outcomes) => ({ names, moments, outcomes }));
  });
type Outcomes = readonly (readonly [number, number, number] | null)[];

const toColumns = (outcomes: Outcomes) => ({
  on: outcomes.map((each) => each?.[0] ?? null),
  off: outcomes.map((each) => each?.[1] ?? null),
  missing: outcomes.map((each) => each?.[2] ?? null),
});

/** What every session of the property is about; the signs are those of a formula. */
const subject = "=Maths, 2";

test("4. what was taken out can be brought in: the same students, moments, sources, counts and work", () => {
  fc.assert(
    fc.property(groups, ({ names, moments, outcomes }) => {
      const groupId = id(1);
      const counts: GroupCounts = {
        group: {
          id: groupId,
          name: "Room 4",
          target: "",
          isSample: false,
          archived: false,
          studentCount: names.length,
        },
        students: names.map((each, at) => ({
          id: id(100 + at),
          groupId,
          name: each,
          picture: null,
          target: "",
          holdGoal: null,
          hasMoved: false,
          archived: false,
        })),
        sessions: moments.map(({ ms, offsetMinutes }, at) => ({
          id: id(200 + at),
          kind: "seatwork",
          startedMs: ms,
          offsetMinutes,
          day: new Date(ms + offsetMinutes * 60_000).toISOString().slice(0, 10),
          meanSeconds: 120,
          subject,
          cuesDelivered: 10,
          note: "",
        })),
        counts: outcomes.map(({ self, observer }, at) => ({
          studentId: id(100 + at),
          self: toColumns(self),
          observer: toColumns(observer),
        })),
        checks: [],
        leftOut: [],
        freeLooks: [],
        observerPairs: [],
        work: outcomes.flatMap(({ works }, student) =>
          works.flatMap((done, session) =>
            done === null
              ? []
              : { studentId: id(100 + student), sessionId: id(200 + session), ...done },
          ),
        ),
        phases: [],
        daysOff: [],
        today: "2026-03-02",
      };
      const table = readTable(groupCsv(counts));
      if (table === null) throw new Error("No table");
      const mapping = guessMapping(table.header);
      const { rows, problems } = readRows(table, { mapping, source: "self", nowMs });
      expect(problems).toEqual([]);
      const expected = names.flatMap((student, at) =>
        (["self", "observer"] as const).flatMap((source) =>
          moments.flatMap(({ ms, offsetMinutes }, place) => {
            const counted = outcomes[at]?.[source][place] ?? null;
            if (counted === null) return [];
            const [on, off, missing] = counted;
            const startedAt = momentText(ms, offsetMinutes);
            // On the first of a student's two lines alone.
            const isSecond = source === "observer" && outcomes[at]?.self[place] !== null;
            const done = isSecond ? null : (outcomes[at]?.works[place] ?? null);
            const record = { student, startedAt, source, on, off, missing };
            return { ...record, phase: "", subject, work: done };
          }),
        ),
      );
      expect(rows.map(({ row }) => row)).toEqual(expected);
    }),
  );
});
