import { describe, expect, it } from "vitest";
import { decide, lastMarksMs, lateAfterMs } from "../../../../shared/session/decide.ts";
import type { MarkValue, SessionEventBody } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { ada, announced, at, begun, ben, delivered, logOf, mark } from "./events.ts";

// The rules are the design's own: late after 20 s, until the next cue, and 60 s past the end.

const ask = (studentId: string, cue: number, value: MarkValue) =>
  ({ kind: "mark", studentId, cue, value, way: "screen" }) as const;
const oneCue = logOf(at(0, begun), at(28_000, announced(1)), at(30_000, delivered(1)));
const moment = (sessionMs: number, sinceEndMs = 0) => ({ sessionMs, sinceEndMs });

describe("a device that did not show a cue", () => {
  const missed = {
    kind: "leave-undelivered",
    studentId: ada,
    cue: 1,
    reason: "seat-asleep",
  } as const;
  const decided = (...more: readonly SessionEventBody[]) =>
    decide(replay(logOf(...bodies(oneCue), ...more)), missed, moment(33_000));

  it("is written for its student, once, and changes nothing of the cue", () => {
    const written = { kind: "undelivered", studentId: ada, cue: 1, reason: "seat-asleep" } as const;
    expect(decided()).toEqual({ ok: true, events: [written] });
    expect(decided(written)).toEqual({ ok: true, events: [] });
    const state = replay(logOf(...bodies(oneCue), written));
    expect(state.cues.get(1)?.standing).toBe("delivered");
    expect(decide(state, ask(ben, 1, "on"), moment(33_000)).ok).toBe(true);
  });

  it("is not believed beside a mark, nor for who is absent, nor of a cue that reached nobody", () => {
    expect(decided(mark(ada, 1, "off"))).toEqual({ ok: true, events: [] });
    expect(decide(replay(logOf(begun, announced(1))), missed, moment(1))).toMatchObject({
      refusal: "cue-not-open",
    });
    const absent = replay(logOf(begun, { kind: "set-aside", studentId: ada }, delivered(1)));
    expect(decide(absent, missed, moment(1))).toEqual({ ok: true, events: [] });
  });

  it("still counts an answer that comes in late: the cue came through after all", () => {
    const found = decide(
      replay(logOf(...bodies(oneCue), { ...missed, kind: "undelivered" })),
      { ...ask(ada, 1, "on"), way: "seat" },
      moment(60_000),
    );
    expect(found).toMatchObject({ ok: true, events: [{ kind: "mark", late: true }] });
  });
});

describe("marks", () => {
  it("are on time up to 20 s after the cue and late from then on", () => {
    const state = replay(oneCue);
    expect(decide(state, ask(ada, 1, "on"), moment(30_000 + lateAfterMs))).toMatchObject({
      ok: true,
      events: [{ kind: "mark", late: false }],
    });
    expect(decide(state, ask(ada, 1, "on"), moment(30_001 + lateAfterMs))).toMatchObject({
      ok: true,
      events: [{ kind: "mark", late: true }],
    });
  });

  it("are taken until the next cue has begun, not only until it is announced", () => {
    const soon = replay(logOf(...bodies(oneCue), at(88_000, announced(2))));
    expect(decide(soon, ask(ada, 1, "on"), moment(89_000)).ok).toBe(true);
    const begunNext = replay(logOf(...bodies(oneCue), announced(2), at(90_000, delivered(2))));
    expect(decide(begunNext, ask(ada, 1, "on"), moment(90_001))).toEqual({
      ok: false,
      refusal: "cue-not-open",
    });
    expect(decide(begunNext, ask(ada, 2, "on"), moment(90_001)).ok).toBe(true);
  });

  it("are taken 60 s past the end and then no more", () => {
    const ended = replay(
      logOf(...bodies(oneCue), at(40_000, { kind: "ended", reason: "teacher" })),
    );
    expect(decide(ended, ask(ada, 1, "on"), moment(40_000, lastMarksMs)).ok).toBe(true);
    expect(decide(ended, ask(ada, 1, "on"), moment(40_000, lastMarksMs + 1))).toEqual({
      ok: false,
      refusal: "session-ended",
    });
  });

  it("need a cue that was heard and a student who is there", () => {
    const state = replay(logOf(...bodies(oneCue), { kind: "set-aside", studentId: ada }));
    expect(decide(state, ask(ada, 1, "on"), moment(31_000))).toMatchObject({
      refusal: "student-set-aside",
    });
    expect(decide(state, ask(ada, 2, "on"), moment(31_000))).toMatchObject({
      refusal: "cue-unknown",
    });
    const missed = replay(
      logOf(begun, announced(1), { kind: "undelivered", cue: 1, reason: "asleep" }),
    );
    expect(decide(missed, ask(ada, 1, "on"), moment(3_000))).toMatchObject({
      refusal: "cue-not-open",
    });
    expect(decide(replay([]), ask(ada, 1, "on"), moment(0))).toMatchObject({
      refusal: "session-not-running",
    });
  });

  it("sent twice are written once; taken back within the window they are none", () => {
    const state = replay(logOf(...bodies(oneCue), at(31_000, mark(ada, 1, "on"))));
    expect(decide(state, ask(ada, 1, "on"), moment(32_000))).toEqual({ ok: true, events: [] });
    expect(decide(state, ask(ada, 1, "none"), moment(32_000))).toMatchObject({
      events: [{ kind: "mark", value: "none" }],
    });
  });
});

describe("the run of a session", () => {
  it("pauses, resumes and ends, each once however often it is asked", () => {
    const running = replay(oneCue);
    expect(decide(running, { kind: "resume" }, moment(0))).toEqual({ ok: true, events: [] });
    const paused = replay(logOf(...bodies(oneCue), { kind: "paused", reason: "teacher" }));
    expect(decide(paused, { kind: "pause", reason: "asleep" }, moment(0))).toEqual({
      ok: true,
      events: [],
    });
    const ended = replay(logOf(...bodies(oneCue), { kind: "ended", reason: "teacher" }));
    expect(decide(ended, { kind: "end", reason: "finished" }, moment(0))).toEqual({
      ok: true,
      events: [],
    });
    expect(decide(ended, { kind: "pause", reason: "teacher" }, moment(0))).toMatchObject({
      refusal: "session-ended",
    });
    expect(decide(ended, { kind: "resume" }, moment(0))).toMatchObject({
      refusal: "session-ended",
    });
  });

  it("settles an announced cue when it ends", () => {
    const state = replay(logOf(...bodies(oneCue), announced(2)));
    expect(decide(state, { kind: "end", reason: "teacher" }, moment(31_000))).toEqual({
      ok: true,
      events: [
        { kind: "undelivered", cue: 2, reason: "session-ended" },
        { kind: "ended", reason: "teacher" },
      ],
    });
  });

  it("takes a second report of a cue for what it is", () => {
    const report = { kind: "deliver", cue: 1, by: "sound", latenessMs: 0, problem: null } as const;
    expect(decide(replay(oneCue), report, moment(0))).toEqual({ ok: true, events: [] });
    expect(decide(replay(oneCue), { ...report, cue: 7 }, moment(0))).toMatchObject({
      refusal: "cue-unknown",
    });
  });
});

const bodies = (log: ReturnType<typeof logOf>) =>
  log.map(({ body, stamp }) => at(stamp.atMs, body));

describe("spot checks", () => {
  const check = (cue: number | null) =>
    ({ kind: "spot-check", studentId: ada, cue, value: "on" }) as const;
  const said = (state: ReturnType<typeof replay>, cue: number | null) =>
    decide(state, check(cue), moment(0));

  it("are late once the next cue has come, and only then", () => {
    const state = replay(oneCue);
    expect(said(state, 1)).toEqual({ ok: true, events: [check(1)] });
    const next = replay(logOf(...bodies(oneCue), announced(2), delivered(2)));
    expect(said(next, 1)).toEqual({ ok: true, events: [{ ...check(1), late: true }] });
    expect(said(next, 2)).toEqual({ ok: true, events: [check(2)] });
    // A look outside any cue is never late.
    expect(said(next, null)).toEqual({ ok: true, events: [check(null)] });
  });
});

describe("a student's word of having been away", () => {
  const say = (cue: number, away: boolean) =>
    ({ kind: "say-away", studentId: ada, cue, away }) as const;

  it("is written in the window of a mark, once, and can be taken back", () => {
    const state = replay(oneCue);
    const now = moment(31_000);
    const said = { kind: "said-away", studentId: ada, cue: 1, away: true } as const;
    expect(decide(state, say(1, true), now)).toEqual({ ok: true, events: [said] });
    expect(decide(state, say(1, false), now)).toEqual({ ok: true, events: [] });
    const away = replay(logOf(...bodies(oneCue), said));
    expect(decide(away, say(1, true), now)).toEqual({ ok: true, events: [] });
    expect(decide(away, say(1, false), now)).toMatchObject({ events: [{ away: false }] });
  });

  it("is refused where a mark would be, and changes no mark that stands", () => {
    expect(decide(replay(oneCue), say(2, true), moment(31_000))).toMatchObject({
      refusal: "cue-unknown",
    });
    const marked = replay(logOf(...bodies(oneCue), mark(ada, 1, "on")));
    expect(decide(marked, say(1, true), moment(31_000))).toEqual({ ok: true, events: [] });
  });
});
