import { describe, expect, it } from "vitest";
import { classLines } from "../../../../../electron/host/class-line.ts";
import { caller } from "../services.ts";
import { desktopClass, refused } from "./rig.ts";

const press = (number: number) => `00000000-0000-4000-8000-${String(number).padStart(12, "0")}`;

describe("what was agreed", () => {
  it("keeps every answer, and the newest of a line stands", async () => {
    const here = await desktopClass();
    await here.say(here.pine, "cued", "yes", "Mother");
    await here.say(here.pine, "cued", "no", "Pine");
    await here.say(here.pine, "observed", "yes", "Mother");
    const page = await here.agreed.of({ studentId: here.pine }, caller);
    expect(page.said.map(({ line, answer, who }) => [line, answer, who])).toEqual([
      ["cued", "yes", "Mother"],
      ["cued", "no", "Pine"],
      ["observed", "yes", "Mother"],
    ]);
    await here.agreed.savePaper({ studentId: here.pine, language: "es" }, caller);
    await here.agreed.savePaper({ studentId: here.pine, reviewOn: "2026-06-01" }, caller);
    const pages = await here.agreed.ofGroup({ groupId: here.groupId }, caller);
    expect(pages.map(({ language, reviewOn }) => [language, reviewOn])).toEqual([
      ["es", "2026-06-01"],
      [null, null],
      [null, null],
    ]);
  });

  it("never keeps a session from starting, whatever is missing", async () => {
    const here = await desktopClass();
    expect((await here.start()).kind).toBe("seatwork");
  });
});

describe("a child who does not take part", () => {
  it("is in no list of a session, also on the class's own line, and earns and loses nothing", async () => {
    const here = await desktopClass();
    await here.say(here.otter, "cued", "no");
    const session = await here.start();
    const { students } = await here.sessions.get({ sessionId: session.id }, caller);
    expect(students.map(({ name }) => name)).toEqual(["Pine", "Wren"]);
    const line = classLines(here.desktop.handlers)(() => null);
    const shown = await line.sessions.get({ sessionId: session.id }, caller);
    expect(JSON.stringify(shown)).not.toMatch(/Otter/);
    expect(JSON.stringify(shown)).not.toContain(here.otter);
    const board = await line.points.board(undefined, caller);
    expect(JSON.stringify(board ?? {})).not.toMatch(/Otter/);
    const purse = () => here.points.ownPurse({ studentId: here.otter }, caller);
    expect(await refused(purse)).toBe("points-off");
    here.clock.advance(60_000);
    const mark = { sessionId: session.id, studentId: here.otter, cue: 1, value: "on" } as const;
    expect(await refused(() => here.sessions.mark(mark, caller))).toMatch(/student-set-aside|cue/);
    await here.sessions.end({ sessionId: session.id }, caller);
    const cards = await here.records.cards({ sessionId: session.id }, caller);
    expect(cards.rows.map(({ student }) => student.name)).toEqual(["Pine", "Wren"]);
    const [listed] = await here.sessions.list({ groupId: here.groupId, limit: 1 }, caller);
    expect(listed?.studentsPresent).toBe(2);
    const { purses } = await here.points.state({ groupId: here.groupId }, caller);
    expect(purses.find(({ studentId }) => studentId === here.otter)?.balance).toBe(0);
  });

  it("can say so while a session is running, and is asked nothing more", async () => {
    const here = await desktopClass();
    const session = await here.start();
    await here.say(here.otter, "cued", "no", "Otter");
    const { students } = await here.sessions.get({ sessionId: session.id }, caller);
    expect(students.map(({ name }) => name)).toEqual(["Pine", "Wren"]);
    await here.sessions.end({ sessionId: session.id }, caller);
    await here.say(here.otter, "cued", "yes", "Otter");
    const next = await here.start();
    const back = await here.sessions.get({ sessionId: next.id }, caller);
    expect(back.students.map(({ name }) => name)).toEqual(["Pine", "Otter", "Wren"]);
  });

  it("is dealt into no team of the day, and gets no slip for a seat", async () => {
    const here = await desktopClass();
    await here.say(here.otter, "cued", "no");
    const { groupId } = here;
    const settings = { size: 2, rounds: 1, weekday: 1, goal: 0.8, points: 2, isShown: true };
    await here.teams.saveSettings({ groupId, settings }, caller);
    const deal = (...teams: string[][]) =>
      here.teams.deal({ groupId, deals: 0, rounds: [teams] }, caller);
    expect(await refused(() => deal([here.pine, here.otter], [here.wren]))).toBe("teams-unfit");
    await deal([here.pine, here.wren]);
    const { outIds, absentIds, teams } = await here.teams.state({ groupId }, caller);
    expect([outIds, absentIds]).toEqual([[here.otter], []]);
    expect(teams.map(({ studentIds }) => studentIds)).toEqual([[here.pine, here.wren]]);
    await here.seats.makeSlips({ groupId: here.groupId, seatIds: null }, caller);
    const { seats } = await here.seats.state({ groupId: here.groupId }, caller);
    expect(seats.map(({ studentId }) => studentId)).not.toContain(here.otter);
    expect(seats).toHaveLength(2);
  });

  it("teaches and learns in pairs like everybody, and the class's own line knows of no pair", async () => {
    const here = await desktopClass();
    await here.say(here.otter, "cued", "no");
    const { parts } = await here.pairs.begin(
      { groupId: here.groupId, absentIds: [], points: 2 },
      caller,
    );
    expect(parts.map(({ studentId }) => studentId).toSorted()).toEqual(
      [here.pine, here.otter, here.wren].toSorted(),
    );
    const line = classLines(here.desktop.handlers)(() => null);
    expect(await refused(() => line.pairs.state({ groupId: here.groupId }, caller))).toBe(
      "class-screen",
    );
  });

  it("leaves nobody to start with where all say no", async () => {
    const here = await desktopClass();
    for (const id of [here.pine, here.otter, here.wren]) await here.say(id, "cued", "no");
    expect(await refused(here.start)).toBe("group-empty");
  });

  it("may still be observed where that was agreed, and the other way round", async () => {
    const here = await desktopClass();
    await here.say(here.otter, "cued", "no");
    await here.say(here.wren, "observed", "no");
    const [plan] = await here.plans.list({ groupId: here.groupId }, caller);
    const session = await here.sessions.start(
      {
        groupId: here.groupId,
        planId: plan?.id ?? "",
        kind: "baseline",
        observing: { studentIds: [here.pine, here.otter, here.wren], lookEverySeconds: 60 },
      },
      caller,
    );
    const { students } = await here.sessions.get({ sessionId: session.id }, caller);
    expect(students.map(({ name }) => name)).toEqual(["Pine", "Otter"]);
  });
});

describe("points that were not agreed", () => {
  it("are not given by press nor by the record, and none are taken", async () => {
    const here = await desktopClass();
    await here.say(here.pine, "points", "no");
    await here.say(here.wren, "taken", "no");
    const session = await here.start();
    const give = (studentId: string, number: number) =>
      here.points.give(
        { sessionId: session.id, studentId, amount: 4, why: "started", press: press(number) },
        caller,
      );
    expect(await refused(() => give(here.pine, 1))).toBe("points-not-agreed");
    // Nor does the strip offer to give any.
    const standings = await here.points.standings({ sessionId: session.id }, caller);
    expect(standings.map(({ studentId }) => studentId)).toEqual([here.otter, here.wren]);
    await give(here.wren, 2);
    const take = { sessionId: session.id, studentId: here.wren, amount: 1, why: "other" } as const;
    expect(await refused(() => here.points.take({ ...take, press: press(3) }, caller))).toBe(
      "taking-not-agreed",
    );
    await here.sessions.end({ sessionId: session.id }, caller);
    await here.points.savePluses(
      {
        sessionId: session.id,
        pluses: [here.pine, here.otter].map((studentId) => ({ studentId, on: 3 })),
      },
      caller,
    );
    const balances = async () => {
      const { purses } = await here.points.state({ groupId: here.groupId }, caller);
      return purses.map(({ balance }) => balance);
    };
    expect(await balances()).toEqual([0, 3, 4]);
    // What was agreed at its start holds for the session, and the ledger comes out the same again.
    here.clock.advance(1_000);
    await here.say(here.pine, "points", "yes");
    const next = await here.again();
    const { purses } = await next.handlers.points.state({ groupId: here.groupId }, caller);
    expect(purses.map(({ balance }) => balance)).toEqual([0, 3, 4]);
  });
});
