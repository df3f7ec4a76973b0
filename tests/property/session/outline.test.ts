import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { openStore } from "../../../electron/store/store.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import {
  markValues,
  markWays,
  type SessionEventBody,
  seenValues,
} from "../../../shared/session/event.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { deliveredCues } from "../../../shared/session/state.ts";

const folder = mkdtempSync(join(tmpdir(), "pebblechime-outline-"));
const store = openStore({ folder, now: () => 1 });
afterAll(() => {
  store.close();
  rmSync(folder, { recursive: true, force: true });
});
const group = store.groups.create({ name: "Invented", target: "", isSample: false }, 1);
const students = store.students.add(group.id, ["A", "B", "C"], 1).map(({ id }) => id);

const studentId = fc.constantFrom(...students);
const cue = fc.integer({ min: 1, max: 4 });
const kind = <Name extends string>(name: Name) => fc.constant(name);
const anyBody: fc.Arbitrary<SessionEventBody> = fc.oneof(
  fc.record({ kind: kind("announced"), cue }),
  fc.record({
    kind: kind("delivered"),
    cue,
    by: kind("sound"),
    latenessMs: fc.constant(null),
    problem: fc.constant(null),
  }),
  fc.record({ kind: kind("undelivered"), cue, reason: kind("skipped") }),
  fc.record({
    kind: kind("mark"),
    studentId,
    cue,
    value: fc.constantFrom(...markValues),
    way: fc.constantFrom(...markWays),
    late: fc.boolean(),
  }),
  fc.record({ kind: kind("set-aside"), studentId }),
  fc.record({ kind: kind("back"), studentId }),
  fc.record({
    kind: kind("observed"),
    studentId,
    cue,
    value: fc.constantFrom(...seenValues),
    observer: fc.constantFrom(1 as const, 2 as const),
  }),
  fc.record({ kind: kind("left-out"), reason: kind("A trial") }),
  fc.record({ kind: kind("taken-in") }),
  fc.record({ kind: kind("paused"), reason: kind("teacher") }),
  fc.record({ kind: kind("resumed") }),
);

describe("the outline of a session", () => {
  it("says the same as its log folded up", () => {
    fc.assert(
      fc.property(fc.array(anyBody, { maxLength: 30 }), fc.boolean(), (bodies, ends) => {
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
        const end = ends ? [{ kind: "ended", reason: "teacher" } as const] : [];
        const log = [{ kind: "begun" } as const, ...bodies, ...end];
        store.log.appendAll(session.id, log, { atMs: 0, wallMs: 1, offsetMinutes: 0 });
        const state = replay(store.log.read(session.id, 0));
        const outline = store.outlines.of(session.id);
        const marked = students.filter((id) =>
          [...(state.marks.get(id)?.values() ?? [])].some(({ value }) => value !== "none"),
        );
        const observed = [...state.observed.values()].map((seen) => seen.studentId);
        expect(outline).toEqual({
          lastSeq: state.lastSeq,
          status: state.status,
          cuesDelivered: deliveredCues(state).length,
          recorded: new Set([...marked, ...observed]),
          setAside: state.setAside,
          leftOutBecause: state.leftOutBecause,
        });
      }),
      { numRuns: 60 },
    );
  });
});
