import { localDay } from "../../shared/calendar/local-day.ts";
import { noEarning } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { randomStream } from "../../shared/schedule/stream.ts";
import { planForKind } from "../../shared/session/kind-plan.ts";
import type { Store } from "../store/store.ts";
import { givenWords } from "./base/given-words.ts";
import { Refusal } from "./base/refusal.ts";
import type { WallClock } from "./base/wall-clock.ts";
import { addSampleHome } from "./home/sample-home.ts";
import { bringIn } from "./live/log-door.ts";
import { addSamplePoints, sampleEarning } from "./points/sample-points.ts";
import { addFirstPlan } from "./roster.ts";
import { type SampleStudent, sampleSession } from "./sample-session.ts";
import { addSampleTeams } from "./sample-teams.ts";

const minuteMs = 60_000;
const dayMs = 1_440 * minuteMs;
const schoolDays = 25;
const baselineDays = 5;
/** Days without a session, counted from the first: an outing and a day off. */
const daysOff = [11, 18];
/** Sessions begin within the quarter of an hour from here, in minutes after local midnight. */
const startMinute = 9 * 60 + 45;
const startSpread = 15;
/** After this many sessions two thirds of what the program does is done. */
const sessionsToTakeHold = 7;
/** Mean time between two looks of the invented baseline. */
const sampleLookSeconds = 60;

/** Invented nicknames and ways; one of them flatters, one hardly changes. */
const invented = [
  { name: "Pine", picture: "pine", start: 0.1, gain: 1.6, flatters: 0.06 },
  { name: "Otter", picture: "fish", start: -0.6, gain: 1.9, flatters: 0.1 },
  { name: "Comet", picture: "star", start: -0.9, gain: 2.1, flatters: 0.12 },
  { name: "Maple", picture: "leaf", start: 0.7, gain: 1.1, flatters: 0.04 },
  { name: "Wren", picture: "bird", start: -0.2, gain: 1.4, flatters: 0.08 },
  { name: "Juniper", picture: "acorn", start: -0.4, gain: 0.1, flatters: 0.1 },
  { name: "Moss", picture: "snail", start: -0.7, gain: 0.9, flatters: 0.45 },
  { name: "Heron", picture: "kite", start: 0.4, gain: 1.5, flatters: 0.05 },
] as const;

/**
 * Adds the sample class: invented students with five school weeks of invented sessions that end just
 * before now, written to the log like real ones. A week of baseline, then the program.
 *
 * @returns the group's id
 */
export function addSample(store: Store, clock: WallClock): string {
  if (store.groups.sample() !== null) {
    throw new Refusal("sample-present", "The sample class is there already.");
  }
  const offsetMinutes = clock.offsetMinutes();
  const starts = sessionStarts(clock.wallMs(), offsetMinutes);
  return store.transaction(() => fill(store, starts, offsetMinutes));
}

/** Removes the sample class with all that belongs to it; returns how many students that were. */
export function removeSample(store: Store): number {
  const sample = store.groups.sample();
  if (sample === null) throw new Refusal("sample-absent", "There is no sample class to remove.");
  const open = store.log.openSessionId();
  if (open !== null && store.sessions.get(open)?.groupId === sample.id) {
    throw new Refusal(
      "session-running",
      "A session of the sample class is still open. End it first.",
    );
  }
  return store.removeGroup(sample.id).students;
}

function fill(store: Store, starts: readonly number[], offsetMinutes: number): string {
  const words = givenWords[store.settings.get().language];
  const madeMs = (starts[0] ?? 0) - dayMs;
  const group = store.groups.create(
    { name: words.sampleClass, target: words.sampleTarget, isSample: true },
    madeMs,
  );
  addFirstPlan(store, group.id, madeMs);
  for (const { id, name, settings } of store.plans.list(group.id)) {
    store.plans.update({ id, name, settings: { ...settings, earning: sampleEarning } });
  }
  const students = addStudents(store, group.id, madeMs);
  addPhases(store, group.id, starts, offsetMinutes);
  starts.forEach((startedMs, index) => {
    const kind = index < baselineDays ? "baseline" : "seatwork";
    const seed = `sample ${index + 1}`;
    const earning = kind === "seatwork" ? sampleEarning : noEarning;
    const plan = { ...planForKind(firstPlan, kind, sampleLookSeconds), earning };
    const session = store.sessions.create({
      groupId: group.id,
      kind,
      planName: words.firstPlan,
      plan,
      seed,
      startedMs,
      offsetMinutes,
      day: localDay(startedMs, offsetMinutes),
    });
    const events = sampleSession(
      {
        kind,
        students,
        cues: sessionSchedule(plan, seed).cues,
        lengthSeconds: plan.lengthSeconds,
        progress: progressAt(index),
        secondObserver: index === 1 || index === 3,
        withWork: index % 4 === 2,
        note: index === 9 ? words.sampleNote : null,
        interruption: index === 14 ? words.sampleInterruption : null,
      },
      randomStream(seed, "events"),
    );
    bringIn(store.log, session.id, events, session);
  });
  addSamplePoints(store, group.id);
  const days = starts.slice(baselineDays).map((startMs) => localDay(startMs, offsetMinutes));
  const newest = { wallMs: starts.at(-1) ?? madeMs, offsetMinutes };
  addSampleTeams(store, group.id, days, newest);
  addSampleHome(store, group.id, days, newest);
  return group.id;
}

function addStudents(store: Store, groupId: string, madeMs: number): SampleStudent[] {
  const names = invented.map(({ name }) => name);
  return store.students.add(groupId, names, madeMs).map(({ id }, index) => {
    const way = invented[index];
    if (way === undefined) throw new Error("A sample student has no invented way");
    const { picture, start, gain, flatters } = way;
    store.students.update(id, { picture });
    return { id, start, gain, flatters };
  });
}

function addPhases(
  store: Store,
  groupId: string,
  starts: readonly number[],
  offsetMinutes: number,
): void {
  const kinds = [
    ["baseline", 0],
    ["intervention", baselineDays],
  ] as const;
  for (const [kind, index] of kinds) {
    const startsOn = localDay(starts[index] ?? 0, offsetMinutes);
    store.phases.create(
      { groupId, studentId: null, kind, label: "", startsOn, draw: null, probes: null },
      starts[index] ?? 0,
    );
  }
}

/** 0 in the baseline, then towards 1 by the same share at each session. */
function progressAt(index: number): number {
  return index < baselineDays ? 0 : 1 - Math.exp(-(index - baselineDays + 1) / sessionsToTakeHold);
}

/** When the sessions began, oldest first: one on each of the last school days that is over by now. */
function sessionStarts(nowMs: number, offsetMinutes: number): number[] {
  const draw = randomStream("sample", "starts");
  const localNow = nowMs + offsetMinutes * minuteMs;
  const starts: number[] = [];
  let midnight = Math.floor(localNow / dayMs) * dayMs;
  for (; starts.length < schoolDays; midnight -= dayMs) {
    const weekday = new Date(midnight).getUTCDay();
    if (weekday === 0 || weekday === 6) continue;
    const minute = startMinute + Math.floor(startSpread * draw());
    const startedMs = midnight + minute * minuteMs - offsetMinutes * minuteMs;
    if (startedMs + firstPlan.lengthSeconds * 1000 <= nowMs) starts.unshift(startedMs);
  }
  return starts.filter((_, index) => !daysOff.includes(index));
}
