import { dayNumber, dayText, weekdayOf } from "../../shared/calendar/calendar.ts";
import type { Phase } from "../../shared/phase/phase.ts";
import type {
  CheckPair,
  CountColumns,
  CountedSession,
  GroupCounts,
  WorkDone,
} from "../../shared/record/group-counts.ts";
import { randomStream } from "../../shared/schedule/stream.ts";
import { size } from "./five-years.ts";

const dayMs = 86_400_000;
/** Sessions of each school year that are observed before students record. */
const observedSessions = 10;
/** Students of whom a session's spot checks ask, and cues at which they do. */
const checked = { students: 2, cues: 2 } as const;

/**
 * What the desktop side would count of five invented school years of one class: 36 students, 900
 * sessions of 10 cues, a baseline, a program and a fading phase in each year, spot checks, work.
 */
export function fiveYearsOfCounts(): GroupCounts {
  const draw = randomStream("five years", "counts");
  const days = schoolDays(size.sessions);
  const perYear = size.sessions / 5;
  const sessions = days.map((day, at): CountedSession => {
    const minute = 540 + 60 * (at % 4);
    return {
      id: `session ${at}`,
      kind: at % perYear < observedSessions ? "baseline" : "seatwork",
      startedMs: dayNumber(day) * dayMs + minute * 60_000,
      offsetMinutes: 0,
      day,
      meanSeconds: 120,
      subject: ["Maths", "Reading", "Science"][at % 3] ?? "",
      cuesDelivered: size.cues,
      note: "",
    };
  });
  const students = Array.from({ length: size.students }, (_, at) => ({
    id: `student ${at + 1}`,
    groupId: "group",
    name: `Student ${at + 1}`,
    picture: null,
    target: "",
    holdGoal: null,
    hasMoved: false,
    archived: false,
  }));
  const levels = students.map(() => 0.4 + 0.4 * draw());
  const columns = (level: number, has: (session: CountedSession) => boolean): CountColumns => {
    const counted = sessions.map((session, at) => {
      if (!has(session)) return null;
      const good = Math.min(0.98, level + (0.2 * at) / size.sessions + 0.2 * (draw() - 0.5));
      const missing = draw() < 0.1 ? 1 : 0;
      const marks = Array.from({ length: size.cues - missing }, () => draw() < good);
      const on = marks.filter(Boolean).length;
      return { on, off: marks.length - on, missing };
    });
    return {
      on: counted.map((each) => each?.on ?? null),
      off: counted.map((each) => each?.off ?? null),
      missing: counted.map((each) => each?.missing ?? null),
    };
  };
  const recorded = sessions.filter(({ kind }) => kind === "seatwork");
  const someOf = (at: number) =>
    Array.from(
      { length: checked.students },
      (_, place) => students[(at * checked.students + place) % students.length]?.id ?? "",
    );
  return {
    group: {
      id: "group",
      name: "Invented class",
      target: "",
      isSample: false,
      archived: false,
      studentCount: students.length,
    },
    students,
    sessions,
    counts: students.map(({ id }, at) => ({
      studentId: id,
      self: columns(levels[at] ?? 0.5, ({ kind }) => kind === "seatwork"),
      observer: columns(levels[at] ?? 0.5, ({ kind }) => kind === "baseline"),
    })),
    checks: recorded.flatMap(({ id, day }, at) =>
      someOf(at).flatMap((studentId) =>
        Array.from({ length: checked.cues }, (_, place): CheckPair => {
          const seen = draw() < 0.7 ? "on" : "off";
          const student = draw() < 0.9 ? seen : "on";
          return { studentId, sessionId: id, day, cue: place + 1, student, seen };
        }),
      ),
    ),
    leftOut: [],
    freeLooks: [],
    observerPairs: [],
    work: recorded.flatMap(({ id: sessionId }, at) =>
      someOf(at).map(
        (studentId): WorkDone => ({
          studentId,
          sessionId,
          assigned: 20,
          completed: Math.floor(21 * draw()),
          correct: null,
        }),
      ),
    ),
    phases: [0, 1, 2, 3, 4].flatMap((year) => phasesFrom(days, year * perYear)),
    daysOff: [],
    today: days.at(-1) ?? "",
  };
}

function phasesFrom(days: readonly string[], first: number): Phase[] {
  const starts = [
    ["baseline", first],
    ["intervention", first + observedSessions],
    ["fading", first + 100],
  ] as const;
  return starts.map(([kind, at]) => ({
    id: `${kind} ${at}`,
    groupId: "group",
    studentId: null,
    kind,
    label: "",
    startsOn: days[at] ?? "",
    draw: null,
    probes: null,
  }));
}

function schoolDays(count: number): string[] {
  const days: string[] = [];
  for (let day = dayNumber("2021-09-06"); days.length < count; day += 1) {
    if (weekdayOf(day) <= 5) days.push(dayText(day));
  }
  return days;
}
