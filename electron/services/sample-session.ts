import type { RandomStream } from "../../shared/schedule/stream.ts";
import type {
  SeenValue,
  SessionEventBody,
  SessionKind,
  TimedBody,
} from "../../shared/session/event.ts";

/** How an invented student works, in log odds, and records. */
export interface SampleStudent {
  readonly id: string;
  /** Log odds of working before the program. */
  readonly start: number;
  /** What the program adds to that in the long run. */
  readonly gain: number;
  /** Chance of recording "yes" when not working. */
  readonly flatters: number;
}

export interface SampleSessionFacts {
  readonly kind: Extract<SessionKind, "baseline" | "seatwork">;
  /** Seconds from the start to each cue, and to the end. */
  readonly cues: readonly number[];
  readonly lengthSeconds: number;
  readonly students: readonly SampleStudent[];
  /** How far the program has come, 0 before it to 1 when it has done all it does. */
  readonly progress: number;
  readonly secondObserver: boolean;
  readonly withWork: boolean;
  readonly note: string | null;
  readonly interruption: string | null;
}

// Plausible numbers of our own, made up to show what the screens look like; no study stands behind them.
const absentChance = 0.04;
const silentChance = 0.05;
const unseenChance = 0.06;
const skippedChance = 0.02;
const wrongSightChance = 0.05;
const checksPerSession = 3;
/** Chance that a student is still doing what they did at the last cue, whatever their rate. */
const stays = 0.3;
/** Spread of one student's log odds from session to session. */
const dayToDay = 0.5;

/** Everything that happens in one invented session, in order. Same draws, same session. */
export function sampleSession(facts: SampleSessionFacts, draw: RandomStream): TimedBody[] {
  const events: TimedBody[] = [{ atMs: 0, body: { kind: "begun" } }];
  // Session time stands still at the end, also for a mark that comes after it.
  const add = (seconds: number, body: SessionEventBody) =>
    events.push({ atMs: Math.round(Math.min(seconds, facts.lengthSeconds) * 1000), body });

  const absent = new Set(facts.students.filter(() => draw() < absentChance).map(({ id }) => id));
  for (const studentId of absent) add(1, { kind: "set-aside", studentId });
  const present = facts.students.filter(({ id }) => !absent.has(id));
  const odds = new Map(
    present.map(({ id, start, gain }) => [
      id,
      start + gain * facts.progress + dayToDay * bellShaped(draw),
    ]),
  );
  const working = new Map<string, boolean>();

  facts.cues.forEach((seconds, index) => {
    const cue = index + 1;
    if (draw() < skippedChance) {
      add(seconds, { kind: "undelivered", cue, reason: "skipped" });
      return;
    }
    add(seconds, { kind: "announced", cue });
    const by = facts.kind === "baseline" ? "sight" : "sound";
    add(seconds, { kind: "delivered", cue, by, latenessMs: 0, problem: null });
    for (const { id } of present) {
      const before = working.get(id);
      const asBefore = before !== undefined && draw() < stays;
      working.set(id, asBefore ? before : draw() < chanceOf(odds.get(id) ?? 0));
    }
    const said = facts.kind === "baseline" ? observe : record;
    for (const { atSeconds, body } of said(facts, present, working, cue, draw)) {
      add(seconds + atSeconds, body);
    }
  });

  if (facts.interruption !== null) {
    add(facts.lengthSeconds, { kind: "interruption", note: facts.interruption });
  }
  add(facts.lengthSeconds, { kind: "ended", reason: "finished" });
  if (facts.note !== null) add(facts.lengthSeconds, { kind: "note", text: facts.note });
  if (facts.withWork) {
    for (const student of present) {
      add(facts.lengthSeconds, workOf(student.id, chanceOf(odds.get(student.id) ?? 0), draw));
    }
  }
  return events;
}

interface Said {
  readonly atSeconds: number;
  readonly body: SessionEventBody;
}
type Teller = (
  facts: SampleSessionFacts,
  present: readonly SampleStudent[],
  working: ReadonlyMap<string, boolean>,
  cue: number,
  draw: RandomStream,
) => Said[];

/** The teacher looks at each student; on some days a second adult does too. */
const observe: Teller = ({ secondObserver }, present, working, cue, draw) => {
  const observers = secondObserver ? ([1, 2] as const) : ([1] as const);
  return present.flatMap(({ id: studentId }, index) =>
    observers.map((observer) => ({
      atSeconds: 1 + index,
      body: {
        kind: "observed",
        studentId,
        cue,
        observer,
        value: sight(working.get(studentId) === true, draw),
      } as const,
    })),
  );
};

/** Students record themselves; the teacher checks a few of them. */
const record: Teller = ({ cues }, present, working, cue, draw) => {
  const said: Said[] = [];
  for (const { id: studentId, flatters } of present) {
    const works = working.get(studentId) === true;
    if (draw() < silentChance) continue;
    const value = works || draw() < flatters ? "on" : "off";
    const atSeconds = 2 + 8 * draw();
    said.push({
      atSeconds,
      body: { kind: "mark", studentId, cue, value, way: "screen", late: false },
    });
  }
  const checked = present[Math.floor(draw() * present.length)];
  if (checked !== undefined && draw() < checksPerSession / cues.length) {
    const value = sight(working.get(checked.id) === true, draw);
    said.push({ atSeconds: 3, body: { kind: "spot-check", studentId: checked.id, cue, value } });
  }
  return said.sort((a, b) => a.atSeconds - b.atSeconds);
};

function sight(works: boolean, draw: RandomStream): SeenValue {
  if (draw() < unseenChance) return "unseen";
  return works === draw() >= wrongSightChance ? "on" : "off";
}

function workOf(studentId: string, rate: number, draw: RandomStream): SessionEventBody {
  const assigned = 20;
  const completed = Math.round(assigned * Math.min(1, rate * (0.8 + 0.3 * draw())));
  const correct = Math.round(completed * (0.75 + 0.2 * draw()));
  return { kind: "work", studentId, assigned, completed, correct };
}

const chanceOf = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));

/** About normal, mean 0 and variance 1: twelve uniform draws added up, less six. */
function bellShaped(draw: RandomStream): number {
  let sum = -6;
  for (let index = 0; index < 12; index++) sum += draw();
  return sum;
}
