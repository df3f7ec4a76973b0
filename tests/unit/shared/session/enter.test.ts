import { describe, expect, it } from "vitest";
import { decide } from "../../../../shared/session/decide.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { emptySession } from "../../../../shared/session/state.ts";
import { ada, announced, begun, ben, delivered, logOf, mark } from "./events.ts";

// What the desktop side wrote past the rules before; the rules are the design's own.

const now = { sessionMs: 0, sinceEndMs: 0 };
const running = replay(logOf(begun, announced(1), delivered(1)));
const ended = replay(
  logOf(begun, announced(1), delivered(1), { kind: "ended", reason: "teacher" }),
);
const aside = { kind: "set-aside", studentId: ada } as const;
const card = mark(ada, 1, "on", "paper");

describe("the beginning", () => {
  it("is written with who is absent, and only once", () => {
    const begin = { kind: "begin", absentIds: [ben] } as const;
    expect(decide(emptySession, begin, now)).toEqual({
      ok: true,
      events: [{ kind: "begun" }, { kind: "set-aside", studentId: ben }],
    });
    expect(decide(running, begin, now)).toEqual({ ok: true, events: [] });
  });

  it("found again after a crash settles what was under way and pauses", () => {
    const open = replay(logOf(begun, announced(1)));
    expect(decide(open, { kind: "recover" }, now)).toEqual({
      ok: true,
      events: [
        { kind: "undelivered", cue: 1, reason: "app-closed" },
        { kind: "paused", reason: "app-closed" },
      ],
    });
    expect(decide(ended, { kind: "recover" }, now)).toEqual({ ok: true, events: [] });
  });
});

describe("a session held elsewhere", () => {
  it("comes in whole into an empty log and into no other", () => {
    const events = [begun, delivered(1), { kind: "ended", reason: "finished" }] as const;
    expect(decide(emptySession, { kind: "bring-in", events }, now)).toEqual({ ok: true, events });
    expect(decide(running, { kind: "bring-in", events }, now).ok).toBe(false);
  });
});

describe("what is typed in afterwards", () => {
  it("waits for the end", () => {
    if (card.kind !== "mark") throw new Error("A card says marks");
    for (const command of [
      { kind: "enter-cards", changes: [card] },
      { kind: "enter-work", work: [{ studentId: ada, assigned: 5, completed: 4, correct: null }] },
      { kind: "enter-observed", observer: 1, marks: [{ studentId: ada, cue: 1, value: "on" }] },
    ] as const) {
      expect(decide(running, command, now)).toEqual({ ok: false, refusal: "session-running" });
      expect(decide(ended, command, now).ok).toBe(true);
    }
  });

  it("is no card of a student who was absent", () => {
    if (card.kind !== "mark") throw new Error("A card says marks");
    const away = replay(logOf(begun, delivered(1), { kind: "ended", reason: "teacher" }, aside));
    expect(decide(away, { kind: "enter-cards", changes: [card] }, now)).toEqual({
      ok: false,
      refusal: "student-set-aside",
    });
  });

  it("writes work and observations once, and only of cues that were heard", () => {
    const work = { studentId: ada, assigned: 5, completed: 4, correct: null };
    const sheet = { studentId: ada, cue: 1, value: "on" } as const;
    const known = replay(
      logOf(
        begun,
        delivered(1),
        { kind: "ended", reason: "teacher" },
        { kind: "work", ...work },
        { kind: "observed", ...sheet, observer: 1 },
      ),
    );
    expect(decide(known, { kind: "enter-work", work: [work] }, now)).toEqual({
      ok: true,
      events: [],
    });
    expect(decide(known, { kind: "enter-observed", observer: 1, marks: [sheet] }, now)).toEqual({
      ok: true,
      events: [],
    });
    const stranger = {
      kind: "enter-observed",
      observer: 1,
      marks: [{ ...sheet, cue: 9 }],
    } as const;
    expect(decide(known, stranger, now)).toEqual({ ok: false, refusal: "cue-unknown" });
  });
});
