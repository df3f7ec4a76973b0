import { afterEach, expect, test, vi } from "vitest";
import { openDesktop } from "../../electron/host/desktop.ts";
import { Refusal } from "../../electron/services/base/refusal.ts";
import * as openDatabase from "../../electron/store/file/open-database.ts";
import { mostFamilyWords } from "../../shared/home/family-words.ts";
import type { HomeCard } from "../../shared/home/kept-card.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { addStudents } from "../setup/add-students.ts";
import { manualClock } from "../support/manual-clock.ts";
import { caller } from "../unit/electron/services/services.ts";
import { monday, temporaryFolder } from "../unit/electron/store/temporary-folder.ts";

vi.mock(import("../../electron/store/file/open-database.ts"), { spy: true });
const open: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
});

const day = "2026-03-02";
// Enough invented students that no table has room for a text of each.
const names = Array.from({ length: 30 }, (_, at) => `Leaf ${at + 1}`);

/** A class whose data file may be told to grow no further, as on a full disk. */
async function onDisk() {
  const clock = manualClock({ wallMs: monday, offsetMinutes: 0 });
  const desktop = await openDesktop({
    folder: temporaryFolder(),
    clock,
    host: "loopback",
    version: "1",
  });
  open.push(desktop);
  const bare = vi.mocked(openDatabase.openDatabase).mock.results.at(-1)?.value;
  const { groups } = desktop.handlers;
  const { id: groupId } = await groups.create({ name: "Room 4", target: "" }, caller);
  const ids = (await addStudents(desktop.handlers, groupId, names, caller)).map(({ id }) => id);
  return {
    ...desktop.handlers,
    clock,
    groupId,
    ids,
    fill: () => bare.pragma(`max_page_count = ${bare.pragma("page_count", { simple: true })}`),
    makeRoom: () => bare.pragma("max_page_count = 1000000"),
  };
}
type Here = Awaited<ReturnType<typeof onDisk>>;

/** Writes on and on until the disk is full; gives how many writes were acknowledged, and the refusal. */
async function untilFull(write: (at: number) => unknown): Promise<[number, Refusal]> {
  for (let at = 0; at < 500; at += 1) {
    try {
      await write(at);
    } catch (error) {
      if (error instanceof Refusal) return [at, error];
      throw error;
    }
  }
  throw new Error("The disk never was full.");
}

const pressOf = (number: number) => `00000000-0000-4000-8000-${String(number).padStart(12, "0")}`;
const long = "a quiet word ".repeat(23).trim();

/** What fills the disk, and what stands of it afterwards. */
const writers: Record<
  string,
  (here: Here) => Promise<{
    write: (at: number) => unknown;
    stands: (written: number) => Promise<void>;
  }>
> = {
  "home cards": async ({ homeCards, ids, groupId }) => {
    const [studentId = ""] = ids;
    const card: HomeCard = {
      goals: ["Begin"],
      periods: ["Reading"],
      scale: { kind: "scale", goodEnd: "five", weights: [0, 5, 10, 15, 20] },
      homework: true,
      selfRecord: false,
    };
    const { id: cardId } = await homeCards.saveVersion({ studentId, fromDay: day, card }, caller);
    const typed = (at: number) => ({
      cardId,
      day,
      ratings: [4 as const],
      homework: long,
      wentWell: `${at} ${long}`.slice(0, 300),
      tomorrow: long,
    });
    return {
      write: (at) => homeCards.saveDays({ days: [{ studentId, typed: typed(at) }] }, caller),
      async stands(written) {
        const [kept] = await homeCards.ofDay({ groupId, day }, caller);
        expect(kept?.typed ?? null).toEqual(written === 0 ? null : typed(written - 1));
      },
    };
  },
  "words to families": async ({ family, ids, groupId }) => {
    const words = long.repeat(4).slice(0, mostFamilyWords).trim();
    return {
      write: (at) => family.saveWords({ studentId: ids[at] ?? "", words }, caller),
      async stands(written) {
        const kept = await family.words({ groupId }, caller);
        expect(kept.map(({ studentId }) => studentId)).toEqual(ids.slice(0, written));
      },
    };
  },
  contracts: async ({ contracts, ids, groupId }) => {
    const [studentId = ""] = ids;
    const goal = { kind: "work", completed: 0.8, correct: null } as const;
    const terms = {
      wording: "young" as const,
      goal,
      points: 3,
      earns: "I choose the game",
      cost: 0,
      checkedBy: "Ms Reed",
    };
    return {
      write: () =>
        contracts.add({ studentId, terms, fromDay: day, reviewOn: "2026-03-16" }, caller),
      async stands(written) {
        expect(await contracts.ofGroup({ groupId }, caller)).toHaveLength(written);
      },
    };
  },
  answers: async ({ agreed, ids }) => {
    const [studentId = ""] = ids;
    const said = { line: "cued", answer: "yes", day, who: long.slice(0, 60).trim() } as const;
    return {
      write: () => agreed.say({ studentId, said }, caller),
      async stands(written) {
        expect((await agreed.of({ studentId }, caller)).said).toHaveLength(written);
      },
    };
  },
  exchanges: async ({ plans, sessions, points, ids, groupId }) => {
    const [plan] = await plans.list({ groupId }, caller);
    if (plan === undefined) throw new Error("no plan");
    const earning = { kind: "own", rules: { ...noRules, mark: 1 } } as const;
    const settings = { ...firstPlan, recording: "paper", cueing: "silent", earning } as const;
    await plans.update({ id: plan.id, name: plan.name, settings }, caller);
    const asked = { groupId, planId: plan.id, kind: "seatwork", seed: "otter" } as const;
    const { id: sessionId } = await sessions.start(asked, caller);
    const [studentId = ""] = ids;
    for (let press = 0; press < 40; press += 1) {
      const give = { sessionId, studentId, amount: 5, press: pressOf(press) };
      await points.give({ ...give, why: "started" }, caller);
    }
    const seat = { groupId, name: "Choose a seat", picture: null, price: 1, band: 1 as const };
    const always = { places: null, minutes: null, perDay: null, notFor: [] };
    const privilege = await points.addPrivilege({ ...seat, ...always }, caller);
    const priceAt = (at: number) => 1 + (at % 2);
    return {
      async write(at) {
        // The price moves each time, as from another window, and is paid as it then is.
        const { id: privilegeId, price } = await points.savePrivilege(
          { ...privilege, price: priceAt(at) },
          caller,
        );
        await points.buy({ studentId, privilegeId, price, press: pressOf(1_000 + at) }, caller);
      },
      async stands(written) {
        const { purses } = await points.state({ groupId }, caller);
        const paid = Array.from({ length: written }, (_, at) => priceAt(at));
        expect(purses.find((each) => each.studentId === studentId)?.balance).toBe(
          200 - paid.reduce((sum, price) => sum + price, 0),
        );
      },
    };
  },
  teams: async ({ teams, ids, groupId }) => {
    const settings = { size: 3, rounds: 10, weekday: 1, goal: 0.7, points: 2, isShown: false };
    await teams.saveSettings({ groupId, settings }, caller);
    const round = Array.from({ length: 10 }, (_, at) => ids.slice(3 * at, 3 * at + 3));
    return {
      write: (at) =>
        teams.deal(
          { groupId, deals: at, rounds: Array.from({ length: 10 + at }, () => round) },
          caller,
        ),
      async stands(written) {
        const { rounds, deals } = await teams.state({ groupId }, caller);
        expect(deals).toBe(written);
        // All the rounds of a deal or none: the one before stands.
        expect(rounds).toHaveLength(written === 0 ? 0 : 10 + written - 1);
      },
    };
  },
};

test.each(Object.keys(writers))(
  "%s on a full disk: said as such, what was acknowledged stands, and goes on once there is room",
  async (what) => {
    const here = await onDisk();
    const prepared = await writers[what]?.(here);
    if (prepared === undefined) throw new Error("no writer");
    here.fill();
    const [written, refusal] = await untilFull(prepared.write);
    expect(refusal).toMatchObject({ code: "store-failed", values: { problem: "full" } });
    await prepared.stands(written);
    here.makeRoom();
    await prepared.write(written);
    await prepared.stands(written + 1);
  },
);
