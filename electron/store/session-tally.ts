import type { MarkCounts } from "../../shared/record/counts.ts";
import type { MarkValue, SeenValue } from "../../shared/session/event.ts";

// The same reading of the log as shared/session/reduce.ts and shared/record/counts.ts, which a test
// holds together. Five years of a class are 300,000 marks: that many immutable states take seconds,
// this pass takes a tenth of one.

/**
 * A mark as one whole number: student * 16384 + cue * 8 + what was said, where that is 0 for taken
 * back, 1 on task, 2 off task, and 4 more when it was written on paper.
 */
export type PackedMark = number;
const paper = 4;
const codes = 8;
const cues = 2048;

/** An event that is not a mark; students by number. */
export interface OtherEvent {
  readonly kind: string;
  readonly student: number | null;
  readonly cue: number | null;
  readonly value: string | null;
  readonly detail: Readonly<Record<string, unknown>>;
  /** Of a total: how many marks of the session came before it. */
  readonly marksBefore: number;
}

/** What one session's log says, counted. Students by number. */
export interface SessionTally {
  readonly cuesDelivered: number;
  /** Of the students who marked or were set aside; null for who took no part. */
  readonly self: ReadonlyMap<number, MarkCounts | null>;
  /** Who recorded anything: a mark that stands or a total. */
  readonly recorded: ReadonlySet<number>;
  /** Of the students whom the first observer watched. */
  readonly observer: ReadonlyMap<number, MarkCounts>;
  readonly checks: readonly {
    readonly student: number;
    readonly cue: number;
    readonly said: MarkValue;
    readonly seen: SeenValue;
  }[];
  /** Looks outside any cue: a note of what the teacher saw, compared with nothing. */
  readonly freeLooks: readonly { readonly student: number; readonly seen: SeenValue }[];
  readonly observerPairs: readonly {
    readonly student: number;
    readonly cue: number;
    readonly first: SeenValue;
    readonly second: SeenValue;
  }[];
  readonly work: ReadonlyMap<number, Work>;
  /** What was noted and what interrupted, in the order of the log, one a line. */
  readonly note: string;
  /** Why the session is left out of every number; null while it counts. */
  readonly leftOutBecause: string | null;
}

interface Work {
  readonly assigned: number;
  readonly completed: number;
  readonly correct: number | null;
}

/** Counts one session from its events, both lists in the order of the log. */
export function tallySession(
  marks: readonly PackedMark[],
  others: readonly OtherEvent[],
): SessionTally {
  const { said, totals } = standingMarks(
    marks,
    others.filter(({ kind }) => kind === "total"),
  );
  const { delivered, everAside, away } = deliveredCues(others);
  const byStudent = countMarks(said, delivered);
  const self = new Map<number, MarkCounts | null>();
  for (const student of new Set([...byStudent.keys(), ...totals.keys(), ...everAside])) {
    const counts = selfCounts(student, byStudent.get(student), totals.get(student), delivered);
    const isAway = away.has(student) && counts?.on === 0 && counts.off === 0;
    self.set(student, isAway && !totals.has(student) ? null : counts);
  }
  const recorded = new Set([...byStudent.keys(), ...totals.keys()]);
  const observed = observations(others);
  return {
    cuesDelivered: delivered.size,
    self,
    recorded,
    observer: observerCounts(observed),
    checks: newestChecks(others).map(({ student, cue, value }) => ({
      student,
      cue,
      said: saidAt(said, student, cue),
      seen: value,
    })),
    freeLooks: freeLooks(others),
    observerPairs: pairs(observed),
    work: newestWork(others),
    note: others.flatMap(notedIn).join("\n"),
    leftOutBecause: leftOut(others),
  };
}

function leftOut(others: readonly OtherEvent[]): string | null {
  const last = others.findLast(({ kind }) => kind === "left-out" || kind === "taken-in");
  return last?.kind === "left-out" ? String(last.detail.reason) : null;
}

/** A note says something always, an interruption only when somebody wrote what it was. */
function notedIn({ kind, detail }: OtherEvent): string[] {
  const text = kind === "note" ? detail.text : kind === "interruption" ? detail.note : "";
  return typeof text === "string" && text.trim() !== "" ? [text] : [];
}

interface Total {
  readonly on: number;
  readonly off: number;
}

/**
 * The last word for each student and cue, under student * 2048 + cue, and the totals that stand: a
 * total replaces its student's earlier paper marks, and a later paper mark replaces the total.
 */
function standingMarks(marks: readonly PackedMark[], totalEvents: readonly OtherEvent[]) {
  const said = new Map<number, number>();
  const totals = new Map<number, Total>();
  let from = 0;
  for (const { student, marksBefore, detail } of totalEvents) {
    hear(marks.slice(from, marksBefore), said, totals);
    from = marksBefore;
    if (student === null) continue;
    forgetPaper(said, student);
    totals.set(student, { on: Number(detail.on), off: Number(detail.off) });
  }
  hear(from === 0 ? marks : marks.slice(from), said, totals);
  return { said, totals };
}

function hear(
  marks: readonly PackedMark[],
  said: Map<number, number>,
  totals: Map<number, Total>,
): void {
  for (const mark of marks) {
    const code = mark % codes;
    const key = (mark - code) / codes;
    said.set(key, code);
    if (code >= paper && totals.size > 0) totals.delete(Math.floor(key / cues));
  }
}

function forgetPaper(said: Map<number, number>, student: number): void {
  for (const [key, code] of said) {
    if (code >= paper && Math.floor(key / cues) === student) said.delete(key);
  }
}

const values: readonly MarkValue[] = ["none", "on", "off"];

function saidAt(said: ReadonlyMap<number, number>, student: number, cue: number): MarkValue {
  return values[(said.get(student * cues + cue) ?? 0) % paper] ?? "none";
}

/**
 * The cues whose first verdict was delivered, with who was set aside then; who ever was; and who was set
 * aside after the end, which says that they were away.
 */
function deliveredCues(others: readonly OtherEvent[]) {
  const settled = new Set<number>();
  const delivered = new Map<number, ReadonlySet<number>>();
  const everAside = new Set<number>();
  const away = new Set<number>();
  let aside: ReadonlySet<number> = new Set();
  let isOver = false;
  for (const { kind, student, cue } of others) {
    if (kind === "ended") isOver = true;
    if (kind === "set-aside" && student !== null) {
      aside = new Set([...aside, student]);
      everAside.add(student);
      if (isOver) away.add(student);
    }
    if (kind === "back" && student !== null) {
      aside = new Set([...aside].filter((each) => each !== student));
      away.delete(student);
    }
    if (kind !== "delivered" && kind !== "undelivered") continue;
    if (cue === null || settled.has(cue)) continue;
    settled.add(cue);
    if (kind === "delivered") delivered.set(cue, aside);
  }
  return { delivered, everAside, away };
}

interface Marked {
  on: number;
  off: number;
  /** Delivered cues at which the student said something. */
  readonly at: Set<number> | null;
}

function countMarks(
  said: ReadonlyMap<number, number>,
  delivered: ReadonlyMap<number, ReadonlySet<number>>,
): Map<number, Marked> {
  const someoneAside = [...delivered.values()].some((aside) => aside.size > 0);
  const byStudent = new Map<number, Marked>();
  for (const [key, code] of said) {
    const cue = key % cues;
    if (code % paper === 0 || !delivered.has(cue)) continue;
    const student = (key - cue) / cues;
    let marked = byStudent.get(student);
    if (marked === undefined) {
      marked = { on: 0, off: 0, at: someoneAside ? new Set() : null };
      byStudent.set(student, marked);
    }
    if (code % paper === 1) marked.on++;
    else marked.off++;
    marked.at?.add(cue);
  }
  return byStudent;
}

function selfCounts(
  student: number,
  marked: Marked | undefined,
  total: Total | undefined,
  delivered: ReadonlyMap<number, ReadonlySet<number>>,
): MarkCounts | null {
  const { on, off } = marked ?? { on: 0, off: 0 };
  let excused = 0;
  for (const [cue, aside] of delivered) {
    if (aside.has(student) && !marked?.at?.has(cue)) excused++;
  }
  const missing = delivered.size - excused - on - off;
  if (total !== undefined) {
    return { ...total, missing: Math.max(0, delivered.size - excused - total.on - total.off) };
  }
  return on + off + missing === 0 && delivered.size > 0 ? null : { on, off, missing };
}

function newestChecks(others: readonly OtherEvent[]) {
  const checks = new Map<string, { student: number; cue: number; value: SeenValue }>();
  for (const { kind, student, cue, value } of others) {
    if (kind !== "spot-check" || student === null || cue === null) continue;
    checks.set(`${student}/${cue}`, { student, cue, value: seen(value) });
  }
  return [...checks.values()];
}

/** Looks outside any cue; one that says nothing was seen takes back its student's newest. */
function freeLooks(others: readonly OtherEvent[]) {
  const looks: { student: number; seen: SeenValue }[] = [];
  for (const { kind, student, cue, value } of others) {
    if (kind !== "spot-check" || student === null || cue !== null) continue;
    if (seen(value) !== "unseen") looks.push({ student, seen: seen(value) });
    else {
      const newest = looks.findLastIndex((look) => look.student === student);
      if (newest !== -1) looks.splice(newest, 1);
    }
  }
  return looks;
}

interface Observed {
  readonly student: number;
  readonly cue: number;
  first: SeenValue | null;
  second: SeenValue | null;
}

/** The newest word of each observer for each student and cue. */
function observations(others: readonly OtherEvent[]): Observed[] {
  const observed = new Map<string, Observed>();
  for (const { kind, student, cue, value, detail } of others) {
    if (kind !== "observed" || student === null || cue === null) continue;
    const key = `${student}/${cue}`;
    const both = observed.get(key) ?? { student, cue, first: null, second: null };
    both[detail.observer === 1 ? "first" : "second"] = seen(value);
    observed.set(key, both);
  }
  return [...observed.values()];
}

function observerCounts(observed: readonly Observed[]): Map<number, MarkCounts> {
  const counts = new Map<number, { on: number; off: number; missing: number }>();
  for (const { student, first } of observed) {
    if (first === null) continue;
    const count = counts.get(student) ?? { on: 0, off: 0, missing: 0 };
    count[first === "unseen" ? "missing" : first]++;
    counts.set(student, count);
  }
  return counts;
}

function pairs(observed: readonly Observed[]): SessionTally["observerPairs"] {
  return observed.flatMap(({ student, cue, first, second }) =>
    first === null || second === null ? [] : [{ student, cue, first, second }],
  );
}

function newestWork(others: readonly OtherEvent[]): Map<number, Work> {
  const work = new Map<number, Work>();
  for (const { kind, student, detail } of others) {
    if (kind !== "work" || student === null) continue;
    const { assigned, completed, correct } = detail;
    work.set(student, {
      assigned: Number(assigned),
      completed: Number(completed),
      correct: correct === null ? null : Number(correct),
    });
  }
  return work;
}

function seen(value: string | null): SeenValue {
  return value === "on" || value === "off" ? value : "unseen";
}
