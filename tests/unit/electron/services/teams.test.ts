import { expect, test } from "vitest";
import { freshSeed } from "../../../../electron/services/live/session-seed.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import type { TeamSettings } from "../../../../shared/teams/kept.ts";
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
  const [a = "", b = "", c = "", d = ""] = ids;
  const roundId = (await stateOf(services, groupId)).rounds[0]?.id ?? "";
  await services.teams.swap({ roundId, oneId: a, otherId: d }, caller);
  const { teams } = await stateOf(services, groupId);
  expect(teams[0]?.studentIds.toSorted()).toEqual([b, c, d].toSorted());
  await services.teams.saveWishes(
    { groupId, wishes: [{ kind: "together", studentIds: [b, c] }] },
    caller,
  );
  const refused = await refusalOf(() =>
    services.teams.swap({ roundId, oneId: b, otherId: a }, caller),
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
  await services.teams.givePoints({ groupId }, caller);
  await services.teams.givePoints({ groupId }, caller);
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
  await services.teams.givePoints({ groupId }, caller);
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
  const refused = await refusalOf(() => services.teams.givePoints({ groupId }, caller));
  expect(refused.code).toBe("points-off");
});

test("8. who was agreed to earn no points gets none from the team either", async () => {
  const { services, groupId, ids } = await withTeams();
  letEarn(services, groupId);
  seatwork(services, groupId, Object.fromEntries(ids.map((id) => [id, 9])));
  const no = { line: "points", answer: "no", day: "2026-03-02", who: "" } as const;
  services.store.agreed.add(ids[0] ?? "", no, services.clock.wallMs());
  await services.teams.givePoints({ groupId }, caller);
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
