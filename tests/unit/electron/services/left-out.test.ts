import { expect, test } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { groupRecordSchema } from "../../../../shared/transfer/group-record.ts";
import { groupCsv } from "../../../../src/transfer/group-csv.ts";
import { groupRecord } from "../../../../src/transfer/group-record.ts";
import { caller, makeGroup, openServices, type Services, wholeCounts } from "./services.ts";

const noTeams = {
  teams: { settings: null, names: [], wishes: [], rounds: [] },
  pairs: { lessons: [] },
};

// That a session may be left out, and what then follows, are rules of our own; no source.

const heard = { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null } as const;

function hold(services: Services, groupId: string, bodies: readonly SessionEventBody[]): string {
  const startedMs = services.clock.wallMs();
  const { id } = services.store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "left out",
    startedMs,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const stamp = { atMs: 0, wallMs: startedMs, offsetMinutes: 0 };
  const log = [{ kind: "begun" }, heard, ...bodies, { kind: "ended", reason: "teacher" }] as const;
  services.store.log.appendAll(id, log, stamp);
  services.clock.advance(60_000);
  return id;
}

async function heldTwice() {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter Quux"]);
  const [pine = { id: "" }] = students;
  const said = (value: "on" | "off"): SessionEventBody[] => [
    { kind: "mark", studentId: pine.id, cue: 1, value, way: "screen", late: false },
    { kind: "spot-check", studentId: pine.id, cue: 1, value: "on" },
    { kind: "spot-check", studentId: pine.id, cue: null, value: "off" },
    { kind: "observed", studentId: pine.id, cue: 1, value: "on", observer: 1 },
    { kind: "observed", studentId: pine.id, cue: 1, value: "on", observer: 2 },
    { kind: "work", studentId: pine.id, assigned: 9, completed: 8, correct: null },
  ];
  const trial = hold(services, group.id, said("off"));
  const lesson = hold(services, group.id, said("on"));
  const say = (body: SessionEventBody) =>
    services.store.log.append(trial, body, {
      atMs: 0,
      wallMs: services.clock.wallMs(),
      offsetMinutes: 0,
    });
  return { services, groupId: group.id, pine: pine.id, trial, lesson, say };
}

test("a session that is left out is in no count, and in all of them when it is taken in again", async () => {
  const { services, groupId, trial, lesson, say } = await heldTwice();
  const before = services.store.counts.ofGroup(groupId);
  expect(before.sessions.map(({ id }) => id)).toEqual([trial, lesson]);
  say({ kind: "left-out", reason: "It was a trial" });
  const out = services.store.counts.ofGroup(groupId);
  expect(out.leftOut).toMatchObject([{ id: trial, reason: "It was a trial", day: "2026-03-02" }]);
  expect(out.sessions.map(({ id }) => id)).toEqual([lesson]);
  expect(out.counts[0]?.self).toEqual({ on: [1], off: [0], missing: [0] });
  for (const part of [out.checks, out.freeLooks, out.observerPairs, out.work]) {
    expect(part.map(({ sessionId }) => sessionId)).toEqual([lesson]);
  }
  say({ kind: "taken-in" });
  expect(services.store.counts.ofGroup(groupId)).toEqual(before);
});

test("it is in no CSV, and in the JSON records with its reason", async () => {
  const { services, groupId, pine, trial, lesson, say } = await heldTwice();
  say({ kind: "left-out", reason: "Otter Quux was ill" });
  const counts = await wholeCounts(services, groupId);
  const csv = groupCsv(counts);
  // The heading, and of the one lesson what each student recorded and what one was observed to do.
  expect(csv.trim().split(/\r?\n/)).toHaveLength(1 + 3);
  const program = await services.program.get({ groupId }, caller);
  const record = groupRecord(
    {
      counts,
      alternations: [],
      program,
      decisions: [],
      ledger: [],
      points: { privileges: [], periods: [] },
      ...noTeams,
      papers: [],
    },
    0,
  );
  expect(groupRecordSchema.parse(record).leftOut).toMatchObject([
    { id: trial, reason: "Otter Quux was ill" },
  ]);
  expect(record.sessions.map(({ id }) => id)).toEqual([lesson]);
  const own = await services.transfer.studentRecord({ studentId: pine, from: 0 }, caller);
  const bodies = own.record.sessions.flatMap(({ events }) => events.map(({ body }) => body));
  const said = bodies.find(({ kind }) => kind === "left-out");
  expect(said).toMatchObject({ reason: expect.stringMatching(/was ill$/) });
  expect(JSON.stringify(own.record)).not.toContain("Otter Quux was");
});

test("erasing a student takes the name out of the reason too", async () => {
  const { services, trial, say, groupId } = await heldTwice();
  say({ kind: "left-out", reason: "Otter Quux was ill" });
  const otter = services.store.students.list(groupId, false)[1]?.id ?? "";
  await services.students.erase({ id: otter }, caller);
  const { reason } = services.store.counts.ofGroup(groupId).leftOut[0] ?? { reason: "none" };
  expect(reason).not.toContain("Quux");
  expect(services.store.outlines.of(trial).leftOutBecause).toBe(reason);
});
