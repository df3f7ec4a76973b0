import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { type Desktop, openDesktop } from "../../../../electron/host/desktop.ts";
import type { CallContext } from "../../../../electron/services/base/handlers.ts";
import type { CueCall } from "../../../../shared/api/sessions.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { SessionEvent } from "../../../../shared/session/event.ts";
import { addStudents } from "../../../setup/add-students.ts";
import { type ManualClock, manualClock } from "../../../support/manual-clock.ts";
import { settle } from "../services/live/rig.ts";

const opened: { desktop: Desktop; folder: string; leaving: AbortController }[] = [];
afterEach(async () => {
  for (const { desktop, folder, leaving } of opened.splice(0)) {
    leaving.abort();
    await desktop.close();
    rmSync(folder, { recursive: true, force: true });
  }
});

async function desk(clock: ManualClock = manualClock(), at?: string) {
  const folder = at ?? mkdtempSync(join(tmpdir(), "pebblechime-desk-"));
  const desktop = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  const leaving = new AbortController();
  opened.push({ desktop, folder, leaving });
  const context: CallContext = { clientId: "page", signal: leaving.signal };
  return { desktop, handlers: desktop.handlers, clock, context, folder };
}
type Desk = Awaited<ReturnType<typeof desk>>;

async function classOf({ handlers, context }: Desk, names: string[]) {
  const group = await handlers.groups.create({ name: "Invented", target: "" }, context);
  const students = names.length === 0 ? [] : await addStudents(handlers, group.id, names, context);
  const [plan] = await handlers.plans.list({ groupId: group.id }, context);
  if (plan === undefined) throw new Error("A group comes with a plan");
  return { groupId: group.id, students, plan };
}

/** Sounds and reports every cue of a session as a page would. */
function soundAll({ handlers, clock, context }: Desk, sessionId: string): void {
  const take = (call: CueCall) => {
    if (call.kind !== "announced") return;
    clock.after(call.dueMonotonicMs - clock.monotonicMs(), () => {
      const beganMonotonicMs = clock.monotonicMs();
      const began = {
        sessionId,
        cue: call.cue,
        beganMonotonicMs,
        by: "sound",
        problem: null,
      } as const;
      void handlers.sessions.cueDelivered(began, context);
    });
  };
  void (async () => {
    for await (const call of handlers.sessions.cueCalls(
      { sessionId, window: "test", can: "sound" },
      context,
    ))
      take(call);
  })();
}

async function passSeconds({ clock }: Desk, seconds: number) {
  for (let second = 0; second < seconds; second++) {
    clock.advance(1_000);
    await settle();
  }
}

const refused = (code: string) => expect.objectContaining({ code });
const attempt = async (work: () => unknown) => {
  try {
    return await work();
  } catch (error) {
    return error;
  }
};

describe("a session by paper", () => {
  it("runs, ends, takes the cards, and is counted", async () => {
    const here = await desk();
    const { handlers, context } = here;
    const { groupId, students, plan } = await classOf(here, ["A", "B", "C"]);
    const [a, b, c] = students;
    if (a === undefined || b === undefined || c === undefined) throw new Error("three students");
    const start = { groupId, planId: plan.id, kind: "seatwork", seed: "paper" } as const;
    const session = await handlers.sessions.start(start, context);
    expect(session).toMatchObject({ seed: "paper", plan: firstPlan, day: "2026-01-12" });
    soundAll(here, session.id);
    await settle();
    await passSeconds(here, 1_201);

    const [listed] = await handlers.sessions.list({ groupId, limit: 10 }, context);
    expect(listed).toMatchObject({ status: "ended", studentsRecorded: 0, studentsPresent: 3 });
    const cues = listed?.cuesDelivered ?? 0;
    expect(cues).toBe(listed?.cuesPlanned);
    expect(cues).toBeGreaterThan(2);

    const sessionId = session.id;
    const cards = [
      { studentId: a.id, card: { kind: "boxes", boxes: ["on", "off", "on"] } },
      { studentId: b.id, card: { kind: "totals", on: 1, off: 1 } },
    ] as const;
    const save = { sessionId, cards: cards.map((entry) => structuredClone(entry)) };
    // The schema's arrays may be written to; these are copies.
    const input = save as Parameters<typeof handlers.records.saveCards>[0];
    expect(await handlers.records.saveCards(input, context)).toEqual({ written: 4, refused: [] });
    expect(await handlers.records.saveCards(input, context)).toEqual({ written: 0, refused: [] });
    const record = await handlers.records.cards({ sessionId }, context);
    expect(record.rows.map(({ card }) => card)).toEqual([
      cards[0].card,
      cards[1].card,
      { kind: "boxes", boxes: [] },
    ]);
    expect(record.boxesOnCard).toBeGreaterThanOrEqual(cues);

    const { counts } = await handlers.analysis.counts({ groupId }, context);
    expect(counts.map(({ self }) => [self.on[0], self.off[0], self.missing[0]])).toEqual([
      [2, 1, cues - 3],
      [1, 1, cues - 2],
      [0, 0, cues],
    ]);

    const work = { studentId: a.id, assigned: 10, completed: 8, correct: 9 };
    expect(
      await attempt(() => handlers.records.saveWork({ sessionId, work: [work] }, context)),
    ).toEqual(refused("total-too-many"));
    const right = { sessionId, work: [{ ...work, correct: 7 }] };
    expect(await handlers.records.saveWork(right, context)).toEqual({ written: 1 });
    expect(await handlers.records.saveWork(right, context)).toEqual({ written: 0 });

    const sheet = {
      sessionId,
      observer: 2,
      marks: [{ studentId: a.id, cue: 1, value: "on" }],
    } as const;
    const typed = { ...sheet, marks: [...sheet.marks] };
    expect(await handlers.records.saveObserved(typed, context)).toEqual({ written: 1 });
    expect(await handlers.records.saveObserved(typed, context)).toEqual({ written: 0 });

    const tooLong = Array.from({ length: record.boxesOnCard + 1 }, () => "on" as const);
    const bad = { studentId: c.id, card: { kind: "boxes" as const, boxes: tooLong } };
    const better = { studentId: b.id, card: { kind: "totals" as const, on: 2, off: 0 } };
    const size = { have: record.boxesOnCard + 1, most: record.boxesOnCard };
    // One card that cannot be holds no other back.
    expect(await handlers.records.saveCards({ sessionId, cards: [bad, better] }, context)).toEqual({
      written: 1,
      refused: [{ studentId: c.id, code: "box-too-many", ...size }],
    });
    const replaced = await handlers.records.corrections({ sessionId, studentId: b.id }, context);
    expect(replaced.map(({ was, is }) => [was, is])).toEqual([
      [
        { kind: "totals", on: 1, off: 1, way: "paper" },
        { kind: "totals", on: 2, off: 0, way: "paper" },
      ],
    ]);

    // Away on the day: no card is waited for, none is written, and no mark counts as missing.
    await handlers.sessions.setAside({ sessionId, studentId: c.id, aside: true }, context);
    const [after] = await handlers.sessions.list({ groupId, limit: 10 }, context);
    expect(after).toMatchObject({ studentsRecorded: 2, studentsPresent: 2 });
    const one = { studentId: c.id, card: { kind: "boxes" as const, boxes: ["on" as const] } };
    expect(await handlers.records.saveCards({ sessionId, cards: [one] }, context)).toMatchObject({
      written: 0,
      refused: [{ studentId: c.id, code: "student-set-aside" }],
    });
    const counted = await handlers.analysis.counts({ groupId }, context);
    expect(counted.counts[2]?.self).toMatchObject({ on: [null], off: [null], missing: [null] });

    const { code, openCode } = record;
    expect(await handlers.records.sessionsOfCode({ code }, context)).toMatchObject({
      sessions: [{ id: sessionId }],
      plans: [],
    });
    expect(await handlers.records.sessionsOfCode({ code: openCode }, context)).toMatchObject({
      sessions: [],
      plans: [{ groupId }],
    });
  });
});

describe("starting", () => {
  it("says no to an empty group, an impossible plan and a second session", async () => {
    const here = await desk();
    const { handlers, context } = here;
    const empty = await classOf(here, []);
    const started = (groupId: string, planId: string) =>
      attempt(() => handlers.sessions.start({ groupId, planId, kind: "seatwork" }, context));
    expect(await started(empty.groupId, empty.plan.id)).toEqual(refused("group-empty"));
    const [student] = await addStudents(handlers, empty.groupId, ["A"], context);
    expect(student?.name).toBe("A");
    const session = await handlers.sessions.start(
      { groupId: empty.groupId, planId: empty.plan.id, kind: "baseline" },
      context,
    );
    expect(session.plan.cueing).toBe("teacher");
    expect(await started(empty.groupId, empty.plan.id)).toEqual(refused("session-running"));
    expect(
      await attempt(() =>
        handlers.records.saveCards(
          {
            sessionId: session.id,
            cards: [{ studentId: student?.id ?? "", card: { kind: "totals", on: 0, off: 0 } }],
          },
          context,
        ),
      ),
    ).toEqual(refused("session-running"));
    await handlers.sessions.end({ sessionId: session.id }, context);
    expect(await handlers.sessions.open(undefined, context)).toBeNull();
    expect(await started(empty.groupId, "0190a000-0000-7000-8000-000000000000")).toMatchObject({
      what: "plan",
    });
  });

  it("observes whom the teacher chose, as often as she chose, and nobody else from the first moment", async () => {
    const here = await desk();
    const { handlers, context } = here;
    const { groupId, plan, students } = await classOf(here, ["A", "B", "C"]);
    const [a, , c] = students;
    const stranger = (await classOf(here, ["D"])).students[0]?.id ?? "";
    const start = (studentIds: string[]) =>
      handlers.sessions.start(
        {
          groupId,
          planId: plan.id,
          kind: "probe",
          observing: { studentIds, lookEverySeconds: 15 },
        },
        context,
      );
    expect(await attempt(() => start([stranger]))).toEqual(refused("student-not-in-group"));
    expect(await handlers.sessions.open(undefined, context)).toBeNull();

    const session = await start([c?.id ?? "", a?.id ?? ""]);
    expect(session.plan).toMatchObject({ meanSeconds: 15, cueing: "teacher" });
    expect(session.plan.lengthSeconds).toBe(plan.settings.lengthSeconds);
    expect((await handlers.sessions.open(undefined, context))?.studentsPresent).toBe(2);
  });
});

describe("closing the app in mid-session", () => {
  it("offers the session at the next start, streams go on from a place in the log", async () => {
    const clock = manualClock();
    const folder = mkdtempSync(join(tmpdir(), "pebblechime-desk-"));
    const first = await desk(clock, folder);
    const { groupId, students, plan } = await classOf(first, ["A"]);
    const [student] = students;
    if (student === undefined) throw new Error("one student");
    const start = { groupId, planId: plan.id, kind: "seatwork", seed: "closing" } as const;
    const { id: sessionId } = await first.handlers.sessions.start(start, first.context);
    soundAll(first, sessionId);
    await settle();
    const seen: SessionEvent[] = [];
    const watching = (async () => {
      const stream = first.handlers.sessions.watch({ sessionId, after: 0 }, first.context);
      for await (const event of stream) seen.push(event);
    })();
    while (!seen.some(({ body }) => body.kind === "delivered")) await passSeconds(first, 1);
    const live: boolean[] = [];
    first.desktop.onLive((now) => live.push(now));
    await first.desktop.close();
    await watching;
    expect(live).toEqual([true, false]);
    const after = seen.at(-1)?.stamp.seq ?? 0;

    const second = await desk(clock, folder);
    const { handlers, context } = second;
    expect(await handlers.sessions.open(undefined, context)).toMatchObject({
      id: sessionId,
      status: "interrupted",
      cuesDelivered: 1,
    });
    const cue = 1;
    const mark = { sessionId, studentId: student.id, cue, value: "on" } as const;
    const answer = await handlers.sessions.mark(mark, context);
    expect(await handlers.sessions.mark(mark, context)).toEqual(answer);
    await handlers.sessions.resume({ sessionId }, context);
    expect(await handlers.sessions.open(undefined, context)).toMatchObject({ status: "running" });
    await handlers.sessions.end({ sessionId }, context);
    const rest: SessionEvent[] = [];
    const stream = handlers.sessions.watch({ sessionId, after }, context);
    const reading = (async () => {
      for await (const event of stream) rest.push(event);
    })();
    await passSeconds(second, 62);
    await reading;
    expect(rest.map(({ body }) => body.kind)).toEqual(["paused", "mark", "resumed", "ended"]);
    expect(rest[0]?.stamp.seq).toBe(after + 1);
  });

  it("takes the live session away with the sample class it belonged to", async () => {
    const here = await desk();
    const { handlers, context } = here;
    const { groupId } = await handlers.app.addSample(undefined, context);
    const [plan] = await handlers.plans.list({ groupId }, context);
    const start = { groupId, planId: plan?.id ?? "", kind: "seatwork" } as const;
    const { id: sessionId } = await handlers.sessions.start(start, context);
    await attempt(() => handlers.app.removeSample(undefined, context));
    await attempt(() => handlers.sessions.end({ sessionId }, context));
    await attempt(() => handlers.app.removeSample(undefined, context));
    expect(await handlers.sessions.list({ groupId, limit: 5 }, context)).toEqual([]);
    expect(await handlers.sessions.clock(undefined, context)).toMatchObject({ sessionMs: null });
    here.clock.advance(5_000);
  });
});
