import fc from "fast-check";
import {
  endReasons,
  givenReasons,
  markValues,
  markWays,
  mostGiven,
  mostTaken,
  pauseReasons,
  type SessionEvent,
  type SessionEventBody,
  seenValues,
  takenReasons,
  undeliveredReasons,
} from "../../../shared/session/event.ts";

const kind = <Name extends string>(name: Name) => fc.constant(name);

/**
 * Any kind of event of these students, in no order that a real session has: marks taken back and typed in
 * later, absences, imported ways, presses undone, sessions left out and taken in again.
 */
export function anyBody(students: readonly string[]): fc.Arbitrary<SessionEventBody> {
  const studentId = fc.constantFrom(...students);
  const cue = fc.integer({ min: 1, max: 6 });
  const few = fc.integer({ min: 0, max: 6 });
  const seq = fc.integer({ min: 1, max: 60 });
  const text = fc.constantFrom("", " ", "Fire drill", "A new seat");
  const way = fc.constantFrom(...markWays);
  const seen = fc.constantFrom(...seenValues);
  const mark = fc.record({
    kind: kind("mark"),
    studentId,
    cue,
    value: fc.constantFrom(...markValues),
    way,
    late: fc.boolean(),
  });
  const delivered = fc.record({
    kind: kind("delivered"),
    cue,
    by: fc.constantFrom("sound" as const, "sight" as const),
    latenessMs: fc.constant(null),
    problem: fc.constantFrom(null, "locked"),
  });
  return fc.oneof(
    { arbitrary: mark, weight: 6 },
    { arbitrary: delivered, weight: 3 },
    fc.record({ kind: kind("begun") }),
    fc.record({ kind: kind("announced"), cue }),
    fc.record({
      kind: kind("undelivered"),
      cue,
      reason: fc.constantFrom(...undeliveredReasons),
    }),
    fc.record({ kind: kind("undelivered"), studentId, cue, reason: kind("seat-asleep") }),
    fc.record({ kind: kind("total"), studentId, on: few, off: few, way }),
    fc.record({ kind: kind("said-away"), studentId, cue, away: fc.boolean() }),
    fc.record({ kind: kind("set-aside"), studentId }),
    fc.record({ kind: kind("back"), studentId }),
    fc.record({
      kind: kind("spot-check"),
      studentId,
      cue: fc.option(cue),
      value: seen,
    }),
    fc.record({
      kind: kind("observed"),
      studentId,
      cue,
      value: seen,
      observer: fc.constantFrom(1 as const, 2 as const),
    }),
    fc.record({
      kind: kind("work"),
      studentId,
      assigned: few,
      completed: few,
      correct: fc.option(few),
    }),
    fc.record({
      kind: kind("given"),
      studentId,
      amount: fc.integer({ min: 1, max: mostGiven }),
      why: fc.constantFrom(...givenReasons),
      press: fc.uuid(),
    }),
    fc.record({
      kind: kind("taken"),
      studentId,
      amount: fc.integer({ min: 1, max: mostTaken }),
      why: fc.constantFrom(...takenReasons),
      press: fc.uuid(),
    }),
    fc.record({ kind: kind("ungiven"), studentId, givenSeq: seq }),
    fc.record({ kind: kind("untaken"), studentId, takenSeq: seq }),
    fc.record({ kind: kind("points-stopped"), studentId }),
    fc.record({ kind: kind("pluses"), studentId, on: few }),
    fc.record({ kind: kind("interruption"), note: text }),
    fc.record({ kind: kind("note"), text }),
    fc.record({ kind: kind("passed-over"), seq: fc.constant(999) }),
    fc.record({ kind: kind("paused"), reason: fc.constantFrom(...pauseReasons) }),
    fc.record({ kind: kind("resumed") }),
    fc.record({ kind: kind("ended"), reason: fc.constantFrom(...endReasons) }),
    fc.record({ kind: kind("left-out"), reason: kind("A trial") }),
    fc.record({ kind: kind("left-out"), reason: kind("A trial"), trial: fc.constant(true) }),
    fc.record({ kind: kind("taken-in") }),
  );
}

/** A log of such events, numbered from 1. */
export const anyLog = (students: readonly string[]): fc.Arbitrary<SessionEvent[]> =>
  fc
    .array(fc.tuple(anyBody(students), fc.integer({ min: 0, max: 30_000 })), { maxLength: 60 })
    .map((entries) =>
      entries.map(([body, atMs], index) => ({
        stamp: { seq: index + 1, atMs, wallMs: atMs, offsetMinutes: 0 },
        body,
      })),
    );
