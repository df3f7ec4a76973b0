import { dayNumber } from "../../../../shared/calendar/calendar.ts";
import type { CountedSession, GroupCounts } from "../../../../shared/record/group-counts.ts";

/** A session at ten in the morning, in a zone two hours ahead of UTC. */
export function session(id: string, day: string, minuteOfDay = 600): CountedSession {
  const offsetMinutes = 120;
  const startedMs = (dayNumber(day) * 1_440 + minuteOfDay - offsetMinutes) * 60_000;
  return {
    id,
    kind: "seatwork",
    startedMs,
    offsetMinutes,
    day,
    meanSeconds: 120,
    subject: "",
    cuesDelivered: 10,
    note: "",
  };
}

/** Marks of one student by session: [on, off, missing], or null for no part. */
export type Marks = readonly (readonly [number, number, number] | null)[];

const columns = (marks: Marks) => ({
  on: marks.map((mark) => mark?.[0] ?? null),
  off: marks.map((mark) => mark?.[1] ?? null),
  missing: marks.map((mark) => mark?.[2] ?? null),
});

export interface Invented {
  readonly self: Marks;
  readonly observer?: Marks;
}

/** A group's counts, its students named s1, s2, ... in the roster's order. */
export function groupCounts(
  sessions: readonly CountedSession[],
  students: readonly Invented[],
  more: Partial<GroupCounts> = {},
): GroupCounts {
  const none: Marks = sessions.map(() => null);
  return {
    group: {
      id: "g",
      name: "Birch",
      target: "",
      isSample: false,
      archived: false,
      studentCount: students.length,
    },
    students: students.map((_, at) => ({
      id: `s${at + 1}`,
      groupId: "g",
      name: `S${at + 1}`,
      picture: null,
      target: "",
      holdGoal: null,
      hasMoved: false,
      archived: false,
    })),
    sessions: [...sessions],
    counts: students.map(({ self, observer }, at) => ({
      studentId: `s${at + 1}`,
      self: columns(self),
      observer: columns(observer ?? none),
    })),
    checks: [],
    leftOut: [],
    freeLooks: [],
    observerPairs: [],
    work: [],
    phases: [],
    daysOff: [],
    today: sessions.at(-1)?.day ?? "2026-09-01",
    ...more,
  };
}
