import { describe, expect, it } from "vitest";
import { contractHandlers } from "../../../../../electron/services/home/contracts.ts";
import type { ContractTerms } from "../../../../../shared/home/contract-terms.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { caller, makeGroup, openServices } from "../services.ts";
import { desktopClass, refused } from "./rig.ts";

const dayMs = 86_400_000;
const terms: ContractTerms = {
  wording: "young",
  goal: { kind: "work", completed: 0.8, correct: null },
  points: 3,
  earns: "",
  cost: 2,
  checkedBy: "Ms Reed",
};
const first = { fromDay: "2026-03-02", reviewOn: "2026-03-16" };

async function signed(change: Partial<ContractTerms> = {}) {
  const here = await desktopClass();
  const contract = await here.contracts.add(
    { studentId: here.pine, terms: { ...terms, ...change }, ...first },
    caller,
  );
  await here.contracts.sign({ id: contract.id }, caller);
  /** A session with the student's card and, if any, work done; returns its id. */
  const hold = async (on: number, off: number, work?: [assigned: number, completed: number]) => {
    const { id: sessionId } = await here.start();
    here.clock.advance(900_000);
    await here.sessions.end({ sessionId }, caller);
    const card = { kind: "totals", on, off } as const;
    await here.records.saveCards({ sessionId, cards: [{ studentId: here.pine, card }] }, caller);
    if (work !== undefined) await done(sessionId, work);
    return sessionId;
  };
  const done = (sessionId: string, [assigned, completed]: [number, number]) =>
    here.records.saveWork(
      { sessionId, work: [{ studentId: here.pine, assigned, completed, correct: null }] },
      caller,
    );
  const days = async () => {
    const [newest] = await here.contracts.ofStudent({ studentId: here.pine }, caller);
    return newest?.days ?? [];
  };
  const balance = async () => {
    const { purses } = await here.points.state({ groupId: here.groupId }, caller);
    return purses.find(({ studentId }) => studentId === here.pine)?.balance;
  };
  const close = (day: string) => here.contracts.closeDay({ id: contract.id, day }, caller);
  return { ...here, contract, hold, done, days, balance, close };
}

describe("a contract", () => {
  it("counts only once it is signed, and the one before ends then", async () => {
    const here = await signed();
    await here.hold(4, 1, [10, 9]);
    expect(await here.days()).toMatchObject([{ day: "2026-03-02", outcome: "met", closed: false }]);
    here.clock.advance(1_000);
    const next = await here.contracts.add(
      { studentId: here.pine, terms, fromDay: "2026-03-03", reviewOn: "2026-03-20" },
      caller,
    );
    const list = () => here.contracts.ofStudent({ studentId: here.pine }, caller);
    expect((await list()).map(({ contract }) => contract.endedOn)).toEqual([null, null]);
    await here.contracts.sign({ id: next.id }, caller);
    expect((await list()).map(({ contract }) => contract.endedOn)).toEqual([null, "2026-03-02"]);
    expect((await list())[1]?.days).toHaveLength(1);
    await here.contracts.end({ id: next.id }, caller);
    expect(await here.contracts.ofGroup({ groupId: here.groupId }, caller)).toEqual([]);
  });

  it("is looked at within three weeks", async () => {
    const here = await desktopClass();
    const add = (reviewOn: string) =>
      here.contracts.add(
        {
          studentId: here.pine,
          terms,
          fromDay: "2026-03-02",
          reviewOn,
        },
        caller,
      );
    expect(await refused(() => add("2026-03-24"))).toBe("contract-review-late");
    expect(await refused(() => add("2026-03-02"))).toBe("contract-review-late");
    await add("2026-03-23");
  });

  it("is not measured by self-records that match what an adult saw too rarely", async () => {
    const services = openServices();
    const { group, students } = await makeGroup(services, ["Pine"]);
    const studentId = students[0]?.id ?? "";
    const { store, clock } = services;
    const { id: sessionId } = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "First plan",
      plan: firstPlan,
      seed: "match",
      startedMs: clock.wallMs(),
      offsetMinutes: 0,
      day: "2026-03-02",
    });
    // Ten marks of on task, of which an adult saw three so.
    const cues = Array.from({ length: 10 }, (_, at) => at + 1);
    store.log.appendAll(
      sessionId,
      [
        { kind: "begun" },
        ...cues.flatMap((cue): SessionEventBody[] => [
          { kind: "announced", cue },
          { kind: "delivered", cue, by: "sound", latenessMs: 0, problem: null },
          { kind: "mark", studentId, cue, value: "on", way: "screen", late: false },
          { kind: "spot-check", studentId, cue, value: cue <= 3 ? "on" : "off" },
        ]),
        { kind: "ended", reason: "teacher" },
      ],
      { atMs: 0, wallMs: clock.wallMs(), offsetMinutes: 0 },
    );
    const handlers = contractHandlers(store, services.changes, clock);
    const add = (goal: ContractTerms["goal"]) =>
      handlers.add({ studentId, terms: { ...terms, goal, cost: 0 }, ...first }, caller);
    const rate = { kind: "rate", rate: 0.8 } as const;
    expect(await refused(() => add({ ...rate, measure: "self" }))).toBe("contract-match-low");
    await add({ ...rate, measure: "adult" });
    await add(terms.goal);
  });

  it("pays a day that met it when the day is closed, and moves with later corrections", async () => {
    const here = await signed();
    const sessionId = await here.hold(4, 1, [10, 9]);
    // Four on and one off pay 4 + 5 by the plan's own rule.
    expect(await here.balance()).toBe(9);
    await here.close("2026-03-02");
    await here.close("2026-03-02");
    expect(await here.balance()).toBe(12);
    await here.done(sessionId, [10, 5]);
    expect(await here.days()).toMatchObject([{ outcome: "not-yet", gained: 0, cost: 0 }]);
    expect(await here.balance()).toBe(9);
    await here.done(sessionId, [10, 10]);
    expect(await here.days()).toMatchObject([{ outcome: "met", gained: 3, cost: 0 }]);
    expect(await here.balance()).toBe(12);
  });

  it("costs what was agreed for a day without it, once, and no correction gives or takes more", async () => {
    const here = await signed();
    const sessionId = await here.hold(4, 1, [10, 5]);
    await here.close("2026-03-02");
    expect(await here.days()).toMatchObject([{ outcome: "not-yet", closed: true, cost: 2 }]);
    expect(await here.balance()).toBe(7);
    await here.done(sessionId, [10, 9]);
    // What it earned follows the record; what it cost was decided.
    expect(await here.days()).toMatchObject([{ outcome: "met", gained: 3, cost: 2 }]);
    expect(await here.balance()).toBe(10);
    await here.done(sessionId, [10, 1]);
    expect(await here.balance()).toBe(7);
  });

  it("costs nothing for a day without data, after a stop, or where taking was not agreed", async () => {
    const noData = await signed();
    await noData.hold(4, 1);
    await noData.close("2026-03-02");
    expect(await noData.days()).toMatchObject([{ outcome: "no-data", gained: 0, cost: 0 }]);
    const refusedTaking = await signed();
    await refusedTaking.say(refusedTaking.pine, "taken", "no");
    await refusedTaking.hold(4, 1, [10, 5]);
    await refusedTaking.close("2026-03-02");
    expect(await refusedTaking.days()).toMatchObject([{ outcome: "not-yet", cost: 0 }]);
    const stopped = await signed();
    const { id: sessionId } = await stopped.start();
    await stopped.points.stop({ sessionId, studentId: stopped.pine }, caller);
    await stopped.sessions.end({ sessionId }, caller);
    await stopped.hold(4, 1, [10, 5]);
    await stopped.close("2026-03-02");
    expect(await stopped.days()).toMatchObject([{ outcome: "not-yet", cost: 0 }]);
  });

  it("costs nothing where no plan lets points be taken back", async () => {
    const here = await signed();
    const [plan] = await here.plans.list({ groupId: here.groupId }, caller);
    if (plan === undefined || plan.settings.earning.kind !== "own") throw new Error("no plan");
    const { kind, rules } = plan.settings.earning;
    await here.plans.update(
      { ...plan, settings: { ...plan.settings, earning: { kind, rules } } },
      caller,
    );
    await here.hold(4, 1, [10, 5]);
    await here.close("2026-03-02");
    expect(await here.days()).toMatchObject([{ outcome: "not-yet", cost: 0 }]);
  });

  it("never takes more than half of what the day gave", async () => {
    const here = await signed({ cost: 5 });
    await here.hold(1, 0, [10, 5]);
    await here.close("2026-03-02");
    // The day gave two; half of it is one.
    expect(await here.days()).toMatchObject([{ cost: 1 }]);
    expect(await here.balance()).toBe(1);
  });

  it("closes days that are over by itself at the next start, the same however often", async () => {
    const here = await signed();
    await here.hold(4, 1, [10, 9]);
    here.clock.advance(dayMs);
    const next = await here.again();
    const newest = async () =>
      (await next.handlers.contracts.ofStudent({ studentId: here.pine }, caller))[0]?.days;
    expect(await newest()).toMatchObject([{ closed: true, gained: 3, cost: 0 }]);
    const purses = async () =>
      (await next.handlers.points.state({ groupId: here.groupId }, caller)).purses;
    expect((await purses()).find(({ studentId }) => studentId === here.pine)?.balance).toBe(12);
  });

  it("costs nothing for a day before both had said yes, though it earns for it", async () => {
    const here = await signed();
    await here.contracts.end({ id: here.contract.id }, caller);
    const late = await here.contracts.add({ studentId: here.otter, terms, ...first }, caller);
    const { id: sessionId } = await here.start();
    here.clock.advance(900_000);
    await here.sessions.end({ sessionId }, caller);
    const card = { kind: "totals", on: 4, off: 1 } as const;
    await here.records.saveCards({ sessionId, cards: [{ studentId: here.otter, card }] }, caller);
    const work = [{ studentId: here.otter, assigned: 10, completed: 5, correct: null }];
    await here.records.saveWork({ sessionId, work }, caller);
    here.clock.advance(dayMs);
    await here.contracts.sign({ id: late.id }, caller);
    await here.contracts.closeDay({ id: late.id, day: "2026-03-02" }, caller);
    const [newest] = await here.contracts.ofStudent({ studentId: here.otter }, caller);
    expect(newest?.days).toMatchObject([{ outcome: "not-yet", closed: true, cost: 0 }]);
  });

  it("keeps what a closed day paid when points are ended or switched off, and when a no comes later", async () => {
    const here = await signed();
    const sessionId = await here.hold(4, 1, [10, 9]);
    await here.close("2026-03-02");
    expect(await here.balance()).toBe(12);
    await here.points.endEarning({ groupId: here.groupId, until: "2026-03-09" }, caller);
    await here.app.saveSettings({ points: false }, caller);
    await here.say(here.pine, "points", "no");
    // Any word on the records has all contracts looked at again, as does each start.
    await here.done(sessionId, [10, 10]);
    expect(await here.days()).toMatchObject([{ outcome: "met", gained: 3 }]);
    expect(await here.balance()).toBe(12);
    // What the record does not bear out is taken back all the same.
    await here.done(sessionId, [10, 5]);
    expect(await here.balance()).toBe(9);
  });

  it("pays a day once, also when the next contract is signed for that same day", async () => {
    const here = await signed();
    await here.hold(4, 1, [10, 9]);
    await here.close("2026-03-02");
    const next = await here.contracts.add({ studentId: here.pine, terms, ...first }, caller);
    await here.contracts.sign({ id: next.id }, caller);
    expect(
      await refused(() => here.contracts.closeDay({ id: next.id, day: "2026-03-02" }, caller)),
    ).toBe("contract-day-early");
    expect(await here.balance()).toBe(12);
    here.clock.advance(dayMs);
    const { handlers } = await here.again();
    const { purses } = await handlers.points.state({ groupId: here.groupId }, caller);
    expect(purses.find(({ studentId }) => studentId === here.pine)?.balance).toBe(12);
  });

  it("closes and pays a day of the group that the student has left since", async () => {
    const here = await signed();
    await here.hold(4, 1, [10, 9]);
    const { id: groupId } = await here.groups.create({ name: "Room 5", target: "" }, caller);
    await here.students.move({ id: here.pine, groupId }, caller);
    const [plan] = await here.plans.list({ groupId: here.groupId }, caller);
    const [first] = await here.plans.list({ groupId }, caller);
    if (plan === undefined || first === undefined) throw new Error("no plan");
    await here.plans.update({ ...first, settings: plan.settings }, caller);
    here.clock.advance(dayMs);
    const { handlers } = await here.again();
    const [newest] = await handlers.contracts.ofStudent({ studentId: here.pine }, caller);
    expect(newest?.days).toMatchObject([{ day: "2026-03-02", closed: true, gained: 3 }]);
  });

  it.each([
    { isTrial: false, gained: 3, total: 12 },
    { isTrial: true, gained: 0, total: 0 },
  ])(
    "says of a closed day that it was left out; a trial pays nothing, else it keeps what it paid: $isTrial",
    async (left) => {
      const here = await signed();
      const sessionId = await here.hold(4, 1, [10, 9]);
      await here.close("2026-03-02");
      expect(await here.balance()).toBe(12);
      await here.sessions.leaveOut(
        { sessionId, reason: "fire drill", isTrial: left.isTrial },
        caller,
      );
      expect(await here.days()).toEqual([
        {
          day: "2026-03-02",
          outcome: "no-data",
          closed: true,
          leftOut: true,
          gained: left.gained,
          cost: 0,
        },
      ]);
      expect(await here.balance()).toBe(left.total);
      await here.sessions.takeIn({ sessionId }, caller);
      expect(await here.days()).toMatchObject([{ outcome: "met", leftOut: false, gained: 3 }]);
      expect(await here.balance()).toBe(12);
    },
  );

  it("keeps what a day cost when its session is left out: a cost is decided once", async () => {
    const here = await signed();
    const sessionId = await here.hold(4, 1, [10, 5]);
    await here.close("2026-03-02");
    await here.sessions.leaveOut({ sessionId, reason: "fire drill", isTrial: false }, caller);
    expect(await here.days()).toMatchObject([{ outcome: "no-data", leftOut: true, cost: 2 }]);
    expect(await here.balance()).toBe(7);
  });

  it("counts a day by what is left of it when one of two sessions is left out", async () => {
    const here = await signed();
    await here.hold(4, 1, [10, 9]);
    const second = await here.hold(4, 1, [10, 2]);
    await here.close("2026-03-02");
    expect(await here.days()).toMatchObject([{ outcome: "not-yet", leftOut: false }]);
    await here.sessions.leaveOut({ sessionId: second, reason: "mixed up", isTrial: true }, caller);
    expect(await here.days()).toMatchObject([{ outcome: "met", leftOut: true, gained: 3 }]);
  });

  it("counts a session over midnight for the day on which it began, as it does in the hour that comes twice", async () => {
    const here = await signed();
    // To ten to midnight, by a clock that was on summer time until the session had begun.
    here.clock.setOffset(60);
    const midnight = Date.UTC(2026, 2, 2, 23);
    here.clock.advance(midnight - 600_000 - here.clock.wallMs());
    const { id: sessionId } = await here.start();
    here.clock.setOffset(0);
    here.clock.advance(1_200_000 + 3_600_000);
    await here.sessions.end({ sessionId }, caller);
    await here.done(sessionId, [10, 9]);
    expect(await here.days()).toMatchObject([
      { day: "2026-03-02", outcome: "met", closed: true, gained: 3 },
    ]);
    // The next day stands for itself.
    await here.hold(4, 1, [10, 2]);
    expect(await here.days()).toMatchObject([
      { day: "2026-03-02", outcome: "met" },
      { day: "2026-03-03", outcome: "not-yet", closed: false },
    ]);
  });

  it("of an archived student closes nothing and waits; back in class it goes on where it was", async () => {
    const here = await signed();
    await here.hold(4, 1, [10, 9]);
    await here.students.archive({ id: here.pine }, caller);
    expect(await here.contracts.ofGroup({ groupId: here.groupId }, caller)).toEqual([]);
    here.clock.advance(dayMs);
    const { handlers } = await here.again();
    const days = async () =>
      (await handlers.contracts.ofStudent({ studentId: here.pine }, caller))[0]?.days;
    expect(await days()).toMatchObject([{ day: "2026-03-02", closed: false, gained: 0 }]);
    await handlers.students.restore({ id: here.pine }, caller);
    await handlers.contracts.closeDay({ id: here.contract.id, day: "2026-03-02" }, caller);
    expect(await days()).toMatchObject([{ day: "2026-03-02", closed: true, gained: 3 }]);
  });

  it("has no day to close without a session, nor before it is signed", async () => {
    const here = await signed();
    expect(await refused(() => here.close("2026-03-02"))).toBe("contract-day-early");
    expect(await refused(() => here.close("2026-02-27"))).toBe("contract-unsigned");
  });
});
