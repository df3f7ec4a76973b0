import { afterEach, describe, expect, it } from "vitest";
import { openDesktop } from "../../../../../electron/host/desktop.ts";
import { Missing, Refusal } from "../../../../../electron/services/base/refusal.ts";
import { ledgerProblems } from "../../../../../electron/services/points/invariant.ts";
import { type Earning, noRules } from "../../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import { addStudents } from "../../../../setup/add-students.ts";
import { manualClock } from "../../../../support/manual-clock.ts";
import { monday, temporaryFolder } from "../../store/temporary-folder.ts";
import { caller, openServices } from "../services.ts";

const open: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
});

const pressOf = (number: number) => `00000000-0000-4000-8000-${String(number).padStart(12, "0")}`;

const givesAndTakes: Earning = {
  kind: "own",
  rules: { ...noRules, mark: 1, on: 1 },
  takes: true,
};

/** A class of three whose plan pays, in a running session on paper; real store, real conductor. */
async function running(earning: Earning = givesAndTakes) {
  const clock = manualClock({ wallMs: monday, offsetMinutes: 0 });
  const folder = temporaryFolder();
  const desktop = await openDesktop({ folder, clock, host: "loopback", version: "1" });
  open.push(desktop);
  const { groups, plans, sessions, points } = desktop.handlers;
  const { id: groupId } = await groups.create({ name: "Room 4", target: "" }, caller);
  const added = await addStudents(desktop.handlers, groupId, ["Pine", "Otter", "Wren"], caller);
  const ids = added.map(({ id }) => id);
  const [plan] = await plans.list({ groupId }, caller);
  if (plan === undefined) throw new Error("no plan");
  const settings = { ...firstPlan, recording: "paper", cueing: "silent", earning } as const;
  await plans.update({ id: plan.id, name: plan.name, settings }, caller);
  const start = () =>
    sessions.start({ groupId, planId: plan.id, kind: "seatwork", seed: "otter" }, caller);
  const session = await start();
  const give = (studentId: string, amount: number, press: number) =>
    points.give(
      { sessionId: session.id, studentId, amount, why: "started", press: pressOf(press) },
      caller,
    );
  const take = (studentId: string, press: number) =>
    points.take(
      { sessionId: session.id, studentId, amount: 1, why: "other", press: pressOf(press) },
      caller,
    );
  const purse = async (studentId: string) => {
    const { purses } = await points.state({ groupId }, caller);
    return purses.find((each) => each.studentId === studentId)?.balance;
  };
  return {
    ...desktop.handlers,
    clock,
    groupId,
    ids,
    session,
    plan,
    settings,
    start,
    give,
    take,
    purse,
  };
}

async function refused(work: () => unknown): Promise<string> {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) return error.code;
    throw error;
  }
  return "not refused";
}

describe("give and take", () => {
  it("give at once; a press sent 500 times is one press", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    for (let again = 0; again < 500; again++) await here.give(pine, 3, 1);
    expect(await here.purse(pine)).toBe(3);
    await here.points.undoPress(
      { sessionId: here.session.id, studentId: pine, press: pressOf(1) },
      caller,
    );
    await here.points.undoPress(
      { sessionId: here.session.id, studentId: pine, press: pressOf(1) },
      caller,
    );
    expect(await here.purse(pine)).toBe(0);
  });

  it("take nothing after a stop, also in a session that went on over midnight", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    const { id: sessionId } = here.session;
    await here.sessions.pause({ sessionId }, caller);
    here.clock.advance(86_400_000);
    await here.sessions.resume({ sessionId }, caller);
    await here.give(pine, 5, 1);
    await here.points.stop({ sessionId, studentId: pine }, caller);
    const { day } = await here.points.state({ groupId: here.groupId }, caller);
    expect(day).not.toBe(here.session.day);
    expect(await refused(() => here.take(pine, 2))).toBe("points-stopped");
    const [standing] = await here.points.standings({ sessionId }, caller);
    expect(standing).toMatchObject({ studentId: pine, stopped: true });
  });

  it("take only where twice as much was given today, not twice at once, and never after a stop", async () => {
    const here = await running();
    const [pine = "", otter = ""] = here.ids;
    expect(await refused(() => here.take(pine, 1))).toBe("points-none-left");
    await here.give(pine, 1, 2);
    expect(await refused(() => here.take(pine, 3))).toBe("points-two-to-one-day");
    await here.give(pine, 5, 4);
    await here.take(pine, 5);
    // The same press again is the same press; another one comes too soon.
    await here.take(pine, 5);
    expect(await here.purse(pine)).toBe(5);
    expect(await refused(() => here.take(pine, 6))).toBe("points-too-soon");
    here.clock.advance(11_000);
    await here.points.stop({ sessionId: here.session.id, studentId: pine }, caller);
    expect(await refused(() => here.take(pine, 7))).toBe("points-stopped");
    await here.give(otter, 5, 8);
    await here.take(otter, 9);
    const standings = await here.points.standings({ sessionId: here.session.id }, caller);
    expect(standings).toMatchObject([
      { given: 6, taken: 1, lately: { given: 6, taken: 1 }, stopped: true, newestTake: pressOf(5) },
      { given: 5, taken: 1, stopped: false, newestTake: pressOf(9) },
      { given: 0, taken: 0, newestTake: null },
    ]);
  });

  it("never take where the plan does not allow it, which it does not at first", async () => {
    const here = await running({ kind: "own", rules: { ...noRules, mark: 1 } });
    const [pine = ""] = here.ids;
    await here.give(pine, 5, 1);
    expect(await refused(() => here.take(pine, 2))).toBe("points-taking-off");
  });

  it("undo a take within ten minutes, and not later", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    await here.give(pine, 5, 1);
    await here.take(pine, 2);
    const undo = () =>
      here.points.undoPress(
        { sessionId: here.session.id, studentId: pine, press: pressOf(2) },
        caller,
      );
    await undo();
    expect(await here.purse(pine)).toBe(5);
    here.clock.advance(11_000);
    await here.take(pine, 3);
    here.clock.advance(601_000);
    const late = () =>
      here.points.undoPress(
        { sessionId: here.session.id, studentId: pine, press: pressOf(3) },
        caller,
      );
    expect(await refused(late)).toBe("points-too-late");
  });
});

describe("paper and corrections", () => {
  it("pluses pay at once, boxes typed later only the difference, and what was spent is never owed", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    const sessionId = here.session.id;
    await here.sessions.end({ sessionId }, caller);
    await here.points.savePluses({ sessionId, pluses: [{ studentId: pine, on: 6 }] }, caller);
    await here.points.savePluses({ sessionId, pluses: [{ studentId: pine, on: 6 }] }, caller);
    expect(await here.purse(pine)).toBe(6);
    const privilege = await here.points.addPrivilege(
      {
        groupId: here.groupId,
        name: "Choose a seat",
        picture: null,
        price: 5,
        band: 1,
        places: 1,
        minutes: null,
        perDay: 1,
        notFor: [],
      },
      caller,
    );
    const buy = (studentId: string, press: number) =>
      here.points.buy(
        { studentId, privilegeId: privilege.id, price: privilege.price, press: pressOf(press) },
        caller,
      );
    await buy(pine, 1);
    await buy(pine, 1);
    expect(await here.purse(pine)).toBe(1);
    // Six pluses turn out to be two on and two off: worth 6 before, 4 marks + 2 on = 6 now, then less.
    const save = (on: number, off: number) =>
      here.records.saveCards(
        { sessionId, cards: [{ studentId: pine, card: { kind: "totals", on, off } }] },
        caller,
      );
    await save(2, 2);
    expect(await here.purse(pine)).toBe(1);
    await save(1, 0);
    expect(await here.purse(pine)).toBe(0);
    // Both records hold every line, and they add up to the purse.
    const { lines, next } = await here.points.ledger({ groupId: here.groupId, after: 0 }, caller);
    expect(next).toBeNull();
    expect(lines.reduce((sum, { amount }) => sum + amount, 0)).toBe(0);
    expect(lines.find(({ source }) => source === "exchange")?.privilege).toBe("Choose a seat");
    const { record } = await here.transfer.studentRecord({ studentId: pine, from: 0 }, caller);
    expect(record.ledger.map(({ number }) => number).sort()).toEqual(
      lines.map(({ number }) => number).sort(),
    );
    await save(2, 2);
    expect(await here.purse(pine)).toBe(1);
    expect(await refused(() => buy(pine, 2))).toBe("privilege-taken-today");
    await here.points.undoBuy({ studentId: pine, press: pressOf(1) }, caller);
    expect(await here.purse(pine)).toBe(6);
  });

  it("no place is left, it is not for this student, or too dear: each said so", async () => {
    const here = await running();
    const [pine = "", otter = "", wren = ""] = here.ids;
    for (const [index, id] of here.ids.entries()) await here.give(id, 4, index);
    const facts = { groupId: here.groupId, picture: null, band: 1, minutes: null } as const;
    const { id: seat } = await here.points.addPrivilege(
      { ...facts, name: "Seat", price: 2, places: 1, perDay: null, notFor: [wren] },
      caller,
    );
    const { id: dear } = await here.points.addPrivilege(
      { ...facts, name: "Dear", price: 9, places: null, perDay: null, notFor: [] },
      caller,
    );
    const buy = (studentId: string, privilegeId: string, press: number) =>
      here.points.buy(
        {
          studentId,
          privilegeId,
          price: privilegeId === seat ? 2 : 9,
          press: pressOf(100 + press),
        },
        caller,
      );
    await buy(pine, seat, 1);
    expect(await refused(() => buy(otter, seat, 2))).toBe("privilege-full");
    expect(await refused(() => buy(wren, seat, 3))).toBe("privilege-not-for");
    expect(await refused(() => buy(otter, dear, 4))).toBe("privilege-too-dear");
  });
});

describe("an exchange in a room where more than one window is open", () => {
  async function withSeat(given: number) {
    const here = await running();
    const [pine = ""] = here.ids;
    await here.give(pine, given, 1);
    const privilege = await here.points.addPrivilege(
      {
        groupId: here.groupId,
        name: "Seat",
        picture: null,
        price: 4,
        band: 1,
        places: null,
        minutes: null,
        perDay: null,
        notFor: [],
      },
      caller,
    );
    const buy = (press: number, price = 4) =>
      here.points.buy(
        { studentId: pine, privilegeId: privilege.id, price, press: pressOf(press) },
        caller,
      );
    return { ...here, pine, privilege, buy };
  }

  it("pressed in two at once is spent once where there is enough for one, and the other is told", async () => {
    const here = await withSeat(5);
    const said = await Promise.all([refused(() => here.buy(101)), refused(() => here.buy(102))]);
    expect(said.sort()).toEqual(["not refused", "privilege-too-dear"]);
    expect(await here.purse(here.pine)).toBe(1);
    // The same press sent again, as after a reload in the middle of it, is the same exchange.
    await here.buy(101);
    expect(await here.purse(here.pine)).toBe(1);
    const { receipts } = await here.points.state({ groupId: here.groupId }, caller);
    expect(receipts).toHaveLength(1);
  });

  it("takes no other price than the one that was shown", async () => {
    const here = await withSeat(5);
    await here.points.savePrivilege({ ...here.privilege, price: 5 }, caller);
    expect(await refused(() => here.buy(101))).toBe("privilege-price-moved");
    expect(await here.purse(here.pine)).toBe(5);
    await here.buy(102, 5);
    expect(await here.purse(here.pine)).toBe(0);
  });

  it("is not made for a student who was put away meanwhile, whose points wait", async () => {
    const here = await withSeat(5);
    await here.sessions.end({ sessionId: here.session.id }, caller);
    await here.students.archive({ id: here.pine }, caller);
    await expect(async () => here.buy(101)).rejects.toThrow(Missing);
    expect(await here.purse(here.pine)).toBeUndefined();
    await here.students.restore({ id: here.pine }, caller);
    expect(await here.purse(here.pine)).toBe(5);
    await here.buy(102);
    expect(await here.purse(here.pine)).toBe(1);
  });
});

describe("clocks that change", () => {
  it("neither lengthen nor shorten the minutes that pay, and a day begins by the clock on the wall", async () => {
    const here = await running({ kind: "own", rules: { ...noRules, minute: 1, mark: 1 } });
    const [pine = ""] = here.ids;
    const { id: sessionId, day } = here.session;
    here.clock.advance(300_000);
    // Summer time: an hour forward on the wall, none in the room.
    here.clock.setOffset(60);
    here.clock.advance(300_000);
    await here.sessions.end({ sessionId }, caller);
    expect(await here.purse(pine)).toBe(10);
    const state = await here.points.state({ groupId: here.groupId }, caller);
    expect(state.day).toBe(day);
    // Late in the evening of a day that is an hour longer it is still the same day.
    here.clock.setOffset(0);
    here.clock.advance(13.5 * 3_600_000);
    expect((await here.points.state({ groupId: here.groupId }, caller)).day).toBe(day);
    here.clock.setOffset(60);
    expect((await here.points.state({ groupId: here.groupId }, caller)).day).not.toBe(day);
  });
});

describe("periods", () => {
  it("are kept in order, each with its exchange", async () => {
    const here = await running();
    const period = (name: string, exchange: boolean) => ({
      name,
      starts: null,
      ends: "10:30",
      exchange,
    });
    const periods = [period("Morning", true), period("Noon", false)];
    await here.points.savePeriods({ groupId: here.groupId, periods }, caller);
    const state = await here.points.state({ groupId: here.groupId }, caller);
    expect(state.periods).toMatchObject(periods);
  });
});

describe("an import that is undone", () => {
  it("leaves the points of a student whom it brought, and its sessions paid nothing", async () => {
    const here = await running();
    const rows = ["Fern", "Robin"].map((name) => ({ name, target: "", picture: null }));
    const { importId } = await here.transfer.importStudents(
      { groupId: here.groupId, rows },
      caller,
    );
    const students = await here.students.list({ groupId: here.groupId, archived: false }, caller);
    const fern = students.find(({ name }) => name === "Fern")?.id ?? "";
    await here.give(fern, 4, 1);
    await here.sessions.end({ sessionId: here.session.id }, caller);
    const record = {
      source: "self",
      on: 9,
      off: 1,
      missing: 0,
      phase: "",
      subject: "",
      work: null,
    };
    const row = { student: "Fern", startedAt: "2026-02-16T09:15:00Z", ...record } as const;
    const { importId: past } = await here.transfer.importSessions(
      { groupId: here.groupId, rows: [{ ...row, source: "self" }] },
      caller,
    );
    expect(await here.purse(fern)).toBe(4);
    await here.transfer.undoImport({ importId: past }, caller);
    expect(await here.transfer.undoImport({ importId }, caller)).toMatchObject({
      studentsRemoved: 1,
    });
    expect(await here.purse(fern)).toBe(4);
  });
});

describe("own goals", () => {
  const rules = { ...noRules, goal: 5, goalShare: 0.9 };

  it("are fixed in the log at the start, and pay by it", async () => {
    const here = await running({ kind: "own", rules });
    const [pine = "", otter = ""] = here.ids;
    await here.sessions.end({ sessionId: here.session.id }, caller);
    await here.points.saveOwnGoal({ studentId: pine, share: 0.5 }, caller);
    const state = await here.points.state({ groupId: here.groupId }, caller);
    expect(state.ownGoals).toEqual([{ studentId: pine, share: 0.5 }]);
    const next = await here.start();
    // What is changed later changes nothing of a session that was held.
    await here.points.saveOwnGoal({ studentId: pine, share: null }, caller);
    await here.sessions.end({ sessionId: next.id }, caller);
    const card = { kind: "totals", on: 3, off: 2 } as const;
    const cards = [pine, otter].map((studentId) => ({ studentId, card }));
    await here.records.saveCards({ sessionId: next.id, cards }, caller);
    expect(await here.purse(pine)).toBe(5);
    expect(await here.purse(otter)).toBe(0);
  });
});

describe("a session that is left out", () => {
  it("keeps what it paid, and as a trial pays nothing; what was spent is never owed", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    const sessionId = here.session.id;
    await here.sessions.end({ sessionId }, caller);
    const cards = [{ studentId: pine, card: { kind: "totals", on: 4, off: 0 } } as const];
    await here.records.saveCards({ sessionId, cards }, caller);
    expect(await here.purse(pine)).toBe(8);
    await here.sessions.leaveOut({ sessionId, reason: "A fire drill", isTrial: false }, caller);
    expect(await here.purse(pine)).toBe(8);
    await here.sessions.leaveOut({ sessionId, reason: "A trial", isTrial: true }, caller);
    expect(await here.purse(pine)).toBe(0);
    await here.sessions.takeIn({ sessionId }, caller);
    expect(await here.purse(pine)).toBe(8);
  });
});

describe("before the class", () => {
  it("stands one purse at a time, and timers without a name", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    const facts = {
      groupId: here.groupId,
      picture: null,
      band: 1,
      perDay: null,
    } as const;
    const draw = await here.points.addPrivilege(
      { ...facts, name: "Time to draw", price: 2, places: null, minutes: 10, notFor: [] },
      caller,
    );
    await here.give(pine, 5, 1);
    const own = await here.points.ownPurse({ studentId: pine }, caller);
    expect(own).toMatchObject({ balance: 5, earnedToday: 5, savingFor: null });
    await here.points.saveFor({ studentId: pine, privilegeId: draw.id }, caller);
    expect((await here.points.ownPurse({ studentId: pine }, caller)).savingFor).toBe(draw.id);
    const { record } = await here.transfer.studentRecord({ studentId: pine, from: 0 }, caller);
    expect(record).toMatchObject({ savingFor: "Time to draw", ownGoal: null });
    await here.points.startTimer({ privilegeId: draw.id }, caller);
    here.clock.advance(240_000);
    const board = await here.points.board(undefined, caller);
    expect(board?.students.map(({ name }) => name)).toEqual(["Pine", "Otter", "Wren"]);
    expect(board?.timers).toMatchObject([{ name: "Time to draw", minutes: 10, leftMs: 360_000 }]);
    expect(JSON.stringify(board?.timers)).not.toContain("Pine");
    // A minute after the end it is gone.
    here.clock.advance(430_000);
    expect((await here.points.board(undefined, caller))?.timers).toEqual([]);
    await here.app.saveSettings({ points: false }, caller);
    expect(await here.points.board(undefined, caller)).toBeNull();
    expect(await refused(() => here.points.ownPurse({ studentId: pine }, caller))).toBe(
      "points-off",
    );
  });
});

describe("the end of points", () => {
  it("stops the plans, leaves a week to spend what is left, and forfeits nothing", async () => {
    const here = await running();
    const [pine = ""] = here.ids;
    await here.give(pine, 5, 1);
    await here.sessions.end({ sessionId: here.session.id }, caller);
    const until = "2026-03-09";
    await here.points.endEarning({ groupId: here.groupId, until }, caller);
    const state = () => here.points.state({ groupId: here.groupId }, caller);
    expect(await state()).toMatchObject({ on: true, earns: false, spendUntil: until });
    const [plan] = await here.plans.list({ groupId: here.groupId }, caller);
    expect(plan?.settings.earning).toEqual({ kind: "none" });
    expect((await here.start()).plan.earning).toEqual({ kind: "none" });
    here.clock.advance(8 * 86_400_000);
    expect(await state()).toMatchObject({ on: false, earns: false, spendUntil: null });
    expect(await here.purse(pine)).toBe(5);
  });
});

describe("where nothing is earned", () => {
  it("a plan that pays nothing, or points switched off, gives and keeps nothing", async () => {
    const here = await running();
    await here.sessions.end({ sessionId: here.session.id }, caller);
    await here.app.saveSettings({ points: false }, caller);
    expect((await here.points.state({ groupId: here.groupId }, caller)).on).toBe(false);
    const next = await here.start();
    expect(next.plan.earning).toEqual({ kind: "none" });
    const give = () =>
      here.points.give(
        {
          sessionId: next.id,
          studentId: here.ids[0] ?? "",
          amount: 1,
          why: "other",
          press: pressOf(1),
        },
        caller,
      );
    expect(await refused(give)).toBe("points-off");
    expect((await here.program.get({ groupId: here.groupId }, caller)).pointsPaid).toBe(false);
  });

  it("the usual rule takes the worth of a match from the checks, at the start", async () => {
    const here = await running();
    await here.sessions.end({ sessionId: here.session.id }, caller);
    const rules = noRules;
    const settings = { ...here.settings, earning: { kind: "usual", rules } } as const;
    await here.plans.update({ id: here.plan.id, name: "Plan", settings }, caller);
    const next = await here.start();
    // No cue was delivered yet: two of three students at every cue.
    expect(next.plan.earning).toEqual({
      kind: "usual",
      rules: { ...noRules, mark: 1, on: 1, match: 2 },
    });
    expect((await here.program.get({ groupId: here.groupId }, caller)).pointsPaid).toBe(true);
  });
});

describe("the sample class", () => {
  it("has weeks of points that are what its log says, some spent and nobody in debt", async () => {
    const services = openServices();
    const started = performance.now();
    const { groupId } = await services.app.addSample({}, caller);
    expect(performance.now() - started).toBeLessThan(15_000);
    const { store } = services;
    const earning = store.sessions.list(groupId, 100).filter(({ kind }) => kind === "seatwork");
    expect(earning.length).toBeGreaterThanOrEqual(15);
    for (const { id } of earning) expect(ledgerProblems(store, id)).toEqual([]);
    const entries = store.ledger.ofGroup(groupId);
    expect(entries.some(({ source }) => source === "exchange")).toBe(true);
    for (const { balance } of store.ledger.purses(groupId, "2026-03-02")) {
      expect(balance).toBeGreaterThanOrEqual(0);
    }
    await services.app.removeSample({}, caller);
    expect(store.ledger.unsettled()).toEqual([]);
  });
});
