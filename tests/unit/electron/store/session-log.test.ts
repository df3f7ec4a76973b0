import { expect, test } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { makeClass } from "./make-class.ts";
import { monday, temporaryStore } from "./temporary-folder.ts";

const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 60 };

test("1. numbers events from 1 and reads them back as they were written", () => {
  const store = temporaryStore();
  const { sessionId, studentIds } = makeClass(store);
  const [studentId] = studentIds;
  const bodies: SessionEventBody[] = [
    { kind: "begun" },
    { kind: "announced", cue: 1 },
    { kind: "delivered", cue: 1, by: "sound", latenessMs: 0.25, problem: null },
    { kind: "mark", studentId, cue: 1, value: "on", way: "screen", late: false },
    { kind: "spot-check", studentId, cue: null, value: "off" },
    { kind: "spot-check", studentId, cue: 1, value: "unseen" },
    { kind: "observed", studentId, cue: 1, value: "on", observer: 2 },
    { kind: "total", studentId, on: 3, off: 0, way: "paper" },
    { kind: "work", studentId, assigned: 10, completed: 8, correct: null },
    { kind: "set-aside", studentId },
    { kind: "back", studentId },
    { kind: "undelivered", cue: 2, reason: "asleep" },
    { kind: "interruption", note: "Fire drill" },
    { kind: "note", text: "" },
    { kind: "paused", reason: "teacher" },
    { kind: "resumed" },
    { kind: "ended", reason: "finished" },
  ];
  const written = bodies.map((body, index) =>
    store.log.append(sessionId, body, { ...stamp, atMs: index * 10 }),
  );
  expect(written.map((event) => event.stamp.seq)).toEqual(bodies.map((_, index) => index + 1));
  expect(written.map((event) => event.body)).toEqual(bodies);
  expect(store.log.read(sessionId, 0)).toEqual(written);
  expect(store.log.read(sessionId, 15)).toEqual(written.slice(15));
  expect(store.log.lastEvent(sessionId)).toEqual(written.at(-1));
});

test("2. keeps times in whole milliseconds and says so in what it returns", () => {
  const store = temporaryStore();
  const { sessionId } = makeClass(store);
  const event = store.log.append(
    sessionId,
    { kind: "begun" },
    { atMs: 12.6, wallMs: monday + 0.4, offsetMinutes: -300 },
  );
  expect(event.stamp).toEqual({ seq: 1, atMs: 13, wallMs: monday, offsetMinutes: -300 });
  expect(store.log.lastEvent(sessionId)).toEqual(event);
});

test("3. writes all of several events, or none when one is not an event", () => {
  const store = temporaryStore();
  const { sessionId } = makeClass(store);
  const bad = { kind: "announced", cue: 0 } as const;
  expect(() => store.log.appendAll(sessionId, [{ kind: "begun" }, bad], stamp)).toThrow();
  expect(store.log.read(sessionId, 0)).toEqual([]);
  store.log.appendAll(sessionId, [{ kind: "begun" }, { kind: "announced", cue: 1 }], stamp);
  expect(store.log.read(sessionId, 0)).toHaveLength(2);
});

test("4. refuses an event of a session or a student that is not there", () => {
  const store = temporaryStore();
  const { sessionId, studentIds } = makeClass(store);
  const [studentId] = studentIds;
  expect(() => store.log.append(studentId, { kind: "begun" }, stamp)).toThrow(/created first/);
  const mark = { kind: "set-aside", studentId: sessionId } as const;
  expect(() => store.log.append(sessionId, mark, stamp)).toThrow();
});

test("5. finds the newest session that has not ended", () => {
  const store = temporaryStore();
  const { groupId, sessionId } = makeClass(store);
  expect(store.log.openSessionId()).toBe(sessionId);
  store.log.append(sessionId, { kind: "ended", reason: "teacher" }, stamp);
  expect(store.log.openSessionId()).toBeNull();
  const later = store.sessions.create({
    groupId,
    kind: "practice",
    planName: "First plan",
    plan: firstPlan,
    seed: "another",
    startedMs: monday + 5,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  expect(store.log.openSessionId()).toBe(later.id);
});
