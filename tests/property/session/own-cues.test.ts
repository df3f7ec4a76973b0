import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { matchedMarks } from "../../../shared/points/matched-mark.ts";
import { awayBoxes, cardOf } from "../../../shared/record/boxes.ts";
import { type MarkCounts, selfCounts } from "../../../shared/record/counts.ts";
import { presenceOf } from "../../../shared/record/presence.ts";
import { standingNow } from "../../../shared/record/standing-now.ts";
import { tallyOf } from "../../../shared/record/tally.ts";
import type { SessionEvent, SessionEventBody } from "../../../shared/session/event.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { anyLog } from "./any-log.ts";

const students = [
  "0190a000-0000-7000-8000-000000000001",
  "0190a000-0000-7000-8000-000000000002",
  "0190a000-0000-7000-8000-000000000003",
];
const [only = ""] = students;

const numbered = (bodies: readonly SessionEventBody[]): SessionEvent[] =>
  bodies.map((body, index) => ({
    stamp: { seq: index + 1, atMs: index * 1_000, wallMs: index, offsetMinutes: 0 },
    body,
  }));

/** The same log with each cue of the class given to a student of its own. */
function owned(events: readonly SessionEvent[], ownerOf: (at: number) => string): SessionEvent[] {
  const bodies = events.map(({ body }, at): SessionEventBody => {
    const isCue =
      body.kind === "announced" || body.kind === "delivered" || body.kind === "undelivered";
    return isCue ? { ...body, studentId: body.studentId ?? ownerOf(at) } : body;
  });
  return numbered([{ kind: "begun", cueing: "own" }, ...bodies]);
}

const doubtful: readonly string[] = ["no-report", "seat-asleep", "seat-absent"];

/** What one student's own cues come to, asked question by question of the whole list; null for no part. */
function slowly(events: readonly SessionEvent[], studentId: string): MarkCounts | null {
  const all = events.map(({ body, stamp }) => ({ ...body, seq: stamp.seq }));
  const own = all.filter((body) => "studentId" in body && body.studentId === studentId);
  const totalSeq = own.findLast(({ kind }) => kind === "total")?.seq ?? 0;
  const endSeq = all.find(({ kind }) => kind === "ended")?.seq ?? Infinity;
  const isAsideAt = (seq: number) =>
    own.findLast((body) => body.seq < seq && (body.kind === "set-aside" || body.kind === "back"))
      ?.kind === "set-aside";
  const valueAt = (cue: number) => {
    const last = own.findLast((body) => body.kind === "mark" && body.cue === cue);
    if (last?.kind !== "mark" || (last.way === "paper" && last.seq < totalSeq)) return "none";
    return last.value;
  };
  let [on, off, missing] = [0, 0, 0];
  for (const cue of [1, 2, 3, 4, 5, 6]) {
    const verdict = own.find(
      (body) => (body.kind === "delivered" || body.kind === "undelivered") && body.cue === cue,
    );
    const value = valueAt(cue);
    const isShown = verdict?.kind === "delivered";
    const isInDoubt = verdict?.kind === "undelivered" && doubtful.includes(verdict.reason);
    if (!isShown && !(isInDoubt && value !== "none")) continue;
    if (value === "on") on++;
    else if (value === "off") off++;
    else if (!isAsideAt(verdict?.seq ?? 0)) missing++;
  }
  const isReplaced = own.some(
    (body) => body.kind === "mark" && body.way === "paper" && body.seq > totalSeq,
  );
  const total = isReplaced ? undefined : own.findLast(({ kind }) => kind === "total");
  if (total?.kind === "total") {
    const left = Math.max(0, on + off + missing - total.on - total.off);
    return { on: total.on, off: total.off, missing: left };
  }
  const lastBack = own.findLast(({ kind }) => kind === "back")?.seq ?? 0;
  const isAway = own.some(
    ({ kind, seq }) => kind === "set-aside" && seq > endSeq && seq > lastBack,
  );
  const isNone = on + off + missing === 0 || (on + off === 0 && isAway);
  return isNone ? null : { on, off, missing };
}

describe("own cues", () => {
  it("come to what a slow reading of the log says, student by student", () => {
    fc.assert(
      fc.property(
        anyLog(students),
        fc.array(fc.constantFrom(...students), { minLength: 60, maxLength: 60 }),
        (events, owners) => {
          const log = owned(events, (at) => owners[at] ?? only);
          const state = replay(log);
          const tally = tallyOf(state);
          expect(state.cues.size).toBe(0);
          for (const student of students) {
            const expected = slowly(log, student);
            expect(selfCounts(state, student)).toEqual(expected);
            if (tally.self.has(student)) expect(tally.self.get(student)).toEqual(expected);
            else expect(expected).toBeNull();
          }
        },
      ),
      { numRuns: 400 },
    );
  });

  it("of one student alone are read as a class of that student is that is cued together", () => {
    fc.assert(
      fc.property(anyLog([only]), (events) => {
        // What a device did not show is told in another way of a class that is cued together.
        const shown = events.filter(({ body }) => body.kind !== "undelivered");
        const own = replay(owned(shown, () => only));
        const together = replay(numbered([{ kind: "begun" }, ...shown.map(({ body }) => body)]));
        const none = { on: 0, off: 0, missing: 0 };
        const isUncued = tallyOf(together).cuesDelivered === 0;
        expect(selfCounts(own, only) ?? (isUncued ? none : null)).toEqual(
          selfCounts(together, only) ?? (isUncued ? none : null),
        );
        expect(tallyOf(own).cuesDelivered).toBe(tallyOf(together).cuesDelivered);
        expect(tallyOf(own).checks).toEqual(tallyOf(together).checks);
        expect(cardOf(own, only, 6)).toEqual(cardOf(together, only, 6));
        expect(awayBoxes(own, only, 6)).toEqual(awayBoxes(together, only, 6));
        expect(presenceOf(own, only)).toBe(presenceOf(together, only));
        expect(standingNow(own, only, true)).toBe(standingNow(together, only, true));
        expect(matchedMarks(own, only)).toBe(matchedMarks(together, only));
        expect(own.corrections).toEqual(together.corrections);
      }),
      { numRuns: 400 },
    );
  });
});
