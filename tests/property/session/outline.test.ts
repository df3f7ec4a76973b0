import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { openStore } from "../../../electron/store/store.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { anyBody } from "./any-log.ts";

const folder = mkdtempSync(join(tmpdir(), "pebblechime-outline-"));
const store = openStore({ folder, now: () => 1 });
const group = store.groups.create({ name: "Invented", target: "", isSample: false }, 1);
const students = store.students.add(group.id, ["A", "B", "C"], 1).map(({ id }) => id);
const database = new Database(join(folder, "pebblechime.sqlite"), { readonly: true });
afterAll(() => {
  database.close();
  store.close();
  rmSync(folder, { recursive: true, force: true });
});

// The same questions put to the rows of the log by SQLite, which knows nothing of the fold.

const log = `WITH log AS (
  SELECT event.*, student.id AS student FROM session_event AS event
  LEFT JOIN student ON student.number = student_number
  WHERE session_number = (SELECT number FROM session WHERE id = ?)
)`;
const ask = (query: string) => database.prepare<[string], string>(`${log} ${query}`).pluck();
const status = ask(
  `SELECT kind FROM log WHERE kind IN ('begun', 'paused', 'resumed', 'ended')
   ORDER BY kind = 'ended' DESC, seq DESC LIMIT 1`,
);
const delivered = database
  .prepare<[string], number>(
    `${log} SELECT count(*) FROM (
       SELECT kind, min(seq) FROM log WHERE kind IN ('delivered', 'undelivered') AND student IS NULL
       GROUP BY cue
     ) WHERE kind = 'delivered'`,
  )
  .pluck();
const recorded = ask(
  `SELECT student FROM log WHERE kind = 'observed'
   UNION
   SELECT student FROM (
     SELECT student, way, seq, value, cue, max(seq) FROM log WHERE kind = 'mark' GROUP BY student, cue
   ) AS mark WHERE value <> 'none' AND NOT (way = 'paper' AND EXISTS (
     SELECT 1 FROM log WHERE kind = 'total' AND student = mark.student AND seq > mark.seq))
   UNION
   SELECT student FROM log AS total WHERE kind = 'total' AND NOT EXISTS (
     SELECT 1 FROM log WHERE kind = 'mark' AND way = 'paper' AND student = total.student
       AND seq > total.seq)`,
);
const setAside = ask(
  `SELECT student FROM (
     SELECT student, kind, max(seq) FROM log WHERE kind IN ('set-aside', 'back') GROUP BY student
   ) WHERE kind = 'set-aside'`,
);
const leftOut = ask(
  `SELECT json_extract(detail, '$.reason') FROM log WHERE kind IN ('left-out', 'taken-in')
   ORDER BY seq DESC LIMIT 1`,
);

const trial = ask(
  `SELECT coalesce(json_extract(detail, '$.trial'), 0) FROM log
   WHERE kind IN ('left-out', 'taken-in') ORDER BY seq DESC LIMIT 1`,
);

const bodies = fc.array(
  // The log begins with its only `begun`.
  anyBody(students).filter(({ kind }) => kind !== "begun"),
  { maxLength: 40 },
);

describe("the outline of a session", () => {
  it("is what SQLite answers to the same questions", () => {
    fc.assert(
      fc.property(bodies, (said) => {
        const session = store.sessions.create({
          groupId: group.id,
          kind: "seatwork",
          planName: "First",
          plan: firstPlan,
          seed: "outline",
          startedMs: 1,
          offsetMinutes: 0,
          day: "2026-01-12",
        });
        const stamp = { atMs: 0, wallMs: 1, offsetMinutes: 0 };
        store.log.appendAll(session.id, [{ kind: "begun" }, ...said], stamp);
        const { id } = session;
        const last = status.get(id);
        expect(store.outlines.of(id)).toEqual({
          status: last === "ended" || last === "paused" ? last : "running",
          cuesDelivered: delivered.get(id),
          recorded: new Set(recorded.all(id)),
          setAside: new Set(setAside.all(id)),
          leftOutBecause: leftOut.get(id) ?? null,
          isTrial: Boolean(trial.get(id) ?? 0),
        });
        // Asked again after one more event, nothing of the earlier answer is left.
        store.log.append(id, { kind: "left-out", reason: "Once more" }, stamp);
        expect(store.outlines.of(id).leftOutBecause).toBe("Once more");
      }),
      { numRuns: 60 },
    );
  });
});
