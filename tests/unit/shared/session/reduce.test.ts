import { describe, expect, it } from "vitest";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { reduce, replay } from "../../../../shared/session/reduce.ts";
import {
  emptySession,
  newestSoundProblem,
  unconfirmedCues,
} from "../../../../shared/session/state.ts";
import { ada, announced, at, begun, ben, delivered, logOf, mark } from "./events.ts";

describe("reduce", () => {
  it("follows a session from its start to its end", () => {
    const state = replay(
      logOf(
        begun,
        announced(1),
        delivered(1),
        mark(ada, 1, "on"),
        { kind: "paused", reason: "teacher" },
        { kind: "resumed" },
        { kind: "interruption", note: "fire drill" },
        { kind: "ended", reason: "finished" },
      ),
    );
    expect(state.status).toBe("ended");
    expect(state.endReason).toBe("finished");
    expect(state.openCue).toBe(1);
    expect(state.marks.get(ada)?.get(1)).toMatchObject({ value: "on", way: "screen", seq: 4 });
    expect(state.interruptions).toEqual([{ atMs: 6_000, note: "fire drill" }]);
    expect(state.lastSeq).toBe(8);
  });

  it("ignores an event that it knows already", () => {
    const events = logOf(begun, announced(1), delivered(1));
    const state = replay(events);
    for (const event of events) expect(reduce(state, event)).toBe(state);
  });

  it("keeps the first verdict on a cue", () => {
    const state = replay(
      logOf(
        begun,
        announced(1),
        { kind: "undelivered", cue: 1, reason: "no-report" },
        delivered(1),
        announced(1),
      ),
    );
    expect(state.cues.get(1)).toEqual({
      standing: "undelivered",
      reason: "no-report",
      problem: null,
      atMs: 2_000,
      aside: new Set(),
    });
    expect(state.openCue).toBeNull();
    expect(unconfirmedCues(state)).toEqual([]);
  });

  it("lets a total replace marks by paper and not marks by screen", () => {
    const state = replay(
      logOf(begun, announced(1), delivered(1), mark(ada, 1, "on", "paper"), mark(ben, 1, "off"), {
        kind: "total",
        studentId: ada,
        on: 3,
        off: 2,
        way: "paper",
      }),
    );
    expect(state.marks.get(ada)?.size).toBe(0);
    expect(state.totals.get(ada)).toMatchObject({ on: 3, off: 2 });
    expect(state.corrections.get(ada)).toBe(1);
    expect(state.marks.get(ben)?.get(1)?.value).toBe("off");
  });

  it("lets boxes typed after a total take its place", () => {
    const state = replay(
      logOf(
        begun,
        { kind: "total", studentId: ada, on: 3, off: 2, way: "paper" },
        announced(1),
        delivered(1),
      ),
    );
    const [, , , , next] = logOf(begun, begun, begun, begun, mark(ada, 1, "on", "paper"));
    if (next === undefined) throw new Error("no event");
    const later = reduce(state, next);
    expect(later.totals.has(ada)).toBe(false);
    expect(later.corrections.get(ada)).toBe(1);
  });

  it("never goes back in session time and leaves its input alone", () => {
    const state = replay(logOf(at(0, begun), at(9_000, announced(1)), at(7_000, delivered(1))));
    expect(state.atMs).toBe(9_000);
    expect(emptySession.cues.size).toBe(0);
    expect(emptySession.marks.size).toBe(0);
  });
});

describe("why the newest cue was not heard", () => {
  const failed = (cue: number, problem?: string): SessionEventBody => ({
    kind: "undelivered",
    cue,
    reason: "sound-failed",
    ...(problem === undefined ? {} : { problem }),
  });
  const shown = (cue: number, problem: string | null): SessionEventBody => ({
    kind: "delivered",
    cue,
    by: problem === null ? "sound" : "sight",
    latenessMs: 0,
    problem,
  });
  it.each<[string, SessionEventBody[], string | null]>([
    ["no cue yet", [], null],
    ["only announced", [announced(1)], null],
    ["heard", [announced(1), shown(1, null)], null],
    ["shown instead", [announced(1), shown(1, "locked")], "locked"],
    ["neither heard nor seen", [announced(1), failed(1, "load-failed")], "load-failed"],
    ["failed without a word", [announced(1), failed(1)], "sound-failed"],
    [
      "failed, and heard again since",
      [announced(1), failed(1), announced(2), shown(2, null)],
      null,
    ],
    ["left out by the teacher", [{ kind: "undelivered", cue: 1, reason: "skipped" }], null],
  ])("%s", (_case, bodies, problem) => {
    expect(newestSoundProblem(replay(logOf(begun, ...bodies)))).toBe(problem);
  });

  it("keeps which checks were answered late, and takes a look outside any cue back by another", () => {
    const look = (studentId: string, cue: number | null, value: "on" | "off" | "unseen") =>
      ({ kind: "spot-check", studentId, cue, value }) as const;
    const state = replay(
      logOf(
        begun,
        delivered(1),
        { ...look(ada, 1, "on"), late: true },
        look(ben, 1, "unseen"),
        look(ben, null, "off"),
        look(ada, null, "on"),
        look(ada, null, "off"),
        look(ada, null, "unseen"),
      ),
    );
    expect(state.spotChecks).toEqual([
      { seq: 3, studentId: ada, cue: 1, value: "on", late: true },
      { seq: 4, studentId: ben, cue: 1, value: "unseen", late: false },
      { seq: 5, studentId: ben, cue: null, value: "off", late: false },
      { seq: 6, studentId: ada, cue: null, value: "on", late: false },
    ]);
  });
});
