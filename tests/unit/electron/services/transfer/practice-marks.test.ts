import { expect, test } from "vitest";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { SessionEventBody, SessionKind } from "../../../../../shared/session/event.ts";
import { caller, makeGroup, openServices, type Services } from "../services.ts";

function hold(
  services: Services,
  groupId: string,
  kind: SessionKind,
  bodies: readonly SessionEventBody[],
): string {
  const startedMs = services.clock.wallMs();
  const { id } = services.store.sessions.create({
    groupId,
    kind,
    planName: "First plan",
    plan: firstPlan,
    seed: "practised",
    startedMs,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const stamp = { atMs: 0, wallMs: startedMs, offsetMinutes: 0 };
  services.store.log.appendAll(id, [{ kind: "begun" }, ...bodies], stamp);
  services.clock.advance(60_000);
  return id;
}

async function practised() {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine"]);
  const studentId = students[0]?.id ?? "";
  const bodies: SessionEventBody[] = [
    { kind: "announced", cue: 1 },
    { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
    { kind: "mark", studentId, cue: 1, value: "on", way: "screen", late: false },
    { kind: "spot-check", studentId, cue: 1, value: "off" },
    { kind: "note", text: "Went well" },
  ];
  const end: SessionEventBody = { kind: "ended", reason: "finished" };
  const hand = (kind: SessionKind, ended = true) =>
    hold(services, group.id, kind, ended ? [...bodies, end] : bodies);
  return { services, group, studentId, hand };
}

const marksIn = (services: Services, sessionId: string) =>
  services.store.log.read(sessionId, 0).filter(({ body }) => "studentId" in body).length;

test("1. nothing of a practice is counted, compared, or in a student's record, even before it is deleted", async () => {
  const { services, group, studentId, hand } = await practised();
  hand("practice");
  const seatwork = hand("seatwork");
  const counts = services.store.counts.ofGroup(group.id);
  expect(counts.sessions.map(({ id }) => id)).toEqual([seatwork]);
  expect(counts.checks.map(({ sessionId }) => sessionId)).toEqual([seatwork]);
  const piece = await services.transfer.studentRecord({ studentId, from: 0 }, caller);
  expect(JSON.stringify(piece)).toContain(seatwork);
  expect(services.store.sessions.idsOf(studentId)).toEqual([seatwork]);
});

test("2. marks and looks of ended practices go; sessions, notes and other sessions' marks stay", async () => {
  const { services, hand } = await practised();
  const practice = hand("practice");
  const seatwork = hand("seatwork");
  const open = hand("practice", false);
  expect(services.store.forgetPractices()).toBe(2);
  expect(marksIn(services, practice)).toBe(0);
  expect(marksIn(services, seatwork)).toBe(2);
  expect(marksIn(services, open)).toBe(2);
  expect(services.store.log.read(practice, 0).map(({ body }) => body.kind)).toEqual([
    "begun",
    "announced",
    "delivered",
    "note",
    "ended",
  ]);
  expect(services.store.forgetPractices()).toBe(0);
});

test("3. no number of the log is given again after the marks went", async () => {
  const { services, studentId, hand } = await practised();
  const practice = hand("practice");
  const stamp = { atMs: 0, wallMs: services.clock.wallMs(), offsetMinutes: 0 };
  const total = { kind: "total", studentId, on: 1, off: 0, way: "paper" } as const;
  const { seq } = services.store.log.append(practice, total, stamp).stamp;
  services.store.forgetPractices();
  const next = services.store.log.append(practice, { kind: "note", text: "After" }, stamp);
  expect(next.stamp.seq).toBe(seq + 1);
});
