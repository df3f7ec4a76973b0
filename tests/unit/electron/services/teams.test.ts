import { expect, test } from "vitest";
import { Missing } from "../../../../electron/services/base/refusal.ts";
import { freshSeed } from "../../../../electron/services/live/session-seed.ts";
import { teamDays } from "../../../../electron/services/team-days.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import type { TeamSettings } from "../../../../shared/teams/kept.ts";
import { addStudents } from "../../../setup/add-students.ts";
import { caller, letEarn, makeGroup, openServices, refusalOf, type Services } from "./services.ts";

const names = ["Ash", "Birch", "Cedar", "Elm", "Fir", "Hazel"];
const settings: TeamSettings = {
  size: 3,
  rounds: 4,
  weekday: 1,
  goal: 0.8,
  points: 2,
  isShown: true,
};

async function withTeams() {
  const services = openServices();
  const { group, students } = await makeGroup(services, names);
  const ids = students.map(({ id }) => id);
  await services.teams.saveSettings({ groupId: group.id, settings }, caller);
  const rounds = [[ids.slice(0, 3), ids.slice(3)]];
  await services.teams.deal({ groupId: group.id, deals: 0, rounds }, caller);
  return { services, groupId: group.id, ids };
}

const stateOf = ({ teams }: Services, groupId: string) => teams.state({ groupId }, caller);

/** The first round as a window shows it. */
async function shownTeams(services: Services, groupId: string) {
  const [round] = (await stateOf(services, groupId)).rounds;
  return { roundId: round?.id ?? "", shown: round?.teams ?? [] };
}

/** Seatwork of today in which each student marked so many cues of ten as on task; null for absent. */
function seatwork({ store, clock }: Services, groupId: string, on: Record<string, number | null>) {
  const session = store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: freshSeed(),
    startedMs: clock.wallMs(),
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const bodies: SessionEventBody[] = [
    { kind: "begun" },
    { kind: "announced", cue: 1 },
    { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
    { kind: "ended", reason: "teacher" },
    ...Object.entries(on).map(
      ([studentId, count]): SessionEventBody =>
        count === null
          ? { kind: "set-aside", studentId }
          : { kind: "total", studentId, on: count, off: 10 - count, way: "paper" },
    ),
  ];
  store.log.appendAll(session.id, bodies, { atMs: 0, wallMs: clock.wallMs(), offsetMinutes: 0 });
  return session.id;
}

test("1. a deal is kept once: every student in one team, in the sizes and under the wishes of now", async () => {
  const { services, groupId, ids } = await withTeams();
  const { rounds, deals, today } = await stateOf(services, groupId);
  expect(today).toBe("2026-03-02");
  expect(deals).toBe(1);
  expect(rounds).toMatchObject([{ number: 1, startsOn: "2026-03-02" }]);
  const deal = (teams: string[][], at = 1) =>
    refusalOf(() => services.teams.deal({ groupId, deals: at, rounds: [teams] }, caller));
  expect((await deal([ids.slice(0, 3), ids.slice(3)], 0)).code).toBe("teams-moved");
  expect((await deal([ids.slice(0, 3), ids.slice(3, 5)])).code).toBe("teams-unfit");
  expect((await deal([ids.slice(0, 2), ids.slice(2)])).code).toBe("teams-unfit");
  const apart = { kind: "apart", studentIds: ids.slice(0, 2) } as const;
  await services.teams.saveWishes({ groupId, wishes: [apart] }, caller);
  expect((await deal([ids.slice(0, 3), ids.slice(3)])).code).toBe("teams-unfit");
});

test("2. a later deal changes only the rounds to come", async () => {
  const { services, groupId, ids } = await withTeams();
  const [a = "", b = "", c = "", d = "", e = "", f = ""] = ids;
  const rounds = [
    [
      [a, b, d],
      [c, e, f],
    ],
    [
      [a, c, e],
      [b, d, f],
    ],
  ];
  await services.teams.deal({ groupId, deals: 1, rounds }, caller);
  const after = await stateOf(services, groupId);
  expect(after.rounds.map(({ number, startsOn }) => [number, startsOn])).toEqual([
    [1, "2026-03-02"],
    [2, "2026-03-09"],
    [3, "2026-03-16"],
  ]);
  expect(after.rounds[0]?.teams.map((team) => team.toSorted())).toEqual([
    [a, b, c].toSorted(),
    [d, e, f].toSorted(),
  ]);
});

test("3. two students swap without a reason, and never against what has to hold", async () => {
  const { services, groupId, ids } = await withTeams();
  const [a = "", b = "", c = "", d = "", e = ""] = ids;
  const { roundId, shown } = await shownTeams(services, groupId);
  await services.teams.swap({ roundId, oneId: a, otherId: d, shown }, caller);
  // A second window that still shows the teams as they were.
  const moved = await refusalOf(() =>
    services.teams.swap({ roundId, oneId: a, otherId: e, shown }, caller),
  );
  expect(moved.code).toBe("teams-swap-moved");
  const { teams } = await stateOf(services, groupId);
  expect(teams[0]?.studentIds.toSorted()).toEqual([b, c, d].toSorted());
  await services.teams.saveWishes(
    { groupId, wishes: [{ kind: "together", studentIds: [b, c] }] },
    caller,
  );
  const refused = await refusalOf(async () =>
    services.teams.swap({ oneId: b, otherId: a, ...(await shownTeams(services, groupId)) }, caller),
  );
  expect(refused.code).toBe("teams-swap-unfit");
});

test("4. met or not yet: absent students are out, and points follow later corrections", async () => {
  const { services, groupId, ids } = await withTeams();
  const [a = "", b = "", c = "", d = "", e = "", f = ""] = ids;
  letEarn(services, groupId);
  const sessionId = seatwork(services, groupId, { [a]: 9, [b]: 8, [c]: 1, [d]: 7, [e]: 7, [f]: 7 });
  const outcomes = async () =>
    (await stateOf(services, groupId)).teams.map(({ outcome }) => outcome);
  expect(await outcomes()).toEqual(["met", "not-yet"]);
  await services.teams.givePoints({ groupId, day: "2026-03-02" }, caller);
  await services.teams.givePoints({ groupId, day: "2026-03-02" }, caller);
  const balances = () => ids.map((id) => services.store.ledger.balance(id));
  expect(balances()).toEqual([2, 2, 2, 0, 0, 0]);
  expect((await stateOf(services, groupId)).arePointsGiven).toBe(true);
  const stamp = { atMs: 0, wallMs: services.clock.wallMs(), offsetMinutes: 0 };
  services.store.log.appendAll(
    sessionId,
    [{ kind: "total", studentId: b, on: 2, off: 8, way: "paper" }],
    stamp,
  );
  expect(await outcomes()).toEqual(["not-yet", "not-yet"]);
  expect((await stateOf(services, groupId)).arePointsGiven).toBe(false);
  await services.teams.givePoints({ groupId, day: "2026-03-02" }, caller);
  expect(balances()).toEqual([0, 0, 0, 0, 0, 0]);
});

test("5. a team of which fewer than three are here says nothing", async () => {
  const { services, groupId, ids } = await withTeams();
  const [a = "", b = "", c = "", d = "", e = "", f = ""] = ids;
  seatwork(services, groupId, { [a]: 9, [b]: null, [c]: 9, [d]: 9, [e]: 9, [f]: 9 });
  const { teams, absentIds } = await stateOf(services, groupId);
  expect(absentIds).toEqual([b]);
  expect(teams.map(({ outcome, studentIds }) => [studentIds.length, outcome])).toEqual([
    [2, "no-data"],
    [3, "met"],
  ]);
});

test("6. the class screen hears names of teams and met or not yet, only where that is wished", async () => {
  const { services, groupId, ids } = await withTeams();
  const sessionId = seatwork(
    services,
    groupId,
    Object.fromEntries(ids.map((id, at) => [id, at < 3 ? 9 : 2])),
  );
  await services.teams.saveNames({ groupId, names: ["Kites"] }, caller);
  expect(await services.teams.onClassScreen({ sessionId }, caller)).toEqual([
    { name: "Kites", outcome: "met" },
    { name: "", outcome: "not-yet" },
  ]);
  const hidden = { ...settings, isShown: false };
  await services.teams.saveSettings({ groupId, settings: hidden }, caller);
  expect(await services.teams.onClassScreen({ sessionId }, caller)).toEqual([]);
});

test("7. where no points are earned none are given", async () => {
  const { services, groupId } = await withTeams();
  const refused = await refusalOf(() =>
    services.teams.givePoints({ groupId, day: "2026-03-02" }, caller),
  );
  expect(refused.code).toBe("points-off");
});

test("8. who was agreed to earn no points gets none from the team either", async () => {
  const { services, groupId, ids } = await withTeams();
  letEarn(services, groupId);
  seatwork(services, groupId, Object.fromEntries(ids.map((id) => [id, 9])));
  const no = { line: "points", answer: "no", day: "2026-03-02", who: "" } as const;
  services.store.agreed.add(ids[0] ?? "", no, services.clock.wallMs());
  await services.teams.givePoints({ groupId, day: "2026-03-02" }, caller);
  expect(ids.map((id) => services.store.ledger.balance(id))).toEqual([0, 2, 2, 2, 2, 2]);
  expect((await stateOf(services, groupId)).arePointsGiven).toBe(true);
});

test("9. the page hears which wish those who are here cannot keep", async () => {
  const { services, groupId, ids } = await withTeams();
  const wish = { kind: "apart", studentIds: ids.slice(0, 3).toSorted() } as const;
  await services.teams.saveWishes({ groupId, wishes: [wish] }, caller);
  const { unmet, isUneven } = await stateOf(services, groupId);
  expect({ unmet, isUneven }).toEqual({ unmet: [wish], isUneven: false });
});

test("10. cards typed in the next morning still give the day's points, and corrections move the difference", async () => {
  const { services, groupId, ids } = await withTeams();
  letEarn(services, groupId);
  const { clock, store } = services;
  const sessionId = seatwork(services, groupId, {});
  clock.advance(86_400_000);
  const type = (on: number) => {
    const bodies = ids
      .slice(0, 3)
      .map((studentId) => ({ kind: "total", studentId, on, off: 10 - on, way: "paper" }) as const);
    store.log.appendAll(sessionId, bodies, { atMs: 0, wallMs: clock.wallMs(), offsetMinutes: 0 });
    const when = { wallMs: clock.wallMs(), offsetMinutes: 0 };
    return teamDays(store).follow(sessionId, "2026-03-03", when);
  };
  const balances = () => ids.map((id) => store.ledger.balance(id));
  const day = "2026-03-02";
  expect(type(9)).toBe(false);
  const { earlier } = await stateOf(services, groupId);
  expect(earlier).toEqual({ day, met: [1], arePointsGiven: false });
  await services.teams.givePoints({ groupId, day }, caller);
  expect(balances()).toEqual([2, 2, 2, 0, 0, 0]);
  expect(store.ledger.allOf(ids[0] ?? "").map((entry) => entry.day)).toEqual([day]);
  // A later goal of points does not read that day again.
  await services.teams.saveSettings({ groupId, settings: { ...settings, points: 5 } }, caller);
  expect((await stateOf(services, groupId)).earlier?.arePointsGiven).toBe(true);
  expect(type(2)).toBe(true);
  expect(balances()).toEqual([0, 0, 0, 0, 0, 0]);
  expect(type(9)).toBe(true);
  expect(balances().slice(3)).toEqual([0, 0, 0]);
  expect(
    balances()
      .slice(0, 3)
      .every((each) => each > 0),
  ).toBe(true);
  const tomorrow = () => services.teams.givePoints({ groupId, day: "2026-03-04" }, caller);
  expect(tomorrow).toThrow(Missing);
});

test("11. an earlier day is of those who were there then: who came since gets nothing of it, who left keeps it", async () => {
  const { services, groupId, ids } = await withTeams();
  letEarn(services, groupId);
  const { clock, store } = services;
  seatwork(services, groupId, Object.fromEntries(ids.map((id) => [id, 9])));
  clock.advance(86_400_000);
  const [left = ""] = ids;
  await services.students.archive({ id: left }, caller);
  const [late] = await addStudents(services, groupId, ["Late"], caller);
  const day = "2026-03-02";
  await services.teams.givePoints({ groupId, day }, caller);
  expect(ids.map((id) => store.ledger.balance(id))).toEqual([2, 2, 2, 2, 2, 2]);
  expect(store.ledger.balance(late?.id ?? "")).toBe(0);
});

test.each([
  { trial: true, left: 0 },
  { trial: undefined, left: 2 },
])(
  "12. a day whose session is left out keeps what it paid, unless it was a trial: $trial",
  async ({ trial, left }) => {
    const { services, groupId, ids } = await withTeams();
    letEarn(services, groupId);
    const { clock, store } = services;
    const sessionId = seatwork(services, groupId, Object.fromEntries(ids.map((id) => [id, 9])));
    const day = "2026-03-02";
    await services.teams.givePoints({ groupId, day }, caller);
    clock.advance(86_400_000);
    const when = { wallMs: clock.wallMs(), offsetMinutes: 0 };
    const body = { kind: "left-out", reason: "fire drill", ...(trial ? { trial } : {}) } as const;
    store.log.appendAll(sessionId, [body], { atMs: 0, ...when });
    teamDays(store).follow(sessionId, "2026-03-03", when);
    expect(ids.map((id) => store.ledger.balance(id))).toEqual(ids.map(() => left));
  },
);

test("13. what another window saved since is never saved over, and is told", async () => {
  const { services, groupId, ids } = await withTeams();
  const { teams } = services;
  const [a = "", b = "", c = ""] = ids;
  await teams.saveNames({ groupId, names: ["Kites", ""], before: ["", ""] }, caller);
  const wish = { kind: "apart" as const, studentIds: [a, b] };
  await teams.saveWishes({ groupId, wishes: [wish], before: [] }, caller);
  const changed = { ...settings, points: 5 };
  await teams.saveSettings({ groupId, settings: changed, before: settings }, caller);
  const late = [
    () => teams.saveNames({ groupId, names: ["Owls"], before: [] }, caller),
    () =>
      teams.saveWishes(
        { groupId, wishes: [{ kind: "apart", studentIds: [b, c] }], before: [] },
        caller,
      ),
    () =>
      teams.saveSettings(
        { groupId, settings: { ...settings, goal: 0.5 }, before: settings },
        caller,
      ),
    () => teams.saveSettings({ groupId, settings, before: null }, caller),
  ];
  for (const save of late) expect((await refusalOf(save)).code).toBe("saved-elsewhere");
  const state = await stateOf(services, groupId);
  expect(state.names).toEqual(["Kites"]);
  expect(state.wishes).toHaveLength(1);
  expect(state.settings).toEqual(changed);
  // Who has looked at what is kept saves over it knowingly.
  await teams.saveNames({ groupId, names: ["Owls"], before: ["Kites"] }, caller);
  expect((await stateOf(services, groupId)).names).toEqual(["Owls"]);
});

test("14. a swap counts from its day on: days before it keep the teams they had, also when corrected", async () => {
  const { services, groupId, ids } = await withTeams();
  letEarn(services, groupId);
  const { clock, store } = services;
  const [a = "", b = "", c = "", d = "", e = "", f = ""] = ids;
  const sessionId = seatwork(services, groupId, { [a]: 9, [b]: 9, [c]: 9, [d]: 1, [e]: 1, [f]: 1 });
  const day = "2026-03-02";
  await services.teams.givePoints({ groupId, day }, caller);
  const balances = () => ids.map((id) => store.ledger.balance(id));
  expect(balances()).toEqual([2, 2, 2, 0, 0, 0]);
  clock.advance(86_400_000);
  const swap = async (oneId: string, otherId: string) =>
    services.teams.swap({ oneId, otherId, ...(await shownTeams(services, groupId)) }, caller);
  await swap(a, d);
  // Of two swaps on one day, the days before had what stood before the first.
  await swap(a, b);
  const { teams, earlier } = await stateOf(services, groupId);
  expect(teams.map(({ studentIds }) => studentIds.toSorted())).toEqual([
    [a, c, d].toSorted(),
    [b, e, f].toSorted(),
  ]);
  expect(earlier).toEqual({ day, met: [1], arePointsGiven: true });
  // Monday's cards are corrected on Tuesday: Monday's teams win and lose by it.
  const when = { wallMs: clock.wallMs(), offsetMinutes: 0 };
  const total = (studentId: string, on: number) =>
    ({ kind: "total", studentId, on, off: 10 - on, way: "paper" }) as const;
  store.log.appendAll(
    sessionId,
    [d, e, f].map((id) => total(id, 10)),
    { atMs: 0, ...when },
  );
  expect(teamDays(store).follow(sessionId, "2026-03-03", when)).toBe(true);
  expect(balances()).toEqual([2, 2, 2, 2, 2, 2]);
  store.log.appendAll(
    sessionId,
    [a, b, c].map((id) => total(id, 1)),
    { atMs: 0, ...when },
  );
  expect(teamDays(store).follow(sessionId, "2026-03-03", when)).toBe(true);
  expect(balances()).toEqual([0, 0, 0, 2, 2, 2]);
});

test("15. a swap on the first day of a round is of that day, too", async () => {
  const { services, groupId, ids } = await withTeams();
  const [a = "", b = "", c = "", d = ""] = ids;
  const seen = await shownTeams(services, groupId);
  await services.teams.swap({ oneId: a, otherId: d, ...seen }, caller);
  const [kept] = services.store.teams.rounds(groupId);
  if (kept === undefined) throw new Error("the round is kept");
  const [first = []] = services.store.teams.teamsOn(kept, "2026-03-02");
  expect(first.toSorted()).toEqual([b, c, d].toSorted());
});
