import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { type Desktop, openDesktop } from "../../../../../electron/host/desktop.ts";
import type { HeldInput } from "../../../../../shared/api/records.ts";
import { noRules } from "../../../../../shared/plan/earning.ts";
import { sessionCode } from "../../../../../shared/record/session-code.ts";
import { heldSession } from "../../../../../shared/session/held-session.ts";
import { replay } from "../../../../../shared/session/reduce.ts";
import type { SessionState } from "../../../../../shared/session/state.ts";
import { keyCues } from "../../../../../src/print/key-cues.ts";
import { addStudents } from "../../../../setup/add-students.ts";
import { manualClock } from "../../../../support/manual-clock.ts";
import { pass, plan, rig, sessionWith, settle, soundingWindow } from "./rig.ts";

// What is entered afterwards has to equal what the app itself would have written; no other source.

/** Of each cue: what became of it, and when, in ms of session time. */
const cuesOf = ({ cues }: SessionState) =>
  [...cues].map(([cue, record]) =>
    record.standing === "delivered"
      ? [cue, record.standing, record.atMs, record.by]
      : [cue, record.standing],
  );

describe("the printed key of a seed, entered afterwards", () => {
  it("equals the live session of that seed", async () => {
    const { begin, clock, running, memory } = rig({ session: sessionWith(plan, "substitute") });
    begin();
    soundingWindow(running, clock);
    await settle();
    await pass(clock, plan.lengthSeconds * 1_000 + 500);
    const live = replay(memory.events);

    const printed = keyCues(plan, { seed: "substitute", studentId: null, meanSeconds: null });
    const cues = { kind: "seed", seed: "substitute", studentId: null, missed: [] } as const;
    const events = heldSession(plan, cues, [], "");
    const entered = replay(
      events.map(({ atMs, body }, index) => ({
        stamp: { seq: index + 1, atMs, wallMs: atMs, offsetMinutes: 0 },
        body,
      })),
    );
    expect(cuesOf(entered)).toEqual(cuesOf(live));
    expect(cuesOf(entered).map(([, , atMs]) => Number(atMs) / 1_000)).toEqual(
      printed.schedule?.cues,
    );
    expect(entered.status).toBe(live.status);
    expect(entered.endReason).toBe(live.endReason);
    expect(entered.atMs).toBe(live.atMs);
  });
});

const opened: { desktop: Desktop; folder: string }[] = [];
afterEach(async () => {
  for (const { desktop, folder } of opened.splice(0)) {
    await desktop.close();
    rmSync(folder, { recursive: true, force: true });
  }
});

/** A Friday afternoon, in ms since 1970 UTC. */
const friday = Date.UTC(2026, 2, 6, 15);

async function desk() {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-held-"));
  const clock = manualClock({ wallMs: friday, offsetMinutes: 0 });
  const desktop = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  opened.push({ desktop, folder });
  const { handlers } = desktop;
  const context = { clientId: "page", signal: new AbortController().signal };
  const group = await handlers.groups.create({ name: "Invented", target: "" }, context);
  const students = await addStudents(handlers, group.id, ["Fern", "Robin"], context);
  const [first] = await handlers.plans.list({ groupId: group.id }, context);
  const [fern, robin] = students;
  if (first === undefined || fern === undefined || robin === undefined) throw new Error("No class");
  const input: HeldInput = {
    groupId: group.id,
    planId: first.id,
    cues: { kind: "seed", seed: "substitute", studentId: null, missed: [2], meanSeconds: null },
    startedAt: "2026-03-05T10:20:00+00:00",
    absentIds: [robin.id],
    note: "Held without the app, led by a substitute",
  };
  return { handlers, context, group, plan: first, fern, robin, input };
}

const refused = async (work: () => unknown) => {
  try {
    await work();
  } catch (error) {
    return error instanceof Error && "code" in error ? error.code : error;
  }
  return "allowed";
};

describe("a session that was held without the app", () => {
  it("goes to the ordinary cards, with who was absent and the cues that came", async () => {
    const { handlers, context, group, fern, robin, input } = await desk();
    const session = await handlers.records.enterHeld(input, context);
    expect(session).toMatchObject({ day: "2026-03-05", kind: "seatwork", seed: "substitute" });
    expect(session.plan.recording).toBe("paper");
    const sessionId = session.id;
    const cards = await handlers.records.cards({ sessionId }, context);
    const planned = keyCues(session.plan, {
      seed: "substitute",
      studentId: null,
      meanSeconds: null,
    }).schedule?.cues.length;
    expect(cards.cuesDelivered).toBe((planned ?? 0) - 1);
    expect(cards.rows.map(({ student, setAside }) => [student.id, setAside])).toEqual([
      [fern.id, false],
      [robin.id, true],
    ]);
    await handlers.records.saveCards(
      { sessionId, cards: [{ studentId: fern.id, card: { kind: "boxes", boxes: ["on", "off"] } }] },
      context,
    );
    const counts = await handlers.analysis.counts({ groupId: group.id }, context);
    expect(counts.sessions).toMatchObject([{ id: sessionId, note: input.note }]);
    expect(counts.counts.map(({ self }) => [self.on[0], self.off[0]])).toEqual([
      [1, 1],
      [null, null],
    ]);
  });

  it("from a student's own key is a session of that one student", async () => {
    const { handlers, context, fern, robin, input } = await desk();
    const cues: HeldInput["cues"] = {
      kind: "seed",
      seed: "substitute",
      studentId: fern.id,
      missed: [],
      meanSeconds: null,
    };
    const session = await handlers.records.enterHeld({ ...input, cues }, context);
    const { rows, cuesDelivered } = await handlers.records.cards(
      { sessionId: session.id },
      context,
    );
    const own = keyCues(session.plan, {
      seed: "substitute",
      studentId: fern.id,
      meanSeconds: null,
    });
    expect(cuesDelivered).toBe(own.schedule?.cues.length);
    expect(rows.find(({ student }) => student.id === robin.id)?.setAside).toBe(true);
    expect(rows.find(({ student }) => student.id === fern.id)?.setAside).toBe(false);
  });

  it("from a key for a step of thinning has that step's cues and mean", async () => {
    const { handlers, context, plan: own, input } = await desk();
    const meanSeconds = own.settings.meanSeconds * 1.5;
    const cues: HeldInput["cues"] = {
      kind: "seed",
      seed: "substitute",
      studentId: null,
      missed: [],
      meanSeconds,
    };
    const session = await handlers.records.enterHeld({ ...input, cues }, context);
    const thinned = keyCues(own.settings, { seed: "substitute", studentId: null, meanSeconds });
    expect(session.plan.meanSeconds).toBe(meanSeconds);
    const { cuesDelivered } = await handlers.records.cards({ sessionId: session.id }, context);
    expect(cuesDelivered).toBe(thinned.schedule?.cues.length);
  });

  it("may be known by a count alone", async () => {
    const { handlers, context, input } = await desk();
    const cues = { kind: "counted", count: 7 } as const;
    const { id } = await handlers.records.enterHeld({ ...input, cues }, context);
    expect((await handlers.records.cards({ sessionId: id }, context)).cuesDelivered).toBe(7);
  });

  it("earns by its plan's rules, as a session held with the app does", async () => {
    const { handlers, context, group, plan: own, fern, input } = await desk();
    const earning = { kind: "own", rules: { ...noRules, mark: 1, on: 1 } } as const;
    const settings = { ...own.settings, earning };
    await handlers.plans.update({ id: own.id, name: own.name, settings }, context);
    const { id: sessionId } = await handlers.records.enterHeld(input, context);
    const card = { kind: "boxes", boxes: ["on", "off", "on"] } as const;
    await handlers.records.saveCards(
      { sessionId, cards: [{ studentId: fern.id, card: { ...card, boxes: [...card.boxes] } }] },
      context,
    );
    // Three marks at one point each, and two of them on task at one point more.
    const { purses } = await handlers.points.state({ groupId: group.id }, context);
    expect(purses.find(({ studentId }) => studentId === fern.id)?.balance).toBe(5);
  });

  it("is entered once, and not before it could have been held", async () => {
    const { handlers, context, input } = await desk();
    await handlers.records.enterHeld(input, context);
    expect(await refused(() => handlers.records.enterHeld(input, context))).toBe("held-already");
    for (const startedAt of ["2026-03-06T15:01:00+00:00", "yesterday", "1999-03-06T15:01:00Z"]) {
      expect(
        await refused(() => handlers.records.enterHeld({ ...input, startedAt }, context)),
      ).toBe("held-bad-time");
    }
  });

  it("is offered by the code on its cards until it is here", async () => {
    const { handlers, context, group, plan: own, input } = await desk();
    const stack = { groupId: group.id, planName: own.name, place: 1 };
    const code = sessionCode({ ...stack, day: "2026-03-05" });
    const before = await handlers.records.sessionsOfCode({ code: code.toLowerCase() }, context);
    expect(before).toMatchObject({
      sessions: [],
      plans: [],
      notHeld: [{ planId: own.id, day: "2026-03-05", groupName: "Invented" }],
    });
    const open = sessionCode({ ...stack, day: null });
    expect((await handlers.records.sessionsOfCode({ code: open }, context)).notHeld).toMatchObject([
      { planId: own.id, day: null },
    ]);
    const { id } = await handlers.records.enterHeld(input, context);
    const after = await handlers.records.sessionsOfCode({ code }, context);
    expect(after.sessions.map((session) => session.id)).toEqual([id]);
    expect(after.notHeld).toEqual([]);
  });
});
