import { expect, it } from "vitest";
import { tallyOf } from "../../../../shared/record/tally.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { ada, announced, begun, delivered, logOf, mark } from "../session/events.ts";

it("tells a check that was answered after the next cue, from memory, from one answered at its own", () => {
  const check = (cue: number, late?: true): SessionEventBody => ({
    kind: "spot-check",
    studentId: ada,
    cue,
    value: "on",
    ...(late ? { late } : {}),
  });
  const state = replay(
    logOf(
      begun,
      announced(1),
      delivered(1),
      mark(ada, 1, "on"),
      announced(2),
      delivered(2),
      check(1, true),
      check(2),
    ),
  );
  expect(tallyOf(state).checks).toEqual([
    { studentId: ada, cue: 1, student: "on", seen: "on", late: true },
    { studentId: ada, cue: 2, student: "none", seen: "on" },
  ]);
});
