import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { observerCounts, selfCounts } from "../../../shared/record/counts.ts";
import { decide, type SessionCommand } from "../../../shared/session/decide.ts";
import {
  endReasons,
  markValues,
  pauseReasons,
  seenValues,
  undeliveredReasons,
} from "../../../shared/session/event.ts";
import { reduce, replay } from "../../../shared/session/reduce.ts";
import { deliveredCues, emptySession, type SessionState } from "../../../shared/session/state.ts";
import { anyLog } from "./any-log.ts";

const students = ["ada", "ben", "cleo"] as const;
const studentId = fc.constantFrom(...students);
const cue = fc.integer({ min: 1, max: 6 });
const by = fc.constantFrom("sound" as const, "sight" as const);
const observer = fc.constantFrom(1 as const, 2 as const);
const kind = <Name extends string>(name: Name) => fc.constant(name);

const log = anyLog(students);

const anyCommand: fc.Arbitrary<SessionCommand> = fc.oneof(
  fc.record({ kind: kind("begin"), absentIds: fc.constant([]) }),
  fc.record({ kind: kind("recover") }),
  { arbitrary: fc.record({ kind: kind("announce"), cue }), weight: 3 },
  {
    arbitrary: fc.record({
      kind: kind("deliver"),
      cue,
      by,
      latenessMs: fc.constant(0),
      problem: fc.constant(null),
    }),
    weight: 3,
  },
  fc.record({
    kind: kind("leave-undelivered"),
    cue,
    reason: fc.constantFrom(...undeliveredReasons),
  }),
  {
    arbitrary: fc.record({
      kind: kind("mark"),
      studentId,
      cue,
      value: fc.constantFrom(...markValues),
      way: kind("screen"),
    }),
    weight: 4,
  },
  fc.record({ kind: kind("set-aside"), studentId, aside: fc.boolean() }),
  fc.record({ kind: kind("spot-check"), studentId, cue, value: fc.constantFrom(...seenValues) }),
  fc.record({
    kind: kind("observe"),
    studentId,
    cue,
    value: fc.constantFrom(...seenValues),
    observer,
  }),
  fc.record({ kind: kind("pause"), reason: fc.constantFrom(...pauseReasons) }),
  fc.record({ kind: kind("resume") }),
  fc.record({ kind: kind("end"), reason: fc.constantFrom(...endReasons) }),
);

/** Obeys each command that the rules allow, as the conductor does. */
function obeyAll(commands: readonly SessionCommand[], visit: (state: SessionState) => void) {
  let state = emptySession;
  let seq = 0;
  commands.forEach((command, index) => {
    const sessionMs = index * 4_000;
    const sinceEndMs = state.status === "ended" ? 1_000 : 0;
    const decision = decide(state, command, { sessionMs, sinceEndMs });
    if (!decision.ok) return;
    for (const body of decision.events) {
      seq++;
      state = reduce(state, {
        stamp: { seq, atMs: sessionMs, wallMs: sessionMs, offsetMinutes: 0 },
        body,
      });
    }
    visit(state);
  });
}

describe("a session's log", () => {
  it("may be replayed in any two parts, overlapping or not", () => {
    fc.assert(
      fc.property(log, fc.nat(60), fc.nat(60), (events, first, second) => {
        const whole = replay(events);
        const [from, to] = [Math.min(first, second), Math.max(first, second)];
        expect(replay(events.slice(from), replay(events.slice(0, to)))).toEqual(whole);
      }),
    );
  });

  it("is folded without an error in whatever order its bodies come", () => {
    fc.assert(
      fc.property(log, (events) => {
        const state = replay(events);
        expect(state.lastSeq).toBe(events.length);
        expect(state.atMs).toBe(Math.max(0, ...events.map(({ stamp }) => stamp.atMs)));
      }),
    );
  });

  it("counts no student more marks than cues, whatever is in it", () => {
    fc.assert(
      fc.property(log, (events) => {
        const state = replay(events);
        const cues = deliveredCues(state).length;
        for (const student of students) {
          if (state.totals.has(student)) continue;
          const counts = selfCounts(state, student);
          if (counts === null) continue;
          expect(counts.on + counts.off + counts.missing).toBeLessThanOrEqual(cues);
        }
      }),
    );
  });
});

describe("a session that follows its rules", () => {
  it("never comes into an impossible state", () => {
    fc.assert(
      fc.property(fc.array(anyCommand, { maxLength: 80 }), (commands) => {
        let before = emptySession;
        obeyAll([{ kind: "begin", absentIds: [] }, ...commands], (state) => {
          const delivered = deliveredCues(state);
          expect(state.openCue).toBe(delivered.at(-1) ?? null);
          // A verdict is for ever.
          for (const [number, record] of before.cues) {
            if (record.standing !== "announced") expect(state.cues.get(number)).toBe(record);
          }
          if (before.status === "ended") expect(state.status).toBe("ended");
          if (state.status === "ended") {
            for (const { standing } of state.cues.values()) expect(standing).not.toBe("announced");
          }
          for (const marks of state.marks.values()) {
            for (const number of marks.keys()) expect(delivered).toContain(number);
          }
          for (const { cue: number } of state.observed.values()) {
            expect(delivered).toContain(number);
          }
          before = state;
        });
      }),
      { numRuns: 300 },
    );
  });

  it("counts on, off and missing of each student who was never away to the cues that were heard", () => {
    fc.assert(
      fc.property(fc.array(anyCommand, { maxLength: 80 }), (commands) => {
        const away = new Set(
          commands.flatMap((each) => (each.kind === "set-aside" ? [each.studentId] : [])),
        );
        obeyAll([{ kind: "begin", absentIds: [] }, ...commands], (state) => {
          for (const student of students) {
            if (away.has(student)) continue;
            const counts = selfCounts(state, student);
            if (counts === null) throw new Error("A student who was never away took part");
            expect(counts.on + counts.off + counts.missing).toBe(deliveredCues(state).length);
          }
          for (const student of students) {
            const seen = observerCounts(state, student);
            if (seen === null) continue;
            expect(seen.on + seen.off + seen.missing).toBeLessThanOrEqual(
              deliveredCues(state).length,
            );
          }
        });
      }),
      { numRuns: 200 },
    );
  });
});
