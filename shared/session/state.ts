import type {
  DeliveredBy,
  MarkValue,
  MarkWay,
  SeenValue,
  SessionEvent,
  UndeliveredReason,
} from "./event.ts";

type BodyOf<Kind extends SessionEvent["body"]["kind"]> = Extract<
  SessionEvent["body"],
  { readonly kind: Kind }
>;

/** What became of a planned cue; one that nothing was heard of yet has no record. */
export type CueRecord =
  | { readonly standing: "announced" }
  | {
      readonly standing: "delivered";
      /** Number of the event that said so. */
      readonly seq: number;
      /** Session time at which the delivery was written, in ms. */
      readonly atMs: number;
      readonly by: DeliveredBy;
      readonly latenessMs: number | null;
      readonly problem: string | null;
      /** Students set aside when the cue came: no mark is expected of them. */
      readonly aside: ReadonlySet<string>;
    }
  | {
      readonly standing: "undelivered";
      readonly reason: UndeliveredReason;
      readonly problem: string | null;
      /** Session time at which the verdict was written, in ms. */
      readonly atMs: number;
      /** Students set aside then. */
      readonly aside: ReadonlySet<string>;
    };

/** The newest word on one student at one cue; `none` remembers that a mark was taken back. */
export interface MarkRecord {
  readonly seq: number;
  readonly value: MarkValue;
  readonly way: MarkWay;
  readonly late: boolean;
}

/** A card entered as totals only. */
export interface TotalRecord {
  readonly seq: number;
  readonly on: number;
  readonly off: number;
  readonly way: MarkWay;
}

export interface SpotCheckRecord {
  readonly seq: number;
  readonly studentId: string;
  readonly cue: number | null;
  readonly value: SeenValue;
  /** Answered after the next cue had come. */
  readonly late: boolean;
}

export interface ObservedRecord {
  readonly seq: number;
  readonly studentId: string;
  readonly cue: number;
  readonly observer: 1 | 2;
  readonly value: SeenValue;
}

/** An adult's press; `undone` once it was taken back. */
export interface PressRecord {
  readonly seq: number;
  readonly kind: "given" | "taken";
  readonly studentId: string;
  readonly amount: number;
  readonly press: string;
  readonly wallMs: number;
  /** Session time, in ms. */
  readonly atMs: number;
  readonly undone: boolean;
}

/** How long a student has been set aside, and since when if they are now; session time in ms. */
export interface AsideTime {
  readonly ms: number;
  readonly sinceMs: number | null;
}

export type SessionStatus = "ready" | "running" | "paused" | "ended";

/** All that one session's log says, folded up to its newest event. */
export interface SessionState {
  readonly status: SessionStatus;
  readonly lastSeq: number;
  /** Session time of the newest event, in ms. */
  readonly atMs: number;
  /** The class's cues; none where each student has cues of their own. */
  readonly cues: ReadonlyMap<number, CueRecord>;
  /** The newest cue of the class that was delivered: the one that students are recording. */
  readonly openCue: number | null;
  /** Whether each student has cues of their own. Of one student, ask `cuesOf` and `openCueOf`. */
  readonly isOwn: boolean;
  /** Each student's own cues, by student and own number. */
  readonly ownCues: ReadonlyMap<string, ReadonlyMap<number, CueRecord>>;
  /** Each student's own newest cue that was delivered. */
  readonly ownOpen: ReadonlyMap<string, number>;
  /** Students with own cues whose desk an adult touches. */
  readonly byTouch: ReadonlySet<string>;
  /** By student, then by cue. */
  readonly marks: ReadonlyMap<string, ReadonlyMap<number, MarkRecord>>;
  readonly totals: ReadonlyMap<string, TotalRecord>;
  /** By student and cue: the marks that no longer stand, in the order of the log. */
  readonly earlierMarks: ReadonlyMap<string, ReadonlyMap<number, readonly MarkRecord[]>>;
  /** On-task marks counted at a glance; they give way to marks and totals. */
  readonly pluses: ReadonlyMap<string, number>;
  readonly presses: readonly PressRecord[];
  /** Students from whom nothing more is taken today. */
  readonly pointsStopped: ReadonlySet<string>;
  readonly asideTime: ReadonlyMap<string, AsideTime>;
  /** Session time at the end, in ms; null while the session is open. */
  readonly endedAtMs: number | null;
  /** How many marks and totals of a student were replaced by later ones. */
  readonly corrections: ReadonlyMap<string, number>;
  /** Own goals as on-task shares; who has none has the plan's. */
  readonly ownGoals: ReadonlyMap<string, number>;
  readonly setAside: ReadonlySet<string>;
  /** Those of them who were set aside after the end: they were not there, their cards stay empty. */
  readonly away: ReadonlySet<string>;
  /** By student: the cues that reached the class and not the student's own device. */
  readonly unreached: ReadonlyMap<string, ReadonlySet<number>>;
  /** The cues at which a student said that they were away, and left no mark after it. */
  readonly saidAway: ReadonlyMap<string, ReadonlySet<number>>;
  /** In the order of the log; a look outside any cue that was taken back is not among them. */
  readonly spotChecks: readonly SpotCheckRecord[];
  /** The newest of each observer for each student and cue, under `observedKey`. */
  readonly observed: ReadonlyMap<string, ObservedRecord>;
  readonly work: ReadonlyMap<string, BodyOf<"work">>;
  /** What was noted, and the words of interruptions, in the order of the log. */
  readonly notes: readonly string[];
  readonly interruptions: readonly { readonly atMs: number; readonly note: string }[];
  /** How many damaged entries are passed over. */
  readonly passedOver: number;
  readonly pauseReason: BodyOf<"paused">["reason"] | null;
  readonly endReason: BodyOf<"ended">["reason"] | null;
  /** Why the session is left out of every number; null while it counts. */
  readonly leftOutBecause: string | null;
  /** Whether it is left out because it was a trial. */
  readonly isTrial: boolean;
}

/** A session of which nothing is known yet. */
export const emptySession: SessionState = {
  status: "ready",
  lastSeq: 0,
  atMs: 0,
  cues: new Map(),
  openCue: null,
  isOwn: false,
  ownCues: new Map(),
  ownOpen: new Map(),
  byTouch: new Set(),
  marks: new Map(),
  totals: new Map(),
  earlierMarks: new Map(),
  pluses: new Map(),
  presses: [],
  pointsStopped: new Set(),
  asideTime: new Map(),
  endedAtMs: null,
  corrections: new Map(),
  ownGoals: new Map(),
  setAside: new Set(),
  unreached: new Map(),
  away: new Set(),
  saidAway: new Map(),
  spotChecks: [],
  observed: new Map(),
  work: new Map(),
  notes: [],
  interruptions: [],
  passedOver: 0,
  pauseReason: null,
  endReason: null,
  leftOutBecause: null,
  isTrial: false,
};

const noCues: ReadonlyMap<number, CueRecord> = new Map();

/** The cues that a student is to record: their own, or the class's. */
export function cuesOf(state: SessionState, studentId: string): ReadonlyMap<number, CueRecord> {
  return state.isOwn ? (state.ownCues.get(studentId) ?? noCues) : state.cues;
}

/** The cue that a student is recording: the newest of theirs that was delivered. */
export function openCueOf(state: SessionState, studentId: string): number | null {
  return state.isOwn ? (state.ownOpen.get(studentId) ?? null) : state.openCue;
}

/** Whether a mark of a student is waited for at a cue: it was given, they were there, and their device showed it. */
export function isAsked(state: SessionState, studentId: string, cue: number): boolean {
  const record = cuesOf(state, studentId).get(cue);
  if (record?.standing !== "delivered" || record.aside.has(studentId)) return false;
  return state.unreached.get(studentId)?.has(cue) !== true;
}

/** Why a cue of a student's own is in doubt: nothing was heard of the device, which may have shown it. */
const unheard: readonly UndeliveredReason[] = ["no-report", "seat-asleep", "seat-absent"];

/** Whether a student's own cue may have been shown though no report came: an answer would say so. */
export const mayHaveShown = (record: CueRecord): boolean =>
  record.standing === "undelivered" && unheard.includes(record.reason);

/**
 * Whether a cue came through to a student. One of the class was delivered; one of their own too, or a mark
 * that stands says that it was shown, whatever was heard of the device.
 */
export function cameThrough(state: SessionState, studentId: string, cue: number): boolean {
  const record = cuesOf(state, studentId).get(cue);
  if (record?.standing === "delivered") return true;
  if (!state.isOwn || record === undefined || !mayHaveShown(record)) return false;
  return (state.marks.get(studentId)?.get(cue)?.value ?? "none") !== "none";
}

/** Under which key `observed` keeps one observer's word on one student at one cue. */
export const observedKey = (studentId: string, cue: number, observer: 1 | 2): string =>
  `${studentId}/${cue}/${observer}`;

/** The numbers of the class's delivered cues, in the order of the schedule. */
export const deliveredCues = ({ cues }: SessionState): number[] => inOrder(cues, "delivered");

/** The numbers of the cues that came through to a student, in the order of the schedule. */
export function deliveredCuesOf(state: SessionState, studentId: string): number[] {
  if (!state.isOwn) return deliveredCues(state);
  const numbers = [...cuesOf(state, studentId).keys()];
  return numbers
    .filter((cue) => cameThrough(state, studentId, cue))
    .sort((first, second) => first - second);
}

/** How many cues were delivered; where students have own cues, those of all of them together. */
export function deliveredCount(state: SessionState): number {
  let count = 0;
  for (const cues of state.isOwn ? state.ownCues.values() : [state.cues]) {
    for (const { standing } of cues.values()) if (standing === "delivered") count++;
  }
  return count;
}

/**
 * Why the newest cue that is settled was not heard as it should have been: what its window said, or null
 * when nothing went wrong with it or no cue is settled yet.
 */
export function newestSoundProblem({ cues }: SessionState): string | null {
  const settled = [...cues].filter(([, { standing }]) => standing !== "announced");
  const newest = cues.get(Math.max(...settled.map(([cue]) => cue)));
  if (newest?.standing === "delivered") return newest.problem;
  if (newest?.standing !== "undelivered" || newest.reason !== "sound-failed") return null;
  return newest.problem ?? newest.reason;
}

/** The cues of the class of which a window was told and that nobody has reported on yet. */
export const unconfirmedCues = ({ cues }: SessionState): number[] => inOrder(cues, "announced");

/** A cue and whose own it is; null when it is the class's. */
export interface CueRef {
  readonly studentId: string | null;
  readonly cue: number;
}

/** All cues that were announced and have no verdict yet, the class's or students' own. */
export function unsettledCues(state: SessionState): CueRef[] {
  const ofClass = unconfirmedCues(state).map((cue): CueRef => ({ studentId: null, cue }));
  const own = [...state.ownCues].flatMap(([studentId, cues]) =>
    inOrder(cues, "announced").map((cue): CueRef => ({ studentId, cue })),
  );
  return [...ofClass, ...own];
}

function inOrder(cues: ReadonlyMap<number, CueRecord>, wanted: CueRecord["standing"]): number[] {
  const numbers: number[] = [];
  for (const [cue, { standing }] of cues) if (standing === wanted) numbers.push(cue);
  return numbers.sort((first, second) => first - second);
}
