import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { type Desktop, openDesktop } from "../../../../../electron/host/desktop.ts";
import type { HeldInput } from "../../../../../shared/api/records.ts";
import { studentRecordSchema } from "../../../../../shared/api/transfer.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import { keyCues } from "../../../../../src/print/key-cues.ts";
import { addStudents } from "../../../../setup/add-students.ts";
import { manualClock } from "../../../../support/manual-clock.ts";

// What is kept of own cues has to equal the printed keys; no other source.

let folder = "";
let desktop: Desktop | null = null;
afterEach(async () => {
  await desktop?.close();
  desktop = null;
  rmSync(folder, { recursive: true, force: true });
});

const own = { ...firstPlan, cueing: "own", recording: "seat" } as const;

async function open() {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-own-"));
  const clock = manualClock();
  const running = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  desktop = running;
  const { handlers } = running;
  const context = { clientId: "teacher", signal: new AbortController().signal };
  const group = await handlers.groups.create({ name: "Invented class", target: "" }, context);
  const names = ["Fern", "Robin", "Hazel"];
  const students = await addStudents(handlers, group.id, names, context);
  const [fern = "", robin = "", hazel = ""] = students.map(({ id }) => id);
  const plan = await handlers.plans.create(
    { groupId: group.id, name: "Own moments", settings: own },
    context,
  );
  const groupId = group.id;
  const start = () =>
    handlers.sessions.start(
      { groupId, planId: plan.id, kind: "seatwork", seed: "own", byTouchIds: [fern, robin, hazel] },
      context,
    );
  const keyOf = (studentId: string) =>
    keyCues(own, { seed: "own", studentId, meanSeconds: null }).schedule?.cues ?? [];
  return { handlers, context, clock, groupId, planId: plan.id, fern, robin, hazel, start, keyOf };
}

describe("a session of own cues", () => {
  it("has a card as long as each student's key, and counts their boxes by it", async () => {
    const { handlers, context, clock, groupId, fern, robin, hazel, start, keyOf } = await open();
    const { id: sessionId, plan } = await start();
    expect(plan).toMatchObject({ cueing: "own", recording: "paper" });
    clock.advance(own.lengthSeconds * 1_000 + 1_000);
    const cards = await handlers.records.cards({ sessionId }, context);
    expect(cards.rows.map(({ cues }) => cues)).toEqual(
      [fern, robin, hazel].map((id) => keyOf(id).length),
    );
    const boxes = keyOf(robin).map((_, at) => (at === 1 ? ("off" as const) : ("on" as const)));
    const card = { studentId: robin, card: { kind: "boxes", boxes } } as const;
    await handlers.records.saveCards({ sessionId, cards: [card] }, context);
    const { counts, sessions } = await handlers.analysis.counts({ groupId }, context);
    const planned = [fern, robin, hazel].reduce((sum, id) => sum + keyOf(id).length, 0);
    expect(sessions).toMatchObject([{ cuesDelivered: planned }]);
    const ofRobin = counts.find(({ studentId }) => studentId === robin)?.self;
    expect(ofRobin).toEqual({ on: [keyOf(robin).length - 1], off: [1], missing: [0] });
    const [listed] = await handlers.sessions.list({ groupId, limit: 1 }, context);
    expect(listed).toMatchObject({ cuesPlanned: planned, cuesDelivered: planned });
  });

  it("keeps everybody else's numbers when a student is erased from it, and no byte of theirs", async () => {
    const { handlers, context, clock, groupId, fern, robin, hazel, start, keyOf } = await open();
    const { id: sessionId } = await start();
    clock.advance(own.lengthSeconds * 1_000 + 1_000);
    await handlers.students.erase({ id: robin }, context);
    const { counts } = await handlers.analysis.counts({ groupId }, context);
    expect(counts.map(({ studentId, self }) => [studentId, self.missing[0]])).toEqual([
      [fern, keyOf(fern).length],
      [hazel, keyOf(hazel).length],
    ]);
    const { record } = await handlers.transfer.studentRecord(
      { studentId: hazel, from: 0 },
      context,
    );
    expect(studentRecordSchema.safeParse(record).success).toBe(true);
    const told = record.sessions[0]?.events.map(({ body }) => body) ?? [];
    expect(record.sessions[0]?.session.id).toBe(sessionId);
    expect(told.flatMap((body) => (body.kind === "delivered" ? body.cue : []))).toEqual(
      keyOf(hazel).map((_, at) => at + 1),
    );
    // Nobody else's moments leave with a student's record.
    expect(JSON.stringify(record)).not.toContain(fern);
    await desktop?.close();
    desktop = null;
    const files = readdirSync(folder, { recursive: true, withFileTypes: true });
    for (const file of files.filter((each) => each.isFile())) {
      const bytes = readFileSync(join(file.parentPath, file.name));
      expect([file.name, bytes.includes(robin), bytes.includes("Robin")]).toEqual([
        file.name,
        false,
        false,
      ]);
    }
  });

  it("held by printed keys is entered whole, or from the key of one", async () => {
    const { handlers, context, groupId, planId, fern, robin, hazel, keyOf } = await open();
    const input: HeldInput = {
      groupId,
      planId,
      cues: { kind: "seed", seed: "own", studentId: null, missed: [], meanSeconds: null },
      startedAt: "2026-01-05T10:20:00+00:00",
      absentIds: [robin],
      note: "",
    };
    const whole = await handlers.records.enterHeld(input, context);
    const rows = async (sessionId: string) =>
      (await handlers.records.cards({ sessionId }, context)).rows.map(({ cues }) => cues);
    expect(await rows(whole.id)).toEqual([keyOf(fern).length, 0, keyOf(hazel).length]);
    const cues = { ...input.cues, studentId: fern, missed: [1] } as HeldInput["cues"];
    const startedAt = "2026-01-06T10:20:00+00:00";
    const one = await handlers.records.enterHeld(
      { ...input, cues, startedAt, absentIds: [] },
      context,
    );
    expect(await rows(one.id)).toEqual([keyOf(fern).length - 1, 0, 0]);
  });
});
