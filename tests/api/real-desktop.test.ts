import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type Desktop, openDesktop } from "../../electron/host/desktop.ts";
import type { Handlers } from "../../electron/services/base/handlers.ts";
import type { SessionEvent } from "../../shared/session/event.ts";
import { isRefusal } from "../../src/api/client.ts";
import { type ManualClock, manualClock } from "../support/manual-clock.ts";
import { type Carried, inMemory, overPort, overSocket, until } from "./support/carriers.ts";

// The services and the store as they ship, over every carrier; only time stands still until it is told to go.

const carriers: readonly (readonly [string, (handlers: Handlers) => Promise<Carried>])[] = [
  ["in memory", inMemory],
  ["over a port", overPort],
  ["over a socket", overSocket],
];

describe.each(carriers)("a school day %s", (_name, carry) => {
  let folder: string;
  let clock: ManualClock;
  let desktop: Desktop;
  let carried: Carried;

  const open = async (sample = false) => {
    desktop = await openDesktop({ folder, clock, host: "loopback", version: "0.0.1", sample });
    carried = await carry(desktop.handlers);
    return carried.link;
  };
  const close = async () => {
    await carried.close();
    await desktop.close();
  };
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "pebblechime-day-"));
    clock = manualClock();
  });
  afterEach(async () => {
    await close();
    rmSync(folder, { recursive: true, force: true });
  });

  async function newGroup(link: Carried["link"], names: readonly string[]) {
    const group = await link.api.groups.create({ name: "Maple", target: "Eyes on my own work" });
    if (names.length > 0) {
      const rows = names.map((name) => ({ name, picture: null, target: "" }));
      await link.api.transfer.importStudents({ groupId: group.id, rows });
    }
    const [plan] = await link.api.plans.list({ groupId: group.id });
    const students = await link.api.students.list({ groupId: group.id, archived: false });
    if (plan === undefined) throw new Error("a group has a plan");
    return { group, plan, students };
  }

  it("runs from a new group to counted marks, and is all there after a restart", async () => {
    let link = await open();
    const { group, plan, students } = await newGroup(link, ["Bo", "Ann", "Cy"]);
    expect(students.map(({ name }) => name)).toEqual(["Bo", "Ann", "Cy"]);
    const session = await link.api.sessions.start({
      groupId: group.id,
      planId: plan.id,
      kind: "seatwork",
      seed: "a seed",
    });
    const { id: sessionId } = session;
    const events: SessionEvent[] = [];
    const stop = link.follow({
      open: (api, signal) =>
        api.sessions.watch({ sessionId, after: events.at(-1)?.stamp.seq ?? 0 }, { signal }),
      onItem: (event) => events.push(event),
    });
    const calls: number[] = [];
    const listening = new AbortController();
    const sounding = (async () => {
      const { signal } = listening;
      for await (const call of await link.api.sessions.cueCalls(
        { sessionId, window: "test", can: "sound" },
        { signal },
      )) {
        if (call.kind === "announced") calls.push(call.cue);
      }
    })().catch(() => undefined);
    await until(() => events.length > 0, "the beginning was told");

    // Each cue is sounded when it is due, and the first student says yes.
    const [first] = students;
    for (let second = 0; second < 300; second += 1) {
      clock.advance(1_000);
      await new Promise((resolve) => setTimeout(resolve, 1));
      for (const cue of calls.splice(0)) {
        await link.api.sessions.cueDelivered({
          sessionId,
          cue,
          beganMonotonicMs: clock.monotonicMs(),
          by: "sound",
          problem: null,
        });
      }
    }
    const delivered = () => events.filter(({ body }) => body.kind === "delivered");
    await until(() => delivered().length > 0, "a cue was delivered");
    const body = delivered().at(-1)?.body;
    if (first === undefined || body?.kind !== "delivered") throw new Error("no cue to mark");
    const mark = await link.api.sessions.mark({
      sessionId,
      studentId: first.id,
      cue: body.cue,
      value: "on",
    });
    expect(mark.seq).toBeGreaterThan(1);
    await until(() => events.some(({ body }) => body.kind === "mark"), "the mark was told");
    await link.api.sessions.interruption({ sessionId, note: "Fire drill" });
    await link.api.sessions.end({ sessionId });
    await until(() => events.some(({ body }) => body.kind === "ended"), "the end was told");
    const seqs = events.map(({ stamp }) => stamp.seq);
    expect(seqs).toEqual(seqs.map((_, index) => index + 1));
    stop();
    listening.abort();
    await sounding;

    await close();
    link = await open();
    const counts = await link.api.analysis.counts({ groupId: group.id });
    expect(counts.sessions.map(({ id }) => id)).toEqual([sessionId]);
    const own = counts.counts.find(({ studentId }) => studentId === first.id);
    expect(own?.self.on).toEqual([1]);

    // Notes on a session that is long over are added to what stands, and nothing is replaced.
    await link.api.sessions.note({ sessionId, text: "A substitute today" });
    await link.api.sessions.note({ sessionId, text: "The substitute left at ten" });
    const noted = await link.api.analysis.counts({ groupId: group.id });
    expect(noted.sessions[0]?.note).toBe(
      "Fire drill\nA substitute today\nThe substitute left at ten",
    );
    expect(carried.log).toEqual([]);
  });

  it("says no in ways a teacher can act on", async () => {
    const link = await open();
    const { group, plan } = await newGroup(link, []);
    const { id: groupId } = group;
    const starting = link.api.sessions.start({ groupId, planId: plan.id, kind: "seatwork" });
    expect(isRefusal(await starting.catch((e) => e), "group-empty")).toBe(true);
    const impossible = { ...plan.settings, meanSeconds: 10, shortestGapSeconds: 10 };
    const changing = link.api.plans.update({ id: plan.id, name: plan.name, settings: impossible });
    expect(isRefusal(await changing.catch((e) => e), "plan-impossible")).toBe(true);
    const nobody = "01890a5d-ac96-774b-bcce-b302099a8057";
    const gone = await link.api.students.erase({ id: nobody }).catch((e) => e);
    expect(gone.failure.kind).toBe("missing");
    expect(carried.log).toEqual([]);
  });

  it("shows the sample class", async () => {
    const link = await open(true);
    const [sample] = await link.api.groups.list({ archived: false });
    expect(sample?.isSample).toBe(true);
    const counts = await link.api.analysis.counts({ groupId: sample?.id ?? "" });
    expect(counts.sessions.length).toBeGreaterThan(0);
    expect(counts.counts.length).toBe(sample?.studentCount);
  });
});
