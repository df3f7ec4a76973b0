import { expect, test } from "vitest";
import type { Store } from "../../../../electron/store/store.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { observerCounts, selfCounts } from "../../../../shared/record/counts.ts";
import { randomStream } from "../../../../shared/schedule/stream.ts";
import type { SessionEventBody, SessionKind } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { deliveredCues } from "../../../../shared/session/state.ts";
import { monday, temporaryFolder, temporaryStore } from "./temporary-folder.ts";

const dayMs = 86_400_000;
const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };

function makeGroup(store: Store, names: string[]) {
  const { id: groupId } = store.groups.create({ name: "A", target: "", isSample: false }, monday);
  return { groupId, ids: store.students.add(groupId, names, monday).map(({ id }) => id) };
}

function makeSession(
  store: Store,
  groupId: string,
  bodies: readonly SessionEventBody[],
  facts: {
    kind?: SessionKind;
    startedMs?: number;
    ended?: boolean;
    after?: readonly SessionEventBody[];
  } = {},
): string {
  const { id } = store.sessions.create({
    groupId,
    kind: facts.kind ?? "seatwork",
    planName: "First plan",
    plan: { ...firstPlan, meanSeconds: 90 },
    seed: "counts",
    startedMs: facts.startedMs ?? monday + dayMs,
    offsetMinutes: 60,
    day: "2026-03-03",
  });
  store.log.appendAll(id, [{ kind: "begun" }, ...bodies], stamp);
  const ended = { kind: "ended", reason: "finished" } as const;
  if (facts.ended ?? true) store.log.appendAll(id, [ended, ...(facts.after ?? [])], stamp);
  return id;
}

const heard = (cue: number): SessionEventBody => ({
  kind: "delivered",
  cue,
  by: "sound",
  latenessMs: 0,
  problem: null,
});
const mark = (
  studentId: string,
  cue: number,
  value: "on" | "off" | "none",
  way: "screen" | "paper" = "screen",
): SessionEventBody => ({ kind: "mark", studentId, cue, value, way, late: false });

/** The first session's counts of the first student. */
function firstOf(store: Store, groupId: string) {
  const [counts] = store.counts.ofGroup(groupId).counts;
  if (counts === undefined) throw new Error("No student");
  const { self } = counts;
  return { on: self.on[0], off: self.off[0], missing: self.missing[0] };
}

test("1. the last mark for a cue stands, `none` takes it back, undelivered cues do not count", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine"]);
  const [pine = ""] = ids;
  makeSession(store, groupId, [
    heard(1),
    heard(2),
    heard(3),
    { kind: "undelivered", cue: 4, reason: "asleep" },
    mark(pine, 1, "on"),
    mark(pine, 1, "off"),
    mark(pine, 2, "on"),
    mark(pine, 3, "on"),
    mark(pine, 3, "none"),
    mark(pine, 4, "on"),
  ]);
  expect(firstOf(store, groupId)).toEqual({ on: 1, off: 1, missing: 1 });
  expect(store.counts.ofGroup(groupId).sessions).toMatchObject([
    { cuesDelivered: 3, meanSeconds: 90, kind: "seatwork", day: "2026-03-03", note: "" },
  ]);
});

test("2. a total replaces earlier paper marks, a later paper mark replaces the total", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine"]);
  const [pine = ""] = ids;
  const sessionId = makeSession(store, groupId, [heard(1), heard(2), heard(3), heard(4)]);
  store.log.append(sessionId, mark(pine, 1, "off", "paper"), stamp);
  store.log.append(
    sessionId,
    { kind: "total", studentId: pine, on: 2, off: 1, way: "paper" },
    stamp,
  );
  expect(firstOf(store, groupId)).toEqual({ on: 2, off: 1, missing: 1 });
  store.log.append(
    sessionId,
    { kind: "total", studentId: pine, on: 3, off: 1, way: "paper" },
    stamp,
  );
  expect(firstOf(store, groupId)).toEqual({ on: 3, off: 1, missing: 0 });
  store.log.append(sessionId, mark(pine, 2, "on", "paper"), stamp);
  expect(firstOf(store, groupId)).toEqual({ on: 1, off: 0, missing: 3 });
});

test("3. nothing is missing while set aside; who was set aside throughout took no part", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine", "Otter"]);
  const [pine = "", otter = ""] = ids;
  makeSession(store, groupId, [
    { kind: "set-aside", studentId: otter },
    heard(1),
    { kind: "set-aside", studentId: pine },
    heard(2),
    { kind: "back", studentId: pine },
    heard(3),
    mark(pine, 3, "off"),
  ]);
  const { counts } = store.counts.ofGroup(groupId);
  expect(counts.map(({ self }) => [self.on, self.off, self.missing])).toEqual([
    [[0], [1], [1]],
    [[null], [null], [null]],
  ]);
});

test("4. who came after a session or left before it took no part in it, unless they recorded", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine", "Otter"]);
  const [pine = "", otter = ""] = ids;
  store.students.setArchived(otter, monday + dayMs / 2);
  makeSession(store, groupId, [heard(1), mark(pine, 1, "on")], { startedMs: monday - dayMs });
  makeSession(store, groupId, [heard(1)], { startedMs: monday });
  makeSession(store, groupId, [heard(1)], { startedMs: monday + dayMs });
  const { counts } = store.counts.ofGroup(groupId);
  expect(counts.map(({ self }) => self.missing)).toEqual([
    [0, 1, 1],
    [null, 1, null],
  ]);
});

test("5. only ended sessions that are no practice are counted, oldest first", () => {
  const store = temporaryStore();
  const { groupId } = makeGroup(store, ["Pine"]);
  const late = makeSession(store, groupId, [heard(1)], { startedMs: monday + 3 * dayMs });
  const early = makeSession(store, groupId, [heard(1)], { startedMs: monday + 2 * dayMs });
  makeSession(store, groupId, [heard(1)], { kind: "practice" });
  const open = makeSession(store, groupId, [heard(1)], { ended: false });
  expect(store.counts.ofGroup(groupId).sessions.map(({ id }) => id)).toEqual([early, late]);
  store.log.append(open, { kind: "ended", reason: "closed-later" }, stamp);
  expect(store.counts.ofGroup(groupId).sessions.map(({ id }) => id)).toEqual([open, early, late]);
});

test("6. in a baseline nobody is asked: self is null, the observer's counts are there", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine", "Otter"]);
  const [pine = ""] = ids;
  const seen = (cue: number, value: "on" | "off" | "unseen", observer: 1 | 2 = 1) =>
    ({ kind: "observed", studentId: pine, cue, value, observer }) as const;
  const bodies = [heard(1), heard(2), heard(3)];
  const observed = [seen(1, "off"), seen(1, "on"), seen(2, "unseen"), seen(1, "off", 2)];
  const sessionId = makeSession(store, groupId, [...bodies, ...observed], { kind: "baseline" });
  const { counts, observerPairs } = store.counts.ofGroup(groupId);
  expect(counts).toEqual([
    {
      studentId: pine,
      self: { on: [null], off: [null], missing: [null] },
      observer: { on: [1], off: [0], missing: [1] },
    },
    {
      studentId: ids[1],
      self: { on: [null], off: [null], missing: [null] },
      observer: { on: [null], off: [null], missing: [null] },
    },
  ]);
  expect(observerPairs).toEqual([
    { studentId: pine, sessionId, cue: 1, first: "on", second: "off" },
  ]);
});

test("7. a spot check is paired with what the student said at that cue; the newest check counts", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine"]);
  const [pine = ""] = ids;
  const check = (cue: number | null, value: "on" | "off" | "unseen") =>
    ({ kind: "spot-check", studentId: pine, cue, value }) as const;
  const sessionId = makeSession(store, groupId, [
    heard(1),
    mark(pine, 1, "on"),
    check(1, "on"),
    check(1, "off"),
    heard(2),
    check(2, "on"),
    check(null, "on"),
    check(null, "off"),
    check(null, "unseen"),
  ]);
  const pair = { studentId: pine, sessionId, day: "2026-03-03" };
  const { checks, freeLooks } = store.counts.ofGroup(groupId);
  expect(checks).toEqual([
    { ...pair, cue: 1, student: "on", seen: "off" },
    { ...pair, cue: 2, student: "none", seen: "on" },
  ]);
  // A look outside any cue is kept and counted, and compared with nothing; the second was taken back.
  expect(freeLooks).toEqual([{ studentId: pine, sessionId, seen: "on" }]);
});

test("8. the newest work counts; notes and worded interruptions stand one a line", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine"]);
  const [pine = ""] = ids;
  const sessionId = makeSession(store, groupId, [
    { kind: "work", studentId: pine, assigned: 10, completed: 4, correct: 4 },
    { kind: "work", studentId: pine, assigned: 10, completed: 5, correct: null },
    { kind: "note", text: "One" },
    { kind: "interruption", note: "Fire drill" },
    { kind: "interruption", note: "" },
    { kind: "note", text: "Two" },
  ]);
  const { work, sessions } = store.counts.ofGroup(groupId);
  expect(work).toEqual([{ studentId: pine, sessionId, assigned: 10, completed: 5, correct: null }]);
  expect(sessions[0]?.note).toBe("One\nFire drill\nTwo");
});

test("9. counting ahead, bit by bit, changes nothing but the time it takes", () => {
  const folder = temporaryFolder();
  let store = temporaryStore(folder);
  const { groupId, ids } = makeGroup(store, ["Pine"]);
  const [pine = ""] = ids;
  for (const cue of [1, 2, 3]) makeSession(store, groupId, [heard(cue), mark(pine, cue, "on")]);
  const before = store.counts.ofGroup(groupId);
  store.close();
  store = temporaryStore(folder);
  expect([1, 2, 3].map(() => store.counts.countAhead(1))).toEqual([true, true, false]);
  expect(store.counts.countAhead(1)).toBe(false);
  expect(store.counts.ofGroup(groupId)).toEqual(before);
});

test("11. who is set aside after the end and marked nothing was away", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine", "Otter"]);
  const [pine = "", otter = ""] = ids;
  const aside = (studentId: string): SessionEventBody => ({ kind: "set-aside", studentId });
  makeSession(store, groupId, [heard(1), heard(2)], {
    after: [mark(otter, 1, "on", "paper"), aside(pine), aside(otter)],
  });
  expect(firstOf(store, groupId)).toEqual({ on: null, off: null, missing: null });
  const { self } = store.counts.ofGroup(groupId).counts[1] ?? {};
  expect(self).toEqual({ on: [1], off: [0], missing: [1] });
});

/** Events in an order that no real session has; the log is history and counting never argues. */
function wildEvents(draw: () => number, ids: readonly string[]): SessionEventBody[] {
  const pick = <Item>(items: readonly Item[]): Item => {
    const item = items[Math.floor(draw() * items.length)];
    if (item === undefined) throw new Error("Nothing to pick from");
    return item;
  };
  return Array.from({ length: 120 }, (): SessionEventBody => {
    const studentId = pick(ids);
    const cue = 1 + Math.floor(draw() * 6);
    const way = pick(["screen", "paper", "seat", "import"] as const);
    const chance = draw();
    if (chance < 0.5) {
      const value = pick(["on", "off", "none"] as const);
      return { kind: "mark", studentId, cue, value, way, late: draw() < 0.1 };
    }
    if (chance < 0.6) return heard(cue);
    if (chance < 0.63) return { kind: "undelivered", cue, reason: "asleep" };
    if (chance < 0.66) return { kind: "announced", cue };
    if (chance < 0.71) return { kind: "set-aside", studentId };
    if (chance < 0.76) return { kind: "back", studentId };
    if (chance < 0.84) {
      const [on, off] = [Math.floor(draw() * 6), Math.floor(draw() * 3)];
      return { kind: "total", studentId, on, off, way };
    }
    const value = pick(["on", "off", "unseen"] as const);
    return { kind: "observed", studentId, cue, value, observer: pick([1, 2] as const) };
  });
}

test("10. agrees with the reducer of the session's state on 60 wild logs", () => {
  const store = temporaryStore();
  const { groupId, ids } = makeGroup(store, ["Pine", "Otter", "Maple"]);
  const draw = randomStream("counts", "wild");
  const sessionIds = store.transaction(() =>
    Array.from({ length: 60 }, (_, index) =>
      makeSession(store, groupId, wildEvents(draw, ids), {
        startedMs: monday + index,
        // Cards typed in, and students said to have been away, after the end; sometimes little of it.
        after: wildEvents(draw, ids).slice(0, index),
      }),
    ),
  );
  const counted = store.counts.ofGroup(groupId);
  expect(counted.sessions.map(({ id }) => id)).toEqual(sessionIds);
  sessionIds.forEach((sessionId, index) => {
    const state = replay(store.log.read(sessionId, 0));
    expect(counted.sessions[index]?.cuesDelivered).toBe(deliveredCues(state).length);
    for (const { studentId, self, observer } of counted.counts) {
      for (const [columns, expected] of [
        [self, selfCounts(state, studentId)],
        [observer, observerCounts(state, studentId)],
      ] as const) {
        const got = {
          on: columns.on[index],
          off: columns.off[index],
          missing: columns.missing[index],
        };
        expect(got).toEqual(expected ?? { on: null, off: null, missing: null });
      }
    }
  });
});
